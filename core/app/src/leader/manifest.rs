//! A day's manifest: its loads in the order in which they are to be lifted. Loads stand in the order in which they were planned until
//! a leader sets another; this home keeps that order by day (decisions/0003).

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::leader::board::day_of;
use crate::leader::placed::Placed;
use crate::movements::arrival::reported;
use crate::{App, AppError, Inner, Stamp};
use slingseal_account::report::{Cell, line};
use slingseal_catalogue::{Saying, board as words, closing};
use slingseal_judgement::FlowState;
use slingseal_message::movement::MovementKind;
use slingseal_words::{Language, LoadNumber, Time};

/// The most loads of one day's order: those of the largest load list.
const MOST: usize = 2_000;
/// The longest table that is taken back.
const LONGEST: usize = 4 << 20;

/// The loads of a day, in the order in which they are to be lifted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ManifestView {
    /// The day, UTC: `2026-11-25`.
    pub day: String,
    /// Now, by this home's clock: how the loads stand is of then.
    pub at: Stamp,
    /// Its loads.
    pub lines: Vec<ManifestLine>,
}

/// A load of a manifest.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ManifestLine {
    /// Its place, the first is 1.
    pub place: u32,
    /// Whether a leader set that; otherwise it stands where it was planned.
    pub set: bool,
    /// The load number.
    pub load: String,
    /// What it is; empty where unknown.
    pub description: String,
    /// Its gross mass; empty where unknown.
    pub gross: String,
    /// The aircraft's type; empty where unknown.
    pub aircraft: String,
    /// Who rigged it; empty where unknown.
    pub rigger: String,
    /// The pickup zone; empty where unknown.
    pub pickup: String,
    /// Its grid reference; empty where none is given.
    pub pickup_grid: String,
    /// The destination; empty where unknown.
    pub destination: String,
    /// Its grid reference; empty where none is given.
    pub destination_grid: String,
    /// How it stands, as on the board.
    #[serde(serialize_with = "crate::view::word")]
    pub state: FlowState,
    /// The same as a person reads it.
    pub state_title: String,
    /// Until when its latest inspection holds; none where it has none that found it fit.
    pub valid_until: Option<Stamp>,
    /// When it was lifted last on that day, as far as anybody reported it.
    pub lifted: Option<Stamp>,
    /// Whether nobody known here signed that.
    pub lifted_unsigned: bool,
    /// What a report that nobody known signed tells of it, in one line; empty where there is none.
    pub reported: String,
}

impl ManifestLine {
    /// What is known of a load on its way: state, validity, lift, what nobody signed.
    pub fn stands(&self, language: Language) -> String {
        let mut said = vec![Saying::verbatim(&self.state_title)];
        if self.lifted.is_none() {
            said.extend(
                self.valid_until.iter().map(|at| words::ManifestValidUntil { until: &at.dtg }.into()),
            );
        }
        said.extend(self.lifted.iter().map(|at| match self.lifted_unsigned {
            true => words::ManifestLiftedUnsigned { at: &at.dtg }.saying(),
            false => words::ManifestLifted { at: &at.dtg }.into(),
        }));
        Saying::joined(said, ", ").say(language)
    }

    /// From where to where, with grid references where they are known.
    pub fn way(&self, language: Language) -> String {
        let zone = |name: &str, grid: &str| match grid {
            "" => name.to_owned(),
            grid => format!("{name} ({grid})"),
        };
        let from = zone(&self.pickup, &self.pickup_grid);
        let to = zone(&self.destination, &self.destination_grid);
        words::ManifestTo { from, to }.say(language)
    }
}

const HEADS: [&str; 17] = [
    "place",
    "load",
    "description",
    "gross",
    "aircraft",
    "rigger",
    "pickup",
    "pickup_mgrs",
    "destination",
    "destination_mgrs",
    "state",
    "valid_until_utc",
    "valid_until_dtg",
    "lifted_utc",
    "lifted_dtg",
    "lifted_unsigned",
    "set",
];

/// Before the day, the name under which its order is kept.
const ORDER: &str = "lift-order/";

fn key_of(day: Time) -> String {
    format!("{ORDER}{}", day.date())
}

impl App {
    /// The manifest of a day, `2026-11-25`: what a leader put on it, and what else was planned for it or told of it. Without a day, of today.
    ///
    /// # Errors
    /// A text that is no day; storage.
    pub fn manifest(&self, day: Option<&str>) -> Result<ManifestView, AppError> {
        let inner = self.lock();
        let day = inner.day(day)?;
        inner.manifest(day)
    }

