//! What this home has heard of the ends of other devices' journals: where it is kept, and what is said of it.

use super::AppError;
use slingseal_account::sync::{HeadItem, Heads};
use slingseal_store::{Reader, Tx};

const HEADS: &str = "heads-2";
/// Schema 2 kept one list, whoever had said it, and wrote more than it could read.
const UNSIGNED: &str = "journal-heads";

/// What was heard of the ends of other devices' journals.
pub(super) fn heads(read: &Reader<'_>) -> Result<Heads, AppError> {
    if let Some(bytes) = read.setting(HEADS)? {
        return Ok(Heads::parse(&bytes)?);
    }
    Ok(read.setting(UNSIGNED)?.map(|bytes| Heads::of_unsigned_list(&bytes)).unwrap_or_default())
}

pub(super) fn put_heads(tx: &Tx<'_>, heads: &Heads) -> Result<(), AppError> {
    tx.put_setting(HEADS, &heads.to_bytes())?;
    tx.remove_setting(UNSIGNED)?;
    Ok(())
}

/// Whether this device's own journal is not as a head says that it was.
pub(super) fn gone(read: &Reader<'_>, head: &HeadItem) -> Result<bool, AppError> {
    // An empty journal has no entry that could be gone.
    Ok(head.seq > 0 && read.entry(head.seq)?.is_none_or(|entry| entry.digest != head.digest))
}

/// A signed record tells more of this device's journal than is here.
pub(super) const OWN_JOURNAL_GONE: &str = "another device knows more of this one's journal than is here: this home was copied or put back to an older state; find \
     out when";

/// The same, told by nobody who signed.
pub(super) const OWN_JOURNAL_HINT: &str = "a head that nobody signed says more of this device's journal than is here: if this home was not copied or put back to an \
     older state, the bundle was tampered with";
