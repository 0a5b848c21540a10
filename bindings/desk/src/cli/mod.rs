//! The command line, as clap reads it.

mod account;
mod authority;
mod bundle;
mod exam;
mod key;
mod procedure;
mod records;
mod report;
mod rigging;
mod spoken;
mod tag;
#[cfg(test)]
mod tests;
mod usage;

use std::path::PathBuf;

use clap::{Parser, Subcommand};
use slingseal_app::catalogue::{Saying, help as words};

use self::spoken::{t, two};

#[cfg(feature = "exchange")]
pub(crate) use self::account::Server;
pub(crate) use self::account::{AccountVerb, Close, Manifest};
pub(crate) use self::authority::AuthorityVerb;
pub(crate) use self::bundle::{BundleVerb, PartOfAccount};
pub(crate) use self::exam::ExamVerb;
pub(crate) use self::key::KeyVerb;
pub(crate) use self::procedure::{PackVerb, ProcedureVerb};
pub(crate) use self::records::{RecordsVerb, Table};
pub(crate) use self::report::Report;
pub(crate) use self::rigging::{Rigging, RiggingVerb};
pub(crate) use self::tag::TagVerb;
pub(crate) use self::usage::refused;

#[derive(Debug, Parser)]
#[command(name = "slingseal", version, max_term_width = 100)]
#[command(about = t(words::Program), long_about = two(words::Program, words::ProgramMore))]
#[command(after_help = exit_codes())]
pub(crate) struct Cli {
    #[arg(help = t(words::ArgAllHome))]
    #[arg(long, global = true, value_name = "DIR", env = "SLINGSEAL_HOME")]
    pub(crate) home: Option<PathBuf>,
    #[arg(help = t(words::ArgAllJson))]
    #[arg(long, global = true)]
    pub(crate) json: bool,
    #[arg(help = t(words::ArgAllActing))]
    #[arg(long = "as", global = true, value_name = "AUTHORITY")]
    pub(crate) acting: Option<String>,
    #[arg(help = t(words::ArgAllLanguage))]
    #[arg(long, global = true, value_name = "CODE", env = "SLINGSEAL_LANGUAGE")]
    pub(crate) language: Option<String>,
    #[command(subcommand)]
    pub(crate) verb: Verb,
}

fn exit_codes() -> String {
    let codes: [(u8, Saying); 6] = [
        (0, words::ExitDone.into()),
        (1, words::ExitRefused.into()),
        (2, words::ExitUsage.into()),
        (10, words::ExitWait.into()),
        (11, words::ExitNoGo.into()),
        (141, words::ExitReaderGone.into()),
    ];
    let mut text = format!("{}\n", t(words::ExitCodes));
    for (code, said) in codes {
        text.push_str(&t(words::ExitLine { code: format!("{code:>3}"), said }));
        text.push('\n');
    }
    let notes: [Saying; 4] = [
        words::ExitGravest.into(),
        words::HelpSecrets.into(),
        words::HelpCode.into(),
        words::HelpFile.into(),
    ];
    let [gravest, secrets, code, file] = notes.map(t);
    format!("{text}{gravest}\n\n{secrets}\n{code}\n{file}")
}

/// The language that the command line or the environment names, before either is read as a whole.
pub(crate) fn language_named(words: impl Iterator<Item = String>) -> Option<String> {
    let words: Vec<String> = words.take_while(|word| word != "--").collect();
    let behind = words.windows(2).find_map(|two| match two {
        [flag, code] if flag == "--language" => Some(code.clone()),
        _ => None,
    });
    let within = || words.iter().find_map(|word| word.strip_prefix("--language=").map(str::to_owned));
    behind.or_else(within).or_else(|| std::env::var("SLINGSEAL_LANGUAGE").ok())
}

