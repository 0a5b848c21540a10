//! How long a connection may take. A read that brings one byte in time is not enough: the whole head has its deadline, a body has
//! to go on at a pace, and where all places are taken the one that has said the least for the longest gives way.

use std::collections::BTreeMap;
use std::io::{self, Read};
use std::net::{Shutdown, TcpStream};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// What is waited for.
#[derive(Clone, Copy, Debug)]
pub(super) struct Patience {
    /// For the whole head, from the first moment.
    pub(super) head: Duration,
    /// For one read or write.
    pub(super) pause: Duration,
    /// The bytes of a body that come in each `pause` at the least, the last ones excepted: a bad network, not a drip.
    pub(super) pace: u64,
}

impl Patience {
    /// A browser on a bad network, not one that holds on for ever.
    pub(super) const FIELD: Self =
        Self { head: Duration::from_secs(10), pause: Duration::from_secs(20), pace: 16 << 10 };
}

/// How long an answered connection is listened to, so that the answer arrives before it ends.
const LEAVING: Duration = Duration::from_secs(2);

#[expect(
    clippy::disallowed_methods,
    reason = "measures how long a connection takes; nothing of it is recorded"
)]
fn now() -> Instant {
    Instant::now()
}

/// A connection that is read no longer than its patience lasts.
#[derive(Debug)]
pub(super) struct Paced {
    stream: TcpStream,
    patience: Patience,
    /// When the reading of this stretch must have ended: the head, or the next piece of the body.
    until: Instant,
    /// Bytes that are wanted yet before a new stretch begins; none while the head is read.
    wanted: Option<u64>,
}

impl Paced {
    /// Begins with the head.
    pub(super) fn new(stream: TcpStream, patience: Patience) -> io::Result<Self> {
        stream.set_write_timeout(Some(patience.pause))?;
        Ok(Self { stream, patience, until: now() + patience.head, wanted: None })
    }

    /// The head is read: from here on at a pace.
    pub(super) fn body(&mut self) {
        self.stretch();
    }

    /// It is answered: what still comes is thrown away, and only for a moment.
    pub(super) fn leave(&mut self) {
        self.until = now() + self.patience.pause.min(LEAVING);
        self.wanted = None;
    }

    fn stretch(&mut self) {
        self.until = now() + self.patience.pause;
        self.wanted = Some(self.patience.pace);
    }

    pub(super) fn stream(&mut self) -> &mut TcpStream {
        &mut self.stream
    }
}

impl Read for Paced {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let late = || io::Error::new(io::ErrorKind::TimedOut, "it came too slowly");
        let left =
            self.until.checked_duration_since(now()).filter(|left| !left.is_zero()).ok_or_else(late)?;
        self.stream.set_read_timeout(Some(left.min(self.patience.pause)))?;
        let read = self.stream.read(buffer).map_err(|error| match error.kind() {
            io::ErrorKind::WouldBlock => late(),
            _ => error,
        })?;
        if let Some(wanted) = &mut self.wanted {
            *wanted = wanted.saturating_sub(read as u64);
            if *wanted == 0 {
                self.stretch();
            }
        }
        Ok(read)
    }
}

/// The connections that are open, at most so many. A new one is never kept waiting by those that have not said what they want:
/// the oldest of them is ended.
#[derive(Debug)]
pub(super) struct Places {
    most: usize,
    open: Mutex<Taken>,
}

#[derive(Debug, Default)]
struct Taken {
    next: u64,
    /// By their order. `None` for one whose request is being answered: it is not cut off.
    waiting: BTreeMap<u64, Option<TcpStream>>,
}

/// A place that is taken until it is dropped.
#[derive(Debug)]
pub(super) struct Seat<'a> {
    places: &'a Places,
    number: u64,
}

impl Places {
    pub(super) fn new(most: usize) -> Self {
        Self { most, open: Mutex::default() }
    }

    fn open(&self) -> std::sync::MutexGuard<'_, Taken> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A place for a connection. `None` where all places are answered at this moment.
    pub(super) fn seat(&self, stream: &TcpStream) -> Option<Seat<'_>> {
        let handle = stream.try_clone().ok()?;
        let mut open = self.open();
        if open.waiting.len() >= self.most {
            let oldest =
                open.waiting.iter().find(|(_, stream)| stream.is_some()).map(|(number, _)| *number)?;
            // Its thread finds the connection ended and leaves.
            if let Some(stream) = open.waiting.remove(&oldest).flatten() {
                let _ = stream.shutdown(Shutdown::Both);
            }
        }
        let number = open.next;
        open.next += 1;
        open.waiting.insert(number, Some(handle));
        Some(Seat { places: self, number })
    }
}

