//! Mass and centre at what was read, and at every corner of what may have been.

use slingseal_words::{Kilograms, Metres, Quantity, Unit};

use super::noun::{Reading, Tilt, TiltAbout, WeighError, Weighing};

/// Readings and items beyond which the corners are not looked at one by one: 2^10 of them.
const MOST_FREE: usize = 10;

/// What a weighing gives.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The mass, in the unit of the first reading or item.
    pub mass: Quantity,
    /// The centre of gravity, in the unit of the first point.
    pub centre: [Quantity; 3],
    /// Between what the mass lies.
    pub mass_span: Span<Kilograms>,
    /// Between what each coordinate of the centre lies, each for itself.
    pub centre_span: [Span<Metres>; 3],
    /// The corners that a load may be at: all of them, or those of the box about them.
    pub corners: Vec<Corner>,
    /// Whether they are all of them: with more than ten free values the box of the spans stands for them, which is larger.
    pub exact: bool,
    /// The points and items of which nobody said what they may be wrong by.
    pub untold: Vec<String>,
}

/// From the least to the most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span<T> {
    /// The least.
    pub least: T,
    /// The most.
    pub most: T,
}

/// A load as it may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// Its mass.
    pub mass: Kilograms,
    /// Its centre of gravity.
    pub centre: [Metres; 3],
}

/// Mass and centre of gravity.
///
/// # Errors
/// What is wrong with the weighing.
pub fn weigh(weighing: &Weighing) -> Result<Weighed, WeighError> {
    weighing.check()?;
    let free = Free::of(weighing);
    let at = free.balance(weighing, &Ends::MIDDLE, &[]).ok_or(WeighError::NotPositive)?;
    let count = free.values.len();
    let mut spans: [Span<f64>; 4] = std::array::from_fn(|axis| extent(part(&at, axis)));
    for ends in Ends::all(weighing) {
        for (axis, span) in spans.iter_mut().enumerate() {
            for sign in [1.0, -1.0] {
                let found = climb(count, |up| Some(sign * part(&free.balance(weighing, &ends, up)?, axis)));
                let found = sign * found.ok_or(WeighError::NotPositive)?;
                span.least = span.least.min(found);
                span.most = span.most.max(found);
            }
        }
    }
    let exact = count <= MOST_FREE;
    let corners = if exact { free.corners(weighing) } else { box_of(&spans) };
    let [mass, x, y, z] = spans;
    let metres = |span: Span<f64>| Span { least: as_metres(span.least), most: as_metres(span.most) };
    let (mass_unit, unit) = units(weighing);
    let nearest = |si, unit| Quantity::nearest(si, unit).ok_or(WeighError::NotPositive);
    let (kilograms, centre) = at;
    let [cx, cy, cz] = centre;
    Ok(Weighed {
        mass: nearest(kilograms, mass_unit)?,
        centre: [nearest(cx, unit)?, nearest(cy, unit)?, nearest(cz, unit)?],
        mass_span: Span { least: as_kilograms(mass.least), most: as_kilograms(mass.most) },
        centre_span: [metres(x), metres(y), metres(z)],
        corners,
        exact,
        untold: untold(weighing),
    })
}

/// Mass, kg, and centre, m.
type Balance = (f64, [f64; 3]);

fn part(balance: &Balance, axis: usize) -> f64 {
    let (mass, [x, y, z]) = *balance;
    [mass, x, y, z].get(axis).copied().unwrap_or(mass)
}

fn extent(value: f64) -> Span<f64> {
    Span { least: value, most: value }
}

/// What the angle and the tilted readings (or the height that was given) may be: each from -1 to 1.
#[derive(Clone, Copy, Debug)]
struct Ends {
    angle: f64,
    height: f64,
}

impl Ends {
    const MIDDLE: Self = Self { angle: 0.0, height: 0.0 };

    fn all(weighing: &Weighing) -> Vec<Self> {
        let both = |free: bool| if free { vec![-1.0, 1.0] } else { vec![0.0] };
        let tilt = weighing.tilt.as_ref();
        let angles = both(tilt.is_some_and(|tilt| tilt.tolerance.is_some()));
        let given = weighing.height.is_some_and(|(_, tolerance)| tolerance.is_some());
        let heights = both(given || tilt.is_some_and(|tilt| tilt.readings.iter().any(|one| one.off() > 0.0)));
        let pairs = angles.iter().flat_map(|angle| heights.iter().map(|height| (*angle, *height)));
        pairs.map(|(angle, height)| Self { angle, height }).collect()
    }
}

