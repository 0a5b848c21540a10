//! `verify`: GO, WAIT or NO-GO.

use std::io::IsTerminal;
use std::process::ExitCode;

use slingseal_app::{AppError, VerdictView, VerdictWord};

use super::Setting;
use crate::{input, output};

/// Everything that is in what was given is judged: a picture may hold two seals, and the second may be the refusal.
pub(crate) fn run(setting: &Setting, seal: Option<&str>, tag: Option<&str>) -> Result<ExitCode, AppError> {
    let mut codes = Vec::new();
    for argument in [seal, tag].into_iter().flatten() {
        codes.extend(input::codes(argument)?);
    }
    let verdict = setting.app()?.check_all(&codes)?;
    if setting.json {
        output::print_json(&verdict);
    } else {
        print!("{}", text(&verdict, std::io::stdout().is_terminal()));
    }
    Ok(exit(verdict.verdict))
}

/// Of several verdicts the one that a program ends with: the gravest.
pub(crate) fn graver(one: VerdictWord, other: VerdictWord) -> VerdictWord {
    match (one, other) {
        (VerdictWord::NoGo, _) | (_, VerdictWord::NoGo) => VerdictWord::NoGo,
        (VerdictWord::Wait, _) | (_, VerdictWord::Wait) => VerdictWord::Wait,
        (VerdictWord::Go, VerdictWord::Go) => VerdictWord::Go,
    }
}

pub(crate) fn exit(verdict: VerdictWord) -> ExitCode {
    match verdict {
        VerdictWord::Go => ExitCode::SUCCESS,
        VerdictWord::Wait => ExitCode::from(10),
        VerdictWord::NoGo => ExitCode::from(11),
    }
}

/// The verdict as a terminal shows it: the word first, then why.
pub(crate) fn text(verdict: &VerdictView, colour: bool) -> String {
    let (shape, paint) = match verdict.verdict {
        VerdictWord::Go => ("●", "\x1b[1;30;42m"),
        VerdictWord::Wait => ("▲", "\x1b[1;30;43m"),
        VerdictWord::NoGo => ("■", "\x1b[1;37;41m"),
    };
    let (on, off) = if colour { (paint, "\x1b[0m") } else { ("", "") };
    let mut text = format!("{on}  {shape} {}  {off}  {}\n", verdict.word, verdict.first);
    for reason in verdict.reasons.iter().filter(|reason| reason.text != verdict.first) {
        text.push_str(&format!("  - {}\n", reason.text));
    }
    if let Some(facts) = &verdict.facts {
        let who = facts.inspector.as_deref().unwrap_or("nobody trusted here");
        let authority = facts.authority.as_ref().map(|name| format!(" ({name})")).unwrap_or_default();
        text.push_str(&format!("  Load {}   {}   procedure {}\n", facts.load, facts.mass, facts.procedure));
        text.push_str(&format!(
            "  Sealed by {who}{authority} {}, holds until {}\n",
            facts.issued.dtg, facts.valid_until.dtg
        ));
    }
    if let Some(tag) = &verdict.tag {
        text.push_str(&format!(
            "  Tag: {}, for {} ({} allowed)\n",
            tag.description, tag.aircraft, tag.allowable
        ));
    }
    for line in &verdict.shown {
        let load = if line.load.is_empty() { "?" } else { &line.load };
        text.push_str(&format!("  Shown together: load {load}, {}: {}\n", line.word, line.first));
    }
    for caution in &verdict.cautions {
        text.push_str(&format!("  ! {caution}\n"));
    }
    text
}
