use slingseal_catalogue::{Saying, rigging as words};
use slingseal_words::{Dimension, Name, Quantity};

/// What was weighed, as a person wrote it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Weighing {
    /// The scales, the load level.
    pub readings: Vec<Reading>,
    /// The second weighing, for the height.
    pub tilt: Option<Tilt>,
    /// The height of what stood on the scales, where no second weighing gives it; with what it may be wrong by.
    pub height: Option<(Quantity, Option<Quantity>)>,
    /// What was put on or taken off afterwards; or everything, where nothing stood on scales.
    pub items: Vec<Item>,
}

/// One scale under one point.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    /// The point: `front left`.
    pub name: Name,
    /// Where the push goes through, in the load's axes; for a wheel its axle.
    pub at: [Quantity; 3],
    /// What the scale shows.
    pub reads: Quantity,
    /// What stood on the scale besides: chocks, jacks.
    pub tare: Option<Quantity>,
    /// What the scale may be wrong by: a mass, or a share of the reading.
    pub tolerance: Option<Quantity>,
}

/// The second weighing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tilt {
    /// About which way it was tilted.
    pub about: TiltAbout,
    /// How far: an angle; nose up, or left side up, is positive.
    pub angle: Quantity,
    /// What the angle may be wrong by.
    pub tolerance: Option<Quantity>,
    /// The scales, the load tilted.
    pub readings: Vec<Reading>,
    /// Where the rest of the weight was held, where not every point stood on a scale.
    pub rest_at: Option<[Quantity; 3]>,
}

/// Which way a load was tilted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TiltAbout {
    /// Nose up or down.
    Pitch,
    /// Left side up or down.
    Roll,
}

/// Something of known mass at a known place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// What it is.
    pub name: Name,
    /// Its mass.
    pub mass: Quantity,
    /// What that may be wrong by: a mass, or a share.
    pub tolerance: Option<Quantity>,
    /// Where its centre of gravity is.
    pub at: [Quantity; 3],
    /// What each coordinate of the place may be wrong by.
    pub place_tolerance: Option<Quantity>,
    /// Whether it was taken off after the weighing.
    pub out: bool,
}

impl Reading {
    /// What the load put on the scale, kg.
    pub(super) fn net(&self) -> f64 {
        self.reads.si() - self.tare.map_or(0.0, Quantity::si)
    }

    /// How far that may be off, kg; a share is one of the reading.
    pub(super) fn off(&self) -> f64 {
        off(self.tolerance, self.reads)
    }

    pub(super) fn place(&self) -> [f64; 3] {
        self.at.map(Quantity::si)
    }
}

impl Item {
    /// Its mass, negative where it was taken off, kg.
    pub(super) fn signed(&self) -> f64 {
        if self.out { -self.mass.si() } else { self.mass.si() }
    }

    pub(super) fn off(&self) -> f64 {
        off(self.tolerance, self.mass)
    }

    pub(super) fn place(&self) -> [f64; 3] {
        self.at.map(Quantity::si)
    }
}

fn off(tolerance: Option<Quantity>, of: Quantity) -> f64 {
    tolerance.map_or(0.0, |tolerance| match tolerance.unit().dimension() {
        Dimension::Ratio => tolerance.si() * of.si().abs(),
        _ => tolerance.si(),
    })
}

/// Why a weighing gives no mass and centre.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WeighError {
    /// Nothing was weighed and no item is named.
    Nothing,
    /// More points or items than are reckoned with.
    TooMany {
        /// `[[weighed]]` or `[[item]]`.
        what: &'static str,
        /// The most that there may be.
        most: usize,
    },
    /// A scale that shows less than what stood on it besides the load, or nothing.
    Net {
        /// The point.
        point: Name,
    },
    /// A tolerance that is no tolerance.
    Tolerance {
        /// The point, item or angle.
        of: String,
        /// What was written.
        tolerance: Quantity,
    },
    /// Neither a height nor a second weighing.
    NoHeight,
    /// Both of them.
    TwoHeights,
    /// An angle too small or too large to give a height.
    Angle(
        /// What was written.
        Quantity,
    ),
    /// The weighings disagree by more than the scales may.
    Differ {
        /// Level.
        level: Quantity,
        /// Tilted.
        tilted: Quantity,
    },
    /// What is taken off weighs more than all.
    NotPositive,
}

