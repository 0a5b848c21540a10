//! What comes slowly, and what takes long.

use std::io::{Read, Write};
use std::net::{Shutdown, TcpStream};
use std::sync::Arc;
use std::time::Duration;

use super::page::{Page, home};
use crate::serve::patience::Patience;
use crate::serve::work::{Made, Watched, What};

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
