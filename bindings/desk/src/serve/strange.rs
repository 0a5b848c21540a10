//! What a stranger's program may send to the page: kept requests, and requests made of them. `STRANGE_REQUESTS=20000` tries
//! more than the few that keep the tests quick.
//!
//! It stands here and not with the other fuzz targets because nothing outside this program can call its page.

use std::io::{Read, Write};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use slingseal_app::{App, BundleRequest, Clock, Entropy, Language, Outside, Stretch, Time};
use tokio::sync::watch;

use super::desk::Desk;
use super::guard::Guard;
use super::patience::Patience;
use super::server::Server;
use super::work::{Made, Watched, What};

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

/// A page before a home with one planned load, asked through real connections.
struct Page {
    host: String,
    cookie: String,
    end: watch::Sender<bool>,
    served: Arc<Server>,
    server: Option<std::thread::JoinHandle<()>>,
}

fn home(folder: &Path) -> Arc<App> {
    let outside = Outside {
        clock: Arc::new(Still),
        entropy: Arc::new(entropy()),
        device_secret: b"strange".to_vec().into(),
        stretch: Stretch::weak_for_tests_only(),
        language: Language::English,
    };
    let app = App::open(folder, outside).unwrap();
    app.write_tag(PLAN, &|_| Err("none".into()), None).unwrap();
    Arc::new(app)
}

impl Page {
    fn new(app: &Arc<App>) -> Self {
        Self::with(app, Patience::FIELD)
    }

    fn with(app: &Arc<App>, patience: Patience) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let address = listener.local_addr().unwrap();
        let guard = Guard::new(address, false, &entropy());
        let link = guard.link();
        let cookie = guard.admit(link.split('=').nth(1).unwrap()).unwrap();
        let cookie = cookie.split(';').next().unwrap().to_owned();
        let (end, ended) = watch::channel(false);
        let server = Server::with(Desk::new(Arc::clone(app), guard, None), None, patience);
        let served = Arc::clone(&server);
        let server = std::thread::spawn(move || server.run(listener, ended).unwrap());
        Self { host: address.to_string(), cookie, end, served, server: Some(server) }
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
        let mut answer = Vec::new();
        // One that is turned away early may be cut off before all of it was sent.
        let _ = client.write_all(request);
        let _ = client.shutdown(Shutdown::Write);
        let _ = client.read_to_end(&mut answer);
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
        let told =
            head.lines().find_map(|line| line.strip_prefix("Content-Length: ")).expect("a length is told");
        let length: usize = told.parse().unwrap();
        assert!(answer.len() >= end + 4 + length, "{head} of {} bytes to {shown}", answer.len());
        let (body, rest) = answer[end + 4..].split_at(length);
        // What stands behind a body is a request of its own on the same connection.
        assert!(rest.is_empty() || rest.starts_with(b"HTTP/1."), "{shown}");
        let status: u16 = head.strip_prefix("HTTP/1.").and_then(|rest| rest.get(2..5)?.parse().ok()).unwrap();
        // What the library cannot take apart it turns away by itself, with no body.
        if [400, 414, 431].contains(&status) && body.is_empty() {
            return Some(status);
        }
        assert!([200, 303, 400, 403, 404, 405, 409].contains(&status), "{status} to {shown}");
        assert!(head.contains("\r\nContent-Security-Policy: default-src 'none'"), "{shown}");
        let markup = head.contains("text/html") || head.contains("image/svg");
        let text = String::from_utf8_lossy(body);
        assert!(!markup || !text.contains(STRANGE), "markup of a stranger's in the answer to {shown}");
        Some(status)
    }
}

