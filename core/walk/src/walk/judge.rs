//! Holds an answer against the procedure and the tag.

use crate::procedure::{Expected, Kind, Point};
use slingseal_words::{Quantity, Unit};

use super::event::{Rules, Value};
use super::facts::LoadFacts;
use super::refusal::Refusal;

/// What to enter for a point of this kind.
fn wanted(kind: &Kind) -> &'static str {
    match kind {
        Kind::Look => "verdict: good, or a deficiency",
        Kind::Count(_) => "count",
        Kind::Choice(_) => "choice",
        Kind::Measure { .. } => "measure",
        Kind::Serial { .. } => "serial number",
        Kind::Text { .. } => "text",
    }
}

/// The count that the point must have, if the procedure or the tag knows it.
pub(super) fn expected(point: &Point, facts: &LoadFacts) -> Option<u32> {
    match &point.kind {
        Kind::Count(Expected::Fixed(number)) => Some(*number),
        Kind::Count(Expected::LinksOfLeg(leg)) => facts.links.get(leg).copied(),
        _ => None,
    }
}

/// What "good" alone means at a point: an answer, nothing where an optional value is left out, or a refusal.
pub(super) fn plain_good(point: &Point, facts: &LoadFacts, rules: Rules) -> Result<Option<Value>, Refusal> {
    let enough = match &point.kind {
        Kind::Look => true,
        Kind::Count(_) => rules == Rules::CountsConfirmed && expected(point, facts).is_some(),
        Kind::Choice(options) => options.iter().filter(|option| option.right).count() == 1,
        Kind::Serial { optional: true, .. } | Kind::Text { optional: true } => return Ok(None),
        Kind::Measure { .. } | Kind::Serial { .. } | Kind::Text { .. } => false,
    };
    if enough {
        Ok(Some(Value::Good))
    } else {
        Err(Refusal::ValueNeeded { point: point.id.clone(), wanted: wanted(&point.kind) })
    }
}

/// The name of the deficiency that a value shows; none if it is good.
pub(super) fn judge(
    point: &Point,
    value: &Value,
    facts: &LoadFacts,
    rules: Rules,
) -> Result<Option<String>, Refusal> {
    let good = match (&point.kind, value) {
        (_, Value::Good) => return plain_good(point, facts, rules).map(|_| None),
        (_, Value::NotApplicable(_)) if facts.may_not_apply(point) => true,
        (_, Value::NotApplicable(_)) => return Err(Refusal::Applies { point: point.id.clone() }),
        // A count that nothing is known to be held against stays unjudged; the tag's fault stands in the way of fit.
        (Kind::Count(_), Value::Count(number)) => expected(point, facts).is_none_or(|known| known == *number),
        (Kind::Choice(options), Value::Choice(name)) => {
            let chosen = options.iter().find(|option| option.name == *name);
            let chosen = chosen
                .ok_or_else(|| Refusal::NoSuchOption { point: point.id.clone(), name: name.clone() })?;
            chosen.right
        }
        (Kind::Measure { least, most, unit }, Value::Measure(measured)) => {
            let wanted = least.or(*most).map(Quantity::unit).or(*unit).map(Unit::dimension);
            if let Some(wanted) = wanted.filter(|wanted| *wanted != measured.unit().dimension()) {
                return Err(Refusal::WrongUnit { point: point.id.clone(), wanted });
            }
            least.is_none_or(|least| at_most(least, *measured))
                && most.is_none_or(|most| at_most(*measured, most))
        }
        (Kind::Serial { equipment, .. }, Value::Serial(serial)) => {
            let on_tag = facts.serials_of(equipment.as_deref());
            on_tag.is_empty()
                || on_tag.iter().any(|known| known.as_str().eq_ignore_ascii_case(serial.as_str()))
        }
        (Kind::Text { .. }, Value::Text(_)) => true,
        (kind, _) => return Err(Refusal::WrongKind { point: point.id.clone(), wanted: wanted(kind) }),
    };
    if good {
        return Ok(None);
    }
    // `procedure::check` has seen to it that every such point names a deficiency.
    Ok(Some(point.deficiencies.first().map_or_else(|| super::OTHER.to_owned(), |known| known.name.clone())))
}

/// In one unit to the thousandth; across units within the last bits of a float.
fn at_most(one: Quantity, other: Quantity) -> bool {
    if one.unit() == other.unit() {
        one.thousandths() <= other.thousandths()
    } else {
        one.si() <= other.si() + 1e-9 * other.si().abs()
    }
}
