use std::collections::BTreeMap;
use std::sync::Arc;

use super::{
    Again, At, Block, CardStatus, Caution, Command, EquipmentFact, Event, FindingNo, FoldError, Ground,
    LONGEST_SILENCE, LoadFacts, MOST_PHOTOS, OTHER, Outcome, PointStatus, Refusal, RiggingFinding, Sighting,
    Stage, TagFault, Tally, Value, Walk, What,
};
use crate::procedure::{CardNo, Expected, Fate, Kind, Language, RELEASED, check};
use slingseal_words::{CallSign, Digest, Name, Note, PointId, ProcedureId, Quantity, Seconds, Serial, Time};

mod deciding;
mod facts;
mod fates;
mod folding;
mod random;

/// One card of each kind of point, and a card to stand before and behind it.
const KINDS: &str = r#"id = "kinds"
version = 1
title = "Every kind"
source = "common practice"
[[station]]
id = "s"
title = "S"
[[station.card]]
id = "look"
title = "A look"
motion = "Look."
[[station.card.point]]
id = "a"
prompt = "A"
in_place = ["a is bad"]
rerig = ["a is broken"]
[[station.card.point]]
id = "b"
prompt = "B"
in_place = ["b is bad"]
[[station.card]]
id = "kinds"
title = "The others"
motion = "Count."
[[station.card.point]]
id = "count"
kind = "count"
expect = 3
prompt = "Count"
in_place = ["wrong count"]
[[station.card.point]]
id = "links"
kind = "count"
links_of_leg = "1"
prompt = "Links"
in_place = ["wrong link count"]
[[station.card.point]]
id = "choice"
kind = "choice"
options = ["red", "blue", "none"]
right = ["red", "blue"]
prompt = "Choice"
in_place = ["wrong choice"]
[[station.card.point]]
id = "measure"
kind = "measure"
least = "2 in"
most = "3 in"
prompt = "Measure"
in_place = ["out of range"]
[[station.card.point]]
id = "serial"
kind = "serial"
equipment = "sling"
prompt = "Serial"
rerig = ["not the one on the tag"]
[[station.card.point]]
id = "text"
kind = "text"
optional = true
prompt = "Text"
[[station.card]]
id = "last"
title = "A last look"
motion = "Look."
[[station.card.point]]
id = "c"
prompt = "C"
in_place = ["c is bad"]
"#;

fn t0() -> Time {
    Time::parse("2026-07-09T16:30:00Z").unwrap()
}

fn person(text: &str) -> CallSign {
    CallSign::new(text).unwrap()
}

fn note(text: &str) -> Note {
    Note::new(text).unwrap()
}

fn point(id: &str) -> PointId {
    PointId::new(id).unwrap()
}

fn card(number: u32) -> CardNo {
    CardNo::new(number).unwrap()
}

fn mass(text: &str) -> Quantity {
    Quantity::parse(text).unwrap()
}

fn piece(serial: &str, kind: &str) -> EquipmentFact {
    EquipmentFact {
        serial: Serial::new(serial).unwrap(),
        kind: Name::new(kind).unwrap(),
        rating: None,
        source: None,
        good_until: None,
    }
}

fn facts(procedure: &str) -> LoadFacts {
    LoadFacts {
        load: Serial::new("KM-014").unwrap(),
        tag: Digest::of(b"tag"),
        procedure: ProcedureId::new(procedure).unwrap(),
        rigger: Some(person("Mason 5")),
        gross: Some(mass("2400 lb")),
        allowable: Some(mass("5000 lb")),
        equipment: vec![piece("SL-1", "Chain sling"), piece("BAG-7", "Cargo bag")],
        links: BTreeMap::from([("1".to_owned(), 40)]),
        conditions: None,
    }
}

fn ground_of(text: &str, facts: LoadFacts) -> Ground {
    let plan = check(text).unwrap().expand(Language::English);
    Ground { plan: Arc::new(plan), facts, inspector: person("Anvil 3") }
}

/// A walk that keeps its events, as a store would, with a clock that goes ten seconds a command.
struct Kept {
    walk: Walk,
    events: Vec<Event>,
    now: Time,
}

impl Kept {
    fn ready(ground: Ground) -> Self {
        Self { walk: Walk::new(Arc::new(ground)), events: Vec::new(), now: t0() }
    }

    fn begun(ground: Ground) -> Self {
        let mut kept = Self::ready(ground);
        kept.does(Command::Begin);
        kept
    }

