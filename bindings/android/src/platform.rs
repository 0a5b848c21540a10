//! What a phone gives the core.

use std::time::SystemTime;

use slingseal_app::{Clock, Entropy, Time};

/// The phone's clock.
pub(crate) struct PhoneClock;

impl Clock for PhoneClock {
    #[expect(clippy::disallowed_methods, reason = "the one place where the wall clock is read and injected")]
    fn now(&self) -> Time {
        SystemTime::now().into()
    }
}

/// The kernel's random source.
pub(crate) struct PhoneEntropy;

impl Entropy for PhoneEntropy {
    fn fill(&self, bytes: &mut [u8]) {
        // Without randomness a key would be guessable: nothing may go on.
        getrandom::fill(bytes).expect("the system gives random bytes");
    }
}
