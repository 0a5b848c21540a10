use std::collections::BTreeMap;

use serde::Serialize;
use slingseal_catalogue::{Saying, closing, refusals as words};
use slingseal_message::movement::MovementKind;

use super::board_line::pounds;
use super::{ListRequest, PieceLifeView};
use crate::account::{open_inspection, piece_state};
use slingseal_judgement::PieceState;
use slingseal_words::{LoadNumber, Serial, Time};

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
    /// Its life: where it is, how often it flew; none where nothing but its uses is known. Of each kind that bears the number.
    pub lives: Vec<PieceLifeView>,
    /// What was found on it, put right, reported of it, the first first: its own inspections, and what became of the loads listed.
    pub moments: Vec<PieceMoment>,
}

/// Something that is known of a piece.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PieceMoment {
    /// When.
    pub at: Stamp,
    /// What, in one line.
    pub what: String,
    /// The load, where it was on one.
    pub load: Option<String>,
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
        let language = inner.language();
        let lives = inner
            .piece_lives()?
            .iter()
            .filter(|life| life.has_serial(serial))
            .map(|life| life.view(language))
            .collect();
        let moments = inner.piece_moments(serial, &page.lines)?;
        let (serial, next) = (serial.to_owned(), page.next);
        Ok(PieceView { serial, newest, uses: page.lines, next, standing, lives, moments })
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
    /// What its own inspections found, and what was reported of it with the loads of these records.
    fn piece_moments(&self, serial: &str, uses: &[RecordLine]) -> Result<Vec<PieceMoment>, AppError> {
        let (read, language) = (self.store.read(), self.language());
        let mut moments = Vec::new();
        let mut trusted = self.trusted()?;
        for row in read.inspections_of_piece(&serial.to_ascii_uppercase())? {
            let Ok(word) = open_inspection(&row.bytes, &mut trusted) else { continue };
            let (Some(signer), said) = (word.counts(), word.inspection()) else { continue };
            let (by, found) = (signer.credential.holder.to_string(), i64::from(said.found));
            let corrected = i64::from(said.corrected);
            let what: Saying = match (&said.why, said.fit_until) {
                (Some(why), _) => closing::PieceMomentWithdrawn { by, why: why.to_string() }.into(),
                (None, Some(until)) => {
                    closing::PieceMomentFitUntil { until: until.dtg(), by, found, corrected }.into()
                }
                (None, None) => closing::PieceMomentFoundFit { by, found, corrected }.into(),
            };
            moments.push((
                said.issued,
                PieceMoment { at: said.issued.into(), what: what.say(language), load: None },
            ));
        }
        let loads: BTreeMap<&str, &RecordLine> =
            uses.iter().rev().map(|one| (one.load.as_str(), one)).collect();
        for (load, record) in loads {
            let mass = pounds(self.record_row(&record.seal)?.mass_g);
            for report in self.movements(&LoadNumber::new(load)?)? {
                let piece = report.pieces.iter().find(|one| one.serial.eq_ignore_ascii_case(serial));
                let by = report.origin.as_str();
                let what: Saying = match (piece.map(|piece| (piece.back, piece.damaged)), report.event) {
                    (Some((true, true)), _) => closing::PieceMomentBackDamaged { load, by }.into(),
                    (Some((true, false)), _) => closing::PieceMomentBack { load, by }.into(),
                    (Some(_), _) => closing::PieceMomentDamaged { load, by }.into(),
                    (None, MovementKind::Lifted) => {
                        closing::PieceMomentLifted { load, mass: mass.as_str() }.into()
                    }
                    (None, MovementKind::Lost) => closing::PieceMomentLost { load }.into(),
                    (
                        None,
                        MovementKind::Refused
                        | MovementKind::SetDown
                        | MovementKind::Derigged
                        | MovementKind::Returned,
                    ) => continue,
                };
                let (at, load) = (Time::from_unix(report.at.unix), Some(load.to_owned()));
                moments.push((at, PieceMoment { at: at.into(), what: what.say(language), load }));
            }
        }
        moments.sort_by(|one, other| (one.0, &one.1.what).cmp(&(other.0, &other.1.what)));
        Ok(moments.into_iter().map(|(_, moment)| moment).collect())
    }

    fn pieces_of(&self, record: &str, serial: &str) -> Result<Vec<EquipmentView>, AppError> {
        let tag = self.record_view(&self.record_row(record)?)?.tag;
        let pieces = tag.map(|tag| tag.equipment).unwrap_or_default();
        Ok(pieces.into_iter().filter(|piece| piece.serial == serial).collect())
    }
}
