//! Every command of ours that a document names exists: its verb, the verb under it, each of its flags.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;

/// How a document calls the program.
const CALLS: &[&str] = &["slingseal ", "cargo run --release -- ", "cargo run -- "];

#[test]
fn every_command_in_every_document_exists() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut helps = Helps::default();
    let (mut wrong, mut asked) = (Vec::new(), 0);
    for path in documents(&root) {
        let text = std::fs::read_to_string(&path).unwrap();
        let mut fenced = false;
        for (at, line) in text.lines().enumerate() {
            if line.starts_with("```") {
                fenced = !fenced;
                continue;
            }
            let whole = fenced || line.starts_with("    ");
            for command in commands(line, whole) {
                asked += 1;
                if let Err(what) = helps.check(&command) {
                    wrong.push(format!("{}:{}: {what}", path.display(), at + 1));
                }
            }
        }
    }
    assert!(asked > 25, "only {asked} commands were found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_command_that_is_none_is_seen() {
    let mut helps = Helps::default();
    assert_eq!(commands("say `slingseal tag write X --out D` or `slingseal`", false).len(), 1);
    assert!(helps.check("tag write plan.toml --out tags/").is_ok());
    assert!(helps.check("tag writ plan.toml").is_err());
    assert!(helps.check("tags write").is_err());
    assert!(helps.check("rigging FILE.toml").is_ok() && helps.check("rigging weigh FILE.toml").is_ok());
    assert!(helps.check("rigging weig FILE.toml").is_err());
    assert!(helps.check("tag write plan.toml --onto tags/").is_err());
}

/// What is behind the program's name: of a line of code up to its comment, in prose between backticks alone.
fn commands(line: &str, whole: bool) -> Vec<String> {
    let pieces: Vec<&str> = if whole {
        line.split(" # ").take(1).map(str::trim).collect()
    } else {
        line.split('`').skip(1).step_by(2).collect()
    };
    pieces
        .into_iter()
        .filter_map(|piece| CALLS.iter().find_map(|call| piece.strip_prefix(call)))
        .filter(|rest| rest.starts_with(|first: char| first.is_ascii_lowercase()))
        .map(str::to_owned)
        .collect()
}

/// What each verb says of itself; each is asked once.
#[derive(Default)]
struct Helps(BTreeMap<String, Option<String>>);

impl Helps {
    fn of(&mut self, verbs: &str) -> Option<String> {
        let told = || {
            let mut command = Command::new(env!("CARGO_BIN_EXE_slingseal"));
            let output = command.args(verbs.split(' ')).arg("--help").output().unwrap();
            output.status.success().then(|| String::from_utf8(output.stdout).unwrap())
        };
        self.0.entry(verbs.to_owned()).or_insert_with(told).clone()
    }

    fn check(&mut self, command: &str) -> Result<(), String> {
        let words: Vec<&str> = command.split_whitespace().collect();
        let verb = words.first().copied().unwrap_or_default();
        let mut help = self.of(verb).ok_or_else(|| format!("no verb `slingseal {verb}`"))?;
        if help.contains("\nCommands:") {
            let under = words.get(1).copied().unwrap_or_default();
            let verbs = format!("{verb} {under}");
            // A verb may take a file as well as verbs under it: what has a dot or capitals is no verb.
            let file = help.lines().any(|line| line.starts_with("Usage: ") && line.contains("] <FILE"));
            let named =
                !under.is_empty() && under.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'-');
            match self.of(&verbs) {
                // What is no verb under it would be taken for the file.
                Some(found) if named && found.contains(&format!("Usage: slingseal {verbs}")) => help = found,
                _ if file && !named => {}
                _ => return Err(format!("no verb `slingseal {verbs}`")),
            }
        }
        for flag in words.iter().filter(|word| word.starts_with("--")) {
            let flag = flag.split('=').next().unwrap_or_default();
            let known =
                help.split(|c: char| !(c.is_ascii_alphanumeric() || c == '-')).any(|word| word == flag);
            if !known {
                return Err(format!("`slingseal {command}`: no flag {flag}"));
            }
        }
        Ok(())
    }
}

/// Every document of the repository; what is built or fetched is none.
fn documents(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() && !name.starts_with('.') && name != "target" && name != "node_modules" {
            found.extend(documents(&path));
        } else if path.extension().is_some_and(|ending| ending == "md") {
            found.push(path);
        }
    }
    found.sort();
    found
}
