//! The stable output for machines, in SI. Keys stand in this order; new keys are only added. What cannot be computed is
//! `null`, never a number that is not one.

use serde::Serialize;

use super::links::LinkChange;
use super::shown::force_in;
use super::tongue::beyond as beyond_saying;
use super::{Assessment, LinkEffect};

#[derive(Serialize)]
struct Document<'a> {
    verdict: &'static str,
    state: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    reason: Option<String>,
    weight_n: f64,
    factor: f64,
    attitude: Option<Attitude>,
    hooks: Vec<HookOut<'a>>,
    legs: Vec<LegOut<'a>>,
    governing: Option<PartOut<'a>>,
    rules: Option<RulesOut>,
    beyond: Option<BeyondOut<'a>>,
    parts: Vec<PartOut<'a>>,
    links: Vec<LinkOut<'a>>,
    warnings: Vec<String>,
}

#[derive(Serialize)]
struct Attitude {
    pitch_deg: f64,
    roll_deg: f64,
}

#[derive(Serialize)]
struct HookOut<'a> {
    name: &'a str,
    load_n: f64,
}

#[derive(Serialize)]
struct LegOut<'a> {
    name: &'a str,
    tension_n: f64,
    worst_case_n: Option<f64>,
    from_horizontal_deg: f64,
    slack: bool,
    rated_n: f64,
    utilisation: f64,
}

#[derive(Serialize)]
struct RulesOut {
    three_leg: f64,
    two_leg: f64,
}

#[derive(Serialize)]
struct BeyondOut<'a> {
    rule: &'static str,
    chosen: bool,
    leg: Option<&'a str>,
    utilisation: Option<f64>,
    said: String,
}

#[derive(Serialize)]
struct PartOut<'a> {
    part: &'a super::HeldPart,
    utilisation: f64,
    carries: String,
    carries_n: f64,
    rated: String,
    rated_n: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    source: Option<&'a str>,
}

#[derive(Serialize)]
pub(super) struct LinkOut<'a> {
    leg: &'a str,
    seated: u16,
    one_more: Option<ChangeOut<'a>>,
    one_less: Option<ChangeOut<'a>>,
}

#[derive(Serialize)]
struct ChangeOut<'a> {
    feasible: bool,
    pitch_deg: Option<f64>,
    roll_deg: Option<f64>,
    largest_leg: Option<&'a str>,
    largest_tension_n: Option<f64>,
    over_limit: bool,
}

/// The assessment as one JSON document, with a line break at its end. `links` may be empty.
pub fn json(assessment: &Assessment, links: &[LinkEffect]) -> String {
    let hang = assessment.hang.as_ref();
    let parts: Vec<PartOut<'_>> = hang.into_iter().flat_map(|hang| &hang.held).map(part).collect();
    let document = Document {
        verdict: assessment.verdict.as_str(),
        state: assessment.state().as_str(),
        reason: assessment.reason.as_ref().map(ToString::to_string),
        weight_n: tidy(assessment.weight.value()),
        factor: tidy(assessment.factor.value()),
        attitude: hang
            .map(|hang| Attitude { pitch_deg: tidy(hang.pitch.value()), roll_deg: tidy(hang.roll.value()) }),
        hooks: hang
            .into_iter()
            .flat_map(|hang| &hang.hooks)
            .map(|hook| HookOut { name: hook.name.as_str(), load_n: tidy(hook.load.value()) })
            .collect(),
        legs: hang
            .into_iter()
            .flat_map(|hang| &hang.legs)
            .map(|leg| LegOut {
                name: leg.name.as_str(),
                tension_n: tidy(leg.tension.value()),
                worst_case_n: leg.worst_case.map(|worst| tidy(worst.value())),
                from_horizontal_deg: tidy(leg.from_horizontal.value()),
                slack: leg.slack,
                rated_n: tidy(leg.rated.value()),
                utilisation: tidy(leg.utilisation.value()),
            })
            .collect(),
        governing: hang.and_then(|hang| hang.held.first()).map(part),
        rules: hang.map(|hang| RulesOut {
            three_leg: tidy(hang.rules.three_leg.value()),
            two_leg: tidy(hang.rules.two_leg.value()),
        }),
        beyond: assessment.beyond.as_ref().map(|beyond| BeyondOut {
            rule: beyond.rule.as_str(),
            chosen: beyond.chosen,
            leg: beyond.leg.as_ref().map(slingseal_words::Name::as_str),
            utilisation: beyond.utilisation.map(|share| tidy(share.value())),
            said: beyond_saying(beyond).to_string(),
        }),
        parts,
        links: links.iter().map(link_out).collect(),
        warnings: assessment.warnings.iter().map(ToString::to_string).collect(),
    };
    as_text(&document)
}

/// A document of texts and numbers as text, with a line break at its end.
pub(super) fn as_text(document: &impl Serialize) -> String {
    let mut text =
        serde_json::to_string_pretty(document).expect("a document of texts and numbers has a JSON form");
    text.push('\n');
    text
}

fn part(held: &super::Held) -> PartOut<'_> {
    PartOut {
        part: &held.part,
        utilisation: tidy(held.utilisation.value()),
        carries: force_in(held.carries, held.rated.unit()).to_string(),
        carries_n: tidy(held.carries.value()),
        rated: held.rated.to_string(),
        rated_n: tidy(held.rated.newtons().unwrap_or_default().value()),
        source: held.source.as_ref().map(slingseal_words::Source::as_str),
    }
}

pub(super) fn link_out(effect: &LinkEffect) -> LinkOut<'_> {
    LinkOut {
        leg: effect.leg.as_str(),
        seated: effect.seated,
        one_more: effect.one_more.as_ref().map(change),
        one_less: effect.one_less.as_ref().map(change),
    }
}

fn change(change: &LinkChange) -> ChangeOut<'_> {
    match change {
        LinkChange::Hangs { pitch, roll, largest: (leg, tension), over_limit } => ChangeOut {
            feasible: true,
            pitch_deg: Some(tidy(pitch.value())),
            roll_deg: Some(tidy(roll.value())),
            largest_leg: Some(leg.as_str()),
            largest_tension_n: Some(tidy(tension.value())),
            over_limit: *over_limit,
        },
        LinkChange::Infeasible => ChangeOut {
            feasible: false,
            pitch_deg: None,
            roll_deg: None,
            largest_leg: None,
            largest_tension_n: None,
            over_limit: false,
        },
    }
}

/// To a billionth: below that there is only rounding, which differs between machines. Never minus zero.
pub(super) fn tidy(value: f64) -> f64 {
    let rounded = (value * 1e9).round() / 1e9;
    if rounded == 0.0 { 0.0 } else { rounded }
}
