use super::{FrameError, FrameReader, FrameWriter, Heard, MOST, check_sum};

/// Bytes that repeat from run to run (xorshift64, Marsaglia 2003).
struct Bytes(u64);

impl Bytes {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn some(&mut self, length: usize) -> Vec<u8> {
        (0..length).map(|_| (self.next() >> 32) as u8).collect()
    }
}

/// Shows frames from `first` on, each lost with the chance `lost` in a hundred; how many were shown, and what came out.
fn through(content: &[u8], first: u32, lost: u64, seed: u64) -> (u32, u32, Vec<u8>) {
    let writer = FrameWriter::new(content).unwrap();
    let mut reader = FrameReader::new();
    let mut chance = Bytes(seed);
    for shown in 1.. {
        let frame = writer.frame(first.wrapping_add(shown - 1));
        if chance.next() >> 20 & 0xffff < lost * 65_536 / 100 {
            continue;
        }
        if let Heard::Whole(content) = reader.take(&frame).unwrap() {
            return (shown, writer.enough(), content);
        }
        assert!(shown < 20 * writer.enough() + 100, "the bundle never came together");
    }
    unreachable!()
}

#[test]
fn every_length_and_any_start() {
    let mut bytes = Bytes(7);
    for length in [1, 2, 267, 268, 269, 299, 300, 301, 568, 569, 3_000, 20_001] {
        let content = bytes.some(length);
        for first in [0, 5, 1_000, (1 << 24) - 3, u32::MAX - 2] {
            let (shown, enough, got) = through(&content, first, 0, 1);
            assert!(got == content, "{length} bytes from frame {first}");
            assert!(shown <= enough + 3, "{shown} frames shown, {enough} would do");
        }
    }
}

/// 60 kB at 30 % loss: at most 1.05 times the ideal number of frames, which is what must arrive at the least.
/// Counted by what arrived, so that luck in the losses does not count.
#[test]
fn few_frames_more_than_the_ideal() {
    let content = Bytes(60).some(60_000);
    let writer = FrameWriter::new(&content).unwrap();
    let (mut worst, mut sum) = (0u32, 0u32);
    for seed in 1..=60u64 {
        let mut reader = FrameReader::new();
        let mut chance = Bytes(seed * 0x9e37_79b9);
        let mut arrived = 0;
        for number in seed as u32 * 11.. {
            if chance.next() >> 20 & 0xffff < 19_661 {
                continue;
            }
            arrived += 1;
            if let Heard::Whole(got) = reader.take(&writer.frame(number)).unwrap() {
                assert!(got == content);
                break;
            }
        }
        worst = worst.max(arrived);
        sum += arrived;
    }
    let ideal = writer.enough();
    assert_eq!(ideal, 201);
    println!("60 kB: ideal {ideal}, worst {worst}, mean {:.2}", f64::from(sum) / 60.0);
    assert!(f64::from(worst) <= 1.05 * f64::from(ideal), "worst {worst} of {ideal}");
}

#[test]
fn hostile_frames_never_reach_the_decoder() {
    let content = Bytes(3).some(5_000);
    let writer = FrameWriter::new(&content).unwrap();
    let mut reader = FrameReader::new();
    let good = writer.frame(0);
    for length in [0, 1, 7, 8, 18, 19, 318, 320, 4_000] {
        let mut bytes = good.clone();
        bytes.resize(length, 0);
        assert_eq!(reader.take(&bytes), Err(FrameError::WrongLength(length)));
    }
    for at in 0..good.len() {
        let mut bytes = good.clone();
        bytes[at] ^= 1;
        assert_eq!(reader.take(&bytes), Err(FrameError::Damaged), "byte {at}");
    }
    for length in [0, 32, MOST as u32 + 33, u32::MAX] {
        assert_eq!(reader.take(&with_length(&good, length)), Err(FrameError::WrongSize(length)));
    }
    assert!(matches!(reader.take(&good), Ok(Heard::More(_))));
    assert_eq!(reader.take(&with_length(&good, 5_033)), Err(FrameError::Contradicts));
    // None of it hurt.
    let whole = (1..).find_map(|number| match reader.take(&writer.frame(number)).unwrap() {
        Heard::Whole(whole) => Some(whole),
        Heard::More(_) => None,
    });
    assert_eq!(whole, Some(content));
}

fn with_length(frame: &[u8], length: u32) -> Vec<u8> {
    let id: [u8; 8] = frame[..8].try_into().unwrap();
    let number = u32::from_be_bytes([0, frame[12], frame[13], frame[14]]);
    forge(id, length, number, &frame[19..])
}

