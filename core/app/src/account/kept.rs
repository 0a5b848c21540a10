//! What this home keeps of one load, and of the pieces that its tags name.

use std::collections::BTreeMap;

use super::words::{open_inspection, open_word};
use crate::AppError;
use slingseal_judgement::{InspectionWord, LoadWord, PieceState, pieces_of, state_of_piece};
use slingseal_message::envelope::Kind;
use slingseal_message::tag::{Tag, kind_of_tag};
use slingseal_message::trust::Trusted;
use slingseal_store::{MovementRow, Reader, RecordRow, TagRow, VoidRow};
use slingseal_words::{Digest, LoadNumber, Serial};

/// What is kept of one load.
#[derive(Default)]
pub(super) struct Kept {
    pub(super) records: Vec<RecordRow>,
    pub(super) voids: Vec<VoidRow>,
    pub(super) tags: Vec<TagRow>,
    pub(super) movements: Vec<MovementRow>,
    pub(super) words: Vec<LoadWord>,
    /// Inspections of the pieces that its tags name.
    pub(super) pieces: Vec<InspectionWord>,
}

impl Kept {
    /// All that is kept of a load, read anew.
    pub(super) fn of(read: &Reader<'_>, load: &LoadNumber, trusted: &mut Trusted) -> Result<Self, AppError> {
        Self::with(read, load, trusted, &[], read.voids_of_load(load.as_str())?)
    }

    /// `fresh` are words that were opened just now and are kept already, `voids` all that is kept of them. One that cannot be read any
    /// more is the audit's to name.
    pub(super) fn with(
        read: &Reader<'_>,
        load: &LoadNumber,
        trusted: &mut Trusted,
        fresh: &[LoadWord],
        voids: Vec<VoidRow>,
    ) -> Result<Self, AppError> {
        let load = load.as_str();
        let (records, tags) = (read.records_of_load(load)?, read.tags_of(load)?);
        let opened: BTreeMap<Digest, &LoadWord> = fresh.iter().map(|word| (word.digest(), word)).collect();
        let mut words = Vec::new();
        let mut take = |kind, digest: Digest, bytes: &[u8]| match opened.get(&digest) {
            Some(word) => words.push((*word).clone()),
            None => words.extend(open_word(kind, bytes, trusted)),
        };
        for row in &records {
            match opened.get(&row.seal) {
                Some(word) => take(Kind::Seal, row.seal, word.bytes()),
                None => read.seal(row.seal)?.iter().for_each(|bytes| take(Kind::Seal, row.seal, bytes)),
            }
        }
        voids.iter().for_each(|row| take(Kind::Void, row.digest, &row.bytes));
        tags.iter().for_each(|row| take(kind_of_tag(&row.bytes), row.digest, &row.bytes));
        let movements = read.movements_of(load)?;
        for row in &movements {
            let Ok(word) = open_word(Kind::Movement, &row.bytes, trusted) else { continue };
            words.push(if row.own { word.written_here() } else { word });
        }
        let mut pieces = Vec::new();
        for tag in words.iter().filter_map(LoadWord::tag) {
            add_pieces(read, tag, trusted, &mut pieces)?;
        }
        Ok(Self { records, voids, tags, movements, words, pieces })
    }
}

/// Adds every inspection that is kept of the pieces that a tag names, each once.
pub(super) fn add_pieces(
    read: &Reader<'_>,
    tag: &Tag,
    trusted: &mut Trusted,
    pieces: &mut Vec<InspectionWord>,
) -> Result<(), AppError> {
    for (_, serial) in pieces_of(tag) {
        for row in read.inspections_of_piece(&serial.as_str().to_ascii_uppercase())? {
            if pieces.iter().all(|known| known.digest() != row.digest) {
                pieces.extend(open_inspection(&row.bytes, trusted));
            }
        }
    }
    Ok(())
}

/// How a piece stands by the inspections of it that are kept; none where none counts.
pub(crate) fn piece_state(
    read: &Reader<'_>,
    serial: &Serial,
    trusted: &mut Trusted,
) -> Result<Option<PieceState>, AppError> {
    let mut words = Vec::new();
    for row in read.inspections_of_piece(&serial.as_str().to_ascii_uppercase())? {
        words.extend(open_inspection(&row.bytes, trusted));
    }
    Ok(state_of_piece(serial, &words, trusted))
}
