//! The handheld's Kotlin is a staircase too: what draws and what senses know no page, what a place is given knows neither page nor
//! navigator, and no ring of files takes each other's types.

use std::collections::{BTreeMap, BTreeSet};

use crate::sources::{files_of, root};

/// Where the shell's own sources lie.
const SHELL: &str = "android-shell/src/main/kotlin/slingseal/handheld";

/// A folder, and what of the shell it may import, by how that begins.
const MAY: &[(&str, &[&str])] = &[
    ("look", &["look.", "sense.", "NewerAndroid", "R"]),
    ("sense", &["sense.", "look.", "Core", "NewerAndroid", "R"]),
    ("places", &["places.", "look.", "R"]),
];

/// What a Kotlin source declares at its top, and the code that is left without imports, comments and texts.
struct Source {
    package: String,
    imports: BTreeSet<String>,
    types: Vec<String>,
    words: BTreeSet<String>,
}

impl Source {
    fn read(text: &str) -> Self {
        let bare = without_comments_and_texts(text);
        let behind = |line: &str, head: &str| line.strip_prefix(head).map(|rest| rest.trim().to_owned());
        let package = bare.lines().find_map(|line| behind(line, "package ")).unwrap_or_default();
        let imports = bare.lines().filter_map(|line| behind(line, "import ")).collect();
        let code = bare.lines().filter(|line| !line.starts_with("import ") && !line.starts_with("package "));
        let (mut types, mut words) = (Vec::new(), BTreeSet::new());
        for line in code {
            // What begins at the margin is declared at the top.
            let mut parts =
                line.split(|c: char| !(c.is_alphanumeric() || c == '_')).filter(|part| !part.is_empty());
            if line.starts_with(char::is_alphabetic) && !line.starts_with("private") {
                let kind = |part: &&str| matches!(*part, "class" | "object" | "interface");
                if parts.by_ref().any(|part| kind(&part)) {
                    types.extend(parts.next().map(str::to_owned));
                }
            }
            words.extend(
                line.split(|c: char| !(c.is_alphanumeric() || c == '_'))
                    .filter(|word| word.starts_with(char::is_uppercase))
                    .map(str::to_owned),
            );
        }
        Source { package, imports, types, words }
    }
}

fn without_comments_and_texts(text: &str) -> String {
    let (mut bare, mut rest) = (String::new(), text);
    while let Some(letter) = rest.chars().next() {
        let skipped = if rest.starts_with("/*") {
            rest.find("*/").map_or(rest.len(), |end| end + 2)
        } else if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if letter == '"' {
            let mut escaped = false;
            let end = rest.char_indices().skip(1).find(|(_, c)| {
                let ends = !escaped && (*c == '"' || *c == '\n');
                escaped = !escaped && *c == '\\';
                ends
            });
            end.map_or(rest.len(), |(at, _)| at + 1)
        } else {
            bare.push(letter);
            letter.len_utf8()
        };
        rest = &rest[skipped..];
    }
    bare
}

fn sources() -> BTreeMap<String, Source> {
    let shell = root().join(SHELL);
    let name = |path: &std::path::Path| {
        path.strip_prefix(&shell).expect("below the shell").to_string_lossy().replace('\\', "/")
    };
    let read = |path: &std::path::PathBuf| std::fs::read_to_string(path).expect("a source can be read");
    files_of(&shell, "kt").iter().map(|path| (name(path), Source::read(&read(path)))).collect()
}

/// Which files a file takes types of: those of its own package, and those that it imports.
fn arrows(sources: &BTreeMap<String, Source>) -> BTreeMap<&str, BTreeSet<&str>> {
    let mut arrows = BTreeMap::new();
    for (name, source) in sources {
        let taken = sources.iter().filter(|(other, its)| {
            *other != name
                && its.types.iter().any(|one| {
                    source.words.contains(one)
                        && (its.package == source.package
                            || source.imports.contains(&format!("{}.{one}", its.package)))
                })
        });
        arrows.insert(name.as_str(), taken.map(|(other, _)| other.as_str()).collect());
    }
    arrows
}

/// The files from which a way leads back to themselves.
fn rings(arrows: &BTreeMap<&str, BTreeSet<&str>>) -> Vec<String> {
    let reaches = |from: &str| {
        let (mut seen, mut open) = (BTreeSet::new(), vec![from]);
        while let Some(at) = open.pop() {
            for next in arrows.get(at).into_iter().flatten() {
                if seen.insert(*next) {
                    open.push(next);
                }
            }
        }
        seen
    };
    arrows.keys().filter(|from| reaches(from).contains(*from)).map(|from| (*from).to_owned()).collect()
}

#[test]
fn no_files_of_the_handheld_take_each_others_types() {
    let sources = sources();
    assert!(sources.len() > 80, "only {} sources were found", sources.len());
    let arrows = arrows(&sources);
    assert!(arrows.values().map(BTreeSet::len).sum::<usize>() > 300, "the arrows were not found");
    assert_eq!(rings(&arrows), Vec::<String>::new(), "these lie in a ring");
}

#[test]
fn each_folder_of_the_handheld_imports_what_it_may() {
    let mut wrong = Vec::new();
    for (name, source) in sources() {
        let Some((_, may)) = MAY.iter().find(|(folder, _)| name.starts_with(&format!("{folder}/"))) else {
            continue;
        };
        for import in source.imports.iter().filter_map(|import| import.strip_prefix("slingseal.handheld.")) {
            if !may.iter().any(|head| import == *head || head.ends_with('.') && import.starts_with(head)) {
                wrong.push(format!("{name} imports {import}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_ring_is_found() {
    let source = |text: &str| Source::read(text);
    let sources = BTreeMap::from([
        ("A.kt".to_owned(), source("package p\n// C\nclass A(val b: B) { val s = \"C\" }")),
        ("B.kt".to_owned(), source("package p\nimport q.C\n\n/** A */\ninternal data class B(val c: C)")),
        ("C.kt".to_owned(), source("package q\nimport p.A\n\nobject C { val a: A? = null }")),
        ("D.kt".to_owned(), source("package q\nclass D(val a: A, val c: C)")),
    ]);
    assert_eq!(rings(&arrows(&sources)), ["A.kt", "B.kt", "C.kt"]);
}
