//! Reports of what becomes of a load: at the hook, at the destination, signed and not, by every way.

use super::audit::Forger;
use super::bundles::{bundle, day, desk, take};
use super::*;
use crate::{MovementKind, RefusalCause};

fn event(word: &str) -> ReportRequest {
    ReportRequest::of(word.parse().unwrap())
}

fn of(load: &str, word: &str) -> ReportRequest {
    ReportRequest { load: Some(load.into()), ..event(word) }
}

fn back(serial: &str) -> PieceReport {
    PieceReport { serial: serial.into(), back: true, damaged: false }
}

#[test]
fn one_call_after_a_verdict_says_that_it_flew() {
    let day = day();
    let hook = day.zone.home("bare");
    meet(&hook, &day.authority);
    let none = hook.report(&event("lifted"), None).unwrap_err();
    assert!(none.to_string().contains("scan its tag or its seal first"), "{none}");
    let verdict = hook.check(Some(&day.seals[1].code.text), None).unwrap();
    assert_eq!(verdict.word, "GO", "{:?}", verdict.reasons);
    let made = hook.report(&event("lifted"), None).unwrap();
    let report = &made.report;
    assert_eq!((report.load.as_str(), report.event.word(), report.later), ("KM-015", "lifted", false));
    assert_eq!(
        (report.verdict, report.reason.as_deref()),
        (Some(crate::VerdictWord::Go), Some("tag_not_seen"))
    );
    assert_eq!(
        (report.by.as_deref(), report.counts, report.origin.as_str()),
        (None, true, "this device, unsigned")
    );
    assert_eq!(report.seal, hook.records(None, 10).unwrap().first().map(|line| line.seal.clone()));
    // This device has seen it fly: it asks to look into it now, and once it was set down it wants an inspection.
    let again = hook.check(Some(&day.seals[1].code.text), None).unwrap();
    assert_eq!((again.word.as_str(), again.reasons[0].code.as_str()), ("WAIT", "lifted_before"));
    day.zone.pass(600);
    hook.report(&of("KM-015", "set-down"), None).unwrap();
    let again = hook.check(Some(&day.seals[1].code.text), None).unwrap();
    assert_eq!((again.word.as_str(), again.reasons[0].code.as_str()), ("NO-GO", "set_down"));
    assert_eq!(hook.audit().unwrap().faults, [""; 0]);
    // Lifted against it, the report says so.
    let against = hook.report(&event("lifted"), None).unwrap().report;
    assert_eq!(
        (against.verdict, against.reason.as_deref()),
        (Some(crate::VerdictWord::NoGo), Some("set_down"))
    );
    // The chain: each report names the one before it and the journal's end.
    let all = hook.movements("KM-015").unwrap();
    assert_eq!(all.len(), 3);
}

#[test]
fn what_a_stranger_reports_without_a_signature_is_shown_and_decides_nothing() {
    let day = day();
    let (hook, desk_one) = (day.zone.home("bare"), desk(&day, "desk"));
    meet(&hook, &day.authority);
    take(&desk_one, &bundle(&day.two, None));
    hook.check(Some(&day.seals[2].code.text), None).unwrap();
    let lost = hook.report(&event("lost"), None).unwrap();
    let Received::Movement { report, new: true } = desk_one.receive(&lost.code.text).unwrap() else {
        panic!()
    };
    assert!(!report.counts && report.origin.ends_with("unsigned"), "{report:?}");
    let verdict = desk_one.check(Some(&day.seals[2].code.text), None).unwrap();
    assert_eq!(verdict.word, "GO", "{:?}", verdict.reasons);
    assert!(verdict.reasons.iter().any(|reason| reason.code == "movement_unsigned"));
    // Signed by somebody known, it counts wherever it comes.
    let signed = day.hookup.report(&of("KM-016", "lost"), Some(PIN)).unwrap();
    assert_eq!(signed.report.by.as_deref(), Some("Thistle 7"));
    desk_one.receive(&signed.code.text).unwrap();
    let verdict = desk_one.check(Some(&day.seals[2].code.text), None).unwrap();
    assert_eq!((verdict.word.as_str(), verdict.reasons[0].code.as_str()), ("NO-GO", "lost"));
}

