//! The hook check: scan the seal, scan the tag, one verdict. And the word that takes a seal back.

pub(crate) mod admission;
pub(crate) mod ahead;
mod last_scan;
pub(crate) mod page;
pub(crate) mod receive;

use serde::Serialize;
use slingseal_catalogue::{judgement as judgement_words, refusals as words};

pub(crate) use self::last_scan::LastScan;
use crate::account::strays::Origin;
use crate::account::{Knowledge, open_word};
use crate::hook::admission::{Admission, is_sealed, seal_of};
use crate::trust::fault::{ActFault, ActField};
use crate::trust::vault::DEVICE_VAULT;
use crate::{App, AppError, CodeView, Inner, Stamp, TagView};
use slingseal_judgement::{
    Grade, Judged, Judgement, LoadWord, Reason, Scan, ShownCode, ShownError, Verdict, cautions, first_line,
    gravest, spoken,
};
use slingseal_message::envelope::Kind;
use slingseal_message::movement::ShownVerdict;
use slingseal_message::seal::{Outcome, Void, VoidCause};
use slingseal_message::trust::Trusted;
use slingseal_store::Reader;
use slingseal_words::{Language, Name};

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

impl From<ShownVerdict> for VerdictWord {
    fn from(shown: ShownVerdict) -> Self {
        match shown {
            ShownVerdict::Go => Self::Go,
            ShownVerdict::Wait => Self::Wait,
            ShownVerdict::NoGo => Self::NoGo,
        }
    }
}

impl VerdictWord {
    /// The word on the screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::Go => ShownVerdict::Go.word(),
            Self::Wait => ShownVerdict::Wait.word(),
            Self::NoGo => ShownVerdict::NoGo.word(),
        }
    }

    /// The verdict of a word that was kept; none of any other.
    pub(crate) fn of_word(word: &str) -> Option<Self> {
        [Self::Go, Self::Wait, Self::NoGo].into_iter().find(|verdict| verdict.word() == word)
    }
}

impl crate::view::Worded for VerdictWord {
    fn word(&self) -> &'static str {
        Self::word(*self)
    }
}

/// One reason.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ReasonView {
    /// A stable word.
    pub code: String,
    /// How much it weighs.
    #[serde(serialize_with = "crate::view::word")]
    pub grade: Grade,
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
    /// The seal's check word, to be compared by voice: `482 019 553`.
    pub check: String,
}

/// A code as a hookup team shows it; what is none is told in the facade's words.
fn shown(text: &str) -> Result<ShownCode, AppError> {
    ShownCode::of(text).map_err(|error| match error {
        ShownError::OtherKind(_) => AppError::bad_input(error),
        ShownError::Text(error) => error.into(),
    })
}

impl App {
    /// Judges a seal, a tag, or both, and keeps what somebody trusted signed. A tag alone is answered from the latest inspection of
    /// its load that this device knows; with none it is NO-GO.
    ///
    /// # Errors
    /// Texts that are no seal and no tag; storage. A damaged seal or tag is no error: it is NO-GO.
    pub fn check(&self, seal: Option<&str>, tag: Option<&str>) -> Result<VerdictView, AppError> {
        let codes = [seal.map(shown).transpose()?, tag.map(shown).transpose()?];
        match &codes {
            [Some(ShownCode::Tag(..)), _] => Err(AppError::bad_input(words::LoadTagSealScanCode)),
            [_, Some(ShownCode::Seal(_))] => Err(AppError::bad_input(words::SealLoadTagScanTag)),
            _ => self.lock().check_shown(codes.into_iter().flatten().collect()),
        }
    }

