//! Judging loads anew, and keeping what is said of them.

use std::collections::BTreeMap;

use super::kept::Kept;
use super::trusted::trusted_of;
use super::verdicts::Verdicts;
use super::words::author_of;
use crate::movements::flow::flow_row;
use crate::{AppError, Inner};
use slingseal_judgement::{LoadWord, RULES};
use slingseal_message::trust::Trusted;
use slingseal_store::{Tx, VoidRow};
use slingseal_words::{Digest, LoadNumber};

/// Judges loads anew, each with words of it that were opened just now.
pub(crate) fn restand(
    tx: &Tx<'_>,
    loads: &BTreeMap<LoadNumber, Vec<LoadWord>>,
    trusted: &mut Trusted,
) -> Result<(), AppError> {
    // Voids are looked up without an index: once for all of these loads.
    let mut voids = tx.voids_of_loads(&loads.keys().map(LoadNumber::as_str).collect())?;
    for (load, fresh) in loads {
        restand_one(tx, load, trusted, fresh, voids.remove(load.as_str()).unwrap_or_default())?;
    }
    Ok(())
}

/// Judges a load anew and keeps what was said: how each of its seals stands, and the load with them.
fn restand_one(
    tx: &Tx<'_>,
    load: &LoadNumber,
    trusted: &mut Trusted,
    fresh: &[LoadWord],
    voids: Vec<VoidRow>,
) -> Result<(), AppError> {
    let kept = Kept::with(tx, load, trusted, fresh, voids)?;
    let words: BTreeMap<Digest, &LoadWord> = kept.words.iter().map(|word| (word.digest(), word)).collect();
    let author = |digest: &Digest| words.get(digest).and_then(|word| author_of(word));
    let verdicts = Verdicts::of(load, &kept, trusted);
    for row in &kept.records {
        let now = author(&row.seal);
        if row.author != now {
            tx.set_author(row.seal, now.as_ref())?;
        }
        if let Some(judged) = verdicts.seals.get(&row.seal).filter(|judged| **judged != row.judged) {
            tx.set_judged(row.seal, judged)?;
        }
    }
    for row in &kept.voids {
        let now = author(&row.digest);
        if row.author != now {
            tx.set_void_author(row.digest, now.as_ref())?;
        }
    }
    for row in &kept.tags {
        let Some(word) = words.get(&row.digest) else { continue };
        let now = author_of(word);
        if row.author != now || row.said != Some(word.issued()) {
            tx.set_tag_author(row.digest, word.issued(), now.as_ref())?;
        }
    }
    for row in &kept.movements {
        let now = author(&row.digest);
        if row.author != now {
            tx.set_movement_author(row, now.as_ref())?;
        }
    }
    let given = kept.tags.iter().any(|row| row.planned);
    if let Some(row) = flow_row(load, verdicts.latest, &kept.words, given, trusted)
        && tx.flow(load.as_str())?.as_ref() != Some(&row)
    {
        tx.put_flow(&row)?;
    }
    match verdicts.load {
        Some(row) if tx.load(load.as_str())?.as_ref() != Some(&row) => tx.put_load(&row)?,
        Some(_) => {}
        None => tx.remove_load(load.as_str())?,
    }
    Ok(())
}

/// So many loads are judged anew together.
const LOADS_AT_ONCE: usize = 1_024;

/// Judges loads by their numbers; what is no load number is left.
pub(crate) fn restand_all(tx: &Tx<'_>, loads: &[String], trusted: &mut Trusted) -> Result<(), AppError> {
    for some in loads.chunks(LOADS_AT_ONCE) {
        let loads = some.iter().filter_map(|load| Some((LoadNumber::new(load).ok()?, Vec::new())));
        restand(tx, &loads.collect(), trusted)?;
    }
    Ok(())
}

impl Inner {
    /// Judges anew what another version of the rules has judged, or none: after a step of the schema, or a newer program.
    pub(crate) fn judge_what_is_older(&mut self) -> Result<(), AppError> {
        let loads = self.store.read().loads_not_judged_by(RULES)?;
        if loads.is_empty() {
            return Ok(());
        }
        self.store.write(|tx| restand_all(tx, &loads, &mut trusted_of(tx)?))
    }
}
