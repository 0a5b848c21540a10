//! A card with its points, and all cards at a glance.

use ratatui::style::Modifier;
use ratatui::text::{Line, Span};
use slingseal_app::catalogue::terminal as words;
use slingseal_app::{CardView, PointKind, WalkView};

use super::{Lines, WIDE};
use crate::terminal::look::{self, Tone, cut, wrap};
use crate::terminal::model::Desk;

impl Desk {
    pub(super) fn card_lines(&self, card: &CardView, width: usize) -> Lines {
        let mut lines = vec![Line::default()];
        lines.extend(self.title(&card.title, width));
        lines.extend(wrap(&card.motion, width).into_iter().map(Line::from));
        if let Some(caution) = &card.caution {
            let wrapped = wrap(&format!("! {caution}"), width);
            lines.extend(wrapped.into_iter().map(|line| Line::styled(line, self.look.words(Tone::Wait))));
        }
        lines.push(Line::default());
        for (at, point) in card.points.iter().enumerate() {
            let (shape, word, tone) = look::point(point.state);
            let word = word.say(self.language);
            let wanted = match &point.kind {
                _ if point.answer.is_some() => point.answer.clone().unwrap_or_default(),
                PointKind::Look => String::new(),
                PointKind::Count { .. } => words::PointCount.say(self.language),
                PointKind::Choice { .. } => words::PointChoose.say(self.language),
                PointKind::Measure { unit, .. } => words::PointMeasure { unit: &unit }.say(self.language),
                PointKind::Serial => words::SerialNumber.say(self.language),
                PointKind::Text => words::AnswerInWords.say(self.language),
            };
            let tail = [wanted.as_str(), word.as_str()]
                .into_iter()
                .filter(|part| !part.is_empty())
                .collect::<Vec<_>>();
            let tail = tail.join("  ");
            let long = tail.chars().count();
            let mut prompt = wrap(&point.prompt, width.saturating_sub(7));
            // What is asked is never cut; the answer stands behind it where there is room, else on a line of its own.
            let last = prompt.last().map_or(0, |line| line.chars().count());
            if long > 0 && last + long + 9 > width {
                prompt.push(String::new());
            }
            let rows = prompt.len();
            for (row, words) in prompt.into_iter().enumerate() {
                let ends = row + 1 == rows;
                let gap = if ends { width.saturating_sub(7 + words.chars().count() + long) } else { 0 };
                let lead = if row == 0 {
                    [
                        Span::styled(format!("{} ", at + 1), self.look.words(Tone::Strong)),
                        Span::styled(format!("{shape} "), self.look.words(tone)),
                    ]
                } else {
                    [Span::raw("  "), Span::raw("    ")]
                };
                let mut spans = lead.to_vec();
                spans.push(Span::raw(format!("{words}{}", " ".repeat(gap))));
                if ends {
                    spans.push(Span::styled(cut(&tail, width.saturating_sub(6)), self.look.words(tone)));
                }
                lines.push(Line::from(spans));
            }
        }
        lines
    }

    /// All cards in columns by station, and what is typed.
    pub(super) fn cards_lines(&self, typed: &str, width: usize) -> Lines {
        let Some(view) = &self.view else { return Vec::new() };
        let mut lines = self.title(&words::AskCardNumber { typed: &typed }.say(self.language), width);
        let here = view.card.as_ref().map(|card| card.number);
        if width < WIDE - 4 {
            lines.extend(self.narrow_cards(view, width));
            lines.push(Line::from(words::GoodDeficientReinspect.say(self.language)));
            lines.push(Line::from(words::PartlyNotAnswered.say(self.language)));
            return lines;
        }
        // Two stations of one or two cards share a row: a list has more stations than a window has rows.
        let mut half = false;
        for station in &view.stations {
            let few = station.last <= station.first.saturating_add(1);
            let mut spans = match lines.pop_if(|_| half && few) {
                Some(row) => row.spans,
                None => Vec::new(),
            };
            half = few && spans.is_empty();
            if !spans.is_empty() {
                let used: usize = spans.iter().map(|span| span.content.chars().count()).sum();
                spans.push(Span::raw(" ".repeat(40_usize.saturating_sub(used))));
            }
            spans.push(Span::raw(format!("{:<26}", cut(&station.title, 25))));
            let mut used = 26;
            for number in station.first..=station.last {
                let at = usize::try_from(number).unwrap_or(0).saturating_sub(1);
                let Some(state) = view.cards.get(at) else { continue };
                let (_, _, tone) = look::card(*state);
                if used + 6 > width {
                    lines.push(Line::from(std::mem::take(&mut spans)));
                    spans.push(Span::raw(" ".repeat(26)));
                    used = 26;
                }
                let style = if here == Some(number) {
                    self.look.words(Tone::Strong).add_modifier(Modifier::REVERSED)
                } else {
                    self.look.words(tone)
                };
                spans.push(Span::styled(format!("{number:>3}{}", look::mark(*state)), style));
                spans.push(Span::raw("  "));
                used += 6;
            }
            lines.push(Line::from(spans));
        }
        lines.push(Line::from(words::GoodDeficientReinspectPartlyNot.say(self.language)));
        lines
    }

    /// The same without columns: a station's name, and its cards below it.
    fn narrow_cards(&self, view: &WalkView, width: usize) -> Lines {
        let here = view.card.as_ref().map(|card| card.number);
        let mut lines = Vec::new();
        for station in &view.stations {
            lines.push(Line::from(cut(&station.title, width)));
            let mut spans = Vec::new();
            for number in station.first..=station.last {
                let at = usize::try_from(number).unwrap_or(0).saturating_sub(1);
                let Some(state) = view.cards.get(at) else { continue };
                let (_, _, tone) = look::card(*state);
                let style = self.look.words(if here == Some(number) { Tone::Strong } else { tone });
                let style = if here == Some(number) { style.add_modifier(Modifier::REVERSED) } else { style };
                if (spans.len() + 1) * 6 > width {
                    lines.push(Line::from(std::mem::take(&mut spans)));
                }
                spans.push(Span::styled(format!("{number:>4}{} ", look::mark(*state)), style));
            }
            lines.push(Line::from(spans));
        }
        lines
    }
}
