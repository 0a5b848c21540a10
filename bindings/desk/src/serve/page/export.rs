use maud::{Markup, html};

use slingseal_app::BundleMade;

use crate::output::counted;

/// The account for other programs, and for other desks.
pub(in crate::serve) fn export() -> Markup {
    html! {
        div.doors {
            section.door {
                h2 { "Tables (CSV)" }
                p { "For spreadsheets and statistics. Times in UTC and as date-time groups, masses in kg and lb, places in MGRS." }
                ul {
                    li { a href="/export/records.csv" { "Records" } }
                    li { a href="/export/deficiencies.csv" { "Deficiencies" } }
                    li { a href="/export/equipment.csv" { "Equipment" } }
                    li { a href="/class" { "A class's tables" } }
                }
            }
            section.door {
                h2 { "Everything (JSON)" }
                p { "One document, schema " code { (slingseal_app::EXPORT_SCHEMA) } ". The same records give the same bytes on every desk." }
                ul { li { a href="/export/account.json" { "The account" } } }
            }
            section.door {
                h2 { "Another desk" }
                p { "A bundle carries records, tags, voids, credentials, rosters and photographs." }
                ul { li { a href="/export/everything.slb" { "Bundle (file)" } } }
                p { "Or show it as a moving code to another desk's camera (no photographs)." }
                form #show method="post" action="/moving" {
                    label { span { "The other desk's have code, if it gave one" } input name="have" autocomplete="off" spellcheck="false"; }
                    button { "Show the moving code" }
                }
            }
        }
    }
}

/// The moving code, frame after frame, until somebody leaves the page.
pub(in crate::serve) fn moving(made: &BundleMade, enough: u32, part: u32, parts: usize) -> Markup {
    html! {
        @if parts > 1 {
            p { b { "Part " (part) " of " (parts) "." } " Together they were too much for one code. The other desk takes each by itself, in any order." }
            p.links { @for other in 1..=parts { a href={ "/moving?part=" (other) } aria-current=[(u32::try_from(other) == Ok(part)).then_some("page")] { "Part " (other) } " " } }
        }
        p { b { (counted(made.records, "record")) } " and " b { (counted(made.papers, "paper")) } ", in " b { (counted(enough, "frame")) } " or a few more. Hold the other desk's camera so \
            that the whole code is in its picture; it says when it has everything." }
        img.moving #moving data-part=(part) src={ "/moving/" (part) "/0.svg" } alt="A frame of the moving code";
        p { label { "Frames a second " select #pace {
            @for pace in [4, 8, 12, 15] { option value=(pace) selected[pace == 8] { (pace) } } } } }
    }
}
