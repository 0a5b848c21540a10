//! A rigging as named fields, for a form: out of a file, into a file, and a point moved. A form knows no statics; it is answered by
//! them.

use slingseal_rigging::{self as rigging, Rating, Reach, Reeved, RiggedLoad, Rule};
use slingseal_words::{Quantity, Unit};

use super::form::{FieldFault, File, Lines, RiggingFields, quoted};
use super::statics::{RiggingRequest, RiggingSheet, assess_rigging};
use crate::{AppError, Language};

/// A point of the load that can be moved, with its place.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanPoint {
    /// `centre`, or `leg.N`.
    pub handle: String,
    /// The leg; none for the centre of gravity.
    pub leg: Option<String>,
    /// Forward, left, up, as written.
    pub place: [String; 3],
    /// The same in metres.
    pub metres: [f64; 3],
}

impl RiggingSheet {
    /// The load as the fields of a form.
    pub fn fields(&self) -> RiggingFields {
        fields_of(self.load())
    }

    /// The points that can be moved.
    pub fn points(&self) -> Vec<PlanPoint> {
        let point = |handle: String, leg: Option<String>, place: &[Quantity; 3]| PlanPoint {
            handle,
            leg,
            place: place.map(|at| at.to_string()),
            metres: place.map(Quantity::si),
        };
        let load = self.load();
        let legs = load.legs.iter().enumerate();
        legs.map(|(at, leg)| point(format!("leg.{at}"), Some(leg.name.to_string()), &leg.lift_point))
            .chain([point("centre".into(), None, &load.centre)])
            .collect()
    }
}

/// The words of the rules that a manual may name.
pub fn rigging_rules() -> [&'static str; 4] {
    Rule::ALL.map(Rule::as_str)
}

/// Assesses a form by the mass and centre that stand in it.
///
/// # Errors
/// What is wrong, each with its field.
pub fn assess_fields(fields: &RiggingFields, language: Language) -> Result<RiggingSheet, Vec<FieldFault>> {
    let (text, lines) = toml_of(fields, Load::Given);
    assess_rigging(&RiggingRequest { text, language, ..RiggingRequest::default() })
        .map_err(|error| lines.faults(&error, language))
}

/// The fields of a rigging file, its weighing among them; slings at hand and flight stay with the file.
///
/// # Errors
/// Faults of the file; a file that rigs nothing.
pub fn fields_of_file(text: &str) -> Result<RiggingFields, AppError> {
    let file = rigging::read_file(text).map_err(AppError::bad_input)?;
    let mut fields = fields_of(file.rigged().map_err(AppError::bad_input)?);
    if let Some((weighing, _)) = &file.weighing {
        super::scales::put(weighing, &mut fields);
    }
    Ok(fields)
}

/// A point moved along one axis (0 forward, 1 left, 2 up) by metres, kept in its unit and to a thousandth of it.
pub fn move_point(fields: &mut RiggingFields, handle: &str, axis: usize, metres: f64) {
    let Some(letter) = ["x", "y", "z"].get(axis) else { return };
    change(fields, &format!("{handle}.{letter}"), metres);
}

/// A point moved by steps that a hand can measure: an inch, a centimetre, a hundredth of a metre.
pub fn step_point(fields: &mut RiggingFields, handle: &str, axis: usize, steps: f64) {
    let Some(letter) = ["x", "y", "z"].get(axis) else { return };
    let name = format!("{handle}.{letter}");
    let unit = fields.get(&name).and_then(|text| Quantity::parse(text).ok()).map_or(Unit::M, |at| at.unit());
    let step = match unit {
        Unit::In | Unit::Ft => Unit::In.si(),
        _ => 0.01,
    };
    change(fields, &name, steps * step);
}

/// The link in a leg's grab hook, so many on.
pub fn step_link(fields: &mut RiggingFields, leg: usize, by: i32) {
    let name = format!("leg.{leg}.seated");
    let seated = fields.get(&name).and_then(|text| text.trim().parse::<i32>().ok());
    if let Some(next) = seated.and_then(|seated| seated.checked_add(by)).filter(|next| *next > 0) {
        fields.insert(name, next.to_string());
    }
}

