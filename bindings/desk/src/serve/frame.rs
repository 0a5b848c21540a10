//! A page of this desk: its content between the home's name and the ways to the other pages.

use slingseal_app::catalogue::page as words;
use slingseal_app::{AppError, Clock as _};

use super::desk::Desk;
use super::page::{self, Here};
use super::reply::Reply;
use crate::platform::SystemClock;

pub(super) fn here(desk: &Desk) -> Result<Here, AppError> {
    let set_up = desk.app.set_up()?;
    let whose =
        set_up.authority.or(set_up.holder).unwrap_or_else(|| words::HomeWithoutName.say(desk.app.spoken()));
    *desk.whose.lock().unwrap_or_else(std::sync::PoisonError::into_inner) = whose.clone();
    Ok(Here { language: desk.app.spoken(), whose, now: desk.app.now().into() })
}

/// The same without asking the home, which somebody may be at work on for long.
pub(super) fn shown_meanwhile(desk: &Desk, place: &str, title: &str, content: &maud::Markup) -> Reply {
    let whose = desk.whose.lock().unwrap_or_else(std::sync::PoisonError::into_inner).clone();
    let here = Here { language: desk.language, whose, now: SystemClock.now().into() };
    Reply::page(page::frame(&here, place, title, content))
}

pub(super) fn shown(
    desk: &Desk,
    place: &str,
    title: &str,
    content: &maud::Markup,
) -> Result<Reply, AppError> {
    Ok(Reply::page(page::frame(&here(desk)?, place, title, content)))
}
