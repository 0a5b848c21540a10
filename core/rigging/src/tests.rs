use slingseal_catalogue::Language;

use super::{Options, Reach, Verdict, assess, json, link_effects, read, report};

const EN: Language = Language::English;

pub(super) const SAMPLE: &str = r#"
[load]
mass = "5000 lb"
centre = ["0 in", "0 in", "20 in"]
[[hook]]
name = "main"
at = ["0 m", "0 m", "0 m"]
limit = "9000 lb"
[aircraft]
allowable = "7000 lb"
[[leg]]
name = "1"
lift_point = ["48 in", "30 in", "40 in"]
length = "12 ft"
stretch = "2 %"
rated = "2500 lb"
[[leg]]
name = "2"
lift_point = ["48 in", "-30 in", "40 in"]
length = "12 ft"
stretch = "2 %"
rated = "2500 lb"
[[leg]]
name = "3"
lift_point = ["-48 in", "30 in", "40 in"]
rope = "9 ft"
chain = { links = 70, seated = 3, pitch = "1.09 in", reeved = "loop" }
stretch = "2 %"
rated = "2500 lb"
[[leg]]
name = "4"
lift_point = ["-48 in", "-30 in", "40 in"]
rope = "9 ft"
chain = { links = 70, seated = 3, pitch = "1.09 in", reeved = "loop" }
stretch = "2 %"
[[leg.part]]
name = "chain"
rated = "2500 lb"
source = "data plate"
"#;

#[test]
fn sample_hangs() {
    let load = read(SAMPLE).unwrap();
    let assessment = assess(&load);
    let links = link_effects(&load, &Options::default());
    assert_eq!(assessment.verdict, Verdict::WithinLimits);
    let hang = assessment.hang.as_ref().unwrap();
    // The rear legs are half an inch longer: 9 ft and 67 half links of 1.09 in.
    assert!(hang.pitch.value() > 0.2 && hang.pitch.value() < 0.4 && hang.roll.value().abs() < 1e-9);
    assert!(matches!(load.legs[2].reach, Reach::RopeAndChain(..)));
    assert!(report(&load, &assessment, &links, EN).starts_with(
        "AT REST ONLY: aircraft allowable governs at rest, at 72 %.\nNOT in the worst case: leg "
    ));
    let told: serde_json::Value = serde_json::from_str(&json(&assessment, &links)).unwrap();
    assert_eq!(told["governing"]["part"], "aircraft allowable");
    assert_eq!(told["links"].as_array().unwrap().len(), 2);
}

/// The third state: at rest every part holds, and the rule that the manual names says otherwise. The file says which counts.
#[test]
fn the_rule_of_the_manual_governs() {
    use super::{Rule, State};
    let of = |rule: &str| assess(&read(&format!("{rule}\n{SAMPLE}")).unwrap());
    let unsaid = of("");
    let hang = unsaid.hang.as_ref().unwrap();
    let (worst, share) = hang.worst(1.0).unwrap();
    assert!(share.value() > 1.0 && hang.rules.two_leg.value() > 1.0 && hang.rules.three_leg.value() < 1.0);
    assert_eq!((unsaid.verdict, unsaid.state()), (Verdict::WithinLimits, State::AtRestOnly));
    let beyond = unsaid.beyond.clone().unwrap();
    assert_eq!(
        (beyond.rule, beyond.chosen, beyond.leg.as_ref()),
        (Rule::WorstCase, false, Some(&worst.name))
    );
    for (rule, state) in [
        ("rest", State::WithinLimits),
        ("three legs", State::WithinLimits),
        ("two legs", State::AtRestOnly),
        ("worst case", State::AtRestOnly),
    ] {
        let assessed = of(&format!("rule = \"{rule}\""));
        assert_eq!(assessed.state(), state, "{rule}");
        assert_eq!(assessed.beyond.is_some_and(|beyond| beyond.chosen), state == State::AtRestOnly);
    }
    let wrong = read(&format!("rule = \"all\"\n{SAMPLE}")).unwrap_err().to_string();
    assert!(wrong.contains("\"all\" is no rule") && wrong.contains("worst case"), "{wrong}");
    let told: serde_json::Value = serde_json::from_str(&json(&unsaid, &[])).unwrap();
    assert_eq!((&told["verdict"], &told["state"]), (&"within_limits".into(), &"at_rest_only".into()));
    assert!(told["beyond"]["said"].as_str().unwrap().starts_with("NOT in the worst case: leg "));
}

/// A rule that counts three legs says nothing of a load on two.
#[test]
fn two_legs_are_not_held_against_a_rule_for_three() {
    let two: String = SAMPLE.split("[[leg]]").take(3).collect::<Vec<_>>().join("[[leg]]");
    let load = read(&two.replace("\"48 in\", \"-30 in\"", "\"-48 in\", \"-30 in\"")).unwrap();
    let assessment = assess(&load);
    let text = report(&load, &assessment, &[], EN);
    assert!(assessment.hang.is_some(), "{text}");
    assert!(!text.contains("three legs"), "{text}");
}

/// Each reader reads of a load in their own language: no line of words stands alike in two of them, whatever the load does.
#[test]
fn a_report_and_a_picture_are_in_the_readers_language() {
    use super::{assess_with, svg};
    let spanish = Language::Spanish;
    let vehicle = include_str!("../examples/light-vehicle.toml").to_owned();
    let beam = include_str!("../examples/bridge-beam.toml").to_owned();
    let changed = |from: &str, to: &str| {
        assert!(SAMPLE.contains(from), "{from}");
        SAMPLE.replace(from, to)
    };
    let files = [
        SAMPLE.to_owned(),
        format!("rule = \"two legs\"\n{SAMPLE}"),
        vehicle,
        beam,
        changed("rated = \"2500 lb\"", "rated = \"700 lb\""),
        changed("seated = 3", "seated = 20"),
        changed("stretch = \"2 %\"\nrated", "rated"),
        changed("length = \"12 ft\"", "length = \"3 ft\""),
        changed("length = \"12 ft\"", "length = \"14 ft\""),
        changed("centre = [\"0 in\"", "centre = [\"70 in\""),
        changed("centre = [\"0 in\", \"0 in\", \"20 in\"]", "centre = [\"0 in\", \"0 in\", \"300 in\"]"),
    ];
    let factor = Options::default().with_factor(2.5).unwrap();
    let mut reasons = 0;
    for text in files {
        let load = read(&text).unwrap();
        for options in [&Options::default(), &factor] {
            let assessment = assess_with(&load, options);
            reasons += u32::from(assessment.reason.is_some());
            let links = link_effects(&load, options);
            let [english, other] = [EN, spanish].map(|language| report(&load, &assessment, &links, language));
            assert_eq!(english.lines().count(), other.lines().count(), "{other}");
            let words = |line: &str| line.split(|at: char| !at.is_alphabetic()).any(|word| word.len() > 3);
            for (line, told) in english.lines().zip(other.lines()) {
                assert!(!words(line) || line != told, "{line}");
            }
            let drawn = svg(&load, &assessment, spanish);
            assert!(drawn.contains("<title>Carga eslingada: ") && drawn != svg(&load, &assessment, EN));
        }
    }
    assert!(reasons > 4, "{reasons} that do not hang");
}
