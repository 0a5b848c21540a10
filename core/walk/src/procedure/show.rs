//! An expanded procedure as plain text, for reading and for a printer.

use std::fmt::{self, Write as _};

use super::expand::{Card, Expanded, Expected, Kind, Point};
use slingseal_words::Language;

impl fmt::Display for Kind {
    /// How the point is answered, in a few words.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Look => f.write_str("look"),
            Self::Count(Expected::Fixed(number)) => write!(f, "count, expected {number}"),
            Self::Count(Expected::LinksOfLeg(leg)) => {
                write!(f, "count, expected what the tag says for leg {leg}")
            }
            Self::Count(Expected::OfManual) => f.write_str("count, held against the manual"),
            Self::Choice(options) => {
                let shown: Vec<&str> = options.iter().map(|option| option.shown.as_str()).collect();
                let right: Vec<&str> = options
                    .iter()
                    .filter(|option| option.right)
                    .map(|option| option.shown.as_str())
                    .collect();
                write!(f, "choice of {}; right: {}", shown.join(", "), right.join(", "))
            }
            Self::Measure { least: Some(least), most: Some(most), .. } => {
                write!(f, "measure, {least} to {most}")
            }
            Self::Measure { least: Some(least), .. } => write!(f, "measure, at least {least}"),
            Self::Measure { most: Some(most), .. } => write!(f, "measure, at most {most}"),
            Self::Measure { unit, .. } => {
                f.write_str("measure")?;
                unit.map_or(Ok(()), |unit| write!(f, " in {unit}, held against the manual"))
            }
            Self::Serial { equipment, optional } => {
                f.write_str("serial number")?;
                if let Some(equipment) = equipment {
                    write!(f, " of the {equipment}")?;
                }
                f.write_str(if *optional { ", may be left out" } else { "" })
            }
            Self::Text { optional } => f.write_str(if *optional { "text, may be left out" } else { "text" }),
        }
    }
}

impl Expanded {
    /// The whole walk with the id of every point: what a record names, for whoever writes the list.
    pub fn with_ids(&self) -> impl fmt::Display {
        Written { plan: self, ids: true }
    }
}

impl fmt::Display for Expanded {
    /// The whole walk, a line a point; every line ends with a line feed.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        Written { plan: self, ids: false }.fmt(f)
    }
}

struct Written<'e> {
    plan: &'e Expanded,
    ids: bool,
}

impl fmt::Display for Written<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { plan, ids } = *self;
        writeln!(f, "{}", plan.title)?;
        writeln!(
            f,
            "{} version {}, {} cards, {} points",
            plan.id,
            plan.version,
            plan.cards.len(),
            plan.points()
        )?;
        writeln!(f, "SHA-256 {}", plan.digest)?;
        if let Some(about) = &plan.about {
            writeln!(f, "{}", wrapped(about, ""))?;
        }
        for (at, station) in plan.stations.iter().enumerate() {
            writeln!(f, "\n{}  [{}]", station.title, station.id)?;
            for card in plan.cards.iter().filter(|card| card.station == at) {
                show_card(f, card, ids)?;
            }
        }
        Ok(())
    }
}

fn show_card(f: &mut fmt::Formatter<'_>, card: &Card, ids: bool) -> fmt::Result {
    writeln!(f, "\n  {:>2}  {}", card.number, card.title)?;
    if let Some(caution) = &card.caution {
        writeln!(f, "{}", wrapped(caution, "      ! "))?;
    }
    writeln!(f, "{}", wrapped(&card.motion, "      "))?;
    card.points.iter().try_for_each(|point| show_point(f, point, ids))
}

fn show_point(f: &mut fmt::Formatter<'_>, point: &Point, ids: bool) -> fmt::Result {
    writeln!(f, "{}", wrapped(&point.prompt, "      - "))?;
    if ids {
        writeln!(f, "          [{}]", point.id)?;
    }
    let rules = &point.rules;
    let more = [
        rules.when.as_ref().map(|when| format!("; only where the tag says {when}")),
        rules.may_not_apply.then(|| "; may be not applicable, with a reason".to_owned()),
        rules.again_card.then(|| "; after a correction the whole card is inspected again".to_owned()),
    ];
    let more: String = more.into_iter().flatten().collect();
    writeln!(f, "{}", wrapped(&format!("{} ({}){more}", point.kind, point.mark), "          "))?;
    for known in &point.deficiencies {
        let fate = known.fate.words(Language::English);
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
