use maud::{Markup, PreEscaped, html};
use slingseal_app::{BoardColumn, BoardLoad, BoardRequest, BoardView, ZoneCount};

/// The shape that stands for a state, so that colour is never alone.
pub(super) fn shape(state: &str) -> Markup {
    let path = match state {
        "planned" => {
            r#"<circle cx="12" cy="12" r="8.500" fill="none" stroke="currentColor" stroke-width="3" stroke-dasharray="4 3"/>"#
        }
        "walking" => {
            r#"<circle cx="12" cy="12" r="8.500" fill="none" stroke="currentColor" stroke-width="3"/><path d="M12 3.500a8.500 8.500 0 0 1 0 17z" fill="currentColor"/>"#
        }
        "fit" => r#"<circle cx="12" cy="12" r="10" fill="currentColor"/>"#,
        "lifted" => r#"<path d="M12 2l9 11h-5v9H8v-9H3z" fill="currentColor"/>"#,
        "set_down" => r#"<path d="M12 17l9-9h-5V2H8v6H3zM3 19h18v3H3z" fill="currentColor"/>"#,
        "not_fit" => r#"<path d="M3 3h18v18H3z" fill="currentColor"/>"#,
        "expired" => r#"<path d="M4 2h16L4 22h16z" fill="currentColor"/>"#,
        _ => r#"<path d="M4 4l16 16M20 4 4 20" stroke="currentColor" stroke-width="5"/>"#,
    };
    html! { svg.shape viewBox="0 0 24 24" aria-hidden="true" { (PreEscaped(path)) } }
}

/// The address of a board: what is chosen, with a state and a page of it in place of what was there.
fn address(request: &BoardRequest, state: &str, page: u32) -> String {
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
    if !state.is_empty() {
        query.append_pair("state", state);
    }
    if page > 0 {
        query.append_pair("page", &page.to_string());
    }
    format!("/?{}", query.finish())
}

/// The zone board: one shelf a state.
pub(in crate::serve) fn board(view: &BoardView, request: &BoardRequest) -> Markup {
    let one_state = request.state.as_deref().unwrap_or_default();
    html! {
        div.tools {
            p { "Loads touched since " time datetime=(view.since.rfc3339) { (view.since.dtg) } ", and all that are valid or in the air." }
            (chooser(view, request))
        }
        @if !view.notices.is_empty() {
            ul.notices aria-label="To look into" { @for notice in &view.notices { li { (notice) } } }
        }
        (map(view))
        @if !one_state.is_empty() { p { a href=(address(request, "", 0)) { "All states" } } }
        @for column in view.columns.iter().filter(|column| one_state.is_empty() || column.state == one_state) {
            (shelf_with(column, &if column.pages > 1 { pages(request, column, one_state.is_empty()) } else { html! {} }))
        }
    }
}

/// The loads of one state, as another page lists them: all of them are on the board.
pub(super) fn shelf(column: &BoardColumn) -> Markup {
    let more = column.count.saturating_sub(column.loads.len() as u64);
    let rest = html! {
        @if more > 0 { p.more { a href={ "/?state=" (column.state) } { "all " (column.count) } } }
    };
    shelf_with(column, &rest)
}

/// What reports that nobody known signed tell of a state's loads.
fn hints(column: &BoardColumn) -> String {
    let told: Vec<String> =
        column.reported.iter().map(|(event, count)| format!("{count} {}", event.replace('-', " "))).collect();
    format!("By unsigned reports, which move nothing: {}.", told.join(", "))
}

fn shelf_with(column: &BoardColumn, rest: &Markup) -> Markup {
    html! {
        section class={ "shelf " (column.state) @if column.loads.is_empty() { " empty" } } aria-label=(column.title) {
            h2 { (shape(&column.state)) span.count { (column.count) } span { (column.title) } }
            @if !column.reported.is_empty() { p.note { (hints(column)) } }
            @if column.loads.is_empty() {
                p.none { "none" }
            } @else {
                ul.loads { @for one in &column.loads { li { (card(one)) } } }
            }
            (rest)
        }
    }
}

