//! Where each load is on its way, as it was reckoned last.

use rusqlite::types::{FromSql, FromSqlResult, ValueRef};
use rusqlite::{Params, Row};

use slingseal_words::Time;

use super::loads::{InspectedFacts, LOADS, inspected};
use super::table::Table;
use super::{Reader, StoreError, Tx};

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

/// Which loads are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FlowsOf<'l> {
    /// Those that a board since some time may show: told of since then, in the air, being walked, or with an inspection that held
    /// then.
    Since(Time),
    /// Those that were planned for these seconds (the second time not among them), of which something was told to have happened in
    /// them, or whose latest inspection was sealed in them.
    Within(Time, Time),
    /// One.
    Load(&'l str),
}

/// The parts of a board, each load in one of them alone. Each part has an index, so that a board of days costs what happened in them;
/// which one is said, for SQLite would take the time that is compared for the shorter way.
pub(super) const SINCE: [&str; 4] = [
    "FROM flow INDEXED BY flow_by_touched LEFT JOIN loads ON loads.load = flow.load WHERE flow.touched >= ?1",
    "FROM flow INDEXED BY flow_in_the_air LEFT JOIN loads ON loads.load = flow.load
        WHERE (flow.event = 'lifted' OR flow.hint = 'lifted') AND flow.touched < ?1",
    "FROM loads INDEXED BY loads_by_validity CROSS JOIN flow ON flow.load = loads.load
        WHERE loads.valid_until >= ?1 AND +flow.touched < ?1 AND NOT (flow.event = 'lifted' OR flow.hint = 'lifted')",
    "FROM (SELECT DISTINCT load FROM walks WHERE state IN ('open', 'paused', 'decided')) AS walked
        CROSS JOIN flow ON flow.load = walked.load LEFT JOIN loads ON loads.load = flow.load
        WHERE +flow.touched < ?1 AND NOT (flow.event = 'lifted' OR flow.hint = 'lifted')
        AND (loads.valid_until IS NULL OR loads.valid_until < ?1)",
];
/// The parts of a day, each load in one of them alone. Nothing that counts is told of a load later than it was touched: those are
/// found from the day's beginning on. What counts for nothing does not touch it: it is found by its own time.
pub(super) const WITHIN: [&str; 2] = [
    "FROM flow INDEXED BY flow_by_touched LEFT JOIN loads ON loads.load = flow.load
        WHERE flow.touched >= ?1 AND (flow.planned >= ?1 AND flow.planned < ?2 OR flow.happened >= ?1 AND flow.happened < ?2
        OR flow.hinted >= ?1 AND flow.hinted < ?2 OR loads.issued >= ?1 AND loads.issued < ?2)",
    "FROM flow INDEXED BY flow_by_hinted LEFT JOIN loads ON loads.load = flow.load
        WHERE flow.hinted >= ?1 AND flow.hinted < ?2 AND +flow.touched < ?1",
];
const ONE: &str = "FROM flow LEFT JOIN loads ON loads.load = flow.load WHERE flow.load = ?1";

/// What a load's place on a board is made of, for as long as its row is looked at: a board counts thousands and shows a page.
#[derive(Clone, Copy, Debug)]
pub struct FlowFacts<'r> {
    /// The load number.
    pub load: &'r str,
    /// The word of the last event that counts since the latest inspection; empty where there is none.
    pub event: &'r str,
    /// When that happened.
    pub happened: Option<Time>,
    /// The word of the last event that counts for nothing; empty where there is none.
    pub hint: &'r str,
    /// When that happened.
    pub hinted: Option<Time>,
    /// The pickup zone.
    pub zone: &'r str,
    /// Its grid reference.
    pub grid: &'r str,
    /// The destination.
    pub destination: &'r str,
    /// Its grid reference.
    pub destination_grid: &'r str,
    /// The aircraft's type.
    pub aircraft: &'r str,
    /// When it was planned; none where it was not planned here.
    pub planned: Option<Time>,
    /// The latest time that anything of it tells which counts: never before `happened`, `planned` or its latest inspection, but it may
    /// be before `hinted`.
    pub touched: Time,
    /// How it stood by its latest inspection when it was judged last; none where it has none.
    pub inspected: Option<InspectedFacts<'r>>,
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
    /// The latest time that anything of it tells which counts: never before `happened`, `planned` or its latest inspection, but it may
    /// be before `hinted`.
    pub touched: Time,
    /// The version of the rules that said so.
    pub version: u32,
}

pub(super) fn make(row: &Row<'_>) -> rusqlite::Result<FlowRow> {
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

/// The columns of both tables, as `flows_from` asks for them.
fn facts<'r>(row: &'r Row<'_>) -> Result<FlowFacts<'r>, StoreError> {
    let [
        load,
        event,
        happened,
        _who,
        _verdict,
        hint,
        hinted,
        zone,
        grid,
        destination,
        destination_grid,
        aircraft,
        _description,
        _gross,
        _planner,
        _rigger,
        planned,
        touched,
        _judged,
    ] = FLOW.values::<19>(row, 0)?;
    let facts = || -> FromSqlResult<FlowFacts<'r>> {
        Ok(FlowFacts {
            load: load.as_str()?,
            event: event.as_str()?,
            happened: FromSql::column_result(happened)?,
            hint: hint.as_str()?,
            hinted: FromSql::column_result(hinted)?,
            zone: zone.as_str()?,
            grid: grid.as_str()?,
            destination: destination.as_str()?,
            destination_grid: destination_grid.as_str()?,
            aircraft: aircraft.as_str()?,
            planned: FromSql::column_result(planned)?,
            touched: FromSql::column_result(touched)?,
            inspected: None,
        })
    };
    let facts = facts().map_err(rusqlite::Error::from)?;
    let behind = FLOW.columns.len() + 1;
    match row.get_ref(behind)? {
        ValueRef::Null => Ok(facts),
        _ => Ok(FlowFacts { inspected: Some(inspected(row, behind)?), ..facts }),
    }
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

    /// What is known of the place of each of some loads, one at a time and in no order, each checked against its check sums.
    pub fn each_flow<E: From<StoreError>>(
        &self,
        which: FlowsOf<'_>,
        mut take: impl FnMut(FlowFacts<'_>) -> Result<(), E>,
    ) -> Result<(), E> {
        match which {
            FlowsOf::Since(since) => {
                SINCE.iter().try_for_each(|part| self.flows_from(part, [since], &mut take))
            }
            FlowsOf::Within(from, until) => {
                WITHIN.iter().try_for_each(|part| self.flows_from(part, [from, until], &mut take))
            }
            FlowsOf::Load(load) => self.flows_from(ONE, [load], &mut take),
        }
    }

    fn flows_from<E: From<StoreError>>(
        &self,
        rest: &str,
        params: impl Params,
        take: &mut impl FnMut(FlowFacts<'_>) -> Result<(), E>,
    ) -> Result<(), E> {
        self.here()?;
        let sql = format!("SELECT {}, {} {rest}", FLOW.summed(), LOADS.summed());
        let mut statement = self.conn.prepare_cached(&sql).map_err(StoreError::from)?;
        let mut rows = statement.query(params).map_err(StoreError::from)?;
        loop {
            let next = rows.next().map_err(StoreError::from);
            let Some(row) = self.noting(next)? else { return Ok(()) };
            take(self.noting(facts(row))?)?;
        }
    }
}
