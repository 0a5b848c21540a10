//! Closing statements that leaders hand up.

use slingseal_catalogue::movement as movement_words;

use super::Admission;
use crate::AppError;
use slingseal_message::closing::ClosingStatement;
use slingseal_message::envelope::Kind;
use slingseal_message::trust::{Role, Signer};
use slingseal_store::ClosingRow;
use slingseal_words::Digest;

impl Admission<'_, '_> {
    /// Keeps a closing statement; whether it is new.
    ///
    /// # Errors
    /// It is forged; its authority is not trusted here; its signer is no leader, or the credential had run out.
    pub(crate) fn closing(&mut self, bytes: &[u8]) -> Result<((ClosingStatement, Signer), bool), AppError> {
        let (statement, message) = ClosingStatement::open(bytes)?;
        let signer = self.trusted.signer(Kind::Closing, &message)?;
        let credential = &signer.credential;
        if !credential.roles.has(Role::Leader) {
            return Err(AppError::refused(movement_words::ClosingOfNoLeader { who: &credential.holder }));
        }
        if statement.issued > credential.expires {
            return Err(AppError::refused(movement_words::ClosingCredentialRanOut {
                who: &credential.holder,
            }));
        }
        let author = slingseal_store::Author {
            authority: signer.authority.to_bytes(),
            key: credential.key.to_bytes(),
            credential: signer.id.0,
            in_time: true,
        };
        let new = self.tx.put_closing(&ClosingRow {
            digest: Digest::of(bytes),
            issued: statement.issued,
            received: self.now,
            author: Some(author),
            bytes: bytes.to_vec(),
        })?;
        Ok(((statement, signer), new))
    }
}
