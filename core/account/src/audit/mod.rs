//! What an audit finds, by name. What records tell of the journals of their devices is held against each other here: which entry is
//! told in two ways, which record is missing, what came between. Pure; the words are made at the end.

mod fault;
#[cfg(test)]
mod tests;

use std::collections::{BTreeMap, BTreeSet};

use crate::sync::HeadItem;
use slingseal_message::seal::{JournalEntry, Record, Seal};
use slingseal_message::trust::{Role, Signer};
use slingseal_words::Digest;

pub use fault::{ChainFault, ColumnFault, DeviceName, Finding, RecordFault, Unentitled};

/// Whether the signer might sign it then. Who was revoked since is another question.
///
/// # Errors
/// Why not.
pub fn might_sign(seal: &Seal, signer: &Signer) -> Result<(), Unentitled> {
    let credential = &signer.credential;
    if !credential.roles.has(Role::Inspector) {
        return Err(Unentitled::NoInspector(credential.holder.clone()));
    }
    if seal.issued > credential.expires {
        return Err(Unentitled::RanOut(credential.holder.clone()));
    }
    Ok(())
}

/// An entry of a journal, as far as its place in the chain goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Link {
    /// Its number, from one.
    pub seq: u64,
    /// The digest of the entry before it.
    pub prev: Digest,
    /// Its own.
    pub digest: Digest,
}

/// What a record says of an entry of some device's journal.
#[derive(Clone, Copy, Debug)]
struct Told {
    digest: Digest,
    by: Digest,
}

/// The journal of one device, as its records tell it.
///
/// The records are taken in the order of their first entries ([`Chain::begins`]). What stands before the next one's is let go
/// ([`Chain::pass`]), so that an account of any size is looked at with as much memory as the walks that were open at once.
#[derive(Clone, Debug)]
pub struct Chain {
    device: [u8; 16],
    /// Numbers that are asked for at the end, however early they stand.
    watched: BTreeSet<u64>,
    /// What was told of them.
    kept: BTreeMap<u64, Told>,
    /// Every link that a record here may still tell otherwise: where two tell one entry differently, the device was forked.
    told: BTreeMap<u64, Told>,
    /// Which record follows which.
    after: BTreeMap<Option<Digest>, Digest>,
    /// The first and last entry of each walk that others may still stand in.
    walks: Vec<(u64, u64, Digest)>,
    gaps: Vec<Finding>,
}

impl Chain {
    /// Nothing was told yet. `watched` are the entries that [`Chain::against`] and [`Chain::piece`] will ask for.
    pub fn new(device: [u8; 16], watched: impl IntoIterator<Item = u64>) -> Self {
        Self {
            device,
            watched: watched.into_iter().collect(),
            kept: BTreeMap::new(),
            told: BTreeMap::new(),
            after: BTreeMap::new(),
            walks: Vec::new(),
            gaps: Vec::new(),
        }
    }

    /// The first entry that a record tells something of: the one before its walk.
    pub fn begins(record: &Record) -> u64 {
        let first = record.entries.iter().map(|entry| entry.seq.saturating_sub(1)).min();
        first.unwrap_or(record.head.0).min(record.head.0)
    }

    /// Nothing that comes tells of an entry before this one.
    pub fn pass(&mut self, next: u64) {
        let (ended, open) =
            std::mem::take(&mut self.walks).into_iter().partition(|(_, last, _)| *last < next);
        self.walks = open;
        self.find_gaps(ended);
        // A walk that is still open is looked at for gaps from its first entry on.
        let from = self.walks.iter().map(|(first, ..)| *first).min().map_or(next, |first| first.min(next));
        self.told = self.told.split_off(&from);
    }

