use maud::{Markup, html};
use slingseal_app::catalogue::page as words;
use slingseal_app::{CloseRequest, CloseView, Language};

/// What does not add up of a day, or of everything.
pub(in crate::serve) fn close(
    view: Option<&CloseView>,
    request: &CloseRequest,
    language: Language,
) -> Markup {
    html! {
        div.tools {
            p { (words::WhatDoesNotAddUp.say(language)) }
            form.pick method="get" {
                label { (words::Day.say(language)) " " input type="date" name="day" value=(request.day.as_deref().unwrap_or_default()); }
                button { (words::Show.say(language)) }
            }
        }
        @match view {
            None => p.none { (words::NothingOfThatDay.say(language)) },
            Some(view) => (points(view, language)),
        }
    }
}

fn points(view: &CloseView, language: Language) -> Markup {
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
            table {
                thead { tr { th { (words::What.say(language)) } th { (words::OfWhat.say(language)) } th { (words::Known.say(language)) } th { (words::ToDoOrExplained.say(language)) } } }
                tbody {
                    @for point in &view.points {
                        tr {
                            td { (point.title) }
                            td {
                                @if point.load.is_empty() { (point.subject) }
                                @else { a href={ "/load/" (super::chart::encoded(&point.load)) } { (point.subject) } }
                            }
                            td { (point.known) }
                            td { @match &point.note { Some(note) => b { (note) }, None => (point.to_do) } }
                        }
                    }
                }
            }
        }
        p.digest { (words::AccountDigest { digest: &view.account, count: view.words }.say(language)) }
    }
}
