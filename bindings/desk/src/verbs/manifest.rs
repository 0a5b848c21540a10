//! `account manifest`: a day's loads in the order in which they are to be lifted, and that order set.

use std::process::ExitCode;

use slingseal_app::catalogue::board as words;
use slingseal_app::{AppError, Language, ManifestView, visibly};

use super::setting::Setting;
use crate::cli::Manifest;
use crate::input;
use crate::output::{bad_input, print_json, told, write};
use slingseal_paper::{Paper, manifest_pdf};

pub(crate) fn run(setting: &Setting, manifest: Manifest) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let day = manifest.day.as_deref();
    if manifest.as_planned {
        app.set_lift_order(day, &[])?;
    }
    if let Some(file) = &manifest.order {
        app.take_lift_order(day, &input::text(file)?)?;
    }
    for text in &manifest.put {
        let (load, place) = text.split_once('=').ok_or_else(|| bad_input(words::ManifestPutForm))?;
        let place = place.trim().parse().map_err(|_| bad_input(words::ManifestPutForm))?;
        app.put_in_lift_order(day, load.trim(), place)?;
    }
    let view = app.manifest(day)?;
    let mut files = Vec::new();
    if let Some(file) = manifest.pdf {
        let paper = if manifest.letter { Paper::Letter } else { Paper::A4 };
        write(&file, &manifest_pdf(&view, paper, setting.language)?)?;
        files.push(file);
    }
    if let Some(file) = manifest.csv {
        write(&file, app.manifest_csv(day)?.as_bytes())?;
        files.push(file);
    }
    if setting.json {
        print_json(&view);
    } else if files.is_empty() {
        print!("{}", text(&view, setting.language));
    } else {
        told(&files);
    }
    Ok(ExitCode::SUCCESS)
}

fn text(view: &ManifestView, language: Language) -> String {
    let mut lines = vec![
        words::ManifestTitle { day: &view.day }.say(language),
        words::ManifestKnownAt { count: view.lines.len(), at: &view.at.dtg }.say(language),
    ];
    for one in &view.lines {
        let facts = [one.description.as_str(), &one.gross, &one.aircraft];
        let facts: Vec<&str> = facts.into_iter().filter(|fact| !fact.is_empty()).collect();
        let (way, stands) = (one.way(language), one.stands(language));
        lines.push(format!("{:>4}  {:<12} {}; {way}; {stands}", one.place, one.load, facts.join(", ")));
    }
    lines.iter().map(|line| visibly(line) + "\n").collect()
}
