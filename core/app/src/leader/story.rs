use serde::Serialize;
use slingseal_catalogue::{refusals, story as words};

use crate::walks::record::entry_digest;
use crate::walks::start::walk_line;
use crate::walks::told::{moments_of, sealed};
use crate::{App, AppError, Inner, MovementView, RecordView, Stamp, TagView, WalkLine};
use slingseal_account::report::{Moment, MomentKind, condense};
use slingseal_judgement::FlowState;
use slingseal_message::envelope::Kind;
use slingseal_message::seal::{Record, Void};
use slingseal_store::{RecordRow, Standing};
use slingseal_words::{Digest, LoadNumber, Saying, Time};

/// Everything that is known of a load.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LoadView {
    /// The load number.
    pub load: String,
    /// Where it is on its way.
    #[serde(serialize_with = "crate::view::word")]
    pub state: FlowState,
    /// The same as a person reads it.
    pub state_title: String,
    /// What a report that nobody known signed tells beside it, in one line; empty where there is none.
    pub reported: String,
    /// What was done to it since it was planned, the first that happened first.
    pub reports: Vec<MovementView>,
    /// The tag that counts: of the newest record, or the newest plan.
    pub tag: Option<TagView>,
    /// Walks in hand on this device.
    pub walks: Vec<WalkLine>,
    /// Its inspections, the newest first.
    pub inspections: Vec<RecordView>,
    /// What happened, the first first; a run of good cards is one moment.
    pub moments: Vec<MomentView>,
}

/// One moment of the story.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MomentView {
    /// When, by the clock of the device where it happened.
    pub at: Stamp,
    /// What sort.
    #[serde(serialize_with = "crate::view::word")]
    pub kind: MomentKind,
    /// What, in one line.
    pub what: String,
}

/// So many inspections of one load are told; a load number that is used again and again has more.
const MOST: usize = 20;

impl App {
    /// A load's whole story.
    ///
    /// # Errors
    /// Nothing is known of the load.
    pub fn load(&self, load: &str) -> Result<LoadView, AppError> {
        self.lock().load(&LoadNumber::new(load)?)
    }
}

impl Inner {
    fn load(&self, load: &LoadNumber) -> Result<LoadView, AppError> {
        let read = self.store.read();
        let mut rows = read.records_of_load(load.as_str())?;
        // Evidence of somebody who might not inspect is no inspection.
        rows.retain(|row| row.standing() != Standing::NoInspection);
        let tags = self.tags_of(load)?;
        let walks: Vec<_> =
            read.walks_of(load.as_str())?.into_iter().filter(|walk| walk.state.in_hand()).collect();
        let reports = self.movements(load)?;
        if rows.is_empty() && tags.is_empty() && walks.is_empty() && reports.is_empty() {
            return Err(AppError::not_found(refusals::NothingKnownLoad { load: &load }));
        }
        let judged = self.judge_load(load)?;
        // The one that counts goes first: two clocks within their slack do not say which was later.
        rows.sort_by_key(|row| Some(row.seal) != judged.latest);
        let (state, reported) = self.flow_of(load)?.unwrap_or((FlowState::Planned, String::new()));
        let mut moments = Vec::new();
        for row in &tags {
            let Ok(view) = self.tag_view(&row.bytes) else { continue };
            let (aircraft, gross) = (&view.aircraft, &view.gross);
            moments.push(vec![Moment {
                at: Time::from_unix(view.planned.unix),
                kind: MomentKind::Planned,
                what: match &view.planner {
                    Some(who) => words::TagMadeSigned { aircraft, gross, who }.into(),
                    None => words::TagMadeUnsigned { aircraft, gross }.into(),
                },
                card: None,
            }]);
        }
        let mut inspections = Vec::new();
        for row in rows.iter().take(MOST) {
            inspections.push(self.record_view(row)?);
            moments.push(self.moments_of(row)?);
        }
        for report in &reports {
            let mut what =
                words::MovementTold { what: capital(&report.what), origin: &report.origin }.saying();
            if let Some(verdict) = report.verdict {
                what = words::MovementShown { told: what, verdict: verdict.word() }.into();
            }
            if report.later {
                what = words::MovementReportedLater { told: what, at: &report.written.dtg }.into();
            }
            if let Some(note) = &report.note {
                what = words::WithNote { said: what, note }.into();
            }
            moments.push(vec![Moment {
                at: Time::from_unix(report.at.unix),
                kind: MomentKind::Reported,
                what,
                card: None,
            }]);
        }
        let newest_tag = || tags.first().and_then(|row| self.tag_view(&row.bytes).ok());
        let tag = inspections.iter().find_map(|record| record.tag.clone()).or_else(newest_tag);
        // Each inspection's moments stay together: two devices' clocks may disagree by minutes.
        moments.sort_by_key(|run| run.first().map(|moment| moment.at));
        Ok(LoadView {
            load: load.to_string(),
            state,
            state_title: state.say(self.language()),
            reported,
            reports,
            tag,
            walks: walks.into_iter().map(walk_line).collect(),
            inspections,
            moments: moments
                .into_iter()
                .flatten()
                .map(|moment| MomentView {
                    at: moment.at.into(),
                    kind: moment.kind,
                    what: moment.what.say(self.language()),
                })
                .collect(),
        })
    }

    /// What happened from the first look at a tag to the seal and its end.
    fn moments_of(&self, row: &RecordRow) -> Result<Vec<Moment>, AppError> {
        let read = self.store.read();
        let body = read.record_bytes(row.seal)?.and_then(|bytes| bytes.body);
        let mut moments = Vec::new();
        if let Some(body) = &body {
            let record = Record::parse(body, &entry_digest)?;
            (_, moments) = moments_of(self, &record)?;
        }
        let mut moments = condense(moments);
        moments.push(sealed(row));
        moments.extend(self.voids(row.digest)?);
        Ok(moments)
    }

    fn voids(&self, record: Digest) -> Result<Vec<Moment>, AppError> {
        let told = self.voids_told(record)?.into_iter();
        Ok(told
            .map(|(at, what)| {
                let what = Saying::verbatim(capital(&what.say(self.language())));
                Moment { at, kind: MomentKind::Voided, what, card: None }
            })
            .collect())
    }

    /// When a record was taken back, by whom and why: `taken back by Anvil 3: the load was moved`. The one place that says so.
    pub(crate) fn voids_told(&self, record: Digest) -> Result<Vec<(Time, Saying)>, AppError> {
        let trusted = self.trusted()?;
        let mut told = Vec::new();
        for row in self.store.read().voids_of(record)? {
            let (void, message) = Void::open(&row.bytes)?;
            let signer = trusted.signer(Kind::Void, &message).ok();
            let by = signer.map_or_else(
                || words::SomebodyNotTrusted.saying(),
                |signer| Saying::verbatim(signer.credential.holder),
            );
            let said = words::TakenBackBy { by, cause: void.cause.saying() }.saying();
            told.push((void.issued, with_note(said, void.note.as_ref())));
        }
        Ok(told)
    }
}

/// With a note in brackets.
fn with_note(said: Saying, note: Option<&impl std::fmt::Display>) -> Saying {
    match note {
        Some(note) => words::WithNote { said, note: note.to_string() }.into(),
        None => said,
    }
}

pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
