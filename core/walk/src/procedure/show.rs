//! An expanded procedure as plain text, for reading and for a printer.

use slingseal_catalogue::walk as words;
use std::fmt::{self, Write as _};

use super::expand::{Card, Expanded, Expected, Kind, Point};
use slingseal_words::{Language, Saying};

impl Kind {
    /// How the point is answered, in a few words and in no language yet.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Look => words::AnswerLook.into(),
            Self::Count(Expected::Fixed(number)) => {
                words::AnswerCountExpected { number: number.to_string() }.into()
            }
            Self::Count(Expected::LinksOfLeg(leg)) => words::AnswerCountOfTag { leg }.into(),
            Self::Count(Expected::OfManual) => words::AnswerCountOfManual.into(),
            Self::Choice(options) => {
                let shown: Vec<&str> = options.iter().map(|option| option.shown.as_str()).collect();
                let right: Vec<&str> = options
                    .iter()
                    .filter(|option| option.right)
                    .map(|option| option.shown.as_str())
                    .collect();
                words::AnswerChoice { options: shown.join(", "), right: right.join(", ") }.into()
            }
            Self::Measure { least: Some(least), most: Some(most), .. } => {
                words::AnswerMeasureBetween { least, most }.into()
            }
            Self::Measure { least: Some(least), .. } => words::AnswerMeasureAtLeast { least }.into(),
            Self::Measure { most: Some(most), .. } => words::AnswerMeasureAtMost { most }.into(),
            Self::Measure { unit: Some(unit), .. } => {
                words::AnswerMeasureOfManual { unit: unit.to_string() }.into()
            }
            Self::Measure { .. } => words::AnswerMeasure.into(),
            Self::Serial { equipment, optional } => {
                let said: Saying = match equipment {
                    Some(equipment) => words::AnswerSerialOf { equipment }.into(),
                    None => words::AnswerSerial.into(),
                };
                if *optional { words::MayBeLeftOut { answer: said }.into() } else { said }
            }
            Self::Text { optional: true } => {
                words::MayBeLeftOut { answer: words::AnswerText.saying() }.into()
            }
            Self::Text { optional: false } => words::AnswerText.into(),
        }
    }
}

impl fmt::Display for Kind {
    /// The English of it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.saying().fmt(f)
    }
}

impl Expanded {
    /// The whole walk with the id of every point: what a record names, for whoever writes the list.
    pub fn with_ids(&self, language: Language) -> impl fmt::Display {
        Written { plan: self, ids: true, language }
    }
}

impl fmt::Display for Expanded {
    /// The whole walk, a line a point; every line ends with a line feed.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        Written { plan: self, ids: false, language: Language::English }.fmt(f)
    }
}

struct Written<'e> {
    plan: &'e Expanded,
    ids: bool,
    language: Language,
}

impl fmt::Display for Written<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { plan, ids, language } = *self;
        writeln!(f, "{}", plan.title)?;
        let said = words::ProcedureLine {
            id: plan.id.to_string(),
            version: plan.version.to_string(),
            cards: plan.cards.len(),
            points: plan.points(),
        };
        writeln!(f, "{}", said.say(language))?;
        writeln!(f, "SHA-256 {}", plan.digest)?;
        if let Some(about) = &plan.about {
            writeln!(f, "{}", wrapped(about, ""))?;
        }
        for (at, station) in plan.stations.iter().enumerate() {
            writeln!(f, "\n{}  [{}]", station.title, station.id)?;
            for card in plan.cards.iter().filter(|card| card.station == at) {
                show_card(f, card, ids, language)?;
            }
        }
        Ok(())
    }
}

fn show_card(f: &mut fmt::Formatter<'_>, card: &Card, ids: bool, language: Language) -> fmt::Result {
    writeln!(f, "\n  {:>2}  {}", card.number, card.title)?;
    if let Some(caution) = &card.caution {
        writeln!(f, "{}", wrapped(caution, "      ! "))?;
    }
    writeln!(f, "{}", wrapped(&card.motion, "      "))?;
    card.points.iter().try_for_each(|point| show_point(f, point, ids, language))
}

fn show_point(f: &mut fmt::Formatter<'_>, point: &Point, ids: bool, language: Language) -> fmt::Result {
    writeln!(f, "{}", wrapped(&point.prompt, "      - "))?;
    if ids {
        writeln!(f, "          [{}]", point.id)?;
    }
    let rules = &point.rules;
    let more: [Option<Saying>; 3] = [
        rules.when.as_ref().map(|when| words::OnlyWhereTagSays { when }.into()),
        rules.may_not_apply.then(|| words::MayBeNotApplicable.into()),
        rules.again_card.then(|| words::WholeCardAgain.into()),
    ];
    let more: String = more.into_iter().flatten().map(|said| format!("; {}", said.say(language))).collect();
    let (kind, mark) = (point.kind.saying().say(language), point.mark.saying().say(language));
    writeln!(f, "{}", wrapped(&format!("{kind} ({mark}){more}"), "          "))?;
    for known in &point.deficiencies {
        let fate = known.fate.words(language);
        writeln!(f, "{}", wrapped(&format!("{}: {fate}", known.shown), "          x "))?;
    }
    Ok(())
}

/// Words set in lines of 80 characters; the first line starts with `lead`, the others stand below its end.
fn wrapped(text: &str, lead: &str) -> String {
    let indent = " ".repeat(lead.chars().count());
    let mut out = lead.to_owned();
    let mut width = lead.chars().count();
    let mut first = true;
    for word in text.split_whitespace() {
        let length = word.chars().count();
        if !first && width + 1 + length > 80 {
            let _ = write!(out, "\n{indent}");
            width = indent.chars().count();
            first = true;
        }
        if !first {
            out.push(' ');
            width += 1;
        }
        out.push_str(word);
        width += length;
        first = false;
    }
    out
}