    fn kinds() -> Self {
        Self::begun(ground_of(KINDS, facts("kinds")))
    }

    fn bag() -> Self {
        let first = RELEASED.iter().find(|own| own.id == "bag").unwrap();
        let plan = check(first.text).unwrap().expand(Language::English);
        let facts = facts("bag");
        Self::begun(Ground { plan: Arc::new(plan), facts, inspector: person("Anvil 3") })
    }

    fn tries(&mut self, command: Command) -> Result<(), Refusal> {
        self.now = self.now.plus(Seconds(10));
        for event in self.walk.decide(command, self.now)? {
            self.walk.apply(&event).expect("what is decided can be applied");
            self.events.push(event);
        }
        Ok(())
    }

    fn does(&mut self, command: Command) -> &mut Self {
        let shown = format!("{command:?}");
        self.tries(command).unwrap_or_else(|refusal| panic!("{shown}: {refusal}"));
        self
    }

    fn refuses(&mut self, command: Command) -> Refusal {
        let before = self.walk.clone();
        let shown = format!("{command:?}");
        let refusal = self.tries(command).expect_err(&shown);
        assert_eq!(self.walk, before, "a refusal changes nothing");
        let told = refusal.to_string();
        assert!(told.contains("; ") && !told.contains('\n'), "what is wrong; what to do: {told}");
        refusal
    }

    fn good(&mut self, number: u32) -> &mut Self {
        self.does(Command::CardGood { card: card(number) })
    }

    /// Every count of the card as it is wanted, and the rest good.
    fn counted(&mut self, number: u32) -> &mut Self {
        let points = self.walk.ground().plan.card(card(number)).unwrap().points.clone();
        for at in points {
            if let Kind::Count(Expected::Fixed(wanted)) = at.kind {
                self.does(Command::Answer { card: card(number), point: at.id, value: Value::Count(wanted) });
            }
        }
        self.good(number)
    }

    fn answer(&mut self, number: u32, at: &str, value: Value) -> &mut Self {
        self.does(Command::Answer { card: card(number), point: point(at), value })
    }

    fn find(&mut self, number: u32, at: &str, name: &str) -> &mut Self {
        self.does(found(number, at, name))
    }

    /// The middle card of `KINDS`, all good.
    fn kinds_card(&mut self) -> &mut Self {
        self.answer(2, "s.kinds.count", Value::Count(3))
            .answer(2, "s.kinds.links", Value::Count(40))
            .answer(2, "s.kinds.choice", Value::Choice("red".into()))
            .answer(2, "s.kinds.measure", Value::Measure(mass("2.5 in")))
            .answer(2, "s.kinds.serial", Value::Serial(Serial::new("sl-1").unwrap()))
            .good(2)
    }

    fn refolded(&self) -> Walk {
        Walk::fold(self.walk.ground().clone(), &self.events).expect("kept events fold")
    }
}

fn found(number: u32, at: &str, name: &str) -> Command {
    let sighting = Sighting::default();
    Command::FindDeficiency { card: card(number), point: point(at), name: name.to_owned(), sighting }
}

fn put_right(number: u32) -> Command {
    Command::PutRight {
        finding: FindingNo(number),
        by: Some(person("Mason 5")),
        sighting: Sighting::default(),
    }
}

fn look(number: u32, again: Again, value: Option<Value>) -> Command {
    let (by, sighting) = (person("Anvil 3"), Sighting::default());
    Command::LookAgain { finding: FindingNo(number), by, again, value, sighting }
}

fn decide(outcome: Outcome) -> Command {
    Command::Decide { by: person("Anvil 3"), outcome, reason: None }
}

#[test]
fn the_bag_is_walked_with_one_command_a_card_and_one_a_count() {
    let mut kept = Kept::bag();
    for number in 1..=32 {
        assert_eq!(kept.walk.at(), At::Card(card(number)));
        kept.counted(number);
    }
    assert_eq!(kept.walk.at(), At::Decision);
    assert_eq!(kept.walk.current_card(), None);
    let progress = kept.walk.progress();
    assert_eq!((progress.cards_done, progress.points_done), (32, 105));
    kept.does(decide(Outcome::Fit));
    assert!(matches!(kept.walk.stage(), Stage::Decided { outcome: Outcome::Fit, .. }));
    assert_eq!(kept.walk.ended(), Some(kept.now));
    assert_eq!(kept.walk.tally(), Tally::default());
    assert_eq!(kept.refolded(), kept.walk);
}

