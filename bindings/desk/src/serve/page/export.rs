use maud::{Markup, html};
use slingseal_app::CheckPageMade;

use slingseal_app::BundleMade;

use crate::output::counted;

/// The account for other programs, for other desks, and the hook check for strangers' phones. `leads`: who signs that here;
/// `ready`: whether this program has its page.
pub(in crate::serve) fn export(leads: Option<&str>, ready: bool) -> Markup {
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
            section.door {
                h2 { "Hook check for any phone" }
                p { "One file that opens in a browser without a network and says GO, WAIT or NO-GO. It trusts whom this desk trusts, knows \
                    what this desk knows now, and says WAIT after its day." }
                @match (leads, ready) {
                    (_, false) => p.note { "This program was built without the page. See README: check-page." },
                    (None, true) => p.note { "A leader signs it, on this machine: nobody with that role and a credential in force holds this desk." },
                    (Some(leader), true) => form method="post" action="/hook-check" {
                        label { span { "Hours that it may be relied on" } input name="hours" type="number" min="1" max="168" value="24" required; }
                        label { span { "PIN of " (leader) } input name="pin" type="password" autocomplete="off" required; }
                        button { "Make the file" }
                    },
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

/// The hook check that was made: what the leader says, and the file.
pub(in crate::serve) fn hook_check(made: &CheckPageMade) -> Markup {
    html! {
        p { "Hand the file on by cable, stick or share, and say these five groups to whoever opens it. The first screen shows the same." }
        p.thumbprint { (made.thumbprint) }
        dl.facts {
            div { dt { "Signed by" } dd { (made.leader) } }
            div { dt { "Rely on it until" } dd { (made.until.dtg) } }
            div { dt { "Trusts" } dd { (made.authorities.join(", ")) } }
            div { dt { "Seals, voids and tags inside" } dd { (made.words) } }
        }
        @for line in &made.left_out { p.note { (line) } }
        p { a.act href="/hook-check/hook.html" download="hook.html" { "The file: hook.html" } }
    }
}
