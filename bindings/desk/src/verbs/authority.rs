//! `authority`: init, issue, list, show, revoke, approve, withdraw, roster, trust.

use slingseal_app::catalogue::desk as words;
use std::io::{BufRead, IsTerminal};
use std::path::Path;
use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::{
    App, AppError, ApprovalView, Approve, AuthorityView, Issue, IssuedListView, IssuedView, Language,
    Received, TrustedView, built_in_procedures, check_procedure, roles_of, roles_said,
};

use super::setting::Setting;
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
        AuthorityVerb::Init { name, approve, out } => {
            let approve = chosen_lists(setting, &app, &approve)?;
            let view = app.authority_init(&name, &ask(&app, Secret::Passphrase, true)?, &approve)?;
            show(setting, &view, out.as_deref(), true)?;
        }
        AuthorityVerb::Issue { request, roles, expires, holder, validity, out } => {
            let (request, roles) = (input::code(&request)?, roles_of(&roles)?);
            let issue = Issue { request, roles, expires, holder, validity_hours: validity };
            let code = app.issue(&issue, &ask(&app, Secret::Passphrase, false)?)?;
            let issued = app.issued_as(&code.text)?;
            let said = words::IssuedWithKey { line: line(&issued, setting.language), key: &issued.key };
            let said = said.say(setting.language);
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
                list(&view, setting.language);
            }
        }
        AuthorityVerb::Show { out } => show(setting, &app.authority()?, out.as_deref(), true)?,
        AuthorityVerb::Revoke { who, days, out } => {
            let view = app.revoke(&who, days, &ask(&app, Secret::Passphrase, false)?)?;
            show(setting, &view, out.as_deref(), false)?;
        }
        AuthorityVerb::Approve { which, days, out } => {
            let which = which.iter().map(|one| file_or_id(one)).collect::<Result<Vec<_>, _>>()?;
            let view = app.approve(&which, days, &ask(&app, Secret::Passphrase, false)?)?;
            show(setting, &view, out.as_deref(), false)?;
        }
        AuthorityVerb::Withdraw { which, days, out } => {
            let view = app.withdraw(&which, days, &ask(&app, Secret::Passphrase, false)?)?;
            show(setting, &view, out.as_deref(), false)?;
        }
        AuthorityVerb::Roster { days, out } => {
            let view = app.revoke(&[], days, &ask(&app, Secret::Passphrase, false)?)?;
            show(setting, &view, out.as_deref(), false)?;
        }
        AuthorityVerb::Trust { card, fingerprint, beside } => {
            let card = input::code(&card)?;
            let Received::Authority { name, .. } = app.receive(&card)? else {
                return Err(bad_input(words::NotAnAuthorityCard));
            };
            let said = match fingerprint {
                Some(said) => said,
                None => {
                    app.let_go();
                    hear(&name, setting.language)?
                }
            };
            let like = app.like_named(&card)?;
            app.let_go();
            let beside = beside || (!like.is_empty() && both_are_real(&name, &like, setting.language)?);
            let set_up = if beside { app.trust_beside(&card, &said)? } else { app.trust(&card, &said)? };
            if setting.json {
                print_json(&set_up);
            } else {
                println!("{}", words::NowTrusted { name: &name, next: &set_up.next }.say(setting.language));
            }
        }
        AuthorityVerb::Distrust { who } => {
            let set_up = app.distrust(&who)?;
            if setting.json {
                print_json(&set_up);
            } else {
                println!("{}", words::TrustedNoLonger { next: &set_up.next }.say(setting.language));
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

/// Which of the procedures that come with the program count: as told, as typed, or none where nobody can answer.
fn chosen_lists(setting: &Setting, app: &App, told: &[String]) -> Result<Vec<String>, AppError> {
    let all = built_in_procedures();
    let mean = |words: Vec<String>| {
        if words.iter().any(|word| word.eq_ignore_ascii_case("all")) { all.clone() } else { words }
    };
    if !told.is_empty() {
        return Ok(mean(told.to_vec()));
    }
    if !std::io::stdin().is_terminal() || setting.json {
        eprintln!("slingseal: {}", words::NoProcedureApproved.say(setting.language));
        return Ok(Vec::new());
    }
    println!("{}", words::TheseComeWithProgram.say(setting.language));
    for known in app.procedures()?.iter().filter(|known| all.contains(&known.id)) {
        println!("  {:<12} {}", known.id, known.title);
    }
    println!("{}", words::AStartAndNoManual.say(setting.language));
    println!("{}", words::WhichOfThemCount.say(setting.language));
    Ok(mean(
        line_typed()?
            .split([' ', ',', '\n', '\r', '\t'])
            .filter(|word| !word.is_empty())
            .map(str::to_owned)
            .collect(),
    ))
}

/// A file's text where there is such a file, an id otherwise.
fn file_or_id(word: &str) -> Result<Approve, AppError> {
    let path = Path::new(word);
    if path.is_file() || word.ends_with(".toml") {
        let text = input::text(path)?;
        check_procedure(&text).map_err(|error| input::named(path, &error))?;
        return Ok(Approve::Text(text));
    }
    Ok(Approve::Id(word.to_owned()))
}

/// An edition in one line: `bag@1   approved since 250900ZNOV26   0123456789abcdef…   Bag sling`.
fn edition(one: &ApprovalView, language: Language) -> String {
    let since = match &one.withdrawn {
        Some(since) => words::EditionWithdrawnSince { since: &since.dtg }.say(language),
        None => words::EditionApprovedSince { since: &one.from.dtg }.say(language),
    };
    let start =
        if one.built_in { format!("  {}", words::ComesWithProgram.say(language)) } else { String::new() };
    format!(
        "{}@{}   {since}   {}   {}{start}",
        one.id,
        one.version,
        one.thumbprint,
        one.title.clone().unwrap_or_else(|| words::TextNotHere.say(language))
    )
}

/// Says that an authority of the name is trusted already, and asks whether there are two; never where nobody can answer.
fn both_are_real(name: &str, like: &[TrustedView], language: Language) -> Result<bool, AppError> {
    if !std::io::stdin().is_terminal() {
        return Ok(false);
    }
    for other in like {
        println!(
            "{}",
            words::LikeNamedTrusted { name: &other.name, fingerprint: &other.fingerprint }.say(language)
        );
    }
    println!("{}", words::ReallyAnother { name: &name }.say(language));
    Ok(line_typed()?.trim().eq_ignore_ascii_case("yes"))
}

/// Has a person type what the authority reads out. The card's own fingerprint is not shown: whoever copies it from this screen
/// has compared nothing.
fn hear(name: &str, language: Language) -> Result<String, AppError> {
    if !std::io::stdin().is_terminal() {
        return Err(bad_input(words::HaveFingerprintRead { name: &name }));
    }
    println!("{}", words::TypeWhatYouHear { name: &name }.say(language));
    line_typed()
}

pub(super) fn line_typed() -> Result<String, AppError> {
    print!("> ");
    console::flush();
    let mut line = String::new();
    std::io::stdin().lock().read_line(&mut line).map_err(|error| bad_input(output::plain(&error)))?;
    Ok(line)
}

fn list(view: &IssuedListView, language: Language) {
    println!(
        "{}",
        authority_line(&view.name, &view.fingerprint, view.sequence, &view.roster_expires.dtg, language)
    );
    for one in &view.issued {
        println!("{}", line(one, language));
    }
    if view.issued.is_empty() {
        println!("{}", words::NothingIssued.say(language));
    }
    for one in &view.approved {
        println!("{}", edition(one, language));
    }
    for warning in &view.warnings {
        eprintln!("slingseal: {warning}");
    }
}

/// An authority in one line, with the roster that stands.
fn authority_line(name: &str, fingerprint: &str, sequence: u32, until: &str, language: Language) -> String {
    words::AuthorityLine { name, fingerprint, roster: sequence.to_string(), until }.say(language)
}

/// A credential in one line: `Anvil 3   inspector   until 251200ZNOV27   good   0123456789abcdef`.
fn line(one: &IssuedView, language: Language) -> String {
    let said = words::CredentialLine {
        holder: &one.holder,
        roles: roles_said(&one.roles),
        until: &one.expires.dtg,
        state: one.state.saying(),
        id: &one.id,
    };
    said.say(language)
}

fn show(setting: &Setting, view: &AuthorityView, out: Option<&Path>, card: bool) -> Result<(), AppError> {
    let language = setting.language;
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
        println!("{}", words::RevokedLine { line: line(one, language) }.say(language));
    }
    for one in &view.changed {
        println!("{}", edition(one, language));
    }
    println!(
        "{}",
        authority_line(&view.name, &view.fingerprint, view.sequence, &view.roster_expires.dtg, language)
    );
    for (code, name) in codes.into_iter().flatten() {
        told(&put_code(code, out, name)?);
    }
    Ok(())
}
