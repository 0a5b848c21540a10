//! `account push`, `pull`, `follow`: the operation's server as the account's common place.

use std::process::ExitCode;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use serde_json::json;
use slingseal_app::catalogue::exchange as words;
use slingseal_app::{App, AppError, Language};
use slingseal_exchange::{Address, Exchange, Followed, Pulled, Pushed};

use super::setting::Setting;
use crate::cli::Server;
use crate::output::{plain, print_json};
use crate::{console, ending};

/// The password of the login, where the address has none: a command line can be read by others.
const PASSWORD: &str = "SLINGSEAL_SERVER_PASSWORD";
/// How often a stop and other programs of this home are looked for while nothing is to be done.
const TURN: Duration = Duration::from_millis(100);

fn address(server: &Server) -> Result<Address, AppError> {
    let password = std::env::var(PASSWORD).ok();
    Ok(Address::new(&server.url, password.as_deref(), server.ca.as_deref())?)
}

pub(crate) fn push(setting: &Setting, server: &Server) -> Result<ExitCode, AppError> {
    let address = address(server)?;
    let app = setting.app()?;
    let mut exchange = Exchange::connect(&address)?;
    let pushed = exchange.push(&app, server.photos, &mut |count| going_on(count, setting.language))?;
    going_on_ends();
    match setting.json {
        true => print_json(&json!({ "pushed": json_pushed(&pushed) })),
        false => tell_pushed(&pushed, setting.language),
    }
    Ok(ExitCode::SUCCESS)
}

pub(crate) fn pull(setting: &Setting, server: &Server, again: bool) -> Result<ExitCode, AppError> {
    let address = address(server)?;
    let app = setting.app()?;
    let mut exchange = Exchange::connect(&address)?;
    let pulled = exchange.pull(&app, again, &mut |count| going_on(count, setting.language))?;
    going_on_ends();
    match setting.json {
        true => print_json(&json!({ "pulled": json_pulled(&pulled) })),
        false => tell_pulled(&pulled, setting.language),
    }
    Ok(ExitCode::SUCCESS)
}

pub(crate) fn follow(setting: &Setting, server: &Server, every: u64) -> Result<ExitCode, AppError> {
    let (address, language) = (address(server)?, setting.language);
    let app = setting.app()?;
    let ended = ending::asked().map_err(|error| AppError::Internal { message: plain(&error) })?;
    eprintln!("slingseal: {}", words::ExchangeFollowing.say(language));
    let mut wait = |time: Duration| wait(&app, time, &ended);
    let mut told = |followed: &Followed| tell(followed, setting.json, language);
    slingseal_exchange::follow(
        &address,
        &app,
        server.photos,
        Duration::from_secs(every),
        &mut wait,
        &mut told,
    )?;
    Ok(ExitCode::SUCCESS)
}

/// Waits, and lets other programs of this home have their turns; `false` where it is to end.
fn wait(app: &App, time: Duration, ended: &AtomicBool) -> bool {
    let turns = time.as_millis() / TURN.as_millis();
    for _ in 0..turns.max(1) {
        if ended.load(Ordering::Relaxed) {
            return false;
        }
        app.give_turn();
        std::thread::sleep(TURN);
    }
    true
}

fn tell(followed: &Followed, json: bool, language: Language) {
    match followed {
        Followed::Moved(pushed, pulled) if json => {
            // One line a round: whoever reads along takes them one by one.
            console::json(
                &json!({ "pushed": json_pushed(pushed), "pulled": json_pulled(pulled) }).to_string(),
            );
        }
        Followed::Moved(pushed, pulled) => {
            if *pushed != Pushed::default() {
                tell_pushed(pushed, language);
            }
            if pulled.looked_at > 0 {
                tell_pulled(pulled, language);
            }
        }
        Followed::Away(error) => {
            let why = error.saying();
            eprintln!("slingseal: {}", words::ExchangeAway { why }.say(language));
        }
        Followed::Back => eprintln!("slingseal: {}", words::ExchangeBack.say(language)),
    }
}

fn tell_pushed(pushed: &Pushed, language: Language) {
    println!("{}", words::ExchangePushed { words: pushed.words, there: pushed.there }.say(language));
    if pushed.left_out > 0 {
        eprintln!("slingseal: {}", words::ExchangeLeftOut { count: pushed.left_out }.say(language));
    }
    if pushed.waiting > 0 {
        eprintln!("slingseal: {}", words::ExchangeWaiting { count: pushed.waiting }.say(language));
    }
}

fn tell_pulled(pulled: &Pulled, language: Language) {
    let (new, seen) = (pulled.new_words(), pulled.looked_at);
    println!("{}", words::ExchangePulled { new, seen }.say(language));
    for line in &pulled.report.set_aside {
        eprintln!("slingseal: {}: {}", line.kind, line.reason);
    }
    for warning in &pulled.report.warnings {
        eprintln!("slingseal: {}", warning);
    }
    let more = [
        (pulled.set_aside, words::ExchangeSetAside { count: pulled.set_aside }.say(language)),
        (pulled.spoiled, words::ExchangeSpoiled { count: pulled.spoiled }.say(language)),
        (pulled.newer, words::ExchangeNewer { count: pulled.newer }.say(language)),
        (pulled.gone, words::ExchangeGone { count: pulled.gone }.say(language)),
        (pulled.anew, words::ExchangeAnew { count: pulled.anew }.say(language)),
    ];
    for (_, line) in more.iter().filter(|(count, _)| *count > 0) {
        eprintln!("slingseal: {line}");
    }
}

fn json_pushed(pushed: &Pushed) -> serde_json::Value {
    json!({
        "words": pushed.words, "there": pushed.there, "left_out": pushed.left_out, "waiting": pushed.waiting,
    })
}

fn json_pulled(pulled: &Pulled) -> serde_json::Value {
    json!({
        "new": pulled.new_words(), "looked_at": pulled.looked_at, "set_aside": pulled.set_aside,
        "spoiled": pulled.spoiled, "newer": pulled.newer, "gone": pulled.gone, "anew": pulled.anew,
        "report": pulled.report,
    })
}

/// A long way shows how far it is, to a person.
fn going_on(count: u64, language: Language) {
    if console::is_watched() {
        eprint!("{}", words::ExchangeProgress { count }.say(language));
    }
}

fn going_on_ends() {
    if console::is_watched() {
        eprintln!("");
    }
}
