//! Rosters and credentials: after a roster, whoever it touches is judged anew.

use slingseal_catalogue::refusals as words;

use super::Admission;
use crate::AppError;
use crate::account::{touched_by_trust, trusted_of};
use crate::procedures::name_approved;
use crate::trust::authority::credential_row;
use crate::trust::rosters::not_told_otherwise;
use slingseal_message::trust::{Credentialed, PublicKey, Roster, Signer};
use slingseal_store::RosterRow;
use slingseal_words::Name;

/// A roster that was let in.
pub(crate) struct AdmittedRoster {
    pub(crate) authority: Name,
    pub(crate) roster: Roster,
    /// Whether it is newer than what was here.
    pub(crate) new: bool,
}

impl Admission<'_, '_> {
    /// Keeps a roster. Whoever it revokes, or revokes no more, is judged anew.
    ///
    /// # Errors
    /// Its authority is not trusted here; it is forged; another of its number is known.
    pub(crate) fn roster(&mut self, bytes: &[u8]) -> Result<AdmittedRoster, AppError> {
        let id = Roster::authority(bytes)?;
        let mut last = AppError::refused(words::RosterComesFromAuthorityDevice);
        let keys: Vec<(PublicKey, Name)> =
            self.trusted.with_id(id).map(|authority| (authority.key, authority.name.clone())).collect();
        for (key, authority) in keys {
            let roster = match Roster::open(bytes, &key) {
                Ok(roster) => roster,
                Err(error) => {
                    last = error.into();
                    continue;
                }
            };
            let row = RosterRow {
                authority: key.to_bytes(),
                sequence: roster.sequence.into(),
                issued: roster.issued,
                received: self.now,
                bytes: bytes.to_vec(),
            };
            not_told_otherwise(self.tx, &row)?;
            let new = self.tx.put_roster(&row)?;
            if new {
                self.trust += 1;
                let mut before = std::mem::replace(&mut self.trusted, trusted_of(self.tx)?);
                let touched = touched_by_trust(self.tx, &mut before, &mut self.trusted)?;
                // Before too many strays give way: what this roster approves is none.
                name_approved(self.tx, &self.trusted)?;
                self.touched.extend(touched);
            }
            return Ok(AdmittedRoster { authority, roster, new });
        }
        Err(last)
    }

    /// Keeps a credential; `false` where it was known.
    ///
    /// # Errors
    /// Its authority is not trusted here; it is forged.
    pub(crate) fn credential(
        &mut self,
        bytes: &[u8],
        own: Option<PublicKey>,
    ) -> Result<(Signer, bool, bool), AppError> {
        let signer = self.trusted.credential(bytes)?;
        let credential = Credentialed::open(bytes)?.credential;
        let own = own == Some(credential.key);
        let row = credential_row(&credential, bytes, signer.authority.to_bytes(), self.now, own);
        let new = self.tx.put_credential(&row)?;
        Ok((signer, own, new))
    }
}
