//! What a verb tells: who and which load, in words; and what to do next.

use crate::day::Day;

#[test]
fn verbs_tell_who_and_which_load() {
    let day = Day::new();
    let issued = {
        let request = ["key", "request", "--holder", "Mason 5", "--out", &day.at("m")];
        assert!(day.command_at("other", &request).status().unwrap().success());
        day.done(&[
            "authority",
            "issue",
            &day.only("m", "txt"),
            "--roles",
            "planner",
            "--expires",
            "2099-01-01",
            "--out",
            &day.at("mc"),
        ])
    };
    assert!(issued.contains("Mason 5") && issued.contains("planner") && issued.contains("99"), "{issued}");
    let again = day.done(&["key", "request", "--out", &day.at("k2")]);
    assert!(again.contains("Anvil 3"), "{again}");
    let revoked = day.done(&["authority", "revoke", "Mason 5", "--out", &day.at("ro")]);
    assert!(revoked.contains("revoked: Mason 5"), "{revoked}");
    // By the load's number, and by the first digits of its record.
    let voided = day.done(&["void", "KM-015", "--cause", "load-moved", "--out", &day.at("v")]);
    assert!(voided.contains("KM-015") && voided.contains("Anvil 3"), "{voided}");
    day.seal_the_bag();
    let listed = day.done(&["records", "list"]);
    let digits = listed.lines().next().unwrap().split(' ').next().unwrap().to_owned();
    let voided = day.done(&["void", &digits, "--cause", "load-moved", "--out", &day.at("v2")]);
    assert!(voided.contains("KM-015"), "{voided}");
    let none = day.refused(&["void", "KM-099", "--cause", "other"]);
    assert!(none.contains("KM-099") && none.contains("records list"), "{none}");
}

#[test]
fn the_demo_tells_a_command_that_can_be_pasted_and_the_pin() {
    let day = Day::empty();
    let told = day.done(&["demo", "--out", &day.at("a demo")]);
    let line = told.lines().find_map(|line| line.trim().strip_prefix("Try: ")).expect("a command");
    assert!(told.contains("PIN 417293") && !line.contains('…'), "{told}");
    let output = std::process::Command::new("sh").args(["-c", line]).output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{line}: {output:?}");
    let document = day.json(&["demo", "--out", &day.at("second")]);
    assert_eq!(document["pin"], "417293");
    assert!(
        document["verdicts"].as_array().unwrap().iter().any(|verdict| verdict["verdict"] == "go"),
        "{document}"
    );
}
