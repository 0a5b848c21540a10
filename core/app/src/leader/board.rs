use slingseal_catalogue::{board as words, closing as closing_words};
use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::account::Knowledge;
use crate::leader::sorting::{Sorting, arrange, as_sorted, columns};
use crate::movements::arrival::{event_of_word, reported};
use crate::{App, AppError, Inner, Stamp, VerdictWord};
use slingseal_account::report::walked_too_fast;
use slingseal_judgement::FlowState;
use slingseal_message::movement::{MovementEvent, MovementKind};
use slingseal_store::{FlowRow, LoadRow, WalkState};
use slingseal_words::{Degrees, GridRef, Language, LoadNumber, Quantity, Saying, Seconds, Time, Unit};

columns! {
    /// By which column the loads of a state are ordered: what the board knows of every load without reading its inspection.
    BoardOrder {
        /// The load number.
        Load = "load",
        /// The aircraft's type.
        Aircraft = "aircraft",
        /// The pickup zone.
        From = "from",
        /// The destination.
        To = "to",
    }
}

/// Which loads a board shows; every part that is given must fit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BoardRequest {
    /// Touched in the last days.
    pub days: u32,
    /// Touched on this day, UTC: `2026-11-25`.
    pub date: Option<String>,
    /// The pickup zone.
    pub zone: Option<String>,
    /// The destination.
    pub destination: Option<String>,
    /// The aircraft's type.
    pub aircraft: Option<String>,
    /// This state alone is listed; the others are counted.
    pub state: Option<FlowState>,
    /// By which column each state is ordered, over all its pages; none for what runs out next, is longest in the air, or is newest.
    pub order: Option<Sorting<BoardOrder>>,
    /// Which page of each state, the first is 0.
    pub page: u32,
    /// So many a state and page.
    pub most: u32,
}

/// How many loads of each state are at a zone, or go to it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ZoneCount {
    /// What it is called.
    pub name: String,
    /// Its grid reference; empty where none is given.
    pub grid: String,
    /// Degrees north, in millionths, where it has a grid reference.
    pub latitude: Option<i64>,
    /// Degrees east, in millionths.
    pub longitude: Option<i64>,
    /// Loads whose pickup zone it is, by their state.
    #[serde(serialize_with = "crate::view::counted")]
    pub here: BTreeMap<FlowState, u64>,
    /// Loads that go there, by their state.
    #[serde(serialize_with = "crate::view::counted")]
    pub bound: BTreeMap<FlowState, u64>,
}

/// What stands on the zone, by state.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BoardView {
    /// Now, by this home's clock.
    pub at: Stamp,
    /// Loads that were last touched before this are left out, but for those that are valid.
    pub since: Stamp,
    /// One column a state, in the order of a load's day.
    pub columns: Vec<BoardColumn>,
    /// What a leader should look into: papers that run out, what was set aside.
    pub notices: Vec<String>,
    /// The zones of the loads that are counted, by name.
    pub zones: Vec<ZoneCount>,
    /// Every aircraft's type among the loads of that time, to choose from.
    pub aircraft: Vec<String>,
}

/// The loads of one state.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BoardColumn {
    /// Where its loads are on their way.
    #[serde(serialize_with = "crate::view::word")]
    pub state: FlowState,
    /// What a person reads.
    pub title: String,
    /// Whether it stands aside of a load's way: somebody must look into it.
    pub aside: bool,
    /// How many there are, also those that are not listed.
    pub count: u64,
    /// Of how many of them reports that nobody known signed tell of more, by what they tell.
    #[serde(serialize_with = "crate::view::counted")]
    pub reported: BTreeMap<MovementKind, u64>,
    /// How many pages they are.
    pub pages: u32,
    /// A page of them: the next to run out, the longest in the air, or the newest first.
    pub loads: Vec<BoardLoad>,
}

