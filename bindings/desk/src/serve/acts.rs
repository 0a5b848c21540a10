//! Acts: void, approve, withdraw, issue, revoke, trust no longer. First who and what, checked by the facade without spending a try;
//! then, on a page that says what will be done, the PIN or the passphrase. Each is the same call as the verb of the terminal.

use slingseal_app::catalogue::page as words;
use slingseal_app::{
    ActFault, ActField, AppError, Approve, AuthorityView, Issue, IssuedView, Language, Role, roles_of,
    roles_said,
};

use super::act::{Act, Done};
use super::ask::{self, Form};
use super::desk::Desk;
use super::frame::shown;
use super::http::Request;
use super::page::{self, ActForm, Choices, Signing};
use super::reply::{Reply, status_of};
use crate::output::bad_input;

/// The form of an act, with what its address told.
pub(super) fn asked(desk: &Desk, name: &str, query: &Form) -> Result<Reply, AppError> {
    desk.not_in_the_clear()?;
    let act = Act::of(name).ok_or_else(none)?;
    form_of(desk, act, query, None)
}

fn none() -> AppError {
    AppError::NotFound { message: words::NoSuchPage.into() }
}

fn form_of(desk: &Desk, act: Act, form: &Form, fault: Option<&ActFault>) -> Result<Reply, AppError> {
    let language = desk.app.spoken();
    let form = ActForm { act, form, fault, choices: choices(desk, act)? };
    let reply = shown(desk, act.place(), &act.title(language), &page::act_form(&form, language))?;
    Ok(reply.status(fault.map_or(200, |fault| status_of(&fault.error))))
}

/// What there is to choose from.
fn choices(desk: &Desk, act: Act) -> Result<Choices, AppError> {
    let app = &desk.app;
    Ok(match act {
        Act::Void => Choices { named: app.void_causes() },
        Act::Approve => {
            let known = app.procedures()?.into_iter();
            let named =
                known.map(|one| (one.id.clone(), format!("{} {}: {}", one.id, one.version, one.title)));
            Choices { named: named.collect() }
        }
        Act::Withdraw => {
            let approved = app.issued()?.approved.into_iter().filter(|one| one.withdrawn.is_none());
            let named = approved.map(|one| {
                let id = format!("{}@{}", one.id, one.version);
                (id.clone(), format!("{id} {}", one.title.unwrap_or_default()))
            });
            Choices { named: named.collect() }
        }
        Act::Issue => {
            let named = Role::ALL.into_iter();
            let named = named.map(|role| (role.name().to_owned(), role.saying().say(app.spoken())));
            Choices { named: named.collect() }
        }
        Act::Revoke => {
            let issued = app.issued()?.issued.into_iter();
            let named = issued.map(|one| (one.id.clone(), credential(&one, app.spoken())));
            Choices { named: named.collect() }
        }
        Act::Distrust => {
            let trusted = app.set_up()?.authorities.into_iter();
            let named =
                trusted.map(|one| (one.fingerprint.clone(), format!("{}, {}", one.name, one.fingerprint)));
            Choices { named: named.collect() }
        }
    })
}

/// A credential in one line.
fn credential(one: &IssuedView, language: Language) -> String {
    format!("{}, {}, {}, {}", one.holder, roles_said(&one.roles).say(language), one.expires.dtg, one.id)
}

/// A step of an act: look at it again, or do it.
pub(super) fn answered(desk: &Desk, name: &str, request: &mut Request) -> Result<Reply, AppError> {
    desk.not_in_the_clear()?;
    let act = Act::of(name).ok_or_else(none)?;
    let form = ask::form(request)?;
    let lines = match before(desk, act, &form) {
        Ok(lines) => lines,
        Err(fault) => return form_of(desk, act, &form, Some(&fault)),
    };
    if form.get("step") != "do" {
        return signing(desk, act, &form, &lines, None);
    }
    let pin = desk.pin(&token_of(act), &form)?;
    match done(desk, act, &form, pin) {
        Ok(done) => Ok(Reply::see(&format!("/act/done/{}", desk.keep_done(done)))),
        // A wrong PIN is told at its field; nothing else of the form is asked anew.
        Err(error) => signing(desk, act, &form, &lines, Some(&error)),
    }
}

