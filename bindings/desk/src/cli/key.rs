//! The device's key.

use std::path::PathBuf;

use clap::Subcommand;
use slingseal_app::catalogue::help as words;

use super::spoken::t;

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
