//! The examples that are shipped are answered, each as its text says.

use slingseal_rigging::{
    LinkChange, Options, RiggedLoad, SeatedLink, Verdict, assess, json, link_effects, read, report,
};

use slingseal_words::Language;

use crate::support::out_of_balance;

fn example(name: &str) -> RiggedLoad {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/rigging/examples");
    let text = std::fs::read_to_string(folder.join(name)).expect("the example is shipped");
    read(&text).unwrap_or_else(|faults| panic!("{name}: {faults}"))
}

#[test]
fn every_shipped_example_hangs_in_balance() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/rigging/examples");
    let mut seen = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let load = example(&name);
        let assessment = assess(&load);
        assert_eq!(assessment.verdict, Verdict::WithinLimits, "{name}: {:?}", assessment.reason);
        assert!(out_of_balance(&load, &assessment) < 1e-9, "{name}");
        seen += 1;
    }
    assert_eq!(seen, 4);
}

#[test]
fn the_vehicle_shows_what_a_link_does() {
    let load = example("light-vehicle.toml");
    let effects = link_effects(&load, &Options::default());
    assert_eq!(effects.len(), 4);
    let before = assess(&load).hang.unwrap().pitch.value();
    // Front legs shorter: the nose comes up.
    for effect in effects.iter().take(2) {
        let Some(LinkChange::Hangs { pitch, .. }) = &effect.one_more else { panic!("{effect:?}") };
        assert!(pitch.value() > before);
        let Some(LinkChange::Hangs { pitch, .. }) = &effect.one_less else { panic!("{effect:?}") };
        assert!(pitch.value() < before);
    }
    let links: Vec<_> = ["1=20", "2=20"].iter().map(|text| SeatedLink::parse(text).unwrap()).collect();
    let changed = assess(&load.with_links(&links).unwrap()).hang.unwrap();
    assert!(changed.pitch.value() > before + 2.0);
}

#[test]
fn the_bag_is_governed_by_the_bag() {
    let assessment = assess(&example("cargo-bag.toml"));
    let hang = assessment.hang.unwrap();
    assert_eq!(hang.held[0].part.to_string(), "cargo bag");
    assert!((hang.held[0].utilisation.value() - 1_850.0 / 2_000.0).abs() < 1e-9);
}

#[test]
fn the_same_load_gives_the_same_bytes() {
    for name in ["light-vehicle.toml", "cargo-bag.toml", "bridge-beam.toml"] {
        let load = example(name);
        let links = link_effects(&load, &Options::default());
        let once = (json(&assess(&load), &links), report(&load, &assess(&load), &links, Language::English));
        assert_eq!(
            once,
            (json(&assess(&load), &links), report(&load, &assess(&load), &links, Language::English))
        );
    }
}

/// Other programs read the same numbers as people do.
#[test]
fn the_document_says_what_the_assessment_says() {
    let load = example("light-vehicle.toml");
    let assessment = assess(&load);
    let hang = assessment.hang.as_ref().unwrap();
    let document: serde_json::Value =
        serde_json::from_str(&json(&assessment, &link_effects(&load, &Options::default()))).unwrap();
    let is = |pointer: &str, value: f64| {
        let told =
            document.pointer(pointer).unwrap_or_else(|| panic!("{pointer}: {document:#}")).as_f64().unwrap();
        assert!((told - value).abs() <= 1e-9, "{pointer}: {told} and {value}");
    };
    is("/weight_n", assessment.weight.value());
    is("/attitude/pitch_deg", hang.pitch.value());
    is("/hooks/0/load_n", hang.hooks[0].load.value());
    for (at, leg) in hang.legs.iter().enumerate() {
        is(&format!("/legs/{at}/tension_n"), leg.tension.value());
        is(&format!("/legs/{at}/worst_case_n"), leg.worst_case.unwrap().value());
        is(&format!("/legs/{at}/from_horizontal_deg"), leg.from_horizontal.value());
        is(&format!("/legs/{at}/utilisation"), leg.utilisation.value());
    }
    is("/rules/two_leg", hang.rules.two_leg.value());
    assert_eq!(document.pointer("/links/0/seated").and_then(serde_json::Value::as_u64), Some(3));
    assert!(document.pointer("/links/0/one_more/pitch_deg").unwrap().as_f64().unwrap() > hang.pitch.value());
}
