//! Equipment has a life: on which load it hangs, where, since when, how often it flew and with how much, when it is due, whether it
//! was withdrawn, and whether it came back.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::account::open_inspection;
use crate::{App, AppError, Inner, Stamp};
use slingseal_account::report::{Cell, LoadRows, PieceLife, line, piece_lives};
use slingseal_catalogue::{Language, Saying, closing as words};
use slingseal_judgement::{InspectionWord, PieceState, state_of_piece};
use slingseal_message::tag::ReceivedTag;
use slingseal_store::SubjectKind;
use slingseal_words::{Digest, Serial, Time};

/// A piece of equipment's life.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PieceLifeView {
    /// Its serial number.
    pub serial: String,
    /// What it is; empty where no load names it.
    pub kind: String,
    /// `out`, `lost`, `damaged`, `on_load` or `back`; `known` where it is none of these.
    pub state: String,
    /// The same as a person reads it.
    pub state_title: String,
    /// Whether that rests on a report that nobody known signed.
    pub unsigned: bool,
    /// The load that it hangs on, or went out with.
    pub load: Option<String>,
    /// Where it should be: that load's pickup zone, or its destination once it was lifted; empty where unknown.
    pub place: String,
    /// Since when.
    pub since: Option<Stamp>,
    /// How often it was lifted.
    pub lifts: u32,
    /// Gross mass of all loads that it was lifted with, in whole kilograms: it carried a part of each.
    pub carried_kg: i64,
    /// Inspections of loads that it was on.
    pub inspections: u32,
    /// When it came back last.
    pub back: Option<Stamp>,
    /// When somebody last found it damaged.
    pub damaged: Option<Stamp>,
    /// The last second in which it is good: by its own inspection, or as the newest tag tells it.
    pub due: Option<Stamp>,
    /// Whether that is past.
    pub overdue: bool,
    /// Who withdrew it; none where it is in service.
    pub withdrawn_by: Option<String>,
    /// Why it was withdrawn.
    pub withdrawn_why: Option<String>,
}

/// Which pieces are listed; every part that is given must fit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PieceFilter {
    /// A state, `withdrawn`, `overdue`, or `open`: out, lost, damaged, withdrawn or overdue.
    pub state: Option<String>,
    /// What stands in the serial number, the kind, the load or the place, whatever its letters' size.
    pub words: Option<String>,
    /// Which page, the first is 0.
    pub page: u32,
    /// So many a page.
    pub most: u32,
}

/// A page of pieces: what is overdue or not returned first.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PiecesView {
    /// The page.
    pub lines: Vec<PieceLifeView>,
    /// How many fit, on all pages.
    pub count: u64,
    /// How many pages they are.
    pub pages: u32,
    /// How many pieces there are of each state, and of `withdrawn` and `overdue`, whatever the filter.
    pub counts: BTreeMap<String, u64>,
}

/// What a filter on a state may say.
pub(crate) const STATES: [&str; 9] =
    ["open", "overdue", "out", "lost", "damaged", "withdrawn", "on_load", "back", "known"];

/// What a state is called.
fn titled(state: &str) -> Saying {
    match state {
        "out" => words::PieceOut.into(),
        "lost" => words::PieceLost.into(),
        "damaged" => words::PieceDamaged.into(),
        "withdrawn" => words::PieceWithdrawn.into(),
        "overdue" => words::PieceOverdue.into(),
        "on_load" => words::PieceOnLoad.into(),
        "back" => words::PieceBack.into(),
        _ => words::PieceKnown.into(),
    }
}

impl PieceLifeView {
    fn of(life: PieceLife, language: Language) -> Self {
        let state = match (life.order(), &life.load, life.back) {
            (0, ..) => "out",
            (1, ..) => "lost",
            (2, ..) => "damaged",
            (_, Some(_), _) => "on_load",
            (_, None, Some(_)) => "back",
            (_, None, None) => "known",
        };
        Self {
            serial: life.serial,
            kind: life.kind,
            state: state.into(),
            state_title: titled(state).say(language),
            unsigned: life.unsigned,
            load: life.load,
            place: life.place,
            since: life.since.map(Stamp::from),
            lifts: life.lifts,
            carried_kg: life.carried_g / 1_000,
            inspections: life.inspections,
            back: life.back.map(Stamp::from),
            damaged: life.damaged.map(Stamp::from),
            due: None,
            overdue: false,
            withdrawn_by: None,
            withdrawn_why: None,
        }
    }

