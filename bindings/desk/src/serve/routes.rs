//! Which page answers which path.

use slingseal_app::catalogue::page as words;
use std::io::{Seek, Write};

use slingseal_app::{
    AppError, BoardColumn, BoardRequest, BundleRequest, CheckPageRequest, ClassRequest, CloseRequest,
    ExportTable, ListRequest, PieceFilter, code_of,
};

use slingseal_app::catalogue::{board as board_words, check_page as check_words, rigging as rig_words};

use super::ask::{self, Ask, Form};
use super::desk::Desk;
use super::frame::{here, shown};
use super::http::Request;
use super::intake::{self, Receipt, Seen};
use super::page::{self, Entered, Fault};
use super::reply::{Reply, status_of};
use super::rig;
use crate::check_page;
use crate::output::{bad_input, file_name, plain};
use slingseal_paper::{Paper, checklist_pdf, closing_pdf, faces, manifest_pdf, record_pdf, sheets_pdf};

/// The largest bundle that is taken in over the page; a larger one goes through `bundle read`.
const BUNDLE: u64 = 4 << 30;
/// The largest picture of a camera: 1920 by 1080, a byte a point.
const FRAME: u64 = 1920 * 1080;
/// Records on one page.
const PAGE: u32 = 50;
/// Loads on one shelf of the board.
const SHELF: u32 = 24;

/// Answers one request.
pub(super) fn answer(desk: &Desk<'_>, mut request: Request) {
    let reply = guarded(desk, &mut request);
    reply.send(request);
}

fn guarded(desk: &Desk<'_>, request: &mut Request) -> Reply {
    let Some(ask) = Ask::of(request) else {
        return Reply::page(page::turned_away(&words::NotAskedSo.say(desk.app.spoken()), desk.app.spoken()))
            .status(405);
    };
    let parts: Vec<&str> = ask.path.iter().map(String::as_str).collect();
    let host = request.field("Host");
    if parts == ["open"] && !ask.post {
        if let Err(refused) = desk.guard.check_host(host) {
            return Reply::page(page::turned_away(&refused.say(desk.app.spoken()), desk.app.spoken()))
                .status(403);
        }
        return match desk.guard.admit(ask.query.get("token")) {
            Some(cookie) => Reply::page(page::opened(desk.app.spoken())).with("Set-Cookie", cookie),
            None => Reply::page(page::turned_away(
                &words::LinkOfOtherStart.say(desk.app.spoken()),
                desk.app.spoken(),
            ))
            .status(403),
        };
    }
    let (origin, cookies) = (request.field("Origin"), request.field("Cookie"));
    if let Err(refused) = desk.guard.check(host, origin, cookies, ask.post) {
        return Reply::page(page::turned_away(&refused.say(desk.app.spoken()), desk.app.spoken()))
            .status(403);
    }
    let answered =
        if ask.post { posted(desk, request, &parts, &ask.query) } else { looked(desk, &parts, &ask.query) };
    answered.unwrap_or_else(|error| match here(desk) {
        Ok(here) => Reply::page(page::failed(&here, &error)).status(status_of(&error)),
        Err(_) => {
            Reply::page(page::turned_away(&error.say(desk.app.spoken()), desk.app.spoken())).status(500)
        }
    })
}

/// The days that a page looks back; nought is all.
fn days(query: &Form) -> Option<u32> {
    Some(query.number("days", 0, 36_500)).filter(|days| *days > 0)
}

