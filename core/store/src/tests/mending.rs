use rusqlite::Connection;

use super::*;
use crate::check::TABLES;

/// A home with something in every table, closed.
fn full_home(folder: &Folder) -> Store {
    let (mut store, _) = folder.open();
    for number in 0..40 {
        put(&mut store, &row(number));
        append(&mut store, &[1; 300]);
    }
    let walk = WalkRow {
        id: WalkId([1; 16]),
        load: "KM-777".into(),
        procedure: "cargo-bag".into(),
        inspector: "Anvil 3".into(),
        state: WalkState::Open,
        begun: at(0),
        updated: at(1),
    };
    let done: Result<(), StoreError> = store.write(|tx| {
        tx.put_walk(&walk)?;
        tx.put_vault("inspector", b"sealed key")?;
        tx.put_setting("zone", b"Kestrel Meadow")?;
        tx.put_photo(b"picture", at(0))?;
        let other = Entry::after(Head::empty(DeviceId([5; 16])), note(b"theirs"));
        tx.put_foreign_entry(DeviceId([5; 16]), &other)?;
        let (key, load, procedure) = (Digest::of(b"key"), "KM-778".to_owned(), "bag".to_owned());
        tx.put_exam_paper(&ExamPaperRow {
            digest: key,
            kind: ExamPaper::Key,
            key,
            load: load.clone(),
            procedure: procedure.clone(),
            student: String::new(),
            made: at(0),
            received: at(0),
            bytes: b"a lock".to_vec(),
        })?;
        tx.put_exam_run(&ExamRunRow {
            walk: WalkId([2; 16]),
            key,
            load,
            procedure,
            student: "Pupil 1".into(),
            state: RunState::Open,
            begun: at(0),
            updated: at(1),
        })?;
        Ok(())
    });
    done.unwrap();
    store
}

/// A row decays in one table: everything else is taken over, the chain goes on, the walk is resumed.
#[test]
fn one_bad_row_costs_one_row() {
    let folder = Folder::new();
    let mut store = full_home(&folder);
    store.conn.execute_batch("UPDATE equipment SET serial = 'X' WHERE record = 3").unwrap();
    // Read once: from then on the home is suspected, and the next opening looks at everything.
    let read = store.read().equipment_of(row(2).seal);
    assert!(matches!(read, Err(StoreError::Damaged { .. })), "{read:?}");
    append(&mut store, b"meanwhile");
    let head = store.head();
    drop(store);
    let (mut store, opened) = folder.open();
    let aside = opened.set_aside.unwrap();
    assert_eq!(aside.why, "row 3 of equipment does not match its check sum");
    let broken: Vec<_> = aside.saved.iter().filter(|saved| !saved.whole).collect();
    assert_eq!(broken, [&Saved { table: "equipment", rows: 39, whole: false }]);
    assert_eq!((aside.new_device, aside.walk_again.len(), opened.lost), (false, 0, None));
    assert_eq!(store.head(), head);
    assert_eq!(store.read().check().unwrap(), [""; 0]);
    assert_eq!(store.read().walks_in_hand().unwrap().len(), 1);
    assert_eq!(store.read().vault("inspector").unwrap().unwrap().bytes, b"sealed key");
    let filter = RecordFilter { words: Some("ch-0417 drinking".into()), ..RecordFilter::default() };
    assert_eq!(store.read().records(&filter, None, 100).unwrap().rows.len(), 39);
    append(&mut store, b"goes on");
    drop(store);
    assert_eq!(folder.open().1, Opened::default());
}

/// The log of a killed program is cleared away: what was acknowledged is missed, the chain is closed, the walk is given up,
/// because the answer that is gone could be the deficiency.
#[test]
fn a_deleted_log_is_missed() {
    let folder = Folder::new();
    let mut store = full_home(&folder);
    store.settle().unwrap();
    let old = store.device();
    for _ in 0..3 {
        append(&mut store, b"answer");
    }
    // What a kill leaves: the files as they are while the program runs.
    let left = Folder::new();
    for ending in ["", "-seen"] {
        std::fs::copy(files::beside(&folder.file(), ending), files::beside(&left.file(), ending)).unwrap();
    }
    let (store, opened) = Store::open(&left.file(), at(0), &Counted::from(50)).unwrap();
    assert_eq!(opened.lost, Some(Lost { acknowledged: 43, found: 40 }));
    let aside = opened.set_aside.unwrap();
    assert_eq!((aside.new_device, aside.walk_again.as_slice()), (true, ["KM-777".to_owned()].as_slice()));
    assert!(aside.to_string().ends_with("; walk again KM-777"), "{aside}");
    assert_ne!(store.device(), old);
    assert_eq!(store.head().seq, 0);
    let kept = store.read().foreign_entries(old).unwrap();
    assert_eq!(verify_chain(old, &kept).unwrap().seq, 40);
    assert_eq!(store.read().count_records().unwrap(), 40);
    assert_eq!(store.read().walks_in_hand().unwrap(), []);
    drop(store);
    let again = Store::open(&left.file(), at(0), &Counted::from(60)).unwrap().1;
    assert_eq!(again, Opened { put_back: Some(at(0)), ..Opened::default() });
}