fn forge(id: [u8; 8], length: u32, number: u32, symbol: &[u8]) -> Vec<u8> {
    let mut bytes = id.to_vec();
    bytes.extend(length.to_be_bytes());
    bytes.extend(&number.to_be_bytes()[1..]);
    bytes.extend(check_sum(&id, length, number, symbol).to_be_bytes());
    bytes.extend(symbol);
    bytes
}

/// A frame with a right check sum and a wrong symbol: the digest decides, and the reader starts over.
#[test]
fn a_poisoned_bundle_is_refused_and_can_begin_again() {
    let content = Bytes(4).some(5_000);
    let writer = FrameWriter::new(&content).unwrap();
    let mut reader = FrameReader::new();
    let good = writer.frame(0);
    reader.take(&forge(good[..8].try_into().unwrap(), 5_032, 0, &[9; 300])).unwrap();
    let outcome = (1..)
        .map(|number| reader.take(&writer.frame(number)))
        .find(|heard| !matches!(heard, Ok(Heard::More(_))));
    assert_eq!(outcome, Some(Err(FrameError::WrongDigest)));
    let whole = (40..).find_map(|number| match reader.take(&writer.frame(number)).unwrap() {
        Heard::Whole(whole) => Some(whole),
        Heard::More(_) => None,
    });
    assert_eq!(whole, Some(content));
}

/// Well-formed frames with random symbols, numbers and lengths: no panic, bounded work, and never a bundle.
#[test]
fn forged_frames_make_no_bundle() {
    let mut bytes = Bytes(5);
    let mut reader = FrameReader::new();
    for round in 0..3_000u32 {
        let id = [(round % 6) as u8; 8];
        let length = 33 + (round % 6) * 700;
        let number = (bytes.next() >> 40) as u32 & 0xff_ffff;
        let number = if round.is_multiple_of(3) { number % 16 } else { number };
        let symbol = bytes.some(300);
        assert!(!matches!(reader.take(&forge(id, length, number, &symbol)), Ok(Heard::Whole(_))));
        assert!(reader.under_way.len() <= FrameReader::MOST_UNDER_WAY);
    }
}

#[test]
fn two_bundles_at_once() {
    let (one, two) = (Bytes(8).some(4_000), Bytes(9).some(6_000));
    let writers = [FrameWriter::new(&one).unwrap(), FrameWriter::new(&two).unwrap()];
    let mut reader = FrameReader::new();
    let mut whole = Vec::new();
    for number in 0..25 {
        for writer in &writers {
            // A bundle that is whole is forgotten: its later frames begin it anew, which the caller knows by its digest.
            if let Heard::Whole(content) = reader.take(&writer.frame(number)).unwrap() {
                whole.push(content);
            }
        }
    }
    assert_eq!(whole, [one, two]);
}

#[test]
fn bounds_of_what_can_be_sent() {
    assert_eq!(FrameWriter::new(&[]).err(), Some(FrameError::Empty));
    assert_eq!(
        FrameWriter::new(&vec![0; MOST + 1]).err(),
        Some(FrameError::TooLong { bytes: MOST + 1, most: MOST })
    );
    let content = Bytes(10).some(MOST);
    let (_, _, got) = through(&content, 100, 10, 3);
    assert!(got == content);
}

#[test]
fn progress_counts_different_frames() {
    let writer = FrameWriter::new(&Bytes(11).some(3_000)).unwrap();
    let mut reader = FrameReader::new();
    let taken = |heard| match heard {
        Ok(Heard::More(progress)) => (progress.taken, progress.enough),
        other => panic!("{other:?}"),
    };
    assert_eq!(taken(reader.take(&writer.frame(3))), (1, 11));
    assert_eq!(taken(reader.take(&writer.frame(3))), (1, 11));
    assert_eq!(taken(reader.take(&writer.frame(90))), (2, 11));
}

/// ISO/IEC 18004 table 7: version 13 at level M holds 483 alphanumeric characters.
#[test]
fn a_frame_fills_its_code() {
    let writer = FrameWriter::new(b"one line").unwrap();
    let text = writer.text(0);
    assert_eq!(text.len(), 483);
    assert!(text.starts_with("BF1:"));
    let mut reader = FrameReader::new();
    assert_eq!(reader.take_text(&format!("{text}\r\n")), Ok(Heard::Whole(b"one line".to_vec())));
    assert!(matches!(reader.take_text("BF1:::::"), Err(FrameError::Text(_))));
    let seal = slingseal_message::envelope::wrap(slingseal_message::envelope::Kind::Seal, b"AB");
    assert!(matches!(reader.take_text(&seal), Err(FrameError::OtherKind(_))));
}
