//! What a load was planned and rigged by, as it is shown beside its tag everywhere.

use serde::Serialize;
use slingseal_catalogue::tags as words;

use slingseal_message::tag::{Basis, Condition, WeightSource};
use slingseal_words::{Language, Saying};

/// What a load was planned and rigged by; what the planner does not say is missing.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct BasisView {
    /// The manual to which it was rigged.
    pub manual: Option<String>,
    /// The manual's edition.
    pub manual_edition: Option<String>,
    /// The serial number of each leg.
    pub legs: Vec<LegView>,
    /// How the gross weight is known.
    #[serde(serialize_with = "crate::view::word_or_null")]
    pub weight_source: Option<WeightSource>,
    /// The airspeed limit of the manual's row.
    pub airspeed: Option<String>,
    /// Where that limit comes from.
    pub airspeed_source: Option<String>,
    /// The edition of the procedure that the planner orders.
    pub edition: Option<EditionView>,
    /// The conditions under which the load is inspected; none where the planner does not say, and every point counts.
    pub conditions: Option<Vec<String>>,
    /// The same in the language of people, in the order in which it is read; what is missing is left out.
    pub lines: Vec<BasisLine>,
}

/// Which sling leg hangs where.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LegView {
    /// The leg.
    pub leg: String,
    /// Its serial number.
    pub serial: String,
}

/// An edition of a procedure.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct EditionView {
    /// The procedure's id.
    pub procedure: String,
    /// Which edition of it.
    pub version: u32,
    /// The first sixteen bytes of the digest of its text, hexadecimal.
    pub thumbprint: String,
    /// Whether its text is on this device, so that it can be walked.
    pub here: bool,
}

/// One line: what it is, and what is said of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BasisLine {
    /// What it is.
    pub label: String,
    /// What is said of it.
    pub text: String,
}

/// How a weight is known, in the language of people.
pub fn weight_source_words(source: WeightSource, language: Language) -> String {
    let said: Saying = match source {
        WeightSource::Weighed => words::WeightWeighed.into(),
        WeightSource::DataPlate => words::WeightDataPlate.into(),
        WeightSource::AddedUp => words::WeightAddedUp.into(),
        WeightSource::Estimated => words::WeightEstimated.into(),
    };
    said.say(language)
}

pub(crate) fn basis_view(basis: &Basis, here: bool, language: Language) -> BasisView {
    let manual = basis.manual.as_ref();
    let airspeed = basis.airspeed.as_ref();
    let edition = basis.edition.as_ref().map(|edition| EditionView {
        procedure: edition.procedure.to_string(),
        version: edition.version,
        thumbprint: crate::view::hex(&edition.thumbprint),
        here,
    });
    let conditions: Option<Vec<String>> =
        basis.conditions.as_ref().map(|set| set.iter().map(Condition::to_string).collect());
    let mut lines = Vec::new();
    let mut line = |label: Saying, text: Option<String>| {
        let label = label.say(language);
        lines.extend(text.map(|text| BasisLine { label, text }));
    };
    let weight = basis.weight_source.map(|source| weight_source_words(source, language));
    line(words::LabelWeightFrom.into(), weight);
    let rigged = manual.map(|one| {
        words::ManualEdition { manual: one.title.to_string(), edition: one.edition.to_string() }.say(language)
    });
    line(words::LabelRiggedTo.into(), rigged);
    line(words::LabelAirspeedLimit.into(), airspeed.map(|one| format!("{} ({})", one.limit, one.source)));
    let legs: Vec<String> =
        basis.leg_serials.iter().map(|one| format!("{}: {}", one.leg, one.serial)).collect();
    line(words::LabelLegSerials.into(), (!legs.is_empty()).then(|| legs.join(" · ")));
    let ordered = edition.as_ref().map(|one| {
        let short: String = one.thumbprint.chars().take(8).collect();
        format!("{} {} ({short})", one.procedure, one.version)
    });
    line(words::LabelEditionOrdered.into(), ordered);
    let named = conditions.as_ref().map(|list| match list.as_slice() {
        [] => words::NoCondition.say(language),
        list => list.join(", "),
    });
    line(words::LabelConditions.into(), named);
    BasisView {
        manual: manual.map(|one| one.title.to_string()),
        manual_edition: manual.map(|one| one.edition.to_string()),
        legs: basis
            .leg_serials
            .iter()
            .map(|one| LegView { leg: one.leg.to_string(), serial: one.serial.to_string() })
            .collect(),
        weight_source: basis.weight_source,
        airspeed: airspeed.map(|one| one.limit.to_string()),
        airspeed_source: airspeed.map(|one| one.source.to_string()),
        edition,
        conditions,
        lines,
    }
}
