//! What clap would say in English: what stands behind an argument's help, and why a command line cannot be read.

use std::error::Error as _;
use std::num::{ParseFloatError, ParseIntError};

use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Arg, Command};
use slingseal_app::catalogue::{Saying, help as words};

use super::spoken::t;

/// A placeholder in the reader's language, word by word: `FILE.toml` and `LEG=N` keep their endings and signs. What has no word
/// of its own, as a unit's sign or an example's letters, stands as it is.
fn placeholder(name: &str) -> String {
    let mut said = String::new();
    for part in name.split_inclusive(|letter: char| !letter.is_ascii_uppercase()) {
        let word = part.trim_end_matches(|letter: char| !letter.is_ascii_uppercase());
        match PLACEHOLDERS.iter().find(|(known, _)| *known == word) {
            Some((_, saying)) => said.push_str(&t(saying())),
            None => said.push_str(word),
        }
        said.push_str(part.strip_prefix(word).unwrap_or_default());
    }
    said
}

/// A message of the catalogue.
type Said = fn() -> Saying;

/// The words that placeholders are made of.
const PLACEHOLDERS: &[(&str, Said)] = &[
    ("ADDRESS", || words::ValueAddress.into()),
    ("AUTHORITY", || words::ValueAuthority.into()),
    ("CARD", || words::ValueCard.into()),
    ("CODE", || words::ValueCode.into()),
    ("DAYS", || words::ValueDays.into()),
    ("DEG", || words::ValueDeg.into()),
    ("DIR", || words::ValueDir.into()),
    ("EVENT", || words::ValueEvent.into()),
    ("FILE", || words::ValueFile.into()),
    ("FINGERPRINT", || words::ValueFingerprint.into()),
    ("HOURS", || words::ValueHours.into()),
    ("KEY", || words::ValueKey.into()),
    ("LEG", || words::ValueLeg.into()),
    ("LIST", || words::ValueList.into()),
    ("LOAD", || words::ValueLoad.into()),
    ("NAME", || words::ValueName.into()),
    ("NEW", || words::ValueNew.into()),
    ("NOTE", || words::ValueNote.into()),
    ("OLD", || words::ValueOld.into()),
    ("OUT", || words::ValueOut.into()),
    ("PERCENT", || words::ValuePercent.into()),
    ("PICTURE", || words::ValuePicture.into()),
    ("PLACE", || words::ValuePlace.into()),
    ("PLAN", || words::ValuePlan.into()),
    ("POINT", || words::ValuePoint.into()),
    ("PORT", || words::ValuePort.into()),
    ("PROCEDURE", || words::ValueProcedure.into()),
    ("RECORD", || words::ValueRecord.into()),
    ("REQUEST", || words::ValueRequest.into()),
    ("ROLES", || words::ValueRoles.into()),
    ("RUN", || words::ValueRun.into()),
    ("SEAL", || words::ValueSeal.into()),
    ("SECONDS", || words::ValueSeconds.into()),
    ("SERIAL", || words::ValueSerial.into()),
    ("SHELL", || words::ValueShell.into()),
    ("STATE", || words::ValueState.into()),
    ("TAG", || words::ValueTag.into()),
    ("TEXT", || words::ValueText.into()),
    ("TIME", || words::ValueTime.into()),
    ("TIMES", || words::ValueTimes.into()),
    ("WHEN", || words::ValueWhen.into()),
    ("WHICH", || words::ValueWhich.into()),
    ("WHO", || words::ValueWho.into()),
    ("WORD", || words::ValueWord.into()),
    ("WORDS", || words::ValueWords.into()),
    ("YYYY", || words::ValueYear.into()),
];

/// An argument's help with where it is taken from otherwise, what stands for nothing, and what it may be.
pub(super) fn noted(argument: Arg) -> Arg {
    let names = argument.get_value_names().unwrap_or_default();
    let names: Vec<String> = names.iter().map(|name| placeholder(name)).collect();
    let argument = if names.is_empty() { argument } else { argument.value_names(names) };
    let mut notes: Vec<Saying> = Vec::new();
    let values: Vec<String> = argument.get_possible_values().iter().map(possible).collect();
    if argument.get_action().takes_values() && !values.is_empty() {
        notes.push(words::NoteValues { values: values.join(", ") }.into());
    }
    let defaults = argument.get_default_values().iter().map(|value| value.to_string_lossy().into_owned());
    let defaults: Vec<String> = defaults.collect();
    if argument.get_action().takes_values() && !defaults.is_empty() {
        notes.push(words::NoteDefault { value: defaults.join(" ") }.into());
    }
    if let Some(name) = argument.get_env() {
        notes.push(words::NoteEnvironment { name: name.to_string_lossy() }.into());
    }
    if notes.is_empty() {
        return argument;
    }
    let help = argument.get_help().map(ToString::to_string).unwrap_or_default();
    let notes: Vec<String> = notes.into_iter().map(|note| format!("[{}]", t(note))).collect();
    argument
        .help(format!("{help} {}", notes.join(" ")))
        .hide_possible_values(true)
        .hide_default_value(true)
        .hide_env(true)
}

