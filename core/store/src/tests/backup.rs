//! A home that begins from a copy is another device, and forks nobody's journal.

use super::{Counted, Folder, at};
use crate::{NewEntry, RESTORED, Store, StoreError};
use slingseal_journal::verify_chain;

fn write(store: &mut Store, body: &[u8]) {
    store.write(|tx| tx.append(NewEntry { kind: "event", walk: None, body, time: at(1) }).map(drop)).unwrap();
}

#[test]
fn a_restored_home_is_another_device_with_the_old_journal_as_history() {
    let (from, to) = (Folder::new(), Folder::new());
    let (mut store, _) = from.open();
    write(&mut store, b"one");
    write(&mut store, b"two");
    let copy = from.file().with_extension("copy");
    store.copy_to(&copy).unwrap();
    assert!(store.copy_to(&copy).is_err(), "what is there is not overwritten");
    // The device that was copied goes on.
    write(&mut store, b"three");

    let restored = Store::restore(&copy, &to.file(), at(9), &Counted::from(70)).unwrap();
    assert_eq!((restored.before, restored.head.seq), (store.device(), 2));
    let (mut other, opened) = Store::open(&to.file(), at(9), &Counted::from(90)).unwrap();
    assert!(opened.lost.is_none() && opened.set_aside.is_none(), "{opened:?}");
    assert_eq!(other.device(), restored.device);
    assert_ne!(other.device(), store.device());
    let history = other.read().foreign_entries(store.device()).unwrap();
    assert_eq!(history.len(), 2);
    verify_chain(store.device(), &history).unwrap();
    let own = other.read().entries(1, 10).unwrap();
    assert_eq!((own.len(), own[0].kind.as_str()), (1, RESTORED));
    assert!(own[0].body.starts_with(&store.device().0));
    write(&mut other, b"three, elsewhere");
    assert!(other.read().check().unwrap().is_empty());
    // Neither goes on where the other does: number three of the old device is known once.
    assert_eq!(store.read().entries(3, 1).unwrap()[0].body, b"three");
    assert!(other.read().foreign_head(store.device()).unwrap() == Some(2));
    assert_eq!(other.read().memory().unwrap().put_back, Some(at(9)), "what came since is not in it");
}

#[test]
fn a_copy_that_does_not_hold_and_a_home_that_is_there_are_refused() {
    let (from, to) = (Folder::new(), Folder::new());
    let (mut store, _) = from.open();
    write(&mut store, &[7; 3000]);
    let copy = from.file().with_extension("copy");
    store.copy_to(&copy).unwrap();
    let refused = Store::restore(&copy, &from.file(), at(9), &Counted::from(70));
    assert!(matches!(refused, Err(StoreError::Busy { .. })), "{refused:?}");
    drop(store);
    let refused = Store::restore(&copy, &from.file(), at(9), &Counted::from(70));
    assert!(matches!(refused, Err(StoreError::Unfit { .. })), "{refused:?}");
    let mut bytes = std::fs::read(&copy).unwrap();
    let place = bytes.windows(64).position(|part| part == [7; 64]).unwrap();
    bytes[place + 20] ^= 1;
    std::fs::write(&copy, bytes).unwrap();
    let refused = Store::restore(&copy, &to.file(), at(9), &Counted::from(70));
    assert!(matches!(refused, Err(StoreError::Damaged { .. })), "{refused:?}");
    assert!(!to.file().exists(), "nothing is begun from it");
    std::fs::write(&copy, b"no database").unwrap();
    assert!(Store::restore(&copy, &to.file(), at(9), &Counted::from(70)).is_err());
}
