use super::*;
use crate::find::in_order;
use crate::records::RECORDS;

fn write<T>(store: &mut Store, act: impl FnOnce(&Tx<'_>) -> Result<T, StoreError>) -> T {
    store.write(act).unwrap()
}

#[test]
fn a_record_comes_once_and_is_found() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    for number in 0..30 {
        assert_eq!(put(&mut store, &row(number)), Put::New);
    }
    assert_eq!(put(&mut store, &row(4)), Put::Known);
    let read = store.read();
    assert_eq!(read.count_records().unwrap(), 30);
    assert_eq!(read.record(row(4).seal).unwrap(), Some(row(4)));
    assert_eq!(
        read.record_bytes(row(4).seal).unwrap(),
        Some(RecordBytes {
            seal: bytes_of("seal", row(4).digest),
            body: Some(bytes_of("body", row(4).digest))
        })
    );
    assert_eq!(read.record(Digest::of(b"none")).unwrap(), None);
    assert_eq!(read.records_of_load("KM-004").unwrap(), [row(4)]);
    assert_eq!(read.deficiencies_of(row(4).seal).unwrap()[0].name, "twisted");
    assert_eq!(read.equipment_of(row(4).seal).unwrap()[0].serial, "CH-0417");
    assert_eq!(read.record_digests().unwrap().len(), 30);
}

#[test]
fn pages_hold_every_record_once() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    for number in 0..25 {
        // Five at a time have the same second.
        let row = RecordRow { issued: at(i64::from(number / 5)), ..row(number) };
        put(&mut store, &row);
    }
    for words in [None, Some("drink wat".to_owned())] {
        let filter = RecordFilter { words, ..RecordFilter::default() };
        let (mut after, mut seen) = (None, Vec::new());
        loop {
            let page = store.read().records(&filter, after, 4).unwrap();
            seen.extend(page.rows);
            after = page.next;
            if after.is_none() {
                break;
            }
        }
        assert_eq!(seen.len(), 25);
        assert!(seen.is_sorted_by(|a, b| a.issued >= b.issued));
        let mut digests: Vec<Digest> = seen.iter().map(|row| row.digest).collect();
        digests.sort();
        digests.dedup();
        assert_eq!(digests.len(), 25);
    }
    let mut each = 0;
    let all = RecordFilter::default();
    let done: Result<(), StoreError> = store.read().each_record(&all, |row, bytes| {
        assert_eq!(bytes.seal, bytes_of("seal", row.digest));
        each += 1;
        Ok(())
    });
    assert_eq!((done, each), (Ok(()), 25));
}

/// Each column's order runs along its index: a page of a million records reads its own rows and sorts nothing.
#[test]
fn every_order_has_its_index_and_its_pages_hold_every_record_once() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    for number in 0..25 {
        let row = RecordRow {
            issued: at(i64::from(number / 5)),
            load: format!("KM-{:03}", (number * 7) % 6),
            inspector: format!("Anvil {}", number % 3),
            rigger: format!("Mason {}", number % 2),
            place: "Marsh".into(),
            ..row(number)
        };
        put(&mut store, &row);
    }
    let filter = RecordFilter::default();
    let columns = [
        (RecordColumn::Sealed, "records_by_issued"),
        (RecordColumn::Load, "records_by_load"),
        (RecordColumn::Inspector, "records_by_inspector"),
        (RecordColumn::Rigger, "records_by_rigger"),
        (RecordColumn::Place, "records_by_place"),
    ];
    for ((column, index), down) in columns.into_iter().flat_map(|one| [(one, false), (one, true)]) {
        let key = |row: &RecordRow| {
            let text = match column {
                RecordColumn::Sealed => "",
                RecordColumn::Load => &row.load,
                RecordColumn::Inspector => &row.inspector,
                RecordColumn::Rigger => &row.rigger,
                RecordColumn::Place => &row.place,
            };
            (text.to_owned(), row.issued)
        };
        let (mut after, mut seen) = (None, Vec::new());
        loop {
            let mut all = filter.conditions();
            let sql = RECORDS.select(&in_order(&mut all, (column, down), after));
            let mut statement = store.conn.prepare(&format!("EXPLAIN QUERY PLAN {sql}")).unwrap();
            let plan: Vec<String> = statement
                .query_map(all.params().as_slice(), |step| step.get(3))
                .unwrap()
                .map(Result::unwrap)
                .collect();
            let told = plan.join("; ");
            assert!(told.contains(&format!("INDEX {index}")) && !told.contains("TEMP B-TREE"), "{told}");
            let goes_on = if column == RecordColumn::Sealed { "issued" } else { ",issued)" };
            assert!(after.is_none() || told.contains(goes_on), "it goes on inside one name: {told}");
            let page = store.read().records_by(&filter, (column, down), after, 4).unwrap();
            seen.extend(page.rows);
            after = page.next;
            if after.is_none() {
                break;
            }
        }
        let digests: std::collections::BTreeSet<Digest> = seen.iter().map(|row| row.digest).collect();
        assert_eq!((seen.len(), digests.len()), (25, 25), "{column:?}");
        assert!(
            seen.is_sorted_by(|a, b| if down { key(a) >= key(b) } else { key(a) <= key(b) }),
            "{column:?}"
        );
    }
}

