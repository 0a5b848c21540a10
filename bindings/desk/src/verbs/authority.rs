//! `authority`: init, issue, list, show, revoke, approve, withdraw, roster, trust.

use std::io::{BufRead, IsTerminal};
use std::path::Path;
use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::{
    App, AppError, ApprovalView, Approve, AuthorityView, Issue, IssuedListView, IssuedView, Received,
    TrustedView, built_in_procedures, check_procedure,
};

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
        AuthorityVerb::Init { name, approve, out } => {
            let approve = chosen_lists(setting, &app, &approve)?;
            let view = app.authority_init(&name, &ask(&app, Secret::Passphrase, true)?, &approve)?;
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
        eprintln!(
            "slingseal: no procedure is approved, so that every seal will say WAIT; approve those that count with authority approve"
        );
        return Ok(Vec::new());
    }
    println!("Only what is walked by an approved procedure can be GO. These come with the program:");
    for known in app.procedures()?.iter().filter(|known| all.contains(&known.id)) {
        println!("  {:<12} {}", known.id, known.title);
    }
    println!(
        "They are a start and no manual: approve one only where nothing better is at hand, and write your own."
    );
    println!("Which of them count? Type ids, all, or nothing:");
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
fn edition(one: &ApprovalView) -> String {
    let since = match &one.withdrawn {
        Some(since) => format!("WITHDRAWN since {}", since.dtg),
        None => format!("approved since {}", one.from.dtg),
    };
    let start = if one.built_in { "  (comes with the program: a start, no manual)" } else { "" };
    format!(
        "{}@{}   {since}   {}   {}{start}",
        one.id,
        one.version,
        one.thumbprint,
        one.title.as_deref().unwrap_or("its text is not here")
    )
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
    for one in &view.approved {
        println!("{}", edition(one));
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
    for one in &view.changed {
        println!("{}", edition(one));
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
