//! What a leader asks of a phone: what stands on the zone, a load's story, what does not add up, and its closing.

use slingseal_app::{
    BoardColumn, BoardLoad, ClosePoint, ClosePointKind, CloseRequest, CloseView, ClosingMade, ClosingView,
    CodeView, FlowState, InspectionView, LoadView, MomentKind, MomentView, MovementView, RecordView, Stamp,
    TagView, WalkLine,
};

use crate::{Answer, Handheld};

/// Loads touched before that many days are left out of the board, but for those that are valid.
const DAYS: u32 = 7;

/// What stands on the zone, as a phone shows it: a column a state.
#[derive(uniffi::Record)]
pub struct ZoneBoard {
    /// In the order of a load's day.
    pub columns: Vec<ZoneColumn>,
    /// What a leader should look into.
    pub notices: Vec<String>,
}

/// The loads of one state.
#[derive(uniffi::Record)]
pub struct ZoneColumn {
    /// Where its loads are on their way.
    pub state: FlowState,
    /// What a person reads.
    pub title: String,
    /// Whether it stands aside of a load's way: somebody must look into it.
    pub aside: bool,
    /// How many there are, also those that are not listed.
    pub count: u64,
    /// The next to run out, the longest in the air, or the newest first.
    pub loads: Vec<BoardLoad>,
}

impl From<BoardColumn> for ZoneColumn {
    fn from(column: BoardColumn) -> Self {
        let BoardColumn { state, title, aside, count, loads, .. } = column;
        Self { state, title, aside, count, loads }
    }
}

#[uniffi::remote(Record)]
pub struct BoardLoad {
    pub load: String,
    pub description: String,
    pub gross: String,
    pub aircraft: String,
    pub who: String,
    pub detail: String,
    pub soon: bool,
    pub reported: String,
    pub walk: String,
    pub zone: String,
    pub destination: String,
    pub at: Stamp,
}

#[uniffi::remote(Record)]
pub struct LoadView {
    pub load: String,
    pub state: FlowState,
    pub state_title: String,
    pub reported: String,
    pub reports: Vec<MovementView>,
    pub tag: Option<TagView>,
    pub walks: Vec<WalkLine>,
    pub inspections: Vec<RecordView>,
    pub moments: Vec<MomentView>,
}

#[uniffi::remote(Record)]
pub struct MomentView {
    pub at: Stamp,
    pub kind: MomentKind,
    pub what: String,
}

#[uniffi::remote(Record)]
pub struct CloseView {
    pub name: String,
    pub loads: u32,
    pub inspections: u32,
    pub lifted: u32,
    pub set_down: u32,
    pub lost: u32,
    pub unsigned: u32,
    pub account: String,
    pub words: u32,
    pub least_seconds: Option<u32>,
    pub points: Vec<ClosePoint>,
    pub explained: bool,
}

#[uniffi::remote(Record)]
pub struct ClosePoint {
    pub id: String,
    pub kind: ClosePointKind,
    pub title: String,
    pub subject: String,
    pub load: String,
    pub known: String,
    pub to_do: String,
    pub note: Option<String>,
}

#[uniffi::remote(Record)]
pub struct ClosingMade {
    pub text: String,
    pub code: Option<CodeView>,
    pub statement: ClosingView,
}

fn request(day: Option<String>) -> CloseRequest {
    CloseRequest { day, ..CloseRequest::default() }
}

#[uniffi::export]
impl Handheld {
    /// What stands on the zone, at most so many loads of a state.
    ///
    /// # Errors
    /// Storage.
    pub fn board(&self, most: u32) -> Answer<ZoneBoard> {
        let board = self.app.board(DAYS, most)?;
        Ok(ZoneBoard { columns: board.columns.into_iter().map(Into::into).collect(), notices: board.notices })
    }

    /// A load's whole story.
    ///
    /// # Errors
    /// Nothing is known of the load.
    pub fn load(&self, load: &str) -> Answer<LoadView> {
        Ok(self.app.load(load)?)
    }

    /// Everything that does not add up, of one day (`2026-11-25`, UTC) or of all. Slow where much is kept.
    ///
    /// # Errors
    /// A day that is none; nothing is here of it; storage.
    pub fn close_account(&self, day: Option<String>) -> Answer<CloseView> {
        Ok(self.app.close_account(&request(day))?)
    }

    /// Says something of an open point, or takes it back where the note is empty.
    ///
    /// # Errors
    /// A note that is too long; storage.
    pub fn explain(&self, point: &str, note: &str) -> Answer<()> {
        Ok(self.app.explain(point, note)?)
    }

    /// Signs what a leader hands up. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// A point that nobody has explained; no leader's credential; a wrong PIN; storage.
    pub fn sign_closing(&self, day: Option<String>, pin: &str) -> Answer<ClosingMade> {
        Ok(self.app.sign_closing(&request(day), pin)?)
    }

    /// The statements that are here, the newest first.
    ///
    /// # Errors
    /// Storage.
    pub fn closings(&self) -> Answer<Vec<ClosingView>> {
        Ok(self.app.closings()?)
    }

    /// Takes a piece of gear out of service. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// A serial number or a reason that cannot be; no leader's and no inspector's credential; a wrong PIN.
    pub fn withdraw_piece(&self, serial: &str, why: &str, pin: &str) -> Answer<InspectionView> {
        Ok(self.app.withdraw_piece(serial, why, pin)?)
    }
}
