use std::fmt;

use slingseal_catalogue::{Saying, audit as words, error_by_saying};
use slingseal_words::{CallSign, Digest};

/// A device, by the first four bytes of its id in hexadecimal: enough to find it among a unit's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct DeviceName(pub [u8; 16]);

impl fmt::Display for DeviceName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().take(4).try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

/// What is wrong with the journal that a record tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChainFault {
    /// Numbers that do not rise.
    OutOfOrder {
        /// The entry.
        seq: u64,
    },
    /// The journal was shorter than the walk in it.
    EndsEarly,
    /// The record contradicts itself.
    Changed {
        /// The entry before.
        seq: u64,
    },
    /// It contradicts another record of its device.
    ToldOtherwise {
        /// The entry.
        seq: u64,
        /// The other record.
        by: Digest,
    },
    /// Two records follow one.
    SealedTwice {
        /// The other record.
        other: Digest,
        /// The one that both follow; none where both are the first.
        before: Option<Digest>,
    },
}

/// In which column a record's line says otherwise than its seal or record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ColumnFault {
    /// The digest that the seal claims.
    Record,
    /// The digest of the seal's bytes.
    Seal,
    /// The load number.
    Load,
    /// Fit or not fit.
    Outcome,
    /// Who sealed.
    Inspector,
    /// By which procedure.
    Procedure,
    /// When.
    Issued,
    /// Until when.
    Validity,
    /// Found and corrected.
    Counts,
    /// The tag that was walked.
    Tag,
}

/// Why a seal of somebody known is evidence and no inspection.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unentitled {
    /// The credential has no such role.
    NoInspector(CallSign),
    /// The credential had run out.
    RanOut(CallSign),
}

/// The first thing that is wrong with a record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RecordFault {
    /// Seal and record do not belong together, or nobody trusted stands behind them; or its rows are damaged.
    Unfit(Saying),
    /// A column says otherwise.
    Column(ColumnFault),
    /// What it tells of its journal.
    Chain(ChainFault),
    /// One walked and another sealed.
    Inspectors {
        /// Who walked.
        walked: CallSign,
        /// Who sealed.
        sealed: CallSign,
    },
    /// Seal and walk count differently.
    Counts {
        /// Found and corrected, by the seal.
        sealed: (usize, usize),
        /// The same by the walk.
        walked: (usize, usize),
    },
    /// This device's own record, and its journal says otherwise.
    JournalOtherwise {
        /// The entry.
        seq: u64,
    },
    /// This device's own record, and its journal is shorter.
    JournalLost {
        /// The entry.
        seq: u64,
    },
}

/// What was found between records, journals and what was heard of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Finding {
    /// A record that another one was sealed after is not here.
    Missing {
        /// The record.
        record: Digest,
        /// Whose.
        device: DeviceName,
        /// The one after it.
        next: Digest,
    },
    /// Only the seal of it is here.
    SealAlone {
        /// The record.
        record: Digest,
        /// Whose.
        device: DeviceName,
        /// The one after it.
        next: Digest,
    },
    /// Two signed records tell one entry in two ways.
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
    HintToldOtherwise {
        /// Whose journal.
        device: DeviceName,
        /// The entry.
        seq: u64,
        /// The record.
        other: Digest,
    },
    /// Two entries of one number.
    Forked {
        /// Whose journal.
        device: DeviceName,
        /// The entry.
        seq: u64,
    },
    /// An entry that does not follow the one before it.
    Unlinked {
        /// Whose journal.
        device: DeviceName,
        /// The entry.
        seq: u64,
    },
    /// A record and the journal that is kept here differ.
    JournalToldOtherwise {
        /// Whose journal.
        device: DeviceName,
        /// The entry.
        seq: u64,
        /// The record.
        by: Digest,
    },
    /// Entries that no record tells.
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

