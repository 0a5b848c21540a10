//! The digests of an account, of which there are many more than loads: what it rests on, and what a device names and is not here. They
//! are gone through in the order of the digests, so many at a time, each time over all that is here.

use std::collections::{BTreeMap, BTreeSet};

use crate::account::heads::handed_over;
use crate::view::hex;
use crate::{AppError, Inner};
use slingseal_account::report::{DeviceRow, OpenPoints};
use slingseal_journal::DeviceId;
use slingseal_message::closing::AccountDigest;
use slingseal_words::Digest;

/// So many digests are gone through at a time; twice as many lie in memory while they are found.
const AT_ONCE: usize = 1 << 17;

/// Which loads are meant, by name: those that are, or, of the whole account, the few that are not.
pub(super) struct Meant {
    all_but: bool,
    named: BTreeSet<String>,
}

impl Meant {
    pub(super) fn all() -> Self {
        Self { all_but: true, named: BTreeSet::new() }
    }

    pub(super) fn none() -> Self {
        Self { all_but: false, named: BTreeSet::new() }
    }

    pub(super) fn this(&mut self, load: &str) {
        if !self.all_but {
            self.named.insert(load.to_owned());
        }
    }

    pub(super) fn not(&mut self, load: &str) {
        if self.all_but {
            self.named.insert(load.to_owned());
        }
    }

    fn has(&self, load: &str) -> bool {
        self.named.contains(load) != self.all_but
    }
}

/// How far the journal of each device goes by what came of it.
#[derive(Default)]
pub(super) struct Ends(BTreeMap<[u8; 16], u64>);

impl Ends {
    pub(super) fn wrote(&mut self, device: [u8; 16], end: u64) {
        let known = self.0.entry(device).or_default();
        *known = end.max(*known);
    }
}

/// What a digest stands for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum What {
    /// A word of a load that is meant.
    Word,
    /// A record or a report that is here.
    Here,
    /// A report that is here, of a load that is meant.
    WordHere,
    /// What the device of this place names as the one before.
    Before(u32),
}

/// The digests from one on, as many as are gone through at a time.
struct Sweep {
    from: Digest,
    /// The first that is left for the next time.
    upto: Option<Digest>,
    held: Vec<(Digest, What)>,
    most: usize,
    at_once: usize,
}

impl Sweep {
    fn new(from: Digest, at_once: usize) -> Self {
        Self { from, upto: None, held: Vec::new(), most: at_once.saturating_mul(2), at_once }
    }

    /// Whether it is gone through this time.
    fn wants(&self, digest: Digest) -> bool {
        self.from <= digest && self.upto.is_none_or(|upto| digest < upto)
    }

    fn put(&mut self, digest: Digest, what: What) {
        if !self.wants(digest) {
            return;
        }
        if self.held.len() >= self.most {
            self.cut();
        }
        if self.wants(digest) {
            self.held.push((digest, what));
        }
    }

    /// Leaves the largest for the next time. Of one digest all stay together, however many name it.
    fn cut(&mut self) {
        self.settle();
        if let Some((first_left, _)) = self.held.get(self.at_once).copied() {
            let kept = self.held.partition_point(|(digest, _)| *digest < first_left);
            if kept > 0 {
                self.held.truncate(kept);
                self.upto = Some(first_left);
            }
        }
        self.most = self.held.len().max(self.at_once).saturating_mul(2);
    }

    fn settle(&mut self) {
        self.held.sort_unstable();
        self.held.dedup();
    }
}

impl Inner {
    /// Tells the points of every device, and answers the digest of the words of the loads that are meant.
    pub(super) fn digest_and_devices(
        &self,
        meant: &Meant,
        ends: Ends,
        points: &mut OpenPoints,
    ) -> Result<(Digest, u32), AppError> {
        self.digest_and_devices_by(AT_ONCE, meant, ends, points)
    }

    fn digest_and_devices_by(
        &self,
        at_once: usize,
        meant: &Meant,
        ends: Ends,
        points: &mut OpenPoints,
    ) -> Result<(Digest, u32), AppError> {
        let held = self.held_of_devices(ends)?;
        let places: Vec<[u8; 16]> = held.keys().copied().collect();
        let mut missing: BTreeMap<u32, Vec<Digest>> = BTreeMap::new();
        let mut account = AccountDigest::default();
        let mut from = Some(Digest::from_bytes([0; 32]));
        while let Some(first) = from {
            let mut sweep = Sweep::new(first, at_once);
            self.sweep(meant, &places, &mut sweep)?;
            sweep.settle();
            for same in sweep.held.chunk_by(|one, other| one.0 == other.0) {
                let Some((digest, _)) = same.first().copied() else { continue };
                if same.iter().any(|(_, what)| matches!(what, What::Word | What::WordHere)) {
                    account.take(digest);
                }
                if same.iter().any(|(_, what)| matches!(what, What::Here | What::WordHere)) {
                    continue;
                }
                for (_, what) in same {
                    if let What::Before(place) = what {
                        missing.entry(*place).or_default().push(digest);
                    }
                }
            }
            from = sweep.upto;
        }
        self.tell_devices(&held, missing, points)?;
        Ok(account.finish())
    }

