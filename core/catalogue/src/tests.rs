//! Every folder against the English one: the same messages, the same arguments, nothing that breaks a screen.

use std::collections::{BTreeMap, BTreeSet};

use fluent_bundle::FluentArgs;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser::parse;

use crate::say::bundle;
use crate::{AREAS, Argument, FOLDERS, Folder, Language, Saying, judgement};

/// What a message is made of.
#[derive(Debug, Default, PartialEq, Eq)]
struct Made {
    arguments: BTreeSet<String>,
    /// Chooses by how many.
    selectors: BTreeSet<String>,
    text: String,
}

fn area(folder: &Folder, number: usize) -> BTreeMap<String, Made> {
    let text = folder.areas[number];
    let place = format!("{}/{}.ftl", folder.tag, AREAS[number]);
    let resource = parse(text).unwrap_or_else(|(_, errors)| panic!("{place}: {errors:?}"));
    let mut messages = BTreeMap::new();
    for entry in &resource.body {
        match entry {
            Entry::Message(message) => {
                assert!(message.attributes.is_empty(), "{place}: {} has attributes", message.id.name);
                let mut made = Made::default();
                let pattern = message.value.as_ref().unwrap_or_else(|| panic!("{place}: an empty message"));
                read(pattern, &mut made);
                let twice = messages.insert(message.id.name.to_owned(), made);
                assert!(twice.is_none(), "{place}: {} stands twice", message.id.name);
            }
            Entry::Junk { content } => panic!("{place}: {content}"),
            Entry::Term(term) => panic!("{place}: {} belongs into terms.ftl", term.id.name),
            _ => {}
        }
    }
    messages
}

fn read(pattern: &Pattern<&str>, made: &mut Made) {
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => made.text.push_str(value),
            PatternElement::Placeable { expression } => expression_of(expression, made),
        }
    }
}

fn expression_of(expression: &Expression<&str>, made: &mut Made) {
    match expression {
        Expression::Inline(inline) => inline_of(inline, made),
        Expression::Select { selector, variants } => {
            inline_of(selector, made);
            if let InlineExpression::VariableReference { id } = selector {
                made.selectors.insert(id.name.to_owned());
            }
            for variant in variants {
                read(&variant.value, made);
            }
        }
    }
}

fn inline_of(inline: &InlineExpression<&str>, made: &mut Made) {
    match inline {
        InlineExpression::VariableReference { id } => {
            made.arguments.insert(id.name.to_owned());
        }
        InlineExpression::Placeable { expression } => expression_of(expression, made),
        InlineExpression::StringLiteral { value } => made.text.push_str(value),
        InlineExpression::TermReference { .. } => {}
        other => panic!("the catalogue's messages use arguments, plurals and terms alone, not {other:?}"),
    }
}

