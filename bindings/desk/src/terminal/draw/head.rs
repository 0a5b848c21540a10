//! The head of a page: load, inspector and progress, the walk as a row of marks, and the bar that says what stands.

use ratatui::style::Modifier;
use ratatui::text::{Line, Span};
use slingseal_app::catalogue::terminal as words;
use slingseal_app::{NextStep, Subject, WalkStage, WalkView};

use super::{Lines, open_findings};
use crate::terminal::look::{self, Tone, cut, wrap};
use crate::terminal::model::{Desk, Page};

impl Desk {
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

    pub(in crate::terminal) fn banner(&self, width: usize) -> (String, Tone) {
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
}

/// A text at the right end of so much room.
fn right(room: usize, text: &str) -> Span<'static> {
    Span::raw(format!("{text:>room$}"))
}
