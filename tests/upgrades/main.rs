//! A database of every released schema opens, with everything in it.

use slingseal_tests::full_home::{fill, open, read_all};

/// The schema's number and the frozen file. A file is added with a schema and never changed.
const RELEASED: &[(u32, &[u8])] = &[
    (1, include_bytes!("schema-0001.db")),
    (2, include_bytes!("schema-0002.db")),
    (3, include_bytes!("schema-0003.db")),
    (4, include_bytes!("schema-0004.db")),
    (5, include_bytes!("schema-0005.db")),
    (6, include_bytes!("schema-0006.db")),
    (7, include_bytes!("schema-0007.db")),
];

/// The schema that this program writes; one ahead of the last file until it is handed out.
const NEWEST: u32 = 7;

/// What came with a later schema than the first: nothing of it is in an older file. The first file that tells how records were walked
/// is the seventh.
const SINCE: &[(&str, u32)] = &[
    ("exam papers", 2),
    ("exam runs", 2),
    ("procedures", 3),
    ("heads", 3),
    ("loads", 3),
    ("strays", 4),
    ("movements", 4),
    ("flow", 4),
    ("walk facts", 7),
    ("closings", 4),
];

#[test]
fn every_released_schema_opens() {
    let folder = tempfile::tempdir().unwrap();
    let (mut today, _) = open(folder.path(), 1).unwrap();
    fill(&mut today).unwrap();
    let wanted = read_all(&today);
    for (number, bytes) in RELEASED {
        let left = tempfile::tempdir().unwrap();
        std::fs::write(left.path().join("home.db"), bytes).unwrap();
        let (store, opened) = open(left.path(), 100).unwrap();
        assert_eq!(opened.stepped_from, (*number < NEWEST).then_some(*number), "schema {number}");
        assert!(!opened.new && opened.set_aside.is_none() && opened.lost.is_none(), "{opened:?}");
        assert_eq!(store.read().check().unwrap(), [""; 0], "schema {number}");
        assert_eq!(store.read().verify_journal().unwrap(), Ok(today.head()), "schema {number}");
        let found = read_all(&store);
        for (question, answer) in &wanted {
            if SINCE.iter().any(|(later, schema)| later == question && schema > number) {
                assert_eq!(found[question].as_deref(), Some("[]"), "schema {number}: {question}");
                continue;
            }
            assert_eq!(&found[question], answer, "schema {number}: {question}");
        }
    }
}

/// Makes the file of the newest schema, once, when a program that writes it is handed out.
#[test]
#[ignore = "writes a file that is then frozen: SCHEMA_FILE=tests/upgrades/schema-0008.db"]
fn freeze_the_newest() {
    let file = std::env::var("SCHEMA_FILE").expect("SCHEMA_FILE names the file");
    let folder = tempfile::tempdir().unwrap();
    let (mut store, _) = open(folder.path(), 1).unwrap();
    fill(&mut store).unwrap();
    store.settle().unwrap();
    drop(store);
    std::fs::copy(folder.path().join("home.db"), file).unwrap();
}
