//! A class as tables for a spreadsheet: RFC 4180, UTF-8, one header line each.

use crate::exams::class::ClassView;
use crate::{App, AppError, ClassRequest};

/// A table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClassTable {
    /// What its file is called.
    pub name: String,
    /// Its text.
    pub csv: String,
}

impl App {
    /// The class as tables: results, students, missed, items, cards.
    ///
    /// # Errors
    /// As `exam_class`.
    pub fn exam_class_csv(&self, request: &ClassRequest) -> Result<Vec<ClassTable>, AppError> {
        tables(&self.exam_class(request)?)
    }
}

fn tables(class: &ClassView) -> Result<Vec<ClassTable>, AppError> {
    let number = |value: f64| format!("{value:.4}");
    let maybe = |value: Option<f64>| value.map(number).unwrap_or_default();
    Ok(vec![
        table(
            "results",
            "student,instructor,load,procedure,attempt,began,seconds,planted,found,false_calls,clock_jumps,outcome,key,result",
            class.attempts.iter().map(|line| {
                vec![
                    text(&line.student),
                    text(&line.instructor),
                    text(&line.load),
                    text(&line.procedure),
                    line.attempt.to_string(),
                    line.began.rfc3339.clone(),
                    line.seconds.to_string(),
                    line.of.to_string(),
                    line.found.to_string(),
                    line.false_calls.to_string(),
                    line.clock_jumps.to_string(),
                    line.outcome.word().to_owned(),
                    line.key.clone(),
                    line.result.clone(),
                ]
            }),
        )?,
        table(
            "students",
            "student,runs,passed,unclear,retests,first_passed,loads_passed,loads,planted,found,false_calls",
            class.students.iter().map(|line| {
                let numbers = [
                    line.runs,
                    line.passed,
                    line.unclear,
                    line.retests,
                    line.first_passed,
                    line.loads_passed,
                    line.loads,
                    line.planted,
                    line.found,
                    line.false_calls,
                ];
                std::iter::once(text(&line.student)).chain(numbers.map(|number| number.to_string())).collect()
            }),
        )?,
        table(
            "missed",
            "procedure,deficiency,missed,of,share,wilson_95_low,wilson_95_high",
            class.missed.iter().map(|line| {
                vec![
                    text(&line.procedure),
                    text(&line.deficiency),
                    line.missed.to_string(),
                    line.of.to_string(),
                    number(line.share),
                    number(line.low),
                    number(line.high),
                ]
            }),
        )?,
        table(
            "items",
            "procedure,card,point,deficiency,found,of,difficulty_p,discrimination_d27,point_biserial_corrected,words",
            class.items.iter().map(|line| {
                vec![
                    text(&line.procedure),
                    line.card.to_string(),
                    text(&line.point),
                    text(&line.deficiency),
                    line.found.to_string(),
                    line.of.to_string(),
                    number(line.difficulty),
                    maybe(line.discrimination),
                    maybe(line.point_biserial),
                    text(&line.words),
                ]
            }),
        )?,
        table(
            "cards",
            "procedure,card,station,title,runs,median_s,mean_s,longest_s",
            class.cards.iter().map(|line| {
                vec![
                    text(&line.procedure),
                    line.card.to_string(),
                    text(&line.station),
                    text(&line.title),
                    line.runs.to_string(),
                    line.median_s.to_string(),
                    format!("{:.1}", line.mean_s),
                    line.longest_s.to_string(),
                ]
            }),
        )?,
    ])
}

fn table(name: &str, head: &str, rows: impl Iterator<Item = Vec<String>>) -> Result<ClassTable, AppError> {
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(head.split(',')).map_err(AppError::internal)?;
    for row in rows {
        writer.write_record(&row).map_err(AppError::internal)?;
    }
    let bytes = writer.into_inner().map_err(AppError::internal)?;
    Ok(ClassTable { name: name.into(), csv: String::from_utf8(bytes).map_err(AppError::internal)? })
}

/// A name is somebody else's word.
fn text(cell: &str) -> String {
    slingseal_account::report::guarded(cell)
}
