//! Rust sources as tokens, so that comments and texts do not count.

use std::path::{Path, PathBuf};
use std::str::FromStr;

use proc_macro2::{Ident, TokenStream, TokenTree};

/// The workspace's root.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("tests/ lies in the workspace").to_owned()
}

/// Every Rust file below a folder, sorted; nothing where the folder is not there.
pub(crate) fn rust_files(folder: &Path) -> Vec<PathBuf> {
    files_of(folder, "rs")
}

/// Every file below a folder whose name ends so (an empty ending: without one), sorted; nothing where the folder is not there.
pub(crate) fn files_of(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.expect("a folder entry can be read").path())
        .flat_map(|path| if path.is_dir() { files_of(&path, ending) } else { vec![path] })
        .filter(|path| path.extension().unwrap_or_default() == ending)
        .collect();
    files.sort();
    files
}

/// The paths that follow `head ::` in a source (`crate::a::b` gives `a::b` for head `crate`, and a group gives each of
/// its members), with the line.
pub(crate) fn mentions(source: &str, head: &str) -> Vec<(String, usize)> {
    let tokens = TokenStream::from_str(source).expect("our sources are Rust");
    let mut found = Vec::new();
    visit(tokens, head, &mut found);
    found
}

fn visit(tokens: TokenStream, head: &str, found: &mut Vec<(String, usize)>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    for (at, token) in tokens.iter().enumerate() {
        match token {
            TokenTree::Group(group) => visit(group.stream(), head, found),
            TokenTree::Ident(ident) if ident == head => {
                let line = ident.span().start().line;
                for path in tails(&tokens[at + 1..]) {
                    found.push((path, line));
                }
            }
            _ => {}
        }
    }
}

/// The paths that a `::` begins: one, or one a member of a brace group.
fn tails(tokens: &[TokenTree]) -> Vec<String> {
    let named = path_tails(tokens).into_iter().filter(|(path, _)| !path.is_empty());
    named.map(|(path, _)| path.join("::")).collect()
}

/// The same in parts, each with the name that it is imported as where that is another. Of a word without a `::`, one that is empty.
pub(crate) fn path_tails(tokens: &[TokenTree]) -> Vec<(Vec<String>, Option<String>)> {
    match tokens {
        [TokenTree::Punct(a), TokenTree::Punct(b), rest @ ..] if a.as_char() == ':' && b.as_char() == ':' => {
            match rest {
                [TokenTree::Ident(name), rest @ ..] => behind(name, rest),
                [TokenTree::Group(group), ..] => {
                    let members: Vec<TokenTree> = group.stream().into_iter().collect();
                    members
                        .split(|token| matches!(token, TokenTree::Punct(p) if p.as_char() == ','))
                        .flat_map(|member| match member {
                            [TokenTree::Ident(name), rest @ ..] => behind(name, rest),
                            _ => Vec::new(),
                        })
                        .collect()
                }
                _ => vec![(Vec::new(), None)],
            }
        }
        [TokenTree::Ident(word), TokenTree::Ident(name), ..] if word == "as" => {
            vec![(Vec::new(), Some(name.to_string()))]
        }
        _ => vec![(Vec::new(), None)],
    }
}

fn behind(name: &Ident, rest: &[TokenTree]) -> Vec<(Vec<String>, Option<String>)> {
    let mut tails = path_tails(rest);
    for (path, _) in &mut tails {
        path.insert(0, name.to_string());
    }
    tails
}

#[test]
fn finds_paths_and_groups_but_not_comments() {
    let source = "use crate::{a::b, c::{d, e}}; // crate::x\nfn f() { crate::g::h(\"crate::y\") }";
    let found: Vec<String> = mentions(source, "crate").into_iter().map(|(path, _)| path).collect();
    assert_eq!(found, ["a::b", "c::d", "c::e", "g::h"]);
}
