//! Random commands: what must hold of every walk.

use proptest::prelude::*;

use super::*;

/// What a patient inspector would do next, so that random walks also come to fit.
fn forward(walk: &Walk) -> Command {
    let value_for = |at: &str| match at {
        "s.kinds.count" => Some(Value::Count(3)),
        "s.kinds.links" => Some(Value::Count(40)),
        "s.kinds.choice" => Some(Value::Choice("blue".into())),
        "s.kinds.measure" => Some(Value::Measure(mass("3 in"))),
        "s.kinds.serial" => Some(Value::Serial(Serial::new("SL-1").unwrap())),
        _ => None,
    };
    if matches!(walk.stage(), Stage::Paused { .. }) {
        return Command::Resume { by: person("Anvil 3") };
    }
    if let At::Card(card) = walk.at() {
        return match walk.needing_values().first() {
            Some(point) => {
                let value = value_for(point.id.as_str()).unwrap();
                Command::Answer { card, point: point.id.clone(), value }
            }
            None => Command::CardGood { card },
        };
    }
    if let Some(open) = walk.open_findings().find(|finding| finding.in_place()) {
        return put_right(open.number.0);
    }
    if let Some(waits) = walk.awaiting_second_look().next() {
        return look(waits.number.0, Again::Good, value_for(waits.point.as_str()));
    }
    if walk.rigging().is_some_and(|rigging| !rigging.within_limits) {
        let finding = RiggingFinding { within_limits: true, summary: note("leg 1") };
        return Command::AssessRigging { finding };
    }
    decide(Outcome::Fit)
}

/// A command by number, 0 to 39; most are sometimes right and sometimes not, and a good third go forward.
fn command(walk: &Walk, pick: u8, which: u8) -> Command {
    let current = match walk.at() {
        At::Card(card) => card,
        At::Decision => card(1),
    };
    let which_card = card(u32::from(which % 4) + 1);
    let shape = walk.ground().plan.card(current).unwrap();
    let at = &shape.points[usize::from(which) % shape.points.len()];
    let finding = FindingNo(u32::from(which % 6) + 1);
    let here = |value| Command::Answer { card: current, point: at.id.clone(), value };
    match pick {
        0..=3 => Command::CardGood { card: current },
        4 => Command::CardGood { card: which_card },
        5 => here(Value::Good),
        6 => here(Value::Count(u32::from(which % 5))),
        7 => here(Value::Count(40)),
        8 => here(Value::Choice(["red", "none", "green"][usize::from(which % 3)].into())),
        9 => here(Value::Measure(mass(["2.5 in", "9 in", "3 lb"][usize::from(which % 3)]))),
        10 => here(Value::Serial(Serial::new(["SL-1", "BAG-7"][usize::from(which % 2)]).unwrap())),
        11 => {
            let name = at.deficiencies.first().map_or("other", |known| known.name.as_str()).to_owned();
            let sighting = Sighting::default();
            Command::FindDeficiency { card: current, point: at.id.clone(), name, sighting }
        }
        12 => put_right(finding.0),
        13 => look(finding.0, Again::StillDeficient, None),
        14 => look(finding.0, Again::Good, None),
        15 => look(finding.0, Again::Good, Some(Value::Measure(mass("2.5 in")))),
        16 => Command::Undo { answer: walk.last_answer().unwrap_or(1) },
        17 => Command::Undo { answer: u32::from(which) },
        18 => Command::GoTo { card: which_card },
        19 => Command::Pause,
        20 => Command::Resume { by: person("Anvil 3") },
        21 => decide(Outcome::Fit),
        22 if which < 64 => decide(Outcome::NotFit),
        23 if which < 32 => Command::Abandon { reason: note("rain") },
        24 => {
            let within_limits = !which.is_multiple_of(4);
            Command::AssessRigging { finding: RiggingFinding { within_limits, summary: note("leg 1") } }
        }
        _ => forward(walk),
    }
}

