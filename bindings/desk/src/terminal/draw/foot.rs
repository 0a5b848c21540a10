//! The foot of the screen: what is open, the statics, what the last key did, the keys.

use ratatui::text::{Line, Span};
use slingseal_app::catalogue::{Saying, terminal as words};
use slingseal_app::{CardState, FindingState, NextStep, Subject, WalkStage, WalkView};

use crate::terminal::look::{self, Look, Tone, cut, laid, wrap};
use crate::terminal::model::{Desk, Page};

type Lines = Vec<Line<'static>>;

impl Desk {
    /// Rows of the status, of what a page of so many lines leaves. Where a counted link differs from the plan the statics go
    /// before the page: they are what it does to the load.
    pub(super) fn status_height(&self, room: usize, page: usize, width: usize) -> u16 {
        let Some(view) = &self.view else { return 0 };
        if self.run.is_some() {
            return 4;
        }
        let wanted = 3 + self.statics(view, width).len();
        let least = if view.link_change.is_some() { LEAST_PAGE } else { page.max(LEAST_PAGE) };
        u16::try_from(room.saturating_sub(least).clamp(4, wanted)).unwrap_or(4)
    }

    fn statics(&self, view: &WalkView, width: usize) -> Vec<String> {
        let words = match &view.rigging {
            Some(_) if view.link_change.is_some() => view.link_change.clone().unwrap_or_default(),
            Some(rigging) => rigging.clone(),
            None => words::NotWorkedOutTagCarries.say(self.language),
        };
        let shape = if !view.rigging_within_limits || view.link_change.is_some() { "[!] " } else { "" };
        wrap(&words::StaticsLine { shape: &shape, words: &words }.say(self.language), width.saturating_sub(4))
    }

    /// A rule, what is open, the statics, the gravest caution.
    pub(super) fn status(&self, width: usize, height: usize) -> Lines {
        if let Some(run) = &self.run {
            return self.run_status(run, width);
        }
        let Some(view) = &self.view else { return Vec::new() };
        let mut lines = vec![Line::from("─".repeat(width))];
        let open: Vec<String> = view
            .findings
            .iter()
            .filter(|finding| finding.state != FindingState::Closed)
            .map(|finding| {
                let (shape, ..) = look::finding(finding.state);
                words::FindingInList {
                    shape: &shape,
                    number: &finding.number,
                    shown: &finding.shown,
                    card: &finding.card,
                }
                .say(self.language)
            })
            .collect();
        lines.push(if open.is_empty() {
            Line::from(words::NothingOpen.say(self.language))
        } else {
            Line::styled(
                cut(&words::OpenFindings { list: open.join("   ") }.say(self.language), width),
                self.look.words(Tone::Bad),
            )
        });
        let tone = match (view.rigging_within_limits, &view.link_change) {
            (false, _) => Tone::Bad,
            (true, Some(_)) => Tone::Wait,
            _ => Tone::Plain,
        };
        let statics = self.statics(view, width);
        let rows = height.saturating_sub(3).max(1);
        for (at, line) in statics.iter().take(rows).enumerate() {
            let more = if at + 1 == rows && statics.len() > rows { " …" } else { "" };
            let line = format!(" {line}{more}");
            lines.push(Line::styled(line, self.look.words(tone)));
        }
        let cautions: Vec<String> = view
            .tag_faults
            .iter()
            .map(|fault| words::TagFault { fault: &fault }.say(self.language))
            .chain(view.cautions.iter().filter(|_| view.rigging.is_some()).map(|words| format!("! {words}")))
            .collect();
        let rule = words::ManualRulesOwnEyes.say(self.language);
        // A caution that is cut is none.
        let narrow = rule.chars().count() > width;
        let rule = if narrow { words::ManualRulesAlone.say(self.language) } else { rule };
        // The card's own caution says that the manual rules: it stands once.
        let manual = slingseal_app::catalogue::walk::GoverningManual.say(self.language);
        let card = view.card.as_ref().and_then(|card| card.caution.as_ref());
        let said = matches!(self.page, Page::Walk) && card == Some(&manual);
        let rule = if said { words::OwnEyes.say(self.language) } else { rule };
        lines.push(match cautions.as_slice() {
            [] => Line::from(rule),
            [only] => Line::styled(cut(&format!(" {only}"), width), self.look.words(Tone::Wait)),
            [first, rest @ ..] => {
                let words = words::MoreOpen { cut: cut(first, width.saturating_sub(20)), count: rest.len() }
                    .say(self.language);
                Line::styled(words, self.look.words(Tone::Wait))
            }
        });
        lines
    }

