//! Pieces of gear that an inspection rejected: what their next load is told.

use slingseal_catalogue::refusals as words;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::walks::id_text;
use crate::{AppError, Inner};
use slingseal_journal::WalkId;
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

    /// The pieces on a tag that an inspection on this device rejected and none has found fit since.
    pub(crate) fn rejected_on(&self, tag: &Tag) -> Result<Vec<TagFault>, AppError> {
        let rejected = self.rejected()?;
        let on_tag = |one: &&Rejected| {
            tag.equipment.iter().any(|piece| piece.serial.as_str().eq_ignore_ascii_case(&one.serial))
        };
        let overdue = self.overdue_on(tag)?;
        let rejected = rejected.values().filter(on_tag);
        rejected
            .map(|piece| {
                let (serial, why) = (Serial::new(&piece.serial)?, piece.why.clone());
                Ok(TagFault::Rejected { serial, why, at: Time::from_unix(piece.at) })
            })
            .chain(overdue.into_iter().map(Ok))
            .collect()
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
            list.retain(|_, one| !one.serial.eq_ignore_ascii_case(&name));
        }
        if list == before {
            return Ok(None);
        }
        serde_json::to_vec(&list).map(Some).map_err(AppError::internal)
    }
}
