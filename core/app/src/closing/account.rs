//! What an account says of the day: every load with its inspections and reports.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Bound::{Excluded, Included, Unbounded};

use super::digests::{Ends, Meant};
use super::request::{CloseRequest, named};
use crate::leader::day_of;
use crate::view::hex;
use crate::walks::record::{entry_digest, equipment, walk_facts, walk_of_record};
use crate::{AppError, Inner};
use slingseal_account::report::{Counts, InspectionRow, LoadRows, OpenPoint, OpenPoints, ReportRow};
use slingseal_catalogue::{Saying, closing as words, movement};
use slingseal_message::movement::{Movement, PieceState, ReceivedMovement};
use slingseal_message::seal::Record;
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::Credentialed;
use slingseal_store::{MovementRow, Outcome, Standing, Stretch};
use slingseal_words::{Description, Digest, LoadNumber, Time};

/// What is said of the loads that are meant.
pub(super) struct Account {
    pub(super) name: Description,
    pub(super) days: Option<(Time, Time)>,
    pub(super) counts: Counts,
    pub(super) points: Vec<OpenPoint>,
    pub(super) digest: (Digest, u32),
    pub(super) unsigned: u32,
}

/// What is here of one load.
#[derive(Default)]
pub(crate) struct OfLoad {
    pub(crate) rows: LoadRows,
    /// Whether anything but a word that nothing is made of is here: a plan, an inspection, a report.
    known: bool,
    /// How many of its reports nobody known signed.
    unsigned: u32,
    /// Who wrote its reports, and where the device's journal ended.
    ends: Vec<([u8; 16], u64)>,
}

impl Inner {
    /// A home of an older schema does not know yet how its records were walked.
    pub(crate) fn learn_walk_facts(&mut self) -> Result<(), AppError> {
        let read = self.store.read();
        let mut rows = Vec::new();
        for seal in read.seals_without_walk_facts()? {
            let Some(bytes) = read.record_bytes(seal)? else { continue };
            let Some(body) = bytes.body else { continue };
            let Ok(record) = Record::parse(&body, &entry_digest) else { continue };
            let (walk, _) = walk_of_record(self, &record)?;
            rows.push(walk_facts(seal, &record, &walk));
        }
        if rows.is_empty() {
            return Ok(());
        }
        self.store.write(|tx| -> Result<(), AppError> {
            rows.iter().try_for_each(|row| tx.put_walk_facts(row))?;
            Ok(())
        })
    }

    /// A load at a time: what is kept of each is its points, and whether it is meant.
    pub(super) fn account_of(&self, request: &CloseRequest) -> Result<Account, AppError> {
        let day = day_of(request.day.as_ref())?;
        let wanted: BTreeSet<String> = request
            .loads
            .iter()
            .map(|load| Ok(LoadNumber::new(load)?.to_string()))
            .collect::<Result<_, AppError>>()?;
        let mut missing = wanted.clone();
        let within = |time: Time| day.is_none_or(|(from, to)| from <= time && time < to);
        let all = wanted.is_empty();
        let mut meant = if all && day.is_none() { Meant::all() } else { Meant::none() };
        let (mut counts, mut points) = (Counts::default(), OpenPoints::new(self.least_a_card()?));
        let (mut unsigned, mut ends) = (0_u32, Ends::default());
        self.each_load(|load| {
            load.ends.iter().for_each(|(device, end)| ends.wrote(*device, *end));
            let rows = &load.rows;
            let told = rows.planned.into_iter().chain(rows.inspections.iter().map(|one| one.at));
            let mut told = told.chain(rows.reports.iter().map(|report| report.at));
            let named = all || wanted.contains(&rows.load);
            if !(load.known && named && told.any(within)) {
                meant.not(&rows.load);
                return Ok(());
            }
            meant.this(&rows.load);
            missing.remove(&rows.load);
            counts.load(rows);
            points.load(rows);
            unsigned += load.unsigned;
            Ok(())
        })?;
        if counts.loads == 0 {
            return Err(AppError::not_found(words::NothingOfTheseLoads));
        }
        if let Some(missing) = missing.first() {
            return Err(AppError::not_found(words::NothingOfLoad { load: missing.as_str() }));
        }
        let name = self.name_of(request, &wanted)?;
        let digest = self.digest_and_devices(&meant, ends, &mut points)?;
        Ok(Account { name, days: day, counts, points: points.finish(), digest, unsigned })
    }

    fn name_of(&self, request: &CloseRequest, wanted: &BTreeSet<String>) -> Result<Description, AppError> {
        let name = match (request.name.as_deref().map(str::trim), &request.day) {
            (Some(name), _) if !name.is_empty() => name.to_owned(),
            (_, Some(day)) => day.trim().to_owned(),
            _ if !wanted.is_empty() => named(wanted, self.language()),
            // The leader's own word, as every name is: it is signed in the language in which it was read.
            _ => words::WholeAccount.say(self.language()),
        };
        Ok(Description::new(&name)?)
    }

    /// What is here of every load, by its number: no more of them lie in memory than a stretch has.
    pub(crate) fn each_load(
        &self,
        mut take: impl FnMut(&OfLoad) -> Result<(), AppError>,
    ) -> Result<(), AppError> {
        let read = self.store.read();
        let mut voided: BTreeMap<Digest, Time> = BTreeMap::new();
        let mut void_of: BTreeSet<String> = BTreeSet::new();
        read.each_void(|row| -> Result<(), AppError> {
            if row.author.is_some_and(|author| author.in_time) {
                let first = voided.entry(row.record).or_insert(row.issued);
                *first = row.issued.min(*first);
            }
            void_of.insert(row.load);
            Ok(())
        })?;
        let mut names: BTreeMap<Digest, String> = BTreeMap::new();
        let mut stretch = read.next_stretch(None)?;
        while let Some(here) = stretch {
            let mut loads = self.loads_in(&here, &voided, &mut names)?;
            let ends = (Excluded(here.behind()), here.upto().map_or(Unbounded, Included));
            for load in void_of.range::<str, _>(ends) {
                at(&mut loads, load);
            }
            loads.values().try_for_each(&mut take)?;
            stretch = read.next_stretch(Some(&here))?;
        }
        Ok(())
    }

