//! The zones of the board, drawn.

use maud::{Markup, html};
use slingseal_app::catalogue::page as words;
use slingseal_app::{BoardView, FlowState, Language, ZoneCount};

/// The zones where they lie to each other, with how many loads stand there and go there. Our own drawing: no tiles, no network.
pub(super) fn map(view: &BoardView, language: Language) -> Markup {
    let placed: Vec<(&ZoneCount, f64, f64)> = view
        .zones
        .iter()
        .filter_map(|zone| Some((zone, zone.longitude? as f64, zone.latitude? as f64)))
        .collect();
    // One place lies nowhere to another.
    if placed.len() < 2 {
        return html! {};
    }
    let bounds = |pick: fn(&(&ZoneCount, f64, f64)) -> f64| {
        let values = placed.iter().map(pick);
        (values.clone().fold(f64::INFINITY, f64::min), values.fold(f64::NEG_INFINITY, f64::max))
    };
    let ((west, east), (south, north)) = (bounds(|zone| zone.1), bounds(|zone| zone.2));
    // Degrees of longitude shrink with the cosine of the latitude; one scale both ways, so that bearings are right.
    let squeeze = ((south + north) / 2e6).to_radians().cos().max(0.05);
    let span = ((east - west) * squeeze).max(north - south).max(1.0);
    let room = SKETCH - 2.0 * MARGIN;
    let middle = (SKETCH - (east - west) * squeeze / span * room) / 2.0;
    let at = |longitude: f64, latitude: f64| {
        (middle + (longitude - west) * squeeze / span * room, LABEL + (north - latitude) / span * room)
    };
    let total = |counts: &std::collections::BTreeMap<FlowState, u64>| counts.values().sum::<u64>();
    let mut labels: Vec<f64> = Vec::new();
    let mut marks = Vec::new();
    for (zone, longitude, latitude) in &placed {
        let (x, y) = at(*longitude, *latitude);
        // Below its mark, or above it where another's label stands already.
        let crowded = |top: f64| labels.iter().any(|other: &f64| (other - top).abs() < LABEL);
        let top = if crowded(y + 8.0) && !crowded(y - 8.0 - LABEL) { y - 8.0 - LABEL } else { y + 8.0 };
        labels.push(top);
        let counts = words::HereAndBound { here: total(&zone.here), bound: total(&zone.bound) }.say(language);
        marks.push((&zone.name, counts, x, y, top));
    }
    let high = at(west, south).1 + LABEL + 12.0;
    html! {
        figure.map {
            svg viewBox=(format!("0 0 {SKETCH:.0} {high:.0}")) role="img" aria-label=(words::ZonesDrawn.say(language)) {
                @for (name, counts, x, y, top) in &marks {
                    circle cx=(format!("{x:.1}")) cy=(format!("{y:.1}")) r="6" fill="none" stroke="currentColor" stroke-width="2" {}
                    (label(*x, top + 13.0, name))
                    (label(*x, top + 29.0, counts))
                }
            }
            figcaption { (words::Schematic.say(language)) }
        }
    }
}

/// How wide the sketch of the zones is: as a narrow window, so that letters on it keep their size there.
const SKETCH: f64 = 360.0;
/// From the edges to the outermost marks.
const MARGIN: f64 = 20.0;
/// Two lines of a label, and the air between it and its mark.
const LABEL: f64 = 36.0;

/// A line of a label: it begins, ends or centres at its mark, so that it keeps within the sketch; what is longer than that is
/// drawn together.
fn label(x: f64, y: f64, words: &str) -> Markup {
    let third = SKETCH / 3.0;
    let (anchor, room) = if x < third {
        ("start", SKETCH - x + 6.0)
    } else if x > 2.0 * third {
        ("end", x + 6.0)
    } else {
        ("middle", 2.0 * x.min(SKETCH - x))
    };
    let x = match anchor {
        "start" => x - 6.0,
        "end" => x + 6.0,
        _ => x,
    };
    // A letter of this size takes less than eight units.
    let long = words.chars().count() as f64 * 8.0 > room;
    html! {
        text x=(format!("{x:.1}")) y=(format!("{y:.1}")) font-size="14" fill="currentColor" text-anchor=(anchor)
            textLength=[long.then(|| format!("{:.0}", room - 4.0))] lengthAdjust=[long.then_some("spacingAndGlyphs")] { (words) }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use slingseal_app::{BoardView, FlowState, Language, Stamp, ZoneCount};

    use super::map;

    fn zone(name: &str, latitude: i64, longitude: i64) -> ZoneCount {
        let here = BTreeMap::from([(FlowState::Fit, 2)]);
        let bound = BTreeMap::new();
        let (latitude, longitude) = (Some(latitude), Some(longitude));
        ZoneCount { name: name.into(), grid: String::new(), latitude, longitude, here, bound }
    }

    /// What a drawing is made of is no word of a language.
    #[test]
    fn zones_are_drawn_alike_in_every_language() {
        let at = || Stamp { unix: 0, rfc3339: String::new(), dtg: String::new() };
        let board = |zones: Vec<ZoneCount>| BoardView {
            at: at(),
            since: at(),
            columns: Vec::new(),
            notices: Vec::new(),
            zones,
            aircraft: Vec::new(),
        };
        let two = board(vec![zone("Meadow", 46_000_000, 7_000_000), zone("Ridge", 46_010_000, 7_020_000)]);
        let circles = |language| {
            let drawn = map(&two, language).into_string();
            let circles: Vec<String> = drawn.split("<circle").skip(1).map(str::to_owned).collect();
            circles.iter().map(|one| one.split('>').next().unwrap().to_owned()).collect::<Vec<_>>()
        };
        assert_eq!(circles(Language::Spanish), circles(Language::English));
        assert!(circles(Language::Spanish).iter().all(|one| one.contains("fill=\"none\"")));
        assert_eq!(circles(Language::Spanish).len(), 2);
        // What is written keeps within the sketch, whatever a zone is called.
        let long = "Kestrel Meadow and the upper weir";
        let placed = [(46_000_000, 7_000_000), (46_005_000, 7_010_000), (46_010_000, 7_020_000)];
        let three = board(placed.map(|(latitude, longitude)| zone(long, latitude, longitude)).to_vec());
        for written in map(&three, Language::Spanish).into_string().split("<text ").skip(1) {
            let number = |name: &str| {
                let value = written
                    .split(&format!(" {name}=\""))
                    .nth(1)
                    .or(written.split(&format!("{name}=\"")).nth(1));
                value.and_then(|rest| rest.split('"').next()).and_then(|value| value.parse::<f64>().ok())
            };
            let letters =
                written.split('>').nth(1).unwrap().split('<').next().unwrap().chars().count() as f64;
            let (x, wide) = (number("x").unwrap(), number("textLength").unwrap_or(letters * 8.0));
            let left = match written {
                _ if written.contains("text-anchor=\"start\"") => x,
                _ if written.contains("text-anchor=\"end\"") => x - wide,
                _ => x - wide / 2.0,
            };
            assert!(left >= 0.0 && left + wide <= super::SKETCH, "{left} {wide} {written}");
        }
        let one = board(vec![zone("Meadow", 46_000_000, 7_000_000)]);
        assert_eq!(map(&one, Language::English).into_string(), "", "one place lies nowhere to another");
    }
}
