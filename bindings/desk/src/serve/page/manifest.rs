use maud::{Markup, html};
use slingseal_app::catalogue::{board as words, page};
use slingseal_app::{Language, ManifestLine, ManifestView};

use super::board::shape;
use super::chart::encoded;

/// A day's loads in the order in which they are to be lifted, each with a field for another place.
pub(in crate::serve) fn manifest(view: &ManifestView, language: Language) -> Markup {
    let day = view.day.as_str();
    html! {
        div.tools {
            p { (words::ManifestWhat.say(language)) }
            p.links {
                a href={ "/manifest/" (day) ".pdf" } { (words::ManifestAsPdf.say(language)) } " "
                a href={ "/manifest/" (day) ".csv" } { (words::ManifestAsTable.say(language)) }
            }
            form.pick method="get" {
                label { (page::Day.say(language)) " " input type="date" name="day" value=(day) data-go; }
                button { (page::Show.say(language)) }
            }
        }
        p.small { (words::ManifestKnownAt { count: view.lines.len(), at: &view.at.dtg }.say(language)) }
        @if view.lines.is_empty() { p.none { (page::NoneOfThem.say(language)) } } @else {
            div.wide tabindex="0" role="group" aria-label=(page::Table.say(language)) { table {
                thead { tr {
                    th { (words::ManifestPlace.say(language)) } th { (page::Load.say(language)) } th { (page::What.say(language)) }
                    th { (page::LabelFrom.say(language)) " – " (page::LabelTo.say(language)) } th { (page::Standing.say(language)) }
                } }
                tbody { @for one in &view.lines { (row(one, day, language)) } }
            } }
        }
        section.door {
            form method="post" action="/manifest/put" {
                input type="hidden" name="day" value=(day);
                input type="hidden" name="place" value=(view.lines.len() + 1);
                label { span { (words::ManifestAdd.say(language)) } input name="load" maxlength="16" required autocomplete="off"; }
                button { (words::ManifestPut.say(language)) }
            }
            form method="post" action="/manifest/order" {
                input type="hidden" name="day" value=(day);
                label { span { (words::ManifestTake.say(language)) } textarea name="table" rows="3" required spellcheck="false" {} }
                button { (words::ManifestPut.say(language)) }
            }
            @if view.lines.iter().any(|one| one.set) {
                form method="post" action="/manifest/planned" {
                    input type="hidden" name="day" value=(day);
                    button { (words::ManifestAsPlanned.say(language)) }
                }
            }
        }
    }
}

fn row(one: &ManifestLine, day: &str, language: Language) -> Markup {
    let facts = [one.description.as_str(), &one.gross, &one.aircraft];
    let facts: Vec<&str> = facts.into_iter().filter(|fact| !fact.is_empty()).collect();
    html! {
        tr {
            td {
                form method="post" action="/manifest/put" {
                    input type="hidden" name="day" value=(day);
                    input type="hidden" name="load" value=(one.load);
                    input type="number" name="place" min="1" max="2000" required value=(one.place)
                        aria-label=(words::ManifestPutLoad { load: &one.load }.say(language));
                    " " button { (words::ManifestPut.say(language)) }
                }
            }
            td { a href={ "/load/" (encoded(&one.load)) } { b { (one.load) } } }
            td { (facts.join(", ")) }
            td { (one.way(language)) }
            td { (shape(one.state)) " " (one.stands(language)) @if !one.reported.is_empty() { br; span.small { (one.reported) } } }
        }
    }
}
