//! What a hookup team holds up to a device, one code or several at once, and which seal is judged beside which tag.

use slingseal_catalogue::{Saying, faults as words};
use std::collections::BTreeSet;

use slingseal_message::envelope::{Kind, TextError, unwrap};
use slingseal_message::seal::TagPrint;
use slingseal_words::{LoadNumber, Name};

use super::evidence::Evidence;
use super::reason::Reason;
use super::verdict::{Judgement, judge_seal, judge_tag};
use super::word::{LoadWord, WordError};

/// A code as it was shown.
#[derive(Clone, Debug, PartialEq)]
pub enum ShownCode {
    /// A seal's bytes, whatever they are worth.
    Seal(Vec<u8>),
    /// A tag's bytes, and under which of a tag's letters they came.
    Tag(Kind, Vec<u8>),
    /// What says nothing of a load, or nothing at all: the verdict is this reason's.
    Plain(Reason),
}

/// Why a text is asked nothing of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ShownError {
    /// A message of ours that says nothing of a load.
    OtherKind(Kind),
    /// None of ours, or of a later form.
    Text(TextError),
}

impl ShownError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::OtherKind(kind) => words::ShownErrorOtherKind { kind }.into(),
            Self::Text(error) => error.saying(),
        }
    }
}

slingseal_catalogue::error_by_saying!(ShownError);

impl From<TextError> for ShownError {
    fn from(error: TextError) -> Self {
        Self::Text(error)
    }
}

impl ShownCode {
    /// A damaged seal or tag is no error: whoever shows it wants to know whether to lift, and the answer is no.
    ///
    /// # Errors
    /// A text that is none of ours, of a later form, or of another kind than seal, tag and examination.
    pub fn of(text: &str) -> Result<Self, ShownError> {
        match unwrap(text) {
            Ok((Kind::Seal, bytes)) => Ok(Self::Seal(bytes)),
            Ok((kind @ (Kind::Tag | Kind::TagWithBasis), bytes)) => Ok(Self::Tag(kind, bytes)),
            Ok((kind @ (Kind::ExamKey | Kind::ExamResult), _)) => {
                Ok(Self::Plain(Reason::Examination { result: kind == Kind::ExamResult }))
            }
            Ok((kind, _)) => Err(ShownError::OtherKind(kind)),
            Err(error) if is_of_a_load(text) => Ok(Self::Plain(Reason::Unreadable(error.saying()))),
            Err(error) => Err(error.into()),
        }
    }
}

/// Whether a text begins as a seal or a tag of today does. One of a later form is told as such, and is no verdict on a load.
pub fn is_of_a_load(text: &str) -> bool {
    let front = text.split_once(':').map(|(front, _)| front);
    [Kind::Seal, Kind::Tag, Kind::TagWithBasis].iter().any(|kind| front == Some(kind.front()))
}

/// Whether a text that was read may be right: foreign texts pass (they are told as such), ours must be whole.
pub fn plausible(text: &str) -> bool {
    match unwrap(text) {
        Ok(_) => true,
        Err(_) => !Kind::ALL.iter().any(|kind| text.starts_with(&format!("{}:", kind.front()))),
    }
}

/// Everything that was shown at once, opened.
#[derive(Clone, Debug, Default)]
pub struct Scan {
    /// The seals, in the order in which they were shown.
    pub seals: Vec<Result<LoadWord, WordError>>,
    /// The tags.
    pub tags: Vec<Result<LoadWord, WordError>>,
    /// What is neither.
    pub plain: Vec<Reason>,
}

/// One judgement of a scan, with the tag that it was made beside and the name of the authority behind the seal's signer.
#[derive(Clone, Debug)]
pub struct Judged {
    /// The judgement.
    pub judgement: Judgement,
    /// The tag, where one was shown.
    pub tag: Option<LoadWord>,
    /// Who credentialed the signer, where both signatures passed.
    pub authority: Option<Name>,
}

