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
