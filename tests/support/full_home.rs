//! A home with something in every table, and everything that can be read of it.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::atomic::{AtomicU8, Ordering};

use slingseal_journal::{DeviceId, Entry, Head, NewEntry, WalkId};
use slingseal_store::{
    AuthorityRow, CredentialRow, DeficiencyRow, EquipmentRow, ExamPaper, ExamPaperRow, ExamRunRow, FlowRow,
    HeadRow, Judged, LoadRow, NewRecord, Opened, Outcome, ProcedureTextRow, RecordFilter, RecordRow,
    RosterRow, RunState, Standing, Store, StoreError, TagRow, VoidRow, WalkFactsRow, WalkRow, WalkState,
};
use slingseal_words::{Digest, Entropy, Seconds, Time};

struct Counted(AtomicU8);

impl Entropy for Counted {
    fn fill(&self, bytes: &mut [u8]) {
        bytes.fill(self.0.fetch_add(1, Ordering::Relaxed));
    }
}

/// A time of the day that the home is of.
pub fn at(seconds: i64) -> Time {
    Time::from_unix(1_783_600_000 + seconds)
}

/// Opens the database `home.db` in a folder. `first` is the first byte of its randomness.
///
/// # Errors
/// Those of [`Store::open`].
pub fn open(folder: &Path, first: u8) -> Result<(Store, Opened), StoreError> {
    Store::open(&folder.join("home.db"), at(0), &Counted(AtomicU8::new(first)))
}

/// The bytes of a made-up seal.
pub fn seal_bytes(number: u32) -> Vec<u8> {
    number.to_be_bytes().repeat(75)
}

/// The columns of a made-up record.
pub fn record(number: u32) -> RecordRow {
    let outcome = if number.is_multiple_of(7) { Outcome::NotFit } else { Outcome::Fit };
    RecordRow {
        seal: Digest::of(&seal_bytes(number)),
        digest: Digest::of(&number.to_be_bytes()),
        load: format!("KM-{number:04}"),
        tag: Some(Digest::of(&[1, (number % 200) as u8])),
        procedure: ["bag", "net", "vehicle"][number as usize % 3].into(),
        outcome,
        inspector: ["Anvil 3", "Anvil 4", "Thistle 7"][number as usize % 3].into(),
        rigger: ["Mason 5", "Mason 6"][number as usize % 2].into(),
        place: "Kestrel Meadow".into(),
        aircraft: ["Heron M2", "Drover H4"][number as usize % 2].into(),
        mass_g: Some(800_000 + i64::from(number)),
        found: 1,
        corrected: 1,
        issued: at(i64::from(number) * 60),
        valid_until: at(i64::from(number) * 60 + 86_400),
        judged: Judged::not_yet(outcome),
        author: None,
        device: Some(DeviceId([9; 16])),
        received: at(i64::from(number) * 60 + 30),
    }
}

/// How a made-up record was walked.
fn walk_facts(number: u32) -> WalkFactsRow {
    walked(number, record(number).seal)
}

/// How a made-up record under some seal was walked.
pub fn walked(number: u32, seal: Digest) -> WalkFactsRow {
    WalkFactsRow {
        seal,
        device: DeviceId([9; 16]),
        took: Seconds(300 + i64::from(number)),
        cards: 40,
        head: u64::from(number) * 60,
        before: number.checked_sub(1).map(|before| record(before).digest),
    }
}

