//! The kept corpus of each fuzz target, played once: seeds, inputs that reached new code, and every input that ever
//! broke something.

use std::fs;
use std::path::Path;

use slingseal_tests::targets::TARGETS;

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
