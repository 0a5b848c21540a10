use slingseal_catalogue::{Saying, faults as words};
use std::fmt;

use slingseal_words::{Digest, Time};

/// What a device goes by in its journal: 16 random bytes, made when the home is made.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DeviceId(pub [u8; 16]);

/// What a walk goes by: 16 random bytes, made by the caller.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WalkId(pub [u8; 16]);

macro_rules! show_hex {
    ($name:ident) => {
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, concat!(stringify!($name), "({})"), self)
            }
        }
    };
}
show_hex!(DeviceId);
show_hex!(WalkId);

/// One entry of a journal.
///
/// `digest` = SHA-256 of, one after another:
/// the ASCII text `slingseal journal entry 1`, `prev` (32 bytes), `seq` (8 bytes, big-endian), `time` (8 bytes, seconds
/// since 1970, two's complement, big-endian), the length of `kind` (1 byte) and `kind` (ASCII), one byte 0 or one byte 1
/// and the walk's 16 bytes, the length of `body` (8 bytes, big-endian) and `body`.
///
/// The first entry has `seq` 1, and its `prev` is SHA-256 of the ASCII text `slingseal journal of device 1` and the
/// device's 16 bytes: a chain belongs to one device.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Counts from one, without gaps.
    pub seq: u64,
    /// When it was written, by the device's clock; may go back where the clock was set back.
    pub time: Time,
    /// What it is: at most 32 characters, ASCII.
    pub kind: String,
    /// The walk that it belongs to.
    pub walk: Option<WalkId>,
    /// What the facade wrote; opaque here.
    pub body: Vec<u8>,
    /// The digest of the entry before.
    pub prev: Digest,
    /// The digest of this entry.
    pub digest: Digest,
}

impl Entry {
    /// The entry that follows `head`.
    pub fn after(head: Head, new: NewEntry<'_>) -> Self {
        let mut entry = Self {
            seq: head.seq + 1,
            time: new.time,
            kind: new.kind.to_owned(),
            walk: new.walk,
            body: new.body.to_vec(),
            prev: head.digest,
            digest: head.digest,
        };
        entry.digest = entry.derive_digest();
        entry
    }

    /// What the digest of this entry must be.
    pub fn derive_digest(&self) -> Digest {
        self.parts().derive_digest()
    }

    fn parts(&self) -> EntryParts<'_> {
        let Self { seq, time, kind, walk, body, prev, digest: _ } = self;
        EntryParts { seq: *seq, time: *time, kind, walk: *walk, body, prev: *prev }
    }
}

/// What the digest of an entry is made of, where it lies: a record has many entries, and a copy of each is dearer than its digest.
#[derive(Clone, Copy, Debug)]
pub struct EntryParts<'a> {
    /// Counts from one, without gaps.
    pub seq: u64,
    /// When it was written.
    pub time: Time,
    /// What it is.
    pub kind: &'a str,
    /// The walk that it belongs to.
    pub walk: Option<WalkId>,
    /// What the facade wrote.
    pub body: &'a [u8],
    /// The digest of the entry before.
    pub prev: Digest,
}

impl EntryParts<'_> {
    /// What the digest of an entry of these must be.
    pub fn derive_digest(&self) -> Digest {
        let kind_length = [u8::try_from(self.kind.len()).unwrap_or(u8::MAX)];
        let (has_walk, walk): (&[u8], &[u8]) = match &self.walk {
            Some(WalkId(bytes)) => (&[1], bytes),
            None => (&[0], &[]),
        };
        Digest::of_parts(&[
            b"slingseal journal entry 1",
            self.prev.as_bytes(),
            &self.seq.to_be_bytes(),
            &self.time.unix().to_be_bytes(),
            &kind_length,
            self.kind.as_bytes(),
            has_walk,
            walk,
            &(self.body.len() as u64).to_be_bytes(),
            self.body,
        ])
    }
}

/// What the facade wants written down.
#[derive(Clone, Copy, Debug)]
pub struct NewEntry<'a> {
    /// What it is: 1 to 32 characters, ASCII.
    pub kind: &'a str,
    /// The walk that it belongs to.
    pub walk: Option<WalkId>,
    /// The bytes.
    pub body: &'a [u8],
    /// The time now.
    pub time: Time,
}

