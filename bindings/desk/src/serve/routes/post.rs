//! What changes something, or is computed from what was entered.

use std::io::Seek;
use std::sync::Arc;

use slingseal_app::catalogue::{page as words, rigging as rig_words};
use slingseal_app::{AppError, BundleRequest, CheckPageRequest};

use super::closing::{closing, closing_address, closing_of};
use super::export::{audited, export_failed, kind_of, written};
use super::piece::piece;
use super::plan::{looked_at, looked_at_list, make_list, make_one, planned};
use crate::check_page;
use crate::output::{bad_input, plain};
use crate::serve::acts;
use crate::serve::ask::{self, Form};
use crate::serve::desk::Desk;
use crate::serve::frame::shown;
use crate::serve::http::Request;
use crate::serve::intake::{self, Receipt, Seen};
use crate::serve::page;
use crate::serve::reply::Reply;
use crate::serve::rig;
use crate::serve::work::{Made, Watched, What};

/// The largest bundle that is taken in over the page; a larger one goes through `bundle read`.
const BUNDLE: u64 = 4 << 30;

/// The largest picture of a camera: 1920 by 1080, a byte a point.
const FRAME: u64 = 1920 * 1080;

pub(super) fn posted(
    desk: &Desk,
    request: &mut Request,
    parts: &[&str],
    query: &Form,
) -> Result<Reply, AppError> {
    let app = &*desk.app;
    match parts {
        ["plan"] => make_one(desk, ask::form(request)?),
        ["plan", "rigging"] => {
            let form = ask::form(request)?;
            planned(desk, looked_at(desk, form), None)
        }
        ["rigging"] => rig::answered(desk, &ask::form(request)?, false),
        ["rigging", "look"] => rig::answered(desk, &ask::form(request)?, true),
        ["rigging", "file"] => rig::saved(desk, &ask::form(request)?),
        ["rigging", "open"] => {
            let content = rig::opened(desk, &ask::form(request)?)?;
            shown(desk, "/rigging", &rig_words::EditorTitle.say(desk.app.spoken()), &content)
        }
        ["plan", "list"] => make_list(desk, ask::form(request)?),
        ["plan", "list", "rigging"] => planned(desk, looked_at_list(desk, ask::form(request)?)?, None),
        ["receive", "text"] => {
            let form = ask::form(request)?;
            let texts = form.get("text").lines().map(str::trim).filter(|text| !text.is_empty()).take(5_000);
            let mut more = None;
            for text in texts {
                if let Seen::More { taken, enough } = desk.intake().text(app, "typed", text) {
                    more = Some((taken, enough));
                } else {
                    more = None;
                }
            }
            if let Some((taken, enough)) = more {
                let what = words::FramesTaken { taken: &taken, enough: &enough }.say(desk.app.spoken());
                desk.intake().note(Receipt {
                    at: app.now().into(),
                    good: true,
                    partly: false,
                    what,
                    lines: Vec::new(),
                    load: None,
                    request: None,
                });
            }
            Ok(Reply::see("/receive"))
        }
        ["receive", "file"] => {
            let name = query.some("name").unwrap_or_else(|| words::AFileNamed.say(desk.app.spoken()));
            let name: String = name.chars().take(80).collect();
            let file = spooled(request)?;
            let work = desk.works.enter(What::Bundle(name.clone()), app.now().into())?;
            let mut receipts = intake::file(app, &name, &mut Watched::new(file, request.length, &work));
            if work.is_stopped() {
                receipts = vec![intake::stopped(app, &name)];
            }
            let lines = receipts.iter().map(|receipt| receipt.what.clone()).collect();
            work.ended(Ok(Made { lines, file: None }));
            let good = receipts.iter().all(|receipt| receipt.good);
            let mut intake = desk.intake();
            receipts.into_iter().for_each(|receipt| intake.note(receipt));
            Ok(Reply::json(&serde_json::json!({ "good": good })))
        }
        ["receive", "frame"] => {
            let (width, height) = (query.number("width", 0, 1920), query.number("height", 0, 1920));
            let picture = ask::bytes(request, FRAME)?;
            let reading = intake::look(app, width, height, &picture)?;
            let seen = desk.intake().reading(app, query.get("reader"), reading);
            Ok(Reply::json(&match seen {
                Seen::Nothing => serde_json::json!({ "seen": "nothing" }),
                Seen::More { taken, enough } => {
                    serde_json::json!({ "seen": "more", "taken": taken, "enough": enough })
                }
                Seen::Done(receipt) => {
                    serde_json::json!({ "seen": "done", "good": receipt.good, "what": receipt.what })
                }
            }))
        }
        ["act", name] => acts::answered(desk, name, request),
        ["job", "export"] => {
            let form = ask::form(request)?;
            let name = form.get("name").to_owned();
            let kind = kind_of(&name)?;
            let app = Arc::clone(&desk.app);
            desk.works.begin(What::Export(name.clone()), app.now().into(), move |work| {
                // Whoever takes it reads it from its beginning, more than once if need be: it has a name until it is forgotten.
                let file = tempfile::NamedTempFile::new().map_err(export_failed)?;
                written(&app, &name, work, file.reopen().map_err(export_failed)?)?;
                Ok(Made { lines: Vec::new(), file: Some((kind, name, file)) })
            })?;
            Ok(Reply::see("/job"))
        }
        ["job", "audit"] => {
            let app = Arc::clone(&desk.app);
            desk.works.begin(What::Audit, app.now().into(), move |work| audited(&app, work))?;
            Ok(Reply::see("/job"))
        }
        ["job", number, "stop"] => {
            desk.works.get(number)?.stop();
            Ok(Reply::see("/job"))
        }
        ["moving"] => {
            let form = ask::form(request)?;
            let request = BundleRequest { have: form.some("have"), ..BundleRequest::default() };
            let codes = app.moving_codes(&request)?;
            *desk.moving() = codes;
            Ok(Reply::see("/moving"))
        }
        ["manifest", how] => {
            let form = ask::form(request)?;
            let day = form.some("day");
            let view = match *how {
                "put" => {
                    let place = form.number("place", 0, u32::MAX);
                    app.put_in_lift_order(day.as_deref(), form.get("load"), place)?
                }
                "order" => app.take_lift_order(day.as_deref(), form.get("table"))?,
                "planned" => app.set_lift_order(day.as_deref(), &[])?,
                _ => return Err(AppError::NotFound { message: words::NoSuchPage.into() }),
            };
            Ok(Reply::see(&format!("/manifest?day={}", view.day)))
        }
        ["close", "explain"] => {
            let form = ask::form(request)?;
            app.explain(form.get("point"), form.get("note"))?;
            Ok(Reply::see(&closing_address(&form)))
        }
        ["close", "sign"] => {
            desk.not_in_the_clear()?;
            let form = ask::form(request)?;
            let pin = desk.pin("close", &form)?;
            match app.sign_closing(&closing_of(&form), pin) {
                Ok(_) => Ok(Reply::see(&closing_address(&form))),
                Err(error) => closing(desk, &form, Some(&error)),
            }
        }
        ["equipment", serial] => {
            desk.not_in_the_clear()?;
            let form = ask::form(request)?;
            match app.withdraw_piece(serial, form.get("why"), desk.pin("piece", &form)?) {
                Ok(_) => Ok(Reply::see(&format!("/equipment/{}", page::encoded(serial)))),
                Err(error) => piece(desk, serial, &form, Some(&error)),
            }
        }
        ["hook-check"] => {
            desk.not_in_the_clear()?;
            let shell = check_page::shell(desk.page.as_deref())?;
            let form = ask::form(request)?;
            let hours = Some(form.number("hours", 24, 168));
            let pin = desk.pin("hook-check", &form)?;
            let made = app.check_page(&CheckPageRequest { authorities: Vec::new(), hours }, pin)?;
            let html = check_page::filled(&shell, &made.bytes)?;
            *desk.hook_check() = Some((made, html));
            Ok(Reply::see("/hook-check"))
        }
        _ => Err(AppError::NotFound { message: words::NoSuchPage.into() }),
    }
}

/// An upload, whole, in a file without a name: what comes slowly must not hold up the home while it comes.
fn spooled(request: &mut Request) -> Result<std::fs::File, AppError> {
    if request.length > BUNDLE {
        return Err(bad_input(words::MoreThanPageTakes));
    }
    let failed = |error: std::io::Error| AppError::StorageFull {
        message: words::UploadNotKept { plain: &plain(&error) }.into(),
    };
    let mut file = tempfile::tempfile().map_err(failed)?;
    let length = request.length;
    if std::io::copy(request.body(), &mut file).map_err(failed)? < length {
        return Err(bad_input(words::UploadCut));
    }
    file.rewind().map_err(failed)?;
    Ok(file)
}