/// A load on the board.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BoardLoad {
    /// The load number.
    pub load: String,
    /// What it is; empty where unknown.
    pub description: String,
    /// Its gross mass, in the trade's unit; empty where unknown.
    pub gross: String,
    /// The aircraft's type; empty where unknown.
    pub aircraft: String,
    /// Who stands for this: the inspector, or the planner.
    pub who: String,
    /// What matters now, in one line.
    pub detail: String,
    /// Whether it wants a look soon: less than an hour of validity left, lifted against WAIT or NO-GO, or walked too fast.
    pub soon: bool,
    /// What a report that nobody known signed tells beside its place, in one line; empty where there is none. It moves no load.
    pub reported: String,
    /// How long the walk took, where that is less than the least time a card that was set here; empty otherwise. It is a sign, not a
    /// proof.
    pub walk: String,
    /// The pickup zone; empty where unknown.
    pub zone: String,
    /// The destination; empty where unknown.
    pub destination: String,
    /// When that was.
    pub at: Stamp,
}

impl App {
    /// What stands on the zone: loads touched in the last `days`, at most `most` listed a state.
    ///
    /// # Errors
    /// Storage.
    pub fn board(&self, days: u32, most: u32) -> Result<BoardView, AppError> {
        self.board_of(&BoardRequest { days, most, ..BoardRequest::default() })
    }

    /// The loads of a board that a person chose, a page of each state.
    ///
    /// # Errors
    /// A date or a state that is none; storage.
    pub fn board_of(&self, request: &BoardRequest) -> Result<BoardView, AppError> {
        self.lock().board(request)
    }
}

/// The mass in pounds, as the trade says it, from a column in grams.
pub(super) fn pounds(grams: Option<i64>) -> String {
    let quantity = grams.and_then(|grams| Quantity::nearest(grams as f64 / 1_000.0, Unit::Lb));
    quantity.map(|mass| format!("{:.0} lb", mass.thousandths() as f64 / 1_000.0)).unwrap_or_default()
}

/// A load in its place on the board.
pub(crate) struct Placed {
    pub(crate) flow: FlowRow,
    pub(crate) sealed: Option<LoadRow>,
    pub(crate) state: FlowState,
}

impl Placed {
    /// A place in the column: the smallest first.
    fn order(&self) -> (i64, String) {
        let valid_until = self.sealed.as_ref().map_or(0, |row| row.valid_until.unix());
        let moved = self.flow.happened.max(self.flow.hinted).map_or(0, Time::unix);
        let key = match self.state {
            FlowState::Fit | FlowState::Waits => valid_until,
            FlowState::Expired => -valid_until,
            FlowState::Lifted => moved,
            _ => -self.flow.touched.unix(),
        };
        (key, self.flow.load.clone())
    }

    /// What it has in a column.
    fn column(&self, by: BoardOrder) -> Option<String> {
        as_sorted(match by {
            BoardOrder::Load => &self.flow.load,
            BoardOrder::Aircraft => &self.flow.aircraft,
            BoardOrder::From => &self.flow.zone,
            BoardOrder::To => &self.flow.destination,
        })
    }
}

/// Whether a filter is off or says this.
fn fits(wanted: Option<&String>, found: &str) -> bool {
    wanted.is_none_or(|wanted| wanted.is_empty() || wanted == found)
}

impl Inner {
    fn board(&self, request: &BoardRequest) -> Result<BoardView, AppError> {
        let now = self.now();
        let since = now.plus(Seconds(-Seconds::days(request.days.into()).0));
        let day = day_of(request.date.as_ref())?;
        let mut knowledge = self.knowledge()?;
        let placed = self.placed(since, &knowledge)?;
        let aircraft: BTreeSet<String> =
            placed.iter().map(|one| one.flow.aircraft.clone()).filter(|name| !name.is_empty()).collect();
        let chosen: Vec<Placed> = placed
            .into_iter()
            .filter(|one| {
                let flow = &one.flow;
                fits(request.zone.as_ref(), &flow.zone)
                    && fits(request.destination.as_ref(), &flow.destination)
                    && fits(request.aircraft.as_ref(), &flow.aircraft)
                    && day.is_none_or(|(from, to)| from <= flow.touched && flow.touched < to)
            })
            .collect();
        let zones = zones(&chosen);
        let mut by_state: BTreeMap<FlowState, Vec<Placed>> = BTreeMap::new();
        chosen.into_iter().for_each(|one| by_state.entry(one.state).or_default().push(one));
        let most = usize::try_from(request.most.max(1)).unwrap_or(usize::MAX);
        let page = usize::try_from(request.page).unwrap_or(usize::MAX);
        let language = self.language();
        let mut columns = Vec::new();
        for state in FlowState::ALL {
            let mut rows = by_state.remove(&state).unwrap_or_default();
            rows.sort_by_cached_key(Placed::order);
            if let Some(Sorting { by, down }) = request.order {
                arrange(&mut rows, down, |row| row.column(by));
            }
            let listed = request.state.is_none_or(|wanted| wanted == state);
            let mut told: BTreeMap<MovementKind, u64> = BTreeMap::new();
            for kind in rows.iter().filter_map(|row| row.flow.hint.parse::<MovementKind>().ok()) {
                *told.entry(kind).or_default() += 1;
            }
            let shown: Vec<&Placed> =
                rows.iter().skip(page.saturating_mul(most)).take(if listed { most } else { 0 }).collect();
            columns.push(BoardColumn {
                state,
                title: state.say(language),
                aside: state.is_aside(),
                count: u64::try_from(rows.len()).unwrap_or(u64::MAX),
                reported: told,
                pages: u32::try_from(rows.len().div_ceil(most)).unwrap_or(u32::MAX),
                loads: self.listed(state, &shown, &mut knowledge)?,
            });
        }
        Ok(BoardView {
            at: now.into(),
            since: since.into(),
            columns,
            notices: self.board_notices()?,
            zones,
            aircraft: aircraft.into_iter().collect(),
        })
    }