#[test]
fn a_refusal_at_the_hook_is_a_void_and_needs_its_cause() {
    let day = day();
    let refusal = |cause: Option<RefusalCause>, note: Option<&str>| ReportRequest {
        cause,
        note: note.map(str::to_owned),
        ..of("KM-015", "refused")
    };
    let report = |request: &ReportRequest| day.two.report(request, None).map(|made| made.report);
    assert!(report(&refusal(None, None)).unwrap_err().to_string().contains("needs its cause"));
    let no_cause = "mood".parse::<RefusalCause>().unwrap_err().say(Language::English);
    assert!(no_cause.contains("is no cause of a refusal; use verdict"), "{no_cause}");
    let caused = ReportRequest { cause: Some(RefusalCause::Zone), ..of("KM-015", "lifted") };
    assert!(matches!(report(&caused).unwrap_err(), AppError::BadInput { .. }));
    assert!(
        report(&refusal(Some(RefusalCause::Other), None)).unwrap_err().to_string().contains("needs a note")
    );
    let no_event = "flew".parse::<MovementKind>().unwrap_err().say(Language::English);
    assert!(no_event.contains("is no event; use lifted"), "{no_event}");
    let given = report(&refusal(Some(RefusalCause::Rigging), Some("leg 2 under the skid"))).unwrap();
    assert_eq!(
        (given.cause, given.note.as_deref()),
        (Some(RefusalCause::Rigging), Some("leg 2 under the skid"))
    );
    assert_eq!(day.two.show_seal(&day.seals[1].record).unwrap().verdict.reasons[0].code, "refused_at_hook");
    assert_eq!(day.two.load("KM-015").unwrap().state.word(), "refused");
}

#[test]
fn a_report_can_be_given_later_and_says_so() {
    let day = day();
    let now = day.one.now().unix();
    let ahead = ReportRequest { happened: Some(now + 5), ..of("KM-016", "lifted") };
    assert!(day.two.report(&ahead, None).unwrap_err().to_string().contains("ahead of this device's clock"));
    day.zone.pass(7_200);
    let later = ReportRequest { happened: Some(now + 60), ..of("KM-016", "lifted") };
    let report = day.two.report(&later, None).unwrap().report;
    assert!(report.later && report.at.unix == now + 60 && report.written.unix == now + 7_200);
}

/// The receiving side: no key, nobody trusted, nothing known before.
#[test]
fn whoever_takes_it_down_needs_nothing() {
    let day = day();
    let plan = PLAN.replace("KM-014", "KM-020").replace(
        "[[link]]",
        "[[equipment]]\nkind = \"sling leg\"\nserial = \"SL-1\"\n[[equipment]]\nkind = \"net\"\nserial = \"NT-7\"\n[[link]]",
    );
    let tag = day.one.write_tag(&plan, &no_file, Some(PIN)).unwrap().code.text;
    let far = day.zone.home("far");
    let seen = far.arrival(&tag).unwrap();
    assert_eq!((seen.load.as_str(), seen.pieces.len(), seen.reports.len()), ("KM-020", 2, 0));
    assert!(far.arrival("KM-099").unwrap_err().to_string().contains("nothing is known here of load KM-099"));
    let set_down = ReportRequest { load: Some(tag.clone()), ..event("set-down") };
    far.report(&set_down, None).unwrap();
    let bad = ReportRequest { load: Some(tag.clone()), ..event("returned") };
    assert!(far.report(&bad, None).unwrap_err().to_string().contains("name each piece that is back"));
    let damaged = PieceReport { serial: "NT-7".into(), back: true, damaged: true };
    let twice = ReportRequest { pieces: vec![back("SL-1"), back("SL-1")], ..bad.clone() };
    assert!(far.report(&twice, None).unwrap_err().to_string().contains("named twice"));
    far.report(&ReportRequest { pieces: vec![back("SL-1"), damaged], ..bad }, None).unwrap();
    let seen = far.arrival(&tag).unwrap();
    let pieces: Vec<_> =
        seen.pieces.iter().map(|piece| (piece.serial.as_str(), piece.back, piece.damaged)).collect();
    assert_eq!(pieces, [("SL-1", true, false), ("NT-7", true, true)]);
    assert_eq!(seen.state, Some(crate::FlowState::SetDown));
    assert_eq!(far.audit().unwrap().faults, [""; 0]);
}

