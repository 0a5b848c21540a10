use std::sync::Mutex;

use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::Field;

use super::*;

static TABLE: AccountTable = AccountTable {
    name: "lifts",
    comment: "A load that was lifted",
    columns: &[
        ("load", ColumnType::Text, "The load number"),
        ("at", ColumnType::Moment, "When"),
        ("links", ColumnType::Count, "How many"),
        ("gross_kg", ColumnType::Number, "Gross mass"),
        ("good", ColumnType::Flag, "Whether it was fit"),
    ],
};

/// A place in memory, to be looked at when the file is closed.
#[derive(Clone, Default)]
struct Kept(Arc<Mutex<Vec<u8>>>);

impl Write for Kept {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.lock().unwrap().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

fn some(text: &str) -> AccountCell {
    Some(text.to_owned())
}

fn written(rows: &[Vec<AccountCell>]) -> (String, Vec<u8>) {
    let (kept, mut named) = (Kept::default(), String::new());
    let mut place = |name: &str| -> io::Result<Box<dyn Write + Send>> {
        named = name.to_owned();
        Ok(Box::new(kept.clone()))
    };
    let mut files = TableFiles::new(&mut place);
    files.begin(&TABLE).unwrap();
    rows.iter().for_each(|row| files.row(row).unwrap());
    files.end().unwrap();
    let bytes = kept.0.lock().unwrap().clone();
    (named, bytes)
}

#[test]
fn every_cell_comes_back_with_its_type() {
    let rows = [
        vec![some("KM-014"), some("2026-07-09T06:30:01Z"), some("57"), some("2267.962"), some("true")],
        vec![some("ÑÚ-1"), some("1969-12-31T23:59:59Z"), some("-3"), some("-0.005"), some("false")],
        vec![None, None, None, None, None],
    ];
    let (named, bytes) = written(&rows);
    assert_eq!(named, "lifts.parquet");
    let reader = SerializedFileReader::new(bytes::Bytes::from(bytes)).unwrap();
    let read: Vec<Vec<Field>> = reader
        .get_row_iter(None)
        .unwrap()
        .map(|row| row.unwrap().get_column_iter().map(|(_, field)| field.clone()).collect())
        .collect();
    let shown: Vec<Vec<String>> = read.iter().map(|row| row.iter().map(Field::to_string).collect()).collect();
    assert_eq!(read[0][0], Field::Str("KM-014".into()));
    assert_eq!(read[0][1], Field::TimestampMillis(1_783_578_601_000));
    assert_eq!((&read[0][2], &read[0][4]), (&Field::Long(57), &Field::Bool(true)));
    assert_eq!(shown[0][3], "2267.962");
    assert_eq!(read[1][1], Field::TimestampMillis(-1_000));
    assert_eq!((read[1][2].clone(), shown[1][3].as_str()), (Field::Long(-3), "-0.005"));
    assert!(read[2].iter().all(|field| *field == Field::Null), "{:?}", read[2]);
    let about = reader.metadata().file_metadata().key_value_metadata().unwrap();
    let comment = about.iter().find(|pair| pair.key == "comment.gross_kg").unwrap();
    assert_eq!(comment.value.as_deref(), Some("Gross mass"));
}

#[test]
fn many_rows_are_written_in_groups_of_a_bounded_size() {
    let many = 2 * ROWS_OF_A_GROUP + 1;
    let rows: Vec<Vec<AccountCell>> = (0..many)
        .map(|number| vec![some(&format!("KM-{number}")), None, some(&number.to_string()), None, None])
        .collect();
    let (_, bytes) = written(&rows);
    let reader = SerializedFileReader::new(bytes::Bytes::from(bytes)).unwrap();
    let groups: Vec<i64> = reader.metadata().row_groups().iter().map(|group| group.num_rows()).collect();
    assert_eq!(groups, [20_000, 20_000, 1]);
    let last = reader.get_row_iter(None).unwrap().last().unwrap().unwrap();
    let (_, field) = last.get_column_iter().nth(2).unwrap();
    assert_eq!(*field, Field::Long(40_000));
}

#[test]
fn a_table_without_rows_is_a_file_with_columns() {
    let (_, bytes) = written(&[]);
    let reader = SerializedFileReader::new(bytes::Bytes::from(bytes)).unwrap();
    assert_eq!(reader.metadata().file_metadata().num_rows(), 0);
    assert_eq!(reader.metadata().file_metadata().schema_descr().num_columns(), 5);
}

#[test]
fn a_cell_of_another_type_is_told_and_no_panic() {
    let mut place = |_: &str| -> io::Result<Box<dyn Write + Send>> { Ok(Box::new(io::sink())) };
    for (at, wrong) in [(1, "yesterday"), (2, "many"), (3, "1.2345"), (3, "9223372036854775807")] {
        let mut files = TableFiles::new(&mut place);
        files.begin(&TABLE).unwrap();
        let mut row = vec![None; 5];
        row[at] = some(wrong);
        files.row(&row).unwrap();
        assert!(files.end().unwrap_err().to_string().contains("not of its column's type"), "{wrong}");
    }
    assert!(TableFiles::new(&mut place).end().is_err());
}
