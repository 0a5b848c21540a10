//! A full record that comes in, folded and held against the seal that names it.

use std::sync::Arc;

use slingseal_account::sync::{Unfit, examine_body};
use slingseal_catalogue::faults as fault_words;
use slingseal_message::seal::Seal;
use slingseal_message::tag::Tag;
use slingseal_store::{DeficiencyRow, EquipmentRow, WalkFactsRow};
use slingseal_walk::procedure::Expanded;
use slingseal_walk::walk::Walk;
use slingseal_words::Digest;

use crate::AppError;
use crate::walks::record::{deficiencies, entry_digest, equipment, walk_facts, walk_from};

/// A full record that says what its seal says, folded: what is kept of it.
#[derive(Debug)]
pub(crate) struct Full {
    pub(crate) tag: Tag,
    pub(crate) tag_digest: Digest,
    pub(crate) device: [u8; 16],
    /// The end of its device's journal.
    pub(crate) head: (u64, Digest),
    pub(crate) procedure: Digest,
    pub(crate) photos: Vec<Digest>,
    pub(crate) facts: WalkFactsRow,
    pub(crate) deficiencies: Vec<DeficiencyRow>,
    pub(crate) equipment: Vec<EquipmentRow>,
}

impl Full {
    /// Folds a full record and holds it against its seal, whose own digest is `own`.
    ///
    /// # Errors
    /// The bytes are not what was sealed, or no record, or its walk is none; whatever `plan` says of the procedure.
    pub(crate) fn of(
        seal: &Seal,
        own: Digest,
        bytes: &[u8],
        plan: impl FnOnce(&Digest) -> Result<Arc<Expanded>, AppError>,
    ) -> Result<Self, AppError> {
        let record =
            examine_body(seal, bytes, &entry_digest).map_err(|unfit| AppError::refused(unfit.to_string()))?;
        // Whatever is wrong inside a record is the record's fault, and no damage of this home.
        let (walk, tag) = walk_from(&record, plan(&record.procedure_digest)?).map_err(AppError::bad_input)?;
        agrees(seal, &walk, &tag).map_err(|unfit| AppError::refused(unfit.to_string()))?;
        Ok(Self {
            tag_digest: Digest::of(&record.tag),
            device: record.device,
            head: record.head,
            procedure: record.procedure_digest,
            facts: walk_facts(own, &record, &walk),
            deficiencies: deficiencies(&walk),
            equipment: equipment(&tag),
            photos: record.photos,
            tag,
        })
    }
}

/// Whether a walk and its tag tell the load, the mass and the counts that the seal tells. Beside what [`examine_body`] holds.
///
/// # Errors
/// The first thing in which they differ.
pub(crate) fn agrees(seal: &Seal, walk: &Walk, tag: &Tag) -> Result<(), Unfit> {
    let tally = walk.tally();
    let told = [
        (tag.load == seal.load, fault_words::PartLoad.saying()),
        (tag.gross == seal.mass, fault_words::PartMass.saying()),
        (tally.found == usize::from(seal.found), fault_words::PartFound.saying()),
        (tally.corrected == usize::from(seal.corrected), fault_words::PartCorrected.saying()),
    ];
    match told.into_iter().find(|(same, _)| !same) {
        Some((_, about)) => Err(Unfit::Disagree { load: seal.load.to_string(), about }),
        None => Ok(()),
    }
}
