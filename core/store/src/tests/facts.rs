//! How records were walked lies beside them, is carried up the steps, and is never believed where it decayed.

use rusqlite::Connection;

use super::*;
use crate::check::tables_of;
use crate::walk_facts::{UNWALKED, WALKED};

/// What a home of schema 6 had of a record's walk, but for what is changed of it.
struct Old {
    row: RecordRow,
    record: Digest,
    decayed: bool,
}

/// A home of schema 6 with these records and how they were walked, closed.
fn old_home(folder: &Folder, all: &[Old]) {
    let mut conn = Connection::open(folder.file()).unwrap();
    table::add_functions(&conn).unwrap();
    schema::step_up(&mut conn, 0, 6).unwrap();
    let insert = |name: &str, values: &[&dyn rusqlite::ToSql]| {
        let table = tables_of(6).into_iter().find(|table| table.name == name).unwrap();
        conn.execute(&table.insert(""), values).unwrap();
    };
    insert("device", &[&1, &DeviceId([9; 16])]);
    for (id, Old { row, .. }) in (1i64..).zip(all) {
        let (seal, body) = (bytes_of("seal", row.digest), bytes_of("body", row.digest));
        let digest = Digest::of(&body);
        let (standing, none) = (row.judged.standing, None::<Digest>);
        insert(
            "records",
            &[
                &id,
                &row.seal,
                &row.digest,
                &row.load,
                &row.tag,
                &row.procedure,
                &row.outcome,
                &row.inspector,
                &row.rigger,
                &row.place,
                &row.aircraft,
                &row.mass_g,
                &row.found,
                &row.corrected,
                &row.issued,
                &row.valid_until,
                &standing,
                &"",
                &none,
                &0,
                &none,
                &none,
                &none,
                &false,
                &row.device,
                &row.received,
                &"drinking water",
            ],
        );
        insert("record_bytes", &[&id, &seal, &digest]);
        conn.execute("INSERT INTO bodies (digest, bytes) VALUES (?1, ?2)", (digest, &body)).unwrap();
        conn.execute("INSERT INTO photos VALUES (?1, 0, ?2)", (digest, &body)).unwrap();
    }
    for Old { row, record, decayed } in all {
        let WalkFactsRow { seal, device, took, cards, head, before } = facts(row);
        let head = i64::try_from(head).unwrap();
        insert("walk_facts", &[&seal, &device, &took.0, &cards, &head, record, &before]);
        if *decayed {
            conn.execute("UPDATE walk_facts SET seconds = seconds * 9 WHERE seal = ?1", [seal]).unwrap();
        }
    }
}

fn sound(number: u32) -> Old {
    let row = row(number);
    Old { record: row.digest, row, decayed: false }
}

fn all_of(store: &Store, numbers: std::ops::Range<u32>) -> Vec<Option<WalkFactsRow>> {
    numbers.map(|number| store.read().walk_facts_of(row(number).seal).unwrap()).collect()
}

#[test]
fn facts_come_up_the_steps_and_what_had_decayed_is_left_out() {
    let folder = Folder::new();
    let mut all: Vec<Old> = (0..40).map(sound).collect();
    all[3].decayed = true;
    all[5].record = Digest::of(b"another record");
    old_home(&folder, &all);
    let conn = Connection::open(folder.file()).unwrap();
    table::add_functions(&conn).unwrap();
    // One of a seal that is not here: there is no record to lie beside.
    let sql = "INSERT INTO walk_facts SELECT ?1, device, seconds, cards, head, record, before,
        row_sum(?1, device, seconds, cards, head, record, before) FROM walk_facts LIMIT 1";
    conn.execute(sql, [row(99).seal]).unwrap();
    drop(conn);
    let (mut store, opened) = folder.open();
    assert_eq!(opened, Opened { stepped_from: Some(6), ..Opened::default() });
    assert_eq!(store.read().check().unwrap(), [""; 0]);
    let wanted = (0..40).map(|number| (![3, 5].contains(&number)).then(|| facts(&row(number))));
    assert_eq!(all_of(&store, 0..40), wanted.collect::<Vec<_>>());
    assert_eq!(store.read().walk_facts_of(row(99).seal).unwrap(), None);
    let left_out = [row(3).seal, row(5).seal];
    assert_eq!(store.read().seals_without_walk_facts().unwrap(), left_out);
    // Learned anew from the full record, it stands as if it had never been away.
    for number in [3, 5, 99] {
        store.write(|tx| tx.put_walk_facts(&facts(&row(number)))).unwrap();
    }
    assert_eq!(all_of(&store, 0..40), (0..40).map(|number| Some(facts(&row(number)))).collect::<Vec<_>>());
    assert_eq!(store.read().walk_facts_of(row(99).seal).unwrap(), None);
    assert_eq!(store.read().seals_without_walk_facts().unwrap(), []);
    assert_eq!(store.read().check().unwrap(), [""; 0]);
}

/// The accident: a file that is damaged before it could be stepped up is read by the columns of today, and every fact counts as decayed.
#[test]
fn a_damaged_home_of_schema_6_keeps_its_facts() {
    let folder = Folder::new();
    old_home(&folder, &(0..40).map(sound).collect::<Vec<_>>());
    let conn = Connection::open(folder.file()).unwrap();
    let page: u32 = conn
        .query_row("SELECT rootpage FROM sqlite_schema WHERE name = 'photos'", [], |row| row.get(0))
        .unwrap();
    drop(conn);
    let page = page as usize;
    let mut damaged = std::fs::read(folder.file()).unwrap();
    damaged[(page - 1) * 4096..page * 4096].fill(0xA5);
    std::fs::write(folder.file(), &damaged).unwrap();
    let (store, opened) = folder.open();
    let aside = opened.set_aside.unwrap();
    let broken = aside.saved.iter().filter(|saved| !saved.whole).map(|saved| saved.table);
    assert_eq!(broken.collect::<Vec<_>>(), ["photos", "journal"], "{aside}");
    assert!(aside.saved.contains(&Saved { table: "walk_facts", rows: 40, whole: true }), "{aside}");
    assert_eq!(store.read().check().unwrap(), [""; 0]);
    assert_eq!(all_of(&store, 0..40), (0..40).map(|number| Some(facts(&row(number)))).collect::<Vec<_>>());
}

