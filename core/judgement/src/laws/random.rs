//! Drawn histories: more words, more times, more people than can be enumerated. `PROPTEST_CASES=10000` draws that many.

use proptest::prelude::*;

use super::alphabet::{ROOK, approving, lapsed, rook};
use super::*;
use crate::cast::*;
use slingseal_message::movement::{MovementEvent, RefusalCause};
use slingseal_message::seal::Seal;
use slingseal_message::trust::{Approval, Role};
use slingseal_words::Digest;

/// A word before it is signed.
#[derive(Clone, Debug)]
enum Draft {
    Seal {
        by: u8,
        at: i64,
        fit: bool,
        record: u8,
        open: bool,
        hours: i64,
        other_tag: bool,
    },
    Void {
        by: u8,
        at: i64,
        record: u8,
    },
    Tag {
        rigger: u8,
        planned: i64,
        signed: bool,
    },
    /// By one of the seven, by nobody (7), by this device (8).
    Movement {
        by: u8,
        event: u8,
        at: i64,
        told: Option<i64>,
    },
}

/// Two inspectors, one more who may be revoked, one who ran out, a hookup, a leader who inspects, a stranger.
fn papers(by: u8) -> (Vec<u8>, u8) {
    match by % 7 {
        0 => (anvil(), ANVIL),
        1 => (herald(), HERALD),
        2 => (rook(), ROOK),
        3 => (lapsed(), super::alphabet::LAPSED),
        4 => (hookup(), THISTLE),
        // A second credential of the first inspector's key: one clock.
        5 => (credential("Anvil 3", &[Role::Inspector, Role::Leader], ANVIL, 2_000_000, SELA), ANVIL),
        _ => (credential("Anvil 3", &[Role::Inspector], STRANGER, 1_000_000, ALDER), STRANGER),
    }
}

fn record(number: u8) -> Digest {
    Digest::of(&[number])
}

fn tag_of(rigger: u8, planned_at: i64, signed: bool) -> Vec<u8> {
    let names = ["Mason 5", "ANVIL-3", "Herald 2"];
    let rigger = slingseal_words::CallSign::new(names[usize::from(rigger) % names.len()]).unwrap();
    let tag = slingseal_message::tag::Tag { rigger: Some(rigger), planned: at(planned_at), ..tag() };
    if signed { planned(&tag) } else { tag_bytes(&tag, None) }
}

impl Draft {
    fn sign(&self) -> (Kind, Vec<u8>) {
        match self {
            Self::Seal { by, at: issued, fit, record: number, open, hours, other_tag } => {
                let (credential, seed) = papers(*by);
                let tag = if *other_tag { tag_of(by / 7, -7_000, true) } else { planned(&tag()) };
                let seal = Seal {
                    issued: at(*issued),
                    valid_until: at(issued + hours * 3_600),
                    outcome: if *fit { Outcome::Fit } else { Outcome::NotFit },
                    record: record(*number),
                    found: u16::from(*open),
                    ..seal_of(&tag)
                };
                (Kind::Seal, finish(&seal.prepare(&credential), seed))
            }
            Self::Void { by, at, record: number } => {
                let (credential, seed) = papers(*by);
                (Kind::Void, void(record(*number), *at, &credential, seed))
            }
            Self::Tag { rigger, planned, signed } => (Kind::Tag, tag_of(*rigger, *planned, *signed)),
            Self::Movement { by, event, at, told } => {
                let events = [
                    MovementEvent::Lifted,
                    MovementEvent::SetDown,
                    MovementEvent::Refused(RefusalCause::Aircrew),
                    MovementEvent::Lost,
                    MovementEvent::Derigged,
                    MovementEvent::Returned,
                ];
                let event = events[usize::from(*event) % events.len()];
                let report = movement(event, at + told.unwrap_or_default(), told.map(|_| *at), None);
                let bytes = if *by < 7 {
                    let (credential, seed) = papers(*by);
                    finish(&report.prepare(&credential), seed)
                } else {
                    report.unsigned().unwrap()
                };
                (Kind::Movement, bytes)
            }
        }
    }

    fn open(&self, trusted: &Trusted) -> LoadWord {
        let (kind, bytes) = self.sign();
        let word = LoadWord::open(kind, &bytes, trusted).unwrap();
        if matches!(self, Self::Movement { by: 8, .. }) { word.written_here() } else { word }
    }
}

/// Times that crowd around the edges of the slack, and some far apart.
fn time() -> impl Strategy<Value = i64> {
    prop_oneof![
        4 => (0i64..4, -1i64..=1).prop_map(|(slack, edge)| slack * 120 + edge),
        2 => 0i64..1_000,
        1 => -100_000i64..100_000,
    ]
}

fn draft() -> impl Strategy<Value = Draft> {
    prop_oneof![
        8 => (0u8..21, time(), any::<bool>(), 0u8..4, prop::bool::weighted(0.1), 1i64..30, prop::bool::weighted(0.15))
            .prop_map(|(by, at, fit, record, open, hours, other_tag)| Draft::Seal {
                by, at, fit, record, open, hours, other_tag,
            }),
        1 => (0u8..7, time(), 0u8..6).prop_map(|(by, at, record)| Draft::Void { by, at, record }),
        1 => (0u8..3, -8_000i64..0, any::<bool>())
            .prop_map(|(rigger, planned, signed)| Draft::Tag { rigger, planned, signed }),
        2 => (0u8..9, 0u8..6, time(), prop::option::weighted(0.3, 1i64..2_000))
            .prop_map(|(by, event, at, told)| Draft::Movement { by, event, at, told }),
    ]
}

