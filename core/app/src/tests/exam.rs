//! An examination end to end: locked on one device, run on another, scored on the first; and everything that goes wrong.

use super::*;
use crate::exams::SECRET;
use slingseal_journal::NewEntry;
use slingseal_walk::exam::{Planted, PlantedList, Sheet};
use slingseal_words::PointId;

const FOUR: [(&str, &str); 4] = [
    ("apex.fitting.cotter", "cotter pin is missing"),
    ("grab.links.link", "wrong link in the grab hook"),
    ("chain.clevis.threads", "threads of the clevis face down"),
    ("side-2.lateral-1.twist", "strap is twisted"),
];

/// Three wanted, two minutes, no false call.
const STANDARD: ExamStandard = ExamStandard { least: 3, within_s: 120, false_calls: 0 };

pub(super) struct School {
    zone: Zone,
    authority: App,
    pub(super) instructor: App,
    student: App,
    tag: String,
}

fn school() -> School {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let instructor = zone.device(&authority, "instructor", "Lantern 1", "instructor,planner");
    let student = zone.home("student");
    meet(&student, &authority);
    let tag = instructor.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    School { zone, authority, instructor, student, tag }
}

impl School {
    fn plan(&self, list: &[(&str, &str)]) -> ExamPlan {
        let picks =
            list.iter().map(|(point, name)| ExamPick { point: (*point).into(), deficiency: (*name).into() });
        ExamPlan { tag: self.tag.clone(), picks: picks.collect(), draw: None, seed: None }
    }

    fn lock(&self, list: &[(&str, &str)]) -> ExamKeyView {
        self.instructor.exam_lock(&self.plan(list), &STANDARD, PIN).unwrap()
    }

    fn begin(&self, key: &ExamKeyView, student: &str) -> Result<RunView, AppError> {
        let begin =
            ExamBegin { key: key.code.text.clone(), tag: Some(self.tag.clone()), student: student.into() };
        self.student.exam_begin(&begin)
    }

    /// Walks every card, two seconds each, and calls these.
    fn walk(&self, run: &RunView, calls: &[(&str, &str)]) -> RunView {
        let mut view = run.clone();
        while let Some(card) = view.walk.card.clone() {
            self.zone.pass(2);
            for point in &card.points {
                if let Some((_, name)) = calls.iter().find(|(called, _)| *called == point.id) {
                    let request = WalkRequest::Deficiency {
                        card: card.number,
                        point: point.id.clone(),
                        name: (*name).into(),
                        note: (*name == "other").then(|| "crooked".into()),
                        photos: vec![],
                    };
                    view = self.student.exam_do(&run.run, &request).unwrap();
                    assert_eq!(view.walk.refused, None);
                }
            }
            for point in view.walk.card.clone().iter().flat_map(|open| &open.points) {
                if point.needs_value && point.state == PointState::Unanswered {
                    let value = sound_answer(&view.walk, point);
                    let request = WalkRequest::Answer { card: card.number, point: point.id.clone(), value };
                    view = self.student.exam_do(&run.run, &request).unwrap();
                    assert_eq!(view.walk.refused, None);
                }
            }
            view = self.student.exam_do(&run.run, &WalkRequest::CardGood { card: card.number }).unwrap();
            assert_eq!(view.walk.refused, None);
        }
        view
    }

    /// By file: the student's sheet to the instructor.
    fn bring(&self, run: &RunView) -> BundleReport {
        let sheet = self.student.exam_sheet(&run.run).unwrap();
        self.instructor.bundle_read(&mut sheet.as_slice(), &mut |_| ()).unwrap()
    }

    fn score(&self, run: &RunView) -> Result<ExamResultView, AppError> {
        self.instructor.exam_score(run.sheet.as_deref().unwrap(), PIN)
    }
}

/// A school with one scored sheet, by its digest, and so many more that say the same of a journal that ends elsewhere.
pub(super) fn scored_and_forged(number: u64) -> (School, Vec<Sheet>, Digest) {
    let school = school();
    let key = school.lock(&FOUR);
    school.zone.pass(60);
    let run = school.begin(&key, "Pupil 1").unwrap();
    let run = school.walk(&run, &[FOUR[0], FOUR[2]]);
    let run = school.student.exam_end(&run.run).unwrap();
    school.bring(&run);
    school.score(&run).unwrap();
    let inner = school.instructor.lock();
    let row = inner.store.read().exam_papers(slingseal_store::ExamPaper::Sheet).unwrap().remove(0);
    drop(inner);
    let sheet = Sheet::parse(&row.bytes).unwrap();
    let forged =
        (1..=number).map(|ahead| Sheet { head: (sheet.head.0 + ahead, sheet.head.1), ..sheet.clone() });
    let forged = forged.collect();
    (school, forged, row.digest)
}