impl ChainFault {
    /// What is wrong, in no language yet.
    pub fn saying(&self) -> Saying {
        match self {
            Self::OutOfOrder { seq } => words::EntryOutOfOrder { seq }.into(),
            Self::EndsEarly => words::JournalEndsEarly.into(),
            Self::Changed { seq } => words::EntryChanged { next: seq.saturating_add(1), seq }.into(),
            Self::ToldOtherwise { seq, by } => words::EntryToldOtherwise { seq, by: by.short() }.into(),
            Self::SealedTwice { other, before: Some(before) } => {
                words::SealedTwiceAfter { other: other.short(), before: before.short() }.into()
            }
            Self::SealedTwice { other, before: None } => {
                words::SealedTwiceFirst { other: other.short() }.into()
            }
        }
    }
}

impl ColumnFault {
    /// What the line says otherwise, in no language yet.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Record => words::LineOtherRecord.into(),
            Self::Seal => words::LineOtherSeal.into(),
            Self::Load => words::LineOtherLoad.into(),
            Self::Outcome => words::LineOtherOutcome.into(),
            Self::Inspector => words::LineOtherInspector.into(),
            Self::Procedure => words::LineOtherProcedure.into(),
            Self::Issued => words::LineOtherTime.into(),
            Self::Validity => words::LineOtherValidity.into(),
            Self::Counts => words::LineOtherCounts.into(),
            Self::Tag => words::LineOtherTag.into(),
        }
    }
}

impl Unentitled {
    /// Why, in no language yet.
    pub fn saying(&self) -> Saying {
        match self {
            Self::NoInspector(name) => words::SealedByNoInspector { name }.into(),
            Self::RanOut(name) => words::SealedAfterRunOut { name }.into(),
        }
    }
}

impl RecordFault {
    /// What is wrong, in no language yet.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Unfit(why) => why.clone(),
            Self::Column(fault) => fault.saying(),
            Self::Chain(fault) => fault.saying(),
            Self::Inspectors { walked, sealed } => words::WalkedAndSealed { walked, sealed }.into(),
            Self::Counts { sealed, walked } => words::CountsDiffer {
                found: sealed.0,
                corrected: sealed.1,
                walked_found: walked.0,
                walked_corrected: walked.1,
            }
            .into(),
            Self::JournalOtherwise { seq } => words::OwnJournalOtherwise { seq }.into(),
            Self::JournalLost { seq } => words::OwnJournalLost { seq }.into(),
        }
    }
}

impl From<ColumnFault> for RecordFault {
    fn from(fault: ColumnFault) -> Self {
        Self::Column(fault)
    }
}

impl From<ChainFault> for RecordFault {
    fn from(fault: ChainFault) -> Self {
        Self::Chain(fault)
    }
}

impl Finding {
    /// What was found, in no language yet.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Missing { record, device, next } => {
                let (record, next) = (record.short(), next.short());
                words::FindingMissing { record, device: device.to_string(), next }.into()
            }
            Self::SealAlone { record, device, next } => {
                let (record, next) = (record.short(), next.short());
                words::FindingSealAlone { record, device: device.to_string(), next }.into()
            }
            Self::HeadToldOtherwise { device, seq, by, other } => {
                let (device, by, other) = (device.to_string(), by.short(), other.short());
                words::FindingHeadOtherwise { device, by, seq, other }.into()
            }
            Self::HintToldOtherwise { device, seq, other } => {
                words::FindingHintOtherwise { seq, device: device.to_string(), other: other.short() }.into()
            }
            Self::Forked { device, seq } => words::FindingForked { device: device.to_string(), seq }.into(),
            Self::Unlinked { device, seq } => {
                let before = seq.saturating_sub(1);
                words::FindingUnlinked { seq, device: device.to_string(), before }.into()
            }
            Self::JournalToldOtherwise { device, seq, by } => {
                words::FindingJournalOtherwise { by: by.short(), seq, device: device.to_string() }.into()
            }
            Self::Between { by, first, last, device } => {
                let (by, device) = (by.short(), device.to_string());
                words::FindingBetween { by, first, last, device }.into()
            }
        }
    }
}

error_by_saying!(ChainFault, ColumnFault, Unentitled, RecordFault, Finding);

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
