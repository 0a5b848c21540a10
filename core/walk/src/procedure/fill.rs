//! Placeholders: `{side}` stands for the round's words, `{web.gate}` for a column of them.

use super::shape::{Round, Said};
use super::tongue::Tongue;

/// A part of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Piece<'t> {
    Plain(&'t str),
    Slot { round: &'t str, column: Option<&'t str> },
}

/// A `{` that no `}` closes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Unclosed;

/// Cuts a text at its placeholders.
pub(super) fn pieces(text: &str) -> Result<Vec<Piece<'_>>, Unclosed> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        let (slot, behind) = after.split_once('}').ok_or(Unclosed)?;
        let slot = match slot.split_once('.') {
            Some((round, column)) => Piece::Slot { round, column: Some(column) },
            None => Piece::Slot { round: slot, column: None },
        };
        found.extend([Piece::Plain(before), slot]);
        rest = behind;
    }
    found.push(Piece::Plain(rest));
    Ok(found)
}

/// The words that a placeholder stands for, one a value of the round; `None` where nothing goes by that name.
pub(super) fn words_of<'r>(rounds: &[&'r Round], round: &str, column: Option<&str>) -> Option<&'r [Said]> {
    let round = rounds.iter().find(|known| known.name == round)?;
    match column {
        None => Some(&round.words),
        Some(column) => {
            round.columns.iter().find(|known| known.name == column).map(|known| known.words.as_slice())
        }
    }
}

/// The rounds that a station, card or point stands in, each with the place of its value.
#[derive(Clone, Debug, Default)]
pub(super) struct Scope<'r>(Vec<(&'r Round, usize)>);

impl<'r> Scope<'r> {
    /// This scope, once for each value of `round`; once unchanged where there is none. With what to put behind an id.
    pub(super) fn over(&self, round: Option<&'r Round>) -> Vec<(String, Self)> {
        let Some(round) = round else { return vec![(String::new(), self.clone())] };
        let one = |(at, value): (usize, &String)| {
            let mut inner = self.clone();
            inner.0.push((round, at));
            (format!("-{value}"), inner)
        };
        round.values.iter().enumerate().map(one).collect()
    }

    /// The text with its placeholders filled. `check` has seen to it that all can be.
    pub(super) fn fill(&self, said: &Said, tongue: Tongue) -> String {
        self.fill_text(said.within(tongue), tongue)
    }

    pub(super) fn fill_text(&self, text: &str, tongue: Tongue) -> String {
        let Ok(pieces) = pieces(text) else { return text.to_owned() };
        let words = |piece: Piece<'_>| match piece {
            Piece::Plain(plain) => plain.to_owned(),
            Piece::Slot { round, column } => self.word(round, column, tongue).unwrap_or_default(),
        };
        pieces.into_iter().map(words).collect()
    }

    fn word(&self, round: &str, column: Option<&str>, tongue: Tongue) -> Option<String> {
        let (bound, at) = self.0.iter().find(|(bound, _)| bound.name == round)?;
        let words = words_of(&[bound], round, column)?;
        words.get(*at).map(|said| said.within(tongue).to_owned())
    }
}
