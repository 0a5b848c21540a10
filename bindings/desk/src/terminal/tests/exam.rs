//! A run by single keys.

use slingseal_app::{ExamBegin, ExamPick, ExamPlan, ExamStandard, Issue};

use super::*;

/// A run on the screen, begun under a key of an instructor's.
fn running() -> Hands {
    let folder = tempfile::tempdir().unwrap();
    let lantern = app(&folder);
    practice::make(&lantern, "Lantern 1", PIN).unwrap();
    let request = lantern.set_up().unwrap().request.unwrap();
    let (roles, expires) = (vec![slingseal_app::Role::Instructor], "2099-01-01".into());
    let issue = Issue { request, roles, expires, holder: None, validity_hours: None };
    lantern.receive(&lantern.issue(&issue, "this authority is for practice").unwrap().text).unwrap();
    let pick = ExamPick {
        point: "apex.fitting.nut".into(),
        deficiency: "castellated nut is missing or loose".into(),
    };
    let tag = lantern.tags(1).unwrap()[0].text.clone();
    let plan = ExamPlan { tag, picks: vec![pick], draw: None, seed: None };
    let standard = ExamStandard { least: 1, within_s: 120, false_calls: 0 };
    let key = lantern.exam_lock(&plan, &standard, PIN).unwrap();
    let begin = ExamBegin { key: key.key, tag: None, student: "Pupil 1".into() };
    let run = lantern.exam_begin(&begin).unwrap();
    let home = folder.path().to_owned();
    let mut desk = Desk::new(lantern, home, Language::English, None, Look { colour: true }).unwrap();
    desk.take_up_run(&run.run).unwrap();
    Hands { _folder: folder, desk, now: Duration::from_secs(1) }
}

#[test]
fn a_run_by_keys_shows_a_clock_and_nothing_to_put_right_or_seal() {
    let mut hands = running();
    let shown = hands.screen();
    for wanted in ["EXAM", "Time 0:00 of 2:00", "Called 0.", "training, and no inspection", "card 1 of"] {
        assert!(shown.contains(wanted), "{wanted}: {shown}");
    }
    for unwanted in ["Statics", "seal", "castellated"] {
        assert!(!shown.contains(unwanted), "{unwanted}: {shown}");
    }
    hands.press("+.3\n");
    // Card 3, the apex fitting: the third point, its first deficiency, no note.
    hands.press("-31\n");
    let shown = hands.screen();
    assert!(shown.contains("Call 1 is recorded") && shown.contains("Called 1."), "{shown}");
    assert!(!shown.contains("ut right"), "{shown}");
    hands.press("/");
    assert!(hands.screen().contains("castellated nut is missing or loose  (card 3)"), "{}", hands.screen());
    hands.press("-");
    // Neither pause nor statics nor abandoning is offered.
    hands.press("0");
    let shown = hands.screen();
    assert!(
        shown.contains("End the run") && !shown.contains("Pause") && !shown.contains("Abandon"),
        "{shown}"
    );
    hands.press("-p");
    assert!(matches!(hands.desk.page, Page::Walk) && hands.view().stage == WalkStage::Walking);
    hands.all_good();
    assert!(hands.screen().contains("EVERY CARD IS ANSWERED: end the run"), "{}", hands.screen());
    hands.press("+");
    assert!(hands.screen().contains("End the run?"), "{}", hands.screen());
    hands.press("1");
    let shown = hands.screen();
    assert!(shown.contains("THE RUN IS ENDED") && shown.contains("slingseal exam result"), "{shown}");
    assert!(!shown.contains("missed") && !shown.contains("passed"), "{shown}");
    hands.press("+");
    assert!(!hands.desk.tick(), "the clock has stopped");
    let run = hands.desk.run.clone().unwrap();
    let result = hands.desk.app.exam_score(run.sheet.as_deref().unwrap(), PIN).unwrap();
    assert_eq!(result.line.outcome.word(), "passed");
    assert!(hands.desk.farewell().unwrap().contains("is ended: 0:00 of 2:00"));
}

/// Nothing is begun until the student presses the key; from there the clock runs.
#[test]
fn the_clock_of_a_run_starts_by_a_key() {
    let mut hands = running();
    let run = hands.desk.run.clone().unwrap();
    let key = hands.desk.app.exam_keys().unwrap()[0].clone();
    hands.desk.run = None;
    hands.desk.view = None;
    let begin = ExamBegin { key: key.key, tag: None, student: "Pupil 2".into() };
    hands.desk.ask_start(begin);
    let shown = hands.screen();
    assert!(shown.contains("Pupil 2: stand at the load") && shown.contains("1  Start the clock"), "{shown}");
    let runs = |hands: &Hands| hands.desk.app.exam_runs().unwrap().len();
    assert_eq!((runs(&hands), run.clock.as_str()), (1, "0:00 of 2:00"));
    hands.press("1");
    assert!(hands.screen().contains("Time 0:00 of 2:00"), "{}", hands.screen());
    assert_eq!(runs(&hands), 2);
}

/// Nothing is closed in a run, and its caution is whole on a phone's terminal.
#[test]
fn a_run_in_forty_columns_says_that_it_is_training() {
    let mut hands = running();
    let shown = text(&hands.buffer(40, 24));
    assert!(shown.contains("Examination: training, no inspection."), "{shown}");
    hands.press("-11\n");
    for width in [40, 80] {
        let shown = text(&hands.buffer(width, 24));
        assert!(shown.contains("DEFICIENT") && !shown.contains("not closed"), "{shown}");
    }
}

#[test]
fn a_run_can_be_ended_on_the_way_and_says_what_that_costs() {
    let mut hands = running();
    hands.press("+01");
    let shown = hands.screen();
    assert!(shown.contains("cards are not answered; what is planted on them counts as missed"), "{shown}");
    hands.press("2");
    assert!(hands.desk.tick());
    assert!(hands.desk.farewell().unwrap().contains("goes on, and its clock with it"));
}
