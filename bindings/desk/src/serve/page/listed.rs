//! The rigging files that a load list names: each with its text, and how it hangs.

use maud::{Markup, PreEscaped, html};
use slingseal_app::Language;
use slingseal_app::catalogue::{page as words, rigging as rig_words};

/// A rigging file that a list names.
pub(in crate::serve) struct ListedFile {
    /// As the list names it.
    pub(in crate::serve) name: String,
    /// Its text, as it was given; empty where it was not.
    pub(in crate::serve) text: String,
    /// The drawing and the report, or what is wrong in it.
    pub(in crate::serve) hangs: Result<(String, String), String>,
}

/// All of them, and what stands for those that are shown: sent back with the form, so that the desk knows what was seen.
#[derive(Default)]
pub(in crate::serve) struct Listed {
    pub(in crate::serve) files: Vec<ListedFile>,
    pub(in crate::serve) shown: String,
}

/// The field that holds the text of a file.
pub(in crate::serve) fn field_of(name: &str) -> String {
    format!("file.{name}")
}

/// The files in the form of the list.
pub(super) fn listed(listed: &Listed, language: Language) -> Markup {
    if listed.files.is_empty() {
        return html! {};
    }
    html! {
        fieldset.files.whole { legend { (words::RiggingOfList.say(language)) }
            input type="hidden" name="shown" value=(listed.shown);
            @if listed.files.len() > 1 {
                label { span { (words::FilesTogether.say(language)) } input #files-of-list type="file" accept=".toml" multiple data-by-name; }
                p.small #not-named role="status" data-said=(words::FileNotNamed { name: "{}" }.say(language)) {}
            }
            @for (at, file) in listed.files.iter().enumerate() { (one(at, file, language)) }
        }
    }
}

fn one(at: usize, file: &ListedFile, language: Language) -> Markup {
    let (field, fault) = (format!("file-{at}"), format!("file-fault-{at}"));
    let wrong = file.hangs.as_ref().err();
    html! {
        section aria-labelledby={ "file-name-" (at) } {
            h3 id={ "file-name-" (at) } { (file.name) }
            label { span { (words::AFile.say(language)) } input type="file" accept=".toml" data-into=(field) aria-describedby={ "file-name-" (at) }; }
            label.wrong[wrong.is_some()] { span { (words::FieldRigging.say(language)) ": " (file.name) }
                textarea id=(field) name=(field_of(&file.name)) data-file=(file.name) rows="3" spellcheck="false"
                    aria-invalid=[wrong.map(|_| "true")] aria-describedby=[wrong.map(|_| fault.as_str())] { (file.text) } }
            @match &file.hangs {
                Err(words) => div.fault id=(fault) { @for line in words.lines() { p { (line) } } },
                Ok((drawn, report)) => {
                    figure.rigging { (PreEscaped(drawn)) figcaption { (words::RiggingShown.say(language)) ": " (file.name) } }
                    details { summary { (rig_words::EditorReport.say(language)) } pre.report { (report) } }
                }
            }
        }
    }
}
