//! `procedure`: list, show, check, add.

use std::process::ExitCode;

use slingseal_app::{AppError, ProcedureView, check_procedure};

use super::Setting;
use crate::cli::ProcedureVerb;
use crate::console::Shown;
use crate::{input, output};

pub(crate) fn run(setting: &Setting, verb: ProcedureVerb) -> Result<ExitCode, AppError> {
    match verb {
        ProcedureVerb::List => {
            let procedures = setting.app()?.procedures()?;
            if setting.json {
                output::print_json(&procedures);
            } else {
                procedures.iter().for_each(line);
            }
        }
        ProcedureVerb::Show { id } => print!("{}", setting.app()?.show_procedure(&id)?),
        ProcedureVerb::Table { id } => print!("{}", setting.app()?.procedure_table(id.as_deref())?),
        ProcedureVerb::Check { file } => {
            let view = check_procedure(&input::text(&file)?).map_err(|error| input::named(&file, &error))?;
            if setting.json {
                output::print_json(&view);
            } else {
                println!("{} holds: {} cards, {} points", file.shown(), view.cards, view.points);
            }
        }
        ProcedureVerb::Add { file } => {
            let view = setting
                .app()?
                .add_procedure(&input::text(&file)?)
                .map_err(|error| input::named(&file, &error))?;
            if setting.json {
                output::print_json(&view);
            } else {
                println!("Added:");
                line(&view);
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

fn line(view: &ProcedureView) {
    let own = if view.own { "  (the unit's own)" } else { "" };
    println!(
        "{:<12} v{:<3} {:>3} cards {:>4} points  {}{own}",
        view.id, view.version, view.cards, view.points, view.title
    );
}
