//! The stable output of a flight's statics. Keys are only added.

use serde::Serialize;

use super::{Event, FlightSheet, What};
use crate::json::{as_text, tidy};

#[derive(Serialize)]
struct Document<'a> {
    factored: Option<FactoredOut>,
    drag: Option<DragOut<'a>>,
    failed_hooks: Vec<FailedOut<'a>>,
}

#[derive(Serialize)]
struct FactoredOut {
    factor: f64,
    sling_angle_deg: Option<f64>,
    state: &'static str,
    governing: Option<crate::HeldPart>,
    utilisation: Option<f64>,
    along_sling_n: f64,
    aside_n: f64,
}

#[derive(Serialize)]
struct DragOut<'a> {
    upto_kt: f64,
    speeds: Vec<SpeedOut>,
    events: Vec<EventOut<'a>>,
}

#[derive(Serialize)]
struct SpeedOut {
    kt: f64,
    drag_over_weight: f64,
    trail_deg: f64,
    pitch_deg: f64,
    roll_deg: f64,
    lean_deg: f64,
    utilisation: f64,
}

#[derive(Serialize)]
struct EventOut<'a> {
    kt: f64,
    what: &'static str,
    leg: Option<&'a str>,
}

#[derive(Serialize)]
struct FailedOut<'a> {
    failed: &'a str,
    holds: &'a str,
    carries_n: f64,
    state: &'static str,
    pitch_deg: Option<f64>,
    roll_deg: Option<f64>,
    governing: Option<&'a crate::HeldPart>,
    utilisation: Option<f64>,
}

/// The sheet as one JSON document, with a line break at its end.
pub fn flight_json(sheet: &FlightSheet) -> String {
    as_text(&Document {
        factored: sheet.factored.as_ref().map(|one| {
            let held = one.assessment.hang.as_ref().and_then(|hang| hang.held.first());
            FactoredOut {
                factor: tidy(one.factor.value()),
                sling_angle_deg: one.angle.map(|angle| tidy(angle.si())),
                state: one.assessment.state().as_str(),
                governing: held.map(|held| held.part.clone()),
                utilisation: held.map(|held| tidy(held.utilisation.value())),
                along_sling_n: tidy(one.along.value()),
                aside_n: tidy(one.aside.value()),
            }
        }),
        drag: sheet.drag.as_ref().map(|curve| DragOut {
            upto_kt: tidy(curve.upto),
            speeds: curve
                .speeds
                .iter()
                .map(|at| SpeedOut {
                    kt: tidy(at.knots),
                    drag_over_weight: tidy(at.drag.value()),
                    trail_deg: tidy(at.trail.value()),
                    pitch_deg: tidy(at.pitch.value()),
                    roll_deg: tidy(at.roll.value()),
                    lean_deg: tidy(at.lean.value()),
                    utilisation: tidy(at.utilisation.value()),
                })
                .collect(),
            events: curve.events.iter().map(event).collect(),
        }),
        failed_hooks: sheet
            .failed
            .iter()
            .map(|one| {
                let hang = one.assessment.hang.as_ref();
                let held = hang.and_then(|hang| hang.held.first());
                FailedOut {
                    failed: one.failed.as_str(),
                    holds: one.holds.as_str(),
                    carries_n: tidy(one.carries.value()),
                    state: one.assessment.state().as_str(),
                    pitch_deg: hang.map(|hang| tidy(hang.pitch.value())),
                    roll_deg: hang.map(|hang| tidy(hang.roll.value())),
                    governing: held.map(|held| &held.part),
                    utilisation: held.map(|held| tidy(held.utilisation.value())),
                }
            })
            .collect(),
    })
}

fn event(event: &Event) -> EventOut<'_> {
    let (what, leg) = match &event.what {
        What::Slack(leg) => ("slack", Some(leg.as_str())),
        What::Leans => ("leans_past_limit", None),
        What::Over(leg) => ("over_rating", Some(leg.as_str())),
        What::Turns => ("turns", None),
        What::NoRest => ("no_rest", None),
    };
    EventOut { kt: tidy(event.knots), what, leg }
}
