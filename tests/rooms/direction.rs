//! What the compiler cannot see of the direction: modules inside a crate, and what no manifest may ask for.
//! Between crates the manifests say who may speak to whom, and the compiler keeps it.

use std::collections::BTreeSet;
use std::process::Command;

use crate::sources::{mentions, root, rust_files};

/// The crates of several modules, and for each module the modules of that crate that it may speak to.
type Modules = &'static [(&'static str, &'static [&'static str])];
const INSIDE: &[(&str, Modules)] = &[
    (
        "message",
        &[
            ("envelope", &[]),
            ("closing", &["envelope"]),
            ("movement", &["envelope"]),
            ("tag", &["envelope", "trust"]),
            ("trust", &["envelope"]),
            ("seal", &["envelope", "trust"]),
        ],
    ),
    (
        "walk",
        &[
            ("procedure", &[]),
            ("drawing", &["procedure"]),
            ("walk", &["procedure"]),
            ("exam", &["procedure", "walk"]),
        ],
    ),
    ("account", &[("report", &[]), ("sync", &[]), ("audit", &["sync"])]),
];

/// Screens, the network, async, the foreign-function layer, clocks and randomness of the machine: core has none of them.
const BANNED_IN_CORE: &[&str] = &[
    "anyhow",
    "async-std",
    "axum",
    "crossterm",
    "getrandom",
    "hyper",
    "rand",
    "ratatui",
    "reqwest",
    "rusqlite",
    "tokio",
    "uniffi",
];

/// Where the ban is lifted, and for what.
const LIFTED: &[(&str, &str)] = &[
    // the one crate that keeps files
    ("store", "rusqlite"),
    // optional, asked for by the store alone: see `a_verifier_carries_no_database_and_no_randomness`
    ("journal", "rusqlite"),
    ("words", "rusqlite"),
];

/// What a stranger's program must trust to come to a verdict.
const VERIFIER: &[&str] = &[
    "slingseal-catalogue",
    "slingseal-words",
    "slingseal-qr",
    "slingseal-rigging",
    "slingseal-message",
    "slingseal-judgement",
];

/// What would tie a verifier to a machine: a database, an allocator of randomness, a runtime.
const NOT_IN_A_VERIFIER: &[&str] =
    &["getrandom", "libsqlite3-sys", "rand", "rand_core", "rusqlite", "tokio", "uniffi"];

#[test]
fn no_module_mentions_a_module_above() {
    let mut wrong = Vec::new();
    for (name, modules) in INSIDE {
        let src = root().join("core").join(name).join("src");
        let mut seen = BTreeSet::new();
        for file in rust_files(&src) {
            let inside = file.strip_prefix(&src).expect("the file was found below src");
            let head = inside.iter().next().expect("a file has a name").to_string_lossy();
            let module = head.trim_end_matches(".rs");
            if module == "lib" {
                continue;
            }
            let Some((module, allowed)) = modules.iter().find(|(known, _)| *known == module) else {
                panic!("{module} is a new module of {name}: say here what it may speak to");
            };
            seen.insert(*module);
            let source = std::fs::read_to_string(&file).expect("our sources can be read");
            for (path, line) in mentions(&source, "crate") {
                let other = path.split("::").next().expect("a path has a head");
                if other != *module && !allowed.contains(&other) {
                    wrong.push(format!("{}:{line}: {module} mentions {other}", file.display()));
                }
            }
        }
        assert_eq!(seen.len(), modules.len(), "core/{name}: a module that is named here is gone");
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn bindings_speak_to_the_facade_alone() {
    for (binding, allowed) in [
        // what a phone and a desk print is one paper
        ("android", ["slingseal-app", "slingseal-paper"].as_slice()),
        ("exchange", &["slingseal-app"]),
        ("paper", &["slingseal-app"]),
        ("parquet", &["slingseal-app"]),
        // the desk's verbs push, pull and export
        ("desk", &["slingseal-app", "slingseal-exchange", "slingseal-paper", "slingseal-parquet"]),
    ] {
        let ours: Vec<String> = dependencies(&format!("bindings/{binding}"))
            .into_iter()
            .filter(|name| name.starts_with("slingseal"))
            .collect();
        assert_eq!(ours, allowed, "bindings/{binding}");
    }
}

/// The home is SQLite; a server is one binding's business, and the desk can be built without it.
#[test]
fn nothing_but_the_exchange_knows_of_postgresql() {
    let mut told = Vec::new();
    for folder in ["core", "bindings"] {
        for entry in std::fs::read_dir(root().join(folder)).expect("it is a folder") {
            let name = entry.expect("a folder entry can be read").file_name().to_string_lossy().into_owned();
            let asked = dependencies(&format!("{folder}/{name}"));
            if asked.iter().any(|name| name.contains("postgres")) {
                told.push(format!("{folder}/{name}"));
            }
        }
    }
    assert_eq!(told, ["bindings/exchange"]);
    let manifest = std::fs::read_to_string(root().join("bindings/desk/Cargo.toml")).expect("it can be read");
    assert!(manifest.contains("slingseal-exchange = { workspace = true, optional = true }"));
}

/// The page for strangers' phones stands on what a verifier must trust, and on nothing that a home needs.
#[test]
fn the_web_speaks_to_the_verifier_alone() {
    let ours: Vec<String> = dependencies("bindings/web")
        .into_iter()
        .filter(|name| name.starts_with("slingseal") && !VERIFIER.contains(&name.as_str()))
        .collect();
    assert_eq!(ours, [] as [&str; 0], "bindings/web");
}

#[test]
fn core_has_no_screen_no_network_and_no_randomness() {
    let crates = std::fs::read_dir(root().join("core")).expect("core is a folder");
    let mut read = 0;
    for entry in crates {
        let name = entry.expect("a folder entry can be read").file_name().to_string_lossy().into_owned();
        for dependency in dependencies(&format!("core/{name}")) {
            let lifted = LIFTED.contains(&(&name, &dependency));
            assert!(lifted || !BANNED_IN_CORE.contains(&&*dependency), "core/{name} depends on {dependency}");
        }
        read += 1;
    }
    assert!(read > 5, "the crates of core were not found");
}

/// Asks cargo, for features decide what a crate carries.
#[test]
fn a_verifier_carries_no_database_and_no_randomness() {
    for room in VERIFIER.iter().chain(&["slingseal-web"]) {
        let told = Command::new(env!("CARGO"))
            .args([
                "tree",
                "--locked",
                "--offline",
                "--edges",
                "normal",
                "--prefix",
                "none",
                "--package",
                room,
            ])
            .current_dir(root())
            .output()
            .expect("cargo runs");
        assert!(told.status.success(), "{}", String::from_utf8_lossy(&told.stderr));
        let text = String::from_utf8(told.stdout).expect("cargo speaks UTF-8");
        let names: BTreeSet<&str> = text.lines().filter_map(|line| line.split(' ').next()).collect();
        assert!(names.contains(room), "cargo tree told nothing of {room}");
        for banned in NOT_IN_A_VERIFIER {
            assert!(!names.contains(banned), "{room} carries {banned}");
        }
    }
}

/// What a manifest's `[dependencies]` names.
fn dependencies(folder: &str) -> Vec<String> {
    let path = root().join(folder).join("Cargo.toml");
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let table: toml::Table = text.parse().expect("a manifest is TOML");
    let named = table.get("dependencies").and_then(toml::Value::as_table).expect("it has dependencies");
    named.keys().cloned().collect()
}
