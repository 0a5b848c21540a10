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
mod tag;
mod verify;
mod void;

use slingseal_app::catalogue::desk as words;
use std::process::ExitCode;

use slingseal_app::{App, AppError, CheckPageRequest, Language, Role};

use crate::cli::{Cli, Verb};
use crate::platform;

/// What a verb needs of the command line.
pub(crate) struct Setting {
    home: Option<std::path::PathBuf>,
    pub(crate) json: bool,
    pub(crate) language: Language,
    acting: Option<String>,
}

impl Setting {
    /// The home that was named, or the usual one.
    pub(crate) fn home(&self) -> Result<std::path::PathBuf, AppError> {
        self.home.clone().map_or_else(platform::default_home, Ok)
    }

    /// Opens the home and says what it met.
    pub(crate) fn app(&self) -> Result<App, AppError> {
        let app = self.quiet_app()?;
        for notice in app.start()?.notices.into_iter().chain(app.running_out()?) {
            eprintln!("slingseal: {notice}");
        }
        Ok(app)
    }

    /// The same for the full screen, which tells by itself what the opening met.
    pub(crate) fn quiet_app(&self) -> Result<App, AppError> {
        let app = platform::open(&self.home()?, self.language)?;
        app.act_as(self.acting.as_deref())?;
        Ok(app)
    }
}

/// Says under whose credential a verb signs, where more than one would do.
pub(crate) fn tell_who_signs(app: &App, role: Option<Role>) -> Result<(), AppError> {
    if let Some(signs) = app.signs_as(role)?.filter(|signs| !signs.others.is_empty()) {
        let (holder, authority) = (&signs.credential.holder, &signs.credential.authority);
        let others = signs.others.join(&format!(" {} ", words::Or.say(app.spoken())));
        eprintln!("slingseal: {}", words::SignsAs { holder, authority, others }.say(app.spoken()));
    }
    Ok(())
}

/// A word as a shell takes it: in quotes where it holds anything but plain letters.
pub(crate) fn pasted(word: &str) -> String {
    let plain = |letter: char| letter.is_ascii_alphanumeric() || "-_./:=@%+,".contains(letter);
    if !word.is_empty() && word.chars().all(plain) {
        return word.to_owned();
    }
    if cfg!(windows) { format!("\"{word}\"") } else { format!("'{}'", word.replace('\'', "'\\''")) }
}

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
