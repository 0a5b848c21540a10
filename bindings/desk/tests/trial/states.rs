//! A record's page is evidence: every state has its own banner, drawn from the judgement.

use std::process::Command;

use crate::day::{Day, text};

fn page(day: &Day, load: &str) -> String {
    day.done(&["records", "print", load, "--out", &day.at("page.pdf")]);
    let output = Command::new("pdftotext").args(["-layout", &day.at("page.pdf"), "-"]).output();
    text(&output.expect("pdftotext is needed (Debian package poppler-utils)").stdout)
}

#[test]
fn a_record_that_was_taken_back_prints_void_with_its_decision_and_who_took_it_back() {
    let day = Day::new();
    let before = page(&day, "KM-015");
    assert!(before.contains("FIT") && !before.contains("VOID"), "{before}");
    day.done(&[
        "void",
        &day.only("seals", "txt"),
        "--cause",
        "load-moved",
        "--note",
        "by the river",
        "--out",
        &day.at("v"),
    ]);
    let after = page(&day, "KM-015");
    let flat = after.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(after.contains("VOID") && !after.contains("NOT FIT"), "{after}");
    assert!(flat.contains("was FIT"), "{after}");
    assert!(flat.contains("taken back by Anvil 3"), "{after}");
    let shown = day.done(&["records", "show", "KM-015"]);
    assert!(
        shown.contains("VOID") && shown.contains("taken back by Anvil 3") && shown.contains("by the river"),
        "{shown}"
    );
}

/// The demo's vehicle: at rest a leg carries 1,525 lb of its 2,500, in the worst case 2,621.
#[test]
fn a_rigging_that_holds_at_rest_alone_is_amber_and_the_manual_chooses_the_rule() {
    let day = Day::empty();
    let rigging = include_str!("../../demo/vehicle-rigging.toml");
    let assessed = |rule: &str| {
        std::fs::write(day.at("r.toml"), format!("{rule}\n{rigging}")).unwrap();
        let said = day.run(&["rigging", &day.at("r.toml"), "--picture", &day.at("r.svg")]);
        (said.status.code(), text(&said.stdout), std::fs::read_to_string(day.at("r.svg")).unwrap())
    };
    let (green, amber) = ("#0a5522", "#ffb000");
    for (rule, code, word, chosen) in [
        ("", 0, "AT REST ONLY", false),
        ("rule = \"rest\"", 0, "WITHIN LIMITS", false),
        ("rule = \"worst case\"", 10, "AT REST ONLY", true),
        ("rule = \"two legs\"", 10, "AT REST ONLY", true),
    ] {
        let (ended, said, picture) = assessed(rule);
        assert_eq!(ended, Some(code), "{rule}: {said}");
        assert!(said.starts_with(&format!("{word}: ")), "{rule}: {said}");
        assert_eq!(said.contains("the rule that this file names"), chosen, "{rule}: {said}");
        assert_eq!(
            (picture.contains(green), picture.contains(amber)),
            (word != "AT REST ONLY", word == "AT REST ONLY")
        );
    }
    let wrong = day.at("w.toml");
    std::fs::write(&wrong, format!("rule = \"two\"\n{rigging}")).unwrap();
    let said = day.refused(&["rigging", &wrong]);
    assert!(said.contains("w.toml: 1:8: "), "{said}");
    assert!(said.contains("\"two\" is no rule; write rule = \"rest\", \"three legs\""), "{said}");
}

/// Whoever reads another language reads the decision and who took it back as well: nothing of the banner is cut, and what happened
/// tells of it too.
#[test]
fn a_void_is_whole_in_every_language() {
    let day = Day::new();
    day.done(&["void", "KM-015", "--cause", "load-moved", "--out", &day.at("v")]);
    for (language, told) in [("en", "the load was moved"), ("es", "se movió la carga")] {
        let pdf = day.at(&format!("{language}.pdf"));
        day.done(&["--language", language, "records", "print", "KM-015", "--out", &pdf]);
        let shown = std::process::Command::new("pdftotext").args([&pdf, "-"]).output().unwrap();
        let shown = String::from_utf8(shown.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
        let said = format!("Anvil 3: {told}");
        assert_eq!(shown.matches(&said).count(), 2, "{said}: {shown}");
    }
}
