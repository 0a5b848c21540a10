//! What a card and a point are read within: the rounds and marks of their procedure, and the bounds that both keep.

use std::cell::Cell;

use slingseal_catalogue::files as words;
use slingseal_words::{Part, Saying};

use super::shape::{Mark, PointShape, Round};
use super::table::Table;

pub(super) const SENTENCE: usize = 220;
pub(super) const OPTION: usize = 40;

/// A point that is written once at the top and used by cards.
pub(super) struct Shared<'f> {
    pub(super) table: Table<'f>,
    pub(super) shape: PointShape,
    pub(super) used: Cell<bool>,
}

/// What stands around the thing that is being read.
pub(super) struct Around<'a, 'f> {
    pub(super) rounds: &'a [Round],
    pub(super) used_rounds: &'a [Cell<bool>],
    pub(super) shared: &'a [Shared<'f>],
    pub(super) mark: Option<&'a Mark>,
}

pub(super) fn bounded(part: &Part<'_>, key: &'static str, least: i64, most: i64) -> Option<u32> {
    let number = part.integer(key)?;
    if !(least..=most).contains(&number) {
        part.fault(
            key,
            words::OutOfRange { key, value: number },
            words::WriteLeastToMost { least: &least, most: &most },
        );
    }
    u32::try_from(number.clamp(least, most)).ok()
}

/// Which round `each` names, by its place.
pub(super) fn read_each(part: &Part<'_>, around: &Around<'_, '_>) -> Option<usize> {
    let name = part.text("each")?;
    let at = around.rounds.iter().position(|round| round.name == name);
    if at.is_none() {
        let known: Vec<&str> = around.rounds.iter().map(|round| round.name.as_str()).collect();
        let mend: Saying = match known.is_empty() {
            true => words::AddRoundNamed { name: &name }.into(),
            false => words::KnownAre { known: known.join(", ") }.into(),
        };
        part.fault("each", words::NoRoundCalled { name: &name }, mend);
    }
    at
}
