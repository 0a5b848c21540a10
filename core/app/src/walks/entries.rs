//! A walk in the journal: what its entries are called, and what stands in them.

use slingseal_catalogue::refusals as words;

use crate::AppError;
use crate::view::{hex, unhex16};
use slingseal_journal::WalkId;
use slingseal_message::envelope::{Limits, Reader, check};
use slingseal_walk::walk::{Event, Walk};
use slingseal_words::{CallSign, Digest};

/// The journal's entry that a walk stands on.
pub(crate) const GROUND: &str = "ground";
/// The journal's entry of one event of a walk.
pub(crate) const EVENT: &str = "event";
/// The journal's entry that an inspection without a tag stands on.
///
/// ```cddl
/// subject = [subject: tstr, name: tstr, procedure digest: bstr .size 32, inspector: tstr]
/// ```
pub(crate) const SUBJECT: &str = "subject";
/// The journal's entry that names the record of a sealed walk.
pub(crate) const SEALED: &str = "sealed";
/// The journal's entry that names the signed word on an inspection of what is no load.
pub(crate) const SIGNED: &str = "signed";

/// The hexadecimal of a walk's id.
pub(crate) fn id_text(id: WalkId) -> String {
    hex(&id.0)
}

pub(crate) fn walk_id(text: &str) -> Result<WalkId, AppError> {
    unhex16(text).map(WalkId).ok_or_else(|| AppError::not_found(words::NoWalkSeeLoadsInHand))
}

/// Tag, digest of the procedure, inspector.
pub(crate) fn ground_parts(body: &[u8]) -> Result<(&[u8], Digest, CallSign), AppError> {
    check(body, Limits::FILE)?;
    let mut reader = Reader::new(body);
    reader.array(3, "ground of a walk")?;
    let tag = reader.bytes("tag")?;
    let digest = Digest::from_bytes(reader.fixed("procedure")?);
    Ok((tag, digest, reader.line("inspector", CallSign::received)?))
}

pub(crate) fn events<'e>(bodies: impl Iterator<Item = &'e [u8]>) -> Result<Vec<Event>, AppError> {
    let damaged = |error: serde_json::Error| AppError::StorageDamaged {
        message: words::WalkEntryDamaged { error: error.to_string() }.into(),
    };
    bodies.map(|body| serde_json::from_slice(body).map_err(damaged)).collect()
}

pub(crate) fn bodies(events: &[Event]) -> Result<Vec<Vec<u8>>, AppError> {
    events.iter().map(|event| serde_json::to_vec(event).map_err(AppError::internal)).collect()
}

pub(crate) fn apply(walk: &mut Walk, events: &[Event]) -> Result<(), AppError> {
    events.iter().try_for_each(|event| walk.apply(event).map_err(AppError::internal))
}
