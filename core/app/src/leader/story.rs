use serde::Serialize;
use slingseal_catalogue::{refusals, story as words};

use crate::walks::entries::{EVENT, events};
use crate::walks::record::{entry_digest, walk_of_record};
use crate::walks::start::walk_line;
use crate::walks::{counted_links, finding_said};
use crate::{App, AppError, Inner, MovementView, RecordView, Stamp, TagView, WalkLine};
use slingseal_account::report::{Moment, MomentKind, condense};
use slingseal_judgement::FlowState;
use slingseal_message::envelope::Kind;
use slingseal_message::seal::{Record, Void};
use slingseal_rigging::RiggedLoad;
use slingseal_store::{Outcome, RecordRow, Standing};
use slingseal_walk::procedure::Kind as PointKind;
use slingseal_walk::walk::{self, Again, Event, FindingNo, Value, Walk, What};
use slingseal_words::{Digest, Language, LoadNumber, PointId, Saying, Time};

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
            let (walk, tag) = walk_of_record(self, &record)?;
            let bodies = record.entries.iter().filter(|entry| entry.kind == EVENT);
            let told = events(bodies.map(|entry| entry.body.as_slice()))?;
            let loads = rigged(&walk, tag.rigging, &told, self.language());
            for event in told {
                moments.push(moment(&walk, &event, &loads));
            }
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

/// The moment at which a record was sealed.
pub(crate) fn sealed(row: &RecordRow) -> Moment {
    let by = &row.inspector;
    let what = match row.outcome {
        Outcome::Fit => words::SealedFitUntil { by, until: row.valid_until.dtg() }.into(),
        Outcome::NotFit => words::SealedNotFit { by }.into(),
    };
    Moment { at: row.issued, kind: MomentKind::Sealed, what, card: None }
}

/// A point as a person knows it: its prompt and the card that it stands on.
fn place(walk: &Walk, point: &PointId) -> Saying {
    match walk.ground().plan.point(point) {
        Some((card, point)) => words::CardAndPoint { card: card.number, point: &point.prompt }.into(),
        None => Saying::verbatim(point),
    }
}

fn shown(walk: &Walk, point: &PointId, name: &str) -> String {
    let known = walk.ground().plan.point(point).map(|(_, point)| point);
    let known = known.and_then(|point| point.deficiencies.iter().find(|known| known.name == name));
    known.map_or_else(|| name.to_owned(), |known| known.shown.clone())
}

fn finding(walk: &Walk, number: FindingNo) -> Saying {
    let found = walk.findings().iter().find(|finding| finding.number == number);
    found.map_or_else(
        || words::FindingNumbered { number: number.to_string() }.into(),
        |found| Saying::verbatim(shown(walk, &found.point, &found.name)),
    )
}

/// With what was said of it behind a colon.
fn with(said: impl Into<Saying>, note: Option<&impl std::fmt::Display>) -> Saying {
    let said = said.into();
    match note {
        Some(note) => words::WithWords { said, note: note.to_string() }.into(),
        None => said,
    }
}

/// With a note in brackets.
fn with_note(said: Saying, note: Option<&impl std::fmt::Display>) -> Saying {
    match note {
        Some(note) => words::WithNote { said, note: note.to_string() }.into(),
        None => said,
    }
}

/// What was answered at a point, as a person reads it: a choice is kept by its name in the file's English.
pub(crate) fn value_said(walk: &Walk, point: &PointId, value: &Value) -> Saying {
    match value {
        Value::Choice(name) => {
            let kind = walk.ground().plan.point(point).map(|(_, point)| &point.kind);
            let options = match kind {
                Some(PointKind::Choice(options)) => options.as_slice(),
                _ => &[],
            };
            let known = options.iter().find(|option| option.name == *name);
            Saying::verbatim(known.map_or(name, |option| &option.shown))
        }
        Value::Good => words::ValueGood.into(),
        Value::NotApplicable(why) => words::ValueNotApplicable { why: why.to_string() }.into(),
        other => Saying::verbatim(other),
    }
}

/// The loads of which a walk's statics may speak to a reader of another language than its journal's: as planned, and as its
/// links were counted, one count after the other.
pub(crate) fn rigged(
    walk: &Walk,
    planned: Option<RiggedLoad>,
    told: &[Event],
    language: Language,
) -> Vec<RiggedLoad> {
    let Some(planned) = planned.filter(|_| language != Language::English) else { return Vec::new() };
    // The counts as they stood after each event: a second rule of what is counted would go another way where one is undone.
    let mut then = Walk::new(walk.ground().clone());
    let mut counted = Vec::new();
    let mut loads = vec![planned.clone()];
    for event in told {
        if then.apply(event).is_err() {
            break;
        }
        let links = counted_links(&then);
        if links != counted {
            loads.extend(planned.with_links(&links));
            counted = links;
        }
    }
    loads
}

