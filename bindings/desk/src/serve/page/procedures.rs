use maud::{Markup, html};
use slingseal_app::{EditionState, EditionWalked, EditionsView, ProcedureView};

use super::encoded;
use super::load::edition_words;

/// Which lists count, and which loads were walked by which.
pub(in crate::serve) fn procedures(view: &EditionsView) -> Markup {
    html! {
        p { "Only what is walked by a list that the inspector's authority approves can be GO. Those that come with the program are a start for your own, and no manual." }
        section {
            h2 { "The lists" }
            div.wide { table {
                thead { tr { th { "Procedure" } th { "Version" } th.num { "Cards" } th.num { "Points" } th { "Approval" } th { "Here" } } }
                tbody { @for one in &view.editions { (edition(one)) } }
            } }
        }
        section {
            h2 { "What loads were walked by" }
            @if view.walked.is_empty() { p.none { "none" } } @else {
                div.wide { table {
                    thead { tr { th { "Procedure" } th { "When it was walked" } th.num { "Inspections" } th { "Inspectors" } th { "Loads" } th { "Last" } } }
                    tbody { @for one in &view.walked { (walked(one)) } }
                } }
            }
        }
    }
}

fn edition(one: &ProcedureView) -> Markup {
    let here = match (one.state, one.in_use) {
        (EditionState::Missing, _) => "missing: receive it from a device that has it",
        (_, true) => "walked by",
        (_, false) => "kept apart",
    };
    html! {
        tr {
            td { b { (one.id) } br; span.small { (one.title) } }
            td { (one.version) br; span.small.digest { (one.digest.chars().take(16).collect::<String>()) } }
            td.num { (one.cards) }
            td.num { (one.points) }
            td.bad[one.state != EditionState::Approved] { (one.approval) }
            td { (here) @if one.in_use { br; a href={ "/procedures/" (encoded(&one.id)) ".pdf" } { "Blank checklist" } } }
        }
    }
}

fn walked(one: &EditionWalked) -> Markup {
    html! {
        tr {
            td { b { (one.id) " " (one.version) } br; span.small.digest { (one.print) } }
            td.bad[one.state != EditionState::Approved] { (edition_words(one.state)) }
            td.num { (one.inspections) }
            td { @for (who, count) in &one.inspectors { div { (who) @if *count > 1 { " (" (count) ")" } } } }
            td { @for load in &one.loads { a href={ "/load/" (encoded(load)) } { (load) } " " } }
            td { (one.last.dtg) }
        }
    }
}
