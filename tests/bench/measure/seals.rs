//! Verify and strict decode, beside the signatures alone.

use std::hint::black_box;

use ed25519_dalek::{Signature, VerifyingKey};
use slingseal_judgement::{Evidence, Judgement, LoadWord, Memory, judge_seal};
use slingseal_message::envelope::{Kind, Limits, Sign1, check};
use slingseal_message::seal::{Outcome, ReceivedSeal, Seal, TagPrint};
use slingseal_message::trust::{
    Credential, DEFAULT_VALIDITY, Role, Roles, Roster, SecretKey, Trusted, TrustedAuthority,
};
use slingseal_words::{CallSign, Digest, LoadNumber, Name, ProcedureId, Quantity, Time};

use crate::lines::{Line, at, pair};

/// A seal opened and judged with nothing else known, as `verify` does.
fn judged(bytes: &[u8], trusted: &Trusted, now: Time) -> Judgement {
    let evidence =
        Evidence { trusted, now, latest_trusted: None, memory: Memory::Whole, words: &[], pieces: &[] };
    judge_seal(LoadWord::open(Kind::Seal, bytes, trusted).as_ref(), None, &evidence)
}

pub(crate) fn measure() -> Vec<Line> {
    let (authority, inspector) = (SecretKey::from_seed(&[1; 32]), SecretKey::from_seed(&[2; 32]));
    let now = Time::from_unix(1_790_000_000);
    let credential = Credential {
        holder: CallSign::new("Anvil 3").expect("a call sign"),
        roles: Roles::of(&[Role::Inspector]),
        expires: Time::from_unix(1_800_000_000),
        longest_validity: DEFAULT_VALIDITY,
        key: inspector.public(),
    }
    .issue(&authority);
    let seal = Seal {
        load: LoadNumber::new("KM-014").expect("a load number"),
        issued: now,
        valid_until: now.plus(DEFAULT_VALIDITY),
        tag: TagPrint::of(&Digest::of(b"tag")),
        tag_signed: true,
        procedure: ProcedureId::new("vehicle").expect("an id"),
        version: 1,
        procedure_print: [3; 4],
        outcome: Outcome::Fit,
        found: 1,
        corrected: 1,
        mass: Quantity::parse("5000 lb").expect("a mass"),
        record: Digest::of(b"record"),
    };
    let unsigned = seal.prepare(&credential);
    let bytes = unsigned.finish(&inspector.sign(&unsigned.to_be_signed()));
    let mut trusted = Trusted::default();
    trusted.add(TrustedAuthority {
        name: Name::new("Sela Relief").expect("a name"),
        key: authority.public(),
        roster: Some(Roster::new(1, now, now.plus(DEFAULT_VALIDITY))),
    });

    let outer = Sign1::parse(&bytes, Limits::CODE).expect("a seal");
    let inner = Sign1::parse(&credential, Limits::CODE).expect("a credential");
    let raw = |message: &Sign1<'_>, kind, key: &SecretKey| {
        let key = VerifyingKey::from_bytes(&key.public().to_bytes()).expect("a key");
        (key, message.to_be_signed(kind), Signature::from_bytes(&message.signature))
    };
    let (outer_key, outer_text, outer_signature) = raw(&outer, Kind::Seal, &inspector);
    let (inner_key, inner_text, inner_signature) = raw(&inner, Kind::Credential, &authority);

    let verify = || {
        black_box(judged(black_box(&bytes), &trusted, now));
    };
    let two = || {
        black_box(outer_key.verify_strict(black_box(&outer_text), &outer_signature))
            .expect("a good signature");
        black_box(inner_key.verify_strict(black_box(&inner_text), &inner_signature))
            .expect("a good signature");
    };
    let (ours, floor) = pair(4_000, verify, two);
    let mut lines = vec![Line::new(
        "verdict on a seal",
        "us",
        at(&ours, 0.5),
        "two verify_strict",
        at(&floor, 0.5),
        Some(1.15),
    )];

    let mut remembering = trusted.clone();
    remembering.remember(&credential).expect("a good credential");
    let verify = || {
        black_box(judged(black_box(&bytes), &remembering, now));
    };
    let one = || {
        black_box(outer_key.verify_strict(black_box(&outer_text), &outer_signature))
            .expect("a good signature");
    };
    let (ours, floor) = pair(4_000, verify, one);
    lines.push(Line::new(
        "verdict on a seal, its credential remembered",
        "us",
        at(&ours, 0.5),
        "one verify_strict",
        at(&floor, 0.5),
        Some(1.2),
    ));

    let decode = || {
        black_box(ReceivedSeal::open(black_box(&bytes)).expect("a seal"));
    };
    let strict = || black_box(check(black_box(&bytes), Limits::CODE)).expect("strict");
    let (ours, floor) = pair(20_000, decode, strict);
    let size = bytes.len() as f64;
    lines.push(Line::new(
        "strict decode of a seal, a byte",
        "ns",
        at(&ours, 0.5) * 1e3 / size,
        "one strict pass over the outer item",
        at(&floor, 0.5) * 1e3 / size,
        None,
    ));
    // Two signatures, a key, the record's digest, and the claims as bare numbers and texts: no framing at all.
    let bare = 64 + 64 + 32 + 32 + 16 + 4 + 4 + 4 + 4 + 4 + 1 + 1 + 1 + 2 + "KM-014Anvil 3vehicle".len();
    lines.push(Line::new(
        "a typical seal",
        "bytes",
        size,
        "crypto and claims without any framing",
        bare as f64,
        None,
    ));
    lines
}
