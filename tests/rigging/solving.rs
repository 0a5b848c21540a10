//! The search against brute force: every link count of random small loads, by the assessment alone.
//!
//! `SOLVED=1000 cargo test -p slingseal-tests --test rigging solv` draws that many.

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use slingseal_rigging::{
    Asked, Between, Chain, Options, Reach, Reeved, RiggedLoad, Rule, SolveError, State, Stock, Wanted,
    assess, assess_with, read, read_file, solve, what_if, write,
};
use slingseal_words::{Name, Unit};

use crate::support::{leg, load, of, rating};

fn count(name: &str, usual: usize) -> usize {
    std::env::var(name).ok().and_then(|text| text.parse().ok()).unwrap_or(usual)
}

/// Three or four legs with short chains of coarse links about a body, sometimes with a rule, ratings near what they carry.
pub(crate) fn small() -> impl Strategy<Value = RiggedLoad> {
    let leg_of = (0.5_f64..1.6, -0.1_f64..0.1, 0.0_f64..0.6, 0.5_f64..3.0, -2_i32..=2);
    (
        prop::collection::vec(leg_of, 3..=4),
        3.0_f64..6.0,
        (-0.2_f64..0.2, -0.2_f64..0.2),
        (4_u16..=5, 15.0_f64..60.0),
        400.0_f64..4_500.0,
        prop::sample::select(vec![
            None,
            Some(Rule::Rest),
            Some(Rule::ThreeLegs),
            Some(Rule::TwoLegs),
            Some(Rule::WorstCase),
        ]),
    )
        .prop_map(|(legs, high, off, (links, pitch), mass, rule)| {
            let all = legs.len() as f64;
            let legs = legs.iter().enumerate().map(|(at, (out, aside, up, stretch, odd))| {
                let angle = (at as f64 + 0.5 + aside) / all * std::f64::consts::TAU;
                let (x, y) = (out * angle.cos(), out * angle.sin());
                let reach =
                    (x * x + y * y + (high - up) * (high - up)).sqrt() + f64::from(*odd) * pitch / 1_000.0;
                let rope = reach - f64::from(links) / 2.0 * pitch / 1_000.0;
                let mut leg = leg(
                    &(at + 1).to_string(),
                    [x * 1e3, y * 1e3, up * 1e3],
                    1_000.0,
                    (stretch * 10.0).round() / 10.0,
                );
                let chain = Chain { links, seated: 1, pitch: of(pitch, Unit::Mm), reeved: Reeved::Single };
                leg.reach = Reach::RopeAndChain(of(rope * 1e3, Unit::Mm), chain);
                leg
            });
            let mut load = load(mass, [off.0 * 1e3, off.1 * 1e3, 100.0], legs.collect());
            load.rule = rule;
            load
        })
}

/// How far from what is wanted in whole tenths of a degree, utilisation in hundredths of a per cent, links.
type Key = (u32, u32, Vec<u16>);

/// Every choice of links, by the assessment alone, ranked as the format says.
pub(crate) fn by_brute_force(load: &RiggedLoad, wanted: &Wanted, most: usize) -> Vec<Key> {
    let chains: Vec<u16> =
        load.legs.iter().map(|leg| leg.reach.chain().map_or(1, |chain| chain.links - 1)).collect();
    let mut links = vec![1_u16; chains.len()];
    let mut found = Vec::new();
    loop {
        let mut rigged = load.clone();
        for (leg, link) in rigged.legs.iter_mut().zip(&links) {
            if let Some(chain) = leg.reach.chain_mut() {
                chain.seated = *link;
            }
        }
        found.extend(ranked(&rigged, wanted).map(|(off, share)| (off, share, links.clone())));
        let Some(at) = (0..links.len()).rev().find(|at| links[*at] < chains[*at]) else { break };
        links[at] += 1;
        links[at + 1..].fill(1);
    }
    found.sort();
    found.truncate(most);
    found
}

