//! `[flight]` of a rigging file.

use slingseal_catalogue::{Saying, rigging as words};
use slingseal_words::{Dimension, Part, Source};

use super::noun::{Drag, Flight};
use crate::keys::place;

/// Reads `[flight]`.
pub(crate) fn read_flight(part: &Part<'_>) -> Option<Flight> {
    let factor = part.maybe("load_factor", |text| match text.trim().parse::<f64>() {
        Ok(factor) if (1.0..=10.0).contains(&factor) => Ok(factor),
        _ => Err(crate::RiggingError::Factor(text.to_owned()).saying()),
    });
    let angle = part.quantity("sling_angle", Dimension::Angle);
    let source = part.maybe("source", Source::new);
    let area = part.maybe("drag_area", |text| measured(text, &AREAS).map(|si| (si, text.trim().to_owned())));
    let density =
        part.maybe("density", |text| measured(text, &DENSITIES).map(|si| (si, text.trim().to_owned())));
    let drag_source = part.maybe("drag_source", Source::new);
    let at = if part.has("drag_at") { place(part, "drag_at") } else { None };
    let lean_limit = part.quantity("lean_limit", Dimension::Angle);
    let limit_source = part.maybe("limit_source", Source::new);
    let speed_to = part.quantity("speed_to", Dimension::Speed);
    let told = (part.has("drag_area"), part.has("density"), part.has("drag_source"));
    part.no_more();
    if angle.is_some_and(|angle| !(0.0..=60.0).contains(&angle.si())) {
        part.fault("sling_angle", words::SlingAngle, words::SlingAngleMend);
    }
    if lean_limit.is_some_and(|limit| !(0.1..=45.0).contains(&limit.si())) {
        part.fault("lean_limit", words::LeanLimit, words::LeanLimitMend);
    }
    if speed_to.is_some_and(|speed| !(0.5..=130.0).contains(&speed.si())) {
        part.fault("speed_to", words::SpeedTo, words::SpeedToMend);
    }
    let drag = match told {
        (false, false, false) => None,
        (true, true, true) => {
            let ((area, area_written), (density, density_written)) = (area?, density?);
            Some(Drag { area, area_written, density, density_written, at, source: drag_source? })
        }
        _ => {
            let key = if told.0 {
                "drag_area"
            } else if told.1 {
                "density"
            } else {
                "drag_source"
            };
            part.fault(key, words::DragWhole, words::DragWholeMend);
            return None;
        }
    };
    Some(Flight {
        factor,
        sling_angle: angle,
        source,
        drag,
        lean_limit,
        limit_source,
        speed_to: speed_to.unwrap_or_else(Flight::usual_speed),
    })
}

/// Units that nothing else here is written in, in SI: exact by the yard and pound agreement of 1959 (a foot is 0.3048 m, a pound
/// 0.45359237 kg; a slug is a pound-force second squared over a foot).
const AREAS: [(&str, f64); 2] = [("m2", 1.0), ("ft2", 0.304_8 * 0.304_8)];
const DENSITIES: [(&str, f64); 3] = [
    ("kg/m3", 1.0),
    ("lb/ft3", 0.453_592_37 / (0.304_8 * 0.304_8 * 0.304_8)),
    ("slug/ft3", 4.448_221_615_260_5 / 0.304_8 / (0.304_8 * 0.304_8 * 0.304_8)),
];

/// A number and one of these units: more than nought, and at most ten thousand.
fn measured(text: &str, units: &[(&str, f64)]) -> Result<f64, Saying> {
    let names = || units.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
    let wrong = || Saying::from(words::MeasureWrong { text: text.trim(), units: names() });
    let text = text.trim();
    let end = text.find(|letter: char| !(letter.is_ascii_digit() || letter == '.')).ok_or_else(wrong)?;
    let (number, unit) = text.split_at(end);
    let (_, si) = units.iter().find(|(name, _)| *name == unit.trim()).ok_or_else(wrong)?;
    let value = number.parse::<f64>().map_err(|_| wrong())? * si;
    if value > 0.0 && value <= 10_000.0 { Ok(value) } else { Err(wrong()) }
}
