//! Makes a type of each English message: its fields are the message's arguments, so that a message that is not there, an
//! argument that is missing and one too many are errors of the compiler. English is the source: what other languages
//! say is held against it by the tests.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use fluent_syntax::ast::{CallArguments, Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser::parse;

/// The language whose messages the code is written against.
const SOURCE: &str = "en";
/// What a check page says: it travels to strangers' phones as one file, and carries no other area's texts. Why
/// a tag's rigging does not hold stands in `faults`; how it hangs, no page says.
const OF_A_CHECK_PAGE: [&str; 5] = ["check_page", "faults", "judgement", "languages", "movement"];
/// What stands beside every file of a language: its terms.
const TERMS: &str = "terms";

fn main() {
    let here = PathBuf::from(std::env::var_os("CARGO_MANIFEST_DIR").expect("cargo says where the crate is"));
    let out = PathBuf::from(std::env::var_os("OUT_DIR").expect("cargo says where to write"));
    println!("cargo:rerun-if-changed=build.rs");
    println!("cargo:rerun-if-changed={}", here.display());

    let mut languages = names(&here, |path| path.is_dir() && path.join("terms.ftl").is_file());
    languages.retain(|one| one != SOURCE);
    languages.insert(0, SOURCE.to_owned());
    let mut areas = names(&here.join(SOURCE), |path| path.extension().is_some_and(|ending| ending == "ftl"));
    areas.retain(|one| one != TERMS);

    let mut code = String::new();
    sources(&mut code, &here, &languages, &areas);
    for (number, area) in areas.iter().enumerate() {
        let path = here.join(SOURCE).join(format!("{area}.ftl"));
        let text = std::fs::read_to_string(&path).expect("a file of the catalogue can be read");
        module(&mut code, area, number, &text, &path);
    }
    std::fs::write(out.join("messages.rs"), code).expect("the folder for what is generated can be written");
}

/// What lies in a folder and is wanted, without endings, sorted.
fn names(folder: &Path, wanted: impl Fn(&Path) -> bool) -> Vec<String> {
    let entries = std::fs::read_dir(folder).expect("the catalogue's folder can be read");
    let mut found: Vec<String> = entries
        .map(|entry| entry.expect("an entry of the catalogue's folder can be read").path())
        .filter(|path| wanted(path))
        .filter_map(|path| Some(path.file_stem()?.to_str()?.to_owned()))
        .collect();
    found.sort();
    found
}

/// The texts themselves, by language and area. An area that a language has not yet is empty there.
fn sources(code: &mut String, here: &Path, languages: &[String], areas: &[String]) {
    let list: Vec<String> = areas.iter().map(|area| format!("{area:?}")).collect();
    writeln!(code, "pub(crate) const AREAS: &[&str] = &[{}];", list.join(", ")).expect("a string takes all");
    let web = std::env::var("CARGO_CFG_TARGET_ARCH").is_ok_and(|arch| arch == "wasm32");
    let left_out = |area: &str| web && area != TERMS && !OF_A_CHECK_PAGE.contains(&area);
    writeln!(code, "pub(crate) const FOLDERS: &[Folder] = &[").expect("a string takes all");
    for language in languages {
        let include = |area: &str| {
            let path = here.join(language).join(format!("{area}.ftl"));
            if path.is_file() && !left_out(area) {
                format!("include_str!({:?})", path.display().to_string())
            } else {
                "\"\"".into()
            }
        };
        let texts: Vec<String> = areas.iter().map(|area| include(area)).collect();
        writeln!(
            code,
            "    Folder {{ tag: {language:?}, terms: {}, areas: &[{}] }},",
            include(TERMS),
            texts.join(", ")
        )
        .expect("a string takes all");
    }
    writeln!(code, "];").expect("a string takes all");
}

