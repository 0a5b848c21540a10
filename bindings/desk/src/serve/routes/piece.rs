//! One piece of equipment, and its withdrawal.

use slingseal_app::catalogue::page as words;
use slingseal_app::{AppError, Role};

use crate::serve::ask::Form;
use crate::serve::desk::Desk;
use crate::serve::frame::shown;
use crate::serve::page;
use crate::serve::reply::{Reply, status_of};

/// One piece of equipment; `wrong` is what stood in the way of its withdrawal.
pub(in crate::serve) fn piece(
    desk: &Desk,
    serial: &str,
    query: &Form,
    wrong: Option<&AppError>,
) -> Result<Reply, AppError> {
    let (view, language) = (desk.app.piece(serial, query.some("after"))?, desk.app.spoken());
    let leads = desk.credentialed(Role::Leader)?;
    let signs = if leads.is_some() { leads } else { desk.credentialed(Role::Inspector)? };
    let title = words::EquipmentOf { serial: &view.serial }.say(language);
    let signing = page::PinAsked { signs: signs.as_deref(), token: &desk.token("piece"), wrong };
    let reply = shown(desk, "/equipment", &title, &page::piece(&view, &signing, query.get("why"), language))?;
    Ok(reply.status(wrong.map_or(200, status_of)))
}
