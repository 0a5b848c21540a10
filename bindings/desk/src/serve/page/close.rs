use maud::{Markup, html};
use slingseal_app::{CloseRequest, CloseView};

/// What does not add up of a day, or of everything.
pub(in crate::serve) fn close(view: Option<&CloseView>, request: &CloseRequest) -> Markup {
    html! {
        div.tools {
            p { "What does not add up, each with what is known and what to do. Explain and sign at the terminal: slingseal account close." }
            form.pick method="get" {
                label { "Day " input type="date" name="day" value=(request.day.as_deref().unwrap_or_default()); }
                button { "Show" }
            }
        }
        @match view {
            None => p.none { "Nothing is told of that day." },
            Some(view) => (points(view)),
        }
    }
}

fn points(view: &CloseView) -> Markup {
    html! {
        p {
            (view.loads) " loads, " (view.inspections) " inspections, " (view.lifted) " lifted, " (view.set_down) " set down, "
            (view.lost) " lost."
            @if view.unsigned > 0 { " " (view.unsigned) " reports are unsigned: they are what was said, and prove nothing." }
        }
        @if view.points.is_empty() {
            p { "Everything adds up." }
        } @else {
            table {
                thead { tr { th { "What" } th { "Of" } th { "Known" } th { "To do, or explained" } } }
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
        p.digest { "Account " (view.account) " of " (view.words) " words" }
    }
}