    /// Every load that a board of this time shows, in its place. What the judgement said is kept; what the clock makes of it is asked
    /// for each.
    pub(crate) fn placed(&self, since: Time, knowledge: &Knowledge) -> Result<Vec<Placed>, AppError> {
        let read = self.store.read();
        self.place(read.flows_since(since)?, read.loads_of_flows_since(since)?, since, knowledge)
    }

    /// The loads of a day, and those that are named: where each is now.
    pub(crate) fn placed_within(
        &self,
        (from, until): (Time, Time),
        named: &[String],
        knowledge: &Knowledge,
    ) -> Result<Vec<Placed>, AppError> {
        let read = self.store.read();
        let mut flows = read.flows_within(from, until)?;
        let mut sealed = read.loads_of_flows_within(from, until)?;
        let there: BTreeSet<String> = flows.iter().map(|flow| flow.load.clone()).collect();
        for load in named.iter().filter(|load| !there.contains(*load)) {
            flows.extend(read.flow(load)?);
            sealed.extend(read.load(load)?);
        }
        self.place(flows, sealed, Time::from_unix(0), knowledge)
    }

    fn place(
        &self,
        flows: Vec<FlowRow>,
        sealed: Vec<LoadRow>,
        since: Time,
        knowledge: &Knowledge,
    ) -> Result<Vec<Placed>, AppError> {
        let asked = knowledge.asked();
        let walks = self.store.read().walks_in_hand()?;
        let walking: BTreeSet<String> = walks.into_iter().map(|walk| walk.load).collect();
        let mut sealed: BTreeMap<String, LoadRow> =
            sealed.into_iter().map(|row| (row.load.clone(), row)).collect();
        let mut placed = Vec::new();
        for flow in flows {
            let row = sealed.remove(&flow.load);
            let judged = row.as_ref().and_then(|row| knowledge.state(row, &asked));
            let mut state = FlowState::of(judged, event_of_word(&flow.event));
            if walking.contains(&flow.load) {
                state = FlowState::Walking;
            }
            let recent = flow.touched >= since;
            let on_board = match state {
                // A tag that was scanned and never given here is no plan of this desk.
                FlowState::Planned => recent && flow.planned.is_some(),
                FlowState::Walking | FlowState::Lifted => true,
                FlowState::NotFit
                | FlowState::Voided
                | FlowState::Refused
                | FlowState::Lost
                | FlowState::SetDown => recent,
                FlowState::Fit | FlowState::Waits | FlowState::Expired => {
                    recent || row.as_ref().is_some_and(|row| row.valid_until >= since)
                }
            };
            if on_board {
                placed.push(Placed { flow, sealed: row, state });
            }
        }
        Ok(placed)
    }

