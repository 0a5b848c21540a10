use std::collections::BTreeMap;
use std::sync::Arc;

use super::items::item_stats_by;
use super::*;
use crate::procedure::{BUILT_IN, CardNo, Expanded, Fate, Language, built_in};
use crate::walk::{Command, Event, Ground, LoadFacts, Sighting, Walk};
use slingseal_message::envelope::{Kind, Limits, check};
use slingseal_words::{CallSign, Digest, LoadNumber, PointId, ProcedureId, Quantity, Seconds, Serial, Time};

/// Three stations of two, one and one cards, and a card with nothing that can be corrected in place.
const PROCEDURE: &str = r#"
id = "crate"
version = 2
title = "Crate"
source = "common practice"
[[station]]
id = "front"
title = "Front"
[[station.card]]
id = "hook"
title = "Hook"
motion = "Hold the hook."
[[station.card.point]]
id = "gate"
prompt = "Gate shut"
in_place = ["gate is open", "gate is stiff"]
[[station.card.point]]
id = "pin"
prompt = "Pin in"
in_place = ["pin is missing"]
rerig = ["pin is bent"]
[[station.card]]
id = "web"
title = "Web"
motion = "Trace the web."
[[station.card.point]]
id = "twist"
prompt = "No twist"
in_place = ["web is twisted"]
[[station]]
id = "rear"
title = "Rear"
[[station.card]]
id = "links"
title = "Links"
motion = "Count the links."
[[station.card.point]]
id = "count"
kind = "count"
expect = 3
prompt = "Third link"
in_place = ["wrong link"]
[[station]]
id = "top"
title = "Top"
[[station.card]]
id = "lid"
title = "Lid"
motion = "Look at the lid."
[[station.card.point]]
id = "crack"
prompt = "No crack"
rerig = ["lid is cracked"]
[[station.card]]
id = "tie"
title = "Tie"
motion = "Pull at the tie."
[[station.card.point]]
id = "tied"
prompt = "Tied"
in_place = ["tie is loose"]
"#;

const SALTED: Salt = [7; SALT];

fn plan() -> Expanded {
    crate::procedure::check(PROCEDURE).unwrap().expand(Language::English)
}

fn planted(point: &str, name: &str) -> Planted {
    Planted { point: PointId::new(point).unwrap(), name: name.into() }
}

fn four() -> PlantedList {
    PlantedList::new(
        &plan(),
        vec![
            planted("top.tie.tied", "tie is loose"),
            planted("front.hook.pin", "pin is missing"),
            planted("rear.links.count", "wrong link"),
            planted("front.web.twist", "web is twisted"),
        ],
    )
    .unwrap()
}

fn sign(name: &str) -> CallSign {
    CallSign::new(name).unwrap()
}

fn at(seconds: i64) -> Time {
    Time::from_unix(1_796_000_000 + seconds)
}

fn lock(list: &PlantedList) -> Lock {
    let plan = plan();
    Lock {
        load: LoadNumber::new("KM-014").unwrap(),
        locked: at(-600),
        tag: Digest::of(b"tag"),
        procedure: plan.id.clone(),
        version: plan.version,
        procedure_digest: plan.digest,
        standard: Standard::new(3, 4, Seconds(120), 1).unwrap(),
        planted: list.digest(&SALTED),
    }
}

fn ground() -> Arc<Ground> {
    let plan = plan();
    Arc::new(Ground {
        facts: LoadFacts {
            load: Serial::new("KM-014").unwrap(),
            tag: Digest::of(b"tag"),
            procedure: plan.id.clone(),
            rigger: None,
            gross: Some(Quantity::parse("1800 lb").unwrap()),
            allowable: None,
            equipment: vec![],
            links: BTreeMap::new(),
            conditions: None,
        },
        plan: Arc::new(plan),
        inspector: sign("Pupil 1"),
    })
}

/// A student who does these things at these seconds.
fn events(does: &[(i64, Command)]) -> Vec<Event> {
    let mut walk = Walk::new(ground());
    let mut events = Vec::new();
    for (second, command) in std::iter::once(&(0, Command::Begin)).chain(does) {
        for event in walk.decide(command.clone(), at(*second)).unwrap() {
            walk.apply(&event).unwrap();
            events.push(event);
        }
    }
    events
}

