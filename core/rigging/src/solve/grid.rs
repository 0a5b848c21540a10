//! The link counts that can hang within an angle of what is wanted: a bound, proved, so that nothing that is left out could.
//!
//! Let `u` be up, `w` the wanted up, `h` the hook's height over the centre of gravity, `D` the angle between `u` and `w`. The hook
//! stands at `h u` from the centre; it would stand at `h w`, `2 h sin(D/2)` away. A leg's reach is a distance from the hook, so
//! that it differs from the reach `r(h)` at `h w` by no more than that (the triangle's inequality). A leg that carries, and no
//! more than its rating over the load factor `f`, is stretched by between 0 and `s/f` of its length, `s` its stretch at rated load.
//! So its length lies between `(r(h) - d) / (1 + s/f)` and `r(h) + d`. With `a` the lift point's height over the centre along
//! `w`, and `b` its distance from that line, `r(h)² = (h - a)² + b²`, which grows with `h` above `a`; a leg that rises to the hook
//! has `h > a - |p| D`. Each leg's link thus narrows `h`, and `h` the links of the next leg.
//!
//! With all links chosen, the pulls along `u` add up to the weight. What a leg pulls grows with its reach, and its share along `u`
//! lies between the cosine of the steepest and one: where the most that all legs could pull is too little, or the least too much,
//! there is no rest.

/// One leg of the grid; lengths as shares of the model's scale.
#[derive(Clone, Debug)]
pub(super) struct GridLeg {
    /// Height of the lift point over the centre, along the wanted up.
    pub along: f64,
    /// Distance from that line.
    pub across: f64,
    /// How long the leg is by link, `lengths[at]` for link `first + at`; one alone without a chain.
    pub lengths: Vec<f64>,
    /// Stretch at the rated load over the load factor.
    pub most_strain: f64,
    /// Stiffness times length, as a share of the weight.
    pub firmness: f64,
}

/// Between two heights of the hook over the centre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Heights {
    pub low: f64,
    pub high: f64,
}

impl GridLeg {
    fn far(&self) -> f64 {
        self.along.hypot(self.across)
    }

    fn reach(&self, height: f64) -> f64 {
        (height - self.along).hypot(self.across)
    }

    /// The heights that this leg allows at this length, `angle` from what is wanted at most, within `heights`.
    fn heights(&self, length: f64, angle: f64, heights: Heights) -> Option<Heights> {
        let room = 2.0 * heights.high * (angle / 2.0).sin() + ROUNDING;
        let longest = length * (1.0 + self.most_strain) + room;
        let shortest = length - room;
        let flat = longest * longest - self.across * self.across;
        if flat < 0.0 {
            return None;
        }
        let least = self.along - self.far() * angle - ROUNDING;
        let high = (self.along + flat.sqrt()).min(heights.high);
        let steep = (shortest.max(0.0).powi(2) - self.across * self.across).max(0.0).sqrt();
        // Below its own lift point a leg reaches as far as above it; but so low, no leg rises.
        let low = if shortest > self.across && steep >= self.far() * angle + ROUNDING {
            self.along + steep
        } else {
            least
        };
        let low = low.max(least).max(heights.low);
        (low <= high).then_some(Heights { low, high })
    }

    /// The first and the last length that may be, of those in falling order.
    fn links(&self, angle: f64, heights: Heights) -> std::ops::Range<usize> {
        let room = 2.0 * heights.high * (angle / 2.0).sin() + ROUNDING;
        let nearest = self.along.clamp(heights.low, heights.high);
        let shortest = (self.reach(nearest) - room) / (1.0 + self.most_strain);
        let longest = self.reach(heights.low).max(self.reach(heights.high)) + room;
        let first = self.lengths.partition_point(|length| *length > longest);
        let last = self.lengths.partition_point(|length| *length >= shortest);
        first..last.max(first)
    }
}

/// Whether legs of these lengths can hold the weight, no more and no less, with the hook between these heights.
fn may_balance(legs: &[GridLeg], chosen: &[usize], angle: f64, heights: Heights) -> bool {
    let room = 2.0 * heights.high * (angle / 2.0).sin() + ROUNDING;
    let (mut most, mut least) = (0.0, 0.0);
    for (leg, at) in legs.iter().zip(chosen) {
        let Some(length) = leg.lengths.get(*at) else { return true };
        let far = leg.reach(heights.low).max(leg.reach(heights.high)) + room;
        let near = leg.reach(leg.along.clamp(heights.low, heights.high)) - room;
        let pull = |reach: f64| leg.firmness / length * (reach - length).max(0.0);
        most += pull(far).min(leg.firmness * leg.most_strain);
        let rise = heights.low - leg.along - leg.far() * angle;
        least += pull(near) * (rise / far).max(0.0);
    }
    most >= 1.0 - ROUNDING && least <= 1.0 + ROUNDING
}

/// What the arithmetic may be off by, as a share of the longest leg.
const ROUNDING: f64 = 1e-9;

/// Calls `each` for every choice of links that can hang within `angle` (radians) of what is wanted, with the heights of its hook;
/// stops where it answers `false`, and then answers `false`.
pub(super) fn walk(legs: &[GridLeg], angle: f64, each: &mut dyn FnMut(&[usize], Heights) -> bool) -> bool {
    let longest = |leg: &GridLeg| leg.lengths.first().copied().unwrap_or(0.0);
    let reach = legs.iter().map(|leg| leg.far() + longest(leg) * (1.0 + leg.most_strain));
    let high = reach.fold(f64::INFINITY, f64::min);
    let mut chosen = Vec::with_capacity(legs.len());
    step(legs, angle, Heights { low: 0.0, high }, &mut chosen, each)
}

fn step(
    legs: &[GridLeg],
    angle: f64,
    heights: Heights,
    chosen: &mut Vec<usize>,
    each: &mut dyn FnMut(&[usize], Heights) -> bool,
) -> bool {
    let Some(leg) = legs.get(chosen.len()) else {
        return !may_balance(legs, chosen, angle, heights) || each(chosen, heights);
    };
    for at in leg.links(angle, heights) {
        let Some(length) = leg.lengths.get(at) else { break };
        let Some(narrowed) = leg.heights(*length, angle, heights) else { continue };
        chosen.push(at);
        let goes_on = step(legs, angle, narrowed, chosen, each);
        chosen.pop();
        if !goes_on {
            return false;
        }
    }
    true
}
