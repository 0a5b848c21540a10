use slingseal_words::{CallSign, Language, LoadNumber, Name, Quantity, Seconds, Time};

use slingseal_message::seal::VoidCause;

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

/// One reason of a verdict. Each names the accident that it prevents.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// A damaged or foreign code: nothing is known of the load.
    Unreadable(String),
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
    /// The tag's signature does not match.
    TagForged,
    /// Who rigged the load sealed it: nobody else has looked.
    OwnWork(CallSign),
    /// A later inspection says otherwise.
    Superseded {
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
    /// This device's clock is behind what it has already seen.
    ClockBehind {
        /// How far.
        behind: Seconds,
    },
    /// Nobody who plans has signed the tag.
    TagUnsigned,
    /// The tag is signed, and nobody here trusts the signer as a planner.
    TagPlannerUnknown,
    /// The tag was not scanned: the seal may belong to another load.
    TagNotSeen(LoadNumber),
    /// The gross mass is close to or over the allowable load of the tag.
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
            | Self::TagPlannerUnknown => Grade::Wait,
            Self::TagNotSeen(_) | Self::Corrected(_) | Self::ExpiresSoon(_) => Grade::Note,
            _ => Grade::NoGo,
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
            Self::OwnWork(_) => "own_work",
            Self::Superseded { .. } => "superseded",
            Self::Voided { .. } => "voided",
            Self::RosterTooOld { .. } => "roster_too_old",
            Self::NoRoster { .. } => "no_roster",
            Self::FromTheFuture { .. } => "from_the_future",
            Self::ClockBehind { .. } => "clock_behind",
            Self::TagUnsigned => "tag_unsigned",
            Self::TagPlannerUnknown => "tag_planner_unknown",
            Self::TagNotSeen(_) => "tag_not_seen",
            Self::MassOverAllowable { .. } => "mass_over_allowable",
            Self::Corrected(_) => "corrected",
            Self::ExpiresSoon(_) => "expires_soon",
        }
    }

    /// What a person reads who has never used the program: what is wrong, and what to do.
    pub fn say(&self, language: Language) -> String {
        match language {
            Language::English => self.english(),
            Language::Spanish => self.spanish(),
        }
    }

    fn english(&self) -> String {
        match self {
            Self::Unreadable(why) => format!("The code cannot be read: {why}"),
            Self::NoInspectionKnown => {
                "No inspection of this load is known here. Scan the inspector's seal.".into()
            }
            Self::BadSignature => {
                "The seal is forged or altered. Keep the load down and call the leader.".into()
            }
            Self::UnknownAuthority => {
                "The seal comes from an authority that this device does not trust.".into()
            }
            Self::NotAnInspector(who) => format!("{who} signed and is not an inspector."),
            Self::CredentialExpired { inspector, expired } => {
                format!("The credential of {inspector} had run out ({}).", expired.dtg())
            }
            Self::Revoked(who) => format!("The authority has revoked the credential of {who}."),
            Self::NotFit => "The inspector found this load NOT fit.".into(),
            Self::OpenDeficiency(count) => {
                format!("The seal leaves {count} found and not put right. Inspect again.")
            }
            Self::Expired { at } => format!("The seal ran out at {}. Inspect again.", at.dtg()),
            Self::ValidTooLong { most } => format!("The seal claims to hold longer than the {most} allowed."),
            Self::OtherLoad { sealed, tag } => format!("The seal is for load {sealed}; this is load {tag}."),
            Self::TagChanged => {
                "The tag on the load is not the one that was inspected. Inspect again.".into()
            }
            Self::TagForged => "The tag on the load is forged or altered.".into(),
            Self::OwnWork(who) => format!("{who} rigged this load and may not inspect it."),
            Self::Superseded { at, fit: true } => {
                format!("A newer inspection exists ({}). Scan that seal.", at.dtg())
            }
            Self::Superseded { at, fit: false } => {
                format!("A newer inspection found this load NOT fit ({}).", at.dtg())
            }
            Self::Voided { by, at, cause } => {
                format!("{by} voided the seal at {}: {}.", at.dtg(), cause.say(Language::English))
            }
            Self::RosterTooOld { authority, since } => {
                format!("The roster of {authority} is out of date since {}. Get a new one.", since.dtg())
            }
            Self::NoRoster { authority } => {
                format!("No roster of {authority} here. Get one: someone may be revoked.")
            }
            Self::FromTheFuture { ahead } => {
                format!("The seal is dated {ahead} ahead of this device. Check both clocks.")
            }
            Self::ClockBehind { behind } => format!("This device's clock is {behind} behind. Set it."),
            Self::TagUnsigned => {
                "No planner has signed the tag. Check weight and aircraft with the leader.".into()
            }
            Self::TagPlannerUnknown => {
                "The tag's planner is not known here. Check weight and aircraft.".into()
            }
            Self::TagNotSeen(load) => format!("Tag not scanned. The seal is for load {load} alone: compare."),
            Self::MassOverAllowable { mass, allowable } => {
                format!("The load weighs {mass}; the aircraft is allowed {allowable}.")
            }
            Self::Corrected(1) => "1 deficiency was found and put right.".into(),
            Self::Corrected(count) => format!("{count} deficiencies were found and put right."),
            Self::ExpiresSoon(left) => format!("The seal runs out in {left}."),
        }
    }

    fn spanish(&self) -> String {
        match self {
            Self::Unreadable(why) => format!("No se puede leer el código: {why}"),
            Self::NoInspectionKnown => {
                "Aquí no consta ninguna inspección de esta carga. Escanee el sello.".into()
            }
            Self::BadSignature => {
                "El sello es falso o fue alterado. No levante la carga y avise al jefe.".into()
            }
            Self::UnknownAuthority => {
                "El sello viene de una autoridad en la que este equipo no confía.".into()
            }
            Self::NotAnInspector(who) => format!("{who} firmó y no es inspector."),
            Self::CredentialExpired { inspector, expired } => {
                format!("La credencial de {inspector} había caducado ({}).", expired.dtg())
            }
            Self::Revoked(who) => format!("La autoridad revocó la credencial de {who}."),
            Self::NotFit => "El inspector halló la carga NO apta.".into(),
            Self::OpenDeficiency(count) => {
                format!("El sello deja {count} sin corregir. Inspeccione otra vez.")
            }
            Self::Expired { at } => format!("El sello caducó a las {}. Inspeccione otra vez.", at.dtg()),
            Self::ValidTooLong { most } => format!("El sello pretende valer más de lo permitido ({most})."),
            Self::OtherLoad { sealed, tag } => format!("El sello es de la carga {sealed}; esta es la {tag}."),
            Self::TagChanged => "La etiqueta no es la que se inspeccionó. Inspeccione otra vez.".into(),
            Self::TagForged => "La etiqueta de la carga es falsa o fue alterada.".into(),
            Self::OwnWork(who) => format!("{who} aparejó esta carga y no puede inspeccionarla."),
            Self::Superseded { at, fit: true } => {
                format!("Hay una inspección más nueva ({}). Escanee ese sello.", at.dtg())
            }
            Self::Superseded { at, fit: false } => {
                format!("Una inspección más nueva halló la carga NO apta ({}).", at.dtg())
            }
            Self::Voided { by, at, cause } => {
                format!("{by} anuló el sello a las {}: {}.", at.dtg(), cause.say(Language::Spanish))
            }
            Self::RosterTooOld { authority, since } => {
                format!("La lista de {authority} está vencida desde {}. Consiga una nueva.", since.dtg())
            }
            Self::NoRoster { authority } => {
                format!("Falta la lista de {authority}. Consígala: puede haber revocados.")
            }
            Self::FromTheFuture { ahead } => {
                format!("El sello está {ahead} por delante de este reloj. Revise ambos.")
            }
            Self::ClockBehind { behind } => {
                format!("El reloj de este equipo va {behind} atrasado. Ajústelo.")
            }
            Self::TagUnsigned => "Ningún planificador firmó la etiqueta. Confirme peso y aeronave.".into(),
            Self::TagPlannerUnknown => {
                "No se conoce al planificador de la etiqueta. Confirme peso y aeronave.".into()
            }
            Self::TagNotSeen(load) => {
                format!("Etiqueta sin escanear. El sello es solo de la carga {load}: compare.")
            }
            Self::MassOverAllowable { mass, allowable } => {
                format!("La carga pesa {mass}; la aeronave admite {allowable}.")
            }
            Self::Corrected(1) => "Se halló y corrigió 1 deficiencia.".into(),
            Self::Corrected(count) => format!("Se hallaron y corrigieron {count} deficiencias."),
            Self::ExpiresSoon(left) => format!("El sello caduca en {left}."),
        }
    }
}
