mod numbers;
mod released;

use std::collections::BTreeSet;

use super::Tongue;
use super::{
    BUILT_IN, Card, CardNo, Expanded, Expected, Kind, Language, Mark, Point, built_in, check,
    governing_manual,
};
use slingseal_catalogue::Saying;

fn walk(id: &str) -> Expanded {
    built_in(id).unwrap().expand(Language::English)
}

fn faults(text: &str) -> Vec<String> {
    check(text).err().map(|faults| faults.iter().map(ToString::to_string).collect()).unwrap_or_default()
}

fn point<'w>(walk: &'w Expanded, id: &str) -> &'w Point {
    walk.cards.iter().flat_map(|card| &card.points).find(|point| point.id.as_str() == id).unwrap()
}

const SMALL: &str = r#"id = "a"
version = 1
title = "A"
source = "common practice"
[[station]]
id = "s"
title = "S"
[[station.card]]
id = "c"
title = "C"
motion = "Look."
[[station.card.point]]
id = "p"
prompt = "P"
in_place = ["bad"]
"#;

#[test]
fn built_in_procedures_are_sound_and_say_that_the_manual_rules() {
    for own in BUILT_IN {
        let procedure = check(own.text).map_err(|faults| panic!("{}:\n{faults}", own.id)).unwrap();
        assert_eq!(procedure.id().as_str(), own.id);
        for language in [Language::English, Language::Spanish] {
            let walk = procedure.expand(language);
            assert!(walk.cards.first().unwrap().caution.is_some(), "{}", own.id);
            assert!(walk.cards.iter().skip(1).all(|card| card.caution.is_none()));
        }
        assert_eq!(
            procedure.expand(Language::English).cards.first().unwrap().caution.as_deref(),
            Some(&*governing_manual(Language::English))
        );
    }
}

/// Every text of the built-in procedures has its Spanish: a file may leave some out, these may not.
#[test]
fn built_in_procedures_are_whole_in_spanish() {
    for own in BUILT_IN {
        let procedure = built_in(own.id).unwrap();
        let english = procedure.expand(Language::English);
        let spanish = procedure.expand(Language::Spanish);
        assert_ne!(english.title, spanish.title);
        let texts = |card: &Card| {
            let of_point = |point: &Point| {
                let found = point.deficiencies.iter().map(|known| known.shown.clone());
                let options = match &point.kind {
                    Kind::Choice(options) => options.iter().map(|option| option.shown.clone()).collect(),
                    _ => Vec::new(),
                };
                let own = [point.prompt.clone(), point.speak.clone()];
                own.into_iter().chain(found).chain(options).collect::<Vec<_>>()
            };
            let mut texts = vec![card.title.clone(), card.motion.clone()];
            texts.extend(card.points.iter().flat_map(of_point));
            texts
        };
        for (one, other) in english.cards.iter().zip(&spanish.cards) {
            assert_eq!(one.id, other.id);
            assert!(one.points.iter().map(|p| &p.id).eq(other.points.iter().map(|p| &p.id)));
            for (one, other) in texts(one).iter().zip(texts(other)) {
                assert_ne!(*one, other, "{}: not in Spanish", own.id);
            }
            let names = |card: &Card| -> Vec<String> {
                card.points.iter().flat_map(|p| &p.deficiencies).map(|known| known.name.clone()).collect()
            };
            assert_eq!(names(one), names(other), "the record names a deficiency in English");
        }
    }
}

#[test]
fn ids_are_unique_and_every_point_is_marked() {
    for own in BUILT_IN {
        let walk = walk(own.id);
        let points: Vec<&Point> = walk.cards.iter().flat_map(|card| &card.points).collect();
        let ids: BTreeSet<_> = points.iter().map(|point| &point.id).collect();
        assert_eq!(ids.len(), points.len(), "{}", own.id);
        let cards: BTreeSet<_> = walk.cards.iter().map(|card| &card.id).collect();
        assert_eq!(cards.len(), walk.cards.len(), "{}", own.id);
        for (place, card) in walk.cards.iter().enumerate() {
            assert_eq!(card.number, CardNo::at_place(place));
            assert_eq!(walk.card(card.number), Some(card));
            let station = walk.stations.get(card.station).unwrap();
            assert!((station.first..=station.last).contains(&card.number));
        }
    }
}

