//! What a person reads of a verdict and of each reason.

use slingseal_catalogue::{Language, Saying, judgement as words, movement};
use slingseal_message::movement::{MovementEvent, RefusalCause};
use slingseal_message::seal::VoidCause;
use slingseal_words::{CallSign, Note};

use super::reason::{Grade, Reason};
use super::time::Speaker;
use super::verdict::{Judgement, Verdict};

/// The line under the verdict: the gravest reason, or for GO who inspected the load and when.
pub fn first_line(judgement: &Judgement, language: Language) -> String {
    let reason = judgement.reasons.first();
    match (reason, &judgement.seal) {
        (Some(reason), _) if reason.grade() != Grade::Note => reason.say(language),
        (_, Some(seal)) => {
            let who = judgement.signer.as_ref();
            let who = who.map(|signer| signer.credential.holder.to_string()).unwrap_or_default();
            words::VerdictInspectedBy { load: &seal.load, who, at: seal.issued.dtg() }.say(language)
        }
        (Some(reason), None) => reason.say(language),
        (None, None) => String::new(),
    }
}

/// The verdict as a voice says it, with the line that follows.
pub fn spoken(verdict: Verdict, first: &str, language: Language) -> String {
    match verdict {
        Verdict::Go => words::SpokenGo { first }.say(language),
        Verdict::Wait => words::SpokenWait { first }.say(language),
        Verdict::NoGo => words::SpokenNoGo { first }.say(language),
    }
}

/// What hurts people under a hovering aircraft. The static voltage is from TM 1-1520-240-10 §4-3-9; the rest is common
/// practice.
pub fn cautions(language: Language) -> Vec<String> {
    vec![
        words::CautionStatic.say(language),
        words::CautionObstacle.say(language),
        words::CautionManual.say(language),
        words::CautionPersons.say(language),
    ]
}

impl Reason {
    /// What a person reads who has never used the program: what is wrong, and what to do.
    pub fn say(&self, language: Language) -> String {
        self.saying().say(language)
    }

