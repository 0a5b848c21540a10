use slingseal_catalogue::Saying;
use slingseal_message::movement::MovementEvent;
use slingseal_message::seal::VoidCause;
use slingseal_words::{
    CallSign, Digest, LoadNumber, Name, Note, ProcedureId, Quantity, Seconds, Serial, Time,
};

use super::time::Speaker;

/// How much a reason weighs. Ordered: the gravest is the greatest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// To be known, nothing against the lift.
    Note,
    /// Do not lift until someone has looked into it.
    Wait,
    /// Do not lift.
    NoGo,
}

impl Grade {
    /// A stable word for JSON.
    pub fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Wait => "wait",
            Self::NoGo => "no_go",
        }
    }
}

/// One reason of a verdict. Each names the accident that it prevents.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// A damaged or foreign code: nothing is known of the load.
    Unreadable(Saying),
    /// No seal was shown and none is known: an uninspected load is lifted.
    NoInspectionKnown,
    /// The signature does not match: a forged seal.
    BadSignature,
    /// Nobody here trusts the authority: a seal that anyone could have made.
    UnknownAuthority,
    /// Signed by someone who may not inspect.
    NotAnInspector(CallSign),
    /// The inspector's credential had run out.
    CredentialExpired {
        /// Who.
        inspector: CallSign,
        /// When it ran out.
        expired: Time,
    },
    /// The authority took the credential back.
    Revoked(CallSign),
    /// The inspector found the load not fit.
    NotFit,
    /// The seal says fit and counts deficiencies that nobody looked at again: no program of ours makes such a seal.
    OpenDeficiency(u16),
    /// The seal ran out: wind, rain and hands have been at the load since.
    Expired {
        /// When.
        at: Time,
    },
    /// The seal holds longer than the authority lets any seal hold.
    ValidTooLong {
        /// The longest.
        most: Seconds,
    },
    /// The tag on the load is another than the one that was sealed: a seal carried to another load.
    OtherLoad {
        /// What was sealed.
        sealed: LoadNumber,
        /// What hangs here.
        tag: LoadNumber,
    },
    /// The load number is the same and the tag was changed after the inspection.
    TagChanged,
    /// Another procedure, or another edition of it, was walked than the tag orders: what the planner wanted looked at was not.
    ProcedureNotOrdered {
        /// What the tag orders: its id, and the version where the tag says it.
        ordered: String,
        /// What was walked.
        walked: String,
    },
    /// The tag's signature does not match.
    TagForged,
    /// Who rigged the load sealed it: nobody else has looked.
    OwnWork(CallSign),
    /// A later inspection says otherwise.
    Superseded {
        /// SHA-256 of that inspection's seal.
        by: Digest,
        /// When it was.
        at: Time,
        /// Whether it found the load fit.
        fit: bool,
    },
    /// Someone credentialed took the seal back.
    Voided {
        /// Who.
        by: CallSign,
        /// When.
        at: Time,
        /// Why.
        cause: VoidCause,
        /// More, in that person's words.
        note: Option<Note>,
    },
    /// The roster ran out: a revocation may be missing.
    RosterTooOld {
        /// Whose.
        authority: Name,
        /// When it ran out.
        since: Time,
    },
    /// No roster was ever received.
    NoRoster {
        /// Whose.
        authority: Name,
    },
    /// The seal is from the future by this device's clock.
    FromTheFuture {
        /// How far.
        ahead: Seconds,
    },
    /// This device's clock is behind a time that is proven past: a seal that ran out would hold again.
    ClockBehind {
        /// Whose word the time is.
        by: Speaker,
        /// The time.
        time: Time,
        /// How far behind the clock is.
        behind: Seconds,
    },
    /// An older copy was put in the place of what this device knew: a refusal or a revocation may be lost.
    MemoryPutBack {
        /// The time of the last thing that is still known.
        since: Time,
    },
    /// It was walked by an edition of a procedure that its author's authority has not approved: a list of one card finds
    /// nothing.
    ProcedureNotApproved {
        /// Whose approval is missing.
        authority: Name,
        /// The procedure.
        procedure: ProcedureId,
        /// Which edition.
        version: u32,
        /// Whether that authority approves any procedure at all, so that it is known whom to ask for what.
        any: bool,
    },
    /// It was walked by an edition that its author's authority had withdrawn before: a fault in the list was known.
    ProcedureWithdrawn {
        /// Who withdrew it.
        authority: Name,
        /// The procedure.
        procedure: ProcedureId,
        /// Which edition.
        version: u32,
        /// Since when.
        since: Time,
    },
    /// What this page knows was put into it too long ago: a refusal or a revocation since is not in it.
    CopyOutOfDate {
        /// The last second in which it might be relied on.
        until: Time,
    },
    /// Nobody who plans has signed the tag.
    TagUnsigned,
    /// The tag is signed, and nobody here trusts the signer as a planner.
    TagPlannerUnknown,
    /// The planner's credential ran out so long ago that no seal of its time can hold: the tag may be dated back.
    PlannerExpired {
        /// Who planned.
        planner: CallSign,
        /// When the credential ran out.
        expired: Time,
    },
    /// A piece of equipment on the tag is rated below the gross mass: it parts in the air.
    EquipmentRatedBelow {
        /// What it is.
        kind: Name,
        /// Which.
        serial: Serial,
        /// What it may carry.
        rating: Quantity,
        /// Gross mass.
        gross: Quantity,
    },
    /// A piece of equipment on the tag is past its next inspection: worn webbing flies.
    EquipmentOverdue {
        /// What it is.
        kind: Name,
        /// Which.
        serial: Serial,
        /// The last second in which it was good.
        since: Time,
    },
    /// A piece that the tag names was withdrawn by an inspector and not found fit since: it parts in the air.
    EquipmentWithdrawn {
        /// What it is, or which leg.
        kind: Name,
        /// Which.
        serial: Serial,
        /// When it was withdrawn.
        at: Time,
        /// What was found.
        why: String,
    },
    /// A piece that the tag names was found fit by an edition of a procedure that its inspector's authority has not approved, or
    /// had withdrawn before: a list of one card finds nothing.
    EquipmentListNotApproved {
        /// What it is, or which leg.
        kind: Name,
        /// Which.
        serial: Serial,
        /// Whose approval is missing.
        authority: Name,
        /// Which procedure.
        procedure: ProcedureId,
        /// Which edition.
        version: u32,
    },
    /// Nobody here knows who rigged the load, so that whether the rigger inspected it cannot be told.
    RiggerNotKnown,
    /// A key or a result of an examination was shown: deficiencies are planted on that load.
    Examination {
        /// A result, and not a key.
        result: bool,
    },
    /// The tag was not scanned: the seal may belong to another load.
    TagNotSeen(LoadNumber),
    /// The gross mass is over the allowable load of the tag.
    MassOverAllowable {
        /// Gross mass.
        mass: Quantity,
        /// Allowable load.
        allowable: Quantity,
    },
    /// Deficiencies were found, put right and looked at again.
    Corrected(u16),
    /// The seal runs out soon.
    ExpiresSoon(Seconds),
    /// Something was done to the load since it was inspected, by a report that counts: nobody has looked at what the hook, the
    /// flight or the ground did to it.
    Moved {
        /// What.
        event: MovementEvent,
        /// When it happened.
        at: Time,
        /// Who signed the report; none where this device wrote it itself.
        by: Option<CallSign>,
        /// More, in the reporter's words.
        note: Option<Note>,
    },
    /// An unsigned report says that something was done to the load since it was inspected.
    MovedUnsigned {
        /// What.
        event: MovementEvent,
        /// When.
        at: Time,
    },
}

