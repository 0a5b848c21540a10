//! Closing an account: everything that does not add up, of what is known of each load, piece and device. Pure: rows in, points out; the
//! order in which the rows come changes nothing.

mod kind;

use std::collections::{BTreeMap, BTreeSet};

use slingseal_catalogue::{Saying, closing as words};
use slingseal_message::movement::{MovementEvent, ShownVerdict, place_of_report};
use slingseal_words::{Digest, Seconds, Time, same_name};

pub use kind::PointKind;

/// Two clocks may differ by this much.
const SLACK: Seconds = Seconds(120);

/// An inspection of a load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InspectionRow {
    /// The digest of its seal.
    pub seal: Digest,
    /// When it was sealed.
    pub at: Time,
    /// Until when it holds.
    pub valid_until: Time,
    /// By whom.
    pub inspector: String,
    /// What it found.
    pub fit: bool,
    /// When it was taken back, where it was.
    pub voided: Option<Time>,
    /// How long the walk took, and over how many cards; none where the full record is not here.
    pub walk: Option<(Seconds, u32)>,
}

/// A report of what became of a load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReportRow {
    /// Its own digest.
    pub digest: Digest,
    /// What happened.
    pub event: MovementEvent,
    /// When.
    pub at: Time,
    /// Who stands behind it, as a person reads it.
    pub by: Saying,
    /// Whether it counts: somebody known signed it in time, or this device wrote it itself.
    pub counts: bool,
    /// The verdict that had been shown, with the code of its first reason.
    pub shown: Option<(ShownVerdict, String)>,
    /// The seal that it names.
    pub seal: Option<Digest>,
    /// Serial numbers of pieces that are back.
    pub back: Vec<String>,
    /// Serial numbers of pieces that are damaged.
    pub damaged: Vec<String>,
}

/// All that is known of a load.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LoadRows {
    /// The load number.
    pub load: String,
    /// When it was planned, where a plan is here.
    pub planned: Option<Time>,
    /// Its inspections.
    pub inspections: Vec<InspectionRow>,
    /// What became of it.
    pub reports: Vec<ReportRow>,
    /// Its equipment: serial number and kind.
    pub equipment: Vec<(String, String)>,
    /// Its gross mass in grams, where it is known.
    pub mass_g: Option<i64>,
    /// Where it is picked up; empty where unknown.
    pub pickup: String,
    /// Where it goes; empty where unknown.
    pub destination: String,
}

/// A device of which records or reports are here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DeviceRow {
    /// What it goes by.
    pub device: String,
    /// The last entry of its journal that anything here tells, or up to which the device itself handed over what it had.
    pub held: u64,
    /// The last entry that was heard of.
    pub heard: u64,
    /// Records and reports that another names as the one before it, and that are not here.
    pub missing: Vec<Digest>,
}

/// One point that does not add up.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct OpenPoint {
    /// What sort.
    pub kind: PointKind,
    /// The load, the piece or the device.
    pub subject: Saying,
    /// The load, where it is one; empty for a device.
    pub load: String,
    /// What is known, in one line.
    pub known: Saying,
}

impl OpenPoint {
    fn of(kind: PointKind, load: &str, known: Saying) -> Self {
        Self { kind, subject: words::PointOfLoad { load }.into(), load: load.to_owned(), known }
    }
}

/// How much an account holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Loads.
    pub loads: u32,
    /// Inspections.
    pub inspections: u32,
    /// Loads that were lifted.
    pub lifted: u32,
    /// Loads that were set down or derigged.
    pub set_down: u32,
    /// Loads that were lost.
    pub lost: u32,
}

/// Gathers what does not add up, a load at a time: of what was gathered it keeps the points, and of each piece when it was seen last.
#[derive(Debug)]
pub struct OpenPoints {
    /// The shortest time that a card can be touched in, where an authority has set one.
    least: Option<Seconds>,
    points: Vec<OpenPoint>,
    /// By serial number in capitals.
    pieces: BTreeMap<String, PieceOut>,
}

/// A piece, as far as the loads go that were told of.
#[derive(Debug, Default)]
struct PieceOut {
    /// When it was last inspected on some load: it is back from every flight before that.
    seen: Option<Time>,
    /// With which loads it went out, when, and is not back by what is known so far.
    out: Vec<(Time, OpenPoint)>,
}

impl OpenPoints {
    /// Nothing was told yet.
    pub fn new(least: Option<Seconds>) -> Self {
        Self { least, points: Vec::new(), pieces: BTreeMap::new() }
    }