#[test]
fn filters_and_words_choose() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    for number in 0..10 {
        put(&mut store, &row(number));
    }
    put(&mut store, &RecordRow { outcome: Outcome::NotFit, inspector: "Thistle 7".into(), ..row(10) });
    let count = |filter: RecordFilter| store.read().records(&filter, None, 100).unwrap().rows.len();
    let none = RecordFilter::default;
    assert_eq!(count(none()), 11);
    assert_eq!(count(RecordFilter { inspector: Some("Thistle 7".into()), ..none() }), 1);
    assert_eq!(count(RecordFilter { outcome: Some(Outcome::NotFit), ..none() }), 1);
    assert_eq!(count(RecordFilter { serial: Some("CH-0417".into()), ..none() }), 11);
    assert_eq!(count(RecordFilter { serial: Some("CH-0418".into()), ..none() }), 0);
    assert_eq!(count(RecordFilter { issued_from: Some(at(3)), issued_before: Some(at(5)), ..none() }), 2);
    let now = at(86_405);
    assert_eq!(count(RecordFilter { valid_at: Some(now), ..none() }), 6);
    assert_eq!(count(RecordFilter { expired_at: Some(now), ..none() }), 5);
    for (words, found) in [
        ("km-004", 1),
        ("thist", 1),
        ("THISTLE 7", 1),
        ("twisted ch-0417", 11),
        ("anvil mason", 10),
        ("anvil thistle", 0),
        ("  ", 11),
        ("\"*(", 0),
        ("words : NEAR", 0),
    ] {
        assert_eq!(count(RecordFilter { words: Some(words.into()), ..none() }), found, "{words}");
    }
}

#[test]
fn a_seal_alone_is_completed_by_its_record() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    let bare = RecordRow { rigger: String::new(), found: 0, corrected: 0, device: None, ..row(1) };
    let seal = bytes_of("seal", bare.digest);
    let new = NewRecord {
        row: &bare,
        seal: &seal,
        body: None,
        deficiencies: &[],
        equipment: &[],
        facts: None,
        words: "",
    };
    assert_eq!(write(&mut store, |tx| tx.put_record(&new)), Put::New);
    assert_eq!(write(&mut store, |tx| tx.put_record(&new)), Put::Known);
    let voided = Judged { standing: Standing::Voided, ..row(1).judged };
    write(&mut store, |tx| tx.set_judged(bare.seal, &voided));
    assert_eq!(put(&mut store, &row(1)), Put::Completed);
    let read = store.read();
    assert_eq!(read.record(bare.seal).unwrap(), Some(RecordRow { judged: voided, ..row(1) }));
    assert_eq!(read.record_bytes(bare.seal).unwrap().unwrap().body, Some(bytes_of("body", bare.digest)));
    let filter = RecordFilter { words: Some("mason".into()), ..RecordFilter::default() };
    assert_eq!(read.records(&filter, None, 9).unwrap().rows.len(), 1);
}

