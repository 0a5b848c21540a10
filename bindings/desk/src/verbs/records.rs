//! `records`: list, show, export, print, verify.

use slingseal_app::catalogue::{closing, desk as words};
use std::path::Path;
use std::process::ExitCode;

use slingseal_app::catalogue::Saying;
use slingseal_app::{
    App, AppError, ExportTable, Language, RecordLine, RecordStanding, RecordView, code_of, visibly,
};

use super::setting::Setting;
use super::verify;
use crate::cli::{RecordsVerb, Table};
use crate::console::{self, Shown};
use crate::output::{bad_input, clock, file_name, print_json, put_code, told, write, write_whole};
use slingseal_paper::{Paper, record_pdf};

pub(crate) fn run(setting: &Setting, verb: RecordsVerb) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    match verb {
        RecordsVerb::List { words, most } => {
            let words = (!words.is_empty()).then(|| words.join(" "));
            let records = app.records(words.as_deref(), most)?;
            if setting.json {
                print_json(&records);
            } else {
                console::paged(
                    &records.iter().map(|one| line(one, setting.language) + "\n").collect::<String>(),
                );
            }
        }
        RecordsVerb::Show { record } => {
            let view = app.record(&whole(&app, &record)?)?;
            if setting.json {
                print_json(&view);
            } else {
                story(&view, setting.language);
            }
        }
        RecordsVerb::Seal { record, out } => {
            let seal = app.show_seal(&whole(&app, &record)?)?;
            let files = match &out {
                Some(out) => {
                    put_code(&seal.code, Some(out), &format!("seal-{}", file_name(&seal.facts.load)))?
                }
                None => Vec::new(),
            };
            if setting.json {
                print_json(&seal);
            } else if out.is_some() {
                told(&files);
            } else {
                print!("{}", seal.code.terminal()?);
                verify::show(&seal.verdict, setting.language);
            }
        }
        RecordsVerb::Print { record, out, letter } => {
            let view = app.record(&whole(&app, &record)?)?;
            let paper = if letter { Paper::Letter } else { Paper::A4 };
            write(&out, &record_pdf(&view, Some(&code_of(&view.seal)?), paper, setting.language)?)?;
            if setting.json {
                print_json(&serde_json::json!({ "record": view.line.record, "file": out }));
            } else {
                told(&[out]);
            }
        }
        RecordsVerb::Export { files, csv, parquet, of } => {
            for file in &files {
                let rows =
                    if parquet { as_parquet(&app, file)? } else { export(setting, &app, file, csv, of)? };
                if setting.json {
                    print_json(&serde_json::json!({ "file": file, "rows": rows }));
                } else {
                    println!(
                        "  {}",
                        words::FileWithRows { file: &file.shown(), rows: &rows }.say(setting.language)
                    );
                }
            }
        }
        RecordsVerb::Verify => {
            let audit = app.audit()?;
            if setting.json {
                print_json(&audit);
            } else {
                let said = words::AuditLookedAt {
                    records: words::CountRecords { count: audit.records }.saying(),
                    entries: words::CountEntries { count: audit.entries }.saying(),
                    papers: words::CountPapers { count: audit.papers }.saying(),
                };
                println!("{}", said.say(setting.language));
                for fault in &audit.faults {
                    println!("  {}", words::AuditFault { fault }.say(setting.language));
                }
                for note in &audit.notes {
                    println!("  {}", words::AuditNote { note }.say(setting.language));
                }
                if audit.faults.is_empty() {
                    println!("  {}", words::EverythingHolds.say(setting.language));
                }
            }
            if !audit.faults.is_empty() {
                return Ok(ExitCode::FAILURE);
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

/// Writes the account, whole or not at all. The ending tells the form where no flag does.
fn export(setting: &Setting, app: &App, file: &Path, csv: bool, of: Table) -> Result<u64, AppError> {
    let ending = |wanted: &str| file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(wanted));
    if !csv && ending("sql") {
        return write_whole(file, |out| app.export_sql(out));
    }
    let as_csv = match (csv, ending("csv"), setting.json || ending("json")) {
        (true, ..) | (false, true, _) => true,
        (false, false, true) => false,
        (false, false, false) => {
            let message = words::CsvOrJson { file: &file.shown() };
            return Err(bad_input(message));
        }
    };
    write_whole(file, |out| if as_csv { app.export_csv(table(of), out) } else { app.export_json(out) })
}

/// Writes the account's tables into a folder, a Parquet file each.
#[cfg(feature = "parquet")]
fn as_parquet(app: &App, folder: &Path) -> Result<u64, AppError> {
    crate::files::write_set(folder, |place| app.export_tables(&mut slingseal_parquet::TableFiles::new(place)))
}

#[cfg(not(feature = "parquet"))]
fn as_parquet(_: &App, _: &Path) -> Result<u64, AppError> {
    Err(bad_input(words::BuiltWithoutParquet))
}

fn table(of: Table) -> ExportTable {
    match of {
        Table::Records => ExportTable::Records,
        Table::Deficiencies => ExportTable::Deficiencies,
        Table::Equipment => ExportTable::Equipment,
    }
}

/// The whole digest of a load's newest record, or of the first digits of one among the newest.
pub(super) fn whole(app: &App, digits: &str) -> Result<String, AppError> {
    const NEWEST: u32 = 10_000;
    if digits.len() == 64 {
        return Ok(digits.to_owned());
    }
    let found = app.records(Some(digits), NEWEST)?;
    if let Some(newest) = found.iter().find(|line| line.load.eq_ignore_ascii_case(digits)) {
        return Ok(newest.record.clone());
    }
    let known = app.records(None, NEWEST)?;
    let mut fitting = known.iter().filter(|line| line.record.starts_with(digits));
    match (fitting.next(), fitting.next()) {
        (Some(only), None) => Ok(only.record.clone()),
        (Some(_), Some(_)) => Err(bad_input(words::SeveralRecordsStart { digits: &digits })),
        (None, _) => Err(bad_input(words::NoSuchRecord { digits: &digits, newest: &NEWEST })),
    }
}

fn line(line: &RecordLine, language: Language) -> String {
    let outcome = if line.fit { words::Fit.saying() } else { words::NotFit.into() };
    let standing: Saying = match line.standing {
        RecordStanding::Current => words::StandingCurrent.into(),
        RecordStanding::Superseded => words::StandingSuperseded.into(),
        RecordStanding::Voided => words::StandingVoided.into(),
        RecordStanding::Refused => words::StandingRefused.into(),
        RecordStanding::Waiting => words::StandingWaiting.into(),
        RecordStanding::NoInspection => words::StandingNoInspection.into(),
    };
    let expired = if line.expired { words::AndExpired.say(language) } else { String::new() };
    let found = words::FoundCorrected { found: line.found, corrected: line.corrected };
    visibly(&format!(
        "{}  {:<12} {:<8} {}{expired}  {}  {}  {}",
        line.record.chars().take(8).collect::<String>(),
        line.load,
        outcome.say(language),
        standing.say(language),
        line.issued.dtg,
        line.inspector,
        found.say(language)
    ))
}

fn story(view: &RecordView, language: Language) {
    println!("{}", line(&view.line, language));
    if let (Some(seconds), Some(cards)) = (view.line.walk_seconds, view.line.walk_cards) {
        let took = clock(seconds);
        let said: Saying = match view.line.walked_too_fast {
            true => closing::WalkTooFastTold { took, cards }.into(),
            false => closing::WalkTook { took, cards }.into(),
        };
        println!("{}: {}", closing::LabelWalkedIn.say(language), said.say(language));
    }
    if let Some(tag) = &view.tag {
        let said = words::TagInALine {
            description: &tag.description,
            gross: &tag.gross,
            aircraft: &tag.aircraft,
            allowable: &tag.allowable,
            from: &tag.pickup.name,
            to: &tag.destination.name,
        };
        println!("{}", said.say(language));
        tag.basis.lines.iter().for_each(|line| println!("  {}: {}", line.label, line.text));
    }
    for void in &view.voids {
        println!("{}", words::VoidLine { void }.say(language));
    }
    for moment in &view.timeline {
        println!("  {}  {}", moment.at.dtg, moment.what);
    }
}
