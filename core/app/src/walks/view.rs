//! A walk, ready to draw.

use serde::Serialize;

use crate::Stamp;
use slingseal_walk::procedure::{Fate, Subject};
use slingseal_walk::walk::Refusal;
use slingseal_words::Language;

/// A walk with its current card.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WalkView {
    /// What the walk goes by.
    pub walk: String,
    /// The load number.
    pub load: String,
    /// What is inspected. An inspection of what is no load is kept and not sealed.
    #[serde(serialize_with = "crate::view::word")]
    pub subject: Subject,
    /// What the procedure goes by.
    pub procedure: String,
    /// The procedure's title.
    pub title: String,
    /// Who inspects.
    pub inspector: String,
    /// How far it is.
    pub stage: WalkStage,
    /// The stations, in order.
    pub stations: Vec<StationView>,
    /// The card that it stands at; none at the decision and after.
    pub card: Option<CardView>,
    /// How every card stands, in order.
    pub cards: Vec<CardState>,
    /// How far it has come.
    pub progress: ProgressView,
    /// Everything found, in order.
    pub findings: Vec<FindingView>,
    /// What the tag shows to be wrong by itself.
    pub tag_faults: Vec<String>,
    /// What stands in the way of fit; empty where nothing does.
    pub blocks_fit: Vec<String>,
    /// What whoever decides should know.
    pub cautions: Vec<String>,
    /// What governs the rigging, as counted, in one line.
    pub rigging: Option<String>,
    /// Whether the rigging is within its limits; true where none is told.
    pub rigging_within_limits: bool,
    /// What a counted link that differs from the plan does to the load.
    pub link_change: Option<String>,
    /// Who rigged the load, where its tag says so: the first to be asked who corrected something.
    pub rigger: Option<String>,
    /// The number to give for undoing the last answer.
    pub undo: Option<u32>,
    /// What to do next.
    pub next: NextStep,
    /// Why the request was refused; nothing of it was kept.
    pub refused: Option<RefusedView>,
}

/// How far a walk is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WalkStage {
    /// On the way.
    Walking,
    /// Stopped for a while.
    Paused,
    /// Decided, and not sealed yet.
    Decided {
        /// Fit or not.
        fit: bool,
    },
    /// Given up.
    Abandoned {
        /// Why.
        reason: String,
    },
}

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NextStep {
    /// Answer the card.
    AnswerCard,
    /// Have something put right, then look again.
    LookAgain,
    /// Decide.
    Decide,
    /// Put the name to it.
    Seal,
    /// Take it up again.
    Resume,
    /// Nothing.
    Nothing,
}

/// A station of the walk.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StationView {
    /// Its title.
    pub title: String,
    /// Its first card.
    pub first: u32,
    /// Its last card.
    pub last: u32,
}

/// One physical motion.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CardView {
    /// Its number, from one.
    pub number: u32,
    /// How many cards there are.
    pub of: u32,
    /// The station's title.
    pub station: String,
    /// Its title.
    pub title: String,
    /// What hands and eyes do.
    pub motion: String,
    /// What can hurt.
    pub caution: Option<String>,
    /// What to look for.
    pub points: Vec<PointView>,
    /// The whole card as a voice would read it.
    pub spoken: String,
    /// How it stands.
    pub state: CardState,
    /// Whether "all good" may be pressed: no point needs a value of its own.
    pub good_enabled: bool,
}

/// How a card stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CardState {
    /// No answer.
    Unanswered,
    /// Some points have one.
    Partly,
    /// Good.
    Good,
    /// A deficiency is open.
    Deficient,
    /// Put right, not looked at again.
    AwaitsSecondLook,
}

