//! The home's one SQLite file: the journal, the records and what was received, each as opaque bytes beside the columns
//! by which it is found. Knows no rule of the trade.
//!
//! `Store::open` takes the home for this program alone, until it is dropped or let go for another program's turn. `Store::write` is one transaction, on disk before it returns;
//! `Store::read` asks. The journal is a hash chain ([`Entry`] says over which bytes), every other row has a check sum.
#![forbid(unsafe_code)]

mod author;
mod backup;
mod board;
mod check;
mod closings;
mod error;
mod exams;
mod files;
mod find;
mod flows;
mod handle;
mod heads;
mod hold;
mod inspections;
mod journal;
mod keep;
mod loads;
mod memory;
mod mend;
mod movements;
mod open;
mod papers;
mod procedures;
mod records;
mod remembered;
mod said;
mod schema;
mod search;
mod strays;
mod stretches;
mod table;
#[cfg(test)]
mod tests;
mod values;
mod walk_facts;
mod walks;
mod weeks;
mod witness;

pub use author::Author;
pub use backup::{RESTORED, Restored};
pub use board::{GroupBy, GroupCount, Groups, PointCount};
pub use closings::ClosingRow;
pub use error::StoreError;
pub use exams::{ExamPaper, ExamPaperRow, ExamRunRow, RunState};
pub use find::{
    Cursor, DeficiencyCount, EquipmentUse, InspectionCount, RecordColumn, RecordFilter, RecordPage,
};
pub use flows::{FlowFacts, FlowRow, FlowsOf};
pub use handle::{Reader, Store, Tx};
pub use heads::HeadRow;
pub use hold::Patience;
pub use inspections::{InspectionRow, SubjectKind};
pub use keep::{QuarantineRow, VaultRow};
pub use loads::{InspectedFacts, LoadRow};
pub use mend::Saved;
pub use movements::MovementRow;
pub use open::{Lost, Opened, SetAside};
pub use papers::{AuthorityRow, CredentialRow, RosterRow, TagRow, VoidRow};
pub use procedures::ProcedureTextRow;
pub use records::{
    DeficiencyRow, EquipmentRow, Judged, NewRecord, Outcome, Put, RecordBytes, RecordRow, Standing,
};
pub use remembered::MemoryRow;
pub use said::{AuthoredRow, SAID_PAGE, WordKind};
use slingseal_journal::{ChainCheck, ChainFault, DeviceId, Entry, Head, NewEntry, WalkId};
pub use strays::{StrayKind, StrayRow};
pub use stretches::{ChainLink, Stretch};
pub use walk_facts::{RecordLink, WalkFactsRow};
pub use walks::{WalkRow, WalkState};
pub use weeks::WeekCount;