fn looked(desk: &Desk<'_>, parts: &[&str], query: &Form) -> Result<Reply, AppError> {
    let app = desk.app;
    match parts {
        [] => {
            let request = BoardRequest {
                days: query.number("days", 7, 3_650),
                date: query.some("date"),
                zone: query.some("zone"),
                destination: query.some("to"),
                aircraft: query.some("aircraft"),
                state: query.some("state"),
                page: query.number("page", 0, u32::MAX),
                most: SHELF,
            };
            shown(
                desk,
                "/",
                &words::TheZone.say(desk.app.spoken()),
                &page::board(&app.board_of(&request)?, &request, desk.app.spoken()),
            )
        }
        ["rigging"] => {
            shown(desk, "/rigging", &rig_words::EditorTitle.say(desk.app.spoken()), &rig::begun(desk)?)
        }
        ["close"] => {
            let request = closing_of(query);
            // A home in which nothing is told yet has nothing to close.
            let view = match app.close_account(&request) {
                Err(AppError::NotFound { .. }) => None,
                answer => Some(answer?),
            };
            let (signs, language) = (credentialed(desk, "leader")?, app.spoken());
            let content = page::close(view.as_ref(), &request, &app.closings()?, signs.as_deref(), language);
            shown(desk, "/close", &words::Closing.say(language), &content)
        }
        ["close", file] if file.ends_with(".pdf") => {
            let digest = file.trim_end_matches(".pdf");
            let none = || AppError::NotFound { message: words::NoSuchPage.into() };
            let statement = app.closings()?.into_iter().find(|one| one.digest == digest).ok_or_else(none)?;
            let pdf = closing_pdf(&statement, Paper::A4, app.spoken())?;
            Ok(Reply::pdf(&format!("closing-{}.pdf", file_name(&statement.name)), pdf))
        }
        ["manifest"] => {
            let view = app.manifest(query.some("day").as_deref())?;
            let title = board_words::ManifestTitle { day: &view.day }.say(app.spoken());
            shown(desk, "/", &title, &page::manifest(&view, app.spoken()))
        }
        ["manifest", file] => {
            let none = || AppError::NotFound { message: words::NoSuchPage.into() };
            let (day, ending) = file.rsplit_once('.').ok_or_else(none)?;
            let name = format!("manifest-{}.{ending}", file_name(day));
            match ending {
                "pdf" => {
                    Ok(Reply::pdf(&name, manifest_pdf(&app.manifest(Some(day))?, Paper::A4, app.spoken())?))
                }
                "csv" => Ok(Reply::table(&name, app.manifest_csv(Some(day))?)),
                _ => Err(none()),
            }
        }
        ["load", load] => {
            let view = app.load(load)?;
            shown(
                desk,
                "",
                &words::LoadNumbered { load: &view.load }.say(desk.app.spoken()),
                &page::load(&view, &app.photos_of(&view)?, desk.app.spoken()),
            )
        }
        ["load", load, "rigging.svg"] => {
            let rigging = app.load(load)?.tag.and_then(|tag| tag.rigging);
            let none = || AppError::NotFound { message: words::TagWithoutRigging.into() };
            Ok(Reply::svg(rigging.and_then(|rigging| rigging.picture_svg).ok_or_else(none)?))
        }
        ["record", file] if file.ends_with(".pdf") => {
            let view = app.record(file.trim_end_matches(".pdf"))?;
            let pdf = record_pdf(&view, Some(&code_of(&view.seal)?), Paper::A4, desk.app.spoken())?;
            Ok(Reply::pdf(&format!("record-{}.pdf", view.line.load), pdf))
        }
        ["record", record, "seal.svg"] => {
            Ok(Reply::svg(code_of(&app.record(record)?.seal)?.svg_labelled(desk.app.spoken())?))
        }
        ["tag", file] if file.ends_with(".svg") => {
            Ok(Reply::svg(app.tag(file.trim_end_matches(".svg"))?.code.svg_labelled(desk.app.spoken())?))
        }
        ["photo", digest] => {
            let photo = app.photo(digest)?;
            let kind = if photo.starts_with(b"\x89PNG") { "image/png" } else { "image/jpeg" };
            Ok(Reply::bytes(kind, photo))
        }
        ["sheet.pdf"] => sheets(desk, query),
        ["deficiencies"] => {
            let days = days(query);
            shown(
                desk,
                "/deficiencies",
                &words::Deficiencies.say(desk.app.spoken()),
                &page::deficiencies(
                    &app.deficiencies(days)?,
                    &app.second_looks(days)?,
                    days,
                    desk.app.spoken(),
                ),
            )
        }
        ["people"] => {
            // A home that is no authority has issued nothing.
            let issued = app.issued().ok();
            shown(
                desk,
                "/people",
                &words::PlacePeople.say(desk.app.spoken()),
                &page::people(&app.people()?, issued.as_ref(), desk.app.spoken()),
            )
        }
        ["procedures"] => shown(
            desk,
            "/procedures",
            &words::PlaceProcedures.say(desk.app.spoken()),
            &page::procedures(&app.editions()?, desk.app.spoken()),
        ),
        ["procedures", file] if file.ends_with(".pdf") => {
            let view = app.checklist(file.trim_end_matches(".pdf"))?;
            Ok(Reply::pdf(
                &format!("{}-blank.pdf", view.id),
                checklist_pdf(&view, Paper::A4, desk.app.spoken())?,
            ))
        }
        ["equipment"] => {
            let filter = PieceFilter {
                state: query.some("state"),
                words: query.some("words"),
                page: query.number("page", 0, u32::MAX),
                most: PAGE,
            };
            let content = page::equipment(&app.pieces(&filter)?, &filter, app.spoken());
            shown(desk, "/equipment", &words::Equipment.say(app.spoken()), &content)
        }
        ["equipment", serial] => {
            let view = app.piece(serial, query.some("after"))?;
            let leads = credentialed(desk, "leader")?;
            let signs = if leads.is_some() { leads } else { credentialed(desk, "inspector")? };
            let title = words::EquipmentOf { serial: &view.serial }.say(app.spoken());
            shown(desk, "/equipment", &title, &page::piece(&view, signs.as_deref(), app.spoken()))
        }
        ["search"] => searched(desk, query),
        ["class"] => {
            let procedure = query.some("procedure");
            let view =
                app.exam_class(&ClassRequest { procedure: procedure.clone(), ..ClassRequest::default() })?;
            let known: Vec<String> = app.procedures()?.into_iter().map(|known| known.id).collect();
            shown(
                desk,
                "/class",
                &words::TheClass.say(desk.app.spoken()),
                &page::class(&view, &known, procedure.as_deref(), desk.app.spoken()),
            )
        }
        ["result", result] => {
            let view = app.exam_result(result)?;
            shown(
                desk,
                "/class",
                &words::ExaminationOf { student: &view.line.student }.say(desk.app.spoken()),
                &page::result(&view, desk.app.spoken()),
            )
        }
        ["plan"] => planned(desk, Entered::default()),
        ["plan", "made"] => {
            let tags = query.all("tag").take(2_000).map(|tag| app.tag(tag)).collect::<Result<Vec<_>, _>>()?;
            shown(
                desk,
                "/plan",
                &words::TheTags { count: tags.len() }.say(desk.app.spoken()),
                &page::made(&tags, desk.app.spoken()),
            )
        }
        ["receive"] => {
            let aside = app.set_aside(50)?;
            let content =
                page::receive(desk.intake().receipts(), &aside, !desk.guard.open, desk.app.spoken());
            shown(desk, "/receive", &words::PlaceReceive.say(desk.app.spoken()), &content)
        }
        ["export"] => {
            let leads = credentialed(desk, "leader")?;
            let ready = check_page::shell(desk.page.as_deref()).is_ok();
            shown(
                desk,
                "/export",
                &words::PlaceExport.say(desk.app.spoken()),
                &page::export(leads.as_deref(), ready, desk.app.spoken()),
            )
        }
        ["hook-check"] => {
            let made = desk.hook_check();
            let Some((made, _)) = made.as_ref() else { return Ok(Reply::see("/export")) };
            shown(
                desk,
                "/export",
                &words::HookCheck.say(desk.app.spoken()),
                &page::hook_check(made, desk.app.spoken()),
            )
        }
        ["hook-check", "hook.html"] => {
            let none = || AppError::NotFound { message: check_words::NoPageMade.into() };
            let html = desk.hook_check().as_ref().map(|(_, html)| html.clone()).ok_or_else(none)?;
            Ok(Reply::bytes("application/octet-stream", html.into_bytes())
                .with("Content-Disposition", "attachment; filename=\"hook.html\"".into()))
        }
        ["export", file] if file.starts_with("class-") => class_table(desk, file),
        ["export", file] => exported(desk, file),
        ["moving"] => {
            let moving = desk.moving();
            let part = query.number("part", 1, u32::try_from(moving.len()).unwrap_or(1).max(1));
            let at = usize::try_from(part).unwrap_or(1).saturating_sub(1);
            let Some(code) = moving.get(at) else { return Ok(Reply::see("/export")) };
            let content = page::moving(code.made(), code.enough(), part, moving.len(), desk.app.spoken());
            drop(moving);
            shown(desk, "/export", &words::MovingCodeTitle.say(desk.app.spoken()), &content)
        }
        ["moving", part, file] => {
            let none = || bad_input(words::NoSuchFrame);
            let number = file.strip_suffix(".svg").and_then(|number| number.parse().ok()).ok_or_else(none)?;
            let at = part.parse::<usize>().ok().and_then(|part| part.checked_sub(1)).ok_or_else(none)?;
            Ok(Reply::svg(desk.moving().get(at).ok_or_else(none)?.frame(number)?.svg()?))
        }
        ["desk.css"] => Ok(kept("text/css; charset=utf-8", page::STYLE.as_bytes())),
        ["desk.js"] => Ok(kept("text/javascript; charset=utf-8", page::SCRIPT.as_bytes())),
        ["mark.svg"] => Ok(kept("image/svg+xml", page::MARK.as_bytes())),
        ["face", "regular.ttf"] => Ok(kept("font/ttf", faces().0)),
        ["face", "bold.ttf"] => Ok(kept("font/ttf", faces().1)),
        _ => Err(AppError::NotFound { message: words::NoSuchPage.into() }),
    }
}