fn good(card: u32) -> Command {
    Command::CardGood { card: CardNo::new(card).unwrap() }
}

fn call(card: u32, point: &str, name: &str) -> Command {
    Command::FindDeficiency {
        card: CardNo::new(card).unwrap(),
        point: PointId::new(point).unwrap(),
        name: name.into(),
        sighting: Sighting::default(),
    }
}

fn end() -> Command {
    Command::Decide {
        by: sign("Pupil 1"),
        outcome: crate::walk::Outcome::NotFit,
        reason: Some(slingseal_words::Note::new(END_OF_RUN).unwrap()),
    }
}

fn scored(does: &[(i64, Command)]) -> (Score, Timing) {
    let list = four();
    let (walk, timing) = timing(ground(), &events(does)).unwrap();
    (score(&lock(&list), &list, &SALTED, &walk, &timing).unwrap(), timing)
}

/// Worked by hand: on card 1 (hook) the pin is called by another name at 20 s and the gate falsely at 25 s, card 2 (web) is
/// passed as good at 35 s, card 3 (links) called by a count at 50 s; 4 (lid) and 5 (tie) are never reached.
#[test]
fn scores_as_worked_by_hand() {
    let (score, timing) = scored(&[
        (20, call(1, "front.hook.pin", "pin is bent")),
        (25, call(1, "front.hook.gate", "gate is open")),
        (30, good(1)),
        (35, good(2)),
        (
            50,
            Command::Answer {
                card: CardNo::new(3).unwrap(),
                point: PointId::new("rear.links.count").unwrap(),
                value: crate::walk::Value::Count(4),
            },
        ),
        (60, end()),
    ]);
    let calls: Vec<(&str, u32, &str, Option<i64>)> = score
        .items
        .iter()
        .map(|item| {
            let point = item.planted.point.as_str();
            (point, item.card.number(), item.call.word(), item.after.map(|after| after.0))
        })
        .collect();
    assert_eq!(
        calls,
        [
            ("front.hook.pin", 1, "named_otherwise", Some(20)),
            ("front.web.twist", 2, "passed_as_good", None),
            ("rear.links.count", 3, "found", Some(50)),
            ("top.tie.tied", 5, "not_reached", None),
        ]
    );
    assert_eq!(score.found(), 2);
    let false_calls: Vec<_> = score.false_calls.iter().map(|call| (call.name.as_str(), call.after)).collect();
    assert_eq!(false_calls, [("gate is open", Some(Seconds(25)))]);
    assert_eq!(score.outcome, Outcome::Failed, "two of four, three wanted");
    assert_eq!(timing.seconds, Seconds(60));
    let cards: Vec<(u32, i64)> = timing.cards.iter().map(|(card, time)| (card.number(), time.0)).collect();
    assert_eq!(cards, [(1, 30), (2, 5), (3, 25)], "the time belongs to the card that was stood at");
}

/// The edges of the standard: three of four in 120 s with one false call.
#[test]
fn the_standard_at_its_edges() {
    let standard = Standard::new(3, 4, Seconds(120), 1).unwrap();
    for (found, false_calls, seconds, jumped, outcome) in [
        (3, 1, 120, false, Outcome::Passed),
        (4, 0, 1, false, Outcome::Passed),
        (2, 0, 60, false, Outcome::Failed),
        (3, 2, 60, false, Outcome::Failed),
        (4, 0, 121, false, Outcome::Failed),
        (3, 1, 120, true, Outcome::Unclear),
        (2, 0, 60, true, Outcome::Failed),
    ] {
        assert_eq!(standard.outcome(found, false_calls, Seconds(seconds), jumped), outcome);
    }
    for (least, of, seconds) in
        [(0, 4, 120), (5, 4, 120), (1, 0, 120), (1, 13, 120), (3, 4, 0), (3, 4, 14_401)]
    {
        assert!(Standard::new(least, of, Seconds(seconds), 0).is_err(), "{least} of {of} in {seconds}");
    }
}

