//! Equipment has a life: on which load it hangs, where, since when, how often it flew and with how much, when it is due, whether it
//! was withdrawn, and whether it came back.

use std::collections::BTreeMap;
use std::str::FromStr;

use serde::Serialize;

use crate::account::open_inspection;
use crate::leader::sorting::{Sorting, arrange, as_sorted, columns};
use crate::{App, AppError, Inner, Stamp};
use slingseal_account::report::{Cell, LoadRows, PieceLife, line, piece_lives};
use slingseal_catalogue::{Language, Saying, closing as words};
use slingseal_judgement::{InspectionWord, PieceState, state_of_piece};
use slingseal_message::tag::ReceivedTag;
use slingseal_store::SubjectKind;
use slingseal_words::{Digest, Serial, Time, Unit};

/// Where a piece of equipment is on its way, by the loads and the reports here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PieceLifeState {
    /// With a load that was lifted, and not back.
    Out,
    /// With a load that was lost.
    Lost,
    /// Reported damaged.
    Damaged,
    /// On a load that was not lifted yet.
    OnLoad,
    /// Back from the last load.
    Back,
    /// None of these: an inspection names it, and no load does.
    Known,
}

impl PieceLifeState {
    fn of(life: &PieceLife) -> Self {
        match (life.order(), &life.load, life.back) {
            (0, ..) => Self::Out,
            (1, ..) => Self::Lost,
            (2, ..) => Self::Damaged,
            (_, Some(_), _) => Self::OnLoad,
            (_, None, Some(_)) => Self::Back,
            (_, None, None) => Self::Known,
        }
    }

    /// The word for JSON and exports.
    pub fn word(self) -> &'static str {
        match self {
            Self::Out => "out",
            Self::Lost => "lost",
            Self::Damaged => "damaged",
            Self::OnLoad => "on_load",
            Self::Back => "back",
            Self::Known => "known",
        }
    }

    /// What a person calls it, in no language yet.
    pub fn saying(self) -> Saying {
        match self {
            Self::Out => words::PieceOut.into(),
            Self::Lost => words::PieceLost.into(),
            Self::Damaged => words::PieceDamaged.into(),
            Self::OnLoad => words::PieceOnLoad.into(),
            Self::Back => words::PieceBack.into(),
            Self::Known => words::PieceKnown.into(),
        }
    }
}

/// Pieces that a leader looks at together. One piece is in several of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PieceGroup {
    /// What somebody must look into: overdue, out, lost, damaged or withdrawn.
    Open,
    /// Past its last good second.
    Overdue,
    /// Withdrawn by an inspection.
    Withdrawn,
    /// What is at one point of its way.
    At(PieceLifeState),
}

impl PieceGroup {
    /// Every group, in the order in which a leader wants them.
    pub const ALL: [Self; 9] = [
        Self::Open,
        Self::Overdue,
        Self::At(PieceLifeState::Out),
        Self::At(PieceLifeState::Lost),
        Self::At(PieceLifeState::Damaged),
        Self::Withdrawn,
        Self::At(PieceLifeState::OnLoad),
        Self::At(PieceLifeState::Back),
        Self::At(PieceLifeState::Known),
    ];

    /// What [`PieceGroup::Open`] is of.
    const OPEN: [Self; 5] = [
        Self::Overdue,
        Self::At(PieceLifeState::Out),
        Self::At(PieceLifeState::Lost),
        Self::At(PieceLifeState::Damaged),
        Self::Withdrawn,
    ];

    /// The word for addresses and JSON.
    pub fn word(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Overdue => "overdue",
            Self::Withdrawn => "withdrawn",
            Self::At(state) => state.word(),
        }
    }

    /// What a person calls it, in no language yet.
    pub fn saying(self) -> Saying {
        match self {
            Self::Open => words::PiecesOpen.into(),
            Self::Overdue => words::PieceOverdue.into(),
            Self::Withdrawn => words::PieceWithdrawn.into(),
            Self::At(state) => state.saying(),
        }
    }
}

impl crate::view::Worded for PieceGroup {
    fn word(&self) -> &'static str {
        Self::word(*self)
    }
}

impl FromStr for PieceGroup {
    type Err = Saying;

    /// The group of a word. Another word: what the words are.
    fn from_str(word: &str) -> Result<Self, Saying> {
        Self::ALL.into_iter().find(|group| group.word() == word).ok_or_else(|| {
            let known = Self::ALL.map(Self::word).join(", ");
            words::NoSuchPieceState { state: word, known }.into()
        })
    }
}

/// A piece of equipment's life.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PieceLifeView {
    /// Its serial number.
    pub serial: String,
    /// What it is; empty where no load names it.
    pub kind: String,
    /// Where it is on its way.
    pub state: PieceLifeState,
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
    /// The same as a person reads it, in kilograms and in pounds: its loads may have been weighed in either.
    pub carried: String,
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