    /// The same as CSV, RFC 4180: [`App::take_lift_order`] takes it back.
    ///
    /// # Errors
    /// A text that is no day; storage.
    pub fn manifest_csv(&self, day: Option<&str>) -> Result<String, AppError> {
        let view = self.manifest(day)?;
        let mut text = line(&HEADS.map(Cell::plain));
        for one in &view.lines {
            let times = |stamp: &Option<Stamp>| match stamp {
                Some(stamp) => [Cell::plain(&stamp.rfc3339), Cell::plain(&stamp.dtg)],
                None => [Cell::Empty, Cell::Empty],
            };
            let [valid_until, valid_until_dtg] = times(&one.valid_until);
            let [lifted, lifted_dtg] = times(&one.lifted);
            text += &line(&[
                Cell::plain(one.place),
                Cell::text(&one.load),
                Cell::text(&one.description),
                Cell::text(&one.gross),
                Cell::text(&one.aircraft),
                Cell::text(&one.rigger),
                Cell::text(&one.pickup),
                Cell::text(&one.pickup_grid),
                Cell::text(&one.destination),
                Cell::text(&one.destination_grid),
                Cell::plain(one.state.word()),
                valid_until,
                valid_until_dtg,
                lifted,
                lifted_dtg,
                one.lifted.as_ref().map_or(Cell::Empty, |_| Cell::plain(one.lifted_unsigned)),
                Cell::plain(one.set),
            ]);
        }
        Ok(text)
    }

    /// Sets the order of a day, all of it; with no loads it is again that of planning. A load of which this day told nothing comes onto
    /// its manifest by being named.
    ///
    /// # Errors
    /// A text that is no day or no load number; a load that is named twice, or of which nothing is known here; too many; storage.
    pub fn set_lift_order(&self, day: Option<&str>, loads: &[String]) -> Result<ManifestView, AppError> {
        let mut inner = self.lock();
        let day = inner.day(day)?;
        inner.set_lift_order(day, loads)
    }

    /// Moves a load to a place of its day, the first is 1; behind the last one is the last. The others keep their order.
    ///
    /// # Errors
    /// Those of [`App::set_lift_order`]; the place 0.
    pub fn put_in_lift_order(
        &self,
        day: Option<&str>,
        load: &str,
        place: u32,
    ) -> Result<ManifestView, AppError> {
        let load = LoadNumber::new(load)?.to_string();
        let at = usize::try_from(place).ok().and_then(|place| place.checked_sub(1));
        let at = at.ok_or_else(|| AppError::bad_input(words::ManifestPlaceFromOne))?;
        let mut inner = self.lock();
        let day = inner.day(day)?;
        let mut loads: Vec<String> = inner.manifest(day)?.lines.into_iter().map(|one| one.load).collect();
        loads.retain(|known| *known != load);
        loads.insert(at.min(loads.len()), load);
        inner.set_lift_order(day, &loads)
    }

    /// Sets the order of a day by a table, CSV with a column `load`: a manifest that was sorted in a spreadsheet, or another desk's.
    ///
    /// # Errors
    /// A text that is no such table; those of [`App::set_lift_order`].
    pub fn take_lift_order(&self, day: Option<&str>, csv: &str) -> Result<ManifestView, AppError> {
        let none = || AppError::bad_input(words::ManifestNoTable);
        if csv.len() > LONGEST {
            return Err(none());
        }
        let csv = csv.trim_start_matches('\u{feff}');
        let mut table = csv::ReaderBuilder::new().flexible(true).from_reader(csv.as_bytes());
        let heads = table.headers().map_err(|_| none())?;
        let column =
            heads.iter().position(|head| head.trim().eq_ignore_ascii_case("load")).ok_or_else(none)?;
        let mut loads = Vec::new();
        for row in table.records() {
            let row = row.map_err(|_| none())?;
            let load = row.get(column).unwrap_or_default().trim();
            if !load.is_empty() {
                loads.push(load.strip_prefix('\'').unwrap_or(load).to_owned());
            }
        }
        self.set_lift_order(day, &loads)
    }
}

impl Inner {
    /// The first second of a day; of today without one.
    fn day(&self, day: Option<&str>) -> Result<Time, AppError> {
        let asked = day_of(day.map(str::to_owned).as_ref())?;
        let today = || day_of(Some(&self.now().date()));
        let day = asked.map_or_else(today, |day| Ok(Some(day)))?;
        day.map(|(from, _)| from).ok_or_else(|| AppError::internal("today is a day"))
    }

    /// The orders that leaders set, by the name under which each is kept.
    fn lift_orders(&self) -> Result<BTreeMap<String, Vec<String>>, AppError> {
        let mut orders = BTreeMap::new();
        for (name, value) in self.store.read().settings_of(ORDER)? {
            let text = String::from_utf8(value).unwrap_or_default();
            orders.insert(name, text.lines().map(str::to_owned).collect());
        }
        Ok(orders)
    }

