//! The assessment in sentences, in the units of the input.

use std::fmt::Write as _;

use slingseal_words::{Degrees, Newtons, Quantity, Ratio, STANDARD_GRAVITY, Unit};

use super::assess::force_unit;
use super::links::LinkChange;
use super::shown::shown;
use super::tongue::beyond as beyond_saying;
use super::{Assessment, Hang, Held, LegLoad, LinkEffect, RiggedLoad};

/// The report as plain text, one line a sentence or a leg, with a line break at its end. `links` may be empty.
pub fn report(load: &RiggedLoad, assessment: &Assessment, links: &[LinkEffect]) -> String {
    let report = Report { load, assessment, unit: force_unit(load) };
    let mut text = String::new();
    // Writing to a `String` cannot fail.
    let _ = report.write(&mut text, links);
    text
}

struct Report<'a> {
    load: &'a RiggedLoad,
    assessment: &'a Assessment,
    unit: Unit,
}

impl Report<'_> {
    fn write(&self, out: &mut String, links: &[LinkEffect]) -> std::fmt::Result {
        match (&self.assessment.hang, &self.assessment.reason) {
            (Some(hang), _) => self.hang(out, hang, links)?,
            (None, Some(reason)) => writeln!(out, "DOES NOT HANG: {reason}.")?,
            (None, None) => {}
        }
        if !self.assessment.warnings.is_empty() {
            writeln!(out, "\nNote:")?;
        }
        for warning in &self.assessment.warnings {
            writeln!(out, "- {warning}.")?;
        }
        writeln!(
            out,
            "\nThis assists a qualified inspector. The governing manual rules, and ratings are those of the file."
        )
    }

    fn hang(&self, out: &mut String, hang: &Hang, links: &[LinkEffect]) -> std::fmt::Result {
        let Some(governing) = hang.held.first() else { return Ok(()) };
        let word = self.assessment.state().title();
        writeln!(out, "{word}: {} governs at rest, at {}.", governing.part, percent(governing.utilisation))?;
        if let Some(beyond) = &self.assessment.beyond {
            writeln!(out, "{}", beyond_saying(beyond))?;
        }
        writeln!(out, "{}", self.margin(governing))?;
        writeln!(out, "The load of {} hangs {}.", self.load.mass, attitude(hang.pitch, hang.roll))?;
        if let [first, second] = hang.hooks.as_slice() {
            writeln!(
                out,
                "Hook {} carries {}, hook {} carries {}.",
                first.name,
                self.force(first.load),
                second.name,
                self.force(second.load)
            )?;
        }
        writeln!(out)?;
        self.legs(out, hang)?;
        writeln!(out)?;
        if hang.legs.len() > 1 {
            self.rules(out, hang)?;
        }
        let over: Vec<_> = hang.held.iter().skip(1).filter(|held| held.over()).collect();
        for held in &over {
            writeln!(
                out,
                "Also over: {}, at {}. {}",
                held.part,
                percent(held.utilisation),
                self.margin(held)
            )?;
        }
        if !links.is_empty() {
            writeln!(out, "\nOne link more or less in the grab hook:")?;
        }
        for effect in links {
            self.link(out, effect)?;
        }
        Ok(())
    }

    fn margin(&self, held: &Held) -> String {
        let margin = held.margin();
        let source = held.source.as_ref().map(|source| format!(" ({source})")).unwrap_or_default();
        let rated = held.rated;
        let unit = rated.unit();
        let left = if held.over() {
            format!("{} too much", force(Newtons::new(-margin.value()).unwrap_or_default(), unit))
        } else {
            format!("{} to spare", force(margin, unit))
        };
        format!("It carries {} and may carry {rated}{source}: {left}.", force(held.carries, unit))
    }

    fn legs(&self, out: &mut String, hang: &Hang) -> std::fmt::Result {
        let worst = |leg: &LegLoad| leg.worst_case.map_or("no bound".into(), |worst| self.force(worst));
        let rows: Vec<[String; 6]> = std::iter::once(
            ["Leg", "carries", "of its rating", "of", "at worst", "from horizontal"].map(str::to_owned),
        )
        .chain(hang.legs.iter().map(|leg| {
            [
                leg.name.to_string(),
                if leg.slack { "slack".into() } else { self.force(leg.tension) },
                percent(leg.utilisation),
                force(leg.rated, self.unit),
                worst(leg),
                format!("{:.1} deg", leg.from_horizontal.value()),
            ]
        }))
        .collect();
        let width = |column: usize| {
            rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
        };
        for row in &rows {
            for (column, cell) in row.iter().enumerate() {
                let width = width(column);
                match column {
                    0 => write!(out, "{cell:<width$}")?,
                    _ => write!(out, "  {cell:>width$}")?,
                }
            }
            writeln!(out)?;
        }
        Ok(())
    }

    fn rules(&self, out: &mut String, hang: &Hang) -> std::fmt::Result {
        writeln!(
            out,
            "\"Carries\" shares the load by the stretch of the legs; \"at worst\" is the most that any way of"
        )?;
        writeln!(out, "sharing it puts on the leg.")?;
        writeln!(out, "By the handbooks: {}.", by_rules(hang, true))
    }

    fn link(&self, out: &mut String, effect: &LinkEffect) -> std::fmt::Result {
        let changes = [
            ("more", effect.seated.saturating_add(1), &effect.one_more),
            ("less", effect.seated.saturating_sub(1), &effect.one_less),
        ];
        for (word, link, change) in changes {
            match change {
                Some(LinkChange::Hangs { pitch, roll, largest: (leg, tension), over_limit }) => writeln!(
                    out,
                    "Leg {}, one {word} (link {link}): {}; leg {leg} carries most, {}{}.",
                    effect.leg,
                    attitude(*pitch, *roll),
                    self.force(*tension),
                    if *over_limit { ", OVER LIMIT" } else { "" }
                )?,
                Some(LinkChange::Infeasible) => {
                    writeln!(out, "Leg {}, one {word} (link {link}): the load would not hang.", effect.leg)?
                }
                None => {}
            }
        }
        Ok(())
    }

    fn force(&self, newtons: Newtons) -> String {
        force(newtons, self.unit)
    }
}

