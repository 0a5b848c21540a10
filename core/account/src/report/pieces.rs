//! A piece of equipment's life: on which loads it was, how often it flew and with how much, where it is, and whether it came back.
//! Pure: rows in, lives out; the order in which the rows come changes nothing.

use std::collections::BTreeMap;

use slingseal_message::movement::MovementEvent;
use slingseal_words::Time;

use super::closing::LoadRows;

/// What is known of a piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PieceLife {
    /// Its serial number.
    pub serial: String,
    /// What it is.
    pub kind: String,
    /// The load that it hangs on, or went out with and did not come back from.
    pub load: Option<String>,
    /// Since when: the load's last inspection, or its last lift.
    pub since: Option<Time>,
    /// Whether that load flew: the piece is out.
    pub out: bool,
    /// Whether that load was lost, and the piece with it.
    pub lost: bool,
    /// How often it was lifted.
    pub lifts: u32,
    /// Gross mass of all loads that it was lifted with, in grams: what it carried a part of.
    pub carried_g: i64,
    /// Inspections of loads that it was on.
    pub inspections: u32,
    /// When it came back last.
    pub back: Option<Time>,
    /// When somebody last found it damaged.
    pub damaged: Option<Time>,
    /// Where it should be: the load's pickup zone, or its destination once it was lifted; empty where unknown or back.
    pub place: String,
    /// Whether what is said of its last load rests on a report that counts for nothing.
    pub unsigned: bool,
}

impl PieceLife {
    /// A piece of which nothing is told yet. `kind` is empty where no load names it.
    pub fn new(serial: String, kind: String) -> Self {
        Self {
            serial,
            kind,
            load: None,
            since: None,
            out: false,
            lost: false,
            lifts: 0,
            carried_g: 0,
            inspections: 0,
            back: None,
            damaged: None,
            place: String::new(),
            unsigned: false,
        }
    }
}

impl PieceLife {
    /// What a leader wants to see first: lost, out, damaged and not looked at since, the others.
    pub fn order(&self) -> u8 {
        match (self.lost, self.out, self.damaged > self.back) {
            (true, ..) => 1,
            (_, true, _) => 0,
            (.., true) => 2,
            _ => 3,
        }
    }
}

/// Gathers the life of every piece that any load names, a load at a time.
#[derive(Debug, Default)]
pub struct PieceLives(BTreeMap<(String, String), PieceLife>);

impl PieceLives {
    /// Takes all that is known of a load. Of loads since the same second the one that is told first is the one that a piece is on.
    pub fn load(&mut self, load: &LoadRows) {
        let last = load.inspections.iter().map(|one| one.at).max();
        let lifts: Vec<Time> = load
            .reports
            .iter()
            .filter(|report| report.event == MovementEvent::Lifted)
            .map(|report| report.at)
            .collect();
        let lost = load.reports.iter().any(|report| report.event == MovementEvent::Lost);
        for (serial, kind) in &load.equipment {
            let life = self
                .0
                .entry((serial.to_ascii_uppercase(), kind.clone()))
                .or_insert_with(|| PieceLife::new(serial.clone(), kind.clone()));
            let said = |named: fn(&super::closing::ReportRow) -> &Vec<String>| {
                let of_piece = |report: &&super::closing::ReportRow| {
                    named(report).iter().any(|one| one.eq_ignore_ascii_case(serial))
                };
                let reports = load.reports.iter().filter(of_piece);
                reports.map(|report| report.at).max()
            };
            let (back, damaged) = (said(|report| &report.back), said(|report| &report.damaged));
            life.back = life.back.max(back);
            life.damaged = life.damaged.max(damaged);
            let count = u32::try_from(lifts.len()).unwrap_or(u32::MAX);
            life.lifts = life.lifts.saturating_add(count);
            life.carried_g =
                life.carried_g.saturating_add(load.mass_g.unwrap_or(0).saturating_mul(count.into()));
            life.inspections += u32::try_from(load.inspections.len()).unwrap_or(u32::MAX);
            let since = lifts.iter().copied().max().or(last);
            // The load on which it was seen last is the one that it is on, unless it came back from it.
            if since > life.since {
                life.since = since;
                let gone = back.is_none();
                life.load = gone.then(|| load.load.clone());
                life.lost = gone && lost;
                life.out = gone && !lost && !lifts.is_empty();
                let place = if lifts.is_empty() { &load.pickup } else { &load.destination };
                life.place = if gone { place.clone() } else { String::new() };
                life.unsigned = load.reports.iter().any(|report| !report.counts);
            }
        }
    }