#[test]
fn whatever_can_be_planted_can_be_picked() {
    let school = school();
    let all = school.instructor.exam_plantable(&school.tag).unwrap();
    assert!(all.is_sorted_by_key(|known| known.card), "in the order of the load");
    for (point, name) in FOUR {
        assert_eq!(
            all.iter().filter(|known| known.point == point && known.name == name).count(),
            1,
            "{point}"
        );
    }
    for known in &all {
        let pick = ExamPick { point: known.point.clone(), deficiency: known.name.clone() };
        let plan = ExamPlan { tag: school.tag.clone(), picks: vec![pick], ..ExamPlan::default() };
        assert_eq!(school.instructor.exam_plan(&plan).unwrap().planted, std::slice::from_ref(known));
    }
    assert!(school.instructor.exam_plantable("no tag").is_err());
}

#[test]
fn locked_here_run_there_scored_here() {
    let school = school();
    let key = school.lock(&FOUR);
    assert_eq!(key.planted.as_ref().unwrap().len(), 4);
    assert!(school.instructor.exam_keys().unwrap()[0].planted.is_none(), "the list of keys shows no list");
    assert!(school.instructor.exam_reveal(&key.short, "000000").is_err(), "nor without the PIN");
    assert_eq!(school.instructor.exam_reveal(&key.short, PIN).unwrap().planted, key.planted);
    let mut bundle = Vec::new();
    school.instructor.bundle_write(&BundleRequest::default(), &mut bundle).unwrap();
    let holds = |text: &str| bundle.windows(text.len()).any(|window| window == text.as_bytes());
    assert!(
        holds("KM-014") && FOUR.iter().all(|(point, name)| !holds(point) && !holds(name)),
        "the list stays here"
    );
    school.zone.pass(60);
    let run = school.begin(&key, "Pupil 1").unwrap();
    assert!(!school.student.exam_key(&key.key).unwrap().list_here);
    assert_eq!(school.student.exam_reveal(&key.key, PIN).unwrap_err().code(), "not_found");
    let run = school.walk(&run, &[FOUR[0], (FOUR[1].0, "other"), FOUR[2]]);
    assert_eq!((run.elapsed_s, run.walk.next, run.ended), (76, NextStep::Decide, false));
    let run = school.student.exam_end(&run.run).unwrap();
    school.zone.pass(500);
    assert_eq!((run.elapsed_s, run.ended), (76, true), "the clock stops at the end");
    assert_eq!(
        school.student.exam_score(run.sheet.as_deref().unwrap(), PIN).unwrap_err().code(),
        "not_found"
    );

    let report = school.bring(&run);
    assert_eq!((report.papers, report.set_aside), (1, vec![]));
    let result = school.score(&run).unwrap();
    assert_eq!(result.line.outcome.word(), "passed");
    assert_eq!((result.line.found, result.line.of, result.line.seconds, result.line.attempt), (3, 4, 76, 1));
    let debrief = result.debrief.as_ref().unwrap();
    let calls: Vec<(u32, &str)> =
        debrief.items.iter().map(|item| (item.planted.card, item.call.word())).collect();
    assert_eq!(calls, [(3, "found"), (6, "named_otherwise"), (9, "found"), (21, "passed_as_good")]);
    assert_eq!(debrief.cards.iter().map(|card| card.seconds).sum::<u32>(), 76);
    assert_eq!(school.score(&run).unwrap(), result, "scored once; asked again it is shown");
    assert_eq!(debrief.items[0].words.rsplit(": ").next(), Some("found at 0:06"));
    school.instructor.speak(Language::Spanish);
    let spanish = school.score(&run).unwrap();
    let ends: Vec<_> = spanish.debrief.iter().flat_map(|debrief| &debrief.items).collect();
    assert!(
        ends[0].words.starts_with("Tarjeta 3, ") && ends[0].words.ends_with("hallada a 0:06"),
        "{ends:?}"
    );
    assert!(ends[3].words.ends_with("omitida: dada por buena, 0:02 en la tarjeta"), "{ends:?}");
    assert_eq!(spanish.reasons[0], "Halladas 3 de 4; se piden 3.");
    school.instructor.speak(Language::English);
    school.student.speak(Language::Spanish);
    assert_eq!(school.student.exam_run(&run.run).unwrap().clock, "1:16 de 2:00");
    school.student.speak(Language::English);

    // It travels by code and by bundle, and is never an inspection.
    let Received::Examination { new: true, .. } = school.student.receive(&result.text).unwrap() else {
        panic!()
    };
    assert_eq!(school.student.exam_result(&result.line.result).unwrap().line, result.line);
    for text in [&result.text, &key.code.text] {
        let verdict = school.student.check(Some(text), None).unwrap();
        assert_eq!((verdict.word.as_str(), verdict.reasons[0].code.as_str()), ("NO-GO", "examination"));
    }
    let desk = school.zone.home("desk");
    meet(&desk, &school.authority);
    let mut bundle = Vec::new();
    school.instructor.bundle_write(&BundleRequest::default(), &mut bundle).unwrap();
    let report = desk.bundle_read(&mut bundle.as_slice(), &mut |_| ()).unwrap();
    assert_eq!(report.set_aside, []);
    assert_eq!(desk.exam_result(&result.line.result).unwrap(), result);
    assert_eq!(desk.bundle_read(&mut bundle.as_slice(), &mut |_| ()).unwrap().papers, 0);
    for app in [&school.instructor, &school.student, &desk] {
        assert_eq!(app.records(None, 10).unwrap(), []);
        assert_eq!(app.start().unwrap().in_hand, []);
        assert_eq!(app.audit().unwrap().faults, [""; 0]);
    }
    let by_tag = desk.check(None, Some(&school.tag)).unwrap();
    assert_eq!(by_tag.word, "NO-GO", "a run is no inspection of its load");
}

