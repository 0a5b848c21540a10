//! Homes, records and bundles damaged by someone who knows the program: each time the audit names the thing.

use rusqlite::Connection;
use rusqlite::functions::FunctionFlags;
use rusqlite::types::ValueRef;

use super::*;
use slingseal_account::sync::{BundleReader, BundleWriter, ItemKind, Piece, RecordItem};
use slingseal_journal::{DeviceId, Entry, WalkId};
use slingseal_message::envelope::unwrap;
use slingseal_message::seal::{JournalEntry, Outcome, ReceivedSeal, Record, Seal, TagPrint};
use slingseal_message::trust::{Passphrase, SecretKey, Vault};
use slingseal_store::Tx;
use slingseal_words::{ProcedureId, Quantity};

mod foreign;

/// An inspector who planned and sealed three loads, the second refused, and a void of the first.
struct Day {
    zone: Zone,
    authority: App,
    seals: Vec<SealView>,
}

pub(super) fn seal_one(zone: &Zone, app: &App, load: &str, fit: bool) -> SealView {
    let tag = app.write_tag(&PLAN.replace("KM-014", load), &no_file, Some(PIN)).unwrap().code.text;
    let view = walk_all(app, app.begin_walk(&tag).unwrap());
    let reason = (!fit).then(|| "the leader wants another sling".to_owned());
    let view = app.do_walk(&view.walk, &WalkRequest::Decide { fit, reason }).unwrap();
    assert_eq!(view.refused, None);
    zone.pass(60);
    app.seal(&view.walk, PIN, Some(6)).unwrap()
}

fn short(seal: &SealView) -> String {
    Digest::from_hex(&seal.record).unwrap().short()
}

impl Day {
    fn new() -> (Self, App) {
        let zone = Zone::new();
        let authority = zone.home("authority");
        authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
        let inspector = zone.device(&authority, "inspector", "Anvil 3", "inspector,planner");
        let mut seals = Vec::new();
        for (load, fit) in [("KM-014", true), ("KM-015", false), ("KM-016", true)] {
            seals.push(seal_one(&zone, &inspector, load, fit));
        }
        inspector.void(&seals[0].record, crate::VoidCause::LoadMoved, None, PIN).unwrap();
        (Self { zone, authority, seals }, inspector)
    }

    fn short(&self, at: usize) -> String {
        short(&self.seals[at])
    }

    fn desk(&self, name: &'static str) -> App {
        let desk = self.zone.home(name);
        meet(&desk, &self.authority);
        desk
    }

    /// A copy of the inspector's home, changed from outside, and what the audit says of it.
    fn damaged(&self, act: impl FnOnce(&Forger)) -> Vec<String> {
        let copy = tempfile::tempdir().unwrap();
        let from = self.zone.folder.path().join("inspector");
        for file in ["slingseal.db", "slingseal.db-seen"] {
            std::fs::copy(from.join(file), copy.path().join(file)).unwrap();
        }
        let forger = Forger::open(&copy.path().join("slingseal.db"));
        act(&forger);
        drop(forger);
        self.zone.open(copy.path(), "inspector").unwrap().audit().unwrap().faults
    }
}

/// Somebody who opens the file with another program, and knows how its check sums are made.
pub(super) struct Forger(Connection);

impl Forger {
    pub(super) fn open(path: &Path) -> Self {
        let conn = Connection::open(path).unwrap();
        // As the table's documentation says: a type byte each, integers in eight bytes, the others behind their length.
        let flags = FunctionFlags::SQLITE_UTF8 | FunctionFlags::SQLITE_DETERMINISTIC;
        conn.create_scalar_function("row_sum", -1, flags, |context| {
            let mut canon = Vec::new();
            for at in 0..context.len() {
                match context.get_raw(at) {
                    ValueRef::Null => canon.push(0),
                    ValueRef::Integer(number) => {
                        canon.extend([vec![1], number.to_be_bytes().to_vec()].concat())
                    }
                    ValueRef::Text(bytes) | ValueRef::Blob(bytes) => {
                        canon.push(if matches!(context.get_raw(at), ValueRef::Text(_)) { 2 } else { 3 });
                        canon.extend((bytes.len() as u64).to_be_bytes());
                        canon.extend_from_slice(bytes);
                    }
                    ValueRef::Real(_) => unreachable!("no column holds a real"),
                }
            }
            Ok(Digest::of(&canon).as_bytes()[..8].to_vec())
        })
        .unwrap();
        conn.execute_batch("DROP TRIGGER journal_is_not_rewritten; DROP TRIGGER journal_is_not_cut;")
            .unwrap();
        Self(conn)
    }

