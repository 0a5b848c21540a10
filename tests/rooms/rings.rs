//! No ring of files inside a crate of core or bindings: who changes one file of a ring must know them all. Methods are not seen
//! here, nor what a test asks for; what a file merely hands on is followed to where it is defined.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::str::FromStr;

use proc_macro2::{Delimiter, TokenStream, TokenTree};

use crate::sources::{path_tails, root, rust_files};

/// A module's path below the crate's root.
type Module = Vec<String>;

/// What a source names: whole paths below the crate's root, and the names that it imports, each with where from.
#[derive(Default)]
struct Named {
    paths: BTreeSet<Module>,
    imported: BTreeMap<String, Module>,
}

/// The module that a file is.
fn module_of(inside: &Path) -> Module {
    let bare = inside.with_extension("");
    let mut module: Module = bare.iter().map(|part| part.to_string_lossy().into_owned()).collect();
    let root = module.len() == 1 && matches!(module[0].as_str(), "lib" | "main");
    if root || module.last().is_some_and(|last| last == "mod") {
        module.pop();
    }
    module
}

/// The modules of a source that only tests have.
fn of_tests(module: &[String], source: &str) -> Vec<Module> {
    let lines: Vec<&str> = source.lines().map(str::trim).collect();
    let tests = lines.windows(2).filter(|two| two[0] == "#[cfg(test)]");
    let names = tests.filter_map(|two| two[1].rsplit_once("mod ")?.1.strip_suffix(';'));
    names.map(|name| [module, &[name.to_owned()]].concat()).collect()
}

/// Reads what a source names. `here` is the module that it stands in, `modules` all that there are.
fn read(tokens: TokenStream, here: &[String], modules: &BTreeSet<Module>, named: &mut Named) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    // Where a `use` began, and whether it only hands on.
    let mut using: Option<bool> = None;
    for (at, token) in tokens.iter().enumerate() {
        let after_colons = at >= 2 && are_colons(&tokens[at - 2..at]);
        let before_colons = tokens.get(at + 1..at + 3).is_some_and(are_colons);
        match token {
            TokenTree::Punct(punct) if punct.as_char() == ';' => using = None,
            // The members of a path were read with its head.
            TokenTree::Group(_) if after_colons => {}
            // `pub(in crate::a)` says who may look in, and asks for nothing.
            TokenTree::Group(group)
                if is_within(group.stream()) && is_word(at.checked_sub(1).map(|at| &tokens[at]), "pub") => {}
            TokenTree::Group(group) => {
                let opens = match (
                    at.checked_sub(2).map(|at| &tokens[at]),
                    at.checked_sub(1).map(|at| &tokens[at]),
                ) {
                    (Some(TokenTree::Ident(word)), Some(TokenTree::Ident(name))) if word == "mod" => {
                        Some(name.to_string())
                    }
                    _ => None,
                };
                match opens {
                    Some(name) if name == "tests" => {}
                    Some(name) => read(group.stream(), &[here, &[name]].concat(), modules, named),
                    None => read(group.stream(), here, modules, named),
                }
                if group.delimiter() == Delimiter::Brace {
                    using = None;
                }
            }
            TokenTree::Ident(ident) if ident == "use" => using = Some(hands_on(&tokens[..at])),
            TokenTree::Ident(ident) if before_colons && !after_colons => {
                let Some(head) = head_of(&ident.to_string(), here, modules) else { continue };
                for (tail, name) in path_tails(&tokens[at + 1..]) {
                    let path = join(&head, &tail);
                    if using != Some(true) {
                        named.paths.insert(path.clone());
                    }
                    if using.is_some()
                        && let Some(name) = name.or_else(|| path.last().cloned())
                    {
                        named.imported.insert(name, path);
                    }
                }
            }
            _ => {}
        }
    }
}

/// Whether the `use` behind these tokens is seen from outside: it defines nothing and asks for nothing.
fn hands_on(before: &[TokenTree]) -> bool {
    match before {
        [.., TokenTree::Ident(word)] => word == "pub",
        [.., TokenTree::Ident(word), TokenTree::Group(_)] => word == "pub",
        _ => false,
    }
}

/// Whether this is the `in crate::a` of a visibility.
fn is_within(tokens: TokenStream) -> bool {
    is_word(tokens.into_iter().next().as_ref(), "in")
}

fn is_word(token: Option<&TokenTree>, word: &str) -> bool {
    matches!(token, Some(TokenTree::Ident(ident)) if ident == word)
}

fn are_colons(tokens: &[TokenTree]) -> bool {
    tokens.iter().all(|token| matches!(token, TokenTree::Punct(punct) if punct.as_char() == ':'))
}

/// Where a path that begins with this word begins below the crate's root; none for one that leaves the crate.
fn head_of(word: &str, here: &[String], modules: &BTreeSet<Module>) -> Option<Module> {
    match word {
        "crate" => Some(Vec::new()),
        "self" => Some(here.to_vec()),
        "super" => here.split_last().map(|(_, above)| above.to_vec()),
        child => {
            let child = [here, &[child.to_owned()]].concat();
            modules.contains(&child).then_some(child)
        }
    }
}

