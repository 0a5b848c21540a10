//! Seals, verdicts and records.

use slingseal_app::{
    AuditView, CodeView, EditionState, FindingView, Grade, MomentKind, ReasonView, RecordLine,
    RecordStanding, RecordState, RecordView, SealFacts, SealView, ShownLine, Stamp, TagView, TimelineEntry,
    VerdictView, VerdictWord,
};

#[uniffi::remote(Record)]
pub struct SealView {
    pub code: CodeView,
    pub facts: SealFacts,
    pub description: String,
    pub aircraft: String,
    pub record: String,
    pub verdict: VerdictView,
}

#[uniffi::remote(Record)]
pub struct SealFacts {
    pub load: String,
    pub fit: bool,
    pub inspector: Option<String>,
    pub authority: Option<String>,
    pub issued: Stamp,
    pub valid_until: Stamp,
    pub mass: String,
    pub procedure: String,
    pub found: u32,
    pub corrected: u32,
    pub record: String,
    pub check: String,
}

#[uniffi::remote(Record)]
pub struct VerdictView {
    pub verdict: VerdictWord,
    pub word: String,
    pub first: String,
    pub reasons: Vec<ReasonView>,
    pub facts: Option<SealFacts>,
    pub tag: Option<TagView>,
    pub cautions: Vec<String>,
    pub spoken: String,
    pub shown: Vec<ShownLine>,
}

#[uniffi::remote(Record)]
pub struct ShownLine {
    pub load: String,
    pub verdict: VerdictWord,
    pub word: String,
    pub first: String,
}

#[uniffi::remote(Enum)]
pub enum VerdictWord {
    Go,
    Wait,
    NoGo,
}

#[uniffi::remote(Record)]
pub struct ReasonView {
    pub code: String,
    pub grade: Grade,
    pub text: String,
}

#[uniffi::remote(Record)]
pub struct RecordLine {
    pub record: String,
    pub load: String,
    pub fit: bool,
    pub seal: String,
    pub state: RecordState,
    pub standing: RecordStanding,
    pub expired: bool,
    pub inspector: String,
    pub rigger: String,
    pub procedure: String,
    pub version: u32,
    pub edition: EditionState,
    pub place: String,
    pub aircraft: String,
    pub found: u32,
    pub corrected: u32,
    pub issued: Stamp,
    pub valid_until: Stamp,
    pub whole: bool,
    pub walk_seconds: Option<u32>,
    pub walk_cards: Option<u32>,
    pub walked_too_fast: bool,
}

#[uniffi::remote(Enum)]
pub enum RecordState {
    Fit,
    NotFit,
    Superseded,
    Voided,
    Expired,
    Refused,
    Waits,
    NoInspection,
}

#[uniffi::remote(Record)]
pub struct RecordView {
    pub line: RecordLine,
    pub banner: String,
    pub reasons: Vec<String>,
    pub seal: String,
    pub check: String,
    pub tag: Option<TagView>,
    pub findings: Vec<FindingView>,
    pub timeline: Vec<TimelineEntry>,
    pub rigging_json: Option<String>,
    pub photos: Vec<String>,
    pub voids: Vec<String>,
}

#[uniffi::remote(Record)]
pub struct TimelineEntry {
    pub at: Stamp,
    pub kind: MomentKind,
    pub what: String,
}

#[uniffi::remote(Record)]
pub struct AuditView {
    pub records: u32,
    pub entries: u64,
    pub papers: u32,
    pub faults: Vec<String>,
    pub notes: Vec<String>,
}
