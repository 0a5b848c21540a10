//! The verdict at the hook: one pure function over what the device knows.

use std::cmp::Ordering;

use super::reason::{Grade, Reason};
use slingseal_message::envelope::Kind;
use slingseal_message::seal::Void;
use slingseal_message::seal::{Outcome, ReceivedSeal, Seal, TagPrint};
use slingseal_message::trust::{PublicKey, Role, Signer, TrustError, Trusted};
use slingseal_words::{CallSign, Digest, LoadNumber, Quantity, Seconds, Time};

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

/// Clocks of two devices may differ by this much before anyone minds: phones without a network drift by seconds a day.
pub const CLOCK_SLACK: Seconds = Seconds(120);
/// A seal that holds for less than this is said to run out soon: a flight may outlast it.
pub const SOON: Seconds = Seconds(30 * 60);

/// What the device was shown.
#[derive(Clone, Copy, Debug)]
pub struct Question<'q> {
    /// The seal's bytes; `None` where neither a scan nor the store has one.
    pub seal: Option<&'q [u8]>,
    /// The tag on the load, where it was scanned.
    pub tag: Option<&'q TagSeen>,
}

/// Whether someone who may plan has signed a tag.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TagSignature {
    /// A planner of a trusted authority.
    Planner,
    /// Nobody: it is marked unsigned.
    Unsigned,
    /// Someone whom this device does not trust as a planner.
    Unknown,
    /// The signature does not match.
    Forged,
}

/// What the verdict needs of the tag on the load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TagSeen {
    /// Its digest.
    pub digest: Digest,
    /// Its load number.
    pub load: LoadNumber,
    /// Its gross mass.
    pub mass: Quantity,
    /// What the aircraft is allowed.
    pub allowable: Quantity,
    /// Who rigged the load.
    pub rigger: Option<CallSign>,
    /// Who signed it.
    pub signature: TagSignature,
    /// The authority that stands for the planner, where a planner of a trusted authority signed.
    pub authority: Option<PublicKey>,
}

/// What the device knows.
#[derive(Clone, Copy, Debug)]
pub struct Known<'k> {
    /// Whom it trusts.
    pub trusted: &'k Trusted,
    /// The time by its clock.
    pub now: Time,
    /// The latest time that it has seen signed by anyone it trusts, or in its own journal: its clock cannot be before.
    pub latest_seen: Option<Time>,
    /// Every other seal of the load that it holds, as received.
    pub seals: &'k [Vec<u8>],
    /// Every void of the load that it holds, as received.
    pub voids: &'k [Vec<u8>],
}

/// The verdict with every reason, the gravest first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Report {
    /// The verdict.
    pub verdict: Verdict,
    /// Why, gravest first; for GO, what is still to be known.
    pub reasons: Vec<Reason>,
    /// What the seal says, where one could be read.
    pub seal: Option<Seal>,
    /// Who signed it, where both signatures passed.
    pub signer: Option<Signer>,
}

