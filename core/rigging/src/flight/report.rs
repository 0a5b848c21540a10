//! A flight's statics in sentences, each with what it leaves out.

use slingseal_catalogue::{Language, Saying, rigging as words};

use super::{Flight, FlightSheet, What};
use crate::shown::{force_in, percent};
use crate::{RiggedLoad, tongue};

/// The sheet as plain text.
pub fn flight_report(load: &RiggedLoad, flight: &Flight, sheet: &FlightSheet, language: Language) -> String {
    let unit = crate::shown::force_unit(load);
    let mut lines = vec![words::FlightStatics.say(language)];
    if let Some(one) = &sheet.factored {
        lines.push(String::new());
        let factor = one.factor.value().to_string();
        let angle = one.angle.map_or("0 deg".into(), |angle| angle.to_string());
        let source = flight.source.as_ref().map_or(words::NoSource.say(language), ToString::to_string);
        lines.push(words::FlightFactor { factor, angle, source }.say(language));
        let state = tongue::state(one.assessment.state());
        if let Some(held) = one.assessment.hang.as_ref().and_then(|hang| hang.held.first()) {
            let percent = percent(held.utilisation);
            lines.push(words::FlightFactored { state, part: &held.part, percent }.say(language));
        } else {
            lines.push(words::WeighedDoesNotHang { state }.say(language));
        }
        let (along, aside) = (force_in(one.along, unit), force_in(one.aside, unit));
        lines.push(words::FlightHook { along, aside }.say(language));
        lines.push(words::FlightFactorLeavesOut.say(language));
    }
    if let (Some(curve), Some(drag)) = (&sheet.drag, &flight.drag) {
        lines.push(String::new());
        let (area, density, source) = (&drag.area_written, &drag.density_written, &drag.source);
        lines.push(words::FlightDrag { area, density, source }.say(language));
        if drag.at.is_none() {
            lines.push(words::FlightDragAtCentre.say(language));
        }
        for at in &curve.speeds {
            let speed = format!("{:.0} kt", at.knots);
            // Nought has no sign.
            let trail = format!("{:.1}°", (at.trail.value() * 10.0).round() / 10.0 + 0.0);
            let attitude = tongue::attitude(at.pitch, at.roll);
            let percent = percent(at.utilisation);
            lines.push(words::FlightAt { speed, trail, attitude, percent }.say(language));
        }
        for event in &curve.events {
            let speed = format!("{:.1} kt", event.knots);
            lines.push(match &event.what {
                What::Slack(leg) => words::FlightSlack { speed, leg }.say(language),
                What::Over(leg) => words::FlightOver { speed, leg }.say(language),
                What::Leans => {
                    let limit = flight.lean_limit.map(|limit| limit.to_string()).unwrap_or_default();
                    let source = flight.limit_source.as_ref();
                    let source = source.map_or(words::NoSource.say(language), ToString::to_string);
                    words::FlightLeans { speed, limit, source }.say(language)
                }
                What::Turns => words::FlightTurns { speed }.say(language),
                What::NoRest => words::FlightNoRest { speed }.say(language),
            });
        }
        if curve.events.is_empty() {
            let speed = format!("{:.0} kt", curve.upto);
            lines.push(words::FlightNothing { speed }.say(language));
        }
        lines.push(words::FlightDragLeavesOut.say(language));
    }
    for one in &sheet.failed {
        lines.push(String::new());
        let carries = force_in(one.carries, unit);
        lines.push(words::FlightFailed { failed: &one.failed, holds: &one.holds, carries }.say(language));
        let state = tongue::state(one.assessment.state());
        lines.push(match &one.assessment.hang {
            Some(hang) => {
                let attitude = tongue::attitude(hang.pitch, hang.roll);
                let held = hang.held.first();
                let part = held.map_or_else(|| Saying::verbatim(""), |held| held.part.saying());
                let percent = held.map(|held| percent(held.utilisation)).unwrap_or_default();
                words::FlightFailedHangs { state, attitude, part, percent }.say(language)
            }
            None => words::FlightFailedFalls { state }.say(language),
        });
    }
    if !sheet.failed.is_empty() {
        lines.push(words::FlightFailedLeavesOut.say(language));
    }
    lines.push(String::new());
    lines.push(words::FlightManualRules.say(language));
    lines.join("\n") + "\n"
}
