use std::fmt;

use super::keys::{PublicKey, SecretKey};
use super::message::{TrustError, make, open, verify};
use super::roles::Roles;
use crate::envelope::{Claims, Header, Kind, Limits, Reader, ShapeError, Sign1, Writer};
use slingseal_words::{CallSign, Digest, KeyId, Seconds, Time};

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
///                      ; claims { 2: holder, 4: expires, 8: cnf, 9: roles, ? -65537: longest validity }
/// roles      = bstr .size 1                          ; the scope claim (RFC 9200): one bit a role
/// longest validity = uint                            ; seconds, where it is not 24 h
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Credential {
    /// Who holds it.
    pub holder: CallSign,
    /// What the holder may do.
    pub roles: Roles,
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
        let roles = [self.roles.bits()];
        let validity = (self.longest_validity != DEFAULT_VALIDITY).then(|| {
            let mut ours = Writer::new();
            ours.int(self.longest_validity.0);
            ours.into_bytes()
        });
        let claims = Claims {
            subject: Some(self.holder.as_str()),
            expires: Some(self.expires),
            key: Some(self.key.to_bytes()),
            scope: Some(&roles),
            ours: validity.as_deref(),
            ..Claims::default()
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
            issued: None,
            key: Some(key),
            scope: Some(&[roles]),
            ours,
        } = claims
        else {
            return Err(ShapeError("claims of a credential").into());
        };
        let Header { key_id: Some(authority), credential: None } = message.header else {
            return Err(ShapeError("header of a credential").into());
        };
        let credential = Credential {
            holder: Reader::line_of(holder, "name of the holder", CallSign::received)?,
            roles: Roles::from_bits(roles).ok_or(ShapeError("roles"))?,
            expires,
            longest_validity: ours.map_or(Ok(DEFAULT_VALIDITY), longest_validity)?,
            key: PublicKey::from_bytes(&key)?,
        };
        Ok(Self { credential, authority, id: CredentialId::of(bytes), bytes })
    }

    /// Whether the authority signed it.
    pub fn verify(&self, authority: &PublicKey) -> Result<(), TrustError> {
        verify(Kind::Credential, &Sign1::parse(self.bytes, Limits::CODE)?, authority)
    }
}

fn longest_validity(ours: &[u8]) -> Result<Seconds, ShapeError> {
    const PART: &str = "longest validity";
    let validity = Seconds(Reader::new(ours).int(PART)?);
    // The usual one is left out: two spellings of one credential would have two ids.
    if validity.0 > 0 && validity != DEFAULT_VALIDITY { Ok(validity) } else { Err(ShapeError(PART)) }
}
