use super::RecordItem;
use slingseal_catalogue::{Saying, faults as words};
use slingseal_message::envelope::{Kind, ShapeError};
use slingseal_message::seal::{DigestOf, ReceivedSeal, Record, RecordError, Seal, SealError, TagPrint};
use slingseal_message::trust::{Signer, TrustError, Trusted};
use slingseal_words::Digest;

/// A record that may be kept.
#[derive(Clone, Debug)]
pub struct Examined {
    /// What the seal says.
    pub seal: Seal,
    /// Who signed it.
    pub signer: Signer,
    /// The record, where the sender had it.
    pub record: Option<Record>,
}

/// Why a record is set aside. The store keeps its bytes: trust the authority, or ask the sender again, and read once more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unfit {
    /// Not built as a record of a bundle.
    Shape(ShapeError),
    /// No seal can be read.
    Seal(SealError),
    /// Nobody trusted stands for the seal.
    Signer {
        /// The load of which it says that it is.
        load: String,
        /// Why the signer is not believed.
        error: TrustError,
    },
    /// The record is not what the inspector signed.
    Changed(String),
    /// The record cannot be read.
    Record {
        /// The load.
        load: String,
        /// Why.
        error: RecordError,
    },
    /// Seal and record do not speak of the same.
    Disagree {
        /// The load.
        load: String,
        /// About what.
        about: Saying,
    },
}

impl Unfit {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Shape(error) => words::UnfitShape { error }.into(),
            Self::Seal(error) => words::UnfitSeal { error }.into(),
            Self::Signer { load, error } => words::UnfitSigner { load, error }.into(),
            Self::Changed(text) => words::UnfitChanged { text }.into(),
            Self::Record { load, error } => words::UnfitRecord { load, error }.into(),
            Self::Disagree { load, about } => words::UnfitDisagree { load, about }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(Unfit);

impl From<ShapeError> for Unfit {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

impl From<SealError> for Unfit {
    fn from(error: SealError) -> Self {
        Self::Seal(error)
    }
}

/// Judges whether a record of a bundle may be kept: both signatures pass under a trusted authority, the record is the one that
/// was signed, and both speak of the same. Whether the seal may still be *relied on* (revoked, expired, voided) is another
/// question: the account keeps those too.
///
/// # Errors
/// Why it may not.
pub fn examine_record(
    item: &RecordItem,
    trusted: &Trusted,
    digest_of: DigestOf<'_>,
) -> Result<Examined, Unfit> {
    let received = ReceivedSeal::open(&item.seal)?;
    let load = || received.seal.load.to_string();
    let signer = trusted
        .signer(Kind::Seal, &received.message)
        .map_err(|error| Unfit::Signer { load: load(), error })?;
    let Some(bytes) = &item.record else {
        return Ok(Examined { seal: received.seal, signer, record: None });
    };
    let record = examine_body(&received.seal, bytes, digest_of)?;
    Ok(Examined { seal: received.seal, signer, record: Some(record) })
}

/// Judges whether a full record is the one that a seal names, and says what the seal says of tag, procedure and outcome. What its
/// walk counts, and what its tag says of load and mass, is for whoever can fold the one and read the other.
///
/// # Errors
/// Why it is not.
pub fn examine_body(seal: &Seal, bytes: &[u8], digest_of: DigestOf<'_>) -> Result<Record, Unfit> {
    let load = || seal.load.to_string();
    if Digest::of(bytes) != seal.record {
        return Err(Unfit::Changed(load()));
    }
    let record = Record::parse(bytes, digest_of).map_err(|error| Unfit::Record { load: load(), error })?;
    let told = [
        (TagPrint::of(&Digest::of(&record.tag)) == seal.tag, words::PartTag.saying()),
        (record.procedure == seal.procedure, words::PartProcedure.saying()),
        (record.version == seal.version, words::PartVersion.saying()),
        (record.procedure_digest.as_bytes().starts_with(&seal.procedure_print), words::PartText.saying()),
        (record.outcome == seal.outcome, words::PartOutcome.saying()),
    ];
    match told.into_iter().find(|(same, _)| !same) {
        Some((_, about)) => Err(Unfit::Disagree { load: load(), about }),
        None => Ok(record),
    }
}
