//! Scale readings as fields: those of the rigging editor, and those of a load that is weighed in the field beside its tag.

use slingseal_catalogue::rigging as words;
use slingseal_message::tag::{ReceivedTag, Tag, outweighs};
use slingseal_rigging::{self as rigging, Options, RiggedLoad, Weighed};
use slingseal_words::Quantity;

use super::editor::{Load, toml_of};
use super::form::{FieldFault, RiggingFields};
use super::lift::{LiftRequest, LiftSheet, weigh_lift, weighed_sheet};
use super::scales::AXES;
use crate::{App, AppError, Language};

/// A form that was weighed.
#[derive(Clone, Debug)]
pub struct WeighedFields {
    /// The form with mass and centre as weighed.
    pub fields: RiggingFields,
    /// The weighing, and how the load may hang within its tolerances.
    pub sheet: LiftSheet,
}

/// One scale under one point, as it is entered. Each value with its unit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ScaleReading {
    /// What the point is called; its number where that is empty.
    pub name: String,
    /// How far forward of the datum the push goes through.
    pub forward: String,
    /// How far to the left.
    pub left: String,
    /// How far up.
    pub up: String,
    /// What the scale shows.
    pub reads: String,
    /// What stood on it besides the load; may be empty.
    pub tare: String,
    /// What it may be wrong by: a mass or a share; may be empty, and is told then.
    pub tolerance: String,
}

/// A load weighed where it stands, as it is entered.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FieldWeighing {
    /// The scales, the load level.
    pub level: Vec<ScaleReading>,
    /// The height of the centre of gravity, where it is known; else that of the tag's rigging stands, and is told.
    pub height: String,
    /// What that may be wrong by.
    pub height_tolerance: String,
    /// For the height: how far the nose was raised in a second weighing, an angle; empty without one.
    pub nose_up: String,
    /// What the angle may be wrong by.
    pub angle_tolerance: String,
    /// The scales of the second weighing.
    pub tilted: Vec<ScaleReading>,
    /// Where the rest of the weight was held then, forward, left, up; empty where every point stood on a scale.
    pub rest_at: Vec<String>,
}

/// What came of a weighing in the field.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FieldWeighed {
    /// What is wrong with what was entered; where there is anything, the rest is empty.
    pub faults: Vec<FieldFault>,
    /// The mass.
    pub mass: String,
    /// The centre of gravity: forward, left, up.
    pub centre: Vec<String>,
    /// What differs from the tag, one line each: the gross weight, what the aircrew allows, the centre of gravity.
    pub beside_the_tag: Vec<String>,
    /// How the load of the tag's rigging hangs within the tolerances, and what they leave open.
    pub report: String,
    /// Whether it may hang so in every corner of the tolerances, and weighs no more than the tag and the aircrew say.
    pub good: bool,
}

/// Weighs the load of a form. Where it names legs, what the tolerances leave is carried to tilt and tension.
///
/// # Errors
/// What is wrong, each with its field.
pub fn weigh_fields(fields: &RiggingFields, language: Language) -> Result<WeighedFields, Vec<FieldFault>> {
    nothing(fields, language)?;
    let (text, lines) = toml_of(fields, Load::Weighed);
    let told = |error: AppError| lines.faults(&error, language);
    let file = rigging::read_file(&text).map_err(|faults| told(AppError::bad_input(faults)))?;
    let (_, weighed) = file.weighed().map_err(|error| told(AppError::bad_input(error)))?;
    let mut fields = fields.clone();
    fields.insert("mass".into(), weighed.mass.to_string());
    for (axis, at) in AXES.iter().zip(&weighed.centre) {
        fields.insert(format!("centre.{axis}"), at.to_string());
    }
    let sheet = weigh_lift(&LiftRequest { text, factor: None, language }).map_err(told)?;
    Ok(WeighedFields { fields, sheet })
}

impl App {
    /// Weighs a load in the field and holds it beside its tag.
    ///
    /// # Errors
    /// A text that is no tag. What is wrong with the entries stands in the answer.
    pub fn weigh_tag(&self, tag: &str, entered: &FieldWeighing) -> Result<FieldWeighed, AppError> {
        let language = self.lock().language();
        let tag = ReceivedTag::open(&super::tag_bytes(tag)?)?.tag;
        let (mut fields, from_plan) = (fields_of(entered), planned_height(entered, tag.rigging.as_ref()));
        if let Some(height) = &from_plan {
            fields.insert("height".into(), height.to_string());
        }
        if let Err(faults) = nothing(&fields, language) {
            return Ok(FieldWeighed { faults, ..FieldWeighed::default() });
        }
        let (text, lines) = toml_of(&fields, Load::Weighed);
        let read = rigging::read_file(&text).map_err(AppError::bad_input);
        let file = match read {
            Ok(file) => file,
            Err(error) => {
                return Ok(FieldWeighed {
                    faults: lines.faults(&error, language),
                    ..FieldWeighed::default()
                });
            }
        };
        let (weighing, weighed) = file.weighed().map_err(AppError::bad_input)?;
        let load = tag.rigging.as_ref().map(|load| RiggedLoad {
            mass: weighed.mass,
            centre: weighed.centre,
            ..load.clone()
        });
        let sheet = weighed_sheet(weighing, weighed, load.as_ref(), &Options::default(), language);
        let (mut beside, heavier) = beside(&tag, weighed, language);
        if let Some(height) = from_plan {
            beside.push(words::WeighedPlannedHeight { height }.say(language));
        }
        Ok(FieldWeighed {
            faults: Vec::new(),
            mass: weighed.mass.to_string(),
            centre: weighed.centre.iter().map(ToString::to_string).collect(),
            beside_the_tag: beside,
            report: sheet.report,
            good: sheet.good && !heavier,
        })
    }
}

