use maud::{Markup, PreEscaped, html};
use slingseal_app::catalogue::Saying;
use slingseal_app::catalogue::{board, movement, page as words};
use slingseal_app::{BoardColumn, BoardLoad, BoardRequest, BoardView, FlowState, Language, MovementKind};

use super::chart::encoded;
use super::order::Order;
use super::zones::map;

/// The shape that stands for a state, so that colour is never alone.
pub(super) fn shape(state: FlowState) -> Markup {
    let path = match state {
        FlowState::Planned => {
            r#"<circle cx="12" cy="12" r="8.500" fill="none" stroke="currentColor" stroke-width="3" stroke-dasharray="4 3"/>"#
        }
        FlowState::Walking => {
            r#"<circle cx="12" cy="12" r="8.500" fill="none" stroke="currentColor" stroke-width="3"/><path d="M12 3.500a8.500 8.500 0 0 1 0 17z" fill="currentColor"/>"#
        }
        FlowState::Fit => r#"<circle cx="12" cy="12" r="10" fill="currentColor"/>"#,
        FlowState::Lifted => r#"<path d="M12 2l9 11h-5v9H8v-9H3z" fill="currentColor"/>"#,
        FlowState::SetDown => r#"<path d="M12 17l9-9h-5V2H8v6H3zM3 19h18v3H3z" fill="currentColor"/>"#,
        FlowState::NotFit => r#"<path d="M3 3h18v18H3z" fill="currentColor"/>"#,
        FlowState::Expired => r#"<path d="M4 2h16L4 22h16z" fill="currentColor"/>"#,
        FlowState::Waits | FlowState::Refused | FlowState::Voided | FlowState::Lost => {
            r#"<path d="M4 4l16 16M20 4 4 20" stroke="currentColor" stroke-width="5"/>"#
        }
    };
    html! { svg.shape viewBox="0 0 24 24" aria-hidden="true" { (PreEscaped(path)) } }
}

/// The address of a board: what is chosen, with a state and a page of it in place of what was there.
fn address(request: &BoardRequest, order: &Order<'_>, state: Option<FlowState>, page: u32) -> String {
    let mut query = form_urlencoded::Serializer::new(String::new());
    query.append_pair("days", &request.days.to_string());
    let chosen = [
        ("date", &request.date),
        ("zone", &request.zone),
        ("to", &request.destination),
        ("aircraft", &request.aircraft),
    ];
    for (name, value) in chosen {
        if let Some(value) = value {
            query.append_pair(name, value);
        }
    }
    if let Some(state) = state {
        query.append_pair("state", state.word());
        if let Some(sort) = order.said() {
            query.append_pair("sort", sort);
        }
    }
    if page > 0 {
        query.append_pair("page", &page.to_string());
    }
    format!("/?{}", query.finish())
}

/// The zone board: one shelf a state.
pub(in crate::serve) fn board(
    view: &BoardView,
    request: &BoardRequest,
    order: &Order<'_>,
    language: Language,
) -> Markup {
    html! {
        div.tools {
            p { (words::LoadsTouchedSince { since: &view.since.dtg }.say(language)) }
            @let day = request.date.clone().unwrap_or_else(|| view.at.rfc3339.chars().take(10).collect());
            p.links { a href={ "/manifest?day=" (day) } { (board::ManifestTitle { day: &day }.say(language)) } }
            (chooser(view, request, language))
        }
        // What is chosen stays as it is while what is shown is kept up to date.
        p.small #live role="status" data-on=(words::LiveOn.say(language)) data-off=(words::LiveOff.say(language)) data-many=(words::LiveMany.say(language)) {}
        div #board { (shown(view, request, order, language)) }
    }
}

/// What the board shows: the part that is drawn anew when it is another.
fn shown(view: &BoardView, request: &BoardRequest, order: &Order<'_>, language: Language) -> Markup {
    let one_state = request.state;
    html! {
        @if !view.notices.is_empty() {
            ul.notices aria-label=(words::ToLookInto.say(language)) { @for notice in &view.notices { li { (notice) } } }
        }
        (map(view, language))
        @if one_state.is_some() { p { a href=(address(request, order, None, 0)) { (words::AllStates.say(language)) } } }
        @for column in view.columns.iter().filter(|column| one_state.is_none_or(|state| column.state == state)) {
            @let rest = if column.pages > 1 { pages(request, order, column, one_state.is_none(), language) } else { html! {} };
            // All states are looked at as cards; whoever chose one looks for a load among many.
            @let loads = if one_state.is_some() { table(column, order, language) } else { cards(column, language) };
            (shelf_with(column, &loads, &rest, language))
        }
    }
}

/// The loads of one state, as another page lists them: all of them are on the board.
pub(super) fn shelf(column: &BoardColumn, language: Language) -> Markup {
    let more = column.count.saturating_sub(column.loads.len() as u64);
    let rest = html! {
        @if more > 0 { p.more { a href={ "/?state=" (column.state.word()) } { (words::AllOfThem { count: column.count.to_string() }.say(language)) } } }
    };
    shelf_with(column, &cards(column, language), &rest, language)
}

/// What an event is called.
fn event_words(event: MovementKind, language: Language) -> String {
    let said: Saying = match event {
        MovementKind::Lifted => movement::MovementLifted.into(),
        MovementKind::Refused => movement::MovementRefusedPlain.into(),
        MovementKind::Lost => movement::MovementLost.into(),
        MovementKind::SetDown => movement::MovementSetDown.into(),
        MovementKind::Derigged => movement::MovementDerigged.into(),
        MovementKind::Returned => movement::MovementReturned.into(),
    };
    said.say(language)
}