/// Fills an open home.
///
/// # Errors
/// Those of the store.
pub fn fill(store: &mut Store) -> Result<(), StoreError> {
    store.write(|tx| {
        for number in 0..40u32 {
            let (row, bytes) = (record(number), number.to_be_bytes());
            let deficiencies = [DeficiencyRow {
                procedure: row.procedure.clone(),
                point: "side-1.lateral-2.twist".into(),
                name: "twisted".into(),
                rigger: row.rigger.clone(),
                corrected: true,
            }];
            let equipment =
                [EquipmentRow { serial: format!("CH-{:04}", number % 5), kind: "chain leg".into() }];
            tx.put_record(&NewRecord {
                row: &row,
                seal: &seal_bytes(number),
                body: Some(&bytes.repeat(500)),
                deficiencies: &deficiencies,
                equipment: &equipment,
                facts: Some(&walk_facts(number)),
                words: "drinking water",
            })?;
        }
        let walk = WalkId([1; 16]);
        for number in 0..60u8 {
            let walk = number.is_multiple_of(2).then_some(walk);
            tx.append(NewEntry { kind: "event", walk, body: &[number; 200], time: at(number.into()) })?;
        }
        tx.put_walk(&WalkRow {
            id: walk,
            load: "KM-777".into(),
            procedure: "bag".into(),
            inspector: "Anvil 3".into(),
            state: WalkState::Open,
            begun: at(0),
            updated: at(59),
        })?;
        let bytes = b"a paper that came from somewhere".to_vec();
        let (received, load) = (at(1), "KM-777".to_owned());
        let digest = Digest::of(&bytes);
        tx.put_tag(&TagRow {
            digest,
            load: load.clone(),
            planned: true,
            received,
            said: None,
            author: None,
            bytes: bytes.clone(),
        })?;
        let voided = record(1);
        tx.put_void(&VoidRow {
            digest,
            record: voided.digest,
            load,
            issued: at(2),
            received,
            author: None,
            bytes: bytes.clone(),
        })?;
        let judged = Judged { standing: Standing::Voided, ..voided.judged };
        tx.set_judged(voided.seal, &judged)?;
        let (key, name) = ([3; 32], "Sela Relief".to_owned());
        tx.put_authority(&AuthorityRow { key, name, trusted: true, added: at(0), bytes: bytes.clone() })?;
        let roster = RosterRow { authority: key, sequence: 4, issued: at(0), received, bytes: bytes.clone() };
        tx.put_roster(&roster)?;
        tx.put_credential(&CredentialRow {
            digest,
            authority: key,
            holder: "Anvil 3".into(),
            roles: "inspector".into(),
            expires: at(9_000_000),
            own: true,
            received,
            bytes: bytes.clone(),
        })?;
        tx.put_quarantine(b"torn", "it is torn", received)?;
        tx.put_photo(&[7; 9_000], received)?;
        tx.put_vault("device", b"an encrypted key")?;
        tx.count_wrong_pins("device", 2, at(30))?;
        tx.put_setting("holder", b"Anvil 3")?;
        for (number, kind) in [(1, ExamPaper::Key), (2, ExamPaper::Sheet), (3, ExamPaper::Result)] {
            tx.put_exam_paper(&ExamPaperRow {
                digest: Digest::of(&[number]),
                kind,
                key: Digest::of(&[1]),
                load: "KM-778".into(),
                procedure: "bag".into(),
                student: if kind == ExamPaper::Key { String::new() } else { "Pupil 1".into() },
                made: at(number.into()),
                received,
                bytes: vec![number; 400],
            })?;
        }
        tx.put_exam_run(&ExamRunRow {
            walk: WalkId([2; 16]),
            key: Digest::of(&[1]),
            load: "KM-778".into(),
            procedure: "bag".into(),
            student: "Pupil 1".into(),
            state: RunState::Open,
            begun: at(4),
            updated: at(5),
        })?;
        let mut entry = Entry {
            seq: 1,
            time: at(5),
            kind: "event".into(),
            walk: None,
            body: b"theirs".to_vec(),
            prev: Head::empty(DeviceId([9; 16])).digest,
            digest: Digest::of(b""),
        };
        entry.digest = entry.derive_digest();
        tx.put_foreign_entry(DeviceId([9; 16]), &entry)?;
        let head = |seq, record| HeadRow {
            device: DeviceId([9; 16]),
            seq,
            digest: Digest::of(&[seq as u8]),
            record,
        };
        tx.put_stray(slingseal_store::StrayKind::Photo, Digest::of(b"stray"), 5)?;
        tx.put_heads(&[head(4, Some(record(2).digest)), head(9, None)])?;
        tx.put_load(&LoadRow {
            load: record(2).load,
            latest: record(2).seal,
            state: "fit".into(),
            issued: record(2).issued,
            valid_until: record(2).valid_until,
            turns: Some(at(40_000)),
            authorities: vec![key],
            version: 1,
        })?;
        let text = "id = \"bag\"".to_owned();
        let digest = Digest::of(text.as_bytes());
        let said = Some(("bag".to_owned(), 3, "Bags".to_owned()));
        tx.put_procedure_text(&ProcedureTextRow { digest, said, text })?;
        tx.use_procedure("bag", digest)?;
        Ok(())
    })
}

