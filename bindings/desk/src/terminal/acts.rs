//! What a choice does, and the pages that it leads to.

use slingseal_app::catalogue::{rigging as rig_words, terminal as words};
use std::path::{Path, PathBuf};

use slingseal_app::{AppError, FindingView, Language, PointKind, PointView, TagView, WalkRequest, WalkStage};
use zeroize::Zeroizing;

use super::look::{self, Tone};
use super::model::{Action, Desk, Entry, Flow, Item, Page, Pick, Purpose};
use crate::console::Shown;
use crate::output;

/// What the core calls the subject of an inspection that ends in a seal; every other is signed.
pub(super) const LOAD: &str = "load";
/// How wide the expected picture is, in cells: it fits the narrowest window.
const EXPECTED: usize = 36;

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
                let of_load = self.view.as_ref().is_none_or(|view| view.subject == LOAD);
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

    pub(super) fn which_point(&self, points: &[PointView]) -> Page {
        let item = |point: &PointView| {
            let (shape, word, tone) = look::point(point.state);
            let word = word.say(self.language);
            let words = format!("{shape} {}  {word}", point.prompt);
            Item { words, tone, action: Action::NameDeficiency(Box::new(point.clone())) }
        };
        pick(
            words::DeficiencyWhichPoint.say(self.language),
            Vec::new(),
            points.iter().map(item).collect(),
            Action::Walk,
        )
    }

    fn names_page(&self, point: &PointView) -> Page {
        let mut items: Vec<Item> = point
            .deficiencies
            .iter()
            .map(|known| {
                let place = look::fate_words(known.fate).say(self.language);
                let (name, shown) = (known.name.clone(), known.shown.clone());
                let point = Box::new(point.clone());
                Item::new(format!("{}{place}", known.shown), Action::Describe { point, name, shown })
            })
            .collect();
        items.push(Item::new(
            words::SomethingElseYourWords.say(self.language),
            Action::Describe {
                point: Box::new(point.clone()),
                name: "other".into(),
                shown: point.prompt.clone(),
            },
        ));
        pick(words::DeficiencyWhatWrong.say(self.language), vec![point.prompt.clone()], items, Action::Walk)
    }

    /// A point that some loads do not have.
    fn applies_page(&self, point: &PointView) -> Page {
        let items = vec![
            Item::new(words::AppliesAnswer.say(self.language), Action::Applies(Box::new(point.clone()))),
            Item::new(
                words::NotApplicableLoadWhy.say(self.language),
                Action::WhyNot(Box::new(point.clone())),
            ),
        ];
        pick(&point.prompt, vec![point.spoken.clone()], items, Action::Walk)
    }

    fn point_page(&self, point: &PointView) -> Page {
        // Where the long text says no more than the title it is not said again.
        let again = point.spoken.trim_end_matches('.') == point.prompt.trim_end_matches('.');
        let lead = |more: String| {
            let spoken = (!again).then(|| point.spoken.clone());
            spoken.into_iter().chain([more]).collect::<Vec<_>>()
        };
        let value = |lead: Vec<String>, unit: &str| {
            let mut page = entry(&point.prompt, lead, Purpose::Value(Box::new(point.clone())), Action::Walk);
            if let Page::Entry(entry) = &mut page {
                entry.unit = unit.to_owned();
            }
            page
        };
        match &point.kind {
            PointKind::Look => {
                let good =
                    WalkRequest::Answer { card: self.card(), point: point.id.clone(), value: String::new() };
                let said = words::GoodTakesBack { prompt: &point.prompt }.say(self.language);
                pick(
                    &point.prompt,
                    lead(words::Source { source: &point.source }.say(self.language)),
                    vec![
                        Item::new(
                            words::GoodPointAlone.say(self.language),
                            Action::Do { request: good, said },
                        ),
                        Item::new(
                            words::Deficient.say(self.language),
                            Action::NameDeficiency(Box::new(point.clone())),
                        ),
                    ],
                    Action::Walk,
                )
            }
            PointKind::Choice { options } => {
                let items = options.iter().map(|option| {
                    let value = option.name.clone();
                    let request = WalkRequest::Answer { card: self.card(), point: point.id.clone(), value };
                    let said =
                        words::TakesBack { prompt: &point.prompt, shown: &option.shown }.say(self.language);
                    Item::new(option.shown.clone(), Action::Do { request, said })
                });
                pick(
                    &point.prompt,
                    lead(words::WhichOneDoYouSee.say(self.language)),
                    items.collect(),
                    Action::Walk,
                )
            }
            // What is wanted is told once a number was entered: who knows it counts to it.
            PointKind::Count { .. } => value(lead(words::CountEnterWhatYouCounted.say(self.language)), ""),
            PointKind::Measure { unit, .. } => {
                value(lead(words::MeasureEnterWhatYouRead { unit: &unit }.say(self.language)), unit)
            }
            PointKind::Serial => value(lead(words::ReadSerialNumberOffPlate.say(self.language)), ""),
            PointKind::Text => value(lead(words::YourWords.say(self.language)), ""),
        }
    }

    pub(super) fn card(&self) -> u32 {
        self.view.as_ref().and_then(|view| view.card.as_ref()).map_or(0, |card| card.number)
    }

    fn show_menu(&mut self) {
        let mut items = Vec::new();
        let stage = self.view.as_ref().map(|view| view.stage.clone());
        match stage {
            Some(WalkStage::Walking) => {
                items.push(Item::new(words::PauseInspection.say(self.language), Action::AskPause))
            }
            Some(WalkStage::Paused) => items.push(Item::new(
                words::GoInspection.say(self.language),
                Action::Do {
                    request: WalkRequest::Resume,
                    said: words::InspectionGoesWhereStood.say(self.language),
                },
            )),
            _ => {}
        }
        items.push(Item::new(words::CautionsStaticsFull.say(self.language), Action::Report));
        items.push(Item::new(words::AllKeys.say(self.language), Action::Keys));
        if matches!(stage, Some(WalkStage::Walking | WalkStage::Paused)) {
            items.push(Item::new(words::StopInspection.say(self.language), Action::AskAbandon));
        }
        items.push(Item::new(words::OtherLoads.say(self.language), Action::Start));
        items.push(Item::new(words::LeaveProgramInspectionStaysWhere.say(self.language), Action::Leave));
        self.page = pick(words::MoreTitle.say(self.language), Vec::new(), items, Action::Walk);
    }

    fn show_report(&mut self) -> Result<(), AppError> {
        let Some(view) = &self.view else { return Ok(()) };
        let mut text = String::new();
        let mut add = |line: &str| {
            text.push_str(line);
            text.push('\n');
        };
        for fault in &view.tag_faults {
            add(&words::TagFault { fault: &fault }.say(self.language));
        }
        for caution in &view.cautions {
            add(&format!("! {caution}"));
        }
        if let Some(change) = &view.link_change {
            add(&format!("! {change}"));
        }
        for link in self.app.walk_links(&view.walk)? {
            let (leg, planned) = (&link.leg, link.planned.to_string());
            add(&match link.counted {
                Some(counted) => rig_words::LinkBesidePlan { leg, planned, counted: counted.to_string() }
                    .say(self.language),
                None => rig_words::LinkNotCounted { leg, planned }.say(self.language),
            });
        }
        if let Some(rows) = self.app.walk_planned_cells(&view.walk, EXPECTED)? {
            add("");
            add(&rig_words::ExpectedPicture.say(self.language));
            rows.iter().for_each(|row| add(row));
        }
        match self.app.walk_rigging(&view.walk)? {
            Some(rigging) => {
                add("");
                add(&rigging.report);
            }
            None => {
                add(&words::TagCarriesNoRiggingSo.say(self.language));
                add(&words::ManualStandsAbove.say(self.language));
            }
        }
        self.page = Page::Text {
            title: words::CautionsStatics.say(self.language),
            text,
            from: 0,
            back: Action::Menu,
        };
        Ok(())
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
                    said: if view.subject == LOAD {
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
        let (walk, of_load) = (view.walk.clone(), view.subject == LOAD);
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

pub(super) fn pick(title: impl Into<String>, lead: Vec<String>, items: Vec<Item>, back: Action) -> Page {
    Page::Pick(Box::new(Pick { title: title.into(), lead, items, from: 0, back, tone: Tone::Plain }))
}

pub(super) fn entry(title: impl Into<String>, lead: Vec<String>, purpose: Purpose, back: Action) -> Page {
    Page::Entry(Box::new(Entry {
        title: title.into(),
        lead,
        text: Zeroizing::new(String::new()),
        unit: String::new(),
        purpose,
        back,
    }))
}

/// The tag before the walk: is this the load that hangs here?
fn tag_page(tag: &TagView, practice: bool, language: Language) -> Page {
    let planner = tag.planner.as_ref().map_or_else(|| words::NobodyWhoTrusted.say(language), String::clone);
    let mut lead = vec![
        tag.description.clone(),
        words::GrossUnderAllowed { gross: &tag.gross, aircraft: &tag.aircraft, allowable: &tag.allowable }
            .say(language),
        words::FromTo { from: &tag.pickup.name, to: &tag.destination.name }.say(language),
        words::RiggedPlanned {
            rigger: tag.rigger.clone().unwrap_or_else(|| words::SomeoneNotNamed.say(language)),
            dtg: &tag.planned.dtg,
            planner: &planner,
        }
        .say(language),
        words::ProcedureTitled { title: tag.procedure_title.as_deref().unwrap_or(&tag.procedure) }
            .say(language),
    ];
    lead.extend(tag.basis.lines.iter().map(|line| format!("{}: {}", line.label, line.text)));
    lead.extend(tag.warnings.iter().map(|warning| format!("! {warning}")));
    if practice {
        lead.push(words::PlayLoadStandsBeforeYou.say(language));
    }
    pick(
        words::LoadLoad { load: &tag.load }.say(language),
        lead,
        vec![
            Item::new(words::InspectThisLoad.say(language), Action::Begin { tag: tag.text.clone() }),
            Item::new(words::OtherLoads.say(language), Action::Start),
        ],
        Action::Start,
    )
}
