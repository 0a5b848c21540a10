//! One door to the terminal: a source of the program that goes round `console.rs` fails here, since what a stranger wrote would
//! reach the terminal as it came.

use std::str::FromStr;

use proc_macro2::{TokenStream, TokenTree};

use crate::sources::{root, rust_files};

/// What writes to a terminal or shows a path as it is, and the only files that may.
const ROUND_THE_DOOR: &[(&str, &[&str])] = &[
    // A file that was asked for on standard output is no text of the program's.
    ("stdout", &["console.rs", "files.rs", "terminal/screen.rs"]),
    ("stderr", &["console.rs"]),
    ("display", &[]),
    ("dbg", &[]),
    ("_print", &[]),
    ("_eprint", &[]),
];

/// Every identifier of a source with its line, and whether `std ::` stands before it.
fn idents(tokens: TokenStream, found: &mut Vec<(String, usize, bool)>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    for (at, token) in tokens.iter().enumerate() {
        match token {
            TokenTree::Group(group) => idents(group.stream(), found),
            TokenTree::Ident(ident) => {
                let of_std = at >= 3
                    && matches!(&tokens[at - 3], TokenTree::Ident(head) if head == "std")
                    && matches!(&tokens[at - 1], TokenTree::Punct(colon) if colon.as_char() == ':');
                found.push((ident.to_string(), ident.span().start().line, of_std));
            }
            _ => {}
        }
    }
}

#[test]
fn nothing_goes_round_the_door_to_the_terminal() {
    let src = root().join("bindings/desk/src");
    let mut wrong = Vec::new();
    let mut read = 0;
    for file in rust_files(&src) {
        let inside =
            file.strip_prefix(&src).expect("the file was found below src").to_string_lossy().into_owned();
        if inside.ends_with("tests.rs") || inside.contains("/tests/") || inside.ends_with("strange.rs") {
            continue;
        }
        read += 1;
        let source = std::fs::read_to_string(&file).expect("our sources can be read");
        let mut found = Vec::new();
        idents(TokenStream::from_str(&source).expect("our sources are Rust"), &mut found);
        for (ident, line, of_std) in found {
            let printing = ["print", "println", "eprint", "eprintln"].contains(&ident.as_str());
            let banned = ROUND_THE_DOOR
                .iter()
                .any(|(name, allowed)| ident == *name && !allowed.contains(&inside.as_str()));
            if banned || printing && of_std {
                wrong.push(format!("{inside}:{line}: {ident} goes round console.rs"));
            }
        }
    }
    assert!(read > 20, "the sources of the program were not found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The door stands before every other module, so that its macros are meant everywhere.
#[test]
fn the_door_stands_first() {
    let main = std::fs::read_to_string(root().join("bindings/desk/src/main.rs")).expect("main.rs");
    let door = main.find("#[macro_use]\nmod console;").expect("the door");
    let first = main.find("\nmod ").expect("modules");
    assert!(door < first + 1, "a module before the door prints with std's macros");
}
