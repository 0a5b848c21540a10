//! The one telling of what happened in an inspection, in no language yet: a record and a load's story say the same.

use slingseal_catalogue::story as words;

use super::entries::{EVENT, events};
use super::record::walk_of_record;
use super::{counted_links, finding_said};
use crate::{AppError, Inner};
use slingseal_account::report::{Moment, MomentKind};
use slingseal_message::seal::Record;
use slingseal_rigging::RiggedLoad;
use slingseal_store::{Outcome, RecordRow};
use slingseal_walk::procedure::Kind as PointKind;
use slingseal_walk::walk::{self, Again, Event, FindingNo, Value, Walk, What};
use slingseal_words::{Language, PointId, Saying};

/// The walk of a full record, and what happened in it, moment by moment.
pub(crate) fn moments_of(inner: &Inner, record: &Record) -> Result<(Walk, Vec<Moment>), AppError> {
    let (walk, tag) = walk_of_record(inner, record)?;
    let bodies = record.entries.iter().filter(|entry| entry.kind == EVENT);
    let told = events(bodies.map(|entry| entry.body.as_slice()))?;
    let loads = rigged(&walk, tag.rigging, &told, inner.language());
    let moments = told.iter().map(|event| moment(&walk, event, &loads)).collect();
    Ok((walk, moments))
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
fn rigged(walk: &Walk, planned: Option<RiggedLoad>, told: &[Event], language: Language) -> Vec<RiggedLoad> {
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
fn moment(walk: &Walk, event: &Event, loads: &[RiggedLoad]) -> Moment {
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
