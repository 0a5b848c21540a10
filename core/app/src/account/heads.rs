//! What this home has heard of the ends of other devices' journals: where it is kept, and what is said of it.

use crate::AppError;
use slingseal_account::sync::{HeadItem, Heads, VouchedHead};
use slingseal_catalogue::audit as audit_words;
use slingseal_journal::DeviceId;
use slingseal_store::{HeadRow, Reader, Tx};

/// Schema 2 kept one list among the settings, whoever had said it, and wrote more than it could read.
const UNSIGNED: &str = "journal-heads";

/// What was heard of the ends of other devices' journals.
pub(crate) fn heads(read: &Reader<'_>) -> Result<Heads, AppError> {
    if let Some(bytes) = read.setting(UNSIGNED)? {
        return Ok(Heads::of_unsigned_list(&bytes));
    }
    let rows = read.heads()?;
    let item = |row: &HeadRow| HeadItem { device: row.device.0, seq: row.seq, digest: row.digest };
    let vouched = rows.iter().filter_map(|row| Some(VouchedHead { head: item(row), by: row.record? }));
    let hints = rows.iter().filter(|row| row.record.is_none()).map(item);
    Ok(Heads::of(vouched, hints))
}

pub(crate) fn put_heads(tx: &Tx<'_>, heads: &Heads) -> Result<(), AppError> {
    let row = |head: &HeadItem, record| HeadRow {
        device: DeviceId(head.device),
        seq: head.seq,
        digest: head.digest,
        record,
    };
    let vouched = heads.by_age().into_iter().map(|vouched| row(&vouched.head, Some(vouched.by)));
    let mut hints: Vec<HeadRow> = heads.hints().map(|hint| row(hint, None)).collect();
    hints.reverse();
    let rows: Vec<HeadRow> = vouched.chain(hints).collect();
    tx.put_heads(&rows)?;
    tx.remove_setting(UNSIGNED)?;
    Ok(())
}

/// Whether this device's own journal is not as a head says that it was.
pub(crate) fn gone(read: &Reader<'_>, head: &HeadItem) -> Result<bool, AppError> {
    // An empty journal has no entry that could be gone.
    Ok(head.seq > 0 && read.entry(head.seq)?.is_none_or(|entry| entry.digest != head.digest))
}

/// A signed record tells more of this device's journal than is here.
pub(crate) const OWN_JOURNAL_GONE: audit_words::OwnJournalGone = audit_words::OwnJournalGone;

/// The same, told by nobody who signed.
pub(crate) const OWN_JOURNAL_HINT: audit_words::OwnJournalHint = audit_words::OwnJournalHint;
