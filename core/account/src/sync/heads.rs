//! How far other devices' journals had come, as far as this home has heard.
//!
//! A record names its device, the number of that device's last entry and the entry's digest, all under its inspector's
//! signature: such a head is **vouched for**. Two of them that tell one entry otherwise are an alarm. A head that stands in a
//! bundle by itself is signed by nobody: a **hint**. It is kept apart and told as a hint, so that a forged one can neither
//! take the place of a true one nor raise an alarm by itself, and only a few are kept.

use std::collections::BTreeMap;

use super::HeadItem;
use slingseal_message::envelope::Reader;
use slingseal_words::Digest;

/// A head that a signed record tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct VouchedHead {
    /// Which device, entry and digest.
    pub head: HeadItem,
    /// The record.
    pub by: Digest,
}

/// What is known of other devices' journals. Bounded alike when it is read and when it is written: what [`Heads::by_age`] and
/// [`Heads::hints`] give is what [`Heads::of`] takes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Heads {
    /// The last of each device, and when it was heard, counted.
    vouched: BTreeMap<[u8; 16], (u64, VouchedHead)>,
    /// The one that came first stands first.
    hints: Vec<HeadItem>,
    heard: u64,
    /// Hints that were new since this was made: those of one bundle.
    fresh: usize,
}

impl Heads {
    /// The most devices of which a vouched head is kept; beyond, the one not heard of for longest is forgotten. Records tell
    /// it again: the audit reads them and not this list.
    pub const MOST_VOUCHED: usize = 10_000;
    /// The most hints.
    pub const MOST_HINTS: usize = 512;
    /// The most hints of one device.
    pub const MOST_HINTS_A_DEVICE: usize = 4;
    /// The most hints that are taken from one bundle. A sender passes on its own and at most [`Self::MOST_HINTS`] of others,
    /// the newest first, so that honest news still spreads.
    pub const MOST_HINTS_A_BUNDLE: usize = 64;

    /// Takes the head that a signed record tells. Answers the record that told the same entry otherwise, if one did.
    pub fn vouch(&mut self, head: HeadItem, by: Digest) -> Option<Digest> {
        self.hints.retain(|hint| *hint != head);
        self.heard += 1;
        let heard = self.heard;
        if let Some((when, known)) = self.vouched.get_mut(&head.device) {
            *when = heard;
            let otherwise = known.head.seq == head.seq && known.head.digest != head.digest;
            if head.seq > known.head.seq {
                *known = VouchedHead { head, by };
            }
            return otherwise.then_some(known.by);
        }
        if self.vouched.len() >= Self::MOST_VOUCHED {
            let oldest = self.vouched.iter().min_by_key(|(_, (when, _))| *when).map(|(device, _)| *device);
            oldest.map(|device| self.vouched.remove(&device));
        }
        self.vouched.insert(head.device, (heard, VouchedHead { head, by }));
        None
    }

    /// Takes a head that nobody signed; `false` where it is known, says less than a record, or one too many of this bundle.
    pub fn hint(&mut self, head: HeadItem) -> bool {
        let known = self.vouched.get(&head.device).is_some_and(|(_, known)| known.head == head);
        if known || self.hints.contains(&head) || self.fresh >= Self::MOST_HINTS_A_BUNDLE {
            return false;
        }
        self.fresh += 1;
        self.push(head);
        true
    }

    fn push(&mut self, head: HeadItem) {
        let same = self.hints.iter().filter(|hint| hint.device == head.device).count();
        if same >= Self::MOST_HINTS_A_DEVICE
            && let Some(oldest) = self.hints.iter().position(|hint| hint.device == head.device)
        {
            self.hints.remove(oldest);
        } else if self.hints.len() >= Self::MOST_HINTS {
            self.hints.remove(0);
        }
        self.hints.push(head);
    }

    /// Every head that a record told, the last of each device.
    pub fn vouched(&self) -> impl Iterator<Item = &VouchedHead> {
        self.vouched.values().map(|(_, vouched)| vouched)
    }

    /// Every hint, the newest first: the order in which they are passed on.
    pub fn hints(&self) -> impl Iterator<Item = &HeadItem> {
        self.hints.iter().rev()
    }

    /// Every head that a record told, the last of each device; the one not heard of for longest first.
    pub fn by_age(&self) -> Vec<VouchedHead> {
        let mut by_age: Vec<(u64, VouchedHead)> = self.vouched.values().copied().collect();
        by_age.sort_by_key(|(when, _)| *when);
        by_age.into_iter().map(|(_, vouched)| vouched).collect()
    }

