//! A unit's own procedure by verbs alone: written, checked, approved, carried, walked, judged by a third who has only the roster.

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::string_slice,
    reason = "a test fails by panicking"
)]

use std::io::{BufRead, BufReader};
use std::process::{Command, Output, Stdio};

use serde_json::Value;

const WORDS: &str = "a meadow by the river";

struct Unit(tempfile::TempDir);

impl Unit {
    fn at(&self, name: &str) -> String {
        self.0.path().join(name).display().to_string()
    }

    fn command(&self, home: &str, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_slingseal"));
        command
            .args(["--home", &self.at(home)])
            .args(arguments)
            .env("SLINGSEAL_PIN", "417293")
            .env("SLINGSEAL_PASSPHRASE", WORDS)
            .env("LANG", "C")
            .stdin(Stdio::null());
        command
    }

    fn run(&self, home: &str, arguments: &[&str]) -> Output {
        self.command(home, arguments).output().unwrap()
    }

    fn done(&self, home: &str, arguments: &[&str]) -> String {
        let output = self.run(home, arguments);
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        String::from_utf8(output.stdout).unwrap()
    }

    fn json(&self, home: &str, arguments: &[&str]) -> Value {
        serde_json::from_str(&self.done(home, &[&["--json"], arguments].concat())).unwrap()
    }

    fn refused(&self, home: &str, arguments: &[&str]) -> String {
        let output = self.run(home, arguments);
        assert_eq!(output.status.code(), Some(1), "{arguments:?}: {output:?}");
        let complaint = String::from_utf8(output.stderr).unwrap();
        assert_eq!(complaint.lines().count(), 1, "{complaint}");
        complaint
    }

    /// The verdict on a seal beside a tag: exit code and first line.
    fn verify(&self, home: &str, seal: &str, tag: &str) -> (i32, String) {
        let output = self.run(home, &["verify", seal, "--tag", tag]);
        (output.status.code().unwrap(), String::from_utf8(output.stdout).unwrap())
    }
}

fn text(value: &Value) -> String {
    value.as_str().unwrap().to_owned()
}

/// An authority that approves nothing yet, and an inspector who plans, with their credential.
fn unit() -> Unit {
    let unit = Unit(tempfile::tempdir().unwrap());
    let output = unit.run("authority", &["--json", "authority", "init", "--name", "Sela Relief"]);
    let told = String::from_utf8(output.stderr).unwrap();
    assert!(
        told.starts_with("slingseal: no procedure is approved, so that every seal will say WAIT"),
        "{told}"
    );
    let view: Value = serde_json::from_slice(&output.stdout).unwrap();
    for home in ["inspector", "third"] {
        let (card, fingerprint) = (text(&view["card"]["text"]), text(&view["fingerprint"]));
        unit.done(home, &["authority", "trust", &card, "--fingerprint", &fingerprint]);
        unit.done(home, &["receive", &text(&view["roster"]["text"])]);
    }
    let request = unit.done("inspector", &["key", "request", "--holder", "Anvil 3"]);
    let request = request.lines().find(|line| line.starts_with("KR1:")).unwrap().to_owned();
    let issue = ["authority", "issue", &request, "--roles", "inspector,planner", "--expires", "2099-01-01"];
    let credential = text(&unit.json("authority", &issue)["text"]);
    unit.done("inspector", &["receive", &credential]);
    unit
}

