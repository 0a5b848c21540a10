//! The assessment in sentences, in the units of the input.

use slingseal_catalogue::{Language, Saying, rigging as words};
use slingseal_words::{Newtons, Quantity, Unit};

use super::links::LinkChange;
use super::shown::{force_in, force_unit, percent};
use super::{Assessment, Hang, Held, LegLoad, LinkEffect, RiggedLoad, tongue};

/// The report as plain text, one line a sentence or a leg, with a line break at its end. `links` may be empty. Where it stands
/// alone, [`caution`] goes behind it; a screen has the manual's caution already.
pub fn report(
    load: &RiggedLoad,
    assessment: &Assessment,
    links: &[LinkEffect],
    language: Language,
) -> String {
    let report = Report { load, assessment, unit: force_unit(load), language };
    report.lines(links).join("\n") + "\n"
}

/// What stands below a report that stands alone.
pub fn caution(language: Language) -> String {
    words::ManualRules.say(language)
}

struct Report<'a> {
    load: &'a RiggedLoad,
    assessment: &'a Assessment,
    unit: Unit,
    language: Language,
}

impl Report<'_> {
    fn lines(&self, links: &[LinkEffect]) -> Vec<String> {
        let mut lines = match (&self.assessment.hang, &self.assessment.reason) {
            (Some(hang), _) => self.hang(hang, links),
            (None, Some(reason)) => vec![self.say(words::ReportFalls { reason: reason.saying() })],
            (None, None) => Vec::new(),
        };
        if !self.assessment.warnings.is_empty() {
            lines.extend([String::new(), self.say(words::ReportNote)]);
        }
        for warning in &self.assessment.warnings {
            lines.push(self.say(words::ReportWarning { warning: warning.saying() }));
        }
        lines
    }

    fn say(&self, saying: impl Into<Saying>) -> String {
        saying.into().say(self.language)
    }

    fn hang(&self, hang: &Hang, links: &[LinkEffect]) -> Vec<String> {
        let Some(governing) = hang.held.first() else { return Vec::new() };
        let state = tongue::state(self.assessment.state());
        let governs = percent(governing.utilisation);
        let mut lines =
            vec![self.say(words::ReportGoverns { state, part: &governing.part, percent: governs })];
        lines.extend(self.assessment.beyond.as_ref().map(|beyond| self.say(tongue::beyond(beyond))));
        lines.push(self.say(margin(governing)));
        let attitude = tongue::attitude(hang.pitch, hang.roll);
        lines.push(self.say(words::ReportHangs { mass: &self.load.mass, attitude }));
        if let [first, second] = hang.hooks.as_slice() {
            let (one, other) = (&first.name, &second.name);
            let (carries, carries_too) = (self.force(first.load), self.force(second.load));
            lines.push(self.say(words::ReportHooks { one, carries, other, carries_too }));
        }
        lines.push(String::new());
        lines.extend(self.legs(hang));
        lines.push(String::new());
        if hang.legs.len() > 1 {
            lines.push(self.say(words::ReportSharing));
            lines.push(self.say(words::ReportByRules { rules: by_rules(hang, true) }));
        }
        for held in hang.held.iter().skip(1).filter(|held| held.over()) {
            let (part, percent) = (&held.part, percent(held.utilisation));
            lines.push(self.say(words::ReportAlsoOver { part, percent, margin: margin(held) }));
        }
        if !links.is_empty() {
            lines.extend([String::new(), self.say(words::ReportOneLink)]);
        }
        lines.extend(links.iter().flat_map(|effect| self.link(effect)));
        lines
    }

    /// The legs as columns, as wide as what stands in them.
    fn legs(&self, hang: &Hang) -> Vec<String> {
        let worst = |leg: &LegLoad| match leg.worst_case {
            Some(worst) => self.force(worst).to_string(),
            None => self.say(words::ReportNoBound),
        };
        let head: [Saying; 6] = [
            words::ColumnLeg.into(),
            words::ReportCarries.into(),
            words::ReportOfRating.into(),
            words::ReportOf.into(),
            words::ReportAtWorst.into(),
            words::ReportFromHorizontal.into(),
        ];
        let rows: Vec<[String; 6]> = std::iter::once(head.map(|head| self.say(head)))
            .chain(hang.legs.iter().map(|leg| {
                [
                    leg.name.to_string(),
                    if leg.slack {
                        self.say(words::ReportSlack)
                    } else {
                        self.force(leg.tension).to_string()
                    },
                    percent(leg.utilisation),
                    self.force(leg.rated).to_string(),
                    worst(leg),
                    format!("{:.1}°", leg.from_horizontal.value()),
                ]
            }))
            .collect();
        let width = |column: usize| {
            rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
        };
        let line = |row: &[String; 6]| {
            let cells = row.iter().enumerate().map(|(column, cell)| {
                let width = width(column);
                if column == 0 { format!("{cell:<width$}") } else { format!("{cell:>width$}") }
            });
            cells.collect::<Vec<_>>().join("  ")
        };
        rows.iter().map(line).collect()
    }

    fn link(&self, effect: &LinkEffect) -> Vec<String> {
        let changes = [(1, &effect.one_more), (-1, &effect.one_less)];
        let told = changes.into_iter().filter_map(|(by, change)| {
            let change = change.as_ref()?;
            let (leg, link) = (&effect.leg, effect.seated.saturating_add_signed(by).to_string());
            Some(match change {
                LinkChange::Hangs { pitch, roll, largest: (most, tension), over_limit } => {
                    let (attitude, tension) = (tongue::attitude(*pitch, *roll), self.force(*tension));
                    match over_limit {
                        false => self.say(words::SlipLink { leg, link, attitude, most, tension }),
                        true => self.say(words::SlipLinkOver { leg, link, attitude, most, tension }),
                    }
                }
                LinkChange::Infeasible => self.say(words::SlipLinkFalls { leg, link }),
            })
        });
        told.collect()
    }

    fn force(&self, newtons: Newtons) -> Quantity {
        force_in(newtons, self.unit)
    }
}

/// What a part carries, what it may, and what is left.
fn margin(held: &Held) -> Saying {
    let margin = held.margin();
    let unit = held.rated.unit();
    let carries = force_in(held.carries, unit);
    let rated: Saying = match &held.source {
        Some(source) => words::RatedFrom { rated: &held.rated, source }.into(),
        None => Saying::verbatim(held.rated),
    };
    if held.over() {
        let left = force_in(Newtons::new(-margin.value()).unwrap_or_default(), unit);
        words::ReportTooMuch { carries, rated, left }.into()
    } else {
        words::ReportToSpare { carries, rated, left: force_in(margin, unit) }.into()
    }
}

/// What the handbooks' rules say of a load: `if three legs carry (chain tables), 87 %; if two carry (naval rule), 130 %`.
pub(super) fn by_rules(hang: &Hang, with_books: bool) -> Saying {
    let (three, two) = (percent(hang.rules.three_leg), percent(hang.rules.two_leg));
    match (hang.most_legs >= 3, with_books) {
        (true, true) => words::RulesBothBooks { three, two }.into(),
        (true, false) => words::RulesBoth { three, two }.into(),
        (false, true) => words::RulesTwoBooks { two }.into(),
        (false, false) => words::RulesTwo { two }.into(),
    }
}
