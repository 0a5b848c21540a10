//! What is asked for and changes nothing.

use slingseal_app::catalogue::{
    board as board_words, check_page as check_words, page as words, rigging as rig_words,
};
use slingseal_app::{
    AppError, BoardOrder, BoardRequest, ClassRequest, PieceFilter, PieceOrder, Role, WeeksRequest, code_of,
};
use slingseal_paper::{Paper, checklist_pdf, closing_pdf, faces, manifest_pdf, record_pdf};

use super::closing::closing;
use super::export::{class_table, exported, made, works};
use super::find::{PAGE, searched, stretch};
use super::piece::piece;
use super::plan::{address_of, named_tags, planned, sheets};
use crate::check_page;
use crate::output::{bad_input, file_name};
use crate::serve::acts;
use crate::serve::ask::Form;
use crate::serve::desk::Desk;
use crate::serve::frame::shown;
use crate::serve::live::{SHELF, WEEK};
use crate::serve::page::{self, Entered, Order};
use crate::serve::reply::Reply;
use crate::serve::rig;

pub(super) fn looked(desk: &Desk, parts: &[&str], query: &Form) -> Result<Reply, AppError> {
    let app = &*desk.app;
    match parts {
        [] => {
            let request = BoardRequest {
                days: query.number("days", WEEK, 3_650),
                date: query.some("date"),
                zone: query.some("zone"),
                destination: query.some("to"),
                aircraft: query.some("aircraft"),
                state: query.parsed("state")?,
                order: Order(query).sorting("board", BoardOrder::of_word),
                page: query.number("page", 0, u32::MAX),
                most: SHELF,
            };
            shown(
                desk,
                "/",
                &words::TheZone.say(desk.app.spoken()),
                &page::board(&app.board_of(&request)?, &request, &Order(query), desk.app.spoken()),
            )
        }
        ["rigging"] => {
            shown(desk, "/rigging", &rig_words::EditorTitle.say(desk.app.spoken()), &rig::begun(desk)?)
        }
        ["close"] => closing(desk, query, None),
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
                &page::load(&view, &app.photos_of(&view)?, !desk.guard.in_the_clear(), desk.app.spoken()),
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
        ["photo", digest] => {
            let photo = app.photo(digest)?;
            let kind = if photo.starts_with(b"\x89PNG") { "image/png" } else { "image/jpeg" };
            Ok(Reply::bytes(kind, photo))
        }
        ["tag", file] if file.ends_with(".svg") => {
            Ok(Reply::svg(app.tag(file.trim_end_matches(".svg"))?.code.svg_labelled(desk.app.spoken())?))
        }
        ["sheet.pdf"] => sheets(desk, query),
        ["deficiencies"] => {
            let stretch = stretch(query);
            let (from, until) = (query.some("from"), query.some("until"));
            let view = if from.is_none() && until.is_none() {
                app.deficiencies(stretch.days)?
            } else {
                app.deficiencies_between(from.as_deref(), until.as_deref())?
            };
            let (looks, language) = (app.second_looks(stretch.days)?, app.spoken());
            let content = page::deficiencies(&view, &looks, &stretch, &Order(query), language);
            shown(desk, "/deficiencies", &words::Deficiencies.say(language), &content)
        }
        ["weeks"] => {
            let request = WeeksRequest {
                from: query.some("from"),
                until: query.some("until"),
                procedure: query.some("procedure"),
            };
            let known = app.procedures()?.into_iter().map(|one| (one.id, one.title)).collect::<Vec<_>>();
            let (weeks, language) = (app.weeks(&request)?, app.spoken());
            let content = page::weeks(&weeks, &stretch(query), &known, query.get("procedure"), language);
            shown(desk, "/deficiencies", &words::WeeksTitle.say(language), &content)
        }
        ["people"] => {
            // A home that is no authority has issued nothing.
            let issued = app.issued().ok();
            shown(
                desk,
                "/people",
                &words::PlacePeople.say(desk.app.spoken()),
                &page::people(
                    &app.people()?,
                    issued.as_ref(),
                    !desk.guard.in_the_clear(),
                    &Order(query),
                    desk.app.spoken(),
                ),
            )
        }
        ["procedures"] => shown(
            desk,
            "/procedures",
            &words::PlaceProcedures.say(desk.app.spoken()),
            &page::procedures(&app.editions()?, desk.is_authority()?, &Order(query), desk.app.spoken()),
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
                group: query.some("state").map(|word| word.parse()).transpose().map_err(bad_input)?,
                words: query.some("words"),
                order: Order(query).sorting("equipment", PieceOrder::of_word),
                page: query.number("page", 0, u32::MAX),
                most: PAGE,
            };
            let content = page::equipment(&app.pieces(&filter)?, &filter, &Order(query), app.spoken());
            shown(desk, "/equipment", &words::Equipment.say(app.spoken()), &content)
        }
        ["equipment", serial] => piece(desk, serial, query, None),
        ["search"] => searched(desk, query),
        ["act", "done", number] => acts::result(desk, number),
        ["act", "done", number, "code.svg"] => acts::code(desk, number),
        ["act", name] => acts::asked(desk, name, query),
        ["events"] => Ok(match desk.live.listen() {
            Some(told) => Reply::events(told),
            // A browser does not try again where it is told so.
            None => Reply::bare(503),
        }),
        ["job"] => Ok(works(desk)),
        ["job", number, file] => made(desk, number, file),
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
        ["plan"] => planned(desk, Entered::default(), None),
        ["plan", "made"] => {
            let tags = named_tags(desk, query)?;
            shown(
                desk,
                "/plan",
                &words::TheTags { count: tags.len() }.say(desk.app.spoken()),
                &page::made(&tags, &address_of(query), desk.app.spoken()),
            )
        }
        ["receive"] => {
            let aside = app.set_aside(50)?;
            let content = page::receive(
                desk.intake().receipts(),
                &aside,
                !desk.guard.in_the_clear(),
                desk.is_authority()?,
                desk.app.spoken(),
            );
            shown(desk, "/receive", &words::PlaceReceive.say(desk.app.spoken()), &content)
        }
        ["export"] => {
            let leads = desk.credentialed(Role::Leader)?;
            let ready = check_page::shell(desk.page.as_deref()).is_ok();
            let token = desk.token("hook-check");
            let signing = page::PinAsked { signs: leads.as_deref(), token: &token, wrong: None };
            shown(
                desk,
                "/export",
                &words::PlaceExport.say(desk.app.spoken()),
                &page::export(&signing, ready, desk.app.spoken()),
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
