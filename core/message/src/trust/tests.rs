use super::*;
use slingseal_words::{CallSign, Entropy, KeyId, Name, Seconds, Time};

/// Counts up: randomness that repeats.
struct Counting(std::sync::atomic::AtomicU8);

impl Entropy for Counting {
    fn fill(&self, bytes: &mut [u8]) {
        for byte in bytes {
            *byte = self.0.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
        }
    }
}

fn entropy() -> Counting {
    Counting(1.into())
}

fn key(seed: u8) -> SecretKey {
    SecretKey::from_seed(&[seed; 32])
}

fn at(seconds: i64) -> Time {
    Time::from_unix(1_790_000_000 + seconds)
}

fn credential() -> Credential {
    Credential {
        holder: CallSign::new("Anvil 3").unwrap(),
        roles: Roles::of(&[Role::Inspector]),
        expires: at(1_000),
        longest_validity: DEFAULT_VALIDITY,
        key: key(2).public(),
    }
}

#[test]
fn a_credential_says_what_was_issued_and_only_its_authority_signed_it() {
    for validity in [DEFAULT_VALIDITY, Seconds::hours(6)] {
        let issued = Credential { longest_validity: validity, ..credential() };
        let bytes = issued.issue(&key(1));
        let opened = Credentialed::open(&bytes).unwrap();
        assert_eq!((&opened.credential, opened.authority), (&issued, key(1).public().id()));
        assert_eq!(opened.verify(&key(1).public()), Ok(()));
        assert!(matches!(opened.verify(&key(3).public()), Err(TrustError::BadSignature(_))));
    }
}

#[test]
fn no_bit_of_a_credential_can_change() {
    let bytes = credential().issue(&key(1));
    for bit in 0..bytes.len() * 8 {
        let mut other = bytes.clone();
        other[bit / 8] ^= 1 << (bit % 8);
        let passed = Credentialed::open(&other).is_ok_and(|opened| {
            opened.authority == key(1).public().id() && opened.verify(&key(1).public()).is_ok()
        });
        assert!(!passed, "bit {bit}");
    }
}

/// Only what passed is remembered, byte for byte, and only while the authorities stay as they were.
#[test]
fn a_remembered_credential_is_the_same_bytes_alone() {
    let bytes = credential().issue(&key(1));
    let authority = |seed| TrustedAuthority {
        name: Name::new("Sela Relief").unwrap(),
        key: key(seed).public(),
        roster: None,
    };
    let mut trusted = Trusted::default();
    assert!(trusted.remember(&bytes).is_err(), "its authority is not trusted yet");
    trusted.add(authority(1));
    let asked = trusted.credential(&bytes).unwrap();
    trusted.remember(&bytes).unwrap();
    assert_eq!(trusted.credential(&bytes).unwrap(), asked);
    for bit in 0..bytes.len() * 8 {
        let mut other = bytes.clone();
        other[bit / 8] ^= 1 << (bit % 8);
        assert!(trusted.credential(&other).is_err(), "bit {bit}");
        assert!(trusted.remember(&other).is_err(), "bit {bit}");
    }
    let revoked = Roster { sequence: 1, issued: at(0), expires: at(9), revoked: [asked.id].into() };
    trusted.add(TrustedAuthority { roster: Some(revoked), ..authority(1) });
    assert!(trusted.revoked(&trusted.credential(&bytes).unwrap()));
}

#[test]
fn authority_and_request_prove_that_they_hold_their_key() {
    let name = Name::new("Sela Relief").unwrap();
    let card = Authority::sign(&name, at(0), &key(1));
    assert_eq!(Authority::open(&card).unwrap().name, name);
    let request = KeyRequest::sign(&CallSign::new("Anvil 3").unwrap(), at(0), &key(2));
    assert_eq!(KeyRequest::open(&request).unwrap().key, key(2).public());
    // One does not pass as the other, though they are built alike.
    assert!(matches!(Authority::open(&request), Err(TrustError::BadSignature(_))));
    assert!(matches!(KeyRequest::open(&card), Err(TrustError::BadSignature(_))));
}

#[test]
fn a_roster_opens_for_its_authority_alone() {
    let id = CredentialId::of(b"x");
    assert_eq!(CredentialId::parse(&id.to_string()), Some(id));
    let roster =
        Roster { sequence: 4, issued: at(0), expires: at(9), revoked: [id, CredentialId([1; 8])].into() };
    let bytes = roster.sign(&key(1));
    assert_eq!(Roster::authority(&bytes), Ok(key(1).public().id()));
    assert_eq!(Roster::open(&bytes, &key(1).public()), Ok(roster));
    assert!(Roster::open(&bytes, &key(2).public()).is_err());
    let all = (0..Roster::MOST as u64)
        .map(|number| CredentialId((number * 0x0001_0000_0001).to_be_bytes()))
        .collect();
    let full = Roster { sequence: 5, issued: at(0), expires: at(9), revoked: all };
    assert_eq!(
        Roster::open(&full.sign(&key(1)), &key(1).public()),
        Ok(full),
        "the most that a roster revokes"
    );
}

