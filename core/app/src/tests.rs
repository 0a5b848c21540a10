mod account;
mod ahead;
mod audit;
mod basis;
mod batch;
mod board;
mod bounds;
mod bundles;
mod exam;
mod hand;
mod manifest;
mod movements;
mod pieces;
mod procedures;
mod stickers;
mod strays;
mod trust;

use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};

use super::*;
use slingseal_words::Digest;

/// A clock that stands where it is put.
struct Set(AtomicI64);

impl Clock for Set {
    fn now(&self) -> Time {
        Time::from_unix(self.0.load(Ordering::SeqCst))
    }
}

/// Randomness that repeats: SHA-256 of a name and a counter.
struct Repeating(&'static str, AtomicU64);

impl Entropy for Repeating {
    fn fill(&self, bytes: &mut [u8]) {
        for chunk in bytes.chunks_mut(32) {
            let count = self.1.fetch_add(1, Ordering::SeqCst);
            let digest = Digest::of_parts(&[self.0.as_bytes(), &count.to_be_bytes()]);
            chunk.iter_mut().zip(digest.as_bytes()).for_each(|(to, from)| *to = *from);
        }
    }
}

struct Zone {
    folder: tempfile::TempDir,
    clock: Arc<Set>,
}

const START: &str = "2026-11-25T09:00:00Z";
const PIN: &str = "294817";
const WORDS: &str = "a meadow by the river";

impl Zone {
    fn new() -> Self {
        let clock = Arc::new(Set(AtomicI64::new(Time::parse(START).unwrap().unix())));
        Self { folder: tempfile::tempdir().unwrap(), clock }
    }

    fn pass(&self, seconds: i64) {
        self.clock.0.fetch_add(seconds, Ordering::SeqCst);
    }

    fn home(&self, name: &'static str) -> App {
        let home = self.folder.path().join(name);
        std::fs::create_dir_all(&home).unwrap();
        self.open(&home, name).unwrap()
    }

    fn open(&self, home: &Path, name: &'static str) -> Result<App, AppError> {
        App::open(
            home,
            Outside {
                clock: self.clock.clone(),
                entropy: Arc::new(Repeating(name, AtomicU64::new(0))),
                device_secret: zeroize::Zeroizing::new(name.as_bytes().to_vec()),
                stretch: Stretch::weak_for_tests_only(),
                language: Language::English,
            },
        )
    }

    /// An authority and a device with a credential.
    fn device(&self, authority: &App, name: &'static str, holder: &str, roles: &str) -> App {
        let app = self.home(name);
        meet(&app, authority);
        let request = app.make_key(holder, PIN).unwrap();
        let issue = Issue {
            request: request.text,
            roles: crate::roles_of(roles).unwrap(),
            expires: "2027-06-01".into(),
            holder: None,
            validity_hours: None,
        };
        let credential = authority.issue(&issue, WORDS).unwrap();
        let Received::Credential { own: true, .. } = app.receive(&credential.text).unwrap() else { panic!() };
        app
    }
}

fn meet(app: &App, authority: &App) {
    let card = authority.authority().unwrap();
    app.trust(&card.card.text, &card.fingerprint).unwrap();
    app.receive(&card.roster.text).unwrap();
}

const PLAN: &str = r#"
load = "KM-014"
description = "Rations, webbing bag"
procedure = "bag"
gross = "1800 lb"
rigger = "Mason 5"
[aircraft]
type = "Heron M2"
allowable = "7000 lb"
[pickup]
name = "Kestrel Meadow"
[destination]
name = "Alder Bridge"
[[link]]
leg = "1"
link = 3
"#;

fn no_file(_: &str) -> Result<String, String> {
    Err("none".into())
}

/// Walks every card good, giving values where the card wants them.
fn walk_all(app: &App, mut view: WalkView) -> WalkView {
    while let Some(card) = view.card.clone() {
        let request =
            match card.points.iter().find(|point| point.needs_value && point.state == PointState::Unanswered)
            {
                None => WalkRequest::CardGood { card: card.number },
                Some(point) => {
                    let value = crate::sound_answer(&view, point);
                    WalkRequest::Answer { card: card.number, point: point.id.clone(), value }
                }
            };
        view = app.do_walk(&view.walk, &request).unwrap();
        assert_eq!(view.refused, None);
    }
    view
}

#[test]
fn a_load_is_walked_sealed_and_trusted_by_a_stranger() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let planner = zone.device(&authority, "planner", "Lantern 1", "planner");
    let inspector = zone.device(&authority, "inspector", "Anvil 3", "inspector");
    let hookup = zone.home("hookup");
    meet(&hookup, &authority);

    let made = planner.write_tag(PLAN, &no_file, Some(PIN)).unwrap();
    assert_eq!((made.tag.signature.word(), made.tag.warnings.len()), ("signed", 0));
    let tag = made.code.text;
    assert_eq!(hookup.check(None, Some(&tag)).unwrap().word, "NO-GO");

    let view = inspector.begin_walk(&tag).unwrap();
    let view = inspector.do_walk(&view.walk, &WalkRequest::GoTo { card: 4 }).unwrap();
    let first = view.card.clone().unwrap();
    let bad = &first.points[0];
    let view = inspector
        .do_walk(
            &view.walk,
            &WalkRequest::Deficiency {
                card: 4,
                point: bad.id.clone(),
                name: bad
                    .deficiencies
                    .iter()
                    .find(|known| known.in_place)
                    .map_or("other".into(), |known| known.name.clone()),
                note: Some("seen at the leg".into()),
                photos: vec![],
            },
        )
        .unwrap();
    assert_eq!(view.refused, None);
    let view = walk_all(&inspector, view);
    assert_eq!(view.next, NextStep::LookAgain);
    let refused = inspector.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    assert!(refused.refused.is_some());

    // The device dies and comes back: nothing is lost.
    drop(inspector);
    let inspector = zone.open(&zone.folder.path().join("inspector"), "inspector-again").unwrap();
    assert_eq!(inspector.seal(&view.walk, PIN, None).err().map(|error| error.code()), Some("refused"));
    drop(inspector);
    let inspector = zone.open(&zone.folder.path().join("inspector"), "inspector").unwrap();
    let finding = view.findings[0].number;
    let put_right = WalkRequest::PutRight { finding, by: Some("Mason 5".into()), note: None, photos: vec![] };
    inspector.do_walk(&view.walk, &put_right).unwrap();
    let look = WalkRequest::LookAgain { finding, good: true, value: None, note: None, photos: vec![] };
    let view = inspector.do_walk(&view.walk, &look).unwrap();
    assert_eq!((view.refused.clone(), view.next), (None, NextStep::Decide));
    let view = inspector.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    assert_eq!(view.next, NextStep::Seal);
    assert_eq!(inspector.seal(&view.walk, "000000", None).err().map(|error| error.code()), Some("refused"));
    let seal = inspector.seal(&view.walk, PIN, None).unwrap();
    assert_eq!(seal.verdict.word, "GO", "{:?}", seal.verdict);
    assert_eq!(seal.code.version, 13);

    let verdict = hookup.check(Some(&seal.code.text), Some(&tag)).unwrap();
    assert_eq!(verdict.word, "GO", "{:?}", verdict.reasons);
    assert_eq!(hookup.check(None, Some(&tag)).unwrap().word, "GO", "known from the scan");
    zone.pass(86_401);
    assert_eq!(hookup.check(None, Some(&tag)).unwrap().reasons[0].code, "expired");

    let record = inspector.record(&seal.record).unwrap();
    assert!(record.timeline.len() > 30 && record.findings.len() == 1);
    let audit = inspector.audit().unwrap();
    assert_eq!((audit.records, audit.faults), (1, vec![]));
}

