mod list;

use super::*;
use crate::envelope::{Kind, Limits, Unsigned, check};
use slingseal_words::{Quantity, Time};

const PLAN: &str = r#"
load = "km-014"
description = "Water drums, pair"
procedure = "drums"
gross = "4200 lb"
rigger = "Mason 5"
[aircraft]
type = "Heron M2"
allowable = "7000 lb"
[pickup]
name = "Kestrel Meadow"
grid = "33TWN1234567890"
[destination]
name = "Alder Bridge"
[[equipment]]
kind = "sling leg"
serial = "SL-0091"
rating = "2.5 t"
source = "data plate"
next_inspection = "2026-12-01"
[[link]]
leg = "1"
link = 3
"#;

fn no_file(_: &str) -> Result<String, String> {
    Err("there is no such file".into())
}

fn now() -> Time {
    Time::parse("2026-11-25T09:00:00Z").unwrap()
}

fn plan() -> Tag {
    read_plan(PLAN, now(), &no_file).unwrap().tag
}

fn faults(text: &str) -> String {
    read_plan(text, now(), &no_file).unwrap_err().to_string()
}

#[test]
fn a_plan_becomes_a_tag_and_comes_back() {
    let tag = plan();
    assert_eq!(tag.load.as_str(), "KM-014");
    let content = tag.content();
    let bare = tag.claims(&content).to_bytes();
    assert_eq!(check(&bare, Limits::CODE), Ok(()));
    let received = ReceivedTag::open(&bare).unwrap();
    assert!(received.message.is_none());
    assert_eq!(received.tag, tag);
    let signed = Unsigned::prepare(Kind::Tag, &[0xa0], &tag.claims(&content)).finish(&[7; 64]);
    let received = ReceivedTag::open(&signed).unwrap();
    assert_eq!(received.message.unwrap().signature, [7; 64]);
    assert_eq!(received.tag, tag);
}

#[test]
fn every_cut_and_every_flip_is_seen_or_another_tag() {
    let tag = plan();
    let content = tag.content();
    let bytes = tag.claims(&content).to_bytes();
    for end in 0..bytes.len() {
        assert!(ReceivedTag::open(&bytes[..end]).is_err(), "cut at {end}");
    }
    for bit in 0..bytes.len() * 8 {
        let mut other = bytes.clone();
        other[bit / 8] ^= 1 << (bit % 8);
        if let Ok(received) = ReceivedTag::open(&other) {
            assert_ne!(received.tag, tag, "bit {bit}");
            let content = received.tag.content();
            assert_eq!(received.tag.claims(&content).to_bytes(), other, "bit {bit} has two spellings");
        }
    }
}

#[test]
fn equipment_is_due_at_the_end_of_its_day_and_overloaded_above_its_rating() {
    let equipment = &plan().equipment[0];
    assert!(!equipment.overdue(Time::parse("2026-12-01T23:59:59Z").unwrap()));
    assert!(equipment.overdue(Time::parse("2026-12-02").unwrap()));
    assert!(!equipment.overloaded(Quantity::parse("2500 kg").unwrap()));
    assert!(equipment.overloaded(Quantity::parse("2501 kg").unwrap()));
}

#[test]
fn faults_have_their_place_and_their_mend() {
    assert!(
        faults(&PLAN.replace("4200 lb", "4200"))
            .contains("5:9: gross: \"4200\" has no unit; write the unit: kg, lb or t")
    );
    assert!(faults(&PLAN.replace("4200 lb", "-1 lb")).contains("write a mass above nought"));
    assert!(faults(&PLAN.replace("source = \"data plate\"", "")).contains("the rating has no source"));
    assert!(faults(&PLAN.replace("link = 3", "lnik = 3")).contains("did you mean \"link\"?"));
    assert!(faults(&PLAN.replace("rigger", "rigging")).contains("there is no such file"));
    assert!(faults("").contains("1:1: file has no load"));
    assert!(faults(&PLAN.replace("33TWN1234567890", "nowhere")).contains("12:"));
}

