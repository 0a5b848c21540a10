use slingseal_catalogue::story as words;
use slingseal_words::{Saying, Time};

/// What sort of moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MomentKind {
    /// A tag was made.
    Planned,
    /// A walk began, paused, went on or was given up.
    Walk,
    /// A card or point was good.
    Good,
    /// The inspector went to another card: no news by itself.
    Moved,
    /// Something deficient was found.
    Found,
    /// The riggers put it right.
    PutRight,
    /// It was looked at again and good.
    AgainGood,
    /// It was looked at again and still deficient.
    AgainBad,
    /// An answer was taken back.
    Undone,
    /// The statics spoke.
    Rigging,
    /// Something the reader must know of the evidence itself: a clock that jumped.
    Warning,
    /// The inspector decided.
    Decided,
    /// The record was sealed.
    Sealed,
    /// The seal was taken back.
    Voided,
    /// Somebody reported what became of the load.
    Reported,
}

impl MomentKind {
    /// A stable word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Planned => "planned",
            Self::Walk => "walk",
            Self::Good => "good",
            Self::Moved => "moved",
            Self::Found => "found",
            Self::PutRight => "put_right",
            Self::AgainGood => "again_good",
            Self::AgainBad => "again_bad",
            Self::Undone => "undone",
            Self::Rigging => "rigging",
            Self::Warning => "warning",
            Self::Decided => "decided",
            Self::Sealed => "sealed",
            Self::Voided => "voided",
            Self::Reported => "reported",
        }
    }
}

/// One moment of a load's story.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Moment {
    /// When, by the clock of the device where it happened.
    pub at: Time,
    /// What sort.
    pub kind: MomentKind,
    /// What, in one line and in no language yet.
    pub what: Saying,
    /// The card, for a good one.
    pub card: Option<u32>,
}

/// The story without a line for each good card: a run of them becomes one, and going from card to card is left out.
pub fn condense(moments: Vec<Moment>) -> Vec<Moment> {
    let mut told: Vec<Moment> = Vec::new();
    let mut run: Vec<Moment> = Vec::new();
    for moment in moments {
        match moment.kind {
            MomentKind::Good => run.push(moment),
            MomentKind::Moved => {}
            _ => {
                told.extend(one_of(std::mem::take(&mut run)));
                told.push(moment);
            }
        }
    }
    told.extend(one_of(run));
    told
}

fn one_of(mut run: Vec<Moment>) -> Option<Moment> {
    let last = run.pop()?;
    let mut cards: Vec<u32> = run.iter().chain([&last]).filter_map(|moment| moment.card).collect();
    cards.sort_unstable();
    cards.dedup();
    let what = match (cards.as_slice(), run.is_empty()) {
        (_, true) => last.what,
        ([], _) => words::AnswersGood { count: run.len() + 1 }.into(),
        ([one], _) => words::CardGood { card: *one }.into(),
        ([first, .., end], _) if usize::try_from(end - first).is_ok_and(|gap| gap + 1 == cards.len()) => {
            words::CardsGoodFromTo { first: *first, last: *end }.into()
        }
        (many, _) => words::CardsGood { count: many.len() }.into(),
    };
    Some(Moment { what, ..last })
}

#[cfg(test)]
mod tests {
    use super::{Moment, MomentKind, condense};
    use slingseal_words::Time;

    fn moment(at: i64, kind: MomentKind, card: Option<u32>, what: &str) -> Moment {
        Moment { at: Time::from_unix(at), kind, what: what.into(), card }
    }

    #[test]
    fn good_cards_are_told_together() {
        let good = |at, card| moment(at, MomentKind::Good, Some(card), "good");
        let found = moment(5, MomentKind::Found, None, "twisted");
        let moved = moment(6, MomentKind::Moved, None, "to card 9");
        let all = vec![
            good(1, 1),
            good(2, 2),
            good(3, 2),
            good(4, 3),
            found.clone(),
            good(6, 4),
            moved,
            good(8, 9),
        ];
        let told = condense(all);
        let said: Vec<(i64, String)> =
            told.iter().map(|moment| (moment.at.unix(), moment.what.to_string())).collect();
        let wanted = [(4, "Cards 1 to 3 good"), (5, "twisted"), (8, "2 cards good")];
        assert_eq!(said, wanted.map(|(at, what)| (at, what.to_owned())));
        assert_eq!(condense(vec![good(1, 7)]).first().unwrap().what.to_string(), "good");
        assert_eq!(condense(vec![found.clone()]), [found]);
    }
}