    fn manifest(&self, day: Time) -> Result<ManifestView, AppError> {
        let next = day.plus(slingseal_words::Seconds::days(1));
        let within = |time: &Time| day <= *time && *time < next;
        let mut orders = self.lift_orders()?;
        let order = orders.remove(&key_of(day)).unwrap_or_default();
        let elsewhere: BTreeSet<String> = orders.into_values().flatten().collect();
        let mut placed: BTreeMap<String, Placed> = self
            .placed_within((day, next), &order, &self.knowledge()?)?
            .into_iter()
            .map(|one| (one.flow.load.clone(), one))
            .collect();
        let mut lines = Vec::new();
        for load in order {
            lines.extend(placed.remove(&load).map(|one| (true, one)));
        }
        // Planned for this day and not put on another one, or something was told of it on this day.
        let mut others: Vec<Placed> = placed
            .into_values()
            .filter(|one| {
                let flow = &one.flow;
                let told = [flow.happened, flow.hinted, one.sealed.as_ref().map(|sealed| sealed.issued)];
                let planned = flow.planned.as_ref().is_some_and(within);
                told.iter().flatten().any(within) || (planned && !elsewhere.contains(&flow.load))
            })
            .collect();
        others.sort_by_cached_key(|one| {
            let known = one.flow.planned.or(one.sealed.as_ref().map(|sealed| sealed.issued));
            (known.unwrap_or(one.flow.touched), one.flow.load.clone())
        });
        lines.extend(others.into_iter().map(|one| (false, one)));
        let lines =
            (1_u32..).zip(lines).map(|(place, (set, one))| self.manifest_line(place, set, &one, &within));
        Ok(ManifestView { day: day.date(), at: self.now().into(), lines: lines.collect::<Result<_, _>>()? })
    }

    fn manifest_line(
        &self,
        place: u32,
        set: bool,
        one: &Placed,
        within: &dyn Fn(&Time) -> bool,
    ) -> Result<ManifestLine, AppError> {
        let (flow, language) = (&one.flow, self.language());
        let reports = self.store.read().movements_of(&flow.load)?;
        let lifts = reports
            .iter()
            .filter(|row| row.event.parse() == Ok(MovementKind::Lifted) && within(&row.happened));
        let counts = |row: &slingseal_store::MovementRow| {
            row.own || row.author.as_ref().is_some_and(|author| author.in_time)
        };
        let lifted = lifts.max_by_key(|row| (row.happened, counts(row)));
        let fit = one.sealed.as_ref().filter(|sealed| sealed.valid_until > sealed.issued);
        Ok(ManifestLine {
            place,
            set,
            load: flow.load.clone(),
            description: flow.description.clone(),
            gross: flow.gross.clone(),
            aircraft: flow.aircraft.clone(),
            rigger: flow.rigger.clone(),
            pickup: flow.zone.clone(),
            pickup_grid: flow.grid.clone(),
            destination: flow.destination.clone(),
            destination_grid: flow.destination_grid.clone(),
            state: one.state,
            state_title: one.state.say(language),
            valid_until: fit.map(|sealed| sealed.valid_until.into()),
            lifted: lifted.map(|row| row.happened.into()),
            lifted_unsigned: lifted.is_some_and(|row| !row.signed || !counts(row)),
            reported: reported(flow, language),
        })
    }

    fn set_lift_order(&mut self, day: Time, loads: &[String]) -> Result<ManifestView, AppError> {
        if loads.len() > MOST {
            return Err(AppError::bad_input(words::ManifestTooLong { most: MOST.to_string() }));
        }
        let mut order: Vec<String> = Vec::new();
        let mut seen = BTreeSet::new();
        for load in loads {
            let load = LoadNumber::new(load)?.to_string();
            if !seen.insert(load.clone()) {
                return Err(AppError::bad_input(words::ManifestNamedTwice { load: &load }));
            }
            order.push(load);
        }
        let known: BTreeSet<String> = self
            .placed_within((day, day), &order, &self.knowledge()?)?
            .into_iter()
            .map(|one| one.flow.load)
            .collect();
        if let Some(missing) = order.iter().find(|load| !known.contains(*load)) {
            return Err(AppError::not_found(closing::NothingOfLoad { load: missing.as_str() }));
        }
        let key = key_of(day);
        self.store.write(|tx| -> Result<(), AppError> {
            match order.is_empty() {
                true => drop(tx.remove_setting(&key)?),
                false => tx.put_setting(&key, order.join("\n").as_bytes())?,
            }
            Ok(())
        })?;
        self.manifest(day)
    }
}