#[test]
fn no_seal_comes_of_a_run_and_its_clock_is_not_paused() {
    let school = school();
    let key = school.lock(&FOUR);
    let run = school.begin(&key, "Pupil 1").unwrap();
    school.zone.pass(30);
    for request in [
        WalkRequest::Pause,
        WalkRequest::Resume,
        WalkRequest::Abandon { reason: "tired".into() },
        WalkRequest::Decide { fit: true, reason: None },
        WalkRequest::PutRight { finding: 1, by: None, note: None, photos: vec![] },
        WalkRequest::LookAgain { finding: 1, good: true, value: None, note: None, photos: vec![] },
    ] {
        let view = school.student.exam_do(&run.run, &request).unwrap();
        assert!(view.walk.refused.is_some() && !view.ended, "{request:?}");
    }
    assert_eq!(school.student.exam_run(&run.run).unwrap().elapsed_s, 30);
    assert_eq!(
        school.student.do_walk(&run.run, &WalkRequest::CardGood { card: 1 }).unwrap_err().code(),
        "not_found"
    );
    assert_eq!(school.student.seal(&run.run, PIN, None).unwrap_err().code(), "not_found");
    let run = school.student.exam_end(&run.run).unwrap();
    assert_eq!(school.student.seal(&run.run, PIN, None).unwrap_err().code(), "not_found");
    let late = school.student.exam_do(&run.run, &WalkRequest::CardGood { card: 1 }).unwrap();
    assert_eq!(late.walk.refused.unwrap().message, "This run is ended; its clock has stopped");
    // The tag's own walk begins as if nothing had been: a run is not gone on with as an inspection.
    let inspector = school.zone.device(&school.authority, "inspector", "Anvil 3", "inspector");
    let walk = inspector.begin_walk(&school.tag).unwrap();
    assert_eq!(walk.progress.points_done, 0);
}

