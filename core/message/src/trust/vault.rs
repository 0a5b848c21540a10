//! The key vault: the signing key at rest, under the holder's PIN and a device secret. Neither alone opens it: a
//! copied database lacks the device secret, a stolen device lacks the PIN.

use argon2::{Algorithm, Argon2, ParamsBuilder, Version};
use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use chacha20poly1305::{Key, XChaCha20Poly1305, XNonce};
use slingseal_catalogue::{Saying, faults as words};
use zeroize::Zeroizing;

use super::keys::{PublicKey, SecretKey};
use crate::envelope::{Limits, Reader, ShapeError, Writer, check};
use slingseal_words::{Entropy, Seconds};

/// How hard the PIN is stretched (argon2id, RFC 9106).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    kibibytes: u32,
    passes: u32,
    lanes: u32,
}

impl Stretch {
    /// RFC 9106 §4, second recommended option, for where memory is short: 64 MiB, three passes, four lanes.
    pub const FIELD: Self = Self { kibibytes: 64 * 1024, passes: 3, lanes: 4 };

    /// So weak that it stands for nothing: for tests that open a vault hundreds of times.
    pub const fn weak_for_tests_only() -> Self {
        Self { kibibytes: 64, passes: 1, lanes: 1 }
    }

    /// A vault from elsewhere must not make us fill the memory.
    fn sensible(self) -> bool {
        self.kibibytes <= 1 << 20 && self.passes <= 16 && self.lanes <= 16
    }
}

/// Why a secret word is too easy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassphraseError {
    /// Too short.
    Short {
        /// How many it has.
        found: usize,
        /// How many it needs.
        least: usize,
    },
    /// One key pressed again and again, or the keys in their order.
    Obvious,
}

impl PassphraseError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Short { found, least } => words::PassphraseErrorShort { found, least }.into(),
            Self::Obvious => words::PassphraseErrorObvious.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(PassphraseError);

/// What a person keeps in the head: a PIN on a handheld, a passphrase for an authority. Wiped when dropped.
pub struct Passphrase(Zeroizing<String>);

impl std::fmt::Debug for Passphrase {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Passphrase")
    }
}

impl Passphrase {
    /// The fewest digits of a PIN.
    pub const PIN: usize = 6;
    /// The fewest characters of an authority's passphrase.
    pub const AUTHORITY: usize = 12;

    /// One that is about to be set: refused where it is too easy.
    pub fn choose(text: &str, least: usize) -> Result<Self, PassphraseError> {
        let found = text.chars().count();
        if found < least {
            return Err(PassphraseError::Short { found, least });
        }
        if is_obvious(text) {
            return Err(PassphraseError::Obvious);
        }
        Ok(Self::entered(text))
    }

    /// One that was entered to open what is there: any text may be tried.
    pub fn entered(text: &str) -> Self {
        Self(Zeroizing::new(text.to_owned()))
    }
}

/// What anyone tries first: the keys in their order up or down, round over nought as well (`123456789012`, `890123`), one block
/// again and again (`111111`, `121212`, `abcabcabcabc`), or fewer than three different keys.
fn is_obvious(text: &str) -> bool {
    let keys: Vec<char> = text.chars().flat_map(char::to_lowercase).collect();
    let number = |key: char| key.to_digit(10).map_or(i64::from(u32::from(key)), i64::from);
    let digits = keys.iter().all(char::is_ascii_digit);
    let step_is = |step: i64| {
        keys.windows(2).all(|pair| match pair {
            [a, b] if digits => (number(*b) - number(*a) - step).rem_euclid(10) == 0,
            [a, b] => number(*b) - number(*a) == step,
            _ => false,
        })
    };
    let repeats = (1..=keys.len() / 2).any(|period| {
        keys.len().is_multiple_of(period) && keys.iter().zip(keys.iter().skip(period)).all(|(a, b)| a == b)
    });
    let different = keys.iter().collect::<std::collections::BTreeSet<_>>().len();
    step_is(1) || step_is(-1) || repeats || different < 3
}

/// Why a vault does not open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VaultError {
    /// The PIN is wrong, or the vault was carried to another device.
    WrongPin,
    /// Its bytes are damaged.
    Damaged(&'static str),
}

impl VaultError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::WrongPin => words::VaultErrorWrongPin.into(),
            Self::Damaged(what) => words::VaultErrorDamaged { what }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(VaultError);

/// A signing key at rest.
///
/// ```cddl
/// vault = [1, kibibytes, passes, lanes, salt: bstr .size 16, nonce: bstr .size 24, public: bstr .size 32, key: bstr .size 48]
/// ```
#[derive(Clone, PartialEq, Eq)]
pub struct Vault(Vec<u8>);

impl std::fmt::Debug for Vault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Vault({} bytes)", self.0.len())
    }
}

