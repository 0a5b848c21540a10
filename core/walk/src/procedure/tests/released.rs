//! Editions that were released: what was walked by one is read by it for ever.

use std::fmt::Write as _;

use crate::procedure::{Expanded, Fate, Language, RELEASED, check};
use slingseal_words::Digest;

/// Everything of a walk that a record, a screen or a voice has ever had from it.
fn told(walk: &Expanded) -> String {
    let mut out = format!("{} {} {}\n", walk.id, walk.version, walk.title);
    for station in &walk.stations {
        let (first, last) = (station.first, station.last);
        let _ = writeln!(out, "{} {} {first} {last}", station.id, station.title);
    }
    for card in &walk.cards {
        let caution = card.caution.as_deref().unwrap_or_default();
        let _ = writeln!(out, "{} {} {} {} {caution}", card.number, card.id, card.title, card.motion);
        for point in &card.points {
            let _ = writeln!(
                out,
                "  {} {} {} {} {}",
                point.id, point.kind, point.prompt, point.speak, point.mark
            );
            for known in &point.deficiencies {
                let _ = writeln!(out, "    {} {} {}", known.name, known.shown, known.fate == Fate::InPlace);
            }
        }
    }
    out
}

/// Taken with the build that released them. Never taken anew: an edition that must say something else is a new edition.
const TOLD: &[(&str, &str, &str)] = &[
    ("bag 1", "English", "3e36c870bbe62dc253f2aa5753b2df3f35564795696e35fabe687bbc68547027"),
    ("bag 1", "Spanish", "e50aecb264a758f08a011e8f6011d30f1760fd4690e6d796ada5d303b7f179d4"),
    ("net 1", "English", "20edfdee945712d1acdc0e3883ee82125ebb4c5d7a8fbdeb001e4c4bee2619b6"),
    ("net 1", "Spanish", "4d4fe720df9a07ef823f31f985fe14ba04a24e35ae06f26d06c4e2f990b3ea2b"),
    ("vehicle 1", "English", "83438b77511cd62aa75b3f0bf091161f0326c44d71ac4ccddd65b9ea9d638251"),
    ("vehicle 1", "Spanish", "ce990811fe96765f16f900ee990663e6a51eb3f9724a885231b709624a61139f"),
    ("vehicle 2", "English", "bf686aa09bdd57bb990edad600321d32000cecdd573f28d358ec74984d2a906b"),
    ("vehicle 2", "Spanish", "4062ab715cac45b27fa18c091367eb604c389b96bec044fb9dd51a4807463d5a"),
    ("drums 1", "English", "2e2362a821f46fcb2b02344ef0b677805ed6b7d1ea41e6c1253a553645dca25a"),
    ("drums 1", "Spanish", "e87c15d59aac923814e3daeda62ae1419f9e4ed9929650f708600e62e0926d54"),
    ("longline 1", "English", "ad375cea14427c9e1504493ecd077d47eacb1a8ed2b15e3174a578b75ded5b87"),
    ("longline 1", "Spanish", "1b9cac6d9af20e7d247359ebf9e32246378be268124eb87538bd98666042a128"),
];

#[test]
fn released_editions_expand_as_they_did() {
    let mut seen = Vec::new();
    for own in RELEASED {
        let procedure = check(own.text).unwrap_or_else(|faults| panic!("{}: {faults}", own.id));
        for language in [Language::English, Language::Spanish] {
            let walk = procedure.expand(language);
            let digest = Digest::of(told(&walk).as_bytes()).to_string();
            seen.push((format!("{} {}", walk.id, walk.version), format!("{language:?}"), digest));
        }
    }
    let known: Vec<_> = TOLD
        .iter()
        .map(|(id, language, digest)| ((*id).to_owned(), (*language).to_owned(), (*digest).to_owned()))
        .collect();
    assert_eq!(seen, known);
}
