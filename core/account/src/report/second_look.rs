//! How many deficiencies nobody found: from pairs of independent inspections of one load.
//!
//! Two people look at the same thing without knowing of each other. What both find, beside what one alone finds, tells how well
//! each looks, and so how much both passed over. It is how animals in a wood are counted, and faults in a text.

use std::collections::{BTreeMap, BTreeSet};

use slingseal_words::{Digest, Seconds, Time};

use super::Share;

/// Two looks at one load count as a pair where no more time lies between them: after it the load may be another.
pub const SAME_LOOK: Seconds = Seconds(12 * 3_600);
/// More than anybody counts; the arithmetic ends there.
const MOST: u32 = 100_000;
/// A bound above is not looked for beyond so many.
const MOST_IN_ALL: f64 = 1e9;

/// What two looks came to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Looks {
    /// What the first found and left for the second to find.
    pub first: u32,
    /// What the second found.
    pub second: u32,
    /// What both found.
    pub both: u32,
}

impl Looks {
    /// What one of them found, or both.
    pub fn found(&self) -> u32 {
        self.first.saturating_add(self.second).saturating_sub(self.both)
    }

    fn add(&mut self, other: Self) {
        self.first = self.first.saturating_add(other.first);
        self.second = self.second.saturating_add(other.second);
        self.both = self.both.saturating_add(other.both);
    }
}

/// How many there were in all, by what two looks found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InAll {
    /// The estimate. Never fewer than were found.
    pub estimate: f64,
    /// The lower bound of the 95 % interval: no fewer than were found.
    pub low: u32,
    /// The upper bound; none where both found nothing of the other's: then nothing bounds it.
    pub high: Option<u32>,
}

/// Chapman's estimate of how many there are, from two independent looks, with the exact 95 % interval.
///
/// `(first + 1)(second + 1) / (both + 1) - 1` (D. G. Chapman, "Some properties of the hypergeometric distribution with applications
/// to zoological sample censuses", Univ. Calif. Publ. Stat. 1, 1951, pp. 131–160). The interval holds every number of which what both
/// found, or less, and what both found, or more, each have a chance of 2.5 % at least by the hypergeometric distribution: no normal
/// curve is fitted to few counts. `None` where nothing was found by either, or the counts cannot be.
pub fn chapman_95(looks: Looks) -> Option<InAll> {
    let Looks { first, second, both } = looks;
    if both > first.min(second) || looks.found() == 0 || first.max(second) > MOST {
        return None;
    }
    let [a, b, m] = [first, second, both].map(f64::from);
    let estimate = (a + 1.0) * (b + 1.0) / (m + 1.0) - 1.0;
    let found = f64::from(looks.found());
    // The chance that both find no more than they did falls as there are fewer; that they find no less, as there are more.
    let low = least(found, estimate.max(found), |all| tails(all, looks).0 >= 0.025);
    let high = match both {
        0 => None,
        _ => {
            let mut above = estimate.max(found).ceil().max(1.0);
            while above < MOST_IN_ALL && tails(above, looks).1 >= 0.025 {
                above *= 2.0;
            }
            let first_beyond = least(found, above, |all| tails(all, looks).1 < 0.025);
            Some(whole((first_beyond - 1.0).max(found)))
        }
    };
    Some(InAll { estimate, low: whole(low), high })
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "between nought and a thousand million"
)]
fn whole(number: f64) -> u32 {
    number.clamp(0.0, MOST_IN_ALL) as u32
}

/// The least whole number from `low` to `high` of which it holds, where it holds of all above; `high` where of none.
fn least(mut low: f64, mut high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    (low, high) = (low.floor(), high.ceil());
    while low < high {
        let middle = ((low + high) / 2.0).floor();
        if holds(middle) { high = middle } else { low = middle + 1.0 }
    }
    high
}

