use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::leader::placed::{Placed, is_on_board};
use crate::leader::shelf::{BoardOrder, Shelf};
use crate::leader::sorting::Sorting;
use crate::leader::zones::{ZoneCount, Zones};
use crate::{App, AppError, Inner, Stamp};
use slingseal_catalogue::board as words;
use slingseal_judgement::FlowState;
use slingseal_message::movement::MovementKind;
use slingseal_store::FlowsOf;
use slingseal_words::{Seconds, Time};

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
        let most = usize::try_from(request.most.max(1)).unwrap_or(usize::MAX);
        let behind = usize::try_from(request.page).unwrap_or(usize::MAX).saturating_mul(most);
        let shelf = |state: FlowState| {
            let listed = request.state.is_none_or(|wanted| wanted == state);
            (state, Shelf::of(if listed { behind.saturating_add(most) } else { 0 }))
        };
        let mut shelves: BTreeMap<FlowState, Shelf> = FlowState::ALL.into_iter().map(shelf).collect();
        let (mut zones, mut aircraft) = (Zones::default(), BTreeSet::new());
        let places = self.places(&knowledge)?;
        self.store.read().each_flow(FlowsOf::Since(since), |facts| -> Result<(), AppError> {
            let Some(state) = places.state(&facts).filter(|state| is_on_board(&facts, *state, since)) else {
                return Ok(());
            };
            if !facts.aircraft.is_empty() && !aircraft.contains(facts.aircraft) {
                aircraft.insert(facts.aircraft.to_owned());
            }
            if fits(request.zone.as_ref(), facts.zone)
                && fits(request.destination.as_ref(), facts.destination)
                && fits(request.aircraft.as_ref(), facts.aircraft)
                && day.is_none_or(|(from, to)| from <= facts.touched && facts.touched < to)
            {
                zones.count(&facts, state);
                shelves.entry(state).or_insert_with(|| Shelf::of(0)).take(&facts, state, request.order);
            }
            Ok(())
        })?;
        let language = self.language();
        let mut columns = Vec::new();
        for (state, mut shelf) in shelves {
            let (count, reported) = (shelf.count, std::mem::take(&mut shelf.reported));
            let shown = shelf.page(behind).filter_map(|load| self.placed(&load, state).transpose());
            let shown: Vec<Placed> = shown.collect::<Result<_, AppError>>()?;
            columns.push(BoardColumn {
                state,
                title: state.say(language),
                aside: state.is_aside(),
                count,
                reported,
                pages: u32::try_from(count.div_ceil(u64::from(request.most.max(1)))).unwrap_or(u32::MAX),
                loads: self.listed(state, &shown, &mut knowledge)?,
            });
        }
        Ok(BoardView {
            at: now.into(),
            since: since.into(),
            columns,
            notices: self.board_notices()?,
            zones: zones.counted(),
            aircraft: aircraft.into_iter().collect(),
        })
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
