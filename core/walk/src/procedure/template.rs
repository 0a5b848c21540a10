//! A small file to begin with, and what changed between two editions of one.

use std::collections::BTreeMap;
use std::fmt::{self, Write as _};

use super::expand::{Card, Expanded, Point};
use slingseal_words::ProcedureId;

/// A small commented file of this id that holds: one round, one shared point, two cards. A unit writes its own over it, from its
/// governing manual.
pub fn template(id: &ProcedureId) -> String {
    TEMPLATE.replace("{ID}", id.as_str())
}

const TEMPLATE: &str = r#"# A procedure: the list that an inspector walks. Write over what stands here, from your governing manual; the manual rules.
# Check it at each save:    slingseal procedure check --watch {ID}.toml
# See the walk it makes:    slingseal procedure add {ID}.toml, then slingseal procedure show {ID}
# It counts at the hook once your authority approves it:    slingseal authority approve {ID}.toml

id = "{ID}"                        # letters, digits, - / . ; at most 24
version = 1                        # count up with each edition: an authority approves one text of a version
title = "Load on two legs"
es.title = "Carga con dos ramales" # Spanish, optional: under es, in any table
source = "user's own"              # where points come from that do not say so: "published NAME", "common practice", "user's own"

[[round]]                          # written once, walked for each value
name = "leg"
values = ["1", "2"]

[[point]]                          # a point that several cards use
id = "whole"
prompt = "Whole from end to end"
speak = "The leg is whole from end to end: no cut, no wear, no twist."
in_place = ["twisted"]             # corrected where the load stands, and looked at again
rerig = ["cut, worn or crushed"]   # not fit: rigged and inspected anew

[[station]]                        # a place that the inspector stops at
id = "load"
title = "The load"

[[station.card]]                   # one physical motion: one trace, one look
id = "tag"
title = "Read the tag"
motion = "Read the tag aloud and hold it against the load."

[[station.card.point]]
id = "people"
prompt = "Nobody rides on it or hangs from it"
new_tag = ["people are to be carried"]

[[station.card.point]]
id = "weight"
prompt = "Weight and aircraft are this load's"
new_tag = ["the tag is of another load"]

[[station]]
id = "leg"
each = "leg"                       # becomes leg-1 and leg-2
title = "Leg {leg}"

[[station.card]]
id = "trace"
title = "Trace leg {leg}"
motion = "Trace leg {leg} with both hands from the hook to the load."
use = ["whole"]                    # shared points first, then the card's own
"#;

/// What an approver approves: cards and points that came, went or changed between two editions.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Changes {
    /// A line each, in the order of the newer walk, what went at the end.
    pub lines: Vec<String>,
}

impl Changes {
    /// Compares two walks in one language. Ids are what tells that a point is the same one.
    pub fn between(old: &Expanded, new: &Expanded) -> Self {
        let mut changes = Self::default();
        changes.said("id", "", old.id.as_str(), new.id.as_str());
        changes.said("version", "", &old.version.to_string(), &new.version.to_string());
        changes.said("title", "", &old.title, &new.title);
        changes.said(
            "about",
            "",
            &old.about.clone().unwrap_or_default(),
            &new.about.clone().unwrap_or_default(),
        );
        changes.said("subject", "", old.subject.word(), new.subject.word());
        let (was, is) = (cards(old), cards(new));
        for card in &new.cards {
            match was.get(card.id.as_str()) {
                None => changes.whole("+", card),
                Some(before) => changes.card(before, card),
            }
        }
        for card in old.cards.iter().filter(|card| !is.contains_key(card.id.as_str())) {
            changes.whole("-", card);
        }
        let order = |plan: &Expanded, other: &BTreeMap<&str, &Card>| -> Vec<String> {
            let both = plan.cards.iter().filter(|card| other.contains_key(card.id.as_str()));
            both.map(|card| card.id.clone()).collect()
        };
        if order(old, &is) != order(new, &was) {
            changes.lines.push("~ the cards are walked in another order".into());
        }
        changes
    }

    fn whole(&mut self, sign: &str, card: &Card) {
        self.lines.push(format!("{sign} card {}: {}", card.id, card.title));
        for point in &card.points {
            self.lines.push(format!("{sign}   point {}: {} ({})", point.id, point.prompt, point.mark));
        }
    }

    fn card(&mut self, old: &Card, new: &Card) {
        let name = format!("card {}", new.id);
        self.said("title", &name, &old.title, &new.title);
        self.said("motion", &name, &old.motion, &new.motion);
        for point in &new.points {
            match old.point(&point.id) {
                None => {
                    self.lines.push(format!("+ point {}: {} ({})", point.id, point.prompt, point.mark));
                }
                Some(before) => self.point(before, point),
            }
        }
        for point in old.points.iter().filter(|point| new.point(&point.id).is_none()) {
            self.lines.push(format!("- point {}: {} ({})", point.id, point.prompt, point.mark));
        }
    }

