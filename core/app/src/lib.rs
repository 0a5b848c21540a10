//! The facade: requests in, views out. One long-lived [`App`]; every call is synchronous and coarse and answers with the
//! whole new view, ready to draw. A shell draws views and forwards requests; it computes no verdict.
//!
//! A domain "no" is a value in a view. An [`AppError`] is chosen by what the user does next. Every answer is on disk
//! before the call returns.
#![forbid(unsafe_code)]

mod account;
mod backup;
mod closing;
mod codes;
mod error;
mod exams;
mod hook;
mod leader;
mod movements;
mod preferences;
mod procedures;
mod tags;
mod trust;
mod view;
mod walks;

#[cfg(test)]
mod tests;

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use zeroize::Zeroizing;

pub use account::audit::{AuditProgress, AuditView};
pub use account::bundle_report::{BundleReport, SetAsideLine};
pub use account::bundles::{
    BundleMade, BundleProgress, BundleRequest, FrameTaken, MOST_PARTS, MovingCode, MovingReader,
};
pub use account::exchange::{
    ExchangeHere, ExchangeIntake, ExchangePage, ExchangePosition, ExchangeState, ExchangeWord, word_limit,
};
pub use account::records::{RecordLine, RecordStanding, RecordState, RecordView, TimelineEntry};
pub use backup::{BackupView, RestoredView, restore_home};
pub use closing::{ClosePoint, CloseRequest, CloseView, ClosingMade, ClosingView, ExplainedView};
pub use codes::{CodeKind, CodeText, CodeView, Reading, code_of, read_picture, text_of, texts_of};
pub use error::{AppError, said_by_system};
pub use exams::class::{ClassCardView, ClassRequest, ClassView, ItemView, MissedView, StudentView};
pub use exams::csv::ClassTable;
pub use exams::debrief::{
    CardTimeView, DebriefItem, DebriefView, ExamResultLine, ExamResultView, FalseCallView, PlantedCall,
};
pub use exams::run::{ExamBegin, RunView};
pub use exams::sheet::{ExamRunState, RunLine};
pub use exams::{
    ExamKeyView, ExamPick, ExamPlan, ExamPlanView, ExamStandard, MOST_EXAM_PLANTED, PlantedView, StandardView,
};
pub use hook::page::{CheckPageMade, CheckPageRequest};
pub use hook::receive::Received;
pub use hook::{ReasonView, SealFacts, ShownLine, VerdictView, VerdictWord};
pub use leader::{
    AccountCell, AccountTable, AsideView, BoardColumn, BoardLoad, BoardOrder, BoardRequest, BoardView,
    ColumnType, DeficienciesView, DrawnLook, EXPORT_SCHEMA, EditionWalked, EditionsView, ExportTable,
    GroupShare, InAllView, InspectorLooks, ListRequest, LoadView, ManifestLine, ManifestView, MomentView,
    PeopleView, PersonStanding, PersonView, PhotoView, PieceFilter, PieceGroup, PieceLifeState,
    PieceLifeView, PieceLine, PieceMoment, PieceOrder, PieceStanding, PieceView, PiecesView, PointLooks,
    PointShare, RecordOrder, RecordsView, SecondLookView, ShareView, Sorting, TableWriter, WeekShare,
    WeeksRequest, ZoneCount, arrange, as_sorted,
};
pub use movements::{
    ArrivalPiece, ArrivalView, MovedPiece, MovementView, PieceReport, RefusalChoice, ReportMade,
    ReportRequest,
};
pub use procedures::paper::{
    ChecklistCard, ChecklistPoint, ChecklistView, procedure_changes, procedure_schema, procedure_template,
    procedure_untold,
};
pub use procedures::standing::EditionState;
pub use procedures::{ProcedureView, check_procedure};
pub use slingseal_account::report::{MomentKind, PointKind as ClosePointKind};
/// Every word that a person reads, those of the shells among them.
pub use slingseal_catalogue as catalogue;
pub use slingseal_judgement::{FlowState, Grade, TagSignature, is_of_a_load};
pub use slingseal_message::movement::{MovementKind, RefusalCause};
pub use slingseal_message::seal::VoidCause;
pub use slingseal_message::tag::WeightSource;
pub use slingseal_message::trust::{Role, Stretch};
pub use slingseal_qr::{Effort, SceneReader};
pub use slingseal_rigging::{
    Drawing, Pen, Shape, State as RiggingState, Step, Verdict as RiggingVerdict, drawing,
};
pub use slingseal_walk::exam::Outcome as ExamOutcome;
pub use slingseal_walk::procedure::Subject;
pub use slingseal_words::{Clock, Entropy, Language, Seconds, Time, is_invisible, same_name, visibly};
pub use tags::TagMade;
pub use tags::basis::{BasisLine, BasisView, EditionView, LegView, weight_source_words};
pub use tags::draft::{DraftLink, DraftPiece, DraftView, TagDraft};
pub use tags::editor::{
    PlanPoint, assess_fields, fields_of_file, move_point, rigging_rules, step_link, step_point,
};
pub use tags::field::{FieldWeighed, FieldWeighing, ScaleReading};
pub use tags::form::{FieldFault, RiggingFields};
pub use tags::lift::{LiftRequest, LiftSheet, SolveRequest, fly_lift, solve_lift, weigh_lift};
pub use tags::rigging::{RiggingHook, RiggingLeg, RiggingPaper, RiggingPart, RiggingView};
pub use tags::statics::{RiggingRequest, RiggingSheet, assess_rigging, rigging_caution, rigging_percent};
pub use tags::sticker::{StickerReading, StickerView, read_sticker, sticker};
pub use tags::view::{EquipmentView, LinkView, TagView, ZoneView};
pub use tags::weighing::{WeighedFields, weigh_fields};
pub use trust::acting::SignsAs;
pub use trust::approvals::{Approve, built_in_procedures};
pub use trust::authority::Issue;
pub use trust::before::{IssueAsked, UsualTerms, usual_terms};
pub use trust::copy::{AuthorityCopy, CopyPartView};
pub use trust::fault::{ActFault, ActField};
pub use trust::issued::{roles_of, roles_said};
pub use trust::view::{
    ApprovalView, AuthorityView, CredentialState, CredentialView, IssuedListView, IssuedView, SetUpStep,
    SetUpView, SetUpWhat, TrustedView,
};
pub use view::{Stamp, clock};
pub use walks::drawing::{DrawingView, DrawnCell, DrawnLine, procedure_drawing};
pub use walks::inspections::InspectionView;
pub use walks::request::WalkRequest;
pub use walks::rigged::LinkBesidePlan;
pub use walks::sealing::SealView;
pub use walks::sound::sound_answer;
pub use walks::start::{StartView, WalkLine, WalkLineState};
pub use walks::subjects::KeptInspection;
pub use walks::view::{
    CardState, CardView, ChoiceView, DeficiencyView, FateView, FindingState, FindingView, NextStep,
    PointKind, PointState, PointView, ProgressView, RefusedView, StationView, WalkStage, WalkView,
};