/// One point.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PointView {
    /// What it goes by.
    pub id: String,
    /// A few words.
    pub prompt: String,
    /// A sentence.
    pub spoken: String,
    /// How it is answered.
    pub kind: PointKind,
    /// How it stands.
    pub state: PointState,
    /// The answer, if it has one of its own.
    pub answer: Option<String>,
    /// What can be wrong.
    pub deficiencies: Vec<DeficiencyView>,
    /// Where it comes from.
    pub source: String,
    /// Whether it keeps the card from being answered as a whole.
    pub needs_value: bool,
    /// Whether it may be answered "not applicable", with a reason.
    pub may_not_apply: bool,
}

/// How a point is answered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PointKind {
    /// Good or not.
    Look,
    /// Counted.
    Count {
        /// What it must be, where that is known.
        expected: Option<u32>,
    },
    /// Chosen.
    Choice {
        /// The options.
        options: Vec<ChoiceView>,
    },
    /// Measured.
    Measure {
        /// The range, in words.
        range: String,
        /// The unit to offer.
        unit: String,
    },
    /// A serial number.
    Serial,
    /// A text.
    Text,
}

/// An option.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ChoiceView {
    /// Its name, to be given back.
    pub name: String,
    /// What to show.
    pub shown: String,
}

/// A deficiency to pick.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DeficiencyView {
    /// Its name, to be given back.
    pub name: String,
    /// What to show.
    pub shown: String,
    /// Whether it can be corrected where the load stands.
    pub in_place: bool,
    /// What becomes of the load, or of the piece.
    pub fate: FateView,
}

/// What becomes of a load, or of a piece, at which a deficiency is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FateView {
    /// Corrected where the load stands, and inspected again.
    InPlace,
    /// Rerigged and inspected anew.
    Rerig,
    /// A new tag, and an inspection under it.
    NewTag,
    /// The piece leaves service by its serial number.
    Reject,
}

impl From<Fate> for FateView {
    fn from(fate: Fate) -> Self {
        match fate {
            Fate::InPlace => Self::InPlace,
            Fate::Rerig => Self::Rerig,
            Fate::NewTag => Self::NewTag,
            Fate::Reject => Self::Reject,
        }
    }
}

/// How a point stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PointState {
    /// No answer.
    Unanswered,
    /// Good.
    Good,
    /// A deficiency is open.
    Deficient,
    /// Put right, not looked at again.
    AwaitsSecondLook,
}

/// How far the walk has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct ProgressView {
    /// Cards done.
    pub cards_done: u32,
    /// All cards.
    pub cards: u32,
    /// Points done.
    pub points_done: u32,
    /// All points.
    pub points: u32,
}

/// Something found.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FindingView {
    /// Its number.
    pub number: u32,
    /// On which card.
    pub card: u32,
    /// At which point.
    pub point: String,
    /// The point's prompt.
    pub prompt: String,
    /// What is wrong.
    pub shown: String,
    /// What was counted, chosen or measured.
    pub value: Option<String>,
    /// What is written with it.
    pub note: Option<String>,
    /// Digests of photographs.
    pub photos: Vec<String>,
    /// Whether it can be corrected where the load stands.
    pub in_place: bool,
    /// What becomes of the load, or of the piece.
    pub fate: FateView,
    /// The piece that it rejects, where its serial number is known.
    pub piece: Option<String>,
    /// Whether looking again needs a new value.
    pub needs_value: bool,
    /// How such a value is given.
    pub kind: PointKind,
    /// When it was found.
    pub found: Stamp,
    /// What it is now.
    pub state: FindingState,
    /// What became of it, one line each.
    pub story: Vec<String>,
}

/// What a finding is now.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FindingState {
    /// Open.
    Open,
    /// Put right, not looked at again.
    PutRight,
    /// Closed.
    Closed,
}

/// A refusal.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RefusedView {
    /// What is wrong and what to do.
    pub message: String,
}

impl RefusedView {
    pub(crate) fn of(refusal: &Refusal, language: Language) -> Self {
        let text = refusal.say(language);
        let mut letters = text.chars();
        let message =
            letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default();
        Self { message }
    }
}
