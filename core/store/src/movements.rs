//! What became of loads: the reports as they came, and where each load is as it was reckoned last.

use rusqlite::Row;

use slingseal_words::{Digest, Time};

use super::author::{Author, author_of, columns};
use super::loads::{LOADS, make as make_load};
use super::table::Table;
use super::{DeviceId, LoadRow, Reader, StoreError, Tx};

pub(super) static MOVEMENTS: Table = Table::new(
    "movements",
    "digest",
    &[
        "load",
        "digest",
        "event",
        "happened",
        "issued",
        "device",
        "before",
        "seal",
        "own",
        "signed",
        "received",
        "authority",
        "signer",
        "credential",
        "in_time",
        "bytes",
    ],
);
/// Which column holds the bytes of a report.
pub(super) const MOVEMENT_BYTES: usize = 15;

pub(super) static FLOW: Table = Table::new(
    "flow",
    "load",
    &[
        "load",
        "event",
        "happened",
        "who",
        "verdict",
        "hint",
        "hinted",
        "zone",
        "grid",
        "destination",
        "destination_grid",
        "aircraft",
        "description",
        "gross",
        "planner",
        "rigger",
        "planned",
        "touched",
        "judged",
    ],
);

/// Loads that a board since some time may show. Each part has an index, so that a board of days costs what happened in them.
const SINCE: &str = "(SELECT load FROM flow WHERE touched >= ?1
    UNION SELECT load FROM flow WHERE event = 'lifted' OR hint = 'lifted'
    UNION SELECT load FROM loads WHERE valid_until >= ?1
    UNION SELECT load FROM walks WHERE state IN ('open', 'paused', 'decided'))";

/// Loads that a day's manifest may show.
const WITHIN: &str = "(SELECT load FROM flow WHERE planned >= ?1 AND planned < ?2
    OR happened >= ?1 AND happened < ?2 OR hinted >= ?1 AND hinted < ?2
    UNION SELECT load FROM loads WHERE issued >= ?1 AND issued < ?2)";

/// A report of what became of a load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MovementRow {
    /// The load number.
    pub load: String,
    /// The digest of its bytes.
    pub digest: Digest,
    /// The word of the event.
    pub event: String,
    /// When it happened, by the reporter's clock.
    pub happened: Time,
    /// When it was written.
    pub issued: Time,
    /// The device on which it was written, as it says.
    pub device: DeviceId,
    /// The report that the same device wrote before.
    pub before: Option<Digest>,
    /// The seal that it names.
    pub seal: Option<Digest>,
    /// Whether this device wrote it: its journal names it.
    pub own: bool,
    /// Whether somebody signed it.
    pub signed: bool,
    /// When it came here.
    pub received: Time,
    /// Who signed it.
    pub author: Option<Author>,
    /// The report.
    pub bytes: Vec<u8>,
}

/// Where a load is on its way, and what its tag says of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FlowRow {
    /// The load number.
    pub load: String,
    /// The word of the last event that counts since the latest inspection; empty where there is none.
    pub event: String,
    /// When that happened.
    pub happened: Option<Time>,
    /// Who reported it; empty where this device did, unsigned.
    pub who: String,
    /// The verdict that had been shown; empty where none is told.
    pub verdict: String,
    /// The word of the last event that counts for nothing; empty where there is none.
    pub hint: String,
    /// When that happened.
    pub hinted: Option<Time>,
    /// The pickup zone.
    pub zone: String,
    /// Its grid reference.
    pub grid: String,
    /// The destination.
    pub destination: String,
    /// Its grid reference.
    pub destination_grid: String,
    /// The aircraft's type.
    pub aircraft: String,
    /// What the load is.
    pub description: String,
    /// Its gross mass, as the tag has it.
    pub gross: String,
    /// Who signed the tag; empty where nobody known did.
    pub planner: String,
    /// Who rigged it.
    pub rigger: String,
    /// When it was planned; none where it was not planned here.
    pub planned: Option<Time>,
    /// The latest time that anything of it tells.
    pub touched: Time,
    /// The version of the rules that said so.
    pub version: u32,
}

pub(super) fn make(row: &Row<'_>) -> rusqlite::Result<MovementRow> {
    Ok(MovementRow {
        load: row.get(0)?,
        digest: row.get(1)?,
        event: row.get(2)?,
        happened: row.get(3)?,
        issued: row.get(4)?,
        device: row.get(5)?,
        before: row.get(6)?,
        seal: row.get(7)?,
        own: row.get(8)?,
        signed: row.get(9)?,
        received: row.get(10)?,
        author: author_of(row, 11)?,
        bytes: row.get(MOVEMENT_BYTES)?,
    })
}

pub(super) fn make_flow(row: &Row<'_>) -> rusqlite::Result<FlowRow> {
    Ok(FlowRow {
        load: row.get(0)?,
        event: row.get(1)?,
        happened: row.get(2)?,
        who: row.get(3)?,
        verdict: row.get(4)?,
        hint: row.get(5)?,
        hinted: row.get(6)?,
        zone: row.get(7)?,
        grid: row.get(8)?,
        destination: row.get(9)?,
        destination_grid: row.get(10)?,
        aircraft: row.get(11)?,
        description: row.get(12)?,
        gross: row.get(13)?,
        planner: row.get(14)?,
        rigger: row.get(15)?,
        planned: row.get(16)?,
        touched: row.get(17)?,
        version: row.get(18)?,
    })
}