    /// How far what came of each device goes, this one aside.
    fn held_of_devices(&self, mut ends: Ends) -> Result<BTreeMap<[u8; 16], u64>, AppError> {
        let read = self.store.read();
        // The entry that says so stands behind the record.
        read.each_record_link(|link| ends.wrote(link.device.0, link.head.saturating_add(1)))?;
        let mut held = ends.0;
        // What a device itself handed over with its journal's end is all that it had then.
        for (device, end) in handed_over(&read)? {
            if let Some(held) = held.get_mut(&device) {
                *held = (*held).max(end);
            }
        }
        held.remove(&self.store.device().0);
        Ok(held)
    }

    /// Finds the digests of a sweep in all that is here.
    fn sweep(&self, meant: &Meant, places: &[[u8; 16]], sweep: &mut Sweep) -> Result<(), AppError> {
        let read = self.store.read();
        read.each_void(|row| -> Result<(), AppError> {
            if meant.has(&row.load) {
                sweep.put(row.digest, What::Word);
            }
            Ok(())
        })?;
        read.digests_of_tags_and_seals(sweep.from, |load, digest| {
            if meant.has(load) {
                sweep.put(digest, What::Word);
            }
            sweep.wants(digest)
        })?;
        let before = |sweep: &mut Sweep, device: DeviceId, before: Option<Digest>| {
            let Some(before) = before.filter(|before| sweep.wants(*before)) else { return };
            let place = places.binary_search(&device.0).ok().and_then(|at| u32::try_from(at).ok());
            if let Some(place) = place {
                sweep.put(before, What::Before(place));
            }
        };
        read.digests_of_walked(sweep.from, |digest| {
            sweep.put(digest, What::Here);
            sweep.wants(digest)
        })?;
        read.each_record_link(|link| before(sweep, link.device, link.before))?;
        read.each_movement_link(|load, link| {
            if sweep.wants(link.digest) {
                sweep.put(link.digest, if meant.has(load) { What::WordHere } else { What::Here });
            }
            before(sweep, link.device, link.before);
        })?;
        Ok(())
    }

    /// Every device of which records or reports are here: how far what came of it goes, and what is missing.
    fn tell_devices(
        &self,
        held: &BTreeMap<[u8; 16], u64>,
        mut missing: BTreeMap<u32, Vec<Digest>>,
        points: &mut OpenPoints,
    ) -> Result<(), AppError> {
        let mut heard: BTreeMap<[u8; 16], u64> = BTreeMap::new();
        for head in self.store.read().heads()? {
            let end = heard.entry(head.device.0).or_default();
            *end = head.seq.max(*end);
        }
        for (place, (device, held)) in (0_u32..).zip(held) {
            let heard = heard.get(device).copied().unwrap_or_default().max(*held);
            let missing = missing.remove(&place).unwrap_or_default();
            let device = hex(device).chars().take(8).collect();
            points.device(&DeviceRow { device, held: *held, heard, missing });
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn digest(number: u32) -> Digest {
        Digest::of(&number.to_be_bytes())
    }

    /// However few are gone through at a time, each comes once, in order, with all that it stands for.
    #[test]
    fn sweeps_go_through_every_digest_once() {
        let named_often = (0..50).map(|place| (digest(7), What::Before(place)));
        let all: Vec<(Digest, What)> = (0..500)
            .map(|number| (digest(number), if number % 3 == 0 { What::Here } else { What::Word }))
            .chain((0..200).map(|number| (digest(number * 4), What::Before(number % 3))))
            .chain(named_often)
            .chain((0..40).map(|number| (digest(number), What::WordHere)))
            .collect();
        let whole: BTreeSet<(Digest, What)> = all.iter().copied().collect();
        for at_once in [1, 2, 10, 64, 1_000] {
            let (mut from, mut found, mut sweeps) = (Some(Digest::from_bytes([0; 32])), Vec::new(), 0);
            while let Some(first) = from {
                let mut sweep = Sweep::new(first, at_once);
                for (digest, what) in &all {
                    sweep.put(*digest, *what);
                }
                sweep.settle();
                assert!(sweep.held.len() <= 2 * (at_once + 52), "{} at {at_once}", sweep.held.len());
                found.append(&mut sweep.held);
                assert_ne!(sweep.upto, Some(first));
                (from, sweeps) = (sweep.upto, sweeps + 1);
            }
            assert!(found.iter().eq(&whole), "{at_once}");
            assert_eq!(sweeps > 1, at_once < 1_000);
        }
    }
}
