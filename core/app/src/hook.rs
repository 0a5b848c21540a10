//! The hook check: scan the seal, scan the tag, one verdict. And the word that takes a seal back.

use serde::Serialize;

use super::sealing::seal_bytes;
use super::setup::DEVICE_VAULT;
use super::tags::tag_bytes;
use super::{App, AppError, CodeView, Inner, Stamp, TagView};
use slingseal_judgement::{Grade, Known, Question, Report, Verdict, judge};
use slingseal_message::envelope::{Kind, unwrap};
use slingseal_message::seal::{Outcome, ReceivedSeal, Seal, TagPrint, Void, VoidCause};
use slingseal_message::tag::ReceivedTag;
use slingseal_words::{Language, Time};

/// The verdict, ready to fill a screen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct VerdictView {
    /// The verdict.
    pub verdict: VerdictWord,
    /// The word: `GO`, `WAIT`, `NO-GO`.
    pub word: String,
    /// The first reason, in plain words.
    pub first: String,
    /// Every reason, the gravest first.
    pub reasons: Vec<ReasonView>,
    /// What the seal says, where one was read.
    pub facts: Option<SealFacts>,
    /// The tag, where it was scanned.
    pub tag: Option<TagView>,
    /// What to mind under the aircraft, whatever the verdict.
    pub cautions: Vec<String>,
    /// The verdict as a voice would say it.
    pub spoken: String,
}

/// The verdict.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum VerdictWord {
    /// Hook it on.
    Go,
    /// Wait.
    Wait,
    /// Keep it on the ground.
    NoGo,
}

/// One reason.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ReasonView {
    /// A stable word.
    pub code: String,
    /// `no_go`, `wait` or `note`.
    pub grade: String,
    /// What a person reads.
    pub text: String,
}

/// What a seal says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SealFacts {
    /// The load.
    pub load: String,
    /// Fit or not.
    pub fit: bool,
    /// Who sealed it, where the signatures passed.
    pub inspector: Option<String>,
    /// Who credentialed the inspector.
    pub authority: Option<String>,
    /// When.
    pub issued: Stamp,
    /// Until when.
    pub valid_until: Stamp,
    /// Gross mass.
    pub mass: String,
    /// The procedure and its version.
    pub procedure: String,
    /// Deficiencies found.
    pub found: u32,
    /// Deficiencies put right and looked at again.
    pub corrected: u32,
    /// The digest of the record.
    pub record: String,
}

impl App {
    /// Judges a seal, a tag, or both. A tag alone is answered from the seals that this device holds; with none it is
    /// NO-GO.
    ///
    /// # Errors
    /// Texts that are no seal and no tag; storage. A damaged seal is no error: it is NO-GO.
    pub fn check(&self, seal: Option<&str>, tag: Option<&str>) -> Result<VerdictView, AppError> {
        let tag = tag.map(tag_bytes).transpose()?;
        let mut inner = self.lock();
        let Some(seal) = seal else {
            let Some(tag) = tag else {
                return Err(AppError::bad_input("nothing was scanned; scan the seal or the tag"));
            };
            let known = inner.newest_seal(&tag)?;
            return inner.check(known.as_deref(), Some(&tag));
        };
        if let Ok((kind @ (Kind::ExamKey | Kind::ExamResult), _)) = unwrap(seal) {
            let tag = tag.as_deref().map(|bytes| inner.tag_view(bytes)).transpose()?;
            return Ok(no_inspection(kind, tag, inner.language()));
        }
        let bytes = seal_bytes(seal)?;
        let verdict = inner.check(Some(&bytes), tag.as_deref())?;
        inner.keep_seal(&bytes, &verdict)?;
        Ok(verdict)
    }

    /// Takes a seal back: signed with this device's credential, in any role.
    ///
    /// # Errors
    /// No such record here; no credential; a wrong PIN.
    pub fn void(
        &self,
        record: &str,
        cause: &str,
        note: Option<&str>,
        pin: &str,
    ) -> Result<CodeView, AppError> {
        // What can be told without the PIN is told first: it costs no try.
        self.lock().void_of(record, cause, note)?;
        let key = self.open_key(DEVICE_VAULT, pin)?;
        let mut inner = self.lock();
        let (void, credential) = inner.void_of(record, cause, note)?;
        let unsigned = void.prepare(&credential);
        let bytes = unsigned.finish(&key.sign(&unsigned.to_be_signed()));
        drop(key);
        inner.receive_void(&bytes)?;
        CodeView::of(Kind::Void, &bytes)
    }
}

