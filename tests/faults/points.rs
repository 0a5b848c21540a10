//! The power goes at every sync inside a seal, inside the bringing in of a bundle, inside the step from an older schema; a
//! kill at the same points leaves no more and no less than the way "everything".

use std::path::Path;

use slingseal_app::{App, NextStep};
use slingseal_tests::full_home::{open as open_store, read_all};
use slingseal_tests::many::Many;
use slingseal_tests::scripted::{PIN, Scripted, WILD, open, set_up};

use crate::watch::{self, Cut};

/// What a cut leaves of one home, in a folder of its own.
fn left(cut: &Cut, home: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for (path, bytes) in cut.files.iter().filter(|(path, _)| path.parent() == Some(home)) {
        std::fs::write(to.join(path.file_name().unwrap()), bytes).unwrap();
    }
}

fn sound(app: &App, cut: usize, way: &str) {
    assert_eq!(app.start().unwrap().notices, [""; 0], "cut {cut}, {way}");
    assert_eq!(app.audit().unwrap().faults, [""; 0], "cut {cut}, {way}");
}

#[test]
fn the_power_goes_inside_a_seal() {
    let layer = watch::hold();
    let folder = tempfile::tempdir().unwrap();
    let (home, tag) = set_up(folder.path());
    let (app, clock) = open(&home, "inspector").unwrap();
    let script = Scripted { app: &app, clock: &clock, tag: &tag, seed: 5 };
    script.step(0).unwrap();
    for number in WILD.. {
        if script.view().unwrap().unwrap().next == NextStep::Seal {
            break;
        }
        assert!(script.step(number).unwrap());
    }
    let walk = script.view().unwrap().unwrap().walk;
    layer.with(|watch| watch.begin(&home));
    app.seal(&walk, PIN, None).unwrap();
    layer.with(|watch| watch.acknowledged = 1);
    drop(app);
    let cuts = layer.with(watch::Watch::end);
    let (mut before, mut after) = (0, 0);
    for (number, cut) in cuts.iter().enumerate() {
        let to = folder.path().join(format!("cut-{number}"));
        left(cut, &home, &to);
        let (app, clock) = open(&to, "inspector").unwrap();
        clock.to(5_000);
        sound(&app, number, cut.way);
        let script = Scripted { app: &app, clock: &clock, tag: &tag, seed: 5 };
        // The walk waits for its seal, or the seal is whole; once it was acknowledged, it is there.
        match script.view().unwrap() {
            Some(view) => {
                before += 1;
                assert_eq!((view.next, cut.acknowledged), (NextStep::Seal, 0), "cut {number}, {}", cut.way);
                app.seal(&view.walk, PIN, None).unwrap();
            }
            None => after += 1,
        }
        let records = app.records(None, 10).unwrap();
        assert_eq!(records.len(), 1, "cut {number}, {}", cut.way);
        assert!(!app.record(&records[0].record).unwrap().timeline.is_empty());
    }
    println!("a seal: {} cuts, {before} before it and {after} after it", cuts.len());
    assert!(before > 0 && after > 0);
}

#[test]
fn the_power_goes_inside_an_import() {
    const BROUGHT: u32 = 30;
    let layer = watch::hold();
    let folder = tempfile::tempdir().unwrap();
    let many = Many::new(folder.path());
    let home = folder.path().join("desk");
    let (app, clock) = open(&home, "desk").unwrap();
    clock.to(86_400);
    let (card, fingerprint) = many.card();
    app.trust(&card, &fingerprint).unwrap();
    let bundle = many.bundle(BROUGHT, |_, _| {});
    layer.with(|watch| watch.begin(&home));
    let report = app.bundle_read(&mut bundle.as_slice(), &mut |_| {}).unwrap();
    layer.with(|watch| watch.acknowledged = 1);
    assert_eq!(report.new, BROUGHT);
    drop(app);
    let cuts = layer.with(watch::Watch::end);
    let (mut none, mut all) = (0, 0);
    for (number, cut) in cuts.iter().enumerate() {
        let to = folder.path().join(format!("cut-{number}"));
        left(cut, &home, &to);
        let (app, clock) = open(&to, "desk").unwrap();
        clock.to(86_400);
        // The audit is not asked: these records tell one device's walk again and again, which is what it is there to find.
        assert_eq!(app.start().unwrap().notices, [""; 0], "cut {number}, {}", cut.way);
        let there = app.records(None, 100).unwrap().len() as u32;
        none += u32::from(there == 0);
        all += u32::from(there == BROUGHT);
        assert!(cut.acknowledged == 0 || there == BROUGHT, "cut {number}, {}: {there}", cut.way);
        // What is missing comes with the same bundle, and nothing twice.
        let again = app.bundle_read(&mut bundle.as_slice(), &mut |_| {}).unwrap();
        assert_eq!((again.new, again.known), (BROUGHT - there, there), "cut {number}, {}", cut.way);
    }
    println!("an import: {} cuts, {none} with nothing and {all} with all", cuts.len());
    assert!(none > 0 && all > 0);
}

#[test]
fn the_power_goes_inside_a_step_of_the_schema() {
    let layer = watch::hold();
    let folder = tempfile::tempdir().unwrap();
    let home = folder.path().join("home");
    std::fs::create_dir_all(&home).unwrap();
    std::fs::write(home.join("home.db"), include_bytes!("../upgrades/schema-0001.db")).unwrap();
    layer.with(|watch| watch.begin(&home));
    let (store, opened) = open_store(&home, 1).unwrap();
    assert_eq!(opened.stepped_from, Some(1));
    let whole = read_all(&store);
    assert!(whole.values().all(Option::is_some));
    drop(store);
    let cuts = layer.with(watch::Watch::end);
    let (mut old, mut new) = (0, 0);
    for (number, cut) in cuts.iter().enumerate() {
        let to = folder.path().join(format!("cut-{number}"));
        left(cut, &home, &to);
        let (store, opened) = open_store(&to, 100).unwrap();
        assert!(opened.set_aside.is_none() && opened.lost.is_none(), "cut {number}, {}: {opened:?}", cut.way);
        old += u32::from(opened.stepped_from == Some(1));
        new += u32::from(opened.stepped_from.is_none());
        assert_eq!(store.read().check().unwrap(), [""; 0], "cut {number}, {}", cut.way);
        assert_eq!(read_all(&store), whole, "cut {number}, {}", cut.way);
    }
    println!("a step: {} cuts, {old} found the old schema and {new} the new one", cuts.len());
    assert!(old > 0 && new > 0);
}
