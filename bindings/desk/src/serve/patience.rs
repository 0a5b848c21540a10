//! How long a connection may take. The whole head has its deadline, a body has to go on at a pace, an answer has to be taken, and
//! where all places are taken the one that has said the least for the longest gives way.

use std::collections::BTreeMap;
use std::future::Future;
use std::io;
use std::pin::Pin;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::task::{Context, Poll};
use std::time::Duration;

use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::sync::Notify;
use tokio::time::{Sleep, sleep};

/// What is waited for.
#[derive(Clone, Copy, Debug)]
pub(super) struct Patience {
    /// For the whole head, from the first moment; for the greeting of an encrypted connection as long again.
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

/// A connection whose other end takes what is written to it, or is left.
pub(super) struct Paced<S> {
    stream: S,
    pause: Duration,
    /// Since when a write waits.
    stuck: Option<Pin<Box<Sleep>>>,
}

impl<S> Paced<S> {
    pub(super) fn new(stream: S, pause: Duration) -> Self {
        Self { stream, pause, stuck: None }
    }

    /// What a write came to, or that it waited too long.
    fn written<T>(&mut self, context: &mut Context<'_>, came: Poll<io::Result<T>>) -> Poll<io::Result<T>> {
        if came.is_ready() {
            self.stuck = None;
            return came;
        }
        let pause = self.pause;
        let stuck = self.stuck.get_or_insert_with(|| Box::pin(sleep(pause)));
        match stuck.as_mut().poll(context) {
            Poll::Ready(()) => Poll::Ready(Err(io::Error::new(io::ErrorKind::TimedOut, "it is not taken"))),
            Poll::Pending => Poll::Pending,
        }
    }
}

impl<S: AsyncRead + Unpin> AsyncRead for Paced<S> {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        buffer: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_read(context, buffer)
    }
}

impl<S: AsyncWrite + Unpin> AsyncWrite for Paced<S> {
    fn poll_write(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        let came = Pin::new(&mut self.stream).poll_write(context, bytes);
        self.written(context, came)
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        let came = Pin::new(&mut self.stream).poll_flush(context);
        self.written(context, came)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        let came = Pin::new(&mut self.stream).poll_shutdown(context);
        self.written(context, came)
    }
    // Nothing is written from several places at once: where the other end is gone, the system's call for that ends the whole
    // program by a signal (SIGPIPE), which the call for one place is told not to do.
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
    /// Who has said nothing yet, by their order, and what tells each to give way.
    waiting: BTreeMap<u64, Arc<Notify>>,
    /// How many requests are being answered: none of them is cut off.
    answered: usize,
}

impl Taken {
    fn wait(&mut self, way: &Arc<Notify>) -> At {
        let number = self.next;
        self.next += 1;
        self.waiting.insert(number, Arc::clone(way));
        At::Waiting(number)
    }
}

/// A place that is taken until it is dropped.
#[derive(Debug)]
pub(super) struct Seat {
    places: Arc<Places>,
    /// Tells that this connection has to give way.
    pub(super) way: Arc<Notify>,
    at: Mutex<At>,
}

#[derive(Debug)]
enum At {
    Waiting(u64),
    Answered,
}

impl Places {
    pub(super) fn new(most: usize) -> Arc<Self> {
        Arc::new(Self { most, open: Mutex::default() })
    }

    fn open(&self) -> MutexGuard<'_, Taken> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A place for a connection. `None` where all places are answered at this moment.
    pub(super) fn seat(self: &Arc<Self>) -> Option<Arc<Seat>> {
        let mut open = self.open();
        if open.waiting.len() + open.answered >= self.most {
            let (_, oldest) = open.waiting.pop_first()?;
            oldest.notify_one();
        }
        let way = Arc::new(Notify::new());
        let at = Mutex::new(open.wait(&way));
        Some(Arc::new(Seat { places: Arc::clone(self), way, at }))
    }
}

impl Seat {
    fn at(&self) -> MutexGuard<'_, At> {
        self.at.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// What it wants is known: it is answered, and not cut off for another. `false` where it was ended before.
    pub(super) fn heard(&self) -> bool {
        let mut at = self.at();
        let At::Waiting(number) = *at else { return true };
        let mut open = self.places.open();
        let here = open.waiting.remove(&number).is_some();
        if here {
            open.answered += 1;
            *at = At::Answered;
        }
        here
    }

    /// It is answered, and waits for what is asked next, as the newest of those that wait.
    pub(super) fn rests(&self) {
        let mut at = self.at();
        if matches!(*at, At::Answered) {
            let mut open = self.places.open();
            open.answered = open.answered.saturating_sub(1);
            *at = open.wait(&self.way);
        }
    }
}

impl Drop for Seat {
    fn drop(&mut self) {
        let at = self.at.get_mut().unwrap_or_else(PoisonError::into_inner);
        let mut open = self.places.open();
        match *at {
            At::Waiting(number) => drop(open.waiting.remove(&number)),
            At::Answered => open.answered = open.answered.saturating_sub(1),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Places;

    /// Forty-eight that say nothing keep nobody off: the oldest gives way; one that is answered does not.
    #[test]
    fn the_oldest_that_says_nothing_gives_way() {
        let places = Places::new(48);
        let seats: Vec<_> = (0..48).map(|_| places.seat().unwrap()).collect();
        assert!(seats[0].heard(), "the first is being answered");
        let newcomer = places.seat().expect("a place");
        assert!(!seats[1].heard(), "the oldest that had said nothing is gone");
        assert!(newcomer.heard() && seats[2].heard());
        // Where every place is answered, a newcomer is turned away.
        for seat in &seats {
            seat.heard();
        }
        assert!(places.seat().is_none());
        // One that was answered and keeps its connection gives way like others.
        seats[0].rests();
        assert!(places.seat().is_some());
        assert!(!seats[0].heard());
        drop(seats);
        assert!(places.seat().is_some());
    }
}
