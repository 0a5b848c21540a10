use super::exams::{EXAM_PAPERS, EXAM_RUNS};
use super::keep::{QUARANTINE, SETTINGS, VAULTS};
use super::open::DEVICE;
use super::papers::{AUTHORITIES, CREDENTIALS, ROSTERS, TAGS, VOIDS};
use super::records::{BYTES, DEFICIENCIES, EQUIPMENT, RECORDS};
use super::table::{Table, show};
use super::walks::WALKS;
use super::{Reader, StoreError};

/// Every table whose rows have a check sum; a table after those that its rows point to.
pub(super) const TABLES: &[&Table] = &[
    &DEVICE,
    &WALKS,
    &RECORDS,
    &BYTES,
    &DEFICIENCIES,
    &EQUIPMENT,
    &TAGS,
    &VOIDS,
    &AUTHORITIES,
    &ROSTERS,
    &CREDENTIALS,
    &QUARANTINE,
    &VAULTS,
    &SETTINGS,
    &EXAM_PAPERS,
    &EXAM_RUNS,
];

/// How many faults of one kind are named before the rest is left out.
const MOST: usize = 20;

impl Reader<'_> {
    /// Looks at everything: the file's structure and its indexes, every row's check sum, every photo's digest, this
    /// device's journal, and that no record lost its bytes. Answers what is wrong, one line each; nothing where all is
    /// well. Reads the whole file.
    pub fn check(&self) -> Result<Vec<String>, StoreError> {
        let mut faults = self.lines(&format!("PRAGMA integrity_check({MOST})"))?;
        faults.retain(|line| line != "ok");
        for table in TABLES {
            let rows = self.lines(&format!("{} LIMIT {MOST}", table.decayed_rows()))?;
            let name = table.name;
            faults.extend(
                rows.into_iter().map(|key| format!("row {key} of {name} does not match its check sum")),
            );
        }
        let bare = "SELECT records.id FROM records LEFT JOIN record_bytes ON record = records.id WHERE record IS NULL";
        let rows = self.lines(&format!("{bare} LIMIT {MOST}"))?;
        faults.extend(rows.into_iter().map(|id| format!("record {id} has no bytes")));
        for digest in self.photo_digests()? {
            if let Err(StoreError::Damaged { what }) = self.photo(digest) {
                faults.push(what);
            }
        }
        if let Err(fault) = self.verify_journal()? {
            faults.push(fault.to_string());
        }
        faults.extend(self.decayed_foreign_entries()?);
        Ok(faults)
    }

    fn decayed_foreign_entries(&self) -> Result<Vec<String>, StoreError> {
        let mut faults = Vec::new();
        for (device, _) in self.foreign_devices()? {
            for entry in self.foreign_entries(device)? {
                if entry.derive_digest() != entry.digest {
                    faults.push(format!(
                        "entry {} of the journal of {device} does not match its digest",
                        entry.seq
                    ));
                }
            }
        }
        Ok(faults)
    }

    fn lines(&self, sql: &str) -> Result<Vec<String>, StoreError> {
        let mut statement = self.conn.prepare(sql)?;
        let rows = statement.query_map([], |row| Ok(show(row.get_ref(0)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}
