//! What this home has heard of the ends of other devices' journals: where it is kept, and what is said of it.

use std::collections::BTreeMap;

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

/// Up to which entry of its journal each device itself handed over what it had: the end that stood first in a whole bundle of its
/// own. Nobody signs it, and it takes away no alarm but one: that a journal goes on behind what came of it.
const HANDED: &str = "handed-over";
/// Devices of which that is kept; a stranger can name as many as it likes.
const MOST_HANDED: usize = 4_096;

pub(crate) fn handed_over(read: &Reader<'_>) -> Result<BTreeMap<[u8; 16], u64>, AppError> {
    let bytes = read.setting(HANDED)?.unwrap_or_default();
    let one = |chunk: &[u8]| {
        let (device, end) = chunk.split_first_chunk::<16>()?;
        Some((*device, u64::from_be_bytes(*end.first_chunk()?)))
    };
    Ok(bytes.chunks_exact(24).filter_map(one).collect())
}

pub(crate) fn hand_over(tx: &Tx<'_>, head: &HeadItem) -> Result<(), AppError> {
    let mut all = handed_over(tx)?;
    if all.len() >= MOST_HANDED && !all.contains_key(&head.device) {
        return Ok(());
    }
    let end = all.entry(head.device).or_default();
    if *end >= head.seq {
        return Ok(());
    }
    *end = head.seq;
    let bytes: Vec<u8> =
        all.iter().flat_map(|(device, end)| device.iter().copied().chain(end.to_be_bytes())).collect();
    tx.put_setting(HANDED, &bytes)?;
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