    /// What is out first.
    pub fn finish(self) -> Vec<PieceLife> {
        let mut lives: Vec<PieceLife> = self.0.into_values().collect();
        lives.sort_by(|one, other| {
            (one.order(), &one.serial, &one.kind).cmp(&(other.order(), &other.serial, &other.kind))
        });
        lives
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::{InspectionRow, ReportRow};
    use slingseal_words::Digest;

    fn piece_lives(loads: &[LoadRows]) -> Vec<PieceLife> {
        let mut lives = PieceLives::default();
        loads.iter().for_each(|load| lives.load(load));
        lives.finish()
    }

    fn at(seconds: i64) -> Time {
        Time::from_unix(1_790_000_000 + seconds)
    }

    fn load(name: &str, serial: &str, inspected: i64, events: &[(MovementEvent, i64)]) -> LoadRows {
        let report = |(event, seconds): &(MovementEvent, i64)| ReportRow {
            digest: Digest::of(format!("{name} {event:?} {seconds}").as_bytes()),
            event: *event,
            at: at(*seconds),
            by: "Thistle 7".into(),
            counts: *event != MovementEvent::Returned,
            shown: None,
            seal: None,
            back: if *event == MovementEvent::Returned { vec![serial.to_owned()] } else { Vec::new() },
            damaged: Vec::new(),
        };
        LoadRows {
            load: name.into(),
            planned: None,
            inspections: vec![InspectionRow {
                seal: Digest::of(name.as_bytes()),
                at: at(inspected),
                valid_until: at(inspected + 86_400),
                inspector: "Anvil 3".into(),
                fit: true,
                voided: None,
                walk: None,
            }],
            reports: events.iter().map(report).collect(),
            equipment: vec![(serial.into(), "sling set".into())],
            mass_g: Some(800_000),
            pickup: "Kestrel Meadow".into(),
            destination: "Alder Bridge".into(),
        }
    }

    #[test]
    fn what_is_out_stands_first_and_what_came_back_hangs_on_nothing() {
        let (lifted, returned, lost) = (MovementEvent::Lifted, MovementEvent::Returned, MovementEvent::Lost);
        let loads = [
            load("KM-1", "SS-1", 0, &[(lifted, 100), (returned, 900)]),
            load("KM-2", "SS-1", 2_000, &[(lifted, 2_100)]),
            load("KM-3", "SS-3", 0, &[(lifted, 100), (lost, 200)]),
            load("KM-4", "SS-4", 0, &[]),
            load("KM-5", "SS-5", 0, &[(lifted, 100), (returned, 900)]),
        ];
        let mut lives = piece_lives(&loads);
        let told: Vec<_> = lives
            .iter()
            .map(|life| (life.serial.as_str(), life.load.as_deref(), life.out, life.lost, life.lifts))
            .collect();
        assert_eq!(
            told,
            [
                ("SS-1", Some("KM-2"), true, false, 2),
                ("SS-3", Some("KM-3"), false, true, 1),
                ("SS-4", Some("KM-4"), false, false, 0),
                ("SS-5", None, false, false, 1),
            ]
        );
        assert_eq!((lives[0].carried_g, lives[0].back), (1_600_000, Some(at(900))));
        let places: Vec<_> = lives.iter().map(|life| (life.place.as_str(), life.unsigned)).collect();
        assert_eq!(
            places,
            [("Alder Bridge", false), ("Alder Bridge", false), ("Kestrel Meadow", false), ("", true)]
        );
        let mut turned = loads;
        turned.reverse();
        assert_eq!(piece_lives(&turned), std::mem::take(&mut lives));
    }
}
