//! A day's manifest: which loads stand on it, in which order, and how a leader changes that.

use super::*;

const DAY: i64 = 86_400;

struct Desk {
    zone: Zone,
    app: App,
}

fn desk() -> Desk {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let app = zone.device(&authority, "desk", "Lantern 1", "planner,leader,inspector");
    // Into the morning of a day.
    let now = app.now().unix();
    zone.pass(DAY - now.rem_euclid(DAY) + 6 * 3_600);
    Desk { zone, app }
}

impl Desk {
    fn plan(&self, load: &str) {
        self.app.write_tag(&PLAN.replace("KM-014", load), &no_file, Some(PIN)).unwrap();
    }

    fn loads(&self, day: Option<&str>) -> Vec<String> {
        self.app.manifest(day).unwrap().lines.into_iter().map(|one| one.load).collect()
    }
}

fn of(load: &str, word: &str) -> ReportRequest {
    ReportRequest { load: Some(load.into()), ..ReportRequest::of(word.parse().unwrap()) }
}

#[test]
fn a_manifest_lists_what_was_planned_until_a_leader_orders_it() {
    let desk = desk();
    for load in ["KM-003", "KM-001", "KM-002"] {
        desk.plan(load);
        desk.zone.pass(60);
    }
    let today = desk.app.manifest(None).unwrap();
    assert_eq!(desk.loads(None), ["KM-003", "KM-001", "KM-002"], "as it was planned");
    assert!(today.lines.iter().all(|one| !one.set && one.state.word() == "planned"));
    let moved = desk.app.put_in_lift_order(Some(&today.day), "km-002", 1).unwrap();
    assert!(moved.lines.iter().all(|one| one.set));
    assert_eq!(desk.loads(None), ["KM-002", "KM-003", "KM-001"]);
    desk.app.put_in_lift_order(None, "KM-002", 99).unwrap();
    assert_eq!(desk.loads(None), ["KM-003", "KM-001", "KM-002"], "behind the last is the last");
    // What is planned later follows; the order is the home's and outlives a restart.
    desk.plan("KM-000");
    let Desk { zone, app } = desk;
    drop(app);
    let desk = Desk { app: zone.home("desk"), zone };
    assert_eq!(desk.loads(None), ["KM-003", "KM-001", "KM-002", "KM-000"]);
    assert_eq!(desk.app.manifest(None).unwrap().lines.iter().filter(|one| one.set).count(), 3);
    desk.app.set_lift_order(None, &[]).unwrap();
    assert_eq!(desk.loads(None), ["KM-003", "KM-001", "KM-002", "KM-000"]);
    // Lifted, it says when; a lift of another day is that day's.
    desk.app.report(&of("KM-001", "lifted"), Some(PIN)).unwrap();
    let line = desk.app.manifest(None).unwrap().lines.remove(1);
    assert_eq!((line.load.as_str(), line.state.word(), line.lifted_unsigned), ("KM-001", "lifted", false));
    assert_eq!(line.lifted.unwrap().unix, desk.app.now().unix());
}

#[test]
fn a_load_put_on_another_day_leaves_the_day_of_its_planning_until_something_happens_there() {
    let desk = desk();
    desk.plan("KM-001");
    desk.plan("KM-002");
    let today = desk.app.manifest(None).unwrap().day;
    let tomorrow = Time::from_unix(desk.app.now().unix() + DAY).date();
    desk.app.set_lift_order(Some(&tomorrow), &["KM-002".into()]).unwrap();
    assert_eq!(desk.loads(Some(&today)), ["KM-001"]);
    assert_eq!(desk.loads(Some(&tomorrow)), ["KM-002"]);
    desk.app.report(&of("KM-002", "lifted"), Some(PIN)).unwrap();
    assert_eq!(desk.loads(Some(&today)), ["KM-001", "KM-002"], "it flew today all the same");
    assert_eq!(desk.app.manifest(Some(&tomorrow)).unwrap().lines[0].lifted, None);
}

#[test]
fn a_table_sets_the_order_and_is_the_same_again() {
    let desk = desk();
    for load in ["KM-001", "KM-002", "KM-003"] {
        desk.plan(load);
        desk.zone.pass(1);
    }
    let csv = desk.app.manifest_csv(None).unwrap();
    let mut lines: Vec<&str> = csv.lines().collect();
    assert!(lines[0].starts_with("place,load,description,") && lines.len() == 4, "{csv}");
    assert!(lines[1].starts_with("1,\"KM-001\",") && lines[1].ends_with(",false"), "{csv}");
    // Sorted otherwise, by a spreadsheet that marks its bytes and knows no carriage return.
    lines[1..].reverse();
    let sorted = format!("\u{feff}{}\n", lines.join("\n"));
    desk.app.take_lift_order(None, &sorted).unwrap();
    assert_eq!(desk.loads(None), ["KM-003", "KM-002", "KM-001"]);
    let again = desk.app.manifest_csv(None).unwrap();
    desk.app.take_lift_order(None, &again).unwrap();
    assert_eq!(desk.app.manifest_csv(None).unwrap(), again);

    let refused = |answer: Result<ManifestView, AppError>| {
        let said = answer.unwrap_err().to_string();
        assert_eq!(said.lines().count(), 1, "{said}");
        said
    };
    let app = &desk.app;
    let named = |loads: &[&str]| {
        refused(app.set_lift_order(None, &loads.iter().map(|load| (*load).to_owned()).collect::<Vec<_>>()))
    };
    assert!(named(&["KM-001", "km-001"]).contains("named twice"));
    assert!(named(&["KM-777"]).contains("KM-777"));
    assert!(named(&["no load number at all"]).contains("load number"));
    assert!(refused(app.set_lift_order(None, &vec!["KM-001".to_owned(); 2_001])).contains("2000"));
    assert!(refused(app.put_in_lift_order(None, "KM-001", 0)).contains("begin with 1"));
    assert!(refused(app.take_lift_order(None, "a,b\n1,2\n")).contains("column \"load\""));
    assert!(refused(app.take_lift_order(Some("yesterday"), &csv)).contains("is no day"));
    assert_eq!(app.manifest_csv(None).unwrap(), again, "what was refused changed nothing");
}