/// A path behind its head: each further `super` goes up.
fn join(head: &[String], tail: &[String]) -> Module {
    let mut path = head.to_vec();
    for part in tail {
        match part.as_str() {
            "super" => {
                path.pop();
            }
            "self" => {}
            part => path.push(part.to_owned()),
        }
    }
    path
}

/// The module that defines what a path names: the deepest on its way, or what that one imports the name from.
fn defines(path: &Module, all: &BTreeMap<Module, Named>, left: usize) -> Module {
    let depth = (0..=path.len()).rev().find(|depth| all.contains_key(&path[..*depth])).unwrap_or(0);
    let module = path[..depth].to_vec();
    match path.get(depth).and_then(|name| all.get(&module)?.imported.get(name)) {
        Some(from) if left > 0 => defines(&join(from, &path[depth + 1..]), all, left - 1),
        _ => module,
    }
}

/// Files of which each leads to each other, by who names whom.
fn rings(names: &BTreeMap<Module, BTreeSet<Module>>) -> Vec<BTreeSet<Module>> {
    let reached = |from: &Module| {
        let mut seen = BTreeSet::new();
        let mut next: Vec<&Module> = names.get(from).into_iter().flatten().collect();
        while let Some(module) = next.pop() {
            if seen.insert(module.clone()) {
                next.extend(names.get(module).into_iter().flatten());
            }
        }
        seen
    };
    let reach: BTreeMap<&Module, BTreeSet<Module>> = names.keys().map(|from| (from, reached(from))).collect();
    let ring_of = |from: &Module| -> BTreeSet<Module> {
        let back = |to: &&Module| reach.get(to).is_some_and(|reached| reached.contains(from));
        reach.get(from).into_iter().flatten().filter(back).cloned().collect()
    };
    let found: BTreeSet<BTreeSet<Module>> = names.keys().map(ring_of).filter(|ring| ring.len() > 1).collect();
    found.into_iter().collect()
}

/// The rings of a crate's sources, each as its files' modules.
fn rings_of(sources: &[(Module, String)]) -> Vec<Vec<String>> {
    let tests: Vec<Module> = sources.iter().flat_map(|(module, source)| of_tests(module, source)).collect();
    let sources = || sources.iter().filter(|(module, _)| !tests.iter().any(|test| module.starts_with(test)));
    let modules: BTreeSet<Module> = sources().map(|(module, _)| module.clone()).collect();
    let mut all: BTreeMap<Module, Named> = BTreeMap::new();
    for (module, source) in sources() {
        let tokens = TokenStream::from_str(source).expect("our sources are Rust");
        read(tokens, module, &modules, all.entry(module.clone()).or_default());
    }
    let names = all.iter().map(|(module, named)| {
        let mut others: BTreeSet<Module> = named.paths.iter().map(|path| defines(path, &all, 8)).collect();
        others.remove(module);
        (module.clone(), others)
    });
    let names: BTreeMap<Module, BTreeSet<Module>> = names.collect();
    rings(&names).iter().map(|ring| ring.iter().map(|module| module.join("::")).collect()).collect()
}

#[test]
fn no_files_of_a_crate_ask_each_other_in_a_ring() {
    let mut wrong = Vec::new();
    let mut read = 0;
    let crates = ["core", "bindings"]
        .map(|folder| std::fs::read_dir(root().join(folder)).expect("crates have a folder"));
    for entry in crates.into_iter().flatten() {
        let src = entry.expect("a folder entry can be read").path().join("src");
        let sources: Vec<(Module, String)> = rust_files(&src)
            .into_iter()
            .map(|file| {
                let module = module_of(file.strip_prefix(&src).expect("the file was found below src"));
                (module, std::fs::read_to_string(&file).expect("our sources can be read"))
            })
            .collect();
        read += sources.len();
        wrong.extend(rings_of(&sources).iter().map(|ring| format!("{}: {}", src.display(), ring.join(", "))));
    }
    assert!(read > 350, "the sources were not found");
    assert!(
        wrong.is_empty(),
        "files that ask each other; move what both need below them:\n{}",
        wrong.join("\n")
    );
}

#[test]
fn a_ring_is_found_through_what_is_handed_on() {
    let sources = |of_c: &str| {
        let files = [
            ("", "pub use a::A; use b::B; fn main(_: B) {}\n#[cfg(test)]\nmod laws;"),
            ("laws", "mod words; use words::Word;"),
            ("laws::words", "use super::Law;"),
            ("a", "use crate::b::{self, B}; // crate::a::c::C\npub struct A;"),
            ("b", "use super::c::C; pub(crate) use self::d::D;"),
            ("b::d", "pub struct D; mod inner { use super::super::E; }"),
            ("c", of_c),
        ];
        files.map(|(module, text)| {
            (module.split("::").filter(|part| !part.is_empty()).map(str::to_owned).collect(), text.to_owned())
        })
    };
    assert_eq!(rings_of(&sources("fn c() -> crate::A {}")), [["a", "b", "c"]]);
    assert_eq!(
        rings_of(&sources("pub(in crate::a) struct C; mod tests { use crate::A; }")),
        [] as [Vec<String>; 0]
    );
}