fn change(fields: &mut RiggingFields, name: &str, metres: f64) {
    let Some(at) = fields.get(name).and_then(|text| Quantity::parse(text).ok()) else { return };
    // To a hundredth of the unit: no tape shows more.
    let moved = ((at.si() + metres) / at.unit().si() * 100.0).round() / 100.0 * at.unit().si();
    if let Some(moved) = Quantity::nearest(moved, at.unit()) {
        fields.insert(name.to_owned(), moved.to_string());
    }
}

fn fields_of(load: &RiggedLoad) -> RiggingFields {
    let mut fields = RiggingFields::new();
    let mut put = |name: String, value: String| {
        fields.insert(name, value);
    };
    let rating = |rating: Option<&Rating>| rating.map(|rating| rating.value.to_string()).unwrap_or_default();
    let source = |rating: Option<&Rating>| {
        rating.and_then(|rating| rating.source.as_ref()).map(ToString::to_string).unwrap_or_default()
    };
    let line = |parts: [String; 3]| parts.join(" | ");
    put("rule".into(), load.rule.map(|rule| rule.as_str().to_owned()).unwrap_or_default());
    put("mass".into(), load.mass.to_string());
    for (axis, at) in ["x", "y", "z"].iter().zip(&load.centre) {
        put(format!("centre.{axis}"), at.to_string());
    }
    put("allowable".into(), rating(load.allowable.as_ref()));
    put("allowable.source".into(), source(load.allowable.as_ref()));
    for (at, hook) in load.hooks.iter().enumerate() {
        put(format!("hook.{at}.name"), hook.name.to_string());
        for (axis, place) in ["x", "y", "z"].iter().zip(&hook.at) {
            put(format!("hook.{at}.{axis}"), place.to_string());
        }
        put(format!("hook.{at}.limit"), rating(hook.limit.as_ref()));
        put(format!("hook.{at}.source"), source(hook.limit.as_ref()));
    }
    let parts = load.parts.iter().map(|part| {
        let hook = part.hook.as_ref().map(|hook| format!(" | {hook}")).unwrap_or_default();
        line([part.name.to_string(), rating(Some(&part.rating)), source(Some(&part.rating))]) + &hook
    });
    put("parts".into(), parts.collect::<Vec<_>>().join("\n"));
    for (at, leg) in load.legs.iter().enumerate() {
        let mut put = |name: &str, value: String| put(format!("leg.{at}.{name}"), value);
        put("name", leg.name.to_string());
        put("hook", leg.hook.as_ref().map(ToString::to_string).unwrap_or_default());
        for (axis, place) in ["x", "y", "z"].iter().zip(&leg.lift_point) {
            put(axis, place.to_string());
        }
        let rope = match &leg.reach {
            Reach::Length(rope) | Reach::RopeAndChain(rope, _) => rope.to_string(),
            Reach::Chain(_) => String::new(),
        };
        put("rope", rope);
        if let Some(chain) = leg.reach.chain() {
            put("links", chain.links.to_string());
            put("seated", chain.seated.to_string());
            put("pitch", chain.pitch.to_string());
            put("reeved", if chain.reeved == Reeved::Loop { "loop" } else { "single" }.into());
        }
        put("stretch", leg.stretch.map(|stretch| stretch.to_string()).unwrap_or_default());
        put("rated", rating(leg.rated.as_ref()));
        put("source", source(leg.rated.as_ref()));
        let parts = leg.parts.iter().map(|part| {
            line([part.name.to_string(), rating(Some(&part.rating)), source(Some(&part.rating))])
        });
        put("parts", parts.collect::<Vec<_>>().join("\n"));
    }
    fields
}

/// How a file says what its load weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Load {
    /// Mass and centre of gravity.
    Given,
    /// Scales and items.
    Weighed,
}

