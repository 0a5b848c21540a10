//! A walk.

use slingseal_app::{
    CardState, CardView, ChoiceView, DeficiencyView, DrawingView, DrawnLine, FateView, FindingState,
    FindingView, NextStep, PointKind, PointState, PointView, ProgressView, RefusedView, Stamp, StartView,
    StationView, Subject, WalkLine, WalkLineState, WalkRequest, WalkStage, WalkView,
};

#[uniffi::remote(Record)]
pub struct StartView {
    pub holder: Option<String>,
    pub in_hand: Vec<WalkLine>,
    pub records: u32,
    pub notices: Vec<String>,
    pub set_up: String,
}

#[uniffi::remote(Record)]
pub struct WalkLine {
    pub walk: String,
    pub load: String,
    pub procedure: String,
    pub inspector: String,
    pub state: WalkLineState,
    pub begun: Stamp,
    pub updated: Stamp,
}

#[uniffi::remote(Record)]
pub struct WalkView {
    pub walk: String,
    pub load: String,
    pub subject: Subject,
    pub procedure: String,
    pub title: String,
    pub inspector: String,
    pub stage: WalkStage,
    pub stations: Vec<StationView>,
    pub card: Option<CardView>,
    pub cards: Vec<CardState>,
    pub progress: ProgressView,
    pub findings: Vec<FindingView>,
    pub tag_faults: Vec<String>,
    pub blocks_fit: Vec<String>,
    pub cautions: Vec<String>,
    pub rigging: Option<String>,
    pub rigging_within_limits: bool,
    pub link_change: Option<String>,
    pub rigger: Option<String>,
    pub undo: Option<u32>,
    pub next: NextStep,
    pub refused: Option<RefusedView>,
}

#[uniffi::remote(Enum)]
pub enum WalkStage {
    Walking,
    Paused,
    Decided { fit: bool },
    Abandoned { reason: String },
}

#[uniffi::remote(Enum)]
pub enum NextStep {
    AnswerCard,
    LookAgain,
    Decide,
    Seal,
    Resume,
    Nothing,
}

#[uniffi::remote(Record)]
pub struct StationView {
    pub title: String,
    pub first: u32,
    pub last: u32,
}

#[uniffi::remote(Record)]
pub struct CardView {
    pub number: u32,
    pub of: u32,
    pub station: String,
    pub title: String,
    pub motion: String,
    pub caution: Option<String>,
    pub points: Vec<PointView>,
    pub spoken: String,
    pub state: CardState,
    pub good_enabled: bool,
}

#[uniffi::remote(Enum)]
pub enum CardState {
    Unanswered,
    Partly,
    Good,
    Deficient,
    AwaitsSecondLook,
}

#[uniffi::remote(Record)]
pub struct PointView {
    pub id: String,
    pub prompt: String,
    pub spoken: String,
    pub kind: PointKind,
    pub state: PointState,
    pub answer: Option<String>,
    pub deficiencies: Vec<DeficiencyView>,
    pub source: String,
    pub needs_value: bool,
    pub may_not_apply: bool,
}

#[uniffi::remote(Enum)]
pub enum PointKind {
    Look,
    Count { expected: Option<u32> },
    Choice { options: Vec<ChoiceView> },
    Measure { range: String, unit: String },
    Serial,
    Text,
}

#[uniffi::remote(Record)]
pub struct ChoiceView {
    pub name: String,
    pub shown: String,
}

#[uniffi::remote(Record)]
pub struct DeficiencyView {
    pub name: String,
    pub shown: String,
    pub in_place: bool,
    pub fate: FateView,
}

#[uniffi::remote(Enum)]
pub enum FateView {
    InPlace,
    Rerig,
    NewTag,
    Reject,
}

#[uniffi::remote(Enum)]
pub enum PointState {
    Unanswered,
    Good,
    Deficient,
    AwaitsSecondLook,
}

#[uniffi::remote(Record)]
pub struct ProgressView {
    pub cards_done: u32,
    pub cards: u32,
    pub points_done: u32,
    pub points: u32,
}

#[uniffi::remote(Record)]
pub struct FindingView {
    pub number: u32,
    pub card: u32,
    pub point: String,
    pub prompt: String,
    pub shown: String,
    pub value: Option<String>,
    pub note: Option<String>,
    pub photos: Vec<String>,
    pub in_place: bool,
    pub fate: FateView,
    pub piece: Option<String>,
    pub needs_value: bool,
    pub kind: PointKind,
    pub found: Stamp,
    pub state: FindingState,
    pub story: Vec<String>,
}

#[uniffi::remote(Enum)]
pub enum FindingState {
    Open,
    PutRight,
    Closed,
}

#[uniffi::remote(Record)]
pub struct RefusedView {
    pub message: String,
}

#[uniffi::remote(Enum)]
pub enum WalkRequest {
    CardGood { card: u32 },
    Answer { card: u32, point: String, value: String },
    Deficiency { card: u32, point: String, name: String, note: Option<String>, photos: Vec<String> },
    NotApplicable { card: u32, point: String, reason: String },
    RejectPiece { finding: u32, serial: String },
    PutRight { finding: u32, by: Option<String>, note: Option<String>, photos: Vec<String> },
    LookAgain { finding: u32, good: bool, value: Option<String>, note: Option<String>, photos: Vec<String> },
    Undo { answer: u32 },
    GoTo { card: u32 },
    Pause,
    Resume,
    Abandon { reason: String },
    Decide { fit: bool, reason: Option<String> },
    TakeBack,
}

#[uniffi::remote(Record)]
pub struct DrawingView {
    pub side: u32,
    pub lines: Vec<DrawnLine>,
}

#[uniffi::remote(Record)]
pub struct DrawnLine {
    pub dots: Vec<u32>,
    pub closed: bool,
    pub fine: bool,
    pub hidden: bool,
    pub marked: bool,
}
