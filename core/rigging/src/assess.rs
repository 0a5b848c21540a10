//! The assessment: rest, worst case, rules, and every part against its rating.

use nalgebra::Vector3;

use slingseal_words::{Degrees, Metres, Name, Newtons, Ratio, Source};

use super::assessment::{
    Assessment, FLATTEST, Hang, Held, HeldPart, HookLoad, Infeasible, LegLoad, Place, Rules, Warning,
};
use super::limits::{Beyond, Verdict, over};
use super::load::Rating;
use super::model::{Model, Pose};
use super::rule::Rule;
use super::settle::{Rest, level_start, settle};
use super::shown::shown;
use super::why::why_not;
use super::worst::worst_cases;
use super::{RiggedLoad, RiggingError};

/// Below this share of the weight a leg carries nothing.
const NOTHING: f64 = 1e-9;
/// A load that leans further gets a warning. The project's own bound, not a standard's.
const MUCH_LEAN: f64 = 10.0;

/// How an assessment is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Options {
    factor: f64,
}

impl Default for Options {
    fn default() -> Self {
        Self { factor: 1.0 }
    }
}

impl Options {
    /// Multiplies every force by a load factor before it is held against its rating, from 1 to 10. Transport-category
    /// rotorcraft show a limit load factor of 2.5 for external cargo (14 CFR 29.865(a)).
    ///
    /// # Errors
    /// A factor outside 1 to 10.
    pub fn with_factor(self, factor: f64) -> Result<Self, RiggingError> {
        if (1.0..=10.0).contains(&factor) {
            Ok(Self { factor })
        } else {
            Err(RiggingError::Factor(factor.to_string()))
        }
    }

    pub(super) fn factor(&self) -> f64 {
        self.factor
    }
}

/// How a load hangs, who carries what, and what governs. Never fails: a load that is not valid is infeasible.
pub fn assess(load: &RiggedLoad) -> Assessment {
    assess_with(load, &Options::default())
}

/// [`assess`] with options.
pub fn assess_with(load: &RiggedLoad, options: &Options) -> Assessment {
    let weight = load.mass.newtons().unwrap_or_default();
    let infeasible = |reason| Assessment {
        verdict: Verdict::Infeasible,
        reason: Some(reason),
        weight,
        factor: ratio(options.factor),
        hang: None,
        beyond: None,
        warnings: Vec::new(),
    };
    if let Err(error) = load.check() {
        return infeasible(Infeasible::NotValid(error));
    }
    let Some(model) = Model::new(load) else { return infeasible(Infeasible::NoBalance) };
    let start = level_start(&model);
    let rest = settle(&model, start);
    if let Some(reason) = why_not(load, &model, &start, rest.as_ref()) {
        return infeasible(reason);
    }
    let Some(rest) = rest else { return infeasible(Infeasible::NoBalance) };
    let hang = Weighed { load, model: &model, rest: &rest, factor: options.factor }.hang();
    let verdict = if hang.held.iter().any(Held::over) { Verdict::OverLimit } else { Verdict::WithinLimits };
    let warnings = warnings(load, &model, &rest, &hang, options.factor);
    let beyond = match verdict {
        Verdict::WithinLimits => beyond(&hang, load.rule, options.factor),
        Verdict::OverLimit | Verdict::Infeasible => None,
    };
    Assessment {
        verdict,
        reason: None,
        weight,
        factor: ratio(options.factor),
        hang: Some(hang),
        beyond,
        warnings,
    }
}

struct Weighed<'a> {
    load: &'a RiggedLoad,
    model: &'a Model,
    rest: &'a Rest,
    factor: f64,
}

