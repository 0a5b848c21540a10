use super::super::*;
use crate::cast::*;
use slingseal_message::envelope::Kind;
use slingseal_message::movement::{MovementEvent, RefusalCause};
use slingseal_message::seal::Outcome;
use slingseal_words::Digest;

const SET_DOWN: MovementEvent = MovementEvent::SetDown;

fn known(reports: Vec<Vec<u8>>) -> Scene {
    let words = reports.into_iter().map(|bytes| (Kind::Movement, bytes)).collect();
    Scene { words, now: at(3_600), ..Scene::default() }
}

fn codes(verdict: Verdict, rest: &[&'static str]) -> (Verdict, Vec<&'static str>) {
    (verdict, rest.to_vec())
}

#[test]
fn a_load_that_was_moved_is_not_fit_until_it_is_inspected_anew() {
    let seal = by_anvil(&seal());
    assert_eq!(known(vec![]).judge(&seal), codes(Verdict::Go, &[]));
    for (event, code) in [
        (MovementEvent::Refused(RefusalCause::Zone), "refused_at_hook"),
        (MovementEvent::Lost, "lost"),
        (SET_DOWN, "set_down"),
        (MovementEvent::Derigged, "derigged"),
        (MovementEvent::Returned, "equipment_returned"),
    ] {
        let report = signed_movement(event, 600, None, &hookup(), THISTLE);
        assert_eq!(known(vec![report.clone()]).judge(&seal), codes(Verdict::NoGo, &[code]));
        let again = by_herald(&seal_at(1_200, Outcome::Fit));
        assert_eq!(known(vec![report]).judge(&again), codes(Verdict::Go, &[]), "{code}: inspected anew");
    }
    let lifted = signed_movement(MovementEvent::Lifted, 600, None, &hookup(), THISTLE);
    assert_eq!(known(vec![lifted]).judge(&seal), codes(Verdict::Wait, &["lifted_before"]));
}

#[test]
fn a_refusal_at_the_hook_is_a_void() {
    let report =
        signed_movement(MovementEvent::Refused(RefusalCause::Rigging), 600, None, &hookup(), THISTLE);
    let mut scene = known(vec![report]);
    scene.words.push((Kind::Seal, by_anvil(&seal())));
    let standing = scene.standing();
    assert_eq!(standing.latest(), Some(&Standing::Voided));
    assert_eq!(standing.state(), Some(LoadState::Voided));
}

#[test]
fn two_clocks_within_their_slack_do_not_say_which_came_first() {
    let seal = by_anvil(&seal());
    for (seconds, verdict) in [(-121, Verdict::Go), (-120, Verdict::NoGo), (0, Verdict::NoGo)] {
        let report = signed_movement(SET_DOWN, seconds, None, &hookup(), THISTLE);
        assert_eq!(known(vec![report]).judge(&seal).0, verdict, "{seconds}");
    }
    // One key is one clock: the inspector who sets a load down and walks it then.
    for (seconds, verdict) in [(-1, Verdict::Go), (0, Verdict::NoGo)] {
        let report = signed_movement(SET_DOWN, seconds, None, &anvil(), ANVIL);
        assert_eq!(known(vec![report]).judge(&seal).0, verdict, "{seconds}, one clock");
    }
}

#[test]
fn a_report_that_names_the_seal_came_after_it_whatever_the_clocks_say() {
    let seal = by_anvil(&seal());
    let report = signed_movement(SET_DOWN, -50_000, Some(Digest::of(&seal)), &hookup(), THISTLE);
    assert_eq!(known(vec![report.clone()]).judge(&seal), codes(Verdict::NoGo, &["set_down"]));
    let other = by_anvil(&seal_at(10, Outcome::Fit));
    assert_eq!(known(vec![report]).judge(&other), codes(Verdict::Go, &[]));
}

#[test]
fn what_happened_before_the_inspection_and_was_told_behind_it_is_nothing_against_it() {
    let seal = by_anvil(&seal());
    let told_late = movement(SET_DOWN, 900, Some(-4_000), None);
    let report = finish(&told_late.prepare(&hookup()), THISTLE);
    assert_eq!(known(vec![report]).judge(&seal), codes(Verdict::Go, &[]));
}

#[test]
fn an_unsigned_report_of_a_stranger_is_told_and_decides_nothing() {
    let seal = by_anvil(&seal());
    for event in [MovementEvent::Lifted, SET_DOWN, MovementEvent::Lost] {
        let report = movement(event, 600, None, None).unsigned().unwrap();
        assert_eq!(known(vec![report]).judge(&seal), codes(Verdict::Go, &["movement_unsigned"]));
    }
    let foreign =
        credential("Thistle 7", &[slingseal_message::trust::Role::Hookup], THISTLE, 1_000_000, ALDER);
    let report = signed_movement(SET_DOWN, 600, None, &foreign, THISTLE);
    assert_eq!(known(vec![report]).judge(&seal), codes(Verdict::Go, &["movement_unsigned"]));
    let mut forged = signed_movement(SET_DOWN, 600, None, &hookup(), THISTLE);
    *forged.last_mut().unwrap() ^= 1;
    assert_eq!(known(vec![forged]).judge(&seal), codes(Verdict::Go, &[]));
}

#[test]
fn the_devices_own_unsigned_report_counts_there() {
    let trusted = trusting(&[]);
    let seal = by_anvil(&seal());
    let sealed = LoadWord::open(Kind::Seal, &seal, &trusted).unwrap();
    let report = movement(SET_DOWN, 600, None, None).unsigned().unwrap();
    let report = LoadWord::open(Kind::Movement, &report, &trusted).unwrap();
    for (report, verdict) in [(report.clone().written_here(), Verdict::NoGo), (report, Verdict::Go)] {
        let words = [&report];
        let evidence = Evidence {
            trusted: &trusted,
            now: at(3_600),
            latest_trusted: None,
            memory: Memory::Whole,
            words: &words,
            pieces: &[],
        };
        assert_eq!(judge_seal(Ok(&sealed), None, &evidence).verdict, verdict);
    }
    assert_eq!(sealed.clone().written_here(), sealed, "a seal is nobody's report");
}

#[test]
fn who_ran_out_gives_a_hint_and_who_was_revoked_later_has_seen_what_was_seen() {
    let seal = by_anvil(&seal());
    let lapsed = credential("Thistle 7", &[slingseal_message::trust::Role::Hookup], THISTLE, 500, SELA);
    let report = signed_movement(SET_DOWN, 600, None, &lapsed, THISTLE);
    assert_eq!(known(vec![report]).judge(&seal), codes(Verdict::Go, &["movement_unsigned"]));
    let report = signed_movement(SET_DOWN, 600, None, &hookup(), THISTLE);
    let revoked = Scene { trusted: trusting(&[&hookup()]), ..known(vec![report]) };
    assert_eq!(revoked.judge(&seal), codes(Verdict::NoGo, &["set_down"]));
}

#[test]
fn of_each_event_the_last_is_told_and_every_event_is() {
    let seal = by_anvil(&seal());
    let reports = [
        (MovementEvent::Lifted, 300),
        (SET_DOWN, 600),
        (SET_DOWN, 900),
        (MovementEvent::Lifted, 1_000),
        (MovementEvent::Derigged, 1_100),
    ];
    let signed = reports.map(|(event, seconds)| signed_movement(event, seconds, None, &hookup(), THISTLE));
    let judgement = known(signed.to_vec()).judgement(&seal);
    let told: Vec<_> = judgement.reasons.iter().map(Reason::code).collect();
    assert_eq!(told, ["set_down", "derigged", "lifted_before"]);
    let at_900 = |reason: &Reason| matches!(reason, Reason::Moved { event: SET_DOWN, at: when, .. } if *when == at(900));
    assert!(judgement.reasons.iter().any(at_900));
}

#[test]
fn another_reason_is_told_in_its_own_words() {
    use slingseal_catalogue::Language;
    use slingseal_message::movement::RefusalCause;
    use slingseal_words::{CallSign, Note};

    let note = Some(Note::new("a door came open").unwrap());
    let told = |event, by: Option<&str>| {
        let by = by.map(|by| CallSign::new(by).unwrap());
        Reason::Moved { event, at: at(900), by, note: note.clone() }.say(Language::English)
    };
    let other = MovementEvent::Refused(RefusalCause::Other);
    for by in [None, Some("Thistle 7")] {
        let words = told(other, by);
        assert!(words.contains("a door came open") && !words.contains("see the note"), "{words}");
    }
    assert!(told(MovementEvent::Refused(RefusalCause::TooHeavy), None).contains("too heavy"));
}
