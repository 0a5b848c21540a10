use super::claims::Outcome;
use crate::envelope::{Limits, Reader, ShapeError, StrictError, Writer, check};
use slingseal_catalogue::Saying;
use slingseal_words::{CallSign, Digest, GridRef, ProcedureId, Time};

/// One entry of the device's journal, as far as its digest needs it. The chain's rule stands with the journal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JournalEntry {
    /// Its number.
    pub seq: u64,
    /// The digest of the entry before.
    pub prev: Digest,
    /// When it was written.
    pub time: Time,
    /// What it is.
    pub kind: String,
    /// What was written.
    pub body: Vec<u8>,
}

/// The chain's rule: the digest of an entry of a walk. It stands with the journal, which this room does not know.
pub type DigestOf<'f> = &'f dyn Fn(&JournalEntry, &[u8; 16]) -> Digest;

/// The full record of one walk: whatever a leader needs to see, years later, that the seal was earned.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Record {
    /// The tag as it hung on the load.
    pub tag: Vec<u8>,
    /// The procedure.
    pub procedure: ProcedureId,
    /// Its version.
    pub version: u32,
    /// The digest of its file.
    pub procedure_digest: Digest,
    /// Who walked.
    pub inspector: CallSign,
    /// What was decided.
    pub outcome: Outcome,
    /// When it was decided.
    pub decided: Time,
    /// The device that the journal belongs to.
    pub device: [u8; 16],
    /// The walk in that journal.
    pub walk: [u8; 16],
    /// Every entry of the walk, in order. The last one's digest is the journal's head at sealing.
    pub entries: Vec<JournalEntry>,
    /// The head of the journal when the record was made: number and digest.
    pub head: (u64, Digest),
    /// The statics as they were shown to the inspector, as JSON.
    pub rigging: Option<String>,
    /// The photographs taken, by digest.
    pub photos: Vec<Digest>,
    /// Where the walk was made.
    pub place: Option<GridRef>,
    /// The record that this device sealed before, whatever its load: one that is held back shows by the next.
    pub before: Option<Digest>,
}

/// Why bytes are not a record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RecordError {
    /// Not deterministic CBOR.
    Strict(StrictError),
    /// Not built as a record.
    Shape(ShapeError),
}

impl RecordError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Strict(error) => error.saying(),
            Self::Shape(error) => error.saying(),
        }
    }
}

slingseal_catalogue::error_by_saying!(RecordError);

impl From<StrictError> for RecordError {
    fn from(error: StrictError) -> Self {
        Self::Strict(error)
    }
}

impl From<ShapeError> for RecordError {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

impl Record {
    /// The most entries of one walk.
    pub const MOST_ENTRIES: usize = 10_000;
    /// The most photographs of one walk.
    pub const MOST_PHOTOS: usize = 500;

    /// Whether a reader would take it: what is bounded when it is read is bounded before it is sealed.
    pub fn fits(&self) -> bool {
        self.entries.len() <= Self::MOST_ENTRIES && self.photos.len() <= Self::MOST_PHOTOS
    }

    /// Its bytes; a seal names their SHA-256.
    ///
    /// ```cddl
    /// record = { 1: 1, 2: tag, 3: [id, version, digest], 4: inspector, 5: outcome, 6: decided,
    ///            7: [device: bstr .size 16, walk: bstr .size 16], 8: [* entry], 9: [seq, digest],
    ///            ? 10: rigging: tstr, ? 11: [+ photo: bstr .size 32], ? 12: grid: tstr,
    ///            ? 13: the device's record before: bstr .size 32 }
    /// entry  = [seq, prev / null, time, kind, body: bstr]     ; null: the digest of the entry listed before
    /// ```
    ///
    /// `digest_of` lets a link that can be derived go untold.
    pub fn to_bytes(&self, digest_of: DigestOf<'_>) -> Vec<u8> {
        let optional =
            [self.rigging.is_some(), !self.photos.is_empty(), self.place.is_some(), self.before.is_some()];
        let mut out = Writer::new();
        out.map(9 + optional.into_iter().filter(|there| *there).count());
        out.int(1).int(1).int(2).bytes(&self.tag);
        out.int(3).array(3).text(self.procedure.as_str()).int(self.version.into());
        out.bytes(self.procedure_digest.as_bytes());
        out.int(4).text(self.inspector.as_str());
        out.int(5).int((self.outcome == Outcome::Fit).into());
        out.int(6).int(self.decided.unix());
        out.int(7).array(2).bytes(&self.device).bytes(&self.walk);
        out.int(8).array(self.entries.len());
        let mut before: Option<Digest> = None;
        for entry in &self.entries {
            let told = (before != Some(entry.prev)).then_some(entry.prev);
            out.array(5).int(as_int(entry.seq));
            out.maybe(told, |out, prev| out.bytes(prev.as_bytes()));
            out.int(entry.time.unix()).text(&entry.kind).bytes(&entry.body);
            before = Some(digest_of(entry, &self.walk));
        }
        out.int(9).array(2).int(as_int(self.head.0)).bytes(self.head.1.as_bytes());
        if let Some(rigging) = &self.rigging {
            out.int(10).text(rigging);
        }
        if !self.photos.is_empty() {
            out.int(11).array(self.photos.len());
            for photo in &self.photos {
                out.bytes(photo.as_bytes());
            }
        }
        if let Some(place) = &self.place {
            out.int(12).text(place.as_str());
        }
        if let Some(before) = &self.before {
            out.int(13).bytes(before.as_bytes());
        }
        out.into_bytes()
    }

