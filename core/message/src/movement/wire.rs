use super::report::{
    JournalEnd, MOST_PHOTOS, MOST_PIECES, Movement, PieceState, ShownReason, ShownVerdict, VerdictShown,
};
use super::{MovementEvent, RefusalCause};
use crate::envelope::{
    Claims, Kind, Limits, Reader, ShapeError, Sign1, Sign1Error, StrictError, Unsigned, Writer, check,
};
use slingseal_catalogue::{Saying, movement as words};
use slingseal_words::{Digest, GridRef, LoadNumber, Name, Note, Serial, Time};

/// Why bytes are not a movement report.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MovementError {
    /// Not deterministic CBOR.
    Strict(StrictError),
    /// Not built as a report.
    Shape(ShapeError),
    /// More than the largest code holds.
    TooLarge(usize),
}

impl MovementError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Strict(error) => error.saying(),
            Self::Shape(error) => error.saying(),
            Self::TooLarge(bytes) => {
                words::ReportTooLarge { bytes: bytes.to_string(), most: Limits::CODE.bytes.to_string() }
                    .into()
            }
        }
    }
}

slingseal_catalogue::error_by_saying!(MovementError);

impl From<StrictError> for MovementError {
    fn from(error: StrictError) -> Self {
        Self::Strict(error)
    }
}

impl From<ShapeError> for MovementError {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

impl From<Sign1Error> for MovementError {
    fn from(error: Sign1Error) -> Self {
        match error {
            Sign1Error::Strict(error) => Self::Strict(error),
            Sign1Error::Shape(error) => Self::Shape(error),
        }
    }
}

/// A report as received: what it says is not yet believed.
///
/// ```cddl
/// movement = message / claims               ; signed, or marked unsigned by being bare
///                                           ; header { 1: -19, 13: the signer's credential }
/// claims   = { 2: load number, 6: written, -65537: content }
/// content  = { 1: event, 2: origin, ? 3: happened: uint, ? 4: cause, ? 5: seal: bstr .size 32, ? 6: shown,
///              ? 7: aircraft, ? 8: grid reference, ? 9: [1*8 bstr .size 32], ? 10: [1*24 piece], ? 11: note }
/// event    = 1..6        ; 1 lifted, 2 refused at the hook, 3 lost or jettisoned, 4 set down, 5 derigged, 6 equipment returned
/// origin   = [device: bstr .size 16, seq: uint, journal: bstr .size 32, before: bstr .size 32 / null]
/// cause    = 0..8        ; there for event 2 and for no other
/// shown    = [0..2, tstr / null]            ; 0 GO, 1 WAIT, 2 NO-GO; the first reason's code: 1 to 40 of a-z 0-9 _
/// piece    = [serial: tstr, 1..3]           ; 1 back, 2 damaged, 3 both; no serial twice
/// ```
/// `happened` is before `written`, or it is not there.
#[derive(Clone, Debug)]
pub struct ReceivedMovement<'b> {
    /// What it says.
    pub movement: Movement,
    /// SHA-256 of the bytes as received.
    pub digest: Digest,
    /// The signed message around it; `None` for a report that is marked unsigned.
    pub message: Option<Sign1<'b>>,
}

impl<'b> ReceivedMovement<'b> {
    /// Reads a report.
    ///
    /// # Errors
    /// Bytes that are not a report in its only spelling.
    pub fn open(bytes: &'b [u8]) -> Result<Self, MovementError> {
        check(bytes, Limits::CODE)?;
        let message = Sign1::parse_signed(bytes, Limits::CODE)?;
        let movement = parse(message.as_ref().map_or(bytes, |message| message.payload))?;
        Ok(Self { movement, digest: Digest::of(bytes), message })
    }
}

