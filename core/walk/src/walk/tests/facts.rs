//! What the tag and the plan say of the load, held against what was found.

use super::*;

fn blocked(facts: LoadFacts) -> Vec<TagFault> {
    let mut kept = Kept::begun(ground_of(KINDS, facts));
    kept.good(1).kinds_card().good(3);
    let faults = kept.walk.tag_faults().to_vec();
    match kept.tries(decide(Outcome::Fit)) {
        Ok(()) => assert_eq!(faults, []),
        Err(Refusal::NotFit { blocks }) => {
            assert_eq!(blocks, faults.iter().cloned().map(Block::Tag).collect::<Vec<_>>());
            assert_eq!(kept.walk.tally().open, faults.len());
            kept.does(decide(Outcome::NotFit));
        }
        Err(other) => panic!("{other}"),
    }
    assert_eq!(kept.refolded(), kept.walk);
    faults
}

#[test]
fn what_the_tag_shows_stands_in_the_way_of_fit() {
    assert_eq!(blocked(facts("kinds")), []);

    let mut late = facts("kinds");
    late.equipment[0].good_until = Some(t0().plus(Seconds(-1)));
    late.equipment[1].good_until = Some(t0().plus(Seconds::days(1)));
    assert!(
        matches!(blocked(late).as_slice(), [TagFault::InspectionPast { serial, .. }] if serial.as_str() == "SL-1")
    );

    let mut heavy = facts("kinds");
    heavy.gross = Some(mass("5000 lb"));
    assert_eq!(blocked(heavy.clone()), [], "at the limit is within it");
    let (gross, allowable) = (mass("5000 lb"), mass("2.267 t"));
    heavy.allowable = Some(allowable);
    assert_eq!(blocked(heavy), [TagFault::OverAllowable { gross, allowable }]);

    let mut weak = facts("kinds");
    weak.equipment[0].rating = Some(mass("10.675 kN"));
    assert!(
        matches!(blocked(weak.clone()).as_slice(), [TagFault::OverRating { .. }]),
        "2400 lb weigh 10.676 kN"
    );
    weak.equipment[0].rating = Some(mass("10.676 kN"));
    assert_eq!(blocked(weak), []);

    let mut odd = facts("kinds");
    odd.allowable = Some(mass("12 ft"));
    assert!(matches!(blocked(odd).as_slice(), [TagFault::NotAMass { .. }]));
}

#[test]
fn a_leg_without_a_count_on_the_tag_is_a_deficiency_by_itself() {
    let mut bare = facts("kinds");
    bare.links.clear();
    let mut kept = Kept::begun(ground_of(KINDS, bare));
    assert_eq!(kept.walk.tag_faults(), [TagFault::NoLinkCount { leg: "1".into() }]);
    kept.does(Command::GoTo { card: card(2) });
    kept.answer(2, "s.kinds.links", Value::Count(17));
    assert!(matches!(kept.walk.point_status(&point("s.kinds.links")), PointStatus::Good(_)));
    assert!(kept.walk.blocks_fit(kept.now).contains(&Block::Tag(TagFault::NoLinkCount { leg: "1".into() })));
}

/// The accident: an inspection falls due between the first card and the decision, or the clock is set back to hide it.
#[test]
fn what_falls_due_on_the_way_counts() {
    let mut facts = facts("kinds");
    facts.equipment[0].good_until = Some(t0().plus(Seconds(60)));
    let mut kept = Kept::begun(ground_of(KINDS, facts));
    kept.good(1).kinds_card().good(3);
    assert_eq!(kept.walk.tag_faults(), []);
    kept.now = t0().plus(Seconds(90));
    assert!(matches!(kept.refuses(decide(Outcome::Fit)), Refusal::NotFit { .. }));
    kept.does(Command::GoTo { card: card(1) });
    kept.now = t0();
    assert!(matches!(kept.refuses(decide(Outcome::Fit)), Refusal::NotFit { .. }));
    kept.does(decide(Outcome::NotFit));
    assert!(matches!(kept.walk.tag_faults(), [TagFault::InspectionPast { .. }]));
    assert_eq!(kept.refolded(), kept.walk);
}

#[test]
fn rigging_over_a_limit_stands_in_the_way_of_fit() {
    let mut kept = Kept::kinds();
    kept.good(1).kinds_card().good(3);
    let finding = |within_limits| RiggingFinding { within_limits, summary: note("leg 2 at 104 %") };
    kept.does(Command::AssessRigging { finding: finding(false) });
    let Refusal::NotFit { blocks } = kept.refuses(decide(Outcome::Fit)) else { panic!() };
    assert_eq!(blocks, [Block::Rigging { summary: "leg 2 at 104 %".into() }]);
    kept.does(Command::AssessRigging { finding: finding(true) }).does(decide(Outcome::Fit));
}

/// Common practice, no published source: the third link; once through the clevis; four rope parts on each side.
#[test]
fn counts_are_judged_by_the_facts_of_the_trade() {
    for (number, at, right, wrong) in [
        (3, "grab.hook.link", 3, 4),
        (4, "chain.clevis.passes", 1, 2),
        (13, "side-1.lacing.crossing", 1, 0),
        (14, "side-1.knot.parts-left", 4, 3),
    ] {
        let mut kept = Kept::bag();
        kept.does(Command::GoTo { card: card(number) });
        kept.answer(number, at, Value::Count(right));
        assert!(matches!(kept.walk.point_status(&point(at)), PointStatus::Good(_)), "{at}");
        kept.answer(number, at, Value::Count(wrong));
        assert_eq!(kept.walk.point_status(&point(at)), PointStatus::Deficient(FindingNo(1)), "{at}");
    }
}

#[test]
fn the_count_that_is_expected_is_the_procedures_or_the_tags() {
    let walk = Kept::kinds().walk;
    let expected = |at: &str| walk.expected_count(walk.ground().plan.point(&point(at)).unwrap().1);
    assert_eq!(expected("s.kinds.count"), Some(3));
    assert_eq!(expected("s.kinds.links"), Some(40));
    assert_eq!(expected("s.kinds.choice"), None);
}

#[test]
fn the_procedure_is_the_one_on_the_tag() {
    let mut kept = Kept::ready(ground_of(KINDS, facts("bag")));
    let [tag, procedure] = ["bag", "kinds"].map(|id| ProcedureId::new(id).unwrap());
    assert_eq!(kept.refuses(Command::Begin), Refusal::OtherProcedure { tag, procedure });
    assert_eq!(kept.refuses(Command::CardGood { card: card(1) }), Refusal::NotBegun);
}
