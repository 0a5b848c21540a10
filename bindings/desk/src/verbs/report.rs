//! `report`: what became of a load; `arrival`: what it is and what was done to it.

use slingseal_app::catalogue::{Saying, desk as words};
use std::process::ExitCode;

use slingseal_app::{
    AppError, ArrivalView, Language, MovementView, PieceReport, ReportRequest, Time, visibly,
};

use super::setting::Setting;
use super::tag::{self, LABEL};
use super::verify;
use crate::cli::Report;
use crate::input;
use crate::output::{bad_input, file_name, print_json, put_code, put_code_beside_json, told};
use crate::platform::{Secret, ask};

pub(crate) fn run(setting: &Setting, report: Report) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let mut request = ReportRequest {
        cause: report.cause.as_deref().map(str::parse).transpose().map_err(bad_input)?,
        aircraft: report.aircraft,
        place: report.place,
        note: report.note,
        pieces: report.pieces.iter().map(|text| piece(text)).collect::<Result<_, _>>()?,
        ..ReportRequest::of(report.event.parse().map_err(bad_input)?)
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
            _ => return Err(bad_input(words::NameOneLoad)),
        }
    }
    let pin = if report.sign { Some(ask(&app, Secret::Pin, false)?) } else { None };
    let made = app.report(&request, pin.as_ref().map(|pin| pin.as_str()))?;
    let name = format!("report-{}", file_name(&made.report.load));
    if setting.json {
        put_code_beside_json(&made.code, report.out.as_deref(), &name)?;
        print_json(&made);
    } else {
        println!("{}", line(&made.report, setting.language));
        println!("{}", words::HandCodeToLeader { check: &made.code.check }.say(setting.language));
        told(&put_code(&made.code, report.out.as_deref(), &name)?);
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
                return Err(bad_input(words::NothingOfPiece { text: other, serial }));
            }
        }
    }
    Ok(piece)
}

fn time(text: &str) -> Result<i64, AppError> {
    Ok(Time::parse(text).map_err(bad_input)?.unix())
}

/// A report in a line.
pub(crate) fn line(report: &MovementView, language: Language) -> String {
    let MovementView { load, what, at, origin, .. } = report;
    let mut said: Vec<Saying> = vec![words::ReportLine { load, event: what, at: &at.dtg, origin }.into()];
    if report.later {
        said.push(words::ReportedLater { at: &report.written.dtg }.into());
    }
    if let Some(verdict) = report.verdict {
        said.push(words::ReportShown { verdict: verdict.word() }.into());
        said.extend(report.reason.iter().map(Saying::verbatim));
    }
    said.extend(report.aircraft.iter().map(|aircraft| words::ReportAircraft { aircraft }.into()));
    said.extend(report.place.iter().map(|place| words::ReportPlace { place }.into()));
    said.extend(report.note.iter().map(|note| words::ReportNote { note }.into()));
    said.extend(report.pieces.iter().map(|piece| {
        let serial = &piece.serial;
        match (piece.back, piece.damaged) {
            (true, true) => words::PieceBackDamaged { serial }.into(),
            (true, false) => words::PieceBack { serial }.into(),
            _ => words::PieceDamaged { serial }.into(),
        }
    }));
    visibly(&Saying::joined(said, ", ").say(language))
}

fn show(arrival: &ArrivalView, language: Language) {
    match &arrival.tag {
        Some(view) => tag::show(view, language),
        None => println!("{}", words::LoadAlone { load: &arrival.load }.say(language)),
    }
    if !arrival.state_title.is_empty() {
        let beside = if arrival.unsigned { format!("; {}", arrival.reported) } else { String::new() };
        let label = words::RowState.say(language);
        println!("  {label:<LABEL$} {}", visibly(&format!("{}{beside}", arrival.state_title)));
    }
    for report in &arrival.reports {
        println!("  - {}", line(report, language));
    }
    for piece in arrival.pieces.iter().filter(|piece| piece.back || piece.damaged) {
        let state: Saying = match (piece.back, piece.damaged) {
            (true, true) => words::IsBackDamaged.into(),
            (true, false) => words::IsBack.into(),
            (false, true) => words::IsNotBackDamaged.into(),
            (false, false) => words::IsNotBack.into(),
        };
        println!("  {:<LABEL$} {}: {}", visibly(&piece.kind), visibly(&piece.serial), state.say(language));
    }
}