    /// Takes what a record tells. `entry_digest` is the journal's own rule for an entry of a walk.
    ///
    /// # Errors
    /// The first link that does not agree with itself, or with another record's.
    pub fn take(
        &mut self,
        record: &Record,
        by: Digest,
        entry_digest: &dyn Fn(&JournalEntry, &[u8; 16]) -> Digest,
    ) -> Result<(), ChainFault> {
        let mut last: Option<u64> = None;
        let mut links: Vec<(u64, Digest)> = Vec::new();
        for entry in &record.entries {
            if last.is_some_and(|last| entry.seq <= last) {
                return Err(ChainFault::OutOfOrder { seq: entry.seq });
            }
            links.push((entry.seq.saturating_sub(1), entry.prev));
            links.push((entry.seq, entry_digest(entry, &record.walk)));
            last = Some(entry.seq);
        }
        if last.is_some_and(|last| record.head.0 < last) {
            return Err(ChainFault::EndsEarly);
        }
        links.push(record.head);
        for (seq, digest) in links.into_iter().filter(|(seq, _)| *seq > 0) {
            let told = *self.told.entry(seq).or_insert(Told { digest, by });
            if self.watched.contains(&seq) {
                self.kept.entry(seq).or_insert(told);
            }
            if told.digest != digest && told.by == by {
                return Err(ChainFault::Changed { seq });
            }
            if told.digest != digest {
                return Err(ChainFault::ToldOtherwise { seq, by: told.by });
            }
        }
        if let (Some(first), Some(last)) = (record.entries.first(), last) {
            self.walks.push((first.seq, last, by));
        }
        match self.after.insert(record.before, by) {
            Some(other) if other != by => Err(ChainFault::SealedTwice { other, before: record.before }),
            _ => Ok(()),
        }
    }

    /// Records that another one was sealed after, and that are not here or not whole. `whole` says of each record that is here whether
    /// its walk is.
    pub fn missing(&self, whole: &BTreeMap<Digest, bool>) -> Vec<Finding> {
        let mut found = Vec::new();
        for (before, next) in &self.after {
            let Some(before) = *before else { continue };
            let (device, next) = (DeviceName(self.device), *next);
            match whole.get(&before) {
                None => found.push(Finding::Missing { record: before, device, next }),
                Some(false) => found.push(Finding::SealAlone { record: before, device, next }),
                Some(true) => {}
            }
        }
        found
    }

    /// Ends of this journal that were told by a record or by nobody, where the records here tell them otherwise.
    pub fn against(&self, head: &HeadItem, by: Option<Digest>) -> Option<Finding> {
        let told = self.kept.get(&head.seq).filter(|told| told.digest != head.digest)?;
        let (device, seq, other) = (DeviceName(self.device), head.seq, told.by);
        Some(match by {
            Some(by) => Finding::HeadToldOtherwise { device, seq, by, other },
            None => Finding::HintToldOtherwise { device, seq, other },
        })
    }

    /// A piece of this journal that is kept here, in the order of its numbers. What stood before its first entry is not known.
    /// `followed` where the whole chain was looked at already.
    pub fn piece(&self, links: &[Link], followed: bool) -> Vec<Finding> {
        let name = DeviceName(self.device);
        let mut found = Vec::new();
        for pair in links.windows(2).filter(|_| !followed) {
            let [one, next] = pair else { continue };
            if next.seq == one.seq && next.digest != one.digest {
                found.push(Finding::Forked { device: name, seq: one.seq });
            } else if next.seq == one.seq + 1 && next.prev != one.digest {
                found.push(Finding::Unlinked { device: name, seq: next.seq });
            }
        }
        for link in links {
            if let Some(told) = self.kept.get(&link.seq).filter(|told| told.digest != link.digest) {
                found.push(Finding::JournalToldOtherwise { device: name, seq: link.seq, by: told.by });
            }
        }
        found
    }

    /// Entries between a walk's first and last that no record tells: another walk that was never sealed, or something that was left
    /// out. Of the device that asks its own journal has answered.
    pub fn gaps(mut self) -> Vec<Finding> {
        let walks = std::mem::take(&mut self.walks);
        self.find_gaps(walks);
        self.gaps
    }

    fn find_gaps(&mut self, walks: Vec<(u64, u64, Digest)>) {
        for (first, last, by) in walks {
            let mut next = first;
            for (seq, _) in self.told.range(first..=last) {
                if *seq > next {
                    let device = DeviceName(self.device);
                    self.gaps.push(Finding::Between { by, first: next, last: seq - 1, device });
                    break;
                }
                next = seq + 1;
            }
        }
    }
}
