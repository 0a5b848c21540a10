use super::Time;

/// The clock, injected: core never reads the machine's own, so that a test repeats and a clock that jumps is seen.
pub trait Clock: Send + Sync {
    /// The time now, to the second, UTC.
    fn now(&self) -> Time;
}

/// Randomness, injected. A `make_` function takes it; a `derive_` function does not.
pub trait Entropy: Send + Sync {
    /// Fills `bytes` with bytes fit for keys.
    fn fill(&self, bytes: &mut [u8]);
}
