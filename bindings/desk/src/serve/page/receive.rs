use maud::{Markup, html};
use slingseal_app::catalogue::page as words;
use slingseal_app::{AsideView, Language};

use super::chart::encoded;
use crate::serve::intake::Receipt;

/// Four doors, and what came through them.
pub(in crate::serve) fn receive<'r>(
    receipts: impl Iterator<Item = &'r Receipt>,
    aside: &[AsideView],
    camera: bool,
    issues: bool,
    language: Language,
) -> Markup {
    let receipts: Vec<&Receipt> = receipts.collect();
    html! {
        div.doors {
            section.door {
                h2 { (words::Files.say(language)) }
                p { (words::BundlesPicturesTexts.say(language)) }
                label.drop #drop { span { (words::DropFiles.say(language)) } input #files type="file" multiple; }
                p #sending role="status" data-sending=(words::Sending { name: "{}" }.say(language)) data-failed=(words::NotSent { name: "{}" }.say(language)) data-stop=(words::Stop.say(language)) {}
                p { button #stop type="button" hidden { (words::Stop.say(language)) } }
            }
            section.door {
                h2 { (words::Scanner.say(language)) }
                p { (words::ScannerThatTypes.say(language)) }
                form method="post" action="/receive/text" {
                    input #scan name="text" aria-label=(words::WhatScannerTypes.say(language)) autocomplete="off" spellcheck="false";
                    button { (words::TakeIn.say(language)) }
                }
            }
            section.door {
                h2 { (words::Text.say(language)) }
                form method="post" action="/receive/text" {
                    textarea name="text" rows="4" aria-label=(words::CodesAsText.say(language)) placeholder=(words::OneCodeALine.say(language)) spellcheck="false" {}
                    button { (words::TakeIn.say(language)) }
                }
            }
            section.door {
                h2 { (words::Camera.say(language)) }
                @if camera {
                    p { (words::HoldCodeStill.say(language)) }
                    video #eye muted playsinline hidden {}
                    p #seen role="status" data-none=(words::NoCamera.say(language)) data-looking=(words::Looking.say(language)) data-gone=(words::DeskGone.say(language))
                        data-taken=(words::FramesSeen { taken: "{taken}", enough: "{enough}" }.say(language)) {}
                    progress #part hidden max="1" value="0" {}
                    p { button #look type="button" { (words::StartCamera.say(language)) } }
                } @else {
                    p { (words::CameraOwnPageOnly.say(language)) }
                }
            }
        }
        section {
            h2 { (words::ReceivedSinceStart.say(language)) }
            ol.receipts {
                @for one in &receipts {
                    li.good[one.good].bad[!one.good] {
                        time datetime=(one.at.rfc3339) { (one.at.dtg) }
                        strong { @if one.good { (words::TakenIn.say(language)) } @else if one.partly { (words::TakenInPart.say(language)) } @else { (words::Refused.say(language)) } " " }
                        @if let Some(load) = &one.load { a href={ "/load/" (encoded(load)) } { (one.what) } } @else { (one.what) }
                        @for line in &one.lines { div.small { (line) } }
                        @if let Some(request) = one.request.as_ref().filter(|_| issues) { div { a href={ "/act/issue?request=" (encoded(request)) } { (words::ActIssueTitle.say(language)) } } }
                    }
                }
            }
            @if receipts.is_empty() { p.none { (words::NothingYet.say(language)) } }
        }
        @if !aside.is_empty() {
            section {
                h2 { (words::SetAside.say(language)) }
                p { (words::KeptNotBelieved.say(language)) }
                div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                    thead { tr { th { (words::Came.say(language)) } th { (words::Why.say(language)) } th.num { (words::Bytes.say(language)) } th { (words::Digest.say(language)) } } }
                    tbody { @for one in aside { tr {
                        td { (one.received.dtg) } td { (one.reason) } td.num { (one.bytes) }
                        td.digest { (one.digest.chars().take(8).collect::<String>()) }
                    } } }
                } }
            }
        }
    }
}
