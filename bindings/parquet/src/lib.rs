//! The account's tables as Parquet files, one a table, in row groups of a bounded size.

use std::io::{self, Write};
use std::sync::Arc;

use parquet::basic::{Compression, LogicalType, Repetition, TimeUnit, Type as Physical};
use parquet::data_type::{BoolType, ByteArray, ByteArrayType, Int64Type};
use parquet::errors::ParquetError;
use parquet::file::metadata::KeyValue;
use parquet::file::properties::WriterProperties;
use parquet::file::writer::{SerializedColumnWriter, SerializedFileWriter};
use parquet::schema::types::{Type, TypePtr};
use slingseal_app::{AccountCell, AccountTable, ColumnType, TableWriter, Time};

/// Rows that are held before they are written: a few megabytes.
const ROWS_OF_A_GROUP: usize = 20_000;
/// Decimals of a number, and the digits of all of it.
const SCALE: i32 = 3;
const DIGITS: i32 = 18;

/// Whoever gives a place to write a table to, by the file's name.
pub type Place<'p> = dyn FnMut(&str) -> io::Result<Box<dyn Write + Send>> + 'p;

/// Writes each table into a file of its own, `NAME.parquet`.
pub struct TableFiles<'p> {
    place: &'p mut Place<'p>,
    open: Option<Open>,
}

/// A table that is being written.
struct Open {
    table: &'static AccountTable,
    file: SerializedFileWriter<Box<dyn Write + Send>>,
    rows: Vec<Vec<AccountCell>>,
}

impl<'p> TableFiles<'p> {
    /// Nothing is written yet; `place` is asked for each table's file when it begins.
    pub fn new(place: &'p mut Place<'p>) -> Self {
        Self { place, open: None }
    }

    fn open(&mut self) -> io::Result<&mut Open> {
        self.open.as_mut().ok_or_else(|| io::Error::other("a row before its table"))
    }
}

impl TableWriter for TableFiles<'_> {
    fn begin(&mut self, table: &'static AccountTable) -> io::Result<()> {
        let out = (self.place)(&format!("{}.parquet", table.name))?;
        let file = SerializedFileWriter::new(out, schema(table).map_err(other)?, Arc::new(properties(table)));
        self.open = Some(Open { table, file: file.map_err(other)?, rows: Vec::new() });
        Ok(())
    }

    fn row(&mut self, cells: &[AccountCell]) -> io::Result<()> {
        let open = self.open()?;
        open.rows.push(cells.to_vec());
        if open.rows.len() >= ROWS_OF_A_GROUP { open.write_group() } else { Ok(()) }
    }

    fn end(&mut self) -> io::Result<()> {
        let mut open = self.open.take().ok_or_else(|| io::Error::other("an end before its table"))?;
        open.write_group()?;
        open.file.into_inner().map_err(other)?.flush()
    }
}

impl Open {
    fn write_group(&mut self) -> io::Result<()> {
        let rows = std::mem::take(&mut self.rows);
        if rows.is_empty() {
            return Ok(());
        }
        let mut group = self.file.next_row_group().map_err(other)?;
        for (at, (_, kind, _)) in self.table.columns.iter().enumerate() {
            let mut column = group
                .next_column()
                .map_err(other)?
                .ok_or_else(|| io::Error::other("fewer columns than the table has"))?;
            write_column(&mut column, *kind, rows.iter().map(|row| row.get(at).and_then(Option::as_deref)))?;
            column.close().map_err(other)?;
        }
        group.close().map_err(other)?;
        Ok(())
    }
}

/// Writes the cells of a column: of each whether it is known, and the values of those that are.
fn write_column<'c>(
    column: &mut SerializedColumnWriter<'_>,
    kind: ColumnType,
    cells: impl Iterator<Item = Option<&'c str>> + Clone,
) -> io::Result<()> {
    let known: Vec<i16> = cells.clone().map(|cell| i16::from(cell.is_some())).collect();
    let cells = cells.flatten();
    let written = match kind {
        ColumnType::Text => {
            let values: Vec<ByteArray> = cells.map(ByteArray::from).collect();
            column.typed::<ByteArrayType>().write_batch(&values, Some(&known), None)
        }
        ColumnType::Flag => {
            let values: Vec<bool> = cells.map(|cell| cell == "true").collect();
            column.typed::<BoolType>().write_batch(&values, Some(&known), None)
        }
        ColumnType::Count | ColumnType::Number | ColumnType::Moment => {
            let values: Option<Vec<i64>> = cells.map(|cell| whole(kind, cell)).collect();
            let values = values.ok_or_else(|| io::Error::other("a cell is not of its column's type"))?;
            column.typed::<Int64Type>().write_batch(&values, Some(&known), None)
        }
    };
    written.map(drop).map_err(other)
}

/// A cell as the whole number that stands for it: milliseconds of a moment, thousandths of a number.
fn whole(kind: ColumnType, cell: &str) -> Option<i64> {
    match kind {
        ColumnType::Moment => Time::parse(cell).ok()?.unix().checked_mul(1_000),
        ColumnType::Number => {
            let (units, decimals) = cell.split_once('.').unwrap_or((cell, ""));
            let negative = units.starts_with('-');
            let units: i64 = units.parse().ok()?;
            let decimals: i64 = format!("{decimals:0<3}").parse().ok().filter(|most: &i64| *most < 1_000)?;
            units.checked_mul(1_000)?.checked_add(if negative { -decimals } else { decimals })
        }
        _ => cell.parse().ok(),
    }
}

fn schema(table: &AccountTable) -> Result<TypePtr, ParquetError> {
    let fields: Result<Vec<TypePtr>, ParquetError> = table
        .columns
        .iter()
        .map(|(name, kind, _)| {
            let (physical, logical) = match kind {
                ColumnType::Text => (Physical::BYTE_ARRAY, Some(LogicalType::String)),
                ColumnType::Moment => {
                    let unit = TimeUnit::MILLIS;
                    (Physical::INT64, Some(LogicalType::timestamp(true, unit)))
                }
                ColumnType::Count => (Physical::INT64, None),
                ColumnType::Number => (Physical::INT64, Some(LogicalType::decimal(SCALE, DIGITS))),
                ColumnType::Flag => (Physical::BOOLEAN, None),
            };
            let field = Type::primitive_type_builder(name, physical)
                .with_repetition(Repetition::OPTIONAL)
                .with_logical_type(logical);
            let field = match kind {
                ColumnType::Number => field.with_precision(DIGITS).with_scale(SCALE),
                _ => field,
            };
            field.build().map(Arc::new)
        })
        .collect();
    Ok(Arc::new(Type::group_type_builder(table.name).with_fields(fields?).build()?))
}

fn properties(table: &AccountTable) -> WriterProperties {
    let mut comments = vec![KeyValue::new("comment".to_owned(), table.comment.to_owned())];
    comments.extend(
        table
            .columns
            .iter()
            .map(|(name, _, meaning)| KeyValue::new(format!("comment.{name}"), (*meaning).to_owned())),
    );
    WriterProperties::builder()
        .set_compression(Compression::SNAPPY)
        .set_key_value_metadata(Some(comments))
        .set_created_by("slingseal".to_owned())
        .build()
}

fn other(error: ParquetError) -> io::Error {
    io::Error::other(error)
}

#[cfg(test)]
mod tests;
