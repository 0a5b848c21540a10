//! No file overwrites another silently, none is left empty, none goes where nobody named it; `-` is standard output.

use std::path::Path;

use crate::day::{Day, text};

fn plan(day: &Day, load: &str) -> String {
    let bag = include_str!("../../demo/bag.toml").replace("KM-015", load);
    let path = day.at("plan.toml");
    std::fs::write(&path, bag).unwrap();
    path
}

#[test]
fn loads_of_like_numbers_and_later_plans_keep_files_of_their_own() {
    let day = Day::new();
    for load in ["A-1", "A/1", "A.1"] {
        day.done(&["tag", "write", &plan(&day, load), "--out", &day.at("out")]);
    }
    assert_eq!(day.names("out").len(), 3 * 4, "{:?}", day.names("out"));
    let first = std::fs::read(day.at("out/tag-a-1.pdf")).unwrap();
    let changed = std::fs::read_to_string(plan(&day, "A-1")).unwrap().replace("1800 lb", "1900 lb");
    std::fs::write(day.at("plan.toml"), changed).unwrap();
    day.done(&["tag", "write", &day.at("plan.toml"), "--out", &day.at("out")]);
    let names = day.names("out");
    assert!(
        names.contains(&"tag-a-1-2.pdf".to_owned()) && names.contains(&"tag-a-1-2.png".to_owned()),
        "{names:?}"
    );
    assert_eq!(std::fs::read(day.at("out/tag-a-1.pdf")).unwrap(), first);
}

#[test]
fn json_answers_and_files_come_together() {
    let day = Day::new();
    day.json(&["authority", "show", "--out", &day.at("a")]);
    day.json(&["authority", "roster", "--out", &day.at("r")]);
    day.json(&["key", "request", "--out", &day.at("k")]);
    day.json(&["records", "seal", "KM-015", "--out", &day.at("s")]);
    day.json(&["bundle", "have", "--out", &day.at("h")]);
    let voided =
        day.json(&["void", &day.only("seals", "txt"), "--cause", "load-moved", "--out", &day.at("v")]);
    for (folder, files) in [("a", 6), ("r", 3), ("k", 3), ("s", 3), ("h", 3), ("v", 3)] {
        assert_eq!(day.names(folder).len(), files, "{folder}: {:?}", day.names(folder));
    }
    assert!(voided["text"].as_str().unwrap().starts_with("VO1:"), "{voided}");
    // Whoever finds it in a folder of many sees which load it is of.
    assert!(day.names("v").contains(&"void-km-015.png".to_owned()), "{:?}", day.names("v"));
}

#[test]
fn standard_output_holds_the_file_alone() {
    let day = Day::new();
    let pdf = day.run(&["records", "print", "KM-015", "--out", "-"]);
    assert!(pdf.status.success() && pdf.stdout.starts_with(b"%PDF-"), "{pdf:?}");
    let ends = String::from_utf8_lossy(&pdf.stdout[pdf.stdout.len() - 8..]).into_owned();
    assert!(ends.contains("%%EOF"), "{ends:?}");
    let csv = day.run(&["records", "export", "--csv", "-"]);
    let said = text(&csv.stdout);
    assert!(csv.status.success() && said.lines().count() == 2 && !said.contains("rows"), "{said}");
    let bundle = day.run(&["bundle", "write", "--out", "-"]);
    assert!(bundle.status.success(), "{:?}", bundle.status);
    std::fs::write(day.at("b.bundle"), bundle.stdout).unwrap();
    assert!(day.done(&["bundle", "read", &day.at("b.bundle")]).contains("1 known"));
    assert!(!Path::new(&day.at("-")).exists());
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_device_is_told_of_and_leaves_nothing() {
    let day = Day::new();
    for arguments in [
        &["records", "list"][..],
        &["records", "show", "KM-015"],
        &["--json", "records", "list"],
        &["procedure", "table"],
        &["records", "print", "KM-015", "--out", "-"],
        &["--help"],
    ] {
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let output = day.command(arguments).stdout(full).output().unwrap();
        let said = text(&output.stderr);
        assert!(!said.contains("panicked"), "{arguments:?}: {said}");
        if arguments != ["--help"] {
            assert_eq!(output.status.code(), Some(1), "{arguments:?}: {said}");
            assert!(said.contains("no space left"), "{arguments:?}: {said}");
        }
    }
    let said = day.refused(&["records", "export", "--csv", "/dev/full"]);
    assert!(said.contains("no space left") && !said.contains("os error"), "{said}");
    assert!(day.run(&["records", "export", "--csv", "/dev/null"]).status.success());
    assert!(Path::new("/dev/null").exists());
}

#[test]
fn frames_of_two_moving_codes_are_never_mixed() {
    let day = Day::new();
    let write = ["bundle", "write", "--frames", "--out", &day.at("frames")].map(str::to_owned);
    let write: Vec<&str> = write.iter().map(String::as_str).collect();
    day.done(&write);
    let said = day.refused(&write);
    assert!(said.contains("frames of another moving code"), "{said}");
}
