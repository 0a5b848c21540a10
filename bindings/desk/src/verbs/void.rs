//! `void`: take a seal back.

use slingseal_app::catalogue::desk as words;
use std::path::Path;
use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::AppError;

use super::setting::{Setting, tell_who_signs};
use crate::input;
use crate::output::{Answer, answer_code, bad_input, file_name};
use crate::platform::{Secret, ask};

/// What was taken back, as an answer.
#[derive(Serialize)]
struct Voided {
    load: String,
    record: String,
    void: String,
}

pub(crate) fn run(
    setting: &Setting,
    seal: &str,
    cause: &str,
    note: Option<&str>,
    out: Option<&Path>,
) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let cause = cause.parse().map_err(bad_input)?;
    let record = if seal == "-" || seal.contains(':') || Path::new(seal).exists() {
        let verdict = app.check(Some(&input::code(seal)?), None)?;
        let none = || bad_input(words::NoSealReadable);
        verdict.facts.map(|facts| facts.record).ok_or_else(none)?
    } else {
        super::records::whole(&app, seal)?
    };
    tell_who_signs(&app, None)?;
    let code = app.void(&record, cause, note, &ask(&app, Secret::Pin, false)?)?;
    let view = app.record(&record)?;
    let void = view.voids.last().cloned().unwrap_or_default();
    let said = words::SealVoidMade { load: &view.line.load, by: &view.line.inspector, void: &void }
        .say(setting.language);
    let more = Voided { load: view.line.load, record, void };
    let name = format!("void-{}", file_name(&more.load));
    answer_code(setting.json, &Answer { code: &code, more }, &said, out, &name)?;
    Ok(ExitCode::SUCCESS)
}
