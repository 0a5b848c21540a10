use maud::{Markup, html};
use slingseal_app::catalogue::page as words;
use slingseal_app::{CheckPageMade, Language};

use slingseal_app::BundleMade;

use super::frame::PinAsked;

use slingseal_app::catalogue::desk as verb_words;

/// The account for other programs, for other desks, and the hook check for strangers' phones. `leads`: who signs that here;
/// `ready`: whether this program has its page.
pub(in crate::serve) fn export(leads: &PinAsked<'_>, ready: bool, language: Language) -> Markup {
    html! {
        div.doors {
            section.door {
                h2 { (words::TablesCsv.say(language)) }
                p { (words::ForSpreadsheets.say(language)) }
                ul {
                    li { a href="/export/records.csv" { (words::Records.say(language)) } }
                    li { a href="/export/deficiencies.csv" { (words::Deficiencies.say(language)) } }
                    li { a href="/export/equipment.csv" { (words::Equipment.say(language)) } }
                    li { a href="/class" { (words::ClassTables.say(language)) } }
                }
            }
            section.door {
                h2 { (words::EverythingJson.say(language)) }
                p { (words::OneDocument { schema: slingseal_app::EXPORT_SCHEMA }.say(language)) }
                (begin("account.json", &words::TheAccount.say(language)))
            }
            section.door {
                h2 { (words::AnotherDesk.say(language)) }
                p { (words::BundleCarries.say(language)) }
                (begin("everything.slb", &words::BundleFile.say(language)))
                p { (words::OrMovingCode.say(language)) }
                form #show method="post" action="/moving" {
                    label { span { (words::OtherDesksHaveCode.say(language)) } input name="have" autocomplete="off" spellcheck="false"; }
                    button { (words::ShowMovingCode.say(language)) }
                }
            }
            section.door {
                h2 { (words::AuditDoor.say(language)) }
                p { (words::AuditExplained.say(language)) }
                form method="post" action="/job/audit" { button { (words::AuditBegin.say(language)) } }
                p { a href="/job" { (words::Work.say(language)) } }
            }
            section.door {
                h2 { (words::HookCheckForPhones.say(language)) }
                p { (words::HookCheckExplained.say(language)) }
                @match (leads.signs, ready) {
                    (_, false) => p.note { (words::BuiltWithoutPage.say(language)) },
                    (None, true) => p.note { (words::LeaderSignsHere.say(language)) },
                    (Some(leader), true) => form method="post" action="/hook-check" {
                        label { span { (words::HoursReliedOn.say(language)) } input name="hours" type="number" min="1" max="168" value="24" required; }
                        (leads.field(leader, None, language))
                        button { (words::MakeFile.say(language)) }
                    },
                }
            }
        }
    }
}

/// A button that begins a long export.
fn begin(name: &str, title: &str) -> Markup {
    html! {
        form method="post" action="/job/export" {
            input type="hidden" name="name" value=(name);
            button { (title) }
        }
    }
}

/// The moving code, frame after frame, until somebody leaves the page.
pub(in crate::serve) fn moving(
    made: &BundleMade,
    enough: u32,
    part: u32,
    parts: usize,
    language: Language,
) -> Markup {
    html! {
        @if parts > 1 {
            p { b { (words::PartOf { part, parts }.say(language)) } " " (words::TogetherTooMuch.say(language)) }
            p.links { @for other in 1..=parts { a href={ "/moving?part=" (other) } aria-current=[(u32::try_from(other) == Ok(part)).then_some("page")] { (words::PartNumbered { part: other }.say(language)) } " " } }
        }
        p {
            b { (verb_words::CountRecords { count: made.records }.say(language)) ", "
                (verb_words::CountPapers { count: made.papers }.say(language)) ", "
                (verb_words::CountFrames { count: enough }.say(language)) }
            " " (words::HoldCamera.say(language))
        }
        img.moving #moving data-part=(part) src={ "/moving/" (part) "/0.svg" } alt=(words::FrameOfMovingCode.say(language));
        p { label { (words::FramesASecond.say(language)) " " select #pace {
            @for pace in [4, 8, 12, 15] { option value=(pace) selected[pace == 8] { (pace) } } } } }
    }
}

/// The hook check that was made: what the leader says, and the file.
pub(in crate::serve) fn hook_check(made: &CheckPageMade, language: Language) -> Markup {
    html! {
        p { (words::HandFileOn.say(language)) }
        p.thumbprint { (made.thumbprint) }
        dl.facts {
            div { dt { (words::SignedByLabel.say(language)) } dd { (made.leader) } }
            div { dt { (words::RelyUntil.say(language)) } dd { (made.until.dtg) } }
            div { dt { (words::Trusts.say(language)) } dd { (made.authorities.join(", ")) } }
            div { dt { (words::WordsInside.say(language)) } dd { (made.words) } }
        }
        @for line in &made.left_out { p.note { (line) } }
        p { a.act href="/hook-check/hook.html" download="hook.html" { (words::TheFileHook.say(language)) } }
    }
}
