//! A weighing between a form and a file: scales, the second weighing, items.

use slingseal_rigging::{Reading, TiltAbout, Weighing};
use slingseal_words::Quantity;

use super::form::{File, RiggingFields};

/// The axes as the names of fields have them: forward, left, up.
pub(super) const AXES: [&str; 3] = ["x", "y", "z"];

/// The weighing of a file as fields.
pub(super) fn put(weighing: &Weighing, fields: &mut RiggingFields) {
    let told = |value: Option<Quantity>| value.map(|value| value.to_string()).unwrap_or_default();
    let mut put = |name: String, value: String| {
        fields.insert(name, value);
    };
    let mut readings = |of: &str, readings: &[Reading]| {
        for (at, reading) in readings.iter().enumerate() {
            put(format!("{of}.{at}.name"), reading.name.to_string());
            for (axis, place) in AXES.iter().zip(&reading.at) {
                put(format!("{of}.{at}.{axis}"), place.to_string());
            }
            put(format!("{of}.{at}.reads"), reading.reads.to_string());
            put(format!("{of}.{at}.tare"), told(reading.tare));
            put(format!("{of}.{at}.tolerance"), told(reading.tolerance));
        }
    };
    readings("weighed", &weighing.readings);
    if let Some(tilt) = &weighing.tilt {
        readings("tilted", &tilt.readings);
        let about = if tilt.about == TiltAbout::Pitch { "tilted.pitch" } else { "tilted.roll" };
        put(about.into(), tilt.angle.to_string());
        put("tilted.tolerance".into(), told(tilt.tolerance));
        for (axis, place) in AXES.iter().zip(tilt.rest_at.iter().flatten()) {
            put(format!("tilted.rest.{axis}"), place.to_string());
        }
    }
    if let Some((height, tolerance)) = weighing.height {
        put("height".into(), height.to_string());
        put("height.tolerance".into(), told(tolerance));
    }
    for (at, item) in weighing.items.iter().enumerate() {
        put(format!("item.{at}.name"), item.name.to_string());
        put(format!("item.{at}.mass"), item.mass.to_string());
        put(format!("item.{at}.tolerance"), told(item.tolerance));
        for (axis, place) in AXES.iter().zip(&item.at) {
            put(format!("item.{at}.{axis}"), place.to_string());
        }
        put(format!("item.{at}.place"), told(item.place_tolerance));
        put(format!("item.{at}.out"), if item.out { "out".into() } else { String::new() });
    }
}

/// The weighing of a form, as a file has it.
pub(super) fn write(file: &mut File<'_>) {
    file.put("[load]", "height");
    file.some("height", "height");
    file.some("height_tolerance", "height.tolerance");
    readings(file, "[[weighed]]", "weighed");
    if !tilt_is_empty(file) {
        file.put("[tilted]", "tilted.pitch");
        for key in ["pitch", "roll", "raised", "over", "tolerance"] {
            file.some(key, &format!("tilted.{key}"));
        }
        if AXES.iter().any(|axis| !file.get(&format!("tilted.rest.{axis}")).is_empty()) {
            file.place("rest_at", "tilted.rest");
        }
        readings(file, "[[tilted.weighed]]", "tilted");
    }
    for at in file.rows("item", Weighing::MOST_ITEMS) {
        let of = |name: &str| format!("item.{at}.{name}");
        file.put("[[item]]", &of("name"));
        for key in ["name", "mass", "tolerance"] {
            file.some(key, &of(key));
        }
        file.place("at", &format!("item.{at}"));
        file.some("place_tolerance", &of("place"));
        if !file.get(&of("out")).is_empty() {
            file.put(&format!("out = {}", true), &of("out"));
        }
    }
}

/// Whether neither a scale nor an item is entered.
pub(super) fn is_empty(fields: &RiggingFields) -> bool {
    let file = File::new(fields);
    file.rows("weighed", Weighing::MOST_POINTS).is_empty()
        && file.rows("item", Weighing::MOST_ITEMS).is_empty()
}

/// Whether nothing is entered of a second weighing.
fn tilt_is_empty(file: &File<'_>) -> bool {
    let alone = ["pitch", "roll", "raised", "over", "tolerance", "rest.x", "rest.y", "rest.z"];
    alone.iter().all(|name| file.get(&format!("tilted.{name}")).is_empty())
        && file.rows("tilted", Weighing::MOST_POINTS).is_empty()
}

fn readings(file: &mut File<'_>, table: &str, of: &str) {
    for at in file.rows(of, Weighing::MOST_POINTS) {
        let row = format!("{of}.{at}");
        file.put(table, &format!("{row}.name"));
        file.some("name", &format!("{row}.name"));
        file.place("at", &row);
        for key in ["reads", "tare", "tolerance"] {
            file.some(key, &format!("{row}.{key}"));
        }
    }
}
