//! Rigged loads, and lifts planned by them.

use std::path::PathBuf;

use clap::Subcommand;
use slingseal_app::catalogue::help as words;

use super::spoken::t;

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
