use maud::{Markup, html};
use slingseal_app::{ProcedureView, TagMade};

use super::chart::encoded;
use crate::serve::ask::Form;

/// What somebody entered, to be shown again with what is wrong.
#[derive(Default)]
pub(in crate::serve) struct Entered {
    pub(in crate::serve) form: Form,
    pub(in crate::serve) faults: Vec<Fault>,
}

/// What is wrong, and with which field of the form for one load; with none where it is a list's.
pub(in crate::serve) struct Fault {
    pub(in crate::serve) field: Option<String>,
    pub(in crate::serve) words: String,
}

impl Fault {
    fn said(&self) -> String {
        let label = FIELDS
            .iter()
            .find(|(name, ..)| Some(*name) == self.field.as_deref())
            .map(|(_, label, ..)| *label);
        match label.or(self.field.as_deref()) {
            Some(label) => format!("{label}: {}", self.words),
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

/// The fields of the form: name, label, example, whether it is needed.
pub(in crate::serve) const FIELDS: [(&str, &str, &str, bool); 16] = [
    ("load", "Load number", "KM-021", true),
    ("description", "What it is", "Water drums, pair", true),
    ("gross", "Gross weight", "4200 lb", true),
    ("aircraft", "Aircraft", "Heron M2", true),
    ("allowable", "Allowable load, from the aircrew", "7000 lb", true),
    ("rigger", "Rigger", "Mason 5", false),
    ("pickup", "Pickup zone", "Kestrel Meadow", true),
    ("pickup_grid", "Its grid, or latitude and longitude", "33T WN 22104 58831", false),
    ("destination", "Destination", "Alder Bridge", true),
    ("destination_grid", "Its grid", "", false),
    ("links", "Links, leg:link", "1:3; 2:3; 3:3; 4:3", false),
    ("legs", "Serials of the legs, leg:serial", "1:SL-0091; 2:SL-0092", false),
    ("weight_source", "Weight: weighed, data plate, added up, estimated", "weighed", false),
    ("manual", "Rigged to: manual | edition", "the governing manual, its page | 2024", false),
    ("airspeed", "Airspeed limit | the row it is from", "80 kt | the manual's row", false),
    ("when", "Conditions, or none", "night", false),
];

/// Plan and print.
pub(in crate::serve) fn plan(entered: &Entered, procedures: &[ProcedureView], signs: Option<&str>) -> Markup {
    let form = &entered.form;
    html! {
        @if !entered.faults.is_empty() {
            div.fault role="alert" { p { b { "No tag was made." } }
                @for (at, fault) in entered.faults.iter().enumerate() { p id={ "fault-" (at) } { (fault.said()) } } }
        }
        div.plans {
            section {
                h2 { "One load" }
                form.plan method="post" action="/plan" autocomplete="off" {
                    @for (name, label, example, needed) in FIELDS {
                        @let wrong = entered.at(name);
                        label.wrong[wrong.is_some()] { span { (label) @if !needed { small { " (may be left out)" } } }
                            input name=(name) value=(form.get(name)) placeholder=(example) required[needed]
                                aria-invalid=[wrong.map(|_| "true")] aria-describedby=[wrong.map(|at| format!("fault-{at}"))]; }
                    }
                    @let wrong = entered.at("procedure");
                    label.wrong[wrong.is_some()] { span { "Procedure" }
                        select name="procedure" required aria-invalid=[wrong.map(|_| "true")] {
                            option value="" { "choose" }
                            @for one in procedures {
                                option value=(one.id) selected[one.id == form.get("procedure")] { (one.title) " (" (one.id) " " (one.version) ")" }
                            }
                        }
                    }
                    @let wrong = entered.at("equipment");
                    label.whole.wrong[wrong.is_some()] { span { "Equipment, one piece a line" }
                        textarea name="equipment" aria-invalid=[wrong.map(|_| "true")] rows="3" placeholder="sling set | SS-0417 | 10000 lb | data plate | 2027-03-31" spellcheck="false" { (form.get("equipment")) } }
                    (signature(signs))
                    button { "Make the tag" }
                }
            }
            section {
                h2 { "A load list" }
                p { "CSV with a head line, one load a line: "
                    code { "load, description, procedure, gross, aircraft, allowable, pickup, destination" }
                    "; also " code { "pickup_grid, destination_grid, rigger, planned, equipment, links, legs, weight_source, manual, airspeed, when" } "." }
                form.plan method="post" action="/plan/list" autocomplete="off" {
                    label.whole { span { "A file" } input type="file" accept=".csv,text/csv" data-into="list"; }
                    label.whole { span { "The list" }
                        textarea #list name="list" rows="10" required spellcheck="false" { (form.get("list")) } }
                    (signature(signs))
                    button { "Make the tags" }
                }
            }
        }
    }
}

fn signature(signs: Option<&str>) -> Markup {
    html! {
        @match signs {
            Some(holder) => {
                label { span { "PIN of " (holder) small { " (empty: unsigned, and the hook is told to wait)" } }
                    input type="password" name="pin" inputmode="numeric" autocomplete="off"; }
            }
            None => p.note { "Tags made here are unsigned: this page has no planner's credential to sign with, or is open to a network. \
                Sign them in the terminal: slingseal tag write." },
        }
    }
}

/// Tags that were made.
pub(in crate::serve) fn made(tags: &[TagMade]) -> Markup {
    let query = tags.iter().map(|made| format!("tag={}", made.tag.digest)).collect::<Vec<_>>().join("&");
    html! {
        p.links { a.act href={ "/sheet.pdf?" (query) } { "Print " (tags.len()) @if tags.len() == 1 { " sheet" } @else { " sheets" } " (PDF)" } }
        ul.made { @for TagMade { code, tag } in tags { li {
            img.code src={ "/tag/" (tag.digest) ".svg" } alt={ "The tag of load " (tag.load) " as a code" };
            div {
                h2 { a href={ "/load/" (encoded(&tag.load)) } { (tag.load) } }
                p { (tag.description) ", " (tag.gross) ", " (tag.aircraft) " (" (tag.allowable) " allowed)" }
                p { "Signed by " (tag.signed_by()) }
                @if !tag.warnings.is_empty() { ul.warnings { @for warning in &tag.warnings { li { (warning) } } } }
                details { summary { "As text" } p.digest { (code.text) } }
            }
        } } }
    }
}