/// The one telling of an event of an inspection, in no language yet. `loads`: what its statics may be of.
pub(crate) fn moment(walk: &Walk, event: &Event, loads: &[RiggedLoad]) -> Moment {
    let mut good_card = None;
    let (kind, what) = match &event.what {
        What::Begun { inspector, procedure, version, .. } => {
            let (title, procedure) = (&walk.ground().plan.title, procedure.to_string());
            let inspector = inspector.to_string();
            (
                MomentKind::Walk,
                words::InspectionBegan { inspector, title, procedure, version: version.to_string() }.into(),
            )
        }
        What::TagFaultFound { fault } => {
            (MomentKind::Found, words::OnTheTag { fault: fault.saying() }.into())
        }
        What::ClockJumped { from, to } => {
            (MomentKind::Warning, words::ClockJumped { from: from.dtg(), to: to.dtg() }.into())
        }
        What::CardGood { card: number } => {
            let card = number.number();
            good_card = Some(card);
            let what = match walk.ground().plan.card(*number) {
                Some(titled) => words::CardGoodTitled { card, title: &titled.title }.saying(),
                None => words::CardGood { card }.into(),
            };
            (MomentKind::Good, what)
        }
        What::Answered { card, point, value, deficiency: None } => {
            good_card = Some(card.number());
            (
                MomentKind::Good,
                words::Answered { place: place(walk, point), value: value_said(walk, point, value) }.into(),
            )
        }
        What::Answered { point, value, deficiency: Some(name), .. } => {
            let wrong = shown(walk, point, name);
            let value = value_said(walk, point, value);
            (MomentKind::Found, words::DeficientWithValue { place: place(walk, point), wrong, value }.into())
        }
        What::DeficiencyFound { point, name, note, .. } => {
            let wrong = shown(walk, point, name);
            let said = words::Deficient { place: place(walk, point), wrong };
            (MomentKind::Found, with(said, note.as_ref()))
        }
        What::PieceRejected { serial, .. } => {
            (MomentKind::Found, words::PieceRejected { serial: serial.to_string() }.into())
        }
        What::PutRight { finding: number, by, note, .. } => {
            let what = finding(walk, *number);
            let said = match by {
                Some(by) => words::CorrectedBy { by: by.to_string(), what }.saying(),
                None => words::Corrected { what }.into(),
            };
            (MomentKind::PutRight, with(said, note.as_ref()))
        }
        What::LookedAgain { finding: number, again, note, .. } => {
            let what = finding(walk, *number);
            let (kind, said) = match again {
                Again::Good => (MomentKind::AgainGood, words::ReinspectedGood { what }.saying()),
                Again::StillDeficient => {
                    (MomentKind::AgainBad, words::ReinspectedStillDeficient { what }.into())
                }
            };
            (kind, with(said, note.as_ref()))
        }
        What::Undone { answer } => {
            (MomentKind::Undone, words::AnswerTakenBack { answer: answer.to_string() }.into())
        }
        What::WentTo { card } => (MomentKind::Moved, words::WentToCard { card: card.number() }.into()),
        What::RiggingAssessed { finding } => {
            let summary = finding_said(finding, loads);
            let said = if finding.within_limits {
                words::RiggingWithinLimits { summary }.saying()
            } else {
                words::RiggingOverLimits { summary }.into()
            };
            (MomentKind::Rigging, said)
        }
        What::Paused {} => (MomentKind::Walk, words::Paused.into()),
        What::Resumed {} => (MomentKind::Walk, words::WentOn.into()),
        What::Abandoned { reason } => {
            (MomentKind::Walk, words::Stopped { reason: reason.to_string() }.into())
        }
        What::Decided { outcome, reason } => {
            let said = match outcome {
                walk::Outcome::Fit => words::DecidedFit.saying(),
                walk::Outcome::NotFit => words::DecidedNotFit.into(),
            };
            (MomentKind::Decided, with(said, reason.as_ref()))
        }
        What::DecisionTakenBack {} => (MomentKind::Undone, words::DecisionTakenBack.into()),
    };
    Moment { at: event.at, kind, what, card: good_card }
}

pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
