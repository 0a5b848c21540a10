//! Scale readings as the fields of the rigging editor.

use slingseal_rigging as rigging;

use super::editor::{Load, toml_of};
use super::form::{FieldFault, RiggingFields};
use super::lift::{LiftRequest, LiftSheet, weigh_lift};
use super::scales::AXES;
use crate::{AppError, Language};

/// A form that was weighed.
#[derive(Clone, Debug)]
pub struct WeighedFields {
    /// The form with mass and centre as weighed.
    pub fields: RiggingFields,
    /// The weighing, and how the load may hang within its tolerances.
    pub sheet: LiftSheet,
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
