use std::collections::BTreeSet;

use crate::envelope::{Reader, ShapeError, Writer};
use crate::trust::Edition;
use slingseal_catalogue::files as words;
use slingseal_words::{Dimension, Name, ProcedureId, Quantity, Saying, Serial, Source};

/// The most legs on one tag.
pub const MOST_LEGS: usize = 8;

/// The most conditions on one tag.
pub const MOST_CONDITIONS: usize = 12;

/// What a load was planned and rigged by. An [`LT2`](crate::envelope::Kind::TagWithBasis) has at least one of these, an `LT1`
/// none.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Basis {
    /// The manual to which it was rigged.
    pub manual: Option<Manual>,
    /// The serial number of each leg; every leg once.
    pub leg_serials: Vec<LegSerial>,
    /// How its weight is known.
    pub weight_source: Option<WeightSource>,
    /// The airspeed that the manual's row allows.
    pub airspeed: Option<AirspeedLimit>,
    /// The edition of the procedure that the planner orders. Its procedure is the tag's own.
    pub edition: Option<Edition>,
    /// Under which conditions of the procedure the load is inspected: the points of any other do not count. `None` where the
    /// planner does not say, and then every point counts.
    pub conditions: Option<BTreeSet<Condition>>,
}

/// A manual and its edition. It governs; this program knows none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Manual {
    /// What it goes by, with the page or the row.
    pub title: Source,
    /// Which edition, or its date.
    pub edition: Name,
}

/// Which sling leg hangs where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LegSerial {
    /// The leg.
    pub leg: Name,
    /// Its serial number.
    pub serial: Serial,
}

/// How a gross weight is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WeightSource {
    /// Weighed, as rigged.
    Weighed,
    /// Read off a data plate.
    DataPlate,
    /// Added up from the parts.
    AddedUp,
    /// Estimated.
    Estimated,
}

impl WeightSource {
    /// Every source, in the order of their numbers in messages, which count from 1.
    pub const ALL: [Self; 4] = [Self::Weighed, Self::DataPlate, Self::AddedUp, Self::Estimated];

    /// The word of a plan.
    pub fn word(self) -> &'static str {
        match self {
            Self::Weighed => "weighed",
            Self::DataPlate => "data plate",
            Self::AddedUp => "added up",
            Self::Estimated => "estimated",
        }
    }

    /// The source of a plan's word.
    ///
    /// # Errors
    /// Another word: what the words are.
    pub fn of_word(word: &str) -> Result<Self, Saying> {
        let word = word.trim();
        Self::ALL
            .into_iter()
            .find(|source| source.word().eq_ignore_ascii_case(word))
            .ok_or_else(|| words::NoWeightSource { text: word }.into())
    }

    fn code(self) -> i64 {
        match self {
            Self::Weighed => 1,
            Self::DataPlate => 2,
            Self::AddedUp => 3,
            Self::Estimated => 4,
        }
    }
}

/// An airspeed limit never stands without its source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AirspeedLimit {
    /// A speed above zero.
    pub limit: Quantity,
    /// The manual's row that says so.
    pub source: Source,
}

/// A condition of a procedure, such as `night`: small letters, digits, hyphens, at most 24.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Condition(String);

impl Condition {
    /// The most characters that it may have.
    pub const MOST: usize = 24;

    /// Takes a condition's name; its letters are folded.
    ///
    /// # Errors
    /// What is no short name.
    pub fn new(text: &str) -> Result<Self, Saying> {
        let text = text.trim().to_ascii_lowercase();
        let plain = text.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-');
        if plain && (1..=Self::MOST).contains(&text.len()) {
            return Ok(Self(text));
        }
        Err(words::NoConditionName { text, most: Self::MOST }.into())
    }

    /// The name.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for Condition {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

/// The first key of the content that only an `LT2` has.
pub(super) const FIRST_KEY: i64 = 12;

impl Basis {
    /// Whether it says nothing at all.
    pub fn is_empty(&self) -> bool {
        self.pairs() == 0
    }