/// RFC 8032 §7.1, test 2.
#[test]
fn rfc_8032_test_2() {
    let bytes = |hex: &str| -> Vec<u8> {
        let digits: Vec<char> = hex.chars().collect();
        digits.chunks(2).map(|pair| u8::from_str_radix(&String::from_iter(pair), 16).unwrap()).collect()
    };
    let seed = bytes("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb");
    let key = SecretKey::from_seed(&seed.try_into().unwrap());
    let public = bytes("3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c");
    assert_eq!(key.public().to_bytes().to_vec(), public);
    let signature = bytes(
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    );
    assert_eq!(key.sign(&[0x72]).to_vec(), signature);
    assert!(key.public().signed(&[0x72], &signature.try_into().unwrap()));
}

#[test]
fn weak_keys_are_refused() {
    let mut identity = [0; 32];
    identity[0] = 1;
    assert_eq!(PublicKey::from_bytes(&identity), Err(KeyError::Weak));
    assert_eq!(PublicKey::from_bytes(&[0; 32]), Err(KeyError::Weak));
    assert_eq!(PublicKey::from_bytes(&[2; 32]), Err(KeyError::NotAKey));
    // RFC 8032 §5.1.3: y below p = 2^255 - 19. y = -1 is a point of order two; p and 1 + p are 0 and 1 spelled a second time.
    let near_p = |low: u8, middle: u8, high: u8| {
        let mut bytes = [0xff; 32];
        (bytes[0], bytes[16], bytes[31]) = (low, middle, high);
        bytes
    };
    assert_eq!(PublicKey::from_bytes(&near_p(0xec, 0xff, 0x7f)), Err(KeyError::Weak));
    for (low, high) in [(0xed, 0x7f), (0xee, 0x7f), (0xff, 0x7f), (0xed, 0xff)] {
        assert_eq!(
            PublicKey::from_bytes(&near_p(low, 0xff, high)),
            Err(KeyError::NotAKey),
            "{low:x} {high:x}"
        );
    }
}

#[test]
fn the_vault_wants_the_pin_and_the_device() {
    let quick = Stretch::weak_for_tests_only();
    let pin = Passphrase::choose("294817", Passphrase::PIN).unwrap();
    let vault = Vault::lock(&key(5), &pin, b"device", quick, &entropy()).unwrap();
    assert_eq!(vault.public().unwrap(), key(5).public());
    assert_eq!(vault.unlock(&pin, b"device").unwrap().public(), key(5).public());
    assert_eq!(vault.unlock(&Passphrase::entered("294818"), b"device").err(), Some(VaultError::WrongPin));
    assert_eq!(vault.unlock(&pin, b"other device").err(), Some(VaultError::WrongPin));
    assert!(!vault.as_bytes().windows(32).any(|window| window == [5; 32]), "the seed stands in the clear");
    for at in 0..vault.as_bytes().len() {
        let mut bytes = vault.as_bytes().to_vec();
        bytes[at] ^= 1;
        assert!(Vault::from_bytes(bytes).unlock(&pin, b"device").is_err(), "byte {at}");
    }
}

#[test]
fn easy_pins_are_refused() {
    for (pin, error) in [
        ("12345", PassphraseError::Short { found: 5, least: 6 }),
        ("111111", PassphraseError::Obvious),
        ("123456", PassphraseError::Obvious),
        ("987654", PassphraseError::Obvious),
    ] {
        assert_eq!(Passphrase::choose(pin, Passphrase::PIN).err(), Some(error), "{pin}");
    }
    let week = (0..1_000).map(delay_after).fold(0, |sum, delay| sum + delay.0);
    assert!(week > 40 * 86_400);
}

#[test]
fn ids_and_fingerprints_differ_by_key() {
    assert_ne!(key(1).public().id(), key(2).public().id());
    assert_eq!(key(1).public().fingerprint().len(), 24);
    assert_ne!(key(1).public().fingerprint(), key(2).public().fingerprint());
    assert_eq!(KeyId([0xab; 4]).to_string(), "abababab");
    assert_eq!(Roles::parse("inspector, leader").unwrap().to_string(), "inspector, leader");
    assert_eq!(Roles::parse("pilot"), Err("pilot".to_owned()));
}
