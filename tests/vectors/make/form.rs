//! Messages that are not in the one form they have, each signed as its signer would sign it, so that the form alone
//! refuses it.

use slingseal_message::envelope::{Kind, OURS, wrap};
use slingseal_message::seal::Seal;
use slingseal_words::Seconds;

use super::parts::*;
use crate::vector::{Expect, Vector};

fn refused(what: &str, message: &[u8]) -> Vector {
    about(what, message).expect("NO-GO", &["unreadable"])
}

/// The good seal with its protected header built of these pairs, or its claims of those.
fn header(change: impl FnOnce(&mut Pairs)) -> Raw {
    let mut pairs = header_pairs(&anvil());
    change(&mut pairs);
    Raw { protected: map(&pairs), ..Raw::good() }
}

fn claims(change: impl FnOnce(&mut Pairs)) -> Raw {
    let mut pairs = claim_pairs(&seal());
    change(&mut pairs);
    Raw { payload: map(&pairs), ..Raw::good() }
}

/// The good seal with its content's items built anew.
fn content_with(change: impl FnOnce(&mut Vec<u8>)) -> Raw {
    claims(|pairs| change(&mut pairs[3].1))
}

/// The outer list with one of its four parts replaced.
fn outer(at: usize, part: Vec<u8>) -> Vec<u8> {
    let raw = Raw::good();
    let signature = key(ANVIL).sign(&raw.to_be_signed());
    let mut parts = [bytes(&raw.protected), raw.unprotected.clone(), bytes(&raw.payload), bytes(&signature)];
    parts[at] = part;
    [head(4, 4), parts.concat()].concat()
}

fn signature() -> Vec<u8> {
    key(ANVIL).sign(&Raw::good().to_be_signed()).to_vec()
}