    /// The same, in no language yet.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Unreadable(why) => words::ReasonUnreadable { why }.into(),
            Self::NoInspectionKnown => words::ReasonNoInspectionKnown.into(),
            Self::BadSignature => words::ReasonBadSignature.into(),
            Self::UnknownAuthority => words::ReasonUnknownAuthority.into(),
            Self::NotAnInspector(who) => words::ReasonNotAnInspector { who }.into(),
            Self::CredentialExpired { inspector, expired } => {
                words::ReasonCredentialExpired { inspector, expired: expired.dtg() }.into()
            }
            Self::Revoked(who) => words::ReasonRevoked { who }.into(),
            Self::NotFit => words::ReasonNotFit.into(),
            Self::OpenDeficiency(count) => words::ReasonOpenDeficiency { count }.into(),
            Self::Expired { at } => words::ReasonExpired { at: at.dtg() }.into(),
            Self::ValidTooLong { most } => words::ReasonValidTooLong { most }.into(),
            Self::OtherLoad { sealed, tag } => words::ReasonOtherLoad { sealed, tag }.into(),
            Self::TagChanged => words::ReasonTagChanged.into(),
            Self::ProcedureNotOrdered { ordered, walked } => {
                words::ReasonProcedureNotOrdered { ordered, walked }.into()
            }
            Self::TagForged => words::ReasonTagForged.into(),
            Self::OwnWork(who) => words::ReasonOwnWork { who }.into(),
            Self::Superseded { at, fit: true, .. } => words::ReasonNewerFit { at: at.dtg() }.into(),
            Self::Superseded { at, fit: false, .. } => words::ReasonNewerNotFit { at: at.dtg() }.into(),
            // Another reason is none without its words.
            Self::Voided { by, at, cause: VoidCause::Other, note: Some(note) } => {
                words::ReasonVoidedSaid { by, at: at.dtg(), note }.into()
            }
            Self::Voided { by, at, cause, .. } => {
                words::ReasonVoided { by, at: at.dtg(), cause: cause.saying() }.into()
            }
            Self::RosterTooOld { authority, since } => {
                words::ReasonRosterTooOld { authority, since: since.dtg() }.into()
            }
            Self::NoRoster { authority } => words::ReasonNoRoster { authority }.into(),
            Self::FromTheFuture { ahead } => words::ReasonFromTheFuture { ahead }.into(),
            Self::ClockBehind { by, time, .. } => behind(by, &time.dtg()),
            Self::MemoryPutBack { since } => words::ReasonMemoryPutBack { since: since.dtg() }.into(),
            Self::ProcedureNotApproved { authority, procedure, version, any: true } => {
                words::ReasonProcedureNotApproved { authority, procedure, version: version.to_string() }
                    .into()
            }
            Self::ProcedureNotApproved { authority, procedure, version, any: false } => {
                words::ReasonNothingApproved { authority, procedure, version: version.to_string() }.into()
            }
            Self::ProcedureWithdrawn { authority, procedure, version, since } => {
                words::ReasonProcedureWithdrawn {
                    authority,
                    procedure,
                    version: version.to_string(),
                    since: since.dtg(),
                }
                .into()
            }
            Self::CopyOutOfDate { until } => words::ReasonCopyOutOfDate { until: until.dtg() }.into(),
            Self::TagUnsigned => words::ReasonTagUnsigned.into(),
            Self::TagPlannerUnknown => words::ReasonTagPlannerUnknown.into(),
            Self::PlannerExpired { planner, expired } => {
                words::ReasonPlannerExpired { planner, expired: expired.dtg() }.into()
            }
            Self::EquipmentRatedBelow { kind, serial, rating, gross } => {
                words::ReasonEquipmentRatedBelow { kind, serial, rating, gross }.into()
            }
            Self::EquipmentOverdue { kind, serial, since } => {
                words::ReasonEquipmentOverdue { kind, serial, since: since.date() }.into()
            }
            Self::EquipmentListNotApproved { kind, serial, authority, procedure, version } => {
                let version = version.to_string();
                words::ReasonEquipmentListNotApproved { kind, serial, authority, procedure, version }.into()
            }
            Self::EquipmentWithdrawn { kind, serial, at, why } => {
                words::ReasonEquipmentWithdrawn { kind, serial, at: at.dtg(), why }.into()
            }
            Self::RiggerNotKnown => words::ReasonRiggerNotKnown.into(),
            Self::Examination { result: false } => words::ReasonExaminationKey.into(),
            Self::Examination { result: true } => words::ReasonExaminationResult.into(),
            Self::TagNotSeen(load) => words::ReasonTagNotSeen { load }.into(),
            Self::MassOverAllowable { mass, allowable } => {
                words::ReasonMassOverAllowable { mass, allowable }.into()
            }
            Self::Corrected(count) => words::ReasonCorrected { count }.into(),
            Self::ExpiresSoon(left) => words::ReasonExpiresSoon { left }.into(),
            Self::Moved { event, at, by, note } => moved(*event, &at.dtg(), by.as_ref(), note.as_ref()),
            Self::MovedUnsigned { event, at } => {
                movement::ReasonMovementUnsigned { event: event.saying(), at: at.dtg() }.into()
            }
        }
    }
}

fn behind(by: &Speaker, time: &str) -> Saying {
    match by {
        Speaker::ThisDevice => words::ReasonClockBehindItself { time }.into(),
        Speaker::Authority(by) => words::ReasonClockBehind { by, time }.into(),
        Speaker::Person(by) => words::ReasonClockBehind { by, time }.into(),
    }
}

fn moved(event: MovementEvent, at: &str, by: Option<&CallSign>, note: Option<&Note>) -> Saying {
    // Another reason is none without its words.
    let said = match (event, note) {
        (MovementEvent::Refused(RefusalCause::Other), Some(note)) => {
            movement::MovementRefused { cause: Saying::verbatim(note) }.into()
        }
        _ => event.saying(),
    };
    match (event, by) {
        (MovementEvent::Lifted, Some(by)) => movement::ReasonLiftedBefore { at, by }.into(),
        (MovementEvent::Lifted, None) => movement::ReasonLiftedBeforeHere { at }.into(),
        (_, Some(by)) => movement::ReasonMoved { event: said, at, by }.into(),
        (_, None) => movement::ReasonMovedHere { event: said, at }.into(),
    }
}
