//! What a person reports of a load, as it is asked for.

use crate::AppError;
use slingseal_catalogue::movement as movement_words;
use slingseal_message::movement::{MovementEvent, MovementKind, PieceState, RefusalCause};
use slingseal_words::Serial;

/// What a person reports.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReportRequest {
    /// The load number, or the text of its tag; none: the load of the verdict that was shown last, with that verdict.
    pub load: Option<String>,
    /// What happened.
    pub event: MovementKind,
    /// Why, of a refusal and of nothing else.
    pub cause: Option<RefusalCause>,
    /// When it happened, seconds since 1970; none: now.
    pub happened: Option<i64>,
    /// The aircraft that took it.
    pub aircraft: Option<String>,
    /// Where, MGRS.
    pub place: Option<String>,
    /// Digests of photographs that were taken in.
    pub photos: Vec<String>,
    /// Pieces of equipment that go back or are damaged.
    pub pieces: Vec<PieceReport>,
    /// More, in a person's words.
    pub note: Option<String>,
}

impl ReportRequest {
    /// That this happened to the load of the verdict that was shown last, now; nothing more is said.
    pub fn of(event: MovementKind) -> Self {
        Self {
            load: None,
            event,
            cause: None,
            happened: None,
            aircraft: None,
            place: None,
            photos: Vec::new(),
            pieces: Vec::new(),
            note: None,
        }
    }
}

/// What a person says of a piece of equipment.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PieceReport {
    /// Its serial number.
    pub serial: String,
    /// Whether it goes back from here.
    pub back: bool,
    /// Whether it is damaged.
    pub damaged: bool,
}

pub(super) fn some(text: Option<&String>) -> Option<&str> {
    text.map(|text| text.trim()).filter(|text| !text.is_empty())
}

pub(super) fn event_of(request: &ReportRequest) -> Result<MovementEvent, AppError> {
    let event = request.event.because(request.cause).ok_or_else(|| match request.cause {
        None => {
            let causes = RefusalCause::ALL.map(RefusalCause::word).join(", ");
            AppError::bad_input(movement_words::RefusalNeedsCause { causes })
        }
        Some(_) => AppError::bad_input(movement_words::OnlyRefusalHasCause),
    })?;
    if event.cause().is_some_and(RefusalCause::needs_note) && some(request.note.as_ref()).is_none() {
        return Err(AppError::bad_input(movement_words::OtherCauseNeedsNote));
    }
    if event == MovementEvent::Returned && !request.pieces.iter().any(|piece| piece.back) {
        return Err(AppError::bad_input(movement_words::NameEachPieceBack));
    }
    Ok(event)
}

pub(super) fn pieces_of(request: &ReportRequest) -> Result<Vec<PieceState>, AppError> {
    let mut pieces: Vec<PieceState> = Vec::new();
    for piece in &request.pieces {
        let serial = Serial::new(&piece.serial)?;
        if pieces.iter().any(|known| known.serial == serial) {
            return Err(AppError::bad_input(movement_words::PieceNamedTwice { serial: &serial }));
        }
        if !piece.back && !piece.damaged {
            return Err(AppError::bad_input(movement_words::SayBackOrDamaged { serial: &serial }));
        }
        pieces.push(PieceState { serial, back: piece.back, damaged: piece.damaged });
    }
    Ok(pieces)
}
