//! `exam`: plant and lock, run, result, class.

use std::io::IsTerminal;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use slingseal_app::{
    App, AppError, ClassRequest, ClassView, ExamBegin, ExamKeyView, ExamPick, ExamPlan, ExamResultView,
    ExamStandard, PlantedView, RunView,
};

use super::Setting;
use super::authority::line_typed;
use super::pasted;
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
                    println!("What can be planted; give one a card with --plant:");
                    views.iter().for_each(plantable);
                }
                return Ok(ExitCode::SUCCESS);
            }
            if preview {
                let view = app.exam_plan(&plan)?;
                if setting.json {
                    print_json(&view);
                } else {
                    println!("To rig on load {}, {}; nothing is kept:", view.load, view.title);
                    view.planted.iter().for_each(planted);
                    if let Some(seed) = view.seed {
                        println!("Then lock the same with --seed {seed}");
                    }
                }
                return Ok(ExitCode::SUCCESS);
            }
            let standard = standard(&app, find, within, false_calls)?;
            super::tell_who_signs(&app, Some("instructor"))?;
            let key = app.exam_lock(&plan, &standard, &ask(&app, Secret::Pin, false)?)?;
            if setting.json {
                print_json(&key);
            } else {
                show_key(&key);
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
                show_class(&class);
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
    let (point, deficiency) = text.split_once('=').ok_or_else(|| {
        bad_input(format!(
            "\"{text}\" is no pick; write POINT=NAME, such as apex.fitting.cotter=\"cotter pin is missing\""
        ))
    })?;
    Ok(ExamPick { point: point.trim().to_owned(), deficiency: deficiency.trim().to_owned() })
}

/// The unit's standard. None is assumed: what it was not given is asked for, where somebody can answer.
fn standard(
    app: &App,
    find: Option<u32>,
    within: Option<String>,
    false_calls: u32,
) -> Result<ExamStandard, AppError> {
    let typed = |given: Option<String>, question: &str| match given {
        Some(given) => Ok(given),
        None if std::io::stdin().is_terminal() => {
            app.let_go();
            println!("{question}");
            line_typed()
        }
        None => Err(bad_input(
            "say your unit's standard: --find N deficiencies, --within TIME such as 4:30; none is assumed",
        )),
    };
    let find =
        typed(find.map(|find| find.to_string()), "How many must a student find, by your unit's standard?")?;
    let within = typed(within, "Within what time? Seconds, or minutes:seconds.")?;
    let least = find.trim().parse();
    let least = least.map_err(|_| bad_input(format!("\"{}\" is no number of deficiencies", find.trim())))?;
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
    found.ok_or_else(|| {
        bad_input(format!("\"{text}\" is no time; write seconds, or minutes:seconds such as 4:30"))
    })
}

fn planted(one: &PlantedView) {
    println!("  card {:>3}  {}: {}", one.card, one.card_title, one.shown);
    println!("            {}  {}", one.point, one.prompt);
}

/// As `--plant` takes it, with what it means.
fn plantable(one: &PlantedView) {
    println!("  card {:>3}  {}: {}", one.card, one.card_title, one.prompt);
    println!("            --plant {}", pasted(&format!("{}={}", one.point, one.name)));
}