    /// Takes all that is known of a load.
    pub fn load(&mut self, load: &LoadRows) {
        points_of_load(load, self.least, &mut self.points);
        if let Some(last) = load.inspections.iter().map(|one| one.at).max() {
            for (serial, _) in &load.equipment {
                let piece = self.pieces.entry(serial.to_ascii_uppercase()).or_default();
                piece.seen = piece.seen.max(Some(last));
                piece.out.retain(|(lift, _)| *lift >= last);
            }
        }
        self.pieces_out(load);
    }

    /// Takes all that is known of a device.
    pub fn device(&mut self, device: &DeviceRow) {
        points_of_device(device, &mut self.points);
    }

    /// Everything that does not add up, by kind and subject.
    pub fn finish(self) -> Vec<OpenPoint> {
        let mut points = self.points;
        points.extend(self.pieces.into_values().flat_map(|piece| piece.out).map(|(_, point)| point));
        points.sort();
        points.dedup();
        points
    }
}

impl Counts {
    /// Takes all that is known of a load.
    pub fn load(&mut self, load: &LoadRows) {
        let had = |wanted: fn(MovementEvent) -> bool| {
            u32::from(load.reports.iter().any(|report| wanted(report.event)))
        };
        self.loads += 1;
        self.inspections += u32::try_from(load.inspections.len()).unwrap_or(u32::MAX);
        self.lifted += had(|event| event == MovementEvent::Lifted);
        self.set_down += had(is_down);
        self.lost += had(|event| event == MovementEvent::Lost);
    }
}

fn is_down(event: MovementEvent) -> bool {
    matches!(event, MovementEvent::SetDown | MovementEvent::Derigged | MovementEvent::Returned)
}

fn told(report: &ReportRow) -> Saying {
    words::KnownReport { event: report.event.saying(), at: report.at.dtg(), by: &report.by }.into()
}

/// Whether `one` happened behind `other`, as far as two clocks can tell.
fn behind(one: Time, other: Time) -> bool {
    one.since(other).0 >= -SLACK.0
}

fn points_of_load(load: &LoadRows, least: Option<Seconds>, points: &mut Vec<OpenPoint>) {
    let mut reports: Vec<&ReportRow> = load.reports.iter().collect();
    reports.sort_by_key(|report| place_of_report(report.at, report.event, report.digest));
    let mut inspections: Vec<&InspectionRow> = load.inspections.iter().collect();
    inspections.sort_by_key(|one| (one.at, one.seal));
    let mut point = |kind, known: Saying| points.push(OpenPoint::of(kind, &load.load, known));
    let last_lift = reports.iter().rev().find(|report| report.event == MovementEvent::Lifted);
    if let (Some(planned), true, true) = (load.planned, inspections.is_empty(), reports.is_empty()) {
        point(PointKind::NeverInspected, words::KnownPlanned { at: planned.dtg() }.into());
    }
    if let (Some(last), None) = (inspections.last(), last_lift) {
        let refused = reports.iter().rev().find(|report| matches!(report.event, MovementEvent::Refused(_)));
        let done = reports.iter().any(|report| is_down(report.event) || report.event == MovementEvent::Lost);
        match refused {
            Some(refused) => point(PointKind::RefusedAtHook, told(refused)),
            None if !done => {
                let (at, by) = (last.at.dtg(), &last.inspector);
                let known: Saying = match last.fit {
                    true => words::KnownFoundFit { at, by }.into(),
                    false => words::KnownFoundNotFit { at, by }.into(),
                };
                let known = match last.voided {
                    Some(at) => words::KnownVoided { report: known, at: at.dtg() }.into(),
                    None => known,
                };
                point(PointKind::NeverLifted, known);
            }
            None => {}
        }
    }
    for lift in reports.iter().filter(|report| report.event == MovementEvent::Lifted) {
        points_of_lift(lift, &inspections, &mut point);
    }
    if let Some(lift) = last_lift {
        let after = |wanted: fn(MovementEvent) -> bool| {
            reports.iter().rev().find(|report| wanted(report.event) && behind(report.at, lift.at)).copied()
        };
        let (down, lost) = (after(is_down), after(|event| event == MovementEvent::Lost));
        match (down, lost) {
            (None, None) => point(PointKind::NeverSetDown, told(lift)),
            (Some(down), Some(lost)) => {
                let known = words::KnownBoth { one: told(lost), other: told(down) };
                point(PointKind::Contradiction, known.into());
            }
            _ => {}
        }
    }
    if let Some(lost) = reports.iter().rev().find(|report| report.event == MovementEvent::Lost) {
        let serials: Vec<&str> = load.equipment.iter().map(|(serial, _)| serial.as_str()).collect();
        let known = match serials.is_empty() {
            true => told(lost),
            false => words::KnownWith { report: told(lost), serials: serials.join(", ") }.into(),
        };
        point(PointKind::Lost, known);
    }
    twice(&inspections, &reports, &mut point);
    for one in &inspections {
        if let (Some((took, cards)), Some(least)) = (one.walk, least)
            && walked_too_fast(took, cards, least)
        {
            let (by, took, at) = (&one.inspector, took.to_string(), one.at.dtg());
            point(
                PointKind::WalkedTooFast,
                words::KnownTooFast { by, cards: i64::from(cards), took, at }.into(),
            );
        }
    }
}

