use maud::{Markup, PreEscaped, html};
use slingseal_app::catalogue::Saying;
use slingseal_app::catalogue::page as words;
use slingseal_app::{Language, ProcedureView, TagMade};

use super::chart::encoded;
use super::frame::PinAsked;
use super::listed::{Listed, listed};
use crate::serve::ask::Form;

/// What somebody entered, to be shown again with what is wrong.
#[derive(Default)]
pub(in crate::serve) struct Entered {
    pub(in crate::serve) form: Form,
    pub(in crate::serve) faults: Vec<Fault>,
    /// How its rigging file hangs, drawn and in words, where that was asked.
    pub(in crate::serve) picture: Option<(String, String)>,
    /// The rigging files of a list.
    pub(in crate::serve) listed: Listed,
    /// What is to be done now, where nothing is wrong and nothing was made.
    pub(in crate::serve) note: Option<String>,
}

/// What is wrong, and with which field of the form for one load; with none where it is a list's.
pub(in crate::serve) struct Fault {
    pub(in crate::serve) field: Option<String>,
    pub(in crate::serve) words: String,
}

impl Fault {
    fn said(&self, language: Language) -> String {
        match &self.field {
            Some(field) => format!("{}: {}", label(field).say(language), self.words),
            None => self.words.clone(),
        }
    }
}

impl Entered {
    /// Which fault, the first of them, is this field's.
    fn at(&self, field: &str) -> Option<usize> {
        self.faults.iter().position(|fault| fault.field.as_deref() == Some(field))
    }
}

/// The fields of the form: name, example, whether it is needed.
pub(in crate::serve) const FIELDS: [(&str, &str, bool); 16] = [
    ("load", "KM-021", true),
    ("description", "", true),
    ("gross", "4200 lb", true),
    ("aircraft", "Heron M2", true),
    ("allowable", "7000 lb", true),
    ("rigger", "Mason 5", false),
    ("pickup", "Kestrel Meadow", true),
    ("pickup_grid", "33T WN 22104 58831", false),
    ("destination", "Alder Bridge", true),
    ("destination_grid", "", false),
    ("links", "1:3; 2:3; 3:3; 4:3", false),
    ("legs", "1:SL-0091; 2:SL-0092", false),
    ("weight_source", "weighed", false),
    ("manual", "", false),
    ("airspeed", "", false),
    ("when", "night", false),
];

/// What a field is called on the form.
fn label(field: &str) -> Saying {
    match field {
        "load" => words::FieldLoad.into(),
        "description" => words::FieldDescription.into(),
        "gross" => words::GrossWeight.into(),
        "aircraft" => words::Aircraft.into(),
        "allowable" => words::FieldAllowable.into(),
        "rigger" => words::Rigger.into(),
        "pickup" => words::FieldPickup.into(),
        "pickup_grid" => words::FieldPickupGrid.into(),
        "destination" => words::FieldDestination.into(),
        "destination_grid" => words::FieldDestinationGrid.into(),
        "links" => words::FieldLinks.into(),
        "legs" => words::FieldLegs.into(),
        "weight_source" => words::FieldWeightSource.into(),
        "manual" => words::FieldManual.into(),
        "airspeed" => words::FieldAirspeed.into(),
        "when" => words::FieldConditions.into(),
        "procedure" => words::Procedure.into(),
        "equipment" => words::FieldEquipment.into(),
        "rigging" => words::FieldRigging.into(),
        other => Saying::verbatim(other),
    }
}

/// An example, where it is words.
fn example(field: &str, example: &'static str) -> Saying {
    match field {
        "description" => words::ExampleDescription.into(),
        "manual" => words::ExampleManual.into(),
        "airspeed" => words::ExampleAirspeed.into(),
        _ => Saying::verbatim(example),
    }
}

