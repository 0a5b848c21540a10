//! Which authority a person means.

use slingseal_catalogue::refusals as words;

use crate::AppError;
use slingseal_message::trust::{Trusted, TrustedAuthority};
use slingseal_words::{Name, same_name};

/// The one trusted authority that a fingerprint or a name means.
pub(super) fn meant<'t>(trusted: &'t Trusted, who: &str) -> Result<&'t TrustedAuthority, AppError> {
    let mut meant: Vec<_> = trusted.iter().filter(|authority| authority.key.has_fingerprint(who)).collect();
    if meant.is_empty() {
        let shown = |authority: &&TrustedAuthority| same_name(authority.name.as_str(), who);
        meant = trusted.iter().filter(shown).collect();
    }
    if meant.is_empty() {
        meant = Name::received(who).map(|name| trusted.named(&name).collect()).unwrap_or_default();
    }
    match meant.as_slice() {
        [one] => Ok(one),
        [] => Err(AppError::not_found(words::AuthorityTrustedKeyShowLists { who: &who })),
        several => {
            let all: Vec<String> =
                several.iter().map(|one| format!("{} ({})", one.name, one.key.fingerprint())).collect();
            Err(AppError::refused(words::SeveralAuthoritiesMeantGiveFingerprint { list: all.join("; ") }))
        }
    }
}
