//! What an audit finds, by name. What records tell of the journals of their devices is held against each other here: which entry is
//! told in two ways, which record is missing, what came between. Pure; the words are made at the end.

mod fault;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

use crate::sync::{HeadItem, Heads};
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

/// The journals of all devices, as the records tell them.
#[derive(Clone, Debug, Default)]
pub struct Chains {
    /// Every link that any record tells: where two tell one entry differently, the device was forked.
    told: BTreeMap<([u8; 16], u64), Told>,
    /// Which record follows which on its device.
    after: BTreeMap<([u8; 16], Option<Digest>), Digest>,
    /// The first and last entry of each record's walk, by device.
    walks: Vec<([u8; 16], u64, u64, Digest)>,
}

impl Chains {
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
            let told = self.told.entry((record.device, seq)).or_insert(Told { digest, by });
            if told.digest != digest && told.by == by {
                return Err(ChainFault::Changed { seq });
            }
            if told.digest != digest {
                return Err(ChainFault::ToldOtherwise { seq, by: told.by });
            }
        }
        if let (Some(first), Some(last)) = (record.entries.first(), last) {
            self.walks.push((record.device, first.seq, last, by));
        }
        match self.after.insert((record.device, record.before), by) {
            Some(other) if other != by => Err(ChainFault::SealedTwice { other, before: record.before }),
            _ => Ok(()),
        }
    }

    /// Records that another one was sealed after, and that are not here or not whole. `whole` says of each record that is here whether
    /// its walk is.
    pub fn missing(&self, whole: &BTreeMap<Digest, bool>) -> Vec<Finding> {
        let mut found = Vec::new();
        for ((device, before), next) in &self.after {
            let Some(before) = *before else { continue };
            let (device, next) = (DeviceName(*device), *next);
            match whole.get(&before) {
                None => found.push(Finding::Missing { record: before, device, next }),
                Some(false) => found.push(Finding::SealAlone { record: before, device, next }),
                Some(true) => {}
            }
        }
        found
    }

    /// Ends of journals that were told by records and by nobody, where the records here tell them otherwise.
    pub fn against(&self, heads: &Heads) -> Vec<Finding> {
        let vouched = heads.vouched().map(|vouched| (&vouched.head, Some(vouched.by)));
        let hints = heads.hints().map(|hint| (hint, None));
        vouched.chain(hints).filter_map(|(head, by)| self.otherwise(head, by)).collect()
    }

    fn otherwise(&self, head: &HeadItem, by: Option<Digest>) -> Option<Finding> {
        let told = self.told.get(&(head.device, head.seq)).filter(|told| told.digest != head.digest)?;
        let (device, seq, other) = (DeviceName(head.device), head.seq, told.by);
        Some(match by {
            Some(by) => Finding::HeadToldOtherwise { device, seq, by, other },
            None => Finding::HintToldOtherwise { device, seq, other },
        })
    }

    /// A piece of another device's journal that is kept here, in the order of its numbers. What stood before its first entry is not
    /// known. `followed` where the whole chain was looked at already.
    pub fn piece(&self, device: [u8; 16], links: &[Link], followed: bool) -> Vec<Finding> {
        let name = DeviceName(device);
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
            if let Some(told) = self.told.get(&(device, link.seq)).filter(|told| told.digest != link.digest) {
                found.push(Finding::JournalToldOtherwise { device: name, seq: link.seq, by: told.by });
            }
        }
        found
    }

    /// Entries between a walk's first and last that no record tells: another walk that was never sealed, or something that was left
    /// out. For the records of the device `own` its journal itself has answered.
    pub fn gaps(&self, own: &[u8; 16]) -> Vec<Finding> {
        let mut found = Vec::new();
        for (device, first, last, by) in self.walks.iter().filter(|(device, ..)| device != own) {
            let told = self.told.range((*device, *first)..=(*device, *last)).map(|((_, seq), _)| *seq);
            let mut next = *first;
            for seq in told {
                if seq > next {
                    let device = DeviceName(*device);
                    found.push(Finding::Between { by: *by, first: next, last: seq - 1, device });
                    break;
                }
                next = seq + 1;
            }
        }
        found
    }
}
