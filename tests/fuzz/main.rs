//! One program for every target: `FUZZ_TARGET` names it. `tests/fuzz/run` builds and starts it.
#![no_main]

use std::sync::LazyLock;

use slingseal_tests::targets::{TARGETS, Target};

static TARGET: LazyLock<Target> = LazyLock::new(|| {
    let wanted = std::env::var("FUZZ_TARGET").unwrap_or_default();
    let names: Vec<_> = TARGETS.iter().map(|(name, _)| *name).collect();
    let found = TARGETS.into_iter().find(|(name, _)| *name == wanted);
    found.unwrap_or_else(|| panic!("set FUZZ_TARGET to one of {}", names.join(", ")))
});

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    (TARGET.1)(data);
});