impl Movement {
    /// The report's content, to be wrapped in claims.
    fn content(&self) -> Vec<u8> {
        let cause = self.event.cause();
        let optional = [
            self.happened.is_some(),
            cause.is_some(),
            self.seal.is_some(),
            self.shown.is_some(),
            self.aircraft.is_some(),
            self.place.is_some(),
            !self.photos.is_empty(),
            !self.pieces.is_empty(),
            self.note.is_some(),
        ];
        let mut out = Writer::new();
        out.map(2 + optional.into_iter().filter(|there| *there).count());
        out.int(1).int(self.event.code());
        out.int(2).array(4).bytes(&self.device).int(i64::try_from(self.journal.seq).unwrap_or(i64::MAX));
        out.bytes(self.journal.digest.as_bytes());
        out.maybe(self.before, |out, before| out.bytes(before.as_bytes()));
        if let Some(happened) = self.happened {
            out.int(3).int(happened.unix());
        }
        if let Some(cause) = cause {
            out.int(4).int(cause.code());
        }
        if let Some(seal) = &self.seal {
            out.int(5).bytes(seal.as_bytes());
        }
        if let Some(shown) = &self.shown {
            out.int(6).array(2).int(shown.verdict.code());
            out.maybe(shown.reason.as_ref(), |out, reason| out.text(reason.as_str()));
        }
        if let Some(aircraft) = &self.aircraft {
            out.int(7).text(aircraft.as_str());
        }
        if let Some(place) = &self.place {
            out.int(8).text(place.as_str());
        }
        if !self.photos.is_empty() {
            out.int(9).array(self.photos.len());
            for photo in &self.photos {
                out.bytes(photo.as_bytes());
            }
        }
        if !self.pieces.is_empty() {
            out.int(10).array(self.pieces.len());
            for piece in &self.pieces {
                let flags = i64::from(piece.back) + 2 * i64::from(piece.damaged);
                out.array(2).text(piece.serial.as_str()).int(flags);
            }
        }
        if let Some(note) = &self.note {
            out.int(11).text(note.as_str());
        }
        out.into_bytes()
    }

