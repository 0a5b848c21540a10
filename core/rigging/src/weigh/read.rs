//! `[[weighed]]`, `[tilted]` and `[[item]]` of a rigging file.

use slingseal_catalogue::rigging as words;
use slingseal_words::{Dimension, Name, Part, Quantity, Unit};

use super::noun::{Item, Reading, Tilt, TiltAbout, Weighing};
use crate::keys::{missing, place};

/// Whether the file weighs its load.
pub(crate) fn written(top: &Part<'_>) -> bool {
    top.has("weighed") | top.has("item") | top.has("tilted")
}

/// Reads the weighing; `None` where it is faulty, which is told.
pub(crate) fn read_weighing(top: &Part<'_>, load: Option<&Part<'_>>) -> Option<Weighing> {
    let readings: Vec<_> = top.parts("weighed").iter().map(read_reading).collect();
    let items: Vec<_> = top.parts("item").iter().map(read_item).collect();
    let tilt = top.part("tilted").map(|part| read_tilt(&part));
    let mut height = None;
    if let Some(load) = load {
        let tolerance = load.quantity("height_tolerance", Dimension::Length);
        height = load.quantity("height", Dimension::Length).map(|height| (height, tolerance));
        for key in ["mass", "centre"] {
            if load.has(key) {
                let (what, mend) = (words::WeighedAndGiven { key }, words::WeighedAndGivenMend { key });
                load.fault(key, what, mend);
            }
        }
    }
    let weighing = Weighing {
        readings: readings.into_iter().collect::<Option<_>>()?,
        tilt: match tilt {
            Some(tilt) => Some(tilt?),
            None => None,
        },
        height,
        items: items.into_iter().collect::<Option<_>>()?,
    };
    Some(weighing)
}

fn read_reading(part: &Part<'_>) -> Option<Reading> {
    let name = part.need("name", Name::new);
    let at = place(part, "at");
    let reads = part.quantity("reads", Dimension::Mass);
    if !part.has("reads") {
        missing::<Quantity>(part, "reads", "\"1310 lb\"");
    }
    let (tare, tolerance) = (part.quantity("tare", Dimension::Mass), tolerance(part, "tolerance"));
    part.no_more();
    Some(Reading { name: name?, at: at?, reads: reads?, tare, tolerance })
}

fn read_item(part: &Part<'_>) -> Option<Item> {
    let name = part.need("name", Name::new);
    let mass = part.quantity("mass", Dimension::Mass);
    if !part.has("mass") {
        missing::<Quantity>(part, "mass", "\"85 lb\"");
    }
    let at = place(part, "at");
    let tolerance = tolerance(part, "tolerance");
    let place_tolerance = part.quantity("place_tolerance", Dimension::Length);
    let out = part.flag("out").unwrap_or(false);
    part.no_more();
    Some(Item { name: name?, mass: mass?, tolerance, at: at?, place_tolerance, out })
}

fn read_tilt(part: &Part<'_>) -> Option<Tilt> {
    let pitch = part.quantity("pitch", Dimension::Angle);
    let roll = part.quantity("roll", Dimension::Angle);
    let raised = part.quantity("raised", Dimension::Length);
    let over = part.quantity("over", Dimension::Length);
    let tolerance = part.quantity("tolerance", Dimension::Angle);
    let rest_at = if part.has("rest_at") { place(part, "rest_at").map(Some) } else { Some(None) };
    let readings: Vec<_> = part.parts("weighed").iter().map(read_reading).collect();
    let told = (part.has("pitch"), part.has("roll"), part.has("raised"), part.has("over"));
    part.no_more();
    let (about, angle) = match told {
        (true, false, false, false) => (TiltAbout::Pitch, pitch?),
        (false, true, false, false) => (TiltAbout::Roll, roll?),
        (false, false, true, true) => (TiltAbout::Pitch, raised_angle(raised?, over?)?),
        _ => {
            let (what, mend) = (words::TiltHow, words::TiltHowMend);
            part.fault("pitch", what, mend);
            return None;
        }
    };
    let readings = readings.into_iter().collect::<Option<_>>()?;
    Some(Tilt { about, angle, tolerance, readings, rest_at: rest_at? })
}

/// The angle of a front that was lifted by `raised`, the points `over` apart along the load: nose up is positive. What cannot be is a
/// right angle, which no weighing takes; `None` where nothing can be written.
pub fn raised_angle(raised: Quantity, over: Quantity) -> Option<Quantity> {
    let sine = raised.si() / over.si();
    // What cannot be is told by the check of the angle.
    let angle = if sine.abs() <= 1.0 { sine.asin().to_degrees() } else { 90.0 };
    Quantity::nearest(angle, Unit::Deg)
}

/// A mass or a share.
fn tolerance(part: &Part<'_>, key: &'static str) -> Option<Quantity> {
    part.maybe(key, |text| {
        let quantity = Quantity::parse(text).map_err(|error| error.saying())?;
        match quantity.unit().dimension() {
            Dimension::Mass | Dimension::Ratio => Ok(quantity),
            _ => Err(words::ToleranceUnit { tolerance: &quantity }.saying()),
        }
    })
}
