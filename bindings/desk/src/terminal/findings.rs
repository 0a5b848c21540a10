//! What was found: told at once, listed, put right, looked at again.

use slingseal_app::{AppError, FateView, FindingState, FindingView, PointKind, WalkRequest, WalkStage};

use super::acts::{entry, pick};
use super::look::{self, Tone};
use super::model::{Action, Desk, Item, Page, Pick, Purpose};

impl Desk {
    /// A deficiency was just recorded.
    pub(super) fn show_found(&mut self, found: &FindingView) {
        let value = found.value.as_ref().map(|value| format!(" ({value})")).unwrap_or_default();
        let what = format!("{}{value}", found.shown);
        let wanted = match &found.kind {
            PointKind::Count { expected: Some(wanted) } if found.value.is_some() => {
                format!(" Wanted: {wanted}.")
            }
            PointKind::Measure { range, .. } if found.value.is_some() && !range.is_empty() => {
                format!(" Wanted: {range}.")
            }
            _ => String::new(),
        };
        let piece =
            found.piece.as_ref().map(|piece| format!(" Piece {piece} is rejected.")).unwrap_or_default();
        self.tell(Tone::Bad, format!("Finding {} is recorded: {what}.{wanted}{piece}", found.number));
        if found.fate == FateView::Reject && found.piece.is_none() && self.run.is_none() {
            return self.page = Page::Pick(Box::new(Pick {
                title: format!("[!] DEFICIENT  {what}"),
                lead: vec!["The piece leaves service. Which one is it?".into()],
                items: vec![
                    Item::new("Enter its serial number", Action::WhichPiece(found.number)),
                    Item::new("It has none: say so in the reason for NOT FIT", Action::Walk),
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
            title: format!("[!] DEFICIENT  {what}"),
            lead: vec!["It can be corrected where the load stands.".into()],
            items: vec![
                Item::new("Corrected NOW, and reinspected", Action::WhoPutRight(found.number)),
                Item::new("LATER: it stays open, the inspection goes on", Action::Walk),
            ],
            from: 0,
            back: Action::Walk,
            tone: Tone::Bad,
        }));
    }

    pub(super) fn show_findings(&mut self) {
        let Some(view) = &self.view else { return };
        if view.findings.is_empty() {
            self.tell(Tone::Plain, "Nothing was found deficient so far.");
            return;
        }
        let mut findings: Vec<&FindingView> = view.findings.iter().collect();
        // By number, so that a finding's key is the number that everything else calls it by.
        findings.sort_by_key(|finding| finding.number);
        let items = findings.into_iter().map(|finding| {
            let (shape, word, tone) = look::finding(finding.state);
            let words = format!(
                "{shape} {word}  finding {}: {}  (card {})",
                finding.number, finding.shown, finding.card
            );
            Item { words, tone, action: Action::Finding(finding.number) }
        });
        self.page = pick("Findings", Vec::new(), items.collect(), Action::Walk);
    }

    pub(super) fn show_finding(&mut self, number: u32) {
        let Some(finding) = self.finding(number) else { return self.page = Page::Walk };
        let (shape, word, tone) = look::finding(finding.state);
        let mut lead = vec![format!("Card {}: {}", finding.card, finding.prompt)];
        if let Some(value) = &finding.value {
            lead.push(format!("Seen: {value}"));
        }
        if let Some(note) = &finding.note {
            lead.push(format!("Note: {note}"));
        }
        lead.push(format!("Found {}", finding.found.dtg));
        lead.extend(finding.story.iter().rev().take(3).rev().cloned());
        let mut items = Vec::new();
        match finding.state {
            FindingState::Open if finding.in_place => {
                items.push(Item::new("The riggers corrected it", Action::WhoPutRight(number)));
            }
            FindingState::Open => {
                lead.push(format!(
                    "It cannot be corrected in place: NOT FIT.{}",
                    look::fate_words(finding.fate)
                ));
                if finding.fate == FateView::Reject {
                    match &finding.piece {
                        Some(piece) => lead.push(format!("Piece {piece} is rejected.")),
                        None => items.push(Item::new(
                            "Enter the serial number of the piece",
                            Action::WhichPiece(number),
                        )),
                    }
                }
            }
            FindingState::PutRight => {
                items.push(Item::new("Reinspect it", Action::LookAgain(number)));
            }
            FindingState::Closed => {}
        }
        if self.view.as_ref().is_some_and(|view| view.stage == WalkStage::Walking) {
            items.push(Item::new(
                format!("Go to card {}", finding.card),
                Action::Do {
                    request: WalkRequest::GoTo { card: finding.card },
                    said: format!("Here is card {}.", finding.card),
                },
            ));
        }
        let title = format!("{shape} {word}  finding {number}: {}", finding.shown);
        self.page = Page::Pick(Box::new(Pick { title, lead, items, from: 0, back: Action::Findings, tone }));
    }

    /// Who corrected it: the rigger that the tag names comes first.
    pub(super) fn who_page(&self, number: u32, rigger: &str) -> Page {
        let lead = vec![
            self.finding(number).map(|finding| finding.shown).unwrap_or_default(),
            "Who corrected it?".into(),
        ];
        let by = |by: Option<String>| Action::PutRight { finding: number, by };
        let items = vec![
            Item::new(format!("{rigger}, who rigged the load"), by(Some(rigger.to_owned()))),
            Item::new("Somebody else: enter the call sign", Action::AnotherPutRight(number)),
            Item::new("Not named", by(None)),
        ];
        pick("Corrected", lead, items, Action::Finding(number))
    }

    pub(super) fn show_look_again(&mut self, number: u32) {
        let Some(finding) = self.finding(number) else { return self.page = Page::Walk };
        self.page = Page::Pick(Box::new(Pick {
            title: format!("[?] REINSPECT  {}", finding.shown),
            lead: vec![
                format!("Card {}: {}", finding.card, finding.prompt),
                "Look at it yourself, with your own hands. Is it right now?".into(),
            ],
            items: vec![
                Item::new("[+] Right now", Action::AgainGood(number)),
                Item::new("[!] Still deficient", Action::AgainBad(number)),
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
                self.page = pick("What do you see now?", lead, items.collect(), back);
            }
            PointKind::Count { .. } | PointKind::Measure { .. } | PointKind::Serial
                if finding.needs_value =>
            {
                let (lead, unit) = match &finding.kind {
                    PointKind::Count { .. } => {
                        (wanted("Count again, and enter what you counted.".into()), String::new())
                    }
                    PointKind::Measure { unit, .. } => {
                        (wanted("Measure again, and enter what you read.".into()), unit.clone())
                    }
                    _ => (wanted("Enter what you see now.".into()), String::new()),
                };
                self.page = entry("Reinspect", lead, Purpose::AgainValue(number), back);
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
                self.perform(&request, format!("Finding {number} is closed: reinspected, good."))?;
            }
        }
        Ok(())
    }
}
