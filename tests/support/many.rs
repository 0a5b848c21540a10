//! Sealed records by the thousand: one real walk, told again for other loads, each signed anew.

use std::path::Path;

use slingseal_account::sync::{BundleReader, BundleWriter, ItemKind, Piece, RecordItem};
use slingseal_app::{App, BundleRequest, NextStep, WalkRequest};
use slingseal_journal::{Entry, WalkId};
use slingseal_message::envelope::{Kind, Writer, wrap};
use slingseal_message::movement::{
    JournalEnd, Movement, MovementEvent, PieceState, ShownVerdict, VerdictShown,
};
use slingseal_message::seal::{JournalEntry, Outcome, Record, Seal, TagPrint};
use slingseal_message::tag::{Equipment, ReceivedTag};
use slingseal_message::trust::{Authority, Credential, DEFAULT_VALIDITY, Role, Roles, SecretKey};
use slingseal_words::{CallSign, Digest, LoadNumber, Name, Seconds, Serial, Time};

use crate::scripted::{PIN, Scripted, WILD, open, set_up};

/// What is told again.
pub struct Many {
    record: Record,
    authority: SecretKey,
    inspector: SecretKey,
    credential: Vec<u8>,
    hookup: Vec<u8>,
    own_devices: bool,
    pieces: Option<u32>,
}

/// Reports of each load.
pub const REPORTS: u32 = 6;

/// An entry's place in its journal's chain.
pub fn digest_of(entry: &JournalEntry, walk: &[u8; 16]) -> Digest {
    let JournalEntry { seq, prev, time, kind, body } = entry.clone();
    Entry { seq, time, kind, walk: Some(WalkId(*walk)), body, prev, digest: prev }.derive_digest()
}

/// The first record of a bundle.
fn first_record(app: &App) -> Record {
    let mut bytes = Vec::new();
    app.bundle_write(&BundleRequest::default(), &mut bytes).expect("a bundle is written");
    let mut input: &[u8] = &bytes;
    let mut reader = BundleReader::begin(&mut input).expect("it reads").expect("a bundle");
    while let Some(piece) = reader.next_piece().expect("it reads") {
        if let Piece::Item(item) = piece
            && item.kind == ItemKind::Record
        {
            let item = RecordItem::parse(&item.body).expect("a record");
            return Record::parse(&item.record.expect("a whole record"), &digest_of).expect("a record");
        }
    }
    panic!("the bundle has no record");
}

fn hookup_key() -> SecretKey {
    SecretKey::from_seed(&[3; 32])
}

fn piece(kind: &str, serial: &str) -> Equipment {
    Equipment {
        kind: Name::new(kind).expect("a name"),
        serial: Serial::new(serial).expect("a serial number"),
        rating: None,
        next_inspection: Time::parse("2027-01-15").ok(),
    }
}

impl Many {
    /// Walks one load in a home below the folder.
    ///
    /// # Panics
    /// Where something of it fails.
    pub fn new(folder: &Path) -> Self {
        let (home, tag) = set_up(folder);
        let (app, clock) = open(&home, "inspector").expect("the home opens");
        let script = Scripted { app: &app, clock: &clock, tag: &tag, seed: 5 };
        let walk = app.begin_walk(&tag).expect("a walk begins").walk;
        for number in WILD.. {
            match script.view().expect("a view").expect("a walk in hand").next {
                NextStep::Decide => break,
                _ => assert!(script.step(number).expect("a step")),
            }
        }
        app.do_walk(&walk, &WalkRequest::Decide { fit: true, reason: None }).expect("a decision");
        app.seal(&walk, PIN, None).expect("a seal");
        let record = first_record(&app);
        let (authority, inspector) = (SecretKey::from_seed(&[1; 32]), SecretKey::from_seed(&[2; 32]));
        let credential = |holder: &CallSign, role: Role, key: &SecretKey| {
            Credential {
                holder: holder.clone(),
                roles: Roles::of(&[role]),
                expires: record.decided.plus(Seconds::days(3_650)),
                longest_validity: DEFAULT_VALIDITY,
                key: key.public(),
            }
            .issue(&authority)
        };
        let hookup =
            credential(&CallSign::new("Thistle 7").expect("a call sign"), Role::Hookup, &hookup_key());
        let credential = credential(&record.inspector, Role::Inspector, &inspector);
        Self { record, authority, inspector, credential, hookup, own_devices: false, pieces: None }
    }

