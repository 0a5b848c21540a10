//! What the disk can do to a home: it is full, it fails, the power goes. Through a layer between SQLite and the disk.

mod points;
mod watch;

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::atomic::{AtomicU8, Ordering};

use rusqlite::ffi;
use slingseal_journal::{NewEntry, WalkId};
use slingseal_store::{Judged, NewRecord, Opened, Outcome, RecordRow, Store, StoreError, WalkRow, WalkState};
use slingseal_words::{Digest, Entropy, Time};

struct Counted(AtomicU8);

impl Entropy for Counted {
    fn fill(&self, bytes: &mut [u8]) {
        bytes.fill(self.0.fetch_add(1, Ordering::Relaxed));
    }
}

fn at(seconds: i64) -> Time {
    Time::from_unix(1_783_600_000 + seconds)
}

fn open(home: &Path) -> Result<(Store, Opened), StoreError> {
    Store::open(&home.join("home.db"), at(0), &Counted(AtomicU8::new(1)))
}

/// One answered card, as the facade writes it: an event and the walk's row.
fn answer(store: &mut Store, number: u64) -> Result<(), StoreError> {
    let walk = WalkId([1; 16]);
    let row = WalkRow {
        id: walk,
        load: "KM-014".into(),
        procedure: "bag".into(),
        inspector: "Anvil 3".into(),
        state: WalkState::Open,
        begun: at(0),
        updated: at(number as i64),
    };
    // Of many lengths, so that pages are torn at many places.
    let body = vec![number as u8; 40 + (number as usize * 97) % 900];
    store.write(|tx| {
        tx.append(NewEntry { kind: "event", walk: Some(walk), body: &body, time: at(number as i64) })?;
        tx.put_walk(&row)
    })
}

const BEFORE_IMPORT: u64 = 20;
const RECORDS: u64 = 300;

/// Records that come from another device, in one go.
fn import(store: &mut Store, count: u64) {
    let done: Result<(), StoreError> = store.write(|tx| {
        for number in 0..count {
            let seal = [&number.to_be_bytes()[..], &[3; 292]].concat();
            let row = RecordRow {
                seal: Digest::of(&seal),
                digest: Digest::of(&number.to_be_bytes()),
                load: format!("KM-{number:03}"),
                tag: None,
                procedure: "bag".into(),
                outcome: Outcome::Fit,
                inspector: "Anvil 3".into(),
                rigger: "Mason 5".into(),
                place: "Kestrel Meadow".into(),
                aircraft: "Heron M2".into(),
                mass_g: None,
                found: 0,
                corrected: 0,
                issued: at(0),
                valid_until: at(86_400),
                judged: Judged::not_yet(Outcome::Fit),
                author: None,
                device: None,
                received: at(1),
            };
            let (deficiencies, equipment) = (&[], &[]);
            let body = [4; 6_000];
            let new = NewRecord {
                row: &row,
                seal: &seal,
                body: Some(&body),
                deficiencies,
                equipment,
                facts: None,
                words: "",
            };
            tx.put_record(&new)?;
        }
        Ok(())
    });
    done.unwrap();
}

/// A home that opens without a word of damage and is sound through and through.
fn sound(home: &Path) -> (Store, Opened) {
    let (store, opened) = open(home).unwrap();
    assert!(opened.set_aside.is_none() && opened.lost.is_none(), "{opened:?}");
    assert_eq!(store.read().check().unwrap(), [""; 0]);
    (store, opened)
}