    fn listed(
        &self,
        state: FlowState,
        rows: &[&Placed],
        knowledge: &mut Knowledge,
    ) -> Result<Vec<BoardLoad>, AppError> {
        let (now, language) = (self.now(), self.language());
        let read = self.store.read();
        let least = self.least_a_card()?;
        let walks = if state == FlowState::Walking { read.walks_in_hand()? } else { Vec::new() };
        let mut loads = Vec::new();
        for Placed { flow, sealed, .. } in rows {
            let row =
                sealed.as_ref().map(|sealed| read.record_with_words(sealed.latest)).transpose()?.flatten();
            let mut one = BoardLoad {
                load: flow.load.clone(),
                description: flow.description.clone(),
                gross: flow.gross.clone(),
                aircraft: flow.aircraft.clone(),
                who: row.as_ref().map(|(row, _)| row.inspector.clone()).unwrap_or_default(),
                detail: String::new(),
                soon: false,
                reported: reported(flow, self.language()),
                walk: String::new(),
                zone: flow.zone.clone(),
                destination: flow.destination.clone(),
                at: flow.touched.into(),
            };
            if let Some((row, words)) = &row {
                if one.description.is_empty() {
                    one.description.clone_from(words);
                }
                if row.mass_g.is_some() {
                    one.gross = pounds(row.mass_g);
                }
                one.at = row.issued.into();
            }
            let row = row.map(|(row, _)| row);
            let walked = row.as_ref().map(|row| read.walk_facts_of(row.seal)).transpose()?.flatten();
            let hasty =
                walked.zip(least).filter(|(facts, least)| walked_too_fast(facts.took, facts.cards, *least));
            if let Some((facts, _)) = &hasty {
                let (took, cards) = (facts.took.to_string(), facts.cards);
                one.walk = closing_words::WalkTooFastTold { took, cards }.say(language);
            }
            let detail: Saying = match (state, &row) {
                (FlowState::Planned, _) => {
                    let (at, rigger) = (flow.touched.dtg(), &flow.rigger);
                    one.who = match flow.planner.as_str() {
                        "" => words::Unsigned.say(language),
                        planner => planner.to_owned(),
                    };
                    match rigger.as_str() {
                        "" => words::PlannedNoRigger { at }.into(),
                        rigger => words::PlannedRigger { at, rigger }.into(),
                    }
                }
                (FlowState::Walking, _) => {
                    let walk =
                        walks.iter().filter(|walk| walk.load == flow.load).max_by_key(|walk| walk.updated);
                    walk.map(|walk| {
                        one.who.clone_from(&walk.inspector);
                        one.at = walk.updated.into();
                        let at = walk.updated.dtg();
                        match walk.state {
                            WalkState::Paused => words::PausedAt { at }.saying(),
                            WalkState::Decided => words::DecidedNotSealed { at }.into(),
                            _ => words::LastAnswer { at }.into(),
                        }
                    })
                    .unwrap_or_else(|| Saying::verbatim(""))
                }
                (FlowState::Lifted | FlowState::SetDown | FlowState::Lost, _) => {
                    let shown = VerdictWord::of_word(&flow.verdict);
                    one.soon =
                        state == FlowState::Lifted && shown.is_some_and(|shown| shown != VerdictWord::Go);
                    moved(flow, language)
                }
                (FlowState::Refused, _) if flow.event.parse() == Ok(MovementKind::Refused) => {
                    moved(flow, language)
                }
                (FlowState::Fit, Some(row)) => {
                    let left = row.valid_until.since(now);
                    one.soon = left < Seconds::hours(1);
                    let until = row.valid_until.dtg();
                    match row.corrected {
                        0 => words::UntilLeft { until, left }.into(),
                        count => words::UntilLeftCorrected { until, left, count }.into(),
                    }
                }
                (FlowState::NotFit, Some(row)) => {
                    let (at, found, corrected) = (row.issued.dtg(), row.found, row.corrected);
                    words::SealedFoundCorrected { at, found, corrected }.into()
                }
                (FlowState::Expired, Some(row)) => {
                    one.at = row.valid_until.into();
                    let (at, ago) = (row.valid_until.dtg(), now.since(row.valid_until));
                    words::RanOutAgo { at, ago }.into()
                }
                (FlowState::Voided, Some(row)) => words::SealedTakenBack { at: row.issued.dtg() }.into(),
                _ => {
                    let judged = knowledge.judge(&read, &LoadNumber::new(&flow.load)?)?;
                    let why = judged.reasons.first().map(|reason| reason.saying());
                    why.unwrap_or_else(|| Saying::verbatim(""))
                }
            };
            one.detail = detail.say(language);
            one.soon |= hasty.is_some();
            loads.push(one);
        }
        Ok(loads)
    }

