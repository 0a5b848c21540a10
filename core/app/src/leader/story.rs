use serde::Serialize;
use slingseal_catalogue::refusals as words;

use crate::walks::sealing::{entry_digest, walk_of_record};
use crate::walks::start::walk_line;
use crate::{App, AppError, Inner, MovementView, RecordView, Stamp, TagView, WalkLine, walks};
use slingseal_account::report::{Moment, MomentKind, condense};
use slingseal_judgement::FlowState;
use slingseal_message::envelope::Kind;
use slingseal_message::seal::{Record, Void};
use slingseal_store::{Outcome, RecordRow, Standing};
use slingseal_walk::walk::{Again, Event, FindingNo, Walk, What};
use slingseal_words::{Digest, LoadNumber, PointId, Time};

/// Everything that is known of a load.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LoadView {
    /// The load number.
    pub load: String,
    /// `planned`, `walking`, `fit`, `wait`, `lifted`, `set_down`, `not_fit`, `refused`, `expired`, `voided` or `lost`.
    pub state: String,
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
    /// What sort: `planned`, `walk`, `good`, `found`, `put_right`, `again_good`, `again_bad`, `undone`, `rigging`, `warning`,
    /// `decided`, `sealed`, `voided` or `reported`.
    pub kind: String,
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
            return Err(AppError::not_found(words::NothingKnownLoad { load: &load }));
        }
        let judged = self.judge_load(load)?;
        // The one that counts goes first: two clocks within their slack do not say which was later.
        rows.sort_by_key(|row| Some(row.seal) != judged.latest);
        let (state, reported) = self.flow_of(load)?.unwrap_or((FlowState::Planned, String::new()));
        let mut moments = Vec::new();
        for row in &tags {
            let Ok(view) = self.tag_view(&row.bytes) else { continue };
            let who = view.planner.as_ref().map_or("unsigned".into(), |who| format!("signed by {who}"));
            moments.push(vec![Moment {
                at: Time::from_unix(view.planned.unix),
                kind: MomentKind::Planned,
                what: format!("Tag made for {}, {}, {who}", view.aircraft, view.gross),
                card: None,
            }]);
        }
        let mut inspections = Vec::new();
        for row in rows.iter().take(MOST) {
            inspections.push(self.record_view(row)?);
            moments.push(self.moments_of(row)?);
        }
        for report in &reports {
            let shown = report.verdict.as_ref().map(|shown| format!(", shown {shown}")).unwrap_or_default();
            let later =
                if report.later { format!(", reported {}", report.written.dtg) } else { String::new() };
            let note = report.note.as_ref().map(|note| format!(" ({note})")).unwrap_or_default();
            moments.push(vec![Moment {
                at: Time::from_unix(report.at.unix),
                kind: MomentKind::Reported,
                what: format!("{}, {}{shown}{later}{note}", capital(&report.what), report.origin),
                card: None,
            }]);
        }
        let newest_tag = || tags.first().and_then(|row| self.tag_view(&row.bytes).ok());
        let tag = inspections.iter().find_map(|record| record.tag.clone()).or_else(newest_tag);
        // Each inspection's moments stay together: two devices' clocks may disagree by minutes.
        moments.sort_by_key(|run| run.first().map(|moment| moment.at));
        Ok(LoadView {
            load: load.to_string(),
            state: state.word().into(),
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
                    kind: moment.kind.word().into(),
                    what: moment.what,
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
            let (walk, _) = walk_of_record(self, &record)?;
            let bodies = record.entries.iter().filter(|entry| entry.kind == walks::EVENT);
            for event in walks::events(bodies.map(|entry| entry.body.as_slice()))? {
                moments.push(moment(&walk, &event));
            }
        }
        let mut moments = condense(moments);
        let fit = if row.outcome == Outcome::Fit { "fit" } else { "NOT FIT" };
        moments.push(Moment {
            at: row.issued,
            kind: MomentKind::Sealed,
            what: match row.outcome {
                Outcome::Fit => {
                    format!("Sealed {fit} by {}, holds until {}", row.inspector, row.valid_until.dtg())
                }
                Outcome::NotFit => format!("Sealed {fit} by {}", row.inspector),
            },
            card: None,
        });
        moments.extend(self.voids(row.digest)?);
        Ok(moments)
    }

    fn voids(&self, record: Digest) -> Result<Vec<Moment>, AppError> {
        let told = self.voids_told(record)?.into_iter();
        Ok(told
            .map(|(at, what)| Moment { at, kind: MomentKind::Voided, what: sentence(&what), card: None })
            .collect())
    }

    /// When a record was taken back, by whom and why: `taken back by Anvil 3: the load was moved`. The one place that says so.
    pub(crate) fn voids_told(&self, record: Digest) -> Result<Vec<(Time, String)>, AppError> {
        let trusted = self.trusted()?;
        let mut told = Vec::new();
        for row in self.store.read().voids_of(record)? {
            let (void, message) = Void::open(&row.bytes)?;
            let signer = trusted.signer(Kind::Void, &message).ok();
            let by = signer.map_or_else(
                || "somebody who is not trusted here".into(),
                |signer| signer.credential.holder.to_string(),
            );
            let note = void.note.as_ref().map(|note| format!(" ({note})")).unwrap_or_default();
            let cause = void.cause.say(self.language());
            told.push((void.issued, format!("taken back by {by}: {cause}{note}")));
        }
        Ok(told)
    }
}

fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// A point as a person knows it: its prompt and the card that it stands on.
fn place(walk: &Walk, point: &PointId) -> String {
    match walk.ground().plan.point(point) {
        Some((card, point)) => format!("card {}, {}", card.number, point.prompt),
        None => point.to_string(),
    }
}

fn shown(walk: &Walk, point: &PointId, name: &str) -> String {
    let known = walk.ground().plan.point(point).map(|(_, point)| point);
    let known = known.and_then(|point| point.deficiencies.iter().find(|known| known.name == name));
    known.map_or_else(|| name.to_owned(), |known| known.shown.clone())
}

fn finding(walk: &Walk, number: FindingNo) -> String {
    let found = walk.findings().iter().find(|finding| finding.number == number);
    found.map_or_else(|| format!("finding {number}"), |found| shown(walk, &found.point, &found.name))
}

fn with(note: Option<&impl std::fmt::Display>) -> String {
    note.map(|note| format!(": {note}")).unwrap_or_default()
}

fn moment(walk: &Walk, event: &Event) -> Moment {
    let mut good_card = None;
    let (kind, what) = match &event.what {
        What::Begun { inspector, procedure, version, .. } => {
            let title = &walk.ground().plan.title;
            (MomentKind::Walk, format!("{inspector} began the inspection: {title} ({procedure} {version})"))
        }
        What::TagFaultFound { fault } => (MomentKind::Found, format!("On the tag: {fault}")),
        What::ClockJumped { from, to } => {
            (MomentKind::Warning, format!("The device's clock jumped from {} to {}", from.dtg(), to.dtg()))
        }
        What::CardGood { card } => {
            good_card = Some(card.number());
            let title = walk.ground().plan.card(*card).map(|card| format!(": {}", card.title));
            (MomentKind::Good, format!("Card {card} good{}", title.unwrap_or_default()))
        }
        What::Answered { card, point, value, deficiency: None } => {
            good_card = Some(card.number());
            (MomentKind::Good, format!("{}: {value}", capital(&place(walk, point))))
        }
        What::Answered { point, value, deficiency: Some(name), .. } => {
            let wrong = shown(walk, point, name);
            (MomentKind::Found, format!("Deficient, {}: {wrong} ({value})", place(walk, point)))
        }
        What::DeficiencyFound { point, name, note, .. } => {
            let wrong = shown(walk, point, name);
            (MomentKind::Found, format!("Deficient, {}: {wrong}{}", place(walk, point), with(note.as_ref())))
        }
        What::PieceRejected { serial, .. } => (MomentKind::Found, format!("Piece {serial} rejected")),
        What::PutRight { finding: number, by, note, .. } => {
            let by = by.as_ref().map(|by| format!(" by {by}")).unwrap_or_default();
            let what = finding(walk, *number);
            (MomentKind::PutRight, format!("Corrected{by}: {what}{}", with(note.as_ref())))
        }
        What::LookedAgain { finding: number, again, note, .. } => {
            let (kind, seen) = match again {
                Again::Good => (MomentKind::AgainGood, "good"),
                Again::StillDeficient => (MomentKind::AgainBad, "still deficient"),
            };
            let what = finding(walk, *number);
            (kind, format!("Reinspected, {seen}: {what}{}", with(note.as_ref())))
        }
        What::Undone { answer } => (MomentKind::Undone, format!("Answer {answer} taken back")),
        What::WentTo { card } => (MomentKind::Moved, format!("Went to card {card}")),
        What::RiggingAssessed { finding } => {
            let verdict = if finding.within_limits { "within limits at rest" } else { "OVER LIMITS" };
            (MomentKind::Rigging, format!("Rigging {verdict}: {}", finding.summary))
        }
        What::Paused {} => (MomentKind::Walk, "Paused".into()),
        What::Resumed {} => (MomentKind::Walk, "Went on".into()),
        What::Abandoned { reason } => (MomentKind::Walk, format!("Stopped: {reason}")),
        What::Decided { outcome, reason } => {
            (MomentKind::Decided, format!("Decided {outcome}{}", with(reason.as_ref())))
        }
        What::DecisionTakenBack {} => (MomentKind::Undone, "The decision was taken back".into()),
    };
    Moment { at: event.at, kind, what, card: good_card }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