impl Weighed<'_> {
    fn hang(&self) -> Hang {
        let (model, rest) = (self.model, self.rest);
        let up = rest.pose.up();
        let hooks = self.hooks();
        let legs = self.legs();
        let mut held = self.held(&hooks, &legs);
        // Stable: of two that carry the same share, the one nearer to the aircraft comes first.
        held.sort_by(|a, b| b.utilisation.value().total_cmp(&a.utilisation.value()));
        Hang {
            pitch: degrees(up.x.clamp(-1.0, 1.0).asin()),
            roll: degrees(up.y.atan2(up.z)),
            rules: Rules { three_leg: self.rule(3, &hooks, &legs), two_leg: self.rule(2, &hooks, &legs) },
            place: place(model, &rest.pose),
            most_legs: (0..self.load.hooks.len()).map(|at| self.legs_of(at)).max().unwrap_or(0),
            hooks,
            legs,
            held,
        }
    }

    fn hooks(&self) -> Vec<HookLoad> {
        let hooks = self.load.hooks.iter().enumerate();
        hooks
            .map(|(at, hook)| {
                let lines = self.model.legs.iter().zip(&self.rest.tensions).filter(|(leg, _)| leg.hook == at);
                let pull = lines
                    .map(|(leg, tension)| self.model.line(leg, &self.rest.pose).down * *tension)
                    .sum::<Vector3<f64>>();
                HookLoad { name: hook.name.clone(), load: newtons(pull.norm() * self.model.weight) }
            })
            .collect()
    }

    fn legs(&self) -> Vec<LegLoad> {
        let (model, rest) = (self.model, self.rest);
        let worst = worst_cases(model, &rest.pose, &rest.tensions);
        let legs = self.load.legs.iter().zip(&model.legs).zip(rest.tensions.iter().zip(worst));
        legs.map(|((leg, in_model), (tension, worst))| {
            let line = model.line(in_model, &rest.pose);
            let rated = leg.weakest().map(|(_, rating)| rating.newtons()).unwrap_or_default();
            let slack = *tension <= NOTHING;
            let tension = newtons(if slack { 0.0 } else { tension * model.weight });
            LegLoad {
                name: leg.name.clone(),
                tension,
                worst_case: worst.map(|worst| newtons(worst * model.weight)),
                from_horizontal: degrees((-line.down.z).clamp(-1.0, 1.0).asin()),
                slack,
                rated,
                utilisation: ratio(self.factor * tension.value() / rated.value()),
            }
        })
        .collect()
    }

    fn legs_of(&self, hook: usize) -> usize {
        self.model.legs.iter().filter(|leg| leg.hook == hook).count()
    }

    fn rule(&self, count: usize, hooks: &[HookLoad], legs: &[LegLoad]) -> Ratio {
        let shares = self.model.legs.iter().zip(legs).filter_map(|(in_model, leg)| {
            let load = hooks.get(in_model.hook)?.load.value();
            let sharing = self.legs_of(in_model.hook).min(count).max(1) as f64;
            let rise = leg.from_horizontal.value().to_radians().sin();
            (rise > 0.0).then(|| self.factor * load / sharing / rise / leg.rated.value())
        });
        ratio(shares.fold(0.0, f64::max))
    }

    fn held(&self, hooks: &[HookLoad], legs: &[LegLoad]) -> Vec<Held> {
        let mut held = Vec::new();
        let mut hold = |part: HeldPart, leg: Option<&Name>, carries: f64, rating: &Rating| {
            let carries = carries * self.factor;
            held.push(Held {
                part,
                leg: leg.cloned(),
                carries: newtons(carries),
                rated: rating.value,
                source: rating.source.clone(),
                utilisation: ratio(carries / rating.newtons().value()),
            });
        };
        let weight = self.model.weight;
        if let Some(allowable) = &self.load.allowable {
            hold(HeldPart::Aircraft, None, weight, allowable);
        }
        for (hook, load) in self.load.hooks.iter().zip(hooks) {
            if let Some(limit) = &hook.limit {
                hold(HeldPart::Hook(hook.name.clone()), None, load.load.value(), limit);
            }
        }
        for part in &self.load.parts {
            let of_hook = part.hook.as_ref().and_then(|hook| self.load.place_of_hook(Some(hook)));
            let carries = of_hook.and_then(|at| hooks.get(at)).map_or(weight, |hook| hook.load.value());
            hold(HeldPart::Common(part.name.clone()), None, carries, &part.rating);
        }
        for (leg, load) in self.load.legs.iter().zip(legs) {
            if let Some(rating) = &leg.rated {
                hold(HeldPart::Leg(leg.name.clone()), Some(&leg.name), load.tension.value(), rating);
            }
            for part in &leg.parts {
                let name = HeldPart::OfLeg { leg: leg.name.clone(), part: part.name.clone() };
                hold(name, Some(&leg.name), load.tension.value(), &part.rating);
            }
        }
        held
    }
}