    /// What the last key did; three rows at the most.
    pub(super) fn flash_lines(&self, width: usize) -> Lines {
        let Some(flash) = &self.flash else { return vec![Line::default()] };
        let shape = match flash.tone {
            Tone::Good => "[+] ",
            Tone::Bad | Tone::Wait => "[!] ",
            _ => "",
        };
        let style = self.look.words(if flash.tone == Tone::Plain { Tone::Strong } else { flash.tone });
        let words = format!("{shape}{}", flash.words);
        let mut rows = laid(&words, width.saturating_sub(2));
        if rows.len() > 3 {
            rows.truncate(3);
            if let Some(last) = rows.last_mut() {
                *last = cut(&format!("{last} …"), width.saturating_sub(2));
            }
        }
        rows.into_iter().map(|row| Line::styled(format!(" {row}"), style)).collect()
    }

    pub(in crate::terminal) fn hints(&self) -> Hints {
        let say = |key: &str, words: Saying| (key.to_owned(), words.say(self.language));
        let enter = words::Enter.say(self.language);
        let back = || vec![say("-", words::HintBack.into())];
        let typing = || vec![say(&enter, words::HintDone.into()), say("*", words::HintErase.into())];
        let nothing = || vec![say("-", words::BackWhileNothingTyped.into())];
        let leave = || vec![say("-", words::HintBack.into()), say("Ctrl-C", words::HintLeave.into())];
        let Some(view) = &self.view else {
            return match &self.page {
                Page::Entry(_) => [typing(), leave()],
                Page::Text { .. } => [vec![say("+", words::NextPage.into())], back()],
                Page::Pick(pick) if pick.items.len() <= 9 => {
                    [vec![say("1-9", words::HintPick.into())], leave()]
                }
                _ => [vec![say("1-9", words::HintPick.into()), say("+", words::NextPage.into())], leave()],
            };
        };
        let all_cards = || say(".", words::AllCards.into());
        let more = match &self.run {
            Some(run) if run.ended => {
                return [vec![say("0", words::MoreLeave.into())], vec![say("/", words::WhatCalled.into())]];
            }
            Some(_) => {
                vec![say("/", words::HintCalled.into()), all_cards(), say("0", words::MoreEndLeave.into())]
            }
            None => vec![
                say("/", words::HintFindings.into()),
                all_cards(),
                say("0", words::MorePauseStaticsLeave.into()),
            ],
        };
        let undo = || say("*", words::TakeBack.into());
        let not_fit = || say("-", words::HintNotFit.into());
        match &self.page {
            Page::Pick(pick) if pick.items.len() > 9 => {
                [vec![say("1-9", words::HintPick.into()), say("+", words::NextPage.into())], back()]
            }
            Page::Pick(pick) if crate::terminal::keys::just_found(pick) => {
                [vec![say("1-2", words::HintPick.into()), undo()], vec![say("-", words::HintLater.into())]]
            }
            Page::Pick(_) => [vec![say("1-9", words::HintPick.into())], back()],
            Page::Entry(entry) if entry.optional() => [
                vec![say(&enter, words::DoneNothingSay.into()), say("*", words::HintErase.into())],
                nothing(),
            ],
            Page::Entry(_) => [typing(), nothing()],
            Page::Cards { .. } => [
                vec![
                    say("0-9", words::HintNumber.into()),
                    say(&enter, words::HintGoThere.into()),
                    say("*", words::HintErase.into()),
                ],
                back(),
            ],
            Page::Text { .. } => [vec![say("+", words::NextPage.into())], back()],
            Page::Seal { .. } => [Vec::new(), Vec::new()],
            Page::Walk => match (&view.stage, &view.card) {
                (WalkStage::Walking, Some(card)) => {
                    let good = if card.state == CardState::Unanswered {
                        words::CardGood.saying()
                    } else {
                        words::RestGood.saying()
                    };
                    let deficiency = say("-", words::HintDeficiency.into());
                    [vec![say("+", good), deficiency, undo(), say("1-9", words::OnePoint.into())], more]
                }
                (WalkStage::Walking, None) if self.run.is_some() => {
                    [vec![say("+", words::EndRun.into()), undo()], more]
                }
                (WalkStage::Walking, None) if view.next == NextStep::LookAgain => {
                    [vec![say("+", words::HintReinspect.into()), not_fit(), undo()], more]
                }
                (WalkStage::Walking, None) => {
                    [vec![say("+", words::HintFit.into()), not_fit(), undo()], more]
                }
                (WalkStage::Paused, _) => [
                    vec![say("+", words::HintGoOn.into())],
                    vec![say("/", words::HintFindings.into()), say("0", words::MoreStopLeave.into())],
                ],
                (WalkStage::Decided { .. }, _) => [
                    vec![say(
                        "+",
                        if view.subject == Subject::Load {
                            words::SealPin.into()
                        } else {
                            words::SignPin.into()
                        },
                    )],
                    vec![say("/", words::HintFindings.into()), say("0", words::MoreLeave.into())],
                ],
                (WalkStage::Abandoned { .. }, _) => {
                    [vec![say("0", words::MoreOtherLoadsLeave.into())], Vec::new()]
                }
            },
        }
    }
}

