//! Loads made for a test, and forces weighed anew from the places that an assessment tells.

use slingseal_rigging::{Assessment, Hang, Hook, Leg, Rating, Reach, RiggedLoad, assess};
use slingseal_words::{Metres, Name, Quantity, Unit};

/// So many thousandths.
pub(crate) fn thousandths(value: i64, unit: Unit) -> Quantity {
    Quantity::from_thousandths(value, unit).expect("a test's quantities are small")
}

/// The quantity nearest to `value` units.
pub(crate) fn of(value: f64, unit: Unit) -> Quantity {
    thousandths((value * 1_000.0).round() as i64, unit)
}

pub(crate) fn rating(value: f64, unit: Unit) -> Rating {
    Rating { value: of(value, unit), source: None }
}

/// One hook, millimetres, kilograms.
pub(crate) fn load(mass_kg: f64, centre_mm: [f64; 3], legs: Vec<Leg>) -> RiggedLoad {
    RiggedLoad {
        mass: of(mass_kg, Unit::Kg),
        centre: centre_mm.map(|value| of(value, Unit::Mm)),
        hooks: vec![hook("main", [0.0; 3])],
        allowable: None,
        parts: Vec::new(),
        legs,
        rule: None,
    }
}

pub(crate) fn hook(name: &str, at_mm: [f64; 3]) -> Hook {
    Hook { name: Name::new(name).unwrap(), at: at_mm.map(|value| of(value, Unit::Mm)), limit: None }
}

/// A leg rated 2000 kg.
pub(crate) fn leg(name: &str, lift_point_mm: [f64; 3], length_mm: f64, stretch_percent: f64) -> Leg {
    Leg {
        name: Name::new(name).unwrap(),
        hook: None,
        lift_point: lift_point_mm.map(|value| of(value, Unit::Mm)),
        reach: Reach::Length(of(length_mm, Unit::Mm)),
        stretch: Some(of(stretch_percent, Unit::Percent)),
        rated: Some(rating(2_000.0, Unit::Kg)),
        parts: Vec::new(),
    }
}

pub(crate) fn hang(load: &RiggedLoad) -> Hang {
    let assessment = assess(load);
    assessment.hang.clone().unwrap_or_else(|| panic!("{:?}", assessment.reason))
}

pub(crate) fn vector(place: &[Metres; 3]) -> [f64; 3] {
    place.map(Metres::value)
}

/// The direction of each leg's pull on the load, and its arm from the centre of gravity, m.
pub(crate) fn pulls(load: &RiggedLoad, hang: &Hang) -> Vec<([f64; 3], [f64; 3])> {
    let centre = vector(&hang.place.centre);
    let legs = load.legs.iter().zip(&hang.place.lift_points);
    legs.map(|(leg, lift)| {
        let hook = vector(&hang.place.hooks[load.hook_of(leg).unwrap()]);
        let lift = vector(lift);
        let way = less(hook, lift);
        let length = norm(way);
        (way.map(|part| part / length), less(lift, centre))
    })
    .collect()
}

/// What is left over of forces (shares of the weight) and moments (shares of the weight times the longest arm).
pub(crate) fn out_of_balance(load: &RiggedLoad, assessment: &Assessment) -> f64 {
    let hang = assessment.hang.as_ref().unwrap();
    let weight = assessment.weight.value();
    let pulls = pulls(load, hang);
    let longest = load.legs.iter().map(|leg| leg.reach.length().value()).fold(0.0, f64::max);
    let (mut force, mut moment) = ([0.0, 0.0, -weight], [0.0; 3]);
    for ((way, arm), leg) in pulls.iter().zip(&hang.legs) {
        let pull = way.map(|part| part * leg.tension.value());
        let turn = cross(*arm, pull);
        for axis in 0..3 {
            force[axis] += pull[axis];
            moment[axis] += turn[axis];
        }
    }
    (norm(force) / weight).max(norm(moment) / weight / longest)
}

pub(crate) fn less(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(crate) fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub(crate) fn norm(a: [f64; 3]) -> f64 {
    a.iter().map(|part| part * part).sum::<f64>().sqrt()
}

pub(crate) fn near(found: f64, wanted: f64, share: f64) {
    assert!((found - wanted).abs() <= share * wanted.abs().max(1e-9), "found {found}, wanted {wanted}");
}
