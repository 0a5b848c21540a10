//! Classical test theory on planted deficiencies: how hard each is, and whether those who are good find it more often.
//!
//! - difficulty p: the share of students who found it (so that a high p is easy).
//! - discrimination D: p among the upper 27 % of students less p among the lower 27 %, by their whole score
//!   (T. L. Kelley, "The selection of upper and lower groups for the validation of test items", J. Educ. Psychol. 30, 1939,
//!   pp. 17–24: 27 % is where the two groups differ most surely).
//! - corrected point-biserial: Pearson's correlation of the item (found 1, missed 0) with the student's score on all *other*
//!   items. The item itself is left out, or it would correlate with itself (S. Henrysson, "Correction of item-total
//!   correlations in item analysis", Psychometrika 28, 1963, pp. 211–218, names the overlap).

use std::collections::BTreeMap;

use slingseal_words::{ProcedureId, Ratio};

use super::Planted;

/// The share of students in the upper and in the lower group.
pub const GROUP: f64 = 0.27;

/// What an item goes by.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ItemName {
    /// Of which procedure.
    pub procedure: ProcedureId,
    /// Which deficiency at which point.
    pub planted: Planted,
}

/// One student before one planted deficiency.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Observation {
    /// Who: one number a student.
    pub student: usize,
    /// Before what.
    pub item: ItemName,
    /// Whether it was found.
    pub found: bool,
}

/// What the class says of an item.
#[derive(Clone, Debug, PartialEq)]
pub struct ItemStat {
    /// Which.
    pub item: ItemName,
    /// How many students stood before it.
    pub of: u32,
    /// How many found it.
    pub found: u32,
    /// p, from 0 (nobody found it) to 1.
    pub difficulty: Ratio,
    /// D, from -1 to 1; none with fewer than four students.
    pub discrimination: Option<Ratio>,
    /// The corrected point-biserial correlation, from -1 to 1; none where it is not defined: everyone or nobody found it, or
    /// all others' scores are equal, or there are fewer than three students with other items.
    pub point_biserial: Option<Ratio>,
}

/// Found and of how many.
#[derive(Clone, Copy, Default)]
struct Share {
    found: f64,
    of: f64,
}

/// The items' figures, in the order of their names. Scores are shares, so that students who stood before different items can
/// be compared; where all stood before the same ones, that changes no figure.
pub fn item_stats(observations: &[Observation]) -> Vec<ItemStat> {
    item_stats_by(observations, GROUP)
}

/// With upper and lower groups of this share.
pub(super) fn item_stats_by(observations: &[Observation], share: f64) -> Vec<ItemStat> {
    let mut totals: BTreeMap<usize, Share> = BTreeMap::new();
    let mut items: BTreeMap<&ItemName, Vec<(usize, bool)>> = BTreeMap::new();
    for seen in observations {
        let total = totals.entry(seen.student).or_default();
        total.found += f64::from(u8::from(seen.found));
        total.of += 1.0;
        items.entry(&seen.item).or_default().push((seen.student, seen.found));
    }
    items
        .into_iter()
        .filter_map(|(item, seen)| {
            let found = seen.iter().filter(|(_, found)| *found).count();
            let difficulty = found as f64 / seen.len() as f64;
            Some(ItemStat {
                item: item.clone(),
                of: u32::try_from(seen.len()).ok()?,
                found: u32::try_from(found).ok()?,
                difficulty: Ratio::new(difficulty).ok()?,
                discrimination: upper_lower(&seen, &totals, share).and_then(|d| Ratio::new(d).ok()),
                point_biserial: point_biserial(&seen, &totals).and_then(|r| Ratio::new(r).ok()),
            })
        })
        .collect()
}

fn point_biserial(seen: &[(usize, bool)], totals: &BTreeMap<usize, Share>) -> Option<f64> {
    let pairs: Vec<(f64, f64)> = seen
        .iter()
        .filter_map(|(student, found)| {
            let (total, item) = (totals.get(student)?, f64::from(u8::from(*found)));
            let others = total.of - 1.0;
            (others > 0.0).then(|| (item, (total.found - item) / others))
        })
        .collect();
    if pairs.len() < 3 {
        return None;
    }
    let n = pairs.len() as f64;
    let mean_x = pairs.iter().map(|(x, _)| x).sum::<f64>() / n;
    let mean_y = pairs.iter().map(|(_, y)| y).sum::<f64>() / n;
    let (mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0);
    for (x, y) in &pairs {
        xx += (x - mean_x).powi(2);
        yy += (y - mean_y).powi(2);
        xy += (x - mean_x) * (y - mean_y);
    }
    // Equal scores differ in the last bit of their mean.
    if xx < 1e-12 || yy < 1e-12 {
        return None;
    }
    Some((xy / (xx * yy).sqrt()).clamp(-1.0, 1.0))
}

/// Students of one score at the edge of a group share its last places evenly: no order among them is made up.
fn upper_lower(seen: &[(usize, bool)], totals: &BTreeMap<usize, Share>, share: f64) -> Option<f64> {
    if seen.len() < 4 {
        return None;
    }
    let places = (share * seen.len() as f64).round().max(1.0);
    let mut scored: Vec<(f64, f64)> = seen
        .iter()
        .filter_map(|(student, found)| {
            let total = totals.get(student)?;
            Some((total.found / total.of, f64::from(u8::from(*found))))
        })
        .collect();
    scored.sort_by(|a, b| a.0.total_cmp(&b.0));
    let lower = group(scored.iter(), places);
    let upper = group(scored.iter().rev(), places);
    Some(upper - lower)
}

/// The share found among the first so many, ties at the edge counted in part.
fn group<'s>(scored: impl Iterator<Item = &'s (f64, f64)>, places: f64) -> f64 {
    let scored: Vec<&(f64, f64)> = scored.collect();
    let (mut left, mut found) = (places, 0.0);
    for tied in scored.chunk_by(|a, b| (a.0 - b.0).abs() < 1e-9) {
        let size = tied.len() as f64;
        let taken = left.min(size);
        found += tied.iter().map(|(_, found)| found).sum::<f64>() * taken / size;
        left -= taken;
        if left <= 0.0 {
            break;
        }
    }
    found / places
}