/// One value that may be off, each for itself.
#[derive(Clone, Copy, Debug)]
enum FreeValue {
    /// A level reading.
    Reading(usize),
    /// An item's mass.
    Mass(usize),
    /// A coordinate of an item's place.
    Place(usize, usize),
}

struct Free {
    values: Vec<FreeValue>,
}

impl Free {
    fn of(weighing: &Weighing) -> Self {
        let readings = weighing.readings.iter().enumerate().filter(|(_, reading)| reading.off() > 0.0);
        let mut values: Vec<FreeValue> = readings.map(|(at, _)| FreeValue::Reading(at)).collect();
        for (at, item) in weighing.items.iter().enumerate() {
            if item.off() > 0.0 {
                values.push(FreeValue::Mass(at));
            }
            if item.place_tolerance.is_some_and(|off| off.thousandths() > 0) {
                values.extend((0..3).map(|axis| FreeValue::Place(at, axis)));
            }
        }
        Self { values }
    }

    /// Mass and centre with each free value at an end: `up` says which, and what it does not reach stands in the middle.
    fn balance(&self, weighing: &Weighing, ends: &Ends, up: &[bool]) -> Option<Balance> {
        let mut readings: Vec<f64> = weighing.readings.iter().map(Reading::net).collect();
        let mut items: Vec<Balance> =
            weighing.items.iter().map(|item| (item.signed(), item.place())).collect();
        for (value, up) in self.values.iter().zip(up) {
            let sign = if *up { 1.0 } else { -1.0 };
            match *value {
                FreeValue::Reading(at) => {
                    let off = weighing.readings.get(at)?.off();
                    *readings.get_mut(at)? += sign * off;
                }
                FreeValue::Mass(at) => items.get_mut(at)?.0 += sign * weighing.items.get(at)?.off(),
                FreeValue::Place(at, axis) => {
                    let off = weighing.items.get(at)?.place_tolerance.map_or(0.0, Quantity::si);
                    *items.get_mut(at)?.1.get_mut(axis)? += sign * off;
                }
            }
        }
        if !readings.is_empty() {
            items.push(weighed(weighing, &readings, ends)?);
        }
        let mass: f64 = items.iter().map(|(mass, _)| mass).sum();
        (mass > 0.0).then_some(())?;
        let centre = std::array::from_fn(|axis| {
            items.iter().map(|(mass, place)| mass * place.get(axis).copied().unwrap_or(0.0)).sum::<f64>()
                / mass
        });
        Some((mass, centre))
    }

    fn corners(&self, weighing: &Weighing) -> Vec<Corner> {
        let count = self.values.len();
        let mut corners = Vec::new();
        for ends in Ends::all(weighing) {
            for corner in 0_u32..(1 << count) {
                let up: Vec<bool> = (0..count).map(|at| corner & (1 << at) != 0).collect();
                corners.extend(self.balance(weighing, &ends, &up).map(corner_of));
            }
        }
        corners
    }
}

/// What stood on the scales. The plan by the level readings; the height by the tilted ones, or as it was given.
fn weighed(weighing: &Weighing, readings: &[f64], ends: &Ends) -> Option<Balance> {
    let mass: f64 = readings.iter().sum();
    (mass > 0.0).then_some(())?;
    let mean = |axis: usize| {
        let points = weighing.readings.iter().zip(readings);
        points.map(|(point, read)| read * point.place().get(axis).copied().unwrap_or(0.0)).sum::<f64>() / mass
    };
    let (x, y) = (mean(0), mean(1));
    let height = match (&weighing.tilt, &weighing.height) {
        (Some(tilt), _) => {
            tilted_height(tilt, mass, if tilt.about == TiltAbout::Pitch { x } else { y }, ends)
        }
        (None, Some((height, off))) => height.si() + ends.height * off.map_or(0.0, Quantity::si),
        (None, None) => return None,
    };
    Some((mass, [x, y, height]))
}

