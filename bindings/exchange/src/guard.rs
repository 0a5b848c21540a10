//! Stands between the line and what reads it: no message may be longer than the longest that is ever asked for, and every byte
//! that moves is counted, so that a server that sends a little for ever is told from a slow line.

use std::io;
use std::pin::Pin;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::task::{Context, Poll, ready};
use std::time::Duration;

use slingseal_app::catalogue::exchange as words;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio_postgres::tls::{ChannelBinding, TlsStream};

use crate::ExchangeError;

/// The longest message: the longest word, and what a row has besides.
const MOST_MESSAGE: u32 = (16 << 20) + (64 << 10);
/// In each stretch of this length so many bytes must move while anything is waited for.
const STRETCH: Duration = Duration::from_secs(45);
const LEAST_BYTES: u64 = 8 << 10;
/// So many bytes may move for one answer: no page is as long.
const MOST_BYTES: u64 = 24 << 20;
/// So long may it take to come in, and so much may a server say until one is.
const DOOR: Duration = Duration::from_secs(20);
const MOST_AT_THE_DOOR: u64 = 64 << 10;
/// The letter of the message that says: ready.
const READY: u8 = b'Z';

/// The bytes that moved over a line, and why it broke: what drives a line knows, and who waits for an answer does not.
#[derive(Clone, Debug, Default)]
pub(crate) struct Moved(Arc<AtomicU64>, Arc<Mutex<Option<ExchangeError>>>);

impl Moved {
    /// Keeps why a line broke.
    pub(crate) fn broke(&self, error: ExchangeError) {
        *self.1.lock().unwrap_or_else(PoisonError::into_inner) = Some(error);
    }

    /// An error as it is to be told: of a line that broke, why it did.
    pub(crate) fn told(&self, error: ExchangeError) -> ExchangeError {
        let why = self.1.lock().unwrap_or_else(PoisonError::into_inner).take();
        match (error, why) {
            (ExchangeError::Unreachable { .. }, Some(why)) => why,
            (error, _) => error,
        }
    }

    /// Waits as long as bytes move, and not too many.
    pub(crate) async fn patient<T, E: Into<ExchangeError>>(
        &self,
        act: impl Future<Output = Result<T, E>>,
    ) -> Result<T, ExchangeError> {
        let mut act = std::pin::pin!(act);
        let begun = self.0.load(Ordering::Relaxed);
        loop {
            let before = self.0.load(Ordering::Relaxed);
            match tokio::time::timeout(STRETCH, &mut act).await {
                Ok(answer) => return answer.map_err(|error| self.told(error.into())),
                Err(_) if self.0.load(Ordering::Relaxed) < before + LEAST_BYTES => {
                    return Err(ExchangeError::Slow);
                }
                Err(_) if self.0.load(Ordering::Relaxed) > begun + MOST_BYTES => {
                    return Err(ExchangeError::strange(words::ExchangeEndless));
                }
                Err(_) => {}
            }
        }
    }
}

/// Waits so long for a line and a login.
pub(crate) async fn at_the_door<T>(
    act: impl Future<Output = Result<T, ExchangeError>>,
) -> Result<T, ExchangeError> {
    tokio::time::timeout(DOOR, act).await.unwrap_or(Err(ExchangeError::Slow))
}

/// A line whose messages are measured.
#[derive(Debug)]
pub(crate) struct Guarded<S> {
    line: S,
    moved: Moved,
    /// What has come of the head of a message: a letter, and its length without the letter, big-endian.
    head: [u8; 5],
    read: usize,
    /// Bytes that belong to the message under way.
    left: u32,
    /// What came until the server was ready; none once it was.
    opening: Option<u64>,
}

impl<S> Guarded<S> {
    pub(crate) fn new(line: S, moved: Moved) -> Self {
        Self { line, moved, head: [0; 5], read: 0, left: 0, opening: Some(0) }
    }

    fn measure(&mut self, mut bytes: &[u8]) -> io::Result<()> {
        self.moved.0.fetch_add(bytes.len() as u64, Ordering::Relaxed);
        while let Some((first, rest)) = bytes.split_first() {
            if self.left > 0 {
                let skipped = bytes.len().min(self.left as usize);
                self.left -= u32::try_from(skipped).unwrap_or(self.left);
                bytes = bytes.get(skipped..).unwrap_or_default();
                continue;
            }
            if let Some(place) = self.head.get_mut(self.read) {
                *place = *first;
            }
            self.read += 1;
            bytes = rest;
            if self.read == self.head.len() {
                let [letter, length @ ..] = self.head;
                let length = u32::from_be_bytes(length);
                let opening = self.opening.map(|came| came + u64::from(length));
                self.opening = opening.filter(|_| letter != READY);
                if self.opening > Some(MOST_AT_THE_DOOR) {
                    return Err(io::Error::other(ExchangeError::strange(words::ExchangeEndless)));
                }
                if !(4..=MOST_MESSAGE).contains(&length) {
                    return Err(io::Error::other(ExchangeError::strange(words::ExchangeTooLong)));
                }
                (self.read, self.left) = (0, length - 4);
            }
        }
        Ok(())
    }
}

impl<S: AsyncRead + Unpin> AsyncRead for Guarded<S> {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        into: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        let before = into.filled().len();
        ready!(Pin::new(&mut self.line).poll_read(context, into))?;
        let fresh = into.filled().get(before..).unwrap_or_default();
        Poll::Ready(self.measure(fresh))
    }
}

impl<S: AsyncWrite + Unpin> AsyncWrite for Guarded<S> {
    fn poll_write(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        let written = ready!(Pin::new(&mut self.line).poll_write(context, bytes))?;
        self.moved.0.fetch_add(written as u64, Ordering::Relaxed);
        Poll::Ready(Ok(written))
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.line).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.line).poll_shutdown(context)
    }
}

impl<S: AsyncRead + AsyncWrite + Unpin> TlsStream for Guarded<S> {
    fn channel_binding(&self) -> ChannelBinding {
        ChannelBinding::none()
    }
}

#[cfg(test)]
mod tests {
    use super::{Guarded, MOST_MESSAGE, Moved};

    fn message(length: u32, body: usize) -> Vec<u8> {
        let mut bytes = vec![b'D'];
        bytes.extend(length.to_be_bytes());
        bytes.resize(5 + body, 0);
        bytes
    }

    #[test]
    fn messages_are_measured_however_they_are_cut() {
        let bytes = [message(4, 0), message(10, 6), message(4 + 300, 300)].concat();
        for cut in [1, 2, 3, 7, bytes.len()] {
            let mut guarded = Guarded::new((), Moved::default());
            assert!(bytes.chunks(cut).all(|part| guarded.measure(part).is_ok()), "{cut}");
            assert_eq!((guarded.read, guarded.left), (0, 0));
            assert!(guarded.measure(&message(MOST_MESSAGE + 1, 0)).is_err());
        }
        let mut ready = Guarded::new((), Moved::default());
        assert!(ready.measure(&[b'Z', 0, 0, 0, 5, b'I']).is_ok());
        assert!(ready.measure(&message(MOST_MESSAGE, 0)).is_ok());
        assert!(
            Guarded::new((), Moved::default()).measure(&message(70_000, 0)).is_err(),
            "nobody needs so much to say who it is"
        );
        assert!(Guarded::new((), Moved::default()).measure(&message(3, 0)).is_err());
        assert!(Guarded::new((), Moved::default()).measure(&message(u32::MAX, 0)).is_err());
    }
}
