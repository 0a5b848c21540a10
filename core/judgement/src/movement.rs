#[cfg(test)]
mod tests;

use slingseal_message::movement::{Movement, MovementEvent};
use slingseal_message::seal::Seal;
use slingseal_words::CallSign;

use super::CLOCK_SLACK;
use super::facts::Fact;
use super::known::Known;
use super::reason::Reason;
use super::word::{Author, LoadWord};

/// What a movement report is worth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReportWeight<'w> {
    /// It counts: somebody with a credential that had not run out signed it, or this device wrote it itself.
    Counts {
        /// Who signed it; none where this device wrote it for nobody.
        by: Option<&'w CallSign>,
    },
    /// It is shown and counts for nothing: nobody signed it, or somebody who is not known here or had no right to any more.
    Hint,
    /// It is forged.
    Nothing,
}

impl LoadWord {
    /// What it is worth as a movement report; none where it is another word.
    pub fn weight(&self) -> Option<ReportWeight<'_>> {
        self.movement()?;
        Some(match (self.author(), self.in_time()) {
            (Author::ThisDevice, _) => ReportWeight::Counts { by: None },
            (Author::Known(_), Some(signer)) => ReportWeight::Counts { by: Some(&signer.credential.holder) },
            (Author::Known(_), None) | (Author::Nobody | Author::Unknown, _) => ReportWeight::Hint,
            (Author::Refused(_), _) => ReportWeight::Nothing,
        })
    }
}

/// Whether what a report tells happened to the load as the seal has it: the report names the seal, or it happened after the
/// inspection. Two clocks within their slack do not say which came first: it is then taken to have happened after.
pub(super) fn is_after(word: &LoadWord, movement: &Movement, sealed: &LoadWord, seal: &Seal) -> bool {
    let key = |word: &LoadWord| word.signer().map(|signer| signer.credential.key);
    let one_clock = key(word).is_some() && key(word) == key(sealed);
    let after = movement.at().since(seal.issued);
    movement.seal == Some(sealed.digest()) || if one_clock { after.0 >= 0 } else { after.0 >= -CLOCK_SLACK.0 }
}

/// The order in which events are told.
fn told(event: MovementEvent) -> u8 {
    match event {
        MovementEvent::Refused(_) => 0,
        MovementEvent::Lost => 1,
        MovementEvent::SetDown => 2,
        MovementEvent::Derigged => 3,
        MovementEvent::Returned => 4,
        MovementEvent::Lifted => 5,
    }
}

/// What was done to a load since a seal of it: of each event the last report that counts, and of those that count for nothing
/// the last one, as a note.
pub(super) fn facts_of_movements(word: &LoadWord, seal: &Seal, known: &Known<'_>, facts: &mut Vec<Fact>) {
    let mut last: [Option<&LoadWord>; 6] = [None; 6];
    let mut hint: Option<&LoadWord> = None;
    let later = |one: &LoadWord, other: Option<&LoadWord>| {
        let place = |word: &LoadWord| (word.movement().map(Movement::at), word.digest());
        other.is_none_or(|other| place(one) > place(other))
    };
    for report in known.movements() {
        let Some(movement) = report.movement().filter(|movement| is_after(report, movement, word, seal))
        else {
            continue;
        };
        let slot = match report.weight() {
            Some(ReportWeight::Counts { .. }) => last.get_mut(usize::from(told(movement.event))),
            Some(ReportWeight::Hint) => Some(&mut hint),
            Some(ReportWeight::Nothing) | None => None,
        };
        if let Some(slot) = slot
            && later(report, *slot)
        {
            *slot = Some(report);
        }
    }
    for report in last.into_iter().flatten() {
        let (Some(movement), Some(ReportWeight::Counts { by })) = (report.movement(), report.weight()) else {
            continue;
        };
        let (event, at, by) = (movement.event, movement.at(), by.cloned());
        let note = movement.note.clone();
        facts.push(Fact::Fixed(Reason::Moved { event, at, by, note }));
    }
    if let Some(movement) = hint.and_then(LoadWord::movement) {
        facts.push(Fact::Fixed(Reason::MovedUnsigned { event: movement.event, at: movement.at() }));
    }
}
