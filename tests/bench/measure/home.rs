//! A home: an answer made durable, a seal, beside a bare row committed in the same way.

use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};
use std::time::Instant;

use rusqlite::Connection;
use slingseal_app::{
    App, Clock, Entropy, Issue, Language, Outside, PointState, Stretch, Time, WalkRequest, WalkView,
    sound_answer,
};
use slingseal_message::trust::SecretKey;
use slingseal_words::Digest;

use crate::lines::{Line, at, pair};

const PIN: &str = "417293";
const WORDS: &str = "a meadow by the river";
/// Walks that are sealed.
const SEALED: usize = 40;
const PLAN: &str = include_str!("../../../bindings/desk/demo/bag.toml");

struct Ticking(AtomicI64);

impl Clock for Ticking {
    fn now(&self) -> Time {
        Time::from_unix(self.0.fetch_add(1, Ordering::Relaxed))
    }
}

struct Repeating(AtomicU64);

impl Entropy for Repeating {
    fn fill(&self, bytes: &mut [u8]) {
        for chunk in bytes.chunks_mut(32) {
            let digest = Digest::of(&self.0.fetch_add(1, Ordering::Relaxed).to_be_bytes());
            chunk.iter_mut().zip(digest.as_bytes()).for_each(|(to, from)| *to = *from);
        }
    }
}

fn open(home: &Path) -> App {
    let outside = Outside {
        clock: Arc::new(Ticking(AtomicI64::new(1_790_000_000))),
        entropy: Arc::new(Repeating(AtomicU64::new(0))),
        device_secret: zeroize::Zeroizing::new(vec![7; 32]),
        // What is measured is the store and the signature; how long a PIN is stretched is a choice.
        stretch: Stretch::weak_for_tests_only(),
        language: Language::English,
    };
    App::open(home, outside).expect("a new home")
}

fn ready(home: &Path) -> (App, String) {
    std::fs::create_dir_all(home).expect("a folder");
    let app = open(home);
    let authority = app
        .authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures())
        .expect("an authority");
    app.receive(&authority.roster.text).expect("its roster");
    let request = app.make_key("Anvil 3", PIN).expect("a key").text;
    let issue = Issue {
        request,
        roles: vec![slingseal_app::Role::Inspector, slingseal_app::Role::Planner],
        expires: "2099-01-01".into(),
        holder: None,
        validity_hours: None,
    };
    app.receive(&app.issue(&issue, WORDS).expect("a credential").text).expect("taken in");
    let tag = app.write_tag(PLAN, &|_| Err(String::new()), Some(PIN)).expect("a tag").code.text;
    (app, tag)
}

/// A database that does nothing but commit one row at a time, as durably as ours.
fn bare(folder: &Path) -> Connection {
    let conn = Connection::open(folder.join("bare.db")).expect("a database");
    conn.pragma_update(None, "journal_mode", "WAL").expect("WAL");
    conn.pragma_update(None, "synchronous", "FULL").expect("FULL");
    conn.execute_batch("CREATE TABLE rows (id INTEGER PRIMARY KEY, body BLOB) STRICT").expect("a table");
    conn
}

fn next(view: &WalkView) -> Option<WalkRequest> {
    let card = view.card.as_ref()?;
    let open = card.points.iter().find(|point| point.needs_value && point.state == PointState::Unanswered);
    Some(match open {
        None => WalkRequest::CardGood { card: card.number },
        Some(point) => {
            let value = sound_answer(view, point);
            WalkRequest::Answer { card: card.number, point: point.id.clone(), value }
        }
    })
}

pub(crate) fn measure() -> Vec<Line> {
    let folder = tempfile::tempdir().expect("a folder");
    let (app, tag) = ready(&folder.path().join("home"));
    let conn = bare(folder.path());
    let row = || {
        conn.execute("INSERT INTO rows (body) VALUES (?1)", [[7u8; 120].as_slice()]).expect("a row");
    };
    let mut view = app.begin_walk(&tag).expect("a walk");
    // An answer and its undoing, again and again on one card, so that the walk never ends while it is measured.
    let mut forth = true;
    let answer = || {
        let request = match (forth, view.undo) {
            (false, Some(answer)) => WalkRequest::Undo { answer },
            _ => next(&view).expect("a card"),
        };
        forth = !forth;
        view = app.do_walk(&view.walk, &request).expect("an answer");
        assert!(view.refused.is_none());
    };
    let (ours, floor) = pair(600, answer, row);
    let mut lines = Vec::new();
    for (name, share) in [("p50", 0.5), ("p99", 0.99)] {
        let (ours, floor) = (at(&ours, share), at(&floor, share));
        lines.push(Line::new(
            format!("an answered card, durable, {name}"),
            "us",
            ours,
            "one bare row, FULL",
            floor,
            Some(1.5),
        ));
    }
    lines.extend(sealed(&app, row));
    lines
}

/// Walks of whole loads, one after the other, each sealed: the seal alone is timed, the walk that leads to it is not. What is shown of a
/// seal once it is kept (its code drawn, its verdict as the hook would say it) is a part of that, and is timed by itself again.
fn sealed(app: &App, row: impl Fn()) -> [Line; 3] {
    let key = SecretKey::from_seed(&[3; 32]);
    let (mut ours, mut floor, mut shown) = (Vec::new(), Vec::new(), Vec::new());
    for number in 0..SEALED {
        let plan = PLAN.replace("KM-015", &format!("KM-9{number:02}"));
        let tag = app.write_tag(&plan, &|_| Err(String::new()), Some(PIN)).expect("a tag").code.text;
        let mut view = app.begin_walk(&tag).expect("a walk");
        while let Some(request) = next(&view) {
            view = app.do_walk(&view.walk, &request).expect("an answer");
        }
        let decide = WalkRequest::Decide { fit: true, reason: None };
        view = app.do_walk(&view.walk, &decide).expect("a decision");
        let start = Instant::now();
        let seal = app.seal(&view.walk, PIN, None).expect("a seal");
        ours.push(start.elapsed());
        let start = Instant::now();
        std::hint::black_box(app.show_seal(&seal.record).expect("the seal"));
        shown.push(start.elapsed());
        let start = Instant::now();
        std::hint::black_box(key.sign(&[7; 300]));
        row();
        floor.push(start.elapsed());
    }
    ours.sort_unstable();
    floor.sort_unstable();
    shown.sort_unstable();
    let (ours, floor, shown) = (at(&ours, 0.5), at(&floor, 0.5), at(&shown, 0.5));
    let rest = ours - shown;
    [
        Line::new("a walk sealed, p50", "us", ours, "one signature and one bare row, FULL", floor, None),
        Line::new("of that, the seal shown", "us", shown, "the whole", ours, None),
        Line::new(
            "of that, made and kept",
            "us",
            rest,
            "one signature and one bare row, FULL",
            floor,
            Some(4.0),
        ),
    ]
}
