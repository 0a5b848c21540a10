//! The other side: seals, tags, credentials, rosters and voids taken apart by RFC 9052 (COSE_Sign1), RFC 8392 (CWT claims),
//! RFC 8747 (`cnf`), RFC 9528 §9.6 (`kcwt`) and RFC 9285 (Base45), with coset on ciborium, ed25519-compact and hmac-sha256.
//! Nothing of core is used here. Lenient on purpose: it says whether signatures hold, and apart from that whether the form is
//! deterministic.

use ciborium::Value;
use coset::iana::{self, EnumI64};
use coset::{AsCborValue, CborSerializable, CoseKey, CoseSign1, Label, RegisteredLabelWithPrivate};
use ed25519_compact::{PublicKey, Signature};

use crate::vector::Vector;

/// What the other side makes of a seal.
#[derive(Debug)]
pub struct Said {
    pub signatures: Result<(), String>,
    pub deterministic: bool,
}

/// Base45 by RFC 9285 §4, written from the text; no rule about second spellings but its own.
pub fn base45(text: &str) -> Result<Vec<u8>, String> {
    const ALPHABET: &str = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
    let digits: Vec<u32> = text
        .chars()
        .map(|c| ALPHABET.find(c).map(|at| at as u32).ok_or_else(|| format!("{c} is not in the alphabet")))
        .collect::<Result<_, _>>()?;
    let mut bytes = Vec::new();
    for group in digits.chunks(3) {
        match *group {
            [c, d, e] => {
                let number = u16::try_from(c + d * 45 + e * 2_025).map_err(|_| "above 65535".to_owned())?;
                bytes.extend(number.to_be_bytes());
            }
            [c, d] => bytes.push(u8::try_from(c + d * 45).map_err(|_| "above 255".to_owned())?),
            _ => return Err("one character is left over".into()),
        }
    }
    Ok(bytes)
}

fn parts(text: &str, kind: &str) -> Result<Vec<u8>, String> {
    let body = text.strip_prefix(kind).and_then(|rest| rest.strip_prefix(':'));
    base45(body.ok_or_else(|| format!("it is no {kind}"))?)
}

fn key_id(public: &[u8]) -> Vec<u8> {
    hmac_sha256::Hash::hash(public)[..4].to_vec()
}

fn sign1(bytes: &[u8]) -> Result<CoseSign1, String> {
    let message = CoseSign1::from_slice(bytes).map_err(|error| error.to_string())?;
    let ed25519 = RegisteredLabelWithPrivate::Assigned(iana::Algorithm::Ed25519);
    if message.protected.header.alg != Some(ed25519) {
        return Err(format!("algorithm {:?}", message.protected.header.alg));
    }
    Ok(message)
}

fn check(message: &CoseSign1, kind: &str, public: &[u8]) -> Result<(), String> {
    let aad = format!("slingseal/{kind}");
    message.verify_signature(aad.as_bytes(), |signature, signed| {
        let signature = Signature::from_slice(signature).map_err(|_| "length of the signature".to_owned())?;
        let key = PublicKey::from_slice(public).map_err(|_| "length of the key".to_owned())?;
        key.verify(signed, &signature).map_err(|_| "signature".to_owned())
    })
}

fn claims(message: &CoseSign1) -> Result<Vec<(Value, Value)>, String> {
    let payload = message.payload.as_ref().ok_or("the payload is detached")?;
    // The first item alone: what stands behind it is for the form to say.
    let value: Value = ciborium::from_reader(payload.as_slice()).map_err(|error| error.to_string())?;
    value.into_map().map_err(|_| "the claims are no map".into())
}

fn claim(claims: &[(Value, Value)], key: i64) -> Option<&Value> {
    claims.iter().find(|(known, _)| *known == Value::from(key)).map(|(_, value)| value)
}

/// The Ed25519 key of the `cnf` claim.
fn confirmed(claims: &[(Value, Value)]) -> Result<Vec<u8>, String> {
    let cnf = claim(claims, 8).and_then(Value::as_map).ok_or("no cnf")?;
    let key = claim(cnf, 1).ok_or("no COSE_Key in cnf")?.clone();
    let key = CoseKey::from_cbor_value(key).map_err(|error| error.to_string())?;
    let param = |label: iana::OkpKeyParameter| {
        key.params.iter().find(|(known, _)| *known == Label::Int(label.to_i64())).map(|(_, value)| value)
    };
    let curve =
        param(iana::OkpKeyParameter::Crv) == Some(&Value::from(iana::EllipticCurve::Ed25519.to_i64()));
    if key.kty != coset::KeyType::Assigned(iana::KeyType::OKP) || !curve {
        return Err("the key is no Ed25519 key".into());
    }
    let x = param(iana::OkpKeyParameter::X).and_then(Value::as_bytes).ok_or("no x")?;
    Ok(x.clone())
}

/// The public keys on the cards of those whom the vector trusts.
fn trusted(vector: &Vector) -> Vec<Vec<u8>> {
    vector
        .authority
        .iter()
        .map(|authority| self::authority(&authority.card).expect("the card holds"))
        .collect()
}

/// A card: signed by the key in it. Answers the key.
pub fn authority(card: &str) -> Result<Vec<u8>, String> {
    let message = sign1(&parts(card, "AU1")?)?;
    let key = confirmed(&claims(&message)?)?;
    check(&message, "AU1", &key)?;
    Ok(key)
}

