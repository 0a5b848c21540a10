//! Draws the pages. Nothing is told by colour alone: a shape and a word stand with it.

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::style::{Modifier, Style};
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;
use slingseal_app::catalogue::terminal as words;
use slingseal_app::{
    CardView, DrawnCell, FindingState, Language, NextStep, PointKind, Subject, WalkStage, WalkView,
};

use super::foot::hint_lines;
use super::look::{self, TEXT_WIDTH, Tone, cut, laid, wrap};
use super::model::{Desk, Entry, Page, Pick};
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
            super::draw_seal::draw(frame, seal, *code, self);
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

    /// Load, inspector, where in the walk, and the walk as a row of marks.
    pub(super) fn head(&self, width: usize) -> Lines {
        let mut first = Vec::new();
        let mut room = width.saturating_sub(1);
        let bands = [
            self.practice.then(|| words::PracticeBand.say(self.language)),
            self.run.is_some().then(|| words::ExaminationBand.say(self.language)),
        ];
        for band in bands.into_iter().flatten() {
            room = room.saturating_sub(band.chars().count());
            first.push(Span::styled(band, self.look.bar(Tone::Practice)));
        }
        let Some(view) = &self.view else {
            let who = self.start.holder.clone().unwrap_or_default();
            let name = words::SlingsealInspect.say(self.language);
            let name = cut(&name, room.saturating_sub(who.chars().count() + 1));
            room = room.saturating_sub(name.chars().count());
            first.push(Span::styled(name, self.look.words(Tone::Strong)));
            first.push(right(room, &who));
            let rule = wrap(&words::ManualRulesProgramAssists.say(self.language), width.saturating_sub(2));
            let rule = rule.into_iter().map(|line| Line::from(format!(" {line}")));
            return std::iter::once(Line::from(first)).chain(rule).collect();
        };
        let inspector = cut(&view.inspector, 24.min(width / 3));
        let load = cut(
            &words::HeadLoad { load: &view.load, title: &view.title }.say(self.language),
            room.saturating_sub(inspector.chars().count() + 2),
        );
        room = room.saturating_sub(load.chars().count());
        first.push(Span::styled(load, self.look.words(Tone::Strong)));
        first.push(right(room, &inspector));
        let progress = view.progress;
        let done = words::CardsPoints {
            cards_done: &progress.cards_done,
            cards: &progress.cards,
            points_done: &progress.points_done,
            points: &progress.points,
        }
        .say(self.language);
        let at = match &view.card {
            // A narrow screen cuts the station's name, and never which card of how many.
            Some(card) => {
                let at = |station: &str| {
                    words::CardOf { station: &station, number: &card.number, of: &card.of }.say(self.language)
                };
                let over = at(&card.station).chars().count().saturating_sub(width.saturating_sub(9));
                let station = card.station.chars().count().saturating_sub(over);
                at(&cut(&card.station, station))
            }
            None => match view.stage {
                _ if self.run.is_some() => words::HeadEnd.say(self.language),
                WalkStage::Walking => words::HeadDecision.say(self.language),
                WalkStage::Paused => words::HeadPaused.say(self.language),
                WalkStage::Decided { .. } if view.subject != Subject::Load => {
                    format!(" {}", words::SignTitle.say(self.language))
                }
                WalkStage::Decided { .. } => words::HeadSeal.say(self.language),
                WalkStage::Abandoned { .. } => words::HeadStopped.say(self.language),
            },
        };
        let at = cut(&at, width.saturating_sub(9));
        let room = width.saturating_sub(1 + at.chars().count());
        // With a gap before it, or the two would be read as one number.
        let done = if done.chars().count() + 2 > room {
            format!("{}/{}", progress.cards_done, progress.cards)
        } else {
            done
        };
        vec![
            Line::from(first),
            Line::from(vec![Span::raw(at), right(room, &done)]),
            Line::from(self.map(view, width)),
        ]
    }

    /// Every card as a mark, station by station; the current one stands out.
    fn map(&self, view: &WalkView, width: usize) -> Vec<Span<'static>> {
        let mut spans = vec![Span::raw(" ")];
        let here = view.card.as_ref().map(|card| card.number);
        if view.cards.len() + 2 * view.stations.len() + 2 > width {
            let share = |of: usize| of * usize::try_from(view.progress.cards_done).unwrap_or(0);
            let filled = share(width - 4) / view.cards.len().max(1);
            let left = (width - 4).saturating_sub(filled);
            spans.push(Span::raw(format!("[{}{}]", "+".repeat(filled), ".".repeat(left))));
            return spans;
        }
        for station in &view.stations {
            spans.push(Span::raw("["));
            for number in station.first..=station.last {
                let at = usize::try_from(number).unwrap_or(0).saturating_sub(1);
                let Some(state) = view.cards.get(at) else { continue };
                let (_, _, tone) = look::card(*state);
                let style = if here == Some(number) {
                    self.look.words(Tone::Strong).add_modifier(Modifier::REVERSED)
                } else {
                    self.look.words(tone)
                };
                spans.push(Span::styled(look::mark(*state).to_string(), style));
            }
            spans.push(Span::raw("]"));
        }
        spans
    }

    pub(super) fn banner(&self, width: usize) -> (String, Tone) {
        match &self.page {
            Page::Pick(pick) if pick.tone != Tone::Plain => {
                return (cut(&pick.title, width.saturating_sub(1)), pick.tone);
            }
            Page::Pick(_) | Page::Entry(_) | Page::Text { .. } if self.view.is_none() => {
                let words =
                    if self.practice { words::PracticeNothingReal.say(self.language) } else { String::new() };
                return (words, if self.practice { Tone::Practice } else { Tone::Plain });
            }
            _ => {}
        }
        let Some(view) = &self.view else { return (String::new(), Tone::Plain) };
        match (&self.run, &view.card) {
            (Some(run), _) if run.ended => return (words::RunIsEnded.say(self.language), Tone::Wait),
            (Some(_), None) => return (words::EveryCardAnsweredEndRun.say(self.language), Tone::Plain),
            _ => {}
        }
        let open = open_findings(view);
        let tail = match open {
            // Nothing is closed in an examination.
            0 => String::new(),
            _ if self.run.is_some() => String::new(),
            _ if view.card.is_none() && view.next == NextStep::LookAgain => String::new(),
            1 => words::FindingNotClosed.say(self.language),
            many => words::FindingsNotClosed { many: &many }.say(self.language),
        };
        let (words, tone) = match (&view.stage, &view.card) {
            (WalkStage::Paused, _) => (words::InspectionIsPaused.say(self.language), Tone::Wait),
            (WalkStage::Decided { fit }, _) if view.subject != Subject::Load => {
                let tone = if *fit { Tone::Good } else { Tone::Bad };
                let words = if *fit {
                    words::FitNotSignedYet.say(self.language)
                } else {
                    words::NotFitNotSignedYet.say(self.language)
                };
                (words, tone)
            }
            (WalkStage::Decided { fit: true }, _) => (words::FitNotSealedYet.say(self.language), Tone::Good),
            (WalkStage::Decided { fit: false }, _) => {
                (words::NotFitNotSealedYet.say(self.language), Tone::Bad)
            }
            (WalkStage::Abandoned { .. }, _) => (words::InspectionIsStopped.say(self.language), Tone::Wait),
            (WalkStage::Walking, Some(card)) => {
                let (shape, word, tone) = look::card(card.state);
                let word = word.say(self.language);
                let tone = if tone == Tone::Plain && open > 0 { Tone::Plain } else { tone };
                (format!("{shape}  {word}"), tone)
            }
            (WalkStage::Walking, None) if view.next == NextStep::LookAgain => {
                (words::SomethingNotClosedCorrectReinspect.say(self.language), Tone::Bad)
            }
            (WalkStage::Walking, None) if view.blocks_fit.is_empty() => {
                (words::EveryCardAnsweredDecide.say(self.language), Tone::Good)
            }
            (WalkStage::Walking, None) => (words::CannotFitDecide.say(self.language), Tone::Bad),
        };
        // Where there is no room for what to do, what is stands alone: the keys say the rest.
        let words = match words.split_once(": ") {
            Some((state, _)) if words.chars().count() + 1 > width => state.to_owned(),
            _ => words,
        };
        // What is open stands in the status as well: half a sentence of it is not shown.
        let room = width.saturating_sub(1 + words.chars().count());
        let near = format!("  {}", tail.trim_start());
        let tail = [tail.as_str(), near.as_str()].into_iter().find(|tail| tail.chars().count() <= room);
        (format!("{words}{}", tail.unwrap_or_default()), tone)
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

    fn card_lines(&self, card: &CardView, width: usize) -> Lines {
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

    /// Paused, at the decision, decided, abandoned.
    fn end_lines(&self, view: &WalkView, width: usize) -> Lines {
        let mut lines = vec![Line::default()];
        let add = |lines: &mut Lines, words: &str, tone: Tone| {
            let wrapped = wrap(words, width);
            lines.extend(wrapped.into_iter().map(|line| Line::styled(line, self.look.words(tone))));
        };
        match &view.stage {
            WalkStage::Paused => {
                add(&mut lines, &words::InspectionPausedEveryAnswerKept.say(self.language), Tone::Strong);
                add(&mut lines, &words::MovedBeginAnew.say(self.language), Tone::Plain);
            }
            WalkStage::Abandoned { reason } => {
                add(&mut lines, &words::InspectionStoppedNoSealComes.say(self.language), Tone::Strong);
                add(&mut lines, reason, Tone::Plain);
            }
            WalkStage::Decided { fit } => {
                let words = if view.subject != Subject::Load {
                    words::DecidedSignatureCarriesIt.say(self.language)
                } else if *fit {
                    words::DecidedFitSealIt.say(self.language)
                } else {
                    words::DecidedNotFitSealIt.say(self.language)
                };
                add(&mut lines, &words, Tone::Strong);
            }
            WalkStage::Walking => {
                add(&mut lines, &words::WholeLoadInspected.say(self.language), Tone::Strong);
            }
        }
        lines.push(Line::default());
        let closed = view.findings.iter().filter(|finding| finding.state == FindingState::Closed).count();
        let found = words::FoundCorrectedReinspectedNotClosed {
            count: view.findings.len(),
            closed: &closed,
            open_findings: open_findings(view),
        }
        .say(self.language);
        add(&mut lines, &found, Tone::Plain);
        if view.blocks_fit.is_empty() {
            if view.stage == WalkStage::Walking {
                add(&mut lines, &words::NothingStandsWayFit.say(self.language), Tone::Good);
            }
        } else {
            lines.push(Line::default());
            add(&mut lines, &words::InWayOfFit.say(self.language), Tone::Strong);
            for block in &view.blocks_fit {
                add(&mut lines, &format!("[!] {block}"), Tone::Bad);
            }
        }
        lines
    }

    fn pick_lines(&self, pick: &Pick, width: usize) -> Lines {
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

    fn entry_lines(&self, entry: &Entry, width: usize) -> Lines {
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

    /// All cards in columns by station, and what is typed.
    fn cards_lines(&self, typed: &str, width: usize) -> Lines {
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
}

impl Desk {
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

fn small(number: usize) -> u16 {
    u16::try_from(number).unwrap_or(u16::MAX)
}

fn open_findings(view: &WalkView) -> usize {
    view.findings.iter().filter(|finding| finding.state != FindingState::Closed).count()
}

/// A text at the right end of so much room.
fn right(room: usize, text: &str) -> Span<'static> {
    Span::raw(format!("{text:>room$}"))
}

fn too_small(frame: &mut Frame<'_>, area: Rect, language: Language) {
    let (width, height) = LEAST;
    let words = words::WindowTooSmall { width: &width, height: &height }.say(language);
    let lines: Lines =
        wrap(&words, usize::from(area.width).saturating_sub(1)).into_iter().map(Line::from).collect();
    frame.render_widget(Paragraph::new(lines), area);
}
