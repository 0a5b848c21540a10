//! A whole copy of a home's file, and a home that begins from one.
//!
//! The accident that a restoring prevents: a copy that simply goes on under its old name writes other entries under numbers
//! that others have seen, and everyone who knows the old end takes the device for a forger. So a restored home is a new
//! device, and the journal that it had is history that it keeps.

use std::path::Path;

use slingseal_words::{Entropy, Time};

use super::files::{beside, remove, rename, size, sync_folder};
use super::hold::{Patience, hold};
use super::mend::{salvage, source, version_of};
use super::open::{connect, device_of, head_of, look};
use super::{DeviceId, Head, NewEntry, Opened, Reader, Store, StoreError, schema};

/// The kind of the entry with which the journal of a restored home begins. Its body: the old device's id, the number of
/// its last entry that the copy has (big-endian, 8 bytes), that entry's digest.
pub const RESTORED: &str = "restored";

/// What became of a copy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Restored {
    /// What the home went by when it was copied.
    pub before: DeviceId,
    /// How far its journal had come.
    pub head: Head,
    /// What it goes by now.
    pub device: DeviceId,
    /// Loads whose walks were given up: what was answered after the copy was made is not in it.
    pub walk_again: Vec<String>,
}

/// A new database that is being filled.
const RESTORING: &str = "-restoring";

impl Store {
    /// Writes a whole copy of the database into one new file, as the last `write` left it.
    ///
    /// Errors: `Unfit` where the file is there or its name is no text; `Full`, `Io`.
    pub fn copy_to(&self, to: &Path) -> Result<(), StoreError> {
        if let Some(away) = &self.away {
            return Err(away.clone());
        }
        let name = to.to_str().filter(|_| !to.exists());
        let name = name.ok_or_else(|| StoreError::Unfit { what: to.display().to_string() })?;
        self.conn.execute("VACUUM INTO ?1", [name]).map_err(|error| StoreError::from(error).at(to))?;
        Ok(())
    }

    /// Makes a home's database out of a copy that is sound from end to end. The home is another device than the one that was
    /// copied: it keeps that one's journal for audit, begins its own with an entry that names it, and gives up what was
    /// walked. What was received since the copy was made is not in it, so that it remembers as one that was put back.
    ///
    /// Errors: `Unfit` where there is a home already; `Damaged`, `Foreign`, `TooNew` of the copy; `Full`, `Io`.
    pub fn restore(
        copy: &Path,
        path: &Path,
        now: Time,
        entropy: &dyn Entropy,
    ) -> Result<Restored, StoreError> {
        if let Some(home) = path.parent() {
            std::fs::create_dir_all(home).map_err(|error| StoreError::from_io(home, &error))?;
        }
        let held = hold(path, Patience::None)?;
        if size(path) > 0 || size(&beside(path, "-wal")) > 0 {
            return Err(StoreError::Unfit { what: path.display().to_string() });
        }
        let restoring = beside(path, RESTORING);
        for ending in ["", "-wal", "-journal", "-shm"] {
            remove(&beside(&restoring, ending))?;
        }
        let damaged = |what: &str| StoreError::Damaged { what: what.to_owned() };
        let source = source(copy).ok_or_else(|| damaged("the copy cannot be opened"))?;
        let said = schema::said(&source)?;
        if said.foreign || said.version == 0 {
            return Err(StoreError::Foreign { path: copy.to_owned() });
        }
        if said.version > schema::KNOWN {
            return Err(StoreError::TooNew { found: said.version, known: schema::KNOWN });
        }
        look(&source, true)?;
        let before = device_of(&source)?;
        let head = head_of(&source, before)?;
        let read = Reader { conn: &source, device: before, witness: None, away: None };
        // An older copy has not every table that is looked at; its rows are checked one by one as they are taken over.
        if said.version == schema::KNOWN
            && let Some(what) = read.check()?.into_iter().next()
        {
            return Err(StoreError::Damaged { what });
        }
        let version = version_of(&source);
        let mut target = connect(&restoring, false, version, &mut Opened::default(), entropy)?;
        let saved = salvage(&source, version, &mut target, None)?;
        if let Some(part) = saved.saved.iter().find(|saved| !saved.whole && saved.table != "journal") {
            return Err(damaged(part.table));
        }
        schema::step_up(&mut target, version, schema::KNOWN)?;
        target.set_db_config(rusqlite::config::DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, false)?;
        target.close().map_err(|(_, error)| error)?;
        remove(&beside(&restoring, "-shm"))?;
        rename(&restoring, path)?;
        sync_folder(path);
        drop(held);
        let (mut store, _) = Self::open(path, now, entropy)?;
        let mut body = before.0.to_vec();
        body.extend_from_slice(&head.seq.to_be_bytes());
        body.extend_from_slice(head.digest.as_bytes());
        store.write(|tx| {
            tx.append(NewEntry { kind: RESTORED, walk: None, body: &body, time: now })?;
            tx.note_put_back(now)
        })?;
        Ok(Restored { before, head, device: store.device(), walk_again: saved.walk_again })
    }
}
