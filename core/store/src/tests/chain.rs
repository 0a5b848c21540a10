use super::*;

fn chain(device: DeviceId, count: u64) -> Vec<Entry> {
    let mut head = Head::empty(device);
    (1..=count)
        .map(|seq| {
            let body = seq.to_be_bytes();
            let walk = (seq % 2 == 0).then_some(WalkId([2; 16]));
            let entry = Entry::after(head, NewEntry { kind: "answer", walk, body: &body, time: at(0) });
            head = Head { seq, digest: entry.digest };
            entry
        })
        .collect()
}

#[test]
fn the_journal_goes_on_after_a_new_opening() {
    let folder = Folder::new();
    let walk = WalkId([1; 16]);
    let (mut store, _) = folder.open();
    let device = store.device();
    let written = store
        .write(|tx| {
            tx.append(note(b"one"))?;
            tx.append_many(&[
                NewEntry { kind: "answer", walk: Some(walk), body: b"two", time: at(2) },
                NewEntry { kind: "answer", walk: Some(walk), body: b"three", time: at(-86_400) },
            ])
        })
        .unwrap();
    drop(store);
    let (mut store, opened) = folder.open();
    assert_eq!(opened, Opened::default());
    assert_eq!((store.device(), store.head().seq), (device, 3));
    assert_eq!(store.read().entries_of(walk).unwrap(), written);
    let fourth = append(&mut store, b"four");
    assert_eq!(fourth.prev, written[1].digest);
    assert_eq!(store.read().entries(2, 2).unwrap(), written);
    assert_eq!(store.read().verify_journal().unwrap(), Ok(store.head()));
}

#[test]
fn a_failed_write_leaves_nothing() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    append(&mut store, b"one");
    let before = store.head();
    let refused: Result<(), StoreError> = store.write(|tx| {
        tx.append(note(b"two"))?;
        tx.put_setting("zone", b"Kestrel Meadow")?;
        assert_eq!(tx.head().seq, 2);
        Err(StoreError::Full)
    });
    assert_eq!(refused, Err(StoreError::Full));
    assert_eq!((store.head(), store.read().setting("zone").unwrap()), (before, None));
    assert_eq!(append(&mut store, b"again").seq, 2);
    assert_eq!(store.read().verify_journal().unwrap(), Ok(store.head()));
}

#[test]
fn the_database_itself_refuses_to_rewrite_the_journal() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    append(&mut store, b"one");
    for sql in ["UPDATE journal SET body = x'00'", "DELETE FROM journal"] {
        let error = store.conn.execute(sql, []).unwrap_err();
        assert!(error.to_string().contains("journal entry is never"), "{error}");
    }
}

#[test]
fn a_kind_that_cannot_stand_is_refused() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    for kind in ["", "ä", &"x".repeat(33)] {
        let new = NewEntry { kind, ..note(b"") };
        assert!(matches!(store.write(|tx| tx.append(new)), Err(StoreError::Unfit { .. })));
    }
}

#[test]
fn a_forked_foreign_journal_keeps_both_sides() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    let other = DeviceId([5; 16]);
    let mut entries = chain(other, 4);
    let mut forged = entries[3].clone();
    forged.body = b"forged".to_vec();
    forged.digest = forged.derive_digest();
    entries.push(forged);
    for expected in [true, false] {
        for entry in &entries {
            let new: Result<bool, StoreError> = store.write(|tx| tx.put_foreign_entry(other, entry));
            assert_eq!(new, Ok(expected));
        }
    }
    let kept = store.read().foreign_entries(other).unwrap();
    assert_eq!(kept.len(), 5);
    assert_eq!(verify_chain(other, &kept), Err(ChainFault::Forked { seq: 4 }));
    assert_eq!(store.read().foreign_devices().unwrap(), [(other, 5)]);
    assert_eq!(store.read().foreign_head(other).unwrap(), Some(4));
}
