//! `key`: make this device's key and its request; show how far it is set up.

use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::{AppError, SetUpView, same_name};

use super::Setting;
use crate::cli::KeyVerb;
use crate::output::{Answer, answer_code, bad_input, print_json};
use crate::platform::{Secret, ask};

/// A key request, as an answer.
#[derive(Serialize)]
struct Requested {
    holder: String,
    fingerprint: Option<String>,
}

pub(crate) fn run(setting: &Setting, verb: KeyVerb) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    match verb {
        KeyVerb::Request { holder, out } => {
            let view = app.set_up()?;
            let code = match (&view.holder, &view.request, holder) {
                // The key is there and good: the same request again, for whoever lost the picture.
                (Some(known), Some(_), holder) if view.revoked.is_none() => {
                    if holder.is_some_and(|holder| !same_name(&holder, known)) {
                        return Err(bad_input(format!(
                            "this device is {known}'s and has a key already; for somebody else begin another home"
                        )));
                    }
                    app.key_request()?
                }
                (known, _, holder) => {
                    let holder = holder.or_else(|| known.clone());
                    let holder = holder.ok_or_else(|| bad_input("say whose device it is: --holder NAME"))?;
                    app.make_key(&holder, &ask(&app, Secret::Pin, true)?)?
                }
            };
            let view = app.set_up()?;
            let holder = view.holder.clone().unwrap_or_default();
            let key = view.fingerprint.clone().unwrap_or_default();
            let said = format!(
                "key request of {holder}, fingerprint {key}; an authority answers it: authority issue"
            );
            let more = Requested { holder, fingerprint: view.fingerprint };
            answer_code(setting.json, &Answer { code: &code, more }, &said, out.as_deref(), "key-request")?;
        }
        KeyVerb::ChangePin => {
            let old = ask(&app, Secret::Pin, false)?;
            app.change_pin(&old, &ask(&app, Secret::NewPin, true)?)?;
            let view = app.set_up()?;
            if setting.json {
                print_json(&view);
            } else {
                println!(
                    "The key of {} is under the new PIN.",
                    view.holder.as_deref().unwrap_or("this device")
                );
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
    if let Some(revoked) = &view.revoked {
        println!("REVOKED      {revoked}");
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
