//! Codes and load tags.

use slingseal_app::{
    BasisLine, BasisView, CodeKind, CodeText, CodeView, EditionState, EditionView, EquipmentView, LegView,
    LinkView, ProcedureView, Reading, RiggingHook, RiggingLeg, RiggingPaper, RiggingPart, RiggingState,
    RiggingVerdict, RiggingView, Stamp, StickerReading, StickerView, Subject, TagMade, TagSignature, TagView,
    WeightSource, ZoneView,
};

#[uniffi::remote(Record)]
pub struct CodeView {
    pub kind: CodeKind,
    pub text: String,
    pub size: u32,
    pub modules: Vec<u8>,
    pub version: u8,
    pub check: String,
}

#[uniffi::remote(Record)]
pub struct CodeText {
    pub kind: CodeKind,
    pub text: String,
}

#[uniffi::remote(Enum)]
pub enum Reading {
    Nothing,
    Ours { kind: CodeKind, text: String },
    Foreign { text: String },
}

#[uniffi::remote(Record)]
pub struct StickerView {
    pub message: Vec<u8>,
    pub bytes: u32,
    pub fits: bool,
}

#[uniffi::remote(Enum)]
pub enum StickerReading {
    Empty,
    Foreign,
    Newer { kind: CodeKind },
    Damaged,
    Ours { seal: Option<String>, tag: Option<String>, others: Vec<CodeText> },
}

#[uniffi::remote(Record)]
pub struct Stamp {
    pub unix: i64,
    pub rfc3339: String,
    pub dtg: String,
}

#[uniffi::remote(Record)]
pub struct TagView {
    pub text: String,
    pub digest: String,
    pub check: String,
    pub load: String,
    pub planned: Stamp,
    pub description: String,
    pub procedure: String,
    pub procedure_title: Option<String>,
    pub gross: String,
    pub aircraft: String,
    pub allowable: String,
    pub pickup: ZoneView,
    pub destination: ZoneView,
    pub rigger: Option<String>,
    pub equipment: Vec<EquipmentView>,
    pub links: Vec<LinkView>,
    pub rigging: Option<RiggingView>,
    pub basis: BasisView,
    pub planner: Option<String>,
    pub signature: TagSignature,
    pub warnings: Vec<String>,
    pub bytes: u32,
}

#[uniffi::remote(Record)]
pub struct BasisView {
    pub manual: Option<String>,
    pub manual_edition: Option<String>,
    pub legs: Vec<LegView>,
    pub weight_source: Option<WeightSource>,
    pub airspeed: Option<String>,
    pub airspeed_source: Option<String>,
    pub edition: Option<EditionView>,
    pub conditions: Option<Vec<String>>,
    pub lines: Vec<BasisLine>,
}

#[uniffi::remote(Record)]
pub struct LegView {
    pub leg: String,
    pub serial: String,
}

#[uniffi::remote(Record)]
pub struct EditionView {
    pub procedure: String,
    pub version: u32,
    pub thumbprint: String,
    pub here: bool,
}

#[uniffi::remote(Record)]
pub struct BasisLine {
    pub label: String,
    pub text: String,
}

#[uniffi::remote(Record)]
pub struct ZoneView {
    pub name: String,
    pub grid: Option<String>,
}

#[uniffi::remote(Record)]
pub struct EquipmentView {
    pub kind: String,
    pub serial: String,
    pub rating: Option<String>,
    pub source: Option<String>,
    pub next_inspection: Option<String>,
    pub overdue: bool,
    pub overloaded: bool,
}

#[uniffi::remote(Record)]
pub struct LinkView {
    pub leg: String,
    pub link: u16,
}

#[uniffi::remote(Record)]
pub struct RiggingView {
    pub verdict: RiggingVerdict,
    pub state: RiggingState,
    pub beyond: Option<String>,
    pub summary: String,
    pub report: String,
    pub pitch_deg: Option<f64>,
    pub roll_deg: Option<f64>,
    pub utilisation: Option<f64>,
    pub picture_svg: Option<String>,
    pub paper: RiggingPaper,
}

#[uniffi::remote(Record)]
pub struct RiggingPaper {
    pub state: String,
    pub attitude: String,
    pub mass: String,
    pub centre: Vec<String>,
    pub legs: Vec<RiggingLeg>,
    pub parts: Vec<RiggingPart>,
    pub hooks: Vec<RiggingHook>,
}

#[uniffi::remote(Record)]
pub struct RiggingHook {
    pub hook: String,
    pub carries: String,
}

#[uniffi::remote(Record)]
pub struct RiggingLeg {
    pub leg: String,
    pub hook: String,
    pub point: Vec<String>,
    pub rope: String,
    pub link: Option<u16>,
    pub links: Option<u16>,
    pub carries: String,
    pub share: String,
}

#[uniffi::remote(Record)]
pub struct RiggingPart {
    pub part: String,
    pub carries: String,
    pub rated: String,
    pub source: String,
    pub share: String,
}

#[uniffi::remote(Record)]
pub struct TagMade {
    pub code: CodeView,
    pub tag: TagView,
}

#[uniffi::remote(Record)]
pub struct ProcedureView {
    pub id: String,
    pub version: u32,
    pub title: String,
    pub cards: u32,
    pub points: u32,
    pub digest: String,
    pub own: bool,
    pub subject: Option<Subject>,
    pub in_use: bool,
    pub state: EditionState,
    pub approval: String,
}

#[uniffi::remote(Enum)]
pub enum EditionState {
    Approved,
    NotApproved,
    Withdrawn,
    Missing,
}
