use maud::{Markup, PreEscaped, html};
use slingseal_app::catalogue::Saying;
use slingseal_app::catalogue::{board, movement, page as words};
use slingseal_app::{
    BoardColumn, BoardLoad, BoardRequest, BoardView, FlowState, Language, MovementKind, ZoneCount,
};

use super::chart::encoded;

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
fn address(request: &BoardRequest, state: Option<FlowState>, page: u32) -> String {
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
    }
    if page > 0 {
        query.append_pair("page", &page.to_string());
    }
    format!("/?{}", query.finish())
}

/// The zone board: one shelf a state.
pub(in crate::serve) fn board(view: &BoardView, request: &BoardRequest, language: Language) -> Markup {
    html! {
        div.tools {
            p { (words::LoadsTouchedSince { since: &view.since.dtg }.say(language)) }
            @let day = request.date.clone().unwrap_or_else(|| view.at.rfc3339.chars().take(10).collect());
            p.links { a href={ "/manifest?day=" (day) } { (board::ManifestTitle { day: &day }.say(language)) } }
            (chooser(view, request, language))
        }
        // What is chosen stays as it is while what is shown is kept up to date.
        p.small #live role="status" data-on=(words::LiveOn.say(language)) data-off=(words::LiveOff.say(language)) data-many=(words::LiveMany.say(language)) {}
        div #board { (shown(view, request, language)) }
    }
}

/// What the board shows: the part that is drawn anew when it is another.
fn shown(view: &BoardView, request: &BoardRequest, language: Language) -> Markup {
    let one_state = request.state;
    html! {
        @if !view.notices.is_empty() {
            ul.notices aria-label=(words::ToLookInto.say(language)) { @for notice in &view.notices { li { (notice) } } }
        }
        (map(view, language))
        @if one_state.is_some() { p { a href=(address(request, None, 0)) { (words::AllStates.say(language)) } } }
        @for column in view.columns.iter().filter(|column| one_state.is_none_or(|state| column.state == state)) {
            (shelf_with(column, &if column.pages > 1 { pages(request, column, one_state.is_none(), language) } else { html! {} }, language))
        }
    }
}