/// Two students do the same before two different lists: whatever they are shown is the same, byte for byte.
#[test]
fn the_students_screen_gives_nothing_away() {
    let shown = |list: &[(&str, &str)]| {
        let school = school();
        let key = school.lock(list);
        let mut run = school.begin(&key, "Pupil 1").unwrap();
        let mut pages = vec![serde_json::to_string(&run).unwrap()];
        let card = |run: &RunView| run.walk.card.as_ref().map_or(0, |card| card.number);
        for step in 0..60u32 {
            school.zone.pass(2);
            let here = card(&run);
            let request = match (step, &run.walk.card) {
                (_, None) => break,
                (9, _) => WalkRequest::Undo { answer: run.walk.undo.unwrap() },
                (20, _) => WalkRequest::GoTo { card: 30 },
                (21, _) => WalkRequest::GoTo { card: 2 },
                (_, Some(open))
                    if open.points.iter().any(|point| point.id == "grab.links.link") && step % 2 == 0 =>
                {
                    WalkRequest::Answer { card: here, point: "grab.links.link".into(), value: "4".into() }
                }
                (_, Some(open)) if step % 5 == 1 => {
                    let point = &open.points[0];
                    let name = point.deficiencies[0].name.clone();
                    WalkRequest::Deficiency {
                        card: here,
                        point: point.id.clone(),
                        name,
                        note: None,
                        photos: vec![],
                    }
                }
                (_, Some(open)) => {
                    let wants =
                        |point: &&PointView| point.needs_value && point.state == PointState::Unanswered;
                    match open.points.iter().find(wants) {
                        Some(point) => {
                            let value = sound_answer(&run.walk, point);
                            WalkRequest::Answer { card: here, point: point.id.clone(), value }
                        }
                        None => WalkRequest::CardGood { card: here },
                    }
                }
            };
            run = school.student.exam_do(&run.run, &request).unwrap();
            pages.push(serde_json::to_string(&run).unwrap());
            pages.push(serde_json::to_string(&school.student.exam_runs().unwrap()).unwrap());
        }
        run = school.student.exam_end(&run.run).unwrap();
        pages.push(serde_json::to_string(&run).unwrap());
        let mut keys = school.student.exam_keys().unwrap();
        // The check word is made of the code, and differs as it does.
        keys.iter_mut().for_each(|key| {
            key.code.text.clear();
            key.code.check.clear();
        });
        pages.push(serde_json::to_string(&keys).unwrap());
        assert!(pages.iter().all(|page| !page.contains("rigging\":\"") && !page.contains("seal")));
        // The key's digest, and what is made of it, differ by design.
        let (whole, sheet) = (key.key.clone(), run.sheet.clone().unwrap());
        pages
            .iter()
            .map(|page| page.replace(&whole, "KEY").replace(&key.short, "KEY").replace(&sheet, "SHEET"))
            .collect::<Vec<_>>()
    };
    let one = shown(&FOUR);
    let other = shown(&[
        ("chain.clevis.tight", "clevis pin is loose or not home"),
        ("apex.fitting.nut", "castellated nut is missing or loose"),
        ("grab.hook.roller", "grab hook is reversed"),
        ("side-4.lateral-3.tail", "tail is loose"),
    ]);
    assert!(one.len() > 60);
    assert_eq!(one, other);
}

#[test]
fn the_clock_survives_a_restart_and_a_jump_is_told() {
    let mut school = school();
    let key = school.lock(&FOUR);
    let run = school.begin(&key, "Pupil 1").unwrap();
    school.zone.pass(20);
    school.student.exam_do(&run.run, &WalkRequest::CardGood { card: 1 }).unwrap();
    let home = school.zone.folder.path().join("student");
    drop(std::mem::replace(&mut school.student, school.zone.home("elsewhere")));
    school.zone.pass(300);
    school.student = school.zone.open(&home, "student again").unwrap();
    let line = &school.student.exam_runs().unwrap()[0];
    assert_eq!((line.run.as_str(), line.state.word()), (run.run.as_str(), "open"));
    let back = school.student.exam_run(&run.run).unwrap();
    assert_eq!((back.elapsed_s, back.over, back.clock_jumped), (320, true, false));
    assert_eq!(back.walk.card.as_ref().unwrap().number, 2, "at the same card");
    let same = school.begin(&key, "PUPIL-1").unwrap();
    assert_eq!(same.run, run.run, "begun again it goes on");

    // Set back by less than the last answer is old: the walk alone would not notice.
    school.zone.pass(-40);
    let jumped = school.student.exam_run(&run.run).unwrap();
    assert!(jumped.clock_jumped);
    school.zone.pass(5);
    school.student.exam_do(&run.run, &WalkRequest::CardGood { card: 2 }).unwrap();
    let run = school.student.exam_end(&run.run).unwrap();
    school.bring(&run);
    let failed = school.score(&run).unwrap();
    assert_eq!(
        (failed.line.outcome.word(), failed.line.clock_jumps),
        ("failed", 1),
        "nothing was found besides"
    );

    // Enough found, and a clock set back: nobody knows.
    let key = school.lock(&FOUR);
    let run = school.begin(&key, "Pupil 2").unwrap();
    let run = school.walk(&run, &FOUR[..3]);
    school.zone.pass(-30);
    let run = school.student.exam_end(&run.run).unwrap();
    school.bring(&run);
    let unclear = school.score(&run).unwrap();
    assert_eq!((unclear.line.outcome.word(), unclear.line.found), ("unclear", 3));
    assert!(unclear.warnings[0].contains("clock jumped once"));
    // It may be run again under the same key.
    school.zone.pass(60);
    assert!(school.begin(&key, "Pupil 2").is_err(), "until the result is known on this device");
    school.student.receive(&unclear.text).unwrap();
    let again = school.begin(&key, "Pupil 2").unwrap();
    let again = school.student.exam_end(&school.walk(&again, &FOUR).run).unwrap();
    school.bring(&again);
    let passed = school.score(&again).unwrap();
    assert_eq!((passed.line.outcome.word(), passed.line.attempt), ("passed", 2));
}

