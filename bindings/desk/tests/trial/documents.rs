//! Every verb's JSON is one document of one documented shape.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::bag::sound;
use crate::day::{Day, text};

#[test]
fn every_document_holds_its_schema() {
    let day = Day::new();
    let mut documents: Vec<(&str, String)> = Vec::new();
    let mut said = |name: &'static str, arguments: &[&str]| {
        let output = day.run(&[&["--json"], arguments].concat());
        documents.push((name, text(&output.stdout)));
    };
    let (seal, tag) = (day.only("seals", "txt"), day.at("tags/tag-km-014.txt"));
    let plan =
        |name: &str| Path::new(env!("CARGO_MANIFEST_DIR")).join("demo").join(name).display().to_string();
    said("authority", &["authority", "show"]);
    said("authority", &["authority", "roster"]);
    said("authority-list", &["authority", "list"]);
    let request = day.only("me", "txt");
    said(
        "authority-issue",
        &["authority", "issue", &request, "--roles", "hookup", "--expires", "2098-01-01"],
    );
    said("set-up", &["key", "show"]);
    said("key-request", &["key", "request"]);
    said("bundle-have", &["bundle", "have"]);
    said("bundle-write", &["bundle", "write", "--out", &day.at("day.bundle")]);
    said("bundle-frames", &["bundle", "write", "--frames", "--out", &day.at("frames")]);
    said("bundle-read", &["bundle", "read", &day.at("day.bundle")]);
    said("verify", &["verify", &seal]);
    said("verify", &["verify", &seal, "--tag", &tag]);
    said("receive", &["receive", &seal]);
    said(
        "receive",
        &["receive", &day.at("card/authority.txt"), &day.at("card/roster-1.txt"), &tag, &request],
    );
    said("records-list", &["records", "list"]);
    said("records-show", &["records", "show", "KM-015"]);
    said("records-seal", &["records", "seal", "KM-015"]);
    said("records-export", &["records", "export", "--csv", &day.at("a.csv")]);
    said("records-export", &["records", "export", &day.at("a.sql")]);
    said("account-second-look", &["account", "second-look", "--days", "3"]);
    said("account-drawn", &["account", "second-look", "--draw", "2"]);
    said("records-verify", &["records", "verify"]);
    said("tag-write", &["tag", "write", &plan("vehicle.toml"), "--out", &day.at("t")]);
    said("tag-read", &["tag", "read", &tag]);
    said("procedure-list", &["procedure", "list"]);
    let procedure = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../core/walk/procedures/bag.toml");
    said("procedure", &["procedure", "check", procedure.to_str().unwrap()]);
    said("read", &["read", &day.only("seals", "png")]);
    said("rigging", &["rigging", &plan("vehicle-rigging.toml")]);
    let lift = format!("{}/../../core/rigging/examples/planned-lift.toml", env!("CARGO_MANIFEST_DIR"));
    said("rigging-weigh", &["rigging", "weigh", &lift]);
    said("rigging-solve", &["rigging", "solve", &lift, "--most", "1"]);
    said("rigging-flight", &["rigging", "flight", &lift]);
    said("demo", &["demo", "--out", &day.at("demo")]);
    said("inspect-kept", &["inspect", "--kept"]);
    said("exam-plan", &["exam", "lock", &tag, "--preview"]);
    said("exam-plan", &["exam", "lock", &tag, "--preview", "--draw", "2"]);
    said("exam-key", &["exam", "lock", &tag, "--draw", "2", "--find", "1", "--within", "2:00"]);
    said("exam-keys", &["exam", "keys"]);
    said("exam-class", &["exam", "class"]);
    said("records-print", &["records", "print", "KM-015", "--out", &day.at("page.pdf")]);
    said("procedure-frames", &["procedure", "frames", "bag", "--out", &day.at("list-frames")]);
    said("backup", &["backup", "--out", &day.at("home.backup")]);
    said("void", &["void", "KM-015", "--cause", "load-moved"]);
    said("error", &["void", "KM-099", "--cause", "load-moved"]);
    said("error", &["tag", "read", "LT1:NOTHING"]);

    // A line a document: the inspection, a run of an examination and its result.
    let mut lines_of = |name: &'static str, arguments: &[&str], lines: &str| {
        let output = day.fed(&[&["--json"], arguments].concat(), lines);
        for line in text(&output.stdout).lines().filter(|line| !line.contains("\"error\"")) {
            documents.push((name, line.to_owned()));
        }
    };
    let few = sound(1)[..3].join("\n");
    lines_of("inspect", &["inspect", &day.at("tags/tag-km-015.txt")], &format!("{few}\npause\n"));
    let key = day.json(&["exam", "keys"])[0]["short"].as_str().unwrap().to_owned();
    lines_of("exam-run", &["exam", "run", &key, "--student", "Pupil 1"], "good\nend\n");
    documents.push(("exam-result", text(&day.run(&["--json", "exam", "result", "Pupil 1"]).stdout)));
    documents.push(("exam-list", text(&day.run(&["--json", "exam", "result"]).stdout)));
    let again = day.command_at("spare", &["--json", "restore", &day.at("home.backup")]).output().unwrap();
    documents.push(("restore", text(&again.stdout)));
    documents.push(("serve", served(&day)));

    let one_line = |document: &str| -> String {
        let value: serde_json::Value =
            serde_json::from_str(document).unwrap_or_else(|error| panic!("{error} in {document}"));
        assert!(value.to_string().len() < 150_000, "a document of {} characters", value.to_string().len());
        value.to_string()
    };
    let given: String =
        documents.iter().map(|(name, document)| format!("{name}\t{}\n", one_line(document))).collect();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut child = Command::new("python3")
        .arg(root.join("tests/trial/holds.py"))
        .arg(root.join("schemas"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 is needed");
    child.stdin.take().unwrap().write_all(given.as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success(), "{}", text(&output.stdout));
}

fn served(day: &Day) -> String {
    use std::io::BufRead;
    let mut child = day.command(&["--json", "serve", "--port", "0"]).stdout(Stdio::piped()).spawn().unwrap();
    let mut document = String::new();
    for line in std::io::BufReader::new(child.stdout.take().unwrap()).lines() {
        document.push_str(&line.unwrap());
        if document.ends_with('}') {
            break;
        }
    }
    child.kill().unwrap();
    child.wait().unwrap();
    document
}