impl Inner {
    /// The void that a person asks for, and the credential to sign it with.
    fn void_of(&self, record: &str, cause: &str, note: Option<&str>) -> Result<(Void, Vec<u8>), AppError> {
        let digest = self.record_digest(record)?;
        let none = || AppError::not_found("there is no such record here; scan its seal first");
        let known = self.store.read().record_bytes(digest)?.ok_or_else(none)?;
        let seal = ReceivedSeal::open(&known.seal)?.seal;
        let cause = VoidCause::ALL.into_iter().find(|known| known.word() == cause).ok_or_else(|| {
            let words: Vec<&str> = VoidCause::ALL.iter().map(|cause| cause.word()).collect();
            AppError::bad_input(format!("\"{cause}\" is no cause; use {}", words.join(", ")))
        })?;
        let note = note.filter(|text| !text.trim().is_empty()).map(super::walks::note).transpose()?;
        if cause == VoidCause::Other && note.is_none() {
            return Err(AppError::bad_input("another cause needs a note; say why"));
        }
        let (_, credential) = self.credential_for(None)?;
        let void = Void { load: seal.load, issued: self.now(), record: digest, cause, note };
        Ok((void, credential))
    }

    /// The newest seal that this device holds for a tag. Found by the load and the print in the seal itself: a seal that was
    /// scanned before its tag stands in no list by tag.
    fn newest_seal(&self, tag: &[u8]) -> Result<Option<Vec<u8>>, AppError> {
        let received = ReceivedTag::open(tag)?;
        let print = TagPrint::of(&received.digest);
        let read = self.store.read();
        let mut newest: Option<(Seal, Vec<u8>)> = None;
        for row in read.records_of_load(received.tag.load.as_str())? {
            let Some(bytes) = read.record_bytes(row.digest)?.map(|bytes| bytes.seal) else { continue };
            let Ok(ReceivedSeal { seal, .. }) = ReceivedSeal::open(&bytes) else { continue };
            let later = newest.as_ref().is_none_or(|(known, _)| {
                (seal.issued, seal.outcome, seal.record) > (known.issued, known.outcome, known.record)
            });
            if seal.tag == print && later {
                newest = Some((seal, bytes));
            }
        }
        Ok(newest.map(|(_, bytes)| bytes))
    }

    /// The verdict on bytes.
    pub(crate) fn check(&self, seal: Option<&[u8]>, tag: Option<&[u8]>) -> Result<VerdictView, AppError> {
        let trusted = self.trusted()?;
        let seen = tag.map(|bytes| self.tag_seen(bytes, &trusted)).transpose()?;
        let said = seal.and_then(|bytes| ReceivedSeal::open(bytes).ok()).map(|received| received.seal);
        let (load, record) = said.map(|seal| (seal.load, seal.record)).unzip();
        let (mut seals, mut voids) = (Vec::new(), Vec::new());
        if let Some(load) = load.as_ref().or(seen.as_ref().map(|seen| &seen.load)) {
            let read = self.store.read();
            for row in read.records_of_load(load.as_str())? {
                seals.extend(read.record_bytes(row.digest)?.map(|bytes| bytes.seal));
            }
        }
        // By the record, and not by the load that a void names: the record is what is taken back.
        if let Some(record) = record {
            voids.extend(self.store.read().voids_of(record)?.into_iter().map(|row| row.bytes));
        }
        let known = Known {
            trusted: &trusted,
            now: self.now(),
            latest_seen: self.latest_seen(&trusted)?,
            seals: &seals,
            voids: &voids,
        };
        let report = judge(Question { seal, tag: seen.as_ref() }, known);
        let authority = report.signer.as_ref().and_then(|signer| trusted.authority(&signer.authority));
        let authority = authority.map(|authority| authority.name.to_string());
        let tag = tag.map(|bytes| self.tag_view(bytes)).transpose()?;
        Ok(verdict_view(report, authority, tag, self.language()))
    }

    /// The latest time signed by an authority or written in this journal: this clock cannot be before it.
    fn latest_seen(&self, trusted: &slingseal_message::trust::Trusted) -> Result<Option<Time>, AppError> {
        let rosters = trusted
            .iter()
            .filter_map(|authority| authority.roster.as_ref())
            .map(|roster| roster.issued)
            .max();
        let head = self.store.head().seq;
        let last = if head > 0 { self.store.read().entry(head)?.map(|entry| entry.time) } else { None };
        Ok(rosters.max(last))
    }

    /// A seal that was scanned and whose signer is trusted is known from here on: a tag alone finds it.
    /// One of somebody who may not inspect is no inspection, and takes no place in the account.
    pub(crate) fn keep_seal(&mut self, bytes: &[u8], verdict: &VerdictView) -> Result<(), AppError> {
        let Some(facts) = &verdict.facts else { return Ok(()) };
        let Some(inspector) = &facts.inspector else { return Ok(()) };
        if verdict.reasons.iter().any(|reason| reason.code == "not_an_inspector") {
            return Ok(());
        }
        let inspector = inspector.clone();
        self.put_seal(bytes, &inspector, verdict.tag.as_ref())
    }
}

