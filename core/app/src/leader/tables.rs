//! The account as typed tables, for a database or as files. What stands in them was judged here: a server that keeps words knows
//! none of it.

use std::collections::BTreeMap;
use std::io::Write;

use crate::account::open_word;
use crate::account::records::standing_word;
use crate::account::trusted_of;
use crate::leader::export::io;
use crate::view::hex;
use crate::{App, AppError, Inner};
use slingseal_account::report::{
    AccountCell, AccountTable, ColumnType, SQL_END, SQL_ROWS_END, TableWriter, copy_line, sql_begin, sql_head,
};
use slingseal_message::envelope::Kind;
use slingseal_store::{FlowRow, LoadRow};
use slingseal_words::Time;

/// Where the tables stand.
const SCHEMA: &str = "slingseal_account";
const ABOUT: &str = "What one desk knew when it wrote this file, judged by it. Evidence are the signed words, not these tables.";

use ColumnType::{Count, Flag, Moment, Number, Text};

static LOADS: AccountTable = AccountTable {
    name: "loads",
    comment: "A load that was planned, inspected or moved",
    columns: &[
        ("load", Text, "The load number, as on its tag"),
        (
            "state",
            Text,
            "What its latest inspection came to, whatever the time: fit, not_fit, refused, waiting ...; null where there is none",
        ),
        ("inspected", Moment, "When its latest inspection was sealed, by the sealing device's clock"),
        ("valid_until", Moment, "Until when that inspection says that it may be lifted on"),
        (
            "event",
            Text,
            "The last report that counts: lifted, refused, lost, set-down, derigged, returned; null where there is none",
        ),
        ("happened", Moment, "When that happened"),
        ("reported_by", Text, "Who signed that report; null where it was this desk itself, unsigned"),
        ("pickup", Text, "The pickup zone's name"),
        ("destination", Text, "The destination's name"),
    ],
};

static INSPECTIONS: AccountTable = AccountTable {
    name: "inspections",
    comment: "A sealed inspection of a load, also one that was superseded or voided: somebody looked",
    columns: &[
        ("seal", Text, "SHA-256 of the seal: what this row goes by"),
        ("record", Text, "SHA-256 of the full record"),
        ("load", Text, "The load number"),
        ("procedure", Text, "The list that was walked"),
        ("outcome", Text, "What the inspector decided: fit or not_fit"),
        (
            "standing",
            Text,
            "How it stands by what this desk knows: current, superseded, voided, refused, waiting",
        ),
        ("inspector", Text, "Who decided, by the verified credential"),
        ("rigger", Text, "Who built the load, as the tag says"),
        ("aircraft", Text, "The aircraft's type, as the tag says"),
        ("pickup", Text, "The pickup zone, as the tag says"),
        ("gross_kg", Number, "Gross mass in kilograms, as the seal says"),
        ("found", Count, "Deficiencies found"),
        ("corrected", Count, "Those corrected and reinspected"),
        ("issued", Moment, "When it was sealed, by the sealing device's clock"),
        ("valid_until", Moment, "Until when it may be relied on"),
        ("device", Text, "The sealing device; null where the seal alone is here"),
    ],
};

static FINDINGS: AccountTable = AccountTable {
    name: "findings",
    comment: "A deficiency that an inspection found",
    columns: &[
        ("seal", Text, "The inspection"),
        ("load", Text, "The load number"),
        ("procedure", Text, "The list"),
        ("point", Text, "The point's id in that list"),
        ("deficiency", Text, "Its name in that list"),
        ("corrected", Flag, "Whether it was corrected and reinspected before the seal"),
        ("inspector", Text, "Who found it"),
        ("rigger", Text, "Who built the load"),
        ("issued", Moment, "When the inspection was sealed"),
    ],
};

static MOVEMENTS: AccountTable = AccountTable {
    name: "movements",
    comment: "A report of what became of a load",
    columns: &[
        ("report", Text, "SHA-256 of the report"),
        ("load", Text, "The load number"),
        ("event", Text, "lifted, refused, lost, set-down, derigged or returned"),
        ("happened", Moment, "When, as the report says"),
        ("reported", Moment, "When it was written"),
        (
            "reported_by",
            Text,
            "Whose verified credential signed it; null where nobody known did: it is what was said, and proves nothing",
        ),
        ("device", Text, "The device that wrote it"),
    ],
};

static EQUIPMENT: AccountTable = AccountTable {
    name: "equipment",
    comment: "A piece of equipment, by its serial number",
    columns: &[
        ("serial", Text, "The serial number"),
        ("kind", Text, "What it is"),
        ("state", Text, "out, lost, damaged, on_load, back or known"),
        ("load", Text, "The load that it hangs on, or went out with"),
        ("since", Moment, "Since when"),
        ("lifts", Count, "How often it was lifted"),
        (
            "carried_kg",
            Count,
            "Gross mass of all loads that it was lifted with, in kilograms: it carried a part of each",
        ),
        ("inspections", Count, "Inspections of loads that it was on"),
    ],
};

