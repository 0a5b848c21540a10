//! What became of a load, and the receiving side.

use slingseal_app::{
    ArrivalPiece, ArrivalView, ClosingView, CodeView, ExplainedView, FlowState, MovedPiece, MovementKind,
    MovementView, PieceReport, RefusalCause, RefusalChoice, ReportMade, ReportRequest, Stamp, TagView,
    VerdictWord,
};

#[uniffi::remote(Record)]
pub struct ReportRequest {
    pub load: Option<String>,
    pub event: MovementKind,
    pub cause: Option<RefusalCause>,
    pub happened: Option<i64>,
    pub aircraft: Option<String>,
    pub place: Option<String>,
    pub photos: Vec<String>,
    pub pieces: Vec<PieceReport>,
    pub note: Option<String>,
}

#[uniffi::remote(Record)]
pub struct RefusalChoice {
    pub cause: RefusalCause,
    pub shown: String,
}

#[uniffi::remote(Record)]
pub struct PieceReport {
    pub serial: String,
    pub back: bool,
    pub damaged: bool,
}

#[uniffi::remote(Record)]
pub struct ReportMade {
    pub code: CodeView,
    pub report: MovementView,
}

#[uniffi::remote(Record)]
pub struct MovementView {
    pub digest: String,
    pub load: String,
    pub event: MovementKind,
    pub cause: Option<RefusalCause>,
    pub what: String,
    pub at: Stamp,
    pub written: Stamp,
    pub later: bool,
    pub by: Option<String>,
    pub origin: String,
    pub counts: bool,
    pub device: String,
    pub seal: Option<String>,
    pub verdict: Option<VerdictWord>,
    pub reason: Option<String>,
    pub aircraft: Option<String>,
    pub place: Option<String>,
    pub photos: Vec<String>,
    pub pieces: Vec<MovedPiece>,
    pub note: Option<String>,
    pub against: bool,
    pub details: Vec<String>,
}

#[uniffi::remote(Record)]
pub struct MovedPiece {
    pub serial: String,
    pub back: bool,
    pub damaged: bool,
}

#[uniffi::remote(Record)]
pub struct ArrivalView {
    pub load: String,
    pub tag: Option<TagView>,
    pub state: Option<FlowState>,
    pub state_title: String,
    pub unsigned: bool,
    pub reported: String,
    pub reports: Vec<MovementView>,
    pub pieces: Vec<ArrivalPiece>,
}

#[uniffi::remote(Record)]
pub struct ArrivalPiece {
    pub kind: String,
    pub serial: String,
    pub back: bool,
    pub damaged: bool,
}

#[uniffi::remote(Record)]
pub struct ClosingView {
    pub digest: String,
    pub check: String,
    pub name: String,
    pub issued: Stamp,
    pub by: String,
    pub account: String,
    pub words: u32,
    pub counts: Vec<u32>,
    pub explained: Vec<ExplainedView>,
}

#[uniffi::remote(Record)]
pub struct ExplainedView {
    pub kind: String,
    pub title: String,
    pub subject: String,
    pub note: String,
}
