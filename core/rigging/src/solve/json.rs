//! The stable output of a search, in SI. Keys are only added.

use serde::Serialize;

use super::{Proposal, Proposals, WhatIf};
use crate::json::{LinkOut, as_text, link_out, tidy};

#[derive(Serialize)]
struct Document<'a> {
    searched_to_deg: f64,
    whole: bool,
    tried: u64,
    ways: f64,
    proposals: Vec<ProposalOut<'a>>,
    sets: Vec<SetOut<'a>>,
    smallest_set: Option<&'a str>,
}

#[derive(Serialize)]
struct ProposalOut<'a> {
    set: Option<&'a str>,
    state: &'static str,
    off_deg: f64,
    pitch_deg: Option<f64>,
    roll_deg: Option<f64>,
    utilisation: f64,
    governing: Option<&'a crate::HeldPart>,
    margin_n: Option<f64>,
    legs: Vec<LegOut<'a>>,
    warnings: Vec<String>,
    one_link: Vec<LinkOut<'a>>,
    without_leg: Vec<WithoutOut<'a>>,
    point_moved_m: f64,
    point_moved: Vec<MovedOut<'a>>,
}

#[derive(Serialize)]
struct LegOut<'a> {
    leg: &'a str,
    link: Option<u16>,
    rope: Option<String>,
    tension_n: Option<f64>,
    utilisation: Option<f64>,
}

#[derive(Serialize)]
struct WithoutOut<'a> {
    leg: &'a str,
    state: &'static str,
    pitch_deg: Option<f64>,
    roll_deg: Option<f64>,
    utilisation: Option<f64>,
}

#[derive(Serialize)]
struct MovedOut<'a> {
    leg: &'a str,
    tilts_deg: Option<f64>,
}

#[derive(Serialize)]
struct SetOut<'a> {
    set: Option<&'a str>,
    legs_enough: bool,
    off_deg: Option<f64>,
    utilisation: Option<f64>,
}

/// The search as one JSON document, with a line break at its end. `slips` is what small faults do to each proposal, in order.
pub fn solve_json(found: &Proposals, slips: &[WhatIf]) -> String {
    as_text(&Document {
        searched_to_deg: tidy(found.searched_to.value()),
        whole: found.whole,
        tried: found.tried,
        ways: found.ways,
        proposals: found.best.iter().zip(slips).map(|(one, slips)| proposal(one, slips)).collect(),
        sets: found
            .sets
            .iter()
            .map(|set| SetOut {
                set: set.set.as_ref().map(slingseal_words::Name::as_str),
                legs_enough: set.legs_enough,
                off_deg: set.off.map(|off| tidy(off.value())),
                utilisation: set.utilisation.map(|share| tidy(share.value())),
            })
            .collect(),
        smallest_set: found.smallest.as_ref().map(slingseal_words::Name::as_str),
    })
}

fn proposal<'a>(one: &'a Proposal, slips: &'a WhatIf) -> ProposalOut<'a> {
    let hang = one.assessment.hang.as_ref();
    ProposalOut {
        set: one.set.as_ref().map(slingseal_words::Name::as_str),
        state: one.assessment.state().as_str(),
        off_deg: tidy(one.off.value()),
        pitch_deg: hang.map(|hang| tidy(hang.pitch.value())),
        roll_deg: hang.map(|hang| tidy(hang.roll.value())),
        utilisation: tidy(one.utilisation.value()),
        governing: one.governing().map(|held| &held.part),
        margin_n: one.governing().map(|held| tidy(held.margin().value())),
        legs: one
            .links
            .iter()
            .enumerate()
            .map(|(at, (leg, link))| LegOut {
                leg: leg.as_str(),
                link: *link,
                rope: one.ropes.get(at).copied().flatten().map(|rope| rope.to_string()),
                tension_n: hang.and_then(|hang| hang.legs.get(at)).map(|leg| tidy(leg.tension.value())),
                utilisation: hang.and_then(|hang| hang.legs.get(at)).map(|leg| tidy(leg.utilisation.value())),
            })
            .collect(),
        warnings: one.assessment.warnings.iter().map(ToString::to_string).collect(),
        one_link: slips.links.iter().map(link_out).collect(),
        without_leg: slips
            .without
            .iter()
            .map(|without| WithoutOut {
                leg: without.leg.as_str(),
                state: without.state.as_str(),
                pitch_deg: without.hang.map(|(pitch, ..)| tidy(pitch.value())),
                roll_deg: without.hang.map(|(_, roll, _)| tidy(roll.value())),
                utilisation: without.hang.map(|(.., share)| tidy(share.value())),
            })
            .collect(),
        point_moved_m: tidy(slips.by.si()),
        point_moved: slips
            .moved
            .iter()
            .map(|moved| MovedOut {
                leg: moved.leg.as_str(),
                tilts_deg: moved.tilts.map(|tilts| tidy(tilts.value())),
            })
            .collect(),
    }
}
