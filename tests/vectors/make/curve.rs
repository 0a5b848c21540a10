//! Keys and signatures that only the curve's own arithmetic makes: weak keys, second spellings, small orders.

use curve25519_dalek::constants::{ED25519_BASEPOINT_POINT, EIGHT_TORSION};
use curve25519_dalek::edwards::{CompressedEdwardsY, EdwardsPoint};
use curve25519_dalek::scalar::Scalar;
use sha2::{Digest as _, Sha512};
use slingseal_message::envelope::Kind;
use slingseal_message::seal::Seal;

use super::parts::*;
use crate::vector::Vector;

/// The order of the base point, little-endian (RFC 8032 §5.1).
const ORDER: [u8; 32] = [
    0xed, 0xd3, 0xf5, 0x5c, 0x1a, 0x63, 0x12, 0x58, 0xd6, 0x9c, 0xf7, 0xa2, 0xde, 0xf9, 0xde, 0x14, 0, 0, 0,
    0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0x10,
];

fn hash(parts: &[&[u8]]) -> Scalar {
    let mut hasher = Sha512::new();
    parts.iter().for_each(|part| hasher.update(part));
    let wide: [u8; 64] = hasher.finalize().into();
    Scalar::from_bytes_mod_order_wide(&wide)
}

/// The secret scalar of a seed (RFC 8032 §5.1.5).
fn secret(seed: &[u8; 32]) -> Scalar {
    let wide: [u8; 64] = Sha512::digest(seed).into();
    let mut low: [u8; 32] = wide[..32].try_into().expect("32 bytes");
    low[0] &= 248;
    low[31] = low[31] & 63 | 64;
    Scalar::from_bytes_mod_order(low)
}

fn joined(r: &[u8; 32], s: &[u8; 32]) -> Vec<u8> {
    [r.as_slice(), s.as_slice()].concat()
}

/// The good seal under a credential of any 32 bytes as its key, with a signature made for it.
fn under_key(public: [u8; 32], found: u16, sign: impl FnOnce(&[u8]) -> Vec<u8>) -> Vec<u8> {
    let credential = credential_with(&credential_pairs("Anvil 3", after(365 * 86_400), &public, &[1]), SELA);
    let said = Seal { found, corrected: found, ..seal() };
    let raw = Raw {
        protected: map(&header_pairs(&credential)),
        unprotected: vec![0xa0],
        payload: map(&claim_pairs(&said)),
        aad: Kind::Seal.namespace(),
    };
    let signature = sign(&raw.to_be_signed());
    raw.with(&signature)
}

/// A signature of nobody under a point of small order: S is 0, R the point that the equation wants.
fn forged_under(point: EdwardsPoint) -> (Vec<u8>, u16) {
    let public = point.compress().to_bytes();
    for found in 0..u16::MAX {
        let mut forged = None;
        let message = under_key(public, found, |message| {
            for r in EIGHT_TORSION {
                let r_bytes = r.compress().to_bytes();
                if r == -(hash(&[&r_bytes, &public, message]) * point) {
                    forged = Some(joined(&r_bytes, &[0; 32]));
                }
            }
            forged.clone().unwrap_or_else(|| vec![0; 64])
        });
        if forged.is_some() {
            return (message, found);
        }
    }
    unreachable!("one message in eight has such a signature");
}

fn weak(what: &str, message: &[u8], found: u16) -> Vector {
    let mut reasons = vec!["unreadable"];
    if found > 0 {
        reasons.push("corrected");
    }
    about(what, message).expect("NO-GO", &reasons).signatures(false)
}

fn bad(what: &str, signature: &[u8]) -> Vector {
    about(what, &Raw::good().with(signature)).expect("NO-GO", &["bad_signature"]).signatures(false)
}

