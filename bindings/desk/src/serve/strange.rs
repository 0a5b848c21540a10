//! What a stranger's program may send to the page: kept requests, and requests made of them. `STRANGE_REQUESTS=20000` tries
//! more than the few that keep the tests quick.
//!
//! It stands here and not with the other fuzz targets because nothing outside this program can call its page.

use std::io::{Read, Write};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::path::Path;
use std::sync::Arc;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use slingseal_app::{App, BundleRequest, Clock, Entropy, Language, Outside, Stretch, Time};

use super::desk::Desk;
use super::guard::Guard;
use super::{http, routes};

/// Markup that a stranger would like to have in a page.
const STRANGE: &str = "<i id=strange";
const PLAN: &str = include_str!("../../demo/bag.toml");

struct Still;

impl Clock for Still {
    fn now(&self) -> Time {
        Time::from_unix(1_796_000_000)
    }
}

struct Counting(std::sync::atomic::AtomicU8);

impl Entropy for Counting {
    fn fill(&self, bytes: &mut [u8]) {
        bytes.fill(self.0.fetch_add(1, std::sync::atomic::Ordering::Relaxed));
    }
}

fn entropy() -> Counting {
    Counting(std::sync::atomic::AtomicU8::new(1))
}

/// A page before a home with one planned load, asked through a real connection.
struct Page<'a> {
    desk: Desk<'a>,
    listener: TcpListener,
    host: String,
    cookie: String,
}

fn home(folder: &Path) -> App {
    let outside = Outside {
        clock: Arc::new(Still),
        entropy: Arc::new(entropy()),
        device_secret: b"strange".to_vec().into(),
        stretch: Stretch::weak_for_tests_only(),
        language: Language::English,
    };
    let app = App::open(folder, outside).unwrap();
    app.write_tag(PLAN, &|_| Err("none".into()), None).unwrap();
    app
}

impl<'a> Page<'a> {
    fn new(app: &'a App) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let address = listener.local_addr().unwrap();
        let guard = Guard::new(address, &entropy());
        let link = guard.link();
        let cookie = guard.admit(link.split('=').nth(1).unwrap()).unwrap();
        let cookie = cookie.split(';').next().unwrap().to_owned();
        Self { desk: Desk::new(app, guard, None), listener, host: address.to_string(), cookie }
    }

    /// A kept request with the names of this start in it.
    fn named(&self, kept: &[u8]) -> Vec<u8> {
        let mut out = kept.to_vec();
        for (name, value) in [("{host}", &self.host), ("{cookie}", &self.cookie)] {
            while let Some(at) = out.windows(name.len()).position(|window| window == name.as_bytes()) {
                out.splice(at..at + name.len(), value.bytes());
            }
        }
        out
    }

    /// The whole answer; empty where the connection was ended without one.
    fn ask(&self, request: &[u8]) -> Vec<u8> {
        let mut client = TcpStream::connect(&self.host).unwrap();
        let stream = self.listener.accept().unwrap().0;
        let mut answer = Vec::new();
        std::thread::scope(|scope| {
            let server = scope.spawn(|| {
                if let Some(request) = http::Request::read(stream) {
                    routes::answer(&self.desk, request);
                }
            });
            // One that is turned away early may be cut off before all of it was sent.
            let _ = client.write_all(request);
            let _ = client.shutdown(Shutdown::Write);
            let _ = client.read_to_end(&mut answer);
            server.join().expect("the page answers without panicking");
        });
        answer
    }

    /// Asks, and holds the answer against what every answer keeps. The status, if there is an answer.
    fn hold(&self, request: &[u8]) -> Option<u16> {
        let shown = String::from_utf8_lossy(request).into_owned();
        let answer = self.ask(request);
        if answer.is_empty() {
            return None;
        }
        let end = answer.windows(4).position(|window| window == b"\r\n\r\n").expect("a head ends");
        let head = std::str::from_utf8(&answer[..end]).expect("our heads are text");
        let body = &answer[end + 4..];
        let status: u16 =
            head.strip_prefix("HTTP/1.1 ").and_then(|rest| rest.get(..3)?.parse().ok()).unwrap();
        assert!([200, 303, 400, 403, 404, 405, 409].contains(&status), "{status} to {shown}");
        assert!(head.contains("\r\nContent-Security-Policy: default-src 'none'"), "{shown}");
        let length = format!("\r\nContent-Length: {}\r\n", body.len());
        assert!(head.contains(&length), "{head} of {} bytes to {shown}", body.len());
        let markup = head.contains("text/html") || head.contains("image/svg");
        let text = String::from_utf8_lossy(body);
        assert!(!markup || !text.contains(STRANGE), "markup of a stranger's in the answer to {shown}");
        Some(status)
    }
}

fn kept() -> Vec<(String, Vec<u8>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/serve/requests");
    let mut kept: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| (path.file_stem().unwrap().to_string_lossy().into_owned(), std::fs::read(path).unwrap()))
        .collect();
    kept.sort();
    kept
}