impl Tx<'_> {
    /// Keeps a report; `false` where it was known.
    pub fn put_movement(&self, row: &MovementRow) -> Result<bool, StoreError> {
        let (authority, key, credential, in_time) = columns(row.author.as_ref());
        let values = rusqlite::params![
            row.load,
            row.digest,
            row.event,
            row.happened,
            row.issued,
            row.device,
            row.before,
            row.seal,
            row.own,
            row.signed,
            row.received,
            authority,
            key,
            credential,
            in_time,
            row.bytes,
        ];
        Ok(self.run(&MOVEMENTS.insert("OR IGNORE"), values)? > 0)
    }

    /// Drops a report that nobody known signed and that was not written here.
    pub fn remove_unknown_movement(&self, load: &str, digest: Digest) -> Result<(), StoreError> {
        let sql = "DELETE FROM movements WHERE load = ?1 AND digest = ?2 AND authority IS NULL AND own = 0";
        self.run(sql, (load, digest))?;
        Ok(())
    }

    /// Keeps who signed a report, where that is verified anew.
    pub fn set_movement_author(&self, row: &MovementRow, author: Option<&Author>) -> Result<(), StoreError> {
        let (authority, key, credential, in_time) = columns(author);
        let changed = ["authority", "signer", "credential", "in_time"];
        let sql = MOVEMENTS.update(&changed, "WHERE load = ?5 AND digest = ?6");
        self.run(&sql, (authority, key, credential, in_time, &row.load, row.digest))?;
        Ok(())
    }

    /// Keeps where a load is.
    pub fn put_flow(&self, row: &FlowRow) -> Result<(), StoreError> {
        let values = rusqlite::params![
            row.load,
            row.event,
            row.happened,
            row.who,
            row.verdict,
            row.hint,
            row.hinted,
            row.zone,
            row.grid,
            row.destination,
            row.destination_grid,
            row.aircraft,
            row.description,
            row.gross,
            row.planner,
            row.rigger,
            row.planned,
            row.touched,
            row.version,
        ];
        self.run(&FLOW.insert("OR REPLACE"), values)?;
        Ok(())
    }
}

impl Reader<'_> {
    /// The reports of a load, by digest: their order is the message's to say.
    pub fn movements_of(&self, load: &str) -> Result<Vec<MovementRow>, StoreError> {
        self.rows(&MOVEMENTS, "WHERE load = ?1 ORDER BY digest", [load], make)
    }

    /// A report of a load.
    pub fn movement(&self, load: &str, digest: Digest) -> Result<Option<MovementRow>, StoreError> {
        self.row(&MOVEMENTS, "WHERE load = ?1 AND digest = ?2", (load, digest), make)
    }

    /// All reports, by load and digest.
    pub fn movements(&self) -> Result<Vec<MovementRow>, StoreError> {
        self.rows(&MOVEMENTS, "ORDER BY load, digest", [], make)
    }

    /// How many reports are here that nobody known signed and that were not written here.
    pub fn unknown_movements(&self) -> Result<u64, StoreError> {
        self.count("SELECT count(*) FROM movements WHERE authority IS NULL AND own = 0", [])
    }

    /// Where a load was when that was reckoned last.
    pub fn flow(&self, load: &str) -> Result<Option<FlowRow>, StoreError> {
        self.row(&FLOW, "WHERE load = ?1", [load], make_flow)
    }

    /// Where each load was that a board since some time may show: told of since then, in the air, being walked, or with an
    /// inspection that held then.
    pub fn flows_since(&self, since: Time) -> Result<Vec<FlowRow>, StoreError> {
        self.rows(&FLOW, &format!("WHERE load IN {SINCE} ORDER BY load"), [since], make_flow)
    }

    /// How those of them with an inspection stood when they were judged last.
    pub fn loads_of_flows_since(&self, since: Time) -> Result<Vec<LoadRow>, StoreError> {
        let rest = format!("WHERE load IN {SINCE} ORDER BY load");
        self.rows(&LOADS, &rest, [since], make_load)
    }

    /// Where each load was that was planned for these seconds (`until` not among them), of which something was told to have happened
    /// in them, or whose latest inspection was sealed in them.
    pub fn flows_within(&self, from: Time, until: Time) -> Result<Vec<FlowRow>, StoreError> {
        self.rows(&FLOW, &format!("WHERE load IN {WITHIN} ORDER BY load"), [from, until], make_flow)
    }

    /// How those of them with an inspection stood when they were judged last.
    pub fn loads_of_flows_within(&self, from: Time, until: Time) -> Result<Vec<LoadRow>, StoreError> {
        self.rows(&LOADS, &format!("WHERE load IN {WITHIN} ORDER BY load"), [from, until], make_load)
    }

    /// Where every load was.
    pub fn flows(&self) -> Result<Vec<FlowRow>, StoreError> {
        self.rows(&FLOW, "ORDER BY load", [], make_flow)
    }
}
