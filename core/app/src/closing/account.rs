//! What an account says of the day: every load with its inspections and reports, and every device that wrote in it.

use std::collections::{BTreeMap, BTreeSet};

use super::request::{CloseRequest, named};
use crate::account::heads::handed_over;
use crate::leader::day_of;
use crate::view::hex;
use crate::walks::record::{entry_digest, equipment, walk_facts, walk_of_record};
use crate::{AppError, Inner};
use slingseal_account::report::{DeviceRow, InspectionRow, LoadRows, ReportRow};
use slingseal_catalogue::{Saying, closing as words, movement};
use slingseal_message::closing::account_digest;
use slingseal_message::movement::{Movement, PieceState, ReceivedMovement};
use slingseal_message::seal::Record;
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::Credentialed;
use slingseal_store::{MovementRow, Outcome, Standing};
use slingseal_words::{Description, Digest, LoadNumber, Seconds, Time};

/// Everything that is here of the loads that are meant.
pub(super) struct Account {
    pub(super) name: Description,
    pub(super) days: Option<(Time, Time)>,
    pub(super) loads: Vec<LoadRows>,
    pub(super) devices: Vec<DeviceRow>,
    pub(super) digest: (Digest, u32),
    pub(super) unsigned: u32,
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
            rows.push(walk_facts(seal, Digest::of(&body), &record, &walk));
        }
        if rows.is_empty() {
            return Ok(());
        }
        self.store.write(|tx| -> Result<(), AppError> {
            rows.iter().try_for_each(|row| tx.put_walk_facts(row))?;
            Ok(())
        })
    }

    pub(super) fn account_of(&self, request: &CloseRequest) -> Result<Account, AppError> {
        let day = day_of(request.day.as_ref())?;
        let wanted: BTreeSet<String> = request
            .loads
            .iter()
            .map(|load| Ok(LoadNumber::new(load)?.to_string()))
            .collect::<Result<_, AppError>>()?;
        let (mut all, mut words, unsigned) = self.all_loads()?;
        let devices = self.devices()?;
        all.retain(|load, rows| {
            let within = |time: Time| day.is_none_or(|(from, to)| from <= time && time < to);
            let told = rows.planned.into_iter().chain(rows.inspections.iter().map(|one| one.at));
            let told = told.chain(rows.reports.iter().map(|report| report.at));
            (wanted.is_empty() || wanted.contains(load)) && told.into_iter().any(within)
        });
        if all.is_empty() {
            return Err(AppError::not_found(words::NothingOfTheseLoads));
        }
        if let Some(missing) = wanted.iter().find(|load| !all.contains_key(*load)) {
            return Err(AppError::not_found(words::NothingOfLoad { load: missing.as_str() }));
        }
        words.retain(|load, _| all.contains_key(load));
        let unsigned =
            unsigned.iter().filter(|(load, _)| all.contains_key(*load)).map(|(_, count)| count).sum();
        let name = match (request.name.as_deref().map(str::trim), &request.day) {
            (Some(name), _) if !name.is_empty() => name.to_owned(),
            (_, Some(day)) => day.trim().to_owned(),
            _ if !wanted.is_empty() => named(&wanted, self.language()),
            // The leader's own word, as every name is: it is signed in the language in which it was read.
            _ => words::WholeAccount.say(self.language()),
        };
        Ok(Account {
            name: Description::new(&name)?,
            days: day,
            loads: all.into_values().collect(),
            devices,
            digest: account_digest(words.into_values().flatten()),
            unsigned,
        })
    }

    /// What is here of every load; the digests of all words of each; how many reports of each nobody known signed.
    #[expect(clippy::type_complexity, reason = "three maps by load, taken apart at once")]
    pub(crate) fn all_loads(
        &self,
    ) -> Result<(BTreeMap<String, LoadRows>, BTreeMap<String, Vec<Digest>>, BTreeMap<String, u32>), AppError>
    {
        let read = self.store.read();
        let mut loads: BTreeMap<String, LoadRows> = BTreeMap::new();
        let mut words: BTreeMap<String, Vec<Digest>> = BTreeMap::new();
        let mut unsigned: BTreeMap<String, u32> = BTreeMap::new();
        fn at<'l>(loads: &'l mut BTreeMap<String, LoadRows>, load: &str) -> &'l mut LoadRows {
            loads
                .entry(load.to_owned())
                .or_insert_with(|| LoadRows { load: load.to_owned(), ..LoadRows::default() })
        }
        for flow in read.flows()? {
            let rows = at(&mut loads, &flow.load);
            rows.planned = flow.planned;
            (rows.pickup, rows.destination) = (flow.zone, flow.destination);
        }
        for (load, digest) in read.tag_digests()? {
            words.entry(load).or_default().push(digest);
        }
        let mut voided: BTreeMap<Digest, Time> = BTreeMap::new();
        for row in read.voids()? {
            words.entry(row.load).or_default().push(row.digest);
            if row.author.is_some_and(|author| author.in_time) {
                let first = voided.entry(row.record).or_insert(row.issued);
                *first = row.issued.min(*first);
            }
        }
        let walks: BTreeMap<Digest, (Seconds, u32)> =
            read.walk_facts()?.into_iter().map(|row| (row.seal, (row.took, row.cards))).collect();
        for row in read.all_records()? {
            words.entry(row.load.clone()).or_default().push(row.seal);
            if row.standing() == Standing::NoInspection {
                continue;
            }
            at(&mut loads, &row.load).mass_g = row.mass_g;
            at(&mut loads, &row.load).inspections.push(InspectionRow {
                seal: row.seal,
                at: row.issued,
                valid_until: row.valid_until,
                inspector: row.inspector.clone(),
                fit: row.outcome == Outcome::Fit,
                voided: voided.get(&row.digest).copied(),
                walk: walks.get(&row.seal).copied(),
            });
        }
        for (load, serial, kind) in read.equipment_of_loads()? {
            at(&mut loads, &load).equipment.push((serial, kind));
        }
        let mut names: BTreeMap<Digest, String> = BTreeMap::new();
        for row in read.movements()? {
            words.entry(row.load.clone()).or_default().push(row.digest);
            let Ok(received) = ReceivedMovement::open(&row.bytes) else { continue };
            let counts = row.own || row.author.is_some_and(|author| author.in_time);
            *unsigned.entry(row.load.clone()).or_default() += u32::from(!counts || !row.signed);
            let credential = received.message.as_ref().and_then(|message| message.header.credential);
            let by = self.reporter(&row, &received.movement, credential, &mut names);
            at(&mut loads, &row.load).reports.push(report_row(&row, received.movement, by, counts));
        }
        // Of a load that flew and of which no full record is here, its tag tells the equipment.
        for (load, rows) in &mut loads {
            let told = rows.inspections.iter().any(|one| one.walk.is_some());
            if !told && rows.equipment.is_empty() && !rows.reports.is_empty() {
                let tags = read.tags_of(load)?;
                let newest = tags.iter().filter_map(|row| ReceivedTag::open(&row.bytes).ok());
                let newest = newest.max_by_key(|received| (received.tag.planned, received.digest));
                let pieces = newest.into_iter().flat_map(|received| equipment(&received.tag));
                rows.equipment = pieces.map(|piece| (piece.serial, piece.kind)).collect();
            }
        }
        Ok((loads, words, unsigned))
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

    /// Every device of which records or reports are here: how far what came of it goes, and what is missing.
    fn devices(&self) -> Result<Vec<DeviceRow>, AppError> {
        let read = self.store.read();
        let own = self.store.device().0;
        let mut held: BTreeMap<[u8; 16], u64> = BTreeMap::new();
        let mut here: BTreeSet<Digest> = BTreeSet::new();
        let mut before: Vec<([u8; 16], Digest)> = Vec::new();
        for row in read.walk_facts()? {
            // The entry that says so stands behind the record.
            let end = held.entry(row.device.0).or_default();
            *end = (*end).max(row.head.saturating_add(1));
            here.insert(row.record);
            before.extend(row.before.map(|digest| (row.device.0, digest)));
        }
        for row in read.movements()? {
            here.insert(row.digest);
            let Ok(received) = ReceivedMovement::open(&row.bytes) else { continue };
            let end = held.entry(row.device.0).or_default();
            *end = (*end).max(received.movement.journal.seq.saturating_add(1));
            before.extend(row.before.map(|digest| (row.device.0, digest)));
        }
        // What a device itself handed over with its journal's end is all that it had then.
        for (device, end) in handed_over(&read)? {
            if let Some(held) = held.get_mut(&device) {
                *held = (*held).max(end);
            }
        }
        let mut heard = held.clone();
        for head in read.heads()? {
            if let Some(end) = heard.get_mut(&head.device.0) {
                *end = (*end).max(head.seq);
            }
        }
        let mut devices = Vec::new();
        for (device, held) in held.into_iter().filter(|(device, _)| *device != own) {
            let mut missing: Vec<Digest> = before
                .iter()
                .filter(|(of, digest)| *of == device && !here.contains(digest))
                .map(|(_, digest)| *digest)
                .collect();
            missing.sort_unstable();
            missing.dedup();
            let heard = heard.get(&device).copied().unwrap_or(held);
            let device = hex(&device).chars().take(8).collect();
            devices.push(DeviceRow { device, held, heard, missing });
        }
        Ok(devices)
    }
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