#[test]
fn an_account_is_found_by_how_it_stands() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    for number in 0..6 {
        put(&mut store, &row(number));
    }
    let judged = Judged::not_yet(Outcome::NotFit);
    put(&mut store, &RecordRow { outcome: Outcome::NotFit, judged, ..row(6) });
    write(&mut store, |tx| {
        let stands = |standing| Judged { standing, ..row(0).judged };
        assert!(tx.set_judged(row(0).seal, &stands(Standing::Superseded))?);
        assert!(!tx.set_judged(row(0).seal, &stands(Standing::Superseded))?);
        assert!(!tx.set_judged(Digest::of(b"none"), &stands(Standing::Voided))?);
        tx.set_judged(row(1).seal, &stands(Standing::Voided))?;
        Ok::<(), StoreError>(())
    });
    let found = |standing, expired| {
        let (now, all) =
            (Some(at(86_403)), RecordFilter { standing: Some(standing), ..RecordFilter::default() });
        let filter = if expired {
            RecordFilter { expired_at: now, ..all }
        } else {
            RecordFilter { valid_at: now, ..all }
        };
        store.read().records(&filter, None, 50).unwrap().rows.len()
    };
    assert_eq!([found(Standing::Fit, false), found(Standing::Fit, true)], [3, 1]);
    for (standing, count) in [(Standing::NotFit, 1), (Standing::Superseded, 1), (Standing::Voided, 1)] {
        assert_eq!(found(standing, false) + found(standing, true), count);
    }
    let met = store.read().deficiency_counts().unwrap();
    assert_eq!((met.len(), met[0].found, met[0].corrected), (1, 7, 7));
    assert_eq!(store.read().inspection_counts().unwrap()[0].records, 7);
    let uses = store.read().equipment_uses("", 10).unwrap();
    assert_eq!((uses[0].records, uses[0].last), (7, at(6)));
}

fn walk(number: u8, load: &str, state: WalkState) -> WalkRow {
    WalkRow {
        id: WalkId([number; 16]),
        load: load.into(),
        procedure: "cargo-bag".into(),
        inspector: "Anvil 3".into(),
        state,
        begun: at(0),
        updated: at(i64::from(number)),
    }
}

#[test]
fn the_walk_last_touched_is_the_one_to_resume() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    write(&mut store, |tx| {
        for (number, state) in [
            (1, WalkState::Open),
            (2, WalkState::Paused),
            (3, WalkState::Sealed),
            (4, WalkState::Abandoned),
            (5, WalkState::Decided),
        ] {
            tx.put_walk(&walk(number, "KM-001", state))?;
        }
        tx.put_walk(&WalkRow { updated: at(99), ..walk(1, "KM-001", WalkState::Paused) })
    });
    let ids: Vec<u8> = store.read().walks_in_hand().unwrap().iter().map(|walk| walk.id.0[0]).collect();
    assert_eq!(ids, [1, 5, 2]);
    assert_eq!(store.read().walks_of("KM-001").unwrap().len(), 5);
    assert_eq!(store.read().walk(WalkId([9; 16])).unwrap(), None);
}

/// The accident: a phone that was given a revocation forgets it because an older roster was scanned after it.
#[test]
fn an_older_roster_never_replaces_a_newer_one() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    let roster = |sequence: u64| RosterRow {
        authority: [1; 32],
        sequence,
        issued: at(0),
        received: at(1),
        bytes: sequence.to_be_bytes().to_vec(),
    };
    for (sequence, taken) in [(4, true), (3, false), (4, false), (9, true), (5, false)] {
        assert_eq!(write(&mut store, |tx| tx.put_roster(&roster(sequence))), taken, "{sequence}");
    }
    assert_eq!(store.read().roster(&[1; 32]).unwrap(), Some(roster(9)));
    assert_eq!(store.read().roster(&[2; 32]).unwrap(), None);
    assert_eq!(store.read().rosters().unwrap().len(), 1);
}

