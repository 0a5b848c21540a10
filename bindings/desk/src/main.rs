//! The program `slingseal`: terminal inspection, desk commands, printing, the leader's page.
//!
//! It speaks to the facade of core alone. Exit codes: 0 done or GO, 10 WAIT, 11 NO-GO, 1 refused or bad input, 2 usage.

#[macro_use]
mod console;

mod check_page;
mod cli;
mod ending;
mod fault;
mod files;
mod input;
mod output;
mod platform;
mod serve;
mod terminal;
mod verbs;
#[cfg(windows)]
mod windows;

use std::process::ExitCode;

use clap::FromArgMatches;

/// What a shell sees of a program that its pipe's reader ended: 128 and the signal's number.
#[cfg(unix)]
const READER_GONE: i32 = 128 + signal_hook::consts::SIGPIPE;

fn main() -> ExitCode {
    // Who reads only the first lines has read enough: that is no fault of ours, and nothing to panic about. What was
    // answered is on disk by then. Sockets of the leader's page raise no such signal.
    #[cfg(unix)]
    let _ = signal_hook::flag::register_conditional_shutdown(
        signal_hook::consts::SIGPIPE,
        READER_GONE,
        std::sync::Arc::new(std::sync::atomic::AtomicBool::new(true)),
    );
    // A console of Windows paints by the same signs as others once it is told to; one that does not is shown none.
    #[cfg(windows)]
    let _ = ratatui::crossterm::ansi_support::supports_ansi();
    // The help is told in the reader's language, too; an unknown language is told in the system's own.
    let named = cli::language_named(std::env::args_os().map(|word| word.to_string_lossy().into_owned()));
    let language =
        platform::language(named.as_deref()).or_else(|_| platform::language(None)).unwrap_or_default();
    console::speak(language);
    let read = cli::command().try_get_matches().and_then(|matches| cli::Cli::from_arg_matches(&matches));
    let cli = match read {
        Ok(cli) => cli,
        Err(error) => return ExitCode::from(cli::refused(&error)),
    };
    let json = cli.json;
    let code = verbs::run(cli).unwrap_or_else(|error| {
        output::complain(&error, json, language);
        ExitCode::FAILURE
    });
    console::flush();
    code
}
