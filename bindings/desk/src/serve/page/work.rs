//! Long work: how far it is, a button that stops it, what came of it.

use std::sync::Arc;

use maud::{Markup, html};
use slingseal_app::Language;
use slingseal_app::catalogue::page as words;

use crate::serve::work::{End, Work};

/// All of it, the newest first.
pub(in crate::serve) fn works(all: &[Arc<Work>], language: Language) -> Markup {
    html! {
        @if all.iter().any(|work| work.is_under_way()) { p.note { (words::WorkByItself.say(language)) } }
        @if all.is_empty() { p.none { (words::NothingYet.say(language)) } }
        div #works { @for work in all { (one(work, language)) } }
    }
}

fn one(work: &Work, language: Language) -> Markup {
    let (done, of) = work.far();
    let what = work.what.say(language);
    html! {
        section.work id={ "work-" (work.number) } {
            h2 { (what) }
            p.small { (words::WorkBegun.say(language)) " " (work.begun.dtg) }
            @match &*work.end() {
                None => {
                    p { (words::WorkGoesOn.say(language)) ": " span.said { (work.said(language)) } }
                    @if of > 0 { progress max=(of) value=(done) aria-label=(what) {} } @else { progress aria-label=(what) {} }
                    form method="post" action={ "/job/" (work.number) "/stop" } {
                        button aria-label=(words::StopNamed { what: &what }.say(language)) { (words::Stop.say(language)) }
                    }
                }
                Some(End::Stopped) => p.note { b { (words::WorkStopped.say(language)) } },
                Some(End::Failed(why)) => div.fault role="alert" { p { b { (words::WorkFailed.say(language)) ": " } (why.say(language)) } },
                Some(End::Done(made)) => {
                    p { b { (words::WorkDoneIn.say(language)) } }
                    @for line in &made.lines { p { (line) } }
                    @if let Some((_, name, _)) = &made.file {
                        p { a.act href={ "/job/" (work.number) "/" (name) } { (words::TakeFile.say(language)) " (" (name) ")" } }
                    }
                }
            }
        }
    }
}
