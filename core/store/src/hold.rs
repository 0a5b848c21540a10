//! The lock on a home, and how one program asks another for its turn.

use std::fs::{File, TryLockError};
use std::path::Path;
use std::time::Duration;

use super::StoreError;
use super::files::beside;

/// The lock on a home; the system lets go of it when the program ends, however it ends.
pub(super) struct Held(File);

impl Drop for Held {
    /// Lets go by name. Closing alone would not do while a child that is just being started still has a copy of the open file,
    /// and the next one to open the home would be told that it is open elsewhere.
    fn drop(&mut self) {
        unlock(&self.0);
    }
}

/// How long a program waits for its turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Patience {
    /// Not at all: on a device where one program has the home for as long as it runs.
    None,
    /// As long as the longest call of another program that gives its turn away between calls may take.
    OfTurns,
}

/// How often a program that waits looks, and how often it looks before it gives up: half a minute.
const LOOK: Duration = Duration::from_millis(10);
const LOOKS: u32 = 3_000;

/// Takes the home for this program alone.
///
/// Errors: `Busy` while another program holds it; `ReadOnly`, `Full`, `Io` as the file's making says.
pub(super) fn hold(database: &Path, patience: Patience) -> Result<Held, StoreError> {
    let lock = open(&beside(database, "-lock"))?;
    if take(&lock, database)? {
        return Ok(Held(lock));
    }
    let busy = || StoreError::Busy { path: database.to_owned() };
    if patience == Patience::None {
        return Err(busy());
    }
    // Held while it waits: that is how the other one is asked, and a program that is killed asks no longer.
    let wish = open(&beside(database, "-turn"))?;
    let mut wishing = None;
    for _ in 0..LOOKS {
        if wishing.is_none() && take(&wish, database)? {
            wishing = Some(Unlocks(&wish));
        }
        if take(&lock, database)? {
            return Ok(Held(lock));
        }
        std::thread::sleep(LOOK);
    }
    Err(busy())
}

/// Whether another program waits for the home. Where that cannot be told, nobody does.
pub(super) fn is_wanted(database: &Path) -> bool {
    let Ok(wish) = File::options().write(true).open(beside(database, "-turn")) else { return false };
    match try_lock(&wish) {
        Ok(()) => {
            unlock(&wish);
            false
        }
        Err(TryLockError::WouldBlock) => true,
        Err(TryLockError::Error(_)) => false,
    }
}

struct Unlocks<'f>(&'f File);

impl Drop for Unlocks<'_> {
    fn drop(&mut self) {
        unlock(self.0);
    }
}

fn open(lock: &Path) -> Result<File, StoreError> {
    let made = File::options().write(true).create(true).truncate(false).open(lock);
    made.map_err(|error| StoreError::from_io(lock, &error))
}

fn take(file: &File, database: &Path) -> Result<bool, StoreError> {
    match try_lock(file) {
        Ok(()) => Ok(true),
        Err(TryLockError::WouldBlock) => Ok(false),
        Err(TryLockError::Error(error)) => Err(StoreError::from_io(&beside(database, "-lock"), &error)),
    }
}

/// The kernel's own `flock`, the same call on every Unix.
///
/// The accident that it prevents: `File::try_lock` answers "not supported" on Android, where std's list of systems that
/// have `flock` leaves it out (library/std/src/sys/fs/unix.rs), so that no phone could open a home while every test on
/// Linux passed. `.clippy.toml` forbids the whole family.
#[cfg(unix)]
fn try_lock(file: &File) -> Result<(), TryLockError> {
    use rustix::fs::{FlockOperation, flock};
    use rustix::io::Errno;
    loop {
        match flock(file, FlockOperation::NonBlockingLockExclusive) {
            Ok(()) => return Ok(()),
            Err(Errno::INTR) => {}
            Err(Errno::WOULDBLOCK) => return Err(TryLockError::WouldBlock),
            Err(error) => return Err(TryLockError::Error(error.into())),
        }
    }
}

#[cfg(unix)]
fn unlock(file: &File) {
    // What fails here is let go of when the program ends.
    let _ = rustix::fs::flock(file, rustix::fs::FlockOperation::Unlock);
}

#[cfg(not(unix))]
#[expect(clippy::disallowed_methods, reason = "std has it on Windows, and rustix has nothing there")]
fn unlock(file: &File) {
    let _ = file.unlock();
}

#[cfg(not(unix))]
#[expect(clippy::disallowed_methods, reason = "std has it on Windows, and rustix has nothing there")]
fn try_lock(file: &File) -> Result<(), TryLockError> {
    file.try_lock()
}