    /// Each record from a device of its own, so that the chains of all of them hold: one journal cannot begin twice.
    #[must_use]
    pub fn of_own_devices(mut self) -> Self {
        self.own_devices = true;
        self
    }

    /// Each load with two pieces of equipment; so many loads have their own, then their serial numbers begin again.
    #[must_use]
    pub fn of_pieces(mut self, loads: u32) -> Self {
        self.pieces = Some(loads);
        self
    }

    /// The card of the authority that signed for the inspector, and its fingerprint.
    pub fn card(&self) -> (String, String) {
        let name = Name::new("Sela Relief").expect("a name");
        let card = Authority::sign(&name, self.record.decided, &self.authority);
        (wrap(Kind::Authority, &card), self.authority.public().fingerprint())
    }

    /// The record of a number: its load, its tag and its walk are its own.
    ///
    /// # Panics
    /// Never for numbers below a million.
    pub fn record(&self, number: u32) -> RecordItem {
        self.record_and_tag(number).0
    }

    fn record_and_tag(&self, number: u32) -> (RecordItem, Vec<u8>) {
        let mut record = self.record.clone();
        let received = ReceivedTag::open(&record.tag).expect("a tag");
        let old = (format!("\"{}\"", received.tag.load), received.digest.to_string());
        let mut tag = received.tag;
        tag.load = LoadNumber::new(&format!("KM-{number:06}")).expect("a load number");
        if let Some(loads) = self.pieces {
            let own = number % loads;
            tag.equipment = [("sling leg", "SL"), ("apex shackle", "AP")]
                .map(|(kind, serial)| piece(kind, &format!("{serial}-{own:05}")))
                .to_vec();
        }
        let content = tag.content();
        let bytes = tag.claims(&content).to_bytes();
        let new = (format!("\"{}\"", tag.load), Digest::of(&bytes).to_string());
        record.walk = [&[7u8; 12][..], &number.to_be_bytes()].concat().try_into().expect("sixteen bytes");
        record.before = None;
        if self.own_devices {
            record.device =
                [&[9u8; 12][..], &number.to_be_bytes()].concat().try_into().expect("sixteen bytes");
        }
        for at in 0..record.entries.len() {
            let prev = at.checked_sub(1).map(|before| digest_of(&record.entries[before], &record.walk));
            let entry = &mut record.entries[at];
            entry.prev = prev.unwrap_or(entry.prev);
            if entry.kind == "event" {
                let text = String::from_utf8(entry.body.clone()).expect("events are JSON");
                entry.body = text.replace(&old.0, &new.0).replace(&old.1, &new.1).into_bytes();
            } else {
                let mut out = Writer::new();
                out.array(3).bytes(&bytes).bytes(record.procedure_digest.as_bytes());
                out.text(record.inspector.as_str());
                entry.body = out.into_bytes();
            }
        }
        let last = record.entries.last().expect("a walk has entries");
        record.head = (last.seq, digest_of(last, &record.walk));
        record.tag = bytes;
        let whole = record.to_bytes(&digest_of);
        let [a, b, c, d, ..] = *record.procedure_digest.as_bytes();
        let issued: Time = record.decided.plus(Seconds(i64::from(number)));
        let seal = Seal {
            load: tag.load.clone(),
            issued,
            valid_until: issued.plus(DEFAULT_VALIDITY),
            tag: TagPrint::of(&Digest::of(&record.tag)),
            tag_signed: false,
            procedure: record.procedure.clone(),
            version: record.version,
            procedure_print: [a, b, c, d],
            outcome: Outcome::Fit,
            found: 0,
            corrected: 0,
            mass: tag.gross,
            record: Digest::of(&whole),
        };
        let unsigned = seal.prepare(&self.credential);
        let seal = unsigned.finish(&self.inspector.sign(&unsigned.to_be_signed()));
        (RecordItem { seal, record: Some(whole) }, record.tag)
    }

