//! Seals: kept with the full record that came with them or that is here already, or bare.

use std::borrow::Cow;

use super::{Admission, signer_of};
use crate::AppError;
use crate::account::strays::name_photos_and_tag;
use crate::account::{Alone, author_of, open_word};
use crate::walks::full_record::Full;
use crate::walks::record::{bare_columns, columns};
use slingseal_account::sync::HeadItem;
use slingseal_judgement::LoadWord;
use slingseal_message::envelope::Kind;
use slingseal_message::seal::{ReceivedSeal, Seal, TagPrint};
use slingseal_message::tag::ReceivedTag;
use slingseal_store::{Judged, NewRecord, Put};
use slingseal_words::Digest;

/// A seal that was let in.
pub(crate) struct AdmittedSeal {
    pub(crate) put: Put,
    /// The end of its device's journal, where its full record came along.
    pub(crate) head: Option<HeadItem>,
}

/// What was made of a seal ahead of its turn, under the trust of now.
#[derive(Default)]
pub(crate) struct MadeAhead {
    /// The full record that came with it, folded.
    pub(crate) full: Option<Full>,
    /// How it stands where nothing else of its load is here.
    pub(crate) alone: Option<Alone>,
}

impl Admission<'_, '_> {
    /// Keeps a seal that somebody stands behind whose authority is trusted; of one who may not inspect, as evidence. A full record
    /// that came with it, or that is here already, is attached where it says what the seal says.
    ///
    /// # Errors
    /// Nobody trusted stands behind it: nothing is kept. A full record that is not what was sealed: the seal is kept alone.
    pub(crate) fn seal(&mut self, word: &LoadWord, body: Option<&[u8]>) -> Result<AdmittedSeal, AppError> {
        self.seal_with(word, body, MadeAhead::default())
    }

    /// The same, with what was made of it ahead.
    ///
    /// # Errors
    /// As `seal`.
    pub(crate) fn seal_with(
        &mut self,
        word: &LoadWord,
        body: Option<&[u8]>,
        ahead: MadeAhead,
    ) -> Result<AdmittedSeal, AppError> {
        let signer = signer_of(word)?;
        let Some(seal) = word.seal() else { return Err(AppError::internal("a seal says what a seal says")) };
        let MadeAhead { full: folded, alone } = ahead;
        let blank = alone.is_some() && self.is_blank(word.load())?;
        if !blank
            && let Some(row) = self.tx.record(word.digest())?
            && (row.device.is_some() || body.is_none())
        {
            return Ok(AdmittedSeal { put: Put::Known, head: None });
        }
        let (bytes, given) = match body {
            Some(body) => (Some(Cow::Borrowed(body)), true),
            None => (self.tx.body(seal.record)?.map(Cow::Owned), false),
        };
        let full = match (folded, bytes.as_deref()) {
            (Some(full), _) => Ok(Some(full)),
            (None, bytes) => bytes.map(|bytes| self.full(seal, word.digest(), bytes)).transpose(),
        };
        let (full, refused) = match full {
            Ok(full) => (full, None),
            Err(error) => (None, Some(error).filter(|_| given)),
        };
        let inspector = signer.credential.holder.to_string();
        // Where more of the load is here, it is judged anew with all of that; most stand as they do alone.
        let judged = alone.as_ref().map(|alone| &alone.judged);
        let put = match (&full, &bytes) {
            (Some(full), Some(bytes)) => self.put_whole(word, seal, &inspector, full, bytes, judged)?,
            _ => self.put_bare(word, seal, &inspector, judged)?,
        };
        if given && let (Some(_), Some(bytes)) = (&full, &bytes) {
            self.attach(seal.record, bytes)?;
        }
        match alone.filter(|_| blank) {
            Some(alone) => alone.keep(self.tx)?,
            None => self.came(word)?,
        }
        let head = full.filter(|_| given).map(|full| HeadItem {
            device: full.device,
            seq: full.head.0,
            digest: full.head.1,
        });
        refused.map_or(Ok(AdmittedSeal { put, head }), Err)
    }