#[test]
fn every_kept_request_is_answered() {
    let folder = tempfile::tempdir().unwrap();
    let app = home(folder.path());
    let page = Page::new(&app);
    let mut seen = std::collections::BTreeMap::new();
    for (name, request) in kept() {
        seen.insert(name, page.hold(&page.named(&request)));
    }
    // What is asked rightly is answered; what is not is turned away for its reason.
    for (name, status) in [
        ("board", Some(200)),
        ("plan", Some(303)),
        ("plan-bad", Some(400)),
        ("plan-list", Some(303)),
        ("load", Some(200)),
        ("load-strange", Some(400)),
        ("open-wrong", Some(403)),
        ("two-lengths", None),
        ("long-body", Some(400)),
        ("export-none", Some(404)),
        ("receive-frame-short", Some(400)),
    ] {
        assert_eq!(seen[name], status, "{name}");
    }
}

/// One change to a request, or none.
#[derive(Clone, Debug)]
enum Change {
    Flip(u16, u8),
    Cut(u16, u16),
    Put(u16, Vec<u8>),
    Again(u16, u16),
}

fn change() -> impl Strategy<Value = Change> {
    let piece = prop_oneof![
        Just(b"<i id=strange>".to_vec()),
        Just(b"%3Ci%20id=strange%3E".to_vec()),
        Just(b"\r\n".to_vec()),
        Just(b"%00%FF".to_vec()),
        Just("\u{1F4A5}\u{202E}".as_bytes().to_vec()),
        Just(b"9999999999999999999999".to_vec()),
        Just(b"\"',;|&=/..".to_vec()),
        proptest::collection::vec(any::<u8>(), 1..20),
    ];
    prop_oneof![
        (any::<u16>(), any::<u8>()).prop_map(|(at, to)| Change::Flip(at, to)),
        (any::<u16>(), 1u16..40).prop_map(|(at, length)| Change::Cut(at, length)),
        (any::<u16>(), piece).prop_map(|(at, piece)| Change::Put(at, piece)),
        (any::<u16>(), 1u16..60).prop_map(|(at, length)| Change::Again(at, length)),
    ]
}

fn changed(mut request: Vec<u8>, changes: &[Change]) -> Vec<u8> {
    for change in changes {
        let place = |at: u16| usize::from(at) * request.len() / (1 << 16);
        match change {
            Change::Flip(at, to) if !request.is_empty() => {
                let at = place(*at);
                request[at] = *to;
            }
            Change::Flip(..) => {}
            Change::Cut(at, length) => {
                let at = place(*at);
                let end = (at + usize::from(*length)).min(request.len());
                request.drain(at..end);
            }
            Change::Put(at, piece) => {
                let at = place(*at);
                request.splice(at..at, piece.iter().copied());
            }
            Change::Again(at, length) => {
                let at = place(*at);
                let end = (at + usize::from(*length)).min(request.len());
                let piece = request[at..end].to_vec();
                request.splice(at..at, piece);
            }
        }
    }
    request
}

/// A request whose length fits its body again, so that the change is met behind the head as well.
fn measured(request: &[u8]) -> Vec<u8> {
    let Some(end) = request.windows(4).position(|window| window == b"\r\n\r\n") else {
        return request.to_vec();
    };
    let (head, body) = request.split_at(end + 4);
    let head = String::from_utf8_lossy(&head[..end]).into_owned();
    let lines: Vec<&str> = head.split("\r\n").filter(|line| !line.starts_with("Content-Length")).collect();
    let length = format!("\r\nContent-Length: {}\r\n\r\n", body.len());
    [lines.join("\r\n").as_bytes(), length.as_bytes(), body].concat()
}

#[test]
fn requests_made_of_kept_ones_are_answered_or_turned_away() {
    let cases = std::env::var("STRANGE_REQUESTS").ok().and_then(|text| text.parse().ok()).unwrap_or(400);
    let folder = tempfile::tempdir().unwrap();
    let app = home(folder.path());
    let page = Page::new(&app);
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    let mut runner = TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha));
    let request =
        (proptest::sample::select(kept()), proptest::collection::vec(change(), 0..4), any::<bool>());
    let seen = std::cell::RefCell::new(std::collections::BTreeMap::<Option<u16>, u32>::new());
    let done = runner.run(&request, |((_, kept), changes, fits)| {
        let request = changed(page.named(&kept), &changes);
        let request = if fits { measured(&request) } else { request };
        *seen.borrow_mut().entry(page.hold(&request)).or_default() += 1;
        Ok(())
    });
    let seen = seen.into_inner();
    println!("{cases} requests: {seen:?}");
    if let Err(failed) = done {
        panic!("{failed}");
    }
    assert!(
        [Some(200), Some(400), Some(403), None].iter().all(|status| seen.contains_key(status)),
        "{seen:?}"
    );
    // The home is as sound as it was, and what is in it can be taken along.
    assert!(app.audit().unwrap().faults.is_empty());
    app.bundle_write(
        &BundleRequest { have: None, photos: true, ..BundleRequest::default() },
        &mut std::io::sink(),
    )
    .unwrap();
}
