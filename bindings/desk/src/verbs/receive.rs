//! `receive`: take in a code of any kind.

use std::process::ExitCode;

use serde::Serialize;

use slingseal_app::catalogue::desk as words;
use slingseal_app::{AppError, Language, MovementView, Received, Subject, VerdictWord};

use super::setting::Setting;
use super::verify;
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
                    verify::show(verdict, setting.language);
                }
            }
            Ok(other) if !setting.json => println!("{}", text(other, setting.language)),
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

fn text(received: &Received, language: Language) -> String {
    let newness = |new: bool| if new { String::new() } else { words::KnownAlreadyOrOlder.say(language) };
    match received {
        Received::Authority { name, fingerprint, trusted: true, .. } => {
            words::TrustedAlready { name: &name, fingerprint: &fingerprint }.say(language)
        }
        Received::Authority { name, .. } => words::CardNotTrustedYet { name: &name }.say(language),
        Received::KeyRequest { holder, fingerprint, .. } => {
            words::KeyRequestReceived { holder: &holder, fingerprint: &fingerprint }.say(language)
        }
        Received::Credential { credential, own, .. } => {
            let (holder, roles) = (&credential.holder, slingseal_app::roles_said(&credential.roles));
            let until = &credential.expires.dtg;
            let said = if *own {
                words::OwnCredentialUntil { holder, roles, until }.say(language)
            } else {
                words::OthersCredentialUntil { holder, roles, until }.say(language)
            };
            match (credential.revoked, credential.expired) {
                (true, _) => words::CredentialIsRevoked { credential: said }.say(language),
                (_, true) => words::CredentialHasRunOut { credential: said }.say(language),
                _ => said,
            }
        }
        Received::Roster { authority, sequence, revoked, approved, new } => words::RosterReceived {
            sequence: &sequence,
            authority: &authority,
            revoked,
            approved,
            newness: newness(*new),
        }
        .say(language),
        Received::Tag(tag) => words::TagReceived {
            load: &tag.load,
            description: &tag.description,
            gross: &tag.gross,
            aircraft: &tag.aircraft,
        }
        .say(language),
        Received::Seal(verdict) => {
            words::SealReceived { word: &verdict.word, first: &verdict.first }.say(language)
        }
        Received::Inspection { subject, name, by, fit, fit_until, new } => {
            let (name, newness) = (output::inspected(*subject, name), newness(*new));
            match (fit, fit_until) {
                (true, Some(until)) => {
                    words::PieceFitUntil { name, by, until: &until.dtg, newness }.say(language)
                }
                (true, None) => words::PieceFit { name, by, newness }.say(language),
                (false, _) if *subject == Subject::Piece => {
                    words::PieceNotFit { name, by, newness }.say(language)
                }
                (false, _) => words::InspectionNotFit { name, by, newness }.say(language),
            }
        }
        Received::Examination { what, id, load, by, new } => {
            let id: String = id.chars().take(8).collect();
            words::ExaminationReceived {
                what: what.saying(),
                id: &id,
                by: &by,
                load: &load,
                newness: newness(*new),
            }
            .say(language)
        }
        Received::Movement { report, new } => {
            let MovementView { load, what, at, origin, .. } = report.as_ref();
            words::MovementReceived { load, event: what, at: &at.dtg, origin, newness: newness(*new) }
                .say(language)
        }
        Received::Closing { statement, new } => {
            let (name, by, at) = (&statement.name, &statement.by, &statement.issued.dtg);
            words::ClosingReceived { name, by, at, newness: newness(*new) }.say(language)
        }
        Received::Void { load, by, cause, new } => {
            words::VoidReceived { by: &by, load: &load, cause: &cause, newness: newness(*new) }.say(language)
        }
    }
}
