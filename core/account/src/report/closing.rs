//! Closing an account: everything that does not add up, of what is known of each load, piece and device. Pure: rows in, points out; the
//! order in which the rows come changes nothing.

use std::collections::{BTreeMap, BTreeSet};

use slingseal_message::movement::{MovementEvent, ShownVerdict};
use slingseal_words::{Digest, Seconds, Time, same_name};

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
    pub by: String,
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
}

/// A device of which records or reports are here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DeviceRow {
    /// What it goes by.
    pub device: String,
    /// The last entry of its journal that anything here tells.
    pub held: u64,
    /// The last entry that was heard of.
    pub heard: u64,
    /// Records and reports that another names as the one before it, and that are not here.
    pub missing: Vec<Digest>,
}

/// What does not add up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PointKind {
    /// Planned, and nobody inspected it.
    NeverInspected,
    /// Inspected, and nobody lifted it.
    NeverLifted,
    /// The hookup team did not lift it, and nobody did later.
    RefusedAtHook,
    /// Lifted, and no GO is known: WAIT or NO-GO had been shown, or nothing is told.
    LiftedWithoutGo,
    /// Lifted when its last inspection had run out.
    LiftedAfterExpiry,
    /// Lifted when its last inspection had been taken back.
    LiftedAfterVoid,
    /// Lifted, and nobody set it down.
    NeverSetDown,
    /// It fell, was jettisoned, or nobody knows where it is.
    Lost,
    /// Two reports of one flight cannot both be true.
    Contradiction,
    /// One person found it fit twice, with nothing in between that asked for it.
    InspectedTwice,
    /// Walked in less time than the cards can be touched in.
    WalkedTooFast,
    /// A piece of equipment went out with a load and is not back.
    PieceOut,
    /// A device's journal goes on behind what came of it.
    JournalEndsEarly,
    /// A record or report that another names is not here.
    Missing,
}

impl PointKind {
    /// A stable word: a statement carries it.
    pub fn word(self) -> &'static str {
        match self {
            Self::NeverInspected => "never_inspected",
            Self::NeverLifted => "never_lifted",
            Self::RefusedAtHook => "refused_at_hook",
            Self::LiftedWithoutGo => "lifted_without_go",
            Self::LiftedAfterExpiry => "lifted_after_expiry",
            Self::LiftedAfterVoid => "lifted_after_void",
            Self::NeverSetDown => "never_set_down",
            Self::Lost => "lost",
            Self::Contradiction => "contradiction",
            Self::InspectedTwice => "inspected_twice",
            Self::WalkedTooFast => "walked_too_fast",
            Self::PieceOut => "piece_out",
            Self::JournalEndsEarly => "journal_ends_early",
            Self::Missing => "missing",
        }
    }

    /// What a person reads as its heading.
    pub fn title(self) -> &'static str {
        match self {
            Self::NeverInspected => "Planned and never inspected",
            Self::NeverLifted => "Inspected and never lifted",
            Self::RefusedAtHook => "Refused at the hook",
            Self::LiftedWithoutGo => "Lifted without a known GO",
            Self::LiftedAfterExpiry => "Lifted after its inspection ran out",
            Self::LiftedAfterVoid => "Lifted after its seal was voided",
            Self::NeverSetDown => "Lifted and never set down",
            Self::Lost => "Lost",
            Self::Contradiction => "Reports that contradict",
            Self::InspectedTwice => "Inspected twice by one person",
            Self::WalkedTooFast => "Walked faster than the cards can be touched",
            Self::PieceOut => "Equipment out and not back",
            Self::JournalEndsEarly => "A device's journal goes on",
            Self::Missing => "Missing from a chain",
        }
    }

    /// What to do about it.
    pub fn to_do(self) -> &'static str {
        match self {
            Self::NeverInspected => "Find the load: inspect it, or say why it stayed.",
            Self::NeverLifted => {
                "Ask the hookup team; have the lift reported with its time, or say that it stayed."
            }
            Self::RefusedAtHook => "Put right what they found and inspect it anew, or say that it stays.",
            Self::LiftedWithoutGo => {
                "Ask who lifted it and why; look at the load before anyone flies it again."
            }
            Self::LiftedAfterExpiry => "Ask why nobody inspected it anew.",
            Self::LiftedAfterVoid => "Ask whether the void had reached the hook.",
            Self::NeverSetDown => "Ask the destination; have the set-down reported with its time.",
            Self::Lost => "Report it as the rules say; mark where it came down.",
            Self::Contradiction => "Ask both reporters.",
            Self::InspectedTwice => "Ask what the second inspection was for.",
            Self::WalkedTooFast => "Ask the inspector; have the load looked at again where it still can be.",
            Self::PieceOut => "Ask the destination for it; have its return reported by serial number.",
            Self::JournalEndsEarly => "Take in a bundle of that device.",
            Self::Missing => "Take in a bundle of that device; if it has no such word, find out why.",
        }
    }
}

