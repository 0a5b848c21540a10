//! Physical quantities as types, SI inside. Made only from finite numbers, so that no NaN crosses a room.

use slingseal_catalogue::{Saying, faults as words};

/// Standard gravity, 9.80665 m/s² (3rd CGPM, 1901): what turns a rating in pounds or kilograms into newtons.
pub const STANDARD_GRAVITY: f64 = 9.806_65;

/// A number that is not finite where a physical quantity is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotFinite;

impl NotFinite {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        words::NotFinite.into()
    }
}

slingseal_catalogue::error_by_saying!(NotFinite);

macro_rules! unit {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// Takes a finite number.
            pub fn new(value: f64) -> Result<Self, NotFinite> {
                if value.is_finite() { Ok(Self(value)) } else { Err(NotFinite) }
            }

            /// The number.
            pub fn value(self) -> f64 {
                self.0
            }
        }
    };
}

unit!(
    /// A mass in kilograms.
    Kilograms
);
unit!(
    /// A force in newtons.
    Newtons
);
unit!(
    /// A length in metres.
    Metres
);
unit!(
    /// An angle in degrees.
    Degrees
);
unit!(
    /// A share of one: 1.0 is all of it.
    Ratio
);

impl Kilograms {
    /// The weight of this mass under standard gravity.
    pub fn weight(self) -> Newtons {
        Newtons(self.0 * STANDARD_GRAVITY)
    }
}

impl Newtons {
    /// The mass that weighs this much under standard gravity.
    pub fn mass(self) -> Kilograms {
        Kilograms(self.0 / STANDARD_GRAVITY)
    }
}
