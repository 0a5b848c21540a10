//! Merging is a union of sets: whatever comes, in whatever order, however often, through whichever desk, the account is the
//! same.

use std::cell::Cell;

use proptest::prelude::*;
use proptest::test_runner::TestRunner;

use crate::zone::{Device, Ends, WORDS, Zone};
use slingseal_tests::scripted::PIN;

/// Everything that a desk tells of what it holds.
fn account(desk: &Device) -> (String, String) {
    let mut bytes = Vec::new();
    desk.app.export_json(&mut bytes).unwrap();
    // The have code sums up records and papers.
    (String::from_utf8(bytes).unwrap(), desk.app.have_code().unwrap().text)
}

/// Names for homes that must differ: what their randomness is drawn from is their name.
const NAMES: [&str; 4] = ["left", "right", "between", "beyond"];

#[test]
fn merging_is_commutative_idempotent_and_associative() {
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let planner = zone.device("planner", 0).credentialed(&relief, "Lantern 1", "planner");
    let anvil = zone.device("anvil", 0).credentialed(&relief, "Anvil 3", "inspector");
    let drover = zone.device("drover", 5).credentialed(&relief, "Drover 7", "inspector");
    let hookup = zone.device("hookup", 1).credentialed(&relief, "Thistle 7", "hookup");
    // Pieces that overlap and speak of the same load: sealed, voided, inspected again, seen as a seal alone.
    let tag = planner.plan("KM-301");
    let mut pieces = vec![planner.bundle(None)];
    let seal = zone.inspect(&anvil, &tag, Ends::Fit);
    pieces.push(anvil.bundle(None));
    hookup.told(Some(&seal), Some(&tag));
    pieces.push(hookup.bundle(None));
    hookup.app.void(&seal.record, slingseal_app::VoidCause::LoadMoved, None, PIN).unwrap();
    pieces.push(hookup.bundle(None));
    zone.inspect(&drover, &tag, Ends::NotFit);
    pieces.push(drover.bundle(None));
    zone.inspect(&anvil, &planner.plan("KM-302"), Ends::FitOnceCorrected);
    pieces.push(anvil.bundle(None));
    zone.pass(60);

    let round = Cell::new(0u32);
    let desk = |name: usize| {
        round.set(round.get() + 1);
        let desk = zone.named(&format!("{}-{}", NAMES[name], round.get()), NAMES[name]);
        desk.meet(&relief);
        desk
    };
    let wanted = {
        let all = desk(0);
        pieces.iter().for_each(|piece| drop(all.take(piece)));
        account(&all)
    };
    assert!(wanted.0.contains("KM-301") && wanted.0.contains("voided") && wanted.0.contains("KM-302"));

    // An order in which every piece comes at least once, and where each goes: to one desk, or by way of two others.
    let order = Just((0..pieces.len()).collect::<Vec<_>>())
        .prop_shuffle()
        .prop_flat_map(|all| (Just(all), proptest::collection::vec(0usize..6, 0..4)))
        .prop_map(|(mut all, more)| {
            all.extend(more);
            all
        });
    let way = proptest::collection::vec(any::<bool>(), 12);
    let mut runner = TestRunner::new_with_rng(
        ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() },
        proptest::test_runner::TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha),
    );
    runner
        .run(&(order, way), |(order, way)| {
            // Commutative and idempotent.
            let straight = desk(0);
            for at in &order {
                prop_assert_eq!(straight.take(&pieces[*at]).set_aside, vec![]);
            }
            prop_assert_eq!(&account(&straight), &wanted);
            // Associative: (a ∪ b) ∪ (c ∪ d), whatever is gathered where, is the same union.
            let (left, right, beyond) = (desk(1), desk(2), desk(3));
            for (at, to_left) in order.iter().zip(way.iter().cycle()) {
                let to = if *to_left { &left } else { &right };
                prop_assert_eq!(to.take(&pieces[*at]).set_aside, vec![]);
            }
            beyond.take(&right.bundle(None));
            beyond.take(&left.bundle(None));
            prop_assert_eq!(&account(&beyond), &wanted);
            Ok(())
        })
        .unwrap();
}