    /// The digest of the procedure that bytes name, where they are a record; nothing of them is checked. For whoever fetches what
    /// reading it will need.
    pub fn procedure_named(bytes: &[u8]) -> Option<Digest> {
        let mut found = None;
        // Keys stand in order: behind the third nothing is looked at.
        let _ = Reader::new(bytes).map("record", |key, reader| {
            match key {
                1 | 2 => drop(reader.raw("record")?),
                3 => {
                    reader.array(3, "procedure")?;
                    reader.raw("procedure")?;
                    reader.raw("procedure")?;
                    found = Some(digest(reader)?);
                    return Ok(false);
                }
                _ => return Ok(false),
            }
            Ok(true)
        });
        found
    }

    /// Reads a record.
    ///
    /// # Errors
    /// Bytes that are not a record in its only spelling.
    pub fn parse(bytes: &[u8], digest_of: DigestOf<'_>) -> Result<Self, RecordError> {
        check(bytes, Limits::FILE)?;
        let mut fields = Fields::default();
        let mut entries = None;
        Reader::new(bytes).map("record", |key, reader| {
            match key {
                1 if reader.int("version of the record")? == 1 => {}
                2 => fields.tag = Some(reader.bytes("tag")?.to_vec()),
                3 => {
                    reader.array(3, "procedure")?;
                    let id = reader.line("procedure", ProcedureId::new)?;
                    fields.procedure = Some((id, reader.small("procedure")?, digest(reader)?));
                }
                4 => fields.inspector = Some(reader.line("inspector", CallSign::received)?),
                5 => fields.outcome = Some(reader.int("outcome")?),
                6 => fields.decided = Some(Time::from_unix(reader.int("time")?)),
                7 => {
                    reader.array(2, "device")?;
                    fields.device = Some((reader.fixed("device")?, reader.fixed("walk")?));
                }
                8 => entries = Some(reader.raw("entries")?),
                9 => {
                    reader.array(2, "head of the journal")?;
                    fields.head = Some((reader.small("head of the journal")?, digest(reader)?));
                }
                10 => fields.rigging = Some(reader.text("rigging")?.to_owned()),
                11 => fields.photos = reader.list(Self::MOST_PHOTOS, "photographs", digest)?,
                12 => fields.place = Some(reader.line("grid", GridRef::new)?),
                13 => fields.before = Some(digest(reader)?),
                _ => return Ok(false),
            }
            Ok(true)
        })?;
        let missing = || ShapeError("record");
        let (device, walk) = fields.device.ok_or_else(missing)?;
        let (procedure, version, procedure_digest) = fields.procedure.ok_or_else(missing)?;
        let mut before: Option<Digest> = None;
        let entries =
            Reader::new(entries.ok_or_else(missing)?).list(Self::MOST_ENTRIES, "entries", |reader| {
                let entry = entry(reader, before)?;
                before = Some(digest_of(&entry, &walk));
                Ok(entry)
            })?;
        Ok(Self {
            tag: fields.tag.ok_or_else(missing)?,
            procedure,
            version,
            procedure_digest,
            inspector: fields.inspector.ok_or_else(missing)?,
            outcome: match fields.outcome {
                Some(0) => Outcome::NotFit,
                Some(1) => Outcome::Fit,
                _ => return Err(ShapeError("outcome").into()),
            },
            decided: fields.decided.ok_or_else(missing)?,
            device,
            walk,
            entries,
            head: fields.head.ok_or_else(missing)?,
            rigging: fields.rigging,
            photos: fields.photos,
            place: fields.place,
            before: fields.before,
        })
    }
}

fn entry(reader: &mut Reader<'_>, before: Option<Digest>) -> Result<JournalEntry, ShapeError> {
    reader.array(5, "entry")?;
    let seq = reader.small("number of an entry")?;
    let told = reader.maybe("link of an entry", digest)?;
    if told.is_some() && told == before {
        return Err(ShapeError("link of an entry"));
    }
    Ok(JournalEntry {
        seq,
        prev: told.or(before).ok_or(ShapeError("link of an entry"))?,
        time: Time::from_unix(reader.int("time of an entry")?),
        kind: reader.text("kind of an entry")?.to_owned(),
        body: reader.bytes("entry")?.to_vec(),
    })
}

#[derive(Default)]
struct Fields {
    tag: Option<Vec<u8>>,
    procedure: Option<(ProcedureId, u32, Digest)>,
    inspector: Option<CallSign>,
    outcome: Option<i64>,
    decided: Option<Time>,
    device: Option<([u8; 16], [u8; 16])>,
    head: Option<(u64, Digest)>,
    rigging: Option<String>,
    photos: Vec<Digest>,
    place: Option<GridRef>,
    before: Option<Digest>,
}

fn digest(reader: &mut Reader<'_>) -> Result<Digest, ShapeError> {
    reader.fixed("digest").map(Digest::from_bytes)
}

/// Journal numbers are small; the format has no larger integer.
fn as_int(number: u64) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}
