//! The program itself: a key locked in one home, run in another, brought back by file, scored, carried to a desk.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test fails by panicking"
)]

use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

const PIN: &str = "417293";

struct School(tempfile::TempDir);

impl School {
    fn at(&self, name: &str) -> String {
        self.0.path().join(name).display().to_string()
    }

    fn run(&self, home: &str, arguments: &[&str], input: &str) -> Output {
        let mut child = Command::new(env!("CARGO_BIN_EXE_slingseal"))
            .args(["--home", &self.at(home)])
            .args(arguments)
            .env("SLINGSEAL_PIN", PIN)
            .env("SLINGSEAL_PASSPHRASE", "a meadow by the river")
            .env("LANG", "C")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
        child.wait_with_output().unwrap()
    }

    fn done(&self, home: &str, arguments: &[&str], input: &str) -> String {
        let output = self.run(home, arguments, input);
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        String::from_utf8(output.stdout).unwrap()
    }

    fn json(&self, home: &str, arguments: &[&str]) -> Value {
        let told = self.done(home, &[&["--json"], arguments].concat(), "");
        serde_json::from_str(&told).unwrap()
    }

    fn refused(&self, home: &str, arguments: &[&str]) -> String {
        let output = self.run(home, arguments, "");
        assert_eq!(output.status.code(), Some(1), "{arguments:?}: {output:?}");
        let complaint = String::from_utf8(output.stderr).unwrap();
        assert_eq!(complaint.lines().count(), 1, "{complaint}");
        complaint
    }
}

/// An authority, an instructor with a tag of the bag, a phone and a desk that trust it. Answers the tag's text.
fn school() -> (School, String) {
    let school = School(tempfile::tempdir().unwrap());
    let authority =
        school.json("authority", &["authority", "init", "--name", "Sela Relief", "--approve", "all"]);
    let (card, fingerprint) = (text(&authority["card"]["text"]), text(&authority["fingerprint"]));
    let roster = text(&authority["roster"]["text"]);
    for home in ["instructor", "phone", "desk"] {
        school.done(home, &["authority", "trust", &card, "--fingerprint", &fingerprint], "");
        school.done(home, &["receive", &roster], "");
    }
    let request = school.done("instructor", &["key", "request", "--holder", "Lantern 1"], "");
    let request = request.lines().find(|line| line.starts_with("KR1:")).unwrap().to_owned();
    let issue = ["authority", "issue", &request, "--roles", "instructor,planner", "--expires", "2099-01-01"];
    let credential = text(&school.json("authority", &issue)["text"]);
    school.done("instructor", &["receive", &credential], "");
    let plan = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/bag.toml");
    let out = school.at("tag");
    let tag = school.json("instructor", &["tag", "write", plan.to_str().unwrap(), "--out", &out]);
    let tag = text(&tag["code"]["text"]);
    (school, tag)
}

fn text(value: &Value) -> String {
    value.as_str().unwrap_or_else(|| panic!("no text: {value}")).to_owned()
}

