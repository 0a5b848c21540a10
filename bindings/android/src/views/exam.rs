//! Examinations.

use slingseal_app::{
    CardTimeView, ClassCardView, ClassRequest, ClassTable, ClassView, CodeView, DebriefItem, DebriefView,
    ExamBegin, ExamKeyView, ExamOutcome, ExamPick, ExamPlan, ExamPlanView, ExamResultLine, ExamResultView,
    ExamRunState, ExamStandard, FalseCallView, ItemView, MissedView, PlantedCall, PlantedView, RunLine,
    RunView, Stamp, StandardView, StudentView, WalkView,
};

#[uniffi::remote(Record)]
pub struct ExamPick {
    pub point: String,
    pub deficiency: String,
}

#[uniffi::remote(Record)]
pub struct ExamPlan {
    pub tag: String,
    pub picks: Vec<ExamPick>,
    pub draw: Option<u32>,
    pub seed: Option<String>,
}

#[uniffi::remote(Record)]
pub struct ExamStandard {
    pub least: u32,
    pub within_s: u32,
    pub false_calls: u32,
}

#[uniffi::remote(Record)]
pub struct ExamPlanView {
    pub load: String,
    pub procedure: String,
    pub title: String,
    pub seed: Option<String>,
    pub planted: Vec<PlantedView>,
}

#[uniffi::remote(Record)]
pub struct PlantedView {
    pub card: u32,
    pub station: String,
    pub card_title: String,
    pub point: String,
    pub prompt: String,
    pub name: String,
    pub shown: String,
}

#[uniffi::remote(Record)]
pub struct StandardView {
    pub least: u32,
    pub of: u32,
    pub within_s: u32,
    pub false_calls: u32,
    pub words: String,
}

#[uniffi::remote(Record)]
pub struct ExamKeyView {
    pub key: String,
    pub short: String,
    pub code: CodeView,
    pub load: String,
    pub procedure: String,
    pub locked: Stamp,
    pub instructor: String,
    pub standard: StandardView,
    pub list_here: bool,
    pub planted: Option<Vec<PlantedView>>,
    pub runs: u32,
    pub results: u32,
}

#[uniffi::remote(Record)]
pub struct ExamBegin {
    pub key: String,
    pub tag: Option<String>,
    pub student: String,
}

#[uniffi::remote(Record)]
pub struct RunView {
    pub run: String,
    pub key: String,
    pub student: String,
    pub began: Stamp,
    pub elapsed_s: u32,
    pub within_s: u32,
    pub clock: String,
    pub over: bool,
    pub clock_jumped: bool,
    pub ended: bool,
    pub sheet: Option<String>,
    pub walk: WalkView,
}

#[uniffi::remote(Record)]
pub struct RunLine {
    pub run: String,
    pub key: String,
    pub student: String,
    pub load: String,
    pub procedure: String,
    pub state: ExamRunState,
    pub begun: Stamp,
    pub can_score: bool,
}

#[uniffi::remote(Record)]
pub struct ExamResultView {
    pub what: String,
    pub line: ExamResultLine,
    pub text: String,
    pub title: Option<String>,
    pub authority: String,
    pub standard: StandardView,
    pub reasons: Vec<String>,
    pub planted: Vec<PlantedView>,
    pub debrief: Option<DebriefView>,
    pub warnings: Vec<String>,
}

#[uniffi::remote(Record)]
pub struct ExamResultLine {
    pub result: String,
    pub key: String,
    pub student: String,
    pub instructor: String,
    pub load: String,
    pub procedure: String,
    pub attempt: u32,
    pub outcome: ExamOutcome,
    pub found: u32,
    pub of: u32,
    pub false_calls: u32,
    pub seconds: u32,
    pub clock_jumps: u32,
    pub began: Stamp,
}

#[uniffi::remote(Record)]
pub struct DebriefView {
    pub items: Vec<DebriefItem>,
    pub false_calls: Vec<FalseCallView>,
    pub cards: Vec<CardTimeView>,
}

#[uniffi::remote(Record)]
pub struct DebriefItem {
    pub planted: PlantedView,
    pub call: PlantedCall,
    pub called: Option<String>,
    pub after_s: Option<u32>,
    pub card_s: u32,
    pub words: String,
}

#[uniffi::remote(Record)]
pub struct FalseCallView {
    pub card: u32,
    pub card_title: String,
    pub prompt: String,
    pub called: String,
    pub after_s: Option<u32>,
}

#[uniffi::remote(Record)]
pub struct CardTimeView {
    pub card: u32,
    pub station: String,
    pub title: String,
    pub seconds: u32,
}

#[uniffi::remote(Record)]
pub struct ClassRequest {
    pub procedure: Option<String>,
    pub since: Option<String>,
    pub until: Option<String>,
}

#[uniffi::remote(Record)]
pub struct ClassView {
    pub students: Vec<StudentView>,
    pub attempts: Vec<ExamResultLine>,
    pub missed: Vec<MissedView>,
    pub items: Vec<ItemView>,
    pub cards: Vec<ClassCardView>,
    pub counted: u32,
    pub warnings: Vec<String>,
}

#[uniffi::remote(Record)]
pub struct StudentView {
    pub student: String,
    pub runs: u32,
    pub passed: u32,
    pub unclear: u32,
    pub retests: u32,
    pub first_passed: u32,
    pub loads_passed: u32,
    pub loads: u32,
    pub planted: u32,
    pub found: u32,
    pub false_calls: u32,
}

#[uniffi::remote(Record)]
pub struct MissedView {
    pub procedure: String,
    pub deficiency: String,
    pub missed: u32,
    pub of: u32,
    pub share: f64,
    pub low: f64,
    pub high: f64,
}

#[uniffi::remote(Record)]
pub struct ItemView {
    pub procedure: String,
    pub card: u32,
    pub point: String,
    pub deficiency: String,
    pub found: u32,
    pub of: u32,
    pub difficulty: f64,
    pub discrimination: Option<f64>,
    pub point_biserial: Option<f64>,
    pub words: String,
}

#[uniffi::remote(Record)]
pub struct ClassCardView {
    pub procedure: String,
    pub card: u32,
    pub station: String,
    pub title: String,
    pub runs: u32,
    pub median_s: u32,
    pub mean_s: f64,
    pub longest_s: u32,
}

#[uniffi::remote(Record)]
pub struct ClassTable {
    pub name: String,
    pub csv: String,
}
