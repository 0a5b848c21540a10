//! What an examination is planned by and shown as: the plan, its key, what is planted, the standard.

use crate::view::clock;
use crate::{CodeView, Inner, Stamp};
use serde::Serialize;
use slingseal_catalogue::exams as exam_words;
use slingseal_walk::exam::{MOST_PLANTED, Planted, PlantedList, Standard};
use slingseal_walk::procedure::{Card, Expanded, Point};

/// One deficiency that the instructor picks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExamPick {
    /// The point's id.
    pub point: String,
    /// The deficiency, by its name in the procedure.
    pub deficiency: String,
}

/// What is to be planted on a load.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ExamPlan {
    /// The text of the tag on the load.
    pub tag: String,
    /// Picked deficiencies; empty where they are drawn.
    pub picks: Vec<ExamPick>,
    /// How many to draw; none where they are picked.
    pub draw: Option<u32>,
    /// What to draw from: the same words draw the same. Made up where it is not given.
    pub seed: Option<String>,
}

/// What a student has to reach.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ExamStandard {
    /// How many must be found.
    pub least: u32,
    /// Within so many seconds.
    pub within_s: u32,
    /// How many calls where nothing is wrong are let pass.
    pub false_calls: u32,
}

/// What is to be rigged onto the load: for the instructor's eyes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ExamPlanView {
    /// The load.
    pub load: String,
    /// The procedure's id.
    pub procedure: String,
    /// The procedure's title.
    pub title: String,
    /// What it was drawn from; give it back to lock the same.
    pub seed: Option<String>,
    /// What is planted, in the order of the load.
    pub planted: Vec<PlantedView>,
}

/// A planted deficiency.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PlantedView {
    /// The card's number; nought where the procedure is not here.
    pub card: u32,
    /// The station's title.
    pub station: String,
    /// The card's title.
    pub card_title: String,
    /// The point's id.
    pub point: String,
    /// The point's prompt.
    pub prompt: String,
    /// The deficiency's name in the procedure.
    pub name: String,
    /// The deficiency, to be shown.
    pub shown: String,
}

/// The standard of a key.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StandardView {
    /// How many must be found.
    pub least: u32,
    /// Of how many.
    pub of: u32,
    /// Within so many seconds.
    pub within_s: u32,
    /// Calls where nothing is wrong that are let pass.
    pub false_calls: u32,
    /// All of it in one line.
    pub words: String,
}

/// A key: an instructor's lock on what is planted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ExamKeyView {
    /// What it goes by: the digest of its bytes.
    pub key: String,
    /// The first digits, to be said aloud and written on the clipboard.
    pub short: String,
    /// The code, to be shown before the student starts.
    pub code: CodeView,
    /// The load.
    pub load: String,
    /// The procedure's id and version.
    pub procedure: String,
    /// When it was locked.
    pub locked: Stamp,
    /// Who locked it.
    pub instructor: String,
    /// What a student has to reach.
    pub standard: StandardView,
    /// Whether the list lies on this device.
    pub list_here: bool,
    /// What is planted: only where it was asked for with the PIN, or has just been locked.
    pub planted: Option<Vec<PlantedView>>,
    /// Runs under it that ended and are known here.
    pub runs: u32,
    /// Results under it that are known here.
    pub results: u32,
}

/// The most that a key plants: for a shell that offers a number.
pub const MOST_EXAM_PLANTED: u32 = MOST_PLANTED as u32;

impl Inner {
    pub(crate) fn standard_view(&self, standard: Standard) -> StandardView {
        let (least, of, calls) = (standard.least(), standard.planted(), standard.false_calls());
        let time = clock(standard.within().0);
        StandardView {
            least: least.into(),
            of: of.into(),
            within_s: u32::try_from(standard.within().0).unwrap_or(u32::MAX),
            false_calls: calls.into(),
            words: exam_words::StandardWords { least, of, time, calls }.say(self.language()),
        }
    }
}

/// A list in the order of the load; by its ids alone where the procedure is not here.
pub(crate) fn planted_views(list: &PlantedList, plan: Option<&Expanded>) -> Vec<PlantedView> {
    let Some(plan) = plan else { return list.iter().map(bare).collect() };
    let known = list.in_order(plan);
    if known.len() != list.len() {
        return list.iter().map(bare).collect();
    }
    known.into_iter().map(|(planted, card, point)| planted_view(plan, card, point, &planted.name)).collect()
}

pub(super) fn planted_view(plan: &Expanded, card: &Card, point: &Point, name: &str) -> PlantedView {
    PlantedView {
        card: card.number.number(),
        station: plan.stations.get(card.station).map(|station| station.title.clone()).unwrap_or_default(),
        card_title: card.title.clone(),
        point: point.id.to_string(),
        prompt: point.prompt.clone(),
        name: name.to_owned(),
        shown: point
            .deficiencies
            .iter()
            .find(|known| known.name == name)
            .map_or_else(|| name.to_owned(), |known| known.shown.clone()),
    }
}

fn bare(planted: &Planted) -> PlantedView {
    PlantedView {
        card: 0,
        station: String::new(),
        card_title: String::new(),
        point: planted.point.to_string(),
        prompt: planted.point.to_string(),
        name: planted.name.clone(),
        shown: planted.name.clone(),
    }
}
