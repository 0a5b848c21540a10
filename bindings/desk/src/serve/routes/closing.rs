//! The account that is closed at the page.

use slingseal_app::catalogue::page as words;
use slingseal_app::{AppError, CloseRequest, Role};

use crate::serve::ask::Form;
use crate::serve::desk::Desk;
use crate::serve::frame::shown;
use crate::serve::page;
use crate::serve::reply::{Reply, status_of};

/// The account that is closed; `wrong` is what stood in the way of its signature.
pub(in crate::serve) fn closing(
    desk: &Desk,
    query: &Form,
    wrong: Option<&AppError>,
) -> Result<Reply, AppError> {
    let (app, request) = (&*desk.app, closing_of(query));
    // A home in which nothing is told yet has nothing to close.
    let view = match app.close_account(&request) {
        Err(AppError::NotFound { .. }) => None,
        answer => Some(answer?),
    };
    let (signs, language) = (desk.credentialed(Role::Leader)?, app.spoken());
    let signing = page::PinAsked { signs: signs.as_deref(), token: &desk.token("close"), wrong };
    let content = page::close(view.as_ref(), &request, &app.closings()?, &signing, language);
    let reply = shown(desk, "/close", &words::Closing.say(language), &content)?;
    Ok(reply.status(wrong.map_or(200, status_of)))
}

/// Which account is closed.
pub(in crate::serve) fn closing_of(form: &Form) -> CloseRequest {
    CloseRequest {
        day: form.some("day"),
        loads: form.get("loads").split_whitespace().map(str::to_owned).collect(),
        name: form.some("name"),
    }
}

/// The page of the account that a form is of.
pub(in crate::serve) fn closing_address(form: &Form) -> String {
    let mut query = form_urlencoded::Serializer::new(String::new());
    for name in ["day", "name", "loads"] {
        if let Some(value) = form.some(name) {
            query.append_pair(name, &value);
        }
    }
    format!("/close?{}", query.finish())
}