#[test]
fn reports_travel_in_bundles_in_any_order_and_unsigned_ones_have_a_bound() {
    let day = day();
    let hooks: Vec<App> = ["bare1", "bare2"].map(|name| day.zone.home(name)).into();
    for (number, hook) in hooks.iter().enumerate() {
        for _ in 0..40 {
            day.zone.pass(1);
            hook.report(&of("KM-015", "lifted"), None).unwrap();
        }
        hook.report(&of(&format!("KM-01{}", 4 + number), "set-down"), None).unwrap();
    }
    let sources = [&day.one, &day.two, &hooks[0], &hooks[1]];
    let bundles: Vec<Vec<u8>> = sources.iter().map(|app| bundle(app, None)).collect();
    let (first, second) = (desk(&day, "first"), desk(&day, "second"));
    for bytes in &bundles {
        let report = take(&first, bytes);
        assert_eq!(report.set_aside, []);
    }
    for bytes in bundles.iter().rev() {
        take(&second, bytes);
        take(&second, bytes);
    }
    for load in ["KM-014", "KM-015", "KM-016"] {
        let told = |desk: &App| -> Vec<MovementView> { desk.movements(load).unwrap() };
        assert_eq!(told(&first), told(&second), "{load}");
        assert_eq!(first.load(load).unwrap().state, second.load(load).unwrap().state);
    }
    assert_eq!(first.movements("KM-015").unwrap().len(), 64, "of 81 that nobody signed");
    assert_eq!(first.audit().unwrap().faults, [""; 0]);
    // What came back to its own device is its own there, and counts.
    let round = bundle(&first, None);
    take(&hooks[1], &round);
    assert!(hooks[1].movements("KM-015").unwrap().iter().any(|report| report.counts));
}

/// A shell shows a report again from what is kept, and says the rest of it in the reader's language.
#[test]
fn a_report_is_shown_again_with_everything_that_it_says() {
    let day = day();
    let hook = day.zone.home("bare");
    meet(&hook, &day.authority);
    hook.check(Some(&day.seals[1].code.text), None).unwrap();
    hook.report(&of("KM-015", "set-down"), None).unwrap();
    assert_eq!(hook.check(Some(&day.seals[1].code.text), None).unwrap().word, "NO-GO");
    day.zone.pass(600);
    let request = ReportRequest {
        happened: Some(day.zone.clock.now().unix() - 300),
        aircraft: Some("Heron 2".into()),
        pieces: vec![PieceReport { serial: "SL-7".into(), back: true, damaged: true }],
        note: Some("strap torn".into()),
        ..event("lifted")
    };
    let made = hook.report(&request, None).unwrap();
    assert!(made.report.against && made.report.later);
    assert_eq!(made.report.details.len(), 5, "{:?}", made.report.details);
    assert_eq!(made.report.details[1], "the verdict shown was NO-GO");
    assert_eq!(hook.show_report("KM-015", &made.report.digest).unwrap(), made);
    let none = hook.show_report("KM-015", &"0".repeat(64)).unwrap_err();
    assert!(none.to_string().contains("no such report"), "{none}");
    let causes = hook.refusal_causes();
    assert_eq!((causes[0].cause, causes.len()), (RefusalCause::Verdict, 9));
    hook.speak(Language::Spanish);
    assert_eq!(
        hook.show_report("KM-015", &made.report.digest).unwrap().report.details[1],
        "el veredicto mostrado fue NO-GO"
    );
    assert_eq!(hook.refusal_causes()[3].shown, "es otra carga");
}

