//! Which room may mention which. A change here is a change of the design: write down why in DEVELOPERS.md.

use crate::sources::{mentions, root, rust_files};

/// Each room of core with the rooms that it may speak to; `words` goes without saying.
const MAY_MENTION: &[(&str, &[&str])] = &[
    ("words", &[]),
    ("envelope", &[]),
    ("rigging", &[]),
    ("procedure", &[]),
    ("qr", &[]),
    ("store", &[]),
    ("tag", &["envelope", "rigging"]),
    ("trust", &["envelope"]),
    ("walk", &["tag", "rigging", "procedure"]),
    ("exam", &["envelope", "procedure", "walk"]),
    ("seal", &["envelope", "trust"]),
    ("judgement", &["envelope", "tag", "trust", "seal"]),
    ("sync", &["envelope", "seal", "trust"]),
    ("report", &["seal"]),
    (
        "app",
        &[
            "envelope",
            "rigging",
            "procedure",
            "qr",
            "store",
            "tag",
            "trust",
            "walk",
            "exam",
            "seal",
            "judgement",
            "sync",
            "report",
        ],
    ),
];

fn allowed(room: &str) -> &'static [&'static str] {
    MAY_MENTION.iter().find(|(name, _)| *name == room).map(|(_, rooms)| *rooms).unwrap_or_else(|| {
        panic!("{room} is a new room: add it to MAY_MENTION and say in DEVELOPERS.md what it is for")
    })
}

#[test]
fn no_room_of_core_mentions_a_room_above() {
    let src = root().join("core/src");
    let mut wrong = Vec::new();
    let mut read = 0;
    for file in rust_files(&src) {
        let inside = file.strip_prefix(&src).expect("the file was found below src");
        let mut parts = inside.components().map(|part| part.as_os_str().to_string_lossy().into_owned());
        let room = parts.next().expect("a file has a name");
        if room == "lib.rs" {
            continue;
        }
        let room = room.trim_end_matches(".rs").to_owned();
        let depth = inside.components().count();
        let source = std::fs::read_to_string(&file).expect("our sources can be read");
        read += 1;
        for (path, line) in mentions(&source, "crate") {
            let other = path.split("::").next().expect("a path has a head");
            if other != room && other != "words" && !allowed(&room).contains(&other) {
                wrong.push(format!("{}:{line}: {room} mentions {other}", file.display()));
            }
        }
        for (path, line) in mentions(&source, "super") {
            // `mentions` also answers for the second `super` of `super::super::x`: the whole path comes first.
            let ups = 1 + path.split("::").take_while(|part| *part == "super").count();
            let module_depth = if inside.ends_with("mod.rs") { depth - 1 } else { depth };
            let in_test_module = 1;
            if ups >= module_depth + in_test_module {
                wrong.push(format!("{}:{line}: super leaves the room {room}", file.display()));
            }
        }
    }
    assert!(read > 5, "the sources of core were not found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn bindings_speak_to_the_facade_alone() {
    let mut wrong = Vec::new();
    for file in rust_files(&root().join("bindings")) {
        let source = std::fs::read_to_string(&file).expect("our sources can be read");
        for (path, line) in mentions(&source, "slingseal_core") {
            if path.split("::").next() != Some("app") {
                wrong.push(format!("{}:{line}: mentions slingseal_core::{path}", file.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Screens, the network and the foreign-function layer stay out of core, so that core can be judged alone.
#[test]
fn core_has_no_screen_and_no_network() {
    let manifest = std::fs::read_to_string(root().join("core/Cargo.toml")).expect("core has a manifest");
    for banned in ["uniffi", "tokio", "axum", "hyper", "crossterm", "ratatui", "reqwest", "anyhow"] {
        let named = manifest.lines().any(|line| line.split(['=', '.']).next().map(str::trim) == Some(banned));
        assert!(!named, "core depends on {banned}");
    }
}