    /// Papers that run out within a week, rosters that are old, what was set aside.
    fn board_notices(&self) -> Result<Vec<String>, AppError> {
        let language = self.language();
        let mut notices = Vec::new();
        notices.extend(self.opened.set_aside.as_ref().map(ToString::to_string));
        notices.extend(self.opened.lost.as_ref().map(ToString::to_string));
        notices.extend(self.memory_notice()?);
        let now = self.now();
        for authority in self.set_up()?.authorities {
            match authority.roster_expires {
                None => notices.push(words::NoRosterOf { authority: &authority.name }.say(language)),
                Some(expires) if expires.unix < now.unix() => {
                    notices.push(
                        words::RosterRanOut { authority: &authority.name, at: &expires.dtg }.say(language),
                    );
                }
                Some(_) => {}
            }
        }
        let week = now.plus(Seconds::days(7));
        let soon = self.store.read().credentials()?;
        for row in soon.iter().filter(|row| now <= row.expires && row.expires <= week) {
            notices
                .push(words::CredentialRunsOut { holder: &row.holder, at: &row.expires.dtg() }.say(language));
        }
        let aside = self.store.read().quarantine(1_000)?.len();
        if aside > 0 {
            notices.push(words::ItemsSetAside { aside: &aside }.say(language));
        }
        Ok(notices)
    }
}

/// The first second of a day, UTC, and that of the next.
pub(crate) fn day_of(date: Option<&String>) -> Result<Option<(Time, Time)>, AppError> {
    let Some(date) = date.map(|date| date.trim()).filter(|date| !date.is_empty()) else { return Ok(None) };
    let wrong = || AppError::bad_input(words::NotADay { date: &date });
    let from = Time::parse(date).map_err(|_| wrong())?;
    if date.len() != 10 {
        return Err(wrong());
    }
    Ok(Some((from, from.plus(Seconds::days(1)))))
}

/// What the report that counts says of a load that moved, in one line.
fn moved(flow: &FlowRow, language: Language) -> Saying {
    let who = match flow.who.as_str() {
        "" => words::ByThisDevice.saying(),
        who => Saying::verbatim(who),
    };
    let at = flow.happened.map(Time::dtg).unwrap_or_default();
    let event = match event_of_word(&flow.event) {
        Some(MovementEvent::Refused(_)) => slingseal_catalogue::movement::MovementRefusedPlain.say(language),
        Some(known) => known.say(language),
        None => flow.event.replace('-', " "),
    };
    match VerdictWord::of_word(&flow.verdict) {
        None => words::Moved { event, at, who }.into(),
        Some(verdict) => words::MovedShown { event, at, who, verdict: verdict.word() }.into(),
    }
}

/// The zones of some loads, with how many of each state are there and go there.
fn zones(placed: &[Placed]) -> Vec<ZoneCount> {
    let mut zones: BTreeMap<(String, String), ZoneCount> = BTreeMap::new();
    let mut count = |name: &str, grid: &str, state: FlowState, bound: bool| {
        if name.is_empty() {
            return;
        }
        let zone = zones.entry((name.to_owned(), grid.to_owned())).or_insert_with(|| {
            let point = GridRef::new(grid).ok().map(|grid| grid.middle());
            let millionths = |degrees: Degrees| (degrees.value() * 1e6).round() as i64;
            ZoneCount {
                name: name.to_owned(),
                grid: grid.to_owned(),
                latitude: point.map(|(latitude, _)| millionths(latitude)),
                longitude: point.map(|(_, longitude)| millionths(longitude)),
                here: BTreeMap::new(),
                bound: BTreeMap::new(),
            }
        });
        let counts = if bound { &mut zone.bound } else { &mut zone.here };
        *counts.entry(state).or_default() += 1;
    };
    for one in placed {
        let flow = &one.flow;
        count(&flow.zone, &flow.grid, one.state, false);
        count(&flow.destination, &flow.destination_grid, one.state, true);
    }
    zones.into_values().collect()
}
