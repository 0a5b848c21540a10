//! `rigging`: statics of a rigged load. 0 within limits, 10 over by the rule that the file names alone, 11 over a limit or not
//! hanging, 1 bad input.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use slingseal_app::{AppError, RiggingRequest, RiggingSheet, VerdictWord, assess_rigging};

use super::Setting;
use crate::console::{self, Shown};
use crate::{input, output};

pub(crate) fn run(
    setting: &Setting,
    file: &Path,
    links: Vec<String>,
    factor: Option<f64>,
    pictures: &[PathBuf],
) -> Result<ExitCode, AppError> {
    let text = input::text(file)?;
    // A wrong link or factor is not a fault of the file: only the file's own faults get its name in front.
    let plain = RiggingRequest { text: text.clone(), ..RiggingRequest::default() };
    assess_rigging(&plain).map_err(|error| input::named(file, &error))?;
    let sheet = assess_rigging(&RiggingRequest { text, links, factor })?;
    for picture in pictures {
        draw(&sheet, picture)?;
    }
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

fn draw(sheet: &RiggingSheet, picture: &Path) -> Result<(), AppError> {
    let ending = picture.extension().map(|ending| ending.to_string_lossy().to_ascii_lowercase());
    match ending.as_deref() {
        Some("svg") => output::write(picture, sheet.svg().as_bytes()),
        Some("png") => output::write(picture, &sheet.png()?),
        _ => Err(output::bad_input(format!(
            "{} is no kind of picture; end its name in .svg or .png",
            picture.shown()
        ))),
    }
}
