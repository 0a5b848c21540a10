use super::keys::{PublicKey, SecretKey};
use super::message::{TrustError, make, open, verify};
use crate::envelope::{Claims, Header, Kind, Limits, Reader, ShapeError};
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
        let claims = Claims {
            subject: Some(holder.as_str()),
            issued: Some(issued),
            key: Some(key.public().to_bytes()),
            ..Claims::default()
        };
        make(Kind::KeyRequest, Header::default(), &claims, key)
    }

    /// Reads a request and checks that whoever made it holds the key.
    pub fn open(bytes: &[u8]) -> Result<Self, TrustError> {
        let (message, claims) = open(bytes, Limits::CODE)?;
        let Claims {
            subject: Some(holder),
            issued: Some(issued),
            key: Some(key),
            expires: None,
            scope: None,
            ours: None,
        } = claims
        else {
            return Err(ShapeError("claims of a key request").into());
        };
        let holder = Reader::line_of(holder, "name of the holder", CallSign::received)?;
        let key = PublicKey::from_bytes(&key)?;
        verify(Kind::KeyRequest, &message, &key)?;
        Ok(Self { holder, key, issued })
    }
}
