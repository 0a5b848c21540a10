//! A report as it is shown.

use crate::view::hex;
use crate::{AppError, Inner, Stamp, VerdictWord};
use serde::Serialize;
use slingseal_catalogue::movement as words;
use slingseal_judgement::{Author, LoadWord, ReportWeight};
use slingseal_message::movement::{
    Movement, MovementEvent, MovementKind, PieceState, RefusalCause, ShownVerdict,
};
use slingseal_words::{GridRef, Language};

/// A report of what became of a load.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MovementView {
    /// What it goes by: the digest of its bytes.
    pub digest: String,
    /// The load.
    pub load: String,
    /// What sort of thing happened.
    #[serde(serialize_with = "crate::view::word")]
    pub event: MovementKind,
    /// Why, of a refusal.
    #[serde(serialize_with = "crate::view::word_or_empty")]
    pub cause: Option<RefusalCause>,
    /// What happened, as a person reads it.
    pub what: String,
    /// When it happened, by the reporter's clock.
    pub at: Stamp,
    /// When the report was written.
    pub written: Stamp,
    /// Whether it was given later than it happened.
    pub later: bool,
    /// Who signed it; none where nobody known here did.
    pub by: Option<String>,
    /// Who stands behind it, as a person reads it: a name, this device unsigned, or another device unsigned.
    pub origin: String,
    /// Whether it counts here; what nobody known signed is shown and decides nothing.
    pub counts: bool,
    /// The device that wrote it, as it says.
    pub device: String,
    /// The seal that it names, by its digest.
    pub seal: Option<String>,
    /// The verdict that had been shown.
    #[serde(serialize_with = "crate::view::word_or_null")]
    pub verdict: Option<VerdictWord>,
    /// The stable word of the first reason that had been shown.
    pub reason: Option<String>,
    /// The aircraft that took it.
    pub aircraft: Option<String>,
    /// Where.
    pub place: Option<String>,
    /// Digests of photographs.
    pub photos: Vec<String>,
    /// Pieces of equipment that go back or are damaged.
    pub pieces: Vec<MovedPiece>,
    /// More, in the reporter's words.
    pub note: Option<String>,
    /// Whether it was lifted although the verdict that had been shown was not GO.
    pub against: bool,
    /// What else it says, a line each as a person reads it: that it was given later, the verdict that had been shown, the aircraft, the
    /// place, each piece, the note.
    pub details: Vec<String>,
}

/// What a report says of a piece of equipment.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MovedPiece {
    /// Its serial number.
    pub serial: String,
    /// Whether it goes back.
    pub back: bool,
    /// Whether it is damaged.
    pub damaged: bool,
}

impl Inner {
    pub(crate) fn movement_view(&self, word: &LoadWord) -> Result<MovementView, AppError> {
        let Some(movement) = word.movement() else {
            return Err(AppError::internal("a report says what a report says"));
        };
        let language = self.language();
        let by = word.signer().map(|signer| signer.credential.holder.to_string());
        let counts = matches!(word.weight(), Some(ReportWeight::Counts { .. }));
        let device = hex(&movement.device);
        let short: String = device.chars().take(8).collect();
        let origin = match (&by, counts) {
            (Some(by), true) => by.clone(),
            (Some(by), false) => words::ReportOfLapsed { by: by.as_str() }.say(language),
            (None, true) => words::ReportOfThisDevice.say(language),
            (None, false) if *word.author() == Author::Unknown => words::ReportOfStranger.say(language),
            (None, false) => words::ReportOfOtherDevice { device: short.as_str() }.say(language),
        };
        let shown = movement.shown.as_ref();
        let piece = |piece: &PieceState| MovedPiece {
            serial: piece.serial.to_string(),
            back: piece.back,
            damaged: piece.damaged,
        };
        Ok(MovementView {
            digest: word.digest().to_string(),
            load: movement.load.to_string(),
            event: movement.event.kind(),
            cause: movement.event.cause(),
            what: movement.event.say(language),
            at: movement.at().into(),
            written: movement.issued.into(),
            later: movement.given_later(),
            by,
            origin,
            counts,
            device,
            seal: movement.seal.map(|seal| seal.to_string()),
            verdict: shown.map(|shown| shown.verdict.into()),
            reason: shown.and_then(|shown| shown.reason.as_ref()).map(|reason| reason.as_str().to_owned()),
            aircraft: movement.aircraft.as_ref().map(ToString::to_string),
            place: movement.place.as_ref().map(GridRef::spaced),
            photos: movement.photos.iter().map(ToString::to_string).collect(),
            pieces: movement.pieces.iter().map(piece).collect(),
            note: movement.note.as_ref().map(ToString::to_string),
            against: movement.event == MovementEvent::Lifted
                && shown.is_some_and(|shown| shown.verdict != ShownVerdict::Go),
            details: details(movement, language),
        })
    }
}

/// What a report says besides what happened, in lines.
fn details(movement: &Movement, language: Language) -> Vec<String> {
    let mut lines = Vec::new();
    if movement.given_later() {
        lines.push(words::ReportGivenLater { written: movement.issued.dtg() }.say(language));
    }
    if let Some(shown) = &movement.shown {
        lines.push(words::ReportShown { verdict: shown.verdict.word() }.say(language));
    }
    lines.extend(
        movement.aircraft.as_ref().map(|name| words::ReportAircraft { name: name.as_str() }.say(language)),
    );
    lines.extend(
        movement.place.as_ref().map(|place| words::ReportPlace { place: place.spaced() }.say(language)),
    );
    for PieceState { serial, back, damaged } in &movement.pieces {
        let serial = serial.as_str();
        lines.push(match (back, damaged) {
            (true, true) => words::ReportPieceBackDamaged { serial }.say(language),
            (true, false) => words::ReportPieceBack { serial }.say(language),
            _ => words::ReportPieceDamaged { serial }.say(language),
        });
    }
    lines.extend(movement.note.as_ref().map(|note| words::ReportNote { note: note.as_str() }.say(language)));
    lines
}
