//! Two programs on one home, in turns.

use std::sync::atomic::{AtomicBool, Ordering};

use super::*;

fn in_turn(folder: &Folder) -> (Store, Opened) {
    Store::open_in_turn(&folder.file(), at(0), &Counted::from(7), Patience::OfTurns).unwrap()
}

#[test]
fn what_one_wrote_in_its_turn_the_other_reads_in_the_next() {
    let folder = Folder::new();
    let (mut first, _) = folder.open();
    append(&mut first, b"one");
    assert!(!first.is_wanted());
    let ended = AtomicBool::new(false);
    let second = std::thread::scope(|scope| {
        let second = scope.spawn(|| {
            let (mut second, opened) = in_turn(&folder);
            assert_eq!(opened, Opened::default(), "a turn that was given away is no unclean end");
            assert_eq!(second.head().seq, 1);
            append(&mut second, b"two");
            let head = second.head();
            drop(second);
            ended.store(true, Ordering::Relaxed);
            head
        });
        while !ended.load(Ordering::Relaxed) {
            if first.is_wanted() {
                first.let_go().unwrap();
                assert!(!first.is_wanted(), "what is let go is wanted no more");
                let busy = StoreError::Busy { path: folder.file() };
                assert_eq!(first.read().entry(1), Err(busy.clone()), "nothing is answered between turns");
                assert_eq!(first.write(|tx| tx.append(note(b"no"))), Err(busy));
            }
            std::thread::sleep(std::time::Duration::from_millis(1));
        }
        second.join().unwrap()
    });
    let opened = first.take_up(at(2), &Counted::from(9)).unwrap().unwrap();
    assert_eq!(opened, Opened::default());
    assert_eq!(first.head(), second);
    assert_eq!(first.take_up(at(2), &Counted::from(9)), Ok(None), "it is here already");
    append(&mut first, b"three");
    let entries: Vec<Entry> = (1..=3).map(|seq| first.read().entry(seq).unwrap().unwrap()).collect();
    assert_eq!(verify_chain(first.device(), &entries), Ok(first.head()));
}

/// The law of the witness holds between turns as between programs: an older copy that is put back meanwhile is missed.
#[test]
fn a_copy_put_back_between_two_turns_is_missed() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    append(&mut store, b"one");
    store.let_go().unwrap();
    let older = std::fs::read(folder.file()).unwrap();
    store.take_up(at(1), &Counted::from(9)).unwrap();
    append(&mut store, b"two");
    store.let_go().unwrap();
    std::fs::write(folder.file(), older).unwrap();
    let opened = store.take_up(at(2), &Counted::from(9)).unwrap().unwrap();
    assert_eq!(opened.lost, Some(Lost { acknowledged: 2, found: 1 }));
    assert!(opened.put_back.is_some() && opened.is_told());
}

#[test]
fn one_that_gives_no_turn_away_is_told_of_at_once() {
    let folder = Folder::new();
    let (store, _) = folder.open();
    let error = Store::open(&folder.file(), at(0), &Counted::from(8)).unwrap_err();
    assert_eq!(error, StoreError::Busy { path: folder.file() });
    assert!(!store.is_wanted(), "who was refused does not wait");
}

#[test]
fn what_cannot_be_taken_up_says_why_and_comes_back() {
    let folder = Folder::new();
    let (mut store, _) = folder.open();
    append(&mut store, b"one");
    store.let_go().unwrap();
    let schema_is = |version: u32| {
        let other = rusqlite::Connection::open(folder.file()).unwrap();
        other.pragma_update(None, "user_version", version).unwrap();
    };
    schema_is(schema::KNOWN + 1);
    let error = StoreError::TooNew { found: schema::KNOWN + 1, known: schema::KNOWN };
    assert_eq!(store.take_up(at(1), &Counted::from(9)), Err(error.clone()));
    assert_eq!(store.read().entry(1), Err(error));
    schema_is(schema::KNOWN);
    assert!(store.take_up(at(1), &Counted::from(9)).unwrap().is_some());
    assert!(store.read().entry(1).unwrap().is_some());
}
