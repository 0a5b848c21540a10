//! Moving codes: what goes out, what came in.

use slingseal_app::{BundleReport, MovingCode, ProcedureView, SetAsideLine};

/// What a moving code carries.
#[derive(Debug, uniffi::Record)]
pub struct MovingOut {
    /// Records, whole or by their seal alone.
    pub records: u32,
    /// Tags, voids, credentials and rosters.
    pub papers: u32,
    /// Procedures that go by themselves.
    pub procedures: u32,
    /// How many frames are enough when none is lost.
    pub enough: u32,
    /// What was too long to go along, in plain words.
    pub left_out: Vec<String>,
}

impl MovingOut {
    pub(crate) fn of(code: &MovingCode) -> Self {
        let made = code.made();
        Self {
            records: made.records,
            papers: made.papers,
            procedures: made.procedures,
            enough: code.enough(),
            left_out: made.left_out.clone(),
        }
    }
}

/// What a frame of a moving code did.
#[derive(Debug, uniffi::Enum)]
pub enum MovingTaken {
    /// More are wanted.
    More {
        /// Different frames that were taken.
        taken: u32,
        /// How many are enough, as a rule.
        enough: u32,
    },
    /// The last one: the bundle is taken in.
    Done {
        /// What became of it.
        report: BundleReport,
    },
}

#[uniffi::remote(Record)]
pub struct BundleReport {
    pub new: u32,
    pub completed: u32,
    pub known: u32,
    pub papers: u32,
    pub movements: u32,
    pub photos: u32,
    pub procedures: Vec<ProcedureView>,
    pub set_aside: Vec<SetAsideLine>,
    pub warnings: Vec<String>,
}

#[uniffi::remote(Record)]
pub struct SetAsideLine {
    pub place: String,
    pub kind: String,
    pub reason: String,
}
