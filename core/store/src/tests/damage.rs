use rusqlite::Connection;

use super::*;

fn open_error(folder: &Folder) -> StoreError {
    Store::open(&folder.file(), at(0), &Counted::from(7)).unwrap_err()
}

#[test]
fn a_home_begins_empty_and_is_then_known() {
    let folder = Folder::new();
    let (store, opened) = folder.open();
    assert_eq!(opened, Opened { new: true, ..Opened::default() });
    assert_eq!((store.device(), store.head().seq), (DeviceId([7; 16]), 0));
    let mode: String = store.conn.pragma_query_value(None, "journal_mode", |row| row.get(0)).unwrap();
    let synchronous: i64 = store.conn.pragma_query_value(None, "synchronous", |row| row.get(0)).unwrap();
    // sqlite.org/pragma.html#pragma_synchronous: 2 is FULL.
    assert_eq!((mode.as_str(), synchronous), ("wal", 2));
    drop(store);
    assert_eq!(folder.open().1, Opened::default());
    assert!(!folder.names().iter().any(|name| name.ends_with("-shm")), "{:?}", folder.names());
}

#[test]
fn a_second_program_is_refused_until_the_first_ends() {
    let folder = Folder::new();
    let (store, _) = folder.open();
    let error = open_error(&folder);
    assert_eq!(error, StoreError::Busy { path: folder.file() });
    assert!(error.to_string().ends_with("is open in another program that keeps it; close that one first"));
    drop(store);
    folder.open();
}

#[test]
fn a_newer_schema_is_refused_and_left_alone() {
    let folder = Folder::new();
    drop(folder.open());
    let newer = Connection::open(folder.file()).unwrap();
    newer.pragma_update(None, "user_version", schema::KNOWN + 1).unwrap();
    drop(newer);
    let before = std::fs::read(folder.file()).unwrap();
    assert_eq!(open_error(&folder), StoreError::TooNew { found: schema::KNOWN + 1, known: schema::KNOWN });
    assert_eq!(std::fs::read(folder.file()).unwrap(), before);
}

#[test]
fn another_programs_database_is_refused_and_left_alone() {
    let folder = Folder::new();
    Connection::open(folder.file()).unwrap().execute_batch("CREATE TABLE theirs (a)").unwrap();
    let before = std::fs::read(folder.file()).unwrap();
    assert_eq!(open_error(&folder), StoreError::Foreign { path: folder.file() });
    assert_eq!(std::fs::read(folder.file()).unwrap(), before);
}

#[test]
fn what_is_no_database_is_set_aside() {
    let folder = Folder::new();
    std::fs::write(folder.file(), b"this was never a database, whatever its name says").unwrap();
    let (mut store, opened) = folder.open();
    let aside = opened.set_aside.unwrap();
    assert_eq!(std::fs::read(&aside.path).unwrap().len(), 49);
    assert!(aside.to_string().contains("sync from another device"), "{aside}");
    append(&mut store, b"one");
    drop(store);
    // A second damage at the same second gets a name of its own.
    std::fs::write(folder.file(), [0x55; 8192]).unwrap();
    let again = folder.open().1;
    assert_eq!(again.lost, Some(Lost { acknowledged: 1, found: 0 }));
    let again = again.set_aside.unwrap();
    assert!(again.new_device && again.path != aside.path);
    assert!(aside.path.exists());
    // What had been received is gone with it, and that is not forgotten.
    assert_eq!(folder.open().1, Opened { put_back: Some(at(0)), ..Opened::default() });
}

/// A flipped bit in a row is told when the row is read, in every table that has rows.
#[test]
fn a_decayed_row_is_never_believed() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    put(&mut store, &row(1));
    store.conn.execute_batch("UPDATE records SET outcome = 'not_fit'").unwrap();
    let error = store.read().record(row(1).seal).unwrap_err();
    let StoreError::Damaged { what } = error else { panic!("{error}") };
    assert_eq!(what, "row 1 of records does not match its check sum");
    store.conn.execute_batch("UPDATE record_bytes SET body = zeroblob(32)").unwrap();
    assert!(matches!(store.read().record_bytes(row(1).seal), Err(StoreError::Damaged { .. })));
    let listed = store.read().records(&RecordFilter::default(), None, 10);
    assert!(matches!(listed, Err(StoreError::Damaged { .. })));
}

#[test]
fn a_full_disk_is_told_and_nothing_half_done_stays() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    append(&mut store, b"before");
    let pages: i64 = store.conn.pragma_query_value(None, "page_count", |row| row.get(0)).unwrap();
    store.conn.pragma_update(None, "max_page_count", pages + 2).unwrap();
    let error = store.write(|tx| {
        tx.append(note(b"small"))?;
        tx.append(note(&[1; 100_000]))
    });
    assert_eq!(error, Err(StoreError::Full));
    assert_eq!(append(&mut store, b"after").seq, 2);
    assert_eq!(store.read().verify_journal().unwrap(), Ok(store.head()));
}

/// The accident: an older copy of the home is put back, and the day's answers are gone without a word.
#[test]
fn an_older_copy_put_back_is_told() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    append(&mut store, b"one");
    drop(store);
    let copy = std::fs::read(folder.file()).unwrap();
    let (mut store, _) = folder.open();
    append(&mut store, b"two");
    drop(store);
    std::fs::write(folder.file(), copy).unwrap();
    let (mut store, opened) = folder.open();
    assert_eq!(opened.lost, Some(Lost { acknowledged: 2, found: 1 }));
    append(&mut store, b"another two");
    drop(store);
    assert_eq!(folder.open().1.lost, None);
}

#[test]
fn a_check_names_everything_that_decayed() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    put(&mut store, &row(1));
    append(&mut store, b"one");
    append(&mut store, b"two");
    assert_eq!(store.read().check().unwrap(), [""; 0]);
    store
        .conn
        .execute_batch(
            "UPDATE equipment SET serial = 'CH-0418';
             DROP TRIGGER journal_is_not_rewritten;
             UPDATE journal SET body = x'00' WHERE seq = 2;",
        )
        .unwrap();
    assert_eq!(
        store.read().check().unwrap(),
        [
            "row 1 of equipment does not match its check sum",
            "equipment_counts does not match the rows that it counts",
            "journal entry 2 was rewritten"
        ]
    );
}