/// A row of keys with what they do, and both rows.
type Row = Vec<(String, String)>;
pub(in crate::terminal) type Hints = [Row; 2];

/// Lines that a page always has.
const LEAST_PAGE: usize = 8;

/// The keys, each standing out from its word; two rows, or as many as a narrow window needs.
pub(super) fn hint_lines(look: Look, hints: Hints, width: usize) -> Lines {
    // As they are set below: each in a place of its own, and nothing behind the last.
    let long = |row: &Row| {
        let places = row.iter().enumerate().map(|(at, (key, words))| {
            let (key, words) = (key.chars().count(), words.chars().count());
            3 + if at + 1 == row.len() { key + words } else { (key + words).max(16) }
        });
        1 + places.sum::<usize>()
    };
    if hints.iter().any(|row| long(row) > width) {
        return flowing_hints(look, hints, width);
    }
    let line = |row: Row| {
        let mut spans = vec![Span::raw(" ")];
        for (key, words) in row {
            let room = 16_usize.saturating_sub(key.chars().count());
            spans.push(Span::styled(format!(" {key} "), look.bar(Tone::Plain)));
            spans.push(Span::raw(format!(" {words:<room$}")));
        }
        Line::from(spans)
    };
    hints.into_iter().map(line).collect()
}

fn flowing_hints(look: Look, hints: Hints, width: usize) -> Lines {
    let mut lines: Vec<Line<'static>> = Vec::new();
    let (mut spans, mut used) = (Vec::new(), 0);
    for (key, words) in hints.into_iter().flatten() {
        let wants = 4 + key.chars().count() + words.chars().count();
        if used > 0 && used + wants > width {
            lines.push(Line::from(std::mem::take(&mut spans)));
            used = 0;
        }
        spans.push(Span::styled(format!(" {key} "), look.bar(Tone::Plain)));
        spans.push(Span::raw(format!(" {words} ")));
        used += wants;
    }
    lines.push(Line::from(spans));
    lines
}
