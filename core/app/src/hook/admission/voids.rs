//! Words that take a seal back.

use slingseal_catalogue::refusals as words;

use super::{Admission, signer_of};
use crate::AppError;
use crate::account::author_of;
use slingseal_judgement::LoadWord;
use slingseal_store::VoidRow;

impl Admission<'_, '_> {
    /// Keeps a void; `false` where it was known.
    ///
    /// # Errors
    /// Nobody trusted stands behind it, or the credential had run out: it does not count.
    pub(crate) fn void(&mut self, word: &LoadWord) -> Result<bool, AppError> {
        let signer = signer_of(word)?;
        let Some(void) = word.void() else { return Err(AppError::internal("a void says what a void says")) };
        if void.issued > signer.credential.expires {
            return Err(AppError::refused(words::CredentialHadRunOutWhen {
                holder: &signer.credential.holder,
            }));
        }
        let new = self.tx.put_void(&VoidRow {
            digest: word.digest(),
            record: void.record,
            load: void.load.to_string(),
            issued: void.issued,
            received: self.now,
            author: author_of(word),
            bytes: word.bytes().to_vec(),
        })?;
        if let Some(voided) = &mut self.voided {
            voided.insert(void.load.to_string());
        }
        self.came(word)?;
        Ok(new)
    }
}
