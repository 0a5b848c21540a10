//! What several reports say alike, in no language yet.

use slingseal_catalogue::{Saying, rigging as words};
use slingseal_words::Degrees;

use super::shown::percent;
use super::{Beyond, Rule, State};

/// Whether the load may hang.
pub fn state(state: State) -> Saying {
    match state {
        State::WithinLimits => words::StateWithinLimits.into(),
        State::AtRestOnly => words::StateAtRestOnly.into(),
        State::OverLimit => words::StateOverLimit.into(),
        State::Infeasible => words::StateInfeasible.into(),
    }
}

/// `level`, or `2.3° nose up and 0.4° left side down`.
pub fn attitude(pitch: Degrees, roll: Degrees) -> Saying {
    let seen = |angle: Degrees| angle.value().abs() >= 0.05;
    let angle = |angle: Degrees| format!("{:.1}°", angle.value().abs());
    let pitched = || -> Saying {
        let angle = angle(pitch);
        if pitch.value() > 0.0 { words::NoseUp { angle }.into() } else { words::NoseDown { angle }.into() }
    };
    let rolled = || -> Saying {
        let angle = angle(roll);
        if roll.value() > 0.0 { words::LeftUp { angle }.into() } else { words::LeftDown { angle }.into() }
    };
    match (seen(pitch), seen(roll)) {
        (false, false) => words::Level.into(),
        (true, false) => pitched(),
        (false, true) => rolled(),
        (true, true) => words::BothWays { pitch: pitched(), roll: rolled() }.into(),
    }
}

/// What a load is over by though not at rest, in a sentence.
pub fn beyond(beyond: &Beyond) -> Saying {
    let leg: Saying = match &beyond.leg {
        Some(leg) => words::BeyondLeg { leg: leg.to_string() }.into(),
        None => words::BeyondALeg.into(),
    };
    let share: Saying = match beyond.utilisation {
        Some(share) => words::BeyondShare { leg, percent: percent(share) }.into(),
        None => words::BeyondNoLargest { leg }.into(),
    };
    let whose: Saying = if beyond.chosen { words::BeyondChosenRule.into() } else { Saying::verbatim("") };
    match beyond.rule {
        Rule::Rest => words::BeyondAtRest { whose, share }.into(),
        Rule::ThreeLegs => words::BeyondThreeLegs { whose, share }.into(),
        Rule::TwoLegs => words::BeyondTwoLegs { whose, share }.into(),
        Rule::WorstCase => words::BeyondWorstCase { whose, share }.into(),
    }
}
