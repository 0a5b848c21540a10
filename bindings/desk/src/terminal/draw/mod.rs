//! Draws the pages. Nothing is told by colour alone: a shape and a word stand with it.

mod asked;
mod cards;
mod end;
mod foot;
mod head;
mod seal;

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::style::{Modifier, Style};
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;
use slingseal_app::catalogue::terminal as words;
use slingseal_app::{DrawnCell, FindingState, Language, WalkStage, WalkView};

use self::foot::hint_lines;
use super::look::{TEXT_WIDTH, Tone, laid, wrap};
use super::model::{Desk, Page};
use crate::console::visible_symbol;

/// The least that every page fits in.
pub(super) const LEAST: (u16, u16) = (40, 24);
/// From this width on a page has room for columns.
pub(super) const WIDE: usize = 80;

/// How many cells wide the load is drawn, half as many high.
const DRAWN: usize = 44;

/// Lines for one page, top to bottom.
type Lines = Vec<Line<'static>>;

/// Whether the window is large enough to answer in.
pub(super) fn fits(width: u16, height: u16) -> bool {
    width >= LEAST.0 && height >= LEAST.1
}

impl Desk {
    /// Draws the page; then the door: no cell keeps what a terminal would obey or hide.
    pub(super) fn draw(&mut self, frame: &mut Frame<'_>) {
        self.draw_page(frame);
        for cell in &mut frame.buffer_mut().content {
            if let Some(symbol) = visible_symbol(cell.symbol()) {
                cell.set_symbol(&symbol);
            }
        }
    }

    fn draw_page(&mut self, frame: &mut Frame<'_>) {
        let area = frame.area();
        if !fits(area.width, area.height) {
            return too_small(frame, area, self.language);
        }
        if let Page::Seal { seal, code } = &self.page {
            seal::draw(frame, seal, *code, self);
            return;
        }
        let width = usize::from(area.width);
        let hint_rows = hint_lines(self.look, self.hints(), width);
        let flash_rows = self.flash_lines(width);
        let (keys, told) = (small(hint_rows.len()), small(flash_rows.len()));
        let drawing = self.drawing(area);
        let aside = drawing.as_ref().map_or(0, |_| DRAWN + 4);
        self.width = width.saturating_sub(4 + aside).min(TEXT_WIDTH);
        self.room = usize::from(area.height.saturating_sub(12 + keys + told));
        let lines = self.body(width.saturating_sub(4 + aside));
        let spare = usize::from(area.height.saturating_sub(4 + keys + told));
        let status_rows = self.status_height(spare, lines.len(), width);
        let [head, bar, body, status, flash, hints] = Layout::vertical([
            Constraint::Length(3),
            Constraint::Length(1),
            Constraint::Min(4),
            Constraint::Length(status_rows),
            Constraint::Length(told),
            Constraint::Length(keys),
        ])
        .areas(area);
        frame.render_widget(Paragraph::new(self.head(width)), head);
        let (words, tone) = self.banner(width);
        frame.render_widget(Paragraph::new(format!(" {words}")).style(self.look.bar(tone)), bar);
        let inner = Rect { x: body.x + 2, width: body.width.saturating_sub(4), ..body };
        let height = usize::from(inner.height);
        let lines = self.part_of(lines, height);
        if let Some(drawing) = drawing {
            let wide = small(DRAWN).min(inner.width);
            let beside = Rect { x: inner.right().saturating_sub(wide), width: wide, ..inner };
            frame.render_widget(Paragraph::new(drawing), beside);
        }
        frame.render_widget(
            Paragraph::new(lines),
            Rect { width: inner.width.saturating_sub(small(aside)), ..inner },
        );
        frame.render_widget(Paragraph::new(self.status(width, usize::from(status_rows))), status);
        frame.render_widget(Paragraph::new(flash_rows), flash);
        frame.render_widget(Paragraph::new(hint_rows), hints);
    }

