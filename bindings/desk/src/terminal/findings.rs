//! What was found: told at once, listed, put right, looked at again.

use slingseal_app::catalogue::terminal as words;
use slingseal_app::{AppError, FateView, FindingState, FindingView, PointKind, WalkRequest, WalkStage};

use super::look::{self, Tone};
use super::model::{Action, Desk, Item, Page, Pick, Purpose};
use super::questions::{entry, pick};

impl Desk {
    /// A deficiency was just recorded.
    pub(super) fn show_found(&mut self, found: &FindingView) {
        let value = found.value.as_ref().map(|value| format!(" ({value})")).unwrap_or_default();
        let what = format!("{}{value}", found.shown);
        let wanted = match &found.kind {
            PointKind::Count { expected: Some(wanted) } if found.value.is_some() => {
                words::Wanted { wanted: &wanted }.say(self.language)
            }
            PointKind::Measure { range, .. } if found.value.is_some() && !range.is_empty() => {
                words::WantedRange { range: &range }.say(self.language)
            }
            _ => String::new(),
        };
        let piece = found
            .piece
            .as_ref()
            .map(|piece| words::PieceRejected { piece: &piece }.say(self.language))
            .unwrap_or_default();
        self.tell(
            Tone::Bad,
            words::FindingRecorded { number: &found.number, what: &what, wanted: &wanted, piece: &piece }
                .say(self.language),
        );
        if found.fate == FateView::Reject && found.piece.is_none() && self.run.is_none() {
            return self.page = Page::Pick(Box::new(Pick {
                title: words::DeficientWhat { what: &what }.say(self.language),
                lead: vec![words::PieceLeavesService.say(self.language)],
                items: vec![
                    Item::new(words::EnterSerialNumber.say(self.language), Action::WhichPiece(found.number)),
                    Item::new(words::PieceHasNoSerial.say(self.language), Action::Walk),
                ],
                from: 0,
                back: Action::Walk,
                tone: Tone::Bad,
            }));
        }
        if !found.in_place {
            return;
        }
        self.page = Page::Pick(Box::new(Pick {
            title: words::DeficientWhat { what: &what }.say(self.language),
            lead: vec![words::CanCorrectedWhereLoadStands.say(self.language)],
            items: vec![
                Item::new(
                    words::CorrectedNowReinspected.say(self.language),
                    Action::WhoPutRight(found.number),
                ),
                Item::new(words::LaterStaysOpenInspectionGoes.say(self.language), Action::Walk),
            ],
            from: 0,
            back: Action::Walk,
            tone: Tone::Bad,
        }));
    }

    pub(super) fn show_findings(&mut self) {
        let Some(view) = &self.view else { return };
        if view.findings.is_empty() {
            self.tell(Tone::Plain, words::NothingFoundDeficientSoFar.say(self.language));
            return;
        }
        // A finding's key is the number that everything else calls it by: what was taken back leaves a gap.
        let last = view.findings.iter().map(|finding| finding.number).max().unwrap_or_default();
        let items = (1..=last).map(|number| {
            let Some(finding) = view.findings.iter().find(|finding| finding.number == number) else {
                return Item::gap();
            };
            let (shape, word, tone) = look::finding(finding.state);
            let word = word.say(self.language);
            let words = words::FindingCard {
                shape: &shape,
                word: &word,
                number: &finding.number,
                shown: &finding.shown,
                card: &finding.card,
            }
            .say(self.language);
            Item { words, tone, action: Action::Finding(finding.number) }
        });
        self.page = pick(words::Findings.say(self.language), Vec::new(), items.collect(), Action::Walk);
    }

