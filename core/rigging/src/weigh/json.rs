//! The stable output of a weighing, in SI. Keys are only added.

use serde::Serialize;

use super::{Carried, Span, Weighed};
use crate::json::{as_text, tidy};

#[derive(Serialize)]
struct Document<'a> {
    mass: String,
    mass_kg: f64,
    mass_kg_least: f64,
    mass_kg_most: f64,
    centre: [String; 3],
    centre_m: [f64; 3],
    centre_m_least: [f64; 3],
    centre_m_most: [f64; 3],
    corners: usize,
    exact: bool,
    without_tolerance: &'a [String],
    hang: Option<HangOut<'a>>,
}

#[derive(Serialize)]
struct HangOut<'a> {
    state: &'static str,
    worst_state: &'static str,
    not_hanging: usize,
    pitch_deg: Option<f64>,
    pitch_deg_least: Option<f64>,
    pitch_deg_most: Option<f64>,
    roll_deg: Option<f64>,
    roll_deg_least: Option<f64>,
    roll_deg_most: Option<f64>,
    governing: Option<GoverningOut<'a>>,
    legs: Vec<LegOut<'a>>,
}

#[derive(Serialize)]
struct GoverningOut<'a> {
    part: &'a crate::HeldPart,
    utilisation: f64,
}

#[derive(Serialize)]
struct LegOut<'a> {
    name: &'a str,
    tension_n: Option<f64>,
    tension_n_least: f64,
    tension_n_most: f64,
    utilisation_most: f64,
    worst_case_n: Option<f64>,
}

/// The weighing as one JSON document, with a line break at its end; `carried` where the file has a rigging.
pub fn weigh_json(weighed: &Weighed, carried: Option<&Carried>) -> String {
    let spans = &weighed.centre_span;
    as_text(&Document {
        mass: weighed.mass.to_string(),
        mass_kg: tidy(weighed.mass.si()),
        mass_kg_least: tidy(weighed.mass_span.least.value()),
        mass_kg_most: tidy(weighed.mass_span.most.value()),
        centre: weighed.centre.map(|at| at.to_string()),
        centre_m: weighed.centre.map(|at| tidy(at.si())),
        centre_m_least: spans.map(|span| tidy(span.least.value())),
        centre_m_most: spans.map(|span| tidy(span.most.value())),
        corners: weighed.corners.len(),
        exact: weighed.exact,
        without_tolerance: &weighed.untold,
        hang: carried.map(hang),
    })
}

fn hang(carried: &Carried) -> HangOut<'_> {
    let read = carried.read.hang.as_ref();
    let least = |span: &Option<Span<slingseal_words::Degrees>>| span.map(|span| tidy(span.least.value()));
    let most = |span: &Option<Span<slingseal_words::Degrees>>| span.map(|span| tidy(span.most.value()));
    HangOut {
        state: carried.read.state().as_str(),
        worst_state: carried.worst.as_str(),
        not_hanging: carried.not_hanging,
        pitch_deg: read.map(|hang| tidy(hang.pitch.value())),
        pitch_deg_least: least(&carried.pitch),
        pitch_deg_most: most(&carried.pitch),
        roll_deg: read.map(|hang| tidy(hang.roll.value())),
        roll_deg_least: least(&carried.roll),
        roll_deg_most: most(&carried.roll),
        governing: carried
            .governing
            .as_ref()
            .map(|(part, share)| GoverningOut { part, utilisation: tidy(share.value()) }),
        legs: carried
            .legs
            .iter()
            .enumerate()
            .map(|(at, leg)| LegOut {
                name: leg.name.as_str(),
                tension_n: read.and_then(|hang| hang.legs.get(at)).map(|leg| tidy(leg.tension.value())),
                tension_n_least: tidy(leg.tension.least.value()),
                tension_n_most: tidy(leg.tension.most.value()),
                utilisation_most: tidy(leg.utilisation.value()),
                worst_case_n: leg.worst_case.map(|worst| tidy(worst.value())),
            })
            .collect(),
    }
}
