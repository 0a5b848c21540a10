//! The forms of acts, what they are about to do, and what came of it.

use maud::{Markup, html};
use slingseal_app::catalogue::Saying;
use slingseal_app::catalogue::page as words;
use slingseal_app::{ActFault, ActField, AppError, Language, usual_terms};

use crate::serve::act::{Act, Done};
use crate::serve::ask::Form;

/// What a form's choices are: the value that is sent, and what a person reads.
#[derive(Default)]
pub(in crate::serve) struct Choices {
    pub(in crate::serve) named: Vec<(String, String)>,
}

/// A form of an act as it was entered, with what is wrong.
pub(in crate::serve) struct ActForm<'f> {
    pub(in crate::serve) act: Act,
    pub(in crate::serve) form: &'f Form,
    pub(in crate::serve) fault: Option<&'f ActFault>,
    pub(in crate::serve) choices: Choices,
}

/// An act that is looked at once more before it is signed.
pub(in crate::serve) struct Signing<'f> {
    pub(in crate::serve) act: Act,
    pub(in crate::serve) form: &'f Form,
    pub(in crate::serve) lines: &'f [(String, String)],
    /// Whose PIN or passphrase is asked; none where nothing is signed.
    pub(in crate::serve) secret: Option<&'f str>,
    pub(in crate::serve) token: &'f str,
    pub(in crate::serve) wrong: Option<&'f AppError>,
}

impl ActForm<'_> {
    fn is_wrong(&self, field: ActField) -> bool {
        self.fault.is_some_and(|fault| fault.field == Some(field))
    }

    /// A field of one line, or of several.
    fn field(&self, name: &'static str, label: Saying, kind: &Kind, language: Language) -> Markup {
        let wrong = self.is_wrong(kind.of);
        let mark = wrong.then_some("true");
        let told = wrong.then_some("act-fault");
        html! {
            label.wrong[wrong].whole[kind.lines > 1] {
                span { (label.say(language)) @if let Some(more) = &kind.more { small { " " (more.say(language)) } } }
                @if kind.lines > 1 {
                    textarea name=(name) id=(name) rows=(kind.lines) required[kind.needed] spellcheck="false" aria-invalid=[mark] aria-describedby=[told] {
                        (self.form.all(name).next().unwrap_or_default()) }
                } @else {
                    input name=(name) type=(kind.input) value=(self.form.get(name)) required[kind.needed] autocomplete="off" aria-invalid=[mark] aria-describedby=[told]
                        min=[(kind.input == "number").then_some("1")];
                }
            }
        }
    }

    /// One of what there is.
    fn choice(
        &self,
        name: &'static str,
        label: Saying,
        of: ActField,
        needed: bool,
        language: Language,
    ) -> Markup {
        let wrong = self.is_wrong(of);
        let (chosen, listed) =
            (self.form.get(name), |word: &str| self.choices.named.iter().any(|(known, _)| known == word));
        html! {
            label.wrong[wrong] { span { (label.say(language)) }
                select name=(name) required[needed] aria-invalid=[wrong.then_some("true")] aria-describedby=[wrong.then_some("act-fault")] {
                    option value="" { (words::Choose.say(language)) }
                    @for (value, said) in &self.choices.named { option value=(value) selected[value == chosen] { (said) } }
                    @if !chosen.is_empty() && !listed(chosen) { option value=(chosen) selected { (chosen) } }
                }
            }
        }
    }
}

struct Kind {
    of: ActField,
    input: &'static str,
    lines: u32,
    needed: bool,
    more: Option<Saying>,
}

impl Kind {
    fn line(of: ActField, needed: bool) -> Self {
        let more = (!needed).then(|| words::MayBeLeftOut.into());
        Self { of, input: "text", lines: 1, needed, more }
    }
}

/// Who and what.
pub(in crate::serve) fn act_form(form: &ActForm<'_>, language: Language) -> Markup {
    html! {
        @if let Some(fault) = form.fault {
            div.fault role="alert" id="act-fault" { p { b { (words::ActNotDone.say(language)) } }
                @for line in fault.error.say(language).lines() { p { (line) } } }
        }
        form.plan method="post" action={ "/act/" (form.act.name()) } autocomplete="off" {
            (fields(form, language))
            button { (words::ActGoOn.say(language)) }
        }
    }
}