/// What a form of this act is a token for.
fn token_of(act: Act) -> String {
    format!("act {}", act.name())
}

/// The page that says what will be done and asks for the PIN.
fn signing(
    desk: &Desk,
    act: Act,
    form: &Form,
    lines: &[(String, String)],
    wrong: Option<&AppError>,
) -> Result<Reply, AppError> {
    let language = desk.app.spoken();
    let secret = match act {
        Act::Distrust => None,
        Act::Void => {
            let signs = desk.app.signs_as(None)?.map(|signs| signs.credential.holder).unwrap_or_default();
            Some(words::PinOf { holder: &signs }.say(language))
        }
        Act::Approve | Act::Withdraw | Act::Issue | Act::Revoke => {
            Some(words::PassphraseOf { holder: &desk.app.authority()?.name }.say(language))
        }
    };
    let token = desk.token(&token_of(act));
    let signing = Signing { act, form, lines, secret: secret.as_deref(), token: &token, wrong };
    let reply = shown(desk, act.place(), &act.title(language), &page::act_signing(&signing, language))?;
    Ok(reply.status(wrong.map_or(200, status_of)))
}

/// A whole number of a field; none where it is empty.
fn number(form: &Form, name: &str) -> Result<Option<u32>, ActFault> {
    let Some(text) = form.some(name) else { return Ok(None) };
    let wrong = || ActFault {
        field: Some(if name == "validity" { ActField::Validity } else { ActField::Days }),
        error: bad_input(words::NotAWholeNumber { value: &text }),
    };
    text.parse().map(Some).map_err(|_| wrong())
}

fn issue_of(form: &Form) -> Result<Issue, ActFault> {
    Ok(Issue {
        request: form.get("request").to_owned(),
        roles: roles_of(&form.all("roles").collect::<Vec<_>>().join(","))
            .map_err(|error| ActFault { field: Some(ActField::Roles), error })?,
        expires: form.get("expires").to_owned(),
        holder: form.some("holder"),
        validity_hours: number(form, "validity")?,
    })
}

/// The editions that are meant: a text that was given, else one that is here.
fn editions_of(form: &Form) -> Vec<Approve> {
    match form.all("text").next().filter(|text| !text.trim().is_empty()) {
        Some(text) => vec![Approve::Text(text.to_owned())],
        None => vec![Approve::Id(form.get("which").to_owned())],
    }
}