/// The chances that two looks at so many in all have no more in common than these, and no less.
fn tails(all: f64, looks: Looks) -> (f64, f64) {
    let [a, b, m] = [looks.first, looks.second, looks.both].map(f64::from);
    let (fewest, most) = ((a + b - all).max(0.0), a.min(b));
    // Logarithms of each chance beside that of what was found, so that nothing is too large or too small to be added.
    let step = |k: f64| ((a - k) * (b - k) / ((k + 1.0) * (all - a - b + k + 1.0))).ln();
    let mut below = vec![0.0];
    let (mut k, mut log) = (m, 0.0);
    while k > fewest {
        k -= 1.0;
        log -= step(k);
        below.push(log);
    }
    let mut above = vec![0.0];
    (k, log) = (m, 0.0);
    while k < most {
        log += step(k);
        k += 1.0;
        above.push(log);
    }
    let top = below.iter().chain(&above).copied().fold(f64::NEG_INFINITY, f64::max);
    let sum = |logs: &[f64]| logs.iter().map(|log| (log - top).exp()).sum::<f64>();
    let (down, up, here) = (sum(&below), sum(&above), (-top).exp());
    let total = down + up - here;
    (down / total, up / total)
}

/// An inspection as it is held beside another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LookRow {
    /// The load number.
    pub load: String,
    /// The tag: another tag is another load.
    pub tag: Digest,
    /// The list that was walked.
    pub procedure: String,
    /// Who looked.
    pub inspector: String,
    /// When it was sealed.
    pub issued: Time,
    /// Each point and deficiency that was found there, and whether it was put right before this one was sealed.
    pub found: Vec<(String, String, bool)>,
}

/// What pairs of looks came to: in all, by point, and how well each inspector looks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SecondLooks {
    /// Pairs of inspections.
    pub pairs: u32,
    /// All points together.
    pub all: Looks,
    /// By procedure and point.
    pub points: BTreeMap<(String, String), Looks>,
    /// By inspector: of what the other found, how many this one found too.
    pub inspectors: BTreeMap<String, Share>,
}

/// Holds each inspection beside the next of the same load, tag and list by somebody else, within [`SAME_LOOK`]. What the first put
/// right was not there for the second to find, and is left out.
pub fn second_looks(rows: &[LookRow]) -> SecondLooks {
    let mut of_load: BTreeMap<(&str, Digest, &str), Vec<&LookRow>> = BTreeMap::new();
    for row in rows {
        of_load.entry((&row.load, row.tag, &row.procedure)).or_default().push(row);
    }
    let mut all = SecondLooks::default();
    let mut counted: BTreeMap<&str, (u64, u64)> = BTreeMap::new();
    for looks in of_load.values_mut() {
        looks.sort_by(|one, other| (one.issued, &one.inspector).cmp(&(other.issued, &other.inspector)));
        let mut left = looks.as_slice();
        while let [first, second, rest @ ..] = left {
            let apart = second.issued.unix().saturating_sub(first.issued.unix());
            if first.inspector == second.inspector || apart > SAME_LOOK.0 {
                left = left.get(1..).unwrap_or_default();
                continue;
            }
            left = rest;
            all.pairs += 1;
            let corrected: BTreeSet<(&str, &str)> = first
                .found
                .iter()
                .filter(|(.., right)| *right)
                .map(|(point, name, _)| (&**point, &**name))
                .collect();
            let open = |row: &'_ &LookRow| -> BTreeSet<(String, String)> {
                let found = row.found.iter().map(|(point, name, _)| (point.clone(), name.clone()));
                found.filter(|(point, name)| !corrected.contains(&(&**point, &**name))).collect()
            };
            let (one, other) = (open(first), open(second));
            for finding in one.union(&other) {
                let looks = Looks {
                    first: one.contains(finding).into(),
                    second: other.contains(finding).into(),
                    both: (one.contains(finding) && other.contains(finding)).into(),
                };
                all.all.add(looks);
                all.points.entry((first.procedure.clone(), finding.0.clone())).or_default().add(looks);
            }
            let both = one.intersection(&other).count() as u64;
            for (who, of) in [(&first.inspector, other.len()), (&second.inspector, one.len())] {
                let (found, all) = counted.entry(who).or_default();
                *found += both;
                *all += of as u64;
            }
        }
    }
    all.inspectors =
        counted.into_iter().map(|(who, (found, of))| (who.to_owned(), Share::new(found, of))).collect();
    all
}

