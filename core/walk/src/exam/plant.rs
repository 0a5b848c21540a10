use super::ExamError;
use crate::procedure::{Card, Expanded, Point};
use slingseal_message::envelope::{Reader, ShapeError, Writer};
use slingseal_words::{Digest, PointId};

/// The most deficiencies of one key: the result, which reveals them, stays one code.
pub const MOST_PLANTED: usize = 12;

/// Bytes of a salt: without one, whoever holds a lock could try every short list until its digest fits.
pub const SALT: usize = 16;

/// What is mixed into the digest of a list.
pub type Salt = [u8; SALT];

/// One deficiency that was rigged onto the load.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Planted {
    /// At which point.
    pub point: PointId,
    /// What it is called: the procedure's English words.
    pub name: String,
}

/// What is planted on one load: sorted by point, never two on one card.
///
/// A procedure does not tell which point can be judged only where another is good (there is no nut to judge on a bolt that is
/// missing). All that hangs together so is one motion, and one motion is one card: one a card hides nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlantedList(Vec<Planted>);

impl PlantedList {
    /// Holds a list against its procedure.
    ///
    /// # Errors
    /// None, too many, one that the procedure does not know, two on one card.
    pub fn new(plan: &Expanded, mut planted: Vec<Planted>) -> Result<Self, ExamError> {
        if planted.is_empty() {
            return Err(ExamError::NothingPlanted);
        }
        if planted.len() > MOST_PLANTED {
            return Err(ExamError::TooMany { found: planted.len(), most: MOST_PLANTED });
        }
        let mut cards = Vec::new();
        for one in &planted {
            let (card, point) = plan.point(&one.point).ok_or_else(|| ExamError::NoSuchPoint {
                point: one.point.clone(),
                procedure: plan.id.clone(),
            })?;
            let known: Vec<&str> = point.deficiencies.iter().map(|known| known.name.as_str()).collect();
            if !known.contains(&one.name.as_str()) {
                return Err(ExamError::NoSuchDeficiency {
                    point: one.point.clone(),
                    name: one.name.clone(),
                    known: known.join(", "),
                });
            }
            if cards.contains(&card.number) {
                return Err(ExamError::TwoOnACard { card: card.number.number() });
            }
            cards.push(card.number);
        }
        planted.sort();
        Ok(Self(planted))
    }

    /// What is planted, sorted by point.
    pub fn iter(&self) -> impl Iterator<Item = &Planted> {
        self.0.iter()
    }

    /// How many there are: at least one.
    #[expect(clippy::len_without_is_empty, reason = "a list is never empty")]
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// The same in the order of the load, each with its card and point.
    pub fn in_order<'p>(&'p self, plan: &'p Expanded) -> Vec<(&'p Planted, &'p Card, &'p Point)> {
        let mut order: Vec<_> = self
            .0
            .iter()
            .filter_map(|one| plan.point(&one.point).map(|(card, point)| (one, card, point)))
            .collect();
        order.sort_by_key(|(_, card, _)| card.number);
        order
    }

    /// What a lock names: SHA-256 over a mark of its own, the salt and the list.
    ///
    /// ```cddl
    /// list = [+ [point: tstr, name: tstr]]     ; sorted by point
    /// ```
    pub fn digest(&self, salt: &Salt) -> Digest {
        Digest::of_parts(&[b"slingseal planted 1", salt, &self.to_bytes()])
    }

    /// Its bytes.
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut out = Writer::new();
        self.write(&mut out);
        out.into_bytes()
    }

    pub(super) fn write(&self, out: &mut Writer) {
        out.array(self.0.len());
        for one in &self.0 {
            out.array(2).text(one.point.as_str()).text(&one.name);
        }
    }

    /// Reads a list as it stands in a message; whether the procedure knows it is asked with [`fits`](Self::fits).
    pub(super) fn read(reader: &mut Reader<'_>) -> Result<Self, ShapeError> {
        const PART: &str = "planted deficiencies";
        let list = reader.list(MOST_PLANTED, PART, |reader| {
            reader.array(2, PART)?;
            let point = reader.line("point", PointId::new)?;
            Ok(Planted { point, name: reader.text("deficiency")?.to_owned() })
        })?;
        // One spelling alone, or one list would have two digests.
        let sorted = list.is_sorted_by(|one, next| one.point < next.point);
        if list.is_empty() || !sorted { Err(ShapeError(PART)) } else { Ok(Self(list)) }
    }

    /// Reads a list that stands alone.
    ///
    /// # Errors
    /// Another shape.
    pub fn parse(bytes: &[u8]) -> Result<Self, ExamError> {
        slingseal_message::envelope::check(bytes, slingseal_message::envelope::Limits::CODE)?;
        Ok(Self::read(&mut Reader::new(bytes))?)
    }

    /// Holds a list that was read against the procedure.
    ///
    /// # Errors
    /// As [`new`](Self::new).
    pub fn fits(self, plan: &Expanded) -> Result<Self, ExamError> {
        Self::new(plan, self.0)
    }
}