/// The file that a form stands for.
pub(super) fn toml_of(fields: &RiggingFields, load: Load) -> (String, Lines) {
    let mut file = File::new(fields);
    file.some("rule", "rule");
    match load {
        Load::Given => {
            file.put("[load]", "mass");
            file.some("mass", "mass");
            file.place("centre", "centre");
        }
        Load::Weighed => super::scales::write(&mut file),
    }
    if !file.get("allowable").is_empty() {
        file.put("[aircraft]", "allowable");
        file.some("allowable", "allowable");
        file.some("source", "allowable.source");
    }
    for at in file.numbers("hook") {
        let of = |name: &str| format!("hook.{at}.{name}");
        file.put("[[hook]]", &of("name"));
        file.some("name", &of("name"));
        file.place("at", &format!("hook.{at}"));
        file.some("limit", &of("limit"));
        file.some("source", &of("source"));
    }
    file.parts("[[part]]", "parts");
    for at in file.numbers("leg") {
        let of = |name: &str| format!("leg.{at}.{name}");
        file.put("[[leg]]", &of("name"));
        file.some("name", &of("name"));
        file.some("hook", &of("hook"));
        file.place("lift_point", &format!("leg.{at}"));
        if file.get(&of("links")).is_empty() {
            file.some("length", &of("rope"));
        } else {
            file.some("rope", &of("rope"));
            // What is no number is nought, which no chain has: the reader says so.
            let number = |name: &str| file.get(&of(name)).parse::<u32>().unwrap_or(0).to_string();
            let (links, seated) = (number("links"), number("seated"));
            let (pitch, reeved) = (quoted(file.get(&of("pitch"))), quoted(file.get(&of("reeved"))));
            let chain = rigging::chain_table(&links, &seated, &pitch, &reeved);
            file.put(&format!("chain = {chain}"), &of("seated"));
        }
        file.some("stretch", &of("stretch"));
        file.some("rated", &of("rated"));
        file.some("source", &of("source"));
        file.parts("[[leg.part]]", &of("parts"));
    }
    file.done()
}

#[cfg(test)]
mod tests {
    use super::{RiggingFields, assess_fields, fields_of_file, move_point, step_link, step_point};
    use crate::Language;

    #[test]
    fn a_file_and_its_form_are_the_same_load() {
        for file in [
            include_str!("../../../rigging/examples/light-vehicle.toml"),
            include_str!("../../../rigging/examples/cargo-bag.toml"),
            include_str!("../../../rigging/examples/bridge-beam.toml"),
            include_str!("../../../rigging/examples/planned-lift.toml"),
        ] {
            let fields = fields_of_file(file).unwrap();
            let sheet = assess_fields(&fields, Language::English).unwrap();
            let weighed = |name: &str| ["weighed.", "tilted.", "item."].iter().any(|of| name.starts_with(of));
            let given: RiggingFields = fields.into_iter().filter(|(name, _)| !weighed(name)).collect();
            assert_eq!(sheet.fields(), given);
            assert_eq!(fields_of_file(&sheet.toml()).unwrap(), given);
        }
    }

    #[test]
    fn points_and_links_are_moved_and_faults_know_their_field() {
        let file = include_str!("../../../rigging/examples/light-vehicle.toml");
        let mut fields = fields_of_file(file).unwrap();
        step_point(&mut fields, "centre", 0, -2.0);
        move_point(&mut fields, "leg.1", 2, 0.1);
        step_link(&mut fields, 3, 1);
        step_link(&mut fields, 0, -9);
        assert_eq!(fields["centre.x"], "60 in");
        assert_eq!(fields["leg.1.z"], "37.94 in");
        assert_eq!((fields["leg.3.seated"].as_str(), fields["leg.0.seated"].as_str()), ("4", "3"));
        assert!(assess_fields(&fields, Language::English).is_ok());
        fields.insert("leg.2.y".into(), "many".into());
        fields.insert("leg.0.seated".into(), "400".into());
        let faults = assess_fields(&fields, Language::English).unwrap_err();
        let names: Vec<&str> = faults.iter().map(|fault| fault.field.as_str()).collect();
        assert_eq!(names, ["leg.0.seated", "leg.2.y"], "{faults:?}");
    }
}
