//! What a choice does, and the pages that it leads to.

use std::path::{Path, PathBuf};

use slingseal_app::{AppError, FindingView, PointKind, PointView, TagView, WalkRequest, WalkStage};
use zeroize::Zeroizing;

use super::look::{self, Tone};
use super::model::{Action, Desk, Entry, Flow, Item, Page, Pick, Purpose};
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
            Action::ReadTag(tag) => self.page = tag_page(&tag, self.practice),
            Action::Begin { tag } => self.begin(&tag)?,
            Action::Point(point) if point.may_not_apply => self.page = self.applies_page(&point),
            Action::Point(point) | Action::Applies(point) => self.page = self.point_page(&point),
            Action::WhyNot(point) => {
                let lead =
                    vec![point.prompt.clone(), "Why does it not apply to this load? A few words.".into()];
                self.page = entry("Not applicable", lead, Purpose::WhyNot(point), Action::Walk);
            }
            Action::WhichPiece(finding) => {
                let lead = vec![
                    self.finding(finding).map(|finding| finding.shown).unwrap_or_default(),
                    "Which piece? Its serial number: it leaves service, and no load that names it is fit."
                        .into(),
                ];
                self.page =
                    entry("Rejected piece", lead, Purpose::WhichPiece(finding), Action::Finding(finding));
            }
            Action::NameDeficiency(point) => self.page = self.names_page(&point),
            Action::Describe { point, name, shown } => {
                let other = name == "other";
                let lead = if other {
                    vec!["Say what is wrong, in a few words.".into()]
                } else {
                    vec![shown.clone(), "A note, if there is more to say. Enter alone: no note.".into()]
                };
                let back = Action::NameDeficiency(point.clone());
                self.page = entry("Note to the deficiency", lead, Purpose::Note { point, name, shown }, back);
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
                self.perform(&request, format!("Finding {finding} is corrected. Now reinspect it."))?;
                if self.flash.as_ref().is_some_and(|flash| flash.tone != Tone::Bad) {
                    self.show_look_again(finding);
                }
            }
            Action::AnotherPutRight(finding) => {
                let lead = vec![
                    self.finding(finding).map(|finding| finding.shown).unwrap_or_default(),
                    "Who corrected it? A call sign; Enter alone: not named.".into(),
                ];
                self.page = entry("Corrected", lead, Purpose::PutRightBy(finding), Action::Finding(finding));
            }
            Action::LookAgain(finding) => self.show_look_again(finding),
            Action::AgainGood(finding) => self.again_good(finding)?,
            Action::AgainBad(finding) => {
                let lead = vec!["A note, if there is more to say. Enter alone: no note.".into()];
                let back = Action::LookAgain(finding);
                self.page = entry("Still deficient", lead, Purpose::AgainNote(finding), back);
            }
            Action::AgainValue { finding, value } => {
                let request = WalkRequest::LookAgain {
                    finding,
                    good: true,
                    value: Some(value),
                    note: None,
                    photos: Vec::new(),
                };
                let said = format!("Finding {finding} is closed: reinspected, good.");
                self.perform(&request, said)?;
            }
            Action::Menu if self.run.is_some() => self.run_menu(),
            Action::Menu => self.show_menu(),
            Action::Report => self.show_report()?,
            Action::Keys => {
                self.page =
                    Page::Text { title: "All keys".into(), text: KEYS.into(), from: 0, back: Action::Menu };
            }
            Action::AskPause => self.perform(&WalkRequest::Pause, "The inspection is paused.".into())?,
            Action::AskAbandon => {
                let lead = vec![
                    "The inspection ends without a decision, and no seal can come of it.".into(),
                    "Why? A few words; Enter alone goes back.".into(),
                ];
                self.page = entry("Stop the inspection", lead, Purpose::Abandon, Action::Menu);
            }
            Action::AskFit => self.ask_fit(),
            Action::AskNotFit => {
                let lead = vec![
                    "The load stays on the ground.".into(),
                    "Why? A few words. With findings on the record, Enter alone will do.".into(),
                ];
                self.page = entry("Decide NOT FIT", lead, Purpose::NotFit, Action::Walk);
            }
            Action::AskPin => {
                let lead = vec!["Your PIN puts your name to it. It is not shown.".into()];
                self.page = entry("Seal", lead, Purpose::Pin, Action::Walk);
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
        let words = if fresh { "The inspection begins." } else { "The inspection goes on where it stood." };
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
            let words = format!("{shape} {}  {word}", point.prompt);
            Item { words, tone, action: Action::NameDeficiency(Box::new(point.clone())) }
        };
        pick("Deficiency: at which point?", Vec::new(), points.iter().map(item).collect(), Action::Walk)
    }

    fn names_page(&self, point: &PointView) -> Page {
        let mut items: Vec<Item> = point
            .deficiencies
            .iter()
            .map(|known| {
                let place = look::fate_words(known.fate);
                let (name, shown) = (known.name.clone(), known.shown.clone());
                let point = Box::new(point.clone());
                Item::new(format!("{}{place}", known.shown), Action::Describe { point, name, shown })
            })
            .collect();
        items.push(Item::new(
            "Something else, in your words",
            Action::Describe {
                point: Box::new(point.clone()),
                name: "other".into(),
                shown: point.prompt.clone(),
            },
        ));
        pick("Deficiency: what is wrong?", vec![point.prompt.clone()], items, Action::Walk)
    }

    /// A point that some loads do not have.
    fn applies_page(&self, point: &PointView) -> Page {
        let items = vec![
            Item::new("It applies: answer it", Action::Applies(Box::new(point.clone()))),
            Item::new("Not applicable to this load, and why", Action::WhyNot(Box::new(point.clone()))),
        ];
        pick(&point.prompt, vec![point.spoken.clone()], items, Action::Walk)
    }

    fn point_page(&self, point: &PointView) -> Page {
        let lead = |more: String| vec![point.spoken.clone(), more];
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
                let said = format!("Good: {}.  * takes it back.", point.prompt);
                pick(
                    &point.prompt,
                    lead(format!("Source: {}.", point.source)),
                    vec![
                        Item::new("[+] Good, this point alone", Action::Do { request: good, said }),
                        Item::new("[!] Deficient", Action::NameDeficiency(Box::new(point.clone()))),
                    ],
                    Action::Walk,
                )
            }
            PointKind::Choice { options } => {
                let items = options.iter().map(|option| {
                    let value = option.name.clone();
                    let request = WalkRequest::Answer { card: self.card(), point: point.id.clone(), value };
                    let said = format!("{}: {}.  * takes it back.", point.prompt, option.shown);
                    Item::new(option.shown.clone(), Action::Do { request, said })
                });
                pick(&point.prompt, lead("Which one do you see?".into()), items.collect(), Action::Walk)
            }
            // What is wanted is told once a number was entered: who knows it counts to it.
            PointKind::Count { .. } => value(lead("Count, and enter what you counted.".into()), ""),
            PointKind::Measure { unit, .. } => {
                value(lead(format!("Measure, and enter what you read, in {unit}.")), unit)
            }
            PointKind::Serial => value(lead("Read the serial number off the plate.".into()), ""),
            PointKind::Text => value(lead("In your words.".into()), ""),
        }
    }

    pub(super) fn card(&self) -> u32 {
        self.view.as_ref().and_then(|view| view.card.as_ref()).map_or(0, |card| card.number)
    }

    fn show_menu(&mut self) {
        let mut items = Vec::new();
        let stage = self.view.as_ref().map(|view| view.stage.clone());
        match stage {
            Some(WalkStage::Walking) => items.push(Item::new("Pause the inspection", Action::AskPause)),
            Some(WalkStage::Paused) => items.push(Item::new(
                "Go on with the inspection",
                Action::Do {
                    request: WalkRequest::Resume,
                    said: "The inspection goes on where it stood.".into(),
                },
            )),
            _ => {}
        }
        items.push(Item::new("Cautions and statics in full", Action::Report));
        items.push(Item::new("All keys", Action::Keys));
        if matches!(stage, Some(WalkStage::Walking | WalkStage::Paused)) {
            items.push(Item::new("Stop the inspection", Action::AskAbandon));
        }
        items.push(Item::new("Other loads", Action::Start));
        items.push(Item::new("Leave the program; the inspection stays where it is", Action::Leave));
        self.page = pick("More", Vec::new(), items, Action::Walk);
    }

    fn show_report(&mut self) -> Result<(), AppError> {
        let Some(view) = &self.view else { return Ok(()) };
        let mut text = String::new();
        let mut add = |line: &str| {
            text.push_str(line);
            text.push('\n');
        };
        for fault in &view.tag_faults {
            add(&format!("[!] On the tag: {fault}"));
        }
        for caution in &view.cautions {
            add(&format!("! {caution}"));
        }
        if let Some(change) = &view.link_change {
            add(&format!("! {change}"));
        }
        match self.app.walk_rigging(&view.walk)? {
            Some(rigging) => {
                add("");
                add(&rigging.report);
            }
            None => {
                add("The tag carries no rigging, so that no statics were worked out.");
                add("The governing manual, local rules and your own judgement stand above this program.");
            }
        }
        self.page = Page::Text { title: "Cautions and statics".into(), text, from: 0, back: Action::Menu };
        Ok(())
    }

    fn ask_fit(&mut self) {
        let Some(view) = &self.view else { return };
        if let Some(first) = view.blocks_fit.first() {
            let words = format!("Not yet: {first}.");
            return self.tell(Tone::Bad, words);
        }
        let mut lead = vec![
            format!("You say that load {} is rigged as the procedure wants it.", view.load),
            format!("Every one of {} points was looked at by you.", view.progress.points),
        ];
        lead.extend(view.cautions.iter().map(|caution| format!("! {caution}")));
        self.page = Page::Pick(Box::new(Pick {
            title: "Decide FIT?".into(),
            lead,
            items: vec![Item::new(
                "[+] Yes, FIT to be lifted",
                Action::Do {
                    request: WalkRequest::Decide { fit: true, reason: None },
                    said: "Decided: FIT. Now seal it.".into(),
                },
            )],
            from: 0,
            back: Action::Walk,
            tone: Tone::Good,
        }));
    }

    pub(super) fn seal(&mut self, pin: &str) -> Result<Flow, AppError> {
        let Some(walk) = self.view.as_ref().map(|view| view.walk.clone()) else { return Ok(Flow::On) };
        let sealed = self.app.seal(&walk, pin, None);
        if let Page::Entry(entry) = &mut self.page {
            entry.text = Zeroizing::new(String::new());
        }
        let seal = sealed?;
        self.page = Page::Seal { seal: Box::new(seal), code: true };
        self.tell(Tone::Good, "Sealed. Show this code to the hookup team; they check the facts aloud.");
        if self.out.is_some() {
            self.save()?;
        }
        Ok(Flow::On)
    }

    fn save(&mut self) -> Result<(), AppError> {
        let Page::Seal { seal, .. } = &self.page else { return Ok(()) };
        let folder = self.out.clone().unwrap_or_else(|| PathBuf::from("."));
        let name = format!("seal-{}", output::file_name(&seal.facts.load));
        output::put_code(&seal.code, Some(&folder), &name)?;
        let shown = Path::new(&folder).join(name);
        self.tell(Tone::Good, format!("Sealed and written: {}.png, .svg and .txt", shown.shown()));
        Ok(())
    }
}