fn ranked(load: &RiggedLoad, wanted: &Wanted) -> Option<(u32, u32)> {
    let assessment = assess(load);
    let hang = assessment.hang.as_ref()?;
    let keeps = match assessment.state() {
        State::WithinLimits => true,
        State::AtRestOnly => load.rule.is_none(),
        _ => false,
    };
    let carries = hang.legs.iter().all(|leg| !leg.slack && leg.from_horizontal.value() > 0.0);
    if !keeps || !carries || wanted.nose_down_at_least.is_some_and(|down| hang.pitch.value() > -down + 1e-9) {
        return None;
    }
    let up = |pitch: f64, roll: f64| {
        let (p, r) = (pitch.to_radians(), roll.to_radians());
        [p.sin(), p.cos() * r.sin(), p.cos() * r.cos()]
    };
    let (one, other) = (up(hang.pitch.value(), hang.roll.value()), up(wanted.pitch, wanted.roll));
    let apart: f64 = one.iter().zip(other).map(|(a, b)| (a - b) * (a - b)).sum::<f64>().sqrt();
    let off = (2.0 * (apart / 2.0).asin()).to_degrees();
    let rule = match load.rule {
        None | Some(Rule::Rest) => 0.0,
        Some(Rule::ThreeLegs) => hang.rules.three_leg.value(),
        Some(Rule::TwoLegs) => hang.rules.two_leg.value(),
        Some(Rule::WorstCase) => hang.worst(1.0).map_or(0.0, |(_, share)| share.value()),
    };
    let share = hang.legs.iter().map(|leg| leg.utilisation.value()).fold(rule, f64::max);
    (off <= 10.0).then(|| ((off / 0.1 + 1e-6).floor() as u32, (share / 1e-4 + 1e-6).floor() as u32))
}

fn solved(load: &RiggedLoad, wanted: Wanted, most: usize) -> Vec<Key> {
    let asked = Asked { wanted, most, ..Asked::default() };
    let found = solve(load, &Stock::default(), &asked, &Options::default()).unwrap();
    assert!(found.whole);
    let keys = found.best.iter().map(|one| {
        let links = one.links.iter().map(|(_, link)| link.unwrap_or(1)).collect();
        let (off, share) = (one.off.value(), one.utilisation.value());
        ((off / 0.1 + 1e-6).floor() as u32, (share / 1e-4 + 1e-6).floor() as u32, links)
    });
    keys.collect()
}

fn drawn(how_many: usize) -> Vec<(RiggedLoad, Wanted)> {
    let mut runner = TestRunner::deterministic();
    let wanted = prop_oneof![
        2 => Just(Wanted::LEVEL),
        1 => (-6.0_f64..6.0, -4.0_f64..4.0).prop_map(|(pitch, roll)| Wanted::new(pitch, roll, None).unwrap()),
        1 => (1.0_f64..5.0).prop_map(|down| Wanted::new(-down, 0.0, Some(down)).unwrap()),
    ];
    let strategy = (small(), wanted);
    (0..how_many).map(|_| strategy.new_tree(&mut runner).unwrap().current()).collect()
}

#[test]
fn the_solver_equals_brute_force() {
    let (mut some, mut none) = (0, 0);
    for (at, (load, wanted)) in drawn(count("SOLVED", 200)).into_iter().enumerate() {
        let (ours, theirs) = (solved(&load, wanted, 4), by_brute_force(&load, &wanted, 4));
        assert_eq!(ours, theirs, "load {at}: {load:?} {wanted:?}");
        if ours.is_empty() { none += 1 } else { some += 1 }
    }
    // Loads of which nothing could be proposed, or everything, would prove little.
    assert!(some > none && none > 0, "{some} with proposals, {none} without");
}

