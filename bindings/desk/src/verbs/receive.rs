//! `receive`: take in a code of any kind.

use std::process::ExitCode;

use serde::Serialize;

use slingseal_app::{AppError, MovementView, Received, VerdictWord};

use super::{Setting, verify};
use crate::{input, output};

pub(crate) fn run(setting: &Setting, codes: &[String]) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    let mut texts = Vec::new();
    for argument in codes {
        texts.extend(input::codes(argument)?);
    }
    let (mut worst, mut failed) = (VerdictWord::Go, false);
    let mut answers = Vec::new();
    for received in app.receive_all(&texts) {
        match &received {
            Err(error) => {
                failed = true;
                output::complain(error, false, setting.language);
            }
            Ok(Received::Seal(verdict)) => {
                worst = verify::graver(worst, verdict.verdict);
                if !setting.json {
                    verify::show(verdict);
                }
            }
            Ok(other) if !setting.json => println!("{}", text(other)),
            Ok(_) => {}
        }
        answers.push(match received {
            Ok(received) => Answer::Taken(received),
            Err(error) => Answer::Refused(output::refusal(&error, setting.language)),
        });
    }
    // One document whatever was given: of one code what became of it, of several a list.
    match answers.as_slice() {
        _ if !setting.json => {}
        [only] => output::print_json(only),
        several => output::print_json(&several),
    }
    Ok(match worst {
        VerdictWord::Go if failed => ExitCode::FAILURE,
        worst => verify::exit(worst),
    })
}

/// What became of one code, as JSON.
#[derive(Serialize)]
#[serde(untagged)]
enum Answer {
    Taken(Received),
    Refused(serde_json::Value),
}

fn text(received: &Received) -> String {
    let newness = |new: bool| if new { "" } else { " (known already, or older than what is here)" };
    match received {
        Received::Authority { name, fingerprint, trusted: true, .. } => {
            format!("{name} ({fingerprint}) is trusted here already.")
        }
        Received::Authority { name, .. } => format!(
            "Card of {name}: NOT trusted yet. Have its fingerprint read to you from the authority's own device, then: slingseal authority trust CARD"
        ),
        Received::KeyRequest { holder, fingerprint, .. } => format!(
            "Key request of {holder}, fingerprint {fingerprint}. An authority answers it with: slingseal authority issue REQUEST --roles … --expires …"
        ),
        Received::Credential { credential, own, .. } => format!(
            "{} credential: {} ({}), until {}{}.",
            if *own { "This device's" } else { "Another's" },
            credential.holder,
            credential.roles.join(", "),
            credential.expires.dtg,
            match (credential.revoked, credential.expired) {
                (true, _) => ": REVOKED, nothing signed under it counts",
                (_, true) => ": RUN OUT",
                _ => "",
            }
        ),
        Received::Roster { authority, sequence, revoked, approved, new } => format!(
            "Roster {sequence} of {authority}, {revoked} revoked, {} approved{}.",
            output::counted(*approved, "procedure"),
            newness(*new)
        ),
        Received::Tag(tag) => {
            format!("Tag of load {}: {}, {} for {}.", tag.load, tag.description, tag.gross, tag.aircraft)
        }
        Received::Seal(verdict) => format!("Seal of {}: {}.", verdict.word, verdict.first),
        Received::Inspection { name, by, fit, fit_until, new, .. } => {
            let found = match (fit, fit_until) {
                (true, Some(until)) => format!("fit until {}", until.dtg),
                (true, None) => "fit".to_owned(),
                (false, _) => "not fit; a piece of gear is withdrawn".to_owned(),
            };
            format!("Inspection of {name} by {by}: {found}{}.", if *new { "" } else { " (known already)" })
        }
        Received::Examination { what, id, load, by, new } => {
            let id: String = id.chars().take(8).collect();
            format!("An {what} ({id}) of {by} on load {load}: training, no inspection{}.", newness(*new))
        }
        Received::Movement { report, new } => {
            let MovementView { load, what, at, origin, .. } = report.as_ref();
            format!("Load {load}: {what}, {} ({origin}){}.", at.dtg, newness(*new))
        }
        Received::Closing { statement, new } => {
            let (name, by, at) = (&statement.name, &statement.by, &statement.issued.dtg);
            format!("Closing of {name}, signed by {by} {at}{}.", newness(*new))
        }
        Received::Void { load, by, cause, new } => {
            format!("{by} voided the seal of load {load}: {cause}{}.", newness(*new))
        }
    }
}
