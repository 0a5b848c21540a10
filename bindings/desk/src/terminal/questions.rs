//! The pages on which something is asked: a tag, a point, what is wrong with it, words.

use slingseal_app::catalogue::terminal as words;
use slingseal_app::{Language, PointKind, PointView, TagView, WalkRequest};
use zeroize::Zeroizing;

use super::look::{self, Tone};
use super::model::{Action, Desk, Entry, Item, Page, Pick, Purpose};

impl Desk {
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

    pub(super) fn names_page(&self, point: &PointView) -> Page {
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
    pub(super) fn applies_page(&self, point: &PointView) -> Page {
        let items = vec![
            Item::new(words::AppliesAnswer.say(self.language), Action::Applies(Box::new(point.clone()))),
            Item::new(
                words::NotApplicableLoadWhy.say(self.language),
                Action::WhyNot(Box::new(point.clone())),
            ),
        ];
        pick(&point.prompt, vec![point.spoken.clone()], items, Action::Walk)
    }

    pub(super) fn point_page(&self, point: &PointView) -> Page {
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
pub(super) fn tag_page(tag: &TagView, practice: bool, language: Language) -> Page {
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
