//! A seal and its tag on one NFC sticker.

use super::*;
use crate::{CodeKind, CodeText};

/// What an NTAG216 chip gives its user (NXP data sheet NTAG213/215/216, "user memory": 888 bytes), less what stands around
/// the message there: a TLV of type and three bytes of length before it, a terminator behind (NFC Forum Type 2 Tag, §2.3).
const LARGE: u32 = 888 - 4 - 1;
/// NTAG213: 144 bytes.
const SMALL: u32 = 144 - 4 - 1;

#[test]
fn a_seal_and_its_tag_fit_one_sticker() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let inspector = zone.device(&authority, "inspector", "Anvil 3", "inspector,planner");
    let hookup = zone.home("hookup");
    meet(&hookup, &authority);
    let plan = include_str!("../../../../bindings/desk/demo/bag.toml");
    for pin in [None, Some(PIN)] {
        zone.pass(60);
        let tag = inspector.write_tag(plan, &no_file, pin).unwrap().code.text;
        let view = walk_all(&inspector, inspector.begin_walk(&tag).unwrap());
        inspector.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
        let seal = inspector.seal(&view.walk, PIN, None).unwrap().code.text;

        let written = sticker(&[seal.clone(), tag.clone()], LARGE).unwrap();
        assert_eq!(u32::try_from(written.message.len()), Ok(written.bytes));
        assert!(written.fits, "{} bytes", written.bytes);
        let small = sticker(std::slice::from_ref(&seal), SMALL).unwrap();
        assert!(!small.fits, "{} bytes", small.bytes);

        let read = read_sticker(&written.message);
        let ours = StickerReading::Ours { seal: Some(seal.clone()), tag: Some(tag.clone()), others: vec![] };
        assert_eq!(read, ours);
        let verdict = hookup.check(Some(&seal), Some(&tag)).unwrap();
        // A plain tag asks for a look at weight and aircraft, by sticker as by code.
        let word = if pin.is_some() { "GO" } else { "WAIT" };
        assert_eq!(verdict.word, word, "{:?}", verdict.reasons);
    }
}

#[test]
fn what_cannot_be_written_is_told() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let card = authority.authority().unwrap();
    let roster = card.roster.text.clone();
    let read = read_sticker(&sticker(&[card.card.text.clone(), roster.clone()], LARGE).unwrap().message);
    let others = vec![
        CodeText { kind: CodeKind::Authority, text: card.card.text },
        CodeText { kind: CodeKind::Roster, text: roster.clone() },
    ];
    assert_eq!(read, StickerReading::Ours { seal: None, tag: None, others });
    for (texts, words) in [
        (vec![], "nothing was given"),
        (vec![roster.clone(), roster], "one message of a kind"),
        (vec!["hello".to_owned()], "not one of Slingseal's"),
    ] {
        let error = sticker(&texts, LARGE).unwrap_err();
        assert_eq!(error.code(), "bad_input");
        assert!(error.to_string().contains(words), "{error}");
    }
    assert_eq!(read_sticker(&[0xD0, 0, 0]), StickerReading::Empty);
    assert_eq!(read_sticker(&[1, 2, 3]), StickerReading::Damaged);
    assert_eq!(read_sticker(&[0; 40_000]), StickerReading::Damaged);
}