/// A roster: signed by the trusted authority of its key id.
pub fn roster(vector: &Vector, text: &str) -> Result<(), String> {
    let kind = if text.starts_with("RO2") { "RO2" } else { "RO1" };
    let bytes = parts(text, kind)?;
    let message = sign1(&bytes)?;
    let by = by_key_id(vector, &message)?;
    check(&message, kind, &by)?;
    if deterministic(&bytes) { Ok(()) } else { Err("form".into()) }
}

fn by_key_id(vector: &Vector, message: &CoseSign1) -> Result<Vec<u8>, String> {
    let id = &message.protected.header.key_id;
    trusted(vector).into_iter().find(|key| key_id(key) == *id).ok_or_else(|| "authority".into())
}

/// A message with its signer's credential in the protected header.
fn credentialed(vector: &Vector, bytes: &[u8], kind: &str) -> Result<(), String> {
    let message = sign1(bytes)?;
    let rest = &message.protected.header.rest;
    let kcwt = rest.iter().find(|(label, _)| *label == Label::Int(13)).ok_or("no kcwt")?;
    let credential = CoseSign1::from_cbor_value(kcwt.1.clone()).map_err(|error| error.to_string())?;
    let credential = sign1(&credential.to_vec().map_err(|error| error.to_string())?)?;
    check(&credential, "CR1", &by_key_id(vector, &credential)?)?;
    check(&message, kind, &confirmed(&claims(&credential)?)?)
}

/// The vector's seal.
pub fn seal(vector: &Vector) -> Said {
    // A tag alone: the seal that the device holds.
    let text = vector.seal.as_ref().or(vector.holds.first()).cloned().unwrap_or_default();
    if vector.seal.is_none() && vector.holds.is_empty() {
        return Said { signatures: Ok(()), deterministic: true };
    }
    match parts(text.trim_end_matches(['\r', '\n', '\t']), "SL1") {
        Err(why) => Said { signatures: Err(why), deterministic: false },
        Ok(bytes) => bytes_of_seal(vector, &bytes),
    }
}

/// A seal's bytes under the authorities of a vector.
pub fn bytes_of_seal(vector: &Vector, bytes: &[u8]) -> Said {
    Said { signatures: credentialed(vector, bytes, "SL1"), deterministic: deterministic(bytes) }
}

/// A word that a device holds: its form, and the signatures of whoever is known here. A movement report may be bare, or a
/// stranger's: then it is a hint.
pub fn message(vector: &Vector, text: &str) -> Result<(), String> {
    let kind = text.get(..3).ok_or("too short")?;
    let bytes = parts(text, kind)?;
    match credentialed(vector, &bytes, kind) {
        Err(why) if kind != "MV1" || why == "signature" => return Err(why),
        _ => {}
    }
    if deterministic(&bytes) { Ok(()) } else { Err("form".into()) }
}

/// A tag: `None` where nobody signed it.
pub fn tag(vector: &Vector, text: &str) -> Option<Result<(), String>> {
    let kind = if text.starts_with("LT2:") { "LT2" } else { "LT1" };
    let bytes = parts(text, kind).expect("the tag is Base45");
    assert!(deterministic(&bytes), "the tag's form");
    let value: Value = ciborium::from_reader(bytes.as_slice()).expect("the tag is CBOR");
    value.is_array().then(|| credentialed(vector, &bytes, kind))
}

/// Whether a message is deterministic CBOR (RFC 8949 §4.2.1), and its protected header, payload and credential with it: read
/// by ciborium, sorted, written again by ciborium, and compared.
pub fn deterministic(bytes: &[u8]) -> bool {
    let Some(value) = same_again(bytes) else { return false };
    let value = match value {
        Value::Tag(_, inside) => *inside,
        other => other,
    };
    let Value::Array(parts) = value else { return true };
    let inside = |at: usize| parts.get(at).and_then(Value::as_bytes);
    [0, 2].into_iter().filter_map(inside).all(|part| {
        let Some(value) = same_again(part) else { return false };
        let credential = value.as_map().and_then(|map| claim(map, 13)).cloned();
        credential.is_none_or(|credential| {
            let mut bytes = Vec::new();
            ciborium::into_writer(&credential, &mut bytes).expect("memory takes it");
            !credential.is_array() || deterministic(&bytes)
        })
    })
}

fn same_again(bytes: &[u8]) -> Option<Value> {
    let mut rest = bytes;
    let value: Value = ciborium::from_reader(&mut rest).ok()?;
    let mut again = Vec::new();
    ciborium::into_writer(&sorted(&value)?, &mut again).ok()?;
    (rest.is_empty() && again == bytes).then_some(value)
}

/// The value with every map in the order of its encoded keys; none where a key stands twice.
fn sorted(value: &Value) -> Option<Value> {
    Some(match value {
        Value::Array(items) => Value::Array(items.iter().map(sorted).collect::<Option<_>>()?),
        Value::Tag(tag, inside) => Value::Tag(*tag, Box::new(sorted(inside)?)),
        Value::Map(pairs) => {
            let mut keyed = Vec::new();
            for (key, value) in pairs {
                let mut bytes = Vec::new();
                ciborium::into_writer(key, &mut bytes).ok()?;
                keyed.push((bytes, key.clone(), sorted(value)?));
            }
            keyed.sort_by(|a, b| a.0.cmp(&b.0));
            if keyed.windows(2).any(|pair| pair[0].0 == pair[1].0) {
                return None;
            }
            Value::Map(keyed.into_iter().map(|(_, key, value)| (key, value)).collect())
        }
        other => other.clone(),
    })
}
