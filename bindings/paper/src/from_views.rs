//! From the facade's views to what the pages say.

use serde::Deserialize;
use slingseal_app::catalogue::Saying;
use slingseal_app::catalogue::{closing, paper as words};
use slingseal_app::{
    AppError, CodeView, FindingState, Language, MomentKind, RecordState, RecordView, TagSignature, TagView,
    clock, rigging_percent,
};

use super::code::Code;
use super::document::{Paper, PrintError};
use super::record::{Correction, Moment, RecordPage, record_page};
use super::sheet::{EquipmentLine, LoadSheet, load_sheets};

impl From<PrintError> for AppError {
    fn from(error: PrintError) -> Self {
        Self::Internal { message: error.to_string().into() }
    }
}

pub(super) fn code(view: &CodeView) -> Code {
    let modules = usize::try_from(view.size).unwrap_or_default();
    let dark = view.modules.iter().map(|module| *module == 1).collect();
    Code { modules, dark, check: view.check.clone() }
}

fn sheet(tag: &TagView, picture: &CodeView, language: Language) -> LoadSheet {
    let some = |text: &Option<String>| text.clone().unwrap_or_default();
    LoadSheet {
        load: tag.load.clone(),
        description: tag.description.clone(),
        mass: tag.gross.clone(),
        aircraft: tag.aircraft.clone(),
        allowable: tag.allowable.clone(),
        zone: tag.pickup.name.clone(),
        grid: some(&tag.pickup.grid),
        destination: tag.destination.name.clone(),
        rigger: some(&tag.rigger),
        procedure: tag.procedure_title.clone().unwrap_or_else(|| tag.procedure.clone()),
        equipment: tag
            .equipment
            .iter()
            .map(|piece| EquipmentLine {
                serial: piece.serial.clone(),
                kind: piece.kind.clone(),
                rating: some(&piece.rating),
                source: some(&piece.source),
                due: some(&piece.next_inspection),
            })
            .collect(),
        links: legs(tag),
        weight_source: tag
            .basis
            .weight_source
            .map(|source| slingseal_app::weight_source_words(source, language))
            .unwrap_or_default(),
        airspeed: match (&tag.basis.airspeed, &tag.basis.airspeed_source) {
            (Some(limit), Some(source)) => format!("{limit} ({source})"),
            _ => String::new(),
        },
        rigged_to: match (&tag.basis.manual, &tag.basis.manual_edition) {
            (Some(manual), Some(edition)) => {
                words::ManualEdition { manual: &manual, edition: &edition }.say(language)
            }
            _ => String::new(),
        },
        edition: tag
            .basis
            .edition
            .as_ref()
            .map(|one| format!("{} {} ({})", one.procedure, one.version, one.thumbprint))
            .unwrap_or_default(),
        signed_by: tag.planner.clone(),
        unsigned: match tag.signature {
            TagSignature::Unknown => words::SignedByStranger.say(language),
            TagSignature::Forged => words::ForgedTag.say(language),
            TagSignature::Planner | TagSignature::Unsigned => words::UnsignedTag.say(language),
        },
        // The sheet says by itself that nobody has signed.
        cautions: tag.warnings.iter().filter(|_| tag.signature != TagSignature::Unsigned).cloned().collect(),
        code: code(picture),
        rigging: tag.rigging.clone(),
    }
}

/// Each leg with its link count and its serial number, as far as the tag has them.
fn legs(tag: &TagView) -> Vec<(String, String)> {
    let serial = |leg: &str| tag.basis.legs.iter().find(|one| one.leg == leg).map(|one| one.serial.clone());
    let counted = tag.links.iter().map(|count| {
        let serial = serial(&count.leg).map(|serial| format!(" ({serial})")).unwrap_or_default();
        (count.leg.clone(), format!("{}{serial}", count.link))
    });
    let others = tag.basis.legs.iter().filter(|one| tag.links.iter().all(|count| count.leg != one.leg));
    counted.chain(others.map(|one| (one.leg.clone(), one.serial.clone()))).collect()
}

/// The sheets of some tags, one page each, dated by the newest plan.
///
/// # Errors
/// The page cannot be written.
pub fn sheets_pdf(
    tags: &[(&TagView, &CodeView)],
    paper: Paper,
    language: Language,
) -> Result<Vec<u8>, AppError> {
    let dated = tags.iter().map(|(tag, _)| tag.planned.rfc3339.as_str()).max();
    let sheets: Vec<LoadSheet> = tags.iter().map(|(tag, code)| sheet(tag, code, language)).collect();
    Ok(load_sheets(&sheets, dated.unwrap_or("1970-01-01T00:00:00Z"), paper, language)?)
}

