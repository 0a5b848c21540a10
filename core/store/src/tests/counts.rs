//! What rows come to is kept beside them: after whatever was done it is what counting anew says.

use super::*;
use crate::papers::ROSTERS;

/// Numbers that look drawn and are the same in every run (the constants of Numerical Recipes' quick generator).
struct Drawn(u32);

impl Drawn {
    fn below(&mut self, most: u32) -> u32 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (self.0 >> 16) % most
    }
}

/// One of a few riggers, inspectors and procedures, so that groups grow, shrink and end.
fn drawn_row(number: u32, draw: &mut Drawn) -> RecordRow {
    RecordRow {
        procedure: ["cargo-bag", "zone"][draw.below(2) as usize].into(),
        rigger: ["Mason 5", "Heron 2", ""][draw.below(3) as usize].into(),
        inspector: ["Anvil 3", "Thistle 7"][draw.below(2) as usize].into(),
        outcome: [Outcome::Fit, Outcome::NotFit][draw.below(2) as usize],
        found: draw.below(3),
        // Neither in the order in which they come nor apart.
        issued: at(i64::from(draw.below(50))),
        ..row(number)
    }
}

fn parts(row: &RecordRow, draw: &mut Drawn) -> (Vec<DeficiencyRow>, Vec<EquipmentRow>) {
    let deficiencies = (0..draw.below(4)).map(|_| DeficiencyRow {
        procedure: row.procedure.clone(),
        point: ["side-1.twist", "side-2.twist"][draw.below(2) as usize].into(),
        name: ["twisted", "loose"][draw.below(2) as usize].into(),
        rigger: row.rigger.clone(),
        corrected: draw.below(2) == 1,
    });
    let deficiencies = deficiencies.collect();
    let piece = |_| EquipmentRow { serial: format!("CH-{}", draw.below(4)), kind: "chain leg".into() };
    (deficiencies, (0..2).map(piece).collect())
}

fn whole_and_told(store: &Store) {
    assert_eq!(store.read().check().unwrap(), [""; 0]);
}

#[test]
fn what_is_kept_is_what_counting_anew_says() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    let mut draw = Drawn(1);
    for number in 0..400 {
        let full = drawn_row(draw.below(120), &mut draw);
        let (deficiencies, equipment) = parts(&full, &mut draw);
        let (seal, body) = (bytes_of("seal", full.digest), bytes_of("body", full.digest));
        // A seal alone; one with its tag; a full record; and each of them over the others.
        let bare = RecordRow {
            rigger: String::new(),
            found: 0,
            corrected: 0,
            device: None,
            tag: None,
            ..full.clone()
        };
        let tagged = RecordRow { device: None, ..full.clone() };
        let put = |row, body, deficiencies, equipment| NewRecord {
            row,
            seal: &seal,
            body,
            deficiencies,
            equipment,
            facts: None,
            words: "",
        };
        let new = match draw.below(3) {
            0 => put(&bare, None, &[], &[]),
            1 => put(&tagged, None, &[], &[]),
            _ => put(&full, Some(body.as_slice()), &deficiencies, &equipment),
        };
        let standing = [Standing::NoInspection, Standing::Fit, Standing::Voided][draw.below(3) as usize];
        let other = row(draw.below(120)).seal;
        let done: Result<(), StoreError> = store.write(|tx| {
            tx.put_record(&new)?;
            tx.set_judged(other, &Judged { standing, ..Judged::not_yet(Outcome::Fit) })?;
            Ok(())
        });
        done.unwrap();
        if number % 20 == 0 {
            whole_and_told(&store);
        }
    }
    whole_and_told(&store);
    let groups = store.read().groups(None, None).unwrap();
    let since = store.read().groups(Some(at(0)), None).unwrap();
    for by in [GroupBy::Procedure, GroupBy::Rigger, GroupBy::Inspector] {
        for whole in [false, true] {
            assert_eq!(groups.by(by, whole), since.by(by, whole));
        }
    }
    assert_eq!(
        store.read().point_counts(None, None).unwrap(),
        store.read().point_counts(Some(at(0)), None).unwrap()
    );
    // Taken out one by one, nothing is left of them.
    for table in ["deficiencies", "equipment", "record_bytes", "records"] {
        let ids = store.conn.prepare(&format!("SELECT rowid FROM {table} ORDER BY rowid % 7")).is_ok();
        let by = if ids { "rowid" } else { "(record, at)" };
        for rest in [4, 3, 2, 1] {
            let sql = format!(
                "DELETE FROM {table} WHERE {by} IN (SELECT {by} FROM {table} LIMIT (SELECT count(*) / {rest} FROM {table}))"
            );
            let sql = if ids { sql } else { sql.replace("SELECT (record, at)", "SELECT record, at") };
            store.conn.execute_batch(&sql).unwrap();
            let faults = store.read().check().unwrap();
            assert!(!faults.iter().any(|fault| fault.contains("counts")), "{faults:?}");
        }
    }
    for counts in ["record_counts", "deficiency_counts", "point_counts", "equipment_counts"] {
        let left: u32 =
            store.conn.query_row(&format!("SELECT count(*) FROM {counts}"), [], |row| row.get(0)).unwrap();
        assert_eq!(left, 0, "{counts}");
    }
}