#[test]
fn what_cannot_be_is_refused_in_one_line() {
    let school = school();
    let key = school.lock(&FOUR);
    let refused = |result: Result<RunView, AppError>| {
        let message = result.unwrap_err().to_string();
        assert!(!message.contains('\n'));
        message
    };
    assert!(
        refused(school.begin(&key, "LANTERN-1"))
            .starts_with("LANTERN-1 locked this key and cannot be examined")
    );
    let other = school
        .instructor
        .write_tag(&PLAN.replace("KM-014", "KM-015"), &no_file, Some(PIN))
        .unwrap()
        .code
        .text;
    let wrong_tag = ExamBegin { key: key.code.text.clone(), tag: Some(other), student: "Pupil 1".into() };
    assert!(refused(school.student.exam_begin(&wrong_tag)).contains("locked on load KM-014 and its tag"));
    let unknown = school.zone.home("stranger");
    let begin =
        ExamBegin { key: key.code.text.clone(), tag: Some(school.tag.clone()), student: "Pupil 1".into() };
    assert!(refused(unknown.exam_begin(&begin)).contains("does not trust"));
    let no_key = ExamBegin { key: school.tag.clone(), ..begin.clone() };
    assert!(
        refused(school.student.exam_begin(&no_key)).contains("this is a load tag and not an examination key")
    );
    school.zone.pass(-600);
    assert!(refused(school.begin(&key, "Pupil 1")).contains("the key is locked 600 s from now"));
    school.zone.pass(600);

    // Who may lock.
    let inspector = school.zone.device(&school.authority, "inspector", "Anvil 3", "inspector");
    let no_role = inspector.exam_lock(&school.plan(&FOUR), &STANDARD, PIN).unwrap_err();
    assert_eq!(
        no_role.to_string(),
        "Anvil 3 is credentialed as inspector and not as instructor; someone who is must do this"
    );
    let five = ExamStandard { least: 5, ..STANDARD };
    assert!(school.instructor.exam_lock(&school.plan(&FOUR), &five, PIN).is_err());
    assert!(school.instructor.exam_lock(&school.plan(&FOUR), &STANDARD, "111111").is_err());

    // A key for another procedure: the device has a file of its own under that id.
    let own = slingseal_walk::procedure::BUILT_IN
        .iter()
        .find(|one| one.id == "bag")
        .unwrap()
        .text
        .replace("version = 2", "version = 7");
    let text = own.replace("Hold the tag in one hand", "Take the tag in one hand");
    school.instructor.add_procedure(&text).unwrap();
    let newest = school.authority.approve(&[Approve::Text(text)], None, WORDS).unwrap().roster.text;
    school.instructor.receive(&newest).unwrap();
    let tag = school.instructor.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    let plan = ExamPlan { tag: tag.clone(), ..school.plan(&FOUR) };
    let newer = school.instructor.exam_lock(&plan, &STANDARD, PIN).unwrap();
    let begin_newer = ExamBegin { key: newer.code.text, tag: Some(tag), student: "Pupil 1".into() };
    let message = refused(school.student.exam_begin(&begin_newer));
    assert!(
        message.contains("the key is for procedure bag version 7 and this is bag version 2"),
        "{message}"
    );

    // A second run under one key, and a run under a key whose run is open elsewhere on this device.
    let run = school.begin(&key, "Pupil 1").unwrap();
    assert_eq!(
        school.student.exam_sheet(&run.run).unwrap_err().to_string(),
        "the run is not ended; end it first"
    );
    let run = school.student.exam_end(&run.run).unwrap();
    assert!(refused(school.begin(&key, "pupil 1")).contains("has run under this key already"));
    school.bring(&run);
    let result = school.score(&run).unwrap();
    assert_eq!(result.line.outcome.word(), "failed");
    assert_eq!(
        result.debrief.unwrap().items.iter().filter(|item| item.call == PlantedCall::NotReached).count(),
        4
    );
}

