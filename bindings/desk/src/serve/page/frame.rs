use maud::{DOCTYPE, Markup, PreEscaped, html};
use slingseal_app::{AppError, Stamp};

/// Where a page stands, and whose it is.
pub(in crate::serve) struct Here {
    /// The name of the authority or the device's holder.
    pub(in crate::serve) whose: String,
    /// Now.
    pub(in crate::serve) now: Stamp,
}

const PLACES: [(&str, &str); 11] = [
    ("/", "Zone"),
    ("/plan", "Plan"),
    ("/rigging", "Rigging"),
    ("/receive", "Receive"),
    ("/deficiencies", "Deficiencies"),
    ("/people", "People"),
    ("/equipment", "Equipment"),
    ("/close", "Close"),
    ("/procedures", "Procedures"),
    ("/class", "Class"),
    ("/export", "Export"),
];

fn head(title: &str) -> Markup {
    html! {
        (DOCTYPE)
        (PreEscaped("<html lang=\"en\">"))
        meta charset="utf-8";
        meta name="viewport" content="width=device-width, initial-scale=1";
        meta name="color-scheme" content="light dark";
        title { (title) " · Slingseal" }
        link rel="stylesheet" href="/desk.css";
        link rel="icon" href="/mark.svg";
    }
}

/// A whole page. `place` is the entry of the bar that it belongs to.
pub(in crate::serve) fn frame(here: &Here, place: &str, title: &str, content: &Markup) -> Markup {
    html! {
        (head(title))
        script src="/desk.js" defer {}
        body {
            a.skip href="#main" { "Skip to the page" }
            header.band {
                a.name href="/" { (PreEscaped(super::MARK)) span { "Slingseal" } }
                span.whose { (here.whose) }
                time.now datetime=(here.now.rfc3339) { (here.now.dtg) }
            }
            nav.places aria-label="Pages" {
                div.strip {
                    @for (at, name) in PLACES {
                        a href=(at) aria-current=[(at == place).then_some("page")] { (name) }
                    }
                }
                form.find action="/search" role="search" {
                    input type="search" name="q" aria-label="Search" placeholder="Load, serial, name …" autocomplete="off" accesskey="s";
                    button { "Search" }
                }
            }
            main #main { h1 { (title) } (content) }
            footer {
                "Slingseal assists a qualified inspector. The governing manual rules. Times are UTC by this device's clock; \
                 what has not been carried here is not shown here."
            }
        }
    }
}

/// An error, in its own words.
pub(in crate::serve) fn failed(here: &Here, error: &AppError) -> Markup {
    let content = html! {
        div.fault role="alert" { @for line in error.to_string().lines() { p { (line) } } }
        p { a href="/" { "To the zone" } }
    };
    frame(here, "", "That did not work", &content)
}

/// What somebody sees who may not look: nothing of the home.
pub(in crate::serve) fn turned_away(why: &str) -> Markup {
    html! { (head("Not here")) body { main { h1 { "Not here" } p { (why) } } } }
}

/// The page behind the printed link. It goes on by itself, so that the next request comes from our own page and carries the
/// cookie.
pub(in crate::serve) fn opened() -> Markup {
    html! {
        (head("Opened"))
        meta http-equiv="refresh" content="0;url=/";
        body { main { h1 { "Opened" } p { a href="/" { "To the zone" } } } }
    }
}
