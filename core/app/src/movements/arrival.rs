//! The receiving side: whoever takes a load down scans its tag, and sees what it is and what was done to it. It needs no key and
//! nothing known before.

use serde::Serialize;
use slingseal_catalogue::movement as movement_words;

use super::MovementView;
use super::load_of;
use crate::account::open_word;
use crate::account::strays::Origin;
use crate::{App, AppError, Inner, TagView};
use slingseal_catalogue::{Language, closing, movement as words};
use slingseal_judgement::{FlowState, same_serial};
use slingseal_message::envelope::{Kind, unwrap};
use slingseal_message::movement::{MovementEvent, MovementKind, RefusalCause};
use slingseal_message::tag::kind_of_tag;
use slingseal_store::FlowRow;
use slingseal_words::Time;

/// A load that is taken down.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ArrivalView {
    /// The load number.
    pub load: String,
    /// What its tag says: the one that was scanned, or the one that is known here.
    pub tag: Option<TagView>,
    /// Where it is on its way; none where nothing is known.
    #[serde(serialize_with = "crate::view::word_or_empty")]
    pub state: Option<FlowState>,
    /// The same as a person reads it.
    pub state_title: String,
    /// Whether a report that nobody known signed tells of more; it moves nothing.
    pub unsigned: bool,
    /// What that report tells, in one line; empty where there is none.
    pub reported: String,
    /// What was done to it, the first first.
    pub reports: Vec<MovementView>,
    /// Its equipment, each with what was said of it last.
    pub pieces: Vec<ArrivalPiece>,
}

/// A piece of equipment on a load that is taken down.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ArrivalPiece {
    /// What it is; empty where a report names it and the tag does not.
    pub kind: String,
    /// Its serial number.
    pub serial: String,
    /// Whether it went back already.
    pub back: bool,
    /// Whether somebody found it damaged.
    pub damaged: bool,
}

impl App {
    /// What a load is and what was done to it, by its tag or its number. The tag is kept.
    ///
    /// # Errors
    /// A text that is neither a tag nor a load number; a number of which nothing is known here.
    pub fn arrival(&self, load: &str) -> Result<ArrivalView, AppError> {
        self.lock().arrival(load.trim())
    }
}

impl Inner {
    fn arrival(&mut self, text: &str) -> Result<ArrivalView, AppError> {
        let load = load_of(text)?;
        let scanned = match unwrap(text) {
            Ok((kind @ (Kind::Tag | Kind::TagWithBasis), bytes)) => {
                let word = self.admit(|admission| {
                    let word = admission.open(kind, &bytes)?;
                    admission.tag(&word, false, Origin::Here)?;
                    Ok(word)
                })?;
                Some(self.tag_view_of(&word)?)
            }
            _ => None,
        };
        let known = || -> Result<Option<TagView>, AppError> {
            let mut trusted = self.trusted()?;
            let rows = self.tags_of(&load)?;
            let words: Vec<_> = rows
                .iter()
                .filter_map(|row| open_word(kind_of_tag(&row.bytes), &row.bytes, &mut trusted).ok())
                .collect();
            let words: Vec<_> = words.iter().collect();
            let tag = super::flow::telling_tag(&words, None, &trusted);
            tag.map(|(word, _)| self.tag_view_of(word)).transpose()
        };
        let tag = scanned.map_or_else(known, |tag| Ok(Some(tag)))?;
        let reports = self.movements(&load)?;
        let state = self.flow_of(&load)?;
        if tag.is_none() && reports.is_empty() && state.is_none() {
            return Err(AppError::not_found(movement_words::NothingKnownScanTag { load: &load }));
        }
        let mut pieces: Vec<ArrivalPiece> = Vec::new();
        for piece in tag.iter().flat_map(|tag| &tag.equipment) {
            let (kind, serial) = (piece.kind.clone(), piece.serial.clone());
            pieces.push(ArrivalPiece { kind, serial, back: false, damaged: false });
        }
        for leg in tag.iter().flat_map(|tag| &tag.basis.legs) {
            if !pieces.iter().any(|piece| same_serial(&piece.serial, &leg.serial)) {
                let kind = closing::KindOfLeg { leg: &leg.leg }.say(self.language());
                pieces.push(ArrivalPiece { kind, serial: leg.serial.clone(), back: false, damaged: false });
            }
        }
        for said in reports.iter().flat_map(|report| &report.pieces) {
            match pieces.iter_mut().find(|piece| same_serial(&piece.serial, &said.serial)) {
                Some(piece) => {
                    piece.back |= said.back;
                    piece.damaged |= said.damaged;
                }
                None => pieces.push(ArrivalPiece {
                    kind: String::new(),
                    serial: said.serial.clone(),
                    back: said.back,
                    damaged: said.damaged,
                }),
            }
        }
        let (state, reported) = state.unzip();
        let reported = reported.unwrap_or_default();
        Ok(ArrivalView {
            load: load.to_string(),
            tag,
            state,
            state_title: state.map(|state| state.say(self.language())).unwrap_or_default(),
            unsigned: !reported.is_empty(),
            reported,
            reports,
            pieces,
        })
    }

    /// Where a load is on its way; and what a report that nobody known signed tells beside it, empty where there is none.
    pub(crate) fn flow_of(
        &self,
        load: &slingseal_words::LoadNumber,
    ) -> Result<Option<(FlowState, String)>, AppError> {
        let read = self.store.read();
        let Some(row) = read.flow(load.as_str())? else { return Ok(None) };
        let reported = reported(&row, self.language());
        if read.walks_of(load.as_str())?.iter().any(|walk| walk.state.in_hand()) {
            return Ok(Some((FlowState::Walking, reported)));
        }
        let judged = self.judge_load(load)?.state();
        Ok(Some((FlowState::of(judged, event_of_word(&row.event)), reported)))
    }
}

/// What nobody known signed tells of a load since the last report that counts, in one line; empty where there is none.
pub(crate) fn reported(row: &FlowRow, language: Language) -> String {
    let event = match event_of_word(&row.hint) {
        None => return String::new(),
        Some(MovementEvent::Refused(_)) => words::MovementRefusedPlain.into(),
        Some(event) => event.saying(),
    };
    let at = row.hinted.map(Time::dtg).unwrap_or_default();
    words::ReportedUnsigned { event, at }.say(language)
}

/// An event of the word that is kept; a refusal's cause is not asked for.
pub(crate) fn event_of_word(word: &str) -> Option<MovementEvent> {
    // Most loads have none, and a word that is none is answered by a sentence.
    let kind: MovementKind = (!word.is_empty()).then(|| word.parse().ok())??;
    kind.because((kind == MovementKind::Refused).then_some(RefusalCause::Other))
}