/// Two devices report in the same second: which came first nobody knows, and every desk lists them alike.
#[test]
fn reports_of_one_second_have_one_order_however_they_came() {
    let day = day();
    let (near, far) = (day.zone.home("near"), day.zone.home("far"));
    let mut texts = Vec::new();
    for (app, word) in [(&near, "derigged"), (&far, "lifted"), (&near, "set-down"), (&far, "lifted")] {
        texts.push(app.report(&of("KM-015", word), None).unwrap().code.text);
    }
    let told = |name: &'static str, texts: &mut dyn Iterator<Item = &String>| {
        let app = desk(&day, name);
        texts.for_each(|text| drop(app.receive(text).unwrap()));
        let reports = app.movements("KM-015").unwrap();
        let story: Vec<String> =
            app.load("KM-015").unwrap().moments.into_iter().map(|moment| moment.what).collect();
        let lines = |report: MovementView| (report.event, report.digest);
        (reports.into_iter().map(lines).collect::<Vec<_>>(), story)
    };
    let there = told("there", &mut texts.iter());
    assert_eq!(told("back", &mut texts.iter().rev()), there);
    assert_eq!(told("middle", &mut texts[2..].iter().chain(&texts[..2])), there);
    let events: Vec<&str> = there.0.iter().map(|(event, _)| event.word()).collect();
    assert_eq!(events, ["lifted", "lifted", "set-down", "derigged"]);
    assert!(there.0[0].1 < there.0[1].1, "of one event the lower digest first");
}

/// A photograph goes where its report goes: taken at the hook without a key, carried in a bundle, carried on by whoever has it.
#[test]
fn a_reports_photographs_travel_with_it() {
    let day = day();
    let hook = day.zone.home("bare");
    let photo = [&[0xFF, 0xD8, 0xFF, 0xE0][..], &[7; 2_000], &[0xFF, 0xD9]].concat();
    let digest = hook.add_photo(&photo).unwrap();
    let request = ReportRequest {
        cause: Some(RefusalCause::Damage),
        photos: vec![digest.clone()],
        ..of("KM-015", "refused")
    };
    let made = hook.report(&request, None).unwrap();
    assert_eq!(made.report.photos, std::slice::from_ref(&digest));
    let (first, second) = (desk(&day, "first"), desk(&day, "second"));
    assert_eq!(take(&first, &bundle(&hook, None)).photos, 1);
    assert_eq!(take(&second, &bundle(&first, None)).photos, 1);
    for app in [&first, &second] {
        assert_eq!(app.movements("KM-015").unwrap()[0].photos, std::slice::from_ref(&digest));
        let held = app.lock().store.read().photo(Digest::from_hex(&digest).unwrap()).unwrap();
        assert_eq!(held.as_deref(), Some(photo.as_slice()));
        let photos = app.photos_of(&app.load("KM-015").unwrap()).unwrap();
        assert!(photos.len() == 1 && photos[0].digest == digest && photos[0].here, "{photos:?}");
        assert_eq!(app.photo(&digest).unwrap(), photo);
        assert_eq!(app.photo("ab").unwrap_err().code(), "not_found");
        assert_eq!(app.audit().unwrap().faults, [""; 0]);
    }
    assert!(matches!(
        hook.report(&ReportRequest { photos: vec!["ab".into()], ..request }, None),
        Err(AppError::BadInput { .. })
    ));
}

