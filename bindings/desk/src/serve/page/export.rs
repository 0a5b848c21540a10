use maud::{Markup, html};

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
pub(in crate::serve) fn moving(records: u32, papers: u32, enough: u32) -> Markup {
    html! {
        p { b { (counted(records, "record")) } " and " b { (counted(papers, "paper")) } ", in " b { (counted(enough, "frame")) } " or a few more. Hold the other desk's camera so \
            that the whole code is in its picture; it says when it has everything." }
        img.moving #moving src="/moving/0.svg" alt="A frame of the moving code";
        p { label { "Frames a second " select #pace {
            @for pace in [4, 8, 12, 15] { option value=(pace) selected[pace == 8] { (pace) } } } } }
    }
}
