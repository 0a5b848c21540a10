//! What the rigging editor asks: look, move a point, change a link, level it, open and save a file.

use slingseal_app::catalogue::rigging as words;
use slingseal_app::{
    AppError, Language, LiftRequest, RiggingFields, SolveRequest, assess_fields, fields_of_file, move_point,
    rigging_caution, solve_lift, step_link, step_point, weigh_fields,
};

use super::ask::Form;
use super::desk::Desk;
use super::page::{self, Rig};
use super::reply::Reply;
use crate::output::bad_input;

/// As many scales and items as a file may name.
const MOST_SCALES: usize = 16;
const MOST_ITEMS: usize = 64;

/// What an editor begins with: a load to be written over.
const BEGIN: &str = include_str!("../../demo/vehicle-rigging.toml");

/// The editor as it opens.
pub(super) fn begun(desk: &Desk) -> Result<maud::Markup, AppError> {
    let language = desk.app.spoken();
    let fields = fields_of_file(BEGIN)?;
    let rig = Rig {
        sheet: assess_fields(&fields, language),
        fields,
        note: Some(words::EditorExample.say(language)),
    };
    Ok(page::rigging(&rig, language))
}

/// The editor with a file that was sent.
pub(super) fn opened(desk: &Desk, form: &Form) -> Result<maud::Markup, AppError> {
    let text = form.all("text").next().unwrap_or_default();
    let fields = fields_of_file(text)?;
    let language = desk.app.spoken();
    let rig = Rig { sheet: assess_fields(&fields, language), fields, note: None };
    Ok(page::rigging(&rig, language))
}

/// The editor after something was done; `script` is whether a page that stands wants the answer, not a new page.
pub(super) fn answered(desk: &Desk, form: &Form, script: bool) -> Result<Reply, AppError> {
    let language = desk.app.spoken();
    let rig = done(form, language);
    if script {
        let hangs = page::hangs(&rig, language).into_string();
        let faults: Vec<&str> = rig
            .sheet
            .as_ref()
            .err()
            .map(|faults| faults.iter().map(|fault| fault.field.as_str()).collect())
            .unwrap_or_default();
        return Ok(Reply::json(
            &serde_json::json!({ "fields": rig.fields, "hangs": hangs, "faults": faults }),
        ));
    }
    super::frame::shown(desk, "/rigging", &words::EditorTitle.say(language), &page::rigging(&rig, language))
}

/// The file that the form stands for.
pub(super) fn saved(desk: &Desk, form: &Form) -> Result<Reply, AppError> {
    let sheet = assess_fields(&fields(form), desk.app.spoken()).map_err(|faults| {
        bad_input(
            faults
                .iter()
                .map(|fault| format!("{}: {}", fault.field, fault.words))
                .collect::<Vec<_>>()
                .join("\n"),
        )
    })?;
    Ok(Reply::bytes("application/toml", sheet.toml().into_bytes())
        .with("Content-Disposition", "attachment; filename=\"rigging.toml\"".into()))
}

fn fields(form: &Form) -> RiggingFields {
    let known =
        |name: &&str| !matches!(*name, "do" | "handle" | "view" | "right" | "down" | "scale" | "steps");
    form.names().filter(known).map(|name| (name.to_owned(), form.get(name).to_owned())).collect()
}

fn done(form: &Form, language: Language) -> Rig {
    let mut fields = fields(form);
    let mut note = None;
    let (what, number) = form.get("do").split_once('.').unwrap_or((form.get("do"), ""));
    let number = number.parse::<usize>().ok();
    match (what, number) {
        ("more", Some(leg)) => step_link(&mut fields, leg, 1),
        ("less", Some(leg)) => step_link(&mut fields, leg, -1),
        ("move", _) => moved(form, &mut fields),
        ("leg", _) => another_leg(&mut fields),
        ("scale" | "tilted" | "item", _) => another_row(&mut fields, what, language),
        ("level", _) => note = levelled(&mut fields, language),
        ("weigh", _) => match weigh_fields(&fields, language) {
            Ok(weighed) => {
                fields = weighed.fields;
                note = Some(beside_foot(&weighed.sheet.report, language));
            }
            Err(faults) => return Rig { fields, sheet: Err(faults), note },
        },
        _ => {}
    }
    Rig { sheet: assess_fields(&fields, language), fields, note }
}

/// A report on a page, at whose foot the manual's caution stands already.
fn beside_foot(report: &str, language: Language) -> String {
    let caution = rigging_caution(language);
    report.trim_end().trim_end_matches(caution.as_str()).trim_end().to_owned()
}

/// A new row of a weighing, by its name.
fn another_row(fields: &mut RiggingFields, what: &str, language: Language) {
    let (of, most) = match what {
        "item" => ("item", MOST_ITEMS),
        "tilted" => ("tilted", MOST_SCALES),
        _ => ("weighed", MOST_SCALES),
    };
    let Some(free) = (0..most).find(|at| page::is_free(fields, of, *at)) else { return };
    let number = free + 1;
    let name = match of {
        "item" => words::EditorItem { number }.say(language),
        _ => words::EditorScale { number }.say(language),
    };
    fields.insert(format!("{of}.{free}.name"), name);
}

/// A handle was dragged by so much of the plan, or stepped by arrow keys. Right is forward; up is left from above, and up from the
/// side.
fn moved(form: &Form, fields: &mut RiggingFields) {
    let number =
        |name: &str| form.get(name).parse::<f64>().ok().filter(|value| value.is_finite()).unwrap_or(0.0);
    let up = if form.get("view") == "top" { 1 } else { 2 };
    let (handle, right, down) = (form.get("handle"), number("right"), number("down"));
    if !form.get("steps").is_empty() {
        step_point(fields, handle, 0, right);
        step_point(fields, handle, up, -down);
        return;
    }
    let scale = number("scale");
    if scale > 0.0 {
        move_point(fields, handle, 0, right / scale);
        move_point(fields, handle, up, -down / scale);
    }
}

/// The first number that is free, like the leg before it.
fn another_leg(fields: &mut RiggingFields) {
    let there = |at: usize| fields.get(&format!("leg.{at}.name")).is_some_and(|name| !name.trim().is_empty());
    let Some(free) = (0..8).find(|at| !there(*at)) else { return };
    let before = format!("leg.{}.", free.saturating_sub(1));
    let like: Vec<(String, String)> = fields
        .iter()
        .filter_map(|(name, value)| Some((name.strip_prefix(&before)?.to_owned(), value.clone())))
        .collect();
    for (name, value) in like {
        fields.insert(format!("leg.{free}.{name}"), value);
    }
    fields.insert(format!("leg.{free}.name"), (free + 1).to_string());
}

/// The links of the hang nearest to level, with what one link off would do.
fn levelled(fields: &mut RiggingFields, language: Language) -> Option<String> {
    let sheet = assess_fields(fields, language).ok()?;
    let lift = LiftRequest { text: sheet.toml(), factor: None, language };
    match solve_lift(&SolveRequest { lift, most: Some(1), ..SolveRequest::default() }) {
        Ok(found) => {
            if let Some(best) = &found.best {
                *fields = best.fields();
            }
            Some(beside_foot(&found.report, language))
        }
        Err(error) => Some(error.to_string()),
    }
}
