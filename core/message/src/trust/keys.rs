use slingseal_catalogue::{Saying, faults as words};
use std::fmt;

use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};
use zeroize::Zeroizing;

use slingseal_words::{Digest, Entropy, KeyId};

/// Why 32 bytes are not a public key that can be relied on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeyError {
    /// Not a point of the curve.
    NotAKey,
    /// A point of small order: signatures under it prove nothing.
    Weak,
}

impl KeyError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::NotAKey => words::KeyErrorNotAKey.into(),
            Self::Weak => words::KeyErrorWeak.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(KeyError);

/// The first eight bytes of the SHA-256 of a public key. To make another key of the same thumbprint takes 2^64 tries, and
/// gains a key that is revoked as well.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KeyThumbprint(pub [u8; 8]);

impl fmt::Display for KeyThumbprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

/// An Ed25519 public key (RFC 8032), never a weak one.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct PublicKey(VerifyingKey);

impl PublicKey {
    /// Takes 32 bytes.
    pub fn from_bytes(bytes: &[u8; 32]) -> Result<Self, KeyError> {
        if !is_reduced(bytes) {
            return Err(KeyError::NotAKey);
        }
        let key = VerifyingKey::from_bytes(bytes).map_err(|_| KeyError::NotAKey)?;
        if key.is_weak() { Err(KeyError::Weak) } else { Ok(Self(key)) }
    }

    /// The 32 bytes.
    pub fn to_bytes(&self) -> [u8; 32] {
        self.0.to_bytes()
    }

    /// What the key is looked up by.
    pub fn id(&self) -> KeyId {
        let [a, b, c, d, ..] = *Digest::of(self.0.as_bytes()).as_bytes();
        KeyId([a, b, c, d])
    }

    /// What a roster revokes the key by.
    pub fn thumbprint(&self) -> KeyThumbprint {
        let [a, b, c, d, e, f, g, h, ..] = *Digest::of(self.0.as_bytes()).as_bytes();
        KeyThumbprint([a, b, c, d, e, f, g, h])
    }

    /// What two people compare by voice before they trust a key: five groups of a letter and three digits, such as
    /// `K704 R118 T902 C455 M310`, read by the spelling alphabet. The letter tells where a group begins, so that a digit that
    /// was lost or said twice is noticed.
    ///
    /// Of SHA-256 over `slingseal fingerprint` and the 32 bytes of the key, each six bytes in turn, as a number with the high
    /// byte first, modulo 24,000: the quotient by 1,000 picks the letter, the rest is the digits. Five times log2(24,000) is
    /// 72.7 bits; 2^48 is no multiple of 24,000, which favours some groups by less than one part in 10^10.
    pub fn fingerprint(&self) -> String {
        spoken_groups(&Digest::of_parts(&[b"slingseal fingerprint", self.0.as_bytes()]))
    }

    /// Whether this is what a person said or typed as the key's fingerprint: case, blanks and hyphens do not count.
    pub fn has_fingerprint(&self, said: &str) -> bool {
        let plain = |text: &str| -> String {
            text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect()
        };
        plain(said) == plain(&self.fingerprint())
    }

    /// Whether `signature` is this key's over `message`: the strict rule, which refuses malleable and mixed-order
    /// signatures.
    pub fn signed(&self, message: &[u8], signature: &[u8; 64]) -> bool {
        self.0.verify_strict(message, &Signature::from_bytes(signature)).is_ok()
    }
}

/// The five groups that people compare by voice, of a digest.
pub(super) fn spoken_groups(digest: &Digest) -> String {
    let groups = digest.as_bytes().chunks(6).take(5).map(|chunk| {
        let number = chunk.iter().fold(0u64, |sum, byte| sum << 8 | u64::from(*byte)) % 24_000;
        let letter = usize::try_from(number / 1_000).ok().and_then(|at| LETTERS.get(at)).copied();
        format!("{}{:03}", char::from(letter.unwrap_or(b'?')), number % 1_000)
    });
    groups.collect::<Vec<_>>().join(" ")
}

/// The letters of a fingerprint: without I and O, which are read as digits.
const LETTERS: &[u8; 24] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";

/// Whether the y coordinate is below the field's prime 2^255 - 19 (RFC 8032 §5.1.3, step 1). The library takes others too,
/// and one key would have two spellings.
fn is_reduced(bytes: &[u8; 32]) -> bool {
    let [low, middle @ .., high] = bytes;
    *low < 0xed || high & 0x7f != 0x7f || middle.iter().any(|byte| *byte != 0xff)
}

impl fmt::Debug for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "PublicKey({})", self.id())
    }
}

/// An Ed25519 secret key. Wiped from memory when dropped; never shown, never written but by the vault.
pub struct SecretKey(SigningKey);

impl SecretKey {
    /// A new key.
    pub fn make(entropy: &dyn Entropy) -> Self {
        let mut seed = Zeroizing::new([0; 32]);
        entropy.fill(seed.as_mut());
        Self::from_seed(&seed)
    }

    /// The key of a seed (RFC 8032 §5.1.5).
    pub fn from_seed(seed: &[u8; 32]) -> Self {
        Self(SigningKey::from_bytes(seed))
    }

    /// The public key.
    pub fn public(&self) -> PublicKey {
        PublicKey(self.0.verifying_key())
    }

    /// Signs.
    pub fn sign(&self, message: &[u8]) -> [u8; 64] {
        self.0.sign(message).to_bytes()
    }

    pub(super) fn seed(&self) -> Zeroizing<[u8; 32]> {
        Zeroizing::new(self.0.to_bytes())
    }
}

impl fmt::Debug for SecretKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "SecretKey({})", self.public().id())
    }
}
