//! Examinations, the class: what to teach next, and to whom.

use slingseal_catalogue::exams as exam_words;
use std::collections::BTreeMap;

use serde::Serialize;

use crate::exams::debrief::ExamResultLine;
use crate::exams::result::{Held, result_lines};
use crate::procedures::expanded_of;
use crate::{App, AppError, Inner};
use slingseal_account::report::wilson_95;
use slingseal_walk::exam::{self, Attempt, ExamResult, ItemName, Observation};
use slingseal_walk::procedure::Expanded;
use slingseal_words::{Digest, Language, Ratio, Saying, Time};

/// Which results a class is of.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ClassRequest {
    /// Of one procedure: its id.
    pub procedure: Option<String>,
    /// Runs begun at this time or later: a date, RFC 3339, or a date-time group.
    pub since: Option<String>,
    /// Runs begun before this time.
    pub until: Option<String>,
}

/// A class. What is missed, the items and the cards are counted over first attempts whose sheet is here: in a retest the
/// student knows the load.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ClassView {
    /// Students, by name.
    pub students: Vec<StudentView>,
    /// Every result, by student, load and attempt.
    pub attempts: Vec<ExamResultLine>,
    /// Deficiencies by procedure and name, the most missed share first.
    pub missed: Vec<MissedView>,
    /// Every planted point, in the order of the load: how hard it is, and whether those who are good find it.
    pub items: Vec<ItemView>,
    /// Time by card, in the order of the load.
    pub cards: Vec<ClassCardView>,
    /// First attempts that count in the last three.
    pub counted: u32,
    /// What does not count, and why.
    pub warnings: Vec<String>,
}

/// A student.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StudentView {
    /// The name, as it was first given.
    pub student: String,
    /// Runs in all.
    pub runs: u32,
    /// Runs that passed.
    pub passed: u32,
    /// Runs whose clock jumped, so that they are to be run again.
    pub unclear: u32,
    /// Retests: runs on a load that the student had run before.
    pub retests: u32,
    /// First attempts that passed.
    pub first_passed: u32,
    /// Loads that were passed in the end.
    pub loads_passed: u32,
    /// Loads in all.
    pub loads: u32,
    /// Planted, over all runs.
    pub planted: u32,
    /// Of which were found.
    pub found: u32,
    /// Calls where nothing was wrong.
    pub false_calls: u32,
}

/// How often a deficiency was missed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MissedView {
    /// The procedure's id.
    pub procedure: String,
    /// The deficiency, at whatever point.
    pub deficiency: String,
    /// Missed.
    pub missed: u32,
    /// Of how often it was planted before a student.
    pub of: u32,
    /// The share.
    pub share: f64,
    /// The lower bound, 95 %, Wilson.
    pub low: f64,
    /// The upper bound.
    pub high: f64,
}

/// An item: one deficiency at one point.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ItemView {
    /// The procedure's id.
    pub procedure: String,
    /// The card's number; nought where the procedure is not here.
    pub card: u32,
    /// The point's id.
    pub point: String,
    /// The deficiency.
    pub deficiency: String,
    /// Found.
    pub found: u32,
    /// Of how many students.
    pub of: u32,
    /// Difficulty p: the share that found it.
    pub difficulty: f64,
    /// Discrimination D, upper less lower 27 % (Kelley 1939); none with fewer than four students.
    pub discrimination: Option<f64>,
    /// Corrected point-biserial correlation with the rest of the score; none where it is not defined.
    pub point_biserial: Option<f64>,
    /// What to make of it, in plain words.
    pub words: String,
}

/// Time at a card.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClassCardView {
    /// The procedure's id.
    pub procedure: String,
    /// The card's number.
    pub card: u32,
    /// Its station.
    pub station: String,
    /// Its title.
    pub title: String,
    /// Runs that stood at it.
    pub runs: u32,
    /// The middle time, in seconds; of two middle ones the lower.
    pub median_s: u32,
    /// The mean.
    pub mean_s: f64,
    /// The longest.
    pub longest_s: u32,
}

impl App {
    /// The class: by student and attempt, what is missed most, the items, the time by card.
    ///
    /// # Errors
    /// A time that cannot be read; storage.
    pub fn exam_class(&self, request: &ClassRequest) -> Result<ClassView, AppError> {
        self.lock().exam_class(request)
    }
}

