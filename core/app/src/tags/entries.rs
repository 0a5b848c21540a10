//! What is entered of a weighing in the field, and how it is read: every fault at its field.

use super::form::FieldFault;
use crate::Language;
use slingseal_catalogue::{Saying, rigging as words};
use slingseal_rigging::{
    self as rigging, Reading, RiggedLoad, Tilt, TiltAbout, Weighed, WeighedPlace, Weighing,
};
use slingseal_words::{Dimension, Name, Quantity, Unit};

/// One point that the load stands on, and what its scale shows. Each value with its unit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ScaleReading {
    /// What the point is called; its number where that is empty.
    pub name: String,
    /// How far forward of the datum the push goes through; with `left` empty at every point: the mass alone is weighed.
    pub forward: String,
    /// How far to the left.
    pub left: String,
    /// How far up; asked for where one end is raised.
    pub up: String,
    /// What the scale shows, the load level.
    pub reads: String,
    /// What stood on it besides the load; may be empty.
    pub tare: String,
    /// What it shows with one end raised; empty where the point then stood on no scale.
    pub tilted: String,
}

/// A load weighed where it stands, as it is entered.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FieldWeighing {
    /// The points, each with its scale.
    pub points: Vec<ScaleReading>,
    /// Which scales they are, and who says what they may be wrong by; may be empty, and is told then.
    pub scales: String,
    /// What each may be wrong by: a mass or a share of what it shows; may be empty, and is told then.
    pub tolerance: String,
    /// The height of the centre of gravity, where it is known; else that of the draft's rigging stands, and is told.
    pub height: String,
    /// What that may be wrong by; may be empty.
    pub height_tolerance: String,
    /// For the height: how far the front was raised in a second weighing, a length or an angle, negative where the rear was; empty
    /// without one.
    pub raised: String,
    /// For a length: how far apart, along the load, the points are that it was raised over.
    pub over: String,
    /// What the angle may be wrong by; may be empty.
    pub angle_tolerance: String,
    /// Where the raised end was held, forward and up; empty: at the points that then stood on no scale.
    pub held: Vec<String>,
    /// The unit that the tape is read in.
    pub length_unit: String,
    /// The unit that the scales are read in.
    pub mass_unit: String,
}

/// What was entered, read.
pub(super) struct Entries {
    pub(super) weighing: Weighing,
    pub(super) place: WeighedPlace,
    pub(super) planned_height: Option<Quantity>,
}

impl Entries {
    pub(super) fn of(
        entered: &FieldWeighing,
        planned: Option<&RiggedLoad>,
        language: Language,
    ) -> Result<Self, Vec<FieldFault>> {
        let mut reader = Reader { entered, planned, language, faults: Vec::new() };
        let read = reader.read();
        match read.filter(|_| reader.faults.is_empty()) {
            Some(read) => Ok(read),
            None => Err(reader.faults),
        }
    }

    pub(super) fn axes(&self) -> usize {
        match self.place {
            WeighedPlace::Nothing => 0,
            WeighedPlace::Plan => 2,
            WeighedPlace::Whole => 3,
        }
    }

    /// Its centre of gravity beside that of the plan.
    pub(super) fn beside(
        &self,
        planned: Option<&RiggedLoad>,
        weighed: &Weighed,
        language: Language,
    ) -> Vec<String> {
        let mut lines = Vec::new();
        match (planned, self.place) {
            (None, WeighedPlace::Nothing) => {}
            (None, _) => lines.push(words::FieldCentreNotKept.say(language)),
            (Some(_), WeighedPlace::Nothing) => lines.push(words::FieldCentrePlanned.say(language)),
            (Some(load), _) => {
                let axes = [words::AxisX.saying(), words::AxisY.saying(), words::AxisZ.saying()];
                for ((axis, at), planned) in axes.into_iter().zip(&weighed.centre).zip(&load.centre) {
                    lines.push(words::WeighedBesidePlan { axis, at, planned }.say(language));
                }
            }
        }
        if let Some(height) = self.planned_height {
            lines.push(words::WeighedPlannedHeight { height }.say(language));
        }
        lines
    }
}

struct Reader<'e> {
    entered: &'e FieldWeighing,
    planned: Option<&'e RiggedLoad>,
    language: Language,
    faults: Vec<FieldFault>,
}

/// Where an entry stands: its field, and what a person calls it.
struct Entry<'n> {
    field: String,
    point: Option<&'n Name>,
    what: Saying,
}

