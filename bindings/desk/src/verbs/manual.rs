//! `completions` and `manual`: what a shell and `man` want to know, made of the command line itself.

use std::path::Path;
use std::process::ExitCode;

use slingseal_app::AppError;

use crate::cli;
use crate::console::{self, Shown};
use crate::output::{bad_input, plain, told, write};

pub(crate) fn completions(shell: clap_complete::Shell) -> Result<ExitCode, AppError> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut cli::command(), "slingseal", &mut script);
    console::text(format_args!("{}", String::from_utf8_lossy(&script)));
    Ok(ExitCode::SUCCESS)
}

/// `slingseal.1`, and one page a verb: `slingseal-tag-write.1`.
pub(crate) fn manual(out: &Path) -> Result<ExitCode, AppError> {
    let command = cli::command();
    let mut written = Vec::new();
    pages(&command, "slingseal", out, &mut written)?;
    told(&written);
    Ok(ExitCode::SUCCESS)
}

fn pages(
    command: &clap::Command,
    name: &str,
    out: &Path,
    written: &mut Vec<std::path::PathBuf>,
) -> Result<(), AppError> {
    let mut page = Vec::new();
    clap_mangen::Man::new(command.clone().name(name.to_owned()).bin_name(name.replace('-', " ")))
        .render(&mut page)
        .map_err(|error| bad_input(format!("{}: {}", out.shown(), plain(&error))))?;
    let path = out.join(format!("{name}.1"));
    write(&path, &page)?;
    written.push(path);
    for verb in command.get_subcommands().filter(|verb| verb.get_name() != "help") {
        pages(verb, &format!("{name}-{}", verb.get_name()), out, written)?;
    }
    Ok(())
}
