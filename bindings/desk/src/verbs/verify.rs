//! `verify`: GO, WAIT or NO-GO.

use std::process::ExitCode;

use slingseal_app::catalogue::desk as words;
use slingseal_app::{AppError, Language, VerdictView, VerdictWord, visibly};

use super::setting::Setting;
use crate::console::{Tone, headline};
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
        show(&verdict, setting.language);
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

/// The verdict as a terminal shows it: the word first, painted, then why.
pub(crate) fn show(verdict: &VerdictView, language: Language) {
    let (tone, word) = word(verdict);
    headline(tone, &word, &format!("  {}", verdict.first));
    print!("{}", rest(verdict, language));
}

/// The same as lines without paint.
pub(crate) fn text(verdict: &VerdictView, language: Language) -> String {
    format!("{}  {}\n{}", word(verdict).1, visibly(&verdict.first), rest(verdict, language))
}

fn word(verdict: &VerdictView) -> (Tone, String) {
    let (tone, shape) = match verdict.verdict {
        VerdictWord::Go => (Tone::Good, "●"),
        VerdictWord::Wait => (Tone::Wait, "▲"),
        VerdictWord::NoGo => (Tone::Bad, "■"),
    };
    (tone, format!("  {shape} {}  ", verdict.word))
}

/// Line by line; each is made visible whole, so that none holds a line break of a stranger's.
fn rest(verdict: &VerdictView, language: Language) -> String {
    let mut lines: Vec<String> = Vec::new();
    for reason in verdict.reasons.iter().filter(|reason| reason.text != verdict.first) {
        lines.push(format!("  - {}", reason.text));
    }
    if let Some(facts) = &verdict.facts {
        let who = facts.inspector.clone().unwrap_or_else(|| words::NobodyTrusted.say(language));
        let authority = facts.authority.as_ref().map(|name| format!(" ({name})")).unwrap_or_default();
        lines.push(
            words::LoadProcedure { load: &facts.load, mass: &facts.mass, procedure: &facts.procedure }
                .say(language),
        );
        let (at, until) = (&facts.issued.dtg, &facts.valid_until.dtg);
        // What says no does not run out.
        lines.push(if facts.fit {
            words::SealedHoldsUntil { who, authority, at, until }.say(language)
        } else {
            words::SealedBy { who, authority, at }.say(language)
        });
        lines.push(words::CheckOfSeal { check: &facts.check }.say(language));
    }
    if let Some(tag) = &verdict.tag {
        lines.push(
            words::TagAllowed {
                description: &tag.description,
                aircraft: &tag.aircraft,
                allowable: &tag.allowable,
            }
            .say(language),
        );
        lines.push(words::CheckOfTag { check: &tag.check }.say(language));
        lines.extend(tag.basis.lines.iter().map(|line| format!("  {}: {}", line.label, line.text)));
    }
    for line in &verdict.shown {
        let load = if line.load.is_empty() { "?" } else { &line.load };
        lines.push(words::ShownTogether { load: &load, word: &line.word, first: &line.first }.say(language));
    }
    for caution in &verdict.cautions {
        lines.push(format!("  ! {caution}"));
    }
    lines.iter().map(|line| visibly(line) + "\n").collect()
}
