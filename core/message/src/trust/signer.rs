use std::collections::BTreeMap;

use super::credential::{Credential, CredentialId, Credentialed};
use super::keys::PublicKey;
use super::message::{TrustError, verify};
use super::roster::Roster;
use crate::envelope::{Kind, ShapeError, Sign1};
use slingseal_words::{KeyId, Name, same_name};

/// An authority that this device trusts, with the newest roster of it that the device has seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TrustedAuthority {
    /// What it goes by here: the name on its card; among authorities whose names can be taken for each other, with as many groups
    /// of its fingerprint as tell them apart ([`Trusted::add`] sees to it), so that no place that shows a name has to.
    pub name: Name,
    /// Its key.
    pub key: PublicKey,
    /// The newest roster.
    pub roster: Option<Roster>,
}

/// Everyone whom this device trusts: one authority or several, since units of different organisations work one zone.
#[derive(Clone, Debug, Default)]
pub struct Trusted {
    authorities: BTreeMap<[u8; 32], TrustedAuthority>,
    /// The names on their cards.
    given: BTreeMap<[u8; 32], Name>,
    /// Credentials whose signature passed, byte for byte.
    remembered: BTreeMap<Vec<u8>, Signer>,
}

/// The most credentials that are remembered: a day has dozens; a hostile bundle could bring any number of true ones.
const MOST_REMEMBERED: usize = 1_024;

/// Who signed a message, once both signatures passed: the authority's on the credential, the holder's on the message.
/// Whether the holder might sign it then is for the verdict to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signer {
    /// The credential.
    pub credential: Credential,
    /// Its id.
    pub id: CredentialId,
    /// The authority's key.
    pub authority: PublicKey,
}

impl Trusted {
    /// Adds an authority, or replaces what is known of it.
    pub fn add(&mut self, authority: TrustedAuthority) {
        self.remembered.clear();
        let key = authority.key.to_bytes();
        self.given.insert(key, authority.name.clone());
        self.authorities.insert(key, authority);
        for (key, authority) in &mut self.authorities {
            if let Some(name) = self.given.get(key) {
                authority.name = told_apart(&self.given, name, &authority.key);
            }
        }
    }

    /// Puts another roster in the place of an authority's; which is the newer one is for the caller to know. Nothing where nobody of
    /// the key is trusted.
    pub fn set_roster(&mut self, key: &PublicKey, roster: Roster) {
        if let Some(authority) = self.authorities.get_mut(&key.to_bytes()) {
            authority.roster = Some(roster);
        }
    }

    /// The authorities whose cards bear a name that can be taken for this one.
    pub fn named(&self, name: &Name) -> impl Iterator<Item = &TrustedAuthority> {
        let alike = self.given.iter().filter(move |(_, given)| same_name(given.as_str(), name.as_str()));
        alike.filter_map(|(key, _)| self.authorities.get(key))
    }

    /// The authority of a key.
    pub fn authority(&self, key: &PublicKey) -> Option<&TrustedAuthority> {
        self.authorities.get(&key.to_bytes())
    }

    /// Every authority, in the order of their keys.
    pub fn iter(&self) -> impl Iterator<Item = &TrustedAuthority> {
        self.authorities.values()
    }

    /// Authorities whose key has this id; two keys may share one.
    pub fn with_id(&self, id: KeyId) -> impl Iterator<Item = &TrustedAuthority> {
        self.authorities.values().filter(move |authority| authority.key.id() == id)
    }

    /// Whether the newest roster of its authority takes back a credential, by its id or by its key.
    pub fn revoked(&self, signer: &Signer) -> bool {
        let roster = self.authority(&signer.authority).and_then(|authority| authority.roster.as_ref());
        roster.is_some_and(|roster| roster.revokes(signer.id, &signer.credential.key))
    }

    /// Remembers a credential whose signature passes, so that it is not checked again for each of a thousand records. Only
    /// the same bytes count as the same credential; whether it is revoked or expired is asked every time all the same.
    ///
    /// # Errors
    /// Those of [`credential`](Self::credential).
    pub fn remember(&mut self, bytes: &[u8]) -> Result<(), TrustError> {
        if !self.remembered.contains_key(bytes) {
            let signer = self.credential(bytes)?;
            if self.remembered.len() >= MOST_REMEMBERED {
                self.remembered.clear();
            }
            self.remembered.insert(bytes.to_vec(), signer);
        }
        Ok(())
    }

    /// Who issued a credential, once its signature passed.
    pub fn credential(&self, bytes: &[u8]) -> Result<Signer, TrustError> {
        if let Some(signer) = self.remembered.get(bytes) {
            return Ok(signer.clone());
        }
        let credentialed = Credentialed::open(bytes)?;
        let id = credentialed.authority;
        let mut last = TrustError::UnknownAuthority { kind: Kind::Credential, key: id };
        for authority in self.with_id(id) {
            match credentialed.verify(&authority.key) {
                Ok(()) => {
                    let (credential, id) = (credentialed.credential, credentialed.id);
                    return Ok(Signer { credential, id, authority: authority.key });
                }
                Err(error) => last = error,
            }
        }
        Err(last)
    }

    /// Who signed a message that carries its signer's credential, once both signatures passed.
    pub fn signer(&self, kind: Kind, message: &Sign1<'_>) -> Result<Signer, TrustError> {
        let credential = message.header.credential.ok_or(ShapeError("credential"))?;
        if message.header.key_id.is_some() {
            return Err(ShapeError("header").into());
        }
        let signer = self.credential(credential)?;
        verify(kind, message, &signer.credential.key)?;
        Ok(signer)
    }
}

/// The name of a key among the names of all: as it is given, or with the first groups of the fingerprint that no other of a like
/// name begins with.
fn told_apart(given: &BTreeMap<[u8; 32], Name>, name: &Name, public: &PublicKey) -> Name {
    let key = public.to_bytes();
    let alike = given.iter().filter(|(other, _)| **other != key);
    let others: Vec<String> = alike
        .filter(|(_, other)| same_name(other.as_str(), name.as_str()))
        .filter_map(|(other, _)| PublicKey::from_bytes(other).ok())
        .map(|other| other.fingerprint())
        .collect();
    if others.is_empty() {
        return name.clone();
    }
    let own = public.fingerprint();
    let mut shown = String::new();
    for group in own.split(' ') {
        if !shown.is_empty() {
            shown.push(' ');
        }
        shown.push_str(group);
        if !others.iter().any(|other| other.starts_with(&shown)) {
            break;
        }
    }
    let room = Name::MOST.saturating_sub(shown.len() + 1);
    let kept: String = name
        .as_str()
        .char_indices()
        .take_while(|(at, letter)| at + letter.len_utf8() <= room)
        .map(|(_, letter)| letter)
        .collect();
    Name::received(&format!("{} {shown}", kept.trim_end())).unwrap_or_else(|_| name.clone())
}