pub fn all() -> Vec<(String, Vector)> {
    let mut all: Vec<(String, Vector)> = Vec::new();
    // One point of each order; 0 is the identity.
    for (name, at) in [("identity", 0), ("order_8", 1), ("order_4", 2), ("order_2", 4)] {
        let (message, found) = forged_under(EIGHT_TORSION[at]);
        all.push((
            format!("weak_key_{name}"),
            weak(
                "A credential with a key of small order, and a signature that anyone can make for it.",
                &message,
                found,
            ),
        ));
    }
    // y + p for a small y that is a point of full order: a second spelling of one key.
    let (reduced, unreduced) = (2u8..19)
        .map(|y| {
            let mut low = [0; 32];
            low[0] = y;
            let mut high = [0xff; 32];
            (high[0], high[31]) = (0xed + y, 0x7f);
            (low, high)
        })
        .find(|(low, _)| CompressedEdwardsY(*low).decompress().is_some_and(|point| !point.is_small_order()))
        .expect("a small y is on the curve");
    assert!(CompressedEdwardsY(unreduced).decompress().is_some() && reduced != unreduced);
    all.push((
        "key_above_the_prime".into(),
        weak(
            "A key whose coordinate is written with the field's prime added.",
            &under_key(unreduced, 0, |_| vec![0; 64]),
            0,
        ),
    ));
    all.push((
        "key_off_the_curve".into(),
        weak("A key that is no point of the curve.", &under_key([2; 32], 0, |_| vec![0; 64]), 0),
    ));

    let good = Raw::good();
    let message = good.to_be_signed();
    let seed = [ANVIL; 32];
    let public = key(ANVIL).public().to_bytes();
    let signature = key(ANVIL).sign(&message);
    let (r, s): ([u8; 32], [u8; 32]) =
        (signature[..32].try_into().expect("32 bytes"), signature[32..].try_into().expect("32 bytes"));
    let mut carry = 0u16;
    let malleable: Vec<u8> = s
        .iter()
        .zip(ORDER)
        .map(|(a, b)| {
            carry += u16::from(*a) + u16::from(b);
            let low = carry as u8;
            carry >>= 8;
            low
        })
        .collect();
    let mut high_bit = s;
    high_bit[31] |= 0x80;
    let identity = EIGHT_TORSION[0].compress().to_bytes();
    // R is the identity and S = h·a: the plain equation holds, and whoever sees it can reckon the secret key.
    let leaking = (hash(&[&identity, &public, &message]) * secret(&seed)).to_bytes();
    // R has a part of order eight: holds where both sides are multiplied by the cofactor, and not where they are not.
    let nonce = hash(&[b"a nonce for one vector"]);
    let mixed = (nonce * ED25519_BASEPOINT_POINT + EIGHT_TORSION[1]).compress().to_bytes();
    let cofactored = (nonce + hash(&[&mixed, &public, &message]) * secret(&seed)).to_bytes();
    let other =
        Raw { payload: map(&claim_pairs(&Seal { found: 1, corrected: 1, ..seal() })), ..good.clone() };
    let by_parts: [(&str, &str, Vec<u8>); 9] = [
        (
            "signature_malleable",
            "S with the order added: a second signature of one message.",
            joined(&r, &malleable.try_into().expect("32 bytes")),
        ),
        ("signature_high_bit", "The highest bit of S is set.", joined(&r, &high_bit)),
        ("signature_of_zeros", "A signature of zeros.", vec![0; 64]),
        ("signature_of_ones", "A signature of ones.", vec![0xff; 64]),
        ("signature_r_identity", "R is the identity.", joined(&identity, &leaking)),
        ("signature_cofactored", "R has a part of small order.", joined(&mixed, &cofactored)),
        ("signature_halves_swapped", "S before R.", joined(&s, &r)),
        (
            "signature_of_another_seal",
            "The signature of another seal of the same inspector.",
            key(ANVIL).sign(&other.to_be_signed()).to_vec(),
        ),
        (
            "signature_of_the_payload_alone",
            "The signature is over the claims and not over COSE's structure.",
            key(ANVIL).sign(&good.payload).to_vec(),
        ),
    ];
    for (name, what, signature) in by_parts {
        let vector = bad(what, &signature);
        // The laxer equation that RFC 8032 §5.1.7 allows takes this one. Ours is the stricter one: with the laxer, one message
        // has eight signatures, and two devices could answer differently.
        let lax = name == "signature_cofactored";
        all.push((name.into(), vector.signatures(lax)));
    }
    let mut altered =
        Raw { payload: map(&claim_pairs(&Seal { valid_until: after(90_000), ..seal() })), ..good.clone() };
    all.push((
        "expiry_altered".into(),
        about("The seal was made to hold an hour longer.", &altered.with(&signature))
            .expect("NO-GO", &["bad_signature"])
            .signatures(false),
    ));
    altered.payload = map(&claim_pairs(&Seal { record: slingseal_words::Digest::of(b"another"), ..seal() }));
    all.push((
        "record_altered".into(),
        about("The seal names another record than was signed.", &altered.with(&signature))
            .expect("NO-GO", &["bad_signature"])
            .signatures(false),
    ));
    all.into_iter().map(|(name, vector)| (format!("invalid/{name}"), vector)).collect()
}
