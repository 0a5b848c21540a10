//! The words of people: every message of the catalogue is used.

use std::collections::{BTreeMap, BTreeSet};
use std::str::FromStr;

use proc_macro2::{TokenStream, TokenTree};

use crate::sources::{root, rust_files};

/// A message that nobody says is a word that translators work on for nothing.
#[test]
fn every_message_of_the_catalogue_is_said() {
    let (mut names, mut said) = (BTreeSet::new(), BTreeSet::new());
    for folder in ["core", "bindings"] {
        for file in rust_files(&root().join(folder)) {
            if file.components().any(|part| part.as_os_str() == "target" || part.as_os_str() == "tests") {
                continue;
            }
            let source = std::fs::read_to_string(&file).expect("our sources can be read");
            let mut tokens = Vec::new();
            gather(TokenStream::from_str(&source).expect("our sources are Rust"), &mut tokens);
            said.extend(through_areas(&tokens));
            names.extend(tokens);
        }
    }
    let mut messages = Vec::new();
    let english = root().join("core/catalogue/en");
    for entry in std::fs::read_dir(english).expect("the English folder is there") {
        let path = entry.expect("a folder entry can be read").path();
        let text = std::fs::read_to_string(&path).expect("the catalogue can be read");
        let area = path.file_stem().expect("an area has a name").to_string_lossy().into_owned();
        for line in text.lines() {
            let Some((id, _)) = line.split_once(" =") else { continue };
            if id.starts_with(|first: char| first.is_ascii_lowercase()) {
                messages.push((area.clone(), id.to_owned()));
            }
        }
    }
    let mut unused = Vec::new();
    for (area, id) in &messages {
        let name = type_of(id);
        // Where two areas have one name, each is said through its own area.
        let twins = messages.iter().filter(|(_, other)| other == id).count() > 1;
        if !names.contains(&name) || twins && !said.contains(&(area.clone(), name)) {
            unused.push(format!("{area}.ftl: {id}"));
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

/// Identifiers in their order, and nothing between them.
fn gather(tokens: TokenStream, names: &mut Vec<String>) {
    for token in tokens {
        match token {
            TokenTree::Group(group) => gather(group.stream(), names),
            TokenTree::Ident(ident) => names.push(ident.to_string()),
            _ => {}
        }
    }
}

/// What a file says through which area: `area as words`, and later `words::Name`, or `area::Name`.
fn through_areas(tokens: &[String]) -> BTreeSet<(String, String)> {
    let mut areas: BTreeMap<&str, &str> = BTreeMap::new();
    for three in tokens.windows(3) {
        if let [area, between, alias] = three
            && between == "as"
        {
            areas.insert(alias, area);
        }
    }
    let pairs = tokens.windows(2).filter_map(|two| match two {
        [area, name] => Some((areas.get(area.as_str()).copied().unwrap_or(area).to_owned(), name.clone())),
        _ => None,
    });
    pairs.collect()
}

/// Where sentences stand outside the catalogue: a path and, after a tab, how many are still to be moved (that may only fall),
/// or why none of them is a word of the program to its reader. `WORDS=1` writes the numbers anew: look at the difference.
const OUTSIDE: &str = "tests/rooms/words_outside.txt";

/// A sentence in a literal of code that reaches a person: a blank between letters, a small letter in it.
fn is_a_sentence(text: &str) -> bool {
    let plain: String = text
        .split('{')
        .enumerate()
        .map(|(at, part)| if at == 0 { part } else { part.split_once('}').map_or("", |(_, rest)| rest) })
        .collect();
    let words = plain
        .split_whitespace()
        .map(|word| word.trim_matches(|end: char| end.is_ascii_punctuation()))
        .filter(|word| {
            word.chars().count() > 1
                && word.chars().all(|letter| letter.is_alphabetic() || matches!(letter, '\'' | '-'))
                && word.chars().any(char::is_lowercase)
        });
    words.count() > 1
}

#[test]
fn a_sentence_is_told_from_a_code() {
    assert!(is_a_sentence("The load weighs {mass}"));
    assert!(is_a_sentence("{name}: not applicable"));
    for code in
        ["load_number", "SLINGSEAL_PIN", "{name} {serial}", "text/html; charset=utf-8", "[!]", "a.b.c"]
    {
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
            || (one.path().is_ident("cfg")
                && quote::ToTokens::to_token_stream(one).to_string().contains("test"))
    })
}

/// `expect`, `panic` and their kin speak to a programmer, and so does `internal`.
const OF_PROGRAMMERS: &[&str] = &[
    "expect",
    "panic",
    "unreachable",
    "assert",
    "assert_eq",
    "debug_assert",
    "internal",
    "include_str",
    "concat",
    "env",
];

/// `#[error("…")]` is what an error says to whoever meets it.
fn says_an_error(attribute: &proc_macro2::Group) -> bool {
    matches!(attribute.stream().into_iter().next(), Some(TokenTree::Ident(name)) if name == "error")
}

fn literals(tokens: TokenStream, of_programmers: bool, found: &mut Vec<(usize, String)>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let mut last = String::new();
    for (at, token) in tokens.iter().enumerate() {
        match token {
            TokenTree::Group(group) => {
                let attribute = matches!(at.checked_sub(1).and_then(|before| tokens.get(before)), Some(TokenTree::Punct(p)) if p.as_char() == '#');
                if !attribute || says_an_error(group) {
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
    let kept = std::fs::read_to_string(root().join(OUTSIDE)).expect("the list can be read");
    let allowed: BTreeMap<&str, &str> = kept.lines().filter_map(|line| line.split_once('\t')).collect();
    let mut found = BTreeMap::new();
    for folder in ["core", "bindings"] {
        for path in rust_files(&root().join(folder)) {
            let name = path
                .strip_prefix(root())
                .expect("it lies in the workspace")
                .to_string_lossy()
                .replace('\\', "/");
            let aside = ["tests", "tests.rs", "target", "benches", "examples", "build.rs", "laws"];
            if name.split('/').any(|part| aside.contains(&part)) || name.starts_with("core/catalogue/") {
                continue;
            }
            let source = std::fs::read_to_string(&path).expect("our sources can be read");
            found.insert(name, sentences(&source));
        }
    }
    if std::env::var_os("WORDS").is_some() {
        let lines = found.iter().filter(|(_, said)| !said.is_empty()).map(|(name, said)| {
            let reason = allowed.get(name.as_str()).filter(|reason| reason.parse::<usize>().is_err());
            reason.map_or_else(|| format!("{name}\t{}\n", said.len()), |reason| format!("{name}\t{reason}\n"))
        });
        std::fs::write(root().join(OUTSIDE), lines.collect::<String>()).expect("the list can be written");
        return;
    }
    let mut wrong = Vec::new();
    for (name, said) in &found {
        match allowed.get(name.as_str()) {
            Some(reason) if said.is_empty() => {
                wrong.push(format!("{name} needs no leave any more: {reason}"))
            }
            Some(reason) => {
                if let Ok(most) = reason.parse::<usize>()
                    && said.len() > most
                {
                    wrong.push(format!("{name}: {most} sentences may stand there, and there are"));
                    wrong.extend(said.iter().map(|(line, text)| format!("  {line}: {text:?}")));
                }
            }
            None => wrong.extend(said.iter().map(|(line, text)| format!("{name}:{line}: {text:?}"))),
        }
    }
    wrong.extend(
        allowed.keys().filter(|name| !found.contains_key(**name)).map(|name| format!("{name} is gone")),
    );
    assert!(wrong.is_empty(), "put these into core/catalogue (its README says how):\n{}", wrong.join("\n"));
}

/// The handheld's own words stand in its resources, which the platform's tools read; what core says comes from core. Both
/// languages have every string with the same places, and no sentence is said twice.
#[test]
fn the_handheld_says_its_own_words_alone_and_in_every_language() {
    let resources = root().join("android-shell/src/main/res");
    let english = strings(&resources.join("values/strings.xml"));
    let spanish = strings(&resources.join("values-es/strings.xml"));
    assert!(english.len() > 100, "the handheld's strings were not found");
    let names = |of: &[(String, String)]| of.iter().map(|(name, _)| name.clone()).collect::<BTreeSet<_>>();
    assert_eq!(names(&english), names(&spanish));
    let places = |text: &str| {
        let mut found: Vec<String> = text
            .split('%')
            .skip(1)
            .map(|rest| rest.chars().take(3).filter(|c| "$sd123".contains(*c)).collect())
            .collect();
        found.sort();
        found
    };
    for (name, text) in &english {
        let other = spanish.iter().find(|(known, _)| known == name).map(|(_, text)| text.as_str());
        assert_eq!(places(text), places(other.unwrap_or_default()), "{name}");
    }
    for area in ["judgement", "walk", "faults", "refusals"] {
        let path = root().join("core/catalogue/en").join(format!("{area}.ftl"));
        let messages = std::fs::read_to_string(path).expect("the catalogue can be read");
        for said in messages.lines().filter_map(|line| line.split_once(" = ")).map(|(_, said)| said.trim()) {
            let twice = english.iter().find(|(_, text)| text == said && said.split(' ').count() > 3);
            assert!(twice.is_none(), "core says it already, in {area}: {twice:?}");
        }
    }
}

/// Name and text of every string of a resource file.
fn strings(path: &std::path::Path) -> Vec<(String, String)> {
    let text = std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    text.split("<string name=\"")
        .skip(1)
        .filter_map(|rest| {
            let (name, rest) = rest.split_once('"')?;
            let (_, rest) = rest.split_once('>')?;
            let (text, _) = rest.split_once("</string>")?;
            Some((name.to_owned(), text.trim().to_owned()))
        })
        .collect()
}