/// Plan and print.
pub(in crate::serve) fn plan(
    entered: &Entered,
    procedures: &[ProcedureView],
    signs: &PinAsked<'_>,
    list_signs: &PinAsked<'_>,
    language: Language,
) -> Markup {
    let form = &entered.form;
    html! {
        @if !entered.faults.is_empty() {
            div.fault role="alert" { p { b { (words::NoTagMade.say(language)) } }
                @for (at, fault) in entered.faults.iter().enumerate() { p id={ "fault-" (at) } { (fault.said(language)) } } }
        }
        @if let Some(note) = &entered.note { div.note role="status" { p { (note) } } }
        div.plans {
            section {
                h2 { (words::OneLoad.say(language)) }
                form.plan method="post" action="/plan" autocomplete="off" {
                    @for (name, shown, needed) in FIELDS {
                        @let wrong = entered.at(name);
                        label.wrong[wrong.is_some()] { span { (label(name).say(language)) @if !needed { small { " " (words::MayBeLeftOut.say(language)) } } }
                            input name=(name) value=(form.get(name)) placeholder=(example(name, shown).say(language)) required[needed]
                                aria-invalid=[wrong.map(|_| "true")] aria-describedby=[wrong.map(|at| format!("fault-{at}"))]; }
                    }
                    @let wrong = entered.at("procedure");
                    label.wrong[wrong.is_some()] { span { (words::Procedure.say(language)) }
                        select name="procedure" required aria-invalid=[wrong.map(|_| "true")] {
                            option value="" { (words::Choose.say(language)) }
                            @for one in procedures {
                                option value=(one.id) selected[one.id == form.get("procedure")] { (one.title) " (" (one.id) " " (one.version) ")" }
                            }
                        }
                    }
                    @let wrong = entered.at("equipment");
                    label.whole.wrong[wrong.is_some()] { span { (words::FieldEquipment.say(language)) }
                        textarea name="equipment" aria-invalid=[wrong.map(|_| "true")] rows="3" placeholder=(words::ExampleEquipment.say(language)) spellcheck="false" { (form.get("equipment")) } }
                    @let wrong = entered.at("rigging");
                    label.whole { span { (words::AFile.say(language)) } input type="file" accept=".toml" data-into="rigging"; }
                    label.whole.wrong[wrong.is_some()] { span { (words::FieldRigging.say(language)) small { " " (words::MayBeLeftOut.say(language)) } }
                        textarea #rigging name="rigging" rows="3" spellcheck="false" aria-invalid=[wrong.map(|_| "true")] aria-describedby=[wrong.map(|at| format!("fault-{at}"))] {
                            (form.all("rigging").next().unwrap_or_default()) } }
                    (signature(signs, language))
                    // First, so that Enter makes the tag.
                    button { (words::MakeTag.say(language)) }
                    p.whole { button formaction="/plan/rigging" formnovalidate { (words::LookAtRigging.say(language)) } }
                    @if let Some((drawn, report)) = &entered.picture {
                        figure.rigging.whole { (PreEscaped(drawn)) figcaption { (words::RiggingShown.say(language)) } }
                        pre.report.whole { (report) }
                    }
                }
            }
            section {
                h2 { (words::LoadList.say(language)) }
                p { (words::ListIsCsv.say(language)) " "
                    code { "load, description, procedure, gross, aircraft, allowable, pickup, destination" }
                    "; " (words::ListAlso.say(language)) " " code { "pickup_grid, destination_grid, rigger, planned, equipment, links, legs, weight_source, manual, airspeed, when, rigging" } "." }
                form.plan method="post" action="/plan/list" autocomplete="off" {
                    label.whole { span { (words::AFile.say(language)) } input type="file" accept=".csv,text/csv" data-into="list"; }
                    label.whole { span { (words::TheList.say(language)) }
                        textarea #list name="list" rows="10" required spellcheck="false" { (form.get("list")) } }
                    (listed(&entered.listed, language))
                    (signature(list_signs, language))
                    button { (words::MakeTags.say(language)) }
                    p.whole { button formaction="/plan/list/rigging" formnovalidate { (words::LookAtListed.say(language)) } }
                }
            }
        }
    }
}

fn signature(signs: &PinAsked<'_>, language: Language) -> Markup {
    html! {
        @match signs.signs {
            Some(holder) => {
                (signs.field(holder, Some(words::EmptyUnsigned.into()), language))
            }
            None => p.note { (words::TagsUnsignedHere.say(language)) },
        }
    }
}

/// Tags that were made; `query` names them for their sheets.
pub(in crate::serve) fn made(tags: &[TagMade], query: &str, language: Language) -> Markup {
    html! {
        p.links { a.act href={ "/sheet.pdf?" (query) } { (words::PrintSheets { count: tags.len() }.say(language)) } }
        ul.made { @for TagMade { code, tag } in tags { li {
            img.code src={ "/tag/" (tag.digest) ".svg" } alt=(words::TagOfLoadAsCode { load: &tag.load }.say(language));
            div {
                h2 { a href={ "/load/" (encoded(&tag.load)) } { (tag.load) } }
                p { (words::TagFacts { description: &tag.description, gross: &tag.gross, aircraft: &tag.aircraft, allowable: &tag.allowable }.say(language)) }
                p { (words::SignedBy { who: tag.signed_by(language) }.say(language)) }
                @if !tag.warnings.is_empty() { ul.warnings { @for warning in &tag.warnings { li { (warning) } } } }
                details { summary { (words::AsText.say(language)) } p.digest { (code.text) } }
            }
        } } }
    }
}
