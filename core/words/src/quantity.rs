use slingseal_catalogue::{Saying, faults as words, files};
use std::fmt;

use super::units::{Degrees, Kilograms, Metres, Newtons, Ratio};

/// What a unit measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// kg, lb, t
    Mass,
    /// m, cm, mm, ft, in
    Length,
    /// N, kN, lbf
    Force,
    /// deg
    Angle,
    /// %
    Ratio,
    /// psi, kPa, bar
    Pressure,
    /// kt, km/h, m/s
    Speed,
    /// min, h, d
    Duration,
}

impl Dimension {
    /// What it is called.
    pub fn saying(self) -> Saying {
        match self {
            Self::Mass => words::DimensionMass.into(),
            Self::Length => words::DimensionLength.into(),
            Self::Force => words::DimensionForce.into(),
            Self::Angle => words::DimensionAngle.into(),
            Self::Ratio => words::DimensionRatio.into(),
            Self::Pressure => words::DimensionPressure.into(),
            Self::Speed => words::DimensionSpeed.into(),
            Self::Duration => words::DimensionDuration.into(),
        }
    }

    /// The units that measure it, as a sentence has them, in no language yet.
    pub fn units_saying(self) -> Saying {
        match self {
            Self::Mass => files::UnitsMass.into(),
            Self::Length => files::UnitsLength.into(),
            Self::Force => files::UnitsForce.into(),
            Self::Pressure => files::UnitsPressure.into(),
            Self::Speed => files::UnitsSpeed.into(),
            Self::Duration => files::UnitsDuration.into(),
            Self::Angle | Self::Ratio => Saying::verbatim(self.units()),
        }
    }

    /// The units that measure it, as a person would write them in English.
    pub fn units(self) -> &'static str {
        match self {
            Self::Mass => "kg, lb or t",
            Self::Length => "m, cm, mm, ft or in",
            Self::Force => "N, kN or lbf",
            Self::Angle => "deg",
            Self::Ratio => "%",
            Self::Pressure => "psi, kPa or bar",
            Self::Speed => "kt, km/h or m/s",
            Self::Duration => "min, h or d",
        }
    }
}

macro_rules! units {
    ($($variant:ident $symbol:literal $dimension:ident $si:literal $code:literal,)*) => {
        /// A unit that the trade writes.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Unit {
            $(
                #[doc = $symbol]
                $variant,
            )*
        }

        impl Unit {
            const ALL: &[Self] = &[$(Self::$variant),*];

            /// The unit's symbol.
            pub fn symbol(self) -> &'static str {
                match self { $(Self::$variant => $symbol,)* }
            }

            /// What it measures.
            pub fn dimension(self) -> Dimension {
                match self { $(Self::$variant => Dimension::$dimension,)* }
            }

            /// How many SI units (kg, m, N, degrees, one, Pa, m/s, s) it is. Pound and inch are exact by the
            /// international yard and pound agreement of 1959, the knot by the Monaco conference of 1929.
            pub fn si(self) -> f64 {
                match self { $(Self::$variant => $si,)* }
            }

            /// Its number in messages that travel; never changed once released.
            pub fn code(self) -> u8 {
                match self { $(Self::$variant => $code,)* }
            }
        }
    };
}

units! {
    Kg "kg" Mass 1.0 1,
    Lb "lb" Mass 0.453_592_37 2,
    T "t" Mass 1_000.0 3,
    M "m" Length 1.0 10,
    Cm "cm" Length 0.01 11,
    Mm "mm" Length 0.001 12,
    Ft "ft" Length 0.304_8 13,
    In "in" Length 0.025_4 14,
    N "N" Force 1.0 20,
    Kn "kN" Force 1_000.0 21,
    Lbf "lbf" Force 4.448_221_615_260_5 22,
    Deg "deg" Angle 1.0 30,
    Percent "%" Ratio 0.01 40,
    Psi "psi" Pressure 6_894.757_293_168 50,
    Kpa "kPa" Pressure 1_000.0 51,
    Bar "bar" Pressure 100_000.0 52,
    Knot "kt" Speed 0.514_444_444_444_444_4 60,
    KmPerHour "km/h" Speed 0.277_777_777_777_777_8 61,
    MetrePerSecond "m/s" Speed 1.0 62,
    Minute "min" Duration 60.0 70,
    Hour "h" Duration 3_600.0 71,
    Day "d" Duration 86_400.0 72,
}