/// What an `LT2` has more than an `LT1`.
const BASIS: &str = r#"
weight_source = "Weighed"
when = ["night", "fuel"]
[manual]
title = "the governing manual, row 12"
edition = "2024"
[airspeed]
limit = "80 kt"
source = "row 12"
[[leg]]
name = "1"
serial = "SL-0091"
[aircraft]"#;

fn second() -> Tag {
    let mut tag = read_plan(&PLAN.replace("[aircraft]", BASIS), now(), &no_file).unwrap().tag;
    let digest = slingseal_words::Digest::of(b"procedure");
    tag.basis.edition = Some(crate::trust::Edition::of(tag.procedure.clone(), 2, digest));
    tag
}

#[test]
fn a_tag_with_its_basis_is_of_the_second_form_and_comes_back() {
    let (first, second) = (plan(), second());
    assert_eq!((first.kind(), second.kind()), (Kind::Tag, Kind::TagWithBasis));
    for tag in [&first, &second] {
        let content = tag.content();
        let bare = tag.claims(&content).to_bytes();
        let signed = Unsigned::prepare(tag.kind(), &[0xa0], &tag.claims(&content)).finish(&[7; 64]);
        for bytes in [bare, signed] {
            let received = ReceivedTag::open(&bytes).unwrap();
            assert_eq!((&received.tag, received.kind, kind_of_tag(&bytes)), (tag, tag.kind(), tag.kind()));
            let other = if tag.kind() == Kind::Tag { Kind::TagWithBasis } else { Kind::Tag };
            assert!(ReceivedTag::open_as(tag.kind(), &bytes).is_ok());
            assert!(matches!(ReceivedTag::open_as(other, &bytes), Err(TagError::OtherForm { .. })));
        }
    }
    let basis = second.basis;
    assert_eq!(basis.weight_source, Some(WeightSource::Weighed));
    let names: Vec<String> = basis.conditions.unwrap().iter().map(ToString::to_string).collect();
    assert_eq!(names, ["fuel", "night"]);
    assert_eq!(basis.airspeed.unwrap().limit.to_string(), "80 kt");
    assert_eq!(kind_of_tag(b"nothing"), Kind::Tag);
}

#[test]
fn every_cut_and_flip_of_the_second_form_is_seen_or_another_tag() {
    let tag = second();
    let content = tag.content();
    let bytes = tag.claims(&content).to_bytes();
    for end in 0..bytes.len() {
        assert!(ReceivedTag::open(&bytes[..end]).is_err(), "cut at {end}");
    }
    for bit in 0..bytes.len() * 8 {
        let mut other = bytes.clone();
        other[bit / 8] ^= 1 << (bit % 8);
        if let Ok(received) = ReceivedTag::open(&other) {
            assert_ne!(received.tag, tag, "bit {bit}");
            let content = received.tag.content();
            assert_eq!(received.tag.claims(&content).to_bytes(), other, "bit {bit} has two spellings");
        }
    }
}

#[test]
fn faults_of_the_basis_have_their_place_and_their_mend() {
    let with = |from: &str, to: &str| faults(&PLAN.replace("[aircraft]", &BASIS.replace(from, to)));
    for (from, to, told) in [
        (
            "Weighed",
            "guessed",
            "\"guessed\" is no source of a weight; write weighed, data plate, added up or estimated",
        ),
        ("80 kt", "80 lb", "use kt, km/h or m/s"),
        ("80 kt", "0 kt", "write a speed above nought"),
        ("source = \"row 12\"", "", "airspeed has no source"),
        ("edition = \"2024\"", "", "manual has no edition"),
        ("\"night\"", "\"at night\"", "\"at night\" is no name of a condition"),
        ("[[leg]]", "[[leg]]\nname = \"1\"\nserial = \"SL-9\"\n[[leg]]", "a leg stands there twice"),
    ] {
        assert!(with(from, to).contains(told), "{to}: {}", with(from, to));
    }
}
