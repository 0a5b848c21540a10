//! One table of a procedure file with what it says in other languages beside it, and the checks that every text passes.

use slingseal_catalogue::files as words;
use slingseal_words::{Part, Saying};

use super::fill::{Piece, pieces, words_of};
use super::shape::{Round, Said};
use super::tongue::TONGUES;

/// A table and the sub-tables of other languages that may stand in it: `es`, or another of two letters.
#[derive(Debug)]
pub(super) struct Table<'f> {
    pub(super) part: Part<'f>,
    told: Vec<(&'static str, Part<'f>)>,
}

impl<'f> Table<'f> {
    pub(super) fn new(part: Part<'f>) -> Self {
        // Asked for by name, so that a fault elsewhere in the table tells that it may be there.
        let _ = part.has("es");
        let told = part.parts_named(TONGUES);
        Self { part, told }
    }

    /// A text that may be missing.
    pub(super) fn said(&self, key: &'static str) -> Option<Said> {
        let english = self.part.text(key);
        let told: Vec<(&'static str, String)> =
            self.told.iter().filter_map(|(code, part)| Some((*code, part.text(key)?))).collect();
        if let (None, Some((code, _))) = (&english, told.first()) {
            self.part.fault(
                key,
                words::ThereInLanguageOnly { key: &key, code: &code },
                words::AddInEnglish { key: &key },
            );
        }
        english.map(|english| Said { english, told })
    }

    /// A text that must be there.
    pub(super) fn need_said(&self, key: &'static str) -> Option<Said> {
        // `need_text` tells what is missing; the second reading finds what is said in other languages.
        if self.part.need_text(key).is_none() {
            // Asked for, so that another language beside it is not told as a fault of its own.
            self.told.iter().for_each(|(_, part)| {
                let _ = part.has(key);
            });
            return None;
        }
        self.said(key)
    }

    /// A list of texts; in another language, where it is there, it has as many.
    pub(super) fn list(&self, key: &'static str) -> Vec<Said> {
        let mut list: Vec<Said> = self.part.texts(key).into_iter().map(Said::plain).collect();
        for (code, part) in self.told.iter().filter(|(_, part)| part.has(key)) {
            let texts = part.texts(key);
            if texts.len() != list.len() {
                part.fault(
                    key,
                    words::TextsAndEnglish {
                        code: &code,
                        key: &key,
                        texts: &texts.len(),
                        english: &list.len(),
                    },
                    words::OneForEachInEnglish { code: *code },
                );
            }
            list.iter_mut().zip(texts).for_each(|(said, text)| said.told.push((code, text)));
        }
        list
    }

    /// Checks a text where the rounds `within` are known: one line, not too long once filled, every placeholder known.
    pub(super) fn sound(&self, key: &'static str, said: &Said, within: &[&Round], most: usize) {
        check_text(&self.part, key, &said.english, within, most, |word| &word.english);
        for (code, text) in &said.told {
            if let Some((_, part)) = self.told.iter().find(|(known, _)| known == code) {
                check_text(part, key, text, within, most, |word| word.told_in(code).unwrap_or(&word.english));
            }
        }
    }

    /// A short name for an id: small letters, digits and hyphens.
    pub(super) fn need_id(&self, key: &'static str) -> Option<String> {
        self.part.need(key, |text| match plain_id(text, LONGEST_ID) {
            true => Ok(text.to_owned()),
            false => Err(words::NotAShortName { key: &key, text: &text, most: LONGEST_ID }.saying()),
        })
    }

    /// Tells every key that nobody asked for.
    pub(super) fn done(&self) {
        self.part.no_more();
        self.told.iter().for_each(|(_, part)| part.no_more());
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
        part.fault(key, words::EmptyText { key: &key }, words::WriteFewWords);
    }
    // The same that no name may have: what breaks a line or reorders what stands around it.
    let hostile = |c: char| c.is_control() || matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}');
    if text.contains(hostile) {
        part.fault(key, words::ControlCharacter { key: &key }, words::WriteOnOneLine);
    }
    let Ok(pieces) = pieces(text) else {
        part.fault(key, words::BraceNotClosed { key }, words::CloseOrTakeOut);
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
                    part.fault(
                        key,
                        words::StandsForNothing { key, slot: format!("{{{slot}}}") },
                        known(within),
                    );
                    0
                }
            },
        };
    }
    if longest > most {
        part.fault(
            key,
            words::TooLongFilled { key: &key, longest: &longest },
            words::KeepItTo { most: &most },
        );
    }
}

fn known(within: &[&Round]) -> Saying {
    let slots: Vec<String> = within
        .iter()
        .flat_map(|round| {
            let own = std::iter::once(format!("{{{}}}", round.name));
            own.chain(round.columns.iter().map(|column| format!("{{{}.{}}}", round.name, column.name)))
        })
        .collect();
    if slots.is_empty() {
        words::NoRoundOpen.into()
    } else {
        words::KnownHere { known: slots.join(", ") }.into()
    }
}