    pub(super) fn show_finding(&mut self, number: u32) {
        let Some(finding) = self.finding(number) else { return self.page = Page::Walk };
        let (shape, word, tone) = look::finding(finding.state);
        let word = word.say(self.language);
        let mut lead =
            vec![words::CardAndPrompt { card: &finding.card, prompt: &finding.prompt }.say(self.language)];
        if let Some(value) = &finding.value {
            lead.push(words::AnswerSeen { value: &value }.say(self.language));
        }
        if let Some(note) = &finding.note {
            lead.push(words::NoteTold { note: &note }.say(self.language));
        }
        lead.push(words::FoundAt { dtg: &finding.found.dtg }.say(self.language));
        lead.extend(finding.story.iter().rev().take(3).rev().cloned());
        let mut items = Vec::new();
        match finding.state {
            FindingState::Open if finding.in_place => {
                items
                    .push(Item::new(words::RiggersCorrected.say(self.language), Action::WhoPutRight(number)));
            }
            FindingState::Open => {
                lead.push(
                    words::CannotCorrectedPlaceNotFit { fate_words: look::fate_words(finding.fate) }
                        .say(self.language),
                );
                if finding.fate == FateView::Reject {
                    match &finding.piece {
                        Some(piece) => lead.push(words::PieceIsRejected { piece: &piece }.say(self.language)),
                        None => items.push(Item::new(
                            words::EnterSerialNumberPiece.say(self.language),
                            Action::WhichPiece(number),
                        )),
                    }
                }
            }
            FindingState::PutRight => {
                items.push(Item::new(words::Reinspect.say(self.language), Action::LookAgain(number)));
            }
            FindingState::Closed => {}
        }
        if self.view.as_ref().is_some_and(|view| view.stage == WalkStage::Walking) {
            items.push(Item::new(
                words::GoCard { card: &finding.card }.say(self.language),
                Action::Do {
                    request: WalkRequest::GoTo { card: finding.card },
                    said: words::HereIsCard { card: &finding.card }.say(self.language),
                },
            ));
        }
        let title = words::Finding { shape: &shape, word: &word, number: &number, shown: &finding.shown }
            .say(self.language);
        self.page = Page::Pick(Box::new(Pick { title, lead, items, from: 0, back: Action::Findings, tone }));
    }

    /// Who corrected it: the rigger that the tag names comes first.
    pub(super) fn who_page(&self, number: u32, rigger: &str) -> Page {
        let lead = vec![
            self.finding(number).map(|finding| finding.shown).unwrap_or_default(),
            words::WhoCorrected.say(self.language),
        ];
        let by = |by: Option<String>| Action::PutRight { finding: number, by };
        let items = vec![
            Item::new(
                words::WhoRiggedLoad { rigger: &rigger }.say(self.language),
                by(Some(rigger.to_owned())),
            ),
            Item::new(words::SomebodyElseEnterCallSign.say(self.language), Action::AnotherPutRight(number)),
            Item::new(words::NotNamed.say(self.language), by(None)),
        ];
        pick(words::Corrected.say(self.language), lead, items, Action::Finding(number))
    }

    pub(super) fn show_look_again(&mut self, number: u32) {
        let Some(finding) = self.finding(number) else { return self.page = Page::Walk };
        self.page = Page::Pick(Box::new(Pick {
            title: words::ReinspectWhat { what: &finding.shown }.say(self.language),
            lead: vec![
                words::CardAndPrompt { card: &finding.card, prompt: &finding.prompt }.say(self.language),
                words::LookWithOwnHands.say(self.language),
            ],
            items: vec![
                Item::new(words::RightNow.say(self.language), Action::AgainGood(number)),
                Item::new(words::StillDeficient.say(self.language), Action::AgainBad(number)),
            ],
            from: 0,
            back: Action::Walk,
            tone: Tone::Wait,
        }));
    }

    pub(super) fn again_good(&mut self, number: u32) -> Result<(), AppError> {
        let Some(finding) = self.finding(number) else { return Ok(()) };
        let back = Action::LookAgain(number);
        let lead = vec![finding.prompt.clone()];
        let wanted = |more: String| vec![finding.prompt.clone(), more];
        match &finding.kind {
            PointKind::Choice { options } => {
                let items = options.iter().map(|option| {
                    let value = option.name.clone();
                    Item::new(option.shown.clone(), Action::AgainValue { finding: number, value })
                });
                self.page = pick(words::WhatDoYouSeeNow.say(self.language), lead, items.collect(), back);
            }
            PointKind::Count { .. } | PointKind::Measure { .. } | PointKind::Serial
                if finding.needs_value =>
            {
                let (lead, unit) = match &finding.kind {
                    PointKind::Count { .. } => {
                        (wanted(words::CountAgainEnterWhatYou.say(self.language)), String::new())
                    }
                    PointKind::Measure { unit, .. } => {
                        (wanted(words::MeasureAgainEnterWhatYou.say(self.language)), unit.clone())
                    }
                    _ => (wanted(words::EnterWhatYouSeeNow.say(self.language)), String::new()),
                };
                self.page =
                    entry(words::ReinspectTitle.say(self.language), lead, Purpose::AgainValue(number), back);
                if let Page::Entry(entry) = &mut self.page {
                    entry.unit = unit;
                }
            }
            _ => {
                let request = WalkRequest::LookAgain {
                    finding: number,
                    good: true,
                    value: None,
                    note: None,
                    photos: Vec::new(),
                };
                self.perform(
                    &request,
                    words::FindingClosedReinspectedGood { number: &number }.say(self.language),
                )?;
            }
        }
        Ok(())
    }
}
