use maud::{Markup, html};
use slingseal_app::AsideView;

use super::chart::encoded;
use crate::serve::intake::Receipt;

/// Four doors, and what came through them.
pub(in crate::serve) fn receive<'r>(
    receipts: impl Iterator<Item = &'r Receipt>,
    aside: &[AsideView],
    camera: bool,
) -> Markup {
    let receipts: Vec<&Receipt> = receipts.collect();
    html! {
        div.doors {
            section.door {
                h2 { "Files" }
                p { "Bundles, pictures of codes, texts." }
                label.drop #drop { span { "Drop files here, or choose" } input #files type="file" multiple; }
                p #sending role="status" {}
            }
            section.door {
                h2 { "Scanner" }
                p { "A scanner that types: click the field and scan." }
                form method="post" action="/receive/text" {
                    input #scan name="text" aria-label="What the scanner types" autocomplete="off" spellcheck="false";
                    button { "Take in" }
                }
            }
            section.door {
                h2 { "Text" }
                form method="post" action="/receive/text" {
                    textarea name="text" rows="4" aria-label="Codes as text, one a line" placeholder="SL1:… one code a line" spellcheck="false" {}
                    button { "Take in" }
                }
            }
            section.door {
                h2 { "Camera" }
                @if camera {
                    p { "A code, or a moving code: hold it still in the middle." }
                    video #eye muted playsinline hidden {}
                    p #seen role="status" {}
                    progress #part hidden max="1" value="0" {}
                    p { button #look type="button" { "Start the camera" } }
                } @else {
                    p { "Browsers give a camera to this machine's own page only: open the link there, or take a picture and send the file." }
                }
            }
        }
        section {
            h2 { "Received since the start" }
            ol.receipts {
                @for one in &receipts {
                    li.good[one.good].bad[!one.good] {
                        time datetime=(one.at.rfc3339) { (one.at.dtg) }
                        strong { @if one.good { "Taken in: " } @else if one.partly { "Taken in part: " } @else { "Refused: " } }
                        @if let Some(load) = &one.load { a href={ "/load/" (encoded(load)) } { (one.what) } } @else { (one.what) }
                        @for line in &one.lines { div.small { (line) } }
                    }
                }
            }
            @if receipts.is_empty() { p.none { "nothing yet" } }
        }
        @if !aside.is_empty() {
            section {
                h2 { "Set aside" }
                p { "Kept, not believed. What comes again in good order is taken in and leaves this list." }
                div.wide tabindex="0" role="group" aria-label="Table" { table {
                    thead { tr { th { "Came" } th { "Why" } th.num { "Bytes" } th { "Digest" } } }
                    tbody { @for one in aside { tr {
                        td { (one.received.dtg) } td { (one.reason) } td.num { (one.bytes) }
                        td.digest { (one.digest.chars().take(8).collect::<String>()) }
                    } } }
                } }
            }
        }
    }
}
