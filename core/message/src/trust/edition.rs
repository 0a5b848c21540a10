use crate::envelope::{Reader, ShapeError};
use slingseal_words::{Digest, ProcedureId, Time};

/// One edition of a procedure, as a roster names it.
///
/// Sixteen bytes of thumbprint where a key needs eight: whoever writes a procedure can make two texts of one eight-byte
/// thumbprint (2^32 tries), have the harmless one approved and walk by the other. Two of one sixteen-byte thumbprint take 2^64.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Edition {
    /// What the procedure goes by.
    pub procedure: ProcedureId,
    /// Which edition of it, from 1 to 9999.
    pub version: u32,
    /// The first sixteen bytes of the SHA-256 of its text.
    pub thumbprint: [u8; 16],
}

impl Edition {
    /// The edition of a procedure's id, version and digest.
    pub fn of(procedure: ProcedureId, version: u32, digest: Digest) -> Self {
        let thumbprint = digest.as_bytes().first_chunk().copied().unwrap_or_default();
        Self { procedure, version, thumbprint }
    }

    pub(super) fn read(reader: &mut Reader<'_>, part: &'static str) -> Result<Self, ShapeError> {
        let procedure = reader.line(part, ProcedureId::new)?;
        Self::of_content(procedure, reader, part)
    }

    /// Reads version and thumbprint, where the procedure stands elsewhere.
    pub(crate) fn of_content(
        procedure: ProcedureId,
        reader: &mut Reader<'_>,
        part: &'static str,
    ) -> Result<Self, ShapeError> {
        let version = reader.small(part)?;
        let thumbprint = reader.fixed(part)?;
        if (1..=9_999).contains(&version) {
            Ok(Self { procedure, version, thumbprint })
        } else {
            Err(ShapeError(part))
        }
    }
}

/// Since when an edition may be walked by, and since when no longer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Approval {
    /// The authority approves it for inspections from then on.
    pub from: Time,
    /// It withdrew it for inspections from then on; never before `from`.
    pub withdrawn: Option<Time>,
}

impl Approval {
    /// Whether an inspection made then was made by an edition that the authority approved.
    pub fn held_at(&self, time: Time) -> bool {
        self.from <= time && self.withdrawn.is_none_or(|withdrawn| time < withdrawn)
    }
}

/// How an edition stands with an authority, for an inspection made at some time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EditionStanding {
    /// The authority approved it then.
    Approved,
    /// It had withdrawn it, since then.
    Withdrawn(Time),
    /// It does not approve it, or did so only later.
    NotApproved,
}
