//! `receive`: take in a code of any kind.

use std::process::ExitCode;

use slingseal_app::{AppError, Received};

use super::{Setting, verify};
use crate::{input, output};

pub(crate) fn run(setting: &Setting, codes: &[String]) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    for argument in codes {
        let received = app.receive(&input::code(argument)?)?;
        if setting.json {
            output::print_json(&received);
        } else {
            match &received {
                Received::Seal(verdict) => verify::show(verdict),
                other => println!("{}", text(other)),
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

fn text(received: &Received) -> String {
    let newness = |new: bool| if new { "" } else { " (known already, or older than what is here)" };
    match received {
        Received::Authority { name, fingerprint, trusted: true, .. } => {
            format!("{name} ({fingerprint}) is trusted here already.")
        }
        Received::Authority { name, fingerprint, .. } => format!(
            "Card of {name}, fingerprint {fingerprint}: NOT trusted yet. Compare by voice, then: slingseal authority trust CARD --fingerprint DIGITS"
        ),
        Received::KeyRequest { holder, fingerprint, .. } => format!(
            "Key request of {holder}, fingerprint {fingerprint}. An authority answers it with: slingseal authority issue REQUEST --roles … --expires …"
        ),
        Received::Credential { credential, own, .. } => format!(
            "{} credential: {} ({}), until {}.",
            if *own { "This device's" } else { "Another's" },
            credential.holder,
            credential.roles.join(", "),
            credential.expires.dtg
        ),
        Received::Roster { authority, sequence, revoked, new } => {
            format!("Roster {sequence} of {authority}, {revoked} revoked{}.", newness(*new))
        }
        Received::Tag(tag) => {
            format!("Tag of load {}: {}, {} for {}.", tag.load, tag.description, tag.gross, tag.aircraft)
        }
        Received::Seal(verdict) => format!("Seal of {}: {}.", verdict.word, verdict.first),
        Received::Examination { what, id, load, by, new } => {
            let id: String = id.chars().take(8).collect();
            format!("An {what} ({id}) of {by} on load {load}: training, no inspection{}.", newness(*new))
        }
        Received::Void { load, by, cause, new } => {
            format!("{by} voided the seal of load {load}: {cause}{}.", newness(*new))
        }
    }
}
