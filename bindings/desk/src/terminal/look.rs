//! How things look: a shape and a word always, colour on top where the terminal has it.

use ratatui::style::{Color, Modifier, Style};
use slingseal_app::catalogue::{Saying, terminal as words};
use slingseal_app::{CardState, FateView, FindingState, PointState};

/// Letters in a line of running text.
pub(super) const TEXT_WIDTH: usize = 76;

/// What a piece of text means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Tone {
    Plain,
    Strong,
    Good,
    Bad,
    Wait,
    Practice,
}

/// Whether colours are used; the sixteen that every terminal has.
#[derive(Clone, Copy, Debug)]
pub(super) struct Look {
    pub(super) colour: bool,
}

impl Look {
    /// Colour unless the user asked for none (no-color.org) or the terminal has none.
    pub(super) fn of_environment() -> Self {
        Self { colour: crate::console::wants_colour() }
    }

    /// Words in a line. A coloured one stands on a ground of its own: green or yellow ink alone cannot be read on a light terminal, nor
    /// a dark one on a dark.
    pub(super) fn words(self, tone: Tone) -> Style {
        match tone {
            Tone::Plain => Style::new(),
            Tone::Good | Tone::Bad | Tone::Wait | Tone::Practice if self.colour => self.bar(tone),
            _ => Style::new().add_modifier(Modifier::BOLD),
        }
    }

    /// A bar across the screen.
    pub(super) fn bar(self, tone: Tone) -> Style {
        let style = Style::new().add_modifier(Modifier::BOLD);
        match (self.colour, tone) {
            (true, Tone::Good) => style.fg(Color::Black).bg(Color::Green),
            (true, Tone::Bad) => style.fg(Color::White).bg(Color::Red),
            (true, Tone::Wait | Tone::Practice) => style.fg(Color::Black).bg(Color::Yellow),
            _ => style.add_modifier(Modifier::REVERSED),
        }
    }
}

/// Shape, word and tone of how a card stands.
pub(super) fn card(state: CardState) -> (&'static str, Saying, Tone) {
    match state {
        CardState::Unanswered => ("[ ]", words::StateNotAnswered.into(), Tone::Plain),
        CardState::Partly => ("[/]", words::StatePartly.into(), Tone::Plain),
        CardState::Good => ("[+]", words::StateGood.into(), Tone::Good),
        CardState::Deficient => ("[!]", words::StateDeficient.into(), Tone::Bad),
        CardState::AwaitsSecondLook => ("[?]", words::StateAwaits.into(), Tone::Wait),
    }
}

/// The same of a point.
pub(super) fn point(state: PointState) -> (&'static str, Saying, Tone) {
    match state {
        PointState::Unanswered => ("[ ]", Saying::verbatim(""), Tone::Plain),
        PointState::Good => ("[+]", words::PointGood.into(), Tone::Good),
        PointState::Deficient => ("[!]", words::StateDeficient.into(), Tone::Bad),
        PointState::AwaitsSecondLook => ("[?]", words::PointAwaits.into(), Tone::Wait),
    }
}

/// The same of a finding.
pub(super) fn finding(state: FindingState) -> (&'static str, Saying, Tone) {
    match state {
        FindingState::Open => ("[!]", words::FindingOpen.into(), Tone::Bad),
        FindingState::PutRight => ("[?]", words::StateAwaits.into(), Tone::Wait),
        FindingState::Closed => ("[+]", words::FindingIsClosed.into(), Tone::Good),
    }
}

/// One letter for the map of the walk.
pub(super) fn mark(state: CardState) -> char {
    match state {
        CardState::Unanswered => '.',
        CardState::Partly => '/',
        CardState::Good => '+',
        CardState::Deficient => '!',
        CardState::AwaitsSecondLook => '?',
    }
}

/// Lines of at most so many letters, broken at blanks.
pub(super) fn wrap(text: &str, width: usize) -> Vec<String> {
    let width = width.max(8);
    let mut lines = Vec::new();
    for paragraph in text.lines() {
        let mut line = String::new();
        let mut used = 0;
        for word in paragraph.split_whitespace() {
            let mut letters: Vec<char> = word.chars().collect();
            if used > 0 && used + 1 + letters.len() > width {
                lines.push(std::mem::take(&mut line));
                used = 0;
            }
            if used > 0 {
                line.push(' ');
                used += 1;
            }
            while letters.len() > width {
                let rest = letters.split_off(width);
                lines.push(letters.iter().collect());
                letters = rest;
            }
            line.extend(&letters);
            used += letters.len();
        }
        lines.push(line);
    }
    if lines.is_empty() { vec![String::new()] } else { lines }
}

/// A text as it was laid out: a line that fits stays as it is, blanks and all, and only a longer one is broken. A table that
/// is too wide is told row by row, each cell behind the word at the head of its column.
pub(super) fn laid(text: &str, width: usize) -> Vec<String> {
    let width = width.max(8);
    let lines: Vec<&str> = text.lines().collect();
    let mut out = Vec::new();
    let mut rest = lines.as_slice();
    while let Some((line, after)) = rest.split_first() {
        let rows = rest.iter().take_while(|line| cells(line).is_some()).count();
        let table = rest.get(..rows).unwrap_or_default();
        if rows > 1 && table.iter().any(|row| row.chars().count() > width) {
            out.extend(told_by_row(table, width));
            rest = rest.get(rows..).unwrap_or_default();
            continue;
        }
        if line.chars().count() <= width {
            out.push((*line).to_owned());
        } else {
            out.extend(wrap(line, width));
        }
        rest = after;
    }
    if out.is_empty() { vec![String::new()] } else { out }
}

/// The cells of a table's row: three or more, with two blanks or more between them.
fn cells(line: &str) -> Option<Vec<&str>> {
    let cells: Vec<&str> = line.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).collect();
    (cells.len() > 2 && !line.starts_with(' ')).then_some(cells)
}

fn told_by_row(table: &[&str], width: usize) -> Vec<String> {
    let Some((head, rows)) = table.split_first() else { return Vec::new() };
    let head = cells(head).unwrap_or_default();
    let mut out = Vec::new();
    for row in rows.iter().filter_map(|row| cells(row)) {
        let mut named = row.iter().zip(&head);
        if let Some((name, what)) = named.next() {
            out.push(format!("{what} {name}"));
        }
        for (cell, name) in named {
            out.extend(
                wrap(&format!("{name}: {cell}"), width.saturating_sub(2))
                    .into_iter()
                    .map(|line| format!("  {line}")),
            );
        }
    }
    out
}

/// The first letters of a text, with an ellipsis where some are left out.
pub(super) fn cut(text: &str, width: usize) -> String {
    if text.chars().count() <= width {
        return text.to_owned();
    }
    let mut cut: String = text.chars().take(width.saturating_sub(1)).collect();
    cut.push('…');
    cut
}

/// What becomes of a load, or of a piece, behind the name of a deficiency; nothing where it can be corrected in place.
pub(super) fn fate_words(fate: FateView) -> Saying {
    match fate {
        FateView::InPlace => Saying::verbatim(""),
        FateView::Rerig => words::FateRerig.into(),
        FateView::NewTag => words::FateNewTag.into(),
        FateView::Reject => words::FateReject.into(),
    }
}
