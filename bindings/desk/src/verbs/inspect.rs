//! `inspect`: the walk in the terminal.

use std::io::IsTerminal;
use std::path::PathBuf;
use std::process::ExitCode;

use slingseal_app::{App, AppError};

use super::Setting;
use crate::output::bad_input;
use crate::terminal::{self, Ask};
use crate::{console, input, platform};

pub(crate) fn run(
    setting: &Setting,
    tag: Option<&str>,
    out: Option<PathBuf>,
    walk: Option<&str>,
) -> Result<ExitCode, AppError> {
    let tag = tag.map(input::code).transpose()?;
    let home = setting.home()?;
    let full_screen = std::io::stdin().is_terminal() && console::is_terminal() && !setting.json;
    let app = if full_screen { platform::open(&home, setting.language)? } else { setting.app()? };
    let walk = walk.map(|digits| whole(&app, digits)).transpose()?;
    let ask = Ask { home, language: setting.language, out, tag, walk, run: None };
    if full_screen {
        terminal::screen(app, ask)?;
        return Ok(ExitCode::SUCCESS);
    }
    terminal::lines(&app, &ask, setting.json)
}

/// The walk in hand that begins so, or that is of this load.
fn whole(app: &App, digits: &str) -> Result<String, AppError> {
    let in_hand = app.start()?.in_hand;
    let mut fitting =
        in_hand.iter().filter(|line| line.walk.starts_with(digits) || line.load.eq_ignore_ascii_case(digits));
    match (fitting.next(), fitting.next()) {
        (Some(only), None) => Ok(only.walk.clone()),
        (Some(_), Some(_)) => Err(bad_input(&format!("several walks fit {digits}; give more digits"))),
        (None, _) => Err(bad_input(&format!("no walk in hand fits {digits}; see inspect without --walk"))),
    }
}
