//! What is asked and done of the account.

use std::path::PathBuf;

use clap::Subcommand;
use slingseal_app::catalogue::help as words;

use super::spoken::t;

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
