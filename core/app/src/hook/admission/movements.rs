//! Reports of what became of a load, and how many of strangers are kept.

use super::{Admission, signer_of};
use crate::AppError;
use crate::account::author_of;
use slingseal_journal::DeviceId;
use slingseal_judgement::{Author, LoadWord};
use slingseal_store::MovementRow;
use slingseal_words::Digest;

/// Reports that nobody known signed, of one load and of all: a stranger can make them without end.
pub(crate) const MOST_UNKNOWN_OF_LOAD: usize = 64;
const MOST_UNKNOWN: u64 = 100_000;

impl Admission<'_, '_> {
    /// Keeps a movement report; `false` where it was known, or where nobody known signed it and enough of that sort is here. `own`:
    /// this device wrote it just now.
    ///
    /// # Errors
    /// It is forged.
    pub(crate) fn movement(&mut self, word: &LoadWord, own: bool) -> Result<bool, AppError> {
        let Some(movement) = word.movement() else {
            return Err(AppError::internal("a report says what a report says"));
        };
        let signed = !matches!(word.author(), Author::Nobody | Author::ThisDevice);
        let unknown = !own && matches!(word.author(), Author::Nobody | Author::Unknown);
        if signed && !unknown {
            signer_of(word)?;
        }
        if unknown && !self.room_for_unknown(word)? {
            return Ok(false);
        }
        let new = self.tx.put_movement(&MovementRow {
            load: movement.load.to_string(),
            digest: word.digest(),
            event: movement.event.word().to_owned(),
            happened: movement.at(),
            issued: movement.issued,
            device: DeviceId(movement.device),
            before: movement.before,
            seal: movement.seal,
            own,
            signed,
            received: self.now,
            author: author_of(word),
            bytes: word.bytes().to_vec(),
        })?;
        if new {
            self.unknown_movements = self.unknown_movements.map(|all| all + u64::from(unknown));
            if !unknown {
                movement.photos.iter().try_for_each(|photo| self.tx.put_named(*photo))?;
            }
            self.came(word)?;
        }
        Ok(new)
    }

    /// Whether one more report that nobody known signed is kept. Of a load those with the lowest digests are, so that it does not matter in
    /// which order they come; in all, so many and no more.
    fn room_for_unknown(&mut self, word: &LoadWord) -> Result<bool, AppError> {
        let load = word.load().as_str();
        if self.tx.movement(load, word.digest())?.is_some() {
            return Ok(false);
        }
        let all = match self.unknown_movements {
            Some(all) => all,
            None => self.tx.unknown_movements()?,
        };
        self.unknown_movements = Some(all);
        let mut held: Vec<Digest> = self
            .tx
            .movements_of(load)?
            .into_iter()
            .filter(|row| row.author.is_none() && !row.own)
            .map(|row| row.digest)
            .collect();
        held.sort_unstable();
        if held.len() < MOST_UNKNOWN_OF_LOAD {
            return Ok(all < MOST_UNKNOWN);
        }
        match held.last() {
            Some(last) if word.digest() < *last => {
                self.tx.remove_unknown_movement(load, *last)?;
                self.unknown_movements = Some(all.saturating_sub(1));
                Ok(true)
            }
            _ => Ok(false),
        }
    }
}
