//! The hook check: scan the seal, scan the tag, one verdict. And the word that takes a seal back.

pub(crate) mod admission;
pub(crate) mod receive;

use serde::Serialize;

use crate::account::{Knowledge, open_word};
use crate::hook::admission::{Admission, seal_of};
use crate::trust::setup::DEVICE_VAULT;
use crate::{App, AppError, CodeView, Inner, Stamp, TagView};
use slingseal_judgement::{
    Grade, Judgement, LoadWord, Reason, Verdict, WordError, gravest, judge_seal, judge_tag,
};
use slingseal_message::envelope::{Kind, unwrap};
use slingseal_message::seal::{Outcome, TagPrint, Void, VoidCause};
use slingseal_message::tag::kind_of_tag;
use slingseal_store::Reader;
use slingseal_words::Language;

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
    /// Every seal or tag that was shown at once, where there were several; the gravest of them is the one above.
    pub shown: Vec<ShownLine>,
}

/// One of several that were shown at once.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ShownLine {
    /// The load; empty where it cannot be read.
    pub load: String,
    /// The verdict on it.
    pub verdict: VerdictWord,
    /// The word.
    pub word: String,
    /// The first reason, in plain words.
    pub first: String,
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

/// A code as a hookup team shows it.
enum Shown {
    Seal(Vec<u8>),
    Tag(Kind, Vec<u8>),
    /// What says nothing of a load, or nothing at all.
    Reason(Reason),
}

impl Shown {
    /// A damaged seal or tag is no error: whoever shows it wants to know whether to lift, and the answer is no.
    fn of(text: &str) -> Result<Self, AppError> {
        match unwrap(text) {
            Ok((Kind::Seal, bytes)) => Ok(Self::Seal(bytes)),
            Ok((kind @ (Kind::Tag | Kind::TagWithBasis), bytes)) => Ok(Self::Tag(kind, bytes)),
            Ok((kind @ (Kind::ExamKey | Kind::ExamResult), _)) => {
                Ok(Self::Reason(Reason::Examination { result: kind == Kind::ExamResult }))
            }
            Ok((kind, _)) => Err(AppError::bad_input(format!(
                "this is a {kind} and neither a seal nor a tag; scan the code on the inspector's screen, or the tag on the load"
            ))),
            Err(error) if is_of_a_load(text) => Ok(Self::Reason(Reason::Unreadable(error.to_string()))),
            Err(error) => Err(error.into()),
        }
    }
}

/// Whether a text begins as a seal or a tag of today does. One of a later form is told as such, and is no verdict on a load.
pub fn is_of_a_load(text: &str) -> bool {
    let front = text.split_once(':').map(|(front, _)| front);
    [Kind::Seal, Kind::Tag, Kind::TagWithBasis].iter().any(|kind| front == Some(kind.front()))
}

/// What was judged last, to be drawn again.
pub(crate) struct Judged {
    /// Each with the tag that it was judged beside, and the name of the authority that stands for its signer.
    seen: Vec<Seen>,
}

struct Seen {
    judgement: Judgement,
    tag: Option<LoadWord>,
    authority: Option<String>,
}

impl App {
    /// Judges a seal, a tag, or both, and keeps what somebody trusted signed. A tag alone is answered from the latest inspection of
    /// its load that this device knows; with none it is NO-GO.
    ///
    /// # Errors
    /// Texts that are no seal and no tag; storage. A damaged seal or tag is no error: it is NO-GO.
    pub fn check(&self, seal: Option<&str>, tag: Option<&str>) -> Result<VerdictView, AppError> {
        let codes = [seal.map(Shown::of).transpose()?, tag.map(Shown::of).transpose()?];
        match &codes {
            [Some(Shown::Tag(..)), _] => Err(AppError::bad_input(
                "this is a load tag and not a seal; scan the code on the inspector's screen",
            )),
            [_, Some(Shown::Seal(_))] => {
                Err(AppError::bad_input("this is a seal and not a load tag; scan the tag on the load"))
            }
            _ => self.lock().check_shown(codes.into_iter().flatten().collect()),
        }
    }

    /// Judges everything that was shown at once, as one picture or scan holds it: seals and tags in any number. All are kept first,
    /// each is judged, and the gravest is what is shown.
    ///
    /// # Errors
    /// Those of [`App::check`].
    pub fn check_all(&self, codes: &[String]) -> Result<VerdictView, AppError> {
        let codes: Result<Vec<Shown>, AppError> = codes.iter().map(|code| Shown::of(code)).collect();
        self.lock().check_shown(codes?)
    }

