//! Every relative link of every document leads somewhere, and every path of ours that it names is there.

use std::collections::BTreeMap;
use std::path::Path;

use slingseal_tests::command_lines::documents;

use crate::sources::root;

/// How a path of ours begins when a document names it in code.
const OURS: &[&str] = &["core/", "bindings/", "android-shell/", "tests/"];

#[test]
fn every_link_of_every_document_leads_somewhere() {
    let (mut wrong, mut links, mut paths) = (Vec::new(), 0, 0);
    for document in documents(&root()) {
        let text = std::fs::read_to_string(&document).expect("a document is text");
        let folder = document.parent().expect("a document lies in a folder");
        for link in targets(&text) {
            links += 1;
            if let Err(what) = leads(folder, &document, &link) {
                wrong.push(format!("{}: {what}", document.display()));
            }
        }
        for path in named(&text) {
            paths += 1;
            if !root().join(&path).exists() && !folder.join(&path).exists() {
                wrong.push(format!("{}: there is no {path}", document.display()));
            }
        }
    }
    assert!(links > 30 && paths > 30, "only {links} links and {paths} paths were found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Decisions are cited by number.
#[test]
fn no_two_decisions_of_a_crate_have_one_number() {
    let mut known = BTreeMap::new();
    for path in documents(&root()) {
        let folder = path.parent().unwrap().to_owned();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if folder.ends_with("decisions") && name != "README.md" {
            let number: String = name.chars().take(4).collect();
            assert!(number.bytes().all(|byte| byte.is_ascii_digit()), "{}", path.display());
            if let Some(other) = known.insert((folder, number), name.clone()) {
                panic!("{other} and {name} have one number");
            }
        }
    }
    assert!(known.len() > 30);
}

#[test]
fn what_leads_nowhere_is_seen() {
    let here = root();
    let readme = here.join("README.md");
    assert!(leads(&here, &readme, "core/message/SECURITY.md").is_ok());
    assert!(leads(&here, &readme, "SECURITY.markdown").is_err());
    assert!(leads(&here, &readme, "#two-commands").is_ok());
    assert!(leads(&here, &readme, "#three-commands").is_err());
    assert_eq!(targets("[a](b.md) <img src=\"c.svg\"> [d](https://e)"), ["b.md", "c.svg"]);
    assert_eq!(named("see `core/x.rs`, `core/y/*.rs` and `core`"), ["core/x.rs"]);
}

/// Relative links, of Markdown and of HTML.
fn targets(text: &str) -> Vec<String> {
    let behind = |mark: &str, end: char| -> Vec<String> {
        text.split(mark).skip(1).filter_map(|rest| rest.split(end).next()).map(str::to_owned).collect()
    };
    let mut found = behind("](", ')');
    found.extend(behind("src=\"", '"'));
    found.extend(behind("href=\"", '"'));
    found.retain(|target| !target.contains("://") && !target.starts_with("mailto:"));
    found
}

/// Paths of ours between backticks; a pattern or a placeholder is none.
fn named(text: &str) -> Vec<String> {
    let mut fenced = false;
    let mut found = Vec::new();
    for line in text.lines() {
        if line.starts_with("```") {
            fenced = !fenced;
        }
        if fenced {
            continue;
        }
        let codes = line.split('`').skip(1).step_by(2);
        let words = codes.filter_map(|code| code.split([' ', ':']).next());
        found.extend(
            words
                .filter(|word| OURS.iter().any(|head| word.starts_with(head)))
                .filter(|word| !word.contains(['*', '<', '{', '…']) && !word.contains("target/"))
                .map(|word| word.trim_end_matches([',', '.']).to_owned()),
        );
    }
    found
}

fn leads(folder: &Path, document: &Path, link: &str) -> Result<(), String> {
    let (path, anchor) = link.split_once('#').unwrap_or((link, ""));
    let target = if path.is_empty() { document.to_owned() } else { folder.join(path) };
    if !target.exists() {
        return Err(format!("the link {link} leads nowhere"));
    }
    if anchor.is_empty() {
        return Ok(());
    }
    let text = std::fs::read_to_string(&target).map_err(|error| format!("{link}: {error}"))?;
    let found = text.lines().filter(|line| line.starts_with('#')).any(|line| slug(line) == anchor);
    if found { Ok(()) } else { Err(format!("{link}: no such heading")) }
}

/// A heading as a forge names it in a link.
fn slug(heading: &str) -> String {
    heading
        .trim_start_matches('#')
        .trim()
        .to_lowercase()
        .chars()
        .filter(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_'))
        .map(|c| if c == ' ' { '-' } else { c })
        .collect()
}