#[cfg(test)]
mod tests {
    use super::{LookRow, Looks, chapman_95, second_looks, tails};
    use slingseal_words::{Digest, Seconds, Time};

    fn looks(first: u32, second: u32, both: u32) -> Looks {
        Looks { first, second, both }
    }

    /// Examples as the R package FSA 0.9 checks its own `mrClosed(method = "Chapman")` by: C. J. Krebs, Ecological Methodology (1989),
    /// box 2.1; W. E. Ricker, Bull. Fish. Res. Board Canada 191 (1975); W. E. Pine and others, Fisheries Techniques (2013), box 11.2;
    /// G. A. F. Seber, The Estimation of Animal Abundance (2002), tables 3.7 and 3.8.
    #[test]
    fn published_examples() {
        for (first, second, both, published) in [
            (948, 421, 167, 2383.0),
            (109, 177, 57, 337.0),
            (421, 332, 88, 1578.0),
            (500, 149, 7, 9393.0),
            (1000, 243, 21, 11101.0),
        ] {
            let in_all = chapman_95(looks(first, second, both)).unwrap();
            assert!((in_all.estimate - published).abs() <= 1.0, "{first} {second} {both}: {in_all:?}");
            assert!(f64::from(in_all.low) < published && published < f64::from(in_all.high.unwrap()));
        }
    }

    #[test]
    fn tails_by_hand() {
        // Of 3 in all, looks of 2 and 2 share 1 with a chance of 2/3 and 2 with 1/3; of 4 in all, none 1/6, one 4/6, two 1/6.
        let close = |(one, other): (f64, f64), (a, b): (f64, f64)| {
            (one - a).abs() < 1e-12 && (other - b).abs() < 1e-12
        };
        assert!(close(tails(3.0, looks(2, 2, 1)), (2.0 / 3.0, 1.0)));
        assert!(close(tails(4.0, looks(2, 2, 1)), (5.0 / 6.0, 5.0 / 6.0)));
        assert!(close(tails(4.0, looks(2, 2, 2)), (1.0, 1.0 / 6.0)));
        assert!(close(tails(4.0, looks(2, 2, 0)), (1.0 / 6.0, 1.0)));
        // Of 52 cards 4 aces, 13 drawn: no ace 0.303817527010804 (39·38·37·36 / 52·51·50·49).
        assert!((tails(52.0, looks(4, 13, 0)).0 - 0.303_817_527_010_804).abs() < 1e-12);
    }

    #[test]
    fn few_counts_are_honest() {
        assert_eq!(chapman_95(looks(0, 0, 0)), None);
        assert_eq!(chapman_95(looks(2, 1, 2)), None);
        // Nothing in common bounds nothing.
        let none = chapman_95(looks(3, 2, 0)).unwrap();
        assert_eq!((none.estimate, none.high), (11.0, None));
        // Both found the same two: that is no proof that there are two.
        let same = chapman_95(looks(2, 2, 2)).unwrap();
        assert_eq!((same.estimate, same.low), (2.0, 2));
        assert!(same.high.unwrap() > 6, "{same:?}");
        let more = chapman_95(looks(40, 40, 40)).unwrap();
        assert!(more.high.unwrap() < 45, "{more:?}");
    }

