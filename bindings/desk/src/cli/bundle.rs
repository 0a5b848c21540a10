//! Bundles and moving codes.

use std::path::PathBuf;

use clap::Subcommand;
use slingseal_app::catalogue::help as words;

use super::spoken::t;

/// Which part of the account goes along.
#[derive(Clone, Debug, Default, clap::Args)]
pub(crate) struct PartOfAccount {
    #[arg(help = t(words::ArgPartOfAccountSince))]
    #[arg(long, value_name = "WHEN")]
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
