//! What a person reads of a verdict and of each reason.

use slingseal_words::Language;

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
            let (load, at) = (&seal.load, seal.issued.dtg());
            language.pick(
                format!("Load {load} inspected by {who}, {at}."),
                format!("Carga {load} inspeccionada por {who}, {at}."),
            )
        }
        (Some(reason), None) => reason.say(language),
        (None, None) => String::new(),
    }
}

/// The verdict as a voice says it, before the line that follows.
pub fn spoken(verdict: Verdict, language: Language) -> &'static str {
    match (verdict, language) {
        (Verdict::Go, Language::English) => "Go.",
        (Verdict::Wait, Language::English) => "Wait. Do not hook up yet.",
        (Verdict::NoGo, Language::English) => "Do not lift.",
        (Verdict::Go, Language::Spanish) => "Apta. Puede engancharse.",
        (Verdict::Wait, Language::Spanish) => "Espere. No enganche todavía.",
        (Verdict::NoGo, Language::Spanish) => "No levante la carga.",
    }
}

/// What hurts people under a hovering aircraft. The static voltage is from TM 1-1520-240-10 §4-3-9; the rest is common
/// practice.
pub fn cautions(language: Language) -> [&'static str; 3] {
    language.pick(
        [
            "Ground the hook before you touch it: static up to 40,000 V.",
            "Never stand between the load and an obstacle. Know your way out.",
            "This supports the hookup team; the governing manual and the aircrew rule.",
        ],
        [
            "Ponga a tierra el gancho antes de tocarlo: estática de hasta 40 000 V.",
            "Nunca se ponga entre la carga y un obstáculo. Tenga clara su salida.",
            "Esto ayuda al equipo de enganche; mandan el manual vigente y la tripulación.",
        ],
    )
}

fn name(by: &Speaker) -> String {
    match by {
        Speaker::ThisDevice => String::new(),
        Speaker::Authority(name) => name.to_string(),
        Speaker::Person(name) => name.to_string(),
    }
}

impl Reason {
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
                format!("The seal leaves {count} found and not corrected. Inspect again.")
            }
            Self::Expired { at } => format!("The seal ran out at {}. Inspect again.", at.dtg()),
            Self::ValidTooLong { most } => format!("The seal claims to hold longer than the {most} allowed."),
            Self::OtherLoad { sealed, tag } => format!("The seal is for load {sealed}; this is load {tag}."),
            Self::TagChanged => {
                "The tag on the load is not the one that was inspected. Inspect again.".into()
            }
            Self::TagForged => "The tag on the load is forged or altered.".into(),
            Self::OwnWork(who) => format!("{who} rigged this load and may not inspect it."),
            Self::Superseded { at, fit: true, .. } => {
                format!("A newer inspection exists ({}). Scan that seal.", at.dtg())
            }
            Self::Superseded { at, fit: false, .. } => {
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
            Self::ClockBehind { by: Speaker::ThisDevice, time, .. } => {
                format!("This clock is behind: this device was at {} already. Set it.", time.dtg())
            }
            Self::ClockBehind { by, time, .. } => {
                format!("This clock is behind: {} signed at {}. Set it.", name(by), time.dtg())
            }
            Self::MemoryPutBack { since } => format!(
                "An older copy of this device's memory was put back ({}). Receive a newer roster of every authority trusted here.",
                since.dtg()
            ),
            Self::CopyOutOfDate { until } => {
                format!("This page held until {}. Get a new file from the leader.", until.dtg())
            }
            Self::TagUnsigned => {
                "No planner has signed the tag. Check weight and aircraft with the leader.".into()
            }
            Self::TagPlannerUnknown => {
                "The tag's planner is not known here. Check weight and aircraft.".into()
            }
            Self::PlannerExpired { planner, expired } => format!(
                "The credential of {planner}, who planned, ran out ({}). Have the tag signed anew.",
                expired.dtg()
            ),
            Self::EquipmentRatedBelow { kind, serial, rating, gross } => {
                format!("{kind} {serial} is rated {rating} and the load weighs {gross}. Rig it anew.")
            }
            Self::EquipmentOverdue { kind, serial, since } => {
                format!("{kind} {serial}: its inspection was due {}. Have it inspected or change it.", since.date())
            }
            Self::RiggerNotKnown => {
                "Who rigged the load is not known here. Make sure that another person inspected it.".into()
            }
            Self::Examination { result: false } => {
                "This is an examination key: training, and no inspection. Deficiencies are planted on that load.".into()
            }
            Self::Examination { result: true } => {
                "This is an examination result: training, and no inspection. It says nothing of a load.".into()
            }
            Self::TagNotSeen(load) => format!("Tag not scanned. The seal is for load {load} alone: compare."),
            Self::MassOverAllowable { mass, allowable } => {
                format!("The load weighs {mass}; the aircraft is allowed {allowable}.")
            }
            Self::Corrected(1) => "1 deficiency was found and corrected.".into(),
            Self::Corrected(count) => format!("{count} deficiencies were found and corrected."),
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
            Self::Superseded { at, fit: true, .. } => {
                format!("Hay una inspección más nueva ({}). Escanee ese sello.", at.dtg())
            }
            Self::Superseded { at, fit: false, .. } => {
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
            Self::ClockBehind { by: Speaker::ThisDevice, time, .. } => {
                format!("Este reloj va atrasado: el equipo ya estuvo a las {}. Ajústelo.", time.dtg())
            }
            Self::ClockBehind { by, time, .. } => {
                format!("Este reloj va atrasado: {} firmó a las {}. Ajústelo.", name(by), time.dtg())
            }
            Self::MemoryPutBack { since } => format!(
                "Se repuso una copia anterior de la memoria de este equipo ({}). Reciba una lista posterior de cada autoridad.",
                since.dtg()
            ),
            Self::CopyOutOfDate { until } => {
                format!("Esta página valía hasta {}. Pida un archivo nuevo al jefe.", until.dtg())
            }
            Self::TagUnsigned => "Ningún planificador firmó la etiqueta. Confirme peso y aeronave.".into(),
            Self::TagPlannerUnknown => {
                "No se conoce al planificador de la etiqueta. Confirme peso y aeronave.".into()
            }
            Self::PlannerExpired { planner, expired } => format!(
                "La credencial de {planner}, que planificó, caducó ({}). Haga firmar la etiqueta de nuevo.",
                expired.dtg()
            ),
            Self::EquipmentRatedBelow { kind, serial, rating, gross } => {
                format!("{kind} {serial} admite {rating} y la carga pesa {gross}. Apareje de nuevo.")
            }
            Self::EquipmentOverdue { kind, serial, since } => {
                format!("{kind} {serial}: su revisión vencía el {}. Revíselo o cámbielo.", since.date())
            }
            Self::RiggerNotKnown => {
                "Aquí no consta quién aparejó la carga. Compruebe que la inspeccionó otra persona.".into()
            }
            Self::Examination { result: false } => {
                "Es una clave de examen: instrucción y no inspección. En esa carga hay deficiencias puestas."
                    .into()
            }
            Self::Examination { result: true } => {
                "Es un resultado de examen: instrucción y no inspección. No dice nada de una carga.".into()
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
