//! Reads one point of a procedure file.

use slingseal_catalogue::files as words;
use std::collections::BTreeSet;

use slingseal_words::{Dimension, Part, Quantity, Unit};

use super::around::{Around, OPTION, SENTENCE, bounded, read_each};
use super::shape::{
    DeficiencyShape, ExpectShape, Fate, KindShape, Mark, PointRules, PointShape, Round, Said,
};
use super::table::{LONGEST_ID, Table, plain_id};

/// Longest texts, in characters, once filled: a prompt is one line of a small screen.
const PROMPT: usize = 60;
const DEFICIENCY: usize = 60;

pub(super) fn read_point(table: &Table<'_>, around: &Around<'_, '_>) -> Option<PointShape> {
    let part = &table.part;
    let id = table.need_id("id");
    let each = read_each(part, around);
    let kind = read_kind(table);
    let prompt = table.need_said("prompt");
    let speak = table.said("speak");
    let of = |fate: Fate| table.list(fate.key()).into_iter().map(move |said| DeficiencyShape { said, fate });
    let deficiencies: Vec<DeficiencyShape> = Fate::ALL.into_iter().flat_map(of).collect();
    if deficiencies.is_empty() && !matches!(kind, Some(KindShape::Text { .. })) {
        part.fault("in_place", words::PointNoDeficiency, words::AddInPlace);
    }
    let names: BTreeSet<&str> = deficiencies.iter().map(|known| known.said.english.as_str()).collect();
    if names.len() < deficiencies.len() {
        part.fault("in_place", words::TwoDeficienciesOneName, words::NameThemApart);
    }
    if names.contains("other") {
        part.fault("in_place", words::OtherIsKept, words::TakeOutAlwaysOffered);
    }
    let rules = read_rules(part, kind.as_ref());
    let mark = part.maybe("source", Mark::parse).or_else(|| around.mark.cloned());
    table.done();
    Some(PointShape { id: id?, each, kind: kind?, prompt: prompt?, speak, deficiencies, rules, mark: mark? })
}

fn read_rules(part: &Part<'_>, kind: Option<&KindShape>) -> PointRules {
    let again = part.text("again");
    if again.as_deref().is_some_and(|again| again != "card") {
        part.fault("again", words::AgainIsNotCard, words::WriteAgainCard);
    }
    let when = part.text("when");
    if when.as_deref().is_some_and(|when| !plain_id(when, LONGEST_ID)) {
        let mend = words::WriteConditionName;
        part.fault("when", words::WhenNotShort, mend);
    }
    let fit_for = part.flag("fit_for").unwrap_or(false);
    let time = match kind {
        Some(KindShape::Measure { most: Some(most), .. }) => most.unit().dimension() == Dimension::Duration,
        Some(KindShape::Measure { unit: Some(unit), .. }) => unit.dimension() == Dimension::Duration,
        _ => false,
    };
    if fit_for && !time {
        let mend = words::WriteMeasureOfTime;
        part.fault("fit_for", words::FitForNoTime, mend);
    }
    PointRules {
        again_card: again.is_some(),
        may_not_apply: part.flag("not_applicable").unwrap_or(false),
        when,
        piece: part.text("piece"),
        fit_for,
    }
}

fn read_kind(table: &Table<'_>) -> Option<KindShape> {
    let part = &table.part;
    match part.text("kind").as_deref().unwrap_or("look") {
        "look" => Some(KindShape::Look),
        "count" => {
            let leg = part.text("links_of_leg");
            let of_manual = part.flag("of_manual").unwrap_or(false);
            if [part.has("expect"), leg.is_some(), of_manual].into_iter().filter(|said| *said).count() != 1 {
                part.fault("kind", words::CountNeedsExpected, words::AddExpect);
                return None;
            }
            if of_manual {
                return Some(KindShape::Count(ExpectShape::OfManual));
            }
            match leg {
                Some(leg) => Some(KindShape::Count(ExpectShape::LinksOfLeg(leg))),
                None => {
                    bounded(part, "expect", 0, 9_999).map(|fixed| KindShape::Count(ExpectShape::Fixed(fixed)))
                }
            }
        }
        "choice" => {
            let options = table.list("options");
            if !(2..=9).contains(&options.len()) {
                part.fault("options", words::ChoiceHasOptions, words::WriteOptions);
            }
            let names: BTreeSet<&str> = options.iter().map(|option| option.english.as_str()).collect();
            if names.len() < options.len() {
                part.fault("options", words::TwoOptionsOneName, words::NameThemApart);
            }
            let right = part.texts("right");
            if right.is_empty() || right.iter().any(|name| !names.contains(name.as_str())) {
                let what = words::RightNamesNone;
                part.fault("right", what, words::WriteRight);
            }
            let right = options.iter().map(|option| right.contains(&option.english)).collect();
            Some(KindShape::Choice { options, right })
        }
        "measure" => {
            let least = part.maybe("least", Quantity::parse);
            let most = part.maybe("most", Quantity::parse);
            match (least, most) {
                (Some(least), Some(most)) if least.unit().dimension() != most.unit().dimension() => {
                    part.fault("most", words::LeastMostDiffer, words::UseOneUnit);
                }
                (Some(least), Some(most)) if least.si() > most.si() => {
                    part.fault("most", words::MostBelowLeast, words::SwapThem);
                }
                (None, None) if !part.has("least") && !part.has("most") && !part.has("unit") => {
                    part.fault("kind", words::MeasureNeedsRange, words::AddRange);
                }
                _ => {}
            }
            let unit = part.maybe("unit", |text| Unit::from_symbol(text).ok_or(words::UnitNotKnown));
            Some(KindShape::Measure { least, most, unit })
        }
        "serial" => {
            let optional = part.flag("optional").unwrap_or(false);
            Some(KindShape::Serial { equipment: part.text("equipment"), optional })
        }
        "text" => Some(KindShape::Text { optional: part.flag("optional").unwrap_or(false) }),
        other => {
            let what = words::KindNotKnown { other: &other };
            part.fault("kind", what, words::UseKinds);
            None
        }
    }
}

pub(super) fn sound_point(table: &Table<'_>, point: &PointShape, within: &[&Round]) {
    table.sound("prompt", &point.prompt, within, PROMPT);
    if let Some(speak) = &point.speak {
        table.sound("speak", speak, within, SENTENCE);
    }
    for known in &point.deficiencies {
        table.sound(known.fate.key(), &known.said, within, DEFICIENCY);
    }
    if let Some(piece) = &point.rules.piece {
        let piece = Said::plain(piece.clone());
        table.sound("piece", &piece, within, OPTION);
    }
    match &point.kind {
        KindShape::Choice { options, .. } => {
            options.iter().for_each(|option| table.sound("options", option, within, OPTION));
        }
        KindShape::Count(ExpectShape::LinksOfLeg(leg)) => {
            let leg = Said::plain(leg.clone());
            table.sound("links_of_leg", &leg, within, 16);
        }
        KindShape::Serial { equipment: Some(kind), .. } => {
            let kind = Said::plain(kind.clone());
            table.sound("equipment", &kind, &[], OPTION);
        }
        _ => {}
    }
}