impl Reason {
    /// How much it weighs.
    pub fn grade(&self) -> Grade {
        match self {
            Self::RosterTooOld { .. }
            | Self::NoRoster { .. }
            | Self::FromTheFuture { .. }
            | Self::ClockBehind { .. }
            | Self::TagUnsigned
            | Self::TagPlannerUnknown
            | Self::PlannerExpired { .. }
            | Self::EquipmentOverdue { .. }
            | Self::ProcedureNotApproved { .. }
            | Self::EquipmentListNotApproved { .. }
            | Self::ProcedureWithdrawn { .. }
            | Self::MemoryPutBack { .. }
            | Self::CopyOutOfDate { .. }
            | Self::Moved { event: MovementEvent::Lifted, .. } => Grade::Wait,
            Self::TagNotSeen(_)
            | Self::RiggerNotKnown
            | Self::Corrected(_)
            | Self::ExpiresSoon(_)
            | Self::MovedUnsigned { .. } => Grade::Note,
            Self::Unreadable(_)
            | Self::NoInspectionKnown
            | Self::BadSignature
            | Self::UnknownAuthority
            | Self::NotAnInspector(_)
            | Self::CredentialExpired { .. }
            | Self::Revoked(_)
            | Self::NotFit
            | Self::OpenDeficiency(_)
            | Self::Expired { .. }
            | Self::ValidTooLong { .. }
            | Self::OtherLoad { .. }
            | Self::TagChanged
            | Self::TagForged
            | Self::ProcedureNotOrdered { .. }
            | Self::OwnWork(_)
            | Self::Superseded { .. }
            | Self::Voided { .. }
            | Self::MassOverAllowable { .. }
            | Self::EquipmentRatedBelow { .. }
            | Self::EquipmentWithdrawn { .. }
            | Self::Examination { .. }
            | Self::Moved { .. } => Grade::NoGo,
        }
    }

