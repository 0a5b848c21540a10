use super::ExamError;
use super::plant::{MOST_PLANTED, Planted, PlantedList};
use crate::procedure::{Card, Expanded, Fate};
use slingseal_words::Digest;

/// Chances out of a seed: SHA-256 over the seed and a count. The same seed draws the same on every machine.
struct Chances<'s> {
    seed: &'s [u8],
    count: u64,
}

impl Chances<'_> {
    /// A number below `bound`, each as likely as the other; nought for a bound of nought.
    fn below(&mut self, bound: usize) -> usize {
        let bound = bound as u64;
        if bound < 2 {
            return 0;
        }
        // The last, incomplete round of the bound would favour the low numbers: such a draw is thrown away.
        let limit = u64::MAX - u64::MAX % bound;
        loop {
            let digest = Digest::of_parts(&[b"slingseal draw 1", &self.count.to_be_bytes(), self.seed]);
            self.count += 1;
            let number = digest.as_bytes().iter().take(8).fold(0u64, |sum, byte| sum << 8 | u64::from(*byte));
            if number < limit {
                return usize::try_from(number % bound).unwrap_or(0);
            }
        }
    }

    /// Fisher and Yates: takes one at a time out of what is left.
    fn shuffle<T>(&mut self, mut list: Vec<T>) -> Vec<T> {
        let mut out = Vec::with_capacity(list.len());
        while !list.is_empty() {
            let at = self.below(list.len());
            out.push(list.swap_remove(at));
        }
        out
    }
}

/// Draws so many deficiencies: spread over the stations (none has two more than another that has room), one a card at most,
/// and none but those that riggers can put right where the load stands: what spoils equipment is for the instructor to pick.
///
/// # Errors
/// More than there is room for.
pub fn draw(plan: &Expanded, count: usize, seed: &[u8]) -> Result<PlantedList, ExamError> {
    if count == 0 {
        return Err(ExamError::NothingPlanted);
    }
    if count > MOST_PLANTED {
        return Err(ExamError::TooMany { found: count, most: MOST_PLANTED });
    }
    let mut chances = Chances { seed, count: 0 };
    let stations: Vec<Vec<&Card>> = (0..plan.stations.len())
        .map(|station| {
            plan.cards.iter().filter(|card| card.station == station && !choices(card).is_empty()).collect()
        })
        .filter(|cards: &Vec<&Card>| !cards.is_empty())
        .collect();
    let room = stations.iter().map(Vec::len).sum();
    if count > room {
        return Err(ExamError::NoRoom { wanted: count, room, procedure: plan.id.clone() });
    }
    let stations: Vec<Vec<&Card>> =
        chances.shuffle(stations).into_iter().map(|cards| chances.shuffle(cards)).collect();
    let mut planted = Vec::new();
    // Round after round, one a station: the first of each, then the second.
    for round in 0.. {
        for card in stations.iter().filter_map(|cards| cards.get(round)) {
            if planted.len() == count {
                return PlantedList::new(plan, planted);
            }
            let mut choices = choices(card);
            let points: Vec<usize> = {
                let mut points: Vec<usize> = choices.iter().map(|(point, _)| *point).collect();
                points.dedup();
                points
            };
            // First the point, then the name: a point with many names is no likelier than another.
            let at = chances.below(points.len());
            choices.retain(|(point, _)| points.get(at) == Some(point));
            let at = chances.below(choices.len());
            planted.extend(choices.into_iter().nth(at).map(|(_, planted)| planted));
        }
        if planted.len() == count {
            break;
        }
    }
    PlantedList::new(plan, planted)
}

/// What can be planted on a card, by the place of its point.
fn choices(card: &Card) -> Vec<(usize, Planted)> {
    let points = card.points.iter().enumerate();
    points
        .flat_map(|(at, point)| {
            point
                .deficiencies
                .iter()
                .filter(|known| known.fate == Fate::InPlace)
                .map(move |known| (at, Planted { point: point.id.clone(), name: known.name.clone() }))
        })
        .collect()
}