impl WeighError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Nothing => words::WeighNothing.into(),
            Self::TooMany { what, most } => words::WeighTooMany { what, most }.into(),
            Self::Net { point } => words::WeighNet { point }.into(),
            Self::Tolerance { of, tolerance } => words::WeighTolerance { of, tolerance }.into(),
            Self::NoHeight => words::WeighNoHeight.into(),
            Self::TwoHeights => words::WeighTwoHeights.into(),
            Self::Angle(angle) => words::WeighAngle { angle }.into(),
            Self::Differ { level, tilted } => words::WeighDiffer { level, tilted }.into(),
            Self::NotPositive => words::WeighNotPositive.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(WeighError);

impl Weighing {
    /// The most points of one weighing.
    pub const MOST_POINTS: usize = 16;
    /// The most items.
    pub const MOST_ITEMS: usize = 64;
    /// The flattest tilt that gives a height, degrees: below it a scale's last figure is worth more than the load's height.
    const LEAST_TILT: f64 = 1.0;
    /// The steepest, degrees: further, it is no weighing but a fall.
    const MOST_TILT: f64 = 45.0;

    /// Whether it can give a mass and a centre.
    ///
    /// # Errors
    /// The first thing that is wrong.
    pub fn check(&self) -> Result<(), WeighError> {
        if self.readings.is_empty() && self.items.is_empty() {
            return Err(WeighError::Nothing);
        }
        let tilted = self.tilt.iter().flat_map(|tilt| &tilt.readings);
        let most = |what, most| Err(WeighError::TooMany { what, most });
        if self.readings.len() > Self::MOST_POINTS || tilted.clone().count() > Self::MOST_POINTS {
            return most("[[weighed]]", Self::MOST_POINTS);
        }
        if self.items.len() > Self::MOST_ITEMS {
            return most("[[item]]", Self::MOST_ITEMS);
        }
        for reading in self.readings.iter().chain(tilted) {
            if reading.net() < 0.0 {
                return Err(WeighError::Net { point: reading.name.clone() });
            }
            check_tolerance(&reading.name, reading.tolerance)?;
        }
        for item in &self.items {
            check_tolerance(&item.name, item.tolerance)?;
            check_tolerance(&item.name, item.place_tolerance)?;
        }
        match (self.readings.is_empty(), &self.tilt, &self.height) {
            (true, None, None) => {}
            (true, ..) => return Err(WeighError::Nothing),
            (false, None, None) => return Err(WeighError::NoHeight),
            (false, Some(_), Some(_)) => return Err(WeighError::TwoHeights),
            (false, ..) => {}
        }
        if let Some((_, Some(tolerance))) = &self.height {
            check_tolerance("height", Some(*tolerance))?;
        }
        self.tilt.as_ref().map_or(Ok(()), |tilt| self.check_tilt(tilt))
    }

    fn check_tilt(&self, tilt: &Tilt) -> Result<(), WeighError> {
        check_tolerance("tilted", tilt.tolerance)?;
        let (angle, off) = (tilt.angle.si().abs(), tilt.tolerance.map_or(0.0, Quantity::si));
        if angle - off < Self::LEAST_TILT || angle + off > Self::MOST_TILT {
            return Err(WeighError::Angle(tilt.angle));
        }
        if tilt.readings.is_empty() {
            return Err(WeighError::Nothing);
        }
        let sum = |readings: &[Reading]| readings.iter().map(Reading::net).sum::<f64>();
        // A reading is written to a thousandth of its unit, whatever it may be wrong by.
        let written = |reading: &Reading| 0.001 * reading.reads.unit().si();
        let all = self.readings.iter().chain(&tilt.readings);
        let room: f64 = all.map(|reading| reading.off() + written(reading)).sum();
        let (level, tilted) = (sum(&self.readings), sum(&tilt.readings));
        let unit = self.readings.first().map_or(tilt.angle.unit(), |reading| reading.reads.unit());
        let told = |si| crate::shown::shown(si, unit);
        let differ = match tilt.rest_at {
            None => (level - tilted).abs() > room,
            Some(_) => tilted > level + room,
        };
        if differ {
            return Err(WeighError::Differ { level: told(level), tilted: told(tilted) });
        }
        Ok(())
    }
}

fn check_tolerance(of: impl std::fmt::Display, tolerance: Option<Quantity>) -> Result<(), WeighError> {
    let bad = |tolerance: &Quantity| {
        tolerance.thousandths() < 0
            || tolerance.unit().dimension() == Dimension::Ratio && tolerance.si() > 0.5
    };
    match tolerance.filter(bad) {
        Some(tolerance) => Err(WeighError::Tolerance { of: of.to_string(), tolerance }),
        None => Ok(()),
    }
}
