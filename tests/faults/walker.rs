//! The child of the kill tests: walks a load by the script and says after each step that it is done.
//!
//! `walker HOME TAG SEED FROM`

use std::io::Write;
use std::path::Path;

use slingseal_tests::scripted::{Scripted, open};

fn main() {
    let words: Vec<String> = std::env::args().collect();
    let [_, home, tag, seed, from] = words.as_slice() else { std::process::exit(2) };
    let (app, clock) =
        open(Path::new(home), "inspector").unwrap_or_else(|error| panic!("{error:?}: {error}"));
    let seed = seed.parse().expect("a seed is a number");
    let script = Scripted { app: &app, clock: &clock, tag, seed };
    let mut out = std::io::stdout().lock();
    for number in from.parse().expect("a step is a number").. {
        let more = script.step(number).unwrap_or_else(|error| panic!("{error:?}: {error}"));
        // What is printed is acknowledged: the pipe has it even when this program dies in the next instant.
        writeln!(out, "{}", if more { number.to_string() } else { "end".into() })
            .expect("the parent listens");
        out.flush().expect("the parent listens");
        if !more {
            break;
        }
    }
}
