//! Every verb's JSON is one document of one documented shape.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::bag::sound;
use crate::day::{Day, PIN, text};

#[test]
fn every_document_holds_its_schema() {
    let day = Day::new();
    let mut documents: Vec<(&str, String)> = Vec::new();
    let mut typed: Vec<String> = Vec::new();
    let mut said_at = |home: &str, name: &'static str, arguments: &[&str]| {
        let output = day.command_at(home, &[&["--json"], arguments].concat()).output().unwrap();
        documents.push((name, text(&output.stdout)));
        typed.push(arguments.join("-"));
    };
    said_at(
        "second",
        "authority",
        &["authority", "init", "--name", "Brook Survey", "--out", &day.at("brook")],
    );
    let mut said = |name: &'static str, arguments: &[&str]| said_at("home", name, arguments);
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
    let (rosters, own) = (day.at("rosters"), day.at("crate.toml"));
    said("files", &["procedure", "new", "crate", "--out", &own]);
    said("procedure", &["procedure", "add", &own]);
    said("authority", &["authority", "approve", "crate", "--out", &rosters]);
    said("authority", &["authority", "withdraw", "crate", "--out", &rosters]);
    said("procedure-show", &["procedure", "show", "bag"]);
    said("files", &["procedure", "show", "bag", "--pdf", &day.at("bag.pdf")]);
    said("procedure-table", &["procedure", "table"]);
    said("procedure-table", &["procedure", "table", "bag"]);
    said("procedure-diff", &["procedure", "diff", "bag", &own]);
    said("procedure-language", &["procedure", "language", "fr"]);
    said("procedure-language", &["procedure", "language"]);
    said("bundle-write", &["procedure", "pack", "write", &day.at("lists.pack")]);
    said("bundle-read", &["procedure", "pack", "read", &day.at("lists.pack")]);
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
    said(
        "exam-key",
        &["exam", "lock", &tag, "--draw", "2", "--find", "1", "--within", "2:00", "--false-calls", "0"],
    );
    said("exam-keys", &["exam", "keys"]);
    said("exam-class", &["exam", "class"]);
    said("records-print", &["records", "print", "KM-015", "--out", &day.at("page.pdf")]);
    said("procedure-frames", &["procedure", "frames", "bag", "--out", &day.at("list-frames")]);
    said("backup", &["backup", "--out", &day.at("home.backup")]);
    let reports = day.at("reports");
    said("report", &["report", "lifted", "KM-015", "--aircraft", "Heron 21", "--out", &reports]);
    said(
        "report",
        &["report", "set-down", "KM-015", "--piece", "CB-0932=back,damaged", "--note", "torn", "--sign"],
    );
    said("arrival", &["arrival", "KM-015"]);
    said("account-close", &["account", "close"]);
    let open = day.json(&["account", "close", "KM-015"]);
    for point in open["points"].as_array().unwrap() {
        let note = format!("{}=known", point["id"].as_str().unwrap());
        said("account-close", &["account", "close", "KM-015", "--explain", &note]);
    }
    said("account-closed", &["account", "close", "KM-015", "--sign"]);
    said("account-closed", &["account", "close", "KM-015", "--sign", "--out", &reports]);
    said("account-manifest", &["account", "manifest"]);
    said("account-equipment", &["account", "equipment"]);
    said("account-equipment", &["account", "equipment", "--open"]);
    said("files", &["account", "equipment", "--csv", &day.at("pieces.csv")]);
    said("account-least-seconds", &["account", "least-seconds", "9"]);
    said("account-least-seconds", &["account", "least-seconds"]);
    said("inspection", &["account", "withdraw", "CB-0932", "--why", "torn web", "--out", &reports]);
    let shell = day.at("shell.html");
    std::fs::write(&shell, "<script type=\"application/octet-stream\" id=\"contents\"></script>").unwrap();
    said("check-page", &["check-page", "--page", &shell, "--out", &day.at("hook.html")]);
    // What `--out` names is written beside the document, and nowhere is it named twice.
    let written = day.names("reports");
    for name in ["report-km-015.txt", "closing-km-015.pdf", "withdrawn-cb-0932.png"] {
        assert!(written.contains(&name.to_owned()), "{name} in {written:?}");
    }
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
    let run = day.json(&["exam", "result"])["runs"][0]["run"].as_str().unwrap().to_owned();
    let mut said_at = |home: &str, name: &'static str, arguments: &[&str]| {
        let output = day.command_at(home, &[&["--json"], arguments].concat()).output().unwrap();
        documents.push((name, text(&output.stdout)));
        typed.push(arguments.join("-"));
    };
    said_at("home", "exam-sheet", &["exam", "sheet", &run, "--out", &day.at("run.sheet")]);
    said_at("home", "exam-sheet-frames", &["exam", "sheet", &run, "--out", &day.at("run"), "--frames"]);
    said_at("home", "exam-result", &["exam", "result", "Pupil 1"]);
    said_at("home", "exam-list", &["exam", "result"]);
    inspect_a_piece(&day);
    said_at("home", "inspect-kept", &["inspect", "--kept"]);
    said_at("home", "inspection", &["inspect", "--kept", "--sign", "SL-1101", "--out", &day.at("pieces")]);
    assert!(day.names("pieces").contains(&"inspection-sl-1101.txt".to_owned()));
    said_at("spare", "restore", &["restore", &day.at("home.backup")]);
    // Last, for they end what others rest on.
    let heard = day.json(&["authority", "show"]);
    let heard = (heard["card"]["text"].as_str().unwrap(), heard["fingerprint"].as_str().unwrap());
    said_at("third", "set-up", &["authority", "trust", heard.0, "--fingerprint", heard.1]);
    said_at("third", "set-up", &["authority", "distrust", "Sela Relief"]);
    let pin = day.command(&["--json", "key", "change-pin"]).env("SLINGSEAL_NEW_PIN", PIN).output().unwrap();
    documents.push(("set-up", text(&pin.stdout)));
    let revoked = ["--json", "authority", "revoke", "Anvil 3", "--out", &rosters];
    documents.push(("authority", text(&day.run(&revoked).stdout)));
    documents.push(("serve", served(&day)));
    typed.extend(["inspect", "exam-run", "key-change-pin", "authority-revoke", "serve"].map(str::to_owned));
    #[cfg(feature = "exchange")]
    exchanged(&day, &mut documents, &mut typed);
    every_verb_was_typed(&day, &typed);

    let one_line = |name: &str, document: &str| -> String {
        let value: serde_json::Value =
            serde_json::from_str(document).unwrap_or_else(|error| panic!("{error} in {document}"));
        // No document holds a picture; the table of every list is as long as they are.
        let most = if name == "procedure-table" { 400_000 } else { 150_000 };
        assert!(
            value.to_string().len() < most,
            "{name}: a document of {} characters",
            value.to_string().len()
        );
        value.to_string()
    };
    let given: String =
        documents.iter().map(|(name, document)| format!("{name}\t{}\n", one_line(name, document))).collect();
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

