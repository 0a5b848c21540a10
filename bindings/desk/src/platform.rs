//! What this machine gives the core: clock, randomness, a device secret, secrets that people type.

use slingseal_app::catalogue::{desk as words, refusals};
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, SystemTime};

use slingseal_app::{App, AppError, Clock, Entropy, Language, Outside, Stretch, Time};
use zeroize::Zeroizing;

use crate::console::Shown;
use crate::files::close_to_others;
use crate::output::{bad_input, plain};

/// The machine's clock.
pub(crate) struct SystemClock;

impl Clock for SystemClock {
    #[expect(clippy::disallowed_methods, reason = "the one place where the wall clock is read and injected")]
    fn now(&self) -> Time {
        SystemTime::now().into()
    }
}

/// The system's random source.
pub(crate) struct SystemEntropy;

impl Entropy for SystemEntropy {
    fn fill(&self, bytes: &mut [u8]) {
        // Without randomness a key would be guessable: nothing may go on.
        getrandom::fill(bytes).expect("the system gives random bytes");
    }
}

/// The home to use where none is named: the one that an earlier program began, else the folder that this system has for a
/// program's data (XDG Base Directory Specification; %LOCALAPPDATA% on Windows).
pub(crate) fn default_home() -> Result<PathBuf, AppError> {
    let of = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty()).map(PathBuf::from);
    let user = of(if cfg!(windows) { "USERPROFILE" } else { "HOME" });
    let earlier = user.as_ref().map(|user| user.join(".slingseal"));
    // The specification tells to pass over what is not absolute.
    let data =
        of(if cfg!(windows) { "LOCALAPPDATA" } else { "XDG_DATA_HOME" }).filter(|data| data.is_absolute());
    let usual = data
        .or_else(|| user.map(|user| user.join(".local").join("share")))
        .map(|data| data.join("slingseal"));
    earlier.filter(|earlier| earlier.is_dir()).or(usual).ok_or_else(|| bad_input(words::NoHomeKnown))
}

/// The language to speak: the one that was named, by `--language` or `SLINGSEAL_LANGUAGE`, which must be one that is here;
/// else what the system's locale says, as for every program of it, English where that is of no use.
///
/// # Errors
/// The one that was named is not here.
pub(crate) fn language(named: Option<&str>) -> Result<Language, AppError> {
    if let Some(named) = named.filter(|named| !named.is_empty()) {
        return Language::named(named).map_err(|unknown| bad_input(unknown.to_string()));
    }
    let set = |name| std::env::var(name).ok().filter(|value| !value.is_empty());
    let locale = ["LC_ALL", "LC_MESSAGES", "LANG"].into_iter().find_map(set);
    #[cfg(windows)]
    let locale = locale.or_else(crate::windows::locale);
    let locale = locale.unwrap_or_default();
    Ok(Language::of_locale(&locale))
}

/// Opens a home with this machine's clock and randomness.
pub(crate) fn open(home: &Path, language: Language) -> Result<App, AppError> {
    open_with(home, language, Arc::new(SystemClock))
}

/// Opens a home with a clock of the caller's.
pub(crate) fn open_with(home: &Path, language: Language, clock: Arc<dyn Clock>) -> Result<App, AppError> {
    std::fs::create_dir_all(home)
        .map_err(|error| bad_input(words::HomeNotWritten { home: home.shown(), plain: plain(&error) }))?;
    close_to_others(home);
    let device_secret = device_secret(home)?;
    let app = App::open_beside(
        home,
        Outside { clock, entropy: Arc::new(SystemEntropy), device_secret, stretch: Stretch::FIELD, language },
    );
    // Once more: what the database made beside itself.
    close_to_others(home);
    app
}

/// The device secret of a desk: a file beside the database that only the user may read. A handheld keeps its own in
/// the platform's keystore, which is stronger: a copy of this whole folder holds both halves.
fn device_secret(home: &Path) -> Result<Zeroizing<Vec<u8>>, AppError> {
    let path = home.join(SECRET);
    let failed = |error: std::io::Error| {
        bad_input(words::HomeRightsWrong { path: path.shown(), plain: plain(&error) })
    };
    match std::fs::read(&path) {
        Ok(bytes) if bytes.len() == 32 => return Ok(Zeroizing::new(bytes)),
        Ok(_) => {
            return Err(bad_input(words::HomeSecretDamaged { path: path.shown() }));
        }
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {}
        Err(error) => return Err(failed(error)),
    }
    let mut secret = Zeroizing::new(vec![0; 32]);
    SystemEntropy.fill(&mut secret);
    keep_secret(home, &secret)?;
    Ok(secret)
}