    pub(super) fn run(&self, sql: &str, params: impl rusqlite::Params) {
        assert!(self.0.execute(sql, params).unwrap() > 0, "nothing was changed by {sql}");
    }

    pub(super) fn script(&self, sql: &str) {
        self.0.execute_batch(sql).unwrap();
    }

    /// Makes every check sum of a table anew.
    pub(super) fn reseal(&self, table: &str) {
        let mut columns: Vec<String> = self
            .0
            .prepare(&format!("SELECT * FROM {table}"))
            .unwrap()
            .column_names()
            .map(str::to_owned)
            .collect();
        assert_eq!(columns.pop().as_deref(), Some("sum"));
        self.run(&format!("UPDATE {table} SET sum = row_sum({})", columns.join(", ")), []);
    }

    fn journal(&self) -> Vec<Entry> {
        let sql = "SELECT seq, time, kind, walk, body, prev, digest FROM journal ORDER BY seq";
        let mut statement = self.0.prepare(sql).unwrap();
        let digest = |bytes: Vec<u8>| Digest::from_slice(&bytes).unwrap();
        statement
            .query_map([], |row| {
                Ok(Entry {
                    seq: row.get::<_, i64>(0)? as u64,
                    time: Time::from_unix(row.get(1)?),
                    kind: row.get(2)?,
                    walk: row.get::<_, Option<Vec<u8>>>(3)?.map(|id| WalkId(id.try_into().unwrap())),
                    body: row.get(4)?,
                    prev: digest(row.get(5)?),
                    digest: digest(row.get(6)?),
                })
            })
            .unwrap()
            .collect::<Result<_, _>>()
            .unwrap()
    }

    /// Puts another journal in the place of this one, every link of it made anew from an entry on.
    fn put_journal(&self, mut entries: Vec<Entry>, from: usize) {
        for at in from..entries.len() {
            entries[at].seq = at as u64 + 1;
            entries[at].prev = entries[at - 1].digest;
            entries[at].digest = entries[at].derive_digest();
        }
        self.run("DELETE FROM journal", []);
        for entry in entries {
            self.run(
                "INSERT INTO journal (seq, time, kind, walk, body, prev, digest) VALUES (?, ?, ?, ?, ?, ?, ?)",
                rusqlite::params![
                    entry.seq as i64,
                    entry.time.unix(),
                    entry.kind,
                    entry.walk.map(|walk| walk.0.to_vec()),
                    entry.body,
                    entry.prev.as_bytes().to_vec(),
                    entry.digest.as_bytes().to_vec(),
                ],
            );
        }
    }
}

#[track_caller]
fn named(faults: &[String], what: &str) {
    assert!(
        faults.first().is_some_and(|first| first.contains(what)),
        "wanted first: {what}\nfound: {faults:#?}"
    );
}

#[test]
fn a_sound_home_has_no_fault() {
    let (day, inspector) = Day::new();
    let audit = inspector.audit().unwrap();
    assert_eq!((audit.faults.clone(), audit.notes.clone(), audit.records), (vec![], vec![], 3), "{audit:?}");
    // An authority's card, its roster, a credential, three tags, a void.
    assert_eq!(audit.papers, 7);
    drop(inspector);
    assert_eq!(day.damaged(|_| {}), [""; 0], "nor has its copy");
}

/// The journal: each kind of damage, by someone who cannot make the digests and by someone who can.
#[test]
fn the_first_bad_journal_entry_is_named() {
    let (day, inspector) = Day::new();
    drop(inspector);
    named(
        &day.damaged(|forger| {
            forger.run("UPDATE journal SET body = CAST(body || ' ' AS BLOB) WHERE seq = 40", [])
        }),
        "journal entry 40 was rewritten",
    );
    named(
        &day.damaged(|forger| forger.run("DELETE FROM journal WHERE seq = 40", [])),
        "journal entry 40 is missing",
    );
    named(
        &day.damaged(|forger| {
            forger.run("UPDATE journal SET seq = 100000 WHERE seq = 40", []);
            forger.run("UPDATE journal SET seq = 40 WHERE seq = 41", []);
            forger.run("UPDATE journal SET seq = 41 WHERE seq = 100000", []);
        }),
        "journal entry 40 stands where entry 41 belongs",
    );
    named(
        &day.damaged(|forger| {
            let mut entry = forger.journal().remove(39);
            entry.time = entry.time.plus(Seconds(1));
            forger.run(
                "UPDATE journal SET time = ?, digest = ? WHERE seq = 40",
                rusqlite::params![entry.time.unix(), entry.derive_digest().as_bytes().to_vec()],
            );
        }),
        "journal entry 41 does not follow entry 40",
    );
}

