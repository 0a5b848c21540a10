use maud::{Markup, html};
use slingseal_app::catalogue::{Saying, closing, page as words};
use slingseal_app::{
    AppError, Language, PieceFilter, PieceGroup, PieceLifeState, PieceLifeView, PieceView, PiecesView, Stamp,
};

use super::chart::encoded;
use super::frame::PinAsked;
use super::order::Order;
use super::records::lines;

/// Where a page of the list is.
fn address(filter: &PieceFilter, order: &Order<'_>, group: Option<PieceGroup>, page: u32) -> String {
    let mut query = form_urlencoded::Serializer::new(String::new());
    if let Some(group) = group {
        query.append_pair("state", group.word());
    }
    if let Some(words) = &filter.words {
        query.append_pair("words", words);
    }
    if let Some(sort) = order.said() {
        query.append_pair("sort", sort);
    }
    if page > 0 {
        query.append_pair("page", &page.to_string());
    }
    format!("/equipment?{}", query.finish())
}

/// What each filter is called.
fn filters(language: Language) -> Vec<(Option<PieceGroup>, String)> {
    // What is back and what no load names wants nobody's look.
    let shown =
        |group: &PieceGroup| !matches!(group, PieceGroup::At(PieceLifeState::Back | PieceLifeState::Known));
    let groups = PieceGroup::ALL.into_iter().filter(shown);
    let all = (None, closing::PiecesAll.say(language));
    std::iter::once(all).chain(groups.map(|group| (Some(group), group.saying().say(language)))).collect()
}

fn dtg(stamp: Option<&Stamp>) -> &str {
    stamp.map(|stamp| stamp.dtg.as_str()).unwrap_or_default()
}

/// Every piece with a serial number: what is overdue or not returned first.
pub(in crate::serve) fn equipment(
    view: &PiecesView,
    filter: &PieceFilter,
    order: &Order<'_>,
    language: Language,
) -> Markup {
    let chosen = filter.group;
    let head = |column: &str, label: Saying, number: bool| {
        order.head("equipment", column, &label.say(language), number, language)
    };
    html! {
        div.tools {
            p.links {
                @for (group, title) in &filters(language) {
                    a href=(address(filter, order, *group, 0)) aria-current=[(*group == chosen).then_some("page")] {
                        (title) @if let Some(count) = group.and_then(|group| view.counts.get(&group)) { " " (count) }
                    } " "
                }
                a href="/export/pieces.csv" { (closing::PiecesTable.say(language)) }
            }
            form.pick method="get" {
                @if let Some(group) = chosen { input type="hidden" name="state" value=(group.word()); }
                @if let Some(sort) = order.said() { input type="hidden" name="sort" value=(sort); }
                label { (closing::PiecesFind.say(language)) " "
                    input name="words" value=(filter.words.as_deref().unwrap_or_default()) autocomplete="off"; }
                button { (words::Show.say(language)) }
            }
        }
        @if view.lines.is_empty() { p.none { (words::NoneOfThem.say(language)) } } @else {
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                thead { tr {
                    (head("serial", closing::PieceSerial.into(), false)) (head("kind", closing::PieceKind.into(), false))
                    (head("state", closing::PieceState.into(), false)) (head("where", closing::PieceWhere.into(), false))
                    (head("since", closing::PieceSince.into(), false)) (head("due", closing::PieceDue.into(), false))
                    (head("lifts", closing::PieceLifts.into(), true)) (head("carried", closing::PieceCarried.into(), true))
                } }
                tbody { @for life in &view.lines { tr {
                    td { a href={ "/equipment/" (encoded(&life.serial)) } { b { (life.serial) } } }
                    td { (life.kind) }
                    td { (state(life, language)) }
                    td { (place(life)) }
                    td { (dtg(life.since.as_ref())) }
                    td.bad[life.overdue] { (dtg(life.due.as_ref())) }
                    td.num { (life.lifts) }
                    td.num { (life.carried) }
                } } }
            } }
        }
        @if view.pages > 1 { p.more {
            @if filter.page > 0 { a href=(address(filter, order, chosen, filter.page - 1)) { (closing::PageBefore.say(language)) } " · " }
            (closing::PageOfPages { page: i64::from(filter.page) + 1, pages: view.pages }.say(language))
            @if filter.page + 1 < view.pages { " · " a href=(address(filter, order, chosen, filter.page + 1)) { (closing::PageNext.say(language)) } }
        } }
    }
}

