//! `account`: close a day, an operation or some loads: what does not add up, and the statement that a leader hands up.

use std::path::Path;
use std::process::ExitCode;

use slingseal_app::catalogue::{closing, desk as words, page};
use slingseal_app::{AppError, CloseRequest, CloseView, Language, PieceGroup, visibly};

use super::setting::Setting;
use crate::cli::{AccountVerb, Close};
use crate::output::{
    answer_files, bad_input, file_name, print_json, print_json_list, put_code, put_code_beside_json, told,
    write, write_whole,
};
use crate::platform::{Secret, ask};
use slingseal_paper::{Paper, closing_pdf};

pub(crate) fn run(setting: &Setting, verb: AccountVerb) -> Result<ExitCode, AppError> {
    match verb {
        AccountVerb::Close(close) => run_close(setting, close),
        AccountVerb::Manifest(manifest) => super::manifest::run(setting, manifest),
        AccountVerb::Equipment { csv: Some(file), .. } => {
            let app = setting.app()?;
            write_whole(&file, |out| app.piece_lives_csv(out))?;
            answer_files(setting.json, &[file]);
            Ok(ExitCode::SUCCESS)
        }
        AccountVerb::Equipment { open, csv: None } => {
            let (app, group) = (setting.app()?, open.then_some(PieceGroup::Open));
            if setting.json {
                print_json_list(|one| {
                    app.each_piece_life(group, |life| {
                        one(life);
                        Ok(())
                    })
                })?;
            } else {
                app.each_piece_life(group, |life| {
                    println!("{}", piece(&life, setting.language));
                    Ok(())
                })?;
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
            if setting.json {
                print_json(&serde_json::json!({ "least_seconds": seconds }));
                return Ok(ExitCode::SUCCESS);
            }
            let said = match seconds {
                Some(seconds) => {
                    closing::LeastSecondsSet { seconds: seconds.to_string() }.say(setting.language)
                }
                None => closing::LeastSecondsNone.say(setting.language),
            };
            println!("{said}");
            Ok(ExitCode::SUCCESS)
        }
    }
}

fn piece(life: &slingseal_app::PieceLifeView, language: Language) -> String {
    let mut more = String::new();
    if let Some(load) = &life.load {
        more += &closing::PieceLineLoad { load }.say(language);
    }
    if let Some(since) = &life.since {
        more += &closing::PieceLineSince { since: &since.dtg }.say(language);
    }
    if let Some(due) = &life.due {
        more += &closing::PieceLineDue { due: &due.dtg }.say(language);
    }
    if let (Some(by), Some(why)) = (&life.withdrawn_by, &life.withdrawn_why) {
        more += &closing::PieceLineWithdrawn { by, why }.say(language);
    }
    let line = closing::PieceLine {
        kind: &life.kind,
        state: &life.state_title,
        more,
        lifts: life.lifts,
        carried: &life.carried,
        inspections: life.inspections,
    };
    visibly(&format!("{:<16} {}", life.serial, line.say(language)))
}

fn withdraw(setting: &Setting, serial: &str, why: &str, out: Option<&Path>) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let said = app.withdraw_piece(serial, why, &ask(&app, Secret::Pin, false)?)?;
    let file = format!("withdrawn-{}", file_name(&said.name));
    if setting.json {
        put_code_beside_json(&said.code, out, &file)?;
        print_json(&said);
    } else {
        let (name, by) = (visibly(&said.name), visibly(&said.inspector));
        println!(
            "{}",
            visibly(
                &words::PieceIsWithdrawn { name: &name, by: &by, at: &said.issued.dtg }.say(setting.language)
            )
        );
        told(&put_code(&said.code, out, &file)?);
    }
    Ok(ExitCode::SUCCESS)
}

fn run_close(setting: &Setting, close: Close) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let request = CloseRequest { day: close.day, loads: close.loads, name: close.name };
    for text in &close.explain {
        let (point, note) = text.split_once('=').ok_or_else(|| bad_input(closing::CloseExplainForm))?;
        app.explain(point.trim(), note)?;
    }
    if close.sign {
        let made = app.sign_closing(&request, &ask(&app, Secret::Pin, false)?)?;
        let name = format!("closing-{}", file_name(&made.statement.name));
        if setting.json {
            if let Some(code) = &made.code {
                put_code_beside_json(code, close.out.as_deref(), &name)?;
            }
            if let Some(folder) = &close.out {
                put_statement(folder, &name, &made, &mut Vec::new(), setting.language)?;
            }
            print_json(&made);
            return Ok(ExitCode::SUCCESS);
        }
        let statement = &made.statement;
        let said = closing::CloseSigned {
            name: &statement.name,
            by: &statement.by,
            at: &statement.issued.dtg,
            check: &statement.check,
        };
        println!("{}", visibly(&said.say(setting.language)));
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
        print!("{}", text(&view, setting.language));
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
pub(crate) fn text(view: &CloseView, language: Language) -> String {
    let counts = page::AccountCounts {
        loads: view.loads,
        inspections: view.inspections,
        lifted: view.lifted,
        set_down: view.set_down,
        lost: view.lost,
    };
    let mut lines = vec![format!("{}: {}", view.name, counts.say(language))];
    if view.unsigned > 0 {
        lines.push(page::ReportsUnsigned { count: view.unsigned }.say(language));
    }
    let mut title = "";
    for point in &view.points {
        if title != point.title {
            title = &point.title;
            lines.push(String::new());
            lines.push(title.to_owned());
        }
        lines.push(format!("  {}  {}: {}", point.id, point.subject, point.known));
        let next = match &point.note {
            Some(note) => closing::CloseExplained { note }.say(language),
            None => point.to_do.clone(),
        };
        lines.push(format!("      {next}"));
    }
    lines.push(String::new());
    lines.push(match (view.points.len(), view.explained) {
        (0, _) => closing::CloseAddsUp.say(language),
        (_, true) => closing::CloseAllExplained.say(language),
        (open, false) => closing::CloseOpen { open: i64::try_from(open).unwrap_or(i64::MAX) }.say(language),
    });
    lines.push(page::AccountDigest { digest: &view.account, count: view.words }.say(language));
    lines.iter().map(|line| visibly(line) + "\n").collect()
}