/// The height of the centre over the datum. A point's share of the moment is `z - x cot(angle)`; the height is the mean of them,
/// weighted by what was read tilted, and `x cot(angle)` of the centre.
fn tilted_height(tilt: &Tilt, mass: f64, along: f64, ends: &Ends) -> f64 {
    let off = tilt.tolerance.map_or(0.0, Quantity::si);
    let cot = 1.0 / (tilt.angle.si() + ends.angle * off).to_radians().tan();
    let share = |place: [f64; 3]| {
        let [x, y, z] = place;
        z - cot * if tilt.about == TiltAbout::Pitch { x } else { y }
    };
    let rest = tilt.rest_at.map(|place| share(place.map(Quantity::si)));
    let mean = |up: &[bool]| {
        let (mut sum, mut moment) = (0.0, 0.0);
        for (at, reading) in tilt.readings.iter().enumerate() {
            let sign = match up.get(at) {
                Some(true) => 1.0,
                Some(false) => -1.0,
                None => 0.0,
            };
            let read = reading.net() + sign * reading.off();
            sum += read;
            moment += read * share(reading.place());
        }
        match rest {
            Some(rest) => (moment + (mass - sum) * rest) / mass,
            None => moment / sum,
        }
    };
    let count = tilt.readings.len();
    let found = match ends.height {
        up if up > 0.0 => climb(count, |up| Some(mean(up))),
        down if down < 0.0 => climb(count, |up| Some(-mean(up))).map(|found| -found),
        _ => None,
    };
    along * cot + found.unwrap_or_else(|| mean(&[]))
}

/// The largest value over the corners of a box. What is asked is linear over linear in every value: a corner that no
/// neighbour is above has none above it, so that climbing from neighbour to neighbour ends at the largest.
fn climb(count: usize, value: impl Fn(&[bool]) -> Option<f64>) -> Option<f64> {
    let mut up = vec![true; count];
    let mut best = value(&up)?;
    for _ in 0..=count * 4 {
        let mut climbed = false;
        for at in 0..count {
            if let Some(side) = up.get_mut(at) {
                *side = !*side;
            }
            let found = value(&up)?;
            if found > best {
                best = found;
                climbed = true;
            } else if let Some(side) = up.get_mut(at) {
                *side = !*side;
            }
        }
        if !climbed {
            break;
        }
    }
    Some(best)
}

fn box_of(spans: &[Span<f64>; 4]) -> Vec<Corner> {
    let corner = |bits: usize| {
        let mut at = [0.0; 4];
        for (axis, (value, span)) in at.iter_mut().zip(spans).enumerate() {
            *value = if bits & (1 << axis) == 0 { span.least } else { span.most };
        }
        let [mass, x, y, z] = at;
        corner_of((mass, [x, y, z]))
    };
    (0..16).map(corner).collect()
}

fn corner_of((mass, centre): Balance) -> Corner {
    Corner { mass: as_kilograms(mass), centre: centre.map(as_metres) }
}

fn as_kilograms(value: f64) -> Kilograms {
    Kilograms::new(value).unwrap_or_default()
}

fn as_metres(value: f64) -> Metres {
    Metres::new(value).unwrap_or_default()
}

/// The units that the answer is written in.
pub(super) fn units(weighing: &Weighing) -> (Unit, Unit) {
    let reading = weighing.readings.first().map(|reading| (reading.reads, reading.at));
    let item = weighing.items.first().map(|item| (item.mass, item.at));
    reading.or(item).map_or((Unit::Kg, Unit::M), |(mass, [x, ..])| (mass.unit(), x.unit()))
}

fn untold(weighing: &Weighing) -> Vec<String> {
    let tilted = weighing.tilt.iter().flat_map(|tilt| &tilt.readings);
    let readings = weighing.readings.iter().chain(tilted).filter(|reading| reading.tolerance.is_none());
    let items = weighing.items.iter().filter(|item| item.tolerance.is_none());
    let mut names: Vec<String> = readings.map(|reading| reading.name.to_string()).collect();
    names.extend(items.map(|item| item.name.to_string()));
    let mut seen = std::collections::BTreeSet::new();
    names.retain(|name| seen.insert(name.clone()));
    names
}
