//! Computed values in the units of the input, rounded to what a person can use.

use slingseal_words::{Dimension, Newtons, Quantity, Ratio, STANDARD_GRAVITY, Unit};

use super::limits::over;
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

/// A share of what is allowed, in whole hundredths, rounded up. What is over never reads as 100 % or less, what is not over
/// never as more: the number tells the same as the verdict. Whoever shows such a share asks here.
pub fn percent(share: Ratio) -> String {
    // The last bits of a whole number are rounding, as they are in `over`.
    let whole = (share.value() * 100.0 - 1e-7).ceil();
    let whole = if over(share) { whole.max(101.0) } else { whole.min(100.0) };
    // Nought has no sign.
    format!("{:.0} %", whole + 0.0)
}

#[cfg(test)]
mod tests {
    use super::{Ratio, over, percent};

    /// The number after which the sign stands.
    fn number(share: f64) -> f64 {
        let text = percent(Ratio::new(share).unwrap());
        text.strip_suffix(" %").unwrap().parse().unwrap()
    }

    #[test]
    fn a_share_is_rounded_up_and_agrees_with_over() {
        for (share, told) in [
            (0.0, "0 %"),
            (1e-12, "0 %"),
            (0.003, "1 %"),
            (0.07 * 100.0 / 100.0, "7 %"),
            (0.712, "72 %"),
            (0.990_000_1, "100 %"),
            (0.996, "100 %"),
            (1.0, "100 %"),
            (1.0 + 5e-10, "100 %"),
            (1.0 + 5e-9, "101 %"),
            (1.003, "101 %"),
            (1.01, "101 %"),
            (1.010_001, "102 %"),
        ] {
            assert_eq!(percent(Ratio::new(share).unwrap()), told, "{share}");
        }
    }

    /// A whole number of hundredths is told as it is, however it was computed, and no share less than it is.
    #[test]
    fn no_share_is_told_as_less() {
        for hundredths in 0..400_u32 {
            let (share, whole) = (f64::from(hundredths) / 100.0, f64::from(hundredths));
            for near in [share, f64::from(hundredths) * 0.01, share * 3.0 / 3.0] {
                assert_eq!(number(near).to_bits(), whole.to_bits(), "{near}");
            }
            for part in 1..10 {
                let share = share + f64::from(part) / 1_000.0;
                assert_eq!(number(share).to_bits(), (whole + 1.0).to_bits(), "{share}");
                assert_eq!(number(share) > 100.0, over(Ratio::new(share).unwrap()), "{share}");
            }
        }
    }
}