#[test]
fn the_rigger_cannot_begin_and_wrong_pins_make_one_wait() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let rigger = zone.device(&authority, "rigger", "MASON-5", "inspector,planner");
    let tag = rigger.write_tag(PLAN, &no_file, None).unwrap();
    assert_eq!(tag.tag.signature.word(), "unsigned");
    let error = rigger.begin_walk(&tag.code.text).unwrap_err();
    assert!(error.to_string().contains("is the rigger named on the tag"), "{error}");
    for _ in 0..3 {
        assert!(rigger.write_tag(PLAN, &no_file, Some("111222")).unwrap_err().to_string().contains("wrong"));
    }
    assert!(rigger.write_tag(PLAN, &no_file, Some(PIN)).unwrap_err().to_string().contains("wait 30 s"));
    zone.pass(31);
    rigger.write_tag(PLAN, &no_file, Some(PIN)).unwrap();
}

#[test]
fn a_revocation_and_a_void_reach_the_hook() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let inspector = zone.device(&authority, "inspector", "Anvil 3", "inspector,planner");
    let hookup = zone.device(&authority, "hookup", "Thistle 7", "hookup");
    let tag = inspector.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    let view = inspector.begin_walk(&tag).unwrap();
    let view = walk_all(&inspector, view);
    let view = inspector.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    let seal = inspector.seal(&view.walk, PIN, Some(6)).unwrap();
    let go = hookup.check(Some(&seal.code.text), Some(&tag)).unwrap();
    assert_eq!(go.word, "GO", "{:?}", go.reasons);
    let void = hookup.void(&seal.record, crate::VoidCause::LoadMoved, None, PIN).unwrap();
    assert_eq!(hookup.check(Some(&seal.code.text), Some(&tag)).unwrap().reasons[0].code, "voided");
    assert_eq!(inspector.show_seal(&seal.record).unwrap().verdict.word, "GO");
    inspector.receive(&void.text).unwrap();
    assert_eq!(inspector.show_seal(&seal.record).unwrap().verdict.word, "NO-GO");
    assert_eq!(inspector.records(None, 10).unwrap()[0].standing.word(), "voided");

    let second = zone.home("second");
    meet(&second, &authority);
    assert_eq!(second.check(Some(&seal.code.text), Some(&tag)).unwrap().word, "GO");
    let roster = authority.revoke(&["anvil 3".into()], None, WORDS).unwrap();
    let Received::Roster { new: true, revoked: 1, .. } = second.receive(&roster.roster.text).unwrap() else {
        panic!()
    };
    assert_eq!(second.check(Some(&seal.code.text), Some(&tag)).unwrap().reasons[0].code, "revoked");
}
