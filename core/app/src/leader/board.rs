use std::cmp::Reverse;
use std::collections::BTreeMap;

use serde::Serialize;

use crate::{App, AppError, Inner, Stamp};
use slingseal_judgement::LoadState;
use slingseal_message::tag::ReceivedTag;
use slingseal_store::{LoadRow, RecordRow, WalkState};
use slingseal_words::{LoadNumber, Quantity, Seconds, Time, Unit};

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
}

/// The loads of one state.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BoardColumn {
    /// `planned`, `walking`, `fit`, `wait`, `not_fit`, `refused`, `expired` or `voided`.
    pub state: String,
    /// What a person reads.
    pub title: String,
    /// How many there are, also those that are not listed.
    pub count: u64,
    /// The first of them: the next to run out, or the newest.
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
    /// Whether it wants a look soon: less than an hour of validity left.
    pub soon: bool,
    /// When that was.
    pub at: Stamp,
}

impl App {
    /// What stands on the zone: loads touched in the last `days`, at most `most` listed a state.
    ///
    /// # Errors
    /// Storage.
    pub fn board(&self, days: u32, most: u32) -> Result<BoardView, AppError> {
        self.lock().board(days, most)
    }
}

/// The mass in pounds, as the trade says it, from a column in grams.
pub(super) fn pounds(grams: Option<i64>) -> String {
    let quantity = grams.and_then(|grams| Quantity::nearest(grams as f64 / 1_000.0, Unit::Lb));
    quantity.map(|mass| format!("{:.0} lb", mass.thousandths() as f64 / 1_000.0)).unwrap_or_default()
}

fn load_of(row: &RecordRow, words: String, detail: String, soon: bool, at: Time) -> BoardLoad {
    BoardLoad {
        load: row.load.clone(),
        description: words,
        gross: pounds(row.mass_g),
        aircraft: row.aircraft.clone(),
        who: row.inspector.clone(),
        detail,
        soon,
        at: at.into(),
    }
}

impl Inner {
    fn board(&self, days: u32, most: u32) -> Result<BoardView, AppError> {
        let now = self.now();
        let since = now.plus(Seconds(-Seconds::days(days.into()).0));
        let mut sealed = self.sealed(since)?;
        let mut columns = Vec::new();
        for state in LoadState::ALL {
            let (loads, count) = match state {
                LoadState::Planned => self.planned(since, most)?,
                LoadState::Walking => self.walking()?,
                _ => {
                    let rows = sealed.remove(&state).unwrap_or_default();
                    let count = u64::try_from(rows.len()).unwrap_or(u64::MAX);
                    (self.listed(state, &rows, most)?, count)
                }
            };
            columns.push(BoardColumn {
                state: state.word().into(),
                title: state.say(self.language()),
                count,
                loads,
            });
        }
        Ok(BoardView { at: now.into(), since: since.into(), columns, notices: self.board_notices()? })
    }

    /// Loads with an inspection by the state of now, each state in the order in which a leader wants them. What the judgement said
    /// is kept; what the clock makes of it is asked for each.
    fn sealed(&self, since: Time) -> Result<BTreeMap<LoadState, Vec<LoadRow>>, AppError> {
        let knowledge = self.knowledge()?;
        let asked = knowledge.asked();
        let mut by_state: BTreeMap<LoadState, Vec<LoadRow>> = BTreeMap::new();
        for row in self.store.read().loads_since(since)? {
            let Some(state) = knowledge.state(&row, &asked) else { continue };
            let old = row.issued < since;
            if old && matches!(state, LoadState::NotFit | LoadState::Voided | LoadState::Refused) {
                continue;
            }
            by_state.entry(state).or_default().push(row);
        }
        for (state, rows) in &mut by_state {
            match state {
                LoadState::Fit => rows.sort_by_key(|row| row.valid_until),
                LoadState::Expired => rows.sort_by_key(|row| Reverse(row.valid_until)),
                _ => rows.sort_by_key(|row| Reverse(row.issued)),
            }
        }
        Ok(by_state)
    }

