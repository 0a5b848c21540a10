//! The verdict at the hook: what is found of a seal, and what it comes to at the time of asking.

use slingseal_catalogue::{Saying, faults as words};
use slingseal_message::movement::{ShownReason, ShownVerdict, VerdictShown};
use slingseal_message::seal::{Outcome, Seal};
use slingseal_message::trust::{EditionStanding, Role, Signer, TrustError, Trusted};
use slingseal_words::Digest;

use super::evidence::Evidence;
use super::facts::{Asked, Fact, Facts};
use super::known::Known;
use super::movement::facts_of_movements;
use super::order::Inspection;
use super::reason::{Grade, Reason};
use super::tag::{fact_of_rigger, facts_of_match, facts_of_tag};
use super::word::{Author, LoadWord, WordError};

/// What the hookup team is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Hook it on.
    Go,
    /// Wait: someone must look into it.
    Wait,
    /// Keep it on the ground.
    NoGo,
}

impl Verdict {
    /// Of all reasons: the gravest decides.
    pub fn of(reasons: &[Reason]) -> Self {
        match reasons.iter().map(Reason::grade).max() {
            Some(Grade::NoGo) => Self::NoGo,
            Some(Grade::Wait) => Self::Wait,
            Some(Grade::Note) | None => Self::Go,
        }
    }

    /// The word that fills the screen: the same in every language, as it is on every pickup zone.
    pub fn word(self) -> &'static str {
        match self {
            Self::Go => "GO",
            Self::Wait => "WAIT",
            Self::NoGo => "NO-GO",
        }
    }
}

/// The verdict with every reason.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// The verdict.
    pub verdict: Verdict,
    /// Why, gravest first; for GO, what is still to be known.
    pub reasons: Vec<Reason>,
    /// What was found, whenever it is asked.
    pub facts: Facts,
    /// What the seal says, where one could be read.
    pub seal: Option<Seal>,
    /// SHA-256 of the seal's own bytes, where one could be read.
    pub digest: Option<Digest>,
    /// Its place among the inspections of its load, where its author is known.
    pub inspection: Option<Inspection>,
    /// Who signed it, where both signatures passed.
    pub signer: Option<Signer>,
}

impl Judgement {
    /// Of one reason alone, where there is nothing else to be said: what was shown is no seal, or cannot be read.
    pub fn plain(reason: Reason) -> Self {
        let reasons = vec![reason.clone()];
        Self {
            verdict: Verdict::of(&reasons),
            reasons,
            facts: Facts(vec![Fact::Fixed(reason)]),
            seal: None,
            digest: None,
            inspection: None,
            signer: None,
        }
    }

    /// What stood on the screen, for the report that follows it.
    pub fn shown(&self) -> VerdictShown {
        let verdict = match self.verdict {
            Verdict::Go => ShownVerdict::Go,
            Verdict::Wait => ShownVerdict::Wait,
            Verdict::NoGo => ShownVerdict::NoGo,
        };
        let reason = self.reasons.first().and_then(|reason| ShownReason::new(reason.code()));
        VerdictShown { verdict, reason }
    }

    pub(super) fn of(facts: Facts, seal: Option<&LoadWord>, asked: &Asked<'_>) -> Self {
        let reasons = facts.reasons(asked);
        Self {
            verdict: Verdict::of(&reasons),
            reasons,
            facts,
            seal: seal.and_then(LoadWord::seal).cloned(),
            digest: seal.map(LoadWord::digest),
            inspection: seal.and_then(LoadWord::inspection),
            signer: seal.and_then(LoadWord::signer).cloned(),
        }
    }
}

/// A seal as it was shown: opened, or why it could not be.
pub type Shown<'s> = Result<&'s LoadWord, &'s WordError>;