/// Whether a walk took less than the least time a card. It is a sign, not a proof.
pub fn walked_too_fast(took: Seconds, cards: u32, least: Seconds) -> bool {
    took.0 < i64::from(cards).saturating_mul(least.0)
}

fn points_of_lift(
    lift: &ReportRow,
    inspections: &[&InspectionRow],
    point: &mut impl FnMut(PointKind, Saying),
) {
    // The inspection that it was lifted under: the one that the report names, else the last one before it.
    let named = inspections.iter().find(|one| Some(one.seal) == lift.seal);
    let before = || inspections.iter().rev().find(|one| behind(lift.at, one.at));
    let under = named.or_else(before);
    let report = told(lift);
    let known: Option<Saying> = match &lift.shown {
        Some((ShownVerdict::Go, _)) if under.is_some_and(|one| one.fit) => None,
        Some((ShownVerdict::Go, _)) => Some(words::KnownShownGoAlone { report }.into()),
        Some((verdict, reason)) => Some(words::KnownShown { report, verdict: verdict.word(), reason }.into()),
        None => Some(words::KnownNoVerdict { report }.into()),
    };
    if let Some(known) = known {
        point(PointKind::LiftedWithoutGo, known);
    }
    let Some(under) = under else { return };
    if lift.at.since(under.valid_until) > SLACK {
        let known = words::KnownRanOut { report: told(lift), at: under.valid_until.dtg() };
        point(PointKind::LiftedAfterExpiry, known.into());
    }
    if let Some(voided) = under.voided.filter(|voided| lift.at.since(*voided) > SLACK) {
        let known = words::KnownVoided { report: told(lift), at: voided.dtg() };
        point(PointKind::LiftedAfterVoid, known.into());
    }
}

/// Two inspections by one person that both found the load fit, with nothing between them that asked for the second.
fn twice(inspections: &[&InspectionRow], reports: &[&ReportRow], point: &mut impl FnMut(PointKind, Saying)) {
    for pair in inspections.windows(2) {
        let &[first, second] = pair else { continue };
        let asked = first.voided.is_some()
            || second.at > first.valid_until
            || reports.iter().any(|report| first.at <= report.at && report.at <= second.at);
        if first.fit && second.fit && !asked && same_name(&first.inspector, &second.inspector) {
            let (by, first, second) = (&second.inspector, first.at.dtg(), second.at.dtg());
            point(PointKind::InspectedTwice, words::KnownFoundTwice { by, first, second }.into());
        }
    }
}

impl OpenPoints {
    /// Equipment that flew with a load which was not lost, and of which nobody says that it is back.
    fn pieces_out(&mut self, load: &LoadRows) {
        let lift = load
            .reports
            .iter()
            .filter(|report| report.event == MovementEvent::Lifted)
            .map(|report| report.at)
            .max();
        let lost = load.reports.iter().any(|report| report.event == MovementEvent::Lost);
        let Some(lift) = lift.filter(|_| !lost) else { return };
        let back: BTreeSet<String> = load
            .reports
            .iter()
            .flat_map(|report| &report.back)
            .map(|serial| serial.to_ascii_uppercase())
            .collect();
        for (serial, kind) in &load.equipment {
            let own = serial.to_ascii_uppercase();
            if back.contains(&own) {
                continue;
            }
            let piece = self.pieces.entry(own).or_default();
            if piece.seen.is_some_and(|seen| seen > lift) {
                continue;
            }
            let (kind, load_of) = (kind.as_str(), load.load.as_str());
            let known = words::KnownWentOut { kind, serial, load: load_of, at: lift.dtg() }.into();
            let subject = words::PointOfPiece { serial }.into();
            let point = OpenPoint { kind: PointKind::PieceOut, subject, load: load.load.clone(), known };
            piece.out.push((lift, point));
        }
    }
}

fn points_of_device(device: &DeviceRow, points: &mut Vec<OpenPoint>) {
    let mut point = |kind, known: Saying| {
        let subject = words::PointOfDevice { device: device.device.to_string() }.into();
        points.push(OpenPoint { kind, subject, load: String::new(), known });
    };
    if device.heard > device.held {
        let (heard, held) = (device.heard.to_string(), device.held.to_string());
        point(PointKind::JournalEndsEarly, words::KnownGoesOn { heard, held }.into());
    }
    for digest in &device.missing {
        point(PointKind::Missing, words::KnownMissing { digest: digest.short() }.into());
    }
}

#[cfg(test)]
mod tests;