#[test]
fn a_count_that_decayed_is_told() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    for number in 0..5 {
        put(&mut store, &row(number));
    }
    for (counts, change) in [
        ("record_counts", "UPDATE record_counts SET fit = fit + 1"),
        ("deficiency_counts", "DELETE FROM deficiency_counts"),
        ("point_counts", "INSERT INTO point_counts VALUES ('cargo-bag', 'nowhere', 1)"),
        ("equipment_counts", "UPDATE equipment_counts SET last = last - 1"),
    ] {
        whole_and_told(&store);
        store.conn.execute_batch(&format!("SAVEPOINT before; {change};")).unwrap();
        assert_eq!(
            store.read().check().unwrap(),
            [format!("{counts} does not match the rows that it counts")]
        );
        store.conn.execute_batch("ROLLBACK TO before; RELEASE before;").unwrap();
    }
}

/// What is asked of all time must not walk through every record.
#[test]
fn questions_of_all_time_read_the_counts_alone() {
    let folder = Folder::new();
    let (store, _) = folder.open();
    let leaving =
        "SELECT issued FROM records AS r WHERE r.procedure = ?1 AND r.rigger = ?1 AND r.inspector = ?1
        AND (r.device IS NOT NULL) = 1 AND (r.standing <> 'no_inspection') = 1 ORDER BY issued DESC LIMIT 1";
    for (sql, wanted) in [
        (crate::board::GROUPS_OF_ALL_TIME, "record_counts"),
        (crate::board::NAMES_OF_ALL_TIME, "deficiency_counts"),
        (crate::board::POINT_OF_ALL_TIME, "point_counts"),
        (leaving, "r USING COVERING INDEX records_in_groups"),
    ] {
        let mut statement = store.conn.prepare(&format!("EXPLAIN QUERY PLAN {sql}")).unwrap();
        let bound = vec![rusqlite::types::Value::Null; statement.parameter_count()];
        let plan =
            statement.query_map(rusqlite::params_from_iter(bound), |row| row.get::<_, String>(3)).unwrap();
        let plan: Vec<String> = plan.collect::<Result<_, _>>().unwrap();
        let first = plan.first().unwrap();
        assert!(
            first.starts_with(&format!("SCAN {wanted}")) || first.starts_with(&format!("SEARCH {wanted}")),
            "{plan:?}"
        );
        assert!(
            plan.iter().all(|step| !step.contains("TEMP B-TREE FOR ORDER BY") || wanted != "r"),
            "{plan:?}"
        );
    }
}

/// SQLite may take a plan that depends on what is bound, and then prepares a kept statement anew at each look.
#[test]
fn a_kept_statement_is_prepared_once_whatever_is_bound() {
    let folder = Folder::new();
    let (store, _) = folder.open();
    let newest = ROSTERS.select("NOT INDEXED WHERE authority = ?1 ORDER BY sequence DESC, digest LIMIT 1");
    for authority in [[1; 32], [2; 32], [3; 32]] {
        let mut statement = store.conn.prepare_cached(&newest).unwrap();
        assert!(!statement.exists([authority]).unwrap());
        assert_eq!(statement.get_status(rusqlite::StatementStatus::RePrepare), 0);
    }
}
