//! A result as it is shown, and told in the order of the load.

use crate::Stamp;
use crate::exams::{PlantedView, StandardView, planted_views};
use crate::view::clock;
use serde::Serialize;
use slingseal_catalogue::exams as exam_words;
use slingseal_walk::exam::{Call, ExamResult, Outcome, Score, Timing};
use slingseal_walk::procedure::{CardNo, Expanded};
use slingseal_words::{Language, PointId, Saying, Seconds};

/// A result, whole.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ExamResultView {
    /// What this is, so that nobody takes it for an inspection.
    pub what: String,
    /// Its line.
    pub line: ExamResultLine,
    /// The text of its code.
    pub text: String,
    /// The procedure's title, where it is known here.
    pub title: Option<String>,
    /// Who stands for the instructor.
    pub authority: String,
    /// What had to be reached.
    pub standard: StandardView,
    /// Why it came to this, in plain words.
    pub reasons: Vec<String>,
    /// What was planted, revealed and held against the lock.
    pub planted: Vec<PlantedView>,
    /// What became of each, in the order of the load; none where the run's sheet is not here.
    pub debrief: Option<DebriefView>,
    /// What should be known beside it.
    pub warnings: Vec<String>,
}

/// A result in the list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ExamResultLine {
    /// What it goes by.
    pub result: String,
    /// The key's first digits.
    pub key: String,
    /// Who was examined.
    pub student: String,
    /// Who examined.
    pub instructor: String,
    /// On which load.
    pub load: String,
    /// By which procedure, with its version.
    pub procedure: String,
    /// The how-manieth of this student on this load; over one is a retest.
    pub attempt: u32,
    /// What the run came to.
    #[serde(serialize_with = "crate::view::word")]
    pub outcome: Outcome,
    /// Found.
    pub found: u32,
    /// Of how many planted.
    pub of: u32,
    /// Calls where nothing was wrong.
    pub false_calls: u32,
    /// The time.
    pub seconds: u32,
    /// How often the clock jumped.
    pub clock_jumps: u32,
    /// When the run began.
    pub began: Stamp,
}

/// What became of each planted deficiency, and of the time.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DebriefView {
    /// Every planted deficiency, in the order of the load.
    pub items: Vec<DebriefItem>,
    /// Every call where nothing was wrong, in the order in which they were made.
    pub false_calls: Vec<FalseCallView>,
    /// Every card that was stood at, in the order of the load.
    pub cards: Vec<CardTimeView>,
}

/// One planted deficiency.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DebriefItem {
    /// Where and what.
    pub planted: PlantedView,
    /// What became of it.
    pub call: PlantedCall,
    /// What it was called, where that is another name.
    pub called: Option<String>,
    /// When it was called, from the beginning.
    pub after_s: Option<u32>,
    /// How long the run stood at its card.
    pub card_s: u32,
    /// All of it in one line.
    pub words: String,
}

/// What became of a planted deficiency.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PlantedCall {
    /// Called at its point, by its name.
    Found,
    /// Called at its point, by another name: the eye was right.
    NamedOtherwise,
    /// Its point was passed as good.
    PassedAsGood,
    /// Its point had no answer when the run ended.
    NotReached,
}

impl PlantedCall {
    /// A stable word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Found => "found",
            Self::NamedOtherwise => "named_otherwise",
            Self::PassedAsGood => "passed_as_good",
            Self::NotReached => "not_reached",
        }
    }

    /// Whether it counts as found.
    pub fn found(self) -> bool {
        matches!(self, Self::Found | Self::NamedOtherwise)
    }

    pub(super) fn of(call: &Call) -> Self {
        match call {
            Call::Found => Self::Found,
            Call::NamedOtherwise(_) => Self::NamedOtherwise,
            Call::PassedAsGood => Self::PassedAsGood,
            Call::NotReached => Self::NotReached,
        }
    }
}

