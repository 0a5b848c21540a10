//! Folders whose files stand in an order: each may speak to those that stand before it, and to nothing of its folder besides.
//! The compiler would take any ring of them.

use std::path::Path;

use crate::sources::{mentions, root, rust_files};

/// A folder, its path in its crate, and its modules from the ground up.
type Stairs = (&'static str, &'static str, &'static [&'static str]);

/// Why so: bindings/desk/decisions/0011-the-page-s-rooms-are-a-staircase.md
const STAIRS: &[Stairs] = &[
    (
        "bindings/desk/src/serve",
        "serve",
        &[
            // what comes and goes on the wire, and who may ask
            "patience", "guard", "tls", "http", "out", "reply", "ask", "forms",
            // what the desk keeps, and the desk
            "act", "intake", "live", "work", "desk", // what is shown
            "page", "frame", // what is asked, and the server that is asked
            "rig", "acts", "routes", "server", "strange",
        ],
    ),
    (
        "bindings/desk/src/serve/page",
        "serve::page",
        &[
            "chart",
            "order",
            "frame",
            "stretch",
            "zones",
            "board",
            "records",
            "rig",
            "weighing",
            "rigging",
            "acts",
            "class",
            "close",
            "deficiencies",
            "equipment",
            "export",
            "listed",
            "load",
            "manifest",
            "people",
            "plan",
            "procedures",
            "receive",
            "weeks",
            "work",
        ],
    ),
    (
        "bindings/desk/src/serve/routes",
        "serve::routes",
        &["find", "closing", "export", "listed", "plan", "piece", "look", "post"],
    ),
];

/// What a source, without its tests, says that its place forbids: the line, and why.
fn wrong((_, path, modules): Stairs, place: usize, deep: bool, source: &str) -> Vec<(usize, String)> {
    let source = source.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
    let own = format!("{path}::");
    let whole = mentions(source, "crate");
    let whole = whole.iter().filter_map(|(said, line)| Some((said.strip_prefix(&own)?.to_owned(), *line)));
    // In a folder within, `super` is another room's.
    let near = if deep { Vec::new() } else { mentions(source, "super") };
    let mut wrong = Vec::new();
    for (said, line) in whole.chain(near) {
        let head = said.split("::").next().unwrap_or_default();
        match modules.iter().position(|known| *known == head) {
            Some(other) if other <= place => {}
            Some(_) => wrong.push((line, format!("speaks to {head}, which stands above"))),
            None => wrong.push((line, format!("speaks to its folder's head for {head}"))),
        }
    }
    wrong
}

#[test]
fn each_stands_on_those_before_it() {
    let mut found = Vec::new();
    for stairs @ (folder, _, modules) in STAIRS {
        let src = root().join(folder);
        let mut seen = Vec::new();
        for file in rust_files(&src) {
            let inside = file.strip_prefix(&src).expect("the file was found below its folder");
            let module = head_of(inside);
            if module == "mod" {
                continue;
            }
            let Some(place) = modules.iter().position(|known| *known == module) else {
                panic!("{module} is new in {folder}: say here on what it stands");
            };
            let source = std::fs::read_to_string(&file).expect("our sources can be read");
            let deep = inside.components().count() > 1;
            let lines = wrong(*stairs, place, deep, &source).into_iter();
            found.extend(lines.map(|(line, why)| format!("{}:{line}: {module} {why}", file.display())));
            seen.push(module);
        }
        assert!(
            modules.iter().all(|known| seen.iter().any(|module| module == known)),
            "{folder}: a module is gone"
        );
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

fn head_of(inside: &Path) -> String {
    let head = inside.iter().next().expect("a file has a name").to_string_lossy();
    head.trim_end_matches(".rs").to_owned()
}

#[test]
fn a_step_back_up_is_found() {
    let stairs: Stairs = ("folder", "serve", &["low", "high"]);
    let source = "use super::low::A;\nuse crate::serve::high::B;\nfn f() { super::SIZE }\n#[cfg(test)]\nmod tests {\n use super::C; }";
    let lines = |place, deep| {
        wrong(stairs, place, deep, source).into_iter().map(|(line, _)| line).collect::<Vec<_>>()
    };
    assert_eq!(lines(0, false), [2, 3], "a module above, and the head's own");
    assert_eq!(lines(1, false), [3]);
    assert_eq!(lines(0, true), [2], "in a folder within, super is another's");
}