/// The loads of one state, as another page lists them: all of them are on the board.
pub(super) fn shelf(column: &BoardColumn, language: Language) -> Markup {
    let more = column.count.saturating_sub(column.loads.len() as u64);
    let rest = html! {
        @if more > 0 { p.more { a href={ "/?state=" (column.state.word()) } { (words::AllOfThem { count: column.count.to_string() }.say(language)) } } }
    };
    shelf_with(column, &rest, language)
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

fn shelf_with(column: &BoardColumn, rest: &Markup, language: Language) -> Markup {
    html! {
        section class={ "shelf " (column.state.word()) @if column.loads.is_empty() { " empty" } } aria-label=(column.title) {
            h2 { (shape(column.state)) span.count { (column.count) } span { (column.title) } }
            @if !column.reported.is_empty() { p.note { (hints(column, language)) } }
            @if column.loads.is_empty() {
                p.none { (words::NoneOfThem.say(language)) }
            } @else {
                ul.loads { @for one in &column.loads { li { (card(one, language)) } } }
            }
            (rest)
        }
    }
}

/// Where the other loads of a state are: each page has an address.
fn pages(request: &BoardRequest, column: &BoardColumn, all: bool, language: Language) -> Markup {
    let page = if all { 0 } else { request.page };
    html! {
        p.more {
            @if page > 0 { a href=(address(request, Some(column.state), page - 1)) { (words::Before.say(language)) } " · " }
            (words::PageOf { page: page + 1, pages: column.pages }.say(language))
            @if page + 1 < column.pages { " · " a href=(address(request, Some(column.state), page + 1)) { (words::Next.say(language)) } }
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

/// The zones where they lie to each other, with how many loads stand there and go there. Our own drawing: no tiles, no network.
fn map(view: &BoardView, language: Language) -> Markup {
    let placed: Vec<(&ZoneCount, f64, f64)> = view
        .zones
        .iter()
        .filter_map(|zone| Some((zone, zone.longitude? as f64, zone.latitude? as f64)))
        .collect();
    // One place lies nowhere to another.
    if placed.len() < 2 {
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
    let room = SKETCH - 2.0 * MARGIN;
    let middle = (SKETCH - (east - west) * squeeze / span * room) / 2.0;
    let at = |longitude: f64, latitude: f64| {
        (middle + (longitude - west) * squeeze / span * room, LABEL + (north - latitude) / span * room)
    };
    let total = |counts: &std::collections::BTreeMap<FlowState, u64>| counts.values().sum::<u64>();
    let mut labels: Vec<f64> = Vec::new();
    let mut marks = Vec::new();
    for (zone, longitude, latitude) in &placed {
        let (x, y) = at(*longitude, *latitude);
        // Below its mark, or above it where another's label stands already.
        let crowded = |top: f64| labels.iter().any(|other: &f64| (other - top).abs() < LABEL);
        let top = if crowded(y + 8.0) && !crowded(y - 8.0 - LABEL) { y - 8.0 - LABEL } else { y + 8.0 };
        labels.push(top);
        let counts = words::HereAndBound { here: total(&zone.here), bound: total(&zone.bound) }.say(language);
        marks.push((&zone.name, counts, x, y, top));
    }
    let high = at(west, south).1 + LABEL + 12.0;
    html! {
        figure.map {
            svg viewBox=(format!("0 0 {SKETCH:.0} {high:.0}")) role="img" aria-label=(words::ZonesDrawn.say(language)) {
                @for (name, counts, x, y, top) in &marks {
                    circle cx=(format!("{x:.1}")) cy=(format!("{y:.1}")) r="6" fill="none" stroke="currentColor" stroke-width="2" {}
                    (label(*x, top + 13.0, name))
                    (label(*x, top + 29.0, counts))
                }
            }
            figcaption { (words::Schematic.say(language)) }
        }
    }
}

/// How wide the sketch of the zones is: as a narrow window, so that letters on it keep their size there.
const SKETCH: f64 = 360.0;
/// From the edges to the outermost marks.
const MARGIN: f64 = 20.0;
/// Two lines of a label, and the air between it and its mark.
const LABEL: f64 = 36.0;

/// A line of a label: it begins, ends or centres at its mark, so that it keeps within the sketch; what is longer than that is
/// drawn together.
fn label(x: f64, y: f64, words: &str) -> Markup {
    let third = SKETCH / 3.0;
    let (anchor, room) = if x < third {
        ("start", SKETCH - x + 6.0)
    } else if x > 2.0 * third {
        ("end", x + 6.0)
    } else {
        ("middle", 2.0 * x.min(SKETCH - x))
    };
    let x = match anchor {
        "start" => x - 6.0,
        "end" => x + 6.0,
        _ => x,
    };
    // A letter of this size takes less than eight units.
    let long = words.chars().count() as f64 * 8.0 > room;
    html! {
        text x=(format!("{x:.1}")) y=(format!("{y:.1}")) font-size="14" fill="currentColor" text-anchor=(anchor)
            textLength=[long.then(|| format!("{:.0}", room - 4.0))] lengthAdjust=[long.then_some("spacingAndGlyphs")] { (words) }
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
            span.detail { @if one.soon { strong { (words::Look.say(language)) " " } } (one.detail) }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use slingseal_app::{BoardView, FlowState, Language, Stamp, ZoneCount};

    use super::map;

    fn zone(name: &str, latitude: i64, longitude: i64) -> ZoneCount {
        let here = BTreeMap::from([(FlowState::Fit, 2)]);
        let bound = BTreeMap::new();
        let (latitude, longitude) = (Some(latitude), Some(longitude));
        ZoneCount { name: name.into(), grid: String::new(), latitude, longitude, here, bound }
    }

    /// What a drawing is made of is no word of a language.
    #[test]
    fn zones_are_drawn_alike_in_every_language() {
        let at = || Stamp { unix: 0, rfc3339: String::new(), dtg: String::new() };
        let board = |zones: Vec<ZoneCount>| BoardView {
            at: at(),
            since: at(),
            columns: Vec::new(),
            notices: Vec::new(),
            zones,
            aircraft: Vec::new(),
        };
        let two = board(vec![zone("Meadow", 46_000_000, 7_000_000), zone("Ridge", 46_010_000, 7_020_000)]);
        let circles = |language| {
            let drawn = map(&two, language).into_string();
            let circles: Vec<String> = drawn.split("<circle").skip(1).map(str::to_owned).collect();
            circles.iter().map(|one| one.split('>').next().unwrap().to_owned()).collect::<Vec<_>>()
        };
        assert_eq!(circles(Language::Spanish), circles(Language::English));
        assert!(circles(Language::Spanish).iter().all(|one| one.contains("fill=\"none\"")));
        assert_eq!(circles(Language::Spanish).len(), 2);
        // What is written keeps within the sketch, whatever a zone is called.
        let long = "Kestrel Meadow and the upper weir";
        let placed = [(46_000_000, 7_000_000), (46_005_000, 7_010_000), (46_010_000, 7_020_000)];
        let three = board(placed.map(|(latitude, longitude)| zone(long, latitude, longitude)).to_vec());
        for written in map(&three, Language::Spanish).into_string().split("<text ").skip(1) {
            let number = |name: &str| {
                let value = written
                    .split(&format!(" {name}=\""))
                    .nth(1)
                    .or(written.split(&format!("{name}=\"")).nth(1));
                value.and_then(|rest| rest.split('"').next()).and_then(|value| value.parse::<f64>().ok())
            };
            let letters =
                written.split('>').nth(1).unwrap().split('<').next().unwrap().chars().count() as f64;
            let (x, wide) = (number("x").unwrap(), number("textLength").unwrap_or(letters * 8.0));
            let left = match written {
                _ if written.contains("text-anchor=\"start\"") => x,
                _ if written.contains("text-anchor=\"end\"") => x - wide,
                _ => x - wide / 2.0,
            };
            assert!(left >= 0.0 && left + wide <= super::SKETCH, "{left} {wide} {written}");
        }
        let one = board(vec![zone("Meadow", 46_000_000, 7_000_000)]);
        assert_eq!(map(&one, Language::English).into_string(), "", "one place lies nowhere to another");
    }
}
