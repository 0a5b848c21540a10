//! How long the core takes to answer with a card's view, without Kotlin in between: the other half of the measurement
//! that `android-shell/scripts/overhead.sh` takes.
//!
//! Arguments: the home, the device secret as text of 32 bytes, the walk, how many calls.

use std::path::Path;
use std::sync::Arc;
use std::time::{Instant, SystemTime, UNIX_EPOCH};

use slingseal_app::{App, Clock, Entropy, Language, Outside, Stretch, Time};
use zeroize::Zeroizing;

struct Wall;

impl Clock for Wall {
    #[expect(clippy::disallowed_methods, reason = "a measurement stands outside the core")]
    fn now(&self) -> Time {
        let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
        Time::from_unix(i64::try_from(since.as_secs()).unwrap_or(i64::MAX))
    }
}

struct Kernel;

impl Entropy for Kernel {
    fn fill(&self, bytes: &mut [u8]) {
        getrandom::fill(bytes).expect("the system gives random bytes");
    }
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut given = std::env::args().skip(1);
    let mut next = |what: &str| given.next().ok_or(format!("{what} is missing"));
    let (home, secret, walk) = (next("the home")?, next("the device secret")?, next("the walk")?);
    let calls: usize = next("how many calls")?.parse()?;
    let outside = Outside {
        clock: Arc::new(Wall),
        entropy: Arc::new(Kernel),
        device_secret: Zeroizing::new(secret.into_bytes()),
        stretch: Stretch::FIELD,
        language: Language::of_locale("en"),
    };
    let app = App::open(Path::new(&home), outside)?;
    let mut taken = Vec::with_capacity(calls);
    #[expect(clippy::disallowed_methods, reason = "this program measures")]
    for _ in 0..calls {
        let began = Instant::now();
        std::hint::black_box(app.walk(&walk)?);
        taken.push(began.elapsed());
    }
    taken.sort();
    let at = |share: usize| taken.get(calls * share / 100).map_or(0.0, |time| time.as_secs_f64() * 1e6);
    println!("the same call in Rust            median {:8.1} us, 9 of 10 within {:8.1} us", at(50), at(90));
    Ok(())
}