const KEYS: &str = "On a card
+  the whole card is good (also g); asks first for what must be counted or read
-  a deficiency: the point by its number, then what is wrong (also d)
1 to 9  one point alone: good, deficient, or its count, choice or measure
*  take the last answer back (also u, Backspace)
/  findings: correct, reinspect (also f)
.  all cards; type a number and Enter to go there (also c)
0  more: pause, statics, abandon, leave (also m, ?, Esc)

In a list
1 to 9  pick    +  next page    -  back (also Esc)

Where something is typed
Enter  done    *  erase (also Backspace)    -  back while nothing is typed (also Esc)

The code on the screen
+  write PNG, SVG and text    .  code or facts    0  other loads

Anywhere
Ctrl-C  leave. Every answer is on disk before the screen shows it, so that nothing is lost.";

pub(super) fn pick(title: &str, lead: Vec<String>, items: Vec<Item>, back: Action) -> Page {
    Page::Pick(Box::new(Pick { title: title.to_owned(), lead, items, from: 0, back, tone: Tone::Plain }))
}

pub(super) fn entry(title: &str, lead: Vec<String>, purpose: Purpose, back: Action) -> Page {
    Page::Entry(Box::new(Entry {
        title: title.to_owned(),
        lead,
        text: Zeroizing::new(String::new()),
        unit: String::new(),
        purpose,
        back,
    }))
}

