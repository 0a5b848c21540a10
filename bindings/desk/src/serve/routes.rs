//! Which page answers which path: `look` what is asked for, `post` what changes something.

mod closing;
mod export;
mod find;
mod listed;
mod look;
mod piece;
mod plan;
mod post;

use slingseal_app::catalogue::page as words;

use super::ask::Ask;
use super::desk::Desk;
use super::frame::here;
use super::http::Request;
use super::page;
use super::reply::{Reply, status_of};
use look::looked;
use post::posted;

/// Answers one request.
pub(super) fn answer(desk: &Desk, mut request: Request) -> Reply {
    guarded(desk, &mut request)
}

fn guarded(desk: &Desk, request: &mut Request) -> Reply {
    let Some(ask) = Ask::of(request) else {
        return Reply::page(page::turned_away(&words::NotAskedSo.say(desk.app.spoken()), desk.app.spoken()))
            .status(405);
    };
    let parts: Vec<&str> = ask.path.iter().map(String::as_str).collect();
    let host = request.field("Host");
    let host = host.as_deref();
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
    if let Err(refused) = desk.guard.check(host, origin.as_deref(), cookies.as_deref(), ask.post) {
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
