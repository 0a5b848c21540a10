//! A load to practise on: a home of its own with an authority of its own, so that nobody on a real zone trusts its seals.

use std::path::Path;

use slingseal_app::catalogue::lines as words;
use slingseal_app::{App, AppError, Approve, Issue, Language, Seconds, built_in_procedures};

use crate::output::bad_input;
use crate::platform;

/// The folder in the home.
pub(super) const FOLDER: &str = "practice";
/// What its authority goes by: stands in the facts of every seal.
const AUTHORITY: &str = "PRACTICE, not real";
/// Protects nothing: the authority is trusted by this practice home alone.
const PASSPHRASE: &str = "this authority is for practice";
const PLAN: &str = include_str!("../../demo/bag.toml");
/// Who rigged it, by the plan.
const RIGGER: &str = "Mason 5";

/// Opens the practice home of a home.
pub(super) fn open(home: &Path, language: Language) -> Result<App, AppError> {
    platform::open(&home.join(FOLDER), language)
}

/// Whether everything is there to walk.
pub(super) fn ready(app: &App) -> Result<bool, AppError> {
    let set_up = app.set_up()?;
    let holds = set_up.credential.is_some_and(|credential| !credential.expired);
    // A practice home of an older program approves no list yet.
    Ok(holds && !app.tags(1)?.is_empty() && !app.issued()?.approved.is_empty())
}

/// Nobody inspects a load that they built, not even in practice.
pub(super) fn check_call_sign(holder: &str) -> Result<(), AppError> {
    let plain = |text: &str| {
        text.chars().filter(char::is_ascii_alphanumeric).collect::<String>().to_ascii_lowercase()
    };
    if plain(holder) == plain(RIGGER) {
        return Err(bad_input(words::RiggerMayNotPractise { rigger: &RIGGER }));
    }
    Ok(())
}

/// Makes what is missing of it: authority, key, credential, tag.
pub(super) fn make(app: &App, holder: &str, pin: &str) -> Result<(), AppError> {
    check_call_sign(holder)?;
    let mut set_up = app.set_up()?;
    if set_up.authority.is_none() {
        app.authority_init(AUTHORITY, PASSPHRASE, &built_in_procedures())?;
    } else if app.issued()?.approved.is_empty() {
        let all: Vec<Approve> = built_in_procedures().into_iter().map(Approve::Id).collect();
        app.approve(&all, None, PASSPHRASE)?;
    }
    if set_up.request.is_none() {
        app.make_key(holder, pin)?;
        set_up = app.set_up()?;
    }
    if set_up.credential.is_none_or(|credential| credential.expired) {
        let issue = Issue {
            request: set_up.request.unwrap_or_default(),
            roles: vec![slingseal_app::Role::Inspector, slingseal_app::Role::Planner],
            expires: app.now().plus(Seconds::days(365)).rfc3339(),
            holder: None,
            validity_hours: None,
        };
        app.receive(&app.issue(&issue, PASSPHRASE)?.text)?;
    }
    // A roster holds a week; a practice home is taken up after longer.
    app.revoke(&[], Some(365), PASSPHRASE)?;
    if app.tags(1)?.is_empty() {
        let plan = PLAN.replace("description = \"", "description = \"PRACTICE: ");
        let none = |name: &str| Err(format!("practice: {name}"));
        app.write_tag(&plan, &none, Some(pin))?;
    }
    Ok(())
}
