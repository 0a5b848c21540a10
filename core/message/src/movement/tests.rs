use super::*;
use crate::envelope::{Kind, Limits, Sign1, check, from_ndef, to_ndef, unwrap, wrap};
use slingseal_words::{Digest, GridRef, LoadNumber, Name, Note, Serial, Time};

fn report() -> Movement {
    Movement {
        load: LoadNumber::new("KM-014").unwrap(),
        event: MovementEvent::Lifted,
        issued: Time::from_unix(1_790_000_000),
        happened: None,
        device: [7; 16],
        journal: JournalEnd { seq: 41, digest: Digest::of(b"entry 41") },
        before: None,
        seal: None,
        shown: None,
        aircraft: None,
        place: None,
        photos: Vec::new(),
        pieces: Vec::new(),
        note: None,
    }
}

fn piece(serial: &str, back: bool, damaged: bool) -> PieceState {
    PieceState { serial: Serial::new(serial).unwrap(), back, damaged }
}

fn full() -> Movement {
    Movement {
        event: MovementEvent::Refused(RefusalCause::Rigging),
        happened: Some(Time::from_unix(1_789_999_000)),
        before: Some(Digest::of(b"before")),
        seal: Some(Digest::of(b"seal")),
        shown: Some(VerdictShown { verdict: ShownVerdict::NoGo, reason: ShownReason::new("expired") }),
        aircraft: Some(Name::new("Heron M2").unwrap()),
        place: Some(GridRef::new("04QFJ12345678").unwrap()),
        photos: vec![Digest::of(b"photo")],
        pieces: vec![piece("SL-1", true, false), piece("SL-2", false, true), piece("SL-3", true, true)],
        note: Some(Note::new("leg 2 under the skid").unwrap()),
        ..report()
    }
}

#[test]
fn goes_out_and_comes_back() {
    for event in [
        MovementEvent::Lifted,
        MovementEvent::Lost,
        MovementEvent::SetDown,
        MovementEvent::Derigged,
        MovementEvent::Returned,
    ]
    .into_iter()
    .chain(RefusalCause::ALL.map(MovementEvent::Refused))
    {
        for mut movement in [report(), full()] {
            movement.event = event;
            let bytes = movement.unsigned().unwrap();
            assert_eq!(check(&bytes, Limits::CODE), Ok(()));
            let read = ReceivedMovement::open(&bytes).unwrap();
            assert_eq!((&read.movement, read.message.is_none()), (&movement, true));
            assert_eq!(read.digest, Digest::of(&bytes));
        }
        let cause = match event {
            MovementEvent::Refused(cause) => Some(cause),
            _ => None,
        };
        assert_eq!(MovementEvent::of(event.word(), cause), Some(event));
        assert_eq!(event.word().parse(), Ok(event.kind()));
    }
}

#[test]
fn travels_as_text_and_on_a_sticker() {
    let bytes = full().unsigned().unwrap();
    let text = wrap(Kind::Movement, &bytes);
    assert!(text.starts_with("MV1:"));
    assert_eq!(unwrap(&text), Ok((Kind::Movement, bytes.clone())));
    let ndef = to_ndef(&[(Kind::Movement, &bytes)]).unwrap();
    assert_eq!(from_ndef(&ndef).unwrap().messages, [(Kind::Movement, bytes)]);
}

#[test]
fn a_signed_one_holds_the_same_claims() {
    let movement = full();
    let unsigned = movement.prepare(&[0xa0]);
    let bytes = unsigned.finish(&[9; 64]);
    let read = ReceivedMovement::open(&bytes).unwrap();
    assert_eq!(read.movement, movement);
    let message: Sign1<'_> = read.message.unwrap();
    assert_eq!(message.payload, movement.unsigned().unwrap());
    assert_eq!(message.to_be_signed(Kind::Movement), unsigned.to_be_signed());
    assert_ne!(message.to_be_signed(Kind::Void), unsigned.to_be_signed());
}

#[test]
fn one_spelling_alone() {
    let at_once = Movement { happened: Some(report().issued), ..report() };
    assert!(at_once.unsigned().is_err(), "the time of the event is left out where it is the time of writing");
    let ahead = Movement { happened: Some(Time::from_unix(1_790_000_001)), ..report() };
    assert!(ahead.unsigned().is_err(), "nobody reports what is to come");
    let twice = Movement { pieces: vec![piece("SL-1", true, false), piece("SL-1", false, true)], ..report() };
    assert!(twice.unsigned().is_err(), "a piece twice");
    let neither = Movement { pieces: vec![piece("SL-1", false, false)], ..report() };
    assert!(neither.unsigned().is_err(), "a piece of which there is nothing to say");
    let many = Movement { photos: (0..9).map(|n| Digest::of(&[n])).collect(), ..report() };
    assert!(many.unsigned().is_err(), "nine photographs");
    let pieces = (0..25).map(|n| piece(&format!("SL-{n}"), true, false)).collect();
    assert!(Movement { pieces, ..report() }.unsigned().is_err(), "25 pieces");
}

/// The largest that may be told still fits the largest code, signed under a usual credential.
#[test]
fn the_largest_fits_a_code() {
    let long = |n: usize| format!("{n:0>24}");
    let movement = Movement {
        pieces: (0..MOST_PIECES).map(|n| piece(&long(n), true, true)).collect(),
        photos: (0..MOST_PHOTOS).map(|n| Digest::of(&[u8::try_from(n).unwrap()])).collect(),
        note: Some(Note::new(&"n".repeat(280)).unwrap()),
        aircraft: Some(Name::new(&"a".repeat(32)).unwrap()),
        ..full()
    };
    let unsigned = movement.unsigned().unwrap().len();
    assert!(unsigned + 500 < Limits::CODE.bytes, "{unsigned} bytes");
}

#[test]
fn every_byte_counts() {
    let bytes = full().unsigned().unwrap();
    let whole = ReceivedMovement::open(&bytes).unwrap().movement;
    for at in 0..bytes.len() {
        for bit in 0..8 {
            let mut other = bytes.clone();
            other[at] ^= 1 << bit;
            // Whatever is read says something else, and is written again as it came.
            if let Ok(read) = ReceivedMovement::open(&other) {
                assert_ne!(read.movement, whole, "byte {at}");
                assert_eq!(read.movement.unsigned().unwrap(), other, "byte {at}");
            }
        }
    }
}
