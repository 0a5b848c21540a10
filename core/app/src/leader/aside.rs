use serde::Serialize;
use slingseal_catalogue::refusals as words;

use crate::{App, AppError, CodeView, Stamp, TagMade};
use slingseal_message::tag::kind_of_tag;
use slingseal_words::Digest;

/// Something that came and was not believed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AsideView {
    /// SHA-256 of its bytes.
    pub digest: String,
    /// Why, and what to do.
    pub reason: String,
    /// When it came.
    pub received: Stamp,
    /// How many bytes it has.
    pub bytes: u64,
}

impl App {
    /// What was set aside, the last first.
    ///
    /// # Errors
    /// Storage.
    pub fn set_aside(&self, most: u32) -> Result<Vec<AsideView>, AppError> {
        let rows = self.lock().store.read().quarantine(most)?;
        let view = |row: slingseal_store::QuarantineRow| AsideView {
            digest: row.digest.to_string(),
            reason: row.reason,
            received: row.received.into(),
            bytes: u64::try_from(row.bytes.len()).unwrap_or(u64::MAX),
        };
        Ok(rows.into_iter().map(view).collect())
    }

    /// A tag that is known here, with its code, by its digest.
    ///
    /// # Errors
    /// No such tag.
    pub fn tag(&self, digest: &str) -> Result<TagMade, AppError> {
        let none = || AppError::not_found(words::SuchTagPlanLoadAgain);
        let inner = self.lock();
        let row = inner.store.read().tag(Digest::from_hex(digest).ok_or_else(none)?)?.ok_or_else(none)?;
        Ok(TagMade {
            code: CodeView::of(kind_of_tag(&row.bytes), &row.bytes)?,
            tag: inner.tag_view(&row.bytes)?,
        })
    }
}
