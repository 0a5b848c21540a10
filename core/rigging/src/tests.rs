use super::{Options, Reach, Verdict, assess, json, link_effects, read, report};

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
    assert!(
        report(&load, &assessment, &links)
            .starts_with("WITHIN LIMITS: aircraft allowable governs, at 71 %.\n")
    );
    let told: serde_json::Value = serde_json::from_str(&json(&assessment, &links)).unwrap();
    assert_eq!(told["governing"]["part"], "aircraft allowable");
    assert_eq!(told["links"].as_array().unwrap().len(), 2);
}