/// Judges one seal that was shown, beside the tag that was scanned with it.
pub fn judge_seal(shown: Shown<'_>, tag: Option<&LoadWord>, evidence: &Evidence<'_>) -> Judgement {
    let (beside, facts) = match shown {
        Ok(word) => match word.seal() {
            Some(seal) => {
                let known = Known::of(evidence, &seal.load);
                (Some(word), facts_of_seal(word, seal, tag, &known, evidence))
            }
            None => (None, unreadable(words::NoSeal { kind: word.kind() }.into(), tag, evidence)),
        },
        Err(error) => (None, unreadable(error.saying(), tag, evidence)),
    };
    let beside: Vec<&LoadWord> = beside.into_iter().chain(tag).collect();
    Judgement::of(facts, shown.ok(), &evidence.asked(&beside))
}

/// Judges several seals that were shown at once, each as if all had been kept before.
pub fn judge_seals(shown: &[Shown<'_>], tag: Option<&LoadWord>, evidence: &Evidence<'_>) -> Vec<Judgement> {
    let mut words = evidence.words.to_vec();
    words.extend(shown.iter().filter_map(|shown| shown.ok()));
    let evidence = Evidence { words: &words, ..*evidence };
    shown.iter().map(|one| judge_seal(*one, tag, &evidence)).collect()
}

/// Of several judgements the gravest: what is shown. Of equally grave ones that of the latest inspection.
pub fn gravest(judgements: &[Judgement]) -> Option<&Judgement> {
    judgements.iter().max_by_key(|one| (one.verdict, one.inspection, one.digest))
}

/// Judges a tag alone, by the latest inspection of its load.
pub fn judge_tag(tag: &LoadWord, evidence: &Evidence<'_>) -> Judgement {
    let known = Known::of(evidence, tag.load());
    match known.latest() {
        Some(latest) => {
            let facts = facts_of_held(latest, Some(tag), &known, evidence);
            Judgement::of(facts, Some(latest), &evidence.asked(&[tag]))
        }
        None => {
            let mut facts = Vec::new();
            if let Some(said) = tag.tag() {
                facts_of_tag(tag, said, evidence, &mut facts);
            }
            facts.push(Fact::Fixed(Reason::NoInspectionKnown));
            Judgement::of(Facts(facts), None, &evidence.asked(&[tag]))
        }
    }
}

/// What is found of a seal that is among the words of the load.
pub(super) fn facts_of_held(
    word: &LoadWord,
    tag: Option<&LoadWord>,
    known: &Known<'_>,
    evidence: &Evidence<'_>,
) -> Facts {
    word.seal().map(|seal| facts_of_seal(word, seal, tag, known, evidence)).unwrap_or_default()
}

fn unreadable(why: Saying, tag: Option<&LoadWord>, evidence: &Evidence<'_>) -> Facts {
    let mut facts = Vec::new();
    if let Some((word, tag)) = tag.and_then(|word| Some((word, word.tag()?))) {
        facts_of_tag(word, tag, evidence, &mut facts);
    }
    facts.push(Fact::Fixed(Reason::Unreadable(why)));
    Facts(facts)
}

/// Everything that is found of a seal: by itself, by what came later, by the tag that was scanned or else by the one that is held.
fn facts_of_seal(
    word: &LoadWord,
    seal: &Seal,
    scanned: Option<&LoadWord>,
    known: &Known<'_>,
    evidence: &Evidence<'_>,
) -> Facts {
    let tags: Vec<&LoadWord> = match scanned {
        Some(tag) => vec![tag],
        None => known.tags(seal).collect(),
    };
    let tags = || tags.iter().filter_map(|word| Some((*word, word.tag()?)));
    let mut facts = Vec::new();
    for (word, tag) in tags() {
        facts_of_tag(word, tag, evidence, &mut facts);
    }
    match word.author() {
        Author::Known(signer) => {
            facts_of_signer(signer, seal, evidence, &mut facts);
            facts_of_later(word, seal, known, &mut facts);
        }
        Author::Unknown => facts.push(Fact::Fixed(Reason::UnknownAuthority)),
        Author::Refused(TrustError::BadSignature(_)) => facts.push(Fact::Fixed(Reason::BadSignature)),
        Author::Refused(error) => facts.push(Fact::Fixed(Reason::Unreadable(error.saying()))),
        Author::Nobody | Author::ThisDevice => facts.push(Fact::Fixed(Reason::BadSignature)),
    }
    facts_of_content(seal, &mut facts);
    if scanned.is_none() {
        facts.push(Fact::Fixed(Reason::TagNotSeen(seal.load.clone())));
        if tags().next().is_none() {
            facts.extend((!seal.tag_signed).then_some(Fact::Fixed(Reason::TagUnsigned)));
            facts.push(Fact::Fixed(Reason::RiggerNotKnown));
        }
    }
    for (held, tag) in tags() {
        facts_of_match(held, tag, seal, &mut facts);
        facts.extend(fact_of_rigger(tag, word.signer()));
    }
    if word.signer().is_some() {
        facts_of_movements(word, seal, known, &mut facts);
    }
    Facts(facts)
}

fn facts_of_signer(signer: &Signer, seal: &Seal, evidence: &Evidence<'_>, facts: &mut Vec<Fact>) {
    let credential = &signer.credential;
    let holder = || credential.holder.clone();
    if evidence.trusted.revoked(signer) {
        facts.push(Fact::Fixed(Reason::Revoked(holder())));
    }
    if !credential.roles.has(Role::Inspector) {
        facts.push(Fact::Fixed(Reason::NotAnInspector(holder())));
    }
    if seal.issued > credential.expires {
        let (inspector, expired) = (holder(), credential.expires);
        facts.push(Fact::Fixed(Reason::CredentialExpired { inspector, expired }));
    }
    if seal.valid_until.since(seal.issued) > credential.longest_validity {
        facts.push(Fact::Fixed(Reason::ValidTooLong { most: credential.longest_validity }));
    }
    facts.push(Fact::Roster(signer.authority));
    facts.extend(fact_of_edition(signer, seal, evidence.trusted));
}

/// Whether the author's own authority stands behind the list that was walked. What a list found wrong is wrong whoever approved
/// the list; and where there is no roster, that is told already.
fn fact_of_edition(signer: &Signer, seal: &Seal, trusted: &Trusted) -> Option<Fact> {
    let authority = trusted.authority(&signer.authority).filter(|_| seal.outcome == Outcome::Fit)?;
    let roster = authority.roster.as_ref()?;
    let (name, procedure, version) = (authority.name.clone(), seal.procedure.clone(), seal.version);
    let reason = match roster.edition(&procedure, version, &seal.procedure_print, seal.issued) {
        EditionStanding::Approved => return None,
        EditionStanding::Withdrawn(since) => {
            Reason::ProcedureWithdrawn { authority: name, procedure, version, since }
        }
        EditionStanding::NotApproved => {
            let any = !roster.approved.is_empty();
            Reason::ProcedureNotApproved { authority: name, procedure, version, any }
        }
    };
    Some(Fact::Fixed(reason))
}

/// What others who may speak have said of the load since.
fn facts_of_later(word: &LoadWord, seal: &Seal, known: &Known<'_>, facts: &mut Vec<Fact>) {
    if let Some((void, said)) = known.void(seal).and_then(|word| Some((word, word.void()?)))
        && let Some(by) = void.signer()
    {
        let (by, at, cause) = (by.credential.holder.clone(), said.issued, said.cause);
        let note = said.note.clone();
        facts.push(Fact::Fixed(Reason::Voided { by, at, cause, note }));
    }
    if let Some(later) = word.inspection().and_then(|own| known.superseder(&own)) {
        let (by, at, fit) = (later.digest, later.issued, !later.refusal);
        facts.push(Fact::Fixed(Reason::Superseded { by, at, fit }));
    }
}

fn facts_of_content(seal: &Seal, facts: &mut Vec<Fact>) {
    match seal.outcome {
        Outcome::NotFit => facts.push(Fact::Fixed(Reason::NotFit)),
        Outcome::Fit if seal.corrected < seal.found => {
            facts.push(Fact::Fixed(Reason::OpenDeficiency(seal.found - seal.corrected)));
        }
        Outcome::Fit => {}
    }
    facts.push(Fact::Validity { until: seal.valid_until });
    facts.push(Fact::Issued(seal.issued));
    if seal.corrected > 0 {
        facts.push(Fact::Fixed(Reason::Corrected(seal.corrected)));
    }
}