#[test]
fn a_card_stands_as_its_points_do() {
    let mut kept = Kept::kinds();
    assert_eq!(kept.walk.card_status(card(1)), CardStatus::Unanswered);
    kept.answer(1, "s.look.a", Value::Good);
    assert_eq!(kept.walk.card_status(card(1)), CardStatus::Partly);
    kept.answer(1, "s.look.b", Value::Good);
    assert_eq!(kept.walk.card_status(card(1)), CardStatus::Good);
    assert_eq!(kept.walk.card_status(card(9)), CardStatus::Unanswered);

    // Another point's open finding is not this point's.
    let mut kept = Kept::kinds();
    kept.find(1, "s.look.a", "a is bad").find(1, "s.look.b", "b is bad").does(put_right(1));
    assert_eq!(kept.walk.point_status(&point("s.look.a")), PointStatus::AwaitsSecondLook(FindingNo(1)));
    assert_eq!(kept.walk.point_status(&point("s.look.b")), PointStatus::Deficient(FindingNo(2)));
}

#[test]
fn found_put_right_looked_at_again_and_both_kept() {
    let mut kept = Kept::kinds();
    kept.find(1, "s.look.b", "b is bad");
    assert_eq!(kept.walk.card_status(card(1)), CardStatus::Deficient);
    assert_eq!(kept.walk.at(), At::Card(card(1)), "the rest of the card is still to be looked at");
    assert!(!kept.walk.card_done(card(1)));
    kept.good(1);
    assert_eq!(kept.walk.card_status(card(1)), CardStatus::Deficient, "good is the rest, not the finding");
    kept.kinds_card().good(3);
    assert_eq!(kept.walk.at(), At::Decision);

    let Refusal::NotFit { blocks } = kept.refuses(decide(Outcome::Fit)) else { panic!() };
    let (finding, name) = (FindingNo(1), "b is bad".to_owned());
    assert_eq!(blocks, [Block::Open { finding, card: card(1), name: name.clone() }]);
    assert_eq!(kept.refuses(look(1, Again::Good, None)), Refusal::NotPutRight { finding });

    kept.does(put_right(1));
    assert_eq!(kept.walk.card_status(card(1)), CardStatus::AwaitsSecondLook);
    assert_eq!(kept.refuses(put_right(1)), Refusal::PutRightAlready { finding });
    let Refusal::NotFit { blocks } = kept.refuses(decide(Outcome::Fit)) else { panic!() };
    assert_eq!(blocks, [Block::AwaitsSecondLook { finding, card: card(1), name }]);

    kept.does(look(1, Again::StillDeficient, None));
    assert_eq!(kept.walk.card_status(card(1)), CardStatus::Deficient);
    kept.does(put_right(1)).does(look(1, Again::Good, None));
    assert_eq!(kept.walk.card_status(card(1)), CardStatus::Good);
    assert_eq!(kept.refuses(look(1, Again::Good, None)), Refusal::ClosedAlready { finding });
    assert_eq!(kept.walk.tally(), Tally { found: 1, corrected: 1, open: 0 });
    assert_eq!(kept.walk.findings()[0].looks.len(), 4, "every correction and every look is kept");
    kept.does(decide(Outcome::Fit));
    assert_eq!(kept.refolded(), kept.walk);
}

/// What is broken cannot be mended on the spot: the load is rigged again, and inspected again in a walk of its own.
#[test]
fn what_needs_rigging_again_is_not_put_right_in_place() {
    let mut kept = Kept::kinds();
    kept.find(1, "s.look.a", "a is broken");
    assert_eq!(
        kept.refuses(put_right(1)),
        Refusal::NotInPlace { name: "a is broken".into(), fate: Fate::Rerig }
    );
    kept.does(decide(Outcome::NotFit));
    assert!(matches!(kept.walk.stage(), Stage::Decided { outcome: Outcome::NotFit, .. }));
}

