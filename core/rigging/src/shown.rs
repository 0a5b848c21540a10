//! Computed values in the units of the input, rounded to what a person can use.

use slingseal_words::{Dimension, Newtons, Quantity, Ratio, STANDARD_GRAVITY, Unit};

use super::{Leg, RiggedLoad};

/// `si` SI units as a quantity of `unit`, with at least three significant digits and no more decimals than the trade
/// measures. A value too large to show stops at the largest quantity.
pub(super) fn shown(si: f64, unit: Unit) -> Quantity {
    let value = si / unit.si();
    let usual = match unit {
        Unit::Lb | Unit::Lbf | Unit::Kg | Unit::N | Unit::Mm => 0,
        Unit::In | Unit::Cm | Unit::Deg | Unit::Percent => 1,
        Unit::Psi | Unit::Kpa | Unit::Knot | Unit::KmPerHour | Unit::Minute | Unit::Hour | Unit::Day => 0,
        Unit::Bar | Unit::MetrePerSecond => 1,
        Unit::Ft | Unit::M | Unit::T | Unit::Kn => 2,
    };
    let decimals = match value.abs() {
        small if small < 1.0 => usual.max(2),
        small if small < 10.0 => usual.max(1),
        _ => usual,
    };
    let step = 10_f64.powi(decimals);
    let rounded = (value * step).round() / step * unit.si();
    Quantity::nearest(rounded, unit)
        .or_else(|| Quantity::from_thousandths(1_000_000_000_000, unit))
        .unwrap_or_else(|| unreachable!("the largest quantity is a quantity"))
}

/// The unit that forces are shown in: that of the first leg's rating.
pub fn force_unit(load: &RiggedLoad) -> Unit {
    let rating = load.legs.first().and_then(Leg::weakest);
    rating.map_or(load.mass.unit(), |(_, rating)| rating.value.unit())
}

/// A force in a unit of force or mass.
pub fn force_in(newtons: Newtons, unit: Unit) -> Quantity {
    match unit.dimension() {
        Dimension::Mass => shown(newtons.value() / STANDARD_GRAVITY, unit),
        _ => shown(newtons.value(), unit),
    }
}

/// A share as whole hundredths, the nearest.
pub(super) fn percent(ratio: Ratio) -> String {
    format!("{:.0} %", ratio.value() * 100.0)
}