    /// A piece that an inspection names and no load does.
    fn unused(serial: &Serial, language: Language) -> Self {
        Self::of(PieceLife::new(serial.to_string(), String::new()), language)
    }

    /// Whether a filter's word for a state fits.
    pub fn is(&self, state: &str) -> bool {
        match state {
            "open" => ["overdue", "out", "lost", "damaged", "withdrawn"].iter().any(|one| self.is(one)),
            "overdue" => self.overdue,
            "withdrawn" => self.withdrawn_by.is_some(),
            state => self.state == state,
        }
    }

    /// What a leader wants to see first: overdue and not returned, lost, damaged, withdrawn, the others.
    fn order(&self) -> u8 {
        let states = [["overdue", "out"].as_slice(), &["lost"], &["damaged"], &["withdrawn"]];
        let first = states.iter().position(|some| some.iter().any(|state| self.is(state)));
        first.and_then(|at| u8::try_from(at).ok()).unwrap_or(u8::MAX)
    }

    fn says(&self, wanted: &str) -> bool {
        let load = self.load.as_deref().unwrap_or_default();
        let texts = [self.serial.as_str(), &self.kind, load, &self.place];
        texts.iter().any(|text| text.to_lowercase().contains(wanted))
    }
}

impl App {
    /// Every piece of equipment that any load or inspection here names: what is overdue or out first.
    ///
    /// # Errors
    /// Storage.
    pub fn piece_lives(&self) -> Result<Vec<PieceLifeView>, AppError> {
        self.lock().piece_lives()
    }

    /// A page of them.
    ///
    /// # Errors
    /// A state that is none; storage.
    pub fn pieces(&self, filter: &PieceFilter) -> Result<PiecesView, AppError> {
        let state = filter.state.as_deref().map(str::trim).filter(|state| !state.is_empty());
        if let Some(state) = state.filter(|state| !STATES.contains(state)) {
            let known = STATES.join(", ");
            return Err(AppError::bad_input(words::NoSuchPieceState { state, known }));
        }
        let all = self.piece_lives()?;
        let mut counts: BTreeMap<String, u64> = BTreeMap::new();
        for state in STATES {
            let count = all.iter().filter(|life| life.is(state)).count();
            counts.insert(state.to_owned(), u64::try_from(count).unwrap_or(u64::MAX));
        }
        let wanted = filter.words.as_deref().unwrap_or_default().trim().to_lowercase();
        let fitting: Vec<PieceLifeView> = all
            .into_iter()
            .filter(|life| state.is_none_or(|state| life.is(state)) && life.says(&wanted))
            .collect();
        let most = usize::try_from(filter.most.max(1)).unwrap_or(usize::MAX);
        let skip = usize::try_from(filter.page).unwrap_or(usize::MAX).saturating_mul(most);
        Ok(PiecesView {
            count: u64::try_from(fitting.len()).unwrap_or(u64::MAX),
            pages: u32::try_from(fitting.len().div_ceil(most)).unwrap_or(u32::MAX),
            lines: fitting.into_iter().skip(skip).take(most).collect(),
            counts,
        })
    }