#[test]
fn a_list_that_was_changed_after_the_lock_is_refused() {
    let school = school();
    let key = school.lock(&FOUR);
    let run = school.student.exam_end(&school.begin(&key, "Pupil 1").unwrap().run).unwrap();
    // A second device of the instructor's knows the key by its code; somebody writes it a list.
    let second = school.zone.device(&school.authority, "second", "Lantern 1", "instructor");
    second.exam_key(&key.code.text).unwrap();
    let sheet = school.student.exam_sheet(&run.run).unwrap();
    second.bundle_read(&mut sheet.as_slice(), &mut |_| ()).unwrap();
    let sheet = run.sheet.unwrap();
    assert_eq!(second.exam_score(&sheet, PIN).unwrap_err().code(), "not_found");
    let plan = slingseal_walk::procedure::built_in("bag").unwrap().expand(Language::English);
    let list = |names: &[(&str, &str)]| {
        let planted = names
            .iter()
            .map(|(point, name)| Planted { point: PointId::new(point).unwrap(), name: (*name).into() });
        PlantedList::new(&plan, planted.collect()).unwrap().to_bytes()
    };
    let (_, lock) = slingseal_message::envelope::unwrap(&key.code.text).unwrap();
    let mut secret = slingseal_message::envelope::Writer::new();
    secret.array(3).bytes(&lock).bytes(&[3; 16]).bytes(&list(&FOUR));
    let body = secret.into_bytes();
    let now = second.lock().now();
    second
        .lock()
        .store
        .write(|tx| tx.append(NewEntry { kind: SECRET, walk: None, body: &body, time: now }).map(drop))
        .unwrap();
    let error = second.exam_score(&sheet, PIN).unwrap_err();
    assert_eq!(error.code(), "refused");
    assert!(error.to_string().starts_with("the planted list is not the one that was locked"), "{error}");
    assert_eq!(second.exam_results().unwrap(), []);
}

#[test]
fn a_unit_s_own_procedure_travels_with_the_sheet_and_the_moving_code_is_small() {
    let school = school();
    let text = slingseal_walk::procedure::BUILT_IN
        .iter()
        .find(|one| one.id == "bag")
        .unwrap()
        .text
        .replace("id = \"bag\"", "id = \"sack\"");
    for app in [&school.instructor, &school.student] {
        app.add_procedure(&text).unwrap();
    }
    let tag = PLAN.replace("procedure = \"bag\"", "procedure = \"sack\"");
    let tag = school.instructor.write_tag(&tag, &no_file, Some(PIN)).unwrap().code.text;
    let plan = ExamPlan { tag: tag.clone(), picks: vec![], draw: Some(4), seed: Some("Monday".into()) };
    let preview = school.instructor.exam_plan(&plan).unwrap();
    let key = school.instructor.exam_lock(&plan, &STANDARD, PIN).unwrap();
    assert_eq!(Some(&preview.planted), key.planted.as_ref(), "the same seed locks what was previewed");
    let begin = ExamBegin { key: key.code.text, tag: Some(tag), student: "Pupil 1".into() };
    let run = school.student.exam_begin(&begin).unwrap();
    let run = school.student.exam_end(&run.run).unwrap();
    let desk = school.zone.home("desk");
    meet(&desk, &school.authority);
    let code = school.student.exam_sheet_code(&run.run).unwrap();
    let mut reader = MovingReader::new();
    let mut frames = 0;
    let bundle = loop {
        frames += 1;
        if let FrameTaken::Whole(bundle) = reader.take(&code.frame(frames).unwrap().text).unwrap() {
            break bundle;
        }
    };
    let report = desk.bundle_read(&mut bundle.as_slice(), &mut |_| ()).unwrap();
    assert_eq!((report.papers, report.set_aside), (1, vec![]), "{frames} frames");
    assert_eq!(desk.exam_runs().unwrap()[0].state, ExamRunState::Ended);
}
