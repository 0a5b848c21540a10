//! Records: listed, shown, exported, printed.

use std::path::PathBuf;

use clap::Subcommand;
use slingseal_app::catalogue::help as words;

use super::spoken::{t, two};

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
