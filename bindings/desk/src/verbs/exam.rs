//! `exam`: plant and lock, run, result, class.

mod shown;

use slingseal_app::catalogue::exams as words;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use slingseal_app::catalogue::Saying;
use slingseal_app::{
    App, AppError, ClassRequest, ExamBegin, ExamPick, ExamPlan, ExamRunState, ExamStandard, RunView,
};

use self::shown::{outcome_words, plantable, planted, show_class, show_key, show_result, state_words};
use super::authority::line_typed;
use super::setting::{Setting, tell_who_signs};
use crate::cli::ExamVerb;
use crate::console::{self, Shown};
use crate::output::{PIXELS, bad_input, clock, file_name, print_json, put_code, told, write};
use crate::platform::{Secret, ask};
use crate::terminal::{self, Ask};
use crate::{input, platform};

pub(crate) fn run(setting: &Setting, verb: ExamVerb) -> Result<ExitCode, AppError> {
    match verb {
        ExamVerb::Lock { tag, plant, draw, seed, preview, find, within, false_calls, out } => {
            let app = setting.app()?;
            let plan = ExamPlan {
                tag: input::code(&tag)?,
                picks: plant.iter().map(|text| pick(text)).collect::<Result<_, _>>()?,
                draw,
                seed,
            };
            if preview && plan.picks.is_empty() && plan.draw.is_none() {
                let views = app.exam_plantable(&plan.tag)?;
                if setting.json {
                    print_json(&views);
                } else {
                    println!("{}", words::WhatCanBePlanted.say(setting.language));
                    views.iter().for_each(|one| plantable(one, setting.language));
                }
                return Ok(ExitCode::SUCCESS);
            }
            if preview {
                let view = app.exam_plan(&plan)?;
                if setting.json {
                    print_json(&view);
                } else {
                    println!(
                        "{}",
                        words::ToRigOnLoad { load: &view.load, title: &view.title }.say(setting.language)
                    );
                    view.planted.iter().for_each(|one| planted(one, setting.language));
                    if let Some(seed) = view.seed {
                        println!("{}", words::ThenLockSame { seed: &seed }.say(setting.language));
                    }
                }
                return Ok(ExitCode::SUCCESS);
            }
            if plan.picks.is_empty() && plan.draw.is_none() {
                return Err(bad_input(words::NothingToPlant));
            }
            let standard = standard(&app, find, within, false_calls)?;
            tell_who_signs(&app, Some(slingseal_app::Role::Instructor))?;
            let key = app.exam_lock(&plan, &standard, &ask(&app, Secret::Pin, false)?)?;
            if setting.json {
                print_json(&key);
            } else {
                show_key(&key, setting.language);
            }
            if out.is_some() || !setting.json {
                let name = format!("exam-{}", file_name(&key.load));
                let files = put_code(&key.code, out.as_deref(), &name)?;
                if !setting.json {
                    told(&files);
                }
            }
        }
        ExamVerb::Keys { key, reveal } => keys(setting, key.as_deref(), reveal)?,
        ExamVerb::Run { key, student, tag, go_on, out } => {
            return walk(setting, key.as_deref(), student, tag.as_deref(), go_on.as_deref(), out);
        }
        ExamVerb::Sheet { run, out, frames } => sheet(setting, &run, &out, frames)?,
        ExamVerb::Result { which } => match which {
            Some(which) => result(setting, &which)?,
            None => list(setting)?,
        },
        ExamVerb::Class { procedure, since, until, out } => {
            let app = setting.app()?;
            let request = ClassRequest { procedure, since, until };
            let class = app.exam_class(&request)?;
            if setting.json {
                print_json(&class);
            } else {
                show_class(&class, setting.language);
            }
            if let Some(out) = out {
                let mut files = Vec::new();
                for table in app.exam_class_csv(&request)? {
                    let path = out.join(format!("class-{}.csv", table.name));
                    write(&path, table.csv.as_bytes())?;
                    files.push(path);
                }
                if !setting.json {
                    told(&files);
                }
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

/// A key's code, wherever it lies; or the first digits of one that is known, as they stand.
fn key_code(text: &str) -> Result<String, AppError> {
    let digits = text.chars().all(|c| c.is_ascii_hexdigit() || c == ' ');
    if digits && !Path::new(text).exists() { Ok(text.to_owned()) } else { input::code(text) }
}

/// `POINT=NAME`.
fn pick(text: &str) -> Result<ExamPick, AppError> {
    let (point, deficiency) = text.split_once('=').ok_or_else(|| bad_input(words::NoPick { text: &text }))?;
    Ok(ExamPick { point: point.trim().to_owned(), deficiency: deficiency.trim().to_owned() })
}

/// The unit's standard. None is assumed: what it was not given is asked for, where somebody can answer.
fn standard(
    app: &App,
    find: Option<u32>,
    within: Option<String>,
    false_calls: Option<u32>,
) -> Result<ExamStandard, AppError> {
    let typed = |given: Option<String>, question: Saying| match given {
        Some(given) => Ok(given),
        None if std::io::stdin().is_terminal() => {
            app.let_go();
            println!("{}", question.say(app.spoken()));
            line_typed()
        }
        None => Err(bad_input(words::SayStandard)),
    };
    let find = typed(find.map(|find| find.to_string()), words::HowManyToFind.saying())?;
    let within = typed(within, words::WithinWhatTime.saying())?;
    let calls = typed(false_calls.map(|calls| calls.to_string()), words::HowManyFalseCalls.saying())?;
    let least = find.trim().parse();
    let least = least.map_err(|_| bad_input(words::NoNumberOfDeficiencies { text: &find.trim() }))?;
    let false_calls = calls.trim().parse();
    let false_calls =
        false_calls.map_err(|_| bad_input(words::NoNumberOfFalseCalls { text: &calls.trim() }))?;
    Ok(ExamStandard { least, within_s: seconds(within.trim())?, false_calls })
}

/// `120`, or `2:00`.
fn seconds(text: &str) -> Result<u32, AppError> {
    let number = |text: &str| text.parse::<u32>().ok();
    let found = match text.split_once(':') {
        None => number(text),
        Some((minutes, seconds)) => number(minutes)
            .zip(number(seconds).filter(|seconds| *seconds < 60))
            .and_then(|(minutes, seconds)| minutes.checked_mul(60)?.checked_add(seconds)),
    };
    found.ok_or_else(|| bad_input(words::NoTime { text: &text }))
}

fn keys(setting: &Setting, key: Option<&str>, reveal: bool) -> Result<(), AppError> {
    let app = setting.app()?;
    let views = match key {
        None => app.exam_keys()?,
        Some(text) => {
            let text = key_code(text)?;
            if reveal {
                vec![app.exam_reveal(&text, &ask(&app, Secret::Pin, false)?)?]
            } else {
                vec![app.exam_key(&text)?]
            }
        }
    };
    if setting.json {
        print_json(&views);
        return Ok(());
    }
    for view in &views {
        show_key(view, setting.language);
        println!(
            "  {}",
            words::RunsAndResults { runs: &view.runs, results: &view.results }.say(setting.language)
        );
    }
    if let ([only], Some(_)) = (views.as_slice(), key) {
        print!("{}", only.code.terminal()?);
    }
    Ok(())
}

fn walk(
    setting: &Setting,
    key: Option<&str>,
    student: Option<String>,
    tag: Option<&str>,
    go_on: Option<&str>,
    out: Option<PathBuf>,
) -> Result<ExitCode, AppError> {
    let home = setting.home()?;
    let full_screen = std::io::stdin().is_terminal() && console::is_terminal() && !setting.json;
    let app = if full_screen { setting.quiet_app()? } else { setting.app()? };
    let begin = match (go_on, key, student) {
        (Some(digits), _, _) => Err(open_run(&app, digits)?),
        (None, Some(key), Some(student)) => {
            let key = key_code(key)?;
            let tag = tag.map(input::code).transpose()?;
            Ok(ExamBegin { key, tag, student })
        }
        _ => return Err(bad_input(words::NameKeyAndStudent)),
    };
    let ask = |run: Option<String>| Ask {
        home: home.clone(),
        language: setting.language,
        out: None,
        tag: None,
        walk: None,
        run,
        begin: None,
    };
    if full_screen {
        // The clock starts by a key, when the student is at the load, and not with the program.
        let asked = match begin {
            Ok(begin) => Ask { begin: Some(begin), ..ask(None) },
            Err(run) => ask(Some(run)),
        };
        let run = terminal::screen(app, asked)?;
        if let Some((run, out)) = run.zip(out) {
            ended(&platform::open(&home, setting.language)?, &run, &out)?;
        }
        return Ok(ExitCode::SUCCESS);
    }
    let id = match begin {
        Ok(begin) => app.exam_begin(&begin)?.run,
        Err(run) => run,
    };
    let ask = ask(Some(id.clone()));
    let code = platform::in_turns(&app, || terminal::lines(&app, &ask, setting.json))?;
    if let Some(out) = out {
        ended(&app, &id, &out)?;
    }
    Ok(code)
}

/// Writes the sheet of a run that is ended; one that goes on has none.
fn ended(app: &App, run: &str, out: &Path) -> Result<(), AppError> {
    let RunView { ended, .. } = app.exam_run(run)?;
    if ended { write(out, &app.exam_sheet(run)?) } else { Ok(()) }
}

/// The open run that begins so.
fn open_run(app: &App, digits: &str) -> Result<String, AppError> {
    let runs = app.exam_runs()?;
    let mut fitting = runs
        .iter()
        .filter(|line| line.state == ExamRunState::Open)
        .filter(|line| line.run.starts_with(digits) || line.student.eq_ignore_ascii_case(digits));
    match (fitting.next(), fitting.next()) {
        (Some(only), None) => Ok(only.run.clone()),
        (Some(_), Some(_)) => Err(bad_input(words::SeveralRunsFit { digits: &digits })),
        (None, _) => Err(bad_input(words::NoOpenRunFits { digits: &digits })),
    }
}

fn sheet(setting: &Setting, run: &str, out: &Path, frames: bool) -> Result<(), AppError> {
    let app = setting.app()?;
    if !frames {
        write(out, &app.exam_sheet(run)?)?;
        if setting.json {
            print_json(&serde_json::json!({ "run": run, "file": out }));
        } else {
            told(&[out.to_owned()]);
        }
        return Ok(());
    }
    let moving = app.exam_sheet_code(run)?;
    // Half as many again: a frame that does not read is made up for by any other.
    let count = moving.enough() + moving.enough().div_ceil(2);
    for number in 0..count {
        write(&out.join(format!("frame-{number:04}.png")), &moving.frame(number)?.png(PIXELS)?)?;
    }
    if setting.json {
        print_json(
            &serde_json::json!({ "run": run, "folder": out, "frames": count, "enough": moving.enough() }),
        );
    } else {
        println!(
            "{}",
            words::SheetFrames { count: &count, enough: &moving.enough(), folder: &out.shown() }
                .say(setting.language)
        );
    }
    Ok(())
}

/// A result; an ended run that is named is scored first.
fn result(setting: &Setting, which: &str) -> Result<(), AppError> {
    let app = setting.app()?;
    let digits: String = which.chars().filter(|c| !matches!(c, ' ' | '-')).collect();
    let runs = app.exam_runs()?;
    let mut fitting = runs
        .iter()
        .filter(|line| line.can_score)
        .filter(|line| line.run.starts_with(&digits) || line.student.eq_ignore_ascii_case(which));
    let view = match (fitting.next(), fitting.next()) {
        (Some(only), None) => app.exam_score(&only.run, &ask(&app, Secret::Pin, false)?)?,
        (Some(_), Some(_)) => return Err(bad_input(words::SeveralRunsOf { which: &which })),
        (None, _) => {
            match runs.iter().find(|line| line.state == ExamRunState::Ended && line.run.starts_with(&digits))
            {
                // Says where the list lies.
                Some(line) => app.exam_score(&line.run, "")?,
                None => app.exam_result(&newest(&app, which)?)?,
            }
        }
    };
    if setting.json {
        print_json(&view);
    } else {
        show_result(&view, setting.language);
    }
    Ok(())
}

/// A result by its digits, or the newest of a student.
fn newest(app: &App, which: &str) -> Result<String, AppError> {
    let results = app.exam_results()?;
    let of_student = results.iter().find(|line| line.student.eq_ignore_ascii_case(which));
    Ok(of_student.map_or_else(|| which.to_owned(), |line| line.result.clone()))
}

fn list(setting: &Setting) -> Result<(), AppError> {
    let app = setting.app()?;
    let (runs, results) = (app.exam_runs()?, app.exam_results()?);
    if setting.json {
        print_json(&serde_json::json!({ "runs": runs, "results": results }));
        return Ok(());
    }
    for run in runs.iter().filter(|run| run.state != ExamRunState::Scored) {
        let id: String = run.run.chars().take(8).collect();
        let next = match (run.state, run.can_score) {
            (ExamRunState::Open, _) => words::GoOnWithRun { id: &id }.say(setting.language),
            (ExamRunState::Ended, true) => words::ScoreRun { id: &id }.say(setting.language),
            (ExamRunState::Ended, false) => words::BringToInstructor { id: &id }.say(setting.language),
            (ExamRunState::Scored | ExamRunState::Lost, _) => words::EventsWereLost.say(setting.language),
        };
        let (state, student) = (state_words(run.state).say(setting.language), &run.student);
        let (load, key) = (format!("{:<12}", run.load), &run.key);
        println!(
            "{id}  {state:<7} {student:<16} {}  {}  {next}",
            words::LoadAndKey { load, key }.say(setting.language),
            run.begun.dtg
        );
    }
    for line in &results {
        let said = words::ResultFigures {
            found: line.found,
            of: line.of,
            calls: line.false_calls,
            time: clock(line.seconds),
            attempt: line.attempt,
        };
        let (load, key) = (format!("{:<12}", line.load), &line.key);
        println!(
            "{}  {:<7} {:<16} {}  {}  {}",
            line.result.chars().take(8).collect::<String>(),
            outcome_words(line.outcome).say(setting.language),
            line.student,
            words::LoadAndKey { load, key }.say(setting.language),
            line.began.dtg,
            said.say(setting.language)
        );
    }
    Ok(())
}