impl Reader<'_> {
    fn read(&mut self) -> Option<Entries> {
        let entered = self.entered;
        if entered.points.iter().all(|point| point.reads.trim().is_empty()) {
            return self.fault("", words::FieldNothing.into());
        }
        let raised = !entered.raised.trim().is_empty();
        let said = |text: &String| !text.trim().is_empty();
        let placed = raised || entered.points.iter().any(|point| said(&point.forward) || said(&point.left));
        let tolerance = self.tolerance();
        let points: Vec<_> = entered
            .points
            .iter()
            .enumerate()
            .map(|(at, point)| self.point(at, point, (placed, raised), tolerance))
            .collect();
        let points: Vec<(Reading, Option<Reading>)> = points.into_iter().collect::<Option<_>>()?;
        let tilt = if raised { Some(self.tilt(&points)?) } else { None };
        let given = self.maybe("height", words::EditorHeight.into(), &entered.height, Dimension::Length);
        let off = self.maybe(
            "height.tolerance",
            words::EditorTolerance.into(),
            &entered.height_tolerance,
            Dimension::Length,
        );
        let [.., planned_up] = self.planned_centre()?;
        let planned_height =
            (placed && given.is_none() && !raised && self.planned.is_some()).then_some(planned_up);
        let height = match (given, raised) {
            (Some(height), _) => Some((height, off)),
            (None, true) => None,
            (None, false) => Some((planned_up, None)),
        };
        let whole = raised || given.is_some() || self.planned.is_some();
        let place = match (placed, whole) {
            (false, _) => WeighedPlace::Nothing,
            (true, false) => WeighedPlace::Plan,
            (true, true) => WeighedPlace::Whole,
        };
        let readings = points.into_iter().map(|(level, _)| level).collect();
        let weighing = Weighing { readings, tilt, height, items: Vec::new() };
        Some(Entries { weighing, place, planned_height })
    }

    /// Where the mass alone is weighed it stands where it was planned; nothing is told of that place.
    fn planned_centre(&self) -> Option<[Quantity; 3]> {
        let unit = Unit::from_symbol(&self.entered.length_unit).unwrap_or(Unit::Cm);
        let datum = || Quantity::from_thousandths(0, unit).map(|datum| [datum; 3]);
        self.planned.map(|load| load.centre).or_else(datum)
    }

    fn point(
        &mut self,
        at: usize,
        point: &ScaleReading,
        (placed, raised): (bool, bool),
        tolerance: Option<Quantity>,
    ) -> Option<(Reading, Option<Reading>)> {
        let number = (at + 1).to_string();
        let name = if point.name.trim().is_empty() { &number } else { &point.name };
        let name = match Name::new(name) {
            Ok(name) => name,
            Err(error) => return self.fault(&format!("point.{at}.name"), error.saying()),
        };
        let entry =
            |key: &str, what: Saying| Entry { field: format!("point.{at}.{key}"), point: Some(&name), what };
        let mut place = self.planned_centre()?;
        if placed {
            let texts = [&point.forward, &point.left, &point.up];
            let axes: [(&str, Saying); 3] = [
                ("forward", words::AxisX.into()),
                ("left", words::AxisY.into()),
                ("up", words::AxisZ.into()),
            ];
            for (axis, ((text, (key, what)), value)) in
                texts.into_iter().zip(axes).zip(&mut place).enumerate()
            {
                if axis == 2 && !raised && text.trim().is_empty() {
                    continue;
                }
                *value = self.need(&entry(key, what), text, Dimension::Length).unwrap_or(*value);
            }
        }
        let reads = self.need(&entry("reads", words::EditorReads.into()), &point.reads, Dimension::Mass);
        let tare = self.optional(&entry("tare", words::EditorTare.into()), &point.tare, Dimension::Mass);
        let tilted =
            self.optional(&entry("tilted", words::FieldTilted.into()), &point.tilted, Dimension::Mass);
        let reading = |reads| Reading { name: name.clone(), at: place, reads, tare, tolerance };
        Some((reading(reads?), tilted.filter(|_| raised).map(reading)))
    }

    fn tilt(&mut self, points: &[(Reading, Option<Reading>)]) -> Option<Tilt> {
        let entered = self.entered;
        let angle = self.angle();
        let tolerance = self.maybe(
            "angle.tolerance",
            words::EditorTolerance.into(),
            &entered.angle_tolerance,
            Dimension::Angle,
        );
        let readings: Vec<Reading> = points.iter().filter_map(|(_, tilted)| tilted.clone()).collect();
        if readings.is_empty() {
            return self.fault("tilted", words::FieldNothingRaised.into());
        }
        let rest_at = self.rest(points);
        Some(Tilt { about: TiltAbout::Pitch, angle: angle?, tolerance, readings, rest_at: rest_at? })
    }

    /// An angle, or a length over a length.
    fn angle(&mut self) -> Option<Quantity> {
        let entered = self.entered;
        let entry = |field: &str, what: Saying| Entry { field: field.into(), point: None, what };
        let raised = match Quantity::parse(entered.raised.trim()) {
            Ok(raised) => raised,
            Err(error) => return self.of(&entry("raised", words::EditorRaised.into()), error.saying()),
        };
        if raised.unit().dimension() == Dimension::Angle {
            return Some(raised);
        }
        let entry_of = entry("raised", words::EditorRaised.into());
        let raised = self.need(&entry_of, &entered.raised, Dimension::Length)?;
        let over = self.need(&entry("over", words::EditorOver.into()), &entered.over, Dimension::Length)?;
        rigging::raised_angle(raised, over)
    }

    /// Where the rest of the weight was held: as entered, or at the points that stood on no scale then.
    #[expect(clippy::option_option, reason = "none: it is told; some of none: all of it stood on scales")]
    fn rest(&mut self, points: &[(Reading, Option<Reading>)]) -> Option<Option<[Quantity; 3]>> {
        let held = &self.entered.held;
        if let [forward, up] = held.as_slice()
            && !(forward.trim().is_empty() && up.trim().is_empty())
        {
            let what = |axis: Saying| words::EditorRest { axis }.into();
            let entry = |field: &str, what: Saying| Entry { field: field.into(), point: None, what };
            let x = self.need(&entry("held.forward", what(words::AxisX.into())), forward, Dimension::Length);
            let z = self.need(&entry("held.up", what(words::AxisZ.into())), up, Dimension::Length);
            let (x, z) = (x?, z?);
            return Some(Some([x, Quantity::nearest(0.0, x.unit())?, z]));
        }
        let mut lifted = points.iter().filter(|(_, tilted)| tilted.is_none()).map(|(level, _)| level.at);
        let Some(first) = lifted.next() else { return Some(None) };
        let [x, _, z] = first;
        // By how much it was held to the left is no matter of the pitch.
        match lifted.all(|[other_x, _, other_z]| (other_x, other_z) == (x, z)) {
            true => Some(Some(first)),
            false => self.fault("held", words::FieldHeldWhere.into()),
        }
    }

    fn tolerance(&mut self) -> Option<Quantity> {
        let text = self.entered.tolerance.trim();
        let entry = Entry { field: "tolerance".into(), point: None, what: words::EditorTolerance.into() };
        if text.is_empty() {
            return None;
        }
        match Quantity::parse(text) {
            Ok(tolerance) if matches!(tolerance.unit().dimension(), Dimension::Mass | Dimension::Ratio) => {
                Some(tolerance)
            }
            Ok(tolerance) => self.of(&entry, words::ToleranceUnit { tolerance: &tolerance }.into()),
            Err(error) => self.of(&entry, error.saying()),
        }
    }

    fn maybe(&mut self, field: &str, what: Saying, text: &str, wanted: Dimension) -> Option<Quantity> {
        self.optional(&Entry { field: field.into(), point: None, what }, text, wanted)
    }

    fn optional(&mut self, entry: &Entry<'_>, text: &str, wanted: Dimension) -> Option<Quantity> {
        if text.trim().is_empty() { None } else { self.need(entry, text, wanted) }
    }

    fn need(&mut self, entry: &Entry<'_>, text: &str, wanted: Dimension) -> Option<Quantity> {
        if text.trim().is_empty() {
            return self.of(entry, words::FieldOpen.into());
        }
        match Quantity::parse_as(text, wanted) {
            Ok(quantity) => Some(quantity),
            Err(error) => self.of(entry, error.saying()),
        }
    }

    /// Tells what is wrong with an entry.
    fn of<T>(&mut self, entry: &Entry<'_>, why: Saying) -> Option<T> {
        let what = entry.what.clone();
        let told = match entry.point {
            Some(point) => words::FieldOfPoint { point, what, why }.into(),
            None => words::FieldOf { what, why }.into(),
        };
        self.fault(&entry.field, told)
    }

    fn fault<T>(&mut self, field: &str, told: Saying) -> Option<T> {
        self.faults.push(FieldFault { field: field.into(), words: told.say(self.language) });
        None
    }
}