fn answers(command: &Command) -> bool {
    matches!(
        command,
        Command::CardGood { .. }
            | Command::Answer { .. }
            | Command::FindDeficiency { .. }
            | Command::PutRight { .. }
            | Command::LookAgain { .. }
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn of_every_walk(picks in prop::collection::vec((0u8..40, any::<u8>(), -40i64..2_400), 0..160)) {
        let mut kept = Kept::kinds();
        for (pick, which, seconds) in picks {
            let command = command(&kept.walk, pick, which);
            // Mostly a few seconds; now and then a jump either way.
            let seconds = if which > 240 { seconds } else { seconds.rem_euclid(30) };
            kept.now = kept.now.plus(Seconds(seconds));
            let before = kept.walk.clone();
            let kept_before = kept.events.len();
            let is_answer = answers(&command);
            match kept.tries(command) {
                Err(_) => prop_assert_eq!(&kept.walk, &before),
                Ok(()) => {
                    prop_assert!(kept.events.len() > kept_before);
                    if is_answer {
                        let mut undone = Kept {
                            walk: kept.walk.clone(),
                            events: Vec::new(),
                            now: kept.now,
                        };
                        undone.does(Command::Undo { answer: kept.walk.last_answer().unwrap() });
                        prop_assert_eq!(undone.walk.at(), before.at());
                        prop_assert_eq!(&undone.walk.cards, &before.cards);
                        prop_assert_eq!(undone.walk.findings(), before.findings());
                        prop_assert_eq!(undone.walk.last_answer(), before.last_answer());
                    }
                }
            }
            let tally = kept.walk.tally();
            prop_assert_eq!(tally.found, tally.corrected + tally.open);
            if let Stage::Decided { outcome: Outcome::Fit, .. } = kept.walk.stage() {
                prop_assert_eq!(kept.walk.open_findings().count(), 0);
                prop_assert_eq!(kept.walk.awaiting_second_look().count(), 0);
                let progress = kept.walk.progress();
                prop_assert_eq!(progress.points_done, progress.points);
                prop_assert!(kept.walk.rigging().is_none_or(|rigging| rigging.within_limits));
            }
        }
        prop_assert_eq!(&kept.refolded(), &kept.walk);
        let stored = serde_json::to_vec(&kept.events).unwrap();
        let read: Vec<Event> = serde_json::from_slice(&stored).unwrap();
        prop_assert_eq!(&read, &kept.events);
    }

    /// Kept events with one taken out, doubled or moved fold to an error or to a walk, and never panic; none of them
    /// gives a fit load with an open finding.
    #[test]
    fn of_damaged_records(picks in prop::collection::vec((0u8..40, any::<u8>()), 1..80), a: prop::sample::Index, b: prop::sample::Index) {
        let mut kept = Kept::kinds();
        for (pick, which) in picks {
            let command = command(&kept.walk, pick, which);
            let _ = kept.tries(command);
        }
        let mut events = kept.events.clone();
        let (a, b) = (a.index(events.len()), b.index(events.len()));
        events.swap(a, b);
        events.push(Event { at: kept.now, what: What::Decided { outcome: Outcome::Fit, reason: None } });
        if let Ok(walk) = Walk::fold(kept.walk.ground().clone(), &events) {
            prop_assert_eq!(walk.open_findings().count(), 0);
            let progress = walk.progress();
            prop_assert_eq!(progress.cards_done, progress.cards);
        }
    }
}

/// The random walks reach what they are to prove: fit, not fit and abandoned all come up.
#[test]
fn random_walks_reach_every_end() {
    let mut seen = [0usize; 3];
    let mut seed = 1u32;
    let mut next = || {
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        u8::try_from(seed >> 24).unwrap()
    };
    for _ in 0..500 {
        let mut kept = Kept::kinds();
        for _ in 0..120 {
            let (pick, which) = (next() % 40, next());
            let command = command(&kept.walk, pick, which);
            let _ = kept.tries(command);
        }
        match kept.walk.stage() {
            Stage::Decided { outcome: Outcome::Fit, .. } => seen[0] += 1,
            Stage::Decided { outcome: Outcome::NotFit, .. } => seen[1] += 1,
            Stage::Abandoned { .. } => seen[2] += 1,
            _ => {}
        }
    }
    assert!(seen.iter().all(|count| *count > 0), "fit, not fit, abandoned: {seen:?}");
}
