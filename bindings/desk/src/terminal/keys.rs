//! What each key does on each page.

use slingseal_app::catalogue::terminal as words;
use slingseal_app::{
    AppError, FindingState, NextStep, PointKind, PointState, WalkRequest, WalkStage, WalkView,
};

use super::look::Tone;
use super::model::{Action, Desk, Entry, Flow, Key, Page, Pick, Purpose};

impl Desk {
    pub(super) fn press(&mut self, key: Key) -> Result<Flow, AppError> {
        match &mut self.page {
            Page::Walk => self.press_walk(key),
            Page::Pick(pick) if just_found(pick) && matches!(key, Key::Letter('*') | Key::Erase) => {
                self.page = Page::Walk;
                self.press_walk(key)
            }
            Page::Pick(pick) => {
                let action = match key {
                    Key::Letter('-') | Key::Back => Some(pick.back.clone()),
                    Key::Letter('+') if pick.items.len() > 9 => {
                        pick.from = if pick.from + 9 < pick.items.len() { pick.from + 9 } else { 0 };
                        None
                    }
                    Key::Letter(digit) => nth(digit)
                        .and_then(|at| pick.items.iter().skip(pick.from).take(9).nth(at))
                        .filter(|item| !item.is_gap())
                        .map(|item| item.action.clone()),
                    _ => None,
                };
                action.map_or(Ok(Flow::On), |action| self.act(action))
            }
            Page::Entry(_) => self.press_entry(key),
            Page::Cards { .. } => self.press_cards(key),
            Page::Text { from, text, back, .. } => match key {
                Key::Letter('+') | Key::Enter => {
                    let lines = super::look::laid(text, self.width).len();
                    *from = if *from + self.room < lines { *from + self.room } else { 0 };
                    Ok(Flow::On)
                }
                Key::Letter('-') | Key::Back => {
                    let back = back.clone();
                    self.act(back)
                }
                _ => Ok(Flow::On),
            },
            Page::Seal { code, .. } => match key {
                Key::Letter('.') => {
                    *code = !*code;
                    Ok(Flow::On)
                }
                Key::Letter('+') => self.act(Action::Save),
                Key::Letter('0' | '-') | Key::Back => self.act(Action::Start),
                _ => Ok(Flow::On),
            },
        }
    }

    fn press_walk(&mut self, key: Key) -> Result<Flow, AppError> {
        let Some(view) = self.view.clone() else { return self.act(Action::Start) };
        let letter = match key {
            Key::Letter(letter) => letter.to_ascii_lowercase(),
            Key::Erase => '*',
            Key::Back => '0',
            Key::Enter | Key::Leave => '\r',
        };
        match (letter, &view.stage) {
            ('0' | 'm' | '?' | 'q', _) => self.act(Action::Menu),
            ('.' | 'c', WalkStage::Walking) => {
                self.page = Page::Cards { typed: String::new() };
                Ok(Flow::On)
            }
            ('/' | 'f', _) => self.act(Action::Findings),
            ('*' | 'u', WalkStage::Walking) => match view.undo {
                Some(answer) => {
                    let said = words::LastAnswerTakenBack.say(self.language);
                    self.act(Action::Do { request: WalkRequest::Undo { answer }, said })
                }
                None => {
                    self.tell(Tone::Plain, words::NoAnswerTakeBack.say(self.language));
                    Ok(Flow::On)
                }
            },
            ('+' | 'g' | '-' | 'd' | '\r', WalkStage::Walking)
                if self.run.is_some() && view.card.is_none() =>
            {
                self.act(Action::AskEnd)
            }
            ('+' | 'g' | '\r' | 'p', _) if self.run.as_ref().is_some_and(|run| run.ended) => Ok(Flow::On),
            ('p', WalkStage::Walking) => self.act(Action::AskPause),
            ('+' | 'g' | 'r', WalkStage::Paused) => self.act(Action::Do {
                request: WalkRequest::Resume,
                said: words::InspectionGoesWhereStood.say(self.language),
            }),
            ('+' | 'g' | '\r', WalkStage::Decided { .. }) => self.act(Action::AskPin),
            (letter, WalkStage::Walking) if view.card.is_some() => self.press_card(&view, letter),
            ('+' | 'g', WalkStage::Walking) if view.next == NextStep::LookAgain => self.look_at_open(&view),
            ('+' | 'g', WalkStage::Walking) => self.act(Action::AskFit),
            ('-' | 'd', WalkStage::Walking) => self.act(Action::AskNotFit),
            _ => Ok(Flow::On),
        }
    }

