//! The laws of the judgement, each stated without asking how the rule is written:
//!
//! 1. Nothing lifts the NO-GO of a seal that is shown.
//! 2. Nothing lifts the NO-GO of a load but a later FIT inspection that itself stands, beyond the slack of another clock's refusal.
//! 3. At most one seal of a load is not NO-GO, and it is its latest inspection.
//! 4. A tag alone, the load's standing and the seal that is shown say the same.
//! 5. Revoking somebody lifts no NO-GO, and nothing that a revoked author sealed stands.
//! 6. A clock that is set back, and a memory that was put back, never give GO.
//! 7. What is kept of a standing is what it is, as far as it is settled.
//! 8. The order of words, and the same word twice, change nothing.
//! 9. No load that was moved since, by a report that counts, is anything but NO-GO; lifted alone, it is WAIT at best.
//! 10. A report that counts for nothing changes no verdict.
//! 11. Nothing but its own authority's roster makes a seal stand that was walked by a list which that roster does not approve;
//!     and taking an approval back lifts no NO-GO.
//! 12. Where a load is on its way, for board, account and page, is what the hook says of it: fit where it says GO, and nothing that
//!     counts for nothing moves it.

mod alphabet;
mod enumerated;
mod random;

use super::*;
use crate::cast::load;
use slingseal_message::envelope::Kind;
use slingseal_message::movement::MovementEvent;
use slingseal_message::seal::{Outcome, TagPrint};
use slingseal_message::trust::Trusted;
use slingseal_words::Time;

/// What came of a history: the load's judgement, and the verdict on each of its seals.
struct Answer {
    load: LoadJudgement,
    facts: LoadFacts,
}

impl Answer {
    fn of(words: &[&LoadWord], trusted: &Trusted, now: Time) -> Self {
        let evidence = evidence(words, trusted, now);
        let facts = facts_of_load(&load(), &evidence);
        Self { load: facts.at(&evidence.asked(&[])), facts }
    }

    fn no_go(&self, word: &LoadWord) -> bool {
        matches!(
            self.load.seals.get(&word.digest()),
            Some(standing) if !matches!(standing, Standing::Fit | Standing::Waits(_))
        )
    }
}

fn evidence<'e>(words: &'e [&'e LoadWord], trusted: &'e Trusted, now: Time) -> Evidence<'e> {
    Evidence { trusted, now, latest_trusted: None, memory: Memory::Whole, words, pieces: &[] }
}

/// Law 2: whether a word may have lifted a load's NO-GO. Said by itself: the slack and the order are written out again.
fn may_lift(word: &LoadWord, before: &[&LoadWord], after: &Answer) -> bool {
    let Some(seal) = word.seal().filter(|seal| seal.outcome == Outcome::Fit && word.counts()) else {
        return false;
    };
    let key = |word: &LoadWord| word.signer().map(|signer| signer.credential.key.to_bytes());
    let beyond = |other: &&LoadWord| {
        let Some(theirs) = other.seal().filter(|theirs| other.counts() && theirs.outcome == Outcome::NotFit)
        else {
            return true;
        };
        let later = seal.issued.since(theirs.issued).0;
        if key(word) == key(other) { later > 0 } else { later > 120 }
    };
    !after.no_go(word) && before.iter().all(beyond) && before.iter().all(|report| !moved_since(report, word))
}

/// Whether a report tells, so that it counts, that the load of a seal was moved since: written out again.
fn moved_since(report: &LoadWord, sealed: &LoadWord) -> bool {
    done_since(report, sealed).is_some_and(|event| event != MovementEvent::Lifted)
}

fn done_since(report: &LoadWord, sealed: &LoadWord) -> Option<MovementEvent> {
    let (movement, seal) = (report.movement()?, sealed.seal()?);
    let in_time = report.signer().is_some_and(|signer| movement.issued <= signer.credential.expires);
    if !in_time && *report.author() != Author::ThisDevice {
        return None;
    }
    let key = |word: &LoadWord| word.signer().map(|signer| signer.credential.key.to_bytes());
    let least = if key(report) == key(sealed) { 0 } else { -120 };
    let named = movement.seal == Some(sealed.digest());
    (named || movement.at().since(seal.issued).0 >= least).then_some(movement.event)
}

