use super::keys::{PublicKey, SecretKey};
use super::message::{TrustError, make, open, verify};
use crate::envelope::{Claims, Header, Kind, Limits, Reader};
use slingseal_words::{Name, Time};

/// An authority's name and public key, signed by itself: proof of nothing but that it was not torn. A device trusts
/// it once a person has compared the fingerprint by voice.
///
/// ```cddl
/// authority = message ; claims { 2: name, 6: issued, 8: cnf }
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Authority {
    /// What it goes by.
    pub name: Name,
    /// Its public key.
    pub key: PublicKey,
    /// When this card was made.
    pub issued: Time,
}

impl Authority {
    /// Makes the card.
    pub fn sign(name: &Name, issued: Time, key: &SecretKey) -> Vec<u8> {
        let claims = Claims::card(name.as_str(), issued, key.public().to_bytes());
        make(Kind::Authority, Header::default(), &claims, key)
    }

    /// Reads a card and checks that it is signed by the key in it.
    pub fn open(bytes: &[u8]) -> Result<Self, TrustError> {
        let (message, claims) = open(bytes, Limits::CODE)?;
        let (name, issued, key) = claims.read_card("claims of an authority")?;
        let name = Reader::line_of(name, "name of the authority", Name::received)?;
        let key = PublicKey::from_bytes(&key)?;
        verify(Kind::Authority, &message, &key)?;
        Ok(Self { name, key, issued })
    }
}
