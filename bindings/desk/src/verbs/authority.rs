//! `authority`: init, issue, list, show, revoke, roster, trust.

use std::io::{BufRead, IsTerminal};
use std::path::Path;
use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::{AppError, AuthorityView, Issue, IssuedListView, IssuedView, Received, TrustedView};

use super::Setting;
use crate::cli::AuthorityVerb;
use crate::output::{Answer, answer_code, bad_input, print_json, put_code, told};
use crate::platform::{Secret, ask};
use crate::{console, input, output};

/// A credential that was issued, as an answer.
#[derive(Serialize)]
struct Credentialed {
    issued: IssuedView,
}

pub(crate) fn run(setting: &Setting, verb: AuthorityVerb) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    match verb {
        AuthorityVerb::Init { name, out } => {
            let view = app.authority_init(&name, &ask(&app, Secret::Passphrase, true)?)?;
            show(setting, &view, out.as_deref(), true)?;
        }
        AuthorityVerb::Issue { request, roles, expires, holder, validity, out } => {
            let issue =
                Issue { request: input::code(&request)?, roles, expires, holder, validity_hours: validity };
            let code = app.issue(&issue, &ask(&app, Secret::Passphrase, false)?)?;
            let issued = app.issued_as(&code.text)?;
            let said = format!("issued: {}   key {}", line(&issued), issued.key);
            answer_code(
                setting.json,
                &Answer { code: &code, more: Credentialed { issued } },
                &said,
                out.as_deref(),
                "credential",
            )?;
        }
        AuthorityVerb::List => {
            let view = app.issued()?;
            if setting.json {
                print_json(&view);
            } else {
                list(&view);
            }
        }
        AuthorityVerb::Show { out } => show(setting, &app.authority()?, out.as_deref(), true)?,
        AuthorityVerb::Revoke { who, days, out } => {
            let view = app.revoke(&who, days, &ask(&app, Secret::Passphrase, false)?)?;
            show(setting, &view, out.as_deref(), false)?;
        }
        AuthorityVerb::Roster { days, out } => {
            let view = app.revoke(&[], days, &ask(&app, Secret::Passphrase, false)?)?;
            show(setting, &view, out.as_deref(), false)?;
        }
        AuthorityVerb::Trust { card, fingerprint, beside } => {
            let card = input::code(&card)?;
            let Received::Authority { name, .. } = app.receive(&card)? else {
                return Err(bad_input("this is not an authority's card; ask the authority for its card"));
            };
            let said = match fingerprint {
                Some(said) => said,
                None => {
                    app.let_go();
                    hear(&name)?
                }
            };
            let like = app.like_named(&card)?;
            app.let_go();
            let beside = beside || (!like.is_empty() && both_are_real(&name, &like)?);
            let set_up = if beside { app.trust_beside(&card, &said)? } else { app.trust(&card, &said)? };
            if setting.json {
                print_json(&set_up);
            } else {
                println!("{name} is trusted here. Next: {}", set_up.next);
            }
        }
        AuthorityVerb::Distrust { who } => {
            let set_up = app.distrust(&who)?;
            if setting.json {
                print_json(&set_up);
            } else {
                println!("Trusted no longer; nothing that it signed counts here. Next: {}", set_up.next);
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

/// Says that an authority of the name is trusted already, and asks whether there are two; never where nobody can answer.
fn both_are_real(name: &str, like: &[TrustedView]) -> Result<bool, AppError> {
    if !std::io::stdin().is_terminal() {
        return Ok(false);
    }
    for other in like {
        println!(
            "An authority that goes by \"{}\" is trusted here already: {}.",
            other.name, other.fingerprint
        );
    }
    println!("Is \"{name}\" on this card really another one? Type yes to trust both:");
    Ok(line_typed()?.trim().eq_ignore_ascii_case("yes"))
}

/// Has a person type what the authority reads out. The card's own fingerprint is not shown: whoever copies it from this screen
/// has compared nothing.
fn hear(name: &str) -> Result<String, AppError> {
    if !std::io::stdin().is_terminal() {
        return Err(bad_input(format!(
            "have the fingerprint of \"{name}\" read to you from the authority's own device (authority show), then give it with --fingerprint"
        )));
    }
    println!(
        "Have the fingerprint of \"{name}\" read to you from the authority's own device, and type what you hear:"
    );
    line_typed()
}

pub(super) fn line_typed() -> Result<String, AppError> {
    print!("> ");
    console::flush();
    let mut line = String::new();
    std::io::stdin().lock().read_line(&mut line).map_err(|error| bad_input(output::plain(&error)))?;
    Ok(line)
}

fn list(view: &IssuedListView) {
    println!(
        "{}   fingerprint {}   roster {}, holds until {}",
        view.name, view.fingerprint, view.sequence, view.roster_expires.dtg
    );
    for one in &view.issued {
        println!("{}", line(one));
    }
    if view.issued.is_empty() {
        println!("Nothing was issued here yet.");
    }
    for warning in &view.warnings {
        eprintln!("slingseal: {warning}");
    }
}

/// A credential in one line: `Anvil 3   inspector   until 251200ZNOV27   good   0123456789abcdef`.
fn line(one: &IssuedView) -> String {
    format!(
        "{}   {}   until {}   {}   {}",
        one.holder,
        one.roles.join(", "),
        one.expires.dtg,
        one.state.english(),
        one.id
    )
}

fn show(setting: &Setting, view: &AuthorityView, out: Option<&Path>, card: bool) -> Result<(), AppError> {
    let roster = format!("roster-{}", output::file_name(&view.sequence.to_string()));
    let codes = [card.then_some((&view.card, "authority")), Some((&view.roster, roster.as_str()))];
    if setting.json {
        for (code, name) in codes.into_iter().flatten().filter(|_| out.is_some()) {
            put_code(code, out, name)?;
        }
        print_json(view);
        return Ok(());
    }
    for one in &view.taken {
        println!("revoked: {}", line(one));
    }
    println!(
        "{}   fingerprint {}   roster {}, holds until {}",
        view.name, view.fingerprint, view.sequence, view.roster_expires.dtg
    );
    for (code, name) in codes.into_iter().flatten() {
        told(&put_code(code, out, name)?);
    }
    Ok(())
}
