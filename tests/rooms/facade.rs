//! What a shell can see of core: every public item of the facade, kept in `facade.txt`. A shell in the field is older than
//! the core of tomorrow, so a change here is to be meant: look at the difference, then run with `FACADE=1` to keep it.

use std::fmt::Write as _;

use quote::ToTokens;
use syn::{Fields, ImplItem, Item, Visibility};

use crate::sources::{root, rust_files};

const KEPT: &str = "tests/rooms/facade.txt";

#[test]
fn the_facade_is_as_it_was_kept() {
    let mut lines = Vec::new();
    for file in rust_files(&root().join("core/app/src")) {
        if file.components().any(|part| part.as_os_str() == "tests")
            || file.file_name() == Some("tests.rs".as_ref())
        {
            continue;
        }
        let source = std::fs::read_to_string(&file).expect("our sources can be read");
        syn::parse_file(&source)
            .expect("our sources are Rust")
            .items
            .iter()
            .for_each(|item| note(item, &mut lines));
    }
    lines.sort();
    let seen = lines.join("\n") + "\n";
    let path = root().join(KEPT);
    if std::env::var_os("FACADE").is_some() {
        std::fs::write(&path, &seen).expect("the kept facade can be written");
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let mut changes = String::new();
    kept.lines().filter(|line| !lines.iter().any(|now| now == line)).for_each(|line| {
        writeln!(changes, "- {line}").expect("a string takes it");
    });
    lines.iter().filter(|line| !kept.lines().any(|was| was == *line)).for_each(|line| {
        writeln!(changes, "+ {line}").expect("a string takes it");
    });
    assert!(
        changes.is_empty(),
        "the facade's public items changed. If that is meant, keep them and commit {KEPT}:\n  \
         FACADE=1 cargo test -p slingseal-tests --test rooms\nIf not, take back what is listed here:\n{changes}"
    );
}

/// One line an item, a member after its owner.
fn note(item: &Item, lines: &mut Vec<String>) {
    match item {
        Item::Use(item) if shown(&item.vis) => lines.push(format!("use {}", plain(&item.tree))),
        Item::Fn(item) if shown(&item.vis) => lines.push(plain(&item.sig)),
        Item::Const(item) if shown(&item.vis) => {
            lines.push(format!("const {}: {}", item.ident, plain(&item.ty)))
        }
        Item::Struct(item) if shown(&item.vis) => {
            lines.push(format!("struct {}", item.ident));
            members(&item.ident.to_string(), &item.fields, false, lines);
        }
        Item::Enum(item) if shown(&item.vis) => {
            lines.push(format!("enum {}", item.ident));
            for variant in &item.variants {
                let name = format!("{}::{}", item.ident, variant.ident);
                lines.push(name.clone());
                members(&name, &variant.fields, true, lines);
            }
        }
        Item::Impl(item) if item.trait_.is_none() => {
            for member in &item.items {
                if let ImplItem::Fn(member) = member
                    && shown(&member.vis)
                {
                    lines.push(format!("{}: {}", plain(&item.self_ty), plain(&member.sig)));
                }
            }
        }
        _ => {}
    }
}

fn members(owner: &str, fields: &Fields, all: bool, lines: &mut Vec<String>) {
    for (at, field) in fields.iter().enumerate().filter(|(_, field)| all || shown(&field.vis)) {
        let name = field.ident.as_ref().map_or_else(|| at.to_string(), ToString::to_string);
        lines.push(format!("{owner}.{name}: {}", plain(&field.ty)));
    }
}

fn shown(visibility: &Visibility) -> bool {
    matches!(visibility, Visibility::Public(_))
}

/// Tokens with the spaces of a line of Rust, not of a printer.
fn plain(tokens: &impl ToTokens) -> String {
    let text = tokens.to_token_stream().to_string().split_whitespace().collect::<Vec<_>>().join(" ");
    [
        (" :: ", "::"),
        (" < ", "<"),
        ("< ", "<"),
        (" >", ">"),
        (" ,", ","),
        (" (", "("),
        ("( ", "("),
        (" )", ")"),
        ("& ", "&"),
        (" : ", ": "),
    ]
    .iter()
    .fold(text, |text, (from, to)| text.replace(from, to))
}