    /// The verdict that was given last, drawn again in the language of now: nothing is kept, and nothing judged anew.
    ///
    /// # Errors
    /// Storage.
    pub fn last_verdict(&self) -> Result<Option<VerdictView>, AppError> {
        let inner = self.lock();
        inner.judged.as_ref().map(|judged| inner.verdict_view(judged)).transpose()
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
        let row = self.record_row(record)?;
        let none = || AppError::not_found("there is no such record here; scan its seal first");
        let seal = seal_of(&self.store.read().seal(row.seal)?.ok_or_else(none)?)?;
        let cause = VoidCause::ALL.into_iter().find(|known| known.word() == cause).ok_or_else(|| {
            let words: Vec<&str> = VoidCause::ALL.iter().map(|cause| cause.word()).collect();
            AppError::bad_input(format!("\"{cause}\" is no cause; use {}", words.join(", ")))
        })?;
        let note = note.filter(|text| !text.trim().is_empty()).map(crate::walks::note).transpose()?;
        if cause == VoidCause::Other && note.is_none() {
            return Err(AppError::bad_input("another cause needs a note; say why"));
        }
        let (_, credential) = self.credential_for(None)?;
        let void = Void { load: seal.load, issued: self.now(), record: seal.record, cause, note };
        Ok((void, credential))
    }

    /// Opens what was shown, keeps it, judges it, and draws what was judged.
    fn check_shown(&mut self, shown: Vec<Shown>) -> Result<VerdictView, AppError> {
        if shown.is_empty() {
            return Err(AppError::bad_input("nothing was scanned; scan the seal or the tag"));
        }
        let (mut seals, mut tags, mut plain) = (Vec::new(), Vec::new(), Vec::new());
        for one in shown {
            match one {
                Shown::Seal(bytes) => seals.push(bytes),
                Shown::Tag(kind, bytes) => tags.push((kind, bytes)),
                Shown::Reason(reason) => plain.push(reason),
            }
        }
        let (now, language) = (self.now(), self.language());
        let seen = self.store.write(|tx| -> Result<Vec<Seen>, AppError> {
            let mut admission = Admission::begin(tx, now, language)?;
            let mut open = |kind, bytes: &[u8]| open_word(kind, bytes, &mut admission.trusted);
            let seals: Vec<_> = seals.iter().map(|bytes| open(Kind::Seal, bytes)).collect();
            let tags: Vec<_> = tags.iter().map(|(kind, bytes)| open(*kind, bytes)).collect();
            for word in seals.iter().flatten().filter(|word| word.signer().is_some()) {
                admission.seal(word, None)?;
            }
            for word in tags.iter().flatten() {
                if word.signer().is_some() || sealed(tx, word, &seals)? {
                    admission.tag(word, false)?;
                }
            }
            let mut knowledge = Knowledge::of(tx, admission.finish()?, now)?;
            let mut seen = judge_words(tx, &mut knowledge, &seals, &tags)?;
            for reason in plain {
                let tag = tags.iter().flatten().next().cloned();
                seen.push(Seen { judgement: Judgement::plain(reason), tag, authority: None });
            }
            Ok(seen)
        })?;
        let judged = Judged { seen };
        let view = self.verdict_view(&judged)?;
        self.judged = Some(judged);
        Ok(view)
    }

    /// The verdict on what is kept already: nothing is kept by asking.
    pub(crate) fn verdict_on(&self, seal: &[u8], tag: Option<&[u8]>) -> Result<VerdictView, AppError> {
        let mut knowledge = self.knowledge()?;
        let seals = [open_word(Kind::Seal, seal, &mut knowledge.trusted)];
        let tags: Vec<_> = tag
            .into_iter()
            .map(|bytes| open_word(kind_of_tag(bytes), bytes, &mut knowledge.trusted))
            .collect();
        let seen = judge_words(&self.store.read(), &mut knowledge, &seals, &tags)?;
        self.verdict_view(&Judged { seen })
    }

    /// What was judged, drawn: the gravest, and beside it each of several.
    fn verdict_view(&self, judged: &Judged) -> Result<VerdictView, AppError> {
        let language = self.language();
        let judgements: Vec<Judgement> = judged.seen.iter().map(|seen| seen.judgement.clone()).collect();
        let worst = gravest(&judgements);
        let worst = judged.seen.iter().find(|seen| Some(&seen.judgement) == worst);
        let Some(Seen { judgement, tag, authority }) = worst else {
            return Err(AppError::bad_input("nothing was scanned; scan the seal or the tag"));
        };
        let tag = tag.as_ref().map(|tag| self.tag_view_of(tag)).transpose()?;
        let mut view = verdict_view(judgement, authority.clone(), tag, language);
        if judged.seen.len() > 1 {
            view.shown = judged.seen.iter().map(|seen| shown_line(seen, language)).collect();
        }
        Ok(view)
    }
}