#[test]
fn a_clock_that_jumps_is_told_and_its_stretch_does_not_count() {
    let all = |seconds: [i64; 4]| {
        scored(&[
            (seconds[0], call(1, "front.hook.pin", "pin is missing")),
            (seconds[1], call(1, "front.hook.pin", "pin is bent")),
            (seconds[2], Command::GoTo { card: CardNo::new(2).unwrap() }),
            (seconds[2] + 5, call(2, "front.web.twist", "web is twisted")),
            (seconds[2] + 10, Command::GoTo { card: CardNo::new(5).unwrap() }),
            (seconds[2] + 12, call(5, "top.tie.tied", "tie is loose")),
            (seconds[3], end()),
        ])
    };
    let (score, timing) = all([10, 20, 30, 60]);
    assert_eq!((score.outcome, timing.seconds, timing.jumps.len()), (Outcome::Passed, Seconds(60), 0));
    assert_eq!(score.false_calls, [], "a second call at a planted point is no false one");
    let (score, timing) = all([10, 20, 12, 30]);
    assert_eq!((score.outcome, timing.jumps.len()), (Outcome::Unclear, 1), "the clock was set back");
    assert_eq!(timing.seconds, Seconds(20 + 18));
    let (score, timing) = all([10, 20, 4_000, 4_030]);
    assert_eq!((score.outcome, timing.jumps.len()), (Outcome::Unclear, 1), "an hour's silence");
    assert_eq!(timing.seconds, Seconds(20 + 30));
}

#[test]
fn what_was_taken_back_does_not_count_and_a_run_that_goes_on_is_not_scored() {
    let does =
        [(5, call(1, "front.hook.gate", "gate is open")), (9, Command::Undo { answer: 1 }), (12, end())];
    let (score, _) = scored(&does);
    assert_eq!((score.false_calls.len(), score.found()), (0, 0));
    let list = four();
    let (walk, going) = timing(ground(), &events(&does[..2])).unwrap();
    assert_eq!(super::score(&lock(&list), &list, &SALTED, &walk, &going), Err(ExamError::NotEnded));
    assert_eq!(going.shown(at(40)), Seconds(40), "the clock runs on without an answer");
}

#[test]
fn a_changed_key_is_refused() {
    let list = four();
    let locked = lock(&list);
    let (walk, timing) = timing(ground(), &events(&[(12, end())])).unwrap();
    let with = |list: &PlantedList, salt| super::score(&locked, list, salt, &walk, &timing);
    assert!(with(&list, &SALTED).is_ok());
    let three: Vec<Planted> = list.iter().take(3).cloned().collect();
    let moved = [planted("front.hook.gate", "gate is open")];
    let other = PlantedList::new(
        &plan(),
        list.iter().filter(|one| one.point.as_str() != "front.hook.pin").chain(&moved).cloned().collect(),
    );
    assert_eq!(with(&PlantedList::new(&plan(), three).unwrap(), &SALTED), Err(ExamError::KeyChanged));
    assert_eq!(with(&other.unwrap(), &SALTED), Err(ExamError::KeyChanged));
    assert_eq!(with(&list, &[8; SALT]), Err(ExamError::KeyChanged));
    let of_bag = Lock { procedure: ProcedureId::new("bag").unwrap(), ..locked.clone() };
    assert!(matches!(
        super::score(&of_bag, &list, &SALTED, &walk, &timing),
        Err(ExamError::OtherProcedure { .. })
    ));
    let of_tag = Lock { tag: Digest::of(b"another"), ..locked };
    assert!(matches!(super::score(&of_tag, &list, &SALTED, &walk, &timing), Err(ExamError::OtherTag { .. })));
}

#[test]
fn picks_that_cannot_be_are_refused() {
    let plan = plan();
    let of = |list: Vec<Planted>| PlantedList::new(&plan, list).unwrap_err().to_string();
    assert_eq!(of(vec![]), "nothing is planted; pick at least one deficiency, or have some drawn");
    assert_eq!(
        of(vec![planted("front.hook.gate", "gate is open"), planted("front.hook.pin", "pin is missing")]),
        "card 1 would have two deficiencies, and one can hide the other; plant one a card"
    );
    assert_eq!(
        of(vec![planted("front.hook.gate", "pin is missing")]),
        "point front.hook.gate has no deficiency \"pin is missing\"; it has: gate is open, gate is stiff"
    );
    assert_eq!(
        of(vec![planted("front.hook.bolt", "bent")]),
        "procedure crate has no point front.hook.bolt; exam lock --preview lists what can be planted"
    );
}

