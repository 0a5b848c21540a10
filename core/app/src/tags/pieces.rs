//! Pieces of gear that an inspection rejected: what their next load is told.

use slingseal_catalogue::refusals as words;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::account::piece_state;
use crate::walks::entries::id_text;
use crate::{AppError, Inner};
use slingseal_journal::WalkId;
use slingseal_judgement::{PieceState, pieces_of, same_serial};
use slingseal_message::tag::Tag;
use slingseal_walk::procedure::Subject;
use slingseal_walk::walk::{Outcome, Stage, TagFault, Walk};
use slingseal_words::{Serial, Time};

/// The setting that keeps the list.
pub(crate) const REJECTED: &str = "rejected-pieces";

/// One rejected piece, under its serial number and the inspection that rejected it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Rejected {
    serial: String,
    why: String,
    /// Seconds of the Unix epoch.
    at: i64,
    /// The inspection that rejected it.
    walk: String,
}

impl Inner {
    fn rejected(&self) -> Result<BTreeMap<String, Rejected>, AppError> {
        let Some(bytes) = self.store.read().setting(REJECTED)? else { return Ok(BTreeMap::new()) };
        serde_json::from_slice(&bytes).map_err(|error| AppError::StorageDamaged {
            message: words::ListOfRejectedDamaged { error: error.to_string() }.into(),
        })
    }

    /// The pieces on a tag that are out of service or overdue, by the signed inspections that are kept here and by what was walked
    /// on this device and not signed.
    pub(crate) fn rejected_on(&self, tag: &Tag) -> Result<Vec<TagFault>, AppError> {
        let (rejected, now, read) = (self.rejected()?, self.now(), self.store.read());
        let mut trusted = self.trusted()?;
        let mut faults = Vec::new();
        for (kind, serial) in pieces_of(tag) {
            let state = piece_state(&read, &serial, &mut trusted)?;
            let found_fit = match &state {
                Some(PieceState::Fit { at, .. }) => Some(*at),
                _ => None,
            };
            match state {
                Some(PieceState::Withdrawn { at, why, .. }) => {
                    faults.push(TagFault::Rejected { serial: serial.clone(), why, at });
                }
                Some(PieceState::Fit { until: Some(due), .. }) if due < now => {
                    let serial = serial.clone();
                    faults.push(TagFault::InspectionPast { serial, kind, due });
                }
                _ => {}
            }
            for one in rejected.values().filter(|one| same_serial(&one.serial, serial.as_str())) {
                let at = Time::from_unix(one.at);
                // Whoever found it fit later has seen it later.
                if found_fit.is_none_or(|fit| fit < at) && !names(&faults, &serial) {
                    faults.push(TagFault::Rejected { serial: serial.clone(), why: one.why.clone(), at });
                }
            }
        }
        for fault in self.overdue_on(tag)? {
            if let TagFault::InspectionPast { serial, .. } = &fault
                && !names(&faults, serial)
                && !matches!(piece_state(&read, serial, &mut trusted)?, Some(PieceState::Fit { .. }))
            {
                faults.push(fault);
            }
        }
        Ok(faults)
    }

    /// The list as this walk leaves it, where it changes: what the walk found and did not take back.
    pub(crate) fn rejected_since(&self, id: WalkId, walk: &Walk) -> Result<Option<Vec<u8>>, AppError> {
        let before = self.rejected()?;
        let own = id_text(id);
        let mut list = before.clone();
        list.retain(|_, piece| piece.walk != own);
        for (serial, finding) in walk.rejected_pieces() {
            let piece = Rejected {
                serial: serial.to_string(),
                why: finding.name.clone(),
                at: finding.found.unix(),
                walk: own.clone(),
            };
            list.insert(format!("{} {own}", serial.as_str().to_ascii_uppercase()), piece);
        }
        // A piece that was inspected by its own list and found fit is back in service.
        let piece = walk.ground().plan.subject == Subject::Piece;
        if piece && matches!(walk.stage(), Stage::Decided { outcome: Outcome::Fit, .. }) {
            let name = walk.ground().facts.load.to_string();
            list.retain(|_, one| !same_serial(&one.serial, &name));
        }
        if list == before {
            return Ok(None);
        }
        serde_json::to_vec(&list).map(Some).map_err(AppError::internal)
    }
}

/// Whether a fault of this piece is told already.
fn names(faults: &[TagFault], wanted: &Serial) -> bool {
    faults.iter().any(|fault| match fault {
        TagFault::Rejected { serial, .. } | TagFault::InspectionPast { serial, .. } => {
            same_serial(serial.as_str(), wanted.as_str())
        }
        _ => false,
    })
}
