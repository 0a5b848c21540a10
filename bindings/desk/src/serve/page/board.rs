use maud::{Markup, PreEscaped, html};
use slingseal_app::{BoardColumn, BoardLoad, BoardView};

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
        "not_fit" => r#"<path d="M3 3h18v18H3z" fill="currentColor"/>"#,
        "expired" => r#"<path d="M4 2h16L4 22h16z" fill="currentColor"/>"#,
        _ => r#"<path d="M4 4l16 16M20 4 4 20" stroke="currentColor" stroke-width="5"/>"#,
    };
    html! { svg.shape viewBox="0 0 24 24" aria-hidden="true" { (PreEscaped(path)) } }
}

/// The zone board: one shelf a state.
pub(in crate::serve) fn board(view: &BoardView, days: u32) -> Markup {
    html! {
        div.tools {
            p { "Loads touched since " time datetime=(view.since.rfc3339) { (view.since.dtg) } ", and all that are valid." }
            form.pick method="get" {
                label { "Look back "
                    select name="days" data-go {
                        @for (value, name) in [(1, "1 day"), (7, "7 days"), (30, "30 days"), (3650, "ever")] {
                            option value=(value) selected[value == days] { (name) }
                        }
                    }
                }
                button { "Show" }
            }
        }
        @if !view.notices.is_empty() {
            ul.notices aria-label="To look into" { @for notice in &view.notices { li { (notice) } } }
        }
        @for column in &view.columns { (shelf(column)) }
    }
}

/// The loads of one state.
pub(super) fn shelf(column: &BoardColumn) -> Markup {
    html! {
            section class={ "shelf " (column.state) @if column.loads.is_empty() { " empty" } } aria-label=(column.title) {
                h2 { (shape(&column.state)) span.count { (column.count) } span { (column.title) } }
                @if column.loads.is_empty() {
                    p.none { "none" }
                } @else {
                    ul.loads { @for one in &column.loads { li { (card(one)) } } }
                }
                @if column.count > column.loads.len() as u64 {
                    p.more { "and " (column.count - column.loads.len() as u64) " more: search for a load, or look back less far" }
                }
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
            span.detail { @if one.soon { strong { "Soon: " } } (one.detail) }
        }
    }
}
