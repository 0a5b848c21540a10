//! What the hand at the load asks of the facade.

use super::*;

struct Load {
    zone: Zone,
    authority: App,
    tag: String,
}

fn load() -> Load {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let planner = zone.device(&authority, "planner", "Lantern 1", "planner");
    let tag = planner.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    drop(planner);
    Load { zone, authority, tag }
}

fn decided(app: &App, tag: &str, reason: Option<&str>) -> WalkView {
    let view = walk_all(app, app.begin_walk(tag).unwrap());
    let request = WalkRequest::Decide { fit: reason.is_none(), reason: reason.map(str::to_owned) };
    let view = app.do_walk(&view.walk, &request).unwrap();
    assert_eq!(view.refused, None);
    view
}

#[test]
fn a_decision_goes_back_until_it_is_sealed() {
    let load = load();
    let app = load.zone.device(&load.authority, "inspector", "Anvil 3", "inspector");
    let view = decided(&app, &load.tag, None);
    let back = app.do_walk(&view.walk, &WalkRequest::TakeBack).unwrap();
    assert_eq!((back.stage, back.next), (WalkStage::Walking, NextStep::Decide));
    // Kept like everything else: a restart finds the walk where it was left.
    drop(app);
    let app = load.zone.home("inspector");
    assert_eq!(app.walk(&view.walk).unwrap().next, NextStep::Decide);
    let view = app.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    let seal = app.seal(&view.walk, PIN, None).unwrap();
    let story = app.record(&seal.record).unwrap().timeline;
    assert!(story.iter().any(|entry| entry.what == "The decision was taken back"), "{story:?}");
    let error = app.do_walk(&view.walk, &WalkRequest::TakeBack).unwrap_err();
    assert!(error.code() == "refused" && error.to_string().contains("sealed already"), "{error}");
}

#[test]
fn a_reason_of_two_lines_is_taken_as_one() {
    let load = load();
    let app = load.zone.device(&load.authority, "inspector", "Anvil 3", "inspector");
    let view = decided(&app, &load.tag, Some("wet through\n\n  net torn at the lid \n"));
    let seal = app.seal(&view.walk, PIN, None).unwrap();
    let story = app.record(&seal.record).unwrap().timeline;
    assert!(
        story.iter().any(|entry| entry.what == "Decided not fit: wet through / net torn at the lid"),
        "{story:?}"
    );
}

/// The second that a PIN is stretched belongs to whoever draws the next page.
#[test]
fn the_home_is_free_while_a_pin_is_stretched() {
    let load = load();
    let home = load.zone.folder.path().join("slow");
    std::fs::create_dir_all(&home).unwrap();
    let app = App::open(
        &home,
        Outside {
            clock: load.zone.clock.clone(),
            entropy: Arc::new(Repeating("slow", AtomicU64::new(0))),
            device_secret: zeroize::Zeroizing::new(b"slow".to_vec()),
            stretch: Stretch::FIELD,
            language: Language::English,
        },
    )
    .unwrap();
    meet(&app, &load.authority);
    let request = app.make_key("Anvil 3", PIN).unwrap();
    let issue = Issue {
        request: request.text,
        roles: vec![crate::Role::Inspector],
        expires: "2027-06-01".into(),
        holder: None,
        validity_hours: None,
    };
    app.receive(&load.authority.issue(&issue, WORDS).unwrap().text).unwrap();
    let walk = decided(&app, &load.tag, None).walk;
    // Three wrong ones: from then on a try that is counted shows at once, as the wait that a wrong one would cost.
    for _ in 0..3 {
        app.seal(&walk, "000000", None).unwrap_err();
    }
    load.zone.pass(60);
    assert_eq!(app.set_up().unwrap().pin_locked_until, None);
    std::thread::scope(|scope| {
        let sealing = scope.spawn(|| app.seal(&walk, PIN, None).map(|seal| seal.facts.fit));
        let mut drawn = false;
        while !sealing.is_finished() {
            drawn |= app.set_up().unwrap().pin_locked_until.is_some() && !sealing.is_finished();
        }
        assert!(drawn, "nobody could draw a page while the PIN was stretched");
        assert!(sealing.join().unwrap().unwrap());
    });
}

/// A home of the stretching that handhelds do, and the wait that is counted at every try.
fn slow_home(load: &Load, name: &'static str) -> App {
    let home = load.zone.folder.path().join(name);
    std::fs::create_dir_all(&home).unwrap();
    let outside = Outside {
        clock: load.zone.clock.clone(),
        entropy: Arc::new(Repeating(name, AtomicU64::new(0))),
        device_secret: zeroize::Zeroizing::new(name.as_bytes().to_vec()),
        stretch: Stretch::FIELD,
        language: Language::English,
    };
    App::open(&home, outside).unwrap()
}

/// Draws pages while something slow is done, and tells how many were drawn before it was.
fn pages_drawn<T: Send>(app: &App, slow: impl FnOnce() -> T + Send) -> (usize, T) {
    std::thread::scope(|scope| {
        let doing = scope.spawn(slow);
        let mut drawn = 0;
        loop {
            app.set_up().unwrap();
            if doing.is_finished() {
                return (drawn, doing.join().unwrap());
            }
            drawn += 1;
        }
    })
}

