//! Who may say what: keys, the authority's credential, the roster of what it revoked, the vault that keeps a key.

mod authority;
mod check_page;
mod credential;
mod edition;
mod key_request;
mod keys;
mod message;
mod parts;
mod roles;
mod roster;
mod signer;
mod vault;
mod written;

#[cfg(test)]
mod tests;

pub use authority::Authority;
pub use check_page::{CheckPage, CheckPageError, OpenedPage, PageAuthority};
pub use credential::{Credential, CredentialId, Credentialed, DEFAULT_VALIDITY};
pub use edition::{Approval, Edition, EditionStanding};
pub use key_request::KeyRequest;
pub use keys::{KeyError, KeyThumbprint, PublicKey, SecretKey};
pub use message::TrustError;
pub use parts::{CopyPart, PartError, SealedCopy};
pub use roles::{Role, Roles};
pub use roster::Roster;
pub use signer::{Signer, Trusted, TrustedAuthority};
pub use vault::{Passphrase, PassphraseError, Stretch, Vault, VaultError, delay_after};