/// Sling legs that a tag names by serial number are equipment: they are taken down, go out, and want to come back.
#[test]
fn legs_with_serial_numbers_go_out_and_come_back() {
    let day = day();
    let plan = PLAN.replace("KM-014", "KM-030").replace(
        "[[link]]",
        "[[leg]]\nname = \"1\"\nserial = \"LG-0091\"\n[[leg]]\nname = \"2\"\nserial = \"LG-0092\"\n[[equipment]]\nkind = \"cargo bag\"\nserial = \"CB-7\"\n[[link]]",
    );
    let tag = day.one.write_tag(&plan, &no_file, Some(PIN)).unwrap().code.text;
    let view = walk_all(&day.one, day.one.begin_walk(&tag).unwrap());
    day.one.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    day.one.seal(&view.walk, PIN, None).unwrap();
    day.zone.pass(600);
    day.one.report(&of("KM-030", "lifted"), Some(PIN)).unwrap();
    day.one.report(&of("KM-030", "set-down"), Some(PIN)).unwrap();
    let request = CloseRequest { loads: vec!["KM-030".into()], ..CloseRequest::default() };
    let out = |app: &App| -> Vec<String> {
        let points = app.close_account(&request).unwrap().points;
        let out = points.into_iter().filter(|point| point.kind == crate::ClosePointKind::PieceOut);
        out.map(|point| point.subject).collect()
    };
    assert_eq!(out(&day.one), ["piece CB-7", "piece LG-0091", "piece LG-0092"]);
    let far = day.zone.home("far");
    let seen = far.arrival(&tag).unwrap();
    let pieces: Vec<_> = seen.pieces.iter().map(|one| (one.kind.as_str(), one.serial.as_str())).collect();
    assert_eq!(pieces, [("cargo bag", "CB-7"), ("sling leg 1", "LG-0091"), ("sling leg 2", "LG-0092")]);
    let back = ReportRequest {
        pieces: ["CB-7", "LG-0091", "lg-0092"].map(back).into(),
        ..ReportRequest { load: Some(tag), ..event("returned") }
    };
    take(&day.one, &{
        far.report(&back, None).unwrap();
        bundle(&far, None)
    });
    assert_eq!(out(&day.one), [""; 0]);
    let life = day.one.piece("LG-0091", None).unwrap();
    assert_eq!(
        (life.uses.len(), life.lives[0].lifts, life.lives[0].state),
        (1, 1, crate::PieceLifeState::Back)
    );
    assert_eq!(life.lives[0].kind, "sling leg 1");
    // A load that flew and that nobody inspected: its tag tells of the legs.
    let bare = PLAN
        .replace("KM-014", "KM-031")
        .replace("[[link]]", "[[leg]]\nname = \"1\"\nserial = \"LG-0093\"\n[[link]]");
    day.one.write_tag(&bare, &no_file, Some(PIN)).unwrap();
    day.one.report(&of("KM-031", "lifted"), Some(PIN)).unwrap();
    let lives = day.one.piece_lives().unwrap();
    assert!(
        lives.iter().any(|life| life.serial == "LG-0093" && life.state == crate::PieceLifeState::Out),
        "{lives:?}"
    );
}

/// How long a walk took stands in the list, on the board and in the export; below the least time of this home it is marked.
#[test]
fn a_walk_that_was_too_fast_is_marked_and_counts_all_the_same() {
    let day = day();
    let desk = desk(&day, "desk");
    take(&desk, &bundle(&day.two, None));
    let line = || desk.records(Some("KM-015"), 1).unwrap().remove(0);
    let (seconds, cards) = (line().walk_seconds.unwrap(), line().walk_cards.unwrap());
    assert!(cards > 3 && !line().walked_too_fast, "{seconds} s, {cards} cards");
    desk.set_least_seconds(Some(60)).unwrap();
    assert!(line().walked_too_fast && desk.record(&line().record).unwrap().line.walked_too_fast);
    let board = desk.board(7, 24).unwrap();
    let marked = board.columns.iter().flat_map(|column| &column.loads).find(|one| one.load == "KM-015");
    let marked = marked.unwrap();
    assert!(marked.soon && marked.walk.contains("faster than the cards"), "{marked:?}");
    assert_eq!(desk.load("KM-015").unwrap().state.word(), "fit");
    let mut csv = Vec::new();
    desk.export_csv(ExportTable::Records, &mut csv).unwrap();
    let csv = String::from_utf8(csv).unwrap();
    assert!(csv.lines().next().unwrap().ends_with(",walk_seconds,walk_cards"));
    assert!(csv.lines().nth(1).unwrap().ends_with(&format!(",{seconds},{cards}")), "{csv}");
    let mut json = Vec::new();
    desk.export_json(&mut json).unwrap();
    let json: serde_json::Value = serde_json::from_slice(&json).unwrap();
    assert_eq!(json["records"][0]["walk_seconds"], seconds);
    desk.set_least_seconds(None).unwrap();
    assert!(!line().walked_too_fast);
}

