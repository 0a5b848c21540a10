//! `rigging`: statics of a rigged load. 0 within limits, 10 over by the rule that the file names alone, 11 over a limit or not
//! hanging, 1 bad input. `weigh`, `solve` and `flight`: 0 within limits, 10 within them only as read, at rest or below a speed, 11 over.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use slingseal_app::catalogue::desk;
use slingseal_app::{
    AppError, LiftRequest, LiftSheet, RiggingRequest, RiggingSheet, SolveRequest, VerdictWord,
    assess_rigging, fly_lift, solve_lift, weigh_lift,
};

use super::setting::Setting;
use crate::cli::{Rigging, RiggingVerb};
use crate::console::{self, Shown};
use crate::{input, output};
use slingseal_paper::{Head, Paper, aircrew_pdf, rigging_pdf};

pub(crate) fn run(setting: &Setting, rigging: Rigging) -> Result<ExitCode, AppError> {
    let Rigging { verb, file, links, factor, picture, sheet, aircrew } = rigging;
    let Some(file) = file else { return planned(setting, verb) };
    let papers = Papers { pictures: picture, sheet, aircrew };
    assess(setting, &file, links, factor, &papers)
}

fn planned(setting: &Setting, verb: Option<RiggingVerb>) -> Result<ExitCode, AppError> {
    match verb {
        Some(RiggingVerb::Weigh { file, factor }) => {
            let request = lift(setting, &file, factor)?;
            shown(setting, &weigh_lift(&request).map_err(|error| input::named(&file, &error))?)
        }
        Some(RiggingVerb::Flight { file }) => {
            let request = lift(setting, &file, None)?;
            shown(setting, &fly_lift(&request).map_err(|error| input::named(&file, &error))?)
        }
        Some(RiggingVerb::Solve {
            file,
            level: _,
            pitch,
            roll,
            nose_down_at_least,
            between,
            most,
            factor,
            picture,
            out,
        }) => {
            let request = SolveRequest {
                lift: lift(setting, &file, factor)?,
                pitch_deg: pitch,
                roll_deg: roll,
                nose_down_at_least,
                most,
                between,
            };
            let sheet = solve_lift(&request).map_err(|error| input::named(&file, &error))?;
            if let Some(best) = &sheet.best {
                picture.iter().try_for_each(|picture| draw(best, picture))?;
                if let Some(out) = out {
                    output::write(&out, best.toml().as_bytes())?;
                }
            }
            shown(setting, &sheet)
        }
        // The command line wants a file where no verb is named.
        None => Ok(ExitCode::from(2)),
    }
}

fn lift(setting: &Setting, file: &Path, factor: Option<f64>) -> Result<LiftRequest, AppError> {
    Ok(LiftRequest { text: input::text(file)?, factor, language: setting.language })
}

fn shown(setting: &Setting, sheet: &LiftSheet) -> Result<ExitCode, AppError> {
    if setting.json {
        console::json(&sheet.json);
    } else {
        print!("{}", sheet.report);
    }
    Ok(super::verify::exit(match (sheet.good, sheet.wait) {
        (true, _) => VerdictWord::Go,
        (false, true) => VerdictWord::Wait,
        (false, false) => VerdictWord::NoGo,
    }))
}

/// What is drawn and printed of a file.
struct Papers {
    pictures: Vec<PathBuf>,
    sheet: Option<PathBuf>,
    aircrew: Option<PathBuf>,
}

fn assess(
    setting: &Setting,
    file: &Path,
    links: Vec<String>,
    factor: Option<f64>,
    papers: &Papers,
) -> Result<ExitCode, AppError> {
    let text = input::text(file)?;
    // A wrong link or factor is not a fault of the file: only the file's own faults get its name in front.
    let plain =
        RiggingRequest { text: text.clone(), language: setting.language, ..RiggingRequest::default() };
    assess_rigging(&plain).map_err(|error| input::named(file, &error))?;
    let sheet = assess_rigging(&RiggingRequest { text, links, factor, language: setting.language })?;
    for picture in &papers.pictures {
        draw(&sheet, picture)?;
    }
    print(setting, file, &plain, &sheet, papers)?;
    if setting.json {
        console::json(&sheet.json);
    } else {
        print!("{}", sheet.report);
    }
    // A load over a limit, or one that does not hang, must not go: a script sees it without reading.
    Ok(super::verify::exit(match (sheet.within_limits, sheet.over_by_rule) {
        (true, false) => VerdictWord::Go,
        (true, true) => VerdictWord::Wait,
        (false, _) => VerdictWord::NoGo,
    }))
}

fn print(
    setting: &Setting,
    file: &Path,
    request: &RiggingRequest,
    sheet: &RiggingSheet,
    papers: &Papers,
) -> Result<(), AppError> {
    let view = sheet.view(setting.language);
    let name = file.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let head = Head { load: &name, ..Head::default() };
    if let Some(out) = &papers.sheet {
        output::write(out, &rigging_pdf(&view, head, Paper::A4, setting.language)?)?;
    }
    if let Some(out) = &papers.aircrew {
        let lift = LiftRequest { text: request.text.clone(), factor: None, language: setting.language };
        // A file that tells nothing of a flight has a sheet without it.
        let flight = fly_lift(&lift).ok().map(|sheet| sheet.report);
        output::write(out, &aircrew_pdf(&view, flight.as_deref(), head, Paper::A4, setting.language)?)?;
    }
    Ok(())
}

fn draw(sheet: &RiggingSheet, picture: &Path) -> Result<(), AppError> {
    let ending = picture.extension().map(|ending| ending.to_string_lossy().to_ascii_lowercase());
    match ending.as_deref() {
        Some("svg") => output::write(picture, sheet.svg().as_bytes()),
        Some("png") => output::write(picture, &sheet.png()?),
        _ => Err(output::bad_input(desk::NoKindOfPicture { path: picture.shown() })),
    }
}
