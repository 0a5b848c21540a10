//! The laws of the judgement on real homes: whatever words come, in whatever order and way, hook, board, story, lists, pages, export and
//! audit say the same, it is what the judgement says of those words, and no restart or clock set back makes it better.
//!
//! `PROPTEST_CASES=10000 cargo test -p slingseal-tests --test laws` draws that many histories.

mod home;
mod words;

use std::cell::Cell;

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{RngAlgorithm, TestRng, TestRunner};

use home::{Home, Way};
use words::{Draft, Signed, draft};

/// Histories in every run; more by the environment.
const CASES: u32 = 200;

fn cases() -> u32 {
    std::env::var("PROPTEST_CASES").ok().and_then(|text| text.parse().ok()).unwrap_or(CASES)
}

#[test]
fn every_reader_and_every_way_in_say_one_thing() {
    let mut runner = TestRunner::new_with_rng(
        ProptestConfig { cases: cases(), failure_persistence: None, ..ProptestConfig::default() },
        TestRng::deterministic_rng(RngAlgorithm::ChaCha),
    );
    let history = prop::collection::vec((draft(), any::<Way>(), any::<Way>()), 1..9);
    let shuffled = history.prop_flat_map(|history| {
        let order: Vec<usize> = (0..history.len()).collect();
        (Just(history), Just(order).prop_shuffle())
    });
    let asked = (shuffled, 0u8..8, 700i64..3_000);
    let (go, lifted, told) = (Cell::new(0u32), Cell::new(0u32), Cell::new(0u32));
    let unapproved = Cell::new(0u32);
    runner
        .run(&asked, |((history, order), revoked, now)| {
            let signed: Vec<Signed> =
                history.iter().map(|(draft, ..)| draft.clone().under(revoked).sign()).collect();
            let ways = |at: usize| (history[at].1, history[at].2);
            // One home takes them as drawn; every step may lift NO-GO by a later FIT inspection alone.
            let one = Home::new(revoked, now);
            let mut before = one.word();
            for (at, word) in signed.iter().enumerate() {
                one.take(word, ways(at).0);
                let after = one.word();
                if before == "NO-GO" && after != "NO-GO" {
                    lifted.set(lifted.get() + 1);
                    prop_assert!(
                        word.may_lift(&signed[..at], revoked),
                        "{:?} lifts {before:?}",
                        history[at].0
                    );
                }
                before = after;
            }
            // Another takes them in another order by other ways, each once more, and says the same.
            let other = Home::new(revoked, now);
            for at in order.iter().chain(order.first()) {
                other.take(&signed[*at], ways(*at).1);
            }
            let (first, second) = (one.told(), other.told());
            prop_assert_eq!(&first, &second, "order and way");
            let judged = one.judged(&signed);
            prop_assert_eq!((&first.word, &first.reasons), (&judged.0, &judged.1), "program and judgement");
            // Nothing but the authority's own roster makes an unapproved list count.
            prop_assert!(words::newest(&signed) != 4 || first.word != "GO", "no list is approved");
            unapproved.set(
                unapproved.get() + u32::from(first.reasons.iter().any(|code| code.starts_with("procedure_"))),
            );
            go.set(go.get() + u32::from(first.word == "GO"));
            told.set(told.get() + 1);
            // A restart changes nothing; a clock set back behind what was judged is told.
            let one = one.restarted(0);
            prop_assert_eq!(&one.told(), &first, "restart");
            let one = one.restarted(-600);
            prop_assert_ne!(one.word(), "GO", "the clock was set back");
            Ok(())
        })
        .unwrap();
    let (go, lifted, told) = (go.get(), lifted.get(), told.get());
    println!("{told} histories, {go} end in GO, {lifted} times a later FIT inspection lifted NO-GO");
    println!("{} wait for an approval", unapproved.get());
    assert!(go > 0 && lifted > 0 && unapproved.get() > 0, "the histories are too plain: {go} {lifted}");
}

#[test]
fn the_drafts_of_each_kind_are_drawn() {
    let mut runner = TestRunner::deterministic();
    let mut kinds = [0u32; 5];
    for _ in 0..400 {
        let drawn = draft().new_tree(&mut runner).unwrap().current();
        kinds[match drawn {
            Draft::Seal { .. } => 0,
            Draft::Void { .. } => 1,
            Draft::Tag { .. } => 2,
            Draft::Movement { .. } => 3,
            Draft::Roster { .. } => 4,
        }] += 1;
    }
    assert!(kinds.iter().all(|kind| *kind > 5), "{kinds:?}");
}
