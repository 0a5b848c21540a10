use serde::Serialize;
use slingseal_catalogue::refusals as words;

use super::ListRequest;
use crate::account::piece_state;
use slingseal_judgement::PieceState;
use slingseal_words::Serial;

use crate::{App, AppError, EquipmentView, Inner, RecordLine, Stamp};

/// A piece of equipment in the list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PieceLine {
    /// Its serial number.
    pub serial: String,
    /// What it is.
    pub kind: String,
    /// On how many inspected loads.
    pub records: u64,
    /// When a load with it was last sealed.
    pub last: Stamp,
}

/// Where one piece was used.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PieceView {
    /// Its serial number.
    pub serial: String,
    /// As the newest tag tells it: rating with source, next inspection. Several where kinds share the number.
    pub newest: Vec<EquipmentView>,
    /// The inspections of loads that it was on, the last first.
    pub uses: Vec<RecordLine>,
    /// Where the next page begins.
    pub next: Option<String>,
    /// How it stands by the signed inspections of it that are kept here; none where none counts.
    pub standing: Option<PieceStanding>,
}

/// How a piece of gear stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PieceStanding {
    /// Out of service, until an inspector finds it fit.
    pub withdrawn: bool,
    /// When the inspection that says so was signed.
    pub at: Stamp,
    /// Until when it is fit, where that was said.
    pub until: Option<Stamp>,
    /// What was found, where it is withdrawn.
    pub why: Option<String>,
    /// Who withdrew it, where it is withdrawn.
    pub by: Option<String>,
}

impl App {
    /// Equipment by serial number, from `from` on: a page of at most `most`.
    ///
    /// # Errors
    /// Storage.
    pub fn equipment(&self, from: &str, most: u32) -> Result<Vec<PieceLine>, AppError> {
        let rows = self.lock().store.read().equipment_uses(from, most)?;
        Ok(rows
            .into_iter()
            .map(|row| PieceLine {
                serial: row.serial,
                kind: row.kind,
                records: row.records,
                last: row.last.into(),
            })
            .collect())
    }

    /// Where a piece was used.
    ///
    /// # Errors
    /// No record names it; storage.
    pub fn piece(&self, serial: &str, after: Option<String>) -> Result<PieceView, AppError> {
        let request =
            ListRequest { serial: Some(serial.to_owned()), after, most: 50, ..ListRequest::default() };
        let page = self.list(&request)?;
        let inner = self.lock();
        let newest = page.lines.iter().find(|line| line.whole);
        let newest = newest.map(|line| inner.pieces_of(&line.seal, serial)).transpose()?.unwrap_or_default();
        let standing = match Serial::new(serial) {
            Ok(serial) => piece_state(&inner.store.read(), &serial, &mut inner.trusted()?)?.map(standing_of),
            Err(_) => None,
        };
        if page.lines.is_empty() && request.after.is_none() && standing.is_none() {
            return Err(AppError::not_found(words::RecordNamesEquipmentSerialNumber { serial: &serial }));
        }
        Ok(PieceView { serial: serial.to_owned(), newest, uses: page.lines, next: page.next, standing })
    }
}

fn standing_of(state: PieceState) -> PieceStanding {
    match state {
        PieceState::Fit { at, until, .. } => PieceStanding {
            withdrawn: false,
            at: at.into(),
            until: until.map(Stamp::from),
            why: None,
            by: None,
        },
        PieceState::Withdrawn { at, why, by } => PieceStanding {
            withdrawn: true,
            at: at.into(),
            until: None,
            why: Some(why),
            by: Some(by.to_string()),
        },
    }
}

impl Inner {
    fn pieces_of(&self, record: &str, serial: &str) -> Result<Vec<EquipmentView>, AppError> {
        let tag = self.record_view(&self.record_row(record)?)?.tag;
        let pieces = tag.map(|tag| tag.equipment).unwrap_or_default();
        Ok(pieces.into_iter().filter(|piece| piece.serial == serial).collect())
    }
}