/// With its log, a killed program's home has everything.
#[test]
fn a_log_that_was_left_is_taken_in() {
    let folder = Folder::new();
    let store = full_home(&folder);
    let left = Folder::new();
    for ending in ["", "-wal", "-seen"] {
        std::fs::copy(files::beside(&folder.file(), ending), files::beside(&left.file(), ending)).unwrap();
    }
    let (again, opened) = left.open();
    assert_eq!(opened, Opened { unclean: true, ..Opened::default() });
    assert_eq!(again.head(), store.head());
    assert_eq!(again.read().check().unwrap(), [""; 0]);
}

/// The damaged file and its log are kept byte for byte.
#[test]
fn the_damaged_files_are_not_touched() {
    let folder = Folder::new();
    let mut store = full_home(&folder);
    store.settle().unwrap();
    append(&mut store, b"in the log");
    let left = Folder::new();
    let mut database = std::fs::read(folder.file()).unwrap();
    let log = std::fs::read(files::beside(&folder.file(), "-wal")).unwrap();
    drop(store);
    let page = 4096 * 5;
    database[page..page + 4096].fill(0xA5);
    std::fs::write(left.file(), &database).unwrap();
    std::fs::write(files::beside(&left.file(), "-wal"), &log).unwrap();
    let (_, opened) = left.open();
    let aside = opened.set_aside.unwrap().path;
    assert!(std::fs::read(&aside).unwrap() == database);
    assert!(std::fs::read(files::beside(&aside, "-wal")).unwrap() == log);
}

/// The database is gone and its log is left: SQLite would delete it; we put it aside.
#[test]
fn a_log_without_its_database_is_kept() {
    let folder = Folder::new();
    let mut store = full_home(&folder);
    append(&mut store, b"in the log");
    let log = std::fs::read(files::beside(&folder.file(), "-wal")).unwrap();
    drop(store);
    std::fs::remove_file(folder.file()).unwrap();
    std::fs::write(files::beside(&folder.file(), "-wal"), &log).unwrap();
    let (_, opened) = folder.open();
    let aside = opened.set_aside.unwrap().path;
    assert!(std::fs::read(files::beside(&aside, "-wal")).unwrap() == log);
    assert_eq!(opened.lost, Some(Lost { acknowledged: 41, found: 0 }));
}

/// A kill between any two renames: the next opening goes on.
#[test]
fn a_mending_broken_off_is_taken_up() {
    for moved in ["nothing", "database", "database and log"] {
        let folder = Folder::new();
        let mut store = full_home(&folder);
        append(&mut store, b"in the log");
        drop(store);
        let file = folder.file();
        let at_home = |ending: &str| files::beside(&file, ending);
        std::fs::copy(&file, at_home("-mended")).unwrap();
        std::fs::write(at_home("-mending"), b"half").unwrap();
        std::fs::write(&file, b"damaged").unwrap();
        std::fs::write(at_home("-wal"), b"its log").unwrap();
        if moved != "nothing" {
            std::fs::rename(&file, at_home(".damaged-1")).unwrap();
        }
        if moved == "database and log" {
            std::fs::rename(at_home("-wal"), at_home(".damaged-1-wal")).unwrap();
        }
        let (store, opened) = folder.open();
        assert!(opened.set_aside.is_some() && opened.lost.is_none(), "{moved}");
        assert_eq!(store.head().seq, 41, "{moved}");
        drop(store);
        let all: Vec<u8> = folder
            .names()
            .iter()
            .filter(|name| name.contains(".damaged-"))
            .flat_map(|name| std::fs::read(file.with_file_name(name)).unwrap())
            .collect();
        assert_eq!(all.len(), b"damagedits log".len(), "{moved}");
        assert!(!folder.names().iter().any(|name| name.contains("mend")), "{:?}", folder.names());
    }
}