static PEOPLE: AccountTable = AccountTable {
    name: "people",
    comment: "Everyone with a credential or an inspection here",
    columns: &[
        ("holder", Text, "Name or call sign"),
        ("good", Flag, "Whether a credential of theirs can be used at the time of writing"),
        ("standing", Text, "How that stands, in words"),
        ("sealed", Count, "Inspections sealed"),
        ("fit", Count, "Those that said fit"),
        ("found", Count, "Deficiencies found"),
        ("last", Moment, "When the last one was sealed"),
    ],
};

static DEVICES: AccountTable = AccountTable {
    name: "devices",
    comment: "A device that sealed an inspection or wrote a report",
    columns: &[
        ("device", Text, "Its id"),
        ("inspections", Count, "Inspections sealed on it"),
        ("movements", Count, "Reports written on it"),
        ("first", Moment, "The earliest time that it wrote"),
        ("last", Moment, "The latest"),
    ],
};

fn some(text: &str) -> AccountCell {
    (!text.is_empty()).then(|| text.to_owned())
}

fn at(time: Time) -> AccountCell {
    Some(time.rfc3339())
}

fn number(value: impl std::fmt::Display) -> AccountCell {
    Some(value.to_string())
}

/// Grams as kilograms, exactly.
fn kilograms(grams: i64) -> String {
    format!("{}.{:03}", grams.div_euclid(1_000), grams.rem_euclid(1_000))
}

/// A device, as it is counted.
struct Device {
    inspections: u64,
    movements: u64,
    first: Time,
    last: Time,
}

/// Rows being written.
struct Rows<'o> {
    out: &'o mut dyn TableWriter,
    count: u64,
}

impl Rows<'_> {
    fn row(&mut self, cells: &[AccountCell]) -> Result<(), AppError> {
        self.count += 1;
        self.out.row(cells).map_err(io)
    }

    fn table(
        &mut self,
        table: &'static AccountTable,
        rows: impl FnOnce(&mut Self) -> Result<(), AppError>,
    ) -> Result<(), AppError> {
        self.out.begin(table).map_err(io)?;
        rows(self)?;
        self.out.end().map_err(io)
    }
}

/// The tables as a script in SQL.
struct Script<'o>(&'o mut dyn Write);

impl TableWriter for Script<'_> {
    fn begin(&mut self, table: &'static AccountTable) -> std::io::Result<()> {
        self.0.write_all(sql_begin(SCHEMA, table).as_bytes())
    }

    fn row(&mut self, cells: &[AccountCell]) -> std::io::Result<()> {
        self.0.write_all(copy_line(cells).as_bytes())
    }

    fn end(&mut self) -> std::io::Result<()> {
        self.0.write_all(SQL_ROWS_END.as_bytes())
    }
}

impl App {
    /// Writes the account as a script in SQL for PostgreSQL: seven tables with typed columns, each with a comment, in a schema of their
    /// own that is replaced as a whole. The same account gives the same bytes at the same time. Answers how many rows.
    ///
    /// # Errors
    /// What the writer meets; storage.
    pub fn export_sql(&self, out: &mut dyn Write) -> Result<u64, AppError> {
        out.write_all(sql_head(SCHEMA, ABOUT).as_bytes()).map_err(io)?;
        let rows = self.export_tables(&mut Script(out))?;
        out.write_all(SQL_END.as_bytes()).map_err(io)?;
        Ok(rows)
    }

    /// Gives the account's seven tables to whoever writes them down: `loads`, `inspections`, `findings`, `movements`, `devices`,
    /// `equipment`, `people`. Answers how many rows.
    ///
    /// # Errors
    /// What the writer meets; storage.
    pub fn export_tables(&self, out: &mut dyn TableWriter) -> Result<u64, AppError> {
        let inner = self.lock();
        let language = inner.language();
        let mut rows = Rows { out, count: 0 };
        inner.tables_of_words(&mut rows)?;
        rows.table(&EQUIPMENT, |rows| {
            inner.piece_lives()?.iter().map(|life| life.view(language)).try_for_each(|life| {
                rows.row(&[
                    some(&life.serial),
                    some(&life.kind),
                    some(life.state.word()),
                    life.load.clone(),
                    life.since.as_ref().map(|since| since.rfc3339.clone()),
                    number(life.lifts),
                    number(life.carried_kg),
                    number(life.inspections),
                ])
            })
        })?;
        rows.table(&PEOPLE, |rows| {
            inner.people()?.people.iter().try_for_each(|person| {
                rows.row(&[
                    some(&person.holder),
                    number(person.standing.is_good()),
                    some(&person.standing_title),
                    number(person.sealed),
                    number(person.fit),
                    number(person.found),
                    person.last.as_ref().map(|last| last.rfc3339.clone()),
                ])
            })
        })?;
        Ok(rows.count)
    }
}

