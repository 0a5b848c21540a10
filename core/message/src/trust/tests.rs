use super::*;
use crate::envelope::{Claims, Header, Kind, Writer};
use slingseal_words::{CallSign, Digest, Entropy, KeyId, Name, ProcedureId, Seconds, Time};

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
    let revoked = Roster { revoked: [asked.id].into(), ..Roster::new(1, at(0), at(9)) };
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
    let roster = Roster { revoked: [id, CredentialId([1; 8])].into(), ..Roster::new(4, at(0), at(9)) };
    let bytes = roster.sign(&key(1));
    assert_eq!(Roster::authority(&bytes), Ok(key(1).public().id()));
    assert_eq!(Roster::open(&bytes, &key(1).public()), Ok(roster));
    assert!(Roster::open(&bytes, &key(2).public()).is_err());
    let all = (0..Roster::MOST as u64)
        .map(|number| CredentialId((number * 0x0001_0000_0001).to_be_bytes()))
        .collect();
    let full = Roster { revoked: all, ..Roster::new(5, at(0), at(9)) };
    assert_eq!(
        Roster::open(&full.sign(&key(1)), &key(1).public()),
        Ok(full),
        "the most that a roster revokes"
    );
}

fn edition(procedure: &str, version: u32) -> Edition {
    Edition::of(ProcedureId::new(procedure).unwrap(), version, Digest::of(procedure.as_bytes()))
}

/// A roster that says something of everything.
fn full_roster() -> Roster {
    Roster {
        revoked: [CredentialId([1; 8]), CredentialId([2; 8])].into(),
        keys: [(key(2).public().thumbprint(), at(-5)), (key(3).public().thumbprint(), at(0))].into(),
        approved: [
            (edition("bag", 1), Approval { from: at(-9), withdrawn: Some(at(-2)) }),
            (edition("bag", 2), Approval { from: at(-2), withdrawn: None }),
            (edition("net", 1), Approval { from: at(-9), withdrawn: None }),
        ]
        .into(),
        ..Roster::new(6, at(0), at(9))
    }
}

#[test]
fn a_roster_of_either_kind_says_what_was_signed() {
    let full = full_roster();
    let bytes = full.sign(&key(1));
    assert_eq!(Roster::kind(&bytes), Ok(Kind::RosterOfKeys));
    assert_eq!(Roster::open(&bytes, &key(1).public()), Ok(full.clone()));
    assert!(full.sign_first_kind(&key(1)).is_none(), "RO1 cannot say it");
    let first = Roster { revoked: full.revoked.clone(), ..Roster::new(6, at(0), at(9)) };
    let bytes = first.sign_first_kind(&key(1)).unwrap();
    assert_eq!(Roster::kind(&bytes), Ok(Kind::Roster));
    assert_eq!(Roster::open(&bytes, &key(1).public()), Ok(first));
    for bit in 0..bytes.len() * 8 {
        let mut other = bytes.clone();
        other[bit / 8] ^= 1 << (bit % 8);
        assert!(Roster::open(&other, &key(1).public()).is_err(), "bit {bit}");
    }
}

/// A roster whose content is written by hand: what a careless authority's program might sign.
fn roster_of(kind: Kind, write: impl FnOnce(&mut Writer)) -> Result<Roster, TrustError> {
    let mut ours = Writer::new();
    write(&mut ours);
    let ours = ours.into_bytes();
    let claims = Claims { expires: Some(at(9)), issued: Some(at(0)), ours: Some(&ours), ..Claims::default() };
    let header = Header { key_id: Some(key(1).public().id()), credential: None };
    Roster::open(&message::make(kind, header, &claims, &key(1)), &key(1).public())
}