    fn with_claims<T>(&self, take: impl FnOnce(&Claims<'_>) -> T) -> T {
        let content = self.content();
        take(&Claims {
            subject: Some(self.load.as_str()),
            issued: Some(self.issued),
            ours: Some(&content),
            ..Claims::default()
        })
    }

    /// Prepares the report under its signer's credential, to be signed and finished.
    pub fn prepare(&self, credential: &[u8]) -> Unsigned {
        self.with_claims(|claims| Unsigned::prepare(Kind::Movement, credential, claims))
    }

    /// The report as a device writes it for which nobody signs.
    ///
    /// # Errors
    /// More bytes than a code holds.
    pub fn unsigned(&self) -> Result<Vec<u8>, MovementError> {
        Self::fitting(self.with_claims(|claims| claims.to_bytes()))
    }

    /// Bytes that every reader takes: in the one spelling, and no more than a code holds.
    ///
    /// # Errors
    /// Too many; or what no reader takes, such as a serial number twice.
    pub fn fitting(bytes: Vec<u8>) -> Result<Vec<u8>, MovementError> {
        if bytes.len() > Limits::CODE.bytes {
            return Err(MovementError::TooLarge(bytes.len()));
        }
        ReceivedMovement::open(&bytes)?;
        Ok(bytes)
    }
}

#[derive(Default)]
struct Fields {
    event: Option<i64>,
    origin: Option<([u8; 16], JournalEnd, Option<Digest>)>,
    happened: Option<Time>,
    cause: Option<i64>,
    seal: Option<Digest>,
    shown: Option<VerdictShown>,
    aircraft: Option<Name>,
    place: Option<GridRef>,
    photos: Vec<Digest>,
    pieces: Vec<PieceState>,
    note: Option<Note>,
}

fn parse(payload: &[u8]) -> Result<Movement, MovementError> {
    let Claims {
        subject: Some(load),
        expires: None,
        issued: Some(issued),
        key: None,
        scope: None,
        ours: Some(content),
    } = Claims::parse(payload)?
    else {
        return Err(ShapeError("claims of a movement report").into());
    };
    let mut fields = Fields::default();
    Reader::new(content).map("content of a movement report", |key, reader| {
        match key {
            1 => fields.event = Some(reader.int("event")?),
            2 => fields.origin = Some(origin(reader)?),
            3 => fields.happened = Some(reader.time("time of the event")?),
            4 => fields.cause = Some(reader.int("cause")?),
            5 => fields.seal = Some(digest(reader, "seal")?),
            6 => fields.shown = Some(shown(reader)?),
            7 => fields.aircraft = Some(reader.line("aircraft", Name::received)?),
            8 => fields.place = Some(reader.line("place", GridRef::new)?),
            9 => {
                fields.photos =
                    some(reader.list(MOST_PHOTOS, "photographs", |reader| digest(reader, "photograph"))?)?
            }
            10 => fields.pieces = some(reader.list(MOST_PIECES, "pieces", piece)?)?,
            11 => fields.note = Some(reader.line("note", Note::received)?),
            _ => return Ok(false),
        }
        Ok(true)
    })?;
    let missing = || ShapeError("content of a movement report");
    let event = fields.event.ok_or_else(missing)?;
    let event = MovementEvent::from_codes(event, fields.cause).ok_or(ShapeError("event"))?;
    let (device, journal, before) = fields.origin.ok_or_else(missing)?;
    // Written at once, it has one time: a second spelling of it is refused.
    if fields.happened.is_some_and(|happened| happened >= issued) {
        return Err(ShapeError("time of the event").into());
    }
    let serials: std::collections::BTreeSet<&Serial> =
        fields.pieces.iter().map(|piece| &piece.serial).collect();
    if serials.len() != fields.pieces.len() {
        return Err(ShapeError("a piece twice").into());
    }
    Ok(Movement {
        load: Reader::line_of(load, "load number", LoadNumber::new)?,
        event,
        issued,
        happened: fields.happened,
        device,
        journal,
        before,
        seal: fields.seal,
        shown: fields.shown,
        aircraft: fields.aircraft,
        place: fields.place,
        photos: fields.photos,
        pieces: fields.pieces,
        note: fields.note,
    })
}

/// An empty list is left out by our writer; written, it would be a second spelling.
fn some<T>(list: Vec<T>) -> Result<Vec<T>, ShapeError> {
    if list.is_empty() { Err(ShapeError("empty list")) } else { Ok(list) }
}

fn digest(reader: &mut Reader<'_>, part: &'static str) -> Result<Digest, ShapeError> {
    Ok(Digest::from_bytes(reader.fixed(part)?))
}

fn origin(reader: &mut Reader<'_>) -> Result<([u8; 16], JournalEnd, Option<Digest>), ShapeError> {
    reader.array(4, "origin")?;
    let device = reader.fixed("device")?;
    let seq = reader.small("number of an entry")?;
    let end = JournalEnd { seq, digest: digest(reader, "end of the journal")? };
    let before = reader.maybe("report before", |reader| digest(reader, "report before"))?;
    Ok((device, end, before))
}

fn shown(reader: &mut Reader<'_>) -> Result<VerdictShown, ShapeError> {
    reader.array(2, "verdict")?;
    let verdict = ShownVerdict::from_code(reader.int("verdict")?).ok_or(ShapeError("verdict"))?;
    let reason = reader
        .maybe("reason", |reader| ShownReason::new(reader.text("reason")?).ok_or(ShapeError("reason")))?;
    Ok(VerdictShown { verdict, reason })
}

fn piece(reader: &mut Reader<'_>) -> Result<PieceState, ShapeError> {
    reader.array(2, "piece")?;
    let serial = reader.line("serial number", Serial::received)?;
    let flags: u8 = reader.small("state of a piece")?;
    if !(1..=3).contains(&flags) {
        return Err(ShapeError("state of a piece"));
    }
    Ok(PieceState { serial, back: flags & 1 != 0, damaged: flags & 2 != 0 })
}

const _: () = assert!(RefusalCause::ALL.len() == 9, "the causes stand in the CDDL above");
