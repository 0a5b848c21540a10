//! Vaults, settings, photos, quarantine.

use rusqlite::OptionalExtension;

use slingseal_words::{Digest, Time};

use super::table::Table;
use super::values::count_in;
use super::{Reader, StoreError, Tx};

pub(super) static VAULTS: Table = Table::new("vaults", "name", &["name", "bytes", "wrong", "not_before"]);
pub(super) static SETTINGS: Table = Table::new("settings", "name", &["name", "value"]);
pub(super) static QUARANTINE: Table =
    Table::new("quarantine", "digest", &["digest", "reason", "received", "bytes"]);

/// A key under a PIN or a passphrase, encrypted, and how often the PIN was wrong in a row.
#[derive(Clone, PartialEq, Eq)]
pub struct VaultRow {
    /// Which vault.
    pub name: String,
    /// The encrypted key.
    pub bytes: Vec<u8>,
    /// Wrong PINs since the last right one.
    pub wrong: u32,
    /// No PIN is tried before this time.
    pub not_before: Time,
}

impl std::fmt::Debug for VaultRow {
    /// Without the bytes: encrypted or not, they do not belong in a log.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("VaultRow")
            .field("name", &self.name)
            .field("wrong", &self.wrong)
            .finish_non_exhaustive()
    }
}

/// Something that came and was not believed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuarantineRow {
    /// The digest of its bytes.
    pub digest: Digest,
    /// Why, in words for the user.
    pub reason: String,
    /// When it came.
    pub received: Time,
    /// What came.
    pub bytes: Vec<u8>,
}

impl Tx<'_> {
    /// Puts a new vault in place of what stood under the name, with no wrong PIN counted.
    pub fn put_vault(&self, name: &str, bytes: &[u8]) -> Result<(), StoreError> {
        self.run(&VAULTS.insert("OR REPLACE"), (name, bytes, 0, Time::from_unix(0)))?;
        Ok(())
    }

    /// Writes down how often the PIN was wrong, and until when no other is tried. To be called before a PIN is tried, so
    /// that pulling the battery gives no free try.
    pub fn count_wrong_pins(&self, name: &str, wrong: u32, not_before: Time) -> Result<(), StoreError> {
        self.run("UPDATE vaults SET wrong = ?2, not_before = ?3 WHERE name = ?1", (name, wrong, not_before))?;
        self.run(&VAULTS.reseal("WHERE name = ?1"), [name])?;
        Ok(())
    }

    /// Writes a setting.
    pub fn put_setting(&self, name: &str, value: &[u8]) -> Result<(), StoreError> {
        self.run(&SETTINGS.insert("OR REPLACE"), (name, value))?;
        Ok(())
    }

    /// Removes a setting; `false` where there was none.
    pub fn remove_setting(&self, name: &str) -> Result<bool, StoreError> {
        Ok(self.run("DELETE FROM settings WHERE name = ?1", [name])? > 0)
    }

    /// Keeps a photo under the digest of its bytes.
    pub fn put_photo(&self, bytes: &[u8], received: Time) -> Result<Digest, StoreError> {
        let digest = Digest::of(bytes);
        self.run(
            "INSERT OR IGNORE INTO photos (digest, received, bytes) VALUES (?1, ?2, ?3)",
            (digest, received, bytes),
        )?;
        Ok(digest)
    }

    /// Keeps what was not believed; `false` where the same bytes are there already.
    pub fn put_quarantine(&self, bytes: &[u8], reason: &str, received: Time) -> Result<bool, StoreError> {
        let row = (Digest::of(bytes), reason, received, bytes);
        Ok(self.run(&QUARANTINE.insert("OR IGNORE"), row)? > 0)
    }

    /// Leaves the newest `most` things in quarantine, of at most `bytes` together; how many went.
    pub fn trim_quarantine(&self, most: u64, bytes: u64) -> Result<usize, StoreError> {
        let sql = "DELETE FROM quarantine WHERE digest IN (
            SELECT digest FROM (
                SELECT digest,
                    row_number() OVER (ORDER BY received DESC, digest) AS place,
                    sum(length(bytes)) OVER (ORDER BY received DESC, digest) AS upto
                FROM quarantine)
            WHERE place > ?1 OR upto > ?2)";
        self.run(sql, (count_in(most)?, count_in(bytes)?))
    }

    /// Clears one thing out of quarantine, because it was looked at or is believed now.
    pub fn remove_quarantine(&self, digest: Digest) -> Result<bool, StoreError> {
        Ok(self.run("DELETE FROM quarantine WHERE digest = ?1", [digest])? > 0)
    }
}

impl Reader<'_> {
    /// A vault.
    pub fn vault(&self, name: &str) -> Result<Option<VaultRow>, StoreError> {
        self.row(&VAULTS, "WHERE name = ?1", [name], |row| {
            Ok(VaultRow {
                name: row.get(0)?,
                bytes: row.get(1)?,
                wrong: row.get(2)?,
                not_before: row.get(3)?,
            })
        })
    }

    /// A setting.
    pub fn setting(&self, name: &str) -> Result<Option<Vec<u8>>, StoreError> {
        self.row(&SETTINGS, "WHERE name = ?1", [name], |row| row.get(1))
    }

    /// All settings whose names begin so, by name.
    pub fn settings_of(&self, beginning: &str) -> Result<Vec<(String, Vec<u8>)>, StoreError> {
        let rest = "WHERE substr(name, 1, length(?1)) = ?1 ORDER BY name";
        self.rows(&SETTINGS, rest, [beginning], |row| Ok((row.get(0)?, row.get(1)?)))
    }

    /// A photo's bytes.
    pub fn photo(&self, digest: Digest) -> Result<Option<Vec<u8>>, StoreError> {
        let sql = "SELECT bytes FROM photos WHERE digest = ?1";
        let found: Option<Vec<u8>> =
            self.ask(sql, |statement| statement.query_row([digest], |row| row.get(0)).optional())?;
        match found {
            Some(bytes) if Digest::of(&bytes) != digest => {
                let what = format!("photo {} does not match its digest", digest.short());
                self.noting(Err(StoreError::Damaged { what }))
            }
            other => Ok(other),
        }
    }

    /// Whether a photo is here, without reading it.
    pub fn has_photo(&self, digest: Digest) -> Result<bool, StoreError> {
        let sql = "SELECT 1 FROM photos WHERE digest = ?1";
        let found: Option<i64> =
            self.ask(sql, |statement| statement.query_row([digest], |row| row.get(0)).optional())?;
        Ok(found.is_some())
    }

    /// The digests of all photos, sorted.
    pub fn photo_digests(&self) -> Result<Vec<Digest>, StoreError> {
        self.ask("SELECT digest FROM photos ORDER BY digest", |statement| {
            statement.query_map([], |row| row.get(0))?.collect()
        })
    }

    /// Whether anything is in quarantine at all.
    pub fn is_anything_quarantined(&self) -> Result<bool, StoreError> {
        Ok(self.count("SELECT count(*) FROM (SELECT 1 FROM quarantine LIMIT 1)", [])? > 0)
    }

    /// What is in quarantine, the last that came first, at most so many.
    pub fn quarantine(&self, most: u32) -> Result<Vec<QuarantineRow>, StoreError> {
        self.rows(&QUARANTINE, "ORDER BY received DESC, digest LIMIT ?1", [most], |row| {
            Ok(QuarantineRow {
                digest: row.get(0)?,
                reason: row.get(1)?,
                received: row.get(2)?,
                bytes: row.get(3)?,
            })
        })
    }
}
