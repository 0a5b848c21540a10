//! Where each load is on its way, as it was reckoned last.

use rusqlite::Row;

use slingseal_words::Time;

use super::loads::{LOADS, make as make_load};
use super::table::Table;
use super::{LoadRow, Reader, StoreError, Tx};

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

fn make(row: &Row<'_>) -> rusqlite::Result<FlowRow> {
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
    /// Where a load was when that was reckoned last.
    pub fn flow(&self, load: &str) -> Result<Option<FlowRow>, StoreError> {
        self.row(&FLOW, "WHERE load = ?1", [load], make)
    }

    /// Where each load was that a board since some time may show: told of since then, in the air, being walked, or with an
    /// inspection that held then.
    pub fn flows_since(&self, since: Time) -> Result<Vec<FlowRow>, StoreError> {
        self.rows(&FLOW, &format!("WHERE load IN {SINCE} ORDER BY load"), [since], make)
    }

    /// How those of them with an inspection stood when they were judged last.
    pub fn loads_of_flows_since(&self, since: Time) -> Result<Vec<LoadRow>, StoreError> {
        let rest = format!("WHERE load IN {SINCE} ORDER BY load");
        self.rows(&LOADS, &rest, [since], make_load)
    }

    /// Where each load was that was planned for these seconds (`until` not among them), of which something was told to have happened
    /// in them, or whose latest inspection was sealed in them.
    pub fn flows_within(&self, from: Time, until: Time) -> Result<Vec<FlowRow>, StoreError> {
        self.rows(&FLOW, &format!("WHERE load IN {WITHIN} ORDER BY load"), [from, until], make)
    }

    /// How those of them with an inspection stood when they were judged last.
    pub fn loads_of_flows_within(&self, from: Time, until: Time) -> Result<Vec<LoadRow>, StoreError> {
        self.rows(&LOADS, &format!("WHERE load IN {WITHIN} ORDER BY load"), [from, until], make_load)
    }

    /// Where every load was.
    pub fn flows(&self) -> Result<Vec<FlowRow>, StoreError> {
        self.rows(&FLOW, "ORDER BY load", [], make)
    }
}
