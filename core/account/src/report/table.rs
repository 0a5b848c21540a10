//! Comma-separated values by RFC 4180, safe to open in a spreadsheet.

use std::fmt::Write as _;

/// One field.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// What a person wrote: quoted, and never taken for a formula.
    Text(String),
    /// A number, time or word of ours: written as it is.
    Plain(String),
    /// Nothing known.
    Empty,
}

impl Cell {
    /// A text, or nothing where it is empty.
    pub fn text(text: &str) -> Self {
        if text.is_empty() { Self::Empty } else { Self::Text(text.to_owned()) }
    }

    /// A number or word of ours.
    pub fn plain(value: impl std::fmt::Display) -> Self {
        Self::Plain(value.to_string())
    }
}

/// What a spreadsheet takes for the beginning of a formula (OWASP, "CSV Injection"), the full-width forms that some of them
/// fold, and the guard itself, so that a reader can take one apostrophe off wherever a text begins with one.
const GUARDED: [char; 12] = ['=', '+', '-', '@', '\t', '\r', '\n', '\'', '＝', '＋', '－', '＠'];

/// A text that no spreadsheet takes for a formula.
pub fn guarded(text: &str) -> String {
    format!("{}{text}", if text.starts_with(GUARDED) { "'" } else { "" })
}

/// One line with its end, CR LF.
pub fn line(cells: &[Cell]) -> String {
    let mut line = String::new();
    for (at, cell) in cells.iter().enumerate() {
        if at > 0 {
            line.push(',');
        }
        match cell {
            Cell::Empty => {}
            Cell::Plain(value) => line.push_str(value),
            Cell::Text(text) => {
                // Writing to a String cannot fail.
                let _ = write!(line, "\"{}\"", guarded(text).replace('"', "\"\""));
            }
        }
    }
    line.push_str("\r\n");
    line
}

#[cfg(test)]
mod tests {
    use super::{Cell, line};

    #[test]
    fn quotes_and_guards() {
        let cells = [
            Cell::text("Mason 5"),
            Cell::Empty,
            Cell::plain(-4.5),
            Cell::text("=HYPERLINK(\"x\",\"y\")"),
            Cell::text("'quoted"),
            Cell::text("two\nlines, and a comma"),
        ];
        let want = "\"Mason 5\",,-4.5,\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\",\"''quoted\",\"two\nlines, and a comma\"\r\n";
        assert_eq!(line(&cells), want);
        for start in ["+1", "-1", "@a", "\tx", "\rx", "＝1"] {
            assert!(line(&[Cell::text(start)]).starts_with("\"'"), "{start}");
        }
    }
}