/// Whether a seal that is shown or kept is of this tag: unsigned as it may be, the inspector stands for it.
fn sealed(
    read: &Reader<'_>,
    tag: &LoadWord,
    seals: &[Result<LoadWord, WordError>],
) -> Result<bool, AppError> {
    let print = TagPrint::of(&tag.digest());
    let mut shown = seals.iter().flatten().filter(|word| word.signer().is_some());
    if shown.any(|word| word.seal().is_some_and(|seal| seal.tag == print)) {
        return Ok(true);
    }
    for row in read.records_of_load(tag.load().as_str())? {
        let bytes = read.seal(row.seal)?;
        if bytes.is_some_and(|bytes| seal_of(&bytes).is_ok_and(|seal| seal.tag == print)) {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Judges every seal beside the tag that was shown with it, and every tag that no shown seal is of.
fn judge_words(
    read: &Reader<'_>,
    knowledge: &mut Knowledge,
    seals: &[Result<LoadWord, WordError>],
    tags: &[Result<LoadWord, WordError>],
) -> Result<Vec<Seen>, AppError> {
    let mut seen = Vec::new();
    let readable: Vec<&LoadWord> = tags.iter().flatten().collect();
    for shown in seals {
        let load = shown.as_ref().ok().map(LoadWord::load);
        let of_load = readable.iter().find(|tag| Some(tag.load()) == load);
        let tag = of_load.or(readable.first()).copied();
        let words = match load {
            Some(load) => knowledge.words(read, load)?,
            None => Vec::new(),
        };
        let words: Vec<&LoadWord> = words.iter().collect();
        let judgement = judge_seal(shown.as_ref(), tag, &knowledge.evidence(&words));
        seen.push(Seen { authority: authority_of(&judgement, knowledge), judgement, tag: tag.cloned() });
    }
    let alone = readable.iter().filter(|tag| {
        let sealed = seals.iter().flatten().any(|seal| seal.load() == tag.load());
        seals.is_empty() || (!sealed && readable.len() > 1)
    });
    for tag in alone {
        let words = knowledge.words(read, tag.load())?;
        let words: Vec<&LoadWord> = words.iter().collect();
        let judgement = judge_tag(tag, &knowledge.evidence(&words));
        seen.push(Seen {
            authority: authority_of(&judgement, knowledge),
            judgement,
            tag: Some((*tag).clone()),
        });
    }
    for error in tags.iter().filter_map(|tag| tag.as_ref().err()) {
        let judgement = Judgement::plain(Reason::Unreadable(error.to_string()));
        seen.push(Seen { judgement, tag: None, authority: None });
    }
    Ok(seen)
}

fn authority_of(judgement: &Judgement, knowledge: &Knowledge) -> Option<String> {
    let signer = judgement.signer.as_ref()?;
    Some(knowledge.trusted.authority(&signer.authority)?.name.to_string())
}

fn shown_line(seen: &Seen, language: Language) -> ShownLine {
    let view = verdict_view(&seen.judgement, None, None, language);
    let tag = seen.tag.as_ref().map(|tag| tag.load().to_string());
    let load = view.facts.map(|facts| facts.load).or(tag).unwrap_or_default();
    ShownLine { load, verdict: view.verdict, word: view.word, first: view.first }
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
    report: &Judgement,
    authority: Option<String>,
    tag: Option<TagView>,
    language: Language,
) -> VerdictView {
    let (verdict, word) = match report.verdict {
        Verdict::Go => (VerdictWord::Go, "GO"),
        Verdict::Wait => (VerdictWord::Wait, "WAIT"),
        Verdict::NoGo => (VerdictWord::NoGo, "NO-GO"),
    };
    let facts = report.seal.as_ref().map(|seal| SealFacts {
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
        (Verdict::Go, Language::Spanish) => "Apta. Puede engancharse.",
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
        shown: Vec::new(),
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
            "Ponga a tierra el gancho antes de tocarlo: estática de hasta 40 000 V.",
            "Nunca se ponga entre la carga y un obstáculo. Tenga clara su salida.",
            "Esto ayuda al equipo de enganche; mandan el manual vigente y la tripulación.",
        ],
    )
}