/// Refuses a form in which nothing is weighed.
fn nothing(fields: &RiggingFields, language: Language) -> Result<(), Vec<FieldFault>> {
    match super::scales::is_empty(fields) {
        true => {
            let words = rigging::WeighError::Nothing.saying().say(language);
            Err(vec![FieldFault { field: String::new(), words }])
        }
        false => Ok(()),
    }
}

/// The height of the plan, where none was entered and no second weighing gives it.
fn planned_height(entered: &FieldWeighing, load: Option<&RiggedLoad>) -> Option<Quantity> {
    let none = entered.height.trim().is_empty() && entered.nose_up.trim().is_empty();
    let [.., up] = load.filter(|_| none)?.centre;
    Some(up)
}

/// What differs from the tag, and whether the load is heavier than the tag or the aircrew say. Held against the most that the
/// tolerances leave.
fn beside(tag: &Tag, weighed: &Weighed, language: Language) -> (Vec<String>, bool) {
    let most = Quantity::nearest(weighed.mass_span.most.value(), weighed.mass.unit()).unwrap_or(weighed.mass);
    let over = |limit: Quantity| outweighs(most, limit).unwrap_or(true);
    let (gross, allowable) = (tag.gross, tag.allowable);
    let mut lines = Vec::new();
    lines.push(match over(gross) {
        true => words::WeighedOverGross { most, gross }.say(language),
        false => words::WeighedWithinGross { most, gross }.say(language),
    });
    if over(allowable) {
        lines.push(words::WeighedOverAllowable { most, allowable }.say(language));
    }
    if let Some(load) = &tag.rigging {
        let axes = [words::AxisX.saying(), words::AxisY.saying(), words::AxisZ.saying()];
        for ((axis, at), planned) in axes.into_iter().zip(&weighed.centre).zip(&load.centre) {
            lines.push(words::WeighedBesidePlan { axis, at, planned }.say(language));
        }
    }
    (lines, over(gross) || over(allowable))
}

fn fields_of(entered: &FieldWeighing) -> RiggingFields {
    let mut fields = RiggingFields::new();
    let mut put = |name: String, value: &str| {
        fields.insert(name, value.to_owned());
    };
    for (of, readings) in [("weighed", &entered.level), ("tilted", &entered.tilted)] {
        for (at, reading) in readings.iter().enumerate() {
            let number = (at + 1).to_string();
            let name = if reading.name.trim().is_empty() { &number } else { &reading.name };
            let values = [&reading.forward, &reading.left, &reading.up];
            put(format!("{of}.{at}.name"), name);
            for (axis, value) in AXES.iter().zip(values) {
                put(format!("{of}.{at}.{axis}"), value);
            }
            put(format!("{of}.{at}.reads"), &reading.reads);
            put(format!("{of}.{at}.tare"), &reading.tare);
            put(format!("{of}.{at}.tolerance"), &reading.tolerance);
        }
    }
    put("height".into(), &entered.height);
    put("height.tolerance".into(), &entered.height_tolerance);
    put("tilted.pitch".into(), &entered.nose_up);
    put("tilted.tolerance".into(), &entered.angle_tolerance);
    for (axis, value) in AXES.iter().zip(&entered.rest_at) {
        put(format!("tilted.rest.{axis}"), value);
    }
    fields
}

#[cfg(test)]
mod tests {
    use super::super::editor::fields_of_file;
    use super::weigh_fields;
    use crate::Language;

    const PLANNED: &str = include_str!("../../../rigging/examples/planned-lift.toml");

    #[test]
    fn a_form_weighs_what_its_file_weighs() {
        let fields = fields_of_file(PLANNED).unwrap();
        assert_eq!(fields["tilted.1.reads"], "1126 lb");
        assert_eq!((fields["item.0.out"].as_str(), fields["weighed.3.x"].as_str()), ("out", "0 in"));
        let mut emptied = fields.clone();
        for name in ["mass", "centre.x", "centre.y", "centre.z"] {
            emptied.insert(name.into(), String::new());
        }
        let weighed = weigh_fields(&emptied, Language::English).unwrap();
        assert_eq!(weighed.fields, fields);
        assert!(weighed.sheet.report.contains("corners of the readings"), "{}", weighed.sheet.report);
    }

    #[test]
    fn faults_of_a_weighing_know_their_field() {
        let fields = fields_of_file(PLANNED).unwrap();
        let wrong = |name: &str, value: &str| {
            let mut fields = fields.clone();
            fields.insert(name.into(), value.into());
            let faults = weigh_fields(&fields, Language::Spanish).unwrap_err();
            faults.into_iter().map(|fault| fault.field).collect::<Vec<_>>()
        };
        assert_eq!(wrong("weighed.2.reads", "heavy"), ["weighed.2.reads"]);
        // A row in which anything stands is a reading: it is not left out for want of a name.
        assert_eq!(wrong("weighed.0.name", ""), ["weighed.0.name"]);
        assert_eq!(wrong("item.0.z", ""), ["item.0.z"]);
        assert_eq!(wrong("tilted.pitch", "80 deg"), ["weighed.0.name"]);
        let none = |name: &str| ["weighed.", "tilted.", "item."].iter().any(|of| name.starts_with(of));
        let bare =
            fields.iter().filter(|(name, _)| !none(name)).map(|(n, v)| (n.clone(), v.clone())).collect();
        assert_eq!(weigh_fields(&bare, Language::English).unwrap_err().len(), 1);
    }
}
