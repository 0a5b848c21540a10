//! What a choice does.

use std::path::{Path, PathBuf};

use slingseal_app::catalogue::terminal as words;
use slingseal_app::{AppError, FindingView, Subject, WalkRequest};
use zeroize::Zeroizing;

use super::look::Tone;
use super::model::{Action, Desk, Flow, Item, Page, Pick, Purpose};
use super::questions::{entry, tag_page};
use crate::console::Shown;
use crate::output;

impl Desk {
    pub(super) fn act(&mut self, action: Action) -> Result<Flow, AppError> {
        match action {
            Action::Walk => self.page = Page::Walk,
            // In a run there is one load, and the way back is to it.
            Action::Start if self.run.is_some() => self.page = Page::Walk,
            Action::Start => self.show_start()?,
            Action::Practise => self.practise()?,
            Action::TakeUp { walk } => {
                self.view = Some(self.app.walk(&walk)?);
                self.page = Page::Walk;
            }
            Action::ReadTag(tag) => self.page = tag_page(&tag, self.practice, self.language),
            Action::Begin { tag } => self.begin(&tag)?,
            Action::Point(point) if point.may_not_apply => self.page = self.applies_page(&point),
            Action::Point(point) | Action::Applies(point) => self.page = self.point_page(&point),
            Action::WhyNot(point) => {
                let lead = vec![point.prompt.clone(), words::WhyDoesNotApplyLoad.say(self.language)];
                self.page = entry(
                    words::NotApplicable.say(self.language),
                    lead,
                    Purpose::WhyNot(point),
                    Action::Walk,
                );
            }
            Action::WhichPiece(finding) => {
                let lead = vec![
                    self.finding(finding).map(|finding| finding.shown).unwrap_or_default(),
                    words::AskWhichPiece.say(self.language),
                ];
                self.page = entry(
                    words::RejectedPiece.say(self.language),
                    lead,
                    Purpose::WhichPiece(finding),
                    Action::Finding(finding),
                );
            }
            Action::NameDeficiency(point) => self.page = self.names_page(&point),
            Action::Describe { point, name, shown } => {
                let other = name == "other";
                let lead = if other {
                    vec![words::AskWhatIsWrong.say(self.language)]
                } else {
                    vec![shown.clone(), words::NoteIfMoreSayEnter.say(self.language)]
                };
                let back = Action::NameDeficiency(point.clone());
                self.page = entry(
                    words::NoteDeficiency.say(self.language),
                    lead,
                    Purpose::Note { point, name, shown },
                    back,
                );
            }
            Action::Do { request, said } => self.perform(&request, said)?,
            Action::Findings if self.run.is_some() => self.show_calls(),
            Action::Findings => self.show_findings(),
            Action::Finding(number) => self.show_finding(number),
            Action::WhoPutRight(finding) => match self.view.as_ref().and_then(|view| view.rigger.clone()) {
                Some(rigger) => self.page = self.who_page(finding, &rigger),
                None => return self.act(Action::AnotherPutRight(finding)),
            },
            Action::PutRight { finding, by } => {
                let request = WalkRequest::PutRight { finding, by, note: None, photos: Vec::new() };
                self.perform(
                    &request,
                    words::FindingCorrectedNowReinspect { finding: &finding }.say(self.language),
                )?;
                if self.flash.as_ref().is_some_and(|flash| flash.tone != Tone::Bad) {
                    self.show_look_again(finding);
                }
            }
            Action::AnotherPutRight(finding) => {
                let lead = vec![
                    self.finding(finding).map(|finding| finding.shown).unwrap_or_default(),
                    words::WhoCorrectedCallSignEnter.say(self.language),
                ];
                self.page = entry(
                    words::Corrected.say(self.language),
                    lead,
                    Purpose::PutRightBy(finding),
                    Action::Finding(finding),
                );
            }
            Action::LookAgain(finding) => self.show_look_again(finding),
            Action::AgainGood(finding) => self.again_good(finding)?,
            Action::AgainBad(finding) => {
                let lead = vec![words::NoteIfMoreSayEnter.say(self.language)];
                let back = Action::LookAgain(finding);
                self.page = entry(
                    words::StillDeficientTitle.say(self.language),
                    lead,
                    Purpose::AgainNote(finding),
                    back,
                );
            }
            Action::AgainValue { finding, value } => {
                let request = WalkRequest::LookAgain {
                    finding,
                    good: true,
                    value: Some(value),
                    note: None,
                    photos: Vec::new(),
                };
                let said = words::FindingClosedNow { finding: &finding }.say(self.language);
                self.perform(&request, said)?;
            }
            Action::Menu if self.run.is_some() => self.run_menu(),
            Action::Menu => self.show_menu(),
            Action::Report => self.show_report()?,
            Action::Keys => {
                self.page = Page::Text {
                    title: words::AllKeys.say(self.language),
                    text: words::AllKeysText.say(self.language),
                    from: 0,
                    back: Action::Menu,
                };
            }
            Action::AskPause => {
                self.perform(&WalkRequest::Pause, words::InspectionPaused.say(self.language))?
            }
            Action::AskAbandon => {
                let lead = vec![
                    words::InspectionEndsWithoutDecisionNo.say(self.language),
                    words::AskWhyStop.say(self.language),
                ];
                self.page =
                    entry(words::StopInspection.say(self.language), lead, Purpose::Abandon, Action::Menu);
            }
            Action::AskFit => self.ask_fit(),
            Action::AskNotFit => {
                let lead =
                    vec![words::LoadStaysGround.say(self.language), words::AskWhyNotFit.say(self.language)];
                self.page =
                    entry(words::DecideNotFit.say(self.language), lead, Purpose::NotFit, Action::Walk);
            }
            Action::AskPin => {
                let lead = vec![words::YourPinPutsYourName.say(self.language)];
                let of_load = self.view.as_ref().is_none_or(|view| view.subject == Subject::Load);
                let title = if of_load {
                    words::SealTitle.say(self.language)
                } else {
                    words::SignTitle.say(self.language)
                };
                self.page = entry(title, lead, Purpose::Pin, Action::Walk);
            }
            Action::BeginRun(begin) => {
                let run = self.app.exam_begin(&begin)?.run;
                self.take_up_run(&run)?;
            }
            Action::AskEnd => self.ask_end(),
            Action::EndRun => self.end_run()?,
            Action::Save => self.save()?,
            Action::Leave => return Ok(Flow::Leave),
        }
        Ok(Flow::On)
    }