/// Whatever stretches a PIN or a passphrase, the home is free meanwhile: pages are drawn by the dozen, where a lock that was held
/// would let through the one or two that came before it.
#[test]
fn the_home_is_free_while_anything_is_stretched() {
    let load = load();
    let desk = slow_home(&load, "slow desk");
    let mut counts = Vec::new();
    let mut count = |what: &'static str, drawn: usize| counts.push((what, drawn));
    let (drawn, authority) = pages_drawn(&desk, || desk.authority_init("Alder Air Relief", WORDS, &[]));
    count("authority_init", drawn);
    let authority = authority.unwrap();
    let phone = slow_home(&load, "slow phone");
    phone.trust(&authority.card.text, &authority.fingerprint).unwrap();
    phone.receive(&authority.roster.text).unwrap();
    let (drawn, request) = pages_drawn(&phone, || phone.make_key("Anvil 3", PIN));
    count("make_key", drawn);
    let issue = Issue {
        request: request.unwrap().text,
        roles: vec![crate::Role::Planner, crate::Role::Instructor],
        expires: "2027-06-01".into(),
        holder: None,
        validity_hours: None,
    };
    let (drawn, issued) = pages_drawn(&desk, || desk.issue(&issue, WORDS));
    count("issue", drawn);
    phone.receive(&issued.unwrap().text).unwrap();
    let (drawn, tag) = pages_drawn(&phone, || phone.write_tag(PLAN, &no_file, Some(PIN)));
    count("write_tag", drawn);
    let plan =
        ExamPlan { tag: tag.unwrap().code.text, picks: vec![], draw: Some(3), seed: Some("Alder".into()) };
    let standard = ExamStandard { least: 2, within_s: 300, false_calls: 1 };
    let (drawn, key) = pages_drawn(&phone, || phone.exam_lock(&plan, &standard, PIN));
    count("exam_lock", drawn);
    let key = key.unwrap().key;
    let (drawn, list) = pages_drawn(&phone, || phone.exam_reveal(&key, PIN));
    count("exam_reveal", drawn);
    assert_eq!(list.unwrap().planted.unwrap().len(), 3);
    let lost = ReportRequest { load: Some("KM-099".into()), ..ReportRequest::of(crate::MovementKind::Lost) };
    let (drawn, report) = pages_drawn(&phone, || phone.report(&lost, Some(PIN)));
    count("report", drawn);
    assert_eq!(report.unwrap().report.by.as_deref(), Some("Anvil 3"));
    let (drawn, roster) = pages_drawn(&desk, || desk.revoke(&["Anvil 3".into()], None, WORDS));
    count("revoke", drawn);
    assert_eq!(roster.unwrap().sequence, 2);
    let held: Vec<_> = counts.iter().filter(|(_, drawn)| *drawn < 12).collect();
    assert!(held.is_empty(), "nobody could draw a page meanwhile: {held:?} of {counts:?}");
}

#[test]
fn that_a_seal_could_be_made_is_said_only_where_it_is_so() {
    let load = load();
    let steps =
        |app: &App| -> Vec<bool> { app.set_up().unwrap().steps.iter().map(|step| step.done).collect() };
    let app = load.zone.home("phone");
    assert_eq!(steps(&app), [false; 4]);
    let hook = load.zone.device(&load.authority, "hook", "Mason 5", "hookup");
    let view = hook.set_up().unwrap();
    assert_eq!((steps(&hook), view.ready, view.may_seal), (vec![true; 4], true, false));
    assert_eq!((view.roles, view.next.contains("It seals no load")), (vec![crate::Role::Hookup], true));
    let inspector = load.zone.device(&load.authority, "inspector", "Anvil 3", "inspector");
    let view = inspector.set_up().unwrap();
    assert_eq!((view.may_seal, view.next.as_str()), (true, "Ready."));
    load.zone.pass(8 * 86_400);
    let view = inspector.set_up().unwrap();
    assert_eq!(
        (steps(&inspector), view.ready),
        (vec![true, true, true, false], false),
        "a roster of a week ago"
    );
    let roster = load.authority.revoke(&["Anvil 3".into()], None, WORDS).unwrap().roster.text;
    inspector.receive(&roster).unwrap();
    let view = inspector.set_up().unwrap();
    assert!(!view.ready && !view.may_seal && view.next.contains("revoked"), "{}", view.next);
    let other = load.zone.device(&load.authority, "other", "Thistle 7", "inspector");
    load.zone.pass(300 * 86_400);
    other.receive(&load.authority.revoke(&[], None, WORDS).unwrap().roster.text).unwrap();
    let view = other.set_up().unwrap();
    assert!(!view.ready && view.roles.is_empty() && view.next.contains("run out"), "{}", view.next);
}