    /// Of heads as they were kept: what records told, the one not heard of for longest first, and hints, the oldest first.
    pub fn of(
        vouched: impl IntoIterator<Item = VouchedHead>,
        hints: impl IntoIterator<Item = HeadItem>,
    ) -> Self {
        let mut heads = Self::default();
        for vouched in vouched {
            heads.vouch(vouched.head, vouched.by);
        }
        hints.into_iter().for_each(|hint| heads.push(hint));
        heads
    }

    /// Reads the list of a home that did not yet tell hints from what is vouched for, and that wrote more than it could read:
    /// all of it counts as hints, as many as are kept. Never refuses, so that such a home opens again.
    pub fn of_unsigned_list(bytes: &[u8]) -> Self {
        let mut reader = Reader::new(bytes);
        let mut heads = Self::default();
        for _ in 0..reader.any_array("journal heads").unwrap_or_default() {
            let Ok(head) = reader.bytes("journal head").and_then(HeadItem::parse) else { break };
            heads.push(head);
        }
        heads
    }
}

#[cfg(test)]
mod tests {
    use super::{HeadItem, Heads};
    use slingseal_words::Digest;

    fn head(device: u32, seq: u64, what: &str) -> HeadItem {
        let mut id = [0; 16];
        id[..4].copy_from_slice(&device.to_be_bytes());
        HeadItem { device: id, seq, digest: Digest::of(what.as_bytes()) }
    }

    fn again(heads: &Heads) -> Heads {
        let mut hints: Vec<HeadItem> = heads.hints().copied().collect();
        hints.reverse();
        Heads::of(heads.by_age(), hints)
    }

    #[test]
    fn hints_never_touch_what_is_vouched_for() {
        let (one, two) = (Digest::of(b"record 1"), Digest::of(b"record 2"));
        let mut heads = Heads::default();
        assert_eq!(heads.vouch(head(7, 20, "true"), one), None);
        assert!(heads.hint(head(7, u64::MAX >> 1, "forged")));
        assert!(heads.hint(head(7, 20, "forged")));
        assert_eq!(heads.vouch(head(7, 20, "true"), two), None, "a forged hint raises no alarm");
        assert_eq!(heads.vouch(head(7, 20, "other"), two), Some(one), "and hides none");
        assert_eq!(heads.vouch(head(7, 12, "older"), two), None);
        assert!(!heads.hint(head(7, 20, "true")), "a record says it already");
        assert_eq!(heads.vouched().count(), 1);
    }

    /// Far more than is kept, of many devices and of one: what is written is always read again.
    #[test]
    fn what_is_written_is_read() {
        let mut heads = Heads::default();
        for device in 0..Heads::MOST_VOUCHED as u32 + 50 {
            heads.vouch(head(device, 9, "v"), Digest::of(&device.to_be_bytes()));
        }
        assert_eq!(heads.vouched().count(), Heads::MOST_VOUCHED);
        assert!(heads.vouched().all(|vouched| vouched.head.device[..4] >= 50u32.to_be_bytes()[..]));
        for bundle in 0..20u32 {
            heads = again(&heads);
            for at in 0..100 {
                heads.hint(head(1_000_000 + bundle * 1_000 + at, 3, "h"));
                heads.hint(head(7, u64::from(bundle * 1_000 + at), "h"));
            }
        }
        assert_eq!(heads.hints().count(), Heads::MOST_HINTS);
        let of_one = heads.hints().filter(|hint| hint.device == head(7, 0, "").device).count();
        assert!(of_one <= Heads::MOST_HINTS_A_DEVICE);
        let read = again(&heads);
        assert_eq!((read.by_age(), read.hints), (heads.by_age(), heads.hints));
    }

    #[test]
    fn a_list_that_was_written_too_long_is_taken_up_to_the_bound() {
        let mut out = slingseal_message::envelope::Writer::new();
        out.array(100_001);
        for device in 0..100_001 {
            out.bytes(&head(device, 1, "x").to_bytes());
        }
        let heads = Heads::of_unsigned_list(&out.into_bytes());
        assert_eq!((heads.hints().count(), heads.vouched().count()), (Heads::MOST_HINTS, 0));
        assert_eq!(Heads::of_unsigned_list(b"\xff").hints().count(), 0);
        assert_eq!(
            Heads::of_unsigned_list(&[0x9b, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff]).hints().count(),
            0
        );
    }
}
