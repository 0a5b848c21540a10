use maud::{Markup, html};
use slingseal_app::catalogue::{Saying, page as words};
use slingseal_app::{EditionState, EditionWalked, EditionsView, Language, ProcedureView, arrange, as_sorted};

use super::chart::encoded;
use super::load::edition_words;
use super::order::Order;

/// Which lists count, and which loads were walked by which; `acts`: whether this home approves.
pub(in crate::serve) fn procedures(
    view: &EditionsView,
    acts: bool,
    order: &Order<'_>,
    language: Language,
) -> Markup {
    let mut editions: Vec<&ProcedureView> = view.editions.iter().collect();
    match order.of("lists") {
        Some(("procedure", down)) => arrange(&mut editions, down, |one| as_sorted(&one.id)),
        Some(("cards", down)) => arrange(&mut editions, down, |one| Some(one.cards)),
        Some(("points", down)) => arrange(&mut editions, down, |one| Some(one.points)),
        Some(("approval", down)) => arrange(&mut editions, down, |one| as_sorted(&one.approval)),
        _ => {}
    }
    let head = |column: &str, label: Saying, number: bool| {
        order.head("lists", column, &label.say(language), number, language)
    };
    html! {
        p { (words::OnlyApprovedCounts.say(language)) }
        section {
            h2 { (words::TheLists.say(language)) }
            @if acts { p.links {
                a href="/act/approve" { (words::ActApproveTitle.say(language)) } " "
                a href="/act/withdraw" { (words::ActWithdrawTitle.say(language)) }
            } }
            div.wide { table {
                thead { tr { (head("procedure", words::Procedure.into(), false)) th { (words::Version.say(language)) } (head("cards", words::Cards.into(), true)) (head("points", words::Points.into(), true)) (head("approval", words::Approval.into(), false)) th { (words::Here.say(language)) } } }
                tbody { @for one in &editions { (edition(one, language)) } }
            } }
        }
        section {
            h2 { (words::WhatLoadsWalkedBy.say(language)) }
            @if view.walked.is_empty() { p.none { (words::NoneOfThem.say(language)) } } @else {
                div.wide { table {
                    thead { tr { th { (words::Procedure.say(language)) } th { (words::WhenWalked.say(language)) } th.num { (words::InspectionsHead.say(language)) } th { (words::Inspectors.say(language)) } th { (words::Loads.say(language)) } th { (words::Last.say(language)) } } }
                    tbody { @for one in &view.walked { (walked(one, language)) } }
                } }
            }
        }
    }
}

fn edition(one: &ProcedureView, language: Language) -> Markup {
    let here = match (one.state, one.in_use) {
        (EditionState::Missing, _) => words::ListMissing.say(language),
        (_, true) => words::ListInUse.say(language),
        (_, false) => words::ListKeptApart.say(language),
    };
    html! {
        tr {
            td { b { (one.id) } br; span.small { (one.title) } }
            td { (one.version) br; span.small.digest { (one.digest.chars().take(16).collect::<String>()) } }
            td.num { (one.cards) }
            td.num { (one.points) }
            td.bad[one.state != EditionState::Approved] { (one.approval) }
            td { (here) @if one.in_use { br; a href={ "/procedures/" (encoded(&one.id)) ".pdf" } { (words::BlankChecklist.say(language)) } } }
        }
    }
}

fn walked(one: &EditionWalked, language: Language) -> Markup {
    html! {
        tr {
            td { b { (one.id) " " (one.version) } br; span.small.digest { (one.print) } }
            td.bad[one.state != EditionState::Approved] { (edition_words(one.state, language)) }
            td.num { (one.inspections) }
            td { @for (who, count) in &one.inspectors { div { (who) @if *count > 1 { " (" (count) ")" } } } }
            td { @for load in &one.loads { a href={ "/load/" (encoded(load)) } { (load) } " " } }
            td { (one.last.dtg) }
        }
    }
}
