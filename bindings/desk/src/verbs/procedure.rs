//! `procedure`: list, show, check, table, add, new, diff, schema, pack, frames.

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

use slingseal_app::catalogue::Saying;
use slingseal_app::{
    AppError, EditionState, ProcedureView, check_procedure, procedure_changes, procedure_schema,
    procedure_template, procedure_untold,
};

use super::{Setting, bundle};
use crate::cli::{PackVerb, ProcedureVerb};
use crate::console::Shown;
use crate::output::{counted, write, write_whole};
use crate::print::{Paper, checklist_pdf};
use crate::{console, input, output};

/// How often a watched file is looked at: sooner than a hand is back from the key that saves.
const LOOKS: Duration = Duration::from_millis(300);

pub(crate) fn run(setting: &Setting, verb: ProcedureVerb) -> Result<ExitCode, AppError> {
    match verb {
        ProcedureVerb::List => {
            let procedures = setting.app()?.procedure_editions()?;
            if setting.json {
                output::print_json(&procedures);
            } else {
                procedures.iter().for_each(line);
            }
        }
        ProcedureVerb::Show { id, pdf: None } => print!("{}", setting.app()?.show_procedure(&id)?),
        ProcedureVerb::Show { id, pdf: Some(out) } => {
            write(&out, &checklist_pdf(&setting.app()?.checklist(&id)?, Paper::A4)?)?;
            output::told(&[out]);
        }
        ProcedureVerb::Table { id } => print!("{}", setting.app()?.procedure_table(id.as_deref())?),
        ProcedureVerb::Check { file, watch: true } => watch(&file),
        ProcedureVerb::Check { file, watch: false } => {
            let text = input::text(&file)?;
            let view = check_procedure(&text).map_err(|error| input::named(&file, &error))?;
            for line in procedure_untold(&text)? {
                eprintln!("slingseal: not said in {line}");
            }
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
        ProcedureVerb::New { id, out } => {
            let text = procedure_template(&id)?;
            let out = out.unwrap_or_else(|| PathBuf::from(format!("{}.toml", output::file_name_dotted(&id))));
            if out.exists() {
                let taken = format!("{} is there already; name another file with --out FILE", out.shown());
                return Err(output::bad_input(Saying::verbatim(taken)));
            }
            write(&out, text.as_bytes())?;
            output::told(&[out]);
        }
        ProcedureVerb::Diff { old, new } => {
            let (old, new) = (text_of(setting, &old)?, text_of(setting, &new)?);
            print!("{}", procedure_changes(&old, &new)?);
        }
        ProcedureVerb::Language { code } => {
            setting.app()?.tell_lists_in(code.as_deref())?;
            match code {
                Some(code) => println!("Lists are told in {} where they have it, else in English.", code),
                None => println!("Lists are told in the reader's language."),
            }
        }
        ProcedureVerb::Schema => print!("{}", procedure_schema()),
        ProcedureVerb::Pack(PackVerb::Write { file, ids }) => {
            let app = setting.app()?;
            let made = write_whole(&file, |out| app.pack_write(&ids, out))?;
            if setting.json {
                output::print_json(&made);
            } else {
                println!("{}, {}", counted(made.procedures, "procedure"), counted(made.papers, "roster"));
                output::told(&[file]);
            }
        }
        ProcedureVerb::Pack(PackVerb::Read { file }) => {
            let report = bundle::read(setting, &setting.app()?, &[file])?;
            bundle::tell(setting, &report);
            if !report.set_aside.is_empty() {
                return Ok(ExitCode::FAILURE);
            }
        }
        ProcedureVerb::Frames { ids, out, spare } => {
            let moving = setting.app()?.procedures_code(&ids)?;
            let frames = bundle::put_frames(&moving, &out, spare)?;
            let (enough, made) = (moving.enough(), moving.made());
            if setting.json {
                output::print_json(&serde_json::json!({ "frames": frames, "enough": enough, "made": made }));
            } else {
                println!("{frames} frames, {enough} of which are enough, in any order");
                println!("  {}, {}", counted(made.procedures, "procedure"), counted(made.papers, "roster"));
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

/// A file's text where there is such a file, else that of a procedure that this home knows.
fn text_of(setting: &Setting, word: &str) -> Result<String, AppError> {
    let path = Path::new(word);
    if path.is_file() || word.ends_with(".toml") {
        let text = input::text(path)?;
        check_procedure(&text).map_err(|error| input::named(path, &error))?;
        return Ok(text);
    }
    setting.app()?.procedure_text(word)
}

/// Tells the faults of a file at each save, until it is stopped. A file that is away for a moment, as editors do when they save,
/// is waited for.
fn watch(file: &Path) -> ! {
    let mut last = None;
    loop {
        let now = input::text(file).map_err(|error| error.to_string());
        if last.as_ref() != Some(&now) {
            match &now {
                Ok(text) => match check_procedure(text) {
                    Ok(view) => {
                        println!("{} holds: {} cards, {} points", file.shown(), view.cards, view.points);
                    }
                    Err(error) => eprintln!("{}", input::named(file, &error)),
                },
                Err(error) => eprintln!("slingseal: {error}"),
            }
            console::flush();
            last = Some(now);
        }
        std::thread::sleep(LOOKS);
    }
}

fn line(view: &ProcedureView) {
    let size = match view.state {
        EditionState::Missing => String::new(),
        _ => format!("{:>3} cards {:>4} points", view.cards, view.points),
    };
    let apart = if view.in_use || view.state == EditionState::Missing { "" } else { "  (kept apart)" };
    println!("{:<12} v{:<3} {size:<21}  {}  [{}]{apart}", view.id, view.version, view.title, view.approval);
}
