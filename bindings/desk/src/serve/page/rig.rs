//! What is entered in the rigging editor, and a field of it with its fault.

use maud::{Markup, html};
use slingseal_app::catalogue::rigging as words;
use slingseal_app::{FieldFault, Language, RiggingFields, RiggingSheet};

/// What the editor shows.
pub(in crate::serve) struct Rig {
    /// What was entered.
    pub(in crate::serve) fields: RiggingFields,
    /// How it hangs, or what is wrong.
    pub(in crate::serve) sheet: Result<RiggingSheet, Vec<FieldFault>>,
    /// What was said to the last thing asked, besides.
    pub(in crate::serve) note: Option<String>,
}

impl Rig {
    pub(super) fn get(&self, field: &str) -> &str {
        self.fields.get(field).map(String::as_str).unwrap_or_default()
    }

    fn fault(&self, field: &str) -> Option<usize> {
        self.sheet.as_ref().err()?.iter().position(|fault| fault.field == field)
    }
}

pub(super) fn field(rig: &Rig, name: &str, label: &str, example: &str) -> Markup {
    let wrong = rig.fault(name);
    html! {
        label.wrong[wrong.is_some()] { span { (label) }
            input name=(name) value=(rig.get(name)) placeholder=(example) spellcheck="false"
                aria-invalid=[wrong.map(|_| "true")] aria-describedby=[wrong.map(|at| format!("rig-fault-{at}"))]; }
    }
}

pub(super) fn place(rig: &Rig, name: &str, language: Language) -> Markup {
    let axes = [words::AxisX.say(language), words::AxisY.say(language), words::AxisZ.say(language)];
    html! { @for (axis, label) in ["x", "y", "z"].iter().zip(axes) { (field(rig, &format!("{name}.{axis}"), &label, "0 in")) } }
}

pub(super) fn lines(rig: &Rig, name: &str, label: &str) -> Markup {
    let wrong = rig.fault(name);
    html! {
        label.whole.wrong[wrong.is_some()] { span { (label) }
            textarea name=(name) rows="2" spellcheck="false" aria-invalid=[wrong.map(|_| "true")] { (rig.get(name)) } }
    }
}
