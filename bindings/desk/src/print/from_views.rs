//! From the facade's views to what the pages say.

use serde::Deserialize;
use slingseal_app::{AppError, CodeView, FindingState, RecordState, RecordView, TagView};

use super::{
    Code, Correction, EquipmentLine, LoadSheet, Moment, Paper, PrintError, RecordPage, load_sheets,
    record_page,
};

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

fn sheet(tag: &TagView, picture: &CodeView) -> LoadSheet {
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
        weight_source: some(&tag.basis.weight_source),
        airspeed: match (&tag.basis.airspeed, &tag.basis.airspeed_source) {
            (Some(limit), Some(source)) => format!("{limit} ({source})"),
            _ => String::new(),
        },
        rigged_to: match (&tag.basis.manual, &tag.basis.manual_edition) {
            (Some(manual), Some(edition)) => format!("{manual}, edition {edition}"),
            _ => String::new(),
        },
        edition: tag
            .basis
            .edition
            .as_ref()
            .map(|one| format!("{} {} ({})", one.procedure, one.version, one.thumbprint))
            .unwrap_or_default(),
        signed_by: tag.planner.clone(),
        unsigned: match tag.signature.as_str() {
            "unknown" => "SIGNED BY SOMEBODY NOT TRUSTED",
            "forged" => "FORGED OR ALTERED TAG",
            _ => "UNSIGNED TAG",
        },
        // The sheet says by itself that nobody has signed.
        cautions: tag.warnings.iter().filter(|_| tag.signature != "unsigned").cloned().collect(),
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
pub(crate) fn sheets_pdf(tags: &[(&TagView, &CodeView)], paper: Paper) -> Result<Vec<u8>, AppError> {
    let dated = tags.iter().map(|(tag, _)| tag.planned.rfc3339.as_str()).max();
    let sheets: Vec<LoadSheet> = tags.iter().map(|(tag, code)| sheet(tag, code)).collect();
    Ok(load_sheets(&sheets, dated.unwrap_or("1970-01-01T00:00:00Z"), paper)?)
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
    fn otherwise(&self) -> Vec<String> {
        if self.legs.len() < 2 {
            return Vec::new();
        }
        let percent = |share: f64| format!("{:.0} %", share * 100.0);
        let mut said: Vec<String> = self.beyond.iter().map(|beyond| beyond.said.clone()).collect();
        let worst = self.legs.iter().filter_map(|leg| {
            let carries = leg.worst_case_n? * self.factor;
            Some((leg, carries, carries / leg.rated_n))
        });
        if let Some((leg, carries, share)) = worst.max_by(|a, b| a.2.total_cmp(&b.2)) {
            let carries = self.in_unit(carries);
            said.push(format!(
                "Worst case, however the legs share it: leg {} carries {carries}, {} of its rating",
                leg.name,
                percent(share)
            ));
        }
        if let Some(rules) = &self.rules {
            let three =
                (self.legs.len() > 2).then(|| format!("three legs carry, {}; if ", percent(rules.three_leg)));
            let two = format!("two carry, {}", percent(rules.two_leg));
            said.push(format!(
                "By the handbooks' rules: if {}{two} of the rating",
                three.unwrap_or_default()
            ));
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
pub(crate) fn record_pdf(
    view: &RecordView,
    seal: Option<&CodeView>,
    paper: Paper,
) -> Result<Vec<u8>, AppError> {
    let line = &view.line;
    let standing = match (line.state, view.voids.last()) {
        (RecordState::Voided, void) => {
            let decided = if line.fit { "FIT" } else { "NOT FIT" };
            format!("was {decided}; {}", void.map_or("taken back", String::as_str))
        }
        (RecordState::Superseded, _) => "a later inspection took its place".into(),
        (RecordState::Expired, _) => line.valid_until.dtg.clone(),
        (RecordState::Fit, _) => format!("until {} for {}", line.valid_until.dtg, line.aircraft),
        (RecordState::NotFit, _) => format!("decided {}", line.issued.dtg),
        (RecordState::Refused | RecordState::Waits | RecordState::NoInspection, _) => {
            view.reasons.first().cloned().unwrap_or_default()
        }
    };
    let tag = view.tag.as_ref();
    let fact = |label: &str, value: String| (label.to_owned(), value);
    let rigging: Option<Rigging> =
        view.rigging_json.as_deref().and_then(|json| serde_json::from_str(json).ok());
    let mut facts = vec![
        fact("inspector", line.inspector.clone()),
        fact("rigger", line.rigger.clone()),
        fact("procedure", format!("{} version {}", line.procedure, line.version)),
        fact("gross weight", tag.map(|tag| tag.gross.clone()).unwrap_or_default()),
        fact("allowable", tag.map(|tag| tag.allowable.clone()).unwrap_or_default()),
        fact("aircraft", line.aircraft.clone()),
        fact("from", line.place.clone()),
        fact("grid", tag.and_then(|tag| tag.pickup.grid.clone()).unwrap_or_default()),
        fact("to", tag.map(|tag| tag.destination.name.clone()).unwrap_or_default()),
        fact("sealed", line.issued.dtg.clone()),
        fact("valid until", if line.fit { line.valid_until.dtg.clone() } else { String::new() }),
        fact("tag signed by", tag.and_then(|tag| tag.planner.clone()).unwrap_or_default()),
    ];
    let basis = tag.map(|tag| tag.basis.lines.as_slice()).unwrap_or_default();
    facts.extend(basis.iter().map(|line| (line.label.to_lowercase(), line.text.clone())));
    let page = RecordPage {
        load: line.load.clone(),
        description: tag.map(|tag| tag.description.clone()).unwrap_or_default(),
        banner: view.banner.clone(),
        fit: line.state == RecordState::Fit,
        standing,
        facts,
        moments: moments(view),
        deficiencies: view
            .findings
            .iter()
            .map(|finding| Correction {
                point: finding.prompt.clone(),
                found: finding.shown.clone(),
                corrected: (finding.state == FindingState::Closed)
                    .then(|| finding.story.last().cloned().unwrap_or_else(|| "reinspected".into())),
            })
            .collect(),
        rigging: rigging
            .iter()
            .flat_map(|rigging| &rigging.parts)
            .map(|part| {
                let share = format!("{:.0} %", part.utilisation * 100.0);
                [part.part.clone(), part.carries.clone(), share]
            })
            .collect(),
        otherwise: rigging.as_ref().map(Rigging::otherwise).unwrap_or_default(),
        warnings: rigging.map(|rigging| rigging.warnings).unwrap_or_default(),
        drawing: slingseal_app::procedure_drawing(
            &line.procedure,
            &view.findings.iter().map(|finding| finding.point.clone()).collect::<Vec<_>>(),
        ),
        dated: line.issued.rfc3339.clone(),
        digest: line.record.clone(),
        code: seal.map(code),
    };
    Ok(record_page(&page, paper)?)
}

/// The story without the cards that were simply good: a page has no room for a hundred of them.
fn moments(view: &RecordView) -> Vec<Moment> {
    let moment = |when: &str, what: String| Moment { when: when.into(), what };
    let mut moments = Vec::new();
    let mut good = 0u32;
    for entry in &view.timeline {
        if entry.what.starts_with("card ") && !entry.what.contains("eficien") {
            good += 1;
            continue;
        }
        if good > 0 {
            moments.push(moment("", format!("{good} answers good")));
            good = 0;
        }
        moments.push(moment(&entry.at.dtg, entry.what.clone()));
    }
    moments
}