    /// A stable word for JSON and tests.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Unreadable(_) => "unreadable",
            Self::NoInspectionKnown => "no_inspection_known",
            Self::BadSignature => "bad_signature",
            Self::UnknownAuthority => "unknown_authority",
            Self::NotAnInspector(_) => "not_an_inspector",
            Self::CredentialExpired { .. } => "credential_expired",
            Self::Revoked(_) => "revoked",
            Self::NotFit => "not_fit",
            Self::OpenDeficiency(_) => "open_deficiency",
            Self::Expired { .. } => "expired",
            Self::ValidTooLong { .. } => "valid_too_long",
            Self::OtherLoad { .. } => "other_load",
            Self::TagChanged => "tag_changed",
            Self::TagForged => "tag_forged",
            Self::ProcedureNotOrdered { .. } => "procedure_not_ordered",
            Self::OwnWork(_) => "own_work",
            Self::Superseded { .. } => "superseded",
            Self::Voided { .. } => "voided",
            Self::RosterTooOld { .. } => "roster_too_old",
            Self::NoRoster { .. } => "no_roster",
            Self::FromTheFuture { .. } => "from_the_future",
            Self::ClockBehind { .. } => "clock_behind",
            Self::ProcedureNotApproved { .. } => "procedure_not_approved",
            Self::ProcedureWithdrawn { .. } => "procedure_withdrawn",
            Self::TagUnsigned => "tag_unsigned",
            Self::TagPlannerUnknown => "tag_planner_unknown",
            Self::PlannerExpired { .. } => "planner_credential_expired",
            Self::EquipmentRatedBelow { .. } => "equipment_rated_below",
            Self::EquipmentOverdue { .. } => "equipment_overdue",
            Self::EquipmentWithdrawn { .. } => "equipment_withdrawn",
            Self::EquipmentListNotApproved { .. } => "equipment_list_not_approved",
            Self::MemoryPutBack { .. } => "memory_put_back",
            Self::CopyOutOfDate { .. } => "copy_out_of_date",
            Self::RiggerNotKnown => "rigger_not_known",
            Self::Examination { .. } => "examination",
            Self::TagNotSeen(_) => "tag_not_seen",
            Self::MassOverAllowable { .. } => "mass_over_allowable",
            Self::Corrected(_) => "corrected",
            Self::ExpiresSoon(_) => "expires_soon",
            Self::Moved { event, .. } => match event {
                MovementEvent::Lifted => "lifted_before",
                MovementEvent::Refused(_) => "refused_at_hook",
                MovementEvent::Lost => "lost",
                MovementEvent::SetDown => "set_down",
                MovementEvent::Derigged => "derigged",
                MovementEvent::Returned => "equipment_returned",
            },
            Self::MovedUnsigned { .. } => "movement_unsigned",
        }
    }
}
