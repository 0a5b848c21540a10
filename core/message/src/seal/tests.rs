use super::*;
use crate::envelope::{Kind, Limits, check, wrap};
use crate::trust::{Credential, DEFAULT_VALIDITY, Role, Roles, SecretKey};
use slingseal_words::{CallSign, Digest, GridRef, LoadNumber, ProcedureId, Quantity, Time};

fn key(seed: u8) -> SecretKey {
    SecretKey::from_seed(&[seed; 32])
}

fn at(seconds: i64) -> Time {
    Time::from_unix(1_790_000_000 + seconds)
}

fn seal() -> Seal {
    Seal {
        load: LoadNumber::new("KM-014").unwrap(),
        issued: at(0),
        valid_until: at(86_400),
        tag: TagPrint::of(&Digest::of(b"tag")),
        tag_signed: true,
        procedure: ProcedureId::new("vehicle").unwrap(),
        version: 1,
        procedure_print: [3; 4],
        outcome: Outcome::Fit,
        found: 1,
        corrected: 1,
        mass: Quantity::parse("4200 lb").unwrap(),
        record: Digest::of(b"record"),
    }
}

fn signed(seal: &Seal) -> Vec<u8> {
    let credential = Credential {
        holder: CallSign::new("Anvil 3").unwrap(),
        roles: Roles::of(&[Role::Inspector]),
        expires: at(1_000_000),
        longest_validity: DEFAULT_VALIDITY,
        key: key(2).public(),
    }
    .issue(&key(1));
    let unsigned = seal.prepare(&credential);
    unsigned.finish(&key(2).sign(&unsigned.to_be_signed()))
}

#[test]
fn a_typical_seal_fits_version_13_at_level_m() {
    let bytes = signed(&seal());
    assert_eq!(check(&bytes, Limits::CODE), Ok(()));
    // ISO/IEC 18004 table 7: 483 alphanumeric characters in version 13 at level M.
    let text = wrap(Kind::Seal, &bytes);
    assert!(bytes.len() <= 320 && text.len() <= 483, "{} bytes, {} characters", bytes.len(), text.len());
    assert_eq!(ReceivedSeal::open(&bytes).unwrap().seal, seal());
    for (outcome, tag_signed) in [(Outcome::Fit, false), (Outcome::NotFit, true), (Outcome::NotFit, false)] {
        let other = Seal { outcome, tag_signed, ..seal() };
        assert_eq!(ReceivedSeal::open(&signed(&other)).unwrap().seal, other);
    }
}

/// The accident: without a tag to compare, a seal of "-4200 lb" or "12 ft" is taken for one of a load.
#[test]
fn what_a_seal_says_of_mass_and_counts_can_be() {
    let opens = |seal: &Seal| ReceivedSeal::open(&signed(seal)).is_ok();
    for (mass, holds) in
        [("0.001 t", true), ("-4200 lb", false), ("0 lb", false), ("12 ft", false), ("9 kN", false)]
    {
        assert_eq!(opens(&Seal { mass: Quantity::parse(mass).unwrap(), ..seal() }), holds, "{mass}");
    }
    assert!(!opens(&Seal { found: 0, corrected: 1, ..seal() }));
    assert!(!opens(&Seal { valid_until: at(-1), ..seal() }));
}

#[test]
fn a_record_comes_back_and_tells_each_link_once() {
    let digest_of: DigestOf<'_> =
        &|entry, walk| Digest::of_parts(&[entry.prev.as_bytes(), walk, &entry.body]);
    let entry = |seq, prev, body: &[u8]| JournalEntry {
        seq,
        prev,
        time: at(0),
        kind: "walk".into(),
        body: body.to_vec(),
    };
    let first = entry(1, Digest::of(b"start"), b"a");
    let second = entry(2, digest_of(&first, &[9; 16]), b"b");
    let apart = entry(7, Digest::of(b"another walk"), b"c");
    let record = Record {
        tag: vec![0xa0],
        procedure: ProcedureId::new("bag").unwrap(),
        version: 1,
        procedure_digest: Digest::of(b"p"),
        inspector: CallSign::new("Anvil 3").unwrap(),
        outcome: Outcome::Fit,
        decided: at(5),
        device: [8; 16],
        walk: [9; 16],
        head: (7, digest_of(&apart, &[9; 16])),
        entries: vec![first, second, apart],
        rigging: Some("{}".into()),
        photos: vec![Digest::of(b"photo")],
        place: Some(GridRef::new("33TWN0000000000").unwrap()),
        before: Some(Digest::of(b"the record before")),
    };
    let bytes = record.to_bytes(digest_of);
    assert_eq!(check(&bytes, Limits::FILE), Ok(()));
    assert_eq!(Record::parse(&bytes, digest_of), Ok(record.clone()));
    for end in 0..bytes.len() {
        assert!(Record::parse(&bytes[..end], digest_of).is_err());
    }
    // The accident: a record is sealed that no device can read again, its own among them.
    let many = |entries: usize, photos: usize| Record {
        entries: (0..entries).map(|seq| entry(seq as u64, Digest::of(b"start"), b"a")).collect(),
        photos: (0..photos).map(|photo| Digest::of(&photo.to_be_bytes())).collect(),
        ..record.clone()
    };
    for (entries, photos) in [
        (Record::MOST_ENTRIES, Record::MOST_PHOTOS),
        (Record::MOST_ENTRIES + 1, 0),
        (1, Record::MOST_PHOTOS + 1),
    ] {
        let record = many(entries, photos);
        let read = Record::parse(&record.to_bytes(digest_of), digest_of);
        assert_eq!(record.fits(), read.is_ok(), "{entries} entries, {photos} photographs");
    }
}