/// What reports that nobody known signed tell of a state's loads.
fn hints(column: &BoardColumn, language: Language) -> String {
    let told: Vec<String> = column
        .reported
        .iter()
        .map(|(event, count)| format!("{count} {}", event_words(*event, language)))
        .collect();
    words::ByUnsignedReports { told: told.join(", ") }.say(language)
}

fn shelf_with(column: &BoardColumn, loads: &Markup, rest: &Markup, language: Language) -> Markup {
    html! {
        section class={ "shelf " (column.state.word()) @if column.loads.is_empty() { " empty" } } aria-label=(column.title) {
            h2 { (shape(column.state)) span.count { (column.count) } span { (column.title) } }
            @if !column.reported.is_empty() { p.note { (hints(column, language)) } }
            @if column.loads.is_empty() {
                p.none { (words::NoneOfThem.say(language)) }
            } @else {
                (loads)
            }
            (rest)
        }
    }
}

/// Where the other loads of a state are: each page has an address.
fn pages(
    request: &BoardRequest,
    order: &Order<'_>,
    column: &BoardColumn,
    all: bool,
    language: Language,
) -> Markup {
    let page = if all { 0 } else { request.page };
    html! {
        p.more {
            @if page > 0 { a href=(address(request, order, Some(column.state), page - 1)) { (words::Before.say(language)) } " · " }
            (words::PageOf { page: page + 1, pages: column.pages }.say(language))
            @if page + 1 < column.pages { " · " a href=(address(request, order, Some(column.state), page + 1)) { (words::Next.say(language)) } }
        }
    }
}

fn chooser(view: &BoardView, request: &BoardRequest, language: Language) -> Markup {
    let names = |bound: bool| {
        let zones =
            view.zones.iter().filter(move |zone| !(if bound { &zone.bound } else { &zone.here }).is_empty());
        let names: std::collections::BTreeSet<&str> = zones.map(|zone| zone.name.as_str()).collect();
        names
    };
    let choice = |label: Saying, name: &str, chosen: &Option<String>, names: Vec<&str>| {
        html! {
            label { (label.say(language)) " "
                select name=(name) data-go {
                    option value="" { (words::Any.say(language)) }
                    @for one in &names { option value=(one) selected[chosen.as_deref() == Some(one)] { (one) } }
                    @if let Some(chosen) = chosen.as_deref().filter(|chosen| !names.contains(chosen)) {
                        option value=(chosen) selected { (chosen) }
                    }
                }
            }
        }
    };
    html! {
        form.pick method="get" {
            label { (words::LookBack.say(language)) " "
                select name="days" data-go {
                    @for (value, name) in [(1, words::Days { count: 1 }.saying()), (7, words::Days { count: 7 }.into()), (30, words::Days { count: 30 }.into()), (3650, words::Ever.into())] {
                        option value=(value) selected[value == request.days] { (name.say(language)) }
                    }
                }
            }
            label { (words::Day.say(language)) " " input type="date" name="date" value=(request.date.as_deref().unwrap_or_default()); }
            (choice(words::LabelFrom.saying(), "zone", &request.zone, names(false).into_iter().collect()))
            (choice(words::LabelTo.saying(), "to", &request.destination, names(true).into_iter().collect()))
            (choice(words::Aircraft.saying(), "aircraft", &request.aircraft, view.aircraft.iter().map(String::as_str).collect()))
            button { (words::Show.say(language)) }
        }
    }
}

fn card(one: &BoardLoad, language: Language) -> Markup {
    html! {
        a.load.soon[one.soon] href={ "/load/" (encoded(&one.load)) } {
            span.number { (one.load) }
            span.craft { (one.aircraft) }
            @if !one.description.is_empty() { span.what { (one.description) } }
            span.facts {
                @if !one.gross.is_empty() { (one.gross) " · " }
                (one.who)
            }
            @if !one.reported.is_empty() { span.detail { (one.reported) } }
            @if !one.walk.is_empty() { span.detail { (one.walk) } }
            span.detail { (detail(one, language)) }
        }
    }
}

fn cards(column: &BoardColumn, language: Language) -> Markup {
    html! { ul.loads { @for one in &column.loads { li { (card(one, language)) } } } }
}

/// A page of one state's loads. The other columns are read of each load's inspection, so that no order can be had by them.
fn table(column: &BoardColumn, order: &Order<'_>, language: Language) -> Markup {
    let head =
        |column: &str, label: Saying| order.head("board", column, &label.say(language), false, language);
    html! {
        div.wide tabindex="0" role="group" aria-label=(column.title) { table {
            thead { tr {
                (head("load", words::Load.into())) th { (words::FieldDescription.say(language)) } th { (words::GrossWeight.say(language)) }
                (head("aircraft", words::Aircraft.into())) (head("from", words::LabelFrom.into())) (head("to", words::LabelTo.into()))
                th { (words::StandsForIt.say(language)) } th { (words::State.say(language)) }
            } }
            tbody { @for one in &column.loads { tr {
                td { a href={ "/load/" (encoded(&one.load)) } { b { (one.load) } } }
                td { (one.description) } td { (one.gross) } td { (one.aircraft) } td { (one.zone) } td { (one.destination) }
                td { (one.who) }
                td { (detail(one, language)) @for more in [&one.reported, &one.walk] { @if !more.is_empty() { br; (more) } } }
            } } }
        } }
    }
}

/// What matters of a load now.
fn detail(one: &BoardLoad, language: Language) -> Markup {
    html! { @if one.soon { strong { (words::Look.say(language)) " " } } (one.detail) }
}
