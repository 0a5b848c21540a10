//! The rigged load as numbers: SI units made free of scale, so that every tolerance is a share of the weight or of the
//! longest leg.

use nalgebra::{UnitQuaternion, Vector3};

use super::RiggedLoad;

/// Metres and newtons become shares: lengths of `scale`, forces of `weight`.
#[derive(Clone, Debug)]
pub(super) struct Model {
    /// The weight, N.
    pub weight: f64,
    /// The length that lengths are shares of, m.
    pub scale: f64,
    /// The hooks, from the middle between them.
    pub hooks: Vec<Vector3<f64>>,
    /// The legs.
    pub legs: Vec<ModelLeg>,
    /// A steady push, a share of the weight in the world's axes, with where it takes hold, from the centre of gravity in the load's
    /// axes; nought at rest.
    pub push: Vector3<f64>,
    pub push_at: Vector3<f64>,
}

/// A leg of the model.
#[derive(Clone, Debug)]
pub(super) struct ModelLeg {
    /// Its hook.
    pub hook: usize,
    /// Where it takes hold, from the centre of gravity, in the load's axes.
    pub arm: Vector3<f64>,
    /// Its unloaded length.
    pub length: f64,
    /// Tension for each share of length that it is stretched by.
    pub stiffness: f64,
}

/// Where the load is: its centre of gravity, and how it is turned.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pose {
    pub centre: Vector3<f64>,
    pub turn: UnitQuaternion<f64>,
}

impl Pose {
    /// The direction of up, in the load's axes.
    pub fn up(&self) -> Vector3<f64> {
        self.turn.inverse() * Vector3::z()
    }

    /// How far the load leans, radians.
    pub fn lean(&self) -> f64 {
        let up = self.up();
        up.xy().norm().atan2(up.z)
    }
}

/// What a leg whose stretch nobody knows is taken to give at its rated load.
pub(super) const UNKNOWN_STRETCH: f64 = 0.005;

impl Model {
    /// Of a load that was checked; `None` for one that was not.
    pub fn new(load: &RiggedLoad) -> Option<Self> {
        let si =
            |place: &[slingseal_words::Quantity; 3]| Vector3::from_iterator(place.iter().map(|q| q.si()));
        let weight = load.mass.newtons()?.value();
        let scale = load.legs.iter().map(|leg| leg.reach.length().value()).fold(0.0, f64::max);
        if !(weight > 0.0 && scale > 0.0) {
            return None;
        }
        let places: Vec<_> = load.hooks.iter().map(|hook| si(&hook.at)).collect();
        let middle = places.iter().sum::<Vector3<f64>>() / (places.len().max(1) as f64);
        let centre = si(&load.centre);
        let legs = load
            .legs
            .iter()
            .map(|leg| {
                let (_, rating) = leg.weakest()?;
                let length = leg.reach.length().value();
                let stretch = leg.stretch.map_or(UNKNOWN_STRETCH, |stretch| stretch.si());
                let stiffness = rating.newtons().value() / weight / (stretch * length / scale);
                (length > 0.0 && stiffness.is_finite() && stiffness > 0.0).then_some(())?;
                Some(ModelLeg {
                    hook: load.hook_of(leg)?,
                    arm: (si(&leg.lift_point) - centre) / scale,
                    length: length / scale,
                    stiffness,
                })
            })
            .collect::<Option<Vec<_>>>()?;
        let hooks = places.into_iter().map(|place| (place - middle) / scale).collect();
        Some(Self { weight, scale, hooks, legs, push: Vector3::zeros(), push_at: Vector3::zeros() })
    }

    /// A leg's hook.
    pub fn hook(&self, leg: &ModelLeg) -> Vector3<f64> {
        self.hooks.get(leg.hook).copied().unwrap_or_default()
    }

    /// Whether nothing holds the load from turning about the vertical: its hooks stand over one another.
    pub fn turns_freely(&self) -> bool {
        match (self.hooks.first(), self.hooks.last()) {
            (Some(first), Some(last)) => (first - last).xy().norm() < 1e-9,
            _ => true,
        }
    }

    /// The leg as it lies in a pose.
    pub fn line(&self, leg: &ModelLeg, pose: &Pose) -> Line {
        let arm = pose.turn * leg.arm;
        let span = pose.centre + arm - self.hook(leg);
        let reach = span.norm();
        let down = if reach > 1e-12 { span / reach } else { -Vector3::z() };
        let tension = leg.stiffness * (reach - leg.length).max(0.0);
        Line { arm, down, reach, tension }
    }
}

/// A leg as it lies: from the hook down to the lift point.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    /// The lift point from the centre of gravity, in the world's axes.
    pub arm: Vector3<f64>,
    /// From the hook to the lift point, of length one.
    pub down: Vector3<f64>,
    /// From the hook to the lift point.
    pub reach: f64,
    /// The tension by its stretch; zero where it is slack.
    pub tension: f64,
}
