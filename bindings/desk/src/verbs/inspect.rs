//! `inspect`: the walk in the terminal.

use slingseal_app::catalogue::desk as words;
use std::io::IsTerminal;
use std::path::PathBuf;
use std::process::ExitCode;

use slingseal_app::catalogue::Saying;
use slingseal_app::{App, AppError, Subject};

use super::setting::{Setting, tell_who_signs};
use crate::output::{self, bad_input};
use crate::platform::Secret;
use crate::terminal::{self, Ask};
use crate::{console, input, platform};

pub(crate) fn run(
    setting: &Setting,
    tag: Option<&str>,
    out: Option<PathBuf>,
    walk: Option<&str>,
    list: Option<(&str, &str)>,
) -> Result<ExitCode, AppError> {
    let tag = tag.map(input::code).transpose()?;
    let home = setting.home()?;
    let full_screen = std::io::stdin().is_terminal() && console::is_terminal() && !setting.json;
    let app = if full_screen { setting.quiet_app()? } else { setting.app()? };
    tell_who_signs(&app, Some(slingseal_app::Role::Inspector))?;
    let walk = match list {
        Some((procedure, of)) => Some(app.begin_inspection(procedure, of)?.walk),
        None => walk.map(|digits| whole(&app, digits)).transpose()?,
    };
    let ask = Ask { home, language: setting.language, out, tag, walk, run: None, begin: None };
    if full_screen {
        terminal::screen(app, ask)?;
        return Ok(ExitCode::SUCCESS);
    }
    platform::in_turns(&app, || terminal::lines(&app, &ask, setting.json))
}

/// What was inspected on this device and is no load.
pub(crate) fn kept(setting: &Setting) -> Result<ExitCode, AppError> {
    let kept = setting.app()?.kept_inspections()?;
    if setting.json {
        output::print_json(&kept);
        return Ok(ExitCode::SUCCESS);
    }
    for one in kept {
        let language = setting.language;
        let until = one.fit_until.map(|until| words::KeptFitUntil { until: until.dtg }.say(language));
        let id: String = one.walk.chars().take(8).collect();
        let signed = match &one.signed {
            Some(_) => words::KeptSigned.say(language),
            None => words::KeptNotSigned { id }.say(language),
        };
        let by = words::AtBy { at: &one.at.dtg, by: &one.inspector }.say(language);
        let fit = if one.fit { words::KeptFit.say(language) } else { words::KeptNotFit.say(language) };
        println!(
            "{:<16} {:<12} {fit:<7}  {by}{}{signed}",
            one.name,
            one.procedure,
            until.unwrap_or_default()
        );
    }
    Ok(ExitCode::SUCCESS)
}

/// Signs an inspection of what is no load, as its inspector: it travels then, and a piece is fit until, or withdrawn, for whoever
/// hears of it.
pub(crate) fn sign(setting: &Setting, which: &str, out: Option<PathBuf>) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let kept = app.kept_inspections()?;
    let unsigned = kept.iter().filter(|one| one.signed.is_none());
    let mut fitting =
        unsigned.filter(|one| one.walk.starts_with(which) || one.name.eq_ignore_ascii_case(which));
    let walk = match (fitting.next(), fitting.next()) {
        (Some(only), None) => only.walk.clone(),
        (Some(_), Some(_)) => {
            return Err(bad_input(words::SeveralInspectionsOfId { which: &which }));
        }
        (None, _) => {
            return Err(bad_input(words::NoUnsignedInspection { which: &which }));
        }
    };
    let pin = platform::ask(&app, Secret::Pin, false)?;
    let signed = app.sign_inspection(&walk, &pin)?;
    let name = format!("inspection-{}", output::file_name(&signed.name));
    if setting.json {
        output::put_code_beside_json(&signed.code, out.as_deref(), &name)?;
        output::print_json(&signed);
        return Ok(ExitCode::SUCCESS);
    }
    let found: Saying = match (signed.fit, &signed.fit_until) {
        (true, Some(until)) => words::SignedFitUntil { until: &until.dtg }.into(),
        (true, None) => words::SignedFit.into(),
        (false, _) if signed.subject == Subject::Piece => words::SignedWithdrawn.into(),
        (false, _) => words::SignedNotFit.into(),
    };
    let said = words::InspectionSigned { name: &signed.name, found, by: &signed.inspector };
    println!("{}", said.say(setting.language));
    output::told(&output::put_code(&signed.code, out.as_deref(), &name)?);
    Ok(ExitCode::SUCCESS)
}

/// The walk in hand that begins so, or that is of this load.
fn whole(app: &App, digits: &str) -> Result<String, AppError> {
    let in_hand = app.start()?.in_hand;
    let mut fitting =
        in_hand.iter().filter(|line| line.walk.starts_with(digits) || line.load.eq_ignore_ascii_case(digits));
    match (fitting.next(), fitting.next()) {
        (Some(only), None) => Ok(only.walk.clone()),
        (Some(_), Some(_)) => Err(bad_input(words::SeveralInspectionsFit { digits: &digits })),
        (None, _) => Err(bad_input(words::NoInspectionInHand { digits: &digits })),
    }
}