    /// The part of a page that has room. What is typed into stands at the end; anything else is read from the top, and + brings
    /// the next part before it does anything else: nobody answers what was not on the screen.
    fn part_of(&mut self, mut lines: Lines, height: usize) -> Lines {
        self.more_below = false;
        if lines.len() <= height {
            return lines;
        }
        if matches!(self.page, Page::Entry(_)) {
            return lines.split_off(lines.len() - height);
        }
        let part = height.saturating_sub(1).max(1);
        self.scrolled = self.scrolled.min(lines.len().saturating_sub(height));
        let left = lines.len() - self.scrolled;
        self.part = part;
        let mut shown: Lines = lines.split_off(self.scrolled);
        if left > height {
            self.more_below = true;
            shown.truncate(part);
            shown.push(Line::styled(
                words::MoreLinesShowsThem { left: left - part }.say(self.language),
                self.look.words(Tone::Wait),
            ));
        }
        shown
    }

    fn body(&self, width: usize) -> Lines {
        match &self.page {
            Page::Walk => match &self.view {
                Some(view) => match (&view.stage, &view.card) {
                    (WalkStage::Walking, Some(card)) => self.card_lines(card, width),
                    _ if self.run.is_some() => {
                        self.run.as_ref().map(|run| self.run_lines(run, width)).unwrap_or_default()
                    }
                    _ => self.end_lines(view, width),
                },
                None => Vec::new(),
            },
            Page::Pick(pick) => self.pick_lines(pick, width),
            Page::Entry(entry) => self.entry_lines(entry, width),
            Page::Cards { typed } => self.cards_lines(typed, width),
            Page::Text { title, text, from, .. } => {
                let mut lines = vec![Line::default()];
                lines.extend(self.title(title, width));
                lines.push(Line::default());
                lines.extend(laid(text, self.width).into_iter().skip(*from).take(self.room).map(Line::from));
                lines
            }
            Page::Seal { .. } => Vec::new(),
        }
    }

    /// The load beside its card, with what the card is about turned round, where the window is wide and high enough for both.
    fn drawing(&self, area: Rect) -> Option<Lines> {
        let view =
            self.view.as_ref().filter(|view| view.stage == WalkStage::Walking && view.card.is_some())?;
        let roomy =
            usize::from(area.width) >= TEXT_WIDTH + DRAWN + 8 && usize::from(area.height) >= DRAWN / 2 + 12;
        if !roomy || !matches!(self.page, Page::Walk) || self.run.is_some() {
            return None;
        }
        let rows = self.app.walk_drawing_cells(&view.walk, DRAWN).ok()??;
        let style = |marked: bool| {
            if marked {
                self.look.words(Tone::Strong).add_modifier(Modifier::REVERSED)
            } else {
                Style::default()
            }
        };
        let line = |row: Vec<DrawnCell>| {
            Line::from(
                row.into_iter()
                    .map(|cell| Span::styled(cell.sign.to_string(), style(cell.marked)))
                    .collect::<Vec<_>>(),
            )
        };
        Some(rows.into_iter().map(line).collect())
    }

    /// A page's title, in as many lines as it needs.
    fn title(&self, words: &str, width: usize) -> Lines {
        let style = self.look.words(Tone::Strong);
        wrap(words, width).into_iter().map(|line| Line::styled(line, style)).collect()
    }
}

fn small(number: usize) -> u16 {
    u16::try_from(number).unwrap_or(u16::MAX)
}

fn open_findings(view: &WalkView) -> usize {
    view.findings.iter().filter(|finding| finding.state != FindingState::Closed).count()
}

fn too_small(frame: &mut Frame<'_>, area: Rect, language: Language) {
    let (width, height) = LEAST;
    let words = words::WindowTooSmall { width: &width, height: &height }.say(language);
    let lines: Lines =
        wrap(&words, usize::from(area.width).saturating_sub(1)).into_iter().map(Line::from).collect();
    frame.render_widget(Paragraph::new(lines), area);
}