/// A home of the sixth schema kept how each record was walked under the seal. What of it had decayed is derived anew from the full
/// record, as that of a seal which had come before its record.
#[test]
fn how_records_were_walked_comes_up_the_steps() {
    let day = day();
    let desk = desk(&day, "desk");
    desk.receive(&day.seals[1].code.text).unwrap();
    assert_eq!(desk.records(Some("KM-015"), 1).unwrap()[0].walk_seconds, None);
    for app in [&day.one, &day.two] {
        take(&desk, &bundle(app, None));
    }
    let told = |desk: &App| {
        let (mut csv, mut json) = (Vec::new(), Vec::new());
        desk.export_csv(ExportTable::Records, &mut csv).unwrap();
        desk.export_json(&mut json).unwrap();
        (desk.close_account(&crate::CloseRequest::default()).unwrap(), csv, json)
    };
    let walked = |desk: &App| -> Vec<bool> {
        desk.records(None, 10).unwrap().iter().map(|line| line.walk_seconds.is_some()).collect()
    };
    let wanted = told(&desk);
    assert_eq!(walked(&desk), [true; 3]);
    drop(desk);
    let home = day.zone.folder.path().join("desk");
    let forger = Forger::open(&home.join("slingseal.db"));
    forger.script(
        "CREATE TABLE walk_facts_6 (seal BLOB PRIMARY KEY, device BLOB NOT NULL, seconds INTEGER NOT NULL, cards INTEGER NOT NULL,
            head INTEGER NOT NULL, record BLOB NOT NULL, before BLOB, sum BLOB NOT NULL) STRICT, WITHOUT ROWID;
         INSERT INTO walk_facts_6 SELECT seal, f.device, seconds, cards, head, digest, before,
            row_sum(seal, f.device, seconds, cards, head, digest, before)
            FROM walk_facts AS f JOIN records ON id = f.record;
         DROP TABLE walk_facts;
         ALTER TABLE walk_facts_6 RENAME TO walk_facts;
         DROP INDEX flow_by_hinted;
         UPDATE walk_facts SET seconds = 1 WHERE seal = (SELECT seal FROM records WHERE load = 'KM-015');
         PRAGMA user_version = 6;",
    );
    drop(forger);
    let desk = day.zone.open(&home, "desk").unwrap();
    assert_eq!(walked(&desk).iter().filter(|known| **known).count(), 2);
    assert_eq!(desk.records(Some("KM-015"), 1).unwrap()[0].walk_seconds, None);
    assert_eq!(told(&desk), wanted);
    assert_eq!(walked(&desk), [true; 3]);
    assert_eq!(desk.audit().unwrap().faults, [""; 0]);
}

/// What counts for nothing touches no load, and still stands on the manifest of its day.
#[test]
fn an_unsigned_report_of_another_day_is_on_that_day_s_manifest() {
    let day = day();
    let (hook, desk_one) = (day.zone.home("bare"), desk(&day, "desk"));
    meet(&hook, &day.authority);
    take(&desk_one, &bundle(&day.two, None));
    let loads = || -> Vec<String> {
        desk_one.manifest(None).unwrap().lines.into_iter().map(|one| one.load).collect()
    };
    assert!(loads().contains(&"KM-016".to_owned()), "sealed on this day: {:?}", loads());
    day.zone.pass(2 * 86_400);
    assert_eq!(loads(), [""; 0], "nothing was told of this day");
    let down = hook.report(&of("KM-016", "set-down"), None).unwrap();
    desk_one.receive(&down.code.text).unwrap();
    assert_eq!(loads(), ["KM-016"]);
}

/// Nobody is sent to look once more at what has left, not even where it was found not fit and flown all the same.
#[test]
fn no_second_look_is_drawn_of_what_was_lifted() {
    let day = day();
    let desk_one = desk(&day, "desk");
    let tag = day.two.write_tag(&PLAN.replace("KM-014", "KM-017"), &no_file, Some(PIN)).unwrap().code.text;
    let view = walk_all(&day.two, day.two.begin_walk(&tag).unwrap());
    let reason = Some("rain".into());
    day.two.do_walk(&view.walk, &WalkRequest::Decide { fit: false, reason }).unwrap();
    day.two.seal(&view.walk, PIN, None).unwrap();
    take(&desk_one, &bundle(&day.two, None));
    let drawn = || -> Vec<String> {
        desk_one.draw_second_looks(100).unwrap().into_iter().map(|one| one.load).collect()
    };
    assert_eq!(drawn(), ["KM-015", "KM-016", "KM-017"]);
    for load in ["KM-015", "KM-017"] {
        let lifted = day.hookup.report(&of(load, "lifted"), Some(PIN)).unwrap();
        desk_one.receive(&lifted.code.text).unwrap();
    }
    assert_eq!(drawn(), ["KM-016"]);
}
