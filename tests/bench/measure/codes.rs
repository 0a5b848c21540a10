//! Writing a code, and a moving code's frames beside the ideal.

use std::hint::black_box;

use slingseal_account::sync::{FrameReader, FrameWriter, Heard};
use slingseal_qr as qr;

use crate::lines::{Line, at, pair};

pub(crate) fn measure() -> Vec<Line> {
    let text: String = "SL1:"
        .chars()
        .chain("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:".chars().cycle().take(475))
        .collect();
    let ours = || {
        black_box(qr::write(black_box(&text)).expect("alphanumeric text"));
    };
    let peer = || {
        let code = fast_qr::QRBuilder::new(text.as_str())
            .ecl(fast_qr::ECL::M)
            .mode(fast_qr::Mode::Alphanumeric)
            .build();
        black_box(code.expect("alphanumeric text"));
    };
    let (a, b) = pair(300, ours, peer);
    let mut lines = vec![Line::new(
        "write a seal's code",
        "us",
        at(&a, 0.5),
        "fast_qr, the fastest writer found",
        at(&b, 0.5),
        None,
    )];
    let bundle: Vec<u8> = (0..60_000u32).map(|at| (at.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
    for loss in [0u64, 10, 30, 50] {
        let needed = frames_needed(&bundle, loss);
        let writer = FrameWriter::new(&bundle).expect("a bundle of a sensible size");
        let ideal = f64::from(writer.enough());
        lines.push(Line::new(
            format!("frames of 60 kB at {loss} % loss"),
            "",
            needed,
            "the ideal number received",
            ideal,
            Some(1.05),
        ));
    }
    lines
}

/// The mean number of received frames until the bundle stands, over some starts.
fn frames_needed(bundle: &[u8], loss: u64) -> f64 {
    let mut total = 0;
    let rounds = 20;
    for start in 0..rounds {
        let mut dice = 0x9e37_79b9_7f4a_7c15u64.wrapping_mul(start + 1);
        let writer = FrameWriter::new(bundle).expect("a bundle of a sensible size");
        let mut reader = FrameReader::new();
        let mut received = 0u64;
        for number in (start as u32 * 17).. {
            dice ^= dice << 13;
            dice ^= dice >> 7;
            dice ^= dice << 17;
            if dice % 100 < loss {
                continue;
            }
            received += 1;
            if let Ok(Heard::Whole(bytes)) = reader.take(&writer.frame(number)) {
                assert_eq!(bytes, bundle);
                break;
            }
        }
        total += received;
    }
    total as f64 / rounds as f64
}
