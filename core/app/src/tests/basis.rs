//! What a load was planned and rigged by: on the tag, at the hook, in the export, and what the procedure makes of it.

use super::*;

const PLAN: &str = r#"
load = "KM-020"
description = "Rations, webbing bag"
procedure = "bag"
gross = "1800 lb"
rigger = "Mason 5"
weight_source = "weighed"
when = ["night"]
[manual]
title = "the governing manual, row 12"
edition = "2024"
[airspeed]
limit = "80 kt"
source = "row 12"
[aircraft]
type = "Heron M2"
allowable = "7000 lb"
[pickup]
name = "Kestrel Meadow"
[destination]
name = "Alder Bridge"
[[leg]]
name = "1"
serial = "SL-0091"
[[equipment]]
kind = "cargo bag"
serial = "CB-0932"
[[link]]
leg = "1"
link = 3
"#;

fn none(_: &str) -> Result<String, String> {
    Err("there is no file".into())
}

#[test]
fn a_tag_says_what_its_load_was_rigged_by_wherever_it_is_shown() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let desk = zone.device(&authority, "desk", "Lantern 1", "planner");
    let made = desk.write_tag(PLAN, &none, Some(PIN)).unwrap();
    assert!(made.code.text.starts_with("LT2:"), "{}", made.code.text);
    let bag = desk.procedures().unwrap().into_iter().find(|one| one.id == "bag").unwrap();
    let edition = made.tag.basis.edition.clone().unwrap();
    assert_eq!((edition.procedure.as_str(), edition.version), ("bag", bag.version));
    assert!(bag.digest.starts_with(&edition.thumbprint) && edition.thumbprint.len() == 32);
    let lines: Vec<String> =
        made.tag.basis.lines.iter().map(|line| format!("{}: {}", line.label, line.text)).collect();
    let short = bag.digest.get(..8).unwrap();
    assert_eq!(
        lines,
        [
            "Weight from: weighed",
            "Rigged to: the governing manual, row 12, edition 2024",
            "Airspeed limit: 80 kt (row 12)",
            "Leg serials: 1: SL-0091",
            &format!("Edition ordered: bag {} ({short})", bag.version),
            "Conditions: night",
        ]
    );
    // At the hook, by a device that has never met the planner's; and on a sticker beside a seal.
    let hook = zone.home("hook");
    meet(&hook, &authority);
    let verdict = hook.check(None, Some(&made.code.text)).unwrap();
    assert_eq!(verdict.tag.unwrap().basis, made.tag.basis);
    let written = sticker(std::slice::from_ref(&made.code.text), 2_000).unwrap();
    assert!(
        matches!(read_sticker(&written.message), StickerReading::Ours { tag: Some(tag), .. } if tag == made.code.text)
    );
    // A code that a plain phone reads off paper: the version is that of the largest tag without its rigging.
    assert!(made.code.version <= 25, "version {}", made.code.version);
}

#[test]
fn a_tag_of_one_form_is_none_of_the_other() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let desk = zone.device(&authority, "desk", "Lantern 1", "planner");
    let made = desk.write_tag(PLAN, &none, Some(PIN)).unwrap();
    let other = made.code.text.replacen("LT2:", "LT1:", 1);
    assert!(desk.read_tag(&other).is_err());
    assert_eq!(desk.check(None, Some(&other)).unwrap().reasons[0].code, "unreadable");
    let two = sticker(&[made.code.text.clone(), other], 2_000);
    assert!(two.unwrap_err().to_string().contains("one message of a kind"));
}

#[test]
fn a_condition_that_the_procedure_does_not_know_is_told() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let desk = zone.device(&authority, "desk", "Lantern 1", "planner");
    let told =
        |from: &str, to: &str| desk.write_tag(&PLAN.replace(from, to), &none, None).unwrap_err().to_string();
    let wrong = told("\"night\"", "\"nihgt\"");
    assert_eq!(wrong, "load KM-020: when: procedure bag has no condition \"nihgt\"; did you mean \"night\"?");
    let fuel = told("\"night\"", "\"fuel\"");
    assert!(fuel.contains("procedure bag has no condition \"fuel\""), "{fuel}");
}

#[test]
fn the_conditions_of_the_tag_decide_which_points_count() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let desk = zone.device(&authority, "desk", "Lantern 1", "planner,inspector");
    let points = |when: &str| {
        let plan = PLAN.replace("KM-020", &format!("KM-{}", when.len())).replace("when = [\"night\"]", when);
        let made = desk.write_tag(&plan, &none, None).unwrap();
        desk.begin_walk(&made.code.text).unwrap().progress.points
    };
    let (night, day, unsaid) = (points("when = [\"night\"]"), points("when = []"), points(""));
    assert_eq!(night, unsaid, "where the plan does not say, every point counts");
    assert_eq!(day + 1, night, "the light by night is no point by day");
}
