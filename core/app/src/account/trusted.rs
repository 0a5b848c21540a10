//! Whom this home trusts.

use slingseal_catalogue::audit as audit_words;

use crate::AppError;
use slingseal_message::trust::{PublicKey, Roster, Trusted, TrustedAuthority};
use slingseal_store::Reader;
use slingseal_words::Name;

/// Everyone whom this home trusts, with the newest roster of each.
pub(crate) fn trusted_of(read: &Reader<'_>) -> Result<Trusted, AppError> {
    let mut trusted = Trusted::default();
    for row in read.authorities()?.into_iter().filter(|row| row.trusted) {
        let damaged = |_| AppError::StorageDamaged { message: audit_words::TrustedKeyDamaged.into() };
        let key = PublicKey::from_bytes(&row.key).map_err(damaged)?;
        let roster = read.roster(&row.key)?;
        let roster = roster.map(|row| Roster::open(&row.bytes, &key)).transpose()?;
        trusted.add(TrustedAuthority { name: Name::received(&row.name)?, key, roster });
    }
    Ok(trusted)
}