/// The same for every start of this program.
fn kept(kind: &'static str, bytes: &[u8]) -> Reply {
    Reply::bytes(kind, bytes.to_vec()).with("Cache-Control", "private, max-age=300".into())
}

fn searched(desk: &Desk<'_>, query: &Form) -> Result<Reply, AppError> {
    let fields = ["q", "inspector", "rigger", "procedure", "serial"];
    let request = ListRequest {
        words: query.some("q"),
        inspector: query.some("inspector"),
        rigger: query.some("rigger"),
        procedure: query.some("procedure"),
        serial: query.some("serial"),
        days: None,
        after: query.some("after"),
        most: PAGE,
    };
    let page = desk.app.list(&request)?;
    // A load that is only planned has no record yet.
    let exact = request.words.as_deref().and_then(|words| desk.app.load(words).ok());
    let given = fields.iter().filter(|field| !query.get(field).is_empty());
    let given: Vec<String> =
        given.map(|field| format!("{field}={}", page::encoded(query.get(field)))).collect();
    let next = page.next.as_ref().map(|next| format!("/search?{}&after={next}", given.join("&")));
    let asked: Vec<&str> =
        fields.iter().map(|field| query.get(field)).filter(|value| !value.is_empty()).collect();
    let asked = asked.join(", ");
    // A state is no word of any record: it is asked of the board, which knows it.
    let board = desk.app.board(FOR_EVER, SHELF)?;
    let in_state: Vec<_> = board.columns.into_iter().filter(|column| is_state(column, &asked)).collect();
    let title = if asked.is_empty() {
        words::EveryRecord.say(desk.app.spoken())
    } else {
        words::SearchFor { asked: &asked }.say(desk.app.spoken())
    };
    shown(
        desk,
        "",
        &title,
        &page::search(&asked, exact.as_ref(), &in_state, &page, next.as_deref(), desk.app.spoken()),
    )
}

