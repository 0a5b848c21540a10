//! `authority`: init, issue, revoke, roster, trust.

use std::io::{BufRead, IsTerminal};
use std::path::Path;
use std::process::ExitCode;

use slingseal_app::{AppError, AuthorityView, Issue, Received};

use super::Setting;
use crate::cli::AuthorityVerb;
use crate::output::{bad_input, print_json, put_code, told};
use crate::platform::{Secret, ask};
use crate::{console, input, output};

pub(crate) fn run(setting: &Setting, verb: AuthorityVerb) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    match verb {
        AuthorityVerb::Init { name, out } => {
            let view = app.authority_init(&name, &ask(Secret::Passphrase, true)?)?;
            show(setting, &view, out.as_deref(), true)?;
        }
        AuthorityVerb::Issue { request, roles, expires, holder, validity, out } => {
            let issue =
                Issue { request: input::code(&request)?, roles, expires, holder, validity_hours: validity };
            let code = app.issue(&issue, &ask(Secret::Passphrase, false)?)?;
            if setting.json {
                print_json(&code);
            } else {
                told(&put_code(&code, out.as_deref(), "credential")?);
            }
        }
        AuthorityVerb::Revoke { who, days, out } => {
            let view = app.revoke(&who, days, &ask(Secret::Passphrase, false)?)?;
            show(setting, &view, out.as_deref(), false)?;
        }
        AuthorityVerb::Roster { days, out } => {
            let view = app.revoke(&[], days, &ask(Secret::Passphrase, false)?)?;
            show(setting, &view, out.as_deref(), false)?;
        }
        AuthorityVerb::Trust { card, fingerprint } => {
            let card = input::code(&card)?;
            let Received::Authority { name, fingerprint: shown, .. } = app.receive(&card)? else {
                return Err(bad_input("this is not an authority's card; ask the authority for its card"));
            };
            let said = match fingerprint {
                Some(said) => said,
                None => compare(&name, &shown)?,
            };
            let set_up = app.trust(&card, &said)?;
            if setting.json {
                print_json(&set_up);
            } else {
                println!("{name} is trusted here. Next: {}", set_up.next);
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

/// Has a person type what the authority says, so that nobody waves a card through unseen.
fn compare(name: &str, shown: &str) -> Result<String, AppError> {
    if !std::io::stdin().is_terminal() {
        return Err(bad_input(&format!(
            "the card of \"{name}\" has fingerprint {shown}; compare it by voice, then give it with --fingerprint"
        )));
    }
    println!("Ask \"{name}\" by voice for its fingerprint and type what you hear (the card says {shown}):");
    print!("> ");
    console::flush();
    let mut line = String::new();
    std::io::stdin().lock().read_line(&mut line).map_err(|error| bad_input(&error.to_string()))?;
    Ok(line)
}

fn show(setting: &Setting, view: &AuthorityView, out: Option<&Path>, card: bool) -> Result<(), AppError> {
    if setting.json {
        print_json(view);
        return Ok(());
    }
    println!("{}   fingerprint {}   roster {}", view.name, view.fingerprint, view.sequence);
    if card {
        told(&put_code(&view.card, out, "authority")?);
    }
    told(&put_code(&view.roster, out, &format!("roster-{}", output::file_name(&view.sequence.to_string())))?);
    Ok(())
}
