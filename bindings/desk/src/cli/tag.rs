//! Tags: plans written and read.

use std::path::PathBuf;

use clap::Subcommand;
use slingseal_app::catalogue::help as words;

use super::spoken::t;

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