/// Days that no account is older than.
const FOR_EVER: u32 = 36_500;

fn is_state(column: &BoardColumn, asked: &str) -> bool {
    let plain = |text: &str| text.replace(['_', '-'], " ").to_lowercase();
    !asked.is_empty() && [&column.state, &column.title].into_iter().any(|name| plain(name) == plain(asked))
}

fn sheets(desk: &Desk<'_>, query: &Form) -> Result<Reply, AppError> {
    let tags = query.all("tag").take(2_000).map(|tag| desk.app.tag(tag)).collect::<Result<Vec<_>, _>>()?;
    let name = match tags.as_slice() {
        [] => return Err(bad_input(words::NoTagNamed)),
        [one] => format!("load-{}.pdf", one.tag.load),
        _ => "load-sheets.pdf".into(),
    };
    let pages: Vec<_> = tags.iter().map(|made| (&made.tag, &made.code)).collect();
    Ok(Reply::pdf(&name, sheets_pdf(&pages, Paper::A4, desk.app.spoken())?))
}

/// One of the class's tables, all of it.
fn class_table(desk: &Desk<'_>, file: &str) -> Result<Reply, AppError> {
    let none = || AppError::NotFound { message: words::NoSuchClassTable.into() };
    let name = file.strip_prefix("class-").and_then(|name| name.strip_suffix(".csv")).ok_or_else(none)?;
    let tables = desk.app.exam_class_csv(&ClassRequest::default())?;
    let table = tables.into_iter().find(|table| table.name == name).ok_or_else(none)?;
    Ok(Reply::bytes("text/csv; charset=utf-8", table.csv.into_bytes())
        .with("Content-Disposition", format!("attachment; filename=\"{file}\"")))
}

