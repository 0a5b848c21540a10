//! `tag`: write and read load tags.

use slingseal_app::catalogue::desk as words;
use std::path::Path;
use std::process::ExitCode;

use slingseal_app::catalogue::Saying;
use slingseal_app::{AppError, Language, TagView};

use super::setting::{Setting, tell_who_signs};
use crate::cli::TagVerb;
use crate::files::write_together;
use crate::input;
use crate::output::{file_name, print_json, put_code_and, told};
use crate::platform::{Secret, ask};
use slingseal_paper::{Paper, sheets_pdf};

pub(crate) fn run(setting: &Setting, verb: TagVerb) -> Result<ExitCode, AppError> {
    match verb {
        TagVerb::Write { plan, out, unsigned } => {
            let text = input::text(&plan)?;
            let folder = plan.parent().unwrap_or(Path::new("."));
            let language = setting.language;
            let open = |name: &str| input::beside(&folder.join(name), language);
            let list = plan.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
            let app = setting.app()?;
            if !unsigned {
                tell_who_signs(&app, Some(slingseal_app::Role::Planner))?;
            }
            let pin = if unsigned { None } else { Some(ask(&app, Secret::Pin, false)?) };
            let pin = pin.as_ref().map(|pin| pin.as_str());
            let made = if list {
                app.write_tags(&text, &open, pin)
            } else {
                app.write_tag(&text, &open, pin).map(|made| vec![made])
            };
            let made = made.map_err(|error| match error {
                AppError::BadInput { .. } => input::named(&plan, &error),
                other => other,
            })?;
            let mut files = Vec::new();
            for one in &made {
                let name = format!("tag-{}", file_name(&one.tag.load));
                let sheet = sheets_pdf(&[(&one.tag, &one.code)], Paper::A4, setting.language)?;
                files.extend(put_code_and(&one.code, &out, &name, &[("pdf", &sheet)])?);
            }
            if list {
                let pages: Vec<_> = made.iter().map(|one| (&one.tag, &one.code)).collect();
                let all = sheets_pdf(&pages, Paper::A4, setting.language)?;
                files.extend(write_together(&out, "sheets", &[("pdf", &all)])?);
            }
            match made.as_slice() {
                made if setting.json && list => print_json(&made),
                [one] if setting.json => print_json(one),
                made => {
                    made.iter().for_each(|one| show(&one.tag, setting.language));
                    told(&files);
                }
            }
        }
        TagVerb::Read { code } => {
            let tag = setting.app()?.read_tag(&input::code(&code)?)?;
            if setting.json {
                print_json(&tag);
            } else {
                show(&tag, setting.language);
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

/// The widest word before a fact of a tag, in each language.
pub(super) const LABEL: usize = 17;

/// A tag as a terminal shows it.
pub(crate) fn show(tag: &TagView, language: Language) {
    let row = |label: Saying, value: &str| println!("  {:<LABEL$} {value}", label.say(language));
    println!("{}", words::LoadHead { load: &tag.load, description: &tag.description }.say(language));
    row(words::RowCheck.into(), &tag.check);
    let (gross, allowable, aircraft) = (&tag.gross, &tag.allowable, &tag.aircraft);
    row(words::RowGross.into(), &words::GrossAllowed { gross, allowable, aircraft }.say(language));
    for (what, zone) in
        [(words::RowPickup.saying(), &tag.pickup), (words::RowDestination.into(), &tag.destination)]
    {
        row(what, &format!("{} {}", zone.name, zone.grid.as_deref().unwrap_or_default()));
    }
    row(words::RowProcedure.into(), tag.procedure_title.as_deref().unwrap_or(&tag.procedure));
    row(words::RowRigger.into(), &tag.rigger.clone().unwrap_or_else(|| words::NotNamed.say(language)));
    let planned = words::PlannedBy { at: &tag.planned.dtg, by: tag.signed_by(language) };
    row(words::RowPlanned.into(), &planned.say(language));
    for piece in &tag.equipment {
        let rating = match (&piece.rating, &piece.source) {
            (Some(rating), Some(source)) => format!("{rating} ({source})"),
            _ => words::NoRating.say(language),
        };
        let due = match &piece.next_inspection {
            Some(due) => words::InspectionDue { due }.say(language),
            None => String::new(),
        };
        println!("  {:<LABEL$} {}: {rating}{due}", piece.kind, piece.serial);
    }
    for count in &tag.links {
        let said = words::LegAndLink { leg: format!("{:<8}", count.leg), link: count.link.to_string() };
        println!("  {}", said.say(language));
    }
    for line in &tag.basis.lines {
        println!("  {:<LABEL$} {}", line.label, line.text);
    }
    if let Some(rigging) = &tag.rigging {
        row(words::RowRigging.into(), &rigging.summary);
    }
    for warning in &tag.warnings {
        println!("  ! {warning}");
    }
}
