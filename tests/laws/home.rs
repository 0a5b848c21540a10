//! A home that takes words in every way, and everything that it tells of the load.

use std::collections::BTreeSet;
use std::sync::Arc;

use proptest::prelude::*;
use slingseal_account::sync::{BundleWriter, FrameWriter, ItemKind, RecordItem};
use slingseal_app::{
    App, Clock, Entropy, FrameTaken, Language, MovingReader, Outside, Received, Stretch, Time,
};
use slingseal_judgement::{Evidence, LoadWord, Memory, Reason, Verdict, judge_tag};
use slingseal_message::envelope::{Kind, wrap};
use slingseal_message::trust::{Authority, Roster, Trusted, TrustedAuthority};
use slingseal_words::{Name, Seconds};

use crate::words::{SELA, Signed, TAG, at, key, newest, roster, tag};

/// How a word comes in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Shown to the hook with the tag, or received where it is no seal.
    Scanned,
    /// By the one door for any code.
    Received,
    /// In a bundle file.
    Bundle,
    /// In the frames of an animated code.
    Animated,
}

impl Arbitrary for Way {
    type Parameters = ();
    type Strategy = BoxedStrategy<Self>;

    fn arbitrary_with((): ()) -> Self::Strategy {
        prop_oneof![Just(Self::Scanned), Just(Self::Received), Just(Self::Bundle), Just(Self::Animated)]
            .boxed()
    }
}

struct At(Time);

impl Clock for At {
    fn now(&self) -> Time {
        self.0
    }
}

struct Same;

impl Entropy for Same {
    fn fill(&self, bytes: &mut [u8]) {
        bytes.fill(7);
    }
}

/// Loads of which something that counts is told later than the time by which boards and manifests find them.
fn touched_too_early(home: &std::path::Path) -> Vec<String> {
    let kept = rusqlite::Connection::open(home.join("slingseal.db")).expect("the home's file opens");
    let sql = "SELECT load FROM flow LEFT JOIN loads USING (load)
        WHERE touched < max(coalesce(planned, 0), coalesce(happened, 0), coalesce(issued, 0))";
    let mut statement = kept.prepare(sql).expect("the columns are there");
    let loads = statement.query_map([], |row| row.get(0)).expect("the rows are read");
    loads.collect::<Result<_, _>>().expect("the rows are read")
}

/// Everything that a home tells of the load.
#[derive(Debug, PartialEq)]
pub struct Told {
    /// What the hook says of the tag.
    pub word: String,
    /// Why.
    pub reasons: Vec<String>,
    /// The load's state, by its story.
    state: String,
    /// The standing of each seal, by the list.
    lines: BTreeSet<(String, String)>,
    /// The whole export.
    export: String,
}

pub struct Home {
    folder: tempfile::TempDir,
    app: App,
    now: Time,
    revoked: u8,
}

fn open(folder: &std::path::Path, now: Time) -> App {
    let outside = Outside {
        clock: Arc::new(At(now)),
        entropy: Arc::new(Same),
        device_secret: zeroize::Zeroizing::new(vec![7; 32]),
        stretch: Stretch::weak_for_tests_only(),
        language: Language::English,
    };
    App::open(folder, outside).expect("a home opens")
}

impl Home {
    /// A home that trusts one authority, by whose roster some are revoked, and holds the tag.
    pub fn new(bits: u8, now: i64) -> Self {
        let (folder, now) = (tempfile::tempdir().expect("a folder"), at(now));
        let app = open(folder.path(), now);
        let name = Name::new("Sela Relief").expect("a name");
        let card = wrap(Kind::Authority, &Authority::sign(&name, at(-90_000), &key(SELA)));
        let Ok(Received::Authority { fingerprint, card, .. }) = app.receive(&card) else {
            panic!("the card does not read")
        };
        app.trust(&card, &fingerprint).expect("the authority is trusted");
        let bytes = roster(1, bits).sign(&key(SELA));
        let kind = Roster::kind(&bytes).expect("a roster");
        app.receive(&wrap(kind, &bytes)).expect("the roster is taken");
        let home = Self { folder, app, now, revoked: bits };
        home.app.receive(&wrap(TAG, &tag(false))).expect("the tag is taken");
        home
    }

    /// The same home after a restart, by a clock that was moved.
    pub fn restarted(self, by: i64) -> Self {
        let Self { folder, app, now, revoked } = self;
        drop(app);
        assert_eq!(touched_too_early(folder.path()), [""; 0], "no board or manifest of days would find them");
        let now = now.plus(Seconds(by));
        Self { app: open(folder.path(), now), folder, now, revoked }
    }

    /// Takes a word. One of somebody whom nobody here trusts may be refused; that is an answer.
    pub fn take(&self, word: &Signed, way: Way) {
        let text = wrap(word.kind, &word.bytes);
        match (way, word.kind) {
            (Way::Scanned, Kind::Seal) => {
                self.app.check(Some(&text), Some(&wrap(TAG, &tag(false)))).expect("a seal is judged");
            }
            (Way::Scanned | Way::Received, _) => drop(self.app.receive(&text)),
            (Way::Bundle, _) => self.read(&bundle(word)),
            (Way::Animated, _) => {
                let frames = FrameWriter::new(&bundle(word)).expect("it is short enough");
                let mut reader = MovingReader::new();
                let whole = (0..200).find_map(|number| match reader.take(&frames.text(number)) {
                    Ok(FrameTaken::Whole(bundle)) => Some(bundle),
                    _ => None,
                });
                self.read(&whole.expect("the frames come together"));
            }
        }
    }

