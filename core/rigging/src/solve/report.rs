//! What a search found, in sentences.

use slingseal_catalogue::{Language, Saying, rigging as words};

use super::{Proposal, Proposals, Wanted, WhatIf};
use crate::LinkChange;
use crate::shown::{force_in, percent};
use crate::tongue;

/// The search as plain text. `slips` is what small faults do to each proposal, in order; the first one's are told.
pub fn solve_report(found: &Proposals, slips: &[WhatIf], wanted: &Wanted, language: Language) -> String {
    let degrees = |value: f64| slingseal_words::Degrees::new(value).unwrap_or_default();
    let attitude = tongue::attitude(degrees(wanted.pitch), degrees(wanted.roll));
    let mut lines = vec![words::SolveWanted { attitude }.say(language)];
    if found.best.is_empty() {
        let within = format!("{:.1}°", found.searched_to.value());
        lines.push(words::SolveNothing { within }.say(language));
    }
    for (at, proposal) in found.best.iter().enumerate() {
        lines.push(String::new());
        one(&mut lines, at + 1, proposal, language);
    }
    if let (Some(best), Some(slips)) = (found.best.first(), slips.first()) {
        lines.push(String::new());
        lines.push(words::SolveSlips.say(language));
        told(&mut lines, best, slips, language);
    }
    if !found.sets.is_empty() {
        lines.push(String::new());
    }
    for set in &found.sets {
        let name: Saying = set.set.as_ref().map_or(words::OwnSlings.into(), |name| name.to_string().into());
        lines.push(match (set.legs_enough, set.off, set.utilisation) {
            (false, ..) => words::SetTooFew { set: name }.say(language),
            (true, Some(off), Some(share)) => {
                let (off, percent) = (format!("{:.1}°", off.value()), percent(share));
                words::SetHangs { set: name, off, percent }.say(language)
            }
            _ => words::SetNot { set: name }.say(language),
        });
    }
    if let Some(set) = &found.smallest {
        lines.push(words::SetSmallest { set }.say(language));
    }
    if !found.whole {
        let within = format!("{:.1}°", found.searched_to.value());
        lines.push(words::SolveNotWhole { within }.say(language));
    }
    lines.push(String::new());
    lines.push(words::SolveLeavesOut.say(language));
    lines.push(words::ManualRules.say(language));
    lines.join("\n") + "\n"
}

fn one(lines: &mut Vec<String>, number: usize, proposal: &Proposal, language: Language) {
    let Some(hang) = &proposal.assessment.hang else { return };
    let attitude = tongue::attitude(hang.pitch, hang.roll);
    let off = format!("{:.1}°", proposal.off.value());
    let governing = proposal.governing();
    let governs = governing.map(|held| percent(held.utilisation)).unwrap_or_default();
    let part = governing.map_or_else(|| Saying::verbatim(""), |held| held.part.saying());
    let state = tongue::state(proposal.assessment.state());
    lines.push(words::SolveProposal { number, state, attitude, off, part, percent: governs }.say(language));
    if let Some(set) = &proposal.set {
        lines.push(words::SolveSet { set }.say(language));
    }
    let unit = crate::shown::force_unit(&proposal.load);
    for (at, leg) in hang.legs.iter().enumerate() {
        let link = proposal.links.get(at).and_then(|(_, link)| *link);
        let rope = proposal.ropes.get(at).copied().flatten();
        let (name, tension, percent) = (&leg.name, force_in(leg.tension, unit), percent(leg.utilisation));
        let how: Saying = match (link, rope) {
            (Some(link), Some(rope)) => words::LegLinkRope { link: link.to_string(), rope }.into(),
            (Some(link), None) => words::LegLink { link: link.to_string() }.into(),
            (None, Some(rope)) => words::LegRope { rope }.into(),
            (None, None) => words::LegAsIs.into(),
        };
        lines.push(words::SolveLeg { leg: name, how, tension, percent }.say(language));
    }
}

fn told(lines: &mut Vec<String>, best: &Proposal, slips: &WhatIf, language: Language) {
    let unit = crate::shown::force_unit(&best.load);
    for effect in &slips.links {
        let changes = [
            (effect.seated.saturating_add(1), &effect.one_more),
            (effect.seated.saturating_sub(1), &effect.one_less),
        ];
        for (link, change) in changes {
            let (leg, link) = (&effect.leg, link.to_string());
            match change {
                Some(LinkChange::Hangs { pitch, roll, largest: (most, tension), over_limit }) => {
                    let attitude = tongue::attitude(*pitch, *roll);
                    let tension = force_in(*tension, unit);
                    lines.push(match over_limit {
                        false => words::SlipLink { leg, link, attitude, most, tension }.say(language),
                        true => words::SlipLinkOver { leg, link, attitude, most, tension }.say(language),
                    });
                }
                Some(LinkChange::Infeasible) => lines.push(words::SlipLinkFalls { leg, link }.say(language)),
                None => {}
            }
        }
    }
    for without in &slips.without {
        let leg = &without.leg;
        lines.push(match &without.hang {
            Some((pitch, roll, share)) => {
                let attitude = tongue::attitude(*pitch, *roll);
                let percent = percent(*share);
                words::SlipWithout { leg, attitude, percent }.say(language)
            }
            None => words::SlipWithoutFalls { leg }.say(language),
        });
    }
    for moved in &slips.moved {
        let (leg, by) = (&moved.leg, slips.by);
        lines.push(match moved.tilts {
            Some(tilts) => {
                let tilts = format!("{:.1}°", tilts.value());
                words::SlipMoved { leg, by, tilts }.say(language)
            }
            None => words::SlipMovedFalls { leg, by }.say(language),
        });
    }
}
