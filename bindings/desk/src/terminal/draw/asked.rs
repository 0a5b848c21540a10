//! What is chosen from a list, and what is typed.

use ratatui::style::{Modifier, Style};
use ratatui::text::{Line, Span};

use super::Lines;
use crate::terminal::look::{Tone, laid, wrap};
use crate::terminal::model::{Desk, Entry, Pick};

impl Desk {
    pub(super) fn pick_lines(&self, pick: &Pick, width: usize) -> Lines {
        let mut lines = vec![Line::default()];
        // A title that the banner has no room for stands here as well.
        if pick.tone == Tone::Plain || pick.title.chars().count() > width + 3 {
            lines.extend(self.title(&pick.title, width));
        }
        for lead in &pick.lead {
            lines.extend(wrap(lead, width).into_iter().map(Line::from));
        }
        lines.push(Line::default());
        let shown = pick.items.iter().skip(pick.from).take(9).enumerate();
        for (at, item) in shown.filter(|(_, item)| !item.is_gap()) {
            for (row, words) in laid(&item.words, width.saturating_sub(3)).into_iter().enumerate() {
                let lead = if row == 0 { format!("{}  ", at + 1) } else { "   ".into() };
                lines.push(Line::from(vec![
                    Span::styled(lead, self.look.words(Tone::Strong)),
                    Span::styled(words, self.look.words(item.tone)),
                ]));
            }
        }
        lines
    }

    pub(super) fn entry_lines(&self, entry: &Entry, width: usize) -> Lines {
        let mut lines = vec![Line::default()];
        lines.extend(self.title(&entry.title, width));
        for lead in &entry.lead {
            lines.extend(wrap(lead, width).into_iter().map(Line::from));
        }
        lines.push(Line::default());
        let typed =
            if entry.hidden() { "*".repeat(entry.text.chars().count()) } else { entry.text.to_string() };
        let long = typed.chars().count().saturating_sub(width.saturating_sub(12));
        let shown: String = typed.chars().skip(long).collect();
        let unit = if entry.unit.is_empty() { String::new() } else { format!("  {}", entry.unit) };
        lines.push(Line::from(vec![
            Span::styled("> ", self.look.words(Tone::Strong)),
            Span::styled(shown, self.look.words(Tone::Strong)),
            Span::styled(" ", Style::new().add_modifier(Modifier::REVERSED)),
            Span::raw(unit),
        ]));
        lines
    }
}
