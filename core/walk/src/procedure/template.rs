//! A small file to begin with, and what changed between two editions of one.

use std::collections::{BTreeMap, BTreeSet};

use super::Procedure;
use super::expand::{Card, Deficiency, Expanded, Point};
use slingseal_catalogue::{Language, Saying, tags as words};
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
#[derive(Clone, Debug, Default)]
pub struct Changes {
    /// A line each, in the order of the newer walk, what went at the end; then what changed in other languages of the texts.
    pub lines: Vec<Saying>,
}

impl Changes {
    /// Compares two editions as a reader of `first` walks them, and then their texts in every other language: whoever approves
    /// an edition approves all that it says. Ids are what tells that a point is the same one.
    pub fn between(old: &Procedure, new: &Procedure, first: Language) -> Self {
        let mut changes = Self::default();
        changes.walks(&old.expand(first), &new.expand(first));
        // A text that a file does not say in a language is told in English: that is no second change.
        let mut known: BTreeSet<String> = changes.lines.iter().map(|line| line.say(first)).collect();
        for other in Language::all().filter(|other| *other != first) {
            let mut texts = Self::default();
            texts.texts(&old.expand(other), &new.expand(other));
            texts.lines.retain(|line| known.insert(line.say(first)));
            changes.lines.append(&mut texts.lines);
        }
        changes
    }

    fn walks(&mut self, old: &Expanded, new: &Expanded) {
        self.said(words::ChangedId.into(), "", old.id.as_str(), new.id.as_str());
        self.said(words::ChangedVersion.into(), "", &old.version.to_string(), &new.version.to_string());
        self.head(old, new);
        self.said(words::ChangedSubject.into(), "", old.subject.word(), new.subject.word());
        let (was, is) = (cards(old), cards(new));
        for card in &new.cards {
            match was.get(card.id.as_str()) {
                None => self.whole("+", card),
                Some(before) => self.card(before, card),
            }
        }
        for card in old.cards.iter().filter(|card| !is.contains_key(card.id.as_str())) {
            self.whole("-", card);
        }
        let order = |plan: &Expanded, other: &BTreeMap<&str, &Card>| -> Vec<String> {
            let both = plan.cards.iter().filter(|card| other.contains_key(card.id.as_str()));
            both.map(|card| card.id.clone()).collect()
        };
        if order(old, &is) != order(new, &was) {
            self.lines.push(words::ChangedOrder.into());
        }
    }

    /// The texts alone, of what is in both.
    fn texts(&mut self, old: &Expanded, new: &Expanded) {
        self.head(old, new);
        let was = cards(old);
        for card in &new.cards {
            let Some(before) = was.get(card.id.as_str()) else { continue };
            self.motion(before, card);
            for point in &card.points {
                if let Some(before) = before.point(&point.id) {
                    self.prompt(before, point);
                }
            }
        }
    }

    fn head(&mut self, old: &Expanded, new: &Expanded) {
        self.said(words::ChangedTitle.into(), "", &old.title, &new.title);
        let about = |plan: &Expanded| plan.about.clone().unwrap_or_default();
        self.said(words::ChangedAbout.into(), "", &about(old), &about(new));
    }

    fn whole(&mut self, sign: &str, card: &Card) {
        self.lines.push(words::ChangeCard { sign, id: &card.id, title: &card.title }.into());
        for point in &card.points {
            self.one(&format!("{sign}  "), point);
        }
    }

    fn one(&mut self, sign: &str, point: &Point) {
        let (id, prompt, source) = (point.id.as_str(), &point.prompt, point.mark.saying());
        self.lines.push(words::ChangePoint { sign, id, prompt, source }.into());
    }

    fn card(&mut self, old: &Card, new: &Card) {
        self.motion(old, new);
        for point in &new.points {
            match old.point(&point.id) {
                None => self.one("+", point),
                Some(before) => self.point(before, point),
            }
        }
        for point in old.points.iter().filter(|point| new.point(&point.id).is_none()) {
            self.one("-", point);
        }
    }

    fn motion(&mut self, old: &Card, new: &Card) {
        let name = words::ChangedCard { id: &new.id };
        self.said_of(words::ChangedTitle.into(), name.into(), &old.title, &new.title);
        self.said_of(words::ChangedMotion.into(), name.into(), &old.motion, &new.motion);
    }

    fn prompt(&mut self, old: &Point, new: &Point) {
        let name = words::ChangedPoint { id: new.id.as_str() };
        self.said_of(words::ChangedPrompt.into(), name.into(), &old.prompt, &new.prompt);
        self.said_of(words::ChangedSpoken.into(), name.into(), &old.speak, &new.speak);
    }

