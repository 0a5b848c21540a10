use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};

use super::*;
use slingseal_journal::verify_chain;
use slingseal_words::{Digest, Entropy, Seconds, Time};

mod backup;
mod chain;
mod counts;
mod damage;
mod facts;
mod flows;
mod keeping;
mod mending;
mod searching;
mod turns;

/// The same bytes in every run, other ones at every call.
pub(super) struct Counted(AtomicU32);

impl Counted {
    pub(super) fn from(start: u32) -> Self {
        Self(AtomicU32::new(start))
    }
}

impl Entropy for Counted {
    fn fill(&self, bytes: &mut [u8]) {
        let number = self.0.fetch_add(1, Ordering::Relaxed);
        bytes.fill(u8::try_from(number).unwrap());
    }
}

/// A folder of its own for a test, gone when the test is.
pub(super) struct Folder(PathBuf);

impl Folder {
    #[expect(clippy::disallowed_methods, reason = "these tests run where there is one")]
    pub(super) fn new() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let path = std::env::temp_dir().join(format!("slingseal-store-{}-{count}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    pub(super) fn file(&self) -> PathBuf {
        self.0.join("home.db")
    }

    pub(super) fn open(&self) -> (Store, Opened) {
        Store::open(&self.file(), at(0), &Counted::from(7)).unwrap()
    }

    pub(super) fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(&self.0)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// Seconds after the start of the scenario's day.
pub(super) fn at(seconds: i64) -> Time {
    Time::from_unix(1_783_600_000 + seconds)
}

pub(super) fn note(body: &[u8]) -> NewEntry<'_> {
    NewEntry { kind: "note", walk: None, body, time: at(1) }
}

pub(super) fn append(store: &mut Store, body: &[u8]) -> Entry {
    store.write(|tx| tx.append(note(body))).unwrap()
}

/// The made-up bytes of a seal or of a full record.
pub(super) fn bytes_of(what: &str, record: Digest) -> Vec<u8> {
    [what.as_bytes(), record.as_bytes()].concat()
}

pub(super) fn row(number: u32) -> RecordRow {
    let digest = Digest::of(&number.to_be_bytes());
    RecordRow {
        seal: Digest::of(&bytes_of("seal", digest)),
        digest,
        load: format!("KM-{number:03}"),
        tag: Some(Digest::of(b"tag")),
        procedure: "cargo-bag".into(),
        outcome: Outcome::Fit,
        inspector: "Anvil 3".into(),
        rigger: "Mason 5".into(),
        place: "Kestrel Meadow".into(),
        aircraft: "Heron M2".into(),
        mass_g: Some(1_200_000),
        found: 1,
        corrected: 1,
        issued: at(i64::from(number)),
        valid_until: at(i64::from(number) + 86_400),
        judged: Judged::not_yet(Outcome::Fit),
        author: None,
        device: Some(DeviceId([7; 16])),
        received: at(i64::from(number) + 60),
    }
}

/// How the record of a row was walked.
pub(super) fn facts(row: &RecordRow) -> WalkFactsRow {
    WalkFactsRow {
        seal: row.seal,
        device: DeviceId([7; 16]),
        took: Seconds(600),
        cards: 40,
        head: row.issued.unix().unsigned_abs(),
        before: Some(Digest::of(&bytes_of("before", row.digest))),
    }
}

pub(super) fn put(store: &mut Store, row: &RecordRow) -> Put {
    let deficiencies = [DeficiencyRow {
        procedure: row.procedure.clone(),
        point: "side-1.lateral-2.twist".into(),
        name: "twisted".into(),
        rigger: row.rigger.clone(),
        corrected: true,
    }];
    let equipment = [EquipmentRow { serial: "CH-0417".into(), kind: "chain leg".into() }];
    let new = NewRecord {
        row,
        seal: &bytes_of("seal", row.digest),
        body: Some(&bytes_of("body", row.digest)),
        deficiencies: &deficiencies,
        equipment: &equipment,
        facts: Some(&facts(row)),
        words: "drinking water",
    };
    store.write(|tx| tx.put_record(&new)).unwrap()
}
