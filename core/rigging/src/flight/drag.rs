//! A load under a steady push from ahead: half the air's density times drag area times the square of the speed.

use nalgebra::Vector3;

use slingseal_words::{Degrees, Name, Quantity, Ratio, Unit};

use super::noun::{Drag, Flight};
use crate::RiggedLoad;
use crate::model::{Model, Pose};
use crate::settle::{Rest, level_start, settle};

/// Looked at in steps of this.
const STEP_KNOTS: f64 = 1.0;
/// An event is told to this.
const FINE_KNOTS: f64 = 0.1;
/// A load that turned further no longer flies as it was slung. The project's own bound.
const MOST_TURN: f64 = 30.0;
/// Below this share of the weight a leg carries nothing.
const NOTHING: f64 = 1e-9;

/// How the load hangs at a speed.
#[derive(Clone, Debug, PartialEq)]
pub struct AtSpeed {
    /// The speed, kt.
    pub knots: f64,
    /// The drag, a share of the weight.
    pub drag: Ratio,
    /// How far the sling trails from the vertical.
    pub trail: Degrees,
    /// Nose up is positive.
    pub pitch: Degrees,
    /// Left side up is positive.
    pub roll: Degrees,
    /// How far the load leans.
    pub lean: Degrees,
    /// The largest tension of a leg over its rating.
    pub utilisation: Ratio,
}

/// Something that happens at a speed, kt.
#[derive(Clone, Debug, PartialEq)]
pub struct Event {
    /// The slowest speed at which it does, to a tenth of a knot, rounded down.
    pub knots: f64,
    /// What happens.
    pub what: What,
}

/// What happens.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// A leg carries nothing.
    Slack(
        /// The leg.
        Name,
    ),
    /// The load leans past the limit that the file names.
    Leans,
    /// A leg carries more than its rating.
    Over(
        /// The leg.
        Name,
    ),
    /// The load turns away from its heading.
    Turns,
    /// No rest is found.
    NoRest,
}

/// A load by speed.
#[derive(Clone, Debug, PartialEq)]
pub struct DragCurve {
    /// Every ten knots, from nought.
    pub speeds: Vec<AtSpeed>,
    /// What happens, the slowest first; each thing once.
    pub events: Vec<Event>,
    /// The fastest speed that was looked at, kt.
    pub upto: f64,
}

struct Wind<'a> {
    load: &'a RiggedLoad,
    model: Model,
    /// Drag over weight at one knot.
    share: f64,
    /// Rating over weight, by leg.
    ratings: Vec<f64>,
    limit: Option<f64>,
    start: Pose,
}

impl DragCurve {
    /// `None` where the load does not hang in still air.
    pub(super) fn of(load: &RiggedLoad, drag: &Drag, flight: &Flight) -> Option<Self> {
        let mut model = Model::new(load)?;
        let metres = Unit::Knot.si();
        let share = 0.5 * drag.density * drag.area * metres * metres / model.weight;
        let centre = Vector3::from(load.centre.map(Quantity::si));
        model.push_at = drag
            .at
            .map_or(Vector3::zeros(), |at| (Vector3::from(at.map(Quantity::si)) - centre) / model.scale);
        let ratings =
            load.legs.iter().map(|leg| leg.weakest()).map(|rated| {
                rated.map_or(f64::INFINITY, |(_, rating)| rating.newtons().value() / model.weight)
            });
        let start = settle(&model, level_start(&model))?;
        let limit = flight.lean_limit.map(Quantity::si);
        let mut wind = Wind { load, ratings: ratings.collect(), model, share, limit, start: start.pose };
        let upto = flight.speed_to.si() / metres;
        Some(wind.curve(upto))
    }
}

impl Wind<'_> {
    fn curve(&mut self, upto: f64) -> DragCurve {
        let (mut speeds, mut events) = (Vec::new(), Vec::<Event>::new());
        let (mut knots, mut pose) = (0.0, self.start);
        let mut step = 0_u32;
        loop {
            let rest = self.rest(knots, pose);
            for what in self.happens(rest.as_ref()) {
                if !events.iter().any(|event| event.what == what) {
                    let from = (knots - STEP_KNOTS).max(0.0);
                    events.push(Event { knots: self.begins(&what, from, knots, pose), what });
                }
            }
            let Some(rest) = rest else { break };
            if events.iter().any(|event| event.what == What::Turns) {
                break;
            }
            pose = rest.pose;
            if step.is_multiple_of(10) || knots >= upto {
                speeds.push(self.at(knots, &rest));
            }
            if knots >= upto {
                break;
            }
            step += 1;
            knots = (f64::from(step) * STEP_KNOTS).min(upto);
        }
        events.sort_by(|a, b| a.knots.total_cmp(&b.knots));
        DragCurve { speeds, events, upto: knots }
    }

    fn rest(&mut self, knots: f64, from: Pose) -> Option<Rest> {
        self.model.push = Vector3::new(-self.share * knots * knots, 0.0, 0.0);
        settle(&self.model, from)
    }

    /// Where between two speeds it begins, rounded down.
    fn begins(&mut self, what: &What, from: f64, to: f64, pose: Pose) -> f64 {
        let (mut low, mut high) = (from, to);
        while high - low > FINE_KNOTS / 4.0 {
            let middle = f64::midpoint(low, high);
            let rest = self.rest(middle, pose);
            if self.happens(rest.as_ref()).contains(what) { high = middle } else { low = middle }
        }
        (low / FINE_KNOTS).floor() * FINE_KNOTS
    }

    fn happens(&self, rest: Option<&Rest>) -> Vec<What> {
        let Some(rest) = rest else { return vec![What::NoRest] };
        let mut happens = Vec::new();
        let legs = self.load.legs.iter().zip(rest.tensions.iter().zip(&self.ratings));
        for (leg, (tension, rating)) in legs {
            if *tension <= NOTHING {
                happens.push(What::Slack(leg.name.clone()));
            }
            if *tension > rating * (1.0 + 1e-9) {
                happens.push(What::Over(leg.name.clone()));
            }
        }
        if self.limit.is_some_and(|limit| rest.pose.lean().to_degrees() > limit) {
            happens.push(What::Leans);
        }
        let (before, now) = (self.start.turn * Vector3::x(), rest.pose.turn * Vector3::x());
        let turn = before.xy().perp(&now.xy()).atan2(before.xy().dot(&now.xy()));
        if turn.abs().to_degrees() > MOST_TURN {
            happens.push(What::Turns);
        }
        happens
    }

    fn at(&self, knots: f64, rest: &Rest) -> AtSpeed {
        let up = rest.pose.up();
        let hooks = self.model.hooks.iter().sum::<Vector3<f64>>() / self.model.hooks.len().max(1) as f64;
        let hangs = rest.pose.centre - hooks;
        let rated = rest.tensions.iter().zip(&self.ratings).map(|(tension, rating)| tension / rating);
        let degrees = |radians: f64| Degrees::new(radians.to_degrees()).unwrap_or_default();
        AtSpeed {
            knots,
            drag: Ratio::new(self.share * knots * knots).unwrap_or_default(),
            trail: degrees((-hangs.x).atan2(-hangs.z)),
            pitch: degrees(up.x.clamp(-1.0, 1.0).asin()),
            roll: degrees(up.y.atan2(up.z)),
            lean: degrees(rest.pose.lean()),
            utilisation: Ratio::new(rated.fold(0.0, f64::max)).unwrap_or_default(),
        }
    }
}
