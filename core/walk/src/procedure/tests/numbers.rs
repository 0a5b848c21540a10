//! Every number of the lists beside the document and section that it was read in, or marked as what it is.

use std::collections::BTreeSet;

use crate::procedure::{
    BUILT_IN, Expanded, Expected, Kind, Language, Mark, Subject, built_in, points_document,
};

/// List, point, how it is answered, and the document and section.
const PUBLISHED: &[(&str, &str, &str, &str)] = &[
    ("drums", "drum-1.end-left.plate", "count, expected 10", "TM 10-8110-201-14&P"),
    ("drums", "drum-2.end-right.ring", "count, expected 21", "TM 10-8110-201-14&P"),
    ("gear-chain", "links.gauge.three-eighths", "measure, at least 0.297 in", "Mich. Admin. R 408.14923"),
    ("gear-chain", "links.gauge.half", "measure, at least 0.391 in", "Mich. Admin. R 408.14923"),
    ("gear-chain", "links.gauge.five-eighths", "measure, at least 0.485 in", "Mich. Admin. R 408.14923"),
    ("gear-chain", "fit.until.days", "measure, at most 366 d", "WAC 296-24-29423"),
    ("gear-hook", "shape.throat.wider", "measure, at most 5 %", "WAC 296-155-55800 table 12"),
    ("gear-hook", "shape.throat.inch", "measure, at most 0.25 in", "WAC 296-155-55800 table 12"),
    ("gear-hook", "shape.wear.wear", "measure, at most 10 %", "WAC 296-155-55800 table 12"),
    ("gear-swivel", "turn.play.play", "measure, at most 5 deg", "PMS 448 000286"),
    ("zone", "round.edge.width", "measure, at least 80 m", "FM 57-38 5-1"),
    ("zone", "round.loose.cleared", "measure, at least 100 ft", "WAC 296-829-30005"),
    ("zone", "round.loose.others", "measure, at least 50 ft", "WAC 296-32-24034"),
    ("zone", "brief.told.fuel", "measure, at least 20 min", "WAC 296-45-67533"),
];

/// Common practice, no published source: the third link sits in the hook; the chain passes once through the clevis; the
/// lacing crosses once; four rope parts lie on each side of the bow knot.
const PRACTICE: &[(&str, &str, &str)] = &[
    ("bag", "grab.links.link", "count, expected 3"),
    ("bag", "chain.through.passes", "count, expected 1"),
    ("bag", "side-1.lacing.crossing", "count, expected 1"),
    ("bag", "side-1.knot.parts-left", "count, expected 4"),
    ("bag", "side-4.knot.parts-right", "count, expected 4"),
];

/// Rules in words, whose number stands in the point's text: the words that must be there, and the document.
const IN_WORDS: &[(&str, &str, &str, &str)] = &[
    ("gear-rope", "rope.run.width", "10 %", "TB 43-0142"),
    ("gear-rope", "rope.ends.cone", "cone", "FM 4-20.197 T6-3"),
    ("gear-net", "mesh.strip-1.broken", "10 %", "PMS 448 000531"),
    ("gear-net", "mesh.strip-1.bend", "more than two", "PMS 448 000531"),
    ("gear-lead", "wire.run.worn", "third", "PMS 448 000380"),
    ("gear-lead", "wire.run.broken", "four", "PMS 448 000380"),
    ("gear-wand", "gloves.gloves.hole", "hole", "NWP 4-01.4 section 10.16.5.3"),
    ("longline", "tag.read.strength", "five times", "WAC 296-45-67537"),
    ("longline", "line.upper.ring", "decal", "ATSB AB-2020-023"),
    ("vehicle", "cab.fuel.fuel", "per cent", "TM 55-2350-272-14 4-3: at most 3/4"),
    ("vehicle", "ready.look.ties", "listed material", "FM 4-20.199: 1/4 in cotton webbing of 80 lb"),
    ("vehicle", "apex.order.order", "1 and 2 outside", "FM 4-20.198"),
    ("hookup", "before.load.fuel", "20 minutes", "WAC 296-45-67533"),
];

fn plan(id: &str) -> Expanded {
    built_in(id).unwrap().expand(Language::English)
}

fn published(mark: &Mark, document: &str) -> bool {
    matches!(mark, Mark::Published(name) if name.contains(document))
}

#[test]
fn each_number_stands_beside_its_document() {
    for (list, id, answered, document) in PUBLISHED {
        let plan = plan(list);
        let point = super::point(&plan, id);
        assert_eq!(point.kind.to_string(), *answered, "{list} {id}");
        assert!(published(&point.mark, document), "{list} {id}: {} is not {document}", point.mark);
    }
    for (list, id, answered) in PRACTICE {
        let plan = plan(list);
        let point = super::point(&plan, id);
        assert_eq!(
            (point.kind.to_string().as_str(), &point.mark),
            (*answered, &Mark::CommonPractice),
            "{id}"
        );
    }
    for (list, id, words, document) in IN_WORDS {
        let plan = plan(list);
        let point = super::point(&plan, id);
        let told = format!("{} {}", point.prompt, point.speak);
        assert!(told.contains(words), "{list} {id}: {told}");
        assert!(published(&point.mark, document), "{list} {id}: {} is not {document}", point.mark);
    }
}

