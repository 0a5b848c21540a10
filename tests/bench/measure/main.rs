//! Figures beside their floors, measured in the same run: `cargo run --release -p slingseal-tests --bin measure`.
//!
//! Each line has our figure, the floor or peer, their ratio and the target. `--json` prints the same for machines.
//! Wall-clock figures of a shared machine: quote ratios.
#![expect(clippy::disallowed_methods, reason = "a measurement reads the clock")]

mod codes;
mod desk;
mod home;
mod lines;
mod seals;
mod statics;
mod zone;

use lines::Line;

/// A name, and what measures under it.
type Group = (&'static str, fn() -> Vec<Line>);

fn main() {
    let json = std::env::args().any(|argument| argument == "--json");
    let wanted: Vec<String> =
        std::env::args().skip(1).filter(|argument| !argument.starts_with("--")).collect();
    let groups: [Group; 6] = [
        ("seals", seals::measure),
        ("codes", codes::measure),
        ("statics", statics::measure),
        ("home", home::measure),
        ("desk", desk::measure),
        ("zone", zone::measure),
    ];
    let mut all = Vec::new();
    for (name, measure) in groups {
        if wanted.is_empty() || wanted.iter().any(|group| group == name) {
            let lines = measure();
            if !json {
                lines.iter().for_each(|line| println!("{line}"));
            }
            all.extend(lines);
        }
    }
    if json {
        println!("{}", serde_json::to_string_pretty(&all).expect("lines can be written as JSON"));
    }
}