/// Every built-in procedure, every number that there is room for, many seeds.
#[test]
fn draws_are_spread_and_never_two_on_a_card() {
    let plans =
        BUILT_IN.iter().map(|one| built_in(one.id).unwrap().expand(Language::English)).chain([plan()]);
    for plan in plans {
        let room = |station: usize| {
            let fit = |card: &&crate::procedure::Card| {
                card.station == station
                    && card
                        .points
                        .iter()
                        .any(|point| point.deficiencies.iter().any(|known| known.fate == Fate::InPlace))
            };
            plan.cards.iter().filter(fit).count()
        };
        let rooms: Vec<usize> = (0..plan.stations.len()).map(room).collect();
        let total: usize = rooms.iter().sum();
        let mut seen = std::collections::BTreeSet::new();
        for seed in 0..60u32 {
            for count in 1..=total.min(MOST_PLANTED) {
                let drawn = draw(&plan, count, &seed.to_be_bytes()).unwrap();
                assert_eq!(drawn, draw(&plan, count, &seed.to_be_bytes()).unwrap());
                assert_eq!(drawn.len(), count);
                let mut stations = vec![0; plan.stations.len()];
                let mut cards = std::collections::BTreeSet::new();
                for (one, card, point) in drawn.in_order(&plan) {
                    assert!(cards.insert(card.number), "two on a card");
                    assert!(
                        point
                            .deficiencies
                            .iter()
                            .any(|known| known.name == one.name && known.fate == Fate::InPlace)
                    );
                    stations[card.station] += 1;
                    seen.insert(one.clone());
                }
                for (one, of) in stations.iter().enumerate() {
                    for (other, room) in rooms.iter().enumerate() {
                        let has = stations[other];
                        assert!(*of <= has + 1 || has == *room, "stations {one} and {other}: {stations:?}");
                    }
                }
            }
        }
        let all = plan.cards.iter().flat_map(|card| &card.points).flat_map(|point| &point.deficiencies);
        let all = all.filter(|known| known.fate == Fate::InPlace).count();
        assert!(seen.len() * 2 > all, "{}: {} of {all} were ever drawn", plan.id, seen.len());
        assert!(matches!(draw(&plan, 13, b""), Err(ExamError::TooMany { .. })));
    }
    assert_eq!(
        draw(&plan(), 5, b"").unwrap_err().to_string(),
        "5 deficiencies cannot be drawn: crate has 4 cards with one that can be corrected in place; ask for fewer"
    );
}

#[test]
fn messages_go_out_canonical_and_come_back() {
    let list = four();
    let lock = lock(&list);
    // A credential is any item here: who signed is asked elsewhere.
    let bytes = lock.prepare(&[0x80]).finish(&[9; 64]);
    assert_eq!(Lock::open(&bytes).unwrap().0, lock);
    let text = String::from_utf8_lossy(&bytes);
    assert!(list.iter().all(|one| !text.contains(&one.name) && !text.contains(one.point.as_str())));
    let (walk, timing) = timing(ground(), &events(&[(12, end())])).unwrap();
    let score = score(&lock, &list, &SALTED, &walk, &timing).unwrap();
    let result = ExamResult {
        student: sign("Pupil 1"),
        issued: at(100),
        load: lock.load.clone(),
        procedure: lock.procedure.clone(),
        version: 2,
        key: Digest::of(&bytes),
        sheet: Digest::of(b"sheet"),
        began: at(0),
        standard: lock.standard,
        tally: Tally::of(&score, &timing),
        salt: SALTED,
        planted: list.clone(),
    };
    let signed = result.prepare(&[0x80]).finish(&[9; 64]);
    let (read, message) = ExamResult::open(&signed).unwrap();
    assert_eq!(read, result);
    assert_ne!(message.to_be_signed(Kind::ExamResult), message.to_be_signed(Kind::Seal));
    assert_eq!(read.is_under(&lock, &Digest::of(&bytes)), Ok(()));
    assert_eq!(read.agrees(&sign("PUPIL-1"), &score, &timing), Ok(()));
    assert_eq!(read.is_under(&lock, &Digest::of(b"x")), Err(ExamError::OtherKey { what: "result" }));
    let better = ExamResult { tally: Tally { found: 4, ..result.tally }, ..result.clone() };
    assert!(matches!(better.agrees(&sign("Pupil 1"), &score, &timing), Err(ExamError::Disagrees { .. })));
    let salted = ExamResult { salt: [1; SALT], ..result };
    assert_eq!(salted.is_under(&lock, &Digest::of(&bytes)), Err(ExamError::KeyChanged));
    let sheet = Sheet {
        lock: bytes,
        tag: b"tag".to_vec(),
        student: sign("Pupil 1"),
        device: [1; 16],
        walk: [2; 16],
        head: (9, Digest::of(b"head")),
        events: vec![b"{}".to_vec()],
    };
    assert_eq!(check(&sheet.to_bytes(), Limits::FILE), Ok(()));
    assert_eq!(Sheet::parse(&sheet.to_bytes()), Ok(sheet));
}

