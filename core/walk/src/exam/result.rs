use super::{ExamError, Lock, Outcome, PlantedList, Salt, Score, Standard, Timing};
use slingseal_catalogue::faults as words;
use slingseal_message::envelope::{Claims, Kind, Limits, Reader, ShapeError, Sign1, Unsigned, Writer};
use slingseal_words::{CallSign, Digest, LoadNumber, ProcedureId, Seconds, Time};

/// The figures of a result.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tally {
    /// Planted deficiencies that were found.
    pub found: u8,
    /// Calls where nothing was wrong.
    pub false_calls: u16,
    /// The time, without stretches in which the clock jumped.
    pub seconds: Seconds,
    /// How often the clock jumped.
    pub jumps: u16,
    /// What it comes to.
    pub outcome: Outcome,
}

impl Tally {
    /// The figures of a scored run.
    pub fn of(score: &Score, timing: &Timing) -> Self {
        Self {
            found: u8::try_from(score.found()).unwrap_or(u8::MAX),
            false_calls: u16::try_from(score.false_calls.len()).unwrap_or(u16::MAX),
            seconds: timing.seconds,
            jumps: u16::try_from(timing.jumps.len()).unwrap_or(u16::MAX),
            outcome: score.outcome,
        }
    }
}

/// The instructor's signed word on a run. It speaks of a student and never of a load: no seal, no inspection. It reveals the
/// list and its salt, so that anyone can hold them against the lock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExamResult {
    /// Who was examined.
    pub student: CallSign,
    /// When it was signed.
    pub issued: Time,
    /// On which load.
    pub load: LoadNumber,
    /// By which procedure.
    pub procedure: ProcedureId,
    /// In which edition.
    pub version: u32,
    /// SHA-256 of the lock's bytes.
    pub key: Digest,
    /// SHA-256 of the sheet's bytes.
    pub sheet: Digest,
    /// When the run began.
    pub began: Time,
    /// The standard of the lock.
    pub standard: Standard,
    /// The figures.
    pub tally: Tally,
    /// The salt of the list.
    pub salt: Salt,
    /// What was planted.
    pub planted: PlantedList,
}

impl ExamResult {
    /// Prepares the result under the instructor's credential, to be signed and finished.
    ///
    /// ```cddl
    /// result  = message  ; header { 1: -19, 13: the instructor's credential }
    ///                    ; claims { 2: student, 6: issued, -65537: content }
    /// content = [load: tstr, procedure: tstr, version: uint, key: bstr .size 32, sheet: bstr .size 32, began: uint,
    ///            standard, [found: uint, false-calls: uint, seconds: uint, jumps: uint, outcome: 0 failed / 1 passed / 2 unclear],
    ///            salt: bstr .size 16, list]
    /// ```
    pub fn prepare(&self, credential: &[u8]) -> Unsigned {
        let mut out = Writer::new();
        out.array(10).text(self.load.as_str()).text(self.procedure.as_str()).int(self.version.into());
        out.bytes(self.key.as_bytes()).bytes(self.sheet.as_bytes()).int(self.began.unix());
        self.standard.write(&mut out);
        let tally = &self.tally;
        out.array(5).int(tally.found.into()).int(tally.false_calls.into()).int(tally.seconds.0);
        out.int(tally.jumps.into()).int(tally.outcome.code());
        out.bytes(&self.salt);
        self.planted.write(&mut out);
        let content = out.into_bytes();
        let claims = Claims::statement(self.student.as_str(), self.issued, &content);
        Unsigned::prepare(Kind::ExamResult, credential, &claims)
    }

    /// Reads a result; believe nothing of it before the signer is known.
    ///
    /// # Errors
    /// Bytes that are not a result in its only spelling.
    pub fn open(bytes: &[u8]) -> Result<(Self, Sign1<'_>), ExamError> {
        let message = Sign1::parse(bytes, Limits::CODE)?;
        let (student, issued, content) =
            Claims::parse(message.payload)?.read_statement("claims of an examination result")?;
        let mut reader = Reader::new(content);
        reader.array(10, "content of an examination result")?;
        let result = Self {
            student: Reader::line_of(student, "student", CallSign::received)?,
            issued,
            load: reader.line("load number", LoadNumber::new)?,
            procedure: reader.line("procedure", ProcedureId::new)?,
            version: reader.small("version")?,
            key: Digest::from_bytes(reader.fixed("key")?),
            sheet: Digest::from_bytes(reader.fixed("sheet")?),
            began: moment(&mut reader)?,
            standard: Standard::read(&mut reader)?,
            tally: tally(&mut reader)?,
            salt: reader.fixed("salt")?,
            planted: PlantedList::read(&mut reader)?,
        };
        Ok((result, message))
    }

    /// Whether this is a result under a lock: the same key, load, procedure and standard, and the list is the one that was
    /// locked.
    ///
    /// # Errors
    /// What does not agree.
    pub fn is_under(&self, lock: &Lock, lock_digest: &Digest) -> Result<(), ExamError> {
        if self.key != *lock_digest {
            return Err(ExamError::OtherKey { what: "result" });
        }
        for (same, about) in [
            (self.load == lock.load, words::PartLoad.saying()),
            (self.procedure == lock.procedure && self.version == lock.version, words::PartProcedure.saying()),
            (self.standard == lock.standard, words::PartStandard.saying()),
        ] {
            if !same {
                return Err(ExamError::Disagrees { about });
            }
        }
        lock.opens_with(&self.planted, &self.salt)
    }

    /// Whether the figures are those of the run.
    ///
    /// # Errors
    /// What does not agree.
    pub fn agrees(&self, student: &CallSign, score: &Score, timing: &Timing) -> Result<(), ExamError> {
        for (same, about) in [
            (slingseal_words::same_person(student, &self.student), words::PartStudent.saying()),
            (timing.began == self.began, words::PartTime.saying()),
            (Tally::of(score, timing) == self.tally, words::PartScore.saying()),
        ] {
            if !same {
                return Err(ExamError::Disagrees { about });
            }
        }
        Ok(())
    }
}

fn moment(reader: &mut Reader<'_>) -> Result<Time, ShapeError> {
    let seconds = reader.int("beginning")?;
    let time = Time::from_unix(seconds);
    if seconds >= 0 && time.unix() == seconds { Ok(time) } else { Err(ShapeError("beginning")) }
}

fn tally(reader: &mut Reader<'_>) -> Result<Tally, ShapeError> {
    const PART: &str = "figures";
    reader.array(5, PART)?;
    let tally = Tally {
        found: reader.small(PART)?,
        false_calls: reader.small(PART)?,
        seconds: Seconds(reader.small::<u32>(PART)?.into()),
        jumps: reader.small(PART)?,
        outcome: Outcome::of_code(reader.int(PART)?).ok_or(ShapeError(PART))?,
    };
    Ok(tally)
}
