//! What a person does at the load, and how the walk takes it.

use serde::Serialize;
use slingseal_catalogue::refusals as words;

use crate::AppError;
use slingseal_walk::procedure::{CardNo, Kind};
use slingseal_walk::walk::{Again, Command, FindingNo, Outcome, Sighting, Value, Walk};
use slingseal_words::{CallSign, Digest, Note, PointId, Quantity, Serial};

/// What a person does at the load. Every answer names the card on the screen, so that a second press does not answer a
/// card that nobody has read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WalkRequest {
    /// The whole card is good.
    CardGood {
        /// The card on the screen.
        card: u32,
    },
    /// One point is answered: a number, an option's name, a measure with its unit, a serial, a text; empty is good.
    Answer {
        /// The card on the screen.
        card: u32,
        /// Which point.
        point: String,
        /// With what.
        value: String,
    },
    /// A deficiency.
    Deficiency {
        /// The card on the screen.
        card: u32,
        /// Which point.
        point: String,
        /// Its name in the procedure, or `other` with a note.
        name: String,
        /// In words.
        note: Option<String>,
        /// Digests of photographs that were taken in with `add_photo`.
        photos: Vec<String>,
    },
    /// One point does not apply to this load.
    NotApplicable {
        /// The card on the screen.
        card: u32,
        /// Which point.
        point: String,
        /// Why not.
        reason: String,
    },
    /// The piece that a finding rejects, where its serial number is not known yet.
    RejectPiece {
        /// Which finding.
        finding: u32,
        /// The piece's serial number.
        serial: String,
    },
    /// The riggers say that a finding is put right.
    PutRight {
        /// Which.
        finding: u32,
        /// Who did it.
        by: Option<String>,
        /// In words.
        note: Option<String>,
        /// Digests of photographs.
        photos: Vec<String>,
    },
    /// The inspector looked again.
    LookAgain {
        /// Which finding.
        finding: u32,
        /// Whether it is right now.
        good: bool,
        /// The new count, choice, measure or serial.
        value: Option<String>,
        /// In words.
        note: Option<String>,
        /// Digests of photographs.
        photos: Vec<String>,
    },
    /// Take back the last answer, by the number that the view gave.
    Undo {
        /// Its number.
        answer: u32,
    },
    /// Go to a card.
    GoTo {
        /// Which.
        card: u32,
    },
    /// Stop for a while.
    Pause,
    /// Go on.
    Resume,
    /// End without a decision.
    Abandon {
        /// Why.
        reason: String,
    },
    /// Decide.
    Decide {
        /// Fit or not.
        fit: bool,
        /// Why not.
        reason: Option<String>,
    },
    /// Take the decision back, as long as nothing is sealed.
    TakeBack,
}

pub(crate) fn command(request: &WalkRequest, walk: &Walk) -> Result<Command, AppError> {
    let card =
        |number: u32| CardNo::new(number).ok_or_else(|| AppError::bad_input(words::CardCardsCountFrom));
    let point = |id: &str| PointId::new(id).map_err(AppError::from);
    let by = || walk.ground().inspector.clone();
    Ok(match request {
        WalkRequest::CardGood { card: number } => Command::CardGood { card: card(*number)? },
        WalkRequest::Answer { card: number, point: id, value } => {
            let id = point(id)?;
            let value = value_of(walk, &id, value)?;
            Command::Answer { card: card(*number)?, point: id, value }
        }
        WalkRequest::Deficiency { card: number, point: id, name, note, photos } => Command::FindDeficiency {
            card: card(*number)?,
            point: point(id)?,
            name: name.clone(),
            sighting: sighting(note.as_deref(), photos)?,
        },
        WalkRequest::NotApplicable { card: number, point: id, reason } => Command::Answer {
            card: card(*number)?,
            point: point(id)?,
            value: Value::NotApplicable(Note::new(reason)?),
        },
        WalkRequest::RejectPiece { finding, serial } => {
            Command::RejectPiece { finding: FindingNo(*finding), serial: Serial::new(serial)? }
        }
        WalkRequest::PutRight { finding, by, note, photos } => Command::PutRight {
            finding: FindingNo(*finding),
            by: by.as_deref().map(CallSign::new).transpose()?,
            sighting: sighting(note.as_deref(), photos)?,
        },
        WalkRequest::LookAgain { finding, good, value, note, photos } => {
            let at = walk.finding(FindingNo(*finding)).map(|finding| finding.point.clone());
            let value = match (value.as_deref(), at) {
                (Some(value), Some(at)) => Some(value_of(walk, &at, value)?),
                _ => None,
            };
            Command::LookAgain {
                finding: FindingNo(*finding),
                by: by(),
                again: if *good { Again::Good } else { Again::StillDeficient },
                value,
                sighting: sighting(note.as_deref(), photos)?,
            }
        }
        WalkRequest::Undo { answer } => Command::Undo { answer: *answer },
        WalkRequest::GoTo { card: number } => Command::GoTo { card: card(*number)? },
        WalkRequest::Pause => Command::Pause,
        WalkRequest::Resume => Command::Resume { by: by() },
        WalkRequest::Abandon { reason } => Command::Abandon { reason: note(reason)? },
        WalkRequest::Decide { fit, reason } => Command::Decide {
            by: by(),
            outcome: if *fit { Outcome::Fit } else { Outcome::NotFit },
            // Nothing typed is no reason given, and not a reason of no words.
            reason: reason.as_deref().filter(|text| !text.trim().is_empty()).map(note).transpose()?,
        },
        WalkRequest::TakeBack => Command::TakeBackDecision { by: by() },
    })
}

/// Words that a person typed, as one line: a line break is taken as the end of a clause, and not refused.
///
/// # Errors
/// Nothing but blanks; more than a note holds.
pub(crate) fn note(text: &str) -> Result<Note, AppError> {
    let lines: Vec<&str> = text.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
    Ok(Note::new(&lines.join(" / "))?)
}

fn sighting(note_text: Option<&str>, photos: &[String]) -> Result<Sighting, AppError> {
    let photo = |text: &String| {
        Digest::from_hex(text).ok_or_else(|| AppError::bad_input(words::DigestPhotographAddPhotographFirst))
    };
    Ok(Sighting {
        note: note_text.filter(|text| !text.trim().is_empty()).map(note).transpose()?,
        photos: photos.iter().map(photo).collect::<Result<_, _>>()?,
    })
}

fn value_of(walk: &Walk, id: &PointId, text: &str) -> Result<Value, AppError> {
    let text = text.trim();
    let Some((_, point)) = walk.ground().plan.point(id) else { return Ok(Value::Good) };
    if text.is_empty() {
        return Ok(Value::Good);
    }
    Ok(match &point.kind {
        Kind::Look => Value::Good,
        Kind::Count(_) => {
            let number =
                text.parse().map_err(|_| AppError::bad_input(words::NoCountEnterNumber { text: &text }))?;
            Value::Count(number)
        }
        Kind::Choice(_) => Value::Choice(text.to_owned()),
        Kind::Measure { .. } => Value::Measure(
            Quantity::parse(text)
                .map_err(|error| AppError::bad_input(words::WriteANumberAndUnit { error: &error }))?,
        ),
        Kind::Serial { .. } => Value::Serial(Serial::new(text)?),
        Kind::Text { .. } => Value::Text(note(text)?),
    })
}
