//! Every command of ours that a document lets its reader type is one that clap takes, by its own definition.

use std::path::Path;

use clap::Command;
use clap::error::ErrorKind;

use super::command;

#[path = "../../../../tests/support/command_lines.rs"]
mod command_lines;

use command_lines::{Piece, documents, pieces};

#[test]
fn every_command_in_every_document_is_one() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let verbs = command();
    let (mut wrong, mut asked) = (Vec::new(), 0);
    for path in documents(&root) {
        let text = std::fs::read_to_string(&path).unwrap();
        for piece in pieces(&text) {
            let told = match ours(&verbs, &piece) {
                Some(Ours::Flag(flag)) => known_anywhere(&verbs, flag),
                Some(Ours::Command(words)) => check(&verbs, words, piece.block.is_some()),
                None => continue,
            };
            asked += 1;
            if let Err(what) = told {
                wrong.push(format!("{}:{}: {what}", path.display(), piece.line));
            }
        }
    }
    assert!(asked > 90, "only {asked} commands were found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What a piece says of our program.
enum Ours<'a> {
    /// Behind the program's name.
    Command(&'a [String]),
    /// A flag that stands alone.
    Flag(&'a str),
}

/// Whether a piece is a command of ours: by the program's name, by cargo, or in prose by a verb with something behind it that
/// only a command has, or by a flag alone that is no tool's.
fn ours<'a>(verbs: &Command, piece: &'a Piece) -> Option<Ours<'a>> {
    let (_, words) = piece.parted();
    let text: Vec<&str> = words.iter().map(String::as_str).collect();
    match text.as_slice() {
        // What a database is called, and how one line stands for every verb.
        ["slingseal"] => None,
        ["slingseal", ..] => words.get(1..).map(Ours::Command),
        ["cargo", "run", behind @ ..] if !behind.contains(&"-p") => {
            let at = behind.iter().position(|word| *word == "--")?;
            words.get(at + 3..).filter(|rest| !rest.is_empty()).map(Ours::Command)
        }
        [flag] if piece.block.is_none() && flag.starts_with("--") => {
            (!TOOLS.contains(flag)).then_some(Ours::Flag(flag))
        }
        [flag, _] if piece.block.is_none() && flag.starts_with("--") => {
            (!TOOLS.contains(flag)).then_some(Ours::Flag(flag))
        }
        [verb, rest @ ..] if piece.block.is_none() => {
            let verb = verbs.find_subcommand(verb)?;
            let typed = |word: &&str| word.starts_with("--") || verb.find_subcommand(word).is_some();
            rest.iter().any(typed).then_some(Ours::Command(words))
        }
        _ => None,
    }
}

/// Flags of other programs that documents name alone; `tests/rooms` holds what stands behind them.
const TOOLS: &[&str] = &["--features", "--no-default-features", "--test"];

fn known_anywhere(verb: &Command, flag: &str) -> Result<(), String> {
    let found = has(verb, flag) || verb.get_subcommands().any(|under| known_anywhere(under, flag).is_ok());
    if found { Ok(()) } else { Err(format!("no verb has {flag}")) }
}

fn has(verb: &Command, flag: &str) -> bool {
    let name = flag.trim_start_matches("--").split('=').next();
    verb.get_arguments().any(|argument| argument.get_long() == name)
}

/// Whether clap takes a command. In a block it is one to type as it stands, but for placeholders in capitals; in prose what is
/// wanted besides may be left out.
fn check(verbs: &Command, words: &[String], whole: bool) -> Result<(), String> {
    let shown = format!("`slingseal {}`", words.join(" "));
    // `[--json]`, `FILE...` and `[--links LEG=N]…` say how often.
    let bare = |word: &String| word.trim_matches(['[', ']', '…', ',']).trim_end_matches("...").to_owned();
    let words: Vec<String> = words.iter().map(bare).filter(|word| !word.is_empty()).collect();
    let (mut verb, mut path) = (verbs, true);
    for word in &words {
        if word.starts_with("--") {
            path = false;
            if !has(verb, word) {
                return Err(format!("{shown}: `{}` has no {word}", verb.get_name()));
            }
        } else if path && let Some(under) = verb.find_subcommand(word) {
            verb = under;
        } else {
            path = false;
        }
    }
    let typed = std::iter::once("slingseal").chain(words.iter().map(String::as_str));
    let Err(error) = verbs.clone().try_get_matches_from(typed) else { return Ok(()) };
    match error.kind() {
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => Ok(()),
        ErrorKind::MissingRequiredArgument
        | ErrorKind::MissingSubcommand
        | ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand
            if !whole =>
        {
            Ok(())
        }
        ErrorKind::InvalidValue | ErrorKind::ValueValidation if holds_a_placeholder(&words) => Ok(()),
        _ => Err(format!("{shown}: {}", error.to_string().lines().next().unwrap_or_default())),
    }
}

/// A word all in capitals: what the reader puts another for.
fn holds_a_placeholder(words: &[String]) -> bool {
    words.iter().any(|word| !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_uppercase()))
}

#[test]
fn what_is_no_command_is_seen() {
    let verbs = command();
    let told = |text: &str| {
        let mut asked = pieces(text).into_iter().filter_map(|piece| {
            Some(match ours(&verbs, &piece)? {
                Ours::Flag(flag) => known_anywhere(&verbs, flag),
                Ours::Command(words) => check(&verbs, words, piece.block.is_some()),
            })
        });
        let first = asked.next().unwrap_or_else(|| panic!("{text:?} is no command"));
        assert!(asked.next().is_none());
        first
    };
    for right in [
        "    slingseal tag write plan.toml --out tags/   # the planner",
        "    cargo run --release -- rigging weigh FILE.toml",
        "    slingseal serve --port PORT",
        "say `slingseal tag write`, whatever of",
        "say `slingseal check-page --page a.html --out\nhook.html`",
        "say `serve --tls`",
        "say `--open-to-network ADDRESS`",
        "    slingseal rigging FILE.toml [--json] [--links LEG=N]…",
    ] {
        assert_eq!(told(right), Ok(()), "{right}");
    }
    for wrong in [
        "    slingseal tag writ plan.toml --out tags/",
        "    slingseal tags write plan.toml",
        "    slingseal tag write plan.toml --onto tags/",
        "    slingseal tag write --out tags/",
        "    slingseal serve --port eight",
        "    slingseal void KM-014 --cause",
        "    slingseal backup --out a --out b",
        "    slingseal key show KM-014",
        "    cargo run -- rigging flght FILE.toml --json",
        "say `slingseal tag writ X`",
        "say `slingseal check-page --page a.html --outto\nhook.html`",
        "say `serve --tsl`",
        "say `procedure check --out`",
        "say `--open-to-the-world ADDRESS`",
    ] {
        assert!(told(wrong).is_err(), "{wrong}");
    }
    assert!(pieces("`slingseal` and `slingseal-qr`").iter().all(|piece| ours(&verbs, piece).is_none()));
}