/// A call where nothing was wrong.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FalseCallView {
    /// On which card.
    pub card: u32,
    /// The card's title.
    pub card_title: String,
    /// The point's prompt.
    pub prompt: String,
    /// What it was called.
    pub called: String,
    /// When, from the beginning.
    pub after_s: Option<u32>,
}

/// How long a card took.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CardTimeView {
    /// Its number.
    pub card: u32,
    /// Its station.
    pub station: String,
    /// Its title.
    pub title: String,
    /// How long the run stood at it.
    pub seconds: u32,
}

pub(super) fn small(seconds: Seconds) -> u32 {
    u32::try_from(seconds.0).unwrap_or(u32::MAX)
}

/// Why a result came to what it is.
pub(super) fn reasons(result: &ExamResult, language: Language) -> Vec<String> {
    let (standard, tally) = (result.standard, &result.tally);
    let (found, of, least) = (tally.found, standard.planted(), standard.least());
    let (time, given) = (clock(tally.seconds.0), clock(standard.within().0));
    let (calls, let_pass) = (tally.false_calls, standard.false_calls());
    let mut reasons = vec![
        exam_words::ReasonFound { found, of, least }.say(language),
        exam_words::ReasonTime { time, given }.say(language),
        exam_words::ReasonFalseCalls { calls, most: let_pass }.say(language),
    ];
    if tally.outcome == Outcome::Unclear {
        reasons.push(exam_words::ReasonUnclear.say(language));
    }
    reasons
}

pub(super) fn debrief_view(
    score: &Score,
    timing: &Timing,
    plan: &Expanded,
    result: &ExamResult,
    language: Language,
) -> DebriefView {
    let at = |card: CardNo| timing.cards.get(&card).copied().map_or(0, small);
    let shown = |point: &PointId, name: &str| {
        let known = plan.point(point).and_then(|(_, point)| {
            point.deficiencies.iter().find(|known| known.name == name).map(|known| known.shown.clone())
        });
        known.unwrap_or_else(|| name.to_owned())
    };
    let items =
        planted_views(&result.planted, Some(plan)).into_iter().zip(&score.items).map(|(planted, item)| {
            let called = match &item.call {
                Call::NamedOtherwise(name) => Some(shown(&item.planted.point, name)),
                _ => None,
            };
            let after = item.after.map(|after| clock(after.0)).unwrap_or_default();
            let card_s = at(item.card);
            let stood = clock(card_s);
            let what: Saying = match &called {
                _ if item.call == Call::Found => exam_words::FoundAt { at: after }.into(),
                Some(called) => exam_words::FoundAtCalled { at: after, called }.into(),
                None if item.call == Call::NotReached => exam_words::MissedNotReached.into(),
                None => exam_words::MissedPassedAsGood { stood }.into(),
            };
            let (card, title, shown) = (planted.card, &planted.card_title, &planted.shown);
            DebriefItem {
                words: exam_words::DebriefWords { card, title, shown, what }.say(language),
                planted,
                call: PlantedCall::of(&item.call),
                called,
                after_s: item.after.map(small),
                card_s,
            }
        });
    let title = |card: CardNo| plan.card(card).map(|card| card.title.clone()).unwrap_or_default();
    DebriefView {
        items: items.collect(),
        false_calls: score
            .false_calls
            .iter()
            .map(|call| FalseCallView {
                card: call.card.number(),
                card_title: title(call.card),
                prompt: plan.point(&call.point).map(|(_, point)| point.prompt.clone()).unwrap_or_default(),
                called: shown(&call.point, &call.name),
                after_s: call.after.map(small),
            })
            .collect(),
        cards: timing
            .cards
            .iter()
            .map(|(card, seconds)| CardTimeView {
                card: card.number(),
                station: plan
                    .card(*card)
                    .and_then(|card| plan.stations.get(card.station))
                    .map(|station| station.title.clone())
                    .unwrap_or_default(),
                title: title(*card),
                seconds: small(*seconds),
            })
            .collect(),
    }
}