/// Written to a file without a name first: an export of a hundred thousand records must not lie in memory, and a download that
/// breaks off in the middle must not pass for one.
fn exported(desk: &Desk<'_>, name: &str) -> Result<Reply, AppError> {
    let failed = |error: std::io::Error| AppError::StorageFull {
        message: words::ExportNotWritten { plain: &plain(&error) }.into(),
    };
    let file = tempfile::tempfile().map_err(failed)?;
    let mut out = std::io::BufWriter::new(file);
    let app = desk.app;
    let kind = match name {
        "records.csv" => app.export_csv(ExportTable::Records, &mut out).map(|_| "text/csv; charset=utf-8")?,
        "deficiencies.csv" => {
            app.export_csv(ExportTable::Deficiencies, &mut out).map(|_| "text/csv; charset=utf-8")?
        }
        "equipment.csv" => {
            app.export_csv(ExportTable::Equipment, &mut out).map(|_| "text/csv; charset=utf-8")?
        }
        "pieces.csv" => {
            let csv = app.piece_lives_csv()?;
            out.write_all(csv.as_bytes()).map_err(failed).map(|()| "text/csv; charset=utf-8")?
        }
        "account.json" => app.export_json(&mut out).map(|_| "application/json")?,
        "everything.slb" => {
            let request = BundleRequest { have: None, photos: true, ..BundleRequest::default() };
            app.bundle_write(&request, &mut out).map(|_| "application/octet-stream")?
        }
        _ => return Err(AppError::NotFound { message: words::NoSuchExport.into() }),
    };
    out.flush().map_err(failed)?;
    let mut file = out.into_inner().map_err(|error| failed(error.into_error()))?;
    file.rewind().map_err(failed)?;
    Ok(Reply::file(kind, name, file))
}

fn planned(desk: &Desk<'_>, entered: Entered) -> Result<Reply, AppError> {
    let bad = !entered.faults.is_empty();
    let procedures = desk.app.procedures()?;
    let signs = signer(desk)?;
    let reply = shown(
        desk,
        "/plan",
        &words::PlanAndPrint.say(desk.app.spoken()),
        &page::plan(&entered, &procedures, signs.as_deref(), desk.app.spoken()),
    )?;
    Ok(if bad { reply.status(400) } else { reply })
}

/// Who signs tags here. Over an open network nobody: the PIN would travel in the clear.
fn signer(desk: &Desk<'_>) -> Result<Option<String>, AppError> {
    credentialed(desk, "planner")
}

/// Who signs here in a role; over an open network nobody.
fn credentialed(desk: &Desk<'_>, role: &str) -> Result<Option<String>, AppError> {
    let credential =
        desk.app.set_up()?.credential.filter(|credential| !credential.expired && !desk.guard.open);
    let fitting = credential.filter(|credential| credential.roles.iter().any(|has| has == role));
    Ok(fitting.map(|fitting| fitting.holder))
}

fn posted(desk: &Desk<'_>, request: &mut Request, parts: &[&str], query: &Form) -> Result<Reply, AppError> {
    let app = desk.app;
    match parts {
        ["plan"] => {
            let form = ask::form(request)?;
            make(desk, &list_of(&form), form, true)
        }
        ["rigging"] => rig::answered(desk, &ask::form(request)?, false),
        ["rigging", "look"] => rig::answered(desk, &ask::form(request)?, true),
        ["rigging", "file"] => rig::saved(desk, &ask::form(request)?),
        ["rigging", "open"] => {
            let content = rig::opened(desk, &ask::form(request)?)?;
            shown(desk, "/rigging", &rig_words::EditorTitle.say(desk.app.spoken()), &content)
        }
        ["plan", "list"] => {
            let form = ask::form(request)?;
            let list = form.all("list").next().unwrap_or_default().to_owned();
            make(desk, &list, form, false)
        }
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
                });
            }
            Ok(Reply::see("/receive"))
        }
        ["receive", "file"] => {
            let name = query.some("name").unwrap_or_else(|| words::AFileNamed.say(desk.app.spoken()));
            let name: String = name.chars().take(80).collect();
            let mut file = spooled(request)?;
            let receipts = intake::file(app, &name, &mut file);
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
            not_in_the_clear(desk)?;
            let form = ask::form(request)?;
            app.sign_closing(&closing_of(&form), form.get("pin"))?;
            Ok(Reply::see(&closing_address(&form)))
        }
        ["equipment", serial] => {
            not_in_the_clear(desk)?;
            let form = ask::form(request)?;
            app.withdraw_piece(serial, form.get("why"), form.get("pin"))?;
            Ok(Reply::see(&format!("/equipment/{}", page::encoded(serial))))
        }
        ["hook-check"] => {
            not_in_the_clear(desk)?;
            let shell = check_page::shell(desk.page.as_deref())?;
            let form = ask::form(request)?;
            let hours = Some(form.number("hours", 24, 168));
            let made =
                app.check_page(&CheckPageRequest { authorities: Vec::new(), hours }, form.get("pin"))?;
            let html = check_page::filled(&shell, &made.bytes)?;
            *desk.hook_check() = Some((made, html));
            Ok(Reply::see("/hook-check"))
        }
        _ => Err(AppError::NotFound { message: words::NoSuchPage.into() }),
    }
}

