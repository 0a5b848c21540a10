use super::*;
use slingseal_message::movement::RefusalCause;

fn open_points(loads: &[LoadRows], devices: &[DeviceRow], least: Option<Seconds>) -> Vec<OpenPoint> {
    let mut points = OpenPoints::new(least);
    loads.iter().for_each(|load| points.load(load));
    devices.iter().for_each(|device| points.device(device));
    points.finish()
}

fn counts(loads: &[LoadRows]) -> Counts {
    let mut counts = Counts::default();
    loads.iter().for_each(|load| counts.load(load));
    counts
}

const HOUR: i64 = 3_600;

fn at(seconds: i64) -> Time {
    Time::from_unix(1_790_000_000 + seconds)
}

fn inspection(seconds: i64, by: &str) -> InspectionRow {
    InspectionRow {
        seal: Digest::of(format!("{seconds} {by}").as_bytes()),
        at: at(seconds),
        valid_until: at(seconds + 24 * HOUR),
        inspector: by.into(),
        fit: true,
        voided: None,
        walk: Some((Seconds(300), 27)),
    }
}

fn report(event: MovementEvent, seconds: i64) -> ReportRow {
    ReportRow {
        digest: Digest::of(format!("{event:?} {seconds}").as_bytes()),
        event,
        at: at(seconds),
        by: "Thistle 7".into(),
        counts: true,
        shown: (event == MovementEvent::Lifted).then(|| (ShownVerdict::Go, String::new())),
        seal: None,
        back: Vec::new(),
        damaged: Vec::new(),
    }
}

/// Planned, inspected, lifted on GO, set down, derigged, its sling back: nothing is open.
fn sound() -> LoadRows {
    let mut returned = report(MovementEvent::Returned, 4 * HOUR);
    returned.back = vec!["SL-1".into()];
    LoadRows {
        load: "KM-014".into(),
        planned: Some(at(-HOUR)),
        inspections: vec![inspection(0, "Anvil 3")],
        reports: vec![
            report(MovementEvent::Lifted, HOUR),
            report(MovementEvent::SetDown, 2 * HOUR),
            report(MovementEvent::Derigged, 3 * HOUR),
            returned,
        ],
        equipment: vec![("SL-1".into(), "sling leg".into())],
        mass_g: Some(816_000),
        ..LoadRows::default()
    }
}

fn kinds(load: LoadRows) -> Vec<PointKind> {
    kinds_of(&[load], None)
}

fn kinds_of(loads: &[LoadRows], least: Option<Seconds>) -> Vec<PointKind> {
    let points = open_points(loads, &[], least);
    assert!(
        points
            .iter()
            .all(|point| !point.known.to_string().is_empty() && !point.kind.to_do().to_string().is_empty())
    );
    points.into_iter().map(|point| point.kind).collect()
}

#[test]
fn a_sound_load_leaves_nothing_open() {
    assert_eq!(kinds(sound()), []);
    let counted = Counts { loads: 1, inspections: 1, lifted: 1, set_down: 1, lost: 0 };
    assert_eq!(counts(&[sound()]), counted);
}

#[test]
fn what_was_voided_and_stayed_is_told_so() {
    let mut load = sound();
    load.reports.clear();
    load.inspections[0].voided = Some(at(HOUR));
    let [point] = open_points(&[load], &[], None).try_into().expect("one point");
    let known = point.known.to_string();
    assert!(known.contains("found fit") && known.contains("voided"), "{known}");
}