/// Locks by the unit's standard, where a call does not say another.
fn lock<'a>(tag: &'a str, rest: &[&'a str]) -> Vec<&'a str> {
    let mut all = [&["exam", "lock", tag], rest].concat();
    for (flag, value) in [("--find", "3"), ("--within", "2:00"), ("--false-calls", "0")] {
        if !rest.contains(&flag) {
            all.extend([flag, value]);
        }
    }
    all
}

#[test]
fn an_examination_by_verbs() {
    let (school, tag) = school();
    let preview =
        school.done("instructor", &lock(&tag, &["--draw", "4", "--seed", "Monday", "--preview"]), "");
    assert_eq!(preview.matches("  card ").count(), 4, "{preview}");
    assert!(preview.contains("Then lock the same with --seed Monday"), "{preview}");
    let out = school.at("key");
    let pick = "apex.fitting.cotter=cotter pin is missing";
    let other = "grab.hook.roller=grab hook is reversed";
    let told = school.done(
        "instructor",
        &lock(
            &tag,
            &[
                "--plant",
                pick,
                "--plant",
                other,
                "--find",
                "1",
                "--within",
                "1:30",
                "--false-calls",
                "0",
                "--out",
                &out,
            ],
        ),
        "",
    );
    assert!(told.contains("1 of 2 within 1:30, at most 0 false calls"), "{told}");
    let complaint = school.refused(
        "instructor",
        &lock(&tag, &["--plant", pick, "--plant", "apex.fitting.bolt=bolt is not home", "--find", "1"]),
    );
    assert!(complaint.contains("card 3 would have two deficiencies"), "{complaint}");
    let key = school.at("key/exam-km-015.txt");
    let listed = school.done("instructor", &["exam", "keys"], "");
    assert!(!listed.contains("cotter"), "{listed}");

    // The phone: one answer a line. The end of input leaves the run where it stands.
    let begin = ["exam", "run", &key, "--student", "Pupil 1", "--tag", &tag];
    let lines = school.done("phone", &begin, "go 3\ndeficient 4 1\nshow\n");
    let last = lines.lines().last().unwrap();
    assert!(last.starts_with("ok load=KM-015 stage=running card=3/38 state=deficient"), "{lines}");
    assert!(last.contains(" called=1 seconds=") && last.contains("/90 jumped=no sheet=-"), "{lines}");
    let output = school.run("phone", &["exam", "run", "--run", "Pupil 1"], "pause\nseal\nfit\n");
    assert_eq!(output.status.code(), Some(1));
    let told = String::from_utf8(output.stdout).unwrap();
    assert_eq!(told.lines().filter(|line| line.starts_with("refused ")).count(), 3, "{told}");
    let sheet = school.at("sheet.bundle");
    let told = school.done("phone", &["exam", "run", "--run", "Pupil 1", "--out", &sheet], "end\n");
    assert!(told.lines().last().unwrap().contains("stage=ended"), "{told}");
    let complaint = school.refused("phone", &begin);
    assert!(complaint.contains("has run under this key already"), "{complaint}");
    let complaint = school.refused("phone", &["exam", "run", &key, "--student", "lantern-1"]);
    assert!(complaint.contains("locked this key and cannot be examined"), "{complaint}");
    let runs = school.json("phone", &["exam", "result"]);
    let run = text(&runs["runs"][0]["run"]);
    let complaint = school.refused("phone", &["exam", "result", &run]);
    assert!(complaint.contains("known to Lantern 1's device alone"), "{complaint}");

    // The instructor: by file.
    school.done("instructor", &["bundle", "read", &sheet], "");
    let result = school.json("instructor", &["exam", "result", "Pupil 1"]);
    assert_eq!(result["line"]["outcome"], "passed", "{result}");
    assert_eq!(result["debrief"]["items"][1]["call"], "not_reached", "{result}");
    let told = school.done("instructor", &["exam", "result", "Pupil 1"], "");
    assert!(told.contains("It is no inspection") && told.contains("[+] Card 3"), "{told}");
    assert!(told.contains("[!] Card 5") && told.contains("missed: not reached"), "{told}");

    // Never an inspection, and never GO.
    let code = text(&result["text"]);
    let key_text = std::fs::read_to_string(&key).unwrap();
    for code in [code.as_str(), key_text.trim()] {
        let output = school.run("desk", &["verify", code], "");
        assert_eq!(output.status.code(), Some(11), "{output:?}");
        assert!(String::from_utf8(output.stdout).unwrap().contains("training, and no inspection"));
    }
    let told = school.done("desk", &["receive", key_text.trim(), &code], "");
    assert_eq!(told.matches("training, no inspection").count(), 2, "{told}");
    let bundle = school.at("all.bundle");
    school.done("instructor", &["bundle", "write", "--out", &bundle], "");
    school.done("desk", &["bundle", "read", &bundle], "");
    let class = school.done("desk", &["exam", "class", "--out", &school.at("class")], "");
    assert!(class.contains("Pupil 1") && class.contains("grab hook is reversed"), "{class}");
    let csv = std::fs::read_to_string(school.at("class/class-missed.csv")).unwrap();
    assert!(
        csv.starts_with("procedure,deficiency,missed,of,share,wilson_95_low,wilson_95_high\r\n"),
        "{csv}"
    );
    // One of one: 0.2065 to 1 (SciPy 1.17.1, binomtest(1, 1).proportion_ci(method="wilson")).
    assert!(csv.contains("bag,grab hook is reversed,1,1,1.0000,0.2065,1.0000"), "{csv}");
    assert_eq!(school.done("desk", &["records", "list"], ""), "");
    a_reader_that_goes_away_is_no_fault(&school);
}

/// As `slingseal … | head -1`: the pipe is closed before anything is written.
fn a_reader_that_goes_away_is_no_fault(school: &School) {
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let output = Command::new(env!("CARGO_BIN_EXE_slingseal"))
        .args(["--home", &school.at("desk"), "exam", "class"])
        .stdout(writer)
        .stderr(Stdio::piped())
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(141), "{output:?}");
    assert!(output.stderr.is_empty(), "{output:?}");
}

#[test]
fn bad_input_is_one_line() {
    let (school, tag) = school();
    for (arguments, wanted) in [
        (lock(&tag, &["--draw", "99"]), "99 deficiencies are more than a key carries"),
        (lock(&tag, &["--plant", "cotter"]), "is no pick; write POINT=NAME"),
        (lock(&tag, &["--plant", "apex.fitting.cotter=rusty"]), "has no deficiency \"rusty\""),
        (lock(&tag, &["--draw", "4", "--within", "soon"]), "is no time"),
        (vec!["exam", "lock", &tag, "--draw", "4"], "say your unit's standard: --find N"),
        (
            vec!["exam", "lock", &tag, "--draw", "4", "--find", "3", "--within", "2:00"],
            "--false-calls N that are let pass; none is assumed",
        ),
        (lock(&tag, &["--draw", "2"]), "asks for none, or for more than is planted"),
        (vec!["exam", "run", "12345678", "--student", "Pupil 1"], "no examination key \"12345678\""),
        (vec!["exam", "run", &tag, "--student", "Pupil 1"], "this is a load tag and not an examination key"),
        (vec!["exam", "run"], "name the key and --student NAME"),
        (vec!["exam", "result", "feed"], "no examination result \"feed\""),
        (vec!["exam", "sheet", "feed", "--out", "x"], "no ended run \"feed\""),
        (vec!["exam", "class", "--since", "yesterday"], "is not a time"),
    ] {
        let complaint = school.refused("instructor", &arguments);
        assert!(complaint.contains(wanted), "{arguments:?}: {complaint}");
    }
    let complaint = school.refused("phone", &lock(&tag, &["--draw", "4"]));
    assert!(complaint.contains("has no credential"), "{complaint}");
}