use crate::account::KeptTrust;
use crate::procedures::plans::Texts;
use slingseal_journal::WalkId;
use slingseal_rigging::RiggedLoad;
use slingseal_store::{Opened, Patience, Store};
use slingseal_walk::walk::Walk;

/// What the shell gives the core: the clock, randomness, the secret that the platform keeps for this device.
#[derive(Clone)]
pub struct Outside {
    /// The clock.
    pub clock: Arc<dyn Clock>,
    /// Randomness fit for keys.
    pub entropy: Arc<dyn Entropy>,
    /// Mixed into the key vault: a copied database is useless without it.
    pub device_secret: Zeroizing<Vec<u8>>,
    /// How hard PINs are stretched; [`Stretch::FIELD`] but for tests.
    pub stretch: Stretch,
    /// The language that the user reads.
    pub language: Language,
}

/// The core of one home.
pub struct App {
    inner: Mutex<Inner>,
}

pub(crate) struct Inner {
    store: Store,
    outside: Outside,
    opened: Opened,
    /// Walks that were folded already: a card view must not cost a walk's whole journal.
    walks: BTreeMap<WalkId, InHand>,
    /// The latest time that this program saw in each examination: a clock that is set back between two answers shows.
    seen: BTreeMap<WalkId, Time>,
    /// What was judged at the hook last.
    judged: Option<hook::LastScan>,
    /// Whom this home trusts, as it was read last.
    trust: RefCell<KeptTrust>,
    /// Texts of procedures that were read already.
    texts: RefCell<Texts>,
    /// The key of the one authority under whose credentials this program signs; none where any will do.
    acting: Option<[u8; 32]>,
}