/// Whoever reads Spanish is refused in Spanish, with the deficiency by the name on the screen.
#[test]
fn refusals_and_blocks_are_in_the_readers_language() {
    let load = load();
    let app = load.zone.device(&load.authority, "inspector", "Anvil 3", "inspector");
    app.speak(Language::Spanish);
    let view = app.begin_walk(&load.tag).unwrap();
    let point = &view.card.as_ref().unwrap().points[0];
    let bad = &point.deficiencies[0];
    let found = WalkRequest::Deficiency {
        card: 1,
        point: point.id.clone(),
        name: bad.name.clone(),
        note: None,
        photos: vec![],
    };
    app.do_walk(&view.walk, &found).unwrap();
    let again = app.do_walk(&view.walk, &found).unwrap();
    assert!(again.refused.unwrap().message.starts_with("Esa deficiencia ya está abierta"));
    let blocks = again.blocks_fit;
    assert!(blocks.iter().any(|block| block.contains("tarjetas sin respuesta")), "{blocks:?}");
    assert!(bad.shown != bad.name && blocks.iter().any(|block| block.contains(&bad.shown)), "{blocks:?}");
    let fit = app.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    app.do_walk(&view.walk, &WalkRequest::Decide { fit: false, reason: None }).unwrap();
    let wrong = app.seal(&view.walk, "000000", None).unwrap_err();
    assert!(
        wrong.code() == "refused" && wrong.say(Language::Spanish).starts_with("el PIN está mal"),
        "{wrong}"
    );
    assert!(fit.refused.unwrap().message.starts_with("La carga no puede decidirse apta"));
}

/// The first load of a team has no tag to be like: a list is enough, and every field is asked for.
#[test]
fn a_load_is_planned_by_a_list_alone() {
    let load = load();
    let app = load.zone.device(&load.authority, "drafter", "Anvil 3", "planner");
    assert!(app.draft_by("no-such-list").is_err());
    let mut draft = app.draft_by("bag").unwrap();
    let open = app.check_draft(&draft).unwrap().faults;
    assert!(open.len() >= 8, "load, what, gross, aircraft, allowable, pickup, destination, source: {open:?}");
    draft.load = "KM-031".into();
    draft.description = "Water, webbing bag".into();
    draft.gross = "1500 lb".into();
    draft.weight_source = Some(crate::WeightSource::Weighed);
    draft.aircraft = "Heron M2".into();
    draft.allowable = "7000 lb".into();
    draft.destination = "Alder Bridge".into();
    assert_eq!(app.check_draft(&draft).unwrap().faults.len(), 1, "the pickup zone is open");
    draft.pickup = "Kestrel Meadow".into();
    assert_eq!(app.check_draft(&draft).unwrap().faults, Vec::<String>::new());
    let made = app.write_draft(&draft, PIN).unwrap();
    let tag = app.read_tag(&made.code.text).unwrap();
    assert_eq!(
        (tag.load.as_str(), tag.pickup.name.as_str(), tag.procedure.as_str()),
        ("KM-031", "Kestrel Meadow", "bag")
    );
    // The next one is like it; a pickup elsewhere keeps nothing of the other's grid.
    let like = app.draft_like(&made.code.text).unwrap();
    assert_eq!((like.pickup.as_str(), like.load.as_str()), ("Kestrel Meadow", ""));
}

#[test]
fn a_report_that_nobody_signed_is_signed_later_and_counts_elsewhere() {
    let load = load();
    let app = load.zone.device(&load.authority, "hook", "Thistle 7", "hookup");
    app.read_tag(&load.tag).unwrap();
    let request = ReportRequest {
        load: Some(load.tag.clone()),
        note: Some("by the ford".into()),
        ..ReportRequest::of(crate::MovementKind::SetDown)
    };
    let unsigned = app.report(&request, None).unwrap();
    let number = unsigned.report.load.clone();
    assert!(
        unsigned.report.counts && app.report_waits_for_signature(&number, &unsigned.report.digest).unwrap()
    );
    let other = load.zone.device(&load.authority, "lead", "Mason 5", "leader");
    other.read_tag(&load.tag).unwrap();
    other.receive(&unsigned.code.text).unwrap();
    assert!(!other.movements(&number).unwrap()[0].counts, "a hint elsewhere");
    assert!(!other.report_waits_for_signature(&number, &unsigned.report.digest).unwrap());
    let error = other.sign_report(&number, &unsigned.report.digest, PIN).unwrap_err();
    assert!(error.to_string().contains("this device wrote"), "{error}");

    load.zone.pass(90);
    let signed = app.sign_report(&number, &unsigned.report.digest, PIN).unwrap();
    assert_eq!(
        (signed.report.at, signed.report.by.as_deref(), signed.report.note.as_deref()),
        (unsigned.report.at, Some("Thistle 7"), Some("by the ford"))
    );
    assert!(signed.report.later, "it says when it was written");
    other.receive(&signed.code.text).unwrap();
    assert_eq!(other.load(&number).unwrap().state.word(), "set_down");
    let error = app.sign_report(&number, &unsigned.report.digest, PIN).unwrap_err();
    assert!(error.to_string().contains("signed already"), "{error}");
    assert!(!app.report_waits_for_signature(&number, &unsigned.report.digest).unwrap());
    assert_eq!(app.audit().unwrap().faults, Vec::<String>::new());
}