fn fields(form: &ActForm<'_>, language: Language) -> Markup {
    let days = Kind {
        input: "number",
        more: Some(words::UsualDays { days: usual_terms().roster_days }.into()),
        ..Kind::line(ActField::Days, false)
    };
    match form.act {
        Act::Void => html! {
            (form.field("record", words::FieldRecord.into(), &Kind::line(ActField::Record, true), language))
            (form.choice("cause", words::FieldCause.into(), ActField::Cause, true, language))
            (form.field("note", words::FieldNote.into(), &Kind::line(ActField::Note, false), language))
        },
        Act::Approve => html! {
            (form.choice("which", words::Procedure.into(), ActField::Which, false, language))
            label.whole { span { (words::AFile.say(language)) } input type="file" accept=".toml" data-into="text"; }
            (form.field("text", words::FieldEditionText.into(), &Kind { lines: 6, ..Kind::line(ActField::Which, false) }, language))
            (form.field("days", words::FieldRosterDays.into(), &days, language))
        },
        Act::Withdraw => html! {
            (form.choice("which", words::FieldEdition.into(), ActField::Which, true, language))
            (form.field("days", words::FieldRosterDays.into(), &days, language))
        },
        Act::Revoke => html! {
            (form.choice("which", words::FieldWhose.into(), ActField::Which, true, language))
            (form.field("days", words::FieldRosterDays.into(), &days, language))
        },
        Act::Distrust => html! {
            (form.choice("which", words::Authority.into(), ActField::Which, true, language))
        },
        Act::Issue => {
            let wrong = form.is_wrong(ActField::Roles);
            let date = Kind { input: "date", ..Kind::line(ActField::Expires, true) };
            let hours = Kind {
                input: "number",
                more: Some(words::UsualHours { hours: usual_terms().seal_hours }.into()),
                ..Kind::line(ActField::Validity, false)
            };
            html! {
                (form.field("request", words::FieldRequest.into(), &Kind { lines: 4, ..Kind::line(ActField::Request, true) }, language))
                fieldset.whole.wrong[wrong] {
                    legend { (words::Roles.say(language)) }
                    @for (value, said) in &form.choices.named {
                        label.tick { input type="checkbox" name="roles" value=(value) checked[form.form.all("roles").any(|has| has == value)]
                            aria-invalid=[wrong.then_some("true")] aria-describedby=[wrong.then_some("act-fault")]; " " (said) }
                    }
                }
                (form.field("expires", words::FieldExpires.into(), &date, language))
                (form.field("holder", words::FieldHolder.into(), &Kind::line(ActField::Holder, false), language))
                (form.field("validity", words::FieldValidity.into(), &hours, language))
            }
        }
    }
}

/// What will be done, and the PIN or the passphrase for it.
pub(in crate::serve) fn act_signing(signing: &Signing<'_>, language: Language) -> Markup {
    let wrong = signing.wrong.is_some();
    html! {
        @if let Some(error) = signing.wrong {
            div.fault role="alert" id="act-fault" { p { b { (words::ActNotDone.say(language)) } }
                @for line in error.say(language).lines() { p { (line) } } }
        } @else if signing.secret.is_some() {
            p { (words::ActNothingDone.say(language)) }
        } @else {
            p { (words::ActNothingDoneUnsigned.say(language)) " " (words::DistrustNeedsNoPin.say(language)) }
        }
        dl.facts { @for (label, value) in signing.lines { div { dt { (label) } dd { (value) } } } }
        form.plan method="post" action={ "/act/" (signing.act.name()) } autocomplete="off" {
            (carried(signing.form))
            input type="hidden" name="step" value="do";
            input type="hidden" name="token" value=(signing.token);
            @if let Some(secret) = signing.secret {
                label.wrong[wrong] { span { (secret) }
                    input name="pin" type="password" autocomplete="off" required autofocus aria-invalid=[wrong.then_some("true")] aria-describedby=[wrong.then_some("act-fault")]; }
            }
            button { (signing.act.title(language)) }
        }
        p { a href="/" { (words::ActLeave.say(language)) } }
    }
}

/// What was entered, to be sent again with the PIN; the PIN itself is never sent back.
fn carried(form: &Form) -> Markup {
    let mine = ["step", "token", "pin"];
    html! {
        @for name in form.names().filter(|name| !mine.contains(name)) {
            @for value in form.all(name) { input type="hidden" name=(name) value=(value); }
        }
    }
}

/// What was done, and the code to hand on.
pub(in crate::serve) fn act_done(done: &Done, number: &str, language: Language) -> Markup {
    html! {
        p role="status" { b { (words::ActDone.say(language)) ": " } (done.said) }
        @if let Some(code) = &done.code {
            img.code src={ "/act/done/" (number) "/code.svg" } alt=(words::CodeAsPicture.say(language));
            details { summary { (words::AsText.say(language)) } p.digest { (code.text) } }
        }
        p { a.act href=(done.next) { (words::ActGoOn.say(language)) } }
    }
}
