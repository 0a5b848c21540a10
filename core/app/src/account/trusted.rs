//! Whom this home trusts.

use slingseal_catalogue::audit as audit_words;

use crate::AppError;
use slingseal_message::trust::{PublicKey, Roster, Trusted, TrustedAuthority};
use slingseal_store::{AuthorityRow, Reader, RosterRow};
use slingseal_words::Name;

/// An authority that is trusted, and its newest roster.
type TrustRows = (AuthorityRow, Option<RosterRow>);

/// Everyone whom this home trusts, with the newest roster of each.
pub(crate) fn trusted_of(read: &Reader<'_>) -> Result<Trusted, AppError> {
    opened(&rows_of(read)?)
}

/// Whom this home trusted when it was asked last, with the rows that say so. They are read each time; while they are the same, byte for
/// byte, no roster's signature is checked again, and no credential's that was remembered.
#[derive(Default)]
pub(crate) struct KeptTrust {
    rows: Vec<TrustRows>,
    trusted: Trusted,
}

impl KeptTrust {
    /// As [`trusted_of`]: to be cloned, or to remember own credentials in.
    pub(crate) fn of(&mut self, read: &Reader<'_>) -> Result<&mut Trusted, AppError> {
        let rows = rows_of(read)?;
        if rows != self.rows {
            self.trusted = opened(&rows)?;
            self.rows = rows;
        }
        Ok(&mut self.trusted)
    }
}

fn rows_of(read: &Reader<'_>) -> Result<Vec<TrustRows>, AppError> {
    let trusted = read.authorities()?.into_iter().filter(|row| row.trusted);
    trusted
        .map(|row| {
            let roster = read.roster(&row.key)?;
            Ok((row, roster))
        })
        .collect()
}

fn opened(rows: &[TrustRows]) -> Result<Trusted, AppError> {
    let mut trusted = Trusted::default();
    for (row, roster) in rows {
        let damaged = |_| AppError::StorageDamaged { message: audit_words::TrustedKeyDamaged.into() };
        let key = PublicKey::from_bytes(&row.key).map_err(damaged)?;
        let roster = roster.as_ref().map(|row| Roster::open(&row.bytes, &key)).transpose()?;
        trusted.add(TrustedAuthority { name: Name::received(&row.name)?, key, roster });
    }
    Ok(trusted)
}
