//! The photographs of a load: what its reports and its inspections name, and whether it came along.

use serde::Serialize;
use slingseal_catalogue::{Saying, refusals, story as words};

use crate::{App, AppError, LoadView, Stamp};
use slingseal_words::Digest;

/// A photograph that a report or an inspection names.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PhotoView {
    /// What it goes by: the digest of its bytes.
    pub digest: String,
    /// When what names it happened.
    pub at: Stamp,
    /// What names it, as a person reads it.
    pub of: String,
    /// Whether its bytes are here: a moving code leaves photographs out.
    pub here: bool,
}

impl App {
    /// A photograph's bytes, PNG or JPEG: whoever made them may be a stranger.
    ///
    /// # Errors
    /// [`AppError::NotFound`] where it is not here; a damaged store.
    pub fn photo(&self, digest: &str) -> Result<Vec<u8>, AppError> {
        let missing = || AppError::not_found(refusals::PhotographNotHere);
        let digest = Digest::from_hex(digest).ok_or_else(missing)?;
        self.lock().store.read().photo(digest)?.ok_or_else(missing)
    }

    /// The photographs that a load's reports and inspections name, the first that happened first; each once.
    ///
    /// # Errors
    /// A damaged store.
    pub fn photos_of(&self, load: &LoadView) -> Result<Vec<PhotoView>, AppError> {
        let inner = self.lock();
        let reports = load.reports.iter().map(|report| {
            let of =
                words::MovementTold { what: super::story::capital(&report.what), origin: &report.origin };
            (&report.photos, &report.at, of.saying())
        });
        let inspections = load.inspections.iter().map(|record| {
            let of: Saying = words::PhotoOfInspection { by: &record.line.inspector }.into();
            (&record.photos, &record.line.issued, of)
        });
        let read = inner.store.read();
        let mut views: Vec<PhotoView> = Vec::new();
        for (photos, at, of) in reports.chain(inspections) {
            for digest in photos {
                if views.iter().any(|view| view.digest == *digest) {
                    continue;
                }
                let here = match Digest::from_hex(digest) {
                    Some(digest) => read.has_photo(digest)?,
                    None => false,
                };
                let of = of.say(inner.language());
                views.push(PhotoView { digest: digest.clone(), at: at.clone(), of, here });
            }
        }
        views.sort_by_key(|view| view.at.unix);
        Ok(views)
    }
}
