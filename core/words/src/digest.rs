use std::fmt;

use sha2::{Digest as _, Sha256};

/// SHA-256 (FIPS 180-4) of some bytes. Shown as lower-case hexadecimal.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest([u8; 32]);

/// A digest that is not finished yet: what is too much to lie in memory goes into it piece by piece.
#[derive(Clone)]
pub struct Digesting(Sha256);

impl Digesting {
    /// Takes the next piece.
    pub fn take(&mut self, piece: &[u8]) {
        self.0.update(piece);
    }

    /// The digest of all pieces one after another.
    pub fn finish(self) -> Digest {
        Digest(self.0.finalize().into())
    }
}

impl Digest {
    /// The digest of `bytes`.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// The digest of all that a reader gives, piece by piece.
    ///
    /// # Errors
    /// What the reader meets.
    pub fn of_reader(reader: &mut dyn std::io::Read) -> std::io::Result<Self> {
        let mut hasher = Sha256::new();
        let mut piece = vec![0; 1 << 16];
        loop {
            match reader.read(&mut piece)? {
                0 => return Ok(Self(hasher.finalize().into())),
                length => hasher.update(piece.get(..length).unwrap_or_default()),
            }
        }
    }

    /// The digest of the parts one after another. The caller sees to it that the parts cannot be cut differently.
    pub fn of_parts(parts: &[&[u8]]) -> Self {
        let mut hasher = Sha256::new();
        for part in parts {
            hasher.update(part);
        }
        Self(hasher.finalize().into())
    }

    /// What is digested piece by piece, in flat memory; the same as [`Digest::of_parts`] of all the pieces.
    pub fn begin() -> Digesting {
        Digesting(Sha256::new())
    }

    /// What the first entry of a device's journal names as the one before: a chain belongs to one device.
    pub fn of_empty_journal(device: &[u8; 16]) -> Self {
        Self::of_parts(&[b"slingseal journal of device 1", device])
    }

    /// Takes a digest as it was received.
    pub fn from_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// Takes a digest from a slice; `None` unless it is 32 bytes long.
    pub fn from_slice(bytes: &[u8]) -> Option<Self> {
        bytes.try_into().ok().map(Self)
    }

    /// Takes a digest from 64 hexadecimal digits.
    pub fn from_hex(text: &str) -> Option<Self> {
        let mut bytes = [0u8; 32];
        let digits = text.as_bytes();
        if digits.len() != 64 {
            return None;
        }
        for (byte, pair) in bytes.iter_mut().zip(digits.chunks_exact(2)) {
            let &[high, low] = pair else { return None };
            let high = char::from(high).to_digit(16)?;
            let low = char::from(low).to_digit(16)?;
            *byte = u8::try_from(high * 16 + low).ok()?;
        }
        Some(Self(bytes))
    }

    /// The 32 bytes.
    pub fn as_bytes(&self) -> &[u8; 32] {
        &self.0
    }

    /// The check word of what this is the digest of, to be compared by voice: of the first twelve bytes each four in turn, as a number
    /// with the high byte first, modulo 1,000; three groups of three digits, a blank between. It finds what was mixed up; it does not
    /// stand in for a signature.
    pub fn check_word(&self) -> String {
        let (numbers, _) = self.0.as_chunks::<4>();
        let groups = numbers.iter().take(3).map(|four| format!("{:03}", u32::from_be_bytes(*four) % 1_000));
        groups.collect::<Vec<_>>().join(" ")
    }

    /// The first eight hexadecimal digits: enough to tell two records apart by eye, never enough to trust.
    pub fn short(&self) -> String {
        self.to_string().chars().take(8).collect()
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Digest({self})")
    }
}

#[cfg(test)]
mod tests {
    use super::Digest;

    /// FIPS 180-4 example: SHA-256 of "abc".
    #[test]
    fn known_answer() {
        let hex = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(Digest::of(b"abc").to_string(), hex);
        assert_eq!(Digest::of_parts(&[b"a", b"bc"]), Digest::of(b"abc"));
        assert_eq!(Digest::from_hex(hex), Some(Digest::of(b"abc")));
        assert_eq!(Digest::from_hex("zz"), None);
        // 0xba7816bf, 0x8f01cfea, 0x414140de: 3128432319, 2399260650, 1094795486.
        assert_eq!(Digest::of(b"abc").check_word(), "319 650 486");
    }
}