impl Inner {
    fn tables_of_words(&self, rows: &mut Rows<'_>) -> Result<(), AppError> {
        let read = self.store.read();
        let mut trusted = trusted_of(&read)?;
        let mut devices: BTreeMap<[u8; 16], Device> = BTreeMap::new();
        let mut wrote = |device: [u8; 16], when: Time, report: bool| {
            let known = devices.entry(device).or_insert(Device {
                inspections: 0,
                movements: 0,
                first: when,
                last: when,
            });
            known.inspections += u64::from(!report);
            known.movements += u64::from(report);
            (known.first, known.last) = (known.first.min(when), known.last.max(when));
        };
        rows.table(&LOADS, |rows| {
            let mut stretch = read.next_stretch(None)?;
            while let Some(here) = stretch {
                let mut loads: BTreeMap<String, (Option<LoadRow>, Option<FlowRow>)> = BTreeMap::new();
                for row in read.loads_in(&here)? {
                    let load = row.load.clone();
                    loads.entry(load).or_default().0 = Some(row);
                }
                for row in read.flows_in(&here)? {
                    let load = row.load.clone();
                    loads.entry(load).or_default().1 = Some(row);
                }
                loads.iter().try_for_each(|(load, (row, flow))| {
                    let of_flow =
                        |pick: fn(&FlowRow) -> &str| flow.as_ref().and_then(|flow| some(pick(flow)));
                    let row = row.as_ref();
                    rows.row(&[
                        some(load),
                        row.and_then(|row| some(&row.state)),
                        row.and_then(|row| at(row.issued)),
                        row.and_then(|row| at(row.valid_until)),
                        of_flow(|flow| &flow.event),
                        flow.as_ref().and_then(|flow| flow.happened).and_then(at),
                        of_flow(|flow| &flow.who),
                        of_flow(|flow| &flow.zone),
                        of_flow(|flow| &flow.destination),
                    ])
                })?;
                stretch = read.next_stretch(Some(&here))?;
            }
            Ok(())
        })?;
        rows.table(&INSPECTIONS, |rows| {
            read.each_in_order(|row| {
                if let Some(device) = row.device {
                    wrote(device.0, row.issued, false);
                }
                rows.row(&[
                    Some(row.seal.to_string()),
                    Some(row.digest.to_string()),
                    some(&row.load),
                    some(&row.procedure),
                    some(row.outcome.word()),
                    some(standing_word(row.standing())),
                    some(&row.inspector),
                    some(&row.rigger),
                    some(&row.aircraft),
                    some(&row.place),
                    row.mass_g.map(kilograms),
                    number(row.found),
                    number(row.corrected),
                    at(row.issued),
                    at(row.valid_until),
                    row.device.map(|device| hex(&device.0)),
                ])
            })
        })?;
        rows.table(&FINDINGS, |rows| {
            read.each_in_order(|row| {
                if row.found == 0 {
                    return Ok(());
                }
                for one in read.deficiencies_of(row.seal)? {
                    rows.row(&[
                        Some(row.seal.to_string()),
                        some(&row.load),
                        some(&one.procedure),
                        some(&one.point),
                        some(&one.name),
                        number(one.corrected),
                        some(&row.inspector),
                        some(&row.rigger),
                        at(row.issued),
                    ])?;
                }
                Ok(())
            })
        })?;
        rows.table(&MOVEMENTS, |rows| {
            read.each_movement(|row| {
                wrote(row.device.0, row.issued, true);
                let word = row
                    .author
                    .as_ref()
                    .and_then(|_| open_word(Kind::Movement, &row.bytes, &mut trusted).ok());
                let by = word
                    .as_ref()
                    .and_then(|word| word.signer())
                    .map(|signer| signer.credential.holder.to_string());
                rows.row(&[
                    Some(row.digest.to_string()),
                    some(&row.load),
                    some(&row.event),
                    at(row.happened),
                    at(row.issued),
                    by,
                    Some(hex(&row.device.0)),
                ])
            })
        })?;
        rows.table(&DEVICES, |rows| {
            devices.iter().try_for_each(|(device, known)| {
                rows.row(&[
                    Some(hex(device)),
                    number(known.inspections),
                    number(known.movements),
                    at(known.first),
                    at(known.last),
                ])
            })
        })
    }
}