    fn listed(&self, state: LoadState, rows: &[LoadRow], most: u32) -> Result<Vec<BoardLoad>, AppError> {
        let now = self.now();
        let read = self.store.read();
        let mut knowledge = self.knowledge()?;
        let mut loads = Vec::new();
        for load in rows.iter().take(usize::try_from(most).unwrap_or(usize::MAX)) {
            let Some((row, words)) = read.record_with_words(load.latest)? else { continue };
            let (detail, soon, at) = match state {
                LoadState::Fit => {
                    let left = row.valid_until.since(now);
                    let put_right = match row.corrected {
                        0 => String::new(),
                        number => format!(", {number} corrected"),
                    };
                    let detail = format!("until {}, {left} left{put_right}", row.valid_until.dtg());
                    (detail, left < Seconds::hours(1), row.issued)
                }
                LoadState::NotFit => {
                    let (found, right) = (row.found, row.corrected);
                    let detail = format!("sealed {}, {found} found, {right} corrected", row.issued.dtg());
                    (detail, false, row.issued)
                }
                LoadState::Expired => {
                    let ago = now.since(row.valid_until);
                    (format!("ran out {}, {ago} ago", row.valid_until.dtg()), false, row.valid_until)
                }
                LoadState::Voided => (format!("sealed {}, taken back", row.issued.dtg()), false, row.issued),
                _ => {
                    let judged = knowledge.judge(&read, &LoadNumber::new(&row.load)?)?;
                    let why = judged.reasons.first().map(|reason| reason.say(self.language()));
                    (why.unwrap_or_default(), false, row.issued)
                }
            };
            loads.push(load_of(&row, words, detail, soon, at));
        }
        Ok(loads)
    }

    fn planned(&self, since: Time, most: u32) -> Result<(Vec<BoardLoad>, u64), AppError> {
        let (rows, count) = self.store.read().planned_loads(since, most)?;
        let trusted = self.trusted()?;
        let mut loads = Vec::new();
        for row in rows {
            // One that cannot be read is the audit's to name; the others stand on the zone all the same.
            let Ok(received) = ReceivedTag::open(&row.bytes) else { continue };
            let (_, planner) = self.tag_signature(&received, &trusted);
            let tag = &received.tag;
            let rigger = tag.rigger.as_ref().map_or_else(|| "not named".into(), ToString::to_string);
            loads.push(BoardLoad {
                load: row.load,
                description: tag.description.to_string(),
                gross: tag.gross.to_string(),
                aircraft: tag.aircraft.to_string(),
                who: planner
                    .map_or_else(|| "unsigned".into(), |planner| planner.credential.holder.to_string()),
                detail: format!("planned {}, rigger {rigger}", tag.planned.dtg()),
                soon: false,
                at: tag.planned.into(),
            });
        }
        Ok((loads, count))
    }

    fn walking(&self) -> Result<(Vec<BoardLoad>, u64), AppError> {
        let rows = self.store.read().walks_in_hand()?;
        let count = u64::try_from(rows.len()).unwrap_or(u64::MAX);
        let mut loads = Vec::new();
        for row in rows {
            let tags = self.store.read().tags_of(&row.load)?;
            let tag = tags.first().and_then(|row| Some(ReceivedTag::open(&row.bytes).ok()?.tag));
            loads.push(BoardLoad {
                description: tag.as_ref().map(|tag| tag.description.to_string()).unwrap_or_default(),
                gross: tag.as_ref().map(|tag| tag.gross.to_string()).unwrap_or_default(),
                aircraft: tag.map(|tag| tag.aircraft.to_string()).unwrap_or_default(),
                who: row.inspector,
                detail: match row.state {
                    WalkState::Paused => format!("paused {}", row.updated.dtg()),
                    WalkState::Decided => format!("decided {}, not sealed yet", row.updated.dtg()),
                    _ => format!("last answer {}", row.updated.dtg()),
                },
                soon: false,
                at: row.updated.into(),
                load: row.load,
            });
        }
        Ok((loads, count))
    }

    /// Papers that run out within a week, rosters that are old, what was set aside.
    fn board_notices(&self) -> Result<Vec<String>, AppError> {
        let mut notices = Vec::new();
        notices.extend(self.opened.set_aside.as_ref().map(ToString::to_string));
        notices.extend(self.opened.lost.as_ref().map(ToString::to_string));
        notices.extend(self.memory_notice()?);
        let now = self.now();
        for authority in self.set_up()?.authorities {
            match authority.roster_expires {
                None => notices.push(format!("{}: no roster is here; get one", authority.name)),
                Some(expires) if expires.unix < now.unix() => {
                    notices.push(format!(
                        "{}: the roster ran out {}; get a new one",
                        authority.name, expires.dtg
                    ));
                }
                Some(_) => {}
            }
        }
        let week = now.plus(Seconds::days(7));
        let soon = self.store.read().credentials()?;
        for row in soon.iter().filter(|row| now <= row.expires && row.expires <= week) {
            notices.push(format!("the credential of {} runs out {}", row.holder, row.expires.dtg()));
        }
        let aside = self.store.read().quarantine(1_000)?.len();
        if aside > 0 {
            notices.push(format!("{aside} received items were set aside; see Receive"));
        }
        Ok(notices)
    }
}