/// Ceilings of the gauge: 19/64, 25/64 and 31/64 in do not end within three decimals, and a limit is never rounded down.
#[test]
fn a_least_is_never_rounded_down() {
    for (id, part) in [("three-eighths", 19.0), ("half", 25.0), ("five-eighths", 31.0)] {
        let plan = plan("gear-chain");
        let Kind::Measure { least: Some(least), .. } = super::point(&plan, &format!("links.gauge.{id}")).kind
        else {
            panic!("{id}");
        };
        let inches = least.thousandths() as f64 / 1_000.0;
        assert!(inches >= part / 64.0 && inches < part / 64.0 + 0.001, "{id}: {inches}");
    }
}

/// No number without a row above: a count or a bound that a list asks for is read in a document, or is marked as practice.
#[test]
fn no_number_is_shipped_without_a_row() {
    let rows: BTreeSet<(&str, String)> = PUBLISHED
        .iter()
        .map(|(list, id, ..)| (*list, family(id)))
        .chain(PRACTICE.iter().map(|(list, id, _)| (*list, family(id))))
        .collect();
    for own in BUILT_IN {
        let plan = plan(own.id);
        for point in plan.cards.iter().flat_map(|card| &card.points) {
            let number = match &point.kind {
                Kind::Count(Expected::Fixed(_)) => true,
                Kind::Measure { least, most, .. } => least.is_some() || most.is_some(),
                _ => false,
            };
            let family = family(point.id.as_str());
            assert!(!number || rows.contains(&(own.id, family.clone())), "{}: {family} has no row", own.id);
        }
    }
}

/// A point's id without the values of rounds.
fn family(id: &str) -> String {
    let round = |part: &str| {
        let tail = part.rsplit_once('-').map(|(_, tail)| tail).unwrap_or_default();
        let value = tail.chars().all(|c| c.is_ascii_digit()) || ["left", "right"].contains(&tail);
        if value { part.rsplit_once('-').map_or(part, |(head, _)| head).to_owned() } else { part.to_owned() }
    };
    id.split('.').map(round).collect::<Vec<_>>().join(".")
}

/// The accident: a person on a load that no list was made for.
#[test]
fn the_first_point_of_every_list_is_that_nobody_rides() {
    for own in BUILT_IN {
        let plan = plan(own.id);
        let first = &plan.cards[0].points[0];
        assert!(first.prompt.starts_with("Nobody rides on or hangs from"), "{}: {}", own.id, first.prompt);
        assert!(published(&first.mark, "14 CFR 133.1(d)"), "{}", own.id);
        assert!(first.deficiencies.iter().all(|known| known.fate != crate::procedure::Fate::InPlace));
    }
}

#[test]
fn there_is_a_list_for_each_hour_of_the_day() {
    let of = |subject: Subject| -> Vec<&str> {
        BUILT_IN.iter().map(|own| own.id).filter(|id| built_in(id).unwrap().subject() == subject).collect()
    };
    assert_eq!(of(Subject::Load), ["bag", "net", "vehicle", "drums", "longline"]);
    assert_eq!(of(Subject::Zone), ["zone"]);
    assert_eq!(of(Subject::Aircraft), ["daily-hooks"]);
    let gear = [
        "gear-chain",
        "gear-rope",
        "gear-web",
        "gear-net",
        "gear-hook",
        "gear-swivel",
        "gear-lead",
        "gear-wand",
    ];
    assert_eq!(of(Subject::Piece), gear);
    assert_eq!(of(Subject::Handling), ["hookup", "derig"]);
    for id in gear {
        let plan = plan(id);
        let fit = plan.cards.iter().flat_map(|card| &card.points).filter(|point| point.rules.fit_for).count();
        assert_eq!(fit, 1, "{id} makes a piece fit until a date");
    }
}

/// The two words are two parts: army lists say clevis, civil ones say shackle.
#[test]
fn one_part_has_one_word() {
    for own in BUILT_IN {
        let text = own.text.to_lowercase();
        let both = text.contains("clevis")
            && text.lines().any(|line| !line.starts_with('#') && line.contains("shackle"));
        assert!(!both, "{} says clevis and shackle", own.id);
        for wrong in ["pivote", "tarjeta", "aparejó", "aparejador", "hook is unloaded", "descargue el gancho"]
        {
            assert!(!text.contains(wrong), "{}: {wrong}", own.id);
        }
    }
}

/// The document for an approver is current. To write it anew: SLINGSEAL_WRITE_POINTS=1.
#[test]
fn the_points_are_written_out_for_an_approver() {
    let now = points_document(BUILT_IN.iter().map(|own| plan(own.id)));
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/procedures/POINTS.md");
    if std::env::var_os("SLINGSEAL_WRITE_POINTS").is_some() {
        std::fs::write(path, &now).unwrap();
    }
    assert_eq!(std::fs::read_to_string(path).unwrap(), now, "make POINTS.md anew");
}
