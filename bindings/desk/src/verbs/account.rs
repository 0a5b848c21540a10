//! `account`: close a day, an operation or some loads: what does not add up, and the statement that a leader hands up.

use std::path::Path;
use std::process::ExitCode;

use slingseal_app::catalogue::desk as words;
use slingseal_app::{AppError, CloseRequest, CloseView, Language, visibly};

use super::Setting;
use crate::cli::{AccountVerb, Close};
use crate::output::{bad_input, file_name, print_json, put_code, told, write};
use crate::platform::{Secret, ask};
use crate::print::{Paper, closing_pdf};

pub(crate) fn run(setting: &Setting, verb: AccountVerb) -> Result<ExitCode, AppError> {
    match verb {
        AccountVerb::Close(close) => run_close(setting, close),
        AccountVerb::Equipment { csv: Some(file), .. } => {
            write(&file, setting.app()?.piece_lives_csv()?.as_bytes())?;
            told(&[file]);
            Ok(ExitCode::SUCCESS)
        }
        AccountVerb::Equipment { open, csv: None } => {
            let mut lives = setting.app()?.piece_lives()?;
            lives.retain(|life| !open || matches!(life.state.as_str(), "out" | "lost" | "damaged"));
            if setting.json {
                print_json(&lives);
            } else {
                lives.iter().for_each(|life| println!("{}", piece(life)));
            }
            Ok(ExitCode::SUCCESS)
        }
        #[cfg(feature = "exchange")]
        AccountVerb::Push(server) => super::exchange::push(setting, &server),
        #[cfg(feature = "exchange")]
        AccountVerb::Pull { server, again } => super::exchange::pull(setting, &server, again),
        #[cfg(feature = "exchange")]
        AccountVerb::Follow { server, every } => super::exchange::follow(setting, &server, every),
        #[cfg(feature = "exchange")]
        AccountVerb::ServerSql => {
            print!("{}\n{}", slingseal_exchange::SCHEMA, slingseal_exchange::ROLES);
            Ok(ExitCode::SUCCESS)
        }
        AccountVerb::Withdraw { serial, why, out } => withdraw(setting, &serial, &why, out.as_deref()),
        AccountVerb::SecondLook { days, draw } => super::second_look::run(setting, days, draw),
        AccountVerb::LeastSeconds { seconds } => {
            setting.app()?.set_least_seconds(seconds)?;
            match seconds {
                Some(seconds) => {
                    println!("A walk of less than {seconds} s a card is marked. It is a sign, not a proof.")
                }
                None => println!("No least time a card is set."),
            }
            Ok(ExitCode::SUCCESS)
        }
    }
}

fn piece(life: &slingseal_app::PieceLifeView) -> String {
    let on = life.load.as_ref().map(|load| format!(", load {load}")).unwrap_or_default();
    let since = life.since.as_ref().map(|since| format!(" since {}", since.dtg)).unwrap_or_default();
    let (serial, kind, state) = (&life.serial, &life.kind, life.state.replace('_', " "));
    visibly(&format!(
        "{serial:<16} {kind}: {state}{on}{since}; {} lifts with {} kg, {} inspections",
        life.lifts, life.carried_kg, life.inspections
    ))
}

fn withdraw(setting: &Setting, serial: &str, why: &str, out: Option<&Path>) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let said = app.withdraw_piece(serial, why, &ask(&app, Secret::Pin, false)?)?;
    if setting.json {
        print_json(&said);
    } else {
        let (name, by) = (visibly(&said.name), visibly(&said.inspector));
        println!(
            "{}",
            visibly(
                &words::PieceIsWithdrawn { name: &name, by: &by, at: &said.issued.dtg }.say(setting.language)
            )
        );
        told(&put_code(&said.code, out, &format!("withdrawn-{}", file_name(&said.name)))?);
    }
    Ok(ExitCode::SUCCESS)
}

fn run_close(setting: &Setting, close: Close) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let request = CloseRequest { day: close.day, loads: close.loads, name: close.name };
    for text in &close.explain {
        let (point, note) = text.split_once('=').ok_or_else(|| {
            bad_input("write --explain POINT=NOTE, with the point's id as account close shows it")
        })?;
        app.explain(point.trim(), note)?;
    }
    if close.sign {
        let made = app.sign_closing(&request, &ask(&app, Secret::Pin, false)?)?;
        let name = format!("closing-{}", file_name(&made.statement.name));
        if setting.json {
            print_json(&made);
        } else {
            println!(
                "Closed: {}, signed by {} {}. Check {}.",
                visibly(&made.statement.name),
                visibly(&made.statement.by),
                made.statement.issued.dtg,
                made.statement.check
            );
        }
        let mut files = Vec::new();
        match (&made.code, &close.out) {
            (Some(code), out) => files.extend(put_code(code, out.as_deref(), &name)?),
            (None, None) => println!("{}", made.text),
            (None, Some(_)) => {}
        }
        if let Some(folder) = &close.out {
            put_statement(folder, &name, &made, &mut files, setting.language)?;
        }
        told(&files);
        return Ok(ExitCode::SUCCESS);
    }
    let view = app.close_account(&request)?;
    if setting.json {
        print_json(&view);
    } else {
        print!("{}", text(&view));
    }
    Ok(ExitCode::SUCCESS)
}

fn put_statement(
    folder: &Path,
    name: &str,
    made: &slingseal_app::ClosingMade,
    files: &mut Vec<std::path::PathBuf>,
    language: Language,
) -> Result<(), AppError> {
    let text = folder.join(format!("{name}.txt"));
    write(&text, format!("{}\n", made.text).as_bytes())?;
    let pdf = folder.join(format!("{name}.pdf"));
    write(&pdf, &closing_pdf(&made.statement, Paper::A4, language)?)?;
    files.retain(|known| *known != text);
    files.extend([text, pdf]);
    Ok(())
}

/// What does not add up, as lines.
pub(crate) fn text(view: &CloseView) -> String {
    let mut lines = vec![format!(
        "{}: {} loads, {} inspections, {} lifted, {} set down, {} lost.",
        view.name, view.loads, view.inspections, view.lifted, view.set_down, view.lost
    )];
    if view.unsigned > 0 {
        lines.push(format!(
            "{} reports are unsigned: they are what was said, and prove nothing.",
            view.unsigned
        ));
    }
    let mut title = "";
    for point in &view.points {
        if title != point.title {
            title = &point.title;
            lines.push(String::new());
            lines.push(title.to_owned());
        }
        lines.push(format!("  {}  {}: {}", point.id, point.subject, point.known));
        match &point.note {
            Some(note) => lines.push(format!("      Explained: {note}")),
            None => lines.push(format!("      {}", point.to_do)),
        }
    }
    lines.push(String::new());
    lines.push(match (view.points.len(), view.explained) {
        (0, _) => "Everything adds up. Sign it with --sign.".to_owned(),
        (_, true) => "All is explained. Sign it with --sign.".to_owned(),
        (open, false) => {
            format!("{open} points do not add up. Put them right, or explain each: --explain POINT=NOTE.")
        }
    });
    lines.push(format!("Account {} of {} words", view.account, view.words));
    lines.iter().map(|line| visibly(line) + "\n").collect()
}
