//! A state crosses every border as a type. A word that stands for one is compared nowhere: a misspelt one would compile, and a new
//! state would be passed over in silence.

use crate::sources::{files_of, root, rust_files};

/// What a view calls a state, a sort or a role.
const STATES: &[&str] = &[
    "code",
    "event",
    "grade",
    "kind",
    "outcome",
    "role",
    "roles",
    "signature",
    "standing",
    "state",
    "subject",
    "verdict",
    "what",
];

/// A line that compares with a word, where the word is no state: a part of its file's name, of the line, and what it is.
const WORDS: &[(&str, &str, &str)] = &[
    ("Core.kt", "it.language ==", "a language goes by its tag (BCP 47)"),
    ("Papers.kt", "mode !=", "how the platform writes that a file is only read"),
    ("serve/reply.rs", "image/svg+xml", "a media type"),
    (
        "verbs/demo/acts.rs",
        "reason.code ==",
        "a reason in the specification's table, named as a stranger's program names it",
    ),
];

/// A field of a view that is text although it is called as a state is: what it holds.
const TEXTS: &[(&str, &str, &str)] = &[
    ("closing/mod.rs", "subject", "the load, the piece or the device that a point is about"),
    ("tags/rigging.rs", "state", "how a rigging stands, as it is printed"),
];

/// The lines of a source without its tests' module, numbered.
fn lines(source: &str) -> impl Iterator<Item = (usize, &str)> {
    let code = source.split("#[cfg(test)]").next().unwrap_or_default();
    code.lines()
        .enumerate()
        .map(|(at, line)| (at + 1, line))
        .filter(|(_, line)| !line.trim_start().starts_with("//"))
}

/// Whether a line of Kotlin compares something with a word, or branches on one.
fn kotlin_compares(line: &str) -> bool {
    let line = line.trim_start();
    line.contains("== \"") || line.contains("!= \"") || (line.starts_with('"') && line.contains("\" ->"))
}

/// Whether a line of Rust compares a field that is called as a state is with a word, or takes it as text to match on.
fn rust_compares(line: &str) -> bool {
    STATES.iter().any(|state| {
        ["== \"", "!= \"", "== Some(\"", "!= Some(\""]
            .iter()
            .any(|than| line.contains(&format!(".{state} {than}")))
            || line.contains(&format!(".{state}.as_str()"))
            || line.contains(&format!(".{state}.as_deref()"))
    })
}

/// Whether a line of Rust is a public field that is called as a state is and holds text.
fn text_field(line: &str) -> Option<&'static str> {
    let (name, of) = line.trim_start().strip_prefix("pub ")?.trim_end_matches(',').split_once(": ")?;
    let text = ["String", "Option<String>", "Vec<String>"].contains(&of);
    // What a person reads of a thing is called `kind` and `what` too.
    let read = ["code", "kind", "what"].contains(&name);
    (text && !read).then(|| STATES.iter().find(|state| **state == name).copied()).flatten()
}

#[test]
fn no_state_is_compared_as_a_word() {
    let house = root();
    let kotlin = files_of(&house.join("android-shell/src/main/kotlin"), "kt");
    let bindings = ["desk", "android", "paper", "exchange", "web"]
        .map(|name| house.join("bindings").join(name).join("src"));
    let rust: Vec<_> =
        bindings.iter().chain([&house.join("core/app/src")]).flat_map(|folder| rust_files(folder)).collect();
    assert!(kotlin.len() > 50 && rust.len() > 100, "the sources were not found");
    let mut wrong = Vec::new();
    let mut used = vec![false; WORDS.len()];
    for file in kotlin.iter().chain(&rust) {
        let name = file.to_string_lossy().replace('\\', "/");
        if name.contains("/tests") {
            continue;
        }
        let compares = if name.ends_with(".kt") { kotlin_compares } else { rust_compares };
        let source = std::fs::read_to_string(file).expect("our sources can be read");
        for (at, line) in lines(&source).filter(|(_, line)| compares(line)) {
            match WORDS.iter().position(|(part, words, _)| name.ends_with(part) && line.contains(words)) {
                Some(known) => used[known] = true,
                None => wrong.push(format!("{name}:{at}: {}", line.trim())),
            }
        }
    }
    wrong.extend(
        WORDS.iter().zip(used).filter(|(_, used)| !used).map(|(word, _)| format!("{word:?} stands nowhere")),
    );
    assert!(wrong.is_empty(), "compare a type, or say here which word that is:\n{}", wrong.join("\n"));
}

#[test]
fn no_view_holds_a_state_as_text() {
    let mut wrong = Vec::new();
    for file in rust_files(&root().join("core/app/src")) {
        let name = file.to_string_lossy().replace('\\', "/");
        let source = std::fs::read_to_string(&file).expect("our sources can be read");
        for (at, line) in lines(&source) {
            let Some(field) = text_field(line) else { continue };
            if !TEXTS.iter().any(|(part, text, _)| name.ends_with(part) && *text == field) {
                wrong.push(format!("{name}:{at}: {}", line.trim()));
            }
        }
    }
    assert!(wrong.is_empty(), "make it an enum, or say here what it holds:\n{}", wrong.join("\n"));
}

#[test]
fn a_comparison_with_a_word_is_found() {
    for line in ["if (line.state == \"open\")", "\"open\" -> Sign.TICK", "it.kind != \"seal\""] {
        assert!(kotlin_compares(line), "{line}");
    }
    assert!(!kotlin_compares("\"open\" to Sign.TICK") && !kotlin_compares("it.state == State.OPEN"));
    for line in
        ["if life.state == \"out\" {", "match flow.verdict.as_str() {", "view.event != Some(\"lifted\")"]
    {
        assert!(rust_compares(line), "{line}");
    }
    assert!(!rust_compares("life.state == PieceLifeState::Out") && !rust_compares("name == \"other\""));
    assert_eq!(text_field("    pub state: String,"), Some("state"));
    assert_eq!(text_field("    pub roles: Vec<String>,"), Some("roles"));
    assert_eq!((text_field("    pub state: FlowState,"), text_field("    pub load: String,")), (None, None));
}