pub fn all() -> Vec<(String, Vector)> {
    assert_eq!(Raw::good().signed(), good(), "the parts build what the program builds");
    let good = good();
    let raw = Raw::good();
    let wide = |content: &[u8]| {
        [vec![0x5a], (content.len() as u32).to_be_bytes().to_vec(), content.to_vec()].concat()
    };
    let mut all: Vec<(&str, Vector)> = vec![
        // Two spellings of one message.
        (
            "indefinite_outer_list",
            refused("The outer list has no length.", &[&[0x9f], &good[1..], &[0xff]].concat())
                .deterministic(false),
        ),
        (
            "wide_outer_list",
            refused(
                "The outer list's length is written in two bytes.",
                &[&[0x98, 0x04], &good[1..]].concat(),
            )
            .deterministic(false),
        ),
        (
            "wide_payload_length",
            refused("The payload's length is written in four bytes.", &outer(2, wide(&raw.payload)))
                .deterministic(false),
        ),
        (
            "indefinite_payload",
            refused(
                "The payload comes in chunks.",
                &outer(
                    2,
                    [vec![0x5f], bytes(&raw.payload[..9]), bytes(&raw.payload[9..]), vec![0xff]].concat(),
                ),
            )
            .deterministic(false),
        ),
        (
            "wide_time",
            refused(
                "The time of issue is written in eight bytes.",
                &claims(|pairs| {
                    let seconds = seal().issued.unix() as u64;
                    pairs[2].1 = [vec![0x1b], seconds.to_be_bytes().to_vec()].concat();
                })
                .signed(),
            )
            .deterministic(false),
        ),
        (
            "wide_key",
            refused(
                "A claim's key is written in two bytes.",
                &claims(|pairs| pairs[0].0 = vec![0x18, 0x02]).signed(),
            )
            .deterministic(false),
        ),
        (
            "indefinite_claims",
            refused(
                "The claims have no length.",
                &Raw { payload: [vec![0xbf], raw.payload[1..].to_vec(), vec![0xff]].concat(), ..raw.clone() }
                    .signed(),
            )
            .deterministic(false),
        ),
        (
            "indefinite_text",
            refused(
                "The load number comes in chunks.",
                &claims(|pairs| {
                    pairs[0].1 = [vec![0x7f], text("KM-"), text("014"), vec![0xff]].concat();
                })
                .signed(),
            )
            .deterministic(false),
        ),
        (
            "indefinite_content",
            refused(
                "The content has no length.",
                &content_with(|content| {
                    *content = [vec![0x9f], content[1..].to_vec(), vec![0xff]].concat();
                })
                .signed(),
            )
            .deterministic(false),
        ),
        (
            "reordered_claims",
            refused("Issue stands before expiry.", &claims(|pairs| pairs.swap(1, 2)).signed())
                .deterministic(false),
        ),
        (
            "reordered_header",
            refused(
                "The credential stands before the algorithm.",
                &header(|pairs| pairs.swap(0, 1)).signed(),
            )
            .deterministic(false),
        ),
        (
            "duplicated_claim",
            refused(
                "Two expiries: one for each of two readers.",
                &claims(|pairs| {
                    pairs.insert(2, (int(4), int(after(9 * 86_400).unix())));
                })
                .signed(),
            )
            .deterministic(false),
        ),
        (
            "duplicated_load_number",
            refused("Two load numbers.", &claims(|pairs| pairs.insert(1, (int(2), text("KM-015")))).signed())
                .deterministic(false),
        ),
        (
            "duplicated_content",
            refused(
                "Two contents.",
                &claims(|pairs| {
                    let other = content(&Seal { found: 9, ..seal() });
                    pairs.push((int(OURS), other));
                })
                .signed(),
            )
            .deterministic(false),
        ),
        // A general reader refuses two algorithms; what it would say of the signature is nothing.
        (
            "duplicated_algorithm",
            refused("Two algorithms.", &header(|pairs| pairs.insert(1, (int(1), int(-19)))).signed())
                .deterministic(false)
                .signatures(false),
        ),
        (
            "trailing_byte",
            refused("A byte behind the end.", &[good.clone(), vec![0]].concat())
                .deterministic(false)
                .signatures(false),
        ),
        (
            "trailing_message",
            refused("The seal twice, one behind the other.", &[good.clone(), good.clone()].concat())
                .deterministic(false)
                .signatures(false),
        ),
        (
            "trailing_claims",
            refused(
                "A second map behind the claims.",
                &Raw { payload: [raw.payload.clone(), vec![0xa0]].concat(), ..raw.clone() }.signed(),
            )
            .deterministic(false),
        ),
        (
            "trailing_header",
            refused(
                "A second map behind the protected header.",
                &Raw { protected: [raw.protected.clone(), vec![0xa0]].concat(), ..raw.clone() }.signed(),
            )
            .deterministic(false)
            .signatures(false),
        ),
        // Values that have no place in a message.
        (
            "float_time",
            refused(
                "The time of issue is a float.",
                &claims(|pairs| {
                    pairs[2].1 = [vec![0xfb], (seal().issued.unix() as f64).to_be_bytes().to_vec()].concat();
                })
                .signed(),
            )
            .deterministic(false),
        ),
        (
            "float_nan",
            refused(
                "The expiry is not a number.",
                &claims(|pairs| pairs[1].1 = vec![0xf9, 0x7e, 0x00]).signed(),
            ),
        ),
        (
            "tagged_time",
            refused(
                "The time of issue is tagged as one.",
                &claims(|pairs| pairs[2].1.insert(0, 0xc1)).signed(),
            ),
        ),
        (
            "tagged_message",
            refused("COSE's own tag 18 in front.", &[vec![0xd2], good.clone()].concat()).signatures(false),
        ),
        (
            "tagged_cwt",
            refused("CWT's tag 61 and COSE's 18 in front.", &[vec![0xd8, 0x3d, 0xd2], good.clone()].concat())
                .signatures(false),
        ),
        (
            "bignum_version",
            refused(
                "A number as a big number.",
                &content_with(|content| {
                    *content =
                        [content[..1].to_vec(), vec![0xc2, 0x41, 0x01], content[1..].to_vec()].concat();
                    content[0] = 0x8b;
                })
                .signed(),
            )
            .deterministic(false),
        ),
        ("null_expiry", refused("The expiry is null.", &claims(|pairs| pairs[1].1 = vec![0xf6]).signed())),
        (
            "no_text",
            refused(
                "The load number is no UTF-8.",
                &claims(|pairs| pairs[0].1 = vec![0x62, 0xc3, 0x28]).signed(),
            )
            .deterministic(false),
        ),
        (
            "control_in_load_number",
            refused(
                "A line break in the load number.",
                &claims(|pairs| pairs[0].1 = text("KM\n014")).signed(),
            ),
        ),
        (
            "load_number_in_small_letters",
            refused(
                "The load number as our writer would not write it.",
                &claims(|pairs| pairs[0].1 = text("km-014")).signed(),
            ),
        ),
        ("negative_time", refused("Issued before 1970.", &claims(|pairs| pairs[2].1 = int(-1)).signed())),
        (
            "time_past_all_years",
            refused(
                "Holds until a year with five digits.",
                &claims(|pairs| pairs[1].1 = int(253_402_300_800)).signed(),
            ),
        ),
        (
            "deep",
            refused(
                "A content that nests 200 deep.",
                &content_with(|content| {
                    *content = [vec![0x81; 200], vec![0x00]].concat();
                })
                .signed(),
            ),
        ),
        (
            "too_large",
            refused(
                "More bytes than any code holds.",
                &claims(|pairs| {
                    pairs.push((int(OURS - 1), bytes(&[0; 2_400])));
                })
                .signed(),
            ),
        ),
        (
            "hostile_count",
            refused(
                "A content that counts 2^64 - 1 items.",
                &content_with(|content| {
                    *content = vec![0x9b, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff];
                })
                .signed(),
            )
            .deterministic(false),
        ),
        (
            "hostile_length",
            refused(
                "A load number of 2^64 - 1 bytes.",
                &claims(|pairs| {
                    pairs[0].1 = vec![0x7b, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff];
                })
                .signed(),
            )
            .deterministic(false),
        ),
        // Built otherwise.
        (
            "three_parts",
            refused("The signature is left out.", &[head(4, 3), good[1..good.len() - 66].to_vec()].concat())
                .signatures(false),
        ),
        (
            "five_parts",
            refused("A fifth part.", &[head(4, 5), good[1..].to_vec(), vec![0xa0]].concat())
                .signatures(false),
        ),
        (
            "detached_payload",
            refused("The payload is to be found elsewhere.", &outer(2, vec![0xf6])).signatures(false),
        ),
        ("payload_as_text", refused("The payload is a text.", &outer(2, text("KM-014"))).signatures(false)),
        (
            "signature_of_63_bytes",
            refused("A byte of the signature is missing.", &outer(3, bytes(&signature()[..63])))
                .signatures(false),
        ),
        (
            "signature_of_65_bytes",
            refused("A byte too many in the signature.", &outer(3, bytes(&[signature(), vec![0]].concat())))
                .signatures(false),
        ),
        ("no_signature", refused("The signature is empty.", &outer(3, bytes(&[]))).signatures(false)),
        (
            "unprotected_header",
            refused(
                "Something stands in the header that nobody signs.",
                &outer(1, map(&vec![(int(4), bytes(b"kid"))])),
            ),
        ),
        (
            "algorithm_unprotected",
            refused(
                "The algorithm stands where nobody signs it.",
                &Raw {
                    unprotected: map(&vec![(int(1), int(-19))]),
                    ..header(|pairs| {
                        pairs.remove(0);
                    })
                }
                .signed(),
            )
            .signatures(false),
        ),
        (
            "no_algorithm",
            refused(
                "No algorithm is named.",
                &header(|pairs| {
                    pairs.remove(0);
                })
                .signed(),
            )
            .signatures(false),
        ),
        (
            "algorithm_eddsa",
            refused(
                "The deprecated name of the algorithm: a choice is an attack's beginning.",
                &header(|pairs| pairs[0].1 = int(-8)).signed(),
            )
            .signatures(false),
        ),
        (
            "algorithm_es256",
            refused("Another algorithm.", &header(|pairs| pairs[0].1 = int(-7)).signed()).signatures(false),
        ),
        (
            "algorithm_hmac",
            refused(
                "A shared-secret algorithm, with the public key as the secret.",
                &header(|pairs| pairs[0].1 = int(5)).signed(),
            )
            .signatures(false),
        ),
        (
            "algorithm_as_text",
            refused("The algorithm by its name.", &header(|pairs| pairs[0].1 = text("Ed25519")).signed())
                .signatures(false),
        ),
        (
            "critical_header",
            refused(
                "A header that claims to be critical.",
                &header(|pairs| pairs.insert(1, (int(2), [head(4, 1), int(99)].concat()))).signed(),
            )
            .signatures(false),
        ),
        (
            "unknown_header",
            refused(
                "A header of a newer program.",
                &header(|pairs| pairs.push((vec![0x18, 99], int(1)))).signed(),
            ),
        ),
        (
            "unknown_claim",
            refused(
                "A claim of a newer program.",
                &claims(|pairs| pairs.insert(1, (int(3), text("the desk")))).signed(),
            ),
        ),
        (
            "missing_expiry",
            refused(
                "No expiry: it would hold for ever.",
                &claims(|pairs| {
                    pairs.remove(1);
                })
                .signed(),
            ),
        ),
        (
            "missing_content",
            refused(
                "Nothing of what was inspected.",
                &claims(|pairs| {
                    pairs.remove(3);
                })
                .signed(),
            ),
        ),
        (
            "content_too_long",
            refused(
                "An eleventh item in the content.",
                &content_with(|content| {
                    content[0] = 0x8b;
                    content.push(0);
                })
                .signed(),
            ),
        ),
        (
            "flags_unknown",
            refused(
                "A flag that has no meaning.",
                &content_with(|content| {
                    assert_eq!(
                        (content[1], content[18]),
                        (0x50, 3),
                        "the flags stand behind the tag's print"
                    );
                    content[18] = 7;
                })
                .signed(),
            ),
        ),
        (
            "ends_before_it_begins",
            refused("Its validity ends before its issue.", &{
                let said = seal();
                sign_seal(&Seal { valid_until: said.issued.plus(Seconds(-1)), ..said }, &anvil(), ANVIL)
            }),
        ),
        (
            "corrected_more_than_found",
            refused("More deficiencies put right than found.", &{
                sign_seal(&Seal { found: 1, corrected: 2, ..seal() }, &anvil(), ANVIL)
            }),
        ),
        // One kind as another.
        (
            "void_as_seal",
            refused("A void under a seal's letters.", &sign_void(seal().record, 60, &hookup(), THISTLE))
                .signatures(false),
        ),
        ("tag_as_seal", refused("The tag under a seal's letters.", &tag()).signatures(false)),
        (
            "credential_as_seal",
            refused("The inspector's credential under a seal's letters.", &anvil()).signatures(false),
        ),
        ("nothing", refused("A code without a message.", &[]).signatures(false).deterministic(false)),
    ];
    let namespace = |what: &str, aad: Vec<u8>| {
        about(what, &Raw { aad, ..Raw::good() }.signed())
            .expect("NO-GO", &["bad_signature"])
            .signatures(false)
    };
    all.extend([
        (
            "signed_as_a_tag",
            namespace("The same bytes, signed in the namespace of tags.", Kind::Tag.namespace()),
        ),
        (
            "signed_as_a_void",
            namespace("The same bytes, signed in the namespace of voids.", Kind::Void.namespace()),
        ),
        (
            "signed_in_no_namespace",
            namespace("The same bytes, signed as a general COSE program would.", Vec::new()),
        ),
    ]);
    // The text around the message.
    let good_text = wrap(Kind::Seal, &good);
    let as_text = |what: &str, text: String| {
        let mut vector = about(what, &good);
        vector.seal = Some(text);
        // No bytes come of it, so nothing is signed and nothing has a form.
        vector.expect = Expect { refused: Some("bad_input".into()), ..Expect::default() };
        vector
    };
    all.extend([
        ("text_in_small_letters", as_text("Small letters.", good_text.to_ascii_lowercase())),
        ("text_as_a_tag", as_text("The seal's bytes under a tag's letters.", wrap(Kind::Tag, &good))),
        (
            "text_of_a_later_version",
            as_text("A version that is not known.", good_text.replacen("SL1", "SL2", 1)),
        ),
        ("text_without_kind", as_text("The Base45 alone.", good_text[4..].to_owned())),
    ]);
    all.into_iter().map(|(name, vector)| (format!("invalid/{name}"), vector)).collect()
}
