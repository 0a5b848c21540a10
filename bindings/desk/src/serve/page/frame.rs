use maud::{DOCTYPE, Markup, PreEscaped, html};
use slingseal_app::catalogue::Saying;
use slingseal_app::catalogue::{page as words, rigging as rig_words};
use slingseal_app::{AppError, Language, Stamp};

/// The style of every page, and of paper.
pub(in crate::serve) const STYLE: &str = include_str!("desk.css");
/// The little script: dropped files, the scanner's field, the camera, the moving code.
pub(in crate::serve) const SCRIPT: &str = include_str!("desk.js");
/// The mark.
pub(in crate::serve) const MARK: &str = include_str!("mark.svg");

/// Where a page stands, and whose it is.
pub(in crate::serve) struct Here {
    /// The name of the authority or the device's holder.
    pub(in crate::serve) whose: String,
    /// Whose words stand on it.
    pub(in crate::serve) language: Language,
    /// Now.
    pub(in crate::serve) now: Stamp,
}

/// Who signs here, with which form, and what stood in the way the last time.
#[derive(Clone, Copy)]
pub(in crate::serve) struct PinAsked<'p> {
    /// None where nobody may.
    pub(in crate::serve) signs: Option<&'p str>,
    pub(in crate::serve) token: &'p str,
    pub(in crate::serve) wrong: Option<&'p AppError>,
}

impl PinAsked<'_> {
    /// The PIN's field and the form's token; `more` is said beside the label.
    pub(super) fn field(&self, holder: &str, more: Option<Saying>, language: Language) -> Markup {
        let (wrong, needed) = (self.wrong.is_some(), more.is_none());
        html! {
            input type="hidden" name="token" value=(self.token);
            label.wrong[wrong] { span { (words::PinOf { holder }.say(language)) @if let Some(more) = more { small { " " (more.say(language)) } } }
                input name="pin" type="password" inputmode="numeric" autocomplete="off" required[needed]
                    aria-invalid=[wrong.then_some("true")] aria-describedby=[wrong.then_some("pin-fault")]; }
            @if let Some(error) = self.wrong {
                div.fault role="alert" id="pin-fault" { @for line in error.say(language).lines() { p { (line) } } }
            }
        }
    }
}

/// In the order of a day: what is done now, what came of it, and what is looked at between operations.
fn places() -> [Vec<(&'static str, Saying)>; 3] {
    [
        vec![
            ("/", words::PlaceZone.into()),
            ("/plan", words::PlacePlan.into()),
            ("/rigging", rig_words::EditorTitle.into()),
            ("/receive", words::PlaceReceive.into()),
        ],
        vec![
            ("/deficiencies", words::PlaceDeficiencies.into()),
            ("/equipment", words::PlaceEquipment.into()),
            ("/people", words::PlacePeople.into()),
            ("/close", words::PlaceClose.into()),
            ("/export", words::PlaceExport.into()),
        ],
        vec![("/procedures", words::PlaceProcedures.into()), ("/class", words::PlaceClass.into())],
    ]
}

/// The access key of a place: the first nine by their number.
fn key(place: &str) -> Option<String> {
    let number = places().iter().flatten().position(|(at, _)| *at == place)? + 1;
    (number <= 9).then(|| number.to_string())
}

fn head(title: &str, language: Language) -> Markup {
    html! {
        (DOCTYPE)
        (PreEscaped(format!("<html lang=\"{}\">", language.code())))
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
    let language = here.language;
    html! {
        (head(title, language))
        script src="/desk.js" defer {}
        body {
            a.skip href="#main" { (words::SkipToPage.say(language)) }
            header.band {
                a.name href="/" { (PreEscaped(MARK)) span { "Slingseal" } }
                span.whose { (here.whose) }
                // In the band, so that the places have a row for themselves.
                form.find action="/search" role="search" {
                    input type="search" name="q" aria-label=(words::Search.say(language)) placeholder=(words::SearchExample.say(language)) autocomplete="off" accesskey="s";
                    button { (words::Search.say(language)) }
                }
                time.now datetime=(here.now.rfc3339) { (here.now.dtg) }
            }
            nav.places aria-label=(words::Pages.say(language)) {
                div.strip {
                    @for group in &places() {
                        div.group {
                            @for (at, name) in group {
                                a href=(at) aria-current=[(*at == place).then_some("page")] accesskey=[key(at)] { (name.say(language)) }
                            }
                        }
                    }
                }
            }
            main #main { h1 { (title) } (content) }
            footer {
                (words::Foot.say(language))
                details { summary { (words::Keys.say(language)) } p { (words::KeysTold.say(language)) } }
            }
        }
    }
}

/// An error, in its own words.
pub(in crate::serve) fn failed(here: &Here, error: &AppError) -> Markup {
    let language = here.language;
    let content = html! {
        div.fault role="alert" { @for line in error.say(language).lines() { p { (line) } } }
        p { a href="/" { (words::ToZone.say(language)) } }
    };
    frame(here, "", &words::DidNotWork.say(language), &content)
}

/// What somebody sees who may not look: nothing of the home.
pub(in crate::serve) fn turned_away(why: &str, language: Language) -> Markup {
    let not_here = words::NotHere.say(language);
    html! { (head(&not_here, language)) body { main { h1 { (not_here) } p { (why) } } } }
}

/// The page behind the printed link. It goes on by itself, so that the next request comes from our own page and carries the
/// cookie.
pub(in crate::serve) fn opened(language: Language) -> Markup {
    let opened = words::Opened.say(language);
    html! {
        (head(&opened, language))
        meta http-equiv="refresh" content="0;url=/";
        body { main { h1 { (opened) } p { a href="/" { (words::ToZone.say(language)) } } } }
    }
}