/// The power goes at every sync of a home's making, of forty answers and of an import, in three ways: nothing that was not synced is
/// there, half of it is there sector by sector, all of it is there. Everything acknowledged is there each time.
#[test]
fn the_power_goes_at_every_sync() {
    let layer = watch::hold();
    let folder = tempfile::tempdir().unwrap();
    let home = folder.path().join("home");
    layer.with(|watch| watch.keep = true);
    let (mut store, _) = open(&home).unwrap();
    for number in 1..=40 {
        answer(&mut store, number).unwrap();
        layer.with(|watch| watch.acknowledged = number);
        if number % 15 == 0 {
            store.settle().unwrap();
        }
        if number == BEFORE_IMPORT {
            import(&mut store, RECORDS);
        }
    }
    drop(store);
    let cuts = layer.with(|watch| {
        watch.keep = false;
        std::mem::take(&mut watch.cuts)
    });
    assert!(cuts.len() > 150, "only {} cuts", cuts.len());
    let mut ways: BTreeMap<&str, u64> = BTreeMap::new();
    for (number, cut) in cuts.iter().enumerate() {
        let left = folder.path().join(format!("cut-{number}"));
        std::fs::create_dir_all(&left).unwrap();
        for (path, bytes) in &cut.files {
            std::fs::write(left.join(path.file_name().unwrap()), bytes).unwrap();
        }
        let (mut store, _) = sound(&left);
        let (found, told) = (store.head().seq, cut.acknowledged);
        assert!(found == told || found == told + 1, "cut {number}, {}: {found} of {told}", cut.way);
        // An import is there whole or not at all.
        let records = store.read().count_records().unwrap();
        assert!(records == 0 && found <= BEFORE_IMPORT + 1 || records == RECORDS && found >= BEFORE_IMPORT);
        answer(&mut store, found + 1).unwrap();
        *ways.entry(cut.way).or_default() += 1;
    }
    println!("{} power cuts survived: {ways:?}", cuts.len());
}

fn broken(code: std::ffi::c_int, wanted: fn(&StoreError) -> bool) {
    let layer = watch::hold();
    let folder = tempfile::tempdir().unwrap();
    let (mut tried, mut refused) = (0, 0);
    // At the opening, and at an answer: after 0, 1, 2 … writes everything fails, until nothing is left to fail.
    for after in 0.. {
        let home = folder.path().join(format!("open-{after}"));
        layer.with(|watch| watch.fail_after = Some((after, code)));
        let opened = open(&home);
        let failed = layer.with(|watch| {
            watch.fail_after = None;
            std::mem::take(&mut watch.failed)
        });
        tried += 1;
        match opened {
            // What fails at the end, when the log is cleared away, costs nothing.
            Ok((store, opened)) => assert!(opened.new && store.head().seq == 0),
            Err(error) => {
                refused += 1;
                assert!(wanted(&error), "after {after}: {error}");
            }
        }
        drop(sound(&home));
        if failed == 0 {
            break;
        }
    }
    for after in 0.. {
        let home = folder.path().join(format!("answer-{after}"));
        let (mut store, _) = open(&home).unwrap();
        for number in 1..=3 {
            answer(&mut store, number).unwrap();
        }
        layer.with(|watch| watch.fail_after = Some((after, code)));
        let answered = answer(&mut store, 4);
        let failed = layer.with(|watch| {
            watch.fail_after = None;
            std::mem::take(&mut watch.failed)
        });
        tried += 1;
        if let Err(error) = &answered {
            refused += 1;
            assert!(wanted(error), "after {after}: {error}");
            assert_eq!(store.head().seq, 3, "after {after}");
            // The disk is well again: the same program goes on.
            answer(&mut store, 4).unwrap();
        }
        drop(store);
        assert_eq!(sound(&home).0.head().seq, 4, "after {after}");
        if failed == 0 {
            break;
        }
    }
    assert!(refused > 10, "the failures were met {refused} times in {tried}");
    println!("code {code}: {tried} tries, {refused} refused, none lost");
}

#[test]
fn a_full_disk_at_every_write() {
    broken(ffi::SQLITE_FULL, |error| matches!(error, StoreError::Full));
}

#[test]
fn a_failing_disk_at_every_write() {
    broken(ffi::SQLITE_IOERR_WRITE, |error| matches!(error, StoreError::Io { .. }));
}

#[test]
fn a_sync_that_fails() {
    broken(ffi::SQLITE_IOERR_FSYNC, |error| matches!(error, StoreError::Io { .. }));
}

#[test]
fn a_disk_that_became_read_only() {
    broken(ffi::SQLITE_READONLY, |error| matches!(error, StoreError::ReadOnly { .. }));
}