impl Unit {
    /// The unit of a symbol, exactly as written.
    pub fn from_symbol(symbol: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|unit| unit.symbol() == symbol)
    }

    /// The unit of a number from a message.
    pub fn from_code(code: u8) -> Option<Self> {
        Self::ALL.iter().copied().find(|unit| unit.code() == code)
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}

/// Why a text is not a quantity.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum QuantityError {
    /// No unit stands behind the number.
    NoUnit(String),
    /// The unit is not one that we know.
    UnknownUnit(String),
    /// The unit measures something else.
    WrongDimension {
        /// What was written.
        text: String,
        /// What was wanted.
        wanted: Dimension,
    },
    /// The number cannot be read.
    NotANumber(String),
    /// More than three decimals: the fourth would be lost in the message that travels.
    TooFine(String),
    /// Too large to be meant.
    TooLarge(String),
}

impl QuantityError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::NoUnit(text) => words::QuantityErrorNoUnit { text }.into(),
            Self::UnknownUnit(text) => words::QuantityErrorUnknownUnit { text }.into(),
            Self::WrongDimension { text, wanted } => {
                words::QuantityErrorWrongDimension { text, wanted: wanted.saying() }.into()
            }
            Self::NotANumber(text) => words::QuantityErrorNotANumber { text }.into(),
            Self::TooFine(text) => words::QuantityErrorTooFine { text }.into(),
            Self::TooLarge(text) => words::QuantityErrorTooLarge { text }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(QuantityError);

/// A number with its unit as a person wrote it, exact to a thousandth: what is signed is an integer, never a float
/// that was computed (machines differ in the last bit).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Quantity {
    thousandths: i64,
    unit: Unit,
}

impl Quantity {
    const LARGEST: i64 = 1_000_000_000_000;

    /// Makes a quantity of thousandths of a unit; `None` if it is too large to be meant.
    pub fn from_thousandths(thousandths: i64, unit: Unit) -> Option<Self> {
        (thousandths.abs() <= Self::LARGEST).then_some(Self { thousandths, unit })
    }

    /// Reads `"5000 lb"`, `"1.09 in"`, `"2%"`.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let text = text.trim();
        let split = text
            .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | '_' | ',')))
            .ok_or_else(|| QuantityError::NoUnit(text.to_owned()))?;
        let (number, unit) = text.split_at(split);
        let unit = unit.trim();
        let unit = Unit::from_symbol(unit).ok_or_else(|| QuantityError::UnknownUnit(unit.to_owned()))?;
        Ok(Self { thousandths: thousandths(number, text)?, unit })
    }

    /// Reads a quantity that must measure `wanted`.
    pub fn parse_as(text: &str, wanted: Dimension) -> Result<Self, QuantityError> {
        let quantity = Self::parse(text)?;
        if quantity.unit.dimension() == wanted {
            Ok(quantity)
        } else {
            Err(QuantityError::WrongDimension { text: text.trim().to_owned(), wanted })
        }
    }

    /// The quantity nearest to `si` SI units of what `unit` measures. For showing, not for signing.
    pub fn nearest(si: f64, unit: Unit) -> Option<Self> {
        let thousandths = (si / unit.si() * 1_000.0).round();
        // The bound keeps the cast exact.
        (thousandths.abs() <= 1e12).then_some(Self { thousandths: thousandths as i64, unit })
    }

    /// Thousandths of the unit.
    pub fn thousandths(self) -> i64 {
        self.thousandths
    }

    /// The unit as written.
    pub fn unit(self) -> Unit {
        self.unit
    }

    /// The value in SI units (kg, m, N, degrees, one).
    pub fn si(self) -> f64 {
        self.thousandths as f64 * self.unit.si() / 1_000.0
    }

    /// As a mass.
    pub fn kilograms(self) -> Option<Kilograms> {
        self.measuring(Dimension::Mass).and_then(|si| Kilograms::new(si).ok())
    }

    /// As a length.
    pub fn metres(self) -> Option<Metres> {
        self.measuring(Dimension::Length).and_then(|si| Metres::new(si).ok())
    }

    /// As an angle.
    pub fn degrees(self) -> Option<Degrees> {
        self.measuring(Dimension::Angle).and_then(|si| Degrees::new(si).ok())
    }

    /// As a share of one.
    pub fn ratio(self) -> Option<Ratio> {
        self.measuring(Dimension::Ratio).and_then(|si| Ratio::new(si).ok())
    }

    /// As a force. A mass counts with its weight under standard gravity: ratings are written both ways.
    pub fn newtons(self) -> Option<Newtons> {
        match self.unit.dimension() {
            Dimension::Mass => self.kilograms().map(Kilograms::weight),
            _ => self.measuring(Dimension::Force).and_then(|si| Newtons::new(si).ok()),
        }
    }

    fn measuring(self, dimension: Dimension) -> Option<f64> {
        (self.unit.dimension() == dimension).then(|| self.si())
    }
}

