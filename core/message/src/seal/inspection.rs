use super::claims::{Outcome, SealError};
use crate::envelope::{Claims, Kind, Limits, Reader, ShapeError, Sign1, Unsigned, Writer};
use crate::trust::Edition;
use slingseal_words::{Digest, LineError, Note, ProcedureId, Serial, Time};

/// What an inspection without a load is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum InspectedSubject {
    /// A piece of gear, by its serial number.
    Piece,
    /// An aircraft's hooks.
    Aircraft,
    /// A pickup or landing zone and the people on it.
    Zone,
    /// What was done with an inspected load: hookup, release, derigging.
    Handling,
}

impl InspectedSubject {
    /// Every subject, in the order of their numbers in messages, which count from 1.
    pub const ALL: [Self; 4] = [Self::Piece, Self::Aircraft, Self::Zone, Self::Handling];

    /// The word for commands, exports and other programs.
    pub fn word(self) -> &'static str {
        match self {
            Self::Piece => "piece",
            Self::Aircraft => "aircraft",
            Self::Zone => "zone",
            Self::Handling => "handling",
        }
    }

    fn code(self) -> i64 {
        match self {
            Self::Piece => 1,
            Self::Aircraft => 2,
            Self::Zone => 3,
            Self::Handling => 4,
        }
    }
}

/// An inspector's word on what is no load. Of a piece it says until when it is fit, or that it is withdrawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SignedInspection {
    /// What it is of.
    pub subject: InspectedSubject,
    /// Serial number, aircraft, zone or load number.
    pub name: Serial,
    /// When it was signed.
    pub issued: Time,
    /// Until when it is fit, where that was said; never where it was found not fit.
    pub fit_until: Option<Time>,
    /// What was decided. A piece that is not fit is withdrawn.
    pub outcome: Outcome,
    /// The edition of the procedure that was walked.
    pub edition: Edition,
    /// How many deficiencies were found.
    pub found: u16,
    /// How many of them were corrected and reinspected.
    pub corrected: u16,
    /// What was found, where it is not fit.
    pub why: Option<Note>,
    /// SHA-256 of the full record.
    pub record: Digest,
}

/// An inspection as received: not yet verified.
///
/// ```cddl
/// inspection = message ; header { 1: -19, 13: the inspector's credential }
///                      ; claims { 2: name, ? 4: fit until, 6: issued, -65537: content }
/// content    = [subject: 1..4, outcome: 0 / 1, procedure: tstr, version: 1..9999, thumbprint: bstr .size 16,
///               found: uint, corrected: uint, why: tstr / null, record: bstr .size 32]
///            ; subject: a piece, an aircraft's hooks, a zone, what was done with a load; outcome 1: fit;
///            ; corrected <= found; fit: corrected = found and no why; not fit: no "fit until"; issued <= fit until
/// ```
#[derive(Clone, Debug)]
pub struct ReceivedInspection<'b> {
    /// What it says.
    pub inspection: SignedInspection,
    /// The signed message.
    pub message: Sign1<'b>,
}

impl<'b> ReceivedInspection<'b> {
    /// Reads an inspection; believe nothing of it before the signer is known.
    ///
    /// # Errors
    /// Bytes that are not an inspection in its only spelling.
    pub fn open(bytes: &'b [u8]) -> Result<Self, SealError> {
        let message = Sign1::parse(bytes, Limits::CODE)?;
        let Claims {
            subject: Some(name),
            expires: fit_until,
            issued: Some(issued),
            key: None,
            scope: None,
            ours: Some(content),
        } = Claims::parse(message.payload)?
        else {
            return Err(ShapeError("claims of an inspection").into());
        };
        let name = Reader::line_of(name, "name", Serial::received)?;
        let inspection = content_of(content, name, issued, fit_until)?;
        Ok(Self { inspection, message })
    }
}

/// The procedure that a withdrawal names which no walk stands behind.
const WITHDRAWAL: &str = "withdrawal";

impl SignedInspection {
    /// A leader's word that a piece is out of service, which no walk stands behind: it names the procedure `withdrawal` and the
    /// thumbprint of an empty text.
    ///
    /// # Errors
    /// None that is known: the procedure's name is one.
    pub fn withdrawal(piece: Serial, issued: Time, why: Note) -> Result<Self, LineError> {
        let edition = Edition::of(ProcedureId::new(WITHDRAWAL)?, 1, Digest::of(b""));
        Ok(Self {
            subject: InspectedSubject::Piece,
            issued,
            fit_until: None,
            outcome: Outcome::NotFit,
            edition,
            found: 1,
            corrected: 0,
            why: Some(why),
            record: Digest::of_parts(&[b"slingseal withdrawal 1", piece.as_str().as_bytes()]),
            name: piece,
        })
    }

    /// Whether no walk stands behind it.
    pub fn is_withdrawal(&self) -> bool {
        self.subject == InspectedSubject::Piece && self.edition.procedure.as_str() == WITHDRAWAL
    }

    /// Prepares it under the inspector's credential, to be signed and finished.
    pub fn prepare(&self, credential: &[u8]) -> Unsigned {
        let mut out = Writer::new();
        out.array(9).int(self.subject.code()).int((self.outcome == Outcome::Fit).into());
        out.text(self.edition.procedure.as_str()).int(self.edition.version.into());
        out.bytes(&self.edition.thumbprint).int(self.found.into()).int(self.corrected.into());
        out.maybe(self.why.as_ref(), |out, why| out.text(why.as_str()));
        out.bytes(self.record.as_bytes());
        let content = out.into_bytes();
        let claims = Claims {
            subject: Some(self.name.as_str()),
            expires: self.fit_until,
            issued: Some(self.issued),
            ours: Some(&content),
            ..Claims::default()
        };
        Unsigned::prepare(Kind::Inspection, credential, &claims)
    }
}

fn content_of(
    content: &[u8],
    name: Serial,
    issued: Time,
    fit_until: Option<Time>,
) -> Result<SignedInspection, ShapeError> {
    let mut reader = Reader::new(content);
    reader.array(9, "content of an inspection")?;
    let code = reader.int("subject")?;
    let subject = InspectedSubject::ALL.into_iter().find(|subject| subject.code() == code);
    let outcome = match reader.int("outcome")? {
        0 => Outcome::NotFit,
        1 => Outcome::Fit,
        _ => return Err(ShapeError("outcome")),
    };
    let procedure = reader.line("procedure", ProcedureId::new)?;
    let inspection = SignedInspection {
        subject: subject.ok_or(ShapeError("subject"))?,
        name,
        issued,
        fit_until,
        outcome,
        edition: Edition::of_content(procedure, &mut reader, "edition")?,
        found: reader.small("found")?,
        corrected: reader.small("corrected")?,
        why: reader.maybe("why", |reader| reader.line("why", Note::received))?,
        record: Digest::from_bytes(reader.fixed("record")?),
    };
    let fit = outcome == Outcome::Fit;
    let counts =
        inspection.corrected <= inspection.found && (!fit || inspection.corrected == inspection.found);
    let told = if fit { inspection.why.is_none() } else { fit_until.is_none() };
    let in_order = fit_until.is_none_or(|until| until >= issued);
    if counts && told && in_order { Ok(inspection) } else { Err(ShapeError("content of an inspection")) }
}
