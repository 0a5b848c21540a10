//! A load weighed where it stands: scales under its points, beside the draft of its tag. It needs no file.

use slingseal_catalogue::{Saying, rigging as words};
use slingseal_message::tag::{WeightSource, outweighs};
use slingseal_rigging::{self as rigging, Options, RiggedLoad, WeighError, Weighed, WeighedPlace};
use slingseal_words::{Quantity, Unit};

use super::draft::{TagDraft, filled, mass};
use super::entries::Entries;
pub use super::entries::{FieldWeighing, ScaleReading};
use super::form::FieldFault;
use super::lift::weighed_sheet;
use crate::{App, AppError, Language};

/// What came of a weighing in the field.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FieldWeighed {
    /// What is wrong with what was entered; where there is anything, the rest is empty.
    pub faults: Vec<FieldFault>,
    /// The mass.
    pub mass: String,
    /// The centre of gravity, forward, left, up, as far as it was weighed.
    pub centre: Vec<String>,
    /// By which scales, what differs from the plan, and what is taken over of it, a line each.
    pub beside: Vec<String>,
    /// Mass and centre with what the tolerances leave open, and how the load of the draft's rigging hangs within that.
    pub report: String,
    /// Whether it may hang so in every corner of the tolerances, and weighs no more than was planned and the aircrew allows.
    pub good: bool,
    /// The draft with the gross weight, its source, and the centre of gravity where it has rigging. The gross weight is the most that
    /// the scales leave, in whole units: nobody lifts more than the tag says.
    pub taken: Option<TagDraft>,
}

impl App {
    /// A weighing that begins: four corners to be named otherwise, in the units of the draft.
    ///
    /// # Errors
    /// The draft's tag is none.
    pub fn begin_weighing(&self, draft: &TagDraft) -> Result<FieldWeighing, AppError> {
        let inner = self.lock();
        let language = inner.language();
        let (tag, _) = filled(draft, inner.now())?;
        let typed = mass(&draft.gross).or_else(|_| mass(&draft.allowable));
        let mass_unit = typed.map_or(Unit::Kg, Quantity::unit);
        let planned = tag.rigging.as_ref().map(|load| {
            let [forward, ..] = load.centre;
            forward.unit()
        });
        let by_mass = if mass_unit == Unit::Lb { Unit::In } else { Unit::Cm };
        let corners: [Saying; 4] = [
            words::CornerFrontLeft.into(),
            words::CornerFrontRight.into(),
            words::CornerRearLeft.into(),
            words::CornerRearRight.into(),
        ];
        let point = |name: Saying| ScaleReading { name: name.say(language), ..ScaleReading::default() };
        Ok(FieldWeighing {
            points: corners.map(point).into(),
            held: vec![String::new(); 2],
            length_unit: planned.unwrap_or(by_mass).symbol().into(),
            mass_unit: mass_unit.symbol().into(),
            ..FieldWeighing::default()
        })
    }

    /// Weighs a load in the field and holds it beside its draft. Slow: every corner of the tolerances is looked at.
    ///
    /// # Errors
    /// The draft's tag is none. What is wrong with the entries stands in the answer.
    pub fn weigh_draft(&self, draft: &TagDraft, entered: &FieldWeighing) -> Result<FieldWeighed, AppError> {
        let (language, now) = {
            let inner = self.lock();
            (inner.language(), inner.now())
        };
        let (tag, _) = filled(draft, now)?;
        let told = |faults| Ok(FieldWeighed { faults, ..FieldWeighed::default() });
        let read = match Entries::of(entered, tag.rigging.as_ref(), language) {
            Ok(read) => read,
            Err(faults) => return told(faults),
        };
        let weighed = match rigging::weigh(&read.weighing) {
            Ok(weighed) => weighed,
            Err(error) => {
                let words = in_the_field(&error).say(language);
                return told(vec![FieldFault { field: String::new(), words }]);
            }
        };
        let load = tag.rigging.as_ref().map(|load| RiggedLoad {
            mass: weighed.mass,
            centre: weighed.centre,
            ..load.clone()
        });
        let options = Options::default();
        let sheet = weighed_sheet(&read.weighing, &weighed, read.place, load.as_ref(), &options, language);
        let (mut beside, heavier) = beside(draft, entered, &weighed, language);
        beside.extend(read.beside(tag.rigging.as_ref(), &weighed, language));
        let centre: Vec<String> = weighed.centre.iter().map(ToString::to_string).collect();
        let gross = whole(most(&weighed));
        beside.push(words::FieldTaken { gross }.say(language));
        let kept = tag.rigging.is_some() && read.place == WeighedPlace::Whole;
        Ok(FieldWeighed {
            faults: Vec::new(),
            mass: weighed.mass.to_string(),
            centre: centre.iter().take(read.axes()).cloned().collect(),
            beside,
            report: sheet.report,
            good: sheet.good && !heavier,
            taken: Some(TagDraft {
                gross: gross.to_string(),
                weight_source: Some(WeightSource::Weighed),
                centre: if kept { centre } else { draft.centre.clone() },
                ..draft.clone()
            }),
        })
    }
}

/// The most that the tolerances leave.
fn most(weighed: &Weighed) -> Quantity {
    Quantity::nearest(weighed.mass_span.most.value(), weighed.mass.unit()).unwrap_or(weighed.mass)
}

/// Up to a whole kilogram or pound, or to ten kilograms where tonnes are written.
fn whole(most: Quantity) -> Quantity {
    let step = if most.unit() == Unit::T { 10 } else { 1000 };
    let up = most.thousandths().div_euclid(step) * step;
    let up = if up < most.thousandths() { up + step } else { up };
    Quantity::from_thousandths(up, most.unit()).unwrap_or(most)
}

/// By which scales, and whether the load is heavier than was planned or the aircrew allows: held against the most that the
/// tolerances leave.
fn beside(
    draft: &TagDraft,
    entered: &FieldWeighing,
    weighed: &Weighed,
    language: Language,
) -> (Vec<String>, bool) {
    let most = most(weighed);
    let over = |limit: Quantity| outweighs(most, limit).unwrap_or(true);
    let scales = entered.scales.trim();
    let mut lines = vec![match scales.is_empty() {
        true => words::FieldScalesUnsaid.say(language),
        false => words::FieldScales { scales }.say(language),
    }];
    let mut heavier = false;
    if let Ok(gross) = mass(&draft.gross) {
        heavier |= over(gross);
        lines.push(match over(gross) {
            true => words::WeighedOverGross { most, gross }.say(language),
            false => words::WeighedWithinGross { most, gross }.say(language),
        });
    }
    if let Some(allowable) = mass(&draft.allowable).ok().filter(|limit| over(*limit)) {
        heavier = true;
        lines.push(words::WeighedOverAllowable { most, allowable }.say(language));
    }
    (lines, heavier)
}

/// A fault of the whole, in the words of whoever has keys and no file.
fn in_the_field(error: &WeighError) -> Saying {
    match error {
        WeighError::Nothing => words::FieldNothing.into(),
        WeighError::NoHeight => words::FieldNoHeight.into(),
        WeighError::TwoHeights => words::FieldTwoHeights.into(),
        WeighError::TooMany { most, .. } => words::FieldTooMany { most: *most }.into(),
        WeighError::Net { point } => words::FieldNet { point }.into(),
        WeighError::Differ { level, tilted } => words::FieldDiffer { level, tilted }.into(),
        other => other.saying(),
    }
}
