//! `procedure`: list, show, check, table, add, new, diff, schema, pack, frames.

use slingseal_app::catalogue::desk as words;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

use slingseal_app::catalogue::{Saying, tags as tag_words};
use slingseal_app::{
    AppError, EditionState, Language, ProcedureView, check_procedure, procedure_changes, procedure_schema,
    procedure_template, procedure_untold,
};

use super::bundle;
use super::setting::Setting;
use crate::cli::{PackVerb, ProcedureVerb};
use crate::console::Shown;
use crate::output::{write, write_whole};
use crate::{console, input, output};
use slingseal_paper::{Paper, checklist_pdf};

/// How often a watched file is looked at: sooner than a hand is back from the key that saves.
const LOOKS: Duration = Duration::from_millis(300);

pub(crate) fn run(setting: &Setting, verb: ProcedureVerb) -> Result<ExitCode, AppError> {
    match verb {
        ProcedureVerb::List => {
            let procedures = setting.app()?.procedure_editions()?;
            if setting.json {
                output::print_json(&procedures);
            } else {
                procedures.iter().for_each(|one| line(one, setting.language));
            }
        }
        ProcedureVerb::Show { id, pdf: None } if setting.json => {
            output::print_json(&setting.app()?.checklist(&id)?);
        }
        ProcedureVerb::Show { id, pdf: None } => print!("{}", setting.app()?.show_procedure(&id)?),
        ProcedureVerb::Show { id, pdf: Some(out) } => {
            write(&out, &checklist_pdf(&setting.app()?.checklist(&id)?, Paper::A4, setting.language)?)?;
            output::answer_files(setting.json, &[out]);
        }
        ProcedureVerb::Table { id } if setting.json => {
            let app = setting.app()?;
            let ids = match id {
                Some(id) => vec![id],
                None => app.procedures()?.into_iter().map(|known| known.id).collect(),
            };
            let lists: Vec<_> = ids.iter().map(|id| app.checklist(id)).collect::<Result<_, _>>()?;
            output::print_json(&lists);
        }
        ProcedureVerb::Table { id } => print!("{}", setting.app()?.procedure_table(id.as_deref())?),
        ProcedureVerb::Check { file, watch: true } => watch(&file, setting.language),
        ProcedureVerb::Check { file, watch: false } => {
            let text = input::text(&file)?;
            let view = check_procedure(&text).map_err(|error| input::named(&file, &error))?;
            for line in procedure_untold(&text, setting.language)? {
                eprintln!("slingseal: {}", words::NotSaidIn { line: &line }.say(setting.language));
            }
            if setting.json {
                output::print_json(&view);
            } else {
                println!("{}", holds(&file, &view, setting.language));
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
                println!("{}", words::ListAdded.say(setting.language));
                line(&view, setting.language);
            }
        }
        ProcedureVerb::New { id, out } => {
            let text = procedure_template(&id)?;
            let out = out.unwrap_or_else(|| PathBuf::from(format!("{}.toml", output::file_name_dotted(&id))));
            if out.exists() {
                return Err(output::bad_input(words::FileIsThere { file: out.shown() }));
            }
            write(&out, text.as_bytes())?;
            output::answer_files(setting.json, &[out]);
        }
        ProcedureVerb::Diff { old, new } => {
            let (old, new) = (text_of(setting, &old)?, text_of(setting, &new)?);
            let changes = procedure_changes(&old, &new, setting.language)?;
            if setting.json {
                output::print_json(&serde_json::json!({ "changes": changes }));
            } else if changes.is_empty() {
                println!("{}", tag_words::ChangeNone.say(setting.language));
            }
            changes.iter().filter(|_| !setting.json).for_each(|line| println!("{line}"));
        }
        ProcedureVerb::Language { code } => {
            setting.app()?.tell_lists_in(code.as_deref())?;
            match code {
                code if setting.json => output::print_json(&serde_json::json!({ "lists_in": code })),
                Some(code) => println!("{}", words::ListsToldIn { code: &code }.say(setting.language)),
                None => println!("{}", words::ListsToldInReaders.say(setting.language)),
            }
        }
        ProcedureVerb::Schema => print!("{}", procedure_schema()),
        ProcedureVerb::Pack(PackVerb::Write { file, ids }) => {
            let app = setting.app()?;
            let made = write_whole(&file, |out| app.pack_write(&ids, out))?;
            if setting.json {
                output::print_json(&made);
            } else {
                println!("{}", pack_holds(made.procedures, made.papers, setting.language));
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
                println!("{}", words::FramesEnough { frames, enough }.say(setting.language));
                println!("  {}", pack_holds(made.procedures, made.papers, setting.language));
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

fn holds(file: &Path, view: &ProcedureView, language: Language) -> String {
    words::FileHolds { file: file.shown(), cards: view.cards, points: view.points }.say(language)
}

/// Tells the faults of a file at each save, until it is stopped. A file that is away for a moment, as editors do when they save,
/// is waited for.
fn watch(file: &Path, language: Language) -> ! {
    let mut last = None;
    loop {
        let now = input::text(file).map_err(|error| error.say(language));
        if last.as_ref() != Some(&now) {
            match &now {
                Ok(text) => match check_procedure(text) {
                    Ok(view) => {
                        println!("{}", holds(file, &view, language));
                    }
                    Err(error) => eprintln!("{}", input::named(file, &error).say(language)),
                },
                Err(error) => eprintln!("slingseal: {error}"),
            }
            console::flush();
            last = Some(now);
        }
        std::thread::sleep(LOOKS);
    }
}

fn pack_holds(procedures: impl Into<u64>, rosters: impl Into<u64>, language: Language) -> String {
    let procedures = words::CountProcedures { count: procedures.into() }.saying();
    let rosters = words::CountRosters { count: rosters.into() }.saying();
    Saying::joined([procedures, rosters], ", ").say(language)
}

fn line(view: &ProcedureView, language: Language) {
    let size = match view.state {
        EditionState::Missing => String::new(),
        _ => words::CardsAndPoints {
            cards: format!("{:>3}", view.cards),
            points: format!("{:>4}", view.points),
        }
        .say(language),
    };
    let apart = if view.in_use || view.state == EditionState::Missing {
        String::new()
    } else {
        format!("  {}", words::KeptApart.say(language))
    };
    println!("{:<12} v{:<3} {size:<21}  {}  [{}]{apart}", view.id, view.version, view.title, view.approval);
}
