//! Equipment has a life: on which load it hangs, where, since when, how often it flew and with how much, when it is due, whether it
//! was withdrawn, and whether it came back.

use std::collections::BTreeMap;
use std::str::FromStr;

use serde::Serialize;

use crate::Stamp;
use crate::leader::sorting::{Sorting, as_sorted, columns};
use slingseal_account::report::PieceLife;
use slingseal_catalogue::{Language, Saying, closing as words};
use slingseal_words::{Time, Unit};

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
pub(super) enum PieceKey {
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

/// A piece as it is kept while all of them are looked at: what a list shows of it is written out for the few that it shows.
pub(super) struct Life {
    pub(super) life: PieceLife,
    pub(super) due: Option<Time>,
    pub(super) overdue: bool,
    /// Who withdrew it, and why.
    pub(super) withdrawn: Option<(String, String)>,
}

impl Life {
    pub(super) fn of(life: PieceLife) -> Self {
        Self { life, due: None, overdue: false, withdrawn: None }
    }

    pub(super) fn has_serial(&self, serial: &str) -> bool {
        self.life.serial.eq_ignore_ascii_case(serial)
    }

    pub(super) fn state(&self) -> PieceLifeState {
        PieceLifeState::of(&self.life)
    }

    pub(super) fn view(&self, language: Language) -> PieceLifeView {
        let (life, state) = (&self.life, self.state());
        PieceLifeView {
            serial: life.serial.clone(),
            kind: life.kind.clone(),
            state,
            state_title: state.saying().say(language),
            unsigned: life.unsigned,
            load: life.load.clone(),
            place: life.place.clone(),
            since: life.since.map(Stamp::from),
            lifts: life.lifts,
            carried_kg: self.carried_kg(),
            carried: carried(life.carried_g, language),
            inspections: life.inspections,
            back: life.back.map(Stamp::from),
            damaged: life.damaged.map(Stamp::from),
            due: self.due.map(Stamp::from),
            overdue: self.overdue,
            withdrawn_by: self.withdrawn.as_ref().map(|(by, _)| by.clone()),
            withdrawn_why: self.withdrawn.as_ref().map(|(_, why)| why.clone()),
        }
    }

    fn carried_kg(&self) -> i64 {
        (self.life.carried_g.saturating_add(500)) / 1_000
    }

    /// Whether it is of a group.
    pub(super) fn is(&self, group: PieceGroup) -> bool {
        match group {
            PieceGroup::Open => PieceGroup::OPEN.iter().any(|one| self.is(*one)),
            PieceGroup::Overdue => self.overdue,
            PieceGroup::Withdrawn => self.withdrawn.is_some(),
            PieceGroup::At(state) => self.state() == state,
        }
    }

    /// What a leader wants to see first: overdue and not returned, lost, damaged, withdrawn, the others.
    pub(super) fn order(&self) -> u8 {
        match self.state() {
            PieceLifeState::Out => 0,
            _ if self.overdue => 0,
            PieceLifeState::Lost => 1,
            PieceLifeState::Damaged => 2,
            _ if self.withdrawn.is_some() => 3,
            _ => u8::MAX,
        }
    }

    pub(super) fn column(&self, by: PieceOrder, language: Language) -> Option<PieceKey> {
        let text = |text: &str| as_sorted(text).map(PieceKey::Text);
        let time = |time: Option<Time>| time.map(|time| PieceKey::Number(time.unix()));
        match by {
            PieceOrder::Serial => text(&self.life.serial),
            PieceOrder::Kind => text(&self.life.kind),
            PieceOrder::State => text(&self.state().saying().say(language)),
            PieceOrder::Where => text(&self.life.place),
            PieceOrder::Since => time(self.life.since),
            PieceOrder::Due => time(self.due),
            PieceOrder::Lifts => Some(PieceKey::Number(self.life.lifts.into())),
            PieceOrder::Carried => Some(PieceKey::Number(self.carried_kg())),
        }
    }

    pub(super) fn says(&self, wanted: &str) -> bool {
        let load = self.life.load.as_deref().unwrap_or_default();
        let texts = [self.life.serial.as_str(), &self.life.kind, load, &self.life.place];
        wanted.is_empty() || texts.iter().any(|text| text.to_lowercase().contains(wanted))
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