    fn point(&mut self, old: &Point, new: &Point) {
        let name = format!("point {}", new.id);
        self.said("prompt", &name, &old.prompt, &new.prompt);
        self.said("spoken", &name, &old.speak, &new.speak);
        self.said("answer", &name, &old.kind.to_string(), &new.kind.to_string());
        self.said("source", &name, &old.mark.to_string(), &new.mark.to_string());
        self.said("rules", &name, &format!("{:?}", old.rules), &format!("{:?}", new.rules));
        for known in &new.deficiencies {
            match old.deficiencies.iter().find(|other| other.name == known.name) {
                None => {
                    self.lines.push(format!("+ {name}: deficiency \"{}\" ({})", known.name, known.fate.key()))
                }
                Some(other) => {
                    self.said(&format!("\"{}\"", known.name), &name, other.fate.key(), known.fate.key())
                }
            }
        }
        for gone in
            old.deficiencies.iter().filter(|one| !new.deficiencies.iter().any(|other| other.name == one.name))
        {
            self.lines.push(format!("- {name}: deficiency \"{}\" ({})", gone.name, gone.fate.key()));
        }
    }

    fn said(&mut self, what: &str, of: &str, old: &str, new: &str) {
        if old != new {
            let mut line = "~ ".to_owned();
            if !of.is_empty() {
                let _ = write!(line, "{of}, ");
            }
            let _ = write!(line, "{what}: {} -> {}", shown(old), shown(new));
            self.lines.push(line);
        }
    }
}

fn shown(text: &str) -> &str {
    if text.is_empty() { "nothing" } else { text }
}

fn cards(plan: &Expanded) -> BTreeMap<&str, &Card> {
    plan.cards.iter().map(|card| (card.id.as_str(), card)).collect()
}

impl fmt::Display for Changes {
    /// A line a change; every line ends with a line feed.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.lines.is_empty() {
            return f.write_str("Nothing that is walked has changed.\n");
        }
        self.lines.iter().try_for_each(|line| writeln!(f, "{line}"))
    }
}

#[cfg(test)]
mod tests {
    use super::super::{BUILT_IN, Language, RELEASED, check};
    use super::*;

    fn expanded(text: &str) -> Expanded {
        check(text).unwrap_or_else(|faults| panic!("{faults}")).expand(Language::English)
    }

    #[test]
    fn the_template_holds_under_any_id() {
        for id in ["a", "crate-2-leg", "x/1.2", "123456789012345678901234"] {
            let id = ProcedureId::new(id).unwrap();
            let plan = expanded(&template(&id));
            assert_eq!((plan.id, plan.cards.len()), (id, 3));
        }
    }

    #[test]
    fn what_came_went_and_changed_is_named() {
        let old = template(&ProcedureId::new("crate").unwrap());
        let same = Changes::between(&expanded(&old), &expanded(&old));
        assert_eq!(same.to_string(), "Nothing that is walked has changed.\n");
        let new = old
            .replace("version = 1", "version = 2")
            .replace("Whole from end to end\"", "Whole, both ends\"")
            .replace("in_place = [\"twisted\"]", "reject = [\"twisted\"]\npiece = \"sling\"")
            .replace("id = \"weight\"", "id = \"paper\"");
        let changes = Changes::between(&expanded(&old), &expanded(&new));
        let first: Vec<&str> = changes.lines.iter().take(4).map(String::as_str).collect();
        assert_eq!(
            first,
            [
                "~ version: 1 -> 2",
                "+ point load.tag.paper: Weight and aircraft are this load's (user's own)",
                "- point load.tag.weight: Weight and aircraft are this load's (user's own)",
                "~ point leg-1.trace.whole, prompt: Whole from end to end -> Whole, both ends",
            ]
        );
        assert!(
            changes
                .lines
                .iter()
                .any(|line| line == "~ point leg-2.trace.whole, \"twisted\": in_place -> reject")
        );
        // The other way round, the signs are turned.
        let back = Changes::between(&expanded(&new), &expanded(&old));
        assert_eq!(back.lines.len(), changes.lines.len());
    }

    /// The one-card forgery: every card that it leaves out is named.
    #[test]
    fn a_list_that_was_cut_short_shows() {
        for plain in BUILT_IN {
            let whole = expanded(plain.text);
            let mut cut = whole.clone();
            cut.cards.truncate(1);
            let went =
                Changes::between(&whole, &cut).lines.iter().filter(|line| line.starts_with("- card")).count();
            assert_eq!(went, whole.cards.len() - 1, "{}", plain.id);
        }
        for old in RELEASED {
            let new = BUILT_IN.iter().find(|new| new.id == old.id).unwrap();
            assert!(!Changes::between(&expanded(old.text), &expanded(new.text)).lines.is_empty());
        }
    }
}
