use std::fmt;

use slingseal_words::{CallSign, Digest};

/// A device, by the first four bytes of its id in hexadecimal: enough to find it among a unit's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct DeviceName(pub [u8; 16]);

impl fmt::Display for DeviceName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().take(4).try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

/// A record by its first digits, or that there was none.
struct Before(Option<Digest>);

impl fmt::Display for Before {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Some(before) => write!(f, "record {}", before.short()),
            None => f.write_str("none"),
        }
    }
}

/// What is wrong with the journal that a record tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ChainFault {
    /// Numbers that do not rise.
    #[error("entry {seq} is out of order")]
    OutOfOrder {
        /// The entry.
        seq: u64,
    },
    /// The journal was shorter than the walk in it.
    #[error("its journal ends before its last entry")]
    EndsEarly,
    /// The record contradicts itself.
    #[error("entry {} of it does not follow entry {seq}: an entry was changed", seq + 1)]
    Changed {
        /// The entry before.
        seq: u64,
    },
    /// It contradicts another record of its device.
    #[error(
        "entry {seq} of its device is told in another way by record {}: the device was copied or its journal rewritten",
        by.short()
    )]
    ToldOtherwise {
        /// The entry.
        seq: u64,
        /// The other record.
        by: Digest,
    },
    /// Two records follow one.
    #[error(
        "it and record {} were both sealed next after {} by one device: the device was copied",
        other.short(),
        Before(*before)
    )]
    SealedTwice {
        /// The other record.
        other: Digest,
        /// The one that both follow; none where both are the first.
        before: Option<Digest>,
    },
}

/// In which column a record's line says otherwise than its seal or record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ColumnFault {
    /// The digest that the seal claims.
    #[error("its seal is of another record")]
    Record,
    /// The digest of the seal's bytes.
    #[error("its seal is another one")]
    Seal,
    /// The load number.
    #[error("its line names another load than its seal")]
    Load,
    /// Fit or not fit.
    #[error("its line tells another outcome than its seal")]
    Outcome,
    /// Who sealed.
    #[error("its line names another inspector than its seal")]
    Inspector,
    /// By which procedure.
    #[error("its line names another procedure than its seal")]
    Procedure,
    /// When.
    #[error("its line tells another time than its seal")]
    Issued,
    /// Until when.
    #[error("its line tells another validity than its seal")]
    Validity,
    /// Found and corrected.
    #[error("its line counts other deficiencies than its seal")]
    Counts,
    /// The tag that was walked.
    #[error("its line names another tag than its record")]
    Tag,
}

/// Why a seal of somebody known is evidence and no inspection.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unentitled {
    /// The credential has no such role.
    #[error("{0} sealed it and is no inspector")]
    NoInspector(CallSign),
    /// The credential had run out.
    #[error("the credential of {0} had run out when it was sealed")]
    RanOut(CallSign),
}

/// The first thing that is wrong with a record.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RecordFault {
    /// Seal and record do not belong together, or nobody trusted stands behind them; or its rows are damaged.
    #[error("{0}")]
    Unfit(String),
    /// A column says otherwise.
    #[error(transparent)]
    Column(#[from] ColumnFault),
    /// What it tells of its journal.
    #[error(transparent)]
    Chain(#[from] ChainFault),
    /// One walked and another sealed.
    #[error("{walked} walked and {sealed} sealed")]
    Inspectors {
        /// Who walked.
        walked: CallSign,
        /// Who sealed.
        sealed: CallSign,
    },
    /// Seal and walk count differently.
    #[error(
        "its seal counts {} found and {} corrected, and its walk {} and {}",
        sealed.0, sealed.1, walked.0, walked.1
    )]
    Counts {
        /// Found and corrected, by the seal.
        sealed: (usize, usize),
        /// The same by the walk.
        walked: (usize, usize),
    },
    /// This device's own record, and its journal says otherwise.
    #[error("this device's journal has another entry {seq} than the record")]
    JournalOtherwise {
        /// The entry.
        seq: u64,
    },
    /// This device's own record, and its journal is shorter.
    #[error("this device's journal has lost entry {seq} of it")]
    JournalLost {
        /// The entry.
        seq: u64,
    },
}

/// What was found between records, journals and what was heard of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Finding {
    /// A record that another one was sealed after is not here.
    #[error(
        "record {} is missing: device {device} sealed it before record {}; ask for that device's bundle",
        record.short(), next.short()
    )]
    Missing {
        /// The record.
        record: Digest,
        /// Whose.
        device: DeviceName,
        /// The one after it.
        next: Digest,
    },
    /// Only the seal of it is here.
    #[error(
        "of record {}, sealed by device {device} before record {}, only the seal is here",
        record.short(), next.short()
    )]
    SealAlone {
        /// The record.
        record: Digest,
        /// Whose.
        device: DeviceName,
        /// The one after it.
        next: Digest,
    },
    /// Two signed records tell one entry in two ways.
    #[error(
        "device {device}: record {} told entry {seq} of its journal otherwise than record {}; it was copied or its journal rewritten",
        by.short(), other.short()
    )]
    HeadToldOtherwise {
        /// Whose journal.
        device: DeviceName,
        /// The entry.
        seq: u64,
        /// The record that ended there.
        by: Digest,
        /// The other.
        other: Digest,
    },
    /// Somebody who signed nothing tells an entry otherwise.
    #[error(
        "a head that nobody signed tells entry {seq} of device {device} otherwise than record {}: the bundle was tampered with, or the device copied; ask for that device's bundle",
        other.short()
    )]
    HintToldOtherwise {
        /// Whose journal.
        device: DeviceName,
        /// The entry.
        seq: u64,
        /// The record.
        other: Digest,
    },
    /// Two entries of one number.
    #[error("the journal of device {device} has two entries {seq}: the device was forked")]
    Forked {
        /// Whose journal.
        device: DeviceName,
        /// The entry.
        seq: u64,
    },
    /// An entry that does not follow the one before it.
    #[error("entry {seq} of device {device} does not follow entry {}", seq - 1)]
    Unlinked {
        /// Whose journal.
        device: DeviceName,
        /// The entry.
        seq: u64,
    },
    /// A record and the journal that is kept here differ.
    #[error(
        "record {} tells entry {seq} of device {device} otherwise than the journal that is kept here",
        by.short()
    )]
    JournalToldOtherwise {
        /// Whose journal.
        device: DeviceName,
        /// The entry.
        seq: u64,
        /// The record.
        by: Digest,
    },
    /// Entries that no record tells.
    #[error(
        "record {}: entries {first} to {last} of device {device} came between its own and are in no record here: a walk that was not sealed, or something left out; ask for that device's home",
        by.short()
    )]
    Between {
        /// The record around them.
        by: Digest,
        /// The first of them.
        first: u64,
        /// The last.
        last: u64,
        /// Whose journal.
        device: DeviceName,
    },
}

impl Finding {
    /// Whether something is wrong; else it cannot be told from here, though nothing is wrong on its face.
    pub fn is_fault(&self) -> bool {
        match self {
            Self::Missing { .. }
            | Self::HeadToldOtherwise { .. }
            | Self::Forked { .. }
            | Self::Unlinked { .. }
            | Self::JournalToldOtherwise { .. } => true,
            Self::SealAlone { .. } | Self::HintToldOtherwise { .. } | Self::Between { .. } => false,
        }
    }
}
