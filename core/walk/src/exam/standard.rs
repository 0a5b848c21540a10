use super::ExamError;
use super::plant::MOST_PLANTED;
use slingseal_catalogue::exams as exam_words;
use slingseal_message::envelope::{Reader, ShapeError, Writer};
use slingseal_words::Seconds;

/// What a student has to reach. The school sets its own; three of four in two minutes a load is what is commonly asked
/// (common practice, no published source).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Standard {
    least: u8,
    planted: u8,
    within: Seconds,
    false_calls: u8,
}

impl Standard {
    /// The longest time that may be given: a day's work stands beside no stopwatch.
    pub const LONGEST: Seconds = Seconds::hours(4);

    /// Find `least` of `planted` within a time, with at most so many calls where nothing is wrong.
    ///
    /// # Errors
    /// Nought or more than is planted to be found; no time, or more than four hours.
    pub fn new(least: u8, planted: u8, within: Seconds, false_calls: u8) -> Result<Self, ExamError> {
        if planted == 0 || usize::from(planted) > MOST_PLANTED {
            return Err(ExamError::Standard(exam_words::StandardOfPlanted.into()));
        }
        if least == 0 || least > planted {
            return Err(ExamError::Standard(exam_words::StandardAsksWrong.into()));
        }
        if within.0 <= 0 || within > Self::LONGEST {
            return Err(ExamError::Standard(exam_words::StandardTimeWrong.into()));
        }
        Ok(Self { least, planted, within, false_calls })
    }

    /// How many must be found.
    pub fn least(self) -> u8 {
        self.least
    }

    /// How many are planted.
    pub fn planted(self) -> u8 {
        self.planted
    }

    /// The time.
    pub fn within(self) -> Seconds {
        self.within
    }

    /// How many calls where nothing is wrong are let pass.
    pub fn false_calls(self) -> u8 {
        self.false_calls
    }

    /// What a run comes to. Too few found, too many false calls or too long a time is a fail whatever the clock did; all
    /// else with a clock that jumped is unclear, since nobody knows how long it took.
    pub fn outcome(self, found: usize, false_calls: usize, seconds: Seconds, clock_jumped: bool) -> Outcome {
        let reached = found >= usize::from(self.least)
            && false_calls <= usize::from(self.false_calls)
            && seconds <= self.within;
        match (reached, clock_jumped) {
            (false, _) => Outcome::Failed,
            (true, true) => Outcome::Unclear,
            (true, false) => Outcome::Passed,
        }
    }

    /// ```cddl
    /// standard = [least: uint, planted: uint, seconds: uint, false-calls: uint]
    /// ```
    pub(super) fn write(self, out: &mut Writer) {
        out.array(4).int(self.least.into()).int(self.planted.into());
        out.int(self.within.0).int(self.false_calls.into());
    }

    pub(super) fn read(reader: &mut Reader<'_>) -> Result<Self, ShapeError> {
        const PART: &str = "standard";
        reader.array(4, PART)?;
        let (least, planted) = (reader.small(PART)?, reader.small(PART)?);
        let (within, false_calls) = (Seconds(reader.int(PART)?), reader.small(PART)?);
        Self::new(least, planted, within, false_calls).map_err(|_| ShapeError(PART))
    }
}

/// What a run came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// The standard was reached.
    Passed,
    /// It was not.
    Failed,
    /// Enough was found, and the clock jumped: nobody knows in what time. To be run again.
    Unclear,
}

impl Outcome {
    /// The word for views, exports and commands.
    pub fn word(self) -> &'static str {
        match self {
            Self::Passed => "passed",
            Self::Failed => "failed",
            Self::Unclear => "unclear",
        }
    }

    pub(super) fn code(self) -> i64 {
        match self {
            Self::Failed => 0,
            Self::Passed => 1,
            Self::Unclear => 2,
        }
    }

    pub(super) fn of_code(code: i64) -> Option<Self> {
        [Self::Passed, Self::Failed, Self::Unclear].into_iter().find(|outcome| outcome.code() == code)
    }
}