fn trust_of(revoked: u8, approval: Option<Approval>) -> Trusted {
    let papers: Vec<Vec<u8>> = (0..6).filter(|by| revoked >> by & 1 == 1).map(|by| papers(by).0).collect();
    let papers: Vec<&[u8]> = papers.iter().map(Vec::as_slice).collect();
    approving(&papers, approval)
}

/// The list approved before everything, in the middle of it, withdrawn then, or never.
fn approval() -> impl Strategy<Value = Option<Approval>> {
    let since = |from, withdrawn: Option<i64>| Approval { from: at(from), withdrawn: withdrawn.map(at) };
    prop_oneof![
        4 => Just(Some(since(-200_000, None))),
        1 => (-10i64..400).prop_map(move |from| Some(since(from, None))),
        2 => (-10i64..400).prop_map(move |until| Some(since(-200_000, Some(until)))),
        1 => Just(None),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn drawn_histories_keep_the_laws(
        drafts in prop::collection::vec(draft(), 1..12),
        shuffled in any::<u64>(),
        revoked in 0u8..64,
        more in 0u8..64,
        approval in approval(),
        now in prop_oneof![3 => 300i64..2_000, 1 => -500i64..90_000],
    ) {
        let now = at(now);
        let (trusted, less) = (trust_of(revoked | more, approval), trust_of(revoked, approval));
        let opened: Vec<LoadWord> = drafts.iter().map(|draft| draft.open(&trusted)).collect();
        let all: Vec<&LoadWord> = opened.iter().collect();
        // Law 8: in another order, with repetitions.
        let mut other = all.clone();
        other.extend(all.iter().take(3));
        let mut seed = shuffled;
        for last in (1..other.len()).rev() {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            other.swap(last, usize::try_from(seed >> 33).unwrap() % (last + 1));
        }
        let answer = Answer::of(&all, &trusted, now);
        prop_assert_eq!(&Answer::of(&other, &trusted, now).load, &answer.load, "law 8");
        hold_alone(&all, &answer, &trusted, now);
        hold_approval(&all, &answer, &trusted);
        hold_flow(&all, &answer, &trusted, now);
        // Law 11: an approval, or taking it back, turns no NO-GO into anything else, nor the other way.
        let without = Answer::of(&all, &trust_of(revoked | more, None), now);
        for word in all.iter().filter(|word| word.seal().is_some()) {
            prop_assert_eq!(without.no_go(word), answer.no_go(word), "law 11: {:?}", word.said());
        }
        never_go_by_time(&all, &trusted, now);
        // Law 4: each seal that is shown, kept before or not, is what the load's standing says.
        for word in all.iter().filter(|word| word.seal().is_some()) {
            let without: Vec<&LoadWord> =
                all.iter().filter(|other| other.digest() != word.digest()).copied().collect();
            let kept = judge_seal(Ok(word), None, &evidence(&all, &trusted, now));
            let shown = judge_seal(Ok(word), None, &evidence(&without, &trusted, now));
            prop_assert_eq!(&kept, &shown, "law 4: kept before or not");
            prop_assert_eq!(kept.verdict == Verdict::NoGo, answer.no_go(word), "law 4: shown");
        }
        let shown: Vec<Shown<'_>> = all.iter().filter(|word| word.seal().is_some()).map(|word| Ok(*word)).collect();
        let together = judge_seals(&shown, None, &evidence(&[], &trusted, now));
        let gravest = gravest(&together).map(|one| one.verdict);
        prop_assert_eq!(gravest, together.iter().map(|one| one.verdict).max());
        // Laws 1 and 2: each word taken away and added again.
        for word in &all {
            let before: Vec<&LoadWord> =
                all.iter().filter(|other| other.digest() != word.digest()).copied().collect();
            let fewer = Answer::of(&before, &trusted, now);
            for other in before.iter().filter(|other| other.seal().is_some()) {
                prop_assert!(!fewer.no_go(other) || answer.no_go(other), "law 1: {:?}", word.said());
            }
            if word.weight() == Some(ReportWeight::Hint) {
                prop_assert_eq!(fewer.load.verdict(), answer.load.verdict(), "law 10");
            }
            if fewer.load.verdict() == Verdict::NoGo && answer.load.verdict() != Verdict::NoGo {
                prop_assert!(may_lift(word, &before, &answer), "law 2: {:?}", word.said());
            }
        }
        // Law 5: where fewer were revoked, whatever was NO-GO is so where more are.
        let under_less = Answer::of(&all, &less, now);
        if under_less.load.verdict() == Verdict::NoGo {
            prop_assert_eq!(answer.load.verdict(), Verdict::NoGo, "law 5");
        }
        for word in all.iter().filter(|word| word.seal().is_some()) {
            prop_assert!(!under_less.no_go(word) || answer.no_go(word), "law 5: {:?}", word.said());
        }
    }
}
