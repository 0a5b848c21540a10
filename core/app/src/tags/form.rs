//! A form's fields, and the file that is written of them: which field each line is from.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use slingseal_rigging::RiggedLoad;

use crate::{AppError, Language};

/// The values of a form by the names of its fields: `mass`, `centre.x`, `hook.0.name`, `leg.2.seated`. What is not there is empty.
pub type RiggingFields = BTreeMap<String, String>;

/// What is wrong with a form.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FieldFault {
    /// The field; empty where it is of the whole.
    pub field: String,
    /// What is wrong; what to do.
    pub words: String,
}

/// Which field each line of a file is from.
pub(super) struct Lines(Vec<String>);

impl Lines {
    /// What an error says of the file, each line with its field.
    pub(super) fn faults(&self, error: &AppError, language: Language) -> Vec<FieldFault> {
        error.saying().say(language).lines().map(|line| fault_of(line, &self.0)).collect()
    }
}

/// A file while it is written.
pub(super) struct File<'f> {
    fields: &'f RiggingFields,
    text: String,
    lines: Vec<String>,
}

impl<'f> File<'f> {
    /// Nothing is written yet.
    pub(super) fn new(fields: &'f RiggingFields) -> Self {
        Self { fields, text: String::new(), lines: Vec::new() }
    }

    /// The text, and its lines' fields.
    pub(super) fn done(self) -> (String, Lines) {
        (self.text, Lines(self.lines))
    }

    pub(super) fn get(&self, field: &str) -> &str {
        self.fields.get(field).map(|value| value.trim()).unwrap_or_default()
    }

    pub(super) fn put(&mut self, line: &str, field: &str) {
        let _ = writeln!(self.text, "{line}");
        self.lines.push(field.to_owned());
    }

    pub(super) fn some(&mut self, key: &str, field: &str) {
        let value = quoted(self.get(field));
        if value.len() > 2 {
            self.put(&format!("{key} = {value}"), field);
        }
    }

    pub(super) fn place(&mut self, key: &str, field: &str) {
        let [x, y, z] = ["x", "y", "z"].map(|axis| format!("{field}.{axis}"));
        self.put(&format!("{key} = ["), &x);
        for axis in [&x, &y, &z] {
            self.put(&format!("{},", quoted(self.get(axis))), axis);
        }
        self.put("]", &x);
    }

    /// Lines `name | rating | source`, and for a common part `| hook`.
    pub(super) fn parts(&mut self, table: &str, field: &str) {
        let text = self.get(field).to_owned();
        for line in text.lines().map(str::trim).filter(|line| !line.is_empty()) {
            let cells: Vec<&str> = line.split('|').map(str::trim).collect();
            self.put(table, field);
            for (key, cell) in ["name", "rated", "source", "hook"].iter().zip(cells) {
                if !cell.is_empty() {
                    self.put(&format!("{key} = {}", quoted(cell)), field);
                }
            }
        }
    }

    /// The numbers under which there is anything, of eight.
    pub(super) fn numbers(&self, what: &str) -> Vec<usize> {
        let there = |at: &usize| !self.get(&format!("{what}.{at}.name")).is_empty();
        (0..RiggedLoad::MOST_LEGS).filter(there).collect()
    }

    /// The numbers of rows in which anything stands, of so many.
    pub(super) fn rows(&self, what: &str, most: usize) -> Vec<usize> {
        let filled = |at: &usize| {
            let before = format!("{what}.{at}.");
            self.fields.iter().any(|(name, value)| name.starts_with(&before) && !value.trim().is_empty())
        };
        (0..most).filter(filled).collect()
    }
}

pub(super) fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for letter in text.chars().filter(|letter| !letter.is_control()) {
        if matches!(letter, '"' | '\\') {
            out.push('\\');
        }
        out.push(letter);
    }
    out + "\""
}

fn fault_of(line: &str, lines: &[String]) -> FieldFault {
    let told = || {
        let (place, words) = line.split_once(": ")?;
        let (number, _) = place.split_once(':')?;
        let field = lines.get(number.parse::<usize>().ok()?.checked_sub(1)?)?;
        Some(FieldFault { field: field.clone(), words: words.to_owned() })
    };
    told().unwrap_or_else(|| FieldFault { field: String::new(), words: line.to_owned() })
}
