//! The account: every sealed record, its story, and the audit of all of it.

use serde::Serialize;
use slingseal_catalogue::{refusals as words, story};

use crate::account::Knowledge;
use crate::procedures::standing::EditionState;
use crate::walks::record::entry_digest;
use crate::walks::told::{moments_of, sealed};
use crate::walks::view::FindingView;
use crate::{App, AppError, Inner, Stamp, TagView};
use slingseal_account::report::{Moment, MomentKind, walked_too_fast};
use slingseal_judgement::{Grade, LoadState};
use slingseal_message::envelope::Kind;
use slingseal_message::seal::Record;
use slingseal_store::{Outcome, RecordFilter, RecordRow, Standing};
use slingseal_words::{LoadNumber, Saying, Seconds, Time};

/// A record in the list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RecordLine {
    /// What it goes by.
    pub record: String,
    /// The load.
    pub load: String,
    /// Fit or not.
    pub fit: bool,
    /// Its seal, by the digest of its own bytes: another seal may name the same record.
    pub seal: String,
    /// How it stands now.
    pub state: RecordState,
    /// The same whatever the time.
    pub standing: RecordStanding,
    /// Whether its validity is past.
    pub expired: bool,
    /// Who sealed it.
    pub inspector: String,
    /// Who rigged the load; empty where unknown.
    pub rigger: String,
    /// The procedure's id.
    pub procedure: String,
    /// Which version of it was walked.
    pub version: u32,
    /// How that edition stood with the inspector's authority when it was walked.
    pub edition: EditionState,
    /// The pickup zone; empty where unknown.
    pub place: String,
    /// The aircraft's type; empty where unknown.
    pub aircraft: String,
    /// Deficiencies found.
    pub found: u32,
    /// Deficiencies put right.
    pub corrected: u32,
    /// When it was sealed.
    pub issued: Stamp,
    /// Until when it holds.
    pub valid_until: Stamp,
    /// Whether the full record is here, or the seal alone.
    pub whole: bool,
    /// Seconds from the walk's beginning to its decision, by the inspector's clock; none where the full record is not here.
    pub walk_seconds: Option<u32>,
    /// How many cards it was walked over.
    pub walk_cards: Option<u32>,
    /// Whether that is less than the least time a card that was set here. It is a sign, not a proof.
    pub walked_too_fast: bool,
}

/// How a record stands, in one word for a banner.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RecordState {
    /// The load's latest inspection, which the hook would take.
    Fit,
    /// Found not fit.
    NotFit,
    /// A later inspection took its place.
    Superseded,
    /// Taken back.
    Voided,
    /// Past its validity.
    Expired,
    /// Not to be relied on.
    Refused,
    /// Not to be relied on before someone has looked into it.
    Waits,
    /// The seal of somebody who might not inspect.
    NoInspection,
}

/// How an account knows that a record stands, whatever the time: one that is past its validity is current.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RecordStanding {
    /// The load's latest inspection, whatever it found.
    Current,
    /// A later inspection took its place.
    Superseded,
    /// Taken back.
    Voided,
    /// Not to be relied on.
    Refused,
    /// Not to be relied on before someone has looked into it.
    Waiting,
    /// The seal of somebody who might not inspect.
    NoInspection,
}

impl RecordStanding {
    /// A stable word for exports.
    pub fn word(self) -> &'static str {
        match self {
            Self::Current => "current",
            Self::Superseded => "superseded",
            Self::Voided => "voided",
            Self::Refused => "refused",
            Self::Waiting => "waiting",
            Self::NoInspection => "no_inspection",
        }
    }
}

impl RecordState {
    /// The word of the banner.
    pub fn banner(self) -> Saying {
        match self {
            Self::Fit => story::BannerFit.into(),
            Self::NotFit => story::BannerNotFit.into(),
            Self::Superseded => story::BannerSuperseded.into(),
            Self::Voided => story::BannerVoid.into(),
            Self::Expired => story::BannerExpired.into(),
            Self::Refused => story::BannerRefused.into(),
            Self::Waits => story::BannerWait.into(),
            Self::NoInspection => story::BannerNoInspection.into(),
        }
    }

    /// How an account knows it.
    pub(crate) fn standing(self) -> RecordStanding {
        match self {
            Self::Fit | Self::NotFit | Self::Expired => RecordStanding::Current,
            Self::Superseded => RecordStanding::Superseded,
            Self::Voided => RecordStanding::Voided,
            Self::Refused => RecordStanding::Refused,
            Self::Waits => RecordStanding::Waiting,
            Self::NoInspection => RecordStanding::NoInspection,
        }
    }

