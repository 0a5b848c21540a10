//! The hook check: scan the seal, scan the tag, one verdict. And the word that takes a seal back.

use serde::Serialize;

use super::sealing::seal_bytes;
use super::setup::DEVICE_VAULT;
use super::tags::tag_bytes;
use super::{App, AppError, CodeView, Inner, Stamp, TagView};
use slingseal_judgement::{
    Evidence, Grade, Judgement, LatestTrusted, LoadJudgement, LoadWord, Memory, Reason, Speaker, Verdict,
    judge_seal, judge_tag, standing_of_load,
};
use slingseal_message::envelope::{Kind, unwrap};
use slingseal_message::seal::{Outcome, ReceivedSeal, Void, VoidCause};
use slingseal_message::trust::Trusted;
use slingseal_words::{Language, LoadNumber};

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
            return inner.check(None, Some(&tag));
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

    /// How every inspection of a load stands, and the load with them.
    pub(crate) fn judge_load(&self, load: &LoadNumber) -> Result<LoadJudgement, AppError> {
        let trusted = self.trusted()?;
        let words = self.words_of_load(load, &trusted)?;
        let words: Vec<&LoadWord> = words.iter().collect();
        let latest = self.journal_time()?;
        Ok(standing_of_load(load, &self.evidence(&trusted, &words, latest.as_ref())))
    }

    fn evidence<'e>(
        &self,
        trusted: &'e Trusted,
        words: &'e [&'e LoadWord],
        latest_trusted: Option<&'e LatestTrusted>,
    ) -> Evidence<'e> {
        Evidence { trusted, now: self.now(), latest_trusted, memory: Memory::Whole, words }
    }

    /// The verdict on bytes; on a tag alone by what is known of its load.
    pub(crate) fn check(&self, seal: Option<&[u8]>, tag: Option<&[u8]>) -> Result<VerdictView, AppError> {
        let trusted = self.trusted()?;
        let shown = seal.map(|bytes| LoadWord::open(Kind::Seal, bytes, &trusted));
        let scanned = tag.map(|bytes| LoadWord::open(Kind::Tag, bytes, &trusted)).transpose()?;
        let load = match (&shown, &scanned) {
            (Some(Ok(seal)), _) => Some(seal.load().clone()),
            (_, tag) => tag.as_ref().map(|tag| tag.load().clone()),
        };
        let words = load.map(|load| self.words_of_load(&load, &trusted)).transpose()?.unwrap_or_default();
        let words: Vec<&LoadWord> = words.iter().collect();
        let latest = self.journal_time()?;
        let evidence = self.evidence(&trusted, &words, latest.as_ref());
        let judgement = match (&shown, &scanned) {
            (Some(shown), tag) => judge_seal(shown.as_ref(), tag.as_ref(), &evidence),
            (None, Some(tag)) => judge_tag(tag, &evidence),
            (None, None) => return Err(AppError::bad_input("nothing was scanned; scan the seal or the tag")),
        };
        let authority = judgement.signer.as_ref().and_then(|signer| trusted.authority(&signer.authority));
        let authority = authority.map(|authority| authority.name.to_string());
        let tag = tag.map(|bytes| self.tag_view(bytes)).transpose()?;
        Ok(verdict_view(judgement, authority, tag, self.language()))
    }

    /// Every signed word that is kept of a load. One that cannot be read any more is the audit's to name.
    fn words_of_load(&self, load: &LoadNumber, trusted: &Trusted) -> Result<Vec<LoadWord>, AppError> {
        let read = self.store.read();
        let mut kept: Vec<(Kind, Vec<u8>)> = Vec::new();
        for row in read.records_of_load(load.as_str())? {
            kept.extend(read.record_bytes(row.digest)?.map(|bytes| (Kind::Seal, bytes.seal)));
        }
        kept.extend(read.voids_of_load(load.as_str())?.into_iter().map(|row| (Kind::Void, row.bytes)));
        kept.extend(read.tags_of(load.as_str())?.into_iter().map(|row| (Kind::Tag, row.bytes)));
        let words = kept.iter().filter_map(|(kind, bytes)| LoadWord::open(*kind, bytes, trusted).ok());
        Ok(words.collect())
    }

    /// The time of this device's last journal entry: its own clock showed it.
    fn journal_time(&self) -> Result<Option<LatestTrusted>, AppError> {
        let head = self.store.head().seq;
        let last = if head > 0 { self.store.read().entry(head)? } else { None };
        Ok(last.map(|entry| LatestTrusted { time: entry.time, by: Speaker::ThisDevice }))
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
    let reason = Reason::Examination { result: kind == Kind::ExamResult };
    let first = reason.say(language);
    let keep_down = language.pick("Do not lift.", "No levante la carga.");
    VerdictView {
        verdict: VerdictWord::NoGo,
        word: "NO-GO".into(),
        spoken: format!("{keep_down} {first}"),
        reasons: vec![reason_view(&reason, language)],
        first,
        facts: None,
        tag,
        cautions: cautions(language).iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

fn reason_view(reason: &Reason, language: Language) -> ReasonView {
    ReasonView {
        code: reason.code().into(),
        grade: match reason.grade() {
            Grade::NoGo => "no_go",
            Grade::Wait => "wait",
            Grade::Note => "note",
        }
        .into(),
        text: reason.say(language),
    }
}

fn verdict_view(
    report: Judgement,
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
    let reasons: Vec<ReasonView> =
        report.reasons.iter().map(|reason| reason_view(reason, language)).collect();
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
