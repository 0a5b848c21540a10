use crate::envelope::{Claims, Kind, Limits, Reader, ShapeError, Sign1, Sign1Error, Unsigned, Writer};
use slingseal_catalogue::Saying;
use slingseal_words::{Digest, LoadNumber, ProcedureId, Quantity, Time};

/// What the inspector decided.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Fit to fly.
    Fit,
    /// Not fit to fly.
    NotFit,
}

/// The first 16 bytes of the SHA-256 of a tag as it hangs on the load. Two tags that share it take 2^64 work to make,
/// and must still agree in load number and mass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct TagPrint(pub [u8; 16]);

impl TagPrint {
    /// The print of a tag's digest.
    pub fn of(digest: &Digest) -> Self {
        let mut print = [0; 16];
        print.iter_mut().zip(digest.as_bytes()).for_each(|(to, from)| *to = *from);
        Self(print)
    }
}

/// The inspector's attestation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seal {
    /// The load that was inspected.
    pub load: LoadNumber,
    /// When.
    pub issued: Time,
    /// Until when it may be relied on.
    pub valid_until: Time,
    /// The tag that hung on it.
    pub tag: TagPrint,
    /// Whether a trusted planner had signed that tag.
    pub tag_signed: bool,
    /// The procedure that was walked.
    pub procedure: ProcedureId,
    /// Its version.
    pub version: u32,
    /// The first four bytes of its digest, to tell two texts of one version apart; the record has the whole.
    pub procedure_print: [u8; 4],
    /// What was decided.
    pub outcome: Outcome,
    /// How many deficiencies were found.
    pub found: u16,
    /// How many of them were put right and looked at again.
    pub corrected: u16,
    /// The gross mass.
    pub mass: Quantity,
    /// SHA-256 of the full record.
    pub record: Digest,
}

/// Why bytes are not a seal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SealError {
    /// Not a signed message.
    Form(Sign1Error),
    /// Not built as a seal.
    Shape(ShapeError),
}

impl SealError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Form(error) => error.saying(),
            Self::Shape(error) => error.saying(),
        }
    }
}

slingseal_catalogue::error_by_saying!(SealError);

impl From<Sign1Error> for SealError {
    fn from(error: Sign1Error) -> Self {
        Self::Form(error)
    }
}

impl From<ShapeError> for SealError {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

/// A seal as received, with what it says: not yet verified.
///
/// ```cddl
/// seal    = message  ; header { 1: -19, 13: the inspector's credential }
///                    ; claims { 2: load number, 4: valid until, 6: issued, -65537: content }
/// content = [tag print: bstr .size 16, flags: 0..3, procedure: tstr, version: uint,
///            procedure print: bstr .size 4, found: uint, corrected: uint, quantity,
///            record: bstr .size 32]              ; flags: 1 fit, 2 tag signed; a quantity is two items, and a mass above zero;
///                                                ; corrected <= found; issued <= valid until
/// ```
#[derive(Clone, Debug)]
pub struct ReceivedSeal<'b> {
    /// What it says.
    pub seal: Seal,
    /// The signed message.
    pub message: Sign1<'b>,
}

impl<'b> ReceivedSeal<'b> {
    /// Reads a seal; believe nothing of it before the signer is known.
    ///
    /// # Errors
    /// Bytes that are not a seal in its only spelling.
    pub fn open(bytes: &'b [u8]) -> Result<Self, SealError> {
        let message = Sign1::parse(bytes, Limits::CODE)?;
        let Claims {
            subject: Some(load),
            expires: Some(valid_until),
            issued: Some(issued),
            key: None,
            scope: None,
            ours: Some(content),
        } = Claims::parse(message.payload)?
        else {
            return Err(ShapeError("claims of a seal").into());
        };
        let load = Reader::line_of(load, "load number", LoadNumber::new)?;
        // It would end before it begins: no clock could say when it holds.
        if valid_until < issued {
            return Err(ShapeError("validity of a seal").into());
        }
        let seal = content_of(content, load, issued, valid_until)?;
        Ok(Self { seal, message })
    }
}

impl Seal {
    /// Prepares the seal under the inspector's credential, to be signed and finished.
    pub fn prepare(&self, credential: &[u8]) -> Unsigned {
        let mut out = Writer::new();
        let flags = i64::from(self.outcome == Outcome::Fit) + 2 * i64::from(self.tag_signed);
        out.array(10).bytes(&self.tag.0).int(flags).text(self.procedure.as_str());
        out.int(self.version.into()).bytes(&self.procedure_print);
        out.int(self.found.into())
            .int(self.corrected.into())
            .quantity(self.mass)
            .bytes(self.record.as_bytes());
        let content = out.into_bytes();
        let claims = Claims {
            subject: Some(self.load.as_str()),
            expires: Some(self.valid_until),
            issued: Some(self.issued),
            ours: Some(&content),
            ..Claims::default()
        };
        Unsigned::prepare(Kind::Seal, credential, &claims)
    }
}

fn content_of(content: &[u8], load: LoadNumber, issued: Time, valid_until: Time) -> Result<Seal, ShapeError> {
    let mut reader = Reader::new(content);
    reader.array(10, "content of a seal")?;
    let tag = TagPrint(reader.fixed("tag")?);
    let flags: u8 = reader.small("flags")?;
    if flags > 3 {
        return Err(ShapeError("flags"));
    }
    let seal = Seal {
        load,
        issued,
        valid_until,
        tag,
        tag_signed: flags & 2 != 0,
        procedure: reader.line("procedure", ProcedureId::new)?,
        version: reader.small("version")?,
        procedure_print: reader.fixed("procedure")?,
        outcome: if flags & 1 != 0 { Outcome::Fit } else { Outcome::NotFit },
        found: reader.small("found")?,
        corrected: reader.small("corrected")?,
        mass: reader.mass("mass")?,
        record: Digest::from_bytes(reader.fixed("record")?),
    };
    if seal.corrected > seal.found { Err(ShapeError("corrected")) } else { Ok(seal) }
}
