//! The lock on a home.

use std::fs::{File, TryLockError};
use std::path::Path;

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

/// Takes the home for this program alone.
///
/// Errors: `Busy` while another program holds it; `ReadOnly`, `Full`, `Io` as the file's making says.
pub(super) fn hold(database: &Path) -> Result<Held, StoreError> {
    let lock = beside(database, "-lock");
    let file = File::options()
        .write(true)
        .create(true)
        .truncate(false)
        .open(&lock)
        .map_err(|error| StoreError::from_io(&lock, &error))?;
    match try_lock(&file) {
        Ok(()) => Ok(Held(file)),
        Err(TryLockError::WouldBlock) => Err(StoreError::Busy { path: database.to_owned() }),
        Err(TryLockError::Error(error)) => Err(StoreError::from_io(&lock, &error)),
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