/// Common practice, no published source: the order of an inspection of a webbing cargo bag on one chain leg, about 32 cards
/// and 100 points as inspectors of that load give it; the questions for people, the leg's own trace, the excess chain and
/// the last look from three steps back come on top.
#[test]
fn the_bag_is_walked_in_the_order_of_the_trade() {
    let walk = walk("bag");
    let stations: Vec<&str> = walk.stations.iter().map(|station| station.id.as_str()).collect();
    assert_eq!(
        stations,
        [
            "people", "tag", "apex", "leg", "grab", "chain", "webs", "side-1", "side-2", "side-3", "side-4",
            "ready"
        ]
    );
    let side = walk.cards.iter().filter(|card| card.id.starts_with("side-2."));
    assert_eq!(
        side.map(|card| card.id.as_str()).collect::<Vec<_>>(),
        [
            "side-2.upright",
            "side-2.lateral-1",
            "side-2.lateral-2",
            "side-2.lateral-3",
            "side-2.lacing",
            "side-2.knot"
        ]
    );
    let clevis = walk.cards.iter().find(|card| card.id == "chain.clevis").unwrap();
    let order: Vec<&str> = clevis.points.iter().map(|at| at.id.as_str()).collect();
    assert_eq!(
        order,
        ["chain.clevis.tight", "chain.clevis.threads", "chain.clevis.tape"],
        "tight before tape"
    );
}

/// Common practice, no published source: the first gate faces the inspector and the other three face away; two plies, the
/// metal, one ply.
#[test]
fn the_bag_asks_for_the_facts_of_the_trade() {
    let walk = walk("bag");
    for (web, gate) in [(1, "toward you"), (2, "away"), (3, "away"), (4, "away")] {
        let gate_of_web = point(&walk, &format!("webs.web-{web}.gate"));
        assert!(gate_of_web.prompt.contains(gate), "{}", gate_of_web.prompt);
        assert_eq!(gate_of_web.mark, Mark::CommonPractice);
    }
    for side in 1..=4 {
        let adjuster = point(&walk, &format!("side-{side}.lateral-1.adjuster"));
        assert!(adjuster.prompt.contains("two plies, the metal, one ply"));
    }
}

/// FM 10-450-4, FM 4-20.198 (tables): legs 1 and 2 front, 3 and 4 rear, 1 and 3 on the left. The feet go 1, 2, 4, 3.
#[test]
fn the_vehicle_takes_its_link_counts_from_the_tag() {
    let walk = walk("vehicle");
    assert_eq!(walk.legs_of_tag(), ["1", "2", "3", "4"]);
    for (leg, place) in [(1, "front left"), (2, "front right"), (3, "rear left"), (4, "rear right")] {
        let on = point(&walk, &format!("leg-{leg}.point.place"));
        assert!(on.prompt.contains(place), "{}", on.prompt);
        assert!(matches!(&on.mark, Mark::Published(name) if name.contains("FM 10-450-4")));
        let links = point(&walk, &format!("leg-{leg}.count.links"));
        assert_eq!(links.kind, Kind::Count(Expected::LinksOfLeg(leg.to_string())));
    }
    let stations: Vec<&str> = walk.stations.iter().map(|station| station.id.as_str()).collect();
    assert_eq!(
        stations,
        [
            "people", "tag", "front", "right", "rear", "left", "cab", "leg-1", "leg-2", "leg-4", "leg-3",
            "apex", "ready"
        ]
    );
}

#[test]
fn the_digest_is_of_the_bytes() {
    let one = check(SMALL).unwrap();
    let other = check(&format!("{SMALL}# a remark\n")).unwrap();
    assert_ne!(one.digest(), other.digest());
    assert_eq!(one.expand(Language::English).cards, other.expand(Language::English).cards);
}

#[test]
fn what_has_no_spanish_is_english() {
    let text = SMALL.replace("prompt = \"P\"", "prompt = \"P\"\nspeak = \"Q.\"\nes.prompt = \"R\"");
    let walk = check(&text).unwrap().expand(Language::of_locale("es-MX"));
    let card = walk.cards.first().unwrap();
    assert_eq!(card.title, "C");
    let point = card.points.first().unwrap();
    assert_eq!((point.prompt.as_str(), point.speak.as_str()), ("R", "R."));
    assert_eq!(Language::of_locale("pt_BR"), Language::English);
}

