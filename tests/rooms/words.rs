//! The words of people: every message of the catalogue is used.

use std::collections::BTreeSet;
use std::str::FromStr;

use proc_macro2::{TokenStream, TokenTree};

use crate::sources::{root, rust_files};

/// A message that nobody says is a word that translators work on for nothing.
#[test]
fn every_message_of_the_catalogue_is_said() {
    let mut names = BTreeSet::new();
    for folder in ["core", "bindings"] {
        for file in rust_files(&root().join(folder)) {
            if file.components().any(|part| part.as_os_str() == "target" || part.as_os_str() == "tests") {
                continue;
            }
            let source = std::fs::read_to_string(&file).expect("our sources can be read");
            gather(TokenStream::from_str(&source).expect("our sources are Rust"), &mut names);
        }
    }
    let mut unused = Vec::new();
    let english = root().join("core/catalogue/en");
    for entry in std::fs::read_dir(english).expect("the English folder is there") {
        let path = entry.expect("a folder entry can be read").path();
        let text = std::fs::read_to_string(&path).expect("the catalogue can be read");
        for line in text.lines() {
            let Some((id, _)) = line.split_once(" =") else { continue };
            if id.starts_with(|first: char| first.is_ascii_lowercase()) && !names.contains(&type_of(id)) {
                unused.push(format!("{}: {id}", path.display()));
            }
        }
    }
    assert!(names.len() > 1000, "the sources were not found");
    assert!(unused.is_empty(), "nobody says\n{}", unused.join("\n"));
}

/// The type that the catalogue makes of a message.
fn type_of(id: &str) -> String {
    id.split('-')
        .map(|part| {
            let mut letters = part.chars();
            letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
        })
        .collect()
}

fn gather(tokens: TokenStream, names: &mut BTreeSet<String>) {
    for token in tokens {
        match token {
            TokenTree::Group(group) => gather(group.stream(), names),
            TokenTree::Ident(ident) => {
                names.insert(ident.to_string());
            }
            _ => {}
        }
    }
}

/// Where sentences stand outside the catalogue, and why. `yet` is the number of sentences that are still to be moved: it
/// may only fall. What has another reason never reaches a person as a sentence of ours, or is data.
enum Outside {
    /// Not moved yet, this many at most.
    Yet(usize),
    /// Not a word of the program to its reader.
    For(&'static str),
}

const OUTSIDE: &[(&str, Outside)] = include!("words_outside.in");

/// A sentence in a literal of code that reaches a person: a blank between letters, a small letter in it.
fn is_a_sentence(text: &str) -> bool {
    let plain: String = text
        .split('{')
        .enumerate()
        .map(|(at, part)| if at == 0 { part } else { part.split_once('}').map_or("", |(_, rest)| rest) })
        .collect();
    let words = plain.split_whitespace().filter(|word| {
        word.chars().filter(|letter| letter.is_alphabetic()).count() > 1 && word.chars().any(char::is_lowercase)
    });
    words.count() > 1
}

#[test]
fn a_sentence_is_told_from_a_code() {
    assert!(is_a_sentence("The load weighs {mass}"));
    assert!(is_a_sentence("{name}: not applicable"));
    for code in ["load_number", "SLINGSEAL_PIN", "{name} {serial}", "text/html; charset=utf-8", "[!]", "a.b.c"] {
        assert!(!is_a_sentence(code), "{code}");
    }
}

/// The sentences of a source that are not in attributes, tests, or what only a programmer reads.
fn sentences(source: &str) -> Vec<(usize, String)> {
    let file = syn::parse_file(source).expect("our sources are Rust");
    let mut found = Vec::new();
    let tokens = quote::ToTokens::to_token_stream(&Untested(file));
    literals(tokens, false, &mut found);
    found
}

/// A file without its tests and attributes.
struct Untested(syn::File);

impl quote::ToTokens for Untested {
    fn to_tokens(&self, tokens: &mut TokenStream) {
        for item in &self.0.items {
            let of_tests = match item {
                syn::Item::Mod(module) => is_of_tests(&module.attrs),
                syn::Item::Fn(function) => is_of_tests(&function.attrs),
                _ => false,
            };
            if !of_tests {
                item.to_tokens(tokens);
            }
        }
    }
}

fn is_of_tests(attributes: &[syn::Attribute]) -> bool {
    attributes.iter().any(|one| {
        one.path().is_ident("test")
            || (one.path().is_ident("cfg") && quote::ToTokens::to_token_stream(one).to_string().contains("test"))
    })
}

/// `expect`, `panic` and their kin speak to a programmer, and so does `internal`.
const OF_PROGRAMMERS: &[&str] = &[
    "expect", "panic", "unreachable", "assert", "assert_eq", "debug_assert", "internal", "include_str", "concat", "env",
];

fn literals(tokens: TokenStream, of_programmers: bool, found: &mut Vec<(usize, String)>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let mut last = String::new();
    for (at, token) in tokens.iter().enumerate() {
        match token {
            TokenTree::Group(group) => {
                let attribute = matches!(at.checked_sub(1).and_then(|before| tokens.get(before)), Some(TokenTree::Punct(p)) if p.as_char() == '#');
                if !attribute {
                    literals(group.stream(), of_programmers || OF_PROGRAMMERS.contains(&&*last), found);
                }
                last.clear();
            }
            TokenTree::Ident(ident) => last = ident.to_string(),
            TokenTree::Literal(literal) if !of_programmers => {
                if let Ok(text) = syn::parse_str::<syn::LitStr>(&literal.to_string())
                    && is_a_sentence(&text.value())
                {
                    found.push((literal.span().start().line, text.value()));
                }
            }
            _ => {}
        }
    }
}

/// What a person reads stands in the catalogue: a sentence elsewhere is a sentence that nobody translates.
#[test]
fn no_sentence_stands_outside_the_catalogue() {
    let mut wrong = Vec::new();
    let mut met = BTreeSet::new();
    for folder in ["core", "bindings"] {
        for path in rust_files(&root().join(folder)) {
            let name = path.strip_prefix(root()).expect("it lies in the workspace").to_string_lossy().replace('\\', "/");
            let parts: Vec<&str> = name.split('/').collect();
            let of_tests = parts.iter().any(|part| matches!(*part, "tests" | "tests.rs" | "target" | "benches" | "examples" | "build.rs" | "laws"));
            if of_tests || name.starts_with("core/catalogue/") {
                continue;
            }
            let source = std::fs::read_to_string(&path).expect("our sources can be read");
            let found = sentences(&source);
            let allowed = OUTSIDE.iter().find(|(place, _)| *place == name);
            met.extend(allowed.map(|(place, _)| *place));
            match allowed {
                Some((_, Outside::For(why))) => assert!(!why.is_empty() && !found.is_empty(), "{name} needs no leave"),
                Some((_, Outside::Yet(most))) if found.len() < *most => {
                    wrong.push(format!("{name}: {} are left, write that down: it may only fall", found.len()));
                }
                Some((_, Outside::Yet(most))) if found.len() == *most => {}
                _ => wrong.extend(found.iter().map(|(line, text)| format!("{name}:{line}: {text:?}"))),
            }
        }
    }
    let gone: Vec<&str> = OUTSIDE.iter().map(|(place, _)| *place).filter(|place| !met.contains(place)).collect();
    assert!(gone.is_empty(), "these are gone: {gone:?}");
    assert!(
        wrong.is_empty(),
        "put these into core/catalogue (its README says how):\n{}",
        wrong.join("\n")
    );
}