fn thousandths(number: &str, text: &str) -> Result<i64, QuantityError> {
    let not_a_number = || QuantityError::NotANumber(text.to_owned());
    let (negative, digits) = match number.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, number.strip_prefix('+').unwrap_or(number)),
    };
    let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
    let plain = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
    if (whole.is_empty() && fraction.is_empty()) || !plain(whole) || !plain(fraction) {
        return Err(not_a_number());
    }
    let fraction = fraction.trim_end_matches('0');
    if fraction.len() > 3 {
        return Err(QuantityError::TooFine(text.to_owned()));
    }
    if whole.len() > 9 {
        return Err(QuantityError::TooLarge(text.to_owned()));
    }
    let value: i64 = format!("{whole}{fraction:0<3}").parse().map_err(|_| not_a_number())?;
    Ok(if negative { -value } else { value })
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.thousandths < 0 { "-" } else { "" };
        let (whole, rest) = (self.thousandths.abs() / 1_000, self.thousandths.abs() % 1_000);
        write!(f, "{sign}{whole}")?;
        if rest > 0 {
            write!(f, ".{}", format!("{rest:03}").trim_end_matches('0'))?;
        }
        write!(f, " {}", self.unit)
    }
}

#[cfg(test)]
mod tests {
    use super::{Dimension, Quantity, QuantityError, Unit};

    #[test]
    fn reads_what_people_write() {
        for (text, shown) in [
            ("5000 lb", "5000 lb"),
            ("1.09in", "1.09 in"),
            ("-2.50 ft", "-2.5 ft"),
            ("2 %", "2 %"),
            (".5 t", "0.5 t"),
        ] {
            assert_eq!(Quantity::parse(text).unwrap().to_string(), shown);
        }
        assert_eq!(Quantity::parse("12"), Err(QuantityError::NoUnit("12".into())));
        assert_eq!(Quantity::parse("12 stone"), Err(QuantityError::UnknownUnit("stone".into())));
        assert_eq!(Quantity::parse("1,5 t"), Err(QuantityError::NotANumber("1,5 t".into())));
        assert_eq!(Quantity::parse("NaN lb"), Err(QuantityError::UnknownUnit("NaN lb".into())));
        assert_eq!(Quantity::parse("1.2345 t"), Err(QuantityError::TooFine("1.2345 t".into())));
        assert!(matches!(
            Quantity::parse_as("12 ft", Dimension::Mass),
            Err(QuantityError::WrongDimension { .. })
        ));
    }

    /// International yard and pound agreement, 1959: 1 lb = 0.45359237 kg, 1 in = 25.4 mm; standard gravity gives lbf.
    #[test]
    fn converts() {
        let near = |text: &str, si: f64| {
            assert!((Quantity::parse(text).unwrap().si() - si).abs() < 1e-9 * si.abs(), "{text}")
        };
        near("1 lb", 0.453_592_37);
        near("1 ft", 0.304_8);
        near("1 in", 0.025_4);
        near("1 lbf", 4.448_221_615_260_5);
        near("1 psi", 4.448_221_615_260_5 / (0.025_4 * 0.025_4));
        near("90 kt", 90.0 * 1_852.0 / 3_600.0);
        near("366 d", 366.0 * 86_400.0);
        let rating = Quantity::parse("1 lb").unwrap().newtons().unwrap().value();
        assert!((rating - 4.448_221_615_260_5).abs() < 1e-12);
        for unit in Unit::ALL {
            assert_eq!(Unit::from_code(unit.code()), Some(*unit));
            assert_eq!(Unit::from_symbol(unit.symbol()), Some(*unit));
        }
    }
}