#[test]
fn every_fault_has_its_place_and_its_mend() {
    assert_eq!(faults(SMALL), [""; 0]);
    let one = |from: &str, to: &str| {
        assert!(SMALL.contains(from), "{from}");
        let faults = faults(&SMALL.replacen(from, to, 1));
        assert_eq!(faults.len(), 1, "{faults:#?}");
        faults.into_iter().next().unwrap()
    };
    assert_eq!(
        one("version = 1\n", ""),
        "1:1: the file has no version; add version = 1 and count up with each edition"
    );
    assert_eq!(one("version = 1", "version = 0"), "2:11: version = 0 is out of range; write 1 to 9999");
    assert_eq!(
        one("source = \"common practice\"", "source = \"gossip\""),
        "4:10: the source is not one of the three marks; \
         write \"published NAME\", \"common practice\" or \"user's own\""
    );
    assert_eq!(
        one("motion = \"Look.\"", "motion = \"Look at {side}.\""),
        "11:10: motion: {side} stands for nothing here; no round is open here: add each = \"…\", or write the words"
    );
    assert_eq!(
        one("motion = ", "moton = \"x\"\nmotion = "),
        "11:1: \"moton\" is not known in card; did you mean \"motion\"?"
    );
    assert_eq!(
        one("prompt = \"P\"", "prompt = \"P {\""),
        "14:10: prompt has a { that no } closes; close it, or take it out"
    );
    assert_eq!(
        one("in_place = [\"bad\"]", ""),
        "12:1: the point names no deficiency; \
         add in_place = [\"…\"] for what can be corrected on the spot, rerig = [\"…\"] for what cannot"
    );
    assert_eq!(
        one("in_place", "kind = \"glance\"\nin_place"),
        "15:8: kind = \"glance\" is not known; use look, count, choice, measure, serial or text"
    );
    assert_eq!(
        one("in_place", "kind = \"count\"\nin_place"),
        "15:8: a count needs one expected value; \
         add expect = 3, or links_of_leg = \"1\" for the link count on the tag, or of_manual = true where the manual has it"
    );
    assert_eq!(
        one("in_place", "kind = \"measure\"\nleast = \"3 in\"\nmost = \"2 in\"\nin_place"),
        "17:8: most is below least; swap them"
    );
    assert_eq!(
        one("in_place", "each = \"leg\"\nin_place"),
        "15:8: no [[round]] is called \"leg\"; add [[round]] with name = \"leg\""
    );
    assert_eq!(
        one("[\"bad\"]", "[\"bad\"]\nes.in_place = [\"mal\", \"peor\"]"),
        "16:15: es.in_place has 2 texts and in_place has 1; \
         write one in es for each in English, in the same order"
    );
    assert_eq!(
        one("[[station.card.point]]", "use = [\"q\"]\n[[station.card.point]]"),
        "12:7: no [[point]] has the id \"q\"; add a [[point]] of this id"
    );
    assert_eq!(
        one(
            "[\"bad\"]\n",
            "[\"bad\"]\n[[station.card.point]]\nid = \"p\"\nprompt = \"P\"\nin_place = [\"bad\"]\n"
        ),
        "5:1: two points have the id s.c.p; rename one"
    );
}

#[test]
fn faults_of_rounds_and_shared_points() {
    let rounds = "[[round]]\nname = \"leg\"\nvalues = [\"1\", \"1\"]\n[[point]]\nid = \"q\"\nprompt = \"Q {leg.end}\"\nin_place = [\"bad\"]\n[[station]]";
    assert_eq!(
        faults(&SMALL.replacen("[[station]]", rounds, 1)),
        [
            "6:8: no station, card or point has each = this round; use it, or take it out",
            "7:10: the values stand in ids and are not short names, each its own; \
             write each once, at most 6 small letters, digits and hyphens",
            "9:6: no card uses the point \"q\"; name it in a card's use = [\"…\"], or take it out",
        ]
    );
    let used =
        rounds.replace("\"1\", \"1\"", "\"1\", \"2\"").replace("[[station]]", "[[station]]\neach = \"leg\"");
    let text = SMALL.replacen("[[station]]", &used, 1).replacen(
        "[[station.card.point]]",
        "use = [\"q\"]\n[[station.card.point]]",
        1,
    );
    assert_eq!(faults(&text), ["10:10: prompt: {leg.end} stands for nothing here; known here: {leg}"]);
    let nested = text.replace("{leg.end}", "{leg}").replace("motion", "each = \"leg\"\nmotion");
    assert_eq!(
        faults(&nested),
        ["19:8: the round \"leg\" is open already around this; take each out here, or use another round"]
    );
}

/// One slip is told once: the Spanish beside a misspelt key is no fault of its own.
#[test]
fn a_slip_in_the_english_does_not_blame_the_spanish() {
    let text = SMALL.replace("prompt = \"P\"", "promt = \"P\"\nes.prompt = \"R\"");
    assert_eq!(
        faults(&text),
        [
            "12:1: point has no prompt; add prompt = \"…\"",
            "14:1: \"promt\" is not known in point; did you mean \"prompt\"?",
        ]
    );
}