    /// What a hookup team signed of a number's load, each a minute behind the other: lifted, the same once more by whoever looked on,
    /// set down, derigged, and two pieces back.
    ///
    /// # Panics
    /// Never for numbers below a million.
    pub fn reports(&self, number: u32) -> Vec<Vec<u8>> {
        use MovementEvent::{Derigged, Lifted, Returned, SetDown};
        let key = hookup_key();
        let begun: Time = self.record.decided.plus(Seconds(i64::from(number) + 600));
        let events = [Lifted, Lifted, SetDown, Derigged, Returned, Returned];
        let mut before: Option<Digest> = None;
        let mut reports = Vec::new();
        for (at, event) in (0_u32..).zip(events) {
            let serial = Serial::new(&format!("SS-{number:06}-{at}")).expect("a serial number");
            let piece = PieceState { serial, back: true, damaged: false };
            let movement = Movement {
                load: LoadNumber::new(&format!("KM-{number:06}")).expect("a load number"),
                event,
                issued: begun.plus(Seconds(60 * i64::from(at))),
                happened: None,
                // A device a load: their chains are whole.
                device: [&[8u8; 12][..], &number.to_be_bytes()].concat().try_into().expect("sixteen bytes"),
                journal: JournalEnd { seq: u64::from(at) + 1, digest: Digest::of(&at.to_be_bytes()) },
                before,
                seal: None,
                shown: (event == Lifted).then_some(VerdictShown { verdict: ShownVerdict::Go, reason: None }),
                aircraft: None,
                place: None,
                photos: Vec::new(),
                pieces: if event == Returned { vec![piece] } else { Vec::new() },
                note: None,
            };
            let unsigned = movement.prepare(&self.hookup);
            let bytes = unsigned.finish(&key.sign(&unsigned.to_be_signed()));
            before = Some(Digest::of(&bytes));
            reports.push(bytes);
        }
        reports
    }

    /// A bundle of the records of these numbers with their tags, and of these reports.
    ///
    /// # Panics
    /// Where one of them is too long for a bundle, which none is.
    pub fn bundle_with(&self, records: std::ops::Range<u32>, reports: &[Vec<u8>]) -> Vec<u8> {
        let mut writer = BundleWriter::begin(Vec::new()).expect("memory takes it");
        for number in records {
            let (record, tag) = self.record_and_tag(number);
            for (kind, body) in [(ItemKind::Record, record.to_bytes()), (ItemKind::Tag, tag)] {
                writer.add(kind, &body).expect("memory takes it").expect("it is short enough");
            }
        }
        for report in reports {
            writer.add(ItemKind::Movement, report).expect("memory takes it").expect("it is short enough");
        }
        writer.finish().expect("memory takes it")
    }

    /// A bundle of so many records; `touch` may damage the bytes of an item before its check sum is made.
    ///
    /// # Panics
    /// Where a record is too long for a bundle, which none is.
    pub fn bundle(&self, records: u32, touch: impl Fn(u32, &mut Vec<u8>)) -> Vec<u8> {
        let mut writer = BundleWriter::begin(Vec::new()).expect("memory takes it");
        for number in 0..records {
            let mut body = self.record(number).to_bytes();
            touch(number, &mut body);
            writer.add(ItemKind::Record, &body).expect("memory takes it").expect("it is short enough");
        }
        writer.finish().expect("memory takes it")
    }
}
