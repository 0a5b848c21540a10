//! `report`: what became of a load; `arrival`: what it is and what was done to it.

use std::process::ExitCode;

use slingseal_app::{
    AppError, ArrivalView, Language, MovementView, PieceReport, ReportRequest, Time, visibly,
};

use super::{Setting, tag, verify};
use crate::cli::Report;
use crate::input;
use crate::output::{bad_input, file_name, print_json, put_code, told};
use crate::platform::{Secret, ask};

pub(crate) fn run(setting: &Setting, report: Report) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let mut request = ReportRequest {
        event: report.event,
        cause: report.cause,
        aircraft: report.aircraft,
        place: report.place,
        note: report.note,
        pieces: report.pieces.iter().map(|text| piece(text)).collect::<Result<_, _>>()?,
        ..ReportRequest::default()
    };
    request.happened = report.at.as_deref().map(time).transpose()?;
    for photo in &report.photos {
        request.photos.push(app.add_photo(&input::file(photo)?)?);
    }
    // Codes are judged first, as at the hook: the verdict that is shown goes into the report.
    if report
        .load
        .iter()
        .any(|argument| argument.contains(':') || std::path::Path::new(argument).exists() || argument == "-")
    {
        let mut codes = Vec::new();
        for argument in &report.load {
            codes.extend(input::codes(argument)?);
        }
        let verdict = app.check_all(&codes)?;
        if !setting.json {
            verify::show(&verdict, setting.language);
        }
    } else {
        match report.load.as_slice() {
            [load] => request.load = Some(load.clone()),
            _ => return Err(bad_input("name one load by its number, or give the codes of its seal and tag")),
        }
    }
    let pin = if report.sign { Some(ask(&app, Secret::Pin, false)?) } else { None };
    let made = app.report(&request, pin.as_ref().map(|pin| pin.as_str()))?;
    if setting.json {
        print_json(&made);
    } else {
        println!("{}", line(&made.report));
        println!(
            "Hand this code to the leader, or let it go with the next bundle (check {}):",
            made.code.check
        );
        told(&put_code(
            &made.code,
            report.out.as_deref(),
            &format!("report-{}", file_name(&made.report.load)),
        )?);
    }
    Ok(ExitCode::SUCCESS)
}

pub(crate) fn arrival(setting: &Setting, load: &str) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let code = load.contains(':') || std::path::Path::new(load).exists() || load == "-";
    let text = if code { input::code(load)? } else { load.to_owned() };
    let arrival = app.arrival(&text)?;
    if setting.json {
        print_json(&arrival);
    } else {
        show(&arrival, setting.language);
    }
    Ok(ExitCode::SUCCESS)
}

/// `SL-1=back`, `SL-1=damaged`, `SL-1=back,damaged`; a serial number alone is back.
fn piece(text: &str) -> Result<PieceReport, AppError> {
    let (serial, words) = text.rsplit_once('=').unwrap_or((text, "back"));
    let mut piece = PieceReport { serial: serial.to_owned(), ..PieceReport::default() };
    for word in words.split(',') {
        match word.trim() {
            "back" => piece.back = true,
            "damaged" => piece.damaged = true,
            other => {
                return Err(bad_input(format!(
                    "\"{}\" says nothing of a piece; write {serial}=back, {serial}=damaged or {serial}=back,damaged",
                    visibly(other)
                )));
            }
        }
    }
    Ok(piece)
}

fn time(text: &str) -> Result<i64, AppError> {
    Ok(Time::parse(text).map_err(|error| bad_input(error.to_string()))?.unix())
}

/// A report in a line.
pub(crate) fn line(report: &MovementView) -> String {
    let MovementView { load, what, at, origin, .. } = report;
    let mut words = format!("Load {load}: {what}, {} ({origin})", at.dtg);
    if report.later {
        words += &format!(", reported {}", report.written.dtg);
    }
    if let Some(verdict) = &report.verdict {
        let reason = report.reason.as_ref().map(|reason| format!(", {reason}")).unwrap_or_default();
        words += &format!(", shown: {verdict}{reason}");
    }
    for (name, text) in [("aircraft", &report.aircraft), ("at", &report.place), ("note", &report.note)] {
        if let Some(text) = text {
            words += &format!(", {name} {text}");
        }
    }
    for piece in &report.pieces {
        let state = match (piece.back, piece.damaged) {
            (true, true) => "back, damaged",
            (true, false) => "back",
            _ => "damaged",
        };
        words += &format!(", piece {} {state}", piece.serial);
    }
    visibly(&words)
}

fn show(arrival: &ArrivalView, language: Language) {
    match &arrival.tag {
        Some(view) => tag::show(view, language),
        None => println!("Load {}", visibly(&arrival.load)),
    }
    if !arrival.state_title.is_empty() {
        let beside = if arrival.unsigned { format!("; {}", arrival.reported) } else { String::new() };
        println!("  State        {}", visibly(&format!("{}{beside}", arrival.state_title)));
    }
    for report in &arrival.reports {
        println!("  - {}", line(report));
    }
    for piece in arrival.pieces.iter().filter(|piece| piece.back || piece.damaged) {
        let back = if piece.back { "back" } else { "not back" };
        let damaged = if piece.damaged { ", damaged" } else { "" };
        println!("  {:<12} {}: {back}{damaged}", visibly(&piece.kind), visibly(&piece.serial));
    }
}
