use std::io::{Read, Write};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::path::Path;
use std::sync::Arc;

use slingseal_app::{App, Clock, Entropy, Language, Outside, Stretch, Time};
use tokio::sync::watch;

use crate::serve::desk::Desk;
use crate::serve::guard::Guard;
use crate::serve::patience::Patience;
use crate::serve::server::Server;

/// Markup that a stranger would like to have in a page.
const STRANGE: &str = "<i id=strange";
const PLAN: &str = include_str!("../../../demo/bag.toml");

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
pub(super) struct Page {
    pub(super) host: String,
    pub(super) cookie: String,
    end: watch::Sender<bool>,
    pub(super) served: Arc<Server>,
    server: Option<std::thread::JoinHandle<()>>,
}

/// A home with one planned load.
pub(super) fn home(folder: &Path) -> Arc<App> {
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
    pub(super) fn new(app: &Arc<App>) -> Self {
        Self::with(app, Patience::FIELD)
    }

    pub(super) fn with(app: &Arc<App>, patience: Patience) -> Self {
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
    pub(super) fn named(&self, kept: &[u8]) -> Vec<u8> {
        let mut out = kept.to_vec();
        for (name, value) in [("{host}", &self.host), ("{cookie}", &self.cookie)] {
            while let Some(at) = out.windows(name.len()).position(|window| window == name.as_bytes()) {
                out.splice(at..at + name.len(), value.bytes());
            }
        }
        out
    }

    /// The whole answer; empty where the connection was ended without one.
    pub(super) fn ask(&self, request: &[u8]) -> Vec<u8> {
        let mut client = TcpStream::connect(&self.host).unwrap();
        let mut answer = Vec::new();
        // One that is turned away early may be cut off before all of it was sent.
        let _ = client.write_all(request);
        let _ = client.shutdown(Shutdown::Write);
        let _ = client.read_to_end(&mut answer);
        answer
    }

    /// Asks, and holds the answer against what every answer keeps. The status, if there is an answer.
    pub(super) fn hold(&self, request: &[u8]) -> Option<u16> {
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
