//! What goes back: always with the heads that keep a browser from doing more than showing it.

use std::sync::Arc;

use hyper::Response;
use hyper::body::Bytes;
use hyper::header::{HeaderName, HeaderValue};
use maud::Markup;
use slingseal_app::AppError;
use tokio::sync::mpsc;

use super::out::{Content, Out};
use super::patience::Seat;
use crate::console::visible_lines;

/// An answer.
pub(super) struct Reply {
    status: u16,
    kind: &'static str,
    body: Body,
    more: Vec<(&'static str, String)>,
}

enum Body {
    Bytes(Vec<u8>),
    File(std::fs::File),
    Events(mpsc::Receiver<Bytes>),
}

/// Nothing from elsewhere, no script but ours, nothing framed, no form sent elsewhere.
const POLICY: &str = "default-src 'none'; img-src 'self'; style-src 'self'; font-src 'self'; script-src 'self'; \
    connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
/// A picture may style itself and do nothing else.
const PICTURE_POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'";

impl Reply {
    /// A page. maud escapes what would be markup; this spells out what nobody would see, or what moves the letters around it:
    /// our own pages have no such characters, so every one is a stranger's.
    pub(super) fn page(page: Markup) -> Self {
        Self::bytes("text/html; charset=utf-8", visible_lines(&page.into_string()).into_bytes())
    }

    pub(super) fn bytes(kind: &'static str, bytes: Vec<u8>) -> Self {
        Self { status: 200, kind, body: Body::Bytes(bytes), more: Vec::new() }
    }

    /// What happens from now on, until somebody goes.
    pub(super) fn events(told: mpsc::Receiver<Bytes>) -> Self {
        Self { status: 200, kind: "text/event-stream", body: Body::Events(told), more: Vec::new() }
    }

    /// Nothing but a status.
    pub(super) fn bare(status: u16) -> Self {
        Self::bytes("text/plain; charset=utf-8", Vec::new()).status(status)
    }

    pub(super) fn svg(text: String) -> Self {
        Self::bytes("image/svg+xml", text.into_bytes())
    }

    pub(super) fn json(value: &serde_json::Value) -> Self {
        Self::bytes("application/json", value.to_string().into_bytes())
    }

    /// A file to be kept under a name.
    pub(super) fn file(kind: &'static str, name: &str, file: std::fs::File) -> Self {
        let mut reply = Self { status: 200, kind, body: Body::File(file), more: Vec::new() };
        reply.named("attachment", name);
        reply
    }

    /// A document that the browser shows, with the name under which it is kept.
    pub(super) fn pdf(name: &str, bytes: Vec<u8>) -> Self {
        let mut reply = Self::bytes("application/pdf", bytes);
        reply.named("inline", name);
        reply
    }

    /// A table to be kept under a name.
    pub(super) fn table(name: &str, csv: String) -> Self {
        let mut reply = Self::bytes("text/csv; charset=utf-8", csv.into_bytes());
        reply.named("attachment", name);
        reply
    }

    pub(super) fn see(place: &str) -> Self {
        let mut reply = Self::bytes("text/plain; charset=utf-8", Vec::new());
        reply.status = 303;
        reply.more.push(("Location", place.to_owned()));
        reply
    }

    pub(super) fn status(mut self, status: u16) -> Self {
        self.status = status;
        self
    }

    pub(super) fn with(mut self, name: &'static str, value: String) -> Self {
        self.more.push((name, value));
        self
    }

    fn named(&mut self, how: &str, name: &str) {
        self.more.push((
            "Content-Disposition",
            format!("{how}; filename=\"{}\"", crate::output::file_name_dotted(name)),
        ));
    }

    /// The answer as the library sends it, to whoever has this place.
    pub(super) fn response(self, seat: Option<Arc<Seat>>) -> Response<Out> {
        let policy = if self.kind == "image/svg+xml" { PICTURE_POLICY } else { POLICY };
        let mut heads = vec![
            ("Content-Type", self.kind.to_owned()),
            ("Content-Security-Policy", policy.to_owned()),
            ("X-Content-Type-Options", "nosniff".into()),
            ("X-Frame-Options", "DENY".into()),
            ("Referrer-Policy", "same-origin".into()),
            ("Cross-Origin-Opener-Policy", "same-origin".into()),
            ("Cross-Origin-Resource-Policy", "same-origin".into()),
            ("Permissions-Policy", "camera=(self), microphone=(), geolocation=()".into()),
        ];
        if !self.more.iter().any(|(name, _)| *name == "Cache-Control") {
            heads.push(("Cache-Control", "no-store".into()));
        }
        heads.extend(self.more);
        let content = match self.body {
            Body::Bytes(bytes) => Content::Bytes(bytes.into()),
            Body::File(file) => {
                let length = file.metadata().map(|data| data.len()).unwrap_or_default();
                Content::File(file, length)
            }
            Body::Events(told) => Content::Events(told),
        };
        let mut response = Response::new(Out::new(content, seat));
        *response.status_mut() = hyper::StatusCode::from_u16(self.status).unwrap_or_default();
        for (name, value) in heads {
            // A value comes from our own code; a line end in one would begin a field of somebody else's.
            let value: String = value.chars().filter(|letter| !letter.is_control()).collect();
            let name = HeaderName::from_bytes(name.as_bytes());
            if let (Ok(name), Ok(value)) = (name, HeaderValue::from_bytes(value.as_bytes())) {
                response.headers_mut().append(name, value);
            }
        }
        response
    }
}

/// The status of an error.
pub(super) fn status_of(error: &AppError) -> u16 {
    match error {
        AppError::NotFound { .. } => 404,
        AppError::BadInput { .. } => 400,
        AppError::Refused { .. } => 409,
        AppError::StorageFull { .. } => 507,
        AppError::StorageDamaged { .. } | AppError::TooNew { .. } | AppError::Internal { .. } => 500,
    }
}