/// The command line in the reader's language, with the heads that clap would write in English.
pub(crate) fn command() -> clap::Command {
    let mut command = headed(<Cli as clap::CommandFactory>::command()).disable_version_flag(true).arg(
        clap::Arg::new("version")
            .short('V')
            .long("version")
            .action(clap::ArgAction::Version)
            .help(t(words::HelpVersion))
            .help_heading(t(words::HeadOptions)),
    );
    command.build();
    usage::told(helped(command))
}

/// Behind the arguments of any verb's own.
const GLOBAL: usize = 1000;

fn headed(command: clap::Command) -> clap::Command {
    let usage = t(words::HeadUsage);
    let template =
        format!("{{before-help}}{{about-with-newline}}\n{usage} {{usage}}\n\n{{all-args}}{{after-help}}");
    command
        .help_template(template)
        .subcommand_help_heading(t(words::HeadVerbs))
        .subcommand_value_name(t(words::UsageVerb))
        .disable_help_flag(true)
        .arg(
            clap::Arg::new("help")
                .short('h')
                .long("help")
                .action(clap::ArgAction::Help)
                .display_order(GLOBAL)
                .help(t(words::HelpHelp)),
        )
        .mut_args(|argument| {
            let head = if argument.is_positional() { t(words::HeadArguments) } else { t(words::HeadOptions) };
            // A verb's own arguments go before those that every verb takes.
            let place = argument.is_global_set().then_some(GLOBAL);
            let argument = place.into_iter().fold(argument, clap::Arg::display_order);
            usage::noted(argument.help_heading(head))
        })
        .mut_subcommands(headed)
}

/// The verb `help`, which clap makes by itself.
fn helped(command: clap::Command) -> clap::Command {
    command.mut_subcommands(|verb| {
        let verb = if verb.get_name() == "help" { verb.about(t(words::VerbHelp)) } else { verb };
        helped(verb)
    })
}