#[test]
fn a_unit_s_own_list_from_pen_to_hook() {
    let unit = unit();
    // Written, checked, approved at the desk.
    let file = unit.at("crate.toml");
    unit.done("authority", &["procedure", "new", "crate", "--out", &file]);
    assert!(
        unit.refused("authority", &["procedure", "new", "crate", "--out", &file])
            .contains("is there already")
    );
    assert!(unit.done("authority", &["procedure", "check", &file]).contains("holds: 3 cards, 4 points"));
    let told = unit.done("authority", &["authority", "approve", &file, "bag", "--out", &unit.at("card")]);
    assert!(told.contains("crate@1   approved since") && told.contains("bag@2   approved since"), "{told}");
    let listed = unit.done("authority", &["authority", "list"]);
    assert!(
        listed.contains("bag@2") && listed.contains("comes with the program: a start, no manual"),
        "{listed}"
    );

    // Carried to the inspector as one file; the third has the roster alone.
    let pack = unit.at("unit.pack");
    assert!(
        unit.done("authority", &["procedure", "pack", "write", &pack]).starts_with("2 procedures, 1 roster")
    );
    let taken = unit.done("inspector", &["procedure", "pack", "read", &pack]);
    assert!(taken.contains("procedure crate version 1: approved by: Sela Relief\n"), "{taken}");
    unit.done("third", &["receive", &format!("{}/roster-2.txt", unit.at("card"))]);
    let listed = unit.done("third", &["procedure", "list"]);
    assert!(listed.contains("crate") && listed.contains("not here: receive it"), "{listed}");
    assert!(listed.contains("[approved by: nobody; a start for your own]"), "{listed}");

    // Walked there, sealed: GO for whoever has only the roster.
    let plan = include_str!("../demo/bag.toml");
    let procedure = plan.lines().find(|line| line.starts_with("procedure")).unwrap();
    let plan = plan.replacen(procedure, "procedure = \"crate\"", 1);
    let plan_file = unit.at("plan.toml");
    std::fs::write(&plan_file, plan).unwrap();
    let tags = unit.at("tags");
    unit.done("inspector", &["tag", "write", &plan_file, "--out", &tags]);
    let file_in = |folder: &str| {
        let mut files: Vec<_> =
            std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        files.retain(|path| path.extension().is_some_and(|is| is == "txt"));
        files.sort();
        files.pop().unwrap().display().to_string()
    };
    let tag = file_in(&tags);
    let seal = |name: &str| {
        let folder = unit.at(name);
        let mut child = unit
            .command("inspector", &["inspect", &tag, "--out", &folder])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        use std::io::Write as _;
        child.stdin.take().unwrap().write_all(b"good\ngood\ngood\nfit\nseal\n").unwrap();
        let said = String::from_utf8(child.wait_with_output().unwrap().stdout).unwrap();
        assert!(said.lines().all(|line| line.starts_with("ok") || line.starts_with("sealed")), "{said}");
        file_in(&folder)
    };
    let first = seal("first");
    let (code, said) = unit.verify("third", &first, &tag);
    assert_eq!(code, 0, "{said}");

    // A forgery of one card under the same id and version: it is refused where it could be approved, and kept apart where it comes.
    let forged = r#"id = "crate"
version = 1
title = "Crate, at a glance"
source = "user's own"
[[station]]
id = "all"
title = "All of it"
[[station.card]]
id = "look"
title = "Look"
motion = "Look at it."
[[station.card.point]]
id = "good"
prompt = "Looks good"
rerig = ["looks bad"]
"#;
    let forged_file = unit.at("forged.toml");
    std::fs::write(&forged_file, forged).unwrap();
    assert!(unit.refused("authority", &["authority", "approve", &forged_file]).contains("higher version"));
    let diff = unit.done("authority", &["procedure", "diff", "crate", &forged_file]);
    assert!(diff.contains("- card leg-1.trace: Trace leg 1"), "{diff}");
    let added = unit.done("inspector", &["procedure", "add", &forged_file]);
    assert!(added.contains("[approved by: nobody]  (kept apart)"), "{added}");

    // Withdrawn: what is walked from then on says WAIT, with its name.
    std::thread::sleep(std::time::Duration::from_millis(1_100));
    let told = unit.done("authority", &["authority", "withdraw", "crate", "--out", &unit.at("card")]);
    assert!(told.contains("crate@1   WITHDRAWN since"), "{told}");
    let missing = unit.refused("authority", &["authority", "withdraw", "nothing"]);
    assert!(missing.contains("no procedure \"nothing\" is approved here"), "{missing}");
    unit.done("third", &["receive", &format!("{}/roster-3.txt", unit.at("card"))]);
    let (code, said) = unit.verify("third", &first, &tag);
    assert_eq!(code, 0, "what was walked before stands: {said}");
    let second = seal("second");
    let (code, said) = unit.verify("third", &second, &tag);
    assert!(code == 10 && said.contains("Sela Relief withdrew procedure crate version 1"), "{code} {said}");
}

#[test]
fn a_list_on_paper_a_schema_and_frames() {
    let unit = unit();
    let shown = unit.done("third", &["procedure", "show", "bag"]);
    assert!(shown.contains("[people.ask.nobody]"), "ids of points are shown");
    let paper = unit.at("bag.pdf");
    unit.done("third", &["procedure", "show", "bag", "--pdf", &paper]);
    let once = std::fs::read(&paper).unwrap();
    assert!(once.starts_with(b"%PDF-") && once.len() > 20_000);
    unit.done("third", &["procedure", "show", "bag", "--pdf", &paper]);
    assert_eq!(std::fs::read(&paper).unwrap(), once, "the same list is the same paper");
    let schema: Value = serde_json::from_str(&unit.done("third", &["procedure", "schema"])).unwrap();
    assert_eq!(schema["properties"]["version"]["type"], "integer");
    let frames = unit.at("frames");
    let told = unit.done("third", &["procedure", "frames", "bag", "--out", &frames]);
    assert!(told.contains("1 procedure, 1 roster"), "{told}");
    let read = unit.done("inspector", &["bundle", "read", &frames]);
    assert!(read.starts_with("0 records new"), "{read}");
}

/// A file that is saved again is checked again.
#[test]
fn a_watched_file_is_told_at_each_save() {
    let unit = Unit(tempfile::tempdir().unwrap());
    let file = unit.at("crate.toml");
    unit.done("home", &["procedure", "new", "crate", "--out", &file]);
    let mut child = unit
        .command("home", &["procedure", "check", "--watch", &file])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut said = BufReader::new(child.stdout.take().unwrap()).lines();
    let mut complained = BufReader::new(child.stderr.take().unwrap()).lines();
    assert!(said.next().unwrap().unwrap().contains("holds: 3 cards"));
    let text = std::fs::read_to_string(&file).unwrap();
    std::fs::write(&file, text.replace("prompt = \"Whole", "promt = \"Whole")).unwrap();
    let complaint = complained.next().unwrap().unwrap();
    assert!(complaint.contains("crate.toml: ") && complaint.contains("prom"), "{complaint}");
    std::fs::write(&file, text.replace("values = [\"1\", \"2\"]", "values = [\"1\", \"2\", \"3\"]")).unwrap();
    assert!(said.next().unwrap().unwrap().contains("holds: 4 cards"));
    child.kill().unwrap();
    child.wait().unwrap();
}