impl Drop for Page {
    fn drop(&mut self) {
        let _ = self.end.send(true);
        if let Some(server) = self.server.take() {
            server.join().unwrap();
        }
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
        ("two-lengths", Some(400)),
        ("long-body", Some(431)),
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
    assert!([Some(200), Some(400), Some(403)].iter().all(|status| seen.contains_key(status)), "{seen:?}");
    // The home is as sound as it was, and what is in it can be taken along.
    assert!(app.audit().unwrap().faults.is_empty());
    app.bundle_write(
        &BundleRequest { have: None, photos: true, ..BundleRequest::default() },
        &mut std::io::sink(),
    )
    .unwrap();
}

const SHORT: Patience =
    Patience { head: Duration::from_millis(300), pause: Duration::from_millis(300), pace: 1_000 };

/// What comes of bytes on the wire that are sent a piece at a time, with a wait before each.
fn dripped(page: &Page, head: &str, piece: &[u8], pieces: usize) -> Vec<u8> {
    let mut client = TcpStream::connect(&page.host).unwrap();
    client.write_all(head.as_bytes()).unwrap();
    let mut sending = client.try_clone().unwrap();
    let mut answer = Vec::new();
    std::thread::scope(|scope| {
        scope.spawn(move || {
            for _ in 0..pieces {
                std::thread::sleep(Duration::from_millis(20));
                if sending.write_all(piece).is_err() {
                    break;
                }
            }
        });
        let _ = client.read_to_end(&mut answer);
        let _ = client.shutdown(Shutdown::Both);
    });
    answer
}

/// Each byte comes in time for a read, and the head never ends: it is over at its deadline. The same for a body; one that comes
/// at a pace is read however long it takes.
#[test]
fn what_drips_is_ended_and_what_goes_on_is_read() {
    let folder = tempfile::tempdir().unwrap();
    let app = home(folder.path());
    let page = Page::with(&app, SHORT);
    assert_eq!(dripped(&page, "GET / HTTP/1.1\r\nX: ", b"x", 400), b"", "a head that drips");
    for (piece, whole) in [(200, true), (1, false)] {
        let head = format!(
            "POST /receive/text HTTP/1.1\r\nHost: {0}\r\nOrigin: http://{0}\r\nCookie: {1}\r\nConnection: close\r\n\
             Content-Length: 6000\r\n\r\n",
            page.host, page.cookie
        );
        let answer =
            String::from_utf8_lossy(&dripped(&page, &head, &vec![b'x'; piece], 6_000 / piece)).into_owned();
        assert_eq!(answer.starts_with("HTTP/1.1 303 "), whole, "{answer}");
    }
}

/// What can be read in two ways is turned away, and a head longer than a head may be.
#[test]
fn turns_away_what_can_be_read_in_two_ways() {
    let folder = tempfile::tempdir().unwrap();
    let app = home(folder.path());
    let page = Page::new(&app);
    let ours = format!("Host: {}\r\nCookie: {}\r\n", page.host, page.cookie);
    let status = |line: &str, more: &str| {
        let answer = page.ask(format!("{line}\r\n{ours}{more}\r\n").as_bytes());
        String::from_utf8_lossy(&answer).get(9..12).map(str::to_owned)
    };
    assert_eq!(status("GET / HTTP/1.1", "").as_deref(), Some("200"));
    for more in [
        "Content-Length: 1\r\nContent-Length: 2\r\n",
        "Content-Length: +1\r\n",
        "Content-Length: -1\r\n",
        "Transfer-Encoding: chunked\r\n",
    ] {
        assert_eq!(status("GET / HTTP/1.1", more).as_deref(), Some("400"), "{more}");
    }
    assert_eq!(status("GET / HTTP/1.1", "Host: b\r\n").as_deref(), Some("403"), "no host is both");
    let (long, many) = (format!("X: {}\r\n", "x".repeat(300 << 10)), "X: y\r\n".repeat(80));
    for more in [long, many] {
        assert_ne!(status("GET / HTTP/1.1", &more).as_deref(), Some("200"));
    }
    // An address longer than the library takes.
    let far = format!("GET /?{} HTTP/1.1", "x".repeat(70_000));
    assert_eq!(status(&far, "").as_deref(), Some("414"));
}

/// A list of more tags than an address holds is shown and printed all the same.
#[test]
fn a_long_list_has_an_address() {
    let folder = tempfile::tempdir().unwrap();
    let app = home(folder.path());
    let page = Page::new(&app);
    let mut list = String::from("load,description,procedure,gross,aircraft,allowable,pickup,destination\n");
    for number in 0..600 {
        list += &format!("LL-{number},x,bag,1800 lb,Heron M2,7000 lb,A,B\n");
    }
    let body =
        format!("list={}", percent_encoding::utf8_percent_encode(&list, percent_encoding::NON_ALPHANUMERIC));
    let request = format!(
        "POST /plan/list HTTP/1.1\r\nHost: {0}\r\nOrigin: http://{0}\r\nCookie: {1}\r\nContent-Length: {2}\r\n\r\n{body}",
        page.host,
        page.cookie,
        body.len()
    );
    let answer = String::from_utf8_lossy(&page.ask(request.as_bytes())).into_owned();
    let place =
        answer.lines().find_map(|line| line.strip_prefix("Location: ")).unwrap_or_else(|| panic!("{answer}"));
    let shown = page.ask(
        format!("GET {place} HTTP/1.1\r\nHost: {}\r\nCookie: {}\r\n\r\n", page.host, page.cookie).as_bytes(),
    );
    let shown = String::from_utf8_lossy(&shown).into_owned();
    assert!(
        shown.contains("LL-0<") && shown.contains("LL-599<") && shown.contains("/sheet.pdf?list=1"),
        "{place}"
    );
}

/// A bundle that comes for ever: it holds the home until it is stopped.
struct Endless(std::sync::mpsc::Sender<()>, Arc<std::sync::atomic::AtomicBool>);

impl Read for Endless {
    fn read(&mut self, _: &mut [u8]) -> std::io::Result<usize> {
        let _ = self.0.send(());
        while !self.1.load(std::sync::atomic::Ordering::Relaxed) {
            std::thread::sleep(Duration::from_millis(5));
        }
        Err(std::io::ErrorKind::Other.into())
    }
}

/// While the home is held by long work, the page of it is shown and it is stopped.
#[test]
fn long_work_is_shown_and_stopped_while_it_holds_the_home() {
    let folder = tempfile::tempdir().unwrap();
    let app = home(folder.path());
    let page = Page::new(&app);
    let (tells, told) = std::sync::mpsc::channel();
    let stopped = Arc::new(std::sync::atomic::AtomicBool::new(false));
    let (works, ends) = (&page.served.desk.works, Arc::clone(&stopped));
    let begun = works.begin(What::Bundle("endless.slb".into()), app.now().into(), move |work| {
        let mut bundle = Watched::new(Endless(tells, ends), 0, work);
        app.bundle_read(&mut bundle, &mut |_| {}).map(|_| Made::default())
    });
    told.recv().unwrap();
    let head =
        format!("HTTP/1.1\r\nHost: {0}\r\nOrigin: http://{0}\r\nCookie: {1}\r\n\r\n", page.host, page.cookie);
    let ask = |line: &str| String::from_utf8(page.ask(format!("{line} {head}").as_bytes())).unwrap();
    let shown = ask("GET /job");
    assert!(shown.contains("Taking in endless.slb") && shown.contains("action=\"/job/1/stop\""), "{shown}");
    assert!(shown.contains("\r\nRefresh: 2\r\n"), "it looks again by itself");
    assert!(ask(&format!("POST /job/{}/stop", begun.unwrap())).starts_with("HTTP/1.1 303"));
    stopped.store(true, std::sync::atomic::Ordering::Relaxed);
    while works.list()[0].is_under_way() {
        std::thread::sleep(Duration::from_millis(5));
    }
    let shown = ask("GET /job");
    assert!(shown.contains("Stopped") && !shown.contains("Refresh:"), "{shown}");
    // The home is free again, and nothing of it was taken in.
    assert!(ask("GET /").starts_with("HTTP/1.1 200"));
}