/// Verbs whose answer is a document of another form already, or a film for a camera: `--json` changes nothing there.
const OTHER_FORMS: [&str; 5] =
    ["completions", "manual", "procedure-schema", "account-server-sql", "bundle-play"];

/// The manual has a page a verb: one that was not typed here has no schema that holds.
fn every_verb_was_typed(day: &Day, typed: &[String]) {
    day.done(&["manual", "--out", &day.at("pages")]);
    let pages: Vec<String> = day
        .names("pages")
        .iter()
        .filter_map(|name| Some(name.strip_prefix("slingseal-")?.strip_suffix(".1")?.to_owned()))
        .collect();
    let of_others = |page: &String| pages.iter().any(|other| other.starts_with(&format!("{page}-")));
    let begins = |said: &String, page: &String| said == page || said.starts_with(&format!("{page}-"));
    let missing: Vec<&String> = pages
        .iter()
        .filter(|page| !of_others(page) && !OTHER_FORMS.contains(&page.as_str()))
        .filter(|page| !typed.iter().any(|said| begins(said, page)))
        .collect();
    assert!(pages.len() > 50 && missing.is_empty(), "no document of {missing:?} was held: {pages:?}");
}

/// A sling by its serial number, found torn at once.
fn inspect_a_piece(day: &Day) {
    let said = day.fed(&["inspect", "--list", "gear-web", "--of", "SL-1101"], "good\nnotfit torn web\n");
    assert!(said.status.success(), "{said:?}");
}

/// What the operation's server is told and tells.
#[cfg(feature = "exchange")]
fn exchanged(day: &Day, documents: &mut Vec<(&str, String)>, typed: &mut Vec<String>) {
    use std::io::BufRead;
    let server = crate::server::Server::new();
    let place = format!("host={} user=lantern dbname=slingseal", server.socket().display());
    // First, while there is something to tell of.
    let mut follow = day.command(&["--json", "account", "follow", &place, "--every", "1"]);
    let mut child = follow.stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
    let first = std::io::BufReader::new(child.stdout.take().unwrap()).lines().next().unwrap().unwrap();
    child.kill().unwrap();
    child.wait().unwrap();
    documents.push(("account-follow", first));
    typed.push("account-follow".to_owned());
    for verb in ["push", "pull"] {
        let output = day.run(&["--json", "account", verb, &place]);
        assert!(output.status.success(), "{output:?}");
        documents.push((if verb == "push" { "account-push" } else { "account-pull" }, text(&output.stdout)));
        typed.push(format!("account-{verb}"));
    }
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
