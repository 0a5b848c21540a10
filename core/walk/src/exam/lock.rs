use super::{ExamError, PlantedList, Salt, Standard};
use crate::procedure::Expanded;
use slingseal_message::envelope::{Claims, Kind, Limits, Reader, Sign1, Unsigned, Writer};
use slingseal_words::{Digest, LoadNumber, ProcedureId, Time};

/// An instructor's lock on what is planted: shown before the student starts, so that the list cannot change afterwards. It
/// holds no word of the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lock {
    /// The load.
    pub load: LoadNumber,
    /// When it was locked.
    pub locked: Time,
    /// SHA-256 of the tag on the load.
    pub tag: Digest,
    /// The procedure.
    pub procedure: ProcedureId,
    /// Its edition.
    pub version: u32,
    /// SHA-256 of its file.
    pub procedure_digest: Digest,
    /// What a student has to reach.
    pub standard: Standard,
    /// The salted digest of what is planted.
    pub planted: Digest,
}

impl Lock {
    /// Prepares the lock under the instructor's credential, to be signed and finished.
    ///
    /// ```cddl
    /// lock    = message  ; header { 1: -19, 13: the instructor's credential }
    ///                    ; claims { 2: load number, 6: locked, -65537: content }
    /// content = [tag: bstr .size 32, procedure: tstr, version: uint, procedure-digest: bstr .size 32,
    ///            standard, planted: bstr .size 32]
    /// ```
    pub fn prepare(&self, credential: &[u8]) -> Unsigned {
        let mut out = Writer::new();
        out.array(6).bytes(self.tag.as_bytes()).text(self.procedure.as_str()).int(self.version.into());
        out.bytes(self.procedure_digest.as_bytes());
        self.standard.write(&mut out);
        out.bytes(self.planted.as_bytes());
        let content = out.into_bytes();
        let claims = Claims::statement(self.load.as_str(), self.locked, &content);
        Unsigned::prepare(Kind::ExamKey, credential, &claims)
    }

    /// Reads a lock; believe nothing of it before the signer is known.
    ///
    /// # Errors
    /// Bytes that are not a lock in its only spelling.
    pub fn open(bytes: &[u8]) -> Result<(Self, Sign1<'_>), ExamError> {
        let message = Sign1::parse(bytes, Limits::CODE)?;
        let (load, locked, content) =
            Claims::parse(message.payload)?.read_statement("claims of an examination key")?;
        let mut reader = Reader::new(content);
        reader.array(6, "content of an examination key")?;
        let lock = Self {
            load: Reader::line_of(load, "load number", LoadNumber::new)?,
            locked,
            tag: Digest::from_bytes(reader.fixed("tag")?),
            procedure: reader.line("procedure", ProcedureId::new)?,
            version: reader.small("version")?,
            procedure_digest: Digest::from_bytes(reader.fixed("procedure digest")?),
            standard: Standard::read(&mut reader)?,
            planted: Digest::from_bytes(reader.fixed("planted")?),
        };
        Ok((lock, message))
    }

    /// Whether the list is the one that was locked.
    ///
    /// # Errors
    /// It is not, or not as many as the standard says.
    pub fn opens_with(&self, list: &PlantedList, salt: &Salt) -> Result<(), ExamError> {
        let same = list.digest(salt) == self.planted && list.len() == usize::from(self.standard.planted());
        if same { Ok(()) } else { Err(ExamError::KeyChanged) }
    }

    /// Whether a procedure is the very one that was locked.
    ///
    /// # Errors
    /// Another, or another edition.
    pub fn is_for(&self, plan: &Expanded) -> Result<(), ExamError> {
        if plan.digest == self.procedure_digest && plan.id == self.procedure {
            return Ok(());
        }
        Err(ExamError::OtherProcedure {
            locked: format!("{} version {}", self.procedure, self.version),
            found: format!("{} version {}", plan.id, plan.version),
        })
    }
}