    fn of(standing: &slingseal_judgement::Standing) -> Self {
        use slingseal_judgement::Standing;
        match standing {
            Standing::Fit => Self::Fit,
            Standing::NotFit => Self::NotFit,
            Standing::Superseded { .. } => Self::Superseded,
            Standing::Voided => Self::Voided,
            Standing::Expired => Self::Expired,
            Standing::Refused(_) => Self::Refused,
            Standing::Waits(_) => Self::Waits,
            Standing::NoInspection(_) => Self::NoInspection,
        }
    }

    fn kept(standing: Standing) -> Self {
        match standing {
            Standing::Fit => Self::Fit,
            Standing::NotFit => Self::NotFit,
            Standing::Superseded => Self::Superseded,
            Standing::Voided => Self::Voided,
            Standing::Refused => Self::Refused,
            Standing::Waits => Self::Waits,
            Standing::NoInspection => Self::NoInspection,
        }
    }
}

/// A record's whole story.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RecordView {
    /// Its line.
    pub line: RecordLine,
    /// The word of its banner, in the reader's language: `FIT`, `NOT FIT`, `VOID`, `EXPIRED`, `SUPERSEDED`, `REFUSED`, `WAIT` or `NO INSPECTION`.
    pub banner: String,
    /// Why it stands so, in plain words, the gravest first; empty where it is fit.
    pub reasons: Vec<String>,
    /// The text of its seal.
    pub seal: String,
    /// The seal's check word, to be compared by voice: `482 019 553`.
    pub check: String,
    /// The tag, where the full record is here.
    pub tag: Option<TagView>,
    /// What was found.
    pub findings: Vec<FindingView>,
    /// What happened, in order.
    pub timeline: Vec<TimelineEntry>,
    /// The statics as the inspector saw them, as JSON.
    pub rigging_json: Option<String>,
    /// Digests of photographs.
    pub photos: Vec<String>,
    /// Voids that are known here: when, by whom, why.
    pub voids: Vec<String>,
}

/// One moment of a walk.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TimelineEntry {
    /// When, by the inspector's clock.
    pub at: Stamp,
    /// What sort: as in a load's story.
    #[serde(serialize_with = "crate::view::word")]
    pub kind: MomentKind,
    /// What, in one line.
    pub what: String,
}

/// The word by which an account knows how a record stands, whatever the time.
pub(crate) fn standing_word(standing: Standing) -> &'static str {
    RecordState::kept(standing).standing().word()
}

impl App {
    /// Records, newest first: all, or those in which every word occurs.
    ///
    /// # Errors
    /// Storage.
    pub fn records(&self, words: Option<&str>, most: u32) -> Result<Vec<RecordLine>, AppError> {
        let inner = self.lock();
        let filter = RecordFilter { words: words.map(str::to_owned), ..RecordFilter::default() };
        let page = inner.store.read().records(&filter, None, most)?;
        inner.lines(&page.rows)
    }

    /// A record's story.
    ///
    /// # Errors
    /// No such record.
    pub fn record(&self, record: &str) -> Result<RecordView, AppError> {
        let inner = self.lock();
        let row = inner.record_row(record)?;
        inner.record_view(&row)
    }
}

/// The state of a page of records is asked once.
pub(crate) struct Lines {
    knowledge: Knowledge,
    least: Option<Seconds>,
}

impl Inner {
    fn state_of_page(&self) -> Result<Lines, AppError> {
        Ok(Lines { knowledge: self.knowledge()?, least: self.least_a_card()? })
    }

    /// The lines of a page of records.
    pub(crate) fn lines(&self, rows: &[RecordRow]) -> Result<Vec<RecordLine>, AppError> {
        let lines = self.state_of_page()?;
        rows.iter().map(|row| self.line(row, &lines)).collect()
    }

    /// What was kept of it, at the time of now. Only what nothing but time is against needs the load's outline: what is fit, or waits.
    fn state_of(&self, row: &RecordRow, lines: &Lines) -> Result<RecordState, AppError> {
        let kept = RecordState::kept(row.standing());
        if !matches!(kept, RecordState::Fit | RecordState::Waits | RecordState::Refused) {
            return Ok(kept);
        }
        let now = lines.knowledge.now;
        if now > row.valid_until {
            return Ok(RecordState::Expired);
        }
        if kept == RecordState::Refused {
            return Ok(kept);
        }
        let load = self.store.read().load(&row.load)?.filter(|load| load.latest == row.seal);
        let asked = lines.knowledge.asked();
        let state = load.and_then(|load| lines.knowledge.state(&load.facts(), &asked));
        Ok(match state {
            Some(LoadState::Fit) => RecordState::Fit,
            Some(LoadState::Refused | LoadState::NotFit) => RecordState::Refused,
            _ => RecordState::Waits,
        })
    }

