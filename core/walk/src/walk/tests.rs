use std::collections::BTreeMap;
use std::sync::Arc;

use super::{
    Again, At, Block, CardStatus, Caution, Command, EquipmentFact, Event, FindingNo, FoldError, Ground,
    LONGEST_SILENCE, LoadFacts, MOST_PHOTOS, OTHER, Outcome, PointStatus, Refusal, RiggingFinding, Sighting,
    Stage, TagFault, Tally, Value, Walk, What,
};
use crate::procedure::{CardNo, Expected, Fate, Kind, Language, RELEASED, check};
use slingseal_words::{CallSign, Digest, Name, Note, PointId, ProcedureId, Quantity, Seconds, Serial, Time};

mod fates;
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
fn the_count_that_is_expected_is_the_procedures_or_the_tags() {
    let walk = Kept::kinds().walk;
    let expected = |at: &str| walk.expected_count(walk.ground().plan.point(&point(at)).unwrap().1);
    assert_eq!(expected("s.kinds.count"), Some(3));
    assert_eq!(expected("s.kinds.links"), Some(40));
    assert_eq!(expected("s.kinds.choice"), None);
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
fn the_procedure_is_the_one_on_the_tag() {
    let mut kept = Kept::ready(ground_of(KINDS, facts("bag")));
    let [tag, procedure] = ["bag", "kinds"].map(|id| ProcedureId::new(id).unwrap());
    assert_eq!(kept.refuses(Command::Begin), Refusal::OtherProcedure { tag, procedure });
    assert_eq!(kept.refuses(Command::CardGood { card: card(1) }), Refusal::NotBegun);
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

#[test]
fn a_clock_that_jumps_is_recorded() {
    let jumps = |kept: &Kept| -> Vec<i64> {
        kept.walk.clock_jumps().iter().map(|jump| jump.to.since(jump.from).0).collect()
    };
    let mut kept = Kept::kinds();
    kept.good(1);
    kept.now = kept.now.plus(Seconds(29 * 60 + 50));
    kept.does(Command::GoTo { card: card(1) });
    assert_eq!(jumps(&kept), [0; 0], "a look of half an hour is no jump");
    kept.now = kept.now.plus(LONGEST_SILENCE);
    kept.does(Command::GoTo { card: card(1) });
    kept.now = kept.now.plus(Seconds(-110));
    kept.does(Command::GoTo { card: card(1) });
    kept.does(Command::Pause);
    kept.now = kept.now.plus(Seconds::days(2));
    kept.does(Command::Resume { by: person("Anvil 3") });
    kept.does(Command::Pause);
    kept.now = kept.now.plus(Seconds(-1_010));
    kept.does(Command::Resume { by: person("Anvil 3") });
    assert_eq!(
        jumps(&kept),
        [LONGEST_SILENCE.0 + 10, -100, -1_000],
        "a pause excuses going on, never going back"
    );
    assert!(kept.walk.cautions().contains(&Caution::ClockJumped));
    assert_eq!(kept.refolded(), kept.walk);
}

#[test]
fn forged_events_do_not_fold() {
    let mut kept = Kept::kinds();
    kept.find(1, "s.look.a", "a is bad").good(1).kinds_card().good(3);
    let fold = |events: &[Event]| Walk::fold(kept.walk.ground().clone(), events);
    let fit = Event { at: kept.now, what: What::Decided { outcome: Outcome::Fit, reason: None } };
    let mut forged = kept.events.clone();
    forged.push(fit.clone());
    assert_eq!(
        fold(&forged),
        Err(FoldError::OutOfPlace { number: forged.len() }),
        "fit over an open finding"
    );
    let without: Vec<Event> =
        kept.events.iter().filter(|event| !matches!(event.what, What::CardGood { .. })).cloned().collect();
    assert!(fold(&without).is_err(), "a card left out");
    assert_eq!(fold(&kept.events[1..]), Err(FoldError::OutOfPlace { number: 1 }), "no beginning");
    let at = point("s.kinds.count");
    let value = Value::Count(9);
    let lie = What::Answered { card: card(1), point: at, value, deficiency: None };
    let lie = [kept.events[0].clone(), Event { at: t0(), what: lie }];
    assert_eq!(fold(&lie), Err(FoldError::OutOfPlace { number: 2 }), "a wrong count that is called good");

    let mut other = facts("kinds");
    other.tag = Digest::of(b"another tag");
    let other = Arc::new(ground_of(KINDS, other));
    assert_eq!(Walk::fold(other, &kept.events), Err(FoldError::OtherGround { what: "tag" }));
}

/// The stored form is a contract: an event of today is read by every later version.
#[test]
fn events_are_stored_under_stable_names() {
    let mut kept = Kept::kinds();
    let sighting = Sighting { note: Some(note("by the eye")), photos: vec![Digest::of(b"abc")] };
    let (name, at) = ("a is bad".to_owned(), point("s.look.a"));
    kept.does(Command::FindDeficiency { card: card(1), point: at, name, sighting });
    kept.does(put_right(1)).does(look(1, Again::Good, None)).good(1);
    kept.answer(2, "s.kinds.measure", Value::Measure(mass("2.5 in"))).does(Command::Pause);
    let lines: Vec<String> = kept.events.iter().map(|event| serde_json::to_string(event).unwrap()).collect();
    assert_eq!(
        lines[1],
        "{\"at\":\"2026-07-09T16:30:20Z\",\"what\":{\"deficiency_found\":{\"card\":1,\"point\":\"s.look.a\",\
         \"name\":\"a is bad\",\"note\":\"by the eye\",\"photos\":\
         [\"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad\"]}}}"
    );
    assert_eq!(
        lines[3],
        "{\"at\":\"2026-07-09T16:30:40Z\",\"what\":{\"looked_again\":{\"finding\":1,\"again\":\"good\"}}}"
    );
    assert_eq!(
        lines[5],
        "{\"at\":\"2026-07-09T16:31:00Z\",\"what\":{\"answered\":{\"card\":2,\"point\":\"s.kinds.measure\",\
         \"value\":{\"measure\":\"2.5 in\"}}}}"
    );
    assert_eq!(lines[6], "{\"at\":\"2026-07-09T16:31:10Z\",\"what\":{\"paused\":{}}}");
    let back: Vec<Event> = lines.iter().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(back, kept.events);

    let later = "{\"at\":\"2026-07-09T16:31:10Z\",\"by\":\"x\",\"what\":{\"paused\":{\"why\":\"rain\"}}}";
    assert_eq!(serde_json::from_str::<Event>(later).unwrap(), kept.events[6], "a later field is passed over");
    for bad in [
        "{\"at\":\"now\",\"what\":{\"paused\":{}}}",
        "{\"at\":\"2026-07-09T16:31:10Z\",\"what\":{\"card_good\":{\"card\":0}}}",
        "{\"at\":\"2026-07-09T16:31:10Z\",\"what\":{\"abandoned\":{\"reason\":\"\"}}}",
    ] {
        assert!(serde_json::from_str::<Event>(bad).is_err(), "{bad}");
    }
}
