//! How many deficiencies nobody found, by pairs of independent inspections; and which loads to look at a second time.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::{App, AppError, Inner, ShareView, Stamp};
use slingseal_account::report::{InAll, LookRow, Looks, chapman_95, second_looks};
use slingseal_catalogue::{Saying, second_look as words};
use slingseal_store::Standing;
use slingseal_words::{Entropy, Seconds};

/// Below so many pairs the numbers say little, and it is told.
const FEW_PAIRS: u32 = 10;
/// The most loads that are drawn at once.
const MOST_DRAWN: u32 = 100;

/// How many deficiencies there were in all, by what two looks found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct InAllView {
    /// What the first look found and left.
    pub first: u32,
    /// What the second look found.
    pub second: u32,
    /// What both found.
    pub both: u32,
    /// What either found.
    pub found: u32,
    /// How many there were in all (Chapman); none where nothing was found.
    pub estimate: Option<f64>,
    /// The lower bound of the 95 % interval.
    pub low: Option<u32>,
    /// The upper bound; none where nothing bounds it.
    pub high: Option<u32>,
    /// The same in words.
    pub said: String,
}

/// A point, and how many deficiencies there were at it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PointLooks {
    /// The procedure's id.
    pub procedure: String,
    /// The point's id.
    pub point: String,
    /// What two looks found at it.
    pub in_all: InAllView,
}

/// An inspector, and how many of the deficiencies that another found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct InspectorLooks {
    /// Name or call sign.
    pub inspector: String,
    /// Found too, of what the other found.
    pub share: ShareView,
}

/// What pairs of inspections say of what nobody found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SecondLookView {
    /// From when; none for all.
    pub since: Option<Stamp>,
    /// Pairs of inspections of one load by two people.
    pub pairs: u32,
    /// All points together.
    pub all: InAllView,
    /// By point, the one where most was missed first.
    pub points: Vec<PointLooks>,
    /// By inspector.
    pub inspectors: Vec<InspectorLooks>,
    /// What must hold for the numbers to be worth anything, in words.
    pub assumes: Vec<String>,
}

/// A load that was drawn for a second look.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DrawnLook {
    /// The load number.
    pub load: String,
    /// Who looked first: somebody else is to look now.
    pub inspector: String,
    /// When that was sealed.
    pub issued: Stamp,
    /// The list that was walked.
    pub procedure: String,
}

impl App {
    /// What pairs of inspections of one load by two people say of what nobody found; of the last days, or of all.
    ///
    /// # Errors
    /// Storage.
    pub fn second_looks(&self, days: Option<u32>) -> Result<SecondLookView, AppError> {
        self.lock().second_looks(days)
    }

    /// Draws loads at random for a second look, each as likely as the other: those that stand inspected and were not lifted since, at
    /// most a hundred. Whoever knew before which loads are drawn would look better at them.
    ///
    /// # Errors
    /// Storage.
    pub fn draw_second_looks(&self, count: u32) -> Result<Vec<DrawnLook>, AppError> {
        self.lock().draw_second_looks(count.min(MOST_DRAWN))
    }
}