/// Every digest behind the change is made anew, so that the chain is sound in itself: the sealed records know better.
#[test]
fn a_journal_that_was_written_anew_is_known_by_the_records() {
    let (day, inspector) = Day::new();
    drop(inspector);
    let faults = day.damaged(|forger| {
        let mut entries = forger.journal();
        entries[69].time = entries[69].time.plus(Seconds(1));
        forger.put_journal(entries, 69);
        std::fs::remove_file(Path::new(forger.0.path().unwrap()).with_file_name("slingseal.db-seen"))
            .unwrap();
    });
    named(
        &faults,
        &format!("record {} (load KM-015): this device's journal has another entry 70", day.short(1)),
    );
    // The last record and every trace of it in the journal's end are taken away, and the record is left: it is named.
    let faults = day.damaged(|forger| {
        let mut entries = forger.journal();
        entries.truncate(entries.len() - 1);
        forger.put_journal(entries, usize::MAX);
        std::fs::remove_file(Path::new(forger.0.path().unwrap()).with_file_name("slingseal.db-seen"))
            .unwrap();
    });
    assert_eq!(
        faults, [""; 0],
        "the last entry says only that the record was sealed, and no later record leans on it"
    );
    let faults = day.damaged(|forger| {
        let mut entries = forger.journal();
        entries.truncate(entries.len() - 2);
        forger.put_journal(entries, usize::MAX);
        std::fs::remove_file(Path::new(forger.0.path().unwrap()).with_file_name("slingseal.db-seen"))
            .unwrap();
    });
    named(&faults, &format!("record {} (load KM-016): this device's journal has lost entry", day.short(2)));
    // With the note of how far the journal had come in its place, one entry is enough.
    let faults = day.damaged(|forger| {
        let mut entries = forger.journal();
        entries.truncate(entries.len() - 1);
        forger.put_journal(entries, usize::MAX);
    });
    named(&faults, "its files were removed or replaced");
}

#[test]
fn a_damaged_record_is_named() {
    let (day, inspector) = Day::new();
    drop(inspector);
    let id = |at: usize| {
        let digest = unhex(&day.seals[at].record);
        (digest.clone(), "(SELECT id FROM records WHERE digest = ?1)", digest)
    };
    let second = format!("record {} (load KM-015)", day.short(1));
    // A row that was taken out.
    let faults = day.damaged(|forger| {
        let (digest, of, _) = id(1);
        for table in ["deficiencies", "equipment", "walk_facts", "record_bytes"] {
            forger.0.execute(&format!("DELETE FROM {table} WHERE record = {of}"), [&digest]).unwrap();
        }
        forger.run("DELETE FROM records WHERE digest = ?1", [&digest]);
    });
    named(&faults, &format!("record {}, sealed here", day.short(1)));
    assert!(faults[0].contains("is missing"), "{faults:?}");
    assert!(
        faults.iter().any(|fault| fault.contains(&format!("before record {}", day.short(2)))),
        "{faults:?}"
    );
    // Its walk alone.
    let faults = day.damaged(|forger| {
        let (digest, of, _) = id(1);
        forger.run(&format!("UPDATE record_bytes SET body = NULL WHERE record = {of}"), [&digest]);
        forger.reseal("record_bytes");
    });
    named(&faults, "has lost its walk");
    // A byte of the record: of the outcome, so that a refusal reads as fit.
    let faults = day.damaged(|forger| {
        let (digest, of, _) = id(1);
        let body: Vec<u8> = forger
            .0
            .query_row("SELECT bytes FROM bodies WHERE digest = ?1", [&digest], |row| row.get(0))
            .unwrap();
        let mut record = Record::parse(&body, &crate::walks::record::entry_digest).unwrap();
        record.outcome = slingseal_message::seal::Outcome::Fit;
        let body = record.to_bytes(&crate::walks::record::entry_digest);
        let own = Digest::of(&body).as_bytes().to_vec();
        forger.run("INSERT INTO bodies (digest, bytes) VALUES (?1, ?2)", (&own, &body));
        forger.run(&format!("UPDATE record_bytes SET body = ?2 WHERE record = {of}"), (&digest, own));
        forger.reseal("record_bytes");
    });
    named(&faults, &format!("{second}: load KM-015: the record was changed after it was sealed"));
    // Another record's bytes in its place, seal and all.
    let faults = day.damaged(|forger| {
        let (digest, of, _) = id(1);
        let first = "(SELECT id FROM records WHERE digest = ?2)";
        forger.run(
            &format!(
                "UPDATE record_bytes SET seal = (SELECT seal FROM record_bytes WHERE record = {first}),
                 body = (SELECT body FROM record_bytes WHERE record = {first}) WHERE record = {of}"
            ),
            (&digest, id(0).0),
        );
        forger.reseal("record_bytes");
    });
    named(&faults, &format!("{second}: its seal is of another record"));
    // Lines of the list, one after another: what a leader reads there is what was signed.
    for (change, what) in [
        ("outcome = 'fit'", "its line tells another outcome than its seal"),
        ("load = 'KM-099'", "its line names another load than its seal"),
        ("inspector = 'Lantern 1'", "its line names another inspector"),
        ("issued = issued + 1", "its line tells another time"),
        ("valid_until = valid_until + 1", "its line tells another validity"),
        ("found = found + 1", "its line counts other deficiencies"),
        ("tag = zeroblob(32)", "its line names another tag"),
        ("standing = 'voided'", "its line says voided, and by what is known here it is not_fit"),
    ] {
        let faults = day.damaged(|forger| {
            forger.run(&format!("UPDATE records SET {change} WHERE digest = ?1"), [id(1).0]);
            forger.reseal("records");
        });
        assert!(faults.len() == 1 && faults[0].contains(what), "{change}: {faults:#?}");
    }
    // One whose check sum was not made anew: by whom it was found, and which it is.
    let faults =
        day.damaged(|forger| forger.run("UPDATE records SET outcome = 'fit' WHERE digest = ?1", [id(1).0]));
    assert!(
        faults.iter().any(|fault| fault.starts_with(&format!("record {}: ", day.short(1)))
            && fault.contains("does not match its check sum")),
        "{faults:#?}"
    );
}