    /// Every piece as CSV, RFC 4180.
    ///
    /// # Errors
    /// Storage.
    pub fn piece_lives_csv(&self) -> Result<String, AppError> {
        let heads = [
            "serial",
            "kind",
            "state",
            "load",
            "since",
            "lifts",
            "carried_kg",
            "inspections",
            "back",
            "damaged",
            "place",
            "unsigned",
            "due",
            "overdue",
            "withdrawn_by",
            "withdrawn_why",
        ];
        let mut text = line(&heads.map(Cell::plain));
        for life in self.piece_lives()? {
            let time = |stamp: &Option<Stamp>| {
                stamp.as_ref().map_or(Cell::Empty, |stamp| Cell::plain(&stamp.rfc3339))
            };
            let some = |text: &Option<String>| text.as_deref().map_or(Cell::Empty, Cell::text);
            text += &line(&[
                Cell::text(&life.serial),
                Cell::text(&life.kind),
                Cell::plain(&life.state),
                some(&life.load),
                time(&life.since),
                Cell::plain(life.lifts),
                Cell::plain(life.carried_kg),
                Cell::plain(life.inspections),
                time(&life.back),
                time(&life.damaged),
                Cell::text(&life.place),
                Cell::plain(life.unsigned),
                time(&life.due),
                Cell::plain(life.overdue),
                some(&life.withdrawn_by),
                some(&life.withdrawn_why),
            ]);
        }
        Ok(text)
    }
}

impl Inner {
    pub(crate) fn piece_lives(&self) -> Result<Vec<PieceLifeView>, AppError> {
        let (loads, _, _) = self.all_loads()?;
        let loads: Vec<LoadRows> = loads.into_values().collect();
        let (now, language) = (self.now(), self.language());
        let mut lives: Vec<PieceLifeView> =
            piece_lives(&loads).into_iter().map(|life| PieceLifeView::of(life, language)).collect();
        let told = self.due_by_tags()?;
        let mut said = self.piece_words()?;
        let trusted = self.trusted()?;
        let mut judged: BTreeMap<String, Option<PieceState>> = BTreeMap::new();
        for (name, inspections) in &mut said {
            let Ok(serial) = Serial::new(name) else { continue };
            let state = state_of_piece(&serial, inspections, &trusted);
            if !lives.iter().any(|life| life.serial.eq_ignore_ascii_case(name)) {
                let own = inspections.first().map_or(serial, |word| word.inspection().name.clone());
                lives.push(PieceLifeView::unused(&own, language));
            }
            judged.insert(name.clone(), state);
        }
        for life in &mut lives {
            let name = life.serial.to_ascii_uppercase();
            let by_tag = told.get(&name).map(|(_, _, due)| *due);
            let mut due = by_tag;
            match judged.get(&name).cloned().flatten() {
                Some(PieceState::Withdrawn { why, by, .. }) => {
                    (life.withdrawn_by, life.withdrawn_why) = (Some(by.to_string()), Some(why));
                }
                // The hook holds a load against both: the earlier one runs out first.
                Some(PieceState::Fit { until: Some(until), .. }) => {
                    due = Some(by_tag.map_or(until, |by_tag| by_tag.min(until)));
                }
                Some(PieceState::Fit { until: None, .. }) | None => {}
            }
            (life.due, life.overdue) = (due.map(Stamp::from), due.is_some_and(|due| due < now));
        }
        lives.sort_by_cached_key(|life| (life.order(), life.serial.clone(), life.kind.clone()));
        Ok(lives)
    }

    /// The last second in which each piece is good, as the newest tag that names it tells it.
    fn due_by_tags(&self) -> Result<BTreeMap<String, (Time, Digest, Time)>, AppError> {
        let mut told: BTreeMap<String, (Time, Digest, Time)> = BTreeMap::new();
        for row in self.store.read().tags()? {
            let Ok(received) = ReceivedTag::open(&row.bytes) else { continue };
            for piece in &received.tag.equipment {
                let Some(good) = piece.good_until() else { continue };
                let new = (received.tag.planned, received.digest, good);
                let known = told.entry(piece.serial.as_str().to_ascii_uppercase()).or_insert(new);
                *known = new.max(*known);
            }
        }
        Ok(told)
    }

    /// Every signed inspection of a piece, by its serial number in capitals.
    fn piece_words(&self) -> Result<BTreeMap<String, Vec<InspectionWord>>, AppError> {
        let mut trusted = self.trusted()?;
        let mut said: BTreeMap<String, Vec<InspectionWord>> = BTreeMap::new();
        for row in self.store.read().inspections()? {
            if row.subject == SubjectKind::Piece
                && let Ok(word) = open_inspection(&row.bytes, &mut trusted)
            {
                said.entry(row.name).or_default().push(word);
            }
        }
        Ok(said)
    }
}
