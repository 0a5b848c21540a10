//! A share of what is allowed, wherever a person reads it: rounded up, and on the side of 100 % where the verdict is.

use slingseal_rigging::{
    Leg, Options, RiggedLoad, Rule, State, Verdict, Warning, assess, json, link_effects, report, svg,
};
use slingseal_words::{Language, Unit};

use crate::support::{hang, leg, load, of, rating};

const BOTH: [Language; 2] = [Language::English, Language::Spanish];

/// Two tonnes each, and a tonne below them.
fn legs(rated_kg: f64) -> Vec<Leg> {
    let four = [[1.0, 1.0], [1.0, -1.0], [-1.0, -1.0], [-1.0, 1.0]];
    let legs = four.iter().zip(["1", "2", "3", "4"]);
    let legs = legs.map(|([x, y], name)| leg(name, [x * 1e3, y * 1e3, 0.0], 3_000.0, 1.0));
    legs.map(|leg| Leg { rated: Some(rating(rated_kg, Unit::Kg)), ..leg }).collect()
}

/// A load of a tonne, under an allowable that it is so much of.
fn of_allowable(share: f64) -> RiggedLoad {
    let allowable = of(1_000.0 / share, Unit::Kg);
    RiggedLoad {
        allowable: Some(slingseal_rigging::Rating { value: allowable, source: None }),
        ..level(2_000.0)
    }
}

fn level(rated_kg: f64) -> RiggedLoad {
    load(1_000.0, [0.0, 0.0, -500.0], legs(rated_kg))
}

/// All words of a load: the report's, the picture's description, the warnings'.
fn words(load: &RiggedLoad, language: Language) -> String {
    let assessment = assess(load);
    let links = link_effects(load, &Options::default());
    let drawn = svg(load, &assessment, language);
    let told: Vec<String> =
        assessment.warnings.iter().map(|warning| warning.saying().say(language)).collect();
    format!("{}\n{drawn}\n{}", report(load, &assessment, &links, language), told.join("\n"))
}

#[test]
fn a_load_at_a_third_of_a_percent_over_is_never_told_at_the_limit() {
    let load = of_allowable(1.003);
    let assessment = assess(&load);
    assert_eq!(assessment.verdict, Verdict::OverLimit);
    for language in BOTH {
        let words = words(&load, language);
        assert!(!words.contains("100 %"), "{words}");
        // The report's first line and the picture's description; the picture draws its letters as shapes.
        assert!(words.matches("101 %").count() >= 2, "{words}");
    }
    let told: serde_json::Value = serde_json::from_str(&json(&assessment, &[])).unwrap();
    let exact = told["governing"]["utilisation"].as_f64().unwrap();
    assert!((exact - 1.003).abs() < 1e-6 && exact > 1.0029, "{exact} is not rounded");
}

#[test]
fn a_load_within_its_limit_is_never_told_over_it() {
    for share in [0.996, 1.0] {
        let load = of_allowable(share);
        assert_eq!(assess(&load).state(), State::WithinLimits);
        for language in BOTH {
            let words = words(&load, language);
            assert!(words.contains("100 %") && !words.contains("101 %"), "{words}");
        }
    }
}

/// The rule for two legs and the worst case, as a warning and as what the load is over by.
#[test]
fn a_rule_that_is_passed_by_little_is_never_told_at_the_limit() {
    let plain = hang(&level(2_000.0));
    let (_, worst) = plain.worst(1.0).unwrap();
    for (rule, share) in [(Rule::TwoLegs, plain.rules.two_leg), (Rule::WorstCase, worst)] {
        let load = RiggedLoad { rule: Some(rule), ..level(2_000.0 * share.value() / 1.003) };
        let assessment = assess(&load);
        assert_eq!(assessment.state(), State::AtRestOnly, "{rule:?}");
        let warned = |warning: &Warning| matches!(warning, Warning::Rule { .. } | Warning::WorstCase { .. });
        assert!(assessment.warnings.iter().any(warned), "{:?}", assessment.warnings);
        for language in BOTH {
            let words = words(&load, language);
            assert!(words.contains("101 %") && !words.contains("100 %"), "{words}");
        }
    }
}