/// What the page needs of the statics as a record keeps them.
#[derive(Deserialize)]
struct Rigging {
    #[serde(default)]
    parts: Vec<Part>,
    #[serde(default)]
    warnings: Vec<String>,
    #[serde(default)]
    legs: Vec<Leg>,
    rules: Option<Rules>,
    /// Not in what was sealed before it was told.
    beyond: Option<Beyond>,
    #[serde(default = "one")]
    factor: f64,
}

fn one() -> f64 {
    1.0
}

#[derive(Deserialize)]
struct Leg {
    name: String,
    worst_case_n: Option<f64>,
    rated_n: f64,
}

#[derive(Deserialize)]
struct Rules {
    three_leg: f64,
    two_leg: f64,
}

#[derive(Deserialize)]
struct Beyond {
    said: String,
}

impl Rigging {
    /// What the tensions at rest do not say: the worst case and the rules, each with its share of the rating.
    fn otherwise(&self, language: Language) -> Vec<String> {
        if self.legs.len() < 2 {
            return Vec::new();
        }
        let mut said: Vec<String> = self.beyond.iter().map(|beyond| beyond.said.clone()).collect();
        let worst = self.legs.iter().filter_map(|leg| {
            let carries = leg.worst_case_n? * self.factor;
            Some((leg, carries, carries / leg.rated_n))
        });
        if let Some((leg, carries, share)) = worst.max_by(|a, b| a.2.total_cmp(&b.2)) {
            let carries = self.in_unit(carries);
            said.push(
                words::WorstCase { leg: &leg.name, carries: &carries, share: &rigging_percent(share) }
                    .say(language),
            );
        }
        if let Some(rules) = &self.rules {
            let two = rigging_percent(rules.two_leg);
            said.push(if self.legs.len() > 2 {
                words::RulesThreeAndTwo { three: rigging_percent(rules.three_leg), two }.say(language)
            } else {
                words::RulesTwo { two }.say(language)
            });
        }
        said
    }
}

impl Rigging {
    /// A force in the unit in which the parts tell what they carry.
    fn in_unit(&self, newtons: f64) -> String {
        let unit = self.parts.iter().find_map(|part| part.carries.rsplit(' ').next()).unwrap_or("kN");
        // Of a mass its weight counts, under standard gravity (9.806 65 m/s²); the international pound is 0.453 592 37 kg.
        match unit {
            "lb" | "lbf" => format!("{:.0} {unit}", newtons / 9.806_65 / 0.453_592_37),
            "kg" => format!("{:.0} kg", newtons / 9.806_65),
            "t" => format!("{:.2} t", newtons / 9_806.65),
            "N" => format!("{newtons:.0} N"),
            _ => format!("{:.2} kN", newtons / 1_000.0),
        }
    }
}

#[derive(Deserialize)]
struct Part {
    part: String,
    utilisation: f64,
    carries: String,
}

