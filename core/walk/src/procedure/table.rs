//! One table of a procedure file with its Spanish beside it, and the checks that every text passes.

use slingseal_words::Part;

use super::fill::{Piece, pieces, words_of};
use super::shape::{Round, Said};

/// A table and the sub-table `es` that may stand in it.
#[derive(Debug)]
pub(super) struct Table<'f> {
    pub(super) part: Part<'f>,
    spanish: Option<Part<'f>>,
}

impl<'f> Table<'f> {
    pub(super) fn new(part: Part<'f>) -> Self {
        let spanish = part.part("es");
        Self { part, spanish }
    }

    /// A text that may be missing.
    pub(super) fn said(&self, key: &'static str) -> Option<Said> {
        let english = self.part.text(key);
        let spanish = self.spanish.as_ref().and_then(|spanish| spanish.text(key));
        if english.is_none() && spanish.is_some() {
            self.part.fault(
                key,
                format!("{key} is there in Spanish only"),
                format!("add {key} = \"…\" in English"),
            );
        }
        english.map(|english| Said { english, spanish })
    }

    /// A text that must be there.
    pub(super) fn need_said(&self, key: &'static str) -> Option<Said> {
        // `need_text` tells what is missing; the second reading finds the Spanish.
        if self.part.need_text(key).is_none() {
            // Asked for, so that the Spanish beside it is not told as a fault of its own.
            let _ = self.spanish.as_ref().map(|spanish| spanish.has(key));
            return None;
        }
        self.said(key)
    }

    /// A list of texts; the Spanish list, where there is one, has as many.
    pub(super) fn list(&self, key: &'static str) -> Vec<Said> {
        let english = self.part.texts(key);
        let spanish = match &self.spanish {
            Some(spanish) if spanish.has(key) => {
                let texts = spanish.texts(key);
                if texts.len() != english.len() {
                    spanish.fault(
                        key,
                        format!("es.{key} has {} texts and {key} has {}", texts.len(), english.len()),
                        "write one in Spanish for each in English, in the same order",
                    );
                }
                texts
            }
            _ => Vec::new(),
        };
        let mut spanish = spanish.into_iter();
        english.into_iter().map(|english| Said { english, spanish: spanish.next() }).collect()
    }

    /// Checks a text where the rounds `within` are known: one line, not too long once filled, every placeholder known.
    pub(super) fn sound(&self, key: &'static str, said: &Said, within: &[&Round], most: usize) {
        check_text(&self.part, key, &said.english, within, most, |word| &word.english);
        if let (Some(part), Some(spanish)) = (&self.spanish, &said.spanish) {
            check_text(part, key, spanish, within, most, |word| {
                word.spanish.as_deref().unwrap_or(&word.english)
            });
        }
    }

    /// A short name for an id: small letters, digits and hyphens.
    pub(super) fn need_id(&self, key: &'static str) -> Option<String> {
        self.part.need(key, |text| match plain_id(text, LONGEST_ID) {
            true => Ok(text.to_owned()),
            false => Err(format!(
                "{key} = \"{text}\" is not a short name; use small letters, digits and hyphens, at most {LONGEST_ID}"
            )),
        })
    }

    /// Tells every key that nobody asked for.
    pub(super) fn done(&self) {
        self.part.no_more();
        if let Some(spanish) = &self.spanish {
            spanish.no_more();
        }
    }
}

/// Longest short name, and longest value of a round: three of each with what joins them fit `PointId::MOST`.
pub(super) const LONGEST_ID: usize = 18;
pub(super) const LONGEST_VALUE: usize = 6;

/// Whether a text may stand in an id.
pub(super) fn plain_id(text: &str, longest: usize) -> bool {
    (1..=longest).contains(&text.len())
        && text.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-')
}

fn check_text<'w>(
    part: &Part<'_>,
    key: &'static str,
    text: &str,
    within: &[&'w Round],
    most: usize,
    word: impl Fn(&'w Said) -> &'w str,
) {
    if text.trim().is_empty() {
        part.fault(key, format!("{key} has an empty text"), "write a few words");
    }
    // The same that no name may have: what breaks a line or reorders what stands around it.
    let hostile = |c: char| c.is_control() || matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}');
    if text.contains(hostile) {
        part.fault(key, format!("{key} has a control character in it"), "write it on one line");
    }
    let Ok(pieces) = pieces(text) else {
        part.fault(key, format!("{key} has a {{ that no }} closes"), "close it, or take it out");
        return;
    };
    let mut longest = 0;
    for piece in pieces {
        longest += match piece {
            Piece::Plain(plain) => plain.chars().count(),
            Piece::Slot { round, column } => match words_of(within, round, column) {
                Some(words) => words.iter().map(|said| word(said).chars().count()).max().unwrap_or(0),
                None => {
                    let slot = column.map_or(round.to_owned(), |column| format!("{round}.{column}"));
                    part.fault(key, format!("{key}: {{{slot}}} stands for nothing here"), known(within));
                    0
                }
            },
        };
    }
    if longest > most {
        part.fault(
            key,
            format!("{key} has {longest} characters once it is filled"),
            format!("keep it to {most}"),
        );
    }
}

fn known(within: &[&Round]) -> String {
    let slots: Vec<String> = within
        .iter()
        .flat_map(|round| {
            let own = std::iter::once(format!("{{{}}}", round.name));
            own.chain(round.columns.iter().map(|column| format!("{{{}.{}}}", round.name, column.name)))
        })
        .collect();
    if slots.is_empty() {
        "no round is open here: add each = \"…\", or write the words".into()
    } else {
        format!("known here: {}", slots.join(", "))
    }
}
