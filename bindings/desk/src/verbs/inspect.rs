//! `inspect`: the walk in the terminal.

use std::io::IsTerminal;
use std::path::PathBuf;
use std::process::ExitCode;

use slingseal_app::{App, AppError};

use super::Setting;
use crate::output::{self, bad_input};
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
    super::tell_who_signs(&app, Some("inspector"))?;
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
        let until = one.fit_until.map(|until| format!(", fit until {}", until.dtg)).unwrap_or_default();
        println!(
            "{:<16} {:<12} {}  {}  by {}{until}",
            one.name,
            one.procedure,
            if one.fit { "FIT    " } else { "NOT FIT" },
            one.at.dtg,
            one.inspector
        );
    }
    Ok(ExitCode::SUCCESS)
}

/// The walk in hand that begins so, or that is of this load.
fn whole(app: &App, digits: &str) -> Result<String, AppError> {
    let in_hand = app.start()?.in_hand;
    let mut fitting =
        in_hand.iter().filter(|line| line.walk.starts_with(digits) || line.load.eq_ignore_ascii_case(digits));
    match (fitting.next(), fitting.next()) {
        (Some(only), None) => Ok(only.walk.clone()),
        (Some(_), Some(_)) => Err(bad_input(format!("several inspections fit {digits}; give more digits"))),
        (None, _) => {
            Err(bad_input(format!("no inspection in hand fits {digits}; see inspect without --walk")))
        }
    }
}