#[test]
fn papers_come_once() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    let tag = TagRow {
        digest: Digest::of(b"t"),
        load: "KM-001".into(),
        planned: false,
        received: at(0),
        said: None,
        author: None,
        bytes: b"t".into(),
    };
    let void = VoidRow {
        digest: Digest::of(b"v"),
        record: row(1).digest,
        load: "KM-001".into(),
        issued: at(0),
        received: at(1),
        author: Some(Author { authority: [1; 32], key: [2; 32], credential: [3; 8], in_time: true }),
        bytes: b"v".into(),
    };
    let credential = CredentialRow {
        digest: Digest::of(b"c"),
        authority: [1; 32],
        holder: "Anvil 3".into(),
        roles: "inspector".into(),
        expires: at(9),
        own: false,
        received: at(0),
        bytes: b"c".into(),
    };
    for new in [true, false] {
        assert_eq!(write(&mut store, |tx| tx.put_tag(&tag)), new);
        assert_eq!(write(&mut store, |tx| tx.put_void(&void)), new);
        assert_eq!(write(&mut store, |tx| tx.put_credential(&credential)), new);
        assert_eq!(write(&mut store, |tx| tx.put_quarantine(b"q", "torn", at(0))), new);
    }
    assert!(!write(&mut store, |tx| tx.put_tag(&TagRow { planned: true, ..tag.clone() })));
    assert!(!write(&mut store, |tx| tx.put_credential(&CredentialRow { own: true, ..credential.clone() })));
    let read = store.read();
    assert_eq!(read.tags_planned(9).unwrap(), [TagRow { planned: true, ..tag }]);
    assert_eq!(read.voids_of(row(1).digest).unwrap(), [void]);
    assert_eq!(read.own_credentials().unwrap(), [CredentialRow { own: true, ..credential }]);
    assert_eq!(read.quarantine(9).unwrap()[0].reason, "torn");
    assert!(write(&mut store, |tx| tx.remove_quarantine(Digest::of(b"q"))));
    let authority =
        AuthorityRow { key: [1; 32], name: "Sela Relief".into(), trusted: true, added: at(0), bytes: vec![] };
    write(&mut store, |tx| tx.put_authority(&authority));
    let distrusted = AuthorityRow { trusted: false, ..authority };
    write(&mut store, |tx| tx.put_authority(&distrusted));
    assert_eq!(store.read().authorities().unwrap(), [distrusted]);
}

#[test]
fn vault_settings_and_photos_survive() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    write(&mut store, |tx| tx.put_vault("inspector", b"sealed key"));
    write(&mut store, |tx| tx.count_wrong_pins("inspector", 3, at(30)));
    write(&mut store, |tx| tx.put_setting("zone", b"Kestrel Meadow"));
    let photo = write(&mut store, |tx| tx.put_photo(b"picture", at(0)));
    drop(store);
    let (mut store, _) = folder.open();
    let vault = store.read().vault("inspector").unwrap().unwrap();
    assert_eq!(
        (vault.bytes.as_slice(), vault.wrong, vault.not_before),
        (b"sealed key".as_slice(), 3, at(30))
    );
    assert!(!format!("{vault:?}").contains("bytes"));
    assert_eq!(store.read().setting("zone").unwrap().unwrap(), b"Kestrel Meadow");
    assert_eq!(store.read().photo(photo).unwrap().unwrap(), b"picture");
    assert_eq!(store.read().photo_digests().unwrap(), [photo]);
    assert!(write(&mut store, |tx| tx.remove_setting("zone")));
    write(&mut store, |tx| tx.put_vault("inspector", b"new key"));
    assert_eq!(store.read().vault("inspector").unwrap().unwrap().wrong, 0);
}

/// The accident: a seal by somebody who may not inspect claims the record of a refusal that has not come yet, and keeps it out.
#[test]
fn two_seals_that_claim_one_record_are_both_kept() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    put(&mut store, &row(1));
    let other = RecordRow {
        seal: Digest::of(b"another seal"),
        inspector: "Anvil 9".into(),
        outcome: Outcome::NotFit,
        judged: Judged { standing: Standing::NoInspection, ..Judged::not_yet(Outcome::NotFit) },
        ..row(1)
    };
    let new = NewRecord {
        row: &other,
        seal: b"another seal",
        body: None,
        deficiencies: &[],
        equipment: &[],
        facts: None,
        words: "",
    };
    assert_eq!(write(&mut store, |tx| tx.put_record(&new)), Put::New);
    let read = store.read();
    assert_eq!(read.seals_of_record(row(1).digest).unwrap().len(), 2);
    assert_eq!(read.record_bytes(other.seal).unwrap().unwrap().seal, b"another seal");
    assert_eq!(read.seals_of_load("KM-001").unwrap().len(), 2);
    assert_eq!(read.records_of_load("KM-001").unwrap().len(), 2, "evidence of both");
    assert_eq!(read.records(&RecordFilter::default(), None, 9).unwrap().rows, [row(1)], "one inspection");
    assert_eq!(read.count_records().unwrap(), 1);
}