fn state(life: &PieceLifeView, language: Language) -> Markup {
    html! {
        @if life.withdrawn_by.is_some() { b.bad { (closing::PieceWithdrawn.say(language)) } ", " }
        @if life.overdue { b.bad { (closing::PieceOverdue.say(language)) } ", " }
        (life.state_title)
        @if life.unsigned { " " small { (closing::PieceRestsOnUnsigned.say(language)) } }
    }
}

fn place(life: &PieceLifeView) -> Markup {
    html! {
        @if let Some(load) = &life.load { a href={ "/load/" (encoded(load)) } { (load) } @if !life.place.is_empty() { ", " } }
        (life.place)
    }
}

/// One piece: how it stands, its life, where it was used. `signs`: who may withdraw it here, and `why` as it was
/// entered.
pub(in crate::serve) fn piece(
    view: &PieceView,
    signs: &PinAsked<'_>,
    why: &str,
    language: Language,
) -> Markup {
    let withdrawn = view.standing.as_ref().is_some_and(|standing| standing.withdrawn);
    // What is wrong with the reason is told there; what else stands in the way is the PIN's.
    let reason = signs.wrong.filter(|error| matches!(error, AppError::BadInput { .. }));
    let signs = PinAsked { wrong: signs.wrong.filter(|_| reason.is_none()), ..*signs };
    html! {
        @if let Some(standing) = &view.standing {
            p.state.bad[standing.withdrawn] { b {
                @let at = &standing.at.dtg;
                @match (standing.withdrawn, &standing.until) {
                    (true, _) => (closing::PieceStandsWithdrawn {
                        at, by: standing.by.clone().unwrap_or_default(), why: standing.why.clone().unwrap_or_default(),
                    }.say(language)),
                    (false, Some(until)) => { (words::FitUntil { until: &until.dtg }.say(language)) ", " (words::InspectedAt { at }.say(language)) },
                    (false, None) => (words::FoundFitAt { at }.say(language)),
                }
            } }
        }
        @for life in &view.lives {
            dl.facts.row {
                div { dt { (closing::PieceKind.say(language)) } dd { (life.kind) } }
                div { dt { (closing::PieceState.say(language)) } dd { (state(life, language)) } }
                div { dt { (closing::PieceWhere.say(language)) } dd { (place(life)) } }
                div { dt { (closing::PieceSince.say(language)) } dd { (dtg(life.since.as_ref())) } }
                div { dt { (closing::PieceLifts.say(language)) } dd { (life.lifts) } }
                div { dt { (closing::PieceCarried.say(language)) } dd { (life.carried) } }
                div { dt { (closing::PieceDue.say(language)) } dd.bad[life.overdue] { (dtg(life.due.as_ref())) } }
            }
        }
        @for piece in &view.newest {
            dl.facts.row {
                div { dt { (words::Equipment.say(language)) } dd { (piece.kind) } }
                div { dt { (words::Rating.say(language)) } dd { (piece.rating.clone().unwrap_or_else(|| words::NoneGiven.say(language)))
                    @if let Some(source) = &piece.source { ", " (source) } } }
                div { dt { (words::InspectBy.say(language)) } dd.bad[piece.overdue] { (piece.next_inspection.clone().unwrap_or_else(|| words::NotTold.say(language))) } }
            }
        }
        @if !view.newest.is_empty() { p.small { (words::AsNewestTag.say(language)) } }
        @if !view.moments.is_empty() { section {
            h2 { (closing::PieceStory.say(language)) }
            ul { @for moment in &view.moments { li { (moment.at.dtg) ": " (moment.what) } } }
        } }
        section { h2 { (words::WhereUsed.say(language)) } (lines(view.uses.iter(), language)) }
        @if let Some(next) = &view.next {
            p.more { a href={ "/equipment/" (encoded(&view.serial)) "?after=" (next) } { (words::NextPage.say(language)) } }
        }
        @if let Some(holder) = signs.signs.filter(|_| !withdrawn) {
            section.door {
                h2 { (closing::PieceWithdraw.say(language)) }
                p { (closing::PieceWithdrawMeans.say(language)) }
                form method="post" action={ "/equipment/" (encoded(&view.serial)) } {
                    label.wrong[reason.is_some()] { span { (closing::PieceWithdrawWhy.say(language)) }
                        input name="why" maxlength="280" required autocomplete="off" value=(why)
                            aria-invalid=[reason.map(|_| "true")] aria-describedby=[reason.map(|_| "why-fault")]; }
                    @if let Some(error) = reason { div.fault role="alert" id="why-fault" { p { (error.say(language)) } } }
                    (signs.field(holder, None, language))
                    button { (closing::PieceWithdraw.say(language)) }
                }
            }
        }
    }
}