#[test]
fn every_language_has_every_message_with_its_arguments() {
    let english = &FOLDERS[0];
    assert_eq!(english.tag, "en");
    let mut wrong = Vec::new();
    for folder in &FOLDERS[1..] {
        for (number, name) in AREAS.iter().enumerate() {
            let place = format!("{}/{name}.ftl", folder.tag);
            let (theirs, ours) = (area(folder, number), area(english, number));
            for (id, made) in &ours {
                match theirs.get(id) {
                    None => wrong.push(format!("{place}: {id} is missing")),
                    Some(said) if said.arguments != made.arguments => {
                        wrong.push(format!(
                            "{place}: {id} names {:?}, English {:?}",
                            said.arguments, made.arguments
                        ));
                    }
                    Some(_) => {}
                }
            }
            for id in theirs.keys().filter(|id| !ours.contains_key(*id)) {
                wrong.push(format!("{place}: English has no {id}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Three words that are the same on both sides were forgotten; shorter ones can be names.
#[test]
fn nothing_is_left_in_english() {
    let mut wrong = Vec::new();
    for folder in &FOLDERS[1..] {
        for (number, name) in AREAS.iter().enumerate() {
            let english = area(&FOLDERS[0], number);
            for (id, made) in area(folder, number) {
                let same = english.get(&id).is_some_and(|other| other.text.trim() == made.text.trim());
                let words = made.text.split_whitespace().filter(|word| word.chars().any(char::is_lowercase));
                if same && words.count() >= 3 {
                    wrong.push(format!("{}/{name}: {id}: {}", folder.tag, made.text));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// With the arguments as counts where the message chooses by them, for 0, 1 and many.
#[test]
fn every_message_can_be_said_in_every_language() {
    for language in Language::all().chain([Language::Pseudo]) {
        for number in 0..AREAS.len() {
            for (id, made) in area(&FOLDERS[language.folder()], number) {
                for count in [0_i64, 1, 5] {
                    let mut values = FluentArgs::new();
                    for argument in &made.arguments {
                        if made.selectors.contains(argument) {
                            values.set(argument.clone(), count);
                        } else {
                            values.set(argument.clone(), "17");
                        }
                    }
                    let bundle = bundle(number, language).expect("the catalogue fits its table");
                    let pattern =
                        bundle.get_message(&id).and_then(|message| message.value()).expect("it is there");
                    let mut errors = Vec::new();
                    let said = bundle.format_pattern(pattern, Some(&values), &mut errors);
                    assert!(errors.is_empty(), "{}: {id}: {errors:?}", language.code());
                    // Marks of direction and of joining are not seen and break a code, a column, a search.
                    let unseen = |letter: char| {
                        (letter.is_control() && letter != '\n')
                            || matches!(letter, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
                    };
                    assert!(!said.contains(unseen), "{}: {id}: {said:?}", language.code());
                    if language == Language::Pseudo {
                        assert!(!said.contains(|letter: char| letter.is_ascii_alphabetic()), "{id}: {said}");
                    }
                }
            }
        }
    }
}

#[test]
fn one_and_many_are_told_apart_in_each_language() {
    let corrected = |count: u16, language| judgement::ReasonCorrected { count }.say(language);
    assert_eq!(corrected(1, Language::English), "1 deficiency was found and corrected.");
    assert_eq!(corrected(3, Language::English), "3 deficiencies were found and corrected.");
    assert_eq!(corrected(1, Language::Spanish), "Se halló y corrigió 1 deficiencia.");
    assert_eq!(corrected(3, Language::Spanish), "Se hallaron y corrigieron 3 deficiencias.");
}

/// What is counted has a form for one, in each language. Left out: what is refused because it is far more than one, the length
/// of every walk, columns, and the demonstration's numbers, which are its own.
#[test]
fn what_is_counted_has_a_form_for_one() {
    const COUNTS: &[&str] = &[
        "count",
        "words",
        "found",
        "corrected",
        "revoked",
        "cards",
        "points",
        "completed",
        "known",
        "new",
        "seen",
        "left",
        "lifts",
        "inspections",
        "taken",
        "pairs",
        "length",
    ];
    const MANY: &[&str] = &[
        "too-",
        "-many",
        "many-",
        "more-",
        "error",
        "wanted",
        "walk-too-large",
        "keep-walk-to",
        "round-has",
        "ropes-",
        "cards-points",
        "cards-and-points",
        "you-looked-at-all",
        "cards-not-answered",
        "authorities-not-found",
    ];
    let mut wrong = Vec::new();
    for folder in FOLDERS {
        for (text, area) in folder.areas.iter().zip(AREAS).filter(|(_, area)| **area != "demo") {
            for line in text.lines().filter(|line| !line.starts_with([' ', '#', '}'])) {
                let Some((id, said)) = line.split_once(" = ") else { continue };
                for part in said.split("{ $").skip(1) {
                    let Some((name, behind)) = part.split_once(" } ") else { continue };
                    let noun: String = behind.chars().take_while(|letter| letter.is_lowercase()).collect();
                    let plural = noun.chars().count() > 3 && noun.ends_with('s') && !noun.ends_with("ss");
                    if COUNTS.contains(&name) && plural && !MANY.iter().any(|many| id.contains(many)) {
                        wrong.push(format!("{}/{area}: {id}: {name} {noun}", folder.tag));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_message_within_a_message_is_said_in_the_same_language() {
    let cause = judgement::VoidLoadMoved.saying();
    let voided = judgement::ReasonVoided { by: "GANNET 2", at: "261200Z NOV 26", cause };
    assert_eq!(
        voided.say(Language::English),
        "GANNET 2 voided the seal at 261200Z NOV 26: the load was moved."
    );
    assert_eq!(
        voided.say(Language::Spanish),
        "GANNET 2 anuló el sello a las 261200Z NOV 26: se movió la carga."
    );
    let both = Saying::joined([judgement::StateFit.saying(), Saying::verbatim("KM-014")], ", ");
    assert_eq!(both.say(Language::Spanish), "Apta, KM-014");
    assert_eq!(Argument::Count(2), crate::ToArgument::to_argument(&2_u8));
}

#[test]
fn a_language_is_chosen_by_code_or_locale_and_an_unknown_one_is_told() {
    for spanish in ["es", "ES", "es-MX", "es_MX.UTF-8", "es_ES@euro"] {
        assert_eq!(Language::named(spanish), Ok(Language::Spanish), "{spanish}");
    }
    for other in ["C", "POSIX", "", "fr_FR.UTF-8", "C.UTF-8"] {
        assert_eq!(Language::of_locale(other), Language::English, "{other}");
    }
    let refused = Language::named("fr").unwrap_err().to_string();
    assert_eq!(refused, "there is no language \"fr\" here; say one of en (English), es (Español)");
    assert_eq!(Language::named("en-XA"), Ok(Language::Pseudo));
}

/// What is plain is not of the catalogue; what is of it is longer.
#[test]
fn the_pseudo_language_is_longer_and_never_plain() {
    let english = judgement::ReasonOtherLoad { sealed: "KM-014", tag: "KM-015" }.say(Language::English);
    let pseudo = judgement::ReasonOtherLoad { sealed: "KM-014", tag: "KM-015" }.say(Language::Pseudo);
    assert_eq!(pseudo, "Ŧĥéé šééààł îîš ƒööŕ łööààđ KM-014; ŧĥîîš îîš łööààđ KM-015.");
    assert!(pseudo.chars().count() * 5 > english.chars().count() * 6);
}