/// Keeps the device secret of a home that has none.
pub(crate) fn keep_secret(home: &Path, secret: &[u8]) -> Result<(), AppError> {
    let path = home.join(SECRET);
    let failed = |error: std::io::Error| {
        bad_input(words::HomeRightsWrong { path: path.shown(), plain: plain(&error) })
    };
    let mut options = std::fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    // On Windows the home's access list is handed down to it; the home was closed before this.
    let mut file = options.open(&path).map_err(failed)?;
    file.write_all(secret).and_then(|()| file.sync_all()).map_err(failed)
}

/// The folder of a home that is about to begin. One with a secret in it is a home already.
pub(crate) fn new_home(home: &Path) -> Result<(), AppError> {
    if home.join(SECRET).exists() {
        return Err(AppError::Refused { message: refusals::HomeIsThere.into() });
    }
    std::fs::create_dir_all(home)
        .map_err(|error| bad_input(words::HomeNotWritten { home: home.shown(), plain: plain(&error) }))?;
    close_to_others(home);
    Ok(())
}

/// This machine's clock and randomness, for a home whose secret comes from elsewhere.
pub(crate) fn outside_without_secret(language: Language) -> Outside {
    Outside {
        clock: Arc::new(SystemClock),
        entropy: Arc::new(SystemEntropy),
        device_secret: Zeroizing::new(Vec::new()),
        stretch: Stretch::FIELD,
        language,
    }
}

/// The file of the device secret in a home.
const SECRET: &str = "device.secret";

/// What a secret is for.
#[derive(Clone, Copy)]
pub(crate) enum Secret {
    Pin,
    /// The one that takes its place.
    NewPin,
    Passphrase,
}

/// Does what runs on for long while other programs of the home get their turns.
pub(crate) fn in_turns<T>(app: &App, act: impl FnOnce() -> T) -> T {
    let ended = AtomicBool::new(false);
    std::thread::scope(|scope| {
        // Set when `act` is left, however it is left.
        let _end = Ends(&ended);
        scope.spawn(|| {
            while !ended.load(Ordering::Relaxed) {
                std::thread::sleep(TURNS);
                app.give_turn();
            }
        });
        act()
    })
}

/// How often a program that runs on looks whether another one wants the home.
pub(crate) const TURNS: Duration = Duration::from_millis(20);

struct Ends<'e>(&'e AtomicBool);

impl Drop for Ends<'_> {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

/// A secret from the environment, or typed at the terminal; twice where it is new. Meanwhile other programs have the home.
pub(crate) fn ask(app: &App, secret: Secret, new: bool) -> Result<Zeroizing<String>, AppError> {
    let (name, variable) = match secret {
        Secret::Pin => (words::Pin.saying(), "SLINGSEAL_PIN"),
        Secret::NewPin => (words::NewPin.saying(), "SLINGSEAL_NEW_PIN"),
        Secret::Passphrase => (words::Passphrase.saying(), "SLINGSEAL_PASSPHRASE"),
    };
    if let Ok(value) = std::env::var(variable) {
        return Ok(Zeroizing::new(value));
    }
    if !std::io::stdin().is_terminal() {
        return Err(bad_input(words::NoTerminalToAsk { what: name, variable }));
    }
    app.let_go();
    let language = app.spoken();
    let read = |prompt: &str| {
        rpassword::prompt_password(prompt)
            .map(Zeroizing::new)
            .map_err(|error| bad_input(words::TerminalNotRead { plain: plain(&error) }))
    };
    let first = read(&format!("{}: ", name.say(language)))?;
    if new && *first != *read(&words::SecretAgain { what: name }.say(language))? {
        return Err(bad_input(words::SecretsDiffer));
    }
    Ok(first)
}