    /// Attaches a full record that came to the other seals that name it.
    fn attach(&mut self, record: Digest, bytes: &[u8]) -> Result<(), AppError> {
        for row in self.tx.seals_lacking_record(record)? {
            let Some(seal_bytes) = self.tx.seal(row.seal)? else { continue };
            let Ok(word) = open_word(Kind::Seal, &seal_bytes, &mut self.trusted) else { continue };
            let Some(seal) = word.seal() else { continue };
            if let Ok(full) = self.full(seal, row.seal, bytes) {
                self.put_whole(&word, seal, &row.inspector, &full, bytes, None)?;
            }
        }
        Ok(())
    }

    fn put_whole(
        &mut self,
        word: &LoadWord,
        seal: &Seal,
        inspector: &str,
        full: &Full,
        body: &[u8],
        judged: Option<&Judged>,
    ) -> Result<Put, AppError> {
        let Full { tag, tag_digest, .. } = full;
        if self.named.insert(full.procedure) {
            self.tx.put_named(full.procedure)?;
        }
        name_photos_and_tag(self.tx, &full.photos, *tag_digest)?;
        let mut row = columns(seal, word.digest(), tag, tag_digest, inspector, self.now, Some(full.device));
        row.author = author_of(word);
        row.judged = judged.cloned().unwrap_or(row.judged);
        Ok(self.tx.put_record(&NewRecord {
            row: &row,
            seal: word.bytes(),
            body: Some(body),
            deficiencies: &full.deficiencies,
            equipment: &full.equipment,
            facts: Some(&full.facts),
            words: tag.description.as_str(),
        })?)
    }

    /// What the tag tells is filled in where the very tag that was sealed is here.
    fn put_bare(
        &self,
        word: &LoadWord,
        seal: &Seal,
        inspector: &str,
        judged: Option<&Judged>,
    ) -> Result<Put, AppError> {
        let tags = self.tx.tags_of(seal.load.as_str())?;
        let held = tags.iter().find(|row| TagPrint::of(&row.digest) == seal.tag);
        if let Some(held) = held {
            self.tx.remove_stray(held.digest)?;
        }
        let held = held.and_then(|row| ReceivedTag::open(&row.bytes).ok());
        let own = word.digest();
        let mut row = match &held {
            Some(held) => columns(seal, own, &held.tag, &held.digest, inspector, self.now, None),
            None => bare_columns(seal, own, inspector, self.now),
        };
        row.author = author_of(word);
        row.judged = judged.cloned().unwrap_or(row.judged);
        Ok(self.tx.put_record(&NewRecord {
            row: &row,
            seal: word.bytes(),
            body: None,
            deficiencies: &[],
            equipment: &[],
            facts: None,
            words: held.as_ref().map(|held| held.tag.description.as_str()).unwrap_or_default(),
        })?)
    }

    /// Folds a full record and holds it against its seal, whose own digest is `own`.
    fn full(&mut self, seal: &Seal, own: Digest, bytes: &[u8]) -> Result<Full, AppError> {
        Full::of(seal, own, bytes, |digest| self.plan(digest))
    }

    /// Fills in what a tag tells at the seals of it that came before it.
    pub(super) fn name_seals_of(&mut self, tag: &LoadWord) -> Result<(), AppError> {
        let rows = self.tx.records_of_load(tag.load().as_str())?;
        for row in rows.into_iter().filter(|row| row.tag.is_none()) {
            let Some(bytes) = self.tx.seal(row.seal)? else { continue };
            let Ok(word) = open_word(Kind::Seal, &bytes, &mut self.trusted) else { continue };
            if let Some(seal) = word.seal() {
                self.put_bare(&word, seal, &row.inspector, None)?;
            }
        }
        Ok(())
    }
}

/// Reads a seal that is kept, for its words alone.
pub(crate) fn seal_of(bytes: &[u8]) -> Result<Seal, AppError> {
    Ok(ReceivedSeal::open(bytes)?.seal)
}
