//! An authority's key in two parts, for the day on which its phone is lost: on paper, or each on another phone.

use serde::Serialize;
use slingseal_catalogue::trust as words;

use crate::account::change_trust;
use crate::trust::rosters::REVOKED_KEYS;
use crate::trust::vault::AUTHORITY_VAULT;
use crate::{App, AppError, AuthorityView, CodeView};
use slingseal_message::trust::{CopyPart, PartError, Passphrase, SealedCopy, Vault, VaultError};

/// A copy that was made. Each making draws anew: parts of two makings do not fit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AuthorityCopy {
    /// What the authority goes by.
    pub name: String,
    /// What people compare by voice.
    pub fingerprint: String,
    /// The sequence of the newest roster.
    pub sequence: u32,
    /// The first part.
    pub first: CopyPartView,
    /// The second part.
    pub second: CopyPartView,
}

/// One part of an authority's copy: for a camera, and for the day on which there is none.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CopyPartView {
    /// 1 or 2.
    pub number: u8,
    /// The code, and the text that a phone keeps.
    pub code: CodeView,
    /// The rows that a person writes down and types in again, numbered from 1: four groups of four letters and a check of two.
    pub rows: Vec<String>,
}

impl CopyPartView {
    fn of(part: CopyPart) -> Result<Self, AppError> {
        Ok(Self { number: part.number, rows: part.rows, code: CodeView::of_part(part.text)? })
    }
}

impl App {
    /// Makes a copy of this home's authority in two parts. Slow: the passphrase is stretched twice.
    ///
    /// # Errors
    /// This home is no authority; a wrong passphrase.
    pub fn copy_authority(&self, passphrase: &str) -> Result<AuthorityCopy, AppError> {
        let view = self.authority()?;
        let key = self.open_key(AUTHORITY_VAULT, passphrase)?;
        let (stretch, entropy) = {
            let inner = self.lock();
            (inner.outside.stretch, inner.outside.entropy.clone())
        };
        let vault = Vault::lock(&key, &Passphrase::entered(passphrase), &[], stretch, entropy.as_ref())?;
        let [first, second] = SealedCopy { vault, sequence: view.sequence }.split(entropy.as_ref());
        Ok(AuthorityCopy {
            name: view.name,
            fingerprint: view.fingerprint,
            sequence: view.sequence,
            first: CopyPartView::of(first)?,
            second: CopyPartView::of(second)?,
        })
    }

    /// The part of an authority's copy that was scanned, or whose rows were typed.
    ///
    /// # Errors
    /// It is none; a row is not as it was written.
    pub fn authority_part(&self, text: &str) -> Result<CopyPartView, AppError> {
        CopyPartView::of(CopyPart::typed(text).map_err(no_copy)?)
    }

    /// Makes this home the authority of a copy. Its card must be trusted here, and its rosters must have come, or the next one would
    /// take a number that was given. Slow.
    ///
    /// # Errors
    /// Texts that make no copy; a wrong passphrase; this home is an authority already; the authority is not trusted here; a roster
    /// that was signed before the copy has not come.
    pub fn restore_authority(
        &self,
        one: &str,
        other: &str,
        passphrase: &str,
    ) -> Result<AuthorityView, AppError> {
        let copy = SealedCopy::join(one, other).map_err(no_copy)?;
        let public = copy.vault.public()?;
        {
            let inner = self.lock();
            inner.may_begin_authority()?;
            let trusted = inner.trusted()?;
            let authority =
                trusted.authority(&public).ok_or_else(|| AppError::refused(words::CopyNeedsCard))?;
            let here = authority.roster.as_ref().map_or(0, |roster| roster.sequence);
            if here < copy.sequence {
                return Err(AppError::refused(words::CopyNeedsRoster { here: &here, made: &copy.sequence }));
            }
        }
        let words_given = Passphrase::entered(passphrase);
        let key = copy.vault.unlock(&words_given, &[]).map_err(|error| match error {
            VaultError::WrongPin => AppError::refused(words::CopyWrongPassphrase),
            error @ VaultError::Damaged(_) => error.into(),
        })?;
        let vault = self.lock_away(&key, &words_given)?;
        let mut inner = self.lock();
        inner.may_begin_authority()?;
        let trusted = inner.trusted()?;
        let authority = trusted.authority(&public).ok_or_else(|| AppError::refused(words::CopyNeedsCard))?;
        let name = authority.name.clone();
        let keys = authority.roster.iter().flat_map(|roster| roster.keys.keys());
        let revoked: Vec<u8> = keys.flat_map(|key| key.0).collect();
        inner.store.write(|tx| {
            change_trust(tx, |tx| {
                tx.put_vault(AUTHORITY_VAULT, vault.as_bytes())?;
                tx.put_setting(super::authority::NAME, name.as_str().as_bytes())?;
                Ok(tx.put_setting(REVOKED_KEYS, &revoked)?)
            })
        })?;
        inner.authority_view()
    }
}

fn no_copy(error: PartError) -> AppError {
    match error {
        PartError::NoPart => AppError::bad_input(words::CopyNoPart),
        PartError::Twice => AppError::bad_input(words::CopyPartTwice),
        PartError::OtherPair => AppError::bad_input(words::CopyOtherPair),
        PartError::Damaged => AppError::bad_input(words::CopyDamaged),
        PartError::Row(row) => AppError::bad_input(words::CopyRow { row: &row }),
    }
}