    fn point(&mut self, old: &Point, new: &Point) {
        let name = || Saying::from(words::ChangedPoint { id: new.id.as_str() });
        self.prompt(old, new);
        if old.kind != new.kind {
            self.turned(words::ChangedAnswer.into(), name(), old.kind.saying(), new.kind.saying());
        }
        if old.mark != new.mark {
            self.turned(words::ChangedSource.into(), name(), old.mark.saying(), new.mark.saying());
        }
        if old.rules != new.rules {
            self.lines.push(words::ChangedRules { of: name() }.into());
        }
        let deficiency = |sign: &str, known: &Deficiency| {
            Saying::from(words::ChangeDeficiency {
                sign,
                of: name(),
                name: &known.name,
                fate: known.fate.key(),
            })
        };
        for known in &new.deficiencies {
            match old.deficiencies.iter().find(|other| other.name == known.name) {
                None => self.lines.push(deficiency("+", known)),
                Some(other) => {
                    let what = Saying::verbatim(format!("\"{}\"", known.name));
                    self.said_of(what, name(), other.fate.key(), known.fate.key());
                }
            }
        }
        for gone in
            old.deficiencies.iter().filter(|one| !new.deficiencies.iter().any(|other| other.name == one.name))
        {
            self.lines.push(deficiency("-", gone));
        }
    }

    fn said(&mut self, what: Saying, of: &str, old: &str, new: &str) {
        self.said_of(what, Saying::verbatim(of), old, new);
    }

    fn said_of(&mut self, what: Saying, of: Saying, old: &str, new: &str) {
        if old != new {
            self.turned(what, of, shown(old), shown(new));
        }
    }

    fn turned(&mut self, what: Saying, of: Saying, old: Saying, new: Saying) {
        let what = if of == Saying::verbatim("") { what } else { Saying::joined([of, what], ", ") };
        self.lines.push(words::ChangeFromTo { what, old, new }.into());
    }
}

fn shown(text: &str) -> Saying {
    if text.is_empty() { words::ChangedNothing.into() } else { Saying::verbatim(text) }
}

fn cards(plan: &Expanded) -> BTreeMap<&str, &Card> {
    plan.cards.iter().map(|card| (card.id.as_str(), card)).collect()
}

#[cfg(test)]
mod tests {
    use super::super::{BUILT_IN, RELEASED, check};
    use super::*;

    fn held(text: &str) -> Procedure {
        check(text).unwrap_or_else(|faults| panic!("{faults}"))
    }

    fn changed(old: &str, new: &str, language: Language) -> Vec<String> {
        let changes = Changes::between(&held(old), &held(new), language);
        changes.lines.iter().map(|line| line.say(language)).collect()
    }

    fn expanded(text: &str) -> Expanded {
        held(text).expand(Language::English)
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
        assert_eq!(changed(&old, &old, Language::English), Vec::<String>::new());
        let new = old
            .replace("version = 1", "version = 2")
            .replace("Whole from end to end\"", "Whole, both ends\"")
            .replace("in_place = [\"twisted\"]", "reject = [\"twisted\"]\npiece = \"sling\"")
            .replace("id = \"weight\"", "id = \"paper\"");
        let changes = changed(&old, &new, Language::English);
        let first: Vec<&str> = changes.iter().take(4).map(String::as_str).collect();
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
            changes.iter().any(|line| line == "~ point leg-2.trace.whole, \"twisted\": in_place -> reject")
        );
        // The other way round, the signs are turned.
        assert_eq!(changed(&new, &old, Language::English).len(), changes.len());
        // To a Spanish reader in Spanish.
        let spanish = changed(&old, &new, Language::Spanish);
        assert!(spanish.iter().any(|line| line == "~ versión: 1 -> 2"), "{spanish:?}");
    }

    /// Who approves an edition approves what it says in every language, whichever the approver reads.
    #[test]
    fn a_text_that_changed_in_one_language_alone_is_told_in_all() {
        let old = BUILT_IN.iter().find(|plain| plain.id == "bag").unwrap().text;
        let new = old.replacen("es.title = \"", "es.title = \"No ", 1);
        assert_ne!(old, new, "the list says titles in Spanish");
        for reader in [Language::English, Language::Spanish] {
            let told = changed(old, &new, reader);
            assert!(told.len() == 1 && told[0].contains("-> No "), "{reader:?}: {told:?}");
        }
    }

    /// The one-card forgery: every card that it leaves out is named.
    #[test]
    fn a_list_that_was_cut_short_shows() {
        for plain in BUILT_IN {
            let whole = expanded(plain.text);
            let mut cut = whole.clone();
            cut.cards.truncate(1);
            let mut changes = Changes::default();
            changes.walks(&whole, &cut);
            let lines = changes.lines.iter().map(|line| line.say(Language::English));
            assert_eq!(
                lines.filter(|line| line.starts_with("- card")).count(),
                whole.cards.len() - 1,
                "{}",
                plain.id
            );
        }
        for old in RELEASED {
            let new = BUILT_IN.iter().find(|new| new.id == old.id).unwrap();
            assert!(!changed(old.text, new.text, Language::English).is_empty());
        }
    }
}
