//! The command line, as clap reads it.

use std::path::PathBuf;

use clap::{Parser, Subcommand};
use slingseal_app::catalogue::{Saying, help as words};

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

/// A word of the help in the reader's language, which is known before the command line is read.
fn t(said: impl Into<Saying>) -> String {
    said.into().say(crate::console::spoken())
}

/// The same, and more of it behind.
fn two(said: impl Into<Saying>, more: impl Into<Saying>) -> String {
    format!("{}\n\n{}", t(said), t(more))
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
    helped(command)
}

fn headed(command: clap::Command) -> clap::Command {
    let usage = t(words::HeadUsage);
    let template =
        format!("{{before-help}}{{about-with-newline}}\n{usage} {{usage}}\n\n{{all-args}}{{after-help}}");
    command
        .help_template(template)
        .subcommand_help_heading(t(words::HeadVerbs))
        .disable_help_flag(true)
        .arg(
            clap::Arg::new("help")
                .short('h')
                .long("help")
                .action(clap::ArgAction::Help)
                .help(t(words::HelpHelp)),
        )
        .mut_args(|argument| {
            let head = if argument.is_positional() { t(words::HeadArguments) } else { t(words::HeadOptions) };
            argument.help_heading(head)
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
    #[command(after_long_help = crate::terminal::HELP)]
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

#[derive(Debug, Subcommand)]
pub(crate) enum AccountVerb {
    #[command(about = t(words::VerbAccountClose))]
    Close(Close),
    #[command(about = t(words::VerbAccountManifest))]
    Manifest(Manifest),
    #[command(about = t(words::VerbAccountEquipment))]
    Equipment {
        #[arg(help = t(words::ArgAccountEquipmentOpen))]
        #[arg(long)]
        open: bool,
        #[arg(help = t(words::ArgAccountEquipmentCsv))]
        #[arg(long, value_name = "FILE")]
        csv: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAccountPush))]
    #[cfg(feature = "exchange")]
    Push(Server),
    #[command(about = t(words::VerbAccountPull))]
    #[cfg(feature = "exchange")]
    Pull {
        #[command(flatten)]
        server: Server,
        #[arg(help = t(words::ArgAccountPullAgain))]
        #[arg(long)]
        again: bool,
    },
    #[command(about = t(words::VerbAccountFollow))]
    #[cfg(feature = "exchange")]
    Follow {
        #[command(flatten)]
        server: Server,
        #[arg(help = t(words::ArgAccountFollowEvery))]
        #[arg(long, default_value_t = 10, value_name = "SECONDS", value_parser = clap::value_parser!(u64).range(1..=3600))]
        every: u64,
    },
    #[command(about = t(words::VerbAccountServerSql))]
    #[cfg(feature = "exchange")]
    ServerSql,
    #[command(about = t(words::VerbAccountWithdraw))]
    Withdraw {
        #[arg(help = t(words::ArgAccountWithdrawSerial))]
        #[arg(value_name = "SERIAL")]
        serial: String,
        #[arg(help = t(words::ArgAccountWithdrawWhy))]
        #[arg(long, value_name = "TEXT")]
        why: String,
        #[arg(help = t(words::ArgAccountWithdrawOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAccountSecondLook))]
    SecondLook {
        #[arg(help = t(words::ArgAccountSecondLookDays))]
        #[arg(long, value_name = "N")]
        days: Option<u32>,
        #[arg(help = t(words::ArgAccountSecondLookDraw))]
        #[arg(long, value_name = "N", conflicts_with = "days", value_parser = clap::value_parser!(u32).range(1..=100))]
        draw: Option<u32>,
    },
    #[command(about = t(words::VerbAccountLeastSeconds))]
    LeastSeconds {
        #[arg(help = t(words::ArgAccountLeastSecondsSeconds))]
        #[arg(value_name = "SECONDS")]
        seconds: Option<u32>,
    },
}

/// The operation's server.
#[cfg(feature = "exchange")]
#[derive(Clone, clap::Args)]
pub(crate) struct Server {
    #[arg(help = t(words::ArgServerUrl))]
    #[arg(value_name = "URL", env = "SLINGSEAL_SERVER", hide_env_values = true)]
    pub(crate) url: String,
    #[arg(help = t(words::ArgServerCa))]
    #[arg(long, value_name = "FILE.pem", env = "SLINGSEAL_SERVER_CA")]
    pub(crate) ca: Option<PathBuf>,
    #[arg(help = t(words::ArgServerPhotos))]
    #[arg(long)]
    pub(crate) photos: bool,
}

/// An address may hold a password.
#[cfg(feature = "exchange")]
impl std::fmt::Debug for Server {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Server")
    }
}

#[derive(Debug, clap::Args)]
pub(crate) struct Close {
    #[arg(help = t(words::ArgCloseLoads))]
    #[arg(value_name = "LOAD")]
    pub(crate) loads: Vec<String>,
    #[arg(help = t(words::ArgCloseDay))]
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub(crate) day: Option<String>,
    #[arg(help = t(words::ArgCloseName))]
    #[arg(long, value_name = "TEXT")]
    pub(crate) name: Option<String>,
    #[arg(help = t(words::ArgCloseExplain))]
    #[arg(long, value_name = "POINT=NOTE")]
    pub(crate) explain: Vec<String>,
    #[arg(help = t(words::ArgCloseSign))]
    #[arg(long)]
    pub(crate) sign: bool,
    #[arg(help = t(words::ArgCloseOut))]
    #[arg(long, value_name = "DIR", requires = "sign")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct Manifest {
    #[arg(help = t(words::ArgAccountManifestDay))]
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub(crate) day: Option<String>,
    #[arg(help = t(words::ArgAccountManifestPut))]
    #[arg(long, value_name = "LOAD=PLACE", conflicts_with = "order")]
    pub(crate) put: Vec<String>,
    #[arg(help = t(words::ArgAccountManifestOrder))]
    #[arg(long, value_name = "FILE.csv", conflicts_with = "as_planned")]
    pub(crate) order: Option<PathBuf>,
    #[arg(help = t(words::ArgAccountManifestAsPlanned))]
    #[arg(long, conflicts_with = "put")]
    pub(crate) as_planned: bool,
    #[arg(help = t(words::ArgAccountManifestPdf))]
    #[arg(long, value_name = "FILE.pdf")]
    pub(crate) pdf: Option<PathBuf>,
    #[arg(help = t(words::ArgAccountManifestLetter))]
    #[arg(long, requires = "pdf")]
    pub(crate) letter: bool,
    #[arg(help = t(words::ArgAccountManifestCsv))]
    #[arg(long, value_name = "FILE.csv")]
    pub(crate) csv: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct Report {
    #[arg(help = t(words::ArgReportEvent))]
    #[arg(value_name = "EVENT")]
    pub(crate) event: String,
    #[arg(help = t(words::ArgReportLoad))]
    #[arg(value_name = "LOAD|CODE", required = true)]
    pub(crate) load: Vec<String>,
    #[arg(help = t(words::ArgReportCause))]
    #[arg(long, value_name = "WORD")]
    pub(crate) cause: Option<String>,
    #[arg(help = t(words::ArgReportAt))]
    #[arg(long, value_name = "TIME")]
    pub(crate) at: Option<String>,
    #[arg(help = t(words::ArgReportAircraft))]
    #[arg(long, value_name = "TEXT")]
    pub(crate) aircraft: Option<String>,
    #[arg(help = t(words::ArgReportPlace))]
    #[arg(long, value_name = "MGRS")]
    pub(crate) place: Option<String>,
    #[arg(help = t(words::ArgReportPieces))]
    #[arg(long = "piece", value_name = "SERIAL=STATE")]
    pub(crate) pieces: Vec<String>,
    #[arg(help = t(words::ArgReportPhotos))]
    #[arg(long = "photo", value_name = "FILE")]
    pub(crate) photos: Vec<PathBuf>,
    #[arg(help = t(words::ArgReportNote))]
    #[arg(long, value_name = "TEXT")]
    pub(crate) note: Option<String>,
    #[arg(help = t(words::ArgReportSign))]
    #[arg(long)]
    pub(crate) sign: bool,
    #[arg(help = t(words::ArgReportOut))]
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Debug, Subcommand)]
pub(crate) enum TagVerb {
    #[command(about = t(words::VerbTagWrite))]
    Write {
        #[arg(help = t(words::ArgTagWritePlan))]
        #[arg(value_name = "PLAN.toml|LIST.csv")]
        plan: PathBuf,
        #[arg(help = t(words::ArgTagWriteOut))]
        #[arg(long, value_name = "DIR")]
        out: PathBuf,
        #[arg(help = t(words::ArgTagWriteUnsigned))]
        #[arg(long)]
        unsigned: bool,
    },
    #[command(about = t(words::VerbTagRead))]
    Read {
        #[arg(help = t(words::ArgTagReadCode))]
        #[arg(value_name = "CODE")]
        code: String,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum ProcedureVerb {
    #[command(about = t(words::VerbProcedureList))]
    List,
    #[command(about = t(words::VerbProcedureShow))]
    Show {
        #[arg(help = t(words::ArgProcedureShowId))]
        #[arg(value_name = "ID")]
        id: String,
        #[arg(help = t(words::ArgProcedureShowPdf))]
        #[arg(long, value_name = "FILE.pdf")]
        pdf: Option<PathBuf>,
    },
    #[command(about = t(words::VerbProcedureCheck))]
    Check {
        #[arg(help = t(words::ArgProcedureCheckFile))]
        #[arg(value_name = "FILE")]
        file: PathBuf,
        #[arg(help = t(words::ArgProcedureCheckWatch))]
        #[arg(long)]
        watch: bool,
    },
    #[command(about = t(words::VerbProcedureTable))]
    Table {
        #[arg(help = t(words::ArgProcedureTableId))]
        #[arg(value_name = "ID")]
        id: Option<String>,
    },
    #[command(about = t(words::VerbProcedureAdd))]
    Add {
        #[arg(help = t(words::ArgProcedureAddFile))]
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
    #[command(about = t(words::VerbProcedureNew))]
    New {
        #[arg(help = t(words::ArgProcedureNewId))]
        #[arg(value_name = "ID")]
        id: String,
        #[arg(help = t(words::ArgProcedureNewOut))]
        #[arg(long, value_name = "FILE")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbProcedureDiff))]
    Diff {
        #[arg(help = t(words::ArgProcedureDiffOld))]
        #[arg(value_name = "OLD")]
        old: String,
        #[arg(help = t(words::ArgProcedureDiffNew))]
        #[arg(value_name = "NEW")]
        new: String,
    },
    #[command(about = t(words::VerbProcedureSchema))]
    Schema,
    #[command(about = t(words::VerbProcedureLanguage))]
    Language {
        #[arg(help = t(words::ArgProcedureLanguageCode))]
        #[arg(value_name = "CODE")]
        code: Option<String>,
    },
    #[command(about = t(words::VerbProcedurePack))]
    #[command(subcommand)]
    Pack(PackVerb),
    #[command(about = t(words::VerbProcedureFrames))]
    Frames {
        #[arg(help = t(words::ArgProcedureFramesIds))]
        #[arg(value_name = "ID")]
        ids: Vec<String>,
        #[arg(help = t(words::ArgProcedureFramesOut))]
        #[arg(long, value_name = "DIR")]
        out: PathBuf,
        #[arg(help = t(words::ArgProcedureFramesSpare))]
        #[arg(long, default_value_t = 50, value_name = "PERCENT")]
        spare: u32,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum PackVerb {
    #[command(about = t(words::VerbPackWrite))]
    Write {
        #[arg(help = t(words::ArgPackWriteFile))]
        #[arg(value_name = "FILE")]
        file: PathBuf,
        #[arg(help = t(words::ArgPackWriteIds))]
        #[arg(value_name = "ID")]
        ids: Vec<String>,
    },
    #[command(about = t(words::VerbPackRead))]
    Read {
        #[arg(help = t(words::ArgPackReadFile))]
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum AuthorityVerb {
    #[command(about = t(words::VerbAuthorityInit))]
    Init {
        #[arg(help = t(words::ArgAuthorityInitName))]
        #[arg(long, value_name = "NAME")]
        name: String,
        #[arg(help = t(words::ArgAuthorityInitApprove))]
        #[arg(long, value_name = "ID")]
        approve: Vec<String>,
        #[arg(help = t(words::ArgAuthorityInitOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityIssue))]
    Issue {
        #[arg(help = t(words::ArgAuthorityIssueRequest))]
        #[arg(value_name = "REQUEST")]
        request: String,
        #[arg(help = t(words::ArgAuthorityIssueRoles))]
        #[arg(long, value_name = "ROLES")]
        roles: String,
        #[arg(help = t(words::ArgAuthorityIssueExpires))]
        #[arg(long, value_name = "TIME")]
        expires: String,
        #[arg(help = t(words::ArgAuthorityIssueHolder))]
        #[arg(long, value_name = "NAME")]
        holder: Option<String>,
        #[arg(help = t(words::ArgAuthorityIssueValidity))]
        #[arg(long, value_name = "HOURS")]
        validity: Option<u32>,
        #[arg(help = t(words::ArgAuthorityIssueOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityList))]
    List,
    #[command(about = t(words::VerbAuthorityShow))]
    #[command(alias = "card")]
    Show {
        #[arg(help = t(words::ArgAuthorityShowOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityRevoke))]
    Revoke {
        #[arg(help = t(words::ArgAuthorityRevokeWho))]
        #[arg(value_name = "WHO", required = true)]
        who: Vec<String>,
        #[arg(help = t(words::ArgAuthorityRevokeDays))]
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        #[arg(help = t(words::ArgAuthorityRevokeOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityApprove))]
    Approve {
        #[arg(help = t(words::ArgAuthorityApproveWhich))]
        #[arg(value_name = "FILE|ID", required = true)]
        which: Vec<String>,
        #[arg(help = t(words::ArgAuthorityApproveDays))]
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        #[arg(help = t(words::ArgAuthorityApproveOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityWithdraw))]
    Withdraw {
        #[arg(help = t(words::ArgAuthorityWithdrawWhich))]
        #[arg(value_name = "ID", required = true)]
        which: Vec<String>,
        #[arg(help = t(words::ArgAuthorityWithdrawDays))]
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        #[arg(help = t(words::ArgAuthorityWithdrawOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityRoster))]
    Roster {
        #[arg(help = t(words::ArgAuthorityRosterDays))]
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        #[arg(help = t(words::ArgAuthorityRosterOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityTrust))]
    Trust {
        #[arg(help = t(words::ArgAuthorityTrustCard))]
        #[arg(value_name = "CARD")]
        card: String,
        #[arg(help = t(words::ArgAuthorityTrustFingerprint))]
        #[arg(long, value_name = "FINGERPRINT")]
        fingerprint: Option<String>,
        #[arg(help = t(words::ArgAuthorityTrustBeside))]
        #[arg(long)]
        beside: bool,
    },
    #[command(about = t(words::VerbAuthorityDistrust))]
    Distrust {
        #[arg(help = t(words::ArgAuthorityDistrustWho))]
        #[arg(value_name = "WHO")]
        who: String,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum KeyVerb {
    #[command(about = t(words::VerbKeyRequest))]
    Request {
        #[arg(help = t(words::ArgKeyRequestHolder))]
        #[arg(long, value_name = "NAME")]
        holder: Option<String>,
        #[arg(help = t(words::ArgKeyRequestOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbKeyChangePin))]
    ChangePin,
    #[command(about = t(words::VerbKeyShow))]
    Show,
}

/// A table of the account.
#[derive(Clone, Copy, Debug, PartialEq, Eq, clap::ValueEnum)]
pub(crate) enum Table {
    #[value(help = t(words::VerbTableRecords))]
    Records,
    #[value(help = t(words::VerbTableDeficiencies))]
    Deficiencies,
    #[value(help = t(words::VerbTableEquipment))]
    Equipment,
}

#[derive(Debug, Subcommand)]
pub(crate) enum RecordsVerb {
    #[command(about = t(words::VerbRecordsList))]
    List {
        #[arg(help = t(words::ArgRecordsListWords))]
        #[arg(value_name = "WORD")]
        words: Vec<String>,
        #[arg(help = t(words::ArgRecordsListMost))]
        #[arg(long, default_value_t = 50, value_name = "N")]
        most: u32,
    },
    #[command(about = t(words::VerbRecordsShow))]
    Show {
        #[arg(help = t(words::ArgRecordsShowRecord))]
        #[arg(value_name = "RECORD")]
        record: String,
    },
    #[command(about = t(words::VerbRecordsExport), long_about = two(words::VerbRecordsExport, words::MoreRecordsExport))]
    Export {
        #[arg(help = t(words::ArgRecordsExportFiles))]
        #[arg(value_name = "FILE", required = true)]
        files: Vec<PathBuf>,
        #[arg(help = t(words::ArgRecordsExportCsv))]
        #[arg(long)]
        csv: bool,
        #[arg(help = t(words::ArgRecordsExportParquet))]
        #[arg(long, conflicts_with = "csv")]
        parquet: bool,
        #[arg(help = t(words::ArgRecordsExportOf))]
        #[arg(long, value_enum, default_value_t = Table::Records)]
        of: Table,
    },
    #[command(about = t(words::VerbRecordsVerify))]
    Verify,
    #[command(about = t(words::VerbRecordsPrint))]
    Print {
        #[arg(help = t(words::ArgRecordsPrintRecord))]
        #[arg(value_name = "RECORD")]
        record: String,
        #[arg(help = t(words::ArgRecordsPrintOut))]
        #[arg(long, value_name = "FILE.pdf")]
        out: PathBuf,
        #[arg(help = t(words::ArgRecordsPrintLetter))]
        #[arg(long)]
        letter: bool,
    },
    #[command(about = t(words::VerbRecordsSeal))]
    Seal {
        #[arg(help = t(words::ArgRecordsSealRecord))]
        #[arg(value_name = "RECORD")]
        record: String,
        #[arg(help = t(words::ArgRecordsSealOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum ExamVerb {
    #[command(about = t(words::VerbExamLock), long_about = two(words::VerbExamLock, words::MoreExamLock))]
    Lock {
        #[arg(help = t(words::ArgExamLockTag))]
        #[arg(value_name = "TAG")]
        tag: String,
        #[arg(help = t(words::ArgExamLockPlant))]
        #[arg(long, value_name = "POINT=NAME")]
        plant: Vec<String>,
        #[arg(help = t(words::ArgExamLockDraw))]
        #[arg(long, value_name = "N", conflicts_with = "plant", required_unless_present_any = ["plant", "preview"])]
        draw: Option<u32>,
        #[arg(help = t(words::ArgExamLockSeed))]
        #[arg(long, value_name = "WORDS", requires = "draw")]
        seed: Option<String>,
        #[arg(help = t(words::ArgExamLockPreview))]
        #[arg(long)]
        preview: bool,
        #[arg(help = t(words::ArgExamLockFind))]
        #[arg(long, value_name = "N")]
        find: Option<u32>,
        #[arg(help = t(words::ArgExamLockWithin))]
        #[arg(long, value_name = "TIME")]
        within: Option<String>,
        #[arg(help = t(words::ArgExamLockFalseCalls))]
        #[arg(long, value_name = "N", default_value_t = 0)]
        false_calls: u32,
        #[arg(help = t(words::ArgExamLockOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbExamKeys))]
    Keys {
        #[arg(help = t(words::ArgExamKeysKey))]
        #[arg(value_name = "KEY")]
        key: Option<String>,
        #[arg(help = t(words::ArgExamKeysReveal))]
        #[arg(long, requires = "key")]
        reveal: bool,
    },
    #[command(about = t(words::VerbExamRun))]
    #[command(after_long_help = crate::terminal::RUN_HELP)]
    Run {
        #[arg(help = t(words::ArgExamRunKey))]
        #[arg(value_name = "KEY")]
        key: Option<String>,
        #[arg(help = t(words::ArgExamRunStudent))]
        #[arg(long, value_name = "NAME")]
        student: Option<String>,
        #[arg(help = t(words::ArgExamRunTag))]
        #[arg(long, value_name = "TAG")]
        tag: Option<String>,
        #[arg(help = t(words::ArgExamRunGoOn))]
        #[arg(long = "run", value_name = "ID", conflicts_with_all = ["key", "student", "tag"])]
        go_on: Option<String>,
        #[arg(help = t(words::ArgExamRunOut))]
        #[arg(long, value_name = "FILE")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbExamSheet))]
    Sheet {
        #[arg(help = t(words::ArgExamSheetRun))]
        #[arg(value_name = "RUN")]
        run: String,
        #[arg(help = t(words::ArgExamSheetOut))]
        #[arg(long, value_name = "FILE")]
        out: PathBuf,
        #[arg(help = t(words::ArgExamSheetFrames))]
        #[arg(long)]
        frames: bool,
    },
    #[command(about = t(words::VerbExamResult))]
    Result {
        #[arg(help = t(words::ArgExamResultWhich))]
        #[arg(value_name = "WHICH")]
        which: Option<String>,
    },
    #[command(about = t(words::VerbExamClass), long_about = two(words::VerbExamClass, words::MoreExamClass))]
    Class {
        #[arg(help = t(words::ArgExamClassProcedure))]
        #[arg(long, value_name = "ID")]
        procedure: Option<String>,
        #[arg(help = t(words::ArgExamClassSince))]
        #[arg(long, value_name = "TIME")]
        since: Option<String>,
        #[arg(help = t(words::ArgExamClassUntil))]
        #[arg(long, value_name = "TIME")]
        until: Option<String>,
        #[arg(help = t(words::ArgExamClassOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
}

/// Which part of the account goes along.
#[derive(Clone, Debug, Default, clap::Args)]
pub(crate) struct PartOfAccount {
    #[arg(help = t(words::ArgPartOfAccountSince))]
    #[arg(long, value_name = "TIME")]
    pub(crate) since: Option<String>,
    #[arg(help = t(words::ArgPartOfAccountLoad))]
    #[arg(long, value_name = "LOAD")]
    pub(crate) load: Option<String>,
}

#[derive(Debug, Subcommand)]
pub(crate) enum BundleVerb {
    #[command(about = t(words::VerbBundleHave))]
    Have {
        #[arg(help = t(words::ArgBundleHaveOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbBundleWrite))]
    Write {
        #[arg(help = t(words::ArgBundleWriteOut))]
        #[arg(long, value_name = "FILE")]
        out: PathBuf,
        #[arg(help = t(words::ArgBundleWriteHave))]
        #[arg(long, value_name = "CODE")]
        have: Option<String>,
        #[command(flatten)]
        part: PartOfAccount,
        #[arg(help = t(words::ArgBundleWriteNoPhotos))]
        #[arg(long)]
        no_photos: bool,
        #[arg(help = t(words::ArgBundleWriteFrames))]
        #[arg(long)]
        frames: bool,
        #[arg(help = t(words::ArgBundleWriteSpare))]
        #[arg(long, value_name = "PERCENT", default_value_t = 50)]
        spare: u32,
    },
    #[command(about = t(words::VerbBundlePlay))]
    Play {
        #[arg(help = t(words::ArgBundlePlayHave))]
        #[arg(long, value_name = "CODE")]
        have: Option<String>,
        #[command(flatten)]
        part: PartOfAccount,
        #[arg(help = t(words::ArgBundlePlayPace))]
        #[arg(long, value_name = "N", default_value_t = 4, value_parser = clap::value_parser!(u32).range(1..=15))]
        pace: u32,
        #[arg(help = t(words::ArgBundlePlayRounds))]
        #[arg(long, value_name = "TIMES")]
        rounds: Option<u32>,
    },
    #[command(about = t(words::VerbBundleRead))]
    Read {
        #[arg(help = t(words::ArgBundleReadFiles))]
        #[arg(value_name = "FILE", required = true)]
        files: Vec<PathBuf>,
    },
}

/// A rigging file as it stands, or one of the ways to plan a lift by it.
#[derive(Debug, clap::Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
pub(crate) struct Rigging {
    #[command(subcommand)]
    pub(crate) verb: Option<RiggingVerb>,
    #[arg(help = t(words::ArgRiggingFile))]
    #[arg(value_name = "FILE.toml", required = true)]
    pub(crate) file: Option<PathBuf>,
    #[arg(help = t(words::ArgRiggingLinks))]
    #[arg(long, value_name = "LEG=N")]
    pub(crate) links: Vec<String>,
    #[arg(help = t(words::ArgRiggingFactor))]
    #[arg(long, value_name = "F")]
    pub(crate) factor: Option<f64>,
    #[arg(help = t(words::ArgRiggingPicture))]
    #[arg(long, value_name = "OUT")]
    pub(crate) picture: Vec<PathBuf>,
    #[arg(help = t(words::ArgRiggingSheet))]
    #[arg(long, value_name = "OUT.pdf")]
    pub(crate) sheet: Option<PathBuf>,
    #[arg(help = t(words::ArgRiggingAircrew))]
    #[arg(long, value_name = "OUT.pdf")]
    pub(crate) aircrew: Option<PathBuf>,
}

#[derive(Debug, Subcommand)]
pub(crate) enum RiggingVerb {
    #[command(about = t(words::VerbRiggingWeigh))]
    Weigh {
        #[arg(help = t(words::ArgRiggingWeighFile))]
        #[arg(value_name = "FILE.toml")]
        file: PathBuf,
        #[arg(help = t(words::ArgRiggingWeighFactor))]
        #[arg(long, value_name = "F")]
        factor: Option<f64>,
    },
    #[command(about = t(words::VerbRiggingSolve))]
    Solve {
        #[arg(help = t(words::ArgRiggingSolveFile))]
        #[arg(value_name = "FILE.toml")]
        file: PathBuf,
        #[arg(help = t(words::ArgRiggingSolveLevel))]
        #[arg(long, conflicts_with_all = ["pitch", "roll", "nose_down_at_least"])]
        level: bool,
        #[arg(help = t(words::ArgRiggingSolvePitch))]
        #[arg(long, value_name = "DEG", allow_negative_numbers = true)]
        pitch: Option<f64>,
        #[arg(help = t(words::ArgRiggingSolveRoll))]
        #[arg(long, value_name = "DEG", allow_negative_numbers = true)]
        roll: Option<f64>,
        #[arg(help = t(words::ArgRiggingSolveNoseDownAtLeast))]
        #[arg(long, value_name = "DEG")]
        nose_down_at_least: Option<f64>,
        #[arg(help = t(words::ArgRiggingSolveBetween))]
        #[arg(long, value_name = "LEG=A-B")]
        between: Vec<String>,
        #[arg(help = t(words::ArgRiggingSolveMost))]
        #[arg(long, value_name = "N")]
        most: Option<u32>,
        #[arg(help = t(words::ArgRiggingSolveFactor))]
        #[arg(long, value_name = "F")]
        factor: Option<f64>,
        #[arg(help = t(words::ArgRiggingSolvePicture))]
        #[arg(long, value_name = "OUT")]
        picture: Vec<PathBuf>,
        #[arg(help = t(words::ArgRiggingSolveOut))]
        #[arg(long, value_name = "OUT.toml")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbRiggingFlight))]
    Flight {
        #[arg(help = t(words::ArgRiggingFlightFile))]
        #[arg(value_name = "FILE.toml")]
        file: PathBuf,
    },
}
