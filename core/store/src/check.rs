use super::closings::CLOSINGS;
use super::exams::{EXAM_PAPERS, EXAM_RUNS};
use super::flows::FLOW;
use super::heads::HEADS;
use super::inspections::INSPECTIONS;
use super::keep::{QUARANTINE, SETTINGS, VAULTS};
use super::loads::LOADS;
use super::memory::MEMORY;
use super::movements::MOVEMENTS;
use super::papers::{AUTHORITIES, CARDS, CREDENTIALS, ROSTERS, TAGS, VOIDS};
use super::procedures::{PROCEDURE_TEXTS, PROCEDURES_IN_USE};
use super::records::{BYTES, DEFICIENCIES, EQUIPMENT, RECORDS};
use super::strays::{NAMED, STRAYS};
use super::table::{DEVICE, Table, show};
use super::walk_facts::{WALK_FACTS, WALK_FACTS_6};
use super::walks::WALKS;
use super::{Reader, StoreError};

/// Every table whose rows have a check sum; a table after those that its rows point to.
pub(super) static TABLES: &[&Table] = &[
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
    &CARDS,
    &PROCEDURE_TEXTS,
    &PROCEDURES_IN_USE,
    &HEADS,
    &LOADS,
    &MEMORY,
    &MOVEMENTS,
    &FLOW,
    &WALK_FACTS,
    &CLOSINGS,
    &STRAYS,
    &INSPECTIONS,
    &NAMED,
];

static RECORDS_2: Table = Table::new(
    "records",
    "id",
    &[
        "id",
        "digest",
        "load",
        "tag",
        "procedure",
        "outcome",
        "inspector",
        "rigger",
        "place",
        "aircraft",
        "mass_g",
        "found",
        "corrected",
        "issued",
        "valid_until",
        "standing",
        "device",
        "received",
        "words",
    ],
);
static RECORD_BYTES_2: Table = Table::new("record_bytes", "record", &["record", "seal", "body"]);
static TAGS_2: Table = Table::new("tags", "digest", &["digest", "load", "planned", "received", "bytes"]);
static VOIDS_2: Table =
    Table::new("voids", "digest", &["digest", "record", "load", "issued", "received", "bytes"]);
static ROSTERS_2: Table =
    Table::new("rosters", "authority", &["authority", "sequence", "issued", "received", "bytes"]);

/// The tables as schemas 1 and 2 had them.
static TABLES_2: &[&Table] = &[
    &DEVICE,
    &WALKS,
    &RECORDS_2,
    &RECORD_BYTES_2,
    &DEFICIENCIES,
    &EQUIPMENT,
    &TAGS_2,
    &VOIDS_2,
    &AUTHORITIES,
    &ROSTERS_2,
    &CREDENTIALS,
    &QUARANTINE,
    &VAULTS,
    &SETTINGS,
    &EXAM_PAPERS,
    &EXAM_RUNS,
];

/// The tables as a schema had them.
pub(super) fn tables_of(schema: u32) -> Vec<&'static Table> {
    let as_then = |table: &'static Table| match schema < 7 && table.name == WALK_FACTS.name {
        true => &WALK_FACTS_6,
        false => table,
    };
    let tables = if schema < 3 { TABLES_2 } else { TABLES };
    tables.iter().copied().map(as_then).collect()
}

/// What is counted by triggers; beside each stands the view `NAME_anew` that counts it from the rows.
const COUNTS: &[&str] = &["record_counts", "deficiency_counts", "point_counts", "equipment_counts"];

/// How many faults of one kind are named before the rest is left out.
const MOST: usize = 20;

impl Reader<'_> {
    /// Looks at everything: the file's structure and its indexes, every row's check sum, what the rows come to, every photo's digest, this
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
        for counts in COUNTS {
            let (kept, anew) = (format!("SELECT * FROM {counts}"), format!("SELECT * FROM {counts}_anew"));
            let apart = format!(
                "SELECT 1 FROM ({kept} EXCEPT {anew}) UNION ALL SELECT 1 FROM ({anew} EXCEPT {kept}) LIMIT 1"
            );
            if !self.lines(&apart)?.is_empty() {
                faults.push(format!("{counts} does not match the rows that it counts"));
            }
        }
        let bare = "SELECT records.id FROM records LEFT JOIN record_bytes ON record = records.id WHERE record IS NULL";
        let rows = self.lines(&format!("{bare} LIMIT {MOST}"))?;
        faults.extend(rows.into_iter().map(|id| format!("record {id} has no bytes")));
        let gone = "SELECT record FROM record_bytes WHERE body IS NOT NULL AND body NOT IN (SELECT digest FROM bodies)";
        let rows = self.lines(&format!("{gone} LIMIT {MOST}"))?;
        faults.extend(rows.into_iter().map(|id| format!("record {id} has lost its walk")));
        for digest in self.body_digests()? {
            if let Err(StoreError::Damaged { what }) = self.body(digest) {
                faults.push(what);
            }
        }
        for digest in self.photo_digests()? {
            if let Err(StoreError::Damaged { what }) = self.photo(digest) {
                faults.push(what);
            }
        }
        if let Err(fault) = self.verify_journal()? {
            faults.push(fault.to_string());
        }
        match self.decayed_foreign_entries() {
            Ok(decayed) => faults.extend(decayed),
            Err(StoreError::Damaged { what }) => faults.push(what),
            Err(error) => return Err(error),
        }
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
        self.here()?;
        let mut statement = self.conn.prepare(sql)?;
        let rows = statement.query_map([], |row| Ok(show(row.get_ref(0)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}