#[test]
fn heads_stand_in_their_order() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    let head = |device: u8, seq: u64, record| HeadRow {
        device: DeviceId([device; 16]),
        seq,
        digest: Digest::of(&seq.to_be_bytes()),
        record,
    };
    let heads = [head(9, 3, Some(row(1).digest)), head(2, 8, Some(row(2).digest)), head(9, 900, None)];
    write(&mut store, |tx| tx.put_heads(&heads));
    assert_eq!(store.read().heads().unwrap(), heads);
    write(&mut store, |tx| tx.put_heads(&heads[1..]));
    assert_eq!(store.read().heads().unwrap(), heads[1..]);
}

#[test]
fn a_text_is_kept_once_and_walked_by_its_id() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    let digest = Digest::of(b"text");
    let unread = ProcedureTextRow { digest, said: None, text: "text".into() };
    let read = ProcedureTextRow { said: Some(("bag".into(), 3, "Bags".into())), ..unread.clone() };
    write(&mut store, |tx| tx.put_procedure_text(&unread));
    assert_eq!(store.read().procedures_unread().unwrap(), std::slice::from_ref(&unread));
    write(&mut store, |tx| tx.put_procedure_text(&read));
    write(&mut store, |tx| tx.put_procedure_text(&unread));
    write(&mut store, |tx| tx.use_procedure("bag", digest));
    assert_eq!(store.read().procedures_unread().unwrap(), []);
    assert_eq!(store.read().procedure_in_use("bag").unwrap(), Some(read));
    assert_eq!(store.read().procedures_in_use().unwrap(), [("bag".to_owned(), digest)]);
    assert_eq!(store.read().procedure_in_use("net").unwrap(), None);
}

#[test]
fn a_judgement_leaves_its_time_and_it_never_goes_back() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    for (seconds, want) in [(5, 5), (3, 5), (9, 9)] {
        write(&mut store, |tx| tx.judged_at(at(seconds)));
        assert_eq!(store.read().memory().unwrap().judged, Some(at(want)));
    }
    drop(store);
    assert_eq!(folder.open().0.read().memory().unwrap().judged, Some(at(9)));
}

/// The accident: a hook has received a void; somebody puts the file of this morning back, and the seal is GO again.
#[test]
fn an_older_copy_is_missed_without_a_journal() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    put(&mut store, &row(1));
    store.settle().unwrap();
    let older = std::fs::read(folder.file()).unwrap();
    write(&mut store, |tx| tx.judged_at(at(500)));
    drop(store);
    assert_eq!(folder.open().1, Opened::default(), "nothing is missed where nothing was done");
    std::fs::write(folder.file(), &older).unwrap();
    let (mut store, opened) = folder.open();
    assert_eq!(opened.put_back, Some(at(500)), "not before what was seen last");
    assert_eq!(store.read().memory().unwrap().judged, Some(at(500)), "the time is not forgotten");
    drop(store);
    let (again, opened) = folder.open();
    assert_eq!(opened.put_back, Some(at(500)), "it stays known");
    drop(again);
    std::fs::write(folder.file(), &older).unwrap();
    (store, _) = folder.open();
    write(&mut store, |tx| tx.memory_is_whole());
    drop(store);
    assert_eq!(folder.open().1.put_back, None);
}

/// A log that grows costs each commit more than one that is written over; thousands of words a commit want a long one.
#[test]
fn the_log_is_long_only_while_many_words_come() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    let log = folder.file().with_extension("db-wal");
    let mut number = 0_u8;
    let mut longest = |store: &mut Store| {
        let mut longest = 0;
        for _ in 0..150 {
            number += 1;
            write(store, |tx| tx.put_setting("much", &[number; 100_000]));
            longest = longest.max(std::fs::metadata(&log).unwrap().len());
        }
        number = 0;
        longest
    };
    const MIB: u64 = 1 << 20;
    let usual = longest(&mut store);
    assert!((3 * MIB..5 * MIB).contains(&usual), "{usual}");
    store.expect_many(true).unwrap();
    let many = longest(&mut store);
    assert!(many > 13 * MIB, "{many}");
    store.expect_many(false).unwrap();
    store.settle().unwrap();
    let again = longest(&mut store);
    assert!(again < 9 * MIB, "a long log is cut off: {again}");
}