#[test]
fn a_roster_has_one_spelling_and_its_kind_is_signed() {
    let head = |ours: &mut Writer| {
        ours.array(4).int(6).array(0);
    };
    let entry = |ours: &mut Writer, key: u8, since: i64| {
        ours.array(2).bytes(&[key; 8]).int(since);
    };
    let approval = |ours: &mut Writer, id: &str, version: i64, from: i64, withdrawn: Option<i64>| {
        ours.array(5).text(id).int(version).bytes(&[7; 16]).int(from);
        ours.maybe(withdrawn, |ours, time| ours.int(time));
    };
    let two = |first: (u8, i64), second: (u8, i64)| {
        roster_of(Kind::RosterOfKeys, |ours| {
            head(ours);
            ours.array(2);
            entry(ours, first.0, first.1);
            entry(ours, second.0, second.1);
            ours.array(0);
        })
    };
    assert_eq!(two((1, 5), (2, 4)).unwrap().keys.len(), 2);
    assert!(two((2, 4), (1, 5)).is_err(), "out of order");
    assert!(two((1, 4), (1, 5)).is_err(), "one key twice, with two times");
    assert!(two((1, 4), (2, -1)).is_err(), "before 1970");
    type Given<'a> = (&'a str, i64, i64, Option<i64>);
    let approved = |all: &[Given<'_>]| {
        roster_of(Kind::RosterOfKeys, |ours| {
            head(ours);
            ours.array(0).array(all.len());
            all.iter()
                .for_each(|(id, version, from, withdrawn)| approval(ours, id, *version, *from, *withdrawn));
        })
    };
    assert_eq!(
        approved(&[("bag", 2, 5, None), ("bag", 10, 5, Some(5)), ("net", 1, 5, None)])
            .unwrap()
            .approved
            .len(),
        3
    );
    assert!(approved(&[("net", 1, 5, None), ("bag", 1, 5, None)]).is_err(), "out of order");
    assert!(approved(&[("bag", 1, 5, None), ("bag", 1, 6, None)]).is_err(), "one edition twice");
    assert!(approved(&[("bag", 1, 5, Some(4))]).is_err(), "withdrawn before it was approved");
    assert!(approved(&[("Bag", 1, 5, None)]).is_err(), "an id has one case");
    assert!(approved(&[("bag", 0, 5, None)]).is_err() && approved(&[("bag", 10_000, 5, None)]).is_err());
    // One kind's content under the other's signature.
    assert!(
        roster_of(Kind::Roster, |ours| {
            ours.array(4).int(6).array(0).array(0).array(0);
        })
        .is_err()
    );
    assert!(
        roster_of(Kind::RosterOfKeys, |ours| {
            ours.array(2).int(6).array(0);
        })
        .is_err()
    );
    assert!(
        roster_of(Kind::RosterOfKeys, |ours| {
            ours.array(3).int(6).array(0).array(0);
        })
        .is_err()
    );
    assert!(
        roster_of(Kind::Roster, |ours| {
            ours.array(2).int(6).array(0);
        })
        .is_ok()
    );
}

#[test]
fn a_revoked_key_takes_everything_that_was_issued_to_it() {
    let mut trusted = Trusted::default();
    let roster =
        Roster { keys: [(key(2).public().thumbprint(), at(0))].into(), ..Roster::new(2, at(0), at(9)) };
    let authority =
        |roster| TrustedAuthority { name: Name::new("Sela Relief").unwrap(), key: key(1).public(), roster };
    trusted.add(authority(Some(roster)));
    for issued in [
        credential(),
        Credential { holder: CallSign::new("Another name").unwrap(), ..credential() },
        Credential { expires: at(99_999), roles: Roles::of(&[Role::Leader]), ..credential() },
    ] {
        assert!(trusted.revoked(&trusted.credential(&issued.issue(&key(1))).unwrap()));
    }
    let other = Credential { key: key(3).public(), ..credential() };
    assert!(!trusted.revoked(&trusted.credential(&other.issue(&key(1))).unwrap()));
    // Another authority's word on the same key is its own.
    trusted.add(TrustedAuthority {
        name: Name::new("Alder Aid").unwrap(),
        key: key(9).public(),
        roster: None,
    });
    assert!(!trusted.revoked(&trusted.credential(&credential().issue(&key(9))).unwrap()));
}

#[test]
fn authorities_of_one_name_are_told_apart() {
    let mut trusted = Trusted::default();
    let add = |trusted: &mut Trusted, name: &str, seed: u8| {
        trusted.add(TrustedAuthority {
            name: Name::new(name).unwrap(),
            key: key(seed).public(),
            roster: None,
        });
    };
    let shown =
        |trusted: &Trusted, seed: u8| trusted.authority(&key(seed).public()).unwrap().name.to_string();
    let group = |seed: u8| key(seed).public().fingerprint().chars().take(4).collect::<String>();
    add(&mut trusted, "Sela Relief", 1);
    assert_eq!(shown(&trusted, 1), "Sela Relief");
    add(&mut trusted, "SELA-RELlEF", 9);
    add(&mut trusted, "Alder Aid", 4);
    for _ in 0..2 {
        assert_eq!(shown(&trusted, 1), format!("Sela Relief {}", group(1)));
        assert_eq!(shown(&trusted, 9), format!("SELA-RELlEF {}", group(9)));
        assert_eq!(shown(&trusted, 4), "Alder Aid");
        // What is known of one is replaced: the names stay.
        add(&mut trusted, "Sela Relief", 1);
    }
    assert_eq!(trusted.named(&Name::new("sela relief").unwrap()).count(), 2);
    let long = "An authority with a very long na";
    add(&mut trusted, long, 5);
    add(&mut trusted, long, 6);
    assert_eq!(shown(&trusted, 5), format!("An authority with a very lo {}", group(5)));
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
        ("890123", PassphraseError::Obvious),
        ("121212", PassphraseError::Obvious),
        ("112211", PassphraseError::Obvious),
        ("123456789012", PassphraseError::Obvious),
        ("AbcabcabcabC", PassphraseError::Obvious),
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
