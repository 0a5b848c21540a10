use std::collections::BTreeSet;

use super::credential::CredentialId;
use super::keys::{PublicKey, SecretKey};
use super::message::{TrustError, make, open, verify};
use crate::envelope::{Claims, Header, Kind, Limits, Reader, ShapeError, Writer};
use slingseal_words::{KeyId, Time};

/// An authority's list of the credentials that it has taken back. A later sequence replaces an earlier one, never the
/// other way round.
///
/// ```cddl
/// roster = message ; header { 1: -19, 4: authority's key id }
///                  ; claims { 4: valid until, 6: issued, -65537: [sequence, [* bstr .size 8]] }
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Roster {
    /// Counts up with each roster of the authority.
    pub sequence: u32,
    /// When it was issued.
    pub issued: Time,
    /// Past this it is too old to rely on.
    pub expires: Time,
    /// What is revoked.
    pub revoked: BTreeSet<CredentialId>,
}

impl Roster {
    /// The most credentials that one roster revokes.
    pub const MOST: usize = 10_000;
    /// Nine bytes for each of them, and what stands around.
    const LIMITS: Limits = Limits { bytes: 9 * Self::MOST + 1_000, depth: 8 };

    /// Signs it.
    pub fn sign(&self, authority: &SecretKey) -> Vec<u8> {
        let mut ours = Writer::new();
        ours.array(2).int(self.sequence.into()).array(self.revoked.len());
        for id in &self.revoked {
            ours.bytes(&id.0);
        }
        let ours = ours.into_bytes();
        let claims = Claims {
            expires: Some(self.expires),
            issued: Some(self.issued),
            ours: Some(&ours),
            ..Claims::default()
        };
        let header = Header { key_id: Some(authority.public().id()), credential: None };
        make(Kind::Roster, header, &claims, authority)
    }

    /// Whose roster it claims to be, before it is verified.
    pub fn authority(bytes: &[u8]) -> Result<KeyId, TrustError> {
        let (message, _) = open(bytes, Self::LIMITS)?;
        message.header.key_id.ok_or_else(|| ShapeError("header of a roster").into())
    }

    /// Reads a roster and checks that the authority signed it.
    pub fn open(bytes: &[u8], authority: &PublicKey) -> Result<Self, TrustError> {
        let (message, claims) = open(bytes, Self::LIMITS)?;
        let Claims {
            subject: None,
            expires: Some(expires),
            issued: Some(issued),
            key: None,
            scope: None,
            ours: Some(ours),
        } = claims
        else {
            return Err(ShapeError("claims of a roster").into());
        };
        if message.header.key_id != Some(authority.id()) || message.header.credential.is_some() {
            return Err(ShapeError("header of a roster").into());
        }
        verify(Kind::Roster, &message, authority)?;
        let mut reader = Reader::new(ours);
        reader.array(2, "roster")?;
        let sequence = reader.small("sequence")?;
        let ids = reader.list(Self::MOST, "revoked credentials", |reader| {
            reader.fixed("revoked credential").map(CredentialId)
        })?;
        let revoked: BTreeSet<_> = ids.iter().copied().collect();
        // Sorted and without repeats, as we write it.
        if !revoked.iter().eq(ids.iter()) {
            return Err(ShapeError("revoked credentials").into());
        }
        Ok(Self { sequence, issued, expires, revoked })
    }
}
