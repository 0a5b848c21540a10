//! Exports, at once and as long work; the audit; what long work made.

use std::io::{Seek, Write};

use slingseal_app::catalogue::page as words;
use slingseal_app::{App, AppError, BundleRequest, ClassRequest, ExportTable};

use crate::output::plain;
use crate::serve::desk::Desk;
use crate::serve::frame::shown_meanwhile;
use crate::serve::page;
use crate::serve::reply::Reply;
use crate::serve::work::{End, Made, Watched, What, Work};

/// One of the class's tables, all of it.
pub(in crate::serve) fn class_table(desk: &Desk, file: &str) -> Result<Reply, AppError> {
    let none = || AppError::NotFound { message: words::NoSuchClassTable.into() };
    let name = file.strip_prefix("class-").and_then(|name| name.strip_suffix(".csv")).ok_or_else(none)?;
    let tables = desk.app.exam_class_csv(&ClassRequest::default())?;
    let table = tables.into_iter().find(|table| table.name == name).ok_or_else(none)?;
    Ok(Reply::bytes("text/csv; charset=utf-8", table.csv.into_bytes())
        .with("Content-Disposition", format!("attachment; filename=\"{file}\"")))
}

/// An export that is fetched at once.
pub(in crate::serve) fn exported(desk: &Desk, name: &str) -> Result<Reply, AppError> {
    let kind = kind_of(name)?;
    let work = desk.works.enter(What::Export(name.to_owned()), desk.app.now().into())?;
    let written =
        tempfile::tempfile().map_err(export_failed).and_then(|file| written(&desk.app, name, &work, file));
    work.ended(Ok(Made::default()));
    let mut file = written?;
    file.rewind().map_err(export_failed)?;
    Ok(Reply::file(kind, name, file))
}

/// The media type of an export.
pub(in crate::serve) fn kind_of(name: &str) -> Result<&'static str, AppError> {
    Ok(match name {
        "records.csv" | "deficiencies.csv" | "equipment.csv" | "pieces.csv" => "text/csv; charset=utf-8",
        "account.json" => "application/json",
        "everything.slb" => "application/octet-stream",
        _ => return Err(AppError::NotFound { message: words::NoSuchExport.into() }),
    })
}

/// Written to a file without a name first: an export of a hundred thousand records must not lie in memory, and a download that
/// breaks off in the middle must not pass for one.
pub(in crate::serve) fn written(
    app: &App,
    name: &str,
    work: &Work,
    file: std::fs::File,
) -> Result<std::fs::File, AppError> {
    let failed = export_failed;
    let mut out = Watched::new(std::io::BufWriter::new(file), 0, work);
    match name {
        "records.csv" => app.export_csv(ExportTable::Records, &mut out).map(drop)?,
        "deficiencies.csv" => app.export_csv(ExportTable::Deficiencies, &mut out).map(drop)?,
        "equipment.csv" => app.export_csv(ExportTable::Equipment, &mut out).map(drop)?,
        "pieces.csv" => app.piece_lives_csv(&mut out)?,
        "account.json" => app.export_json(&mut out).map(drop)?,
        "everything.slb" => {
            let request = BundleRequest { have: None, photos: true, ..BundleRequest::default() };
            app.bundle_write(&request, &mut out).map(drop)?;
        }
        _ => return Err(AppError::NotFound { message: words::NoSuchExport.into() }),
    }
    out.flush().map_err(failed)?;
    out.inner.into_inner().map_err(|error| failed(error.into_error()))
}

pub(in crate::serve) fn export_failed(error: std::io::Error) -> AppError {
    AppError::StorageFull { message: words::ExportNotWritten { plain: &plain(&error) }.into() }
}

/// The audit, and what it says.
pub(in crate::serve) fn audited(app: &App, work: &Work) -> Result<Made, AppError> {
    let view = app.audit_while(&mut |progress| {
        work.at(progress.done, progress.of);
        !work.is_stopped()
    })?;
    let language = app.spoken();
    let said = if view.faults.is_empty() {
        let (entries, papers) = (view.entries.to_string(), view.papers.to_string());
        words::AuditHolds { records: view.records.to_string(), entries, papers }.say(language)
    } else {
        words::AuditFaults { count: view.faults.len() }.say(language)
    };
    // More than that nobody reads on a page: the terminal has them all.
    let lines = std::iter::once(said).chain(view.faults.into_iter().chain(view.notes).take(50));
    Ok(Made { lines: lines.collect(), file: None })
}

/// Long work, said without asking the home.
pub(in crate::serve) fn works(desk: &Desk) -> Reply {
    let (all, language) = (desk.works.list(), desk.language);
    let reply = shown_meanwhile(desk, "/export", &words::Work.say(language), &page::works(&all, language));
    let under_way = all.iter().any(|work| work.is_under_way());
    if under_way { reply.with("Refresh", "2".into()) } else { reply }
}

/// The file that a piece of work made; each time from its beginning.
pub(in crate::serve) fn made(desk: &Desk, number: &str, name: &str) -> Result<Reply, AppError> {
    let work = desk.works.get(number)?;
    let end = work.end();
    let Some(End::Done(Made { file: Some((kind, known, file)), .. })) = &*end else {
        return Err(AppError::NotFound { message: words::NoSuchWork.into() });
    };
    if known != name {
        return Err(AppError::NotFound { message: words::NoSuchWork.into() });
    }
    Ok(Reply::file(kind, known, file.reopen().map_err(export_failed)?))
}
