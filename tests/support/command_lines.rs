//! What a document lets its reader type: the command lines of its blocks of code, and what stands between backticks in prose.

use std::path::{Path, PathBuf};

/// Something that may be typed, before anyone knows whether it is a command.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Where it begins, counted from one.
    pub line: usize,
    /// Which block of code it is a line of; none in prose.
    pub block: Option<usize>,
    /// Its words as a shell would part them; never none.
    pub words: Vec<String>,
}

impl Piece {
    /// The variables that are set for this command alone, and the words behind them.
    pub fn parted(&self) -> (Vec<&str>, &[String]) {
        let name = |word: &String| {
            let (name, _) = word.split_once('=')?;
            let capital = |byte: u8| byte.is_ascii_uppercase() || byte.is_ascii_digit() || byte == b'_';
            (!name.is_empty() && name.bytes().all(capital)).then_some(name.len())
        };
        let set: Vec<&str> =
            self.words.iter().map_while(|word| name(word).and_then(|length| word.get(..length))).collect();
        let behind = self.words.get(set.len()..).unwrap_or_default();
        (set, behind)
    }
}

/// Every document below a folder, sorted; what is built or fetched is none.
pub fn documents(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("a folder can be read") {
        let path = entry.expect("a folder entry can be read").path();
        let name = path.file_name().expect("an entry has a name").to_string_lossy().into_owned();
        if path.is_dir() && !name.starts_with('.') && name != "target" && name != "node_modules" {
            found.extend(documents(&path));
        } else if path.extension().is_some_and(|ending| ending == "md") {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// Everything in a document that may be typed: each command of each line of a block (`a && b | c` is three), and each code in
/// prose, even one that goes on in the next line.
pub fn pieces(text: &str) -> Vec<Piece> {
    let mut found = Vec::new();
    let (mut blocks, mut block, mut fenced, mut blank) = (0, None, false, true);
    let mut prose: Vec<(usize, &str)> = Vec::new();
    let mut lines = text.lines().enumerate().map(|(at, line)| (at + 1, line));
    while let Some((at, line)) = lines.next() {
        if line.trim_start().starts_with("```") {
            spans(&mut prose, &mut found);
            fenced = !fenced;
            blocks += 1;
            block = fenced.then_some(blocks);
            continue;
        }
        let indented = line.starts_with("    ") && (blank || block.is_some());
        blank = line.trim().is_empty();
        if !fenced && indented && block.is_none() {
            blocks += 1;
            block = Some(blocks);
        } else if !fenced && !indented && !blank {
            block = None;
        }
        if block.is_none() {
            if blank {
                spans(&mut prose, &mut found);
            } else {
                prose.push((at, line));
            }
            continue;
        }
        spans(&mut prose, &mut found);
        let mut whole = line.to_owned();
        while let Some(open) = whole.strip_suffix('\\') {
            let Some((_, more)) = lines.next() else { break };
            whole = format!("{open} {more}");
        }
        found.extend(commands(&whole).into_iter().map(|words| Piece { line: at, block, words }));
    }
    spans(&mut prose, &mut found);
    found
}

/// The codes of a paragraph, which is empty then.
fn spans(prose: &mut Vec<(usize, &str)>, found: &mut Vec<Piece>) {
    let (mut open, mut code): (Option<usize>, String) = (None, String::new());
    for (at, line) in prose.drain(..) {
        for (part, text) in line.split('`').enumerate() {
            if part > 0 {
                match open.take() {
                    Some(line) => {
                        let words = commands(&code);
                        found.extend(words.into_iter().map(|words| Piece { line, block: None, words }));
                        code.clear();
                    }
                    None => open = Some(at),
                }
            }
            if open.is_some() {
                code.push_str(text);
            }
        }
        code.push(' ');
    }
}

/// The words of each command of a line, as a shell parts them, up to its comment.
fn commands(line: &str) -> Vec<Vec<String>> {
    let (mut all, mut words, mut word): (Vec<Vec<String>>, Vec<String>, Option<String>) =
        (Vec::new(), Vec::new(), None);
    let mut quote = None;
    for letter in line.chars() {
        match (quote, letter) {
            (Some(open), _) if letter == open => quote = None,
            (Some(_), _) => word.get_or_insert_default().push(letter),
            // A word's own apostrophe is no quotation.
            (None, '"' | '\'') if word.is_none() => {
                quote = Some(letter);
                word.get_or_insert_default();
            }
            (None, '#') if word.is_none() => break,
            (None, _) if letter.is_whitespace() => words.extend(word.take()),
            (None, _) => word.get_or_insert_default().push(letter),
        }
    }
    words.extend(word);
    for part in words.split(|word| word == "&&" || word == "|") {
        if !part.is_empty() {
            all.push(part.to_vec());
        }
    }
    all
}

#[test]
fn blocks_and_codes_are_parted() {
    let text = "Say `a b` or `slingseal read\nX` and ``.\n\n    A=1 mvn test && b/c.sh   # why\n    x \\\n      --y 'z w'\n\nno `\n\n```\nslingseal verify s | t\n```\n";
    let told: Vec<(usize, Option<usize>, String)> =
        pieces(text).into_iter().map(|piece| (piece.line, piece.block, piece.words.join("|"))).collect();
    let told: Vec<(usize, Option<usize>, &str)> =
        told.iter().map(|(line, block, words)| (*line, *block, words.as_str())).collect();
    assert_eq!(
        told,
        [
            (1, None, "a|b"),
            (1, None, "slingseal|read|X"),
            (4, Some(1), "A=1|mvn|test"),
            (4, Some(1), "b/c.sh"),
            (5, Some(1), "x|--y|z w"),
            (11, Some(2), "slingseal|verify|s"),
            (11, Some(2), "t"),
        ]
    );
    let piece =
        Piece { line: 1, block: None, words: ["A=1", "B_2=x", "cargo", "C=1"].map(str::to_owned).to_vec() };
    let behind = ["cargo".to_owned(), "C=1".to_owned()];
    assert_eq!(piece.parted(), (vec!["A", "B_2"], behind.as_slice()));
}
