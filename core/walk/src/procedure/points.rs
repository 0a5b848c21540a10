//! Every point of a procedure as a table, for whoever approves it: what is asked, how it is answered, where it comes from,
//! what may be found and what becomes of it.

use std::fmt::Write as _;

use super::{Expanded, Fate, Language, Mark};

/// What stands above the tables.
const HEAD: &str = "\
# Points of the procedures, for an approver

Made by `slingseal procedure table`. The governing manual for a load rules over every list here. **published** names the
document that a point was read in; \"common practice\" has no source; \"user's own\" is for the unit to fill from its manual.

";

/// The tables of some procedures, one below the other.
pub fn points_document(plans: impl IntoIterator<Item = Expanded>) -> String {
    plans.into_iter().fold(HEAD.to_owned(), |out, plan| out + &plan.points_table())
}

impl Expanded {
    /// The table in Markdown. Points that rounds repeat stand once for each, as they are inspected.
    pub fn points_table(&self) -> String {
        let mut out = String::new();
        let (cards, points) = (self.cards.len(), self.points());
        // Writing to a String cannot fail.
        let _ = writeln!(out, "## {} ({} {})\n", self.title, self.id, self.version);
        if let Some(about) = &self.about {
            let _ = writeln!(out, "{about}\n");
        }
        let _ = writeln!(out, "{cards} cards, {points} points. SHA-256 of the file: {}\n", self.digest);
        for card in &self.cards {
            let _ = writeln!(out, "**{}. {}** {}\n", card.number, card.title, card.motion);
            let _ = writeln!(out, "| point | asked | answered | source | found, and what becomes of it |");
            let _ = writeln!(out, "|---|---|---|---|---|");
            for point in &card.points {
                let mut found = Vec::new();
                for fate in Fate::ALL {
                    let of_fate = point.deficiencies.iter().filter(|known| known.fate == fate);
                    let names: Vec<&str> = of_fate.map(|known| known.shown.as_str()).collect();
                    if !names.is_empty() {
                        found.push(format!("{}: {}", fate.words(self.language), names.join(", ")));
                    }
                }
                let rules = &point.rules;
                let mut answered = vec![point.kind.to_string()];
                answered.extend(rules.when.as_ref().map(|when| format!("only where the tag says {when}")));
                answered.extend(rules.may_not_apply.then(|| "or not applicable, with a reason".to_owned()));
                answered
                    .extend(rules.again_card.then(|| "a correction opens the whole card again".to_owned()));
                let row = [
                    format!("`{}`", point.id),
                    point.prompt.clone(),
                    answered.join("; "),
                    mark(&point.mark, self.language),
                    found.join("; "),
                ];
                let row: Vec<String> = row.iter().map(|cell| cell.replace('|', "\\|")).collect();
                let _ = writeln!(out, "| {} |", row.join(" | "));
            }
            out.push('\n');
        }
        out
    }
}

/// A published source stands out: an approver looks at the others first.
fn mark(mark: &Mark, language: Language) -> String {
    match mark {
        Mark::Published(name) => format!("**{}** {name}", language.pick("published", "publicado")),
        other => other.to_string(),
    }
}