    /// Every outcome of two looks, weighed by its chance: the interval holds the true number at least 95 times in a hundred, and the
    /// estimate is right on the average where both together look at as many as there are (Chapman's own condition).
    #[test]
    fn the_interval_holds_and_the_estimate_is_not_biased() {
        for all in [5u32, 12, 30, 60] {
            for (first, second) in [(3, 4), (5, 5), (10, 12), (25, 20), (40, 50)] {
                if first > all || second > all {
                    continue;
                }
                let (mut held, mut mean, mut sum) = (0.0, 0.0, 0.0);
                let fewest = (first + second).saturating_sub(all);
                for both in fewest..=first.min(second) {
                    let (no_more, no_less) = tails(f64::from(all), looks(first, second, both));
                    let chance = no_more + no_less - 1.0;
                    let in_all = chapman_95(looks(first, second, both)).unwrap();
                    sum += chance;
                    mean += chance * in_all.estimate;
                    if in_all.low <= all && in_all.high.is_none_or(|high| all <= high) {
                        held += chance;
                    }
                }
                assert!((sum - 1.0).abs() < 1e-9);
                assert!(held > 0.95 - 1e-9, "{all} {first} {second}: held {held}");
                if first + second >= all {
                    assert!((mean - f64::from(all)).abs() < 1e-6, "{all} {first} {second}: {mean}");
                }
            }
        }
    }

    /// Inspectors who each find a deficiency with a chance of their own, by a generator that is written out here.
    #[test]
    fn simulation() {
        let mut state = 0x5EED_u64;
        let mut chance = move || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 11) as f64 / (1u64 << 53) as f64
        };
        let (all, runs) = (80, 2_000);
        let (mut held, mut sum) = (0, 0.0);
        for _ in 0..runs {
            let mut seen = Looks::default();
            for _ in 0..all {
                let (one, other) = (chance() < 0.6, chance() < 0.75);
                seen.add(looks(one.into(), other.into(), (one && other).into()));
            }
            let in_all = chapman_95(seen).unwrap();
            sum += in_all.estimate;
            held += i32::from(in_all.low <= all && in_all.high.is_none_or(|high| all <= high));
        }
        assert!((sum / f64::from(runs) - f64::from(all)).abs() < 0.5, "{}", sum / f64::from(runs));
        assert!(held >= runs * 95 / 100, "{held} of {runs}");
    }

    fn row(load: &str, who: &str, seconds: i64, found: &[(&str, bool)]) -> LookRow {
        LookRow {
            load: load.into(),
            tag: Digest::of(load.as_bytes()),
            procedure: "bag".into(),
            inspector: who.into(),
            issued: Time::parse("2026-07-09").unwrap().plus(Seconds(seconds)),
            found: found.iter().map(|(name, right)| ("legs".into(), (*name).into(), *right)).collect(),
        }
    }

    #[test]
    fn pairs_are_of_one_load_by_two_people_in_one_look() {
        let rows = [
            row("KM-1", "Anvil", 0, &[("twisted", false), ("worn", true)]),
            // what was put right was not there; and the third is nobody's second
            row("KM-1", "Drover", 600, &[("twisted", false), ("loose", true)]),
            row("KM-1", "Cinder", 1_200, &[]),
            // the same person again, another load, a day later
            row("KM-2", "Anvil", 0, &[("worn", false)]),
            row("KM-2", "Anvil", 60, &[("worn", false)]),
            row("KM-3", "Anvil", 0, &[]),
            row("KM-3", "Drover", 86_400, &[("worn", false)]),
        ];
        let seen = second_looks(&rows);
        assert_eq!((seen.pairs, seen.all), (1, looks(1, 2, 1)));
        assert_eq!(seen.points.len(), 1);
        let of = |who: &str| seen.inspectors.get(who).map(|share| (share.found, share.of));
        assert_eq!((of("Anvil"), of("Drover"), of("Cinder")), (Some((1, 2)), Some((1, 1)), None));
        let mut turned = rows.to_vec();
        turned.reverse();
        assert_eq!(second_looks(&turned), seen, "in whatever order they came");
    }
}
