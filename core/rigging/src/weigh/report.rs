//! A weighing in sentences, in the units of the file.

use slingseal_catalogue::{Language, rigging as words};
use slingseal_words::{Degrees, Quantity};

use super::corners::units;
use super::{Carried, Span, Weighed, Weighing};
use crate::shown::{force_in, percent, shown};
use crate::{RiggedLoad, tongue};

/// How much of a load's centre of gravity a weighing tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WeighedPlace {
    /// Nothing: the mass alone was weighed.
    Nothing,
    /// Forward and left.
    Plan,
    /// Its height too.
    Whole,
}

/// The weighing as plain text, one line a sentence or a leg; `carried` where the file has a rigging.
pub fn weigh_report(
    weighing: &Weighing,
    weighed: &Weighed,
    told: WeighedPlace,
    carried: Option<(&RiggedLoad, &Carried)>,
    language: Language,
) -> String {
    let (mass_unit, unit) = units(weighing);
    let mut lines = Vec::new();
    let least = shown(weighed.mass_span.least.value(), mass_unit);
    let most = shown(weighed.mass_span.most.value(), mass_unit);
    let mass = shown(weighed.mass.si(), mass_unit);
    lines.push(words::WeighedMass { mass, least, most }.say(language));
    let axes = [words::AxisX.saying(), words::AxisY.saying(), words::AxisZ.saying()];
    let told = match told {
        WeighedPlace::Nothing => 0,
        WeighedPlace::Plan => 2,
        WeighedPlace::Whole => 3,
    };
    for ((axis, at), span) in axes.into_iter().take(told).zip(&weighed.centre).zip(&weighed.centre_span) {
        let (least, most) = (shown(span.least.value(), unit), shown(span.most.value(), unit));
        let at: Quantity = shown(at.si(), unit);
        lines.push(words::WeighedCentre { axis, at, least, most }.say(language));
    }
    if !weighed.untold.is_empty() {
        let names = weighed.untold.join(", ");
        lines.push(words::WeighedUntold { names }.say(language));
    }
    if let Some((load, carried)) = carried {
        lines.push(String::new());
        hang(&mut lines, load, weighed, carried, language);
    }
    lines.push(String::new());
    lines.push(words::WeighedLeavesOut.say(language));
    lines.push(words::ManualRules.say(language));
    lines.join("\n") + "\n"
}

fn hang(
    lines: &mut Vec<String>,
    load: &RiggedLoad,
    weighed: &Weighed,
    carried: &Carried,
    language: Language,
) {
    let state = tongue::state(carried.read.state());
    lines.push(match &carried.read.hang {
        Some(hang) => {
            let attitude = tongue::attitude(hang.pitch, hang.roll);
            words::WeighedHangs { state, attitude }.say(language)
        }
        None => words::WeighedDoesNotHang { state }.say(language),
    });
    let worst = tongue::state(carried.worst);
    let corners = carried.corners;
    lines.push(match weighed.exact {
        true => words::WeighedWorst { worst, corners }.say(language),
        false => words::WeighedWorstBox { worst, corners }.say(language),
    });
    if carried.not_hanging > 0 {
        lines.push(words::WeighedNotHanging { count: carried.not_hanging }.say(language));
    }
    if let (Some(pitch), Some(roll)) = (&carried.pitch, &carried.roll) {
        let (pitch, roll) = (degrees(pitch), degrees(roll));
        lines.push(words::WeighedTilt { pitch, roll }.say(language));
    }
    if let Some((part, share)) = &carried.governing {
        let percent = percent(*share);
        lines.push(words::WeighedGoverns { part, percent }.say(language));
    }
    let unit = crate::shown::force_unit(load);
    for leg in &carried.legs {
        let (least, most) = (force_in(leg.tension.least, unit), force_in(leg.tension.most, unit));
        let percent = percent(leg.utilisation);
        lines.push(words::WeighedLeg { leg: &leg.name, least, most, percent }.say(language));
    }
}

fn degrees(span: &Span<Degrees>) -> String {
    format!("{:+.1}° … {:+.1}°", span.least.value(), span.most.value())
}