    fn begin(&mut self, tag: &str) -> Result<(), AppError> {
        let view = self.app.begin_walk(tag)?;
        let fresh = view.progress.points_done == 0 && view.findings.is_empty();
        let words = if fresh {
            words::InspectionBegins.say(self.language)
        } else {
            words::InspectionGoesWhereStood.say(self.language)
        };
        self.view = Some(view);
        self.page = Page::Walk;
        self.tell(Tone::Plain, words);
        Ok(())
    }

    pub(super) fn perform(&mut self, request: &WalkRequest, said: String) -> Result<(), AppError> {
        if self.run.is_some() {
            return self.perform_in_run(request, said);
        }
        let Some(walk) = self.view.as_ref().map(|view| view.walk.clone()) else { return Ok(()) };
        let before = self.view.as_ref().map_or(0, |view| view.findings.len());
        let mut view = self.app.do_walk(&walk, request)?;
        let refused = view.refused.take();
        let found = view.findings.get(before..).and_then(<[FindingView]>::first).cloned();
        self.view = Some(view);
        if let Some(refused) = refused {
            // What was typed stays, to be mended.
            if !matches!(self.page, Page::Entry(_)) {
                self.page = Page::Walk;
            }
            self.tell(Tone::Bad, refused.message);
            return Ok(());
        }
        self.page = Page::Walk;
        match found {
            Some(found) => self.show_found(&found),
            None => self.tell(Tone::Good, said),
        }
        Ok(())
    }

    pub(super) fn card(&self) -> u32 {
        self.view.as_ref().and_then(|view| view.card.as_ref()).map_or(0, |card| card.number)
    }

    fn ask_fit(&mut self) {
        let Some(view) = &self.view else { return };
        if let Some(first) = view.blocks_fit.first() {
            let words = words::NotYet { first: &first }.say(self.language);
            return self.tell(Tone::Bad, words);
        }
        let mut lead = vec![
            words::YouSayItIsRigged { load: &view.load }.say(self.language),
            words::YouLookedAtAll { points: &view.progress.points }.say(self.language),
        ];
        lead.extend(view.cautions.iter().map(|caution| format!("! {caution}")));
        self.page = Page::Pick(Box::new(Pick {
            title: words::DecideFit.say(self.language),
            lead,
            items: vec![Item::new(
                words::YesFitLifted.say(self.language),
                Action::Do {
                    request: WalkRequest::Decide { fit: true, reason: None },
                    said: if view.subject == Subject::Load {
                        words::DecidedFitNowSeal.say(self.language)
                    } else {
                        words::DecidedFitNowSign.say(self.language)
                    },
                },
            )],
            from: 0,
            back: Action::Walk,
            tone: Tone::Good,
        }));
    }

    pub(super) fn seal(&mut self, pin: &str) -> Result<Flow, AppError> {
        let Some(view) = &self.view else { return Ok(Flow::On) };
        let (walk, of_load) = (view.walk.clone(), view.subject == Subject::Load);
        if !of_load {
            return self.sign(&walk, pin);
        }
        let sealed = self.app.seal(&walk, pin, None);
        if let Page::Entry(entry) = &mut self.page {
            entry.text = Zeroizing::new(String::new());
        }
        let seal = sealed?;
        self.page = Page::Seal { seal: Box::new(seal), code: true };
        self.tell(Tone::Good, words::SealedShowCodeHookupTeam.say(self.language));
        if self.out.is_some() {
            self.save()?;
        }
        Ok(Flow::On)
    }

    /// Signs an inspection of what is no load, and goes back to what is in hand.
    fn sign(&mut self, walk: &str, pin: &str) -> Result<Flow, AppError> {
        let signed = self.app.sign_inspection(walk, pin);
        if let Page::Entry(entry) = &mut self.page {
            entry.text = Zeroizing::new(String::new());
        }
        let signed = signed?;
        if let Some(folder) = &self.out {
            let name = format!("inspection-{}", output::file_name(&signed.name));
            output::put_code(&signed.code, Some(folder), &name)?;
        }
        self.show_start()?;
        let words = words::InspectionSigned { name: &signed.name, inspector: &signed.inspector };
        self.tell(Tone::Good, words.say(self.language));
        Ok(Flow::On)
    }

    fn save(&mut self) -> Result<(), AppError> {
        let Page::Seal { seal, .. } = &self.page else { return Ok(()) };
        let folder = self.out.clone().unwrap_or_else(|| PathBuf::from("."));
        let name = format!("seal-{}", output::file_name(&seal.facts.load));
        output::put_code(&seal.code, Some(&folder), &name)?;
        let shown = Path::new(&folder).join(name);
        self.tell(Tone::Good, words::SealedWrittenPngSvgTxt { shown: shown.shown() }.say(self.language));
        Ok(())
    }
}