#[test]
fn a_copy_of_schema_6_is_restored_with_its_facts() {
    let (from, to) = (Folder::new(), Folder::new());
    old_home(&from, &(0..40).map(sound).collect::<Vec<_>>());
    Store::restore(&from.file(), &to.file(), at(9), &Counted::from(70)).unwrap();
    let (store, _) = to.open();
    assert_eq!(all_of(&store, 0..40), (0..40).map(|number| Some(facts(&row(number)))).collect::<Vec<_>>());
    assert_eq!(store.read().check().unwrap(), [""; 0]);
}

#[test]
fn facts_come_with_the_full_record_and_never_before() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    let bare = RecordRow { device: None, ..row(1) };
    let seal = bytes_of("seal", bare.digest);
    let alone = NewRecord {
        row: &bare,
        seal: &seal,
        body: None,
        deficiencies: &[],
        equipment: &[],
        facts: None,
        words: "",
    };
    assert_eq!(store.write(|tx| tx.put_record(&alone)).unwrap(), Put::New);
    put(&mut store, &row(2));
    assert_eq!(all_of(&store, 1..3), [None, Some(facts(&row(2)))]);
    assert_eq!(store.read().seals_without_walk_facts().unwrap(), []);
    assert_eq!(put(&mut store, &row(1)), Put::Completed);
    assert_eq!(all_of(&store, 1..3), [Some(facts(&row(1))), Some(facts(&row(2)))]);
    // What came first stays.
    let seal = bytes_of("seal", row(2).digest);
    let other = WalkFactsRow { cards: 1, ..facts(&row(2)) };
    let again = NewRecord { row: &row(2), seal: &seal, body: Some(b"body"), facts: Some(&other), ..alone };
    assert_eq!(store.write(|tx| tx.put_record(&again)).unwrap(), Put::Known);
    assert_eq!(store.read().walk_facts_of(row(2).seal).unwrap(), Some(facts(&row(2))));
    assert_eq!(store.read().check().unwrap(), [""; 0]);
}

#[test]
fn decayed_facts_are_told() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    for number in 0..3 {
        put(&mut store, &row(number));
    }
    store.conn.execute_batch("UPDATE walk_facts SET seconds = 6 WHERE record = 2").unwrap();
    let what = "row 2 of walk_facts does not match its check sum";
    let damaged = StoreError::Damaged { what: what.into() };
    assert_eq!(store.read().check().unwrap(), [what]);
    assert_eq!(store.read().walk_facts_of(row(1).seal), Err(damaged.clone()));
    assert_eq!(store.read().walk_facts_of(row(2).seal), Ok(Some(facts(&row(2)))));
    assert_eq!(store.read().each_record_link(|_| ()), Err(damaged));
}

#[test]
fn walked_records_are_told_by_their_digests_and_links_by_their_places() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    for number in 0..20 {
        put(&mut store, &row(number));
    }
    let bare = RecordRow { device: None, ..row(50) };
    let new = NewRecord {
        row: &bare,
        seal: &bytes_of("seal", bare.digest),
        body: None,
        deficiencies: &[],
        equipment: &[],
        facts: None,
        words: "",
    };
    store.write(|tx| tx.put_record(&new)).unwrap();
    let mut digests: Vec<Digest> = (0..20).map(|number| row(number).digest).collect();
    digests.sort();
    let told = |from: Digest, most: usize| {
        let mut told = Vec::new();
        let more = |digest| {
            told.push(digest);
            told.len() < most
        };
        store.read().digests_of_walked(from, more).unwrap();
        told
    };
    assert_eq!(told(Digest::from_bytes([0; 32]), 100), digests);
    assert_eq!(told(digests[7], 5), digests[7..12]);
    let mut links = Vec::new();
    store.read().each_record_link(|link| links.push(link)).unwrap();
    let wanted = (0..20).map(|number| {
        let WalkFactsRow { device, head, before, .. } = facts(&row(number));
        RecordLink { device, head, before }
    });
    assert_eq!(links, wanted.collect::<Vec<_>>());
}

/// What is asked of a whole account must not put it in order first.
#[test]
fn questions_of_all_walks_go_through_one_table() {
    let folder = Folder::new();
    let (store, _) = folder.open();
    for (sql, wanted) in
        [(WALKED, "SEARCH records USING COVERING INDEX records_by_digest"), (UNWALKED, "SCAN record_bytes")]
    {
        let mut statement = store.conn.prepare(&format!("EXPLAIN QUERY PLAN {sql}")).unwrap();
        let bound = vec![rusqlite::types::Value::Null; statement.parameter_count()];
        let plan =
            statement.query_map(rusqlite::params_from_iter(bound), |row| row.get::<_, String>(3)).unwrap();
        let plan: Vec<String> = plan.collect::<Result<_, _>>().unwrap();
        assert!(plan[0].starts_with(wanted), "{plan:?}");
        assert!(!plan.iter().any(|step| step.contains("TEMP B-TREE")), "{plan:?}");
    }
}
