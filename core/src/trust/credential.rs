use std::fmt;

use super::keys::{PublicKey, SecretKey};
use super::message::{TrustError, make, open, verify};
use super::roles::Roles;
use crate::envelope::{
    Claims, Header, Kind, Limits, Reader, ShapeError, Sign1, Writer, assemble, to_be_signed,
};
use crate::words::{CallSign, Digest, KeyId, Seconds, Time};

/// How long a seal may hold where the authority says nothing else: a day.
pub const DEFAULT_VALIDITY: Seconds = Seconds::hours(24);

/// What a roster revokes a credential by: the first eight bytes of the SHA-256 of the credential as issued.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CredentialId(pub [u8; 8]);

impl CredentialId {
    /// The id of a credential's bytes.
    pub fn of(credential: &[u8]) -> Self {
        let [a, b, c, d, e, f, g, h, ..] = *Digest::of(credential).as_bytes();
        Self([a, b, c, d, e, f, g, h])
    }

    /// Reads sixteen hexadecimal digits.
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.trim();
        if text.len() != 16 || !text.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            return None;
        }
        u64::from_str_radix(text, 16).ok().map(|number| Self(number.to_be_bytes()))
    }
}

impl fmt::Display for CredentialId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

/// An authority's word that a key belongs to a person who may act in some roles until a time.
///
/// ```cddl
/// credential = message ; header { 1: -19, 4: authority's key id }
///                      ; claims { 2: holder, 4: expires, 6: issued, 8: cnf, -65537: content }
/// content    = roles / [roles, longest-validity]     ; uint bits; uint seconds where it is not 24 h
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Credential {
    /// Who holds it.
    pub holder: CallSign,
    /// What the holder may do.
    pub roles: Roles,
    /// When it was issued.
    pub issued: Time,
    /// Past this the holder may sign nothing.
    pub expires: Time,
    /// The longest that a seal under it may hold.
    pub longest_validity: Seconds,
    /// The holder's public key.
    pub key: PublicKey,
}

impl Credential {
    /// Issues it.
    pub fn issue(&self, authority: &SecretKey) -> Vec<u8> {
        let mut ours = Writer::new();
        if self.longest_validity == DEFAULT_VALIDITY {
            ours.int(self.roles.bits().into());
        } else {
            ours.array(2).int(self.roles.bits().into()).int(self.longest_validity.0);
        }
        let ours = ours.into_bytes();
        let claims = Claims {
            subject: Some(self.holder.as_str()),
            expires: Some(self.expires),
            issued: Some(self.issued),
            key: Some(self.key.to_bytes()),
            ours: Some(&ours),
        };
        let header = Header { key_id: Some(authority.public().id()), credential: None };
        make(Kind::Credential, header, &claims, authority)
    }
}

/// A credential as received, with what it says: not yet verified.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Credentialed<'b> {
    /// What it says.
    pub credential: Credential,
    /// Whose key it claims to be signed with.
    pub authority: KeyId,
    /// Its id.
    pub id: CredentialId,
    bytes: &'b [u8],
}

impl<'b> Credentialed<'b> {
    /// Reads a credential; believe nothing of it before [`verify`](Self::verify).
    pub fn open(bytes: &'b [u8]) -> Result<Self, TrustError> {
        let (message, claims) = open(bytes, Limits::CODE)?;
        let Claims {
            subject: Some(holder),
            expires: Some(expires),
            issued: Some(issued),
            key: Some(key),
            ours: Some(ours),
        } = claims
        else {
            return Err(ShapeError("claims of a credential").into());
        };
        let Header { key_id: Some(authority), credential: None } = message.header else {
            return Err(ShapeError("header of a credential").into());
        };
        let (roles, longest_validity) = content(ours)?;
        let credential = Credential {
            holder: CallSign::new(holder).map_err(|_| ShapeError("name of the holder"))?,
            roles,
            issued,
            expires,
            longest_validity,
            key: PublicKey::from_bytes(&key)?,
        };
        Ok(Self { credential, authority, id: CredentialId::of(bytes), bytes })
    }

    /// Whether the authority signed it.
    pub fn verify(&self, authority: &PublicKey) -> Result<(), TrustError> {
        verify(Kind::Credential, &Sign1::parse(self.bytes, Limits::CODE)?, authority)
    }

    /// The bytes as received.
    pub fn bytes(&self) -> &'b [u8] {
        self.bytes
    }
}

fn content(ours: &[u8]) -> Result<(Roles, Seconds), ShapeError> {
    const PART: &str = "roles";
    let mut reader = Reader::new(ours);
    let listed = reader.at_array();
    if listed {
        reader.array(2, PART)?;
    }
    let roles = Roles::from_bits(reader.small(PART)?).ok_or(ShapeError(PART))?;
    let validity = if listed { Seconds(reader.int("longest validity")?) } else { DEFAULT_VALIDITY };
    if validity.0 <= 0 || (listed && validity == DEFAULT_VALIDITY) {
        return Err(ShapeError("longest validity"));
    }
    Ok((roles, validity))
}

/// A holder's message before it is signed: the credential rides in the protected header, so that one code is verified
/// by anyone who holds the authority's key.
#[derive(Clone, Debug)]
pub struct Unsigned {
    kind: Kind,
    credential: Vec<u8>,
    payload: Vec<u8>,
}

impl Unsigned {
    /// Prepares a message of `kind` under a credential.
    pub fn prepare(kind: Kind, credential: &[u8], claims: &Claims<'_>) -> Self {
        Self { kind, credential: credential.to_owned(), payload: claims.to_bytes() }
    }

    fn header(&self) -> Header<'_> {
        Header { key_id: None, credential: Some(&self.credential) }
    }

    /// What is to be signed.
    pub fn to_be_signed(&self) -> Vec<u8> {
        to_be_signed(self.kind, self.header(), &self.payload)
    }

    /// The message with its signature.
    pub fn finish(&self, signature: &[u8; 64]) -> Vec<u8> {
        assemble(self.header(), &self.payload, signature)
    }
}