impl Inner {
    fn second_looks(&self, days: Option<u32>) -> Result<SecondLookView, AppError> {
        let since = days.map(|days| self.now().plus(Seconds(-Seconds::days(days.into()).0)));
        let (read, language) = (self.store.read(), self.language());
        let mut rows = Vec::new();
        for row in read.looked_at_twice(since)? {
            let Some(tag) = row.tag else { continue };
            let found = if row.found == 0 { Vec::new() } else { read.deficiencies_of(row.seal)? };
            rows.push(LookRow {
                load: row.load,
                tag,
                procedure: row.procedure,
                inspector: row.inspector,
                issued: row.issued,
                found: found.into_iter().map(|one| (one.point, one.name, one.corrected)).collect(),
            });
        }
        let seen = second_looks(&rows);
        let view = |looks: Looks| in_all(looks, |said| said.say(language));
        let mut points: Vec<PointLooks> = seen
            .points
            .into_iter()
            .map(|((procedure, point), looks)| PointLooks { procedure, point, in_all: view(looks) })
            .collect();
        let missed =
            |point: &PointLooks| point.in_all.estimate.unwrap_or_default() - f64::from(point.in_all.found);
        points.sort_by(|one, other| missed(other).total_cmp(&missed(one)));
        let inspectors = seen.inspectors.into_iter();
        let inspectors =
            inspectors.map(|(inspector, share)| InspectorLooks { inspector, share: share.into() }).collect();
        let mut assumes: Vec<Saying> = vec![
            words::AssumesIndependent.into(),
            words::AssumesAlike.into(),
            words::AssumesSame.into(),
            words::AssumesDrawn.into(),
        ];
        if seen.pairs < FEW_PAIRS {
            assumes.insert(0, words::AssumesMore { pairs: seen.pairs, few: FEW_PAIRS }.into());
        }
        Ok(SecondLookView {
            since: since.map(Stamp::from),
            pairs: seen.pairs,
            all: view(seen.all),
            points,
            inspectors,
            assumes: assumes.iter().map(|one| one.say(language)).collect(),
        })
    }

    fn draw_second_looks(&self, count: u32) -> Result<Vec<DrawnLook>, AppError> {
        let read = self.store.read();
        let now = self.now();
        let mut standing: BTreeMap<String, DrawnLook> = BTreeMap::new();
        read.each_in_order(|row| {
            let counts = matches!(row.standing(), Standing::Fit | Standing::NotFit) && row.valid_until >= now;
            if counts {
                let drawn = DrawnLook {
                    load: row.load.clone(),
                    inspector: row.inspector,
                    issued: row.issued.into(),
                    procedure: row.procedure,
                };
                standing.insert(row.load, drawn);
            }
            Ok::<(), AppError>(())
        })?;
        // What is in force is little beside all that was flown: each is asked whether it is gone, and nothing else is read.
        let mut left = Vec::new();
        for look in standing.into_values() {
            if read.flow(&look.load)?.is_none_or(|flow| flow.event.is_empty()) {
                left.push(look);
            }
        }
        let mut drawn = Vec::new();
        while !left.is_empty() && drawn.len() < count as usize {
            let at = below(self.outside.entropy.as_ref(), left.len());
            drawn.push(left.swap_remove(at));
        }
        drawn.sort_by(|one, other| one.load.cmp(&other.load));
        Ok(drawn)
    }
}

/// A number below `most`, each as likely: what lies behind the last whole round is drawn again.
fn below(entropy: &dyn Entropy, most: usize) -> usize {
    let most = most.max(1) as u64;
    loop {
        let mut bytes = [0; 8];
        entropy.fill(&mut bytes);
        let drawn = u64::from_be_bytes(bytes);
        if drawn < u64::MAX - u64::MAX % most {
            return usize::try_from(drawn % most).unwrap_or_default();
        }
    }
}

fn in_all(looks: Looks, say: impl Fn(Saying) -> String) -> InAllView {
    let Looks { first, second, both } = looks;
    let found = looks.found();
    let known = chapman_95(looks);
    let whole = |number: f64| format!("{number:.0}");
    let said: Saying = match known {
        None => words::LooksNothing.into(),
        Some(InAll { estimate, low, high: Some(high) }) => {
            words::LooksBounded { found, in_all: whole(estimate), low, high }.into()
        }
        Some(InAll { estimate, low, high: None }) => {
            words::LooksUnbounded { found, in_all: whole(estimate), low }.into()
        }
    };
    InAllView {
        first,
        second,
        both,
        found,
        estimate: known.map(|known| (known.estimate * 10.0).round() / 10.0),
        low: known.map(|known| known.low),
        high: known.and_then(|known| known.high),
        said: say(said),
    }
}