    /// The only finding that is not closed, or all of them.
    fn look_at_open(&mut self, view: &WalkView) -> Result<Flow, AppError> {
        let mut open = view.findings.iter().filter(|finding| finding.state != FindingState::Closed);
        match (open.next(), open.next()) {
            (Some(only), None) => self.act(Action::Finding(only.number)),
            _ => self.act(Action::Findings),
        }
    }

    fn press_card(&mut self, view: &WalkView, letter: char) -> Result<Flow, AppError> {
        let Some(card) = &view.card else { return Ok(Flow::On) };
        match letter {
            '+' | 'g' => {
                let open = |point: &&slingseal_app::PointView| {
                    point.needs_value && point.state == PointState::Unanswered
                };
                if let Some(point) = card.points.iter().find(open) {
                    return self.act(Action::Point(Box::new(point.clone())));
                }
                self.act(Action::Do {
                    request: WalkRequest::CardGood { card: card.number },
                    said: words::CardGoodTakesBack { number: &card.number, title: &card.title }
                        .say(self.language),
                })
            }
            '-' | 'd' => match card.points.as_slice() {
                [only] => self.act(Action::NameDeficiency(Box::new(only.clone()))),
                points => {
                    self.page = self.which_point(points);
                    Ok(Flow::On)
                }
            },
            '\r' => {
                self.tell(Tone::Plain, words::PressWhenCardGood.say(self.language));
                Ok(Flow::On)
            }
            digit => match nth(digit).and_then(|at| card.points.get(at)) {
                Some(point) => self.act(Action::Point(Box::new(point.clone()))),
                None => Ok(Flow::On),
            },
        }
    }

    fn press_cards(&mut self, key: Key) -> Result<Flow, AppError> {
        let Page::Cards { typed } = &mut self.page else { return Ok(Flow::On) };
        match key {
            Key::Letter(digit) if digit.is_ascii_digit() && typed.len() < 3 => typed.push(digit),
            Key::Letter('*') | Key::Erase => {
                typed.pop();
            }
            Key::Letter('-') | Key::Back => return self.act(Action::Walk),
            Key::Enter => match typed.parse() {
                Ok(card) => {
                    let said = words::HereIsCard { card: &card }.say(self.language);
                    return self.act(Action::Do { request: WalkRequest::GoTo { card }, said });
                }
                Err(_) => return self.act(Action::Walk),
            },
            _ => {}
        }
        Ok(Flow::On)
    }

    fn press_entry(&mut self, key: Key) -> Result<Flow, AppError> {
        let Page::Entry(entry) = &mut self.page else { return Ok(Flow::On) };
        match key {
            // A keypad has neither Backspace nor Escape: the star erases, and minus goes back while nothing is typed.
            Key::Erase | Key::Letter('*') => {
                entry.text.pop();
            }
            Key::Letter('-') if entry.text.is_empty() => {
                let back = entry.back.clone();
                return self.act(back);
            }
            Key::Letter(letter) if entry.text.len() < 200 && !letter.is_control() => entry.text.push(letter),
            Key::Back => {
                let back = entry.back.clone();
                return self.act(back);
            }
            Key::Enter => {
                let entry = (**entry).clone();
                return self.submit(entry);
            }
            _ => {}
        }
        Ok(Flow::On)
    }