#[derive(Debug, Subcommand)]
pub(crate) enum Verb {
    #[command(about = t(words::VerbDemo))]
    Demo {
        #[arg(help = t(words::ArgDemoOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbInspect), long_about = two(words::VerbInspect, words::MoreInspect))]
    #[command(after_long_help = t(words::InspectLines))]
    Inspect {
        #[arg(help = t(words::ArgInspectTag))]
        #[arg(value_name = "TAG")]
        tag: Option<String>,
        #[arg(help = t(words::ArgInspectOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
        #[arg(help = t(words::ArgInspectWalk))]
        #[arg(long, value_name = "ID", conflicts_with = "tag")]
        walk: Option<String>,
        #[arg(help = t(words::ArgInspectList))]
        #[arg(long, value_name = "PROCEDURE", requires = "of", conflicts_with_all = ["tag", "walk"])]
        list: Option<String>,
        #[arg(help = t(words::ArgInspectOf))]
        #[arg(long, value_name = "NAME", requires = "list")]
        of: Option<String>,
        #[arg(help = t(words::ArgInspectKept))]
        #[arg(long, conflicts_with_all = ["tag", "walk", "list", "of"])]
        kept: bool,
        #[arg(help = t(words::ArgInspectSign))]
        #[arg(long, value_name = "ID", requires = "kept")]
        sign: Option<String>,
    },
    #[command(about = t(words::VerbVerify))]
    Verify {
        #[arg(help = t(words::ArgVerifySeal))]
        #[arg(value_name = "SEAL")]
        seal: Option<String>,
        #[arg(help = t(words::ArgVerifyTag))]
        #[arg(long, value_name = "TAG")]
        tag: Option<String>,
    },
    #[command(about = t(words::VerbTag))]
    #[command(subcommand)]
    Tag(TagVerb),
    #[command(about = t(words::VerbRead))]
    Read {
        #[arg(help = t(words::ArgReadPictures))]
        #[arg(value_name = "PICTURE", required = true)]
        pictures: Vec<PathBuf>,
    },
    #[command(about = t(words::VerbRigging))]
    Rigging(Rigging),
    #[command(about = t(words::VerbProcedure))]
    #[command(subcommand)]
    Procedure(ProcedureVerb),
    #[command(about = t(words::VerbAuthority))]
    #[command(subcommand)]
    Authority(AuthorityVerb),
    #[command(about = t(words::VerbKey))]
    #[command(subcommand)]
    Key(KeyVerb),
    #[command(about = t(words::VerbReceive))]
    Receive {
        #[arg(help = t(words::ArgReceiveCodes))]
        #[arg(value_name = "CODE", required = true)]
        codes: Vec<String>,
    },
    #[command(about = t(words::VerbVoid))]
    Void {
        #[arg(help = t(words::ArgVoidSeal))]
        #[arg(value_name = "SEAL")]
        seal: String,
        #[arg(help = t(words::ArgVoidCause))]
        #[arg(long, value_name = "WORD")]
        cause: String,
        #[arg(help = t(words::ArgVoidNote))]
        #[arg(long, value_name = "TEXT")]
        note: Option<String>,
        #[arg(help = t(words::ArgVoidOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbReport), long_about = two(words::VerbReport, words::MoreReport))]
    Report(Report),
    #[command(about = t(words::VerbAccount))]
    #[command(subcommand)]
    Account(AccountVerb),
    #[command(about = t(words::VerbArrival))]
    Arrival {
        #[arg(help = t(words::ArgArrivalLoad))]
        #[arg(value_name = "TAG|LOAD")]
        load: String,
    },
    #[command(about = t(words::VerbCheckPage))]
    CheckPage {
        #[arg(help = t(words::ArgCheckPageOut))]
        #[arg(long, value_name = "FILE.html")]
        out: PathBuf,
        #[arg(help = t(words::ArgCheckPageAuthorities))]
        #[arg(long = "authority", value_name = "NAME")]
        authorities: Vec<String>,
        #[arg(help = t(words::ArgCheckPageHours))]
        #[arg(long, default_value_t = 24, value_name = "HOURS")]
        hours: u32,
        #[arg(help = t(words::ArgCheckPagePage))]
        #[arg(long, env = "SLINGSEAL_CHECK_PAGE", value_name = "FILE.html")]
        page: Option<PathBuf>,
    },
    #[command(about = t(words::VerbExam))]
    #[command(subcommand)]
    Exam(ExamVerb),
    #[command(about = t(words::VerbBundle))]
    #[command(subcommand)]
    Bundle(BundleVerb),
    #[command(about = t(words::VerbRecords))]
    #[command(subcommand)]
    Records(RecordsVerb),
    #[command(about = t(words::VerbBackup))]
    Backup {
        #[arg(help = t(words::ArgBackupOut))]
        #[arg(long, value_name = "FILE")]
        out: PathBuf,
    },
    #[command(about = t(words::VerbRestore))]
    Restore {
        #[arg(help = t(words::ArgRestoreFile))]
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
    #[command(about = t(words::VerbCompletions))]
    Completions {
        #[arg(help = t(words::ArgCompletionsShell))]
        #[arg(value_name = "SHELL")]
        shell: clap_complete::Shell,
    },
    #[command(about = t(words::VerbManual))]
    Manual {
        #[arg(help = t(words::ArgManualOut))]
        #[arg(long, value_name = "DIR")]
        out: PathBuf,
    },
    #[command(about = t(words::VerbServe))]
    Serve {
        #[arg(help = t(words::ArgServePort))]
        #[arg(long, default_value_t = 8731, value_name = "PORT")]
        port: u16,
        #[arg(help = t(words::ArgServeOpenToNetwork))]
        #[arg(long, value_name = "ADDRESS")]
        open_to_network: Option<std::net::IpAddr>,
        #[arg(help = t(words::ArgServeTls))]
        #[arg(long)]
        tls: bool,
        #[arg(help = t(words::ArgServePage))]
        #[arg(long, env = "SLINGSEAL_CHECK_PAGE", value_name = "FILE.html")]
        page: Option<PathBuf>,
    },
}
