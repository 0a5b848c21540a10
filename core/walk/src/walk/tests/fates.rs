//! What a deficiency leads to, what is entered and never confirmed, what counts for a load and what does not.

use super::*;

/// Two cards: a hook whose correction disturbs the rest of its card, and what the paper, the weather and the net say.
const FATES: &str = r#"id = "fates"
version = 1
title = "Every fate"
source = "common practice"
[[station]]
id = "s"
title = "S"
[[station.card]]
id = "hook"
title = "A hook"
motion = "Turn it."
[[station.card.point]]
id = "roller"
again = "card"
prompt = "Roller"
in_place = ["hook is reversed"]
[[station.card.point]]
id = "link"
kind = "count"
expect = 3
prompt = "Link"
in_place = ["wrong link"]
[[station.card.point]]
id = "chain"
piece = "chain"
prompt = "Chain"
reject = ["chain is cracked"]
[[station.card]]
id = "paper"
title = "Paper, night, net"
motion = "Look."
[[station.card.point]]
id = "aircraft"
prompt = "Aircraft"
new_tag = ["another aircraft"]
[[station.card.point]]
id = "light"
when = "night"
prompt = "Light"
in_place = ["no light"]
[[station.card.point]]
id = "pad"
not_applicable = true
prompt = "Pad"
in_place = ["no pad"]
[[station.card.point]]
id = "serial"
kind = "serial"
equipment = "net"
prompt = "Serial"
rerig = ["another net"]
[[station.card.point]]
id = "mesh"
piece = "net"
prompt = "Mesh"
reject = ["mesh is cut"]
"#;

fn walk(conditions: Option<&[&str]>, equipment: Vec<EquipmentFact>) -> Kept {
    let mut facts = facts("fates");
    facts.equipment = equipment;
    facts.conditions = conditions.map(|list| list.iter().map(|word| (*word).to_owned()).collect());
    Kept::begun(ground_of(FATES, facts))
}

fn not_applicable(at: &str) -> Command {
    let value = Value::NotApplicable(note("no edge bears on the net"));
    Command::Answer { card: card(2), point: point(at), value }
}

/// The accident: "good" on every card, and nobody has counted.
#[test]
fn a_count_is_entered_and_never_confirmed() {
    let mut kept = walk(None, Vec::new());
    let wanted = Refusal::ValueNeeded { point: point("s.hook.link"), wanted: "count" };
    assert_eq!(kept.refuses(Command::CardGood { card: card(1) }), wanted);
    let good = Command::Answer { card: card(1), point: point("s.hook.link"), value: Value::Good };
    assert_eq!(kept.refuses(good), wanted);
    kept.answer(1, "s.hook.link", Value::Count(2));
    assert_eq!(kept.walk.point_status(&point("s.hook.link")), PointStatus::Deficient(FindingNo(1)));
    kept.does(put_right(1));
    assert_eq!(kept.refuses(look(1, Again::Good, None)), wanted, "and counted again after the correction");
    kept.does(look(1, Again::Good, Some(Value::Count(3))));
}

/// What an older build kept, with counts that "good" covered, is read by the rules of its time and by no other.
#[test]
fn an_older_record_folds_by_its_own_rules() {
    let mut kept = Kept::bag();
    let mut lines = vec![serde_json::to_value(&kept.events[0]).unwrap()];
    lines[0]["what"]["begun"].as_object_mut().unwrap().remove("rules").expect("rules are written");
    for number in 1..=32u32 {
        let at = t0().plus(Seconds(10 * i64::from(number) + 10));
        lines.push(serde_json::to_value(Event { at, what: What::CardGood { card: card(number) } }).unwrap());
    }
    let fold = |lines: &[serde_json::Value]| {
        let events: Vec<Event> =
            lines.iter().map(|line| serde_json::from_value(line.clone()).unwrap()).collect();
        Walk::fold(kept.walk.ground().clone(), &events)
    };
    let walk = fold(&lines).expect("the record of an older build");
    assert_eq!(walk.at(), At::Decision);
    lines[0] = serde_json::to_value(&kept.events[0]).unwrap();
    assert_eq!(fold(&lines), Err(FoldError::OutOfPlace { number: 4 }), "card 3 has a count");
    // A walk of an older build that is in hand goes on by today's rules.
    kept.walk = walk;
    kept.does(Command::GoTo { card: card(3) });
    let good = Command::Answer { card: card(3), point: point("grab.hook.link"), value: Value::Good };
    assert!(matches!(kept.refuses(good), Refusal::ValueNeeded { .. }));
}

/// The accident: the hook is turned round, and with it the link moves that was counted before.
#[test]
fn a_correction_that_disturbs_a_card_opens_it_again() {
    let mut kept = walk(None, Vec::new());
    kept.answer(1, "s.hook.link", Value::Count(3)).find(1, "s.hook.roller", "hook is reversed").good(1);
    assert_eq!(kept.walk.at(), At::Card(card(2)));
    kept.does(put_right(1));
    assert_eq!(kept.walk.point_status(&point("s.hook.link")), PointStatus::Unanswered);
    kept.does(look(1, Again::Good, None));
    assert_eq!(kept.walk.at(), At::Card(card(1)), "back to the card");
    assert!(matches!(kept.refuses(Command::CardGood { card: card(1) }), Refusal::ValueNeeded { .. }));
    let answer = kept.walk.last_answer().unwrap();
    kept.does(Command::Undo { answer }).does(Command::Undo { answer: answer - 1 });
    assert!(
        matches!(kept.walk.point_status(&point("s.hook.link")), PointStatus::Good(_)),
        "undo brings them back"
    );
    assert_eq!(kept.refolded(), kept.walk);
}

