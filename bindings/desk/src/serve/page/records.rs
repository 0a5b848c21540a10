//! Records as a table, and what was searched for.

use maud::{Markup, html};
use slingseal_app::catalogue::{Saying, closing, page as words};
use slingseal_app::{
    BoardColumn, Language, ListRequest, LoadView, RecordLine, RecordOrder, RecordState, RecordsView,
};

use super::board::{shape, shelf};
use super::chart::encoded;
use super::order::Order;
use super::stretch::between;
use crate::output::clock;

/// Records as a table.
pub(super) fn lines<'l>(lines: impl Iterator<Item = &'l RecordLine>, language: Language) -> Markup {
    table(lines, &|_, label| html! { th { (label.say(language)) } }, language)
}

/// The same with heads that may be more than words.
fn table<'l>(
    lines: impl Iterator<Item = &'l RecordLine>,
    head: &dyn Fn(RecordOrder, Saying) -> Markup,
    language: Language,
) -> Markup {
    html! {
        div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
            thead { tr {
                (head(RecordOrder::Load, words::Load.into())) th { (words::Says.say(language)) } th { (words::Standing.say(language)) } (head(RecordOrder::Sealed, words::Sealed.into())) (head(RecordOrder::Inspector, words::Inspector.into())) th { (closing::LabelWalkedIn.say(language)) } (head(RecordOrder::Rigger, words::Rigger.into())) (head(RecordOrder::Place, words::PlaceAndAircraft.into()))
                th.num { (words::FoundCount.say(language)) } th.num { (words::Corrected.say(language)) } th { (words::Record.say(language)) }
            } }
            tbody { @for line in lines { tr {
                td { a href={ "/load/" (encoded(&line.load)) } { b { (line.load) } } }
                td { @if line.fit { (words::Fit.say(language)) } @else { strong.bad { (words::NotFit.say(language)) } } }
                td { (standing(line, language)) }
                td { (line.issued.dtg) }
                td { (line.inspector) }
                td { (walked(line, language)) }
                td { (line.rigger) }
                td { (line.place) @if !line.aircraft.is_empty() { ", " (line.aircraft) } }
                td.num { (line.found) }
                td.num { (line.corrected) }
                td { a.digest href={ "/record/" (line.record) ".pdf" } { (line.record.chars().take(8).collect::<String>()) } }
            } } }
        } }
    }
}

/// How long the walk took and over how many cards; marked where that is less than the least time that was set here.
pub(super) fn walked(line: &RecordLine, language: Language) -> Markup {
    let took = line.walk_seconds.zip(line.walk_cards);
    let told = took.map(|(seconds, cards)| closing::WalkTook { took: clock(seconds), cards }.say(language));
    html! {
        @if let Some(told) = told {
            (told) @if line.walked_too_fast { br; strong.bad { (closing::WalkTooFast.say(language)) } }
        }
    }
}

/// How a record stands, as its banner says it.
fn standing(line: &RecordLine, language: Language) -> String {
    match line.state {
        RecordState::Fit | RecordState::NotFit => words::InForce.say(language),
        state => state.banner().say(language).to_lowercase(),
    }
}

/// What was searched for, and what was found.
pub(in crate::serve) struct Found<'f> {
    /// What was asked, as a person reads it.
    pub(in crate::serve) asked: &'f str,
    /// The load whose number that is.
    pub(in crate::serve) exact: Option<&'f LoadView>,
    /// The board's loads of the state whose name that is.
    pub(in crate::serve) in_state: &'f [BoardColumn],
    /// The records.
    pub(in crate::serve) page: &'f RecordsView,
    /// The fields of the address, and what stands in each.
    pub(in crate::serve) chosen: &'f [(&'f str, &'f str)],
    pub(in crate::serve) request: &'f ListRequest,
    /// Where the next page is.
    pub(in crate::serve) next: Option<&'f str>,
}

/// The page of a search.
pub(in crate::serve) fn search(found: &Found<'_>, order: &Order<'_>, language: Language) -> Markup {
    let Found { asked, exact, in_state, page, chosen, request, next } = *found;
    // A column by which this list cannot be ordered has no link: see `ListRequest::may_order`.
    let head = |by: RecordOrder, label: Saying| {
        let label = label.say(language);
        if request.may_order(by) {
            order.head("records", by.word(), &label, by == RecordOrder::Sealed, language)
        } else {
            html! { th { (label) } }
        }
    };
    let get = |name: &str| chosen.iter().find(|(known, _)| *known == name).map_or("", |(_, value)| *value);
    html! {
        form.pick method="get" action="/search" {
            @for (name, value) in chosen.iter().filter(|(name, value)| !value.is_empty() && !["from", "until"].contains(name)) {
                input type="hidden" name=(name) value=(value);
            }
            @if let Some(sort) = order.said() { input type="hidden" name="sort" value=(sort); }
            (between(get("from"), get("until"), language))
            button { (words::Show.say(language)) }
        }
        @if let Some(load) = exact {
            p class={ "stamp " (load.state.word()) } {
                (shape(load.state))
                a href={ "/load/" (encoded(&load.load)) } { strong { (load.load) } } span { (load.state_title) }
            }
        }
        @for column in in_state { (shelf(column, language)) }
        @if page.lines.is_empty() && in_state.is_empty() {
            p.none { (words::NoRecordWith { asked }.say(language)) }
        } @else if !page.lines.is_empty() {
            (table(page.lines.iter(), &head, language))
        }
        @if let Some(next) = next { p.more { a href=(next) { (words::NextPage.say(language)) } } }
    }
}
