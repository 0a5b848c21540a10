//! Tags of the second form: what a load was planned and rigged by, and one spelling for each.

use slingseal_message::envelope::{Claims, Header, Kind, Reader, Writer, assemble, to_be_signed, wrap};
use slingseal_message::tag::ReceivedTag;

use super::parts::*;
use crate::vector::Vector;

const BASIS: &str = r#"
weight_source = "weighed"
when = ["night"]
[manual]
title = "the governing manual, row 12"
edition = "2024"
[airspeed]
limit = "80 kt"
source = "the manual's row 12"
[[leg]]
name = "1"
serial = "SL-0091"
[[leg]]
name = "2"
serial = "SL-0092"
[aircraft]"#;

fn signer() -> (Vec<u8>, u8) {
    (planner(), LANTERN)
}

/// A sound seal of a tag, beside it under these letters.
fn beside(what: &str, letters: Kind, bytes: &[u8]) -> Vector {
    let mut vector = about(what, &sign_seal(&seal_on(bytes), &anvil(), ANVIL));
    vector.tag = Some(wrap(letters, bytes));
    vector
}

/// The tag as planned, with further pairs of its content written by hand, signed by the planner as `signed_as`.
fn by_hand(signed_as: Kind, pairs: usize, write: impl FnOnce(&mut Writer)) -> Vec<u8> {
    let first = ReceivedTag::open(&tag()).expect("a tag").tag.content();
    let mut out = Writer::new();
    // The plan of these vectors makes a map of eight pairs; more stand behind them.
    out.map(8 + pairs);
    let mut reader = Reader::new(&first);
    reader
        .map("content", |key, reader| {
            out.int(key).raw(reader.raw("content")?);
            Ok(true)
        })
        .expect("the content of a tag");
    write(&mut out);
    signed(signed_as, &out.into_bytes())
}

fn signed(signed_as: Kind, content: &[u8]) -> Vec<u8> {
    let (credential, seed) = signer();
    let tag = ReceivedTag::open(&tag()).expect("a tag").tag;
    let claims = Claims { ours: Some(content), ..tag.claims(content) };
    let payload = claims.to_bytes();
    let header = Header { key_id: None, credential: Some(&credential) };
    let signature = key(seed).sign(&to_be_signed(signed_as, header, &payload));
    assemble(header, &payload, &signature)
}

pub fn all() -> Vec<(String, Vector)> {
    let (credential, seed) = signer();
    let whole = tag_of("[aircraft]", BASIS, Some((&credential, seed)));
    let unsigned = tag_of("[aircraft]", BASIS, None);
    let second = Kind::TagWithBasis;
    let source = |out: &mut Writer| {
        out.int(14).int(4);
    };
    let mut all = vec![
        ("valid/second_tag", beside("A tag of the second form.", second, &whole).expect("GO", &[])),
        (
            "valid/second_tag_by_hand",
            beside("A weight that was estimated, and nothing more.", second, &by_hand(second, 1, source))
                .expect("GO", &[]),
        ),
        (
            "valid/second_tag_without_conditions",
            beside(
                "None of the procedure's conditions holds.",
                second,
                &by_hand(second, 1, |out| {
                    out.int(17).array(0);
                }),
            )
            .expect("GO", &[]),
        ),
        (
            "valid/second_tag_signed_as_a_first",
            beside("Signed in the namespace of the first form.", second, &by_hand(Kind::Tag, 1, source))
                .expect("NO-GO", &["tag_forged"]),
        ),
    ];
    let mut bare = beside("A tag of the second form that nobody signed.", second, &unsigned);
    let said = slingseal_message::seal::Seal { tag_signed: false, ..seal_on(&unsigned) };
    bare.seal = Some(wrap(Kind::Seal, &sign_seal(&said, &anvil(), ANVIL)));
    all.push(("valid/second_tag_unsigned", bare.expect("WAIT", &["tag_unsigned"])));
    let mut held = beside("The tag of the second form is held and not scanned.", second, &whole);
    held.holds = held.tag.take().into_iter().collect();
    all.push(("valid/second_tag_held", held.expect("GO", &["tag_not_seen"])));
    all.push((
        "valid/second_tag_under_the_first_letters",
        beside("A tag of the second form under the letters of the first.", Kind::Tag, &whole)
            .expect("NO-GO", &["unreadable"]),
    ));
    all.push((
        "valid/first_tag_under_the_second_letters",
        beside("A tag of the first form under the letters of the second.", second, &tag())
            .expect("NO-GO", &["unreadable"]),
    ));
    let wrong = |what: &str, write: &dyn Fn(&mut Writer)| {
        beside(what, second, &by_hand(second, 1, |out| write(out))).expect("NO-GO", &["unreadable"])
    };
    all.extend([
        (
            "valid/second_tag_source_of_weight_unknown",
            wrong("A source of the weight that is none.", &|out| {
                out.int(14).int(5);
            }),
        ),
        (
            "valid/second_tag_leg_twice",
            wrong("One leg with two serials.", &|out| {
                out.int(13).array(2).array(2).text("1").text("SL-1").array(2).text("1").text("SL-2");
            }),
        ),
        (
            "valid/second_tag_no_legs",
            wrong("An empty list of legs.", &|out| {
                out.int(13).array(0);
            }),
        ),
        (
            "valid/second_tag_airspeed_as_a_mass",
            wrong("An airspeed limit in pounds.", &|out| {
                out.int(15).array(3).int(80).int(2).text("row 12");
            }),
        ),
        (
            "valid/second_tag_airspeed_of_nought",
            wrong("An airspeed limit of nought.", &|out| {
                out.int(15).array(3).int(0).int(60).text("row 12");
            }),
        ),
        (
            "valid/second_tag_edition_of_version_nought",
            wrong("An edition before the first.", &|out| {
                out.int(16).array(2).int(0).bytes(&[7; 16]);
            }),
        ),
        (
            "valid/second_tag_short_thumbprint",
            wrong("A thumbprint of eight bytes.", &|out| {
                out.int(16).array(2).int(1).bytes(&[7; 8]);
            }),
        ),
        (
            "valid/second_tag_conditions_out_of_order",
            wrong("Conditions out of order.", &|out| {
                out.int(17).array(2).text("night").text("fuel");
            }),
        ),
        (
            "valid/second_tag_condition_in_capitals",
            wrong("A condition in capitals.", &|out| {
                out.int(17).array(1).text("Night");
            }),
        ),
        (
            "valid/second_tag_key_unknown",
            wrong("A pair that no form has.", &|out| {
                out.int(18).int(1);
            }),
        ),
    ]);
    all.into_iter().map(|(name, vector)| (name.to_owned(), vector)).collect()
}