    /// Judges everything that was shown at once, as one picture or scan holds it: seals and tags in any number. All are kept first,
    /// each is judged, and the gravest is what is shown.
    ///
    /// # Errors
    /// Those of [`App::check`].
    pub fn check_all(&self, codes: &[String]) -> Result<VerdictView, AppError> {
        let codes: Result<Vec<ShownCode>, AppError> = codes.iter().map(|code| shown(code)).collect();
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

    /// The causes for which a seal is taken back: the word that `void` takes, and what a person reads.
    pub fn void_causes(&self) -> Vec<(String, String)> {
        let language = self.spoken();
        VoidCause::ALL.into_iter().map(|cause| (cause.word().to_owned(), cause.say(language))).collect()
    }

    /// Takes a seal back: signed with this device's credential, in any role.
    ///
    /// # Errors
    /// No such record here; no credential; a wrong PIN.
    pub fn void(
        &self,
        record: &str,
        cause: VoidCause,
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
    pub(crate) fn void_of(
        &self,
        record: &str,
        cause: VoidCause,
        note: Option<&str>,
    ) -> Result<(Void, Vec<u8>), ActFault> {
        let row = self.record_row(record).map_err(ActFault::at(ActField::Record))?;
        let none = || AppError::not_found(words::NoRecordScanSeal);
        let seal = self.store.read().seal(row.seal).map_err(AppError::from)?.ok_or_else(none)?;
        let seal = seal_of(&seal)?;
        let note = note.filter(|text| !text.trim().is_empty()).map(crate::walks::request::note).transpose();
        let note = note.map_err(ActFault::at(ActField::Note))?;
        if cause == VoidCause::Other && note.is_none() {
            let wanted = AppError::bad_input(words::AnotherCauseNeedsNoteSay);
            return Err(ActFault::at(ActField::Note)(wanted));
        }
        let (_, credential) = self.credential_for(None)?;
        let void = Void { load: seal.load, issued: self.now(), record: seal.record, cause, note };
        Ok((void, credential))
    }

    /// Opens what was shown, keeps it, judges it, and draws what was judged.
    fn check_shown(&mut self, shown: Vec<ShownCode>) -> Result<VerdictView, AppError> {
        if shown.is_empty() {
            return Err(AppError::bad_input(judgement_words::NothingScannedScanSealTag));
        }
        let (now, language) = (self.now(), self.language());
        let seen = self.store.write(|tx| -> Result<Vec<Judged>, AppError> {
            let mut admission = Admission::begin(tx, now, language)?;
            let scan = Scan::open(shown, |kind, bytes| open_word(kind, bytes, &mut admission.trusted));
            for word in scan.worth_keeping(|tag| is_sealed(tx, tag))? {
                match word.kind() {
                    Kind::Seal => {
                        admission.seal(word, None)?;
                    }
                    _ => {
                        admission.tag(word, false, Origin::Elsewhere)?;
                    }
                }
            }
            let trusted = admission.finish()?.trusted;
            let mut knowledge = Knowledge::beside(tx, trusted, now, words_of(&scan))?;
            judge_scan(tx, &mut knowledge, &scan)
        })?;
        let judged = LastScan { seen };
        let view = self.verdict_view(&judged)?;
        self.judged = Some(judged);
        Ok(view)
    }

    /// The verdict on what is kept already, opened under the trust of now: nothing is kept by asking.
    pub(crate) fn verdict_on(&self, scan: &Scan, trusted: Trusted) -> Result<VerdictView, AppError> {
        let read = self.store.read();
        let mut knowledge = Knowledge::beside(&read, trusted, self.now(), words_of(scan))?;
        let seen = judge_scan(&read, &mut knowledge, scan)?;
        self.verdict_view(&LastScan { seen })
    }

    /// What was judged, drawn: the gravest, and beside it each of several.
    fn verdict_view(&self, judged: &LastScan) -> Result<VerdictView, AppError> {
        let language = self.language();
        let judgements: Vec<Judgement> = judged.seen.iter().map(|seen| seen.judgement.clone()).collect();
        let worst = gravest(&judgements);
        let worst = judged.seen.iter().find(|seen| Some(&seen.judgement) == worst);
        let Some(Judged { judgement, tag, authority }) = worst else {
            return Err(AppError::bad_input(judgement_words::NothingScannedScanSealTag));
        };
        let tag = tag.as_ref().map(|tag| self.tag_view_of(tag)).transpose()?;
        let mut view = verdict_view(judgement, authority.as_ref().map(Name::to_string), tag, language);
        if judged.seen.len() > 1 {
            view.shown = judged.seen.iter().map(|seen| shown_line(seen, language)).collect();
        }
        Ok(view)
    }
}

/// The words of a scan that could be opened.
fn words_of(scan: &Scan) -> Vec<LoadWord> {
    scan.seals.iter().chain(&scan.tags).flatten().cloned().collect()
}

/// Judges a scan by every word that is kept of its loads.
fn judge_scan(read: &Reader<'_>, knowledge: &mut Knowledge, scan: &Scan) -> Result<Vec<Judged>, AppError> {
    let mut words = Vec::new();
    for load in scan.loads() {
        words.extend(knowledge.words(read, &load)?);
    }
    for tag in scan.tags.iter().flatten().filter_map(LoadWord::tag) {
        knowledge.know_pieces(read, tag)?;
    }
    let words: Vec<&LoadWord> = words.iter().collect();
    Ok(scan.judge(&knowledge.evidence(&words)))
}

fn shown_line(seen: &Judged, language: Language) -> ShownLine {
    let view = verdict_view(&seen.judgement, None, None, language);
    let tag = seen.tag.as_ref().map(|tag| tag.load().to_string());
    let load = view.facts.map(|facts| facts.load).or(tag).unwrap_or_default();
    ShownLine { load, verdict: view.verdict, word: view.word, first: view.first }
}

fn reason_view(reason: &Reason, language: Language) -> ReasonView {
    ReasonView { code: reason.code().into(), grade: reason.grade(), text: reason.say(language) }
}

fn verdict_view(
    report: &Judgement,
    authority: Option<String>,
    tag: Option<TagView>,
    language: Language,
) -> VerdictView {
    let verdict = match report.verdict {
        Verdict::Go => VerdictWord::Go,
        Verdict::Wait => VerdictWord::Wait,
        Verdict::NoGo => VerdictWord::NoGo,
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
        check: report.digest.map(|digest| digest.check_word()).unwrap_or_default(),
    });
    let reasons: Vec<ReasonView> =
        report.reasons.iter().map(|reason| reason_view(reason, language)).collect();
    let first = first_line(report, language);
    VerdictView {
        verdict,
        word: report.verdict.word().into(),
        spoken: spoken(report.verdict, &first, language),
        first,
        reasons,
        facts,
        tag,
        cautions: cautions(language),
        shown: Vec::new(),
    }
}