/// What belongs to training says nothing of a load, whoever signed it.
fn no_inspection(kind: Kind, tag: Option<TagView>, language: Language) -> VerdictView {
    let first = match kind {
        Kind::ExamKey => language.pick(
            "This is an examination key: training, and no inspection. Deficiencies are planted on that load.",
            "Es una clave de examen: instrucción y no inspección. En esa carga hay deficiencias puestas.",
        ),
        _ => language.pick(
            "This is an examination result: training, and no inspection. It says nothing of a load.",
            "Es un resultado de examen: instrucción y no inspección. No dice nada de una carga.",
        ),
    }
    .to_owned();
    let keep_down = language.pick("Do not lift.", "No levante la carga.");
    VerdictView {
        verdict: VerdictWord::NoGo,
        word: "NO-GO".into(),
        spoken: format!("{keep_down} {first}"),
        reasons: vec![ReasonView { code: "examination".into(), grade: "no_go".into(), text: first.clone() }],
        first,
        facts: None,
        tag,
        cautions: cautions(language).iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

fn verdict_view(
    report: Report,
    authority: Option<String>,
    tag: Option<TagView>,
    language: Language,
) -> VerdictView {
    let (verdict, word) = match report.verdict {
        Verdict::Go => (VerdictWord::Go, "GO"),
        Verdict::Wait => (VerdictWord::Wait, "WAIT"),
        Verdict::NoGo => (VerdictWord::NoGo, "NO-GO"),
    };
    let facts = report.seal.map(|seal| SealFacts {
        load: seal.load.to_string(),
        fit: seal.outcome == Outcome::Fit,
        inspector: report.signer.as_ref().map(|signer| signer.credential.holder.to_string()),
        authority,
        issued: seal.issued.into(),
        valid_until: seal.valid_until.into(),
        mass: seal.mass.to_string(),
        procedure: format!("{} {}", seal.procedure, seal.version),
        found: seal.found.into(),
        corrected: seal.corrected.into(),
        record: seal.record.to_string(),
    });
    let reasons: Vec<ReasonView> = report
        .reasons
        .iter()
        .map(|reason| ReasonView {
            code: reason.code().into(),
            grade: match reason.grade() {
                Grade::NoGo => "no_go",
                Grade::Wait => "wait",
                Grade::Note => "note",
            }
            .into(),
            text: reason.say(language),
        })
        .collect();
    let first = match (&reasons.first(), &facts) {
        (Some(reason), _) if reason.grade != "note" => reason.text.clone(),
        (_, Some(facts)) => {
            let who = facts.inspector.clone().unwrap_or_default();
            language.pick(
                format!("Load {} inspected by {who}, {}.", facts.load, facts.issued.dtg),
                format!("Carga {} inspeccionada por {who}, {}.", facts.load, facts.issued.dtg),
            )
        }
        (Some(reason), None) => reason.text.clone(),
        (None, None) => String::new(),
    };
    let cautions = cautions(language).iter().map(|caution| (*caution).to_owned()).collect();
    let spoken_word = match (report.verdict, language) {
        (Verdict::Go, Language::English) => "Go.",
        (Verdict::Wait, Language::English) => "Wait. Do not hook up yet.",
        (Verdict::NoGo, Language::English) => "Do not lift.",
        (Verdict::Go, Language::Spanish) => "Adelante.",
        (Verdict::Wait, Language::Spanish) => "Espere. No enganche todavía.",
        (Verdict::NoGo, Language::Spanish) => "No levante la carga.",
    };
    VerdictView {
        verdict,
        word: word.into(),
        spoken: format!("{spoken_word} {first}"),
        first,
        reasons,
        facts,
        tag,
        cautions,
    }
}

/// What hurts people under a hovering aircraft. The static voltage is from TM 1-1520-240-10 §4-3-9; the rest is common
/// practice.
fn cautions(language: Language) -> [&'static str; 3] {
    language.pick(
        [
            "Ground the hook before you touch it: static up to 40,000 V.",
            "Never stand between the load and an obstacle. Know your way out.",
            "This supports the hookup team; the governing manual and the aircrew rule.",
        ],
        [
            "Descargue el gancho antes de tocarlo: estática de hasta 40 000 V.",
            "Nunca se ponga entre la carga y un obstáculo. Tenga clara su salida.",
            "Esto ayuda al equipo de enganche; mandan el manual vigente y la tripulación.",
        ],
    )
}