fn warnings(load: &RiggedLoad, model: &Model, rest: &Rest, hang: &Hang, factor: f64) -> Vec<Warning> {
    let mut warnings = Vec::new();
    let mut worse: Vec<(Name, Ratio)> = Vec::new();
    if rest.neutral > 0 {
        warnings.push(Warning::Neutral);
    }
    let lean = degrees(rest.pose.lean());
    if lean.value() > MUCH_LEAN {
        warnings.push(Warning::Leans { lean });
    }
    for ((leg, in_model), written) in hang.legs.iter().zip(&model.legs).zip(&load.legs) {
        let unit = written.reach.shown().unit();
        if leg.slack {
            warnings.push(Warning::Slack {
                leg: leg.name.clone(),
                length: shown(written.reach.length().value(), unit),
                closes: shown(model.line(in_model, &rest.pose).reach * model.scale, unit),
            });
        }
        if leg.from_horizontal.value() < FLATTEST - 1e-6 {
            warnings.push(Warning::Flat { leg: leg.name.clone(), angle: leg.from_horizontal });
        }
        let worst = leg.worst_case.map(|worst| ratio(factor * worst.value() / leg.rated.value()));
        if let Some(utilisation) = worst.filter(|worst| over(*worst) && !over(leg.utilisation)) {
            worse.push((leg.name.clone(), utilisation));
        }
    }
    if let Some((_, most)) = worse.iter().max_by(|a, b| a.1.value().total_cmp(&b.1.value())) {
        let utilisation = *most;
        let legs = worse.into_iter().map(|(leg, _)| leg).collect();
        warnings.push(Warning::WorstCase { legs, utilisation });
    }
    if hang.legs.iter().any(|leg| leg.worst_case.is_none()) {
        warnings.push(Warning::NoWorstCase);
    }
    let by_rest = hang.legs.iter().any(|leg| over(leg.utilisation));
    for (legs, rule) in [(3, hang.rules.three_leg), (2, hang.rules.two_leg)] {
        // With fewer legs the rule counts them all, and says what another one says.
        if !by_rest && over(rule) && hang.most_legs >= legs {
            warnings.push(Warning::Rule { legs, utilisation: rule });
        }
    }
    let unknown: Vec<_> =
        load.legs.iter().filter(|leg| leg.stretch.is_none()).map(|leg| leg.name.clone()).collect();
    if !unknown.is_empty() && load.legs.len() > 3 {
        warnings.push(Warning::UnknownStretch { legs: unknown });
    }
    let unsourced: Vec<_> = unsourced(load, &hang.held);
    if !unsourced.is_empty() {
        warnings.push(Warning::NoSource { parts: unsourced });
    }
    if factor > 1.0 {
        warnings.push(Warning::Factor { factor: ratio(factor) });
    }
    warnings
}

/// In the order of the input, not of the utilisation.
fn unsourced(load: &RiggedLoad, held: &[Held]) -> Vec<HeldPart> {
    let has = |source: &Option<Source>| source.is_some();
    let mut parts: Vec<HeldPart> = held
        .iter()
        .filter(|held| !has(&held.source) && held.leg.is_none())
        .map(|held| held.part.clone())
        .collect();
    parts.sort_by_key(HeldPart::to_string);
    for leg in &load.legs {
        let of_leg = held.iter().filter(|held| held.leg.as_ref() == Some(&leg.name) && !has(&held.source));
        parts.extend(of_leg.map(|held| held.part.clone()));
    }
    parts
}

fn place(model: &Model, pose: &Pose) -> Place {
    let metres = |vector: Vector3<f64>| {
        let [x, y, z]: [f64; 3] = (vector * model.scale).into();
        [x, y, z].map(|part| Metres::new(part).unwrap_or_default())
    };
    let axis = |vector: Vector3<f64>| {
        let axis: [f64; 3] = (pose.turn * vector).into();
        axis.map(ratio)
    };
    Place {
        centre: metres(pose.centre),
        axes: [axis(Vector3::x()), axis(Vector3::y()), axis(Vector3::z())],
        hooks: model.hooks.iter().copied().map(metres).collect(),
        lift_points: model.legs.iter().map(|leg| metres(pose.centre + pose.turn * leg.arm)).collect(),
    }
}

fn newtons(value: f64) -> Newtons {
    Newtons::new(value).unwrap_or_default()
}

fn ratio(value: f64) -> Ratio {
    Ratio::new(value).unwrap_or_default()
}

fn degrees(radians: f64) -> Degrees {
    Degrees::new(radians.to_degrees()).unwrap_or_default()
}

/// What a load is over by, by the rule that was chosen or else in the worst case.
fn beyond(hang: &Hang, chosen: Option<Rule>, factor: f64) -> Option<Beyond> {
    let rule = chosen.unwrap_or(Rule::WorstCase);
    let told = |leg, utilisation: Option<Ratio>| {
        let is_over = utilisation.is_none_or(over);
        is_over.then_some(Beyond { rule, chosen: chosen.is_some(), leg, utilisation })
    };
    match rule {
        Rule::Rest => None,
        Rule::ThreeLegs => told(None, Some(hang.rules.three_leg)),
        Rule::TwoLegs => told(None, Some(hang.rules.two_leg)),
        Rule::WorstCase => {
            if let Some(endless) = hang.legs.iter().find(|leg| leg.worst_case.is_none()) {
                return told(Some(endless.name.clone()), None);
            }
            let (leg, share) = hang.worst(factor)?;
            told(Some(leg.name.clone()), Some(share))
        }
    }
}