#[test]
fn other_needs_a_note_and_names_are_checked() {
    let mut kept = Kept::kinds();
    assert_eq!(kept.refuses(found(1, "s.look.a", OTHER)), Refusal::NoteNeeded);
    assert!(matches!(kept.refuses(found(1, "s.look.a", "bad")), Refusal::NoSuchDeficiency { .. }));
    assert!(matches!(kept.refuses(found(1, "s.last.c", "c is bad")), Refusal::NotOnThisCard { .. }));
    let sighting = Sighting { note: Some(note("wasp nest")), photos: vec![Digest::of(b"photo")] };
    let (name, at) = (OTHER.to_owned(), point("s.look.a"));
    kept.does(Command::FindDeficiency { card: card(1), point: at.clone(), name, sighting });
    assert_eq!(kept.walk.findings()[0].photos, [Digest::of(b"photo")]);
    kept.find(1, "s.look.a", "a is bad");
    let again = kept.refuses(found(1, "s.look.a", "a is bad"));
    assert_eq!(again, Refusal::OpenAlready { finding: FindingNo(2) });
    let answer = Command::Answer { card: card(1), point: at.clone(), value: Value::Good };
    assert_eq!(kept.refuses(answer), Refusal::OpenHere { finding: FindingNo(1) });
    let with_photos = |photos: usize| {
        let sighting = Sighting { note: None, photos: vec![Digest::of(b"photo"); photos] };
        let name = "a is broken".to_owned();
        Command::FindDeficiency { card: card(1), point: at.clone(), name, sighting }
    };
    assert!(matches!(kept.refuses(with_photos(9)), Refusal::TooManyPhotos { photos: 9, most: 8 }));
    kept.does(with_photos(MOST_PHOTOS));
}

#[test]
fn every_kind_is_judged() {
    let serial = |text: &str| Value::Serial(Serial::new(text).unwrap());
    let measure = |text: &str| Value::Measure(mass(text));
    let choice = |text: &str| Value::Choice(text.into());
    for (at, value, deficient) in [
        ("count", Value::Count(3), None),
        ("count", Value::Count(2), Some("wrong count")),
        ("links", Value::Count(40), None),
        ("links", Value::Count(39), Some("wrong link count")),
        ("choice", choice("blue"), None),
        ("choice", choice("none"), Some("wrong choice")),
        ("measure", measure("2 in"), None),
        ("measure", measure("3 in"), None),
        ("measure", measure("76.2 mm"), None),
        ("measure", measure("76.3 mm"), Some("out of range")),
        ("measure", measure("1.999 in"), Some("out of range")),
        ("serial", serial("SL-1"), None),
        ("serial", serial("sl-1"), None),
        ("serial", serial("BAG-7"), Some("not the one on the tag")),
        ("text", Value::Text(note("dry")), None),
    ] {
        let mut kept = Kept::kinds();
        kept.does(Command::GoTo { card: card(2) });
        let at = format!("s.kinds.{at}");
        kept.answer(2, &at, value.clone());
        let found = kept.walk.findings().first().map(|finding| finding.name.as_str());
        assert_eq!(found, deficient, "{at} {value}");
        let shown = kept.walk.findings().first().and_then(|finding| finding.value.clone());
        assert_eq!(shown, deficient.map(|_| value));
        assert_eq!(kept.refolded(), kept.walk);
    }
    let mut kept = Kept::kinds();
    kept.does(Command::GoTo { card: card(2) });
    let mut refused = |at: &str, value: Value| {
        kept.refuses(Command::Answer { card: card(2), point: point(&format!("s.kinds.{at}")), value })
    };
    assert!(matches!(refused("count", measure("3 in")), Refusal::WrongKind { .. }));
    assert!(matches!(refused("choice", choice("green")), Refusal::NoSuchOption { .. }));
    assert!(matches!(refused("measure", measure("3 lb")), Refusal::WrongUnit { .. }));
    for at in ["count", "links", "choice", "measure", "serial"] {
        assert!(matches!(refused(at, Value::Good), Refusal::ValueNeeded { .. }), "{at}");
    }
}

#[test]
fn whole_card_good_asks_for_what_only_the_hand_knows() {
    let mut kept = Kept::kinds();
    kept.good(1);
    let needed: Vec<String> = kept.walk.needing_values().iter().map(|point| point.id.to_string()).collect();
    assert_eq!(
        needed,
        ["s.kinds.count", "s.kinds.links", "s.kinds.choice", "s.kinds.measure", "s.kinds.serial"]
    );
    let wanted = Refusal::ValueNeeded { point: point("s.kinds.count"), wanted: "count" };
    assert_eq!(kept.refuses(Command::CardGood { card: card(2) }), wanted);
    kept.kinds_card();
    assert_eq!(kept.walk.at(), At::Card(card(3)));
    let PointStatus::Good(left_out) = kept.walk.point_status(&point("s.kinds.text")) else { panic!() };
    assert_eq!(left_out.value, None);
}