/// A file from outside must not be able to fill the memory.
#[test]
fn a_walk_has_a_largest_size() {
    let values: Vec<String> = (0..24).map(|value| format!("\"{value}\"")).collect();
    let round = |name: &str| format!("[[round]]\nname = \"{name}\"\nvalues = [{}]\n", values.join(", "));
    let text = SMALL
        .replace(
            "[[station]]",
            &format!("{}{}{}[[station]]\neach = \"x\"", round("x"), round("y"), round("z")),
        )
        .replace("motion", "each = \"y\"\nmotion")
        .replace("prompt", "each = \"z\"\nprompt");
    assert_eq!(faults(&text).len(), 1);
    assert!(faults(&text).first().unwrap().contains("576 cards and 13824 points"));
}

#[test]
fn the_example_of_the_readme_is_sound() {
    let readme = include_str!("../../procedures/README.md");
    let example = readme.split("```toml\n").nth(1).and_then(|rest| rest.split("```").next()).unwrap();
    let walk = check(example).map_err(|faults| panic!("{faults}")).unwrap().expand(Language::English);
    assert_eq!(
        walk.cards.iter().map(|card| card.title.as_str()).collect::<Vec<_>>(),
        ["Trace leg 1", "Trace leg 2"]
    );
    assert_eq!(point(&walk, "leg-2.trace.links").kind, Kind::Count(Expected::LinksOfLeg("2".into())));
}

#[test]
fn the_walk_as_text_fits_a_terminal() {
    for own in BUILT_IN {
        for language in [Language::English, Language::Spanish] {
            let text = built_in(own.id).unwrap().expand(language).to_string();
            for line in text.lines() {
                assert!(line.chars().count() <= 80, "{line}");
            }
        }
    }
    let text = walk("bag").to_string();
    assert!(text.contains("      ! The governing manual"));
    assert!(text.contains("\n          count, expected 3 (common practice)\n"), "{text}");
}

proptest::proptest! {
    /// A file with one piece of it changed, taken out or doubled is read, or refused with a place inside it; never a panic.
    #[test]
    fn damaged_files_are_refused_with_their_place(
        own in 0usize..5,
        from in proptest::prelude::any::<proptest::sample::Index>(),
        length in 0usize..40,
        with in "(|\\{|\\}|\"|\n|=|\\[|\\]|é|\u{202e}|0|each = \"x\"|\\[\\[point\\]\\]\n|kind = \"count\"\n){0,3}",
    ) {
        let letters: Vec<char> = BUILT_IN[own].text.chars().collect();
        let from = from.index(letters.len());
        let to = (from + length).min(letters.len());
        let text: String =
            letters[..from].iter().copied().chain(with.chars()).chain(letters[to..].iter().copied()).collect();
        match check(&text) {
            Ok(procedure) => {
                let walk = procedure.expand(Language::Spanish);
                proptest::prop_assert!(!walk.cards.is_empty());
            }
            Err(faults) => {
                for fault in faults.iter() {
                    proptest::prop_assert!(fault.spot.line <= text.lines().count() + 1, "{fault}");
                    proptest::prop_assert!(fault.to_string().contains("; "), "{fault}");
                }
            }
        }
    }
}

/// A unit's own language stands beside the Spanish; what it lacks is named and is said in English.
#[test]
fn a_unit_adds_its_own_language() {
    let text = SMALL.replace("prompt = \"P\"", "prompt = \"P\"\nfr.prompt = \"F\"\nes.prompt = \"R\"");
    let procedure = check(&text).unwrap();
    let french = procedure.expand_in(Language::English, Tongue::named("FR").unwrap());
    assert_eq!(french.cards[0].points[0].prompt, "F");
    assert_eq!(french.cards[0].points[0].speak, "F.");
    assert_eq!(french.cards[0].title, "C");
    assert_eq!(procedure.expand(Language::Spanish).cards[0].points[0].prompt, "R");
    let said = |lines: Vec<Saying>| lines.iter().map(|line| line.say(Language::English)).collect::<Vec<_>>();
    let untold = said(procedure.untold());
    assert!(untold.iter().any(|line| line == "fr: title"), "{untold:?}");
    assert!(untold.iter().all(|line| !line.contains("prompt of")), "{untold:?}");
    assert_eq!(Tongue::named("xx"), None);
    assert_eq!(Tongue::named("id"), None, "a key of every table");
    let wrong = text.replace("fr.prompt", "fr.promt");
    assert!(faults(&wrong)[0].contains("\"promt\" is not known"), "{:?}", faults(&wrong));
    for plain in BUILT_IN {
        assert_eq!(said(check(plain.text).unwrap().untold()), [""; 0], "{}", plain.id);
    }
}