/// What the handbooks' rules say of a load: `if three legs carry (chain tables), 87 %; if two carry (naval rule), 130 %`.
pub(super) fn by_rules(hang: &Hang, with_books: bool) -> String {
    let book = |book: &str| if with_books { format!(" ({book})") } else { String::new() };
    let mut said = Vec::new();
    if hang.most_legs >= 3 {
        said.push(format!("if three legs carry{}, {}", book("chain tables"), percent(hang.rules.three_leg)));
    }
    said.push(format!("if two carry{}, {}", book("naval rule"), percent(hang.rules.two_leg)));
    said.join("; ")
}

/// A force in a unit of force or mass.
pub fn force_in(newtons: Newtons, unit: Unit) -> Quantity {
    match unit.dimension() {
        slingseal_words::Dimension::Mass => shown(newtons.value() / STANDARD_GRAVITY, unit),
        _ => shown(newtons.value(), unit),
    }
}

fn force(newtons: Newtons, unit: Unit) -> String {
    force_in(newtons, unit).to_string()
}

pub(super) fn percent(ratio: Ratio) -> String {
    format!("{:.0} %", ratio.value() * 100.0)
}

/// `level`, or `2.3 deg nose up and 0.4 deg left side down`.
pub(super) fn attitude(pitch: Degrees, roll: Degrees) -> String {
    let part = |angle: Degrees, up: &str, down: &str| {
        let way = if angle.value() > 0.0 { up } else { down };
        (angle.value().abs() >= 0.05).then(|| format!("{:.1} deg {way}", angle.value().abs()))
    };
    let (pitch, roll) = (part(pitch, "nose up", "nose down"), part(roll, "left side up", "left side down"));
    match (pitch, roll) {
        (None, None) => "level".into(),
        (Some(one), None) | (None, Some(one)) => one,
        (Some(pitch), Some(roll)) => format!("{pitch} and {roll}"),
    }
}
