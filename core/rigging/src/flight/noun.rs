use slingseal_words::{Newtons, Quantity, Ratio, Source, Unit};

use crate::{Assessment, Options, RiggedLoad, assess_with};

/// What a file tells of the flight. Every number is one that a person entered.
#[derive(Clone, Debug, PartialEq)]
pub struct Flight {
    /// The load factor.
    pub factor: Option<f64>,
    /// The angle of the sling from the vertical that the factor counts at.
    pub sling_angle: Option<Quantity>,
    /// Where factor and angle come from.
    pub source: Option<Source>,
    /// The drag.
    pub drag: Option<Drag>,
    /// How far the load may lean.
    pub lean_limit: Option<Quantity>,
    /// Where that comes from.
    pub limit_source: Option<Source>,
    /// The fastest speed that is looked at.
    pub speed_to: Quantity,
}

/// A steady drag.
#[derive(Clone, Debug, PartialEq)]
pub struct Drag {
    /// Drag coefficient times area, m².
    pub area: f64,
    /// As a person wrote it.
    pub area_written: String,
    /// Of the air, kg/m³.
    pub density: f64,
    /// As a person wrote it.
    pub density_written: String,
    /// Where it takes hold; the centre of gravity where nobody says.
    pub at: Option<[Quantity; 3]>,
    /// Where area and density come from.
    pub source: Source,
}

impl Flight {
    /// Of which nothing is told.
    pub fn nothing() -> Self {
        Self {
            factor: None,
            sling_angle: None,
            source: None,
            drag: None,
            lean_limit: None,
            limit_source: None,
            speed_to: Self::usual_speed(),
        }
    }

    /// The fastest speed that is looked at where the file names none.
    pub(super) fn usual_speed() -> Quantity {
        Quantity::from_thousandths(120_000, Unit::Knot)
            .unwrap_or_else(|| unreachable!("a speed is a quantity"))
    }
}

/// The load at its factor, the sling at its angle.
#[derive(Clone, Debug, PartialEq)]
pub struct Factored {
    /// The factor.
    pub factor: Ratio,
    /// The angle from the vertical.
    pub angle: Option<Quantity>,
    /// Every force times the factor, held against its rating. The sling swings as one with its load, so that the angle does not
    /// change the shares of the legs.
    pub assessment: Assessment,
    /// What the hooks carry together, along the sling.
    pub along: Newtons,
    /// Its part across: what pulls the hook aside.
    pub aside: Newtons,
}

impl Factored {
    pub(super) fn of(load: &RiggedLoad, flight: &Flight, factor: f64, options: &Options) -> Self {
        let assessment = assess_with(load, options);
        let along = assessment.weight.value() * factor;
        let angle = flight.sling_angle.map_or(0.0, Quantity::si).to_radians();
        Self {
            factor: Ratio::new(factor).unwrap_or_default(),
            angle: flight.sling_angle,
            along: Newtons::new(along).unwrap_or_default(),
            aside: Newtons::new(along * angle.sin()).unwrap_or_default(),
            assessment,
        }
    }
}
