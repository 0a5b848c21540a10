use super::keys::{PublicKey, SecretKey};
use super::message::{TrustError, make, open, verify};
use crate::envelope::{Claims, Header, Kind, Limits, Reader};
use slingseal_words::{CallSign, Time};

/// A device's public key and its holder's name, signed by that key, for an authority to credential.
///
/// ```cddl
/// key-request = message ; claims { 2: holder, 6: issued, 8: cnf }
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyRequest {
    /// Who holds the device.
    pub holder: CallSign,
    /// The device's key.
    pub key: PublicKey,
    /// When it was made.
    pub issued: Time,
}

impl KeyRequest {
    /// Makes the request.
    pub fn sign(holder: &CallSign, issued: Time, key: &SecretKey) -> Vec<u8> {
        let claims = Claims::card(holder.as_str(), issued, key.public().to_bytes());
        make(Kind::KeyRequest, Header::default(), &claims, key)
    }

    /// Reads a request and checks that whoever made it holds the key.
    pub fn open(bytes: &[u8]) -> Result<Self, TrustError> {
        let (message, claims) = open(bytes, Limits::CODE)?;
        let (holder, issued, key) = claims.read_card("claims of a key request")?;
        let holder = Reader::line_of(holder, "name of the holder", CallSign::received)?;
        let key = PublicKey::from_bytes(&key)?;
        verify(Kind::KeyRequest, &message, &key)?;
        Ok(Self { holder, key, issued })
    }
}