/// The end of a chain: the number of entries and the last one's digest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Head {
    /// The number of the last entry; 0 where there is none.
    pub seq: u64,
    /// The digest of the last entry; of an empty chain, what the first one's `prev` will be.
    pub digest: Digest,
}

impl Head {
    /// The head of a device's empty chain.
    pub fn empty(device: DeviceId) -> Self {
        Self { seq: 0, digest: Digest::of_empty_journal(&device.0) }
    }
}

/// What is wrong with a chain, at the first place where something is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChainFault {
    /// There is no entry of this number.
    Missing {
        /// The number.
        seq: u64,
    },
    /// The entry's bytes do not give its digest.
    Rewritten {
        /// The number.
        seq: u64,
    },
    /// The entry was once another one's place in the chain.
    Reordered {
        /// The number that it has now.
        seq: u64,
        /// The number that it was written with.
        belongs: u64,
    },
    /// The entry is sound in itself, but does not follow the entry before it: from another chain, or a forked device.
    Forked {
        /// The number.
        seq: u64,
    },
}

impl ChainFault {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Missing { seq } => words::ChainFaultMissing { seq }.into(),
            Self::Rewritten { seq } => words::ChainFaultRewritten { seq }.into(),
            Self::Reordered { seq, belongs } => words::ChainFaultReordered { seq, belongs }.into(),
            Self::Forked { seq } => words::ChainFaultForked { seq, before: seq - 1 }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(ChainFault);

impl ChainFault {
    /// The number of the entry where the fault shows.
    pub fn seq(&self) -> u64 {
        match *self {
            Self::Missing { seq }
            | Self::Rewritten { seq }
            | Self::Reordered { seq, .. }
            | Self::Forked { seq } => seq,
        }
    }
}

/// Checks a chain entry by entry, in the order of their numbers.
#[derive(Clone, Copy, Debug)]
pub struct ChainCheck {
    head: Head,
}

impl ChainCheck {
    /// From a device's first entry on.
    pub fn new(device: DeviceId) -> Self {
        Self { head: Head::empty(device) }
    }

    /// From a head on that is already known to be good.
    pub fn from(head: Head) -> Self {
        Self { head }
    }

    /// Takes the next entry.
    pub fn push(&mut self, entry: &Entry) -> Result<(), ChainFault> {
        let seq = self.head.seq + 1;
        if entry.seq > seq {
            return Err(ChainFault::Missing { seq });
        }
        if entry.derive_digest() != entry.digest {
            return Err(match written_as(entry) {
                Some(belongs) => ChainFault::Reordered { seq: entry.seq, belongs },
                None => ChainFault::Rewritten { seq: entry.seq },
            });
        }
        if entry.seq < seq || entry.prev != self.head.digest {
            return Err(ChainFault::Forked { seq: entry.seq });
        }
        self.head = Head { seq, digest: entry.digest };
        Ok(())
    }

    /// Where the good part ends.
    pub fn head(&self) -> Head {
        self.head
    }
}

/// The number that gives the entry's digest, where it lies near the one that it has: the mark of an entry moved.
///
/// The search is bounded in bytes hashed, so that a stranger's huge entry costs no more than a small one.
fn written_as(entry: &Entry) -> Option<u64> {
    const MOST_BYTES: u64 = 4 << 20;
    let near = (MOST_BYTES / (entry.body.len() as u64).saturating_add(128) / 2).min(4096);
    let mut moved = entry.clone();
    let (low, high) = (entry.seq.saturating_sub(near).max(1), entry.seq.saturating_add(near));
    (low..=high).filter(|seq| *seq != entry.seq).find(|seq| {
        moved.seq = *seq;
        moved.derive_digest() == entry.digest
    })
}

/// Checks the journal of a device, in whatever order its entries came: the head where all is well, or the first fault.
///
/// An entry given twice is one entry. Two different sound entries of one number are a fork.
pub fn verify_chain(device: DeviceId, entries: &[Entry]) -> Result<Head, ChainFault> {
    let mut order: Vec<&Entry> = entries.iter().collect();
    order.sort_by_key(|entry| (entry.seq, entry.digest));
    order.dedup();
    let mut check = ChainCheck::new(device);
    for entry in order {
        check.push(entry)?;
    }
    Ok(check.head())
}