    fn read(&self, bundle: &[u8]) {
        self.app.bundle_read(&mut &bundle[..], &mut |_| {}).expect("a bundle is read");
    }

    /// What the hook says of the tag.
    pub fn word(&self) -> String {
        self.app.check(None, Some(&wrap(TAG, &tag(false)))).expect("a tag is judged").word
    }

    /// Asks every reader, and holds them against each other.
    pub fn told(&self) -> Told {
        let app = &self.app;
        let hook = app.check(None, Some(&wrap(TAG, &tag(false)))).expect("a tag is judged");
        let story = app.load("KM-014").expect("the load is known");
        let board = app.board(3_650, 50).expect("the board is drawn");
        let columns: Vec<&str> = board
            .columns
            .iter()
            .filter(|column| column.loads.iter().any(|load| load.load == "KM-014"))
            .map(|column| column.state.word())
            .collect();
        // Before it is inspected, a load is on the board of whoever was given its plan, and not of who scanned its tag.
        let planned = story.state.word() == "planned" && columns.is_empty();
        assert!(
            planned || columns == [story.state.word()],
            "board {columns:?} and story {}",
            story.state.word()
        );
        let lines = app.records(None, 50).expect("the list is drawn");
        for line in &lines {
            let page = app.record(&line.seal).expect("its page is drawn");
            assert_eq!((&page.line.standing, page.line.state), (&line.standing, line.state), "list and page");
        }
        let mut export = Vec::new();
        app.export_json(&mut export).expect("an export is written");
        let export = String::from_utf8(export).expect("an export is text");
        let json: serde_json::Value = serde_json::from_str(&export).expect("an export is JSON");
        let exported = json["records"].as_array().expect("records").len();
        assert_eq!(exported, lines.len(), "export and list");
        assert_eq!(app.audit().expect("the audit runs").faults, [""; 0], "the audit");
        // The tag that is scanned may be another than the one that was inspected last: then the hook alone says so. A load that
        // was lifted stays where it is, and lifting it again is WAIT at best.
        if !hook.reasons.iter().any(|reason| reason.code == "tag_changed") {
            let want = match story.state.word() {
                "fit" => "GO",
                "wait" => "WAIT",
                "lifted" if hook.word == "WAIT" => "WAIT",
                _ => "NO-GO",
            };
            assert_eq!(hook.word, want, "hook and story: {:?}", hook.reasons);
        }
        Told {
            word: hook.word,
            reasons: hook.reasons.into_iter().map(|reason| reason.code).collect(),
            state: story.state.word().to_owned(),
            lines: lines.into_iter().map(|line| (line.seal, line.standing.word().to_owned())).collect(),
            export,
        }
    }

    /// What the judgement itself says of the tag beside these words.
    pub fn judged(&self, words: &[Signed]) -> (String, Vec<String>) {
        let mut trusted = Trusted::default();
        trusted.add(TrustedAuthority {
            name: Name::new("Sela Relief").expect("a name"),
            key: key(SELA).public(),
            roster: Some(roster(newest(words), self.revoked)),
        });
        let open = |kind, bytes: &[u8]| LoadWord::open(kind, bytes, &trusted).expect("a word");
        let words: Vec<LoadWord> = words
            .iter()
            .filter(|word| word.kind != Kind::RosterOfKeys)
            .map(|word| open(word.kind, &word.bytes))
            .collect();
        let words: Vec<&LoadWord> = words.iter().collect();
        let evidence = Evidence {
            trusted: &trusted,
            now: self.now,
            latest_trusted: None,
            memory: Memory::Whole,
            words: &words,
            pieces: &[],
        };
        let judgement = judge_tag(&open(TAG, &tag(false)), &evidence);
        let word = match judgement.verdict {
            Verdict::Go => "GO",
            Verdict::Wait => "WAIT",
            Verdict::NoGo => "NO-GO",
        };
        (word.into(), judgement.reasons.iter().map(Reason::code).map(str::to_owned).collect())
    }
}

fn bundle(word: &Signed) -> Vec<u8> {
    let mut writer = BundleWriter::begin(Vec::new()).expect("memory takes it");
    let (kind, body) = match word.kind {
        Kind::Seal => (ItemKind::Record, RecordItem { seal: word.bytes.clone(), record: None }.to_bytes()),
        Kind::Void => (ItemKind::Void, word.bytes.clone()),
        Kind::Movement => (ItemKind::Movement, word.bytes.clone()),
        Kind::RosterOfKeys => (ItemKind::Roster, word.bytes.clone()),
        _ => (ItemKind::Tag, word.bytes.clone()),
    };
    writer.add(kind, &body).expect("memory takes it").expect("it is short enough");
    writer.finish().expect("memory takes it")
}