#[test]
fn each_point_alone() {
    let change = |act: &dyn Fn(&mut LoadRows)| {
        let mut load = sound();
        act(&mut load);
        kinds(load)
    };
    let drop_events = |load: &mut LoadRows, gone: fn(MovementEvent) -> bool| {
        load.reports.retain(|report| !gone(report.event))
    };
    assert_eq!(
        change(&|load| {
            load.inspections.clear();
            load.reports.clear();
        }),
        [PointKind::NeverInspected]
    );
    assert_eq!(change(&|load| load.reports.clear()), [PointKind::NeverLifted]);
    assert_eq!(
        change(&|load| load.reports = vec![report(MovementEvent::Refused(RefusalCause::Rigging), HOUR)]),
        [PointKind::RefusedAtHook]
    );
    for (verdict, wanted) in
        [(ShownVerdict::Wait, true), (ShownVerdict::NoGo, true), (ShownVerdict::Go, false)]
    {
        let found = change(&|load| load.reports[0].shown = Some((verdict, "set_down".into())));
        assert_eq!(found, [PointKind::LiftedWithoutGo][..usize::from(wanted)]);
    }
    assert_eq!(change(&|load| load.reports[0].shown = None), [PointKind::LiftedWithoutGo]);
    assert_eq!(change(&|load| load.inspections.clear()), [PointKind::LiftedWithoutGo]);
    assert_eq!(change(&|load| load.inspections[0].fit = false), [PointKind::LiftedWithoutGo]);
    assert_eq!(
        change(&|load| load.inspections[0].valid_until = at(HOUR - 121)),
        [PointKind::LiftedAfterExpiry]
    );
    assert_eq!(change(&|load| load.inspections[0].valid_until = at(HOUR - 120)), []);
    assert_eq!(
        change(&|load| load.inspections[0].voided = Some(at(HOUR - 121))),
        [PointKind::LiftedAfterVoid]
    );
    assert_eq!(change(&|load| load.inspections[0].voided = Some(at(3 * HOUR))), []);
    // Of what was never set down nothing came back either.
    assert_eq!(change(&|load| drop_events(load, is_down)), [PointKind::NeverSetDown, PointKind::PieceOut]);
    assert_eq!(
        change(&|load| drop_events(load, |event| event == MovementEvent::Returned)),
        [PointKind::PieceOut]
    );
    assert_eq!(
        change(&|load| {
            drop_events(load, is_down);
            load.reports.push(report(MovementEvent::Lost, 2 * HOUR));
        }),
        [PointKind::Lost]
    );
    assert_eq!(
        change(&|load| load.reports.push(report(MovementEvent::Lost, 2 * HOUR))),
        [PointKind::Lost, PointKind::Contradiction]
    );
    assert_eq!(
        change(&|load| load.inspections.push(inspection(600, "ANVIL 3"))),
        [PointKind::InspectedTwice]
    );
    assert_eq!(change(&|load| load.inspections.push(inspection(600, "Herald 2"))), []);
    assert_eq!(change(&|load| load.inspections.push(inspection(5 * HOUR, "Anvil 3"))), []);
}

#[test]
fn a_load_that_flew_twice_is_down_behind_its_last_flight() {
    let mut load = sound();
    let mut again = report(MovementEvent::Lifted, 5 * HOUR);
    again.shown = Some((ShownVerdict::NoGo, "set_down".into()));
    load.reports.push(again);
    assert_eq!(kinds(load.clone()), [PointKind::LiftedWithoutGo, PointKind::NeverSetDown]);
    load.reports.push(report(MovementEvent::SetDown, 6 * HOUR));
    assert_eq!(kinds(load), [PointKind::LiftedWithoutGo]);
}

#[test]
fn a_piece_that_was_inspected_on_another_load_since_is_back() {
    let mut first = sound();
    first.reports.retain(|report| report.event != MovementEvent::Returned);
    let mut second = sound();
    second.load = "KM-015".into();
    second.inspections = vec![inspection(6 * HOUR, "Herald 2")];
    second.reports.clear();
    assert_eq!(kinds_of(&[first.clone(), second.clone()], None), [PointKind::NeverLifted]);
    second.inspections = vec![inspection(0, "Herald 2")];
    assert_eq!(kinds_of(&[first, second], None), [PointKind::NeverLifted, PointKind::PieceOut]);
}

#[test]
fn a_walk_is_held_against_the_least_time_where_one_is_set() {
    let load = sound();
    // 27 cards in 300 s.
    assert_eq!(kinds_of(std::slice::from_ref(&load), Some(Seconds(11))), []);
    assert_eq!(kinds_of(&[load], Some(Seconds(12))), [PointKind::WalkedTooFast]);
}

#[test]
fn devices_whose_words_are_not_all_here() {
    let device = DeviceRow { device: "07070707".into(), held: 40, heard: 40, missing: vec![] };
    assert_eq!(open_points(&[], std::slice::from_ref(&device), None), []);
    let late = DeviceRow { heard: 41, ..device.clone() };
    let gap = DeviceRow { missing: vec![Digest::of(b"x")], ..device };
    let found: Vec<_> = open_points(&[], &[late, gap], None).into_iter().map(|point| point.kind).collect();
    assert_eq!(found, [PointKind::JournalEndsEarly, PointKind::Missing]);
}

#[test]
fn the_order_of_rows_changes_nothing() {
    let mut load = sound();
    load.reports.push(report(MovementEvent::Lost, 2 * HOUR));
    load.inspections.push(inspection(600, "Anvil 3"));
    let mut turned = load.clone();
    turned.reports.reverse();
    turned.inspections.reverse();
    assert_eq!(open_points(&[load], &[], None), open_points(&[turned], &[], None));
}
