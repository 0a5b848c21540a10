//! Tags: what is planned comes onto the board, what nobody signed gives way.

use super::Admission;
use super::seals::seal_of;
use crate::AppError;
use crate::account::author_of;
use crate::account::strays::Origin;
use slingseal_judgement::LoadWord;
use slingseal_message::seal::TagPrint;
use slingseal_store::{Reader, StrayKind, TagRow};

impl Admission<'_, '_> {
    /// Keeps a tag; `false` where it was known.
    pub(crate) fn tag(&mut self, word: &LoadWord, planned: bool, origin: Origin) -> Result<bool, AppError> {
        // One that was only scanned and is a plan now comes onto the board.
        let given = planned && self.tx.tag(word.digest())?.is_some_and(|known| !known.planned);
        let new = self.tx.put_tag(&TagRow {
            digest: word.digest(),
            load: word.load().to_string(),
            planned,
            received: self.now,
            said: Some(word.issued()),
            author: author_of(word),
            bytes: word.bytes().to_vec(),
        })?;
        if new {
            self.name_seals_of(word)?;
        }
        if new || given {
            self.came(word)?;
        }
        if origin == Origin::Here {
            self.tx.remove_stray(word.digest())?;
        } else if new && word.signer().is_none() && !is_sealed(self.tx, word)? {
            self.count(StrayKind::Tag, word.digest(), word.bytes().len())?;
        }
        Ok(new)
    }
}

/// Whether a kept seal is of this tag: unsigned as it may be, whoever sealed stands for it.
pub(crate) fn is_sealed(read: &Reader<'_>, tag: &LoadWord) -> Result<bool, AppError> {
    let print = TagPrint::of(&tag.digest());
    for row in read.records_of_load(tag.load().as_str())? {
        let bytes = read.seal(row.seal)?;
        if bytes.is_some_and(|bytes| seal_of(&bytes).is_ok_and(|seal| seal.tag == print)) {
            return Ok(true);
        }
    }
    Ok(false)
}
