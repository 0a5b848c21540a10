//! Under whose credential this device signs, where several authorities gave it one; and what of its papers runs out soon.

use serde::Serialize;
use slingseal_catalogue::{refusals as words, trust as trust_words};

use super::issued::roster_warning;
use super::meant::meant;
use super::view::{CredentialState, CredentialView};
use crate::{App, AppError, Inner};
use slingseal_message::trust::Role;

/// The credential that this device signs with in a role.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SignsAs {
    /// The credential.
    pub credential: CredentialView,
    /// Other authorities that gave this device one which would do as well.
    pub others: Vec<String>,
}

impl App {
    /// Signs from here on under the credential of one authority alone, by name or fingerprint; of none in particular again.
    ///
    /// # Errors
    /// No authority, or several, of that name are trusted here; it gave this device no credential.
    pub fn act_as(&self, authority: Option<&str>) -> Result<(), AppError> {
        let mut inner = self.lock();
        inner.acting = None;
        let Some(who) = authority else { return Ok(()) };
        let trusted = inner.trusted()?;
        let one = meant(&trusted, who)?;
        if !inner.own_credentials(&trusted)?.iter().any(|(signer, _)| signer.authority == one.key) {
            return Err(AppError::refused(words::GaveDeviceNoCredentialHolds { name: &one.name }));
        }
        inner.acting = Some(one.key.to_bytes());
        Ok(())
    }

    /// The credential that signs in a role (any, where none is named); none where nothing would.
    ///
    /// # Errors
    /// Storage.
    pub fn signs_as(&self, role: Option<Role>) -> Result<Option<SignsAs>, AppError> {
        let inner = self.lock();
        let trusted = inner.trusted()?;
        let Some((signer, bytes)) = inner.own_credential(&trusted, role)? else { return Ok(None) };
        let now = inner.now();
        let mut others = Vec::new();
        for (other, _) in inner.own_credentials(&trusted)? {
            let does =
                role.is_none_or(|role| other.credential.roles.has(role)) && now <= other.credential.expires;
            let name = trusted.authority(&other.authority).map(|authority| authority.name.to_string());
            if does && other.authority != signer.authority {
                others.extend(name.filter(|name| !others.contains(name)));
            }
        }
        Ok(Some(SignsAs { credential: inner.credential_view(&trusted, &bytes)?, others }))
    }

    /// What of this device's own papers runs out soon or has run out, a line each with what to do.
    ///
    /// # Errors
    /// Storage.
    pub fn running_out(&self) -> Result<Vec<String>, AppError> {
        let inner = self.lock();
        let (now, trusted) = (inner.now(), inner.trusted()?);
        let mut lines = Vec::new();
        if let Some((signer, _)) = inner.own_credential(&trusted, None)? {
            let credential = &signer.credential;
            let when = credential.expires.dtg();
            let (holder, language) = (credential.holder.to_string(), inner.language());
            match CredentialState::of(credential.expires, false, now) {
                CredentialState::RunsOutSoon => {
                    lines.push(trust_words::OwnCredentialRunsOut { holder, at: when }.say(language));
                }
                CredentialState::Expired => {
                    lines.push(trust_words::OwnCredentialRanOut { holder, at: when }.say(language));
                }
                CredentialState::Good | CredentialState::Revoked => {}
            }
        }
        for authority in trusted.iter() {
            let Some(roster) = &authority.roster else { continue };
            let warning = roster_warning(authority.name.as_str().into(), roster.expires, now);
            lines.extend(warning.map(|warning| warning.say(inner.language())));
        }
        Ok(lines)
    }
}

impl Inner {
    /// Whether a credential of this authority may be signed with: each, where none was chosen.
    pub(super) fn may_act_for(&self, authority: &[u8; 32]) -> bool {
        self.acting.is_none_or(|acting| acting == *authority)
    }
}