/// The tag before the walk: is this the load that hangs here?
fn tag_page(tag: &TagView, practice: bool) -> Page {
    let planner = tag.planner.as_ref().map_or("nobody who is trusted here", String::as_str);
    let mut lead = vec![
        tag.description.clone(),
        format!("{} under a {}, which is allowed {}", tag.gross, tag.aircraft, tag.allowable),
        format!("{} to {}", tag.pickup.name, tag.destination.name),
        format!(
            "Rigged by {}; planned {} by {planner}",
            tag.rigger.as_deref().unwrap_or("someone not named"),
            tag.planned.dtg
        ),
        format!("Procedure: {}", tag.procedure_title.as_deref().unwrap_or(&tag.procedure)),
    ];
    lead.extend(tag.basis.lines.iter().map(|line| format!("{}: {}", line.label, line.text)));
    lead.extend(tag.warnings.iter().map(|warning| format!("! {warning}")));
    if practice {
        lead.push("Play that the load stands before you. No seal of it holds on a real zone.".into());
    }
    pick(
        &format!("Load {}: is this the load?", tag.load),
        lead,
        vec![
            Item::new("Yes, inspect it", Action::Begin { tag: tag.text.clone() }),
            Item::new("Other loads", Action::Start),
        ],
        Action::Start,
    )
}