impl Seat<'_> {
    /// What it wants is known: it is answered, and not cut off for another. `false` where it was ended before.
    pub(super) fn heard(&self) -> bool {
        match self.places.open().waiting.get_mut(&self.number) {
            Some(place) => {
                *place = None;
                true
            }
            None => false,
        }
    }
}

impl Drop for Seat<'_> {
    fn drop(&mut self) {
        self.places.open().waiting.remove(&self.number);
    }
}

#[cfg(test)]
mod tests {
    use std::io::{Read as _, Write as _};
    use std::net::{TcpListener, TcpStream};
    use std::time::Duration;

    use super::super::http::Request;
    use super::{Patience, Places};

    const SHORT: Patience =
        Patience { head: Duration::from_millis(300), pause: Duration::from_millis(300), pace: 1_000 };

    fn pair(listener: &TcpListener) -> (TcpStream, TcpStream) {
        let client = TcpStream::connect(listener.local_addr().unwrap()).unwrap();
        (client, listener.accept().unwrap().0)
    }

    /// Each byte comes in time for a read, and the head never ends: it is over at its deadline.
    #[test]
    fn a_head_that_drips_is_ended_at_its_deadline() {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let (mut client, server) = pair(&listener);
        let dripping = std::thread::spawn(move || {
            let mut sent = 0;
            while client.write_all(b"x").is_ok() && sent < 400 {
                sent += 1;
                std::thread::sleep(Duration::from_millis(20));
            }
            sent
        });
        assert!(Request::read_with(server, SHORT).is_none());
        assert!(dripping.join().unwrap() < 400, "it was cut off");
    }

    /// The same for a body; one that comes at a pace is read however long it is.
    #[test]
    fn a_body_goes_on_at_a_pace_or_ends() {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        for (piece, whole) in [(200usize, true), (1, false)] {
            let (mut client, server) = pair(&listener);
            let sending = std::thread::spawn(move || {
                client.write_all(b"POST / HTTP/1.1\r\nContent-Length: 6000\r\n\r\n").unwrap();
                for _ in 0..6_000 / piece {
                    if client.write_all(&vec![b'x'; piece]).is_err() {
                        break;
                    }
                    std::thread::sleep(Duration::from_millis(20));
                }
            });
            let mut request = Request::read_with(server, SHORT).unwrap();
            let mut body = Vec::new();
            let read = request.body().read_to_end(&mut body);
            assert_eq!(read.is_ok() && body.len() == 6_000, whole, "{read:?}, {} bytes", body.len());
            drop(request);
            sending.join().unwrap();
        }
    }

    /// Forty-eight that drip keep nobody off: the oldest gives way; one that is answered does not.
    #[test]
    fn the_oldest_that_says_nothing_gives_way() {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let places = Places::new(48);
        let mut dripping: Vec<_> = (0..48).map(|_| pair(&listener)).collect();
        let seats: Vec<_> = dripping.iter().map(|(_, server)| places.seat(server).unwrap()).collect();
        assert!(seats[0].heard(), "the first is being answered");
        let (mut newcomer, server) = pair(&listener);
        let seat = places.seat(&server).expect("a place");
        assert!(!seats[1].heard(), "the oldest that had said nothing is gone");
        assert!(seat.heard() && seats[2].heard());
        let mut rest = Vec::new();
        assert_eq!(dripping[1].0.read_to_end(&mut rest).unwrap(), 0, "its connection is ended");
        newcomer.write_all(b"GET / HTTP/1.1\r\nHost: x\r\n\r\n").unwrap();
        assert!(Request::read_with(server, SHORT).is_some());
        // Where every place is answered, a newcomer waits its turn outside.
        for seat in &seats {
            seat.heard();
        }
        let (_client, server) = pair(&listener);
        assert!(places.seat(&server).is_none());
        drop(seats);
        assert!(places.seat(&server).is_some());
    }
}
