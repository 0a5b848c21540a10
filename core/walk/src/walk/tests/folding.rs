//! Events as they are kept: the clock in them, forged ones, the names that they are stored under.

use super::*;

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
