//! `void`: take a seal back.

use std::path::Path;
use std::process::ExitCode;

use slingseal_app::AppError;

use super::Setting;
use crate::input;
use crate::output::{print_json, put_code, told};
use crate::platform::{Secret, ask};

pub(crate) fn run(
    setting: &Setting,
    seal: &str,
    cause: &str,
    note: Option<&str>,
    out: Option<&Path>,
) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let record = if seal.len() == 64 && seal.bytes().all(|byte| byte.is_ascii_hexdigit()) {
        seal.to_owned()
    } else {
        let verdict = app.check(Some(&input::code(seal)?), None)?;
        verdict.facts.map(|facts| facts.record).unwrap_or_default()
    };
    let code = app.void(&record, cause, note, &ask(&app, Secret::Pin, false)?)?;
    if setting.json {
        print_json(&code);
    } else {
        println!("Voided. Hand this code to every device on the zone:");
        told(&put_code(&code, out, "void")?);
    }
    Ok(ExitCode::SUCCESS)
}