    fn line(&self, row: &RecordRow, lines: &Lines) -> Result<RecordLine, AppError> {
        let state = self.state_of(row, lines)?;
        let by = self.walked_by(row, &lines.knowledge.trusted)?;
        let walked = self.store.read().walk_facts_of(row.seal)?;
        Ok(RecordLine {
            record: row.digest.to_string(),
            load: row.load.clone(),
            fit: row.outcome == Outcome::Fit,
            seal: row.seal.to_string(),
            state,
            standing: state.standing(),
            expired: self.now() > row.valid_until,
            inspector: row.inspector.clone(),
            rigger: row.rigger.clone(),
            procedure: row.procedure.clone(),
            version: by.as_ref().map_or(0, |by| by.version),
            edition: by.map_or(EditionState::NotApproved, |by| by.state),
            place: row.place.clone(),
            aircraft: row.aircraft.clone(),
            found: row.found,
            corrected: row.corrected,
            issued: row.issued.into(),
            valid_until: row.valid_until.into(),
            // The device is known from the full record alone.
            whole: row.device.is_some(),
            walk_seconds: walked.as_ref().map(|facts| u32::try_from(facts.took.0).unwrap_or(0)),
            walk_cards: walked.as_ref().map(|facts| facts.cards),
            walked_too_fast: walked
                .as_ref()
                .zip(lines.least)
                .is_some_and(|(facts, least)| walked_too_fast(facts.took, facts.cards, least)),
        })
    }

    fn timeline(&self, moment: Moment) -> TimelineEntry {
        let what = moment.what.say(self.language());
        TimelineEntry { at: moment.at.into(), kind: moment.kind, what }
    }

    pub(crate) fn record_view(&self, row: &RecordRow) -> Result<RecordView, AppError> {
        let none = || AppError::not_found(words::SuchRecordSeeRecordsList);
        let read = self.store.read();
        let bytes = read.record_bytes(row.seal)?.ok_or_else(none)?;
        let mut knowledge = self.knowledge()?;
        let load = LoadNumber::new(&row.load)?;
        let facts = knowledge.facts(&read, &load)?;
        let asked = knowledge.asked();
        let found = facts.seals.get(&row.seal);
        let state = found.map_or(RecordState::NoInspection, |facts| RecordState::of(&facts.at(&asked)));
        let reasons = found.map(|facts| facts.facts.reasons(&asked)).unwrap_or_default();
        let reasons = reasons.iter().filter(|reason| reason.grade() != Grade::Note);
        let mut line = self.line(row, &self.state_of_page()?)?;
        (line.state, line.standing) = (state, state.standing().to_owned());
        let mut view = RecordView {
            line,
            banner: state.banner().say(self.language()),
            reasons: reasons.map(|reason| reason.say(self.language())).collect(),
            seal: slingseal_message::envelope::wrap(Kind::Seal, &bytes.seal),
            check: row.seal.check_word(),
            tag: None,
            findings: Vec::new(),
            timeline: Vec::new(),
            rigging_json: None,
            photos: Vec::new(),
            voids: Vec::new(),
        };
        let voids = self.voids_told(row.digest)?;
        view.voids = voids
            .into_iter()
            .map(|(at, what)| format!("{}, {}", at.dtg(), what.say(self.language())))
            .collect();
        if let Some(body) = &bytes.body {
            let record = Record::parse(body, &entry_digest)?;
            view.tag = Some(self.tag_view(&record.tag)?);
            view.rigging_json = record.rigging.clone();
            view.photos = record.photos.iter().map(ToString::to_string).collect();
            let (walk, moments) = moments_of(self, &record)?;
            let id = slingseal_journal::WalkId(record.walk);
            view.findings = self.walk_view(id, &walk, None)?.findings;
            view.timeline = moments.into_iter().map(|moment| self.timeline(moment)).collect();
        }
        view.timeline.push(self.timeline(sealed(row)));
        Ok(view)
    }
}

/// For exports: the time now, as this home sees it.
impl App {
    /// The time by this home's clock.
    pub fn now(&self) -> Time {
        self.lock().now()
    }
}
