//! What this home knows of a load, as the judgement takes it, and what it keeps of the answer. Whoever in the facade asks whether a
//! word counts, which is the latest or how a load stands asks here, and here the judgement is asked.

mod alone;
pub(crate) mod audit;
pub(crate) mod bundle_report;
pub(crate) mod bundles;
pub(crate) mod exchange;
pub(crate) mod heads;
mod kept;
mod knowledge;
mod lots;
pub(crate) mod merge;
pub(crate) mod records;
mod standing;
pub(crate) mod strays;
mod touched;
mod trusted;
mod verdicts;
mod words;

pub(crate) use self::alone::Alone;
pub(crate) use self::kept::piece_state;
pub(crate) use self::knowledge::{Knowledge, whole_again};
pub(crate) use self::standing::{restand, restand_all};
pub(crate) use self::touched::{change_trust, loads_naming, touched_by_trust};
pub(crate) use self::trusted::{KeptTrust, trusted_of};
pub(crate) use self::verdicts::Verdicts;
pub(crate) use self::words::{author_of, open_inspection, open_word};
