//! A page of this desk: its content between the home's name and the ways to the other pages.

use slingseal_app::AppError;
use slingseal_app::catalogue::page as words;

use super::desk::Desk;
use super::page::{self, Here};
use super::reply::Reply;

pub(super) fn here(desk: &Desk) -> Result<Here, AppError> {
    let set_up = desk.app.set_up()?;
    let whose =
        set_up.authority.or(set_up.holder).unwrap_or_else(|| words::HomeWithoutName.say(desk.app.spoken()));
    Ok(Here { language: desk.app.spoken(), whose, now: desk.app.now().into() })
}

pub(super) fn shown(
    desk: &Desk,
    place: &str,
    title: &str,
    content: &maud::Markup,
) -> Result<Reply, AppError> {
    Ok(Reply::page(page::frame(&here(desk)?, place, title, content)))
}