/// The page of one record.
///
/// # Errors
/// The page cannot be written.
pub fn record_pdf(
    view: &RecordView,
    seal: Option<&CodeView>,
    paper: Paper,
    language: Language,
) -> Result<Vec<u8>, AppError> {
    let line = &view.line;
    let standing = match (line.state, view.voids.last()) {
        (RecordState::Voided, void) => {
            let taken_back = words::TakenBack.say(language);
            let void = void.unwrap_or(&taken_back);
            if line.fit {
                words::WasFit { void }.say(language)
            } else {
                words::WasNotFit { void }.say(language)
            }
        }
        (RecordState::Superseded, _) => words::TookItsPlace.say(language),
        (RecordState::Expired, _) => line.valid_until.dtg.clone(),
        (RecordState::Fit, _) => {
            words::UntilFor { until: &line.valid_until.dtg, aircraft: &line.aircraft }.say(language)
        }
        (RecordState::NotFit, _) => words::DecidedAt { at: &line.issued.dtg }.say(language),
        (RecordState::Refused | RecordState::Waits | RecordState::NoInspection, _) => {
            view.reasons.first().cloned().unwrap_or_default()
        }
    };
    let tag = view.tag.as_ref();
    let fact = |label: Saying, value: String| (label.say(language), value);
    let rigging: Option<Rigging> =
        view.rigging_json.as_deref().and_then(|json| serde_json::from_str(json).ok());
    let mut facts = vec![
        fact(words::LabelInspector.saying(), line.inspector.clone()),
        fact(words::LabelRigger.saying(), line.rigger.clone()),
        fact(
            words::LabelProcedure.saying(),
            words::VersionOf { procedure: &line.procedure, version: &line.version }.say(language),
        ),
        fact(words::GrossWeight.saying(), tag.map(|tag| tag.gross.clone()).unwrap_or_default()),
        fact(words::LabelAllowable.saying(), tag.map(|tag| tag.allowable.clone()).unwrap_or_default()),
        fact(words::LabelAircraft.saying(), line.aircraft.clone()),
        fact(words::LabelFrom.saying(), line.place.clone()),
        fact(words::LabelGrid.saying(), tag.and_then(|tag| tag.pickup.grid.clone()).unwrap_or_default()),
        fact(words::LabelTo.saying(), tag.map(|tag| tag.destination.name.clone()).unwrap_or_default()),
        fact(words::LabelSealed.saying(), line.issued.dtg.clone()),
        fact(
            words::LabelValidUntil.saying(),
            if line.fit { line.valid_until.dtg.clone() } else { String::new() },
        ),
        fact(words::LabelTagSignedBy.saying(), tag.and_then(|tag| tag.planner.clone()).unwrap_or_default()),
    ];
    if let (Some(seconds), Some(cards)) = (line.walk_seconds, line.walk_cards) {
        let took = clock(seconds);
        let label = closing::LabelWalkedIn.say(language).to_lowercase();
        facts.push((label, closing::WalkTook { took, cards }.say(language)));
    }
    let basis = tag.map(|tag| tag.basis.lines.as_slice()).unwrap_or_default();
    facts.extend(basis.iter().map(|line| (line.label.to_lowercase(), line.text.clone())));
    let page = RecordPage {
        load: line.load.clone(),
        description: tag.map(|tag| tag.description.clone()).unwrap_or_default(),
        banner: view.banner.clone(),
        fit: line.state == RecordState::Fit,
        standing,
        facts,
        moments: moments(view, language),
        deficiencies: view
            .findings
            .iter()
            .map(|finding| Correction {
                point: finding.prompt.clone(),
                found: finding.shown.clone(),
                corrected: (finding.state == FindingState::Closed).then(|| {
                    finding.story.last().cloned().unwrap_or_else(|| words::Reinspected.say(language))
                }),
            })
            .collect(),
        rigging: rigging
            .iter()
            .flat_map(|rigging| &rigging.parts)
            .map(|part| {
                let share = rigging_percent(part.utilisation);
                [part.part.clone(), part.carries.clone(), share]
            })
            .collect(),
        otherwise: rigging.as_ref().map(|rigging| rigging.otherwise(language)).unwrap_or_default(),
        warnings: rigging.map(|rigging| rigging.warnings).unwrap_or_default(),
        drawing: slingseal_app::procedure_drawing(
            &line.procedure,
            &view.findings.iter().map(|finding| finding.point.clone()).collect::<Vec<_>>(),
        ),
        dated: line.issued.rfc3339.clone(),
        digest: line.record.clone(),
        code: seal.map(code),
    };
    Ok(record_page(&page, paper, language)?)
}

/// The story without the cards that were simply good: a page has no room for a hundred of them.
fn moments(view: &RecordView, language: Language) -> Vec<Moment> {
    let moment = |when: &str, what: String| Moment { when: when.into(), what };
    let mut moments = Vec::new();
    let mut good = 0u32;
    for entry in &view.timeline {
        if entry.kind == MomentKind::Good {
            good += 1;
            continue;
        }
        if good > 0 {
            moments.push(moment("", words::AnswersGood { good: &good }.say(language)));
            good = 0;
        }
        moments.push(moment(&entry.at.dtg, entry.what.clone()));
    }
    // Its end belongs to the story: when, by whom, why.
    for void in &view.voids {
        let (at, what) = void.split_once(", ").unwrap_or(("", void));
        moments.push(moment(at, what.to_owned()));
    }
    moments
}

#[cfg(test)]
mod tests {
    use super::{Language, Rigging};

    /// What a record keeps is exact; the page says 101 % of what is over by a third of one.
    #[test]
    fn the_page_never_says_the_limit_of_what_is_over() {
        let leg = |name: u32| serde_json::json!({"name": name.to_string(), "worst_case_n": 1_003.0, "rated_n": 1_000.0});
        let kept = |share: f64| {
            let rules = serde_json::json!({"three_leg": share, "two_leg": share});
            serde_json::json!({"legs": [leg(1), leg(2), leg(3)], "rules": rules}).to_string()
        };
        for (share, told, others) in [(1.003, "101 %", 3), (0.996, "100 %", 2), (1.0, "100 %", 2)] {
            let rigging: Rigging = serde_json::from_str(&kept(share)).unwrap();
            let said = rigging.otherwise(Language::English).join("\n");
            assert_eq!(said.matches(told).count(), others, "{said}");
            assert!(said.contains("carries") && said.contains("101 %"), "{said}");
        }
    }
}
