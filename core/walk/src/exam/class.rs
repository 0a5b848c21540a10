//! A class: who was examined how often, what was missed, how long each card took.

use std::collections::{BTreeMap, BTreeSet};

use super::{ExamResult, Outcome};
use crate::procedure::CardNo;
use slingseal_words::{Digest, LoadNumber, ProcedureId, Seconds, person_key};

/// One result, and the how-manieth of its student on that load it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Attempt {
    /// Its place in the list that was given.
    pub place: usize,
    /// The student, as a number: one person, however the name was spelt.
    pub student: usize,
    /// From one. What is over one is a retest: the student on the same load, under whichever key.
    pub number: u32,
}

/// Numbers the attempts of each student on each load, by the time of beginning. The answer is in the order of students' names,
/// loads and attempts.
pub fn attempts(results: &[ExamResult]) -> Vec<Attempt> {
    // One person goes by a key in which look-alikes are one; people are listed by the first of their names as it is read.
    let mut people: BTreeMap<String, String> = BTreeMap::new();
    for result in results {
        let name = result.student.as_str().to_lowercase();
        let known = people.entry(person_key(&result.student)).or_insert_with(|| name.clone());
        *known = known.clone().min(name);
    }
    let listed: BTreeSet<(String, String)> = people.into_iter().map(|(key, name)| (name, key)).collect();
    let numbers: BTreeMap<String, usize> =
        listed.into_iter().enumerate().map(|(at, (_, key))| (key, at)).collect();
    let mut order: Vec<(usize, &LoadNumber, i64, usize)> = results
        .iter()
        .enumerate()
        .filter_map(|(place, result)| {
            let student = numbers.get(&person_key(&result.student))?;
            Some((*student, &result.load, result.began.unix(), place))
        })
        .collect();
    order.sort_unstable();
    let mut given: BTreeMap<(usize, &LoadNumber), u32> = BTreeMap::new();
    order
        .into_iter()
        .map(|(student, load, _, place)| {
            let number = given.entry((student, load)).or_default();
            *number += 1;
            Attempt { place, student, number: *number }
        })
        .collect()
}

/// A student's account.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StudentLine {
    /// The student, as a number.
    pub student: usize,
    /// Runs in all.
    pub runs: u32,
    /// Runs that passed.
    pub passed: u32,
    /// Runs whose clock jumped.
    pub unclear: u32,
    /// First attempts.
    pub first: u32,
    /// First attempts that passed.
    pub first_passed: u32,
    /// Loads that were passed in the end.
    pub loads_passed: u32,
    /// Loads in all.
    pub loads: u32,
    /// Deficiencies planted and found, over all runs.
    pub planted: u32,
    /// Of which were found.
    pub found: u32,
    /// Calls where nothing was wrong.
    pub false_calls: u32,
}

/// The account of every student, in the order of their names.
pub fn by_student(results: &[ExamResult], attempts: &[Attempt]) -> Vec<StudentLine> {
    let mut lines: BTreeMap<usize, StudentLine> = BTreeMap::new();
    let mut loads: BTreeMap<(usize, &LoadNumber), bool> = BTreeMap::new();
    for attempt in attempts {
        let Some(result) = results.get(attempt.place) else { continue };
        let line = lines.entry(attempt.student).or_insert_with(|| StudentLine {
            student: attempt.student,
            runs: 0,
            passed: 0,
            unclear: 0,
            first: 0,
            first_passed: 0,
            loads_passed: 0,
            loads: 0,
            planted: 0,
            found: 0,
            false_calls: 0,
        });
        let (passed, first) = (result.tally.outcome == Outcome::Passed, attempt.number == 1);
        line.runs += 1;
        line.passed += u32::from(passed);
        line.unclear += u32::from(result.tally.outcome == Outcome::Unclear);
        line.first += u32::from(first);
        line.first_passed += u32::from(first && passed);
        line.planted += u32::from(result.standard.planted());
        line.found += u32::from(result.tally.found);
        line.false_calls += u32::from(result.tally.false_calls);
        *loads.entry((attempt.student, &result.load)).or_default() |= passed;
    }
    for ((student, _), passed) in loads {
        if let Some(line) = lines.get_mut(&student) {
            line.loads += 1;
            line.loads_passed += u32::from(passed);
        }
    }
    lines.into_values().collect()
}

/// How often a deficiency was missed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MissedCount {
    /// Of which procedure.
    pub procedure: ProcedureId,
    /// What it is called: a deficiency of that name at any point.
    pub name: String,
    /// How often it was missed.
    pub missed: u32,
    /// How often it was planted before a student.
    pub of: u32,
}

/// Counts what was planted before a student and missed, by procedure and name; the most missed share first.
pub fn missed_counts(seen: &[super::Observation]) -> Vec<MissedCount> {
    let mut counts: BTreeMap<(&ProcedureId, &str), (u32, u32)> = BTreeMap::new();
    for one in seen {
        let count = counts.entry((&one.item.procedure, one.item.planted.name.as_str())).or_default();
        count.0 += u32::from(!one.found);
        count.1 += 1;
    }
    let mut list: Vec<MissedCount> = counts
        .into_iter()
        .map(|((procedure, name), (missed, of))| MissedCount {
            procedure: procedure.clone(),
            name: name.to_owned(),
            missed,
            of,
        })
        .collect();
    // By the share, as whole numbers: a/b before c/d where a·d > c·b.
    list.sort_by(|a, b| {
        let (one, other) = (u64::from(a.missed) * u64::from(b.of), u64::from(b.missed) * u64::from(a.of));
        other
            .cmp(&one)
            .then(b.missed.cmp(&a.missed))
            .then_with(|| (&a.procedure, &a.name).cmp(&(&b.procedure, &b.name)))
    });
    list
}

/// How long a card took.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CardTime {
    /// Of which procedure: SHA-256 of its file.
    pub procedure: Digest,
    /// Which card.
    pub card: CardNo,
    /// In how many runs it was stood at.
    pub runs: u32,
    /// The middle one of the times, the lower of two.
    pub median: Seconds,
    /// The longest.
    pub longest: Seconds,
    /// All together.
    pub sum: Seconds,
}

/// Times by card over runs, in the order of procedures and cards.
pub fn card_times<'t>(runs: impl IntoIterator<Item = (Digest, &'t super::Timing)>) -> Vec<CardTime> {
    let mut times: BTreeMap<(Digest, CardNo), Vec<i64>> = BTreeMap::new();
    for (procedure, timing) in runs {
        for (card, seconds) in &timing.cards {
            times.entry((procedure, *card)).or_default().push(seconds.0);
        }
    }
    times
        .into_iter()
        .filter_map(|((procedure, card), mut times)| {
            times.sort_unstable();
            Some(CardTime {
                procedure,
                card,
                runs: u32::try_from(times.len()).ok()?,
                median: Seconds(*times.get(times.len().saturating_sub(1) / 2)?),
                longest: Seconds(*times.last()?),
                sum: Seconds(times.iter().sum()),
            })
        })
        .collect()
}