/// Every page in turn is overwritten: the home opens, what it gives is sound, and what was not on that page is all there.
#[test]
fn every_page_in_turn() {
    let folder = Folder::new();
    let store = full_home(&folder);
    drop(store);
    let sound = std::fs::read(folder.file()).unwrap();
    let pages = sound.len() / 4096;
    let owner = |page: usize| -> String {
        let conn = Connection::open(folder.file()).unwrap();
        let sql = "SELECT group_concat(name) FROM sqlite_schema WHERE rootpage = ?1";
        conn.query_row(sql, [page as i64 + 1], |row| row.get::<_, Option<String>>(0))
            .unwrap()
            .unwrap_or_default()
    };
    let schema = schema_pages(&sound);
    assert!(pages > 40 && schema.len() < 10, "{pages} {schema:?}");
    for page in 0..pages {
        let left = Folder::new();
        let mut damaged = sound.clone();
        damaged[page * 4096..(page + 1) * 4096].fill(0xA5);
        std::fs::write(left.file(), &damaged).unwrap();
        std::fs::copy(files::beside(&folder.file(), "-seen"), files::beside(&left.file(), "-seen")).unwrap();
        let (store, opened) = Store::open(&left.file(), at(0), &Counted::from(100)).unwrap();
        let faults = store.read().check().unwrap();
        assert_eq!(faults, [""; 0], "page {page} {}", owner(page));
        let aside = opened.set_aside.unwrap_or_else(|| panic!("page {page} {} passed unseen", owner(page)));
        if schema.contains(&page) {
            // These pages name the tables: without them nothing is found, and it is said.
            assert!(aside.saved.iter().all(|saved| !saved.whole), "page {page}");
            continue;
        }
        let broken: Vec<&str> =
            aside.saved.iter().filter(|saved| !saved.whole).map(|saved| saved.table).collect();
        let rows: u64 = aside.saved.iter().map(|saved| saved.rows).sum();
        let records = ["records", "record_bytes", "bodies", "deficiencies", "equipment", "walk_facts"];
        let related = broken.iter().all(|table| records.contains(table)) || broken.len() == 1;
        assert!(aside.saved.len() == TABLES.len() + 3 && related, "page {page} {}: {broken:?}", owner(page));
        // The top page of a tree costs the tree; any other, what stands on it: some thirty records, a row in each of
        // five tables.
        let lost = 288 - rows;
        assert!(lost <= if owner(page).is_empty() { 155 } else { 200 }, "page {page}: {lost} rows lost");
    }
}

/// The pages that hold the schema, counted from zero: the first, and where it is a branch, its leaves
/// (sqlite.org/fileformat2.html, "B-tree Pages").
fn schema_pages(database: &[u8]) -> Vec<usize> {
    let number = |at: usize, length: usize| -> usize {
        database[at..at + length].iter().fold(0, |number, byte| number << 8 | usize::from(*byte))
    };
    let mut pages = vec![0];
    if database[100] == 5 {
        let cells = number(103, 2);
        let left = (0..cells).map(|cell| number(number(112 + cell * 2, 2), 4) - 1);
        pages.extend(left.chain([number(108, 4) - 1]));
    }
    pages
}

/// A file of the first schema that is damaged before it could be stepped up: what can be read goes up the steps, and tables that
/// it never had are not told as lost.
#[test]
fn a_damaged_older_file_goes_up_the_steps() {
    let folder = Folder::new();
    let mut conn = Connection::open(folder.file()).unwrap();
    table::add_functions(&conn).unwrap();
    schema::step_up(&mut conn, 0, 1).unwrap();
    let table = |name: &str| check::tables_of(1).into_iter().find(|table| table.name == name).unwrap();
    conn.execute(&table("device").insert(""), (1, DeviceId([9; 16]))).unwrap();
    for number in 0..40u32 {
        let (row, seal) = (row(number), bytes_of("seal", row(number).digest));
        let params = rusqlite::params![
            number,
            row.digest,
            row.load,
            row.tag,
            row.procedure,
            row.outcome,
            row.inspector,
            row.rigger,
            row.place,
            row.aircraft,
            row.mass_g,
            row.found,
            row.corrected,
            row.issued,
            row.valid_until,
            "current",
            row.device,
            row.received,
            "drinking water"
        ];
        conn.execute(&table("records").insert(""), params).unwrap();
        let body = bytes_of("body", row.digest);
        conn.execute(&table("record_bytes").insert(""), (number, &seal, &body)).unwrap();
        conn.execute(&table("tags").insert(""), (row.digest, &row.load, true, at(0), &seal)).unwrap();
    }
    conn.execute(&table("settings").insert(""), ("procedure/bag", b"id = \"bag\"".as_slice())).unwrap();
    let page: i64 = conn
        .query_row("SELECT rootpage FROM sqlite_schema WHERE name = 'tags'", [], |row| row.get(0))
        .unwrap();
    drop(conn);
    let mut damaged = std::fs::read(folder.file()).unwrap();
    let start = (page as usize - 1) * 4096;
    damaged[start..start + 4096].fill(0xA5);
    std::fs::write(folder.file(), &damaged).unwrap();
    let (store, opened) = folder.open();
    let aside = opened.set_aside.unwrap();
    let broken: Vec<&str> =
        aside.saved.iter().filter(|saved| !saved.whole).map(|saved| saved.table).collect();
    assert_eq!(broken, ["tags", "journal"], "{aside}");
    assert_eq!(store.read().exam_runs().unwrap(), []);
    assert_eq!(store.read().check().unwrap(), [""; 0]);
    let kept = store.read().record(row(7).seal).unwrap().unwrap();
    assert_eq!(kept, RecordRow { author: None, ..row(7) });
    let bytes = store.read().record_bytes(row(7).seal).unwrap().unwrap();
    assert_eq!(bytes.body, Some(bytes_of("body", row(7).digest)));
    assert_eq!(store.read().procedure_in_use("bag").unwrap().unwrap().text, "id = \"bag\"");
    assert!(opened.put_back.is_some(), "a tag may be gone, and with it a planner's word");
}
