//! What the dearest pictures cost to be read, beside the floor: opening the same file with the `image` crate. Time of the thread,
//! and the most memory that the process had meanwhile (Linux: `VmHWM`, set back before each).
//!
//! `cargo run --release -p slingseal-tests --bin picture_bench [-- FILE...]`; files besides the made ones are measured too.

use std::time::Duration;

use slingseal_qr::{MOST_WORK, read_picture_counted};
use slingseal_tests::hard_pictures::hard_pictures;

/// What is promised of any picture.
const MOST_SECONDS: f64 = 2.0;
const MOST_MIB: f64 = 256.0;

fn main() {
    let mut pictures: Vec<(String, Vec<u8>)> =
        hard_pictures(true).into_iter().map(|(name, bytes)| (name.to_owned(), bytes)).collect();
    for name in std::env::args().skip(1) {
        let bytes = std::fs::read(&name).unwrap_or_else(|error| panic!("{name}: {error}"));
        pictures.push((name, bytes));
    }
    println!(
        "| picture | file, kB | read, s | opened by image, s | ratio | most memory, MiB | work of {MOST_WORK} | texts |"
    );
    println!("|---|---:|---:|---:|---:|---:|---:|---|");
    let mut kept = true;
    // A picture at a time: the others' bytes would count as memory.
    let pictures: Vec<(String, tempfile::NamedTempFile)> = pictures
        .into_iter()
        .map(|(name, bytes)| {
            let file = tempfile::NamedTempFile::new().expect("room for a picture");
            std::fs::write(file.path(), bytes).expect("room for a picture");
            (name, file)
        })
        .collect();
    for (name, file) in pictures {
        let bytes = std::fs::read(file.path()).expect("the picture is there");
        let start = now();
        let opened = image::load_from_memory(&bytes).map(|picture| picture.width());
        let floor = (now() - start).as_secs_f64();
        forget_peak();
        let start = now();
        let read = read_picture_counted(&bytes);
        let spent = (now() - start).as_secs_f64();
        let memory = peak();
        let (texts, work) = match read {
            Ok((texts, work)) => (format!("{} read", texts.len()), work),
            Err(error) => (error.to_string(), 0),
        };
        let floor =
            if opened.is_ok() { format!("{floor:.3} | {:.1}", spent / floor) } else { "- | -".into() };
        println!(
            "| {name} | {} | {spent:.3} | {floor} | {memory:.0} | {work} | {texts} |",
            bytes.len() / 1000
        );
        kept &= spent <= MOST_SECONDS && memory <= MOST_MIB && work <= MOST_WORK;
    }
    println!(
        "\nat most {MOST_SECONDS} s and {MOST_MIB} MiB each: {}",
        if kept { "kept" } else { "NOT KEPT" }
    );
    if !kept {
        std::process::exit(1);
    }
}

/// What this thread has had of the processor.
fn now() -> Duration {
    let time = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
    Duration::new(time.tv_sec as u64, time.tv_nsec as u32)
}

/// proc(5), `clear_refs`: 5 sets the peak back to what the process has now.
fn forget_peak() {
    let _ = std::fs::write("/proc/self/clear_refs", "5");
}

/// MiB.
fn peak() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap_or_default();
    line.trim().trim_end_matches(" kB").parse::<f64>().map_or(f64::NAN, |kilobytes| kilobytes / 1024.0)
}
