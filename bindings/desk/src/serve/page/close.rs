use maud::{Markup, html};
use slingseal_app::catalogue::{closing, page as words};
use slingseal_app::{CloseRequest, CloseView, ClosingView, Language};

use super::chart::encoded;
use super::frame::PinAsked;

/// What does not add up of a day, or of everything: explained here point by point, and signed. `signs`: who may.
pub(in crate::serve) fn close(
    view: Option<&CloseView>,
    request: &CloseRequest,
    statements: &[ClosingView],
    signs: &PinAsked<'_>,
    language: Language,
) -> Markup {
    html! {
        div.tools {
            p { (closing::CloseWhat.say(language)) }
            form.pick method="get" {
                label { (words::Day.say(language)) " " input type="date" name="day" value=(request.day.as_deref().unwrap_or_default()); }
                label { (closing::CloseName.say(language)) " "
                    input name="name" maxlength="48" value=(request.name.as_deref().unwrap_or_default()) autocomplete="off"; }
                label { (closing::CloseLoads.say(language)) " "
                    input name="loads" value=(request.loads.join(" ")) autocomplete="off" spellcheck="false"; }
                button { (words::Show.say(language)) }
            }
        }
        @match view {
            None => p.none { (words::NothingOfThatDay.say(language)) },
            Some(view) => {
                (points(view, request, language))
                (signing(view, request, signs, language))
            },
        }
        @if !statements.is_empty() { section {
            h2 { (closing::CloseStatements.say(language)) }
            ul { @for one in statements { li {
                a href={ "/close/" (one.digest) ".pdf" } { (one.name) }
                ", " (one.by) ", " (one.issued.dtg) ", " (closing::CloseCheck { check: &one.check }.say(language))
            } } }
        } }
    }
}

/// What was asked, to be asked again.
fn again(request: &CloseRequest) -> Markup {
    html! {
        input type="hidden" name="day" value=(request.day.as_deref().unwrap_or_default());
        input type="hidden" name="name" value=(request.name.as_deref().unwrap_or_default());
        input type="hidden" name="loads" value=(request.loads.join(" "));
    }
}

fn points(view: &CloseView, request: &CloseRequest, language: Language) -> Markup {
    html! {
        p {
            (words::AccountCounts {
                loads: view.loads, inspections: view.inspections, lifted: view.lifted, set_down: view.set_down, lost: view.lost,
            }.say(language))
            @if view.unsigned > 0 { " " (words::ReportsUnsigned { count: view.unsigned }.say(language)) }
        }
        @if view.points.is_empty() {
            p { (words::EverythingAddsUp.say(language)) }
        } @else {
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                thead { tr { th { (words::What.say(language)) } th { (words::OfWhat.say(language)) } th { (words::Known.say(language)) } th { (words::ToDoOrExplained.say(language)) } } }
                tbody { @for point in &view.points { tr {
                    td { (point.title) }
                    td {
                        @if point.load.is_empty() { (point.subject) }
                        @else { a href={ "/load/" (encoded(&point.load)) } { (point.subject) } }
                    }
                    td { (point.known) }
                    td {
                        @match &point.note { Some(note) => b { (note) }, None => (point.to_do) }
                        form method="post" action="/close/explain" {
                            (again(request))
                            input type="hidden" name="point" value=(point.id);
                            input name="note" maxlength="280" autocomplete="off" value=(point.note.as_deref().unwrap_or_default())
                                aria-label=(closing::CloseExplain { subject: &point.subject }.say(language));
                            " " button { (closing::CloseKeep.say(language)) }
                        }
                    }
                } } }
            } }
        }
        p.digest { (words::AccountDigest { digest: &view.account, count: view.words }.say(language)) }
    }
}

fn signing(view: &CloseView, request: &CloseRequest, signs: &PinAsked<'_>, language: Language) -> Markup {
    html! {
        section.door {
            h2 { (closing::CloseSign.say(language)) }
            @match (view.explained, signs.signs) {
                (false, _) => p.note { (closing::CloseExplainFirst.say(language)) },
                (true, None) => p.note { (closing::CloseNoLeader.say(language)) },
                (true, Some(holder)) => form method="post" action="/close/sign" {
                    (again(request))
                    (signs.field(holder, None, language))
                    button { (closing::CloseSign.say(language)) }
                },
            }
        }
    }
}