fn show_key(key: &ExamKeyView) {
    println!("Key {}: load {}, procedure {}, {}", key.short, key.load, key.procedure, key.standard.words);
    println!("  locked {} by {}", key.locked.dtg, key.instructor);
    match &key.planted {
        Some(list) => {
            println!("  planted, in the order of the load; for the instructor alone:");
            list.iter().for_each(planted);
        }
        None if key.list_here => {
            println!("  what is planted is known to this device: exam keys {} --reveal", key.short)
        }
        None => println!("  what is planted is known to the instructor's device alone"),
    }
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
        show_key(view);
        println!("  runs {}, results {}", view.runs, view.results);
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
        _ => return Err(bad_input("name the key and --student NAME, or go on with --run ID")),
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
        .filter(|line| line.state == "open")
        .filter(|line| line.run.starts_with(digits) || line.student.eq_ignore_ascii_case(digits));
    match (fitting.next(), fitting.next()) {
        (Some(only), None) => Ok(only.run.clone()),
        (Some(_), Some(_)) => Err(bad_input(format!("several runs fit {digits}; give more digits"))),
        (None, _) => Err(bad_input(format!("no run that goes on fits {digits}; see exam result"))),
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
        println!("{count} frames, of which {} are enough, in {}", moving.enough(), out.shown());
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
        (Some(_), Some(_)) => return Err(bad_input(format!("several runs fit {which}; give more digits"))),
        (None, _) => match runs.iter().find(|line| line.state == "ended" && line.run.starts_with(&digits)) {
            // Says where the list lies.
            Some(line) => app.exam_score(&line.run, "")?,
            None => app.exam_result(&newest(&app, which)?)?,
        },
    };
    if setting.json {
        print_json(&view);
    } else {
        show_result(&view);
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
    for run in runs.iter().filter(|run| run.state != "scored") {
        let id: String = run.run.chars().take(8).collect();
        let next = match (run.state.as_str(), run.can_score) {
            ("open", _) => format!("go on: exam run --run {id}"),
            ("ended", true) => format!("score it: exam result {id}"),
            ("ended", false) => format!("bring it to the instructor: exam sheet {id} --out FILE"),
            _ => "its events were lost".into(),
        };
        println!(
            "{id}  {:<7} {:<16} load {:<12} key {}  {}  {next}",
            run.state, run.student, run.load, run.key, run.begun.dtg
        );
    }
    for line in &results {
        println!(
            "{}  {:<7} {:<16} load {:<12} key {}  {}  found {} of {}, false calls {}, {}, attempt {}",
            line.result.chars().take(8).collect::<String>(),
            line.outcome,
            line.student,
            line.load,
            line.key,
            line.began.dtg,
            line.found,
            line.of,
            line.false_calls,
            clock(line.seconds),
            line.attempt
        );
    }
    Ok(())
}

fn show_result(view: &ExamResultView) {
    let line = &view.line;
    println!("{}", view.what);
    println!(
        "{}: {} on load {}, attempt {}; key {}; by {} ({})",
        line.outcome.to_uppercase(),
        line.student,
        line.load,
        line.attempt,
        line.key,
        line.instructor,
        view.authority
    );
    println!("  standard: {}", view.standard.words);
    view.reasons.iter().for_each(|reason| println!("  {reason}"));
    view.warnings.iter().for_each(|warning| println!("  ! {warning}"));
    match &view.debrief {
        Some(debrief) => {
            println!("In the order of the load:");
            for item in &debrief.items {
                let mark =
                    if matches!(item.call.as_str(), "found" | "named_otherwise") { "[+]" } else { "[!]" };
                println!("  {mark} {}", item.words);
            }
            for call in &debrief.false_calls {
                let at = call.after_s.map(clock).unwrap_or_default();
                println!(
                    "  [?] Card {}, {}: called \"{}\" at {at}, where nothing was wrong",
                    call.card, call.card_title, call.called
                );
            }
            println!("Time by card:");
            for card in &debrief.cards {
                println!("  {:>6}  card {:>3}  {}", clock(card.seconds), card.card, card.title);
            }
        }
        None => view.planted.iter().for_each(planted),
    }
    println!("Result {}", line.result);
    println!("{}", view.text);
}

fn show_class(class: &ClassView) {
    println!("Students");
    println!(
        "  {:<20} {:>5} {:>6} {:>6} {:>7} {:>7} {:>9} {:>6}",
        "", "runs", "passed", "first", "retests", "unclear", "found", "false"
    );
    for line in &class.students {
        println!(
            "  {:<20} {:>5} {:>6} {:>6} {:>7} {:>7} {:>9} {:>6}",
            line.student,
            line.runs,
            line.passed,
            line.first_passed,
            line.retests,
            line.unclear,
            format!("{}/{}", line.found, line.planted),
            line.false_calls
        );
    }
    println!("Missed most (first attempts, {} of them; 95 %, Wilson)", class.counted);
    for line in class.missed.iter().filter(|line| line.missed > 0).take(20) {
        println!(
            "  {:>4} of {:<4} {:>4.0} % ({:.0} to {:.0})  {}: {}",
            line.missed,
            line.of,
            line.share * 100.0,
            line.low * 100.0,
            line.high * 100.0,
            line.procedure,
            line.deficiency
        );
    }
    println!("Items (p: share that found it; D: upper less lower 27 %; r: with the rest of the score)");
    let maybe = |value: Option<f64>| value.map_or("    -".to_owned(), |value| format!("{value:>5.2}"));
    for line in &class.items {
        println!(
            "  p {:>4.2}  D {}  r {}  {:>3} students  {} card {} {}: {}; {}",
            line.difficulty,
            maybe(line.discrimination),
            maybe(line.point_biserial),
            line.of,
            line.procedure,
            line.card,
            line.point,
            line.deficiency,
            line.words
        );
    }
    println!("Time by card (middle, longest)");
    for line in &class.cards {
        println!(
            "  {:>6} {:>6}  {:>3} runs  {} card {}  {}",
            clock(line.median_s),
            clock(line.longest_s),
            line.runs,
            line.procedure,
            line.card,
            line.title
        );
    }
    class.warnings.iter().for_each(|warning| println!("! {warning}"));
}