columns! {
    /// By which column pieces are ordered.
    PieceOrder {
        /// The serial number.
        Serial = "serial",
        /// What it is.
        Kind = "kind",
        /// Where it is on its way, by its name.
        State = "state",
        /// The place where it should be.
        Where = "where",
        /// Since when.
        Since = "since",
        /// Until when it is good.
        Due = "due",
        /// How often it was lifted.
        Lifts = "lifts",
        /// What it was lifted with.
        Carried = "carried",
    }
}

/// What a piece has in a column, to be compared with another's.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum PieceKey {
    Text(String),
    Number(i64),
}

/// Which pieces are listed; every part that is given must fit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PieceFilter {
    /// Of which group.
    pub group: Option<PieceGroup>,
    /// What stands in the serial number, the kind, the load or the place, whatever its letters' size.
    pub words: Option<String>,
    /// By which column they are ordered, over all pages; none for what is overdue or out first.
    pub order: Option<Sorting<PieceOrder>>,
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
    /// How many pieces there are of each group, whatever the filter.
    #[serde(serialize_with = "crate::view::counted")]
    pub counts: BTreeMap<PieceGroup, u64>,
}

fn carried(grams: i64, language: Language) -> String {
    let kilograms = grams as f64 / 1_000.0;
    let pounds = kilograms / Unit::Lb.si();
    words::PieceCarriedIs { kg: format!("{kilograms:.0}"), lb: format!("{pounds:.0}") }.say(language)
}

impl PieceLifeView {
    fn of(life: PieceLife, language: Language) -> Self {
        let state = PieceLifeState::of(&life);
        Self {
            serial: life.serial,
            kind: life.kind,
            state,
            state_title: state.saying().say(language),
            unsigned: life.unsigned,
            load: life.load,
            place: life.place,
            since: life.since.map(Stamp::from),
            lifts: life.lifts,
            carried_kg: (life.carried_g.saturating_add(500)) / 1_000,
            carried: carried(life.carried_g, language),
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

    /// Whether it is of a group.
    pub fn is(&self, group: PieceGroup) -> bool {
        match group {
            PieceGroup::Open => PieceGroup::OPEN.iter().any(|one| self.is(*one)),
            PieceGroup::Overdue => self.overdue,
            PieceGroup::Withdrawn => self.withdrawn_by.is_some(),
            PieceGroup::At(state) => self.state == state,
        }
    }

    /// What a leader wants to see first: overdue and not returned, lost, damaged, withdrawn, the others.
    fn order(&self) -> u8 {
        match self.state {
            PieceLifeState::Out => 0,
            _ if self.overdue => 0,
            PieceLifeState::Lost => 1,
            PieceLifeState::Damaged => 2,
            _ if self.withdrawn_by.is_some() => 3,
            _ => u8::MAX,
        }
    }

    fn column(&self, by: PieceOrder) -> Option<PieceKey> {
        let text = |text: &str| as_sorted(text).map(PieceKey::Text);
        let time = |stamp: &Option<Stamp>| stamp.as_ref().map(|stamp| PieceKey::Number(stamp.unix));
        match by {
            PieceOrder::Serial => text(&self.serial),
            PieceOrder::Kind => text(&self.kind),
            PieceOrder::State => text(&self.state_title),
            PieceOrder::Where => text(&self.place),
            PieceOrder::Since => time(&self.since),
            PieceOrder::Due => time(&self.due),
            PieceOrder::Lifts => Some(PieceKey::Number(self.lifts.into())),
            PieceOrder::Carried => Some(PieceKey::Number(self.carried_kg)),
        }
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
    /// Storage.
    pub fn pieces(&self, filter: &PieceFilter) -> Result<PiecesView, AppError> {
        let all = self.piece_lives()?;
        let mut counts: BTreeMap<PieceGroup, u64> = BTreeMap::new();
        for group in PieceGroup::ALL {
            let count = all.iter().filter(|life| life.is(group)).count();
            counts.insert(group, u64::try_from(count).unwrap_or(u64::MAX));
        }
        let wanted = filter.words.as_deref().unwrap_or_default().trim().to_lowercase();
        let mut fitting: Vec<PieceLifeView> = all
            .into_iter()
            .filter(|life| filter.group.is_none_or(|group| life.is(group)) && life.says(&wanted))
            .collect();
        if let Some(Sorting { by, down }) = filter.order {
            arrange(&mut fitting, down, |life| life.column(by));
        }
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
                Cell::plain(life.state.word()),
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

#[cfg(test)]
mod tests {
    use slingseal_catalogue::Language;

    /// 1 lb is 0.453 592 37 kg exactly (international yard and pound agreement, 1959).
    #[test]
    fn what_was_carried_is_rounded_and_told_in_both() {
        assert_eq!(super::carried(2_267_962, Language::English), "2268 kg (5000 lb)");
        assert_eq!(super::carried(0, Language::English), "0 kg (0 lb)");
    }
}