/// Judges. Pure: the same question and the same knowledge give the same report.
pub fn judge(question: Question<'_>, known: Known<'_>) -> Report {
    let mut reasons = Vec::new();
    let mut report = Report { verdict: Verdict::NoGo, reasons: Vec::new(), seal: None, signer: None };
    if let Some(tag) = question.tag {
        judge_tag(tag, known, &mut reasons);
    }
    match question.seal.map(ReceivedSeal::open) {
        None => reasons.push(Reason::NoInspectionKnown),
        Some(Err(error)) => reasons.push(Reason::Unreadable(error.to_string())),
        Some(Ok(received)) => {
            match known.trusted.signer(Kind::Seal, &received.message) {
                Ok(signer) => {
                    judge_signer(&signer, &received.seal, known, &mut reasons);
                    judge_later(&signer, &received.seal, known, &mut reasons);
                    report.signer = Some(signer);
                }
                Err(TrustError::UnknownAuthority { .. }) => reasons.push(Reason::UnknownAuthority),
                Err(TrustError::BadSignature(_)) => reasons.push(Reason::BadSignature),
                Err(error) => reasons.push(Reason::Unreadable(error.to_string())),
            }
            judge_seal(&received.seal, known, &mut reasons);
            judge_match(&received.seal, question.tag, report.signer.as_ref(), &mut reasons);
            report.seal = Some(received.seal);
        }
    }
    // Stable: reasons of one grade stay in the order in which they were found.
    reasons.sort_by_key(|reason| std::cmp::Reverse(reason.grade()));
    let mut once: Vec<Reason> = Vec::with_capacity(reasons.len());
    for reason in reasons {
        if !once.contains(&reason) {
            once.push(reason);
        }
    }
    let reasons = once;
    report.verdict = match reasons.first().map(Reason::grade) {
        Some(Grade::NoGo) => Verdict::NoGo,
        Some(Grade::Wait) => Verdict::Wait,
        Some(Grade::Note) | None => Verdict::Go,
    };
    report.reasons = reasons;
    report
}

fn judge_tag(tag: &TagSeen, known: Known<'_>, reasons: &mut Vec<Reason>) {
    match tag.signature {
        TagSignature::Planner => {}
        TagSignature::Unsigned => reasons.push(Reason::TagUnsigned),
        TagSignature::Unknown => reasons.push(Reason::TagPlannerUnknown),
        TagSignature::Forged => reasons.push(Reason::TagForged),
    }
    if let Some(authority) = tag.authority.filter(|_| tag.signature == TagSignature::Planner) {
        judge_roster(&authority, known, reasons);
    }
    if tag.mass.si() > tag.allowable.si() {
        reasons.push(Reason::MassOverAllowable { mass: tag.mass, allowable: tag.allowable });
    }
}

fn judge_signer(signer: &Signer, seal: &Seal, known: Known<'_>, reasons: &mut Vec<Reason>) {
    let credential = &signer.credential;
    if known.trusted.revoked(signer) {
        reasons.push(Reason::Revoked(credential.holder.clone()));
    }
    if !credential.roles.has(Role::Inspector) {
        reasons.push(Reason::NotAnInspector(credential.holder.clone()));
    }
    if seal.issued > credential.expires {
        let (inspector, expired) = (credential.holder.clone(), credential.expires);
        reasons.push(Reason::CredentialExpired { inspector, expired });
    }
    if seal.valid_until.since(seal.issued) > credential.longest_validity {
        reasons.push(Reason::ValidTooLong { most: credential.longest_validity });
    }
    judge_roster(&signer.authority, known, reasons);
}

/// Whether this device can know whom an authority has revoked.
fn judge_roster(authority: &PublicKey, known: Known<'_>, reasons: &mut Vec<Reason>) {
    let Some(authority) = known.trusted.authority(authority) else { return };
    let name = authority.name.clone();
    match &authority.roster {
        None => reasons.push(Reason::NoRoster { authority: name }),
        Some(roster) if known.now > roster.expires => {
            reasons.push(Reason::RosterTooOld { authority: name, since: roster.expires });
        }
        Some(_) => {}
    }
}

