//! `key`: make this device's key and its request; show how far it is set up.

use slingseal_app::catalogue::desk as words;
use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::catalogue::Saying;
use slingseal_app::{AppError, Language, SetUpView, roles_said, same_name};

use super::setting::Setting;
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
                        return Err(bad_input(words::DeviceHasKey { known: &known }));
                    }
                    app.key_request()?
                }
                (known, _, holder) => {
                    let holder = holder.or_else(|| known.clone());
                    let holder = holder.ok_or_else(|| bad_input(words::SayWhoseDevice))?;
                    app.make_key(&holder, &ask(&app, Secret::Pin, true)?)?
                }
            };
            let view = app.set_up()?;
            let holder = view.holder.clone().unwrap_or_default();
            let key = view.fingerprint.clone().unwrap_or_default();
            let said = words::KeyRequestMade { holder: &holder, key: &key }.say(setting.language);
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
                let said = match &view.holder {
                    Some(holder) => words::KeyUnderNewPin { holder }.saying(),
                    None => words::DeviceKeyUnderNewPin.into(),
                };
                println!("{}", said.say(setting.language));
            }
        }
        KeyVerb::Show => {
            let view = app.set_up()?;
            if setting.json {
                print_json(&view);
            } else {
                show(&view, setting.language);
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

fn show(view: &SetUpView, language: Language) {
    let row = |label: Saying, value: &str| println!("{:<12} {value}", label.say(language));
    row(words::RowHolder.into(), view.holder.as_deref().unwrap_or("-"));
    row(words::RowKey.into(), view.fingerprint.as_deref().unwrap_or("-"));
    let credential = view.credential.as_ref().map(|one| {
        let (holder, roles) = (&one.holder, roles_said(&one.roles));
        let (authority, until) = (&one.authority, &one.expires.dtg);
        if one.expired {
            words::HeldCredentialRunOut { holder, roles, authority, until }.say(language)
        } else {
            words::HeldCredential { holder, roles, authority, until }.say(language)
        }
    });
    row(words::RowCredential.into(), credential.as_deref().unwrap_or("-"));
    if let Some(revoked) = &view.revoked {
        row(words::RowRevoked.into(), revoked);
    }
    for one in &view.authorities {
        let (name, fingerprint) = (&one.name, &one.fingerprint);
        let said = match (one.roster, &one.roster_expires) {
            (Some(roster), Some(until)) => {
                let (roster, until) = (roster.to_string(), &until.dtg);
                words::TrustsWithRoster { name, fingerprint, roster, until }.say(language)
            }
            _ => words::TrustsWithoutRoster { name, fingerprint }.say(language),
        };
        row(words::RowTrusts.into(), &said);
    }
    row(words::RowNext.into(), &view.next);
}
