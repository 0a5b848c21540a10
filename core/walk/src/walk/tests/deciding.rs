//! Who may decide, and when.

use super::*;

#[test]
fn none_but_the_inspector_looks_again_resumes_or_decides() {
    let mut kept = Kept::kinds();
    kept.find(1, "s.look.a", "a is bad").does(put_right(1));
    let by = person("Mason 5");
    let other = Refusal::NotTheInspector { by: by.clone(), inspector: person("Anvil 3") };
    let sighting = Sighting::default();
    let finding = FindingNo(1);
    let look = Command::LookAgain { finding, by: by.clone(), again: Again::Good, value: None, sighting };
    assert_eq!(kept.refuses(look), other);
    let decision = Command::Decide { by: by.clone(), outcome: Outcome::NotFit, reason: Some(note("no")) };
    assert_eq!(kept.refuses(decision), other);
    kept.does(Command::Pause);
    assert_eq!(kept.refuses(Command::Resume { by }), other);
}

#[test]
fn fit_is_refused_while_a_card_has_no_answer() {
    let mut kept = Kept::bag();
    for number in 1..=31 {
        kept.counted(number);
    }
    let Refusal::NotFit { blocks } = kept.refuses(decide(Outcome::Fit)) else { panic!() };
    assert_eq!(blocks, [Block::Unanswered { cards: 1, first: card(32) }]);
    assert_eq!(kept.refuses(decide(Outcome::NotFit)), Refusal::ReasonNeeded);
    let reason = Some(note("the wind is too strong to go on"));
    let by = person("Anvil 3");
    kept.does(Command::Decide { by, outcome: Outcome::NotFit, reason });
}

#[test]
fn the_rigger_of_the_load_does_not_inspect_it() {
    for name in ["Anvil 3", "ANVIL 3", "anvil-3", "Anvil3"] {
        let mut facts = facts("kinds");
        facts.rigger = Some(person(name));
        let mut kept = Kept::ready(ground_of(KINDS, facts));
        let refusal = Refusal::InspectorIsRigger { inspector: person("Anvil 3") };
        assert_eq!(kept.refuses(Command::Begin), refusal, "{name}");
    }
    let mut facts = facts("kinds");
    facts.rigger = None;
    let kept = Kept::begun(ground_of(KINDS, facts));
    assert_eq!(kept.walk.cautions(), [Caution::NoRiggerNamed, Caution::RiggingNotAssessed]);
}

#[test]
fn nothing_is_done_after_the_end_or_in_a_pause() {
    let mut kept = Kept::kinds();
    assert_eq!(kept.refuses(Command::Begin), Refusal::BegunAlready);
    let by = person("Anvil 3");
    assert_eq!(kept.refuses(Command::Resume { by: by.clone() }), Refusal::NotPaused);
    kept.good(1).does(Command::Pause);
    assert_eq!(kept.refuses(Command::CardGood { card: card(2) }), Refusal::Paused);
    assert_eq!(kept.refuses(decide(Outcome::NotFit)), Refusal::Paused);
    kept.does(Command::Resume { by });
    assert_eq!(kept.walk.at(), At::Card(card(2)), "the same card");
    kept.does(Command::Abandon { reason: note("aircraft called off") });
    for command in [Command::Begin, Command::Pause, Command::Undo { answer: 1 }, decide(Outcome::NotFit)] {
        assert!(matches!(kept.refuses(command), Refusal::Ended { .. }));
    }
    assert_eq!(kept.refolded(), kept.walk);
}

/// A thumb that slipped: until it is sealed the decision goes back to where the walk stood, and both stay on the record.
#[test]
fn a_decision_is_taken_back_by_its_inspector_alone() {
    let mut kept = Kept::kinds();
    let by = person("Anvil 3");
    assert_eq!(kept.refuses(Command::TakeBackDecision { by: by.clone() }), Refusal::NotDecided);
    kept.good(1).kinds_card().good(3);
    let before = kept.walk.clone();
    kept.does(decide(Outcome::Fit));
    let other = person("Mason 5");
    assert!(matches!(kept.refuses(Command::TakeBackDecision { by: other }), Refusal::NotTheInspector { .. }));
    kept.now = kept.now.plus(Seconds(2 * LONGEST_SILENCE.0));
    kept.does(Command::TakeBackDecision { by });
    assert_eq!(kept.walk.stage(), &Stage::Walking);
    assert_eq!((kept.walk.at(), kept.walk.last_answer()), (before.at(), before.last_answer()));
    assert_eq!(kept.walk.clock_jumps().len(), 1, "what passed before it was taken back is told");
    let reason = Some(note("a thimble is cracked"));
    kept.does(Command::Decide { by: person("Anvil 3"), outcome: Outcome::NotFit, reason });
    assert!(matches!(kept.walk.stage(), Stage::Decided { outcome: Outcome::NotFit, .. }));
    assert_eq!(kept.refolded(), kept.walk);
}
