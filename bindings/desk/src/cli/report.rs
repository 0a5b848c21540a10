//! What became of a load.

use std::path::PathBuf;

use slingseal_app::catalogue::help as words;

use super::spoken::t;

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
    #[arg(long, value_name = "WHEN")]
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