/// What others who may speak have said of the load since.
fn judge_later(signer: &Signer, seal: &Seal, known: Known<'_>, reasons: &mut Vec<Reason>) {
    for bytes in known.voids {
        let Ok((void, message)) = Void::open(bytes) else { continue };
        if void.record != seal.record {
            continue;
        }
        // Anyone credentialed may take a seal back: to keep a load down wrongly costs an hour, to lift it wrongly a life.
        // A voider whose credential was revoked later still saw what was seen.
        let Ok(signer) = known.trusted.signer(Kind::Void, &message) else { continue };
        if void.issued <= signer.credential.expires {
            reasons.push(Reason::Voided { by: signer.credential.holder, at: void.issued, cause: void.cause });
        }
    }
    let newest = known
        .seals
        .iter()
        .filter_map(|bytes| ReceivedSeal::open(bytes).ok())
        .filter(|other| other.seal.load == seal.load && other.seal.record != seal.record)
        // The cheap questions come before the signatures.
        .filter(|other| seal.issued.since(other.seal.issued) <= CLOCK_SLACK)
        .filter_map(|other| {
            let by = known.trusted.signer(Kind::Seal, &other.message).ok()?;
            let may = by.credential.roles.has(Role::Inspector)
                && other.seal.issued <= by.credential.expires
                && !known.trusted.revoked(&by);
            let other_clock = by.credential.key != signer.credential.key;
            (may && takes_over(&other.seal, seal, other_clock)).then_some(other.seal)
        })
        .max_by_key(|other| (other.issued, other.outcome, other.record));
    if let Some(newest) = newest {
        reasons.push(Reason::Superseded { at: newest.issued, fit: newest.outcome == Outcome::Fit });
    }
}

/// Whether `other` is the later word on the load. Two clocks within their slack do not say which inspection came first: the
/// one that found the load not fit is then taken for the later, or a faster clock would lift what was just refused.
fn takes_over(other: &Seal, seal: &Seal, other_clock: bool) -> bool {
    let refused = other.outcome == Outcome::NotFit && seal.outcome == Outcome::Fit;
    match other.issued.cmp(&seal.issued) {
        Ordering::Greater => true,
        Ordering::Equal => refused || (other.outcome == seal.outcome && other.record > seal.record),
        Ordering::Less => refused && other_clock,
    }
}

fn judge_seal(seal: &Seal, known: Known<'_>, reasons: &mut Vec<Reason>) {
    match seal.outcome {
        Outcome::NotFit => reasons.push(Reason::NotFit),
        Outcome::Fit if seal.corrected < seal.found => {
            reasons.push(Reason::OpenDeficiency(seal.found - seal.corrected));
        }
        Outcome::Fit => {}
    }
    if known.now > seal.valid_until {
        reasons.push(Reason::Expired { at: seal.valid_until });
    } else if seal.valid_until.since(known.now) < SOON {
        reasons.push(Reason::ExpiresSoon(seal.valid_until.since(known.now)));
    }
    let ahead = seal.issued.since(known.now);
    if ahead > CLOCK_SLACK {
        reasons.push(Reason::FromTheFuture { ahead });
    }
    if let Some(latest) = known.latest_seen
        && latest.since(known.now) > CLOCK_SLACK
    {
        reasons.push(Reason::ClockBehind { behind: latest.since(known.now) });
    }
    if seal.corrected > 0 {
        reasons.push(Reason::Corrected(seal.corrected));
    }
}

fn judge_match(seal: &Seal, tag: Option<&TagSeen>, signer: Option<&Signer>, reasons: &mut Vec<Reason>) {
    let Some(tag) = tag else {
        if !seal.tag_signed {
            reasons.push(Reason::TagUnsigned);
        }
        reasons.push(Reason::TagNotSeen(seal.load.clone()));
        return;
    };
    if tag.load != seal.load {
        reasons.push(Reason::OtherLoad { sealed: seal.load.clone(), tag: tag.load.clone() });
    } else if TagPrint::of(&tag.digest) != seal.tag || tag.mass != seal.mass {
        reasons.push(Reason::TagChanged);
    }
    let signer = signer.map(|signer| &signer.credential.holder);
    if let (Some(rigger), Some(signer)) = (&tag.rigger, signer)
        && same_person(rigger, signer)
    {
        reasons.push(Reason::OwnWork(signer.clone()));
    }
}

/// Whether two call signs are one person's: letters and digits alone count, in either case, so that `Anvil 3` and
/// `ANVIL-3` are one.
pub fn same_person(a: &CallSign, b: &CallSign) -> bool {
    let plain = |name: &CallSign| -> String {
        name.as_str().chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
    };
    plain(a) == plain(b)
}