impl App {
    /// Opens the home in a folder, or begins one there.
    ///
    /// # Errors
    /// A home that is in use, of a newer program, on a full or read-only disk.
    pub fn open(home: &Path, outside: Outside) -> Result<Self, AppError> {
        Self::open_with(home, outside, Patience::None)
    }

    /// The same beside other programs of this home: waits while another one has its turn. A program that runs on calls
    /// [`App::give_turn`] again and again, so that others need not wait for its end.
    ///
    /// # Errors
    /// As [`App::open`]; a home whose program gives no turns away.
    pub fn open_beside(home: &Path, outside: Outside) -> Result<Self, AppError> {
        Self::open_with(home, outside, Patience::OfTurns)
    }

    fn open_with(home: &Path, outside: Outside, patience: Patience) -> Result<Self, AppError> {
        let file = home.join("slingseal.db");
        let (store, opened) =
            Store::open_in_turn(&file, outside.clock.now(), outside.entropy.as_ref(), patience)?;
        let mut inner = Inner {
            store,
            outside,
            opened,
            walks: BTreeMap::new(),
            seen: BTreeMap::new(),
            judged: None,
            trust: RefCell::default(),
            texts: RefCell::default(),
            acting: None,
        };
        inner.read_procedure_texts()?;
        inner.judge_what_is_older()?;
        inner.name_what_is_kept()?;
        Ok(Self { inner: Mutex::new(inner) })
    }

    /// Lets the home go where another program waits for it and no call is running; the next call here waits for its own turn.
    /// Cheap enough to be asked many times a second.
    pub fn give_turn(&self) {
        if let Ok(mut inner) = self.inner.try_lock()
            && inner.store.is_wanted()
        {
            inner.let_go();
        }
    }

    /// Lets the home go until the next call: before a person is asked for something, however long that takes.
    pub fn let_go(&self) {
        self.lock_as_it_is().let_go();
    }

    /// Brings what was written last into the home's one file, for whoever copies it: before the program is put in the background, and
    /// whenever nobody waits. Everything is on the disk without it, and a home that is closed or let go is one file too. Nothing is
    /// done where a call is running, or where it fails.
    pub fn settle(&self) {
        if let Ok(mut inner) = self.inner.try_lock() {
            let _ = inner.store.settle();
        }
    }

    /// The language of what is answered.
    pub fn spoken(&self) -> Language {
        self.lock_as_it_is().outside.language
    }

    /// Changes the language of what is answered from here on.
    pub fn speak(&self, language: Language) {
        self.lock().outside.language = language;
    }

    /// The home, in this program's turn. Where it cannot be had, whatever is asked of the store says why.
    fn lock(&self) -> MutexGuard<'_, Inner> {
        let mut inner = self.lock_as_it_is();
        inner.take_up();
        inner
    }

    /// A panic in one call poisons the lock; the store is transactional, so the next call may go on. Walks are folded
    /// anew.
    fn lock_as_it_is(&self) -> MutexGuard<'_, Inner> {
        self.inner.lock().unwrap_or_else(|poisoned: PoisonError<MutexGuard<'_, Inner>>| {
            self.inner.clear_poison();
            let mut inner = poisoned.into_inner();
            inner.walks.clear();
            inner
        })
    }
}

/// A walk in memory, with the rigging that its tag plans.
struct InHand {
    walk: Walk,
    rigging: Option<RiggedLoad>,
}

impl Inner {
    /// What cannot be closed stays open, and the other program goes on waiting.
    fn let_go(&mut self) {
        if self.store.let_go().is_ok() {
            // What another program does in its turn would not show in these.
            self.walks.clear();
        }
    }

    fn take_up(&mut self) {
        let (now, entropy) = (self.now(), Arc::clone(&self.outside.entropy));
        let Ok(Some(opened)) = self.store.take_up(now, entropy.as_ref()) else { return };
        if opened.is_told() {
            self.opened = opened;
        }
    }

    fn now(&self) -> Time {
        self.outside.clock.now()
    }

    fn language(&self) -> Language {
        self.outside.language
    }
}

impl std::fmt::Debug for App {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("App")
    }
}