/// Laws 3, 4 and 7 of one history.
fn hold_alone(words: &[&LoadWord], answer: &Answer, trusted: &Trusted, now: Time) {
    let standing: Vec<&&LoadWord> =
        words.iter().filter(|word| word.seal().is_some() && !answer.no_go(word)).collect();
    let digests: std::collections::BTreeSet<_> = standing.iter().map(|word| word.digest()).collect();
    assert!(digests.len() <= 1, "law 3: {digests:?}");
    assert!(digests.iter().all(|digest| Some(*digest) == answer.load.latest), "law 3");
    let revoked = |word: &&&LoadWord| word.signer().is_some_and(|signer| trusted.revoked(signer));
    assert!(!standing.iter().any(revoked), "law 5: a revoked author's seal stands");
    let fit = answer.load.verdict() != Verdict::NoGo;
    assert_eq!(fit, !digests.is_empty(), "law 4: load and seals");
    let state = answer.load.state();
    assert_eq!(fit, matches!(state, Some(LoadState::Fit | LoadState::Waits)), "law 4: {state:?}");
    for sealed in &standing {
        assert!(!words.iter().any(|report| moved_since(report, sealed)), "law 9");
        if words.iter().any(|report| done_since(report, sealed).is_some()) {
            assert_eq!(answer.load.verdict(), Verdict::Wait, "law 9: lifted");
        }
    }
    for (digest, facts) in &answer.facts.seals {
        let kept = facts.lasting().settled(facts.valid_until, now);
        let at = &answer.load.seals[digest];
        match kept {
            Some(kept) => assert_eq!(&kept, at, "law 7"),
            None => assert!(matches!(at, Standing::Fit | Standing::Waits(_)), "law 7: {at:?}"),
        }
    }
    let latest = answer.facts.latest.and_then(|latest| answer.facts.seals.get(&latest));
    let outline = latest.and_then(|latest| Outline::of(&latest.facts));
    let asked = evidence(words, trusted, now).asked(&[]);
    assert_eq!(outline.map(|outline| outline.at(&asked)), state, "law 7: the outline");
    let scanned = alphabet::scanned();
    let evidence = evidence(words, trusted, now);
    let by_tag = judge_tag(scanned, &evidence);
    assert_eq!(by_tag.digest, answer.load.latest, "law 4: a tag alone asks the latest inspection");
    if by_tag.seal.as_ref().is_none_or(|seal| seal.tag == TagPrint::of(&scanned.digest())) {
        assert_eq!(
            by_tag.verdict,
            answer.load.verdict(),
            "law 4: {:?} {:?}",
            by_tag.reasons,
            answer.load.reasons
        );
    }
}

/// Law 12 of one history.
fn hold_flow(words: &[&LoadWord], answer: &Answer, trusted: &Trusted, now: Time) {
    let flow = |words: &[&LoadWord], state| {
        FlowState::of(state, LastReports::of(&load(), &evidence(words, trusted, now)).event())
    };
    let state = flow(words, answer.load.state());
    if answer.load.latest.is_some() {
        let go = answer.load.verdict() == Verdict::Go;
        assert_eq!(go, state == FlowState::Fit, "law 12: {state:?}, {:?}", answer.load.reasons);
    }
    let without: Vec<&LoadWord> =
        words.iter().filter(|word| word.weight() != Some(ReportWeight::Hint)).copied().collect();
    let fewer = Answer::of(&without, trusted, now);
    assert_eq!(flow(&without, fewer.load.state()), state, "law 12: a hint moves it");
}

/// Law 11 of one history: no seal that was walked by another list than its own authority's roster approves is fit, whatever
/// else is known. Said by itself: the approval is looked up in the roster anew.
fn hold_approval(words: &[&LoadWord], answer: &Answer, trusted: &Trusted) {
    for word in words {
        let (Some(seal), Some(signer)) = (word.seal(), word.signer()) else { continue };
        let roster = trusted.authority(&signer.authority).and_then(|authority| authority.roster.as_ref());
        let approved = roster.is_some_and(|roster| {
            roster.approved.iter().any(|(edition, approval)| {
                edition.procedure == seal.procedure
                    && edition.version == seal.version
                    && edition
                        .thumbprint
                        .iter()
                        .zip(seal.procedure_print)
                        .all(|(ours, theirs)| *ours == theirs)
                    && approval.from <= seal.issued
                    && approval.withdrawn.is_none_or(|since| seal.issued < since)
            })
        });
        let fit = answer.load.seals.get(&word.digest()) == Some(&Standing::Fit);
        assert!(approved || !fit, "law 11: {:?} stands", word.said());
    }
    if answer.load.verdict() == Verdict::Go {
        let latest = answer.load.latest.and_then(|latest| answer.load.seals.get(&latest));
        assert_eq!(latest, Some(&Standing::Fit), "law 11: the load goes and its seal does not");
    }
}

/// Law 6 of one history: this device judged at `now`, and its clock is set back by more than the slack.
fn never_go_by_time(words: &[&LoadWord], trusted: &Trusted, now: Time) {
    let judged = LatestTrusted { time: now, by: Speaker::ThisDevice };
    for back in [121, 86_400] {
        let then = now.plus(slingseal_words::Seconds(-back));
        let evidence = Evidence { latest_trusted: Some(&judged), ..evidence(words, trusted, then) };
        let standing = standing_of_load(&load(), &evidence);
        assert_ne!(standing.verdict(), Verdict::Go, "law 6: the clock is {back} s back");
    }
    let memory = Memory::PutBack { since: now };
    let evidence = Evidence { memory, ..evidence(words, trusted, now) };
    assert_ne!(standing_of_load(&load(), &evidence).verdict(), Verdict::Go, "law 6: put back");
}
