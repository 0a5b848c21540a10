//! What was asked, as the pages read it: the library has bounded and taken apart the head, and a body is read no longer than its
//! patience lasts.

use std::io::{self, Read};
use std::pin::Pin;

use hyper::HeaderMap;
use hyper::body::{Body as _, Bytes, Incoming};
use hyper::header::{CONTENT_LENGTH, TRANSFER_ENCODING};
use tokio::runtime::Handle;
use tokio::time::{Instant, timeout_at};

use super::patience::Patience;

/// A request whose head was read.
pub(super) struct Request {
    /// `GET`, `POST`, …
    pub(super) method: String,
    /// The path and what stands behind the question mark, as sent.
    pub(super) target: String,
    fields: HeaderMap,
    /// How long the body says that it is.
    pub(super) length: u64,
    body: Coming,
}

impl Request {
    /// `None` where the body's length is not told, or told in a way that can be read as two.
    pub(super) fn of(request: hyper::Request<Incoming>, patience: Patience) -> Option<Self> {
        let (head, body) = request.into_parts();
        // A body of no told length is nothing that our page sends.
        if head.headers.contains_key(TRANSFER_ENCODING) {
            return None;
        }
        let mut lengths = head.headers.get_all(CONTENT_LENGTH).iter();
        let length = match (lengths.next(), lengths.next()) {
            (None, _) => 0,
            (Some(one), None) => one.to_str().ok()?.parse().ok()?,
            _ => return None,
        };
        let body = Coming::new(body, patience);
        Some(Self {
            method: head.method.to_string(),
            target: head.uri.to_string(),
            fields: head.headers,
            length,
            body,
        })
    }

    /// A field of the head. One that is told twice is told not at all: which of the two was meant is anybody's guess.
    pub(super) fn field(&self, name: &'static str) -> Option<String> {
        let mut all = self.fields.get_all(name).iter();
        let first = all.next()?;
        let told = String::from_utf8_lossy(first.as_bytes()).trim().to_owned();
        Some(if all.next().is_some() { String::new() } else { told })
    }

    /// The body. It is read on a thread of its own, never on the one that all connections share.
    pub(super) fn body(&mut self) -> &mut (dyn Read + Send) {
        &mut self.body
    }
}

/// A body as it comes: one read that brings a byte in time is not enough, it has to go on at a pace.
struct Coming {
    body: Incoming,
    here: Bytes,
    patience: Patience,
    /// When the next `wanted` bytes must have come.
    until: Instant,
    wanted: u64,
    handle: Handle,
}

impl Coming {
    fn new(body: Incoming, patience: Patience) -> Self {
        let until = Instant::now() + patience.pause;
        Self { body, here: Bytes::new(), patience, until, wanted: patience.pace, handle: Handle::current() }
    }

    fn came(&mut self, bytes: u64) {
        self.wanted = self.wanted.saturating_sub(bytes);
        if self.wanted == 0 {
            self.until = Instant::now() + self.patience.pause;
            self.wanted = self.patience.pace;
        }
    }
}

impl Read for Coming {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        while self.here.is_empty() {
            let body = &mut self.body;
            let next = std::future::poll_fn(|context| Pin::new(&mut *body).poll_frame(context));
            let frame = self
                .handle
                .block_on(async { timeout_at(self.until, next).await })
                .map_err(|_| io::Error::new(io::ErrorKind::TimedOut, "it came too slowly"))?;
            let Some(frame) = frame else { return Ok(0) };
            // What stands behind a body is no part of it.
            if let Ok(data) = frame.map_err(io::Error::other)?.into_data() {
                self.here = data;
            }
        }
        let read = self.here.len().min(buffer.len());
        let taken = self.here.split_to(read);
        if let Some(place) = buffer.get_mut(..read) {
            place.copy_from_slice(&taken);
        }
        self.came(u64::try_from(read).unwrap_or(u64::MAX));
        Ok(read)
    }
}