/// Everything that can be read, question by question; what cannot be read is `None`.
pub fn read_all(store: &Store) -> BTreeMap<&'static str, Option<String>> {
    fn shown<T: std::fmt::Debug>(answer: Result<T, StoreError>) -> Option<String> {
        answer.ok().map(|answer| format!("{answer:?}"))
    }
    fn vault(store: &Store) -> Result<String, StoreError> {
        let vault = store.read().vault("device")?;
        Ok(vault
            .map_or("none".into(), |row| format!("{row:?} {:?} {} {}", row.bytes, row.wrong, row.not_before)))
    }
    fn flows(store: &Store) -> Result<Vec<FlowRow>, StoreError> {
        let read = store.read();
        read.next_stretch(None)?.map_or(Ok(Vec::new()), |all| read.flows_in(&all))
    }
    fn loads(store: &Store) -> Result<Vec<LoadRow>, StoreError> {
        let read = store.read();
        read.next_stretch(None)?.map_or(Ok(Vec::new()), |all| read.loads_in(&all))
    }
    fn exams(store: &Store) -> Result<Vec<ExamPaperRow>, StoreError> {
        let kinds = [ExamPaper::Key, ExamPaper::Sheet, ExamPaper::Result];
        Ok(kinds
            .map(|kind| store.read().exam_papers(kind))
            .into_iter()
            .collect::<Result<Vec<_>, _>>()?
            .concat())
    }
    fn facts(store: &Store) -> Result<Vec<WalkFactsRow>, StoreError> {
        let found = (0..40).filter_map(|number| store.read().walk_facts_of(record(number).seal).transpose());
        found.collect()
    }
    let read = store.read();
    let everything = RecordFilter::default();
    let mut each = Vec::new();
    let exported: Result<(), StoreError> = read.each_record(&everything, |row, bytes| {
        each.push((row, bytes));
        Ok(())
    });
    let found = |filter: RecordFilter| shown(read.records(&filter, None, 1000));
    let words = RecordFilter { words: Some("drink anvil".into()), ..everything.clone() };
    let serial = RecordFilter { serial: Some("CH-0003".into()), ..everything.clone() };
    BTreeMap::from([
        ("journal", shown(read.entries(1, 1000))),
        ("walk", shown(read.entries_of(WalkId([1; 16])))),
        ("walks", shown(read.walks_in_hand())),
        ("records", shown(exported.map(|()| each))),
        ("deficiencies", shown(read.deficiencies_of(record(5).seal))),
        ("equipment", shown(read.equipment_of(record(5).seal))),
        ("by words", found(words)),
        ("by serial", found(serial)),
        ("counts", shown(read.deficiency_counts())),
        ("tags", shown(read.tags())),
        ("voids", shown(read.voids())),
        ("authorities", shown(read.authorities())),
        ("rosters", shown(read.rosters())),
        ("credentials", shown(read.credentials())),
        ("quarantine", shown(read.quarantine(10))),
        ("photo", shown(read.photo(Digest::of(&[7; 9_000])))),
        ("vault", shown(vault(store))),
        ("setting", shown(read.setting("holder"))),
        ("exam papers", shown(exams(store))),
        ("exam runs", shown(read.exam_runs())),
        ("memory", shown(read.memory().map(|memory| (memory.judged, memory.put_back)))),
        ("procedures", shown(read.procedures_in_use())),
        ("heads", shown(read.heads())),
        ("strays", shown(read.strays())),
        ("loads", shown(loads(store))),
        ("movements", shown(read.movements())),
        ("flow", shown(flows(store))),
        ("walk facts", shown(facts(store))),
        ("closings", shown(read.closings())),
        ("foreign", shown(read.foreign_entries(DeviceId([9; 16])))),
    ])
}
