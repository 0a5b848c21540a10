//! Requests that were kept, and requests made of them.

use std::path::Path;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use slingseal_app::BundleRequest;

use super::page::{Page, home};

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
        ("plan-list-rigging", Some(400)),
        ("board-sorted", Some(200)),
        ("equipment-sorted", Some(200)),
        ("search-sorted", Some(400)),
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
