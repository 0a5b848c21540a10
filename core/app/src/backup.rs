//! A home in one file with a check over all of it, and a home that begins from one.
//!
//! The file: `SLINGSEAL HOME 1` and a line break; the device secret behind a byte with its length; SHA-256 of secret and
//! database; the database.

use std::fs::File;
use std::io::{BufReader, Read, Write};
use std::path::{Path, PathBuf};

use serde::Serialize;
use slingseal_catalogue::refusals as words;
use zeroize::Zeroizing;

use crate::error::said_by_system;
use crate::{App, AppError, Outside, Stamp};
use slingseal_store::{Store, StoreError};
use slingseal_words::Digest;

const MARK: &[u8] = b"SLINGSEAL HOME 1\n";

/// A backup that was made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BackupView {
    /// What the home goes by in its journal.
    pub device: String,
    /// How many entries its journal has.
    pub entries: u64,
    /// How many records are in it.
    pub records: u64,
    /// SHA-256 of what it holds: told again where it is restored.
    pub digest: String,
    /// When it was made.
    pub at: Stamp,
}

/// A home that was made out of a backup.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RestoredView {
    /// What the home that was backed up goes by.
    pub before: String,
    /// How many entries of its journal are kept.
    pub entries: u64,
    /// What the new home goes by.
    pub device: String,
    /// Loads whose inspections were under way: they are inspected again.
    pub walk_again: Vec<String>,
    /// SHA-256 of what the backup holds.
    pub digest: String,
    /// What whoever restores must know and do next, a line each.
    pub notes: Vec<String>,
}

impl App {
    /// Writes the home whole, its device secret with it: whoever has the file needs only the PIN. `scratch` is a new file's
    /// name, in a place that is closed to others; the file is gone when this returns.
    ///
    /// # Errors
    /// A fault of the home, which is looked at first: a copy of a damaged home would be found out when it is needed; storage.
    pub fn backup(&self, scratch: &Path, out: &mut dyn Write) -> Result<BackupView, AppError> {
        let inner = self.lock();
        if let Some(fault) = inner.store.read().check()?.into_iter().next() {
            return Err(StoreError::Damaged { what: fault }.into());
        }
        let scratch = Scratch(scratch.to_owned());
        // What a program that was killed left.
        let _ = std::fs::remove_file(&scratch.0);
        inner.store.copy_to(&scratch.0)?;
        let secret = &inner.outside.device_secret;
        let length = u8::try_from(secret.len()).map_err(AppError::internal)?;
        let failed = |error: std::io::Error| AppError::StorageFull {
            message: words::BackupNotWritten { why: said_by_system(&error) }.into(),
        };
        let digest = digest_of(secret, &scratch.0).map_err(failed)?;
        for part in [MARK, &[length], secret.as_slice(), digest.as_bytes()] {
            out.write_all(part).map_err(failed)?;
        }
        std::io::copy(&mut File::open(&scratch.0).map_err(failed)?, out).map_err(failed)?;
        Ok(BackupView {
            device: crate::view::hex(&inner.store.device().0),
            entries: inner.store.head().seq,
            records: inner.store.read().count_records()?,
            digest: digest.to_string(),
            at: inner.now().into(),
        })
    }
}

/// Makes a home in a folder out of a backup, and gives the device secret that the shell must keep for it before it opens the
/// home. The home is another device than the one that was backed up: that one's journal is its history, and it begins its own.
/// Whatever is missing or altered is refused before anything is made of it.
///
/// # Errors
/// No backup, or one that does not hold from end to end; a folder with a home in it; storage.
pub fn restore_home(
    backup: &Path,
    home: &Path,
    outside: &Outside,
) -> Result<(RestoredView, Zeroizing<Vec<u8>>), AppError> {
    let failed = |error: std::io::Error| AppError::StorageFull {
        message: words::BackupNotRead { why: said_by_system(&error) }.into(),
    };
    let broken = || AppError::bad_input(words::BackupBroken);
    let mut file = BufReader::new(File::open(backup).map_err(failed)?);
    let mut mark = [0; MARK.len() + 1];
    file.read_exact(&mut mark).map_err(|_| AppError::bad_input(words::NoBackup))?;
    let length = match mark.strip_prefix(MARK) {
        Some(&[length]) => usize::from(length),
        _ => return Err(AppError::bad_input(words::NoBackup)),
    };
    let mut secret = Zeroizing::new(vec![0; length]);
    let mut told = [0; 32];
    file.read_exact(&mut secret).and_then(|()| file.read_exact(&mut told)).map_err(|_| broken())?;
    let scratch = Scratch(home.join("restoring.part"));
    let mut copy = File::create(&scratch.0).map_err(failed)?;
    std::io::copy(&mut file, &mut copy).and_then(|_| copy.sync_all()).map_err(failed)?;
    drop(copy);
    let digest = digest_of(&secret, &scratch.0).map_err(failed)?;
    if digest.as_bytes().as_slice() != told.as_slice() {
        return Err(broken());
    }
    let (now, entropy) = (outside.clock.now(), outside.entropy.as_ref());
    let made = Store::restore(&scratch.0, &home.join("slingseal.db"), now, entropy);
    let restored = made.map_err(|error| match error {
        StoreError::Unfit { .. } => AppError::refused(words::HomeIsThere),
        error => error.into(),
    })?;
    let language = outside.language;
    let mut notes = vec![words::RestoredIsNewDevice.say(language), words::RestoredNeedsRosters.say(language)];
    if !restored.walk_again.is_empty() {
        notes.push(words::RestoredWalkAgain { loads: restored.walk_again.join(", ") }.say(language));
    }
    let view = RestoredView {
        before: crate::view::hex(&restored.before.0),
        entries: restored.head.seq,
        device: crate::view::hex(&restored.device.0),
        walk_again: restored.walk_again,
        digest: digest.to_string(),
        notes,
    };
    Ok((view, secret))
}

fn digest_of(secret: &[u8], database: &Path) -> std::io::Result<Digest> {
    Digest::of_reader(&mut secret.chain(BufReader::new(File::open(database)?)))
}

/// A file that is gone when it is left, however it is left.
struct Scratch(PathBuf);

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}
