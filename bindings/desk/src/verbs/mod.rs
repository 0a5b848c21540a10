//! One file a verb.

pub(crate) mod account;
mod authority;
mod backup;
mod bundle;
mod check_page;
mod demo;
mod exam;
#[cfg(feature = "exchange")]
mod exchange;
mod inspect;
mod key;
pub(crate) mod manifest;
mod manual;
mod play;
mod procedure;
mod read;
mod receive;
mod records;
mod report;
mod rigging;
mod second_look;
mod serve;
mod setting;
mod tag;
mod verify;
mod void;

use std::process::ExitCode;

use slingseal_app::{AppError, CheckPageRequest};

use self::setting::Setting;
use crate::cli::{Cli, Verb};
use crate::platform;

/// Runs a verb.
pub(crate) fn run(cli: Cli) -> Result<ExitCode, AppError> {
    let setting = Setting {
        home: cli.home,
        json: cli.json,
        language: platform::language(cli.language.as_deref())?,
        acting: cli.acting,
    };
    match cli.verb {
        Verb::Demo { out } => demo::run(&setting, out),
        Verb::Inspect { kept: true, sign: Some(which), out, .. } => inspect::sign(&setting, &which, out),
        Verb::Inspect { kept: true, .. } => inspect::kept(&setting),
        Verb::Inspect { tag, out, walk, list, of, .. } => {
            let list = list.as_deref().zip(of.as_deref());
            inspect::run(&setting, tag.as_deref(), out, walk.as_deref(), list)
        }
        Verb::Verify { seal, tag } => verify::run(&setting, seal.as_deref(), tag.as_deref()),
        Verb::Tag(verb) => tag::run(&setting, verb),
        Verb::Read { pictures } => read::run(&setting, &pictures),
        Verb::Rigging(rigging) => rigging::run(&setting, rigging),
        Verb::Procedure(verb) => procedure::run(&setting, verb),
        Verb::Authority(verb) => authority::run(&setting, verb),
        Verb::Key(verb) => key::run(&setting, verb),
        Verb::Receive { codes } => receive::run(&setting, &codes),
        Verb::Void { seal, cause, note, out } => {
            void::run(&setting, &seal, &cause, note.as_deref(), out.as_deref())
        }
        Verb::Account(verb) => account::run(&setting, verb),
        Verb::Report(report) => report::run(&setting, report),
        Verb::Arrival { load } => report::arrival(&setting, &load),
        Verb::Exam(verb) => exam::run(&setting, verb),
        Verb::Bundle(verb) => bundle::run(&setting, verb),
        Verb::Records(verb) => records::run(&setting, verb),
        Verb::Backup { out } => backup::backup(&setting, &out),
        Verb::Restore { file } => backup::restore(&setting, &file),
        Verb::CheckPage { out, authorities, hours, page } => {
            let request = CheckPageRequest { authorities, hours: Some(hours) };
            check_page::run(&setting, &request, &out, page.as_deref())
        }
        Verb::Completions { shell } => manual::completions(shell),
        Verb::Manual { out } => manual::manual(&out),
        Verb::Serve { port, open_to_network, tls, page } => {
            serve::run(&setting, port, open_to_network, tls, page)
        }
    }
}