/// Another language, another method: equilibrium of forces at the hook by a secant search, and every link count in turn.
/// `SOLVED_APART=100` is what tests/results tells of.
#[test]
fn an_independent_solver_agrees() {
    use std::io::Write as _;
    let loads: Vec<_> = drawn(400)
        .into_iter()
        .filter(|(load, _)| {
            matches!(load.rule, None | Some(Rule::Rest))
                && load.legs.iter().all(|leg| leg.reach.chain().is_some_and(|chain| chain.links <= 5))
        })
        .take(count("SOLVED_APART", 20))
        .collect();
    let mut lines = String::new();
    for (load, wanted) in &loads {
        let si = |place: &[slingseal_words::Quantity; 3]| place.map(slingseal_words::Quantity::si);
        let best = solved(load, *wanted, 1);
        let legs: Vec<_> = load
            .legs
            .iter()
            .map(|leg| {
                let Reach::RopeAndChain(rope, chain) = &leg.reach else { panic!("a rope and a chain") };
                serde_json::json!({
                    "point": si(&leg.lift_point), "rope": rope.si(), "pitch": chain.pitch.si(), "links": chain.links,
                    "stretch": leg.stretch.unwrap().si(), "rating": leg.weakest().unwrap().1.newtons().value(),
                })
            })
            .collect();
        let down = wanted.nose_down_at_least;
        lines += &serde_json::json!({
            "weight": load.mass.newtons().unwrap().value(), "centre": si(&load.centre), "legs": legs,
            "pitch": wanted.pitch, "roll": wanted.roll, "down": down,
            "best": best.first().map(|(off, share, links)| serde_json::json!([off, share, links])),
        })
        .to_string();
        lines.push('\n');
    }
    let run = |broken: &[&str]| {
        let mut child = std::process::Command::new("/usr/bin/python3")
            .args(["-B", concat!(env!("CARGO_MANIFEST_DIR"), "/independent/lift.py")])
            .args(broken)
            .stdin(std::process::Stdio::piped())
            .stdout(std::process::Stdio::piped())
            .spawn()
            .expect("Debian's python3 runs");
        child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
        let output = child.wait_with_output().unwrap();
        (output.status.success(), String::from_utf8(output.stdout).unwrap())
    };
    let (agrees, said) = run(&[]);
    assert!(agrees && said.contains(&format!("{} loads, 0 disagree", loads.len())), "{said}");
    // A comparison that cannot fail proves nothing.
    let (agrees, said) = run(&["stiff"]);
    assert!(!agrees, "{said}");
}

fn vehicle() -> RiggedLoad {
    read(include_str!("../../core/rigging/examples/light-vehicle.toml")).unwrap()
}

/// Four chains of 110 links: a grid of 141 million. Held to few links it is the same as by brute force.
#[test]
fn the_vehicle_is_levelled() {
    let load = vehicle();
    let found = solve(&load, &Stock::default(), &Asked::default(), &Options::default()).unwrap();
    assert!(found.whole && found.ways > 1.4e8, "{found:?}");
    let best = &found.best[0];
    // Of all that hang so near, the one whose legs share best is first: on this load about a quarter of the weight a leg.
    assert!(best.utilisation.value() < 0.66, "{best:?}");
    let hang = best.assessment.hang.as_ref().unwrap();
    assert!(best.off.value() < 0.1, "{best:?}");
    // Level within half a link: one link more or less on any leg is further off.
    let slips = what_if(&best.load, &Options::default());
    for effect in slips.links {
        for change in [effect.one_more, effect.one_less].into_iter().flatten() {
            if let slingseal_rigging::LinkChange::Hangs { pitch, roll, .. } = change {
                assert!(pitch.value().hypot(roll.value()) > hang.pitch.value().hypot(hang.roll.value()));
            }
        }
    }
    let names = load.legs.iter().map(|leg| leg.name.clone());
    let between = names.zip(&best.links).map(|(leg, (_, link))| {
        let link = link.unwrap();
        Between { leg, first: link.saturating_sub(2).max(1), last: link + 2 }
    });
    let asked = Asked { between: between.collect(), ..Asked::default() };
    let held = solve(&load, &Stock::default(), &asked, &Options::default()).unwrap();
    assert_eq!(held.best[0].links, best.links);
    assert_eq!(
        solve(&load, &Stock::default(), &Asked::default(), &Options::default()).unwrap(),
        found,
        "the same twice"
    );
}