impl Inner {
    fn exam_class(&self, request: &ClassRequest) -> Result<ClassView, AppError> {
        let time =
            |text: &Option<String>| text.as_deref().map(Time::parse).transpose().map_err(AppError::bad_input);
        let (since, until) = (time(&request.since)?, time(&request.until)?);
        let (mut held, mut warnings) = self.held_results()?;
        held.retain(|one| {
            let (began, procedure) = (one.result.began, one.result.procedure.as_str());
            since.is_none_or(|since| began >= since)
                && until.is_none_or(|until| began < until)
                && request.procedure.as_deref().is_none_or(|wanted| wanted.eq_ignore_ascii_case(procedure))
        });
        let results: Vec<ExamResult> = held.iter().map(|one| one.result.clone()).collect();
        let attempts = exam::attempts(&results);
        for one in &held {
            let (student, load) = (&one.result.student, &one.result.load);
            if let Some(doubt) = &one.doubt {
                warnings.push(
                    exam_words::RunInDoubt { student: &student, load: &load, doubt: &doubt }
                        .say(self.language()),
                );
            } else if one.scored.is_none() {
                warnings.push(
                    exam_words::RunSheetMissing { student: &student, load: &load }.say(self.language()),
                );
            }
        }
        let mut seen = Vec::new();
        let mut timed = Vec::new();
        let mut plans: BTreeMap<String, (Digest, Expanded)> = BTreeMap::new();
        let mut counted = 0;
        for attempt in attempts.iter().filter(|attempt| attempt.number == 1) {
            let Some(one) = held.get(attempt.place) else { continue };
            let Some((score, timing)) = &one.scored else { continue };
            counted += 1;
            seen.extend(score.items.iter().map(|item| Observation {
                student: attempt.student,
                item: ItemName { procedure: one.result.procedure.clone(), planted: item.planted.clone() },
                found: item.call.found(),
            }));
            if let Some((digest, plan)) = self.walked_plan(one)? {
                timed.push((digest, timing));
                plans.entry(digest.to_string()).or_insert((digest, plan));
            }
        }
        let mut items: Vec<ItemView> = exam::item_stats(&seen)
            .iter()
            .map(|stat| item_view(stat, plans.values(), self.language()))
            .collect();
        items.sort_by(|a, b| {
            let place = |item: &ItemView| (item.procedure.clone(), item.card, item.point.clone());
            place(a).cmp(&place(b))
        });
        let plan_of = |digest: &Digest| plans.get(&digest.to_string()).map(|(_, plan)| plan);
        Ok(ClassView {
            students: students(&results, &attempts),
            attempts: result_lines(&held),
            missed: missed(&seen),
            items,
            cards: exam::card_times(timed)
                .iter()
                .filter_map(|time| card_view(time, plan_of(&time.procedure)?))
                .collect(),
            counted,
            warnings,
        })
    }

    fn walked_plan(&self, held: &Held) -> Result<Option<(Digest, Expanded)>, AppError> {
        let read = self.store.read();
        let Some(lock) = read.exam_paper(held.result.key)? else { return Ok(None) };
        let (lock, _) = exam::Lock::open(&lock.bytes)?;
        let plan = expanded_of(&read, &lock.procedure_digest, self.language()).ok();
        Ok(plan.map(|plan| (lock.procedure_digest, plan)))
    }
}

fn students(results: &[ExamResult], attempts: &[Attempt]) -> Vec<StudentView> {
    let name = |student: usize| {
        let first = attempts.iter().find(|attempt| attempt.student == student);
        first
            .and_then(|attempt| results.get(attempt.place))
            .map(|result| result.student.to_string())
            .unwrap_or_default()
    };
    exam::by_student(results, attempts)
        .into_iter()
        .map(|line| StudentView {
            student: name(line.student),
            runs: line.runs,
            passed: line.passed,
            unclear: line.unclear,
            retests: line.runs.saturating_sub(line.first),
            first_passed: line.first_passed,
            loads_passed: line.loads_passed,
            loads: line.loads,
            planted: line.planted,
            found: line.found,
            false_calls: line.false_calls,
        })
        .collect()
}

fn missed(seen: &[Observation]) -> Vec<MissedView> {
    exam::missed_counts(seen)
        .into_iter()
        .filter_map(|count| {
            let interval = wilson_95(count.missed, count.of)?;
            Some(MissedView {
                procedure: count.procedure.to_string(),
                deficiency: count.name,
                missed: count.missed,
                of: count.of,
                share: interval.share.value(),
                low: interval.low.value(),
                high: interval.high.value(),
            })
        })
        .collect()
}

fn item_view<'p>(
    stat: &exam::ItemStat,
    plans: impl Iterator<Item = &'p (Digest, Expanded)>,
    language: Language,
) -> ItemView {
    let point = &stat.item.planted.point;
    let card = plans
        .filter(|(_, plan)| plan.id == stat.item.procedure)
        .find_map(|(_, plan)| plan.point(point).map(|(card, _)| card.number.number()));
    ItemView {
        procedure: stat.item.procedure.to_string(),
        card: card.unwrap_or(0),
        point: point.to_string(),
        deficiency: stat.item.planted.name.clone(),
        found: stat.found,
        of: stat.of,
        difficulty: stat.difficulty.value(),
        discrimination: stat.discrimination.map(Ratio::value),
        point_biserial: stat.point_biserial.map(Ratio::value),
        words: advice(stat).say(language),
    }
}

/// What an instructor may make of an item. The bounds (0.3 and 0.9 for p, 0.2 for D) are common practice in item analysis.
fn advice(stat: &exam::ItemStat) -> Saying {
    let p = stat.difficulty.value();
    let d = stat.discrimination.or(stat.point_biserial).map(Ratio::value);
    match d {
        Some(d) if d < 0.0 => exam_words::WeakerFindIt.into(),
        _ if p < 0.3 => exam_words::MostMissIt.into(),
        _ if p > 0.9 => exam_words::NearlyAllFindIt.into(),
        Some(d) if d < 0.2 => exam_words::TellsButLittle.into(),
        Some(_) => exam_words::TellsGoodFromWeak.into(),
        None => exam_words::TooFewStudents.into(),
    }
}

fn card_view(time: &exam::CardTime, plan: &Expanded) -> Option<ClassCardView> {
    let card = plan.card(time.card)?;
    let small = |seconds: i64| u32::try_from(seconds).unwrap_or(u32::MAX);
    Some(ClassCardView {
        procedure: plan.id.to_string(),
        card: card.number.number(),
        station: plan.stations.get(card.station).map(|station| station.title.clone()).unwrap_or_default(),
        title: card.title.clone(),
        runs: time.runs,
        median_s: small(time.median.0),
        mean_s: time.sum.0 as f64 / f64::from(time.runs.max(1)),
        longest_s: small(time.longest.0),
    })
}
