//! Procedures: lists, their texts and packs.

use std::path::PathBuf;

use clap::Subcommand;
use slingseal_app::catalogue::help as words;

use super::spoken::t;

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
