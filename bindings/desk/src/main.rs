//! The program `slingseal`: terminal inspection, desk commands, printing, the leader's page.
//!
//! It speaks to the facade of core alone. Exit codes: 0 done or GO, 10 HOLD, 11 NO-GO, 1 refused or bad input, 2 usage.

mod cli;
mod input;
mod output;
mod platform;
mod print;
mod serve;
mod terminal;
mod verbs;

use std::process::ExitCode;

use clap::Parser;

fn main() -> ExitCode {
    let cli = cli::Cli::parse();
    let json = cli.json;
    match verbs::run(cli) {
        Ok(code) => code,
        Err(error) => {
            output::complain(&error, json);
            ExitCode::FAILURE
        }
    }
}
