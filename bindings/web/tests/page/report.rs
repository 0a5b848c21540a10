//! What a page reports, from its screen into a home of the unit; and what it tells of gear and of others' reports.

use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};

use crate::browser::Browser;
use crate::cast::{Cast, at, unbase64};
use crate::{QUIET, begun, code, demo, next, page, photographed, set_clock};

/// The program, on a home: its code and what it printed.
fn slingseal(home: &Path, args: &[&str]) -> (Option<i32>, String) {
    let program = std::env::var("SLINGSEAL").expect("SLINGSEAL names the program; run tests/web/run");
    let mut command = Command::new(program);
    let output =
        command.arg("--home").arg(home).args(["--language", "en"]).args(args).output().expect("it runs");
    let text = [output.stdout, output.stderr].concat();
    (output.status.code(), String::from_utf8_lossy(&text).into_owned())
}

/// A picture of the screen as it stands, as another telephone would take it.
fn pictured(browser: &mut Browser, file: &Path) {
    let shot = browser.call("Page.captureScreenshot", &json!({ "format": "png" }));
    let data = unbase64(shot["data"].as_str().expect("a picture"));
    std::fs::write(file, data).expect("a file");
}

fn pressed(browser: &mut Browser, key: &str) {
    browser.js(&format!("document.querySelector(`{key}`).click()"));
}

/// Refused at the hook, then lifted after all, from the screens of a telephone by day and by night: the unit's home takes both in,
/// shows them as unsigned, and its verdict stays.
#[test]
fn a_home_takes_a_report_in_from_the_screen() {
    let folder = tempfile::tempdir().expect("a folder");
    let home = folder.path().join("hookup");
    let copied = Command::new("cp").arg("-r").arg(demo("hookup")).arg(&home).status();
    assert!(copied.expect("cp runs").success());
    let (seal, tag) = (demo("seal-km-014.png"), demo("tag-km-014.png"));
    let verify = ["verify", seal.to_str().expect("a path"), "--tag", tag.to_str().expect("a path")];
    let before = slingseal(&home, &verify);
    assert!(before.0 == Some(0) && !before.1.contains("nsigned"), "{before:?}");

    let mut browser = Browser::start(QUIET);
    let size = json!({ "width": 390, "height": 844, "deviceScaleFactor": 2, "mobile": true });
    browser.call("Emulation.setDeviceMetricsOverride", &size);
    begun(&mut browser, &demo("hook.html"));
    assert_eq!(photographed(&mut browser, &[seal.clone(), tag.clone()]).0, "GO");
    pressed(&mut browser, "[data-event=refused]");
    browser.until("!document.getElementById('why-not').hidden");
    // Another reason is none without words.
    browser.js("[...document.querySelectorAll('#causes .key')].at(-1).click()");
    browser.until("!document.getElementById('why-bad').hidden");
    browser.js("document.getElementById('note').value = 'sling fouled a skid'");
    browser.js("[...document.querySelectorAll('#causes .key')].at(-1).click()");
    browser.until("!document.getElementById('report').hidden");
    let refused = folder.path().join("refused.png");
    pictured(&mut browser, &refused);
    pressed(&mut browser, "#unreported");
    browser.js("state.palette = 'night'; dress()");
    pressed(&mut browser, "[data-event=lifted]");
    browser.until("!document.getElementById('report').hidden");
    let lifted = folder.path().join("lifted.png");
    pictured(&mut browser, &lifted);

    for (picture, event) in [(&refused, "refused at the hook"), (&lifted, "lifted")] {
        let taken = slingseal(&home, &["receive", picture.to_str().expect("a path")]);
        assert!(taken.0 == Some(0) && taken.1.contains(event) && taken.1.contains("unsigned"), "{taken:?}");
        assert!(taken.1.contains("KM-014"), "{taken:?}");
    }
    let arrival = slingseal(&home, &["--json", "arrival", "KM-014"]);
    let arrival: Value =
        serde_json::from_str(&arrival.1).unwrap_or_else(|error| panic!("{error}: {arrival:?}"));
    let reports = arrival["reports"].as_array().expect("reports");
    assert_eq!(reports.len(), 2, "{reports:?}");
    for report in reports {
        assert_eq!(
            (&report["by"], &report["counts"], &report["verdict"]),
            (&Value::Null, &json!(false), &json!("GO"))
        );
    }
    let device = browser.js("DEVICE");
    assert!(reports.iter().all(|report| report["device"] == device), "{device}: {reports:?}");
    assert_eq!(reports.iter().filter(|report| report["note"] == json!("sling fouled a skid")).count(), 1);
    let after = slingseal(&home, &verify);
    assert!(after.0 == Some(0) && after.1.contains("unsigned report"), "{after:?}");

    // The page itself knows what it wrote, also when it is opened again; by another name then.
    pressed(&mut browser, "#reported");
    let pictures = [seal, tag];
    for _ in 0..2 {
        let found = photographed(&mut browser, &pictures);
        assert!(found.0 == "NO-GO" && found.1.contains("refused at the hook"), "{found:?}");
        begun(&mut browser, &demo("hook.html"));
    }
    assert_ne!(browser.js("DEVICE"), device);
}

/// Scanned at a page: gear is told by what it is, who says so and until when; a stranger's report as unsigned. No verdict, no report.
#[test]
fn gear_and_reports_are_told_in_full() {
    let folder = tempfile::tempdir().expect("a folder");
    let cast = Cast::new();
    let mut browser = Browser::start(QUIET);
    set_clock(&mut browser, at(0).unix());
    begun(&mut browser, &page(folder.path(), &cast.page(at(-7_200), 24, &[])));
    let words = [
        (cast.piece("SL-1", at(-60), None), ["Piece of gear SL-1: FIT until", "Anvil 3"]),
        (
            cast.piece("NT-2", at(-60), Some("cut mesh")),
            ["Piece of gear NT-2: WITHDRAWN: cut mesh", "Anvil 3"],
        ),
        (cast.movement(at(-30)), ["load KM-014 set down", "Unsigned"]),
    ];
    for (at, (text, lines)) in words.iter().enumerate() {
        let picture = code(folder.path(), &format!("word-{at}"), text).expect("a code");
        browser.choose("#photo", &picture);
        browser.until(&format!("document.querySelectorAll('#taken li').length === {}", at + 1));
        let told = browser.js("document.querySelector('#taken li').textContent");
        assert!(lines.iter().all(|line| told.as_str().is_some_and(|told| told.contains(line))), "{told}");
    }
    // A code of which no load can be read is reported of no load.
    browser.js("state.shown = ['SL1:AAAA']; judge()");
    browser.until("!document.getElementById('verdict').hidden && state.verdict !== null");
    assert_eq!(
        browser.js("[...document.querySelectorAll('[data-event]')].every((key) => key.disabled)"),
        json!(true)
    );
    browser.js("clear(); show('scan')");
    let seal = code(folder.path(), "seal", &cast.seal(at(-600), true)).expect("a code");
    let tag = code(folder.path(), "tag", &cast.tag()).expect("a code");
    assert_eq!(photographed(&mut browser, &[seal, tag]).0, "GO");
    assert_eq!(
        browser.js("[...document.querySelectorAll('[data-event]')].some((key) => key.disabled)"),
        json!(false)
    );
    next(&mut browser);
}