#[test]
fn who_and_when_may_run() {
    let lock = lock(&four());
    let begin = |student: &str, seconds| may_begin(&lock, &sign("Teacher 1"), &sign(student), at(seconds));
    assert_eq!(begin("Pupil 1", 0), Ok(()));
    assert!(matches!(begin("TEACHER-1", 0), Err(ExamError::StudentIsInstructor { .. })));
    assert_eq!(begin("Pupil 1", -600 - 120), Ok(()), "within what two clocks stand apart");
    assert_eq!(begin("Pupil 1", -600 - 121), Err(ExamError::BeforeTheLock { seconds: 121 }));
    assert!(allowed(&Command::Pause).is_err() && allowed(&end()).is_err() && allowed(&good(1)).is_ok());
}

fn observations(rows: &[&str]) -> Vec<Observation> {
    let mut seen = Vec::new();
    for (student, row) in rows.iter().enumerate() {
        for (item, mark) in row.chars().enumerate() {
            let planted = planted(&format!("card.point-{item:02}"), "wrong");
            let item = ItemName { procedure: ProcedureId::new("crate").unwrap(), planted };
            seen.push(Observation { student, item, found: mark == '1' });
        }
    }
    seen
}

/// A published worked example: ten students, ten questions, groups of five (studylib.net/doc/25270846, "Item Analysis
/// Worksheet"), whose p and D stand in its table. Corrected point-biserial: NumPy 2.4.6, `corrcoef` of each column with the
/// sum of the others.
#[test]
fn items_as_in_a_published_example() {
    let rows = [
        "1111111111",
        "1111111101",
        "1101111100",
        "0111110101",
        "1110111001",
        "1110110100",
        "0110110101",
        "0111001010",
        "1110100001",
        "0100010010",
    ];
    let published = [
        (0.6, 0.4, 0.3121898691782482),
        (1.0, 0.0, f64::NAN),
        (0.8, 0.0, 0.19535095026508162),
        (0.5, 0.6, 0.35856858280031806),
        (0.8, 0.4, 0.5070674883311095),
        (0.8, 0.4, 0.19535095026508162),
        (0.5, 0.6, 0.35856858280031806),
        (0.6, 0.4, 0.4480440764297547),
        (0.3, -0.2, -0.3851644432598217),
        (0.6, 0.4, 0.31218986917824815),
    ];
    let stats = item_stats_by(&observations(&rows), 0.5);
    assert_eq!(stats.len(), published.len());
    for (stat, (p, d, r)) in stats.iter().zip(published) {
        let name = &stat.item.planted.point;
        assert!((stat.difficulty.value() - p).abs() < 1e-12, "{name}");
        assert!((stat.discrimination.unwrap().value() - d).abs() < 1e-12, "{name}: {stat:?}");
        match stat.point_biserial {
            Some(found) => assert!((found.value() - r).abs() < 1e-12, "{name}: {stat:?}"),
            None => assert!(r.is_nan(), "{name}"),
        }
    }
}

/// Worked by hand: of eleven students 27 % are three. Scores of item and rest: the third place of the upper group is shared
/// by two students with one point, of whom one found the item: 2 + 1/2 of 3. Below, all three missed it.
#[test]
fn ties_at_the_edge_are_shared() {
    let rows = ["111", "111", "110", "011", "010", "001", "010", "001", "000", "000", "000"];
    let stats = item_stats(&observations(&rows));
    assert!((stats[0].discrimination.unwrap().value() - 2.5 / 3.0).abs() < 1e-12);
    assert!(item_stats(&observations(&rows[..3])).iter().all(|stat| stat.discrimination.is_none()));
}