impl Judged {
    /// The load that it is of: the seal's, else the tag's.
    pub fn load(&self) -> Option<&LoadNumber> {
        let of_seal = self.judgement.seal.as_ref().map(|seal| &seal.load);
        of_seal.or(self.tag.as_ref().map(LoadWord::load))
    }
}

impl Scan {
    /// Opens what was shown, by a function that remembers credentials or by [`LoadWord::open`] itself.
    pub fn open(
        codes: impl IntoIterator<Item = ShownCode>,
        mut open: impl FnMut(Kind, &[u8]) -> Result<LoadWord, WordError>,
    ) -> Self {
        let mut scan = Self::default();
        for code in codes {
            match code {
                ShownCode::Seal(bytes) => scan.seals.push(open(Kind::Seal, &bytes)),
                ShownCode::Tag(kind, bytes) => scan.tags.push(open(kind, &bytes)),
                ShownCode::Plain(reason) => scan.plain.push(reason),
            }
        }
        scan
    }

    /// The loads that it names, each once.
    pub fn loads(&self) -> BTreeSet<LoadNumber> {
        let words = self.seals.iter().chain(&self.tags).flatten();
        words.map(|word| word.load().clone()).collect()
    }

    /// The words that a device keeps before it judges: what somebody trusted signed, and an unsigned tag that a shown seal of
    /// somebody trusted is of. Whether a seal that is held is of the tag, `held` says.
    ///
    /// # Errors
    /// Those of `held`.
    pub fn worth_keeping<E>(
        &self,
        mut held: impl FnMut(&LoadWord) -> Result<bool, E>,
    ) -> Result<Vec<&LoadWord>, E> {
        let trusted: Vec<&LoadWord> =
            self.seals.iter().flatten().filter(|word| word.signer().is_some()).collect();
        let mut kept = trusted.clone();
        for tag in self.tags.iter().flatten() {
            if tag.signer().is_some() || trusted.iter().any(|seal| seals(seal, tag)) || held(tag)? {
                kept.push(tag);
            }
        }
        Ok(kept)
    }

    /// Judges every seal beside the tag that was shown with it, and every tag that no shown seal is of. The evidence holds the
    /// words of all its loads, what [`Scan::worth_keeping`] named among them.
    pub fn judge(&self, evidence: &Evidence<'_>) -> Vec<Judged> {
        let mut judged = Vec::new();
        let readable: Vec<&LoadWord> = self.tags.iter().flatten().collect();
        let told = |judgement: Judgement, tag: Option<&LoadWord>| {
            let signer = judgement.signer.as_ref();
            let authority = signer.and_then(|signer| evidence.trusted.authority(&signer.authority));
            let authority = authority.map(|authority| authority.name.clone());
            Judged { judgement, tag: tag.cloned(), authority }
        };
        for shown in &self.seals {
            let load = shown.as_ref().ok().map(LoadWord::load);
            let of_load = readable.iter().find(|tag| Some(tag.load()) == load);
            let tag = of_load.or(readable.first()).copied();
            judged.push(told(judge_seal(shown.as_ref(), tag, evidence), tag));
        }
        let alone = readable.iter().filter(|tag| {
            let sealed = self.seals.iter().flatten().any(|seal| seal.load() == tag.load());
            self.seals.is_empty() || (!sealed && readable.len() > 1)
        });
        judged.extend(alone.map(|tag| told(judge_tag(tag, evidence), Some(tag))));
        for error in self.tags.iter().filter_map(|tag| tag.as_ref().err()) {
            judged.push(told(Judgement::plain(Reason::Unreadable(error.saying())), None));
        }
        for reason in &self.plain {
            judged.push(told(Judgement::plain(reason.clone()), readable.first().copied()));
        }
        judged
    }
}

/// Whether a seal is of a tag, by the tag's print alone.
pub fn seals(seal: &LoadWord, tag: &LoadWord) -> bool {
    seal.seal().is_some_and(|seal| seal.tag == TagPrint::of(&tag.digest()))
}