/// What will be done, a label and a value a line; or which field stands in its way.
fn before(desk: &Desk, act: Act, form: &Form) -> Result<Vec<(String, String)>, ActFault> {
    let (app, language) = (&desk.app, desk.app.spoken());
    let which = [form.get("which").to_owned()];
    let edition = |one: slingseal_app::ApprovalView| {
        let title = one.title.unwrap_or_default();
        (
            words::FieldEdition.say(language),
            format!("{}@{} {title} ({})", one.id, one.version, one.thumbprint),
        )
    };
    let mut lines = Vec::new();
    match act {
        Act::Void => {
            let (record, cause) = (form.get("record"), form.get("cause"));
            app.would_void(record, cause, form.some("note").as_deref())?;
            let line = app.record(record)?.line;
            lines.push((words::Load.say(language), line.load));
            lines.push((words::Sealed.say(language), line.issued.dtg));
            lines.push((words::Inspector.say(language), line.inspector));
            lines.push((words::FieldRecord.say(language), line.record));
            let said = app.void_causes().into_iter().find(|(word, _)| word == cause);
            lines.push((words::FieldCause.say(language), said.map(|(_, said)| said).unwrap_or_default()));
            lines.extend(form.some("note").map(|note| (words::FieldNote.say(language), note)));
        }
        Act::Approve => {
            number(form, "days")?;
            lines.extend(app.would_approve(&editions_of(form))?.into_iter().map(edition));
        }
        Act::Withdraw => {
            number(form, "days")?;
            lines.extend(app.would_withdraw(&which)?.into_iter().map(edition));
        }
        Act::Issue => {
            let asked = app.would_issue(&issue_of(form)?)?;
            lines.push((words::Name.say(language), asked.holder));
            lines.push((words::Key.say(language), asked.fingerprint));
            lines.push((words::Roles.say(language), roles_said(&asked.roles).say(language)));
            lines.push((words::Until.say(language), asked.expires.dtg));
            lines.push((words::FieldValidity.say(language), asked.validity_hours.to_string()));
        }
        Act::Revoke => {
            number(form, "days")?;
            let taken = app.would_revoke(&which)?;
            let line = |one: IssuedView| (words::Credential.say(language), credential(&one, language));
            lines.extend(taken.into_iter().map(line));
        }
        Act::Distrust => {
            let one = app.would_distrust(form.get("which"))?;
            lines.push((words::Authority.say(language), one.name));
            lines.push((words::Fingerprint.say(language), one.fingerprint));
        }
    }
    Ok(lines)
}

fn done(desk: &Desk, act: Act, form: &Form, pin: &str) -> Result<Done, AppError> {
    let (app, language) = (&desk.app, desk.app.spoken());
    let which = [form.get("which").to_owned()];
    let days = number(form, "days")?;
    let roster = |view: AuthorityView, next: &str| {
        let said = words::RosterWasSigned { number: view.sequence.to_string(), name: &view.name };
        Done { act, said: said.say(language), code: Some(view.roster), next: next.to_owned() }
    };
    Ok(match act {
        Act::Void => {
            let record = form.get("record");
            let code = app.void(
                record,
                form.get("cause").parse().map_err(bad_input)?,
                form.some("note").as_deref(),
                pin,
            )?;
            let load = app.record(record)?.line.load;
            let said = words::VoidWasMade { load: &load }.say(language);
            Done { act, said, code: Some(code), next: format!("/load/{}", page::encoded(&load)) }
        }
        Act::Approve => roster(app.approve(&editions_of(form), days, pin)?, "/procedures"),
        Act::Withdraw => roster(app.withdraw(&which, days, pin)?, "/procedures"),
        Act::Revoke => roster(app.revoke(&which, days, pin)?, "/people"),
        Act::Issue => {
            let code = app.issue(&issue_of(form)?, pin)?;
            let issued = app.issued_as(&code.text)?;
            let (holder, until) = (&issued.holder, &issued.expires.dtg);
            let said = words::WasIssued { holder, roles: roles_said(&issued.roles), until }.say(language);
            Done { act, said, code: Some(code), next: "/people".into() }
        }
        Act::Distrust => {
            let name = app.would_distrust(form.get("which")).map_err(AppError::from)?.name;
            let set_up = app.distrust(form.get("which"))?;
            let said = words::TrustedNoLonger { name: &name, next: &set_up.next }.say(language);
            Done { act, said, code: None, next: "/people".into() }
        }
    })
}

/// What was done, and the code that it made.
pub(super) fn result(desk: &Desk, number: &str) -> Result<Reply, AppError> {
    let language = desk.app.spoken();
    let done = desk.done(number).ok_or_else(none)?;
    shown(desk, done.act.place(), &done.act.title(language), &page::act_done(&done, number, language))
}

/// That code as a picture.
pub(super) fn code(desk: &Desk, number: &str) -> Result<Reply, AppError> {
    let done = desk.done(number).ok_or_else(none)?;
    Ok(Reply::svg(done.code.as_ref().ok_or_else(none)?.svg_labelled(desk.app.spoken())?))
}
