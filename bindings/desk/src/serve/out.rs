//! The body of an answer: bytes, a file piece by piece, or what happens as it happens.

use std::fs::File;
use std::io::{self, Read};
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};

use hyper::body::{Body, Bytes, Frame, SizeHint};
use tokio::sync::mpsc;

use super::patience::Seat;

/// What is read of a file at a time.
const PIECE: usize = 64 << 10;

/// A body on its way, and the place of whoever waits for it.
pub(super) struct Out {
    content: Content,
    seat: Option<Arc<Seat>>,
}

pub(super) enum Content {
    /// All of it; empty once it is sent.
    Bytes(Bytes),
    /// A file of our own without a name, and how much of it is to come.
    File(File, u64),
    /// What happens, as it happens.
    Events(mpsc::Receiver<Bytes>),
}

impl Out {
    pub(super) fn new(content: Content, seat: Option<Arc<Seat>>) -> Self {
        Self { content, seat }
    }
}

impl Drop for Out {
    fn drop(&mut self) {
        // It is answered: the connection waits like others for what is asked next.
        if let Some(seat) = &self.seat {
            seat.rests();
        }
    }
}

impl Body for Out {
    type Data = Bytes;
    type Error = io::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, io::Error>>> {
        match &mut self.content {
            Content::Bytes(bytes) if bytes.is_empty() => Poll::Ready(None),
            Content::Bytes(bytes) => Poll::Ready(Some(Ok(Frame::data(std::mem::take(bytes))))),
            Content::Events(told) => {
                told.poll_recv(context).map(|line| line.map(|line| Ok(Frame::data(line))))
            }
            Content::File(_, 0) => Poll::Ready(None),
            Content::File(file, left) => {
                // It was written a moment ago by this program: this is a copy out of the system's memory.
                let most = usize::try_from(*left).unwrap_or(PIECE).min(PIECE);
                let mut piece = vec![0; most];
                let read = match file.read(&mut piece) {
                    Ok(0) => return Poll::Ready(Some(Err(io::ErrorKind::UnexpectedEof.into()))),
                    Ok(read) => read,
                    Err(error) => return Poll::Ready(Some(Err(error))),
                };
                piece.truncate(read);
                *left = left.saturating_sub(u64::try_from(read).unwrap_or(u64::MAX));
                Poll::Ready(Some(Ok(Frame::data(piece.into()))))
            }
        }
    }

    fn is_end_stream(&self) -> bool {
        match &self.content {
            Content::Bytes(bytes) => bytes.is_empty(),
            Content::File(_, left) => *left == 0,
            Content::Events(_) => false,
        }
    }

    fn size_hint(&self) -> SizeHint {
        match &self.content {
            Content::Bytes(bytes) => SizeHint::with_exact(u64::try_from(bytes.len()).unwrap_or(u64::MAX)),
            Content::File(_, left) => SizeHint::with_exact(*left),
            Content::Events(_) => SizeHint::default(),
        }
    }
}