/// A correction of a wrong count is counted again: the new value is judged as the first was.
#[test]
fn a_second_look_with_a_value_is_judged() {
    let mut kept = Kept::kinds();
    kept.does(Command::GoTo { card: card(2) });
    kept.answer(2, "s.kinds.measure", Value::Measure(mass("5 in"))).does(put_right(1));
    assert!(matches!(kept.refuses(look(1, Again::Good, None)), Refusal::ValueNeeded { .. }));
    let five = Some(Value::Measure(mass("5 in")));
    assert_eq!(kept.refuses(look(1, Again::Good, five)), Refusal::StillDeficient);
    kept.does(look(1, Again::Good, Some(Value::Measure(mass("2.5 in")))));
    assert!(matches!(kept.walk.point_status(&point("s.kinds.measure")), PointStatus::Good(_)));
    assert_eq!(kept.refolded(), kept.walk);
}

/// The accident: a glove presses twice, and the second press answers a card that nobody has read.
#[test]
fn a_second_press_does_not_fall_through() {
    let mut kept = Kept::kinds();
    kept.good(1);
    let current = At::Card(card(2));
    let stale = Refusal::NotThisCard { pressed: card(1), current };
    assert_eq!(kept.refuses(Command::CardGood { card: card(1) }), stale);
    assert_eq!(kept.refuses(found(1, "s.look.a", "a is bad")), stale);
    let answer = Command::Answer { card: card(1), point: point("s.look.a"), value: Value::Good };
    assert_eq!(kept.refuses(answer), stale);
    kept.kinds_card();
    kept.does(Command::Undo { answer: kept.walk.last_answer().unwrap() });
    let last = kept.walk.last_answer().unwrap();
    let pressed = last + 1;
    assert_eq!(kept.refuses(Command::Undo { answer: pressed }), Refusal::NotTheLastAnswer { pressed, last });
}

#[test]
fn undo_takes_back_each_kind_of_answer() {
    let mut kept = Kept::kinds();
    assert_eq!(kept.refuses(Command::Undo { answer: 1 }), Refusal::NothingToUndo);
    let mut before = Vec::new();
    let commands = [
        Command::Answer { card: card(1), point: point("s.look.a"), value: Value::Good },
        found(1, "s.look.a", "a is bad"),
        put_right(1),
        look(1, Again::StillDeficient, None),
        put_right(1),
        look(1, Again::Good, None),
        Command::CardGood { card: card(1) },
        Command::Answer { card: card(2), point: point("s.kinds.count"), value: Value::Count(7) },
    ];
    for command in commands {
        before.push((kept.walk.at(), kept.walk.cards.clone(), kept.walk.findings().to_vec()));
        kept.does(command);
    }
    for (at, cards, findings) in before.into_iter().rev() {
        let answer = kept.walk.last_answer().unwrap();
        kept.does(Command::Undo { answer });
        assert_eq!((kept.walk.at(), &kept.walk.cards), (at, &cards));
        assert_eq!(kept.walk.findings(), findings);
    }
    assert_eq!(kept.walk.last_answer(), None);
    assert_eq!(kept.events.len(), 17, "what was taken back stays on the record");
    kept.find(1, "s.look.a", "a is bad");
    assert_eq!(kept.walk.findings()[0].number, FindingNo(3), "a number is never given twice");
    assert_eq!(kept.refolded(), kept.walk);
}

#[test]
fn a_card_can_be_gone_back_to_and_the_walk_comes_back() {
    let mut kept = Kept::bag();
    kept.good(1).good(2).counted(3);
    kept.does(Command::GoTo { card: card(2) });
    kept.find(2, "apex.fitting.nut", "castellated nut is missing or loose");
    assert_eq!(kept.walk.card_status(card(2)), CardStatus::Deficient);
    kept.good(2);
    assert_eq!(kept.walk.at(), At::Card(card(4)), "back to the first card without an answer");
    kept.does(Command::GoTo { card: card(32) }).counted(32);
    assert_eq!(kept.walk.at(), At::Card(card(4)), "what was passed over is not forgotten");
    let last = card(32);
    assert_eq!(kept.refuses(Command::GoTo { card: card(33) }), Refusal::NoSuchCard { card: card(33), last });
}