    fn loads_in(
        &self,
        here: &Stretch,
        voided: &BTreeMap<Digest, Time>,
        names: &mut BTreeMap<Digest, String>,
    ) -> Result<BTreeMap<String, OfLoad>, AppError> {
        let read = self.store.read();
        let mut loads: BTreeMap<String, OfLoad> = BTreeMap::new();
        for flow in read.flows_in(here)? {
            let rows = known(&mut loads, &flow.load);
            rows.planned = flow.planned;
            (rows.pickup, rows.destination) = (flow.zone, flow.destination);
        }
        for load in read.tagged_in(here)? {
            at(&mut loads, &load);
        }
        read.each_record_in(here, |row| -> Result<(), AppError> {
            if row.standing() == Standing::NoInspection {
                at(&mut loads, &row.load);
                return Ok(());
            }
            let walk = read.walk_facts_of(row.seal)?.map(|facts| (facts.took, facts.cards));
            let rows = known(&mut loads, &row.load);
            rows.mass_g = row.mass_g;
            rows.inspections.push(InspectionRow {
                seal: row.seal,
                at: row.issued,
                valid_until: row.valid_until,
                inspector: row.inspector,
                fit: row.outcome == Outcome::Fit,
                voided: voided.get(&row.digest).copied(),
                walk,
            });
            Ok(())
        })?;
        for (load, serial, kind) in read.equipment_in(here)? {
            known(&mut loads, &load).equipment.push((serial, kind));
        }
        read.each_movement_in(here, |row| -> Result<(), AppError> {
            let Ok(received) = ReceivedMovement::open(&row.bytes) else {
                at(&mut loads, &row.load);
                return Ok(());
            };
            let counts = row.own || row.author.is_some_and(|author| author.in_time);
            let credential = received.message.as_ref().and_then(|message| message.header.credential);
            let by = self.reporter(&row, &received.movement, credential, names);
            let end = received.movement.journal.seq.saturating_add(1);
            known(&mut loads, &row.load).reports.push(report_row(&row, received.movement, by, counts));
            let load = at(&mut loads, &row.load);
            load.unsigned += u32::from(!counts || !row.signed);
            load.ends.push((row.device.0, end));
            Ok(())
        })?;
        // Of a load that flew and of which no full record is here, its tag tells the equipment.
        for OfLoad { rows, .. } in loads.values_mut() {
            let told = rows.inspections.iter().any(|one| one.walk.is_some());
            if !told && rows.equipment.is_empty() && !rows.reports.is_empty() {
                let tags = read.tags_of(&rows.load)?;
                let newest = tags.iter().filter_map(|row| ReceivedTag::open(&row.bytes).ok());
                let newest = newest.max_by_key(|received| (received.tag.planned, received.digest));
                let pieces = newest.into_iter().flat_map(|received| equipment(&received.tag));
                rows.equipment = pieces.map(|piece| (piece.serial, piece.kind)).collect();
            }
        }
        Ok(loads)
    }

    /// Who stands behind a report, by what was verified when it came.
    fn reporter(
        &self,
        row: &MovementRow,
        report: &Movement,
        credential: Option<&[u8]>,
        names: &mut BTreeMap<Digest, String>,
    ) -> Saying {
        if let (Some(_), Some(credential)) = (&row.author, credential) {
            let name = names.entry(Digest::of(credential)).or_insert_with(|| {
                Credentialed::open(credential)
                    .map(|one| one.credential.holder.to_string())
                    .unwrap_or_default()
            });
            return Saying::verbatim(name);
        }
        let device: String = hex(&report.device).chars().take(8).collect();
        // The same words at every desk: a point goes by them.
        movement::ReportOfOtherDevice { device }.into()
    }
}

fn at<'l>(loads: &'l mut BTreeMap<String, OfLoad>, load: &str) -> &'l mut OfLoad {
    loads.entry(load.to_owned()).or_insert_with(|| OfLoad {
        rows: LoadRows { load: load.to_owned(), ..LoadRows::default() },
        ..OfLoad::default()
    })
}

fn known<'l>(loads: &'l mut BTreeMap<String, OfLoad>, load: &str) -> &'l mut LoadRows {
    let one = at(loads, load);
    one.known = true;
    &mut one.rows
}

fn serials(movement: &Movement, which: fn(&PieceState) -> bool) -> Vec<String> {
    movement.pieces.iter().filter(|piece| which(piece)).map(|piece| piece.serial.to_string()).collect()
}

fn report_row(row: &MovementRow, movement: Movement, by: Saying, counts: bool) -> ReportRow {
    let (back, damaged) = (serials(&movement, |piece| piece.back), serials(&movement, |piece| piece.damaged));
    ReportRow {
        digest: row.digest,
        event: movement.event,
        at: movement.at(),
        by,
        counts,
        shown: movement.shown.map(|shown| {
            (shown.verdict, shown.reason.map(|reason| reason.as_str().to_owned()).unwrap_or_default())
        }),
        seal: movement.seal,
        back,
        damaged,
    }
}