/// No PIN over an open network.
fn not_in_the_clear(desk: &Desk<'_>) -> Result<(), AppError> {
    if desk.guard.open { Err(bad_input(check_words::PinInTheClear)) } else { Ok(()) }
}

/// Which account is closed.
fn closing_of(form: &Form) -> CloseRequest {
    CloseRequest {
        day: form.some("day"),
        loads: form.get("loads").split_whitespace().map(str::to_owned).collect(),
        name: form.some("name"),
    }
}

/// The page of the account that a form is of.
fn closing_address(form: &Form) -> String {
    let mut query = form_urlencoded::Serializer::new(String::new());
    for name in ["day", "name", "loads"] {
        if let Some(value) = form.some(name) {
            query.append_pair(name, &value);
        }
    }
    format!("/close?{}", query.finish())
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

/// The form as a load list of one line: one reader for both.
fn list_of(form: &Form) -> String {
    let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let value = |name: &str| match name {
        "equipment" => form.get(name).lines().collect::<Vec<_>>().join(";"),
        name => form.get(name).to_owned(),
    };
    let line: Vec<String> = heads().map(|name| quoted(&value(name))).collect();
    format!("{}\n{}\n", heads().collect::<Vec<_>>().join(","), line.join(","))
}

/// The fields of the form, as the columns of its list.
fn heads() -> impl Iterator<Item = &'static str> {
    page::FIELDS.iter().map(|(name, ..)| *name).chain(["procedure", "equipment"])
}

/// A fault of the form's list, by its field: nobody who filled in a form has seen a line and a column.
fn fault_of(line: &str) -> Fault {
    let told = || {
        let (place, words) = line.split_once(": ")?;
        let (_, column) = place.split_once(':')?;
        let field = heads().nth(column.parse::<usize>().ok()?.checked_sub(1)?)?;
        let words = words.strip_prefix(field).and_then(|words| words.strip_prefix(": ")).unwrap_or(words);
        Some(Fault { field: Some(field.to_owned()), words: words.to_owned() })
    };
    told().unwrap_or_else(|| Fault { field: None, words: line.to_owned() })
}

fn make(desk: &Desk<'_>, list: &str, form: Form, one: bool) -> Result<Reply, AppError> {
    let pin = form.some("pin").filter(|_| !desk.guard.open);
    let none = |name: &str| Err(words::RiggingInTerminal { name }.say(desk.app.spoken()));
    let made = match desk.app.write_tags(list, &none, pin.as_deref()) {
        Ok(made) => made,
        Err(error @ (AppError::BadInput { .. } | AppError::Refused { .. } | AppError::NotFound { .. })) => {
            let whole = |line: &str| Fault { field: None, words: line.to_owned() };
            let message = error.say(desk.app.spoken());
            let faults = message.lines().map(|line| if one { fault_of(line) } else { whole(line) }).collect();
            return planned(desk, Entered { form, faults });
        }
        Err(error) => return Err(error),
    };
    let tags: Vec<String> = made.iter().map(|made| format!("tag={}", made.tag.digest)).collect();
    Ok(Reply::see(&format!("/plan/made?{}", tags.join("&"))))
}
