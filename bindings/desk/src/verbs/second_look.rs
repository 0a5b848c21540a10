//! `account second-look`: how many deficiencies nobody found, and which loads to look at again.

use std::process::ExitCode;

use slingseal_app::catalogue::second_look as words;
use slingseal_app::{AppError, DrawnLook, SecondLookView};

use super::setting::Setting;
use crate::output::print_json;

pub(crate) fn run(setting: &Setting, days: Option<u32>, draw: Option<u32>) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    match draw {
        Some(count) => {
            let drawn = app.draw_second_looks(count)?;
            match setting.json {
                true => print_json(&drawn),
                false => tell_drawn(setting, &drawn),
            }
        }
        None => {
            let view = app.second_looks(days)?;
            match setting.json {
                true => print_json(&view),
                false => tell(setting, &view),
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

fn tell_drawn(setting: &Setting, drawn: &[DrawnLook]) {
    let language = setting.language;
    if drawn.is_empty() {
        println!("{}", words::SecondLookNone.say(language));
        return;
    }
    println!("{}", words::SecondLookDrawn.say(language));
    for DrawnLook { load, inspector, issued, procedure } in drawn {
        let line = words::SecondLookDrawLine { load, inspector, issued: &issued.dtg, procedure };
        println!("  {}", line.say(language));
    }
}

fn tell(setting: &Setting, view: &SecondLookView) {
    let language = setting.language;
    println!("{}", words::SecondLookPairs { pairs: view.pairs }.say(language));
    println!("{}", view.all.said);
    if !view.points.is_empty() {
        println!();
        println!("{}", words::SecondLookPoints.say(language));
        for point in &view.points {
            println!("  {} {}: {}", point.procedure, point.point, point.in_all.said);
        }
    }
    let shares = view.inspectors.iter().filter_map(|one| {
        let share = &one.share;
        let whole = |number: Option<f64>| number.map(|number| format!("{number:.0}"));
        let line = words::SecondLookShare {
            inspector: &one.inspector,
            found: share.found,
            of: share.of,
            percent: whole(share.percent)?,
            low: whole(share.low_percent)?,
            high: whole(share.high_percent)?,
        };
        Some(line.say(language))
    });
    let shares: Vec<String> = shares.collect();
    if !shares.is_empty() {
        println!();
        println!("{}", words::SecondLookInspectors.say(language));
        shares.iter().for_each(|line| println!("  {line}"));
    }
    println!();
    println!("{}", words::SecondLookAssumes.say(language));
    view.assumes.iter().for_each(|line| println!("  {line}"));
    println!("{}", words::SecondLookSource.say(language));
}