    fn submit(&mut self, entry: Entry) -> Result<Flow, AppError> {
        let text = entry.text.trim().to_owned();
        if text.is_empty() && !entry.optional() {
            return self.act(entry.back);
        }
        let some = (!text.is_empty()).then(|| text.clone());
        match entry.purpose {
            Purpose::CallSign => self.took_call_sign(text),
            Purpose::NewPin { holder } => self.took_new_pin(holder, entry.text),
            Purpose::NewPinAgain { holder, first } => self.took_pin_again(holder, &first, &entry.text),
            Purpose::Value(point) => {
                let value = match &point.kind {
                    PointKind::Measure { unit, .. } => with_unit(&text, unit),
                    _ => text,
                };
                let said = format!("{}: {value}", point.prompt);
                self.answer(&point.id, value, said)
            }
            Purpose::WhyNot(point) => {
                let Some(card) = self.view.as_ref().and_then(|view| view.card.as_ref()) else {
                    return self.act(Action::Walk);
                };
                let (card, said) =
                    (card.number, words::NotApplicableTakesBack { prompt: &point.prompt }.say(self.language));
                let request = WalkRequest::NotApplicable { card, point: point.id.clone(), reason: text };
                self.act(Action::Do { request, said })
            }
            Purpose::WhichPiece(finding) => {
                let said = words::PieceRejectedTagSetApart { text: &text }.say(self.language);
                self.act(Action::Do { request: WalkRequest::RejectPiece { finding, serial: text }, said })
            }
            Purpose::Note { point, name, shown } => {
                let Some(card) = self.view.as_ref().and_then(|view| view.card.as_ref()) else {
                    return self.act(Action::Walk);
                };
                let request = WalkRequest::Deficiency {
                    card: card.number,
                    point: point.id.clone(),
                    name,
                    note: some,
                    photos: Vec::new(),
                };
                self.act(Action::Do {
                    request,
                    said: words::DeficientTakesBack { shown: &shown }.say(self.language),
                })
            }
            Purpose::PutRightBy(finding) => self.act(Action::PutRight { finding, by: some }),
            Purpose::AgainValue(finding) => {
                let kind = self.finding(finding).map(|finding| finding.kind);
                let value = match kind {
                    Some(PointKind::Measure { unit, .. }) => with_unit(&text, &unit),
                    _ => text,
                };
                self.act(Action::AgainValue { finding, value })
            }
            Purpose::AgainNote(finding) => self.act(Action::Do {
                request: WalkRequest::LookAgain {
                    finding,
                    good: false,
                    value: None,
                    note: some,
                    photos: Vec::new(),
                },
                said: words::FindingStillDeficientStaysOpen { finding: &finding }.say(self.language),
            }),
            Purpose::NotFit => self.act(Action::Do {
                request: WalkRequest::Decide { fit: false, reason: some },
                said: words::DecidedNotFit.say(self.language),
            }),
            Purpose::Abandon => self.act(Action::Do {
                request: WalkRequest::Abandon { reason: text },
                said: words::InspectionStoppedStaysRecordDevice.say(self.language),
            }),
            Purpose::Pin => self.seal(&entry.text),
        }
    }

    pub(super) fn answer(&mut self, point: &str, value: String, said: String) -> Result<Flow, AppError> {
        let Some(card) = self.view.as_ref().and_then(|view| view.card.as_ref()) else {
            return self.act(Action::Walk);
        };
        let request = WalkRequest::Answer { card: card.number, point: point.to_owned(), value };
        self.act(Action::Do { request, said })
    }
}

/// Whether the page tells of a deficiency that was recorded by the last key.
pub(super) fn just_found(pick: &Pick) -> bool {
    pick.tone == Tone::Bad && matches!(pick.back, Action::Walk)
}

/// The place in a list that a digit names.
fn nth(digit: char) -> Option<usize> {
    let digit = usize::try_from(digit.to_digit(10)?).ok()?;
    digit.checked_sub(1)
}

/// A keypad has no letters: a bare number is in the unit that the card offers.
fn with_unit(text: &str, unit: &str) -> String {
    let bare = text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | ' '));
    if bare { format!("{} {unit}", text.replace(',', ".")) } else { text.to_owned() }
}