/// Where the other loads of a state are: each page has an address.
fn pages(request: &BoardRequest, column: &BoardColumn, all: bool) -> Markup {
    let page = if all { 0 } else { request.page };
    html! {
        p.more {
            @if page > 0 { a href=(address(request, &column.state, page - 1)) { "Before" } " · " }
            "page " (page + 1) " of " (column.pages)
            @if page + 1 < column.pages { " · " a href=(address(request, &column.state, page + 1)) { "Next" } }
        }
    }
}

fn chooser(view: &BoardView, request: &BoardRequest) -> Markup {
    let names = |bound: bool| {
        let zones =
            view.zones.iter().filter(move |zone| !(if bound { &zone.bound } else { &zone.here }).is_empty());
        let names: std::collections::BTreeSet<&str> = zones.map(|zone| zone.name.as_str()).collect();
        names
    };
    let choice = |label: &str, name: &str, chosen: &Option<String>, names: Vec<&str>| {
        html! {
            label { (label) " "
                select name=(name) data-go {
                    option value="" { "any" }
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
            label { "Look back "
                select name="days" data-go {
                    @for (value, name) in [(1, "1 day"), (7, "7 days"), (30, "30 days"), (3650, "ever")] {
                        option value=(value) selected[value == request.days] { (name) }
                    }
                }
            }
            label { "Day " input type="date" name="date" value=(request.date.as_deref().unwrap_or_default()); }
            (choice("From", "zone", &request.zone, names(false).into_iter().collect()))
            (choice("To", "to", &request.destination, names(true).into_iter().collect()))
            (choice("Aircraft", "aircraft", &request.aircraft, view.aircraft.iter().map(String::as_str).collect()))
            button { "Show" }
        }
    }
}

/// The zones where they lie to each other, with how many loads stand there and go there. Our own drawing: no tiles, no network.
fn map(view: &BoardView) -> Markup {
    let placed: Vec<(&ZoneCount, f64, f64)> = view
        .zones
        .iter()
        .filter_map(|zone| Some((zone, zone.longitude? as f64, zone.latitude? as f64)))
        .collect();
    if placed.is_empty() {
        return html! {};
    }
    let bounds = |pick: fn(&(&ZoneCount, f64, f64)) -> f64| {
        let values = placed.iter().map(pick);
        (values.clone().fold(f64::INFINITY, f64::min), values.fold(f64::NEG_INFINITY, f64::max))
    };
    let ((west, east), (south, north)) = (bounds(|zone| zone.1), bounds(|zone| zone.2));
    // Degrees of longitude shrink with the cosine of the latitude; one scale both ways, so that bearings are right.
    let squeeze = ((south + north) / 2e6).to_radians().cos().max(0.05);
    let span = ((east - west) * squeeze).max(north - south).max(1.0);
    let at = |longitude: f64, latitude: f64| {
        let x = 60.0 + (longitude - west) * squeeze / span * 480.0;
        let y = 30.0 + (north - latitude) / span * 240.0;
        (x, y)
    };
    let total = |counts: &std::collections::BTreeMap<String, u64>| counts.values().sum::<u64>();
    html! {
        figure.map {
            svg viewBox="0 0 640 330" role="img" aria-label="The zones, north up, with their loads" {
                @for (zone, longitude, latitude) in &placed {
                    @let (x, y) = at(*longitude, *latitude);
                    circle cx=(format!("{x:.1}")) cy=(format!("{y:.1}")) r="7" fill="none" stroke="currentColor" stroke-width="2" {}
                    text x=(format!("{:.1}", x + 12.0)) y=(format!("{:.1}", y + 4.0)) font-size="14" fill="currentColor" {
                        (zone.name) ": " (total(&zone.here)) " here, " (total(&zone.bound)) " bound"
                    }
                }
            }
            figcaption { "Schematic, north up; from the grid references of the tags." }
        }
    }
}

fn card(one: &BoardLoad) -> Markup {
    html! {
        a.load.soon[one.soon] href={ "/load/" (super::chart::encoded(&one.load)) } {
            span.number { (one.load) }
            span.craft { (one.aircraft) }
            @if !one.description.is_empty() { span.what { (one.description) } }
            span.facts {
                @if !one.gross.is_empty() { (one.gross) " · " }
                (one.who)
            }
            @if !one.reported.is_empty() { span.detail { (one.reported) } }
            span.detail { @if one.soon { strong { "Look: " } } (one.detail) }
        }
    }
}