/// One point that does not add up.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct OpenPoint {
    /// What sort.
    pub kind: PointKind,
    /// The load, the piece or the device.
    pub subject: String,
    /// The load, where it is one; empty for a device.
    pub load: String,
    /// What is known, in one line.
    pub known: String,
}

impl OpenPoint {
    fn of(kind: PointKind, load: &str, known: String) -> Self {
        Self { kind, subject: format!("load {load}"), load: load.to_owned(), known }
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

/// Everything that does not add up, by kind and subject; `least` is the shortest time that a card can be touched in, where an authority has
/// set one.
pub fn open_points(loads: &[LoadRows], devices: &[DeviceRow], least: Option<Seconds>) -> Vec<OpenPoint> {
    let mut points = Vec::new();
    let later = seen_again(loads);
    for load in loads {
        points_of_load(load, least, &mut points);
        pieces_out(load, &later, &mut points);
    }
    for device in devices {
        points_of_device(device, &mut points);
    }
    points.sort();
    points.dedup();
    points
}

/// What an account holds.
pub fn counts(loads: &[LoadRows]) -> Counts {
    let mut counts = Counts::default();
    for load in loads {
        let had = |wanted: fn(MovementEvent) -> bool| {
            u32::from(load.reports.iter().any(|report| wanted(report.event)))
        };
        counts.loads += 1;
        counts.inspections += u32::try_from(load.inspections.len()).unwrap_or(u32::MAX);
        counts.lifted += had(|event| event == MovementEvent::Lifted);
        counts.set_down += had(is_down);
        counts.lost += had(|event| event == MovementEvent::Lost);
    }
    counts
}

fn is_down(event: MovementEvent) -> bool {
    matches!(event, MovementEvent::SetDown | MovementEvent::Derigged | MovementEvent::Returned)
}

fn told(report: &ReportRow) -> String {
    format!("{} {} ({})", report.event.word().replace('-', " "), report.at.dtg(), report.by)
}

/// Whether `one` happened behind `other`, as far as two clocks can tell.
fn behind(one: Time, other: Time) -> bool {
    one.since(other).0 >= -SLACK.0
}

fn points_of_load(load: &LoadRows, least: Option<Seconds>, points: &mut Vec<OpenPoint>) {
    let mut reports: Vec<&ReportRow> = load.reports.iter().collect();
    reports.sort_by_key(|report| (report.at, report.event, report.digest));
    let mut inspections: Vec<&InspectionRow> = load.inspections.iter().collect();
    inspections.sort_by_key(|one| (one.at, one.seal));
    let mut point = |kind, known: String| points.push(OpenPoint::of(kind, &load.load, known));
    let last_lift = reports.iter().rev().find(|report| report.event == MovementEvent::Lifted);
    if let (Some(planned), true, true) = (load.planned, inspections.is_empty(), reports.is_empty()) {
        point(PointKind::NeverInspected, format!("planned {}", planned.dtg()));
    }
    if let (Some(last), None) = (inspections.last(), last_lift) {
        let refused = reports.iter().rev().find(|report| matches!(report.event, MovementEvent::Refused(_)));
        let done = reports.iter().any(|report| is_down(report.event) || report.event == MovementEvent::Lost);
        match refused {
            Some(refused) => point(PointKind::RefusedAtHook, refusal(refused)),
            None if !done => {
                let fit = if last.fit { "found fit" } else { "found NOT fit" };
                point(PointKind::NeverLifted, format!("{fit} {} by {}", last.at.dtg(), last.inspector));
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
                point(PointKind::Contradiction, format!("{}, and {}", told(lost), told(down)));
            }
            _ => {}
        }
    }
    if let Some(lost) = reports.iter().rev().find(|report| report.event == MovementEvent::Lost) {
        let with = match load.equipment.as_slice() {
            [] => String::new(),
            pieces => {
                let serials: Vec<&str> = pieces.iter().map(|(serial, _)| serial.as_str()).collect();
                format!(", with {}", serials.join(", "))
            }
        };
        point(PointKind::Lost, format!("{}{with}", told(lost)));
    }
    twice(&inspections, &reports, &mut point);
    for one in &inspections {
        if let (Some((took, cards)), Some(least)) = (one.walk, least)
            && took.0 < i64::from(cards) * least.0
        {
            let known = format!("{} walked {cards} cards in {took}, {}", one.inspector, one.at.dtg());
            point(PointKind::WalkedTooFast, known);
        }
    }
}

fn refusal(report: &ReportRow) -> String {
    let cause = match report.event {
        MovementEvent::Refused(cause) => format!(", {}", cause.word()),
        _ => String::new(),
    };
    format!("{}{cause}", told(report))
}

fn points_of_lift(
    lift: &ReportRow,
    inspections: &[&InspectionRow],
    point: &mut impl FnMut(PointKind, String),
) {
    // The inspection that it was lifted under: the one that the report names, else the last one before it.
    let named = inspections.iter().find(|one| Some(one.seal) == lift.seal);
    let before = || inspections.iter().rev().find(|one| behind(lift.at, one.at));
    let under = named.or_else(before);
    match &lift.shown {
        Some((ShownVerdict::Go, _)) if under.is_some_and(|one| one.fit) => {}
        Some((ShownVerdict::Go, _)) => {
            point(
                PointKind::LiftedWithoutGo,
                format!("{}, shown GO, and no inspection that found it fit is here", told(lift)),
            );
        }
        Some((verdict, reason)) => {
            point(PointKind::LiftedWithoutGo, format!("{}, shown {}: {reason}", told(lift), verdict.word()));
        }
        None => point(PointKind::LiftedWithoutGo, format!("{}, no verdict is told", told(lift))),
    }
    let Some(under) = under else { return };
    if lift.at.since(under.valid_until) > SLACK {
        let known = format!("{}, the inspection ran out {}", told(lift), under.valid_until.dtg());
        point(PointKind::LiftedAfterExpiry, known);
    }
    if let Some(voided) = under.voided.filter(|voided| lift.at.since(*voided) > SLACK) {
        point(PointKind::LiftedAfterVoid, format!("{}, voided {}", told(lift), voided.dtg()));
    }
}

/// Two inspections by one person that both found the load fit, with nothing between them that asked for the second.
fn twice(inspections: &[&InspectionRow], reports: &[&ReportRow], point: &mut impl FnMut(PointKind, String)) {
    for pair in inspections.windows(2) {
        let &[first, second] = pair else { continue };
        let asked = first.voided.is_some()
            || second.at > first.valid_until
            || reports.iter().any(|report| first.at <= report.at && report.at <= second.at);
        if first.fit && second.fit && !asked && same_name(&first.inspector, &second.inspector) {
            let known =
                format!("{} found it fit {} and {}", second.inspector, first.at.dtg(), second.at.dtg());
            point(PointKind::InspectedTwice, known);
        }
    }
}

/// When each piece was last inspected on some load: it is back from every flight before that.
fn seen_again(loads: &[LoadRows]) -> BTreeMap<&str, Time> {
    let mut seen: BTreeMap<&str, Time> = BTreeMap::new();
    for load in loads {
        let Some(last) = load.inspections.iter().map(|one| one.at).max() else { continue };
        for (serial, _) in &load.equipment {
            let known = seen.entry(serial).or_insert(last);
            *known = last.max(*known);
        }
    }
    seen
}

/// Equipment that flew with a load which was not lost, and of which nobody says that it is back.
fn pieces_out(load: &LoadRows, seen: &BTreeMap<&str, Time>, points: &mut Vec<OpenPoint>) {
    let lift = load
        .reports
        .iter()
        .filter(|report| report.event == MovementEvent::Lifted)
        .map(|report| report.at)
        .max();
    let Some(lift) = lift.filter(|_| !load.reports.iter().any(|report| report.event == MovementEvent::Lost))
    else {
        return;
    };
    let back: BTreeSet<&str> =
        load.reports.iter().flat_map(|report| &report.back).map(String::as_str).collect();
    for (serial, kind) in &load.equipment {
        let used_since = seen.get(serial.as_str()).is_some_and(|seen| *seen > lift);
        if !back.contains(serial.as_str()) && !used_since {
            let known = format!("{kind} {serial} went out with load {}, {}", load.load, lift.dtg());
            points.push(OpenPoint {
                kind: PointKind::PieceOut,
                subject: format!("piece {serial}"),
                load: load.load.clone(),
                known,
            });
        }
    }
}

fn points_of_device(device: &DeviceRow, points: &mut Vec<OpenPoint>) {
    let mut point = |kind, known| {
        let subject = format!("device {}", device.device);
        points.push(OpenPoint { kind, subject, load: String::new(), known });
    };
    if device.heard > device.held {
        let known = format!(
            "entry {} of its journal was heard of; what came of it ends at {}",
            device.heard, device.held
        );
        point(PointKind::JournalEndsEarly, known);
    }
    for digest in &device.missing {
        point(
            PointKind::Missing,
            format!("{} is named as the word before another, and is not here", digest.short()),
        );
    }
}

#[cfg(test)]
mod tests;
