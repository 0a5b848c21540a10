//! `key`: make this device's key and its request; show how far it is set up.

use std::process::ExitCode;

use slingseal_app::{AppError, SetUpView};

use super::Setting;
use crate::cli::KeyVerb;
use crate::output::{print_json, put_code, told};
use crate::platform::{Secret, ask};

pub(crate) fn run(setting: &Setting, verb: KeyVerb) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    match verb {
        KeyVerb::Request { holder, out } => {
            let code = app.make_key(&holder, &ask(Secret::Pin, true)?)?;
            if setting.json {
                print_json(&code);
            } else {
                told(&put_code(&code, out.as_deref(), "key-request")?);
            }
        }
        KeyVerb::Show => {
            let view = app.set_up()?;
            if setting.json {
                print_json(&view);
            } else {
                show(&view);
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

fn show(view: &SetUpView) {
    println!("Holder       {}", view.holder.as_deref().unwrap_or("-"));
    println!("Key          {}", view.fingerprint.as_deref().unwrap_or("-"));
    match &view.credential {
        Some(credential) => println!(
            "Credential   {} ({}) by {}, until {}{}",
            credential.holder,
            credential.roles.join(", "),
            credential.authority,
            credential.expires.dtg,
            if credential.expired { ", RUN OUT" } else { "" }
        ),
        None => println!("Credential   -"),
    }
    for authority in &view.authorities {
        let roster = match (authority.roster, &authority.roster_expires) {
            (Some(roster), Some(until)) => format!("roster {roster}, holds until {}", until.dtg),
            _ => "no roster".into(),
        };
        println!("Trusts       {} ({}), {roster}", authority.name, authority.fingerprint);
    }
    println!("Next         {}", view.next);
}
