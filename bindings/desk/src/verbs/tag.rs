//! `tag`: write and read load tags.

use std::path::Path;
use std::process::ExitCode;

use slingseal_core::app::{AppError, TagView};

use super::Setting;
use crate::cli::TagVerb;
use crate::input;
use crate::output::{file_name, print_json, put_code, told, write};
use crate::platform::{Secret, ask};
use crate::print::{Paper, sheets_pdf};

pub(crate) fn run(setting: &Setting, verb: TagVerb) -> Result<ExitCode, AppError> {
    match verb {
        TagVerb::Write { plan, out, unsigned } => {
            let text = input::text(&plan)?;
            let folder = plan.parent().unwrap_or(Path::new("."));
            let open = |name: &str| input::text(&folder.join(name)).map_err(|error| error.to_string());
            let app = setting.app()?;
            let pin = if unsigned { None } else { Some(ask(Secret::Pin, false)?) };
            let made = app.write_tag(&text, &open, pin.as_ref().map(|pin| pin.as_str())).map_err(
                |error| match error {
                    AppError::BadInput { .. } => input::named(&plan, &error),
                    other => other,
                },
            )?;
            let name = format!("tag-{}", file_name(&made.tag.load));
            let mut files = put_code(&made.code, Some(&out), &name)?;
            let sheet = out.join(format!("{name}.pdf"));
            write(&sheet, &sheets_pdf(&[(&made.tag, &made.code)], Paper::A4)?)?;
            files.push(sheet);
            if setting.json {
                print_json(&made);
            } else {
                show(&made.tag);
                told(&files);
            }
        }
        TagVerb::Read { code } => {
            let tag = setting.app()?.read_tag(&input::code(&code)?)?;
            if setting.json {
                print_json(&tag);
            } else {
                show(&tag);
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

/// A tag as a terminal shows it.
pub(crate) fn show(tag: &TagView) {
    println!("Load {}   {}", tag.load, tag.description);
    println!("  Gross mass   {} ({} allowed, {})", tag.gross, tag.allowable, tag.aircraft);
    for (what, zone) in [("Pickup", &tag.pickup), ("Destination", &tag.destination)] {
        println!("  {what:<12} {} {}", zone.name, zone.grid.as_deref().unwrap_or_default());
    }
    println!("  Procedure    {}", tag.procedure_title.as_deref().unwrap_or(&tag.procedure));
    println!("  Rigger       {}", tag.rigger.as_deref().unwrap_or("not named"));
    println!(
        "  Planned      {} by {}",
        tag.planned.dtg,
        tag.planner.as_deref().unwrap_or("nobody who signed")
    );
    for piece in &tag.equipment {
        let rating = match (&piece.rating, &piece.source) {
            (Some(rating), Some(source)) => format!("{rating} ({source})"),
            _ => "no rating".into(),
        };
        let due =
            piece.next_inspection.as_ref().map(|due| format!(", inspection due {due}")).unwrap_or_default();
        println!("  {:<12} {}: {rating}{due}", piece.kind, piece.serial);
    }
    for count in &tag.links {
        println!("  Leg {:<8} link {}", count.leg, count.link);
    }
    if let Some(rigging) = &tag.rigging {
        println!("  Rigging      {}", rigging.summary);
    }
    for warning in &tag.warnings {
        println!("  ! {warning}");
    }
}