#[test]
fn sets_and_ropes_are_chosen_among_what_is_listed() {
    let text = include_str!("../../core/rigging/examples/planned-lift.toml");
    let file = read_file(text).unwrap();
    let load = file.load.unwrap();
    let found = solve(&load, &file.stock, &Asked::default(), &Options::default()).unwrap();
    let names: Vec<_> = found
        .sets
        .iter()
        .map(|set| (set.set.as_ref().map(Name::as_str), set.legs_enough, set.off.is_some()))
        .collect();
    assert_eq!(
        names,
        [
            (None, true, true),
            (Some("small set"), true, false),
            (Some("large set"), true, true),
            (Some("pair"), false, false)
        ]
    );
    assert_eq!(found.smallest.as_ref().map(Name::as_str), Some("large set"));
    // Every rating of a proposal is one of the file.
    for one in &found.best {
        for leg in &one.load.legs {
            for rating in leg.rated.iter().chain(leg.parts.iter().map(|part| &part.rating)) {
                assert!(text.contains(&format!("\"{}\"", rating.value)), "{rating:?}");
            }
        }
        assert_eq!(read(&write(&one.load)).unwrap(), one.load);
    }
}

#[test]
fn two_hooks_are_gone_through_and_bounded() {
    let mut load = read(include_str!("../../core/rigging/examples/bridge-beam.toml")).unwrap();
    assert_eq!(
        solve(&load, &Stock::default(), &Asked::default(), &Options::default()),
        Err(SolveError::NothingToChoose)
    );
    for leg in &mut load.legs {
        let chain = Chain { links: 6, seated: 3, pitch: of(30.0, Unit::Mm), reeved: Reeved::Single };
        leg.reach = Reach::RopeAndChain(of(4_900.0, Unit::Mm), chain);
    }
    let ours = solved(&load, Wanted::LEVEL, 3);
    assert_eq!(ours, by_brute_force(&load, &Wanted::LEVEL, 3));
    assert!(!ours.is_empty());
    for leg in &mut load.legs {
        leg.reach.chain_mut().unwrap().links = 60;
    }
    // Refused and not cut short; what it says to do helps.
    let refused = solve(&load, &Stock::default(), &Asked::default(), &Options::default());
    let Err(SolveError::TooMany { each, .. }) = refused else { panic!("{refused:?}") };
    assert!((10..60).contains(&each), "{each}");
    let held = load.legs.iter().map(|leg| Between { leg: leg.name.clone(), first: 1, last: 3 });
    let asked = Asked { between: held.collect(), ..Asked::default() };
    assert!(solve(&load, &Stock::default(), &asked, &Options::default()).unwrap().whole);
}

#[test]
fn what_cannot_be_sought_is_told() {
    assert!(matches!(Wanted::new(40.0, 0.0, None), Err(SolveError::Angle(_))));
    for wrong in ["1", "1=0", "1=5-3", "1=a", "=3"] {
        assert!(matches!(Between::parse(wrong), Err(SolveError::NotBetween(_))), "{wrong}");
    }
    let asked = Asked { between: vec![Between::parse("9=1-4").unwrap()], ..Asked::default() };
    assert!(matches!(
        solve(&vehicle(), &Stock::default(), &asked, &Options::default()),
        Err(SolveError::NoChain { .. })
    ));
    // Too weak for the load in any way: found out without a search.
    let mut weak = vehicle();
    for leg in &mut weak.legs {
        leg.parts.clear();
        leg.rated = Some(rating(500.0, Unit::Lb));
    }
    let found = solve(&weak, &Stock::default(), &Asked::default(), &Options::default()).unwrap();
    assert!(found.best.is_empty() && found.tried == 0 && found.whole);
    let factor = Options::default().with_factor(2.5).unwrap();
    let found = solve(&vehicle(), &Stock::default(), &Asked::default(), &factor).unwrap();
    for one in found.best {
        assert!(assess_with(&one.load, &factor).state() != State::OverLimit);
    }
}