/// One module an area, one type a message.
fn module(code: &mut String, area: &str, number: usize, text: &str, path: &Path) {
    let resource = match parse(text) {
        Ok(resource) => resource,
        Err((_, errors)) => {
            let first = errors.first().expect("a failed parse says why");
            let line = text.get(..first.pos.start).map_or(0, |before| before.lines().count());
            // A build script's way to refuse: cargo shows what stands on its standard error.
            eprintln!("{}:{line}: {first}", path.display());
            std::process::exit(1);
        }
    };
    writeln!(code, "/// The messages of `{area}.ftl`.").expect("a string takes all");
    let (before, mut takes) = (code.len(), false);
    for entry in &resource.body {
        let Entry::Message(message) = entry else { continue };
        let Some(pattern) = &message.value else { continue };
        let mut arguments = BTreeSet::new();
        in_pattern(pattern, &mut arguments);
        takes |= !arguments.is_empty();
        one(code, message.id.name, number, &arguments, &plain(pattern));
    }
    let also = if takes { "ToArgument, " } else { "" };
    code.insert_str(before, &format!("pub mod {area} {{ use crate::{{Language, Saying, {also}say::Id}};\n"));
    writeln!(code, "}}").expect("a string takes all");
}

fn one(code: &mut String, id: &str, area: usize, arguments: &BTreeSet<String>, english: &str) {
    let name: String = id.split('-').map(capital).collect();
    let letters: BTreeMap<&String, String> =
        arguments.iter().enumerate().map(|(at, argument)| (argument, format!("A{at}"))).collect();
    let generics = |bound: &str| match arguments.is_empty() {
        true => String::new(),
        false => {
            let list: Vec<String> = letters.values().map(|letter| format!("{letter}{bound}")).collect();
            format!("<{}>", list.join(", "))
        }
    };
    let fields: String = letters
        .iter()
        .map(|(argument, letter)| format!("/// `${argument}`\npub {}: {letter}, ", field(argument)))
        .collect();
    let body = if arguments.is_empty() { ";".to_owned() } else { format!(" {{ {fields} }}") };
    let values: String = arguments
        .iter()
        .map(|argument| format!("({argument:?}, self.{}.to_argument()), ", field(argument)))
        .collect();
    write!(
        code,
        "/// {english}\n#[derive(Clone, Copy, Debug)]\npub struct {name}{plain}{body}\n\
         impl{bound} {name}{plain} {{\n\
         /// The message with its arguments, in no language yet.\npub fn saying(&self) -> Saying {{ Saying::new(Id {{ area: {area}, name: {id:?} }}, vec![{values}]) }}\n\
         /// The message in a language.\npub fn say(&self, language: Language) -> String {{ self.saying().say(language) }}\n\
         }}\n\
         impl{bound} From<{name}{plain}> for Saying {{ fn from(message: {name}{plain}) -> Self {{ message.saying() }} }}\n",
        plain = generics(""),
        bound = generics(": ToArgument"),
    )
    .expect("a string takes all");
}

fn capital(part: &str) -> String {
    let mut letters = part.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn field(argument: &str) -> String {
    let name = argument.replace('-', "_");
    match name.as_str() {
        "for" | "in" | "type" | "as" => format!("{name}_"),
        _ => name,
    }
}

/// The message as a line of documentation.
fn plain(pattern: &Pattern<&str>) -> String {
    let mut said = String::new();
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => said.push_str(value),
            PatternElement::Placeable { .. } => said.push('…'),
        }
    }
    let line: String = said.split_whitespace().collect::<Vec<_>>().join(" ");
    // What would be read as markup.
    line.replace(['<', '[', ']', '`', '*', '>'], "\u{b7}")
}

fn in_pattern(pattern: &Pattern<&str>, found: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            in_expression(expression, found);
        }
    }
}

fn in_expression(expression: &Expression<&str>, found: &mut BTreeSet<String>) {
    match expression {
        Expression::Inline(inline) => in_inline(inline, found),
        Expression::Select { selector, variants } => {
            in_inline(selector, found);
            for variant in variants {
                in_pattern(&variant.value, found);
            }
        }
    }
}

fn in_inline(inline: &InlineExpression<&str>, found: &mut BTreeSet<String>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            found.insert(id.name.to_owned());
        }
        InlineExpression::Placeable { expression } => in_expression(expression, found),
        InlineExpression::FunctionReference { arguments: CallArguments { positional, named }, .. } => {
            for one in positional.iter().chain(named.iter().map(|one| &one.value)) {
                in_inline(one, found);
            }
        }
        _ => {}
    }
}