    pub(super) fn pairs(&self) -> usize {
        let there = [
            self.manual.is_some(),
            !self.leg_serials.is_empty(),
            self.weight_source.is_some(),
            self.airspeed.is_some(),
            self.edition.is_some(),
            self.conditions.is_some(),
        ];
        there.into_iter().filter(|there| *there).count()
    }

    /// Writes its pairs of the content's map, in their order.
    pub(super) fn write(&self, out: &mut Writer) {
        if let Some(manual) = &self.manual {
            out.int(12).array(2).text(manual.title.as_str()).text(manual.edition.as_str());
        }
        if !self.leg_serials.is_empty() {
            out.int(13).array(self.leg_serials.len());
            for one in &self.leg_serials {
                out.array(2).text(one.leg.as_str()).text(one.serial.as_str());
            }
        }
        if let Some(source) = self.weight_source {
            out.int(14).int(source.code());
        }
        if let Some(airspeed) = &self.airspeed {
            out.int(15).array(3).quantity(airspeed.limit).text(airspeed.source.as_str());
        }
        if let Some(edition) = &self.edition {
            out.int(16).array(2).int(edition.version.into()).bytes(&edition.thumbprint);
        }
        if let Some(conditions) = &self.conditions {
            out.int(17).array(conditions.len());
            conditions.iter().for_each(|condition| {
                out.text(condition.as_str());
            });
        }
    }

    /// Reads the value of a key; `false` where the key is not one of these. The edition is of `procedure`, which a smaller key
    /// has told before.
    pub(super) fn read(
        &mut self,
        key: i64,
        procedure: Option<&ProcedureId>,
        reader: &mut Reader<'_>,
    ) -> Result<bool, ShapeError> {
        match key {
            12 => {
                reader.array(2, "manual")?;
                let title = reader.line("manual", Source::received)?;
                self.manual = Some(Manual { title, edition: reader.line("edition", Name::received)? });
            }
            13 => self.leg_serials = leg_serials(reader)?,
            14 => {
                let code = reader.int("source of the weight")?;
                let source = WeightSource::ALL.into_iter().find(|source| source.code() == code);
                self.weight_source = Some(source.ok_or(ShapeError("source of the weight"))?);
            }
            15 => {
                reader.array(3, "airspeed limit")?;
                let limit = reader.quantity("airspeed limit")?;
                if limit.unit().dimension() != Dimension::Speed || limit.thousandths() <= 0 {
                    return Err(ShapeError("airspeed limit"));
                }
                self.airspeed =
                    Some(AirspeedLimit { limit, source: reader.line("source", Source::received)? });
            }
            16 => {
                reader.array(2, EDITION)?;
                let procedure = procedure.ok_or(ShapeError(EDITION))?.clone();
                self.edition = Some(Edition::of_content(procedure, reader, EDITION)?);
            }
            17 => self.conditions = Some(conditions(reader)?),
            _ => return Ok(false),
        }
        Ok(true)
    }
}

const EDITION: &str = "edition of the procedure";

/// Every leg once, in any order: the order is the planner's.
fn leg_serials(reader: &mut Reader<'_>) -> Result<Vec<LegSerial>, ShapeError> {
    const PART: &str = "serials of the legs";
    let list = reader.list(MOST_LEGS, PART, |reader| {
        reader.array(2, PART)?;
        Ok(LegSerial {
            leg: reader.line(PART, Name::received)?,
            serial: reader.line(PART, Serial::received)?,
        })
    })?;
    if list.is_empty() || twice(&list) { Err(ShapeError(PART)) } else { Ok(list) }
}

/// Whether a leg stands in the list twice: nobody could tell which serial hangs there.
pub(super) fn twice(list: &[LegSerial]) -> bool {
    let legs: BTreeSet<&Name> = list.iter().map(|one| &one.leg).collect();
    legs.len() != list.len()
}

fn conditions(reader: &mut Reader<'_>) -> Result<BTreeSet<Condition>, ShapeError> {
    const PART: &str = "conditions";
    let list = reader.list(MOST_CONDITIONS, PART, |reader| reader.line(PART, Condition::new))?;
    let set: BTreeSet<Condition> = list.iter().cloned().collect();
    if set.iter().eq(list.iter()) { Ok(set) } else { Err(ShapeError(PART)) }
}