fn unhex(text: &str) -> Vec<u8> {
    Digest::from_hex(text).unwrap().as_bytes().to_vec()
}

#[test]
fn a_damaged_paper_is_named() {
    let (day, inspector) = Day::new();
    drop(inspector);
    let faults = day.damaged(|forger| forger.run("DELETE FROM voids", []));
    named(
        &faults,
        &format!(
            "record {} (load KM-014): its line says voided, and by what is known here it is fit",
            day.short(0)
        ),
    );
    let flip = |forger: &Forger, table: &str| {
        let bytes: Vec<u8> =
            forger.0.query_row(&format!("SELECT bytes FROM {table} LIMIT 1"), [], |row| row.get(0)).unwrap();
        let mut other = bytes.clone();
        *other.last_mut().unwrap() ^= 1;
        forger.run(&format!("UPDATE {table} SET bytes = ?2 WHERE bytes = ?1"), (bytes, other));
        forger.reseal(table);
    };
    for (table, what) in [
        ("voids", "the void"),
        ("rosters", "the roster of Sela Relief"),
        ("authorities", "the card of the authority Sela Relief"),
        ("credentials", "the credential"),
    ] {
        let faults = day.damaged(|forger| flip(forger, table));
        assert!(
            faults.iter().any(|fault| fault.contains(what) && fault.contains("does not match")),
            "{table}: {faults:#?}"
        );
    }
    let faults = day.damaged(|forger| {
        flip(forger, "tags");
    });
    assert!(faults[0].contains("the tag of load"), "{faults:#?}");
}

/// The worst case: the inspector's own key, and a program that writes what it likes.
struct Dishonest {
    key: SecretKey,
    credential: Vec<u8>,
}

impl Dishonest {
    /// With the PIN and the device's secret.
    fn of(zone: &Zone, seal: &SealView) -> Self {
        let (_, bytes) = unwrap(&seal.code.text).unwrap();
        let received = ReceivedSeal::open(&bytes).unwrap();
        let credential = received.message.header.credential.unwrap().to_vec();
        let conn = Connection::open(zone.folder.path().join("inspector/slingseal.db")).unwrap();
        let vault: Vec<u8> =
            conn.query_row("SELECT bytes FROM vaults WHERE name = 'device'", [], |row| row.get(0)).unwrap();
        let key = Vault::from_bytes(vault).unlock(&Passphrase::entered(PIN), b"inspector").unwrap();
        Self { key, credential }
    }

    /// The record of a bundle, changed and sealed anew.
    fn again(&self, item: RecordItem, change: impl FnOnce(&mut Record, &mut Seal)) -> RecordItem {
        let digest_of = &crate::walks::record::entry_digest;
        let mut seal = ReceivedSeal::open(&item.seal).unwrap().seal;
        let mut record = Record::parse(&item.record.unwrap(), digest_of).unwrap();
        change(&mut record, &mut seal);
        let body = record.to_bytes(digest_of);
        seal.record = Digest::of(&body);
        let unsigned = seal.prepare(&self.credential);
        let bytes = unsigned.finish(&self.key.sign(&unsigned.to_be_signed()));
        RecordItem { seal: bytes, record: Some(body) }
    }
}