struct Parts<'b> {
    stretch: Stretch,
    salt: [u8; 16],
    nonce: [u8; 24],
    public: [u8; 32],
    key: &'b [u8],
}

impl Vault {
    /// Locks a key away.
    pub fn lock(
        key: &SecretKey,
        pin: &Passphrase,
        device_secret: &[u8],
        stretch: Stretch,
        entropy: &dyn Entropy,
    ) -> Result<Self, VaultError> {
        let (mut salt, mut nonce) = ([0; 16], [0; 24]);
        entropy.fill(&mut salt);
        entropy.fill(&mut nonce);
        let public = key.public().to_bytes();
        let cipher = cipher(pin, device_secret, &salt, stretch)?;
        let seed = key.seed();
        let locked = cipher
            .encrypt(&XNonce::from(nonce), Payload { msg: seed.as_slice(), aad: &public })
            .map_err(|_| VaultError::Damaged("encryption failed"))?;
        let mut writer = Writer::new();
        writer
            .array(8)
            .int(1)
            .int(stretch.kibibytes.into())
            .int(stretch.passes.into())
            .int(stretch.lanes.into());
        writer.bytes(&salt).bytes(&nonce).bytes(&public).bytes(&locked);
        Ok(Self(writer.into_bytes()))
    }

    /// Opens it.
    pub fn unlock(&self, pin: &Passphrase, device_secret: &[u8]) -> Result<SecretKey, VaultError> {
        let parts = self.parts()?;
        let cipher = cipher(pin, device_secret, &parts.salt, parts.stretch)?;
        let seed = cipher
            .decrypt(&XNonce::from(parts.nonce), Payload { msg: parts.key, aad: &parts.public })
            .map(Zeroizing::new)
            .map_err(|_| VaultError::WrongPin)?;
        let seed =
            Zeroizing::new(<[u8; 32]>::try_from(seed.as_slice()).map_err(|_| VaultError::Damaged("key"))?);
        let key = SecretKey::from_seed(&seed);
        if key.public().to_bytes() == parts.public { Ok(key) } else { Err(VaultError::Damaged("key")) }
    }

    /// The public key, readable without the PIN.
    pub fn public(&self) -> Result<PublicKey, VaultError> {
        PublicKey::from_bytes(&self.parts()?.public).map_err(|_| VaultError::Damaged("public key"))
    }

    /// Takes a vault as it was stored.
    pub fn from_bytes(bytes: Vec<u8>) -> Self {
        Self(bytes)
    }

    /// The bytes to store.
    pub fn as_bytes(&self) -> &[u8] {
        &self.0
    }

    fn parts(&self) -> Result<Parts<'_>, VaultError> {
        check(&self.0, Limits::CODE).map_err(|_| VaultError::Damaged("form"))?;
        let read = || -> Result<Parts<'_>, ShapeError> {
            let mut reader = Reader::new(&self.0);
            reader.array(8, "vault")?;
            if reader.int("version")? != 1 {
                return Err(ShapeError("version"));
            }
            Ok(Parts {
                stretch: Stretch {
                    kibibytes: reader.small("stretch")?,
                    passes: reader.small("stretch")?,
                    lanes: reader.small("stretch")?,
                },
                salt: reader.fixed("salt")?,
                nonce: reader.fixed("nonce")?,
                public: reader.fixed("public key")?,
                key: reader.bytes("key")?,
            })
        };
        let parts = read().map_err(|ShapeError(part)| VaultError::Damaged(part))?;
        if parts.stretch.sensible() { Ok(parts) } else { Err(VaultError::Damaged("stretch")) }
    }
}

fn cipher(
    pin: &Passphrase,
    device_secret: &[u8],
    salt: &[u8; 16],
    stretch: Stretch,
) -> Result<XChaCha20Poly1305, VaultError> {
    let damaged = |_| VaultError::Damaged("stretch");
    let params = ParamsBuilder::new()
        .m_cost(stretch.kibibytes)
        .t_cost(stretch.passes)
        .p_cost(stretch.lanes)
        .build()
        .map_err(damaged)?;
    let argon = Argon2::new_with_secret(device_secret, Algorithm::Argon2id, Version::V0x13, params)
        .map_err(damaged)?;
    let mut key = Zeroizing::new([0; 32]);
    argon.hash_password_into(pin.0.as_bytes(), salt, key.as_mut()).map_err(damaged)?;
    Ok(XChaCha20Poly1305::new(&Key::from(*key)))
}

/// How long to wait after so many wrong PINs in a row. Three slips cost nothing; a thousand guesses take six weeks.
pub fn delay_after(wrong: u32) -> Seconds {
    match wrong {
        0..=2 => Seconds(0),
        3 => Seconds(30),
        4 => Seconds(60),
        5 => Seconds(5 * 60),
        6 => Seconds(15 * 60),
        _ => Seconds::hours(1),
    }
}