/// A value with what it means, where that is told.
fn possible(value: &clap::builder::PossibleValue) -> String {
    match value.get_help() {
        Some(help) => format!("{} ({help})", value.get_name()),
        None => value.get_name().to_owned(),
    }
}

/// Each verb's line of usage, whose placeholder for options clap has in English alone. Of a command that is built.
pub(super) fn told(mut command: Command) -> Command {
    let usage = command.render_usage().to_string();
    let usage =
        usage.trim_start_matches(ENGLISH).replace("[OPTIONS]", &format!("[{}]", t(words::UsageOptions)));
    command.override_usage(usage).mut_subcommands(told)
}

/// How clap begins a line of usage.
const ENGLISH: &str = "Usage: ";

/// Says why a command line cannot be read and how it is written, and with which code to end; help that was asked for is shown.
pub(crate) fn refused(error: &clap::Error) -> u8 {
    if !error.use_stderr() || error.kind() == ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand {
        // Where it cannot be written there is nobody to tell.
        let _ = error.print();
        return u8::try_from(error.exit_code()).unwrap_or(2);
    }
    eprintln!("slingseal: {}", t(why(error)));
    let suggested =
        [ContextKind::SuggestedSubcommand, ContextKind::SuggestedArg, ContextKind::SuggestedValue];
    if let Some(other) = suggested.into_iter().find_map(|kind| said(error, kind)) {
        eprintln!("  {}", t(words::UsageMeant { other }));
    }
    if let Some(usage) = said(error, ContextKind::Usage) {
        for (at, line) in usage.trim_start_matches(ENGLISH).lines().enumerate() {
            let head =
                if at == 0 { t(words::HeadUsage) } else { " ".repeat(t(words::HeadUsage).chars().count()) };
            eprintln!("{head} {}", line.trim_start());
        }
    }
    eprintln!("{}", t(words::UsageMore));
    2
}

/// A part of what clap knows of an error.
fn said(error: &clap::Error, kind: ContextKind) -> Option<String> {
    match error.get(kind)? {
        ContextValue::None => None,
        value => Some(value.to_string()),
    }
}

fn why(error: &clap::Error) -> Saying {
    let part = |kind| said(error, kind).unwrap_or_default();
    let (argument, value) = (part(ContextKind::InvalidArg), part(ContextKind::InvalidValue));
    match error.kind() {
        ErrorKind::InvalidSubcommand => {
            words::UsageUnknownVerb { verb: part(ContextKind::InvalidSubcommand) }.into()
        }
        ErrorKind::UnknownArgument => words::UsageUnknownArgument { argument }.into(),
        ErrorKind::MissingRequiredArgument => words::UsageMissing { arguments: argument }.into(),
        ErrorKind::MissingSubcommand => words::UsageNoVerb.into(),
        ErrorKind::ArgumentConflict => match part(ContextKind::PriorArg) {
            other if other.is_empty() || other == argument => words::UsageTwice { argument }.into(),
            other => words::UsageConflict { argument, other }.into(),
        },
        ErrorKind::InvalidValue if value.is_empty() => words::UsageNoValue { argument }.into(),
        ErrorKind::InvalidValue => {
            let values = part(ContextKind::ValidValue);
            words::UsageNotOneOf { argument, value, values }.into()
        }
        ErrorKind::ValueValidation => not_a_value(error, argument, value),
        ErrorKind::TooManyValues | ErrorKind::TooFewValues | ErrorKind::WrongNumberOfValues => {
            words::UsageNumberOfValues { argument }.into()
        }
        ErrorKind::InvalidUtf8 => words::UsageNoText.into(),
        _ => words::UsageUnreadable.into(),
    }
}

/// Why a value is none: what reads numbers and addresses says it in English alone.
fn not_a_value(error: &clap::Error, argument: String, value: String) -> Saying {
    let Some(source) = error.source() else { return words::UsageNotAValue { argument, value }.into() };
    // A range is written as `1..=15` behind whatever is said of it.
    let text = source.to_string();
    let range = text.rsplit_once("..=").and_then(|(before, most)| Some((before.rsplit(' ').next()?, most)));
    if let Some((least, most)) = range {
        return words::UsageNotWithin { argument, value, least, most }.into();
    }
    if source.is::<ParseIntError>() || source.is::<ParseFloatError>() {
        return words::UsageNoNumber { argument, value }.into();
    }
    words::UsageNotAValue { argument, value }.into()
}
