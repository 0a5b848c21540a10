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

/// With credentials of two authorities it is told which one signs, and `--as` chooses.
#[test]
fn a_device_of_two_authorities_says_whose_credential_it_signs_with() {
    let day = Day::new();
    let other = |arguments: &[&str]| {
        let output = day.command_at("brook", arguments).output().unwrap();
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        serde_json::from_slice::<serde_json::Value>(&output.stdout).unwrap()
    };
    let brook = other(&["--json", "authority", "init", "--name", "Brook Survey"]);
    let request = day.only("me", "txt");
    let issue =
        ["--json", "authority", "issue", &request, "--roles", "inspector,planner", "--expires", "2098-01-01"];
    let credential = other(&issue);
    let text_of = |value: &serde_json::Value| value["text"].as_str().unwrap().to_owned();
    let heard = brook["fingerprint"].as_str().unwrap();
    day.done(&["authority", "trust", &text_of(&brook["card"]), "--fingerprint", heard]);
    day.done(&["receive", &text_of(&brook["roster"]), &text_of(&credential)]);

    let tags = |arguments: &[&str]| {
        let plan = concat!(env!("CARGO_MANIFEST_DIR"), "/demo/bag.toml");
        let output = day.run(&[arguments, &["tag", "write", plan, "--out", &day.at("t")]].concat());
        (output.status.code(), String::from_utf8(output.stderr).unwrap())
    };
    let (code, said) = tags(&[]);
    assert_eq!(code, Some(0), "{said}");
    assert!(said.contains("signs as Anvil 3 of Sela Relief; --as would choose Brook Survey"), "{said}");
    let (code, said) = tags(&["--as", "brook survey"]);
    assert_eq!(code, Some(0), "{said}");
    assert!(said.contains("signs as Anvil 3 of Brook Survey"), "{said}");
    let (code, said) = tags(&["--as", "Nobody"]);
    assert!(code == Some(1) && said.contains("no authority \"Nobody\" is trusted here"), "{said}");
    // A role that only one of them gave needs no choice.
    let lock = [
        "exam",
        "lock",
        &day.at("tags/tag-km-015.txt"),
        "--draw",
        "1",
        "--find",
        "1",
        "--within",
        "2:00",
        "--false-calls",
        "0",
    ];
    let output = day.run(&lock);
    assert!(
        output.status.success() && !String::from_utf8_lossy(&output.stderr).contains("--as"),
        "{output:?}"
    );
}

/// What runs out is told before it does, on every verb that opens the home.
#[test]
fn what_runs_out_soon_is_told_before_it_does() {
    let day = Day::new();
    assert!(day.run(&["records", "list"]).stderr.is_empty());
    // A roster that holds for a day is told of; the authority signs the next one.
    day.done(&["authority", "roster", "--days", "1", "--out", &day.at("r")]);
    let told = String::from_utf8(day.run(&["records", "list"]).stderr).unwrap();
    assert!(told.contains("the roster of Sela Relief runs out at "), "{told}");
}
