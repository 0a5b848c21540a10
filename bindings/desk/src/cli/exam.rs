//! Examinations.

use std::path::PathBuf;

use clap::Subcommand;
use slingseal_app::catalogue::help as words;

use super::spoken::{t, two};

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
        #[arg(long, value_name = "N", conflicts_with = "plant")]
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
        #[arg(long, value_name = "N")]
        false_calls: Option<u32>,
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
    #[command(after_long_help = t(words::RunLines))]
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
        #[arg(long, value_name = "WHEN")]
        since: Option<String>,
        #[arg(help = t(words::ArgExamClassUntil))]
        #[arg(long, value_name = "WHEN")]
        until: Option<String>,
        #[arg(help = t(words::ArgExamClassOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
}
