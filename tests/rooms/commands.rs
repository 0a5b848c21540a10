//! Every command that a document lets its reader type is there: packages, targets, features and filters of cargo, goals and classes
//! of Maven, scripts and what they read. The program's own verbs are held by its own tests, against what its command line is made
//! of (`bindings/desk/src/cli/tests.rs`).

use std::path::{Path, PathBuf};

use slingseal_tests::command_lines::{Piece, documents, pieces};

use crate::cargo::Workspace;
use crate::maven;
use crate::sources::{files_of, root};

/// How a path of ours begins.
const OURS: &[&str] = &[".ci/", "core/", "bindings/", "android-shell/", "tests/"];

/// Programs of others, whose arguments nobody here can hold.
const OTHERS: &[&str] = &["psql", "rustup"];

/// Variables that a library reads: nothing of ours names them.
const READ_BY_LIBRARIES: &[&str] = &["PROPTEST_CASES"];

/// Folders whose files are no sources.
const NO_SOURCES: &[&str] = &["target", "corpus", "node_modules"];

#[test]
fn every_command_in_every_document_can_be_typed() {
    let house = House::new();
    let (mut wrong, mut asked) = (Vec::new(), 0);
    for document in documents(&root()) {
        let text = std::fs::read_to_string(&document).expect("a document is text");
        let folder = document.parent().expect("a document lies in a folder");
        let (held, faults) = house.hold(folder, &pieces(&text));
        asked += held;
        wrong.extend(faults.into_iter().map(|(line, what)| format!("{}:{line}: {what}", document.display())));
    }
    assert!(asked > 100, "only {asked} commands were found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_cannot_be_typed_is_seen() {
    let house = House::new();
    let faults = |text: &str| {
        let (asked, faults) = house.hold(&root().join("tests"), &pieces(text));
        assert!(asked > 0, "{text:?} is no command");
        faults
    };
    for right in [
        "    cargo test -p slingseal-tests --test rooms   # a comment",
        "    cargo test -p slingseal-judgement laws && tests/all",
        "    cargo test -p slingseal-tests --test journeys -- merge_laws damaged_bundle --nocapture",
        "    cargo run --release -p slingseal-tests --bin read_bench -- test fair 16",
        "    mvn -f android-shell -Papk spotless:apply package -Dtest=HookTest",
        "    tests/fuzz/run SECONDS [TARGET...]",
        "by hand `fuzz/run SECONDS`, `FACADE=1`, `--test disk --test homes` or `--features parquet`",
        "    QUICK=1 tests/all\n    slingseal key show | psql x",
    ] {
        assert_eq!(faults(right), [], "{right}");
    }
    for wrong in [
        "    cargo test -p slingseal-test",
        "    cargo test -p slingseal-tests --test room",
        "    cargo test -p slingseal-judgement lawz",
        "    cargo test -p slingseal-tests --test journeys merge_laws damaged_bundle",
        "    cargo test -p slingseal-tests --test journeys -- merge_laws damaged_bundel",
        "    cargo test -p slingseal-tests --test journeys -- --nocaptive",
        "    cargo test -p slingseal-walk --realease",
        "    cargo tset -p slingseal-walk",
        "    cargo build --features parket",
        "    cargo build --profile packed",
        "    cargo run -p slingseal --example page_sped -- HOME PROGRAM...",
        "    cargo run --release -p slingseal-tests --bin read_bench -- tset",
        "    cargo install --path bindings/desks",
        "    cargo deny --config .deni.toml check",
        "    cargo bench -p slingseal-tests --bench words",
        "    FACADES=1 cargo test -p slingseal-tests --test rooms",
        "    mvn -f android-shel test",
        "    mvn -f android-shell spottless:apply",
        "    mvn -f android-shell tset",
        "    mvn -f android-shell test -Dtest=HokTest",
        "    mvn -f android-shell -Papkk package",
        "    tests/web/ran",
        "    tests/stages.sh",
        "    tests/bench/record static",
        "    QUIK=1 tests/all",
        "    tests/all\n    nmp install",
        "say `FACADES=1`",
        "say `--test disc`",
        "say `--features parket`",
        "say `cargo test --worksapce`",
        "say `tests/bench/record static`",
    ] {
        assert_ne!(faults(wrong), [], "{wrong}");
    }
    assert_eq!(
        house.hold(&root(), &pieces("    a picture --> of boxes\n\nor `core/app` or `cargo`")),
        (0, vec![])
    );
}

/// A line of a document and what is wrong with it.
type Faults = Vec<(usize, String)>;

struct House {
    workspace: Workspace,
    /// What may read a variable, with its text.
    sources: Vec<(PathBuf, String)>,
}

/// What a piece is.
enum What<'a> {
    Nothing,
    /// Held elsewhere, or another's program.
    Held,
    Script(PathBuf, &'a [String]),
    /// A path of ours that is no program.
    NoScript(&'a str),
    Cargo(&'a [String]),
    Maven(&'a [String]),
    /// Variables without a command.
    Variables,
}

impl House {
    fn new() -> Self {
        let root = root();
        let folders = ["core", "bindings", "android-shell/src", "android-shell/scripts", "tests", ".ci"];
        let files = folders.iter().flat_map(|folder| {
            let folder = root.join(folder);
            ["rs", "kt", "sh", "py", "mjs", ""].into_iter().flat_map(move |ending| files_of(&folder, ending))
        });
        let files = files.chain([root.join("android-shell/pom.xml")]);
        let sources = files
            .filter(|path| {
                !path.components().any(|part| NO_SOURCES.iter().any(|name| part.as_os_str() == *name))
            })
            .filter_map(|path| Some((path.clone(), std::fs::read_to_string(path).ok()?)))
            .collect();
        House { workspace: Workspace::read(&root), sources }
    }

    /// How many pieces are commands, and what is wrong with them.
    fn hold(&self, folder: &Path, pieces: &[Piece]) -> (usize, Faults) {
        let (mut asked, mut faults) = (0, Vec::new());
        // Where one line of a block is a command, every line is.
        let typed: Vec<Option<usize>> = pieces
            .iter()
            .filter(|piece| piece.block.is_some() && !matches!(what(folder, piece), What::Nothing))
            .map(|piece| piece.block)
            .collect();
        for piece in pieces {
            let (variables, words) = piece.parted();
            let told = match what(folder, piece) {
                What::Nothing if piece.block.is_some() && typed.contains(&piece.block) => {
                    Err(format!("nobody knows the program {}", piece.words[0]))
                }
                What::Nothing => continue,
                What::Held => Ok(()),
                What::NoScript(path) => Err(format!("{path} is no program")),
                What::Script(path, arguments) => script(&path, &variables, arguments),
                What::Cargo(arguments) => self.workspace.check(arguments).and_then(|read_by| {
                    variables.iter().try_for_each(|name| self.is_read(name, Some(&read_by)))
                }),
                What::Maven(arguments) => maven::check(&root(), arguments)
                    .and_then(|()| variables.iter().try_for_each(|name| self.is_read(name, None))),
                What::Variables => variables.iter().try_for_each(|name| self.is_read(name, None)),
            };
            asked += 1;
            if let Err(what) = told {
                faults.push((piece.line, format!("`{} {}`: {what}", variables.join(" "), words.join(" "))));
            }
        }
        (asked, faults)
    }

    /// Whether a source names a variable as one that it reads; of some folders alone where it is known who should.
    fn is_read(&self, name: &str, by: Option<&[PathBuf]>) -> Result<(), String> {
        let asked = |path: &Path| by.is_none_or(|by| by.iter().any(|folder| path.starts_with(folder)));
        let reads = |text: &str| {
            text.contains(&format!("\"{name}\""))
                || text.contains(&format!("env.{name}"))
                || expands(text, name)
        };
        let found = READ_BY_LIBRARIES.contains(&name)
            || self.sources.iter().any(|(path, text)| asked(path) && reads(text));
        if found { Ok(()) } else { Err(format!("nothing reads {name}")) }
    }
}

fn what<'a>(folder: &Path, piece: &'a Piece) -> What<'a> {
    let (variables, words) = piece.parted();
    let Some((program, arguments)) = words.split_first() else { return What::Variables };
    let block = piece.block.is_some();
    match program.as_str() {
        // Named as a tool and not as a command.
        "slingseal" | "cargo" | "mvn" | "--test" if arguments.is_empty() && !block => What::Nothing,
        "slingseal" => What::Held,
        "cargo" => What::Cargo(arguments),
        "mvn" => What::Maven(arguments),
        other if OTHERS.contains(&other) => What::Held,
        // Behind `cargo test` or `cargo build`, which the sentence names.
        "--test" | "--features" | "--no-default-features" if !block => What::Cargo(words),
        path if path.contains('/') => {
            let script = [root().join(path), folder.join(path)].into_iter().find(|path| is_program(path));
            let named = OURS.iter().any(|head| path.starts_with(head)) && !path.ends_with('/');
            match script {
                Some(script) => What::Script(script, arguments),
                None if named && (block || !arguments.is_empty() || !variables.is_empty()) => {
                    What::NoScript(path)
                }
                None => What::Nothing,
            }
        }
        _ => What::Nothing,
    }
}

fn is_program(path: &Path) -> bool {
    #[cfg(unix)]
    let executable = |found: std::fs::Metadata| {
        use std::os::unix::fs::PermissionsExt as _;
        found.is_file() && found.permissions().mode() & 0o111 != 0
    };
    #[cfg(not(unix))]
    let executable = |found: std::fs::Metadata| found.is_file();
    std::fs::metadata(path).is_ok_and(executable)
}

/// Whether a script takes what it is given: each variable is expanded in it, each word is one that it names.
fn script(path: &Path, variables: &[&str], arguments: &[String]) -> Result<(), String> {
    let text = std::fs::read_to_string(path).map_err(|error| error.to_string())?;
    let typed = text.lines().filter(|line| !line.trim_start().starts_with('#'));
    let text: String = typed.flat_map(|line| [line, "\n"]).collect();
    if let Some(name) = variables.iter().find(|name| !expands(&text, name)) {
        return Err(format!("the script does not read {name}"));
    }
    let takes = ["$1", "${1", "$@", "${@", "$#"].iter().any(|mark| text.contains(mark));
    if !arguments.is_empty() && !takes {
        return Err("the script takes nothing".to_owned());
    }
    let literal = |word: &&String| word.bytes().all(|byte| byte.is_ascii_lowercase());
    match arguments.iter().filter(literal).find(|word| !holds(&text, word)) {
        Some(word) => Err(format!("the script knows no {word}")),
        None => Ok(()),
    }
}

/// Whether a shell's script expands a variable: `$NAME` or `${NAME…}`.
fn expands(text: &str, name: &str) -> bool {
    text.contains(&format!("${{{name}")) || holds(text, &format!("${name}"))
}

/// Whether a text has a word, as a whole.
fn holds(text: &str, word: &str) -> bool {
    let part = |letter: char| letter.is_alphanumeric() || letter == '_';
    text.match_indices(word)
        .any(|(at, _)| !text[..at].ends_with(part) && !text[at + word.len()..].starts_with(part))
}
