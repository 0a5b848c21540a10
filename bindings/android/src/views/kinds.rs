//! States, grades, outcomes and sorts: the enums of the rooms below, mirrored once.

use slingseal_app::{
    ClosePointKind, CodeKind, ExamOutcome, ExamRunState, FlowState, Grade, MomentKind, MovementKind,
    PlantedCall, RecordStanding, RefusalCause, RiggingState, RiggingVerdict, Role, Subject, TagSignature,
    VoidCause, WalkLineState, WeightSource,
};

#[uniffi::remote(Enum)]
pub enum FlowState {
    Planned,
    Walking,
    Fit,
    Waits,
    Lifted,
    SetDown,
    NotFit,
    Refused,
    Expired,
    Voided,
    Lost,
}

#[uniffi::remote(Enum)]
pub enum Grade {
    Note,
    Wait,
    NoGo,
}

#[uniffi::remote(Enum)]
pub enum RecordStanding {
    Current,
    Superseded,
    Voided,
    Refused,
    Waiting,
    NoInspection,
}

#[uniffi::remote(Enum)]
pub enum MomentKind {
    Planned,
    Walk,
    Good,
    Moved,
    Found,
    PutRight,
    AgainGood,
    AgainBad,
    Undone,
    Rigging,
    Warning,
    Decided,
    Sealed,
    Voided,
    Reported,
}

#[uniffi::remote(Enum)]
pub enum ClosePointKind {
    NeverInspected,
    NeverLifted,
    RefusedAtHook,
    LiftedWithoutGo,
    LiftedAfterExpiry,
    LiftedAfterVoid,
    NeverSetDown,
    Lost,
    Contradiction,
    InspectedTwice,
    WalkedTooFast,
    PieceOut,
    JournalEndsEarly,
    Missing,
}

#[uniffi::remote(Enum)]
pub enum MovementKind {
    Lifted,
    Refused,
    Lost,
    SetDown,
    Derigged,
    Returned,
}

#[uniffi::remote(Enum)]
pub enum RefusalCause {
    Verdict,
    Rigging,
    Damage,
    WrongLoad,
    TooHeavy,
    Unstable,
    Aircrew,
    Zone,
    Other,
}

#[uniffi::remote(Enum)]
pub enum VoidCause {
    RiggingDisturbed,
    LoadMoved,
    HookupAborted,
    EquipmentWithdrawn,
    Other,
}

#[uniffi::remote(Enum)]
pub enum Subject {
    Load,
    Piece,
    Aircraft,
    Zone,
    Handling,
}

#[uniffi::remote(Enum)]
pub enum WalkLineState {
    Walking,
    Paused,
    Decided,
    Sealed,
    Abandoned,
}

#[uniffi::remote(Enum)]
pub enum TagSignature {
    Planner,
    Unsigned,
    Unknown,
    Forged,
}

#[uniffi::remote(Enum)]
pub enum WeightSource {
    Weighed,
    DataPlate,
    AddedUp,
    Estimated,
}

#[uniffi::remote(Enum)]
pub enum RiggingVerdict {
    WithinLimits,
    OverLimit,
    Infeasible,
}

#[uniffi::remote(Enum)]
pub enum RiggingState {
    WithinLimits,
    AtRestOnly,
    OverLimit,
    Infeasible,
}

#[uniffi::remote(Enum)]
pub enum ExamRunState {
    Open,
    Ended,
    Scored,
    Lost,
}

#[uniffi::remote(Enum)]
pub enum ExamOutcome {
    Passed,
    Failed,
    Unclear,
}

#[uniffi::remote(Enum)]
pub enum PlantedCall {
    Found,
    NamedOtherwise,
    PassedAsGood,
    NotReached,
}

#[uniffi::remote(Enum)]
pub enum Role {
    Inspector,
    Planner,
    Hookup,
    Leader,
    Instructor,
}

#[uniffi::remote(Enum)]
pub enum CodeKind {
    Tag,
    Seal,
    Credential,
    KeyRequest,
    Authority,
    Roster,
    Inspection,
    Void,
    Movement,
    Closing,
    BundleFrame,
    Have,
    CheckPage,
    ExamKey,
    ExamResult,
    CopyPart,
    Procedure,
}
