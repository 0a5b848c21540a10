//! What is measured, in a message: a quantity is the number as it was written and the unit's number, never a float that was
//! computed; a time is whole seconds.

use super::{Reader, ShapeError, Writer};
use slingseal_words::{Dimension, Quantity, Time, Unit};

/// Added to the unit's number where the quantity is told in thousandths.
const IN_THOUSANDTHS: i64 = 100;

impl Writer {
    /// Two items: whole units and the unit's number, or thousandths and the unit's number plus 100 where the
    /// quantity is not whole. `4200 lb` is `4200, 2`; `1.09 in` is `1090, 114`.
    pub fn quantity(&mut self, quantity: Quantity) -> &mut Self {
        let (number, unit) = (quantity.thousandths(), i64::from(quantity.unit().code()));
        if number % 1_000 == 0 {
            self.int(number / 1_000).int(unit)
        } else {
            self.int(number).int(unit + IN_THOUSANDTHS)
        }
    }
}

impl Reader<'_> {
    /// A time: whole seconds since 1970, never before.
    pub fn time(&mut self, part: &'static str) -> Result<Time, ShapeError> {
        let seconds = self.int(part)?;
        let time = Time::from_unix(seconds);
        // A time out of all range would be clamped, and two spellings would mean one time.
        if seconds >= 0 && time.unix() == seconds { Ok(time) } else { Err(ShapeError(part)) }
    }

    /// Reads the two items of a quantity, in the one spelling that it has.
    pub fn quantity(&mut self, part: &'static str) -> Result<Quantity, ShapeError> {
        let number = self.int(part)?;
        let code = self.int(part)?;
        let (thousandths, code) = if code < IN_THOUSANDTHS {
            (number.checked_mul(1_000).ok_or(ShapeError(part))?, code)
        } else if number % 1_000 == 0 {
            return Err(ShapeError(part));
        } else {
            (number, code - IN_THOUSANDTHS)
        };
        let unit = u8::try_from(code).ok().and_then(Unit::from_code).ok_or(ShapeError(part))?;
        Quantity::from_thousandths(thousandths, unit).ok_or(ShapeError(part))
    }

    /// Reads a quantity that must be a mass above zero.
    pub fn mass(&mut self, part: &'static str) -> Result<Quantity, ShapeError> {
        let quantity = self.quantity(part)?;
        let mass = quantity.unit().dimension() == Dimension::Mass && quantity.thousandths() > 0;
        mass.then_some(quantity).ok_or(ShapeError(part))
    }
}

#[cfg(test)]
mod tests {
    use super::{Quantity, Reader, Writer};

    #[test]
    fn one_spelling_each() {
        for text in ["4200 lb", "1.09 in", "-0.5 m", "0 m", "2 %"] {
            let quantity = Quantity::parse(text).unwrap();
            let mut writer = Writer::new();
            writer.quantity(quantity);
            assert_eq!(Reader::new(&writer.into_bytes()).quantity("it"), Ok(quantity), "{text}");
        }
        let mut other = Writer::new();
        other.int(4_200_000).int(102);
        assert!(Reader::new(&other.into_bytes()).quantity("it").is_err(), "whole units in thousandths");
    }
}