#[test]
fn paper_and_pieces_are_not_corrected_in_place() {
    let mut kept = walk(None, vec![piece("CH-4", "Chain leg")]);
    kept.find(1, "s.hook.chain", "chain is cracked");
    let refused = kept.refuses(put_right(1));
    assert_eq!(refused, Refusal::NotInPlace { name: "chain is cracked".into(), fate: Fate::Reject });
    assert!(refused.to_string().contains("take the piece out of service"));
    kept.does(Command::GoTo { card: card(2) }).find(2, "s.paper.aircraft", "another aircraft");
    let refused = kept.refuses(put_right(2)).to_string();
    assert!(refused.contains("make a new tag"), "{refused}");
    assert!(!refused.contains("rerig"), "no rigging mends paper: {refused}");
}

#[test]
fn a_piece_is_rejected_by_its_serial() {
    let serial = |text: &str| Serial::new(text).unwrap();
    let rejected = |kept: &Kept| -> Vec<String> {
        kept.walk.rejected_pieces().map(|(serial, why)| format!("{serial}: {}", why.name)).collect()
    };
    // The only one of its kind on the tag.
    let mut kept = walk(None, vec![piece("CH-4", "Chain leg"), piece("NET-1", "Cargo net")]);
    kept.find(1, "s.hook.chain", "chain is cracked");
    assert_eq!(rejected(&kept), ["CH-4: chain is cracked"]);
    // One of two nets, by what was read.
    let mut kept = walk(None, vec![piece("NET-1", "Cargo net"), piece("NET-2", "Cargo net")]);
    kept.does(Command::GoTo { card: card(2) }).answer(2, "s.paper.serial", Value::Serial(serial("NET-2")));
    kept.find(2, "s.paper.mesh", "mesh is cut");
    assert_eq!(rejected(&kept), ["NET-2: mesh is cut"]);
    kept.does(Command::Undo { answer: kept.walk.last_answer().unwrap() });
    assert_eq!(rejected(&kept), [""; 0]);
    // Asked for where nothing says which.
    let mut kept = walk(None, Vec::new());
    kept.find(1, "s.hook.chain", "chain is cracked");
    assert_eq!(rejected(&kept), [""; 0]);
    kept.does(Command::RejectPiece { finding: FindingNo(1), serial: serial("CH-9") });
    assert_eq!(rejected(&kept), ["CH-9: chain is cracked"]);
    kept.find(1, "s.hook.roller", "hook is reversed");
    let other = Command::RejectPiece { finding: FindingNo(2), serial: serial("CH-9") };
    assert_eq!(kept.refuses(other), Refusal::RejectsNothing { finding: FindingNo(2) });
    assert_eq!(kept.refolded(), kept.walk);
}

#[test]
fn a_point_that_does_not_apply_says_why() {
    let mut kept = walk(None, Vec::new());
    kept.does(Command::GoTo { card: card(2) });
    kept.does(not_applicable("s.paper.pad"));
    let PointStatus::Good(answer) = kept.walk.point_status(&point("s.paper.pad")) else { panic!() };
    assert_eq!(answer.value.unwrap().to_string(), "not applicable: no edge bears on the net");
    let refused = kept.refuses(not_applicable("s.paper.aircraft"));
    assert_eq!(refused, Refusal::Applies { point: point("s.paper.aircraft") });
}

/// On a tag that says under which conditions the load flies, the others are passed over; on one that says nothing, they
/// are asked, and may be answered not applicable.
#[test]
fn a_point_counts_when_the_tag_says_so() {
    let points = |kept: &Kept| kept.walk.progress().points;
    assert_eq!([points(&walk(None, Vec::new())), points(&walk(Some(&[]), Vec::new()))], [8, 7]);
    let mut kept = walk(None, Vec::new());
    kept.does(Command::GoTo { card: card(2) }).does(not_applicable("s.paper.light"));

    let mut kept = walk(Some(&["night"]), Vec::new());
    kept.does(Command::GoTo { card: card(2) });
    assert!(matches!(kept.refuses(not_applicable("s.paper.light")), Refusal::Applies { .. }));

    let mut kept = walk(Some(&["fuel"]), Vec::new());
    kept.does(Command::GoTo { card: card(2) });
    assert!(matches!(kept.refuses(found(2, "s.paper.light", "no light")), Refusal::NotOnThisCard { .. }));
    kept.answer(2, "s.paper.serial", Value::Serial(Serial::new("N-1").unwrap())).good(2);
    assert_eq!(kept.walk.card_status(card(2)), CardStatus::Good);
}

/// The accident: the piece that was rejected in the morning hangs on the next load.
#[test]
fn a_piece_that_was_rejected_elsewhere_stands_in_the_way_of_fit() {
    let mut kept = walk(None, vec![piece("CH-4", "Chain leg")]);
    let serial = Serial::new("CH-4").unwrap();
    let fault = TagFault::Rejected { serial, why: "chain is cracked".into(), at: t0() };
    kept.does(Command::KnowFault { fault: fault.clone() });
    let Refusal::NotFit { blocks } = kept.refuses(decide(Outcome::Fit)) else { panic!() };
    assert!(blocks.contains(&Block::Tag(fault)));
    assert_eq!(kept.refolded(), kept.walk);
}
