//! The kept corpus of each fuzz target, played once: seeds, inputs that reached new code, and every input that ever
//! broke something.

#![expect(clippy::disallowed_methods, reason = "a time-boxed test reads the clock")]

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use slingseal_tests::targets::TARGETS;
use slingseal_words::Digest;

#[test]
fn every_kept_input_is_taken_or_refused() {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus");
    for (name, target) in TARGETS {
        let folder = corpus.join(name);
        let mut files: Vec<_> = fs::read_dir(&folder)
            .unwrap_or_else(|error| panic!("{}: {error}", folder.display()))
            .map(|entry| entry.expect("an entry of the folder").path())
            .collect();
        files.sort();
        assert!(!files.is_empty(), "{name} has no kept input");
        let mut accepted = 0;
        for file in files {
            let bytes = fs::read(&file).expect("a kept input");
            let outcome = std::panic::catch_unwind(|| target(&bytes));
            accepted += u32::from(outcome.unwrap_or_else(|_| panic!("{} breaks {name}", file.display())));
        }
        // A target whose every input is turned away at the door tests the door alone.
        assert!(accepted > 0, "{name} accepts none of its kept inputs");
    }
}

/// A folder that no target reads would be kept for nothing.
#[test]
fn every_folder_has_its_target() {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus");
    for entry in fs::read_dir(corpus).expect("the corpus") {
        let name = entry.expect("an entry").file_name();
        assert!(TARGETS.iter().any(|(target, _)| name.to_str() == Some(target)), "{name:?}");
    }
}

/// A kept input with a few changes, the same in every run: bytes flipped, cut out, doubled, or taken from a neighbour.
fn changed(input: &[u8], other: &[u8], round: u64) -> Vec<u8> {
    let mut out = input.to_vec();
    for step in 0..1 + round % 3 {
        let dice = Digest::of_parts(&[&round.to_be_bytes(), &step.to_be_bytes(), input]);
        let [kind, to, a, b, c, d, ..] = *dice.as_bytes();
        let place = |high: u8, low: u8, length: usize| {
            usize::from(u16::from_be_bytes([high, low])) * length / (1 << 16)
        };
        let at = place(a, b, out.len());
        let end = (at + 1 + place(c, d, 40)).min(out.len());
        match kind % 5 {
            0 if at < out.len() => out[at] = to,
            1 if at < out.len() => out[at] ^= 1 << (to % 8),
            2 => drop(out.drain(at..end)),
            3 => {
                let piece = out[at..end].to_vec();
                drop(out.splice(at..at, piece));
            }
            _ => {
                let from = place(c, d, other.len());
                let piece = other[from..(from + 1 + usize::from(to) % 40).min(other.len())].to_vec();
                drop(out.splice(at..end, piece));
            }
        }
    }
    out
}

/// A short round of invented inputs for every target: `FUZZ_SECONDS` a target, so that each run of the tests tries some.
/// `tests/fuzz/run` tries many more, and looks for new code.
#[test]
fn invented_inputs_are_taken_or_refused() {
    let seconds = std::env::var("FUZZ_SECONDS").ok().and_then(|text| text.parse().ok()).unwrap_or(0.5);
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus");
    for (name, target) in TARGETS {
        let mut files: Vec<_> = fs::read_dir(corpus.join(name))
            .expect("kept inputs")
            .map(|entry| entry.expect("an entry").path())
            .collect();
        files.sort();
        let inputs: Vec<_> = files.iter().map(|file| fs::read(file).expect("a kept input")).collect();
        let end = Instant::now() + Duration::from_secs_f64(seconds);
        let (mut tried, mut accepted) = (0u64, 0u64);
        // How many are tried is the machine's; which ones, and in which order, is always the same.
        while Instant::now() < end || tried < 20 {
            let at = tried as usize;
            let bytes =
                changed(&inputs[at % inputs.len()], &inputs[(at / inputs.len()) % inputs.len()], tried);
            let outcome = std::panic::catch_unwind(|| target(&bytes));
            accepted += u64::from(outcome.unwrap_or_else(|_| {
                let kept = std::env::temp_dir().join(format!("slingseal-{name}-{}", Digest::of(&bytes)));
                fs::write(&kept, &bytes).expect("the input that broke it can be kept");
                panic!("invented input {tried} breaks {name}: {}; mend it, then keep it in tests/fuzz/corpus/{name}", kept.display())
            }));
            tried += 1;
        }
        println!("{name}: {tried} tried, {accepted} accepted");
    }
}
