//! Which loads a board looks at: every one that it may show, once.

use std::collections::BTreeMap;

use super::*;
use crate::flows::FLOW;
use crate::loads::LOADS;

/// What a load of the sample is made of.
#[derive(Clone, Copy, Debug)]
struct Case {
    recent: bool,
    event: &'static str,
    hint: &'static str,
    /// Whether it has an inspection, and whether that held when the board begins.
    held: Option<bool>,
    walk: Option<WalkState>,
}

impl Case {
    /// The rule in words: told of since then, in the air, being walked, or with an inspection that held then.
    fn may_show(self) -> bool {
        self.recent
            || self.event == "lifted"
            || self.hint == "lifted"
            || self.held == Some(true)
            || self.walk.is_some_and(WalkState::in_hand)
    }
}

fn cases() -> Vec<Case> {
    let mut cases = Vec::new();
    for recent in [false, true] {
        for event in ["", "lifted", "set-down"] {
            for hint in ["", "lifted", "lost"] {
                for held in [None, Some(false), Some(true)] {
                    for walk in [None, Some(WalkState::Paused), Some(WalkState::Sealed)] {
                        cases.push(Case { recent, event, hint, held, walk });
                    }
                }
            }
        }
    }
    cases
}

const BEGINS: i64 = 1_000_000;

fn filled(folder: &Folder, cases: &[Case]) -> Store {
    let (mut store, _) = folder.open();
    let write: Result<(), StoreError> = store.write(|tx| {
        for (number, case) in (1_u8..).zip(cases) {
            let load = format!("KM-{number:03}");
            tx.put_flow(&FlowRow {
                load: load.clone(),
                event: case.event.into(),
                happened: Some(at(7)),
                who: String::new(),
                verdict: String::new(),
                hint: case.hint.into(),
                hinted: None,
                zone: "Marsh".into(),
                grid: "46.1 7.2".into(),
                destination: "Ridge".into(),
                destination_grid: "46.0 7.3".into(),
                aircraft: "Heron M2".into(),
                description: "rations".into(),
                gross: "1800 lb".into(),
                planner: "Heron".into(),
                rigger: "Mason 5".into(),
                planned: None,
                touched: at(if case.recent { BEGINS } else { BEGINS - 1 }),
                version: 3,
            })?;
            if let Some(held) = case.held {
                tx.put_load(&LoadRow {
                    load: load.clone(),
                    latest: Digest::of(load.as_bytes()),
                    state: "fit".into(),
                    issued: at(5),
                    valid_until: at(if held { BEGINS } else { BEGINS - 1 }),
                    turns: Some(at(9)),
                    authorities: vec![[1; 32], [2; 32]],
                    version: 3,
                })?;
            }
            if let Some(state) = case.walk {
                // Two walks of one load are one load.
                for walk in [[number; 16], [number, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1]] {
                    tx.put_walk(&WalkRow {
                        id: WalkId(walk),
                        load: load.clone(),
                        procedure: "cargo-bag".into(),
                        inspector: "Anvil 3".into(),
                        state,
                        begun: at(1),
                        updated: at(2),
                    })?;
                }
            }
        }
        Ok(())
    });
    write.unwrap();
    store
}

fn looked_at(store: &Store, which: FlowsOf<'_>) -> BTreeMap<String, u32> {
    let mut found = BTreeMap::new();
    let take = |facts: FlowFacts<'_>| -> Result<(), StoreError> {
        *found.entry(facts.load.to_owned()).or_default() += 1;
        Ok(())
    };
    store.read().each_flow(which, take).unwrap();
    found
}

#[test]
fn every_load_that_a_board_may_show_is_looked_at_once() {
    let (folder, cases) = (Folder::new(), cases());
    let store = filled(&folder, &cases);
    let wanted: BTreeMap<String, u32> = (1_u8..)
        .zip(&cases)
        .filter(|(_, case)| case.may_show())
        .map(|(number, _)| (format!("KM-{number:03}"), 1))
        .collect();
    assert!(wanted.len() > 100 && wanted.len() < cases.len(), "{} of {}", wanted.len(), cases.len());
    assert_eq!(looked_at(&store, FlowsOf::Since(at(BEGINS))), wanted);
    assert_eq!(looked_at(&store, FlowsOf::Since(at(0))).len(), cases.len(), "of all time");
    assert_eq!(looked_at(&store, FlowsOf::Load("KM-007")), [("KM-007".to_owned(), 1)].into());
}

#[test]
fn what_is_told_of_a_load_is_what_its_rows_have() {
    let folder = Folder::new();
    let case = Case { recent: true, event: "lifted", hint: "lost", held: Some(true), walk: None };
    let store = filled(&folder, &[case]);
    let (flow, row) =
        (store.read().flow("KM-001").unwrap().unwrap(), store.read().load("KM-001").unwrap().unwrap());
    let mut seen = 0;
    let take = |facts: FlowFacts<'_>| -> Result<(), StoreError> {
        seen += 1;
        let texts = (facts.load, facts.event, facts.hint, facts.zone, facts.grid);
        assert_eq!(texts, (&*flow.load, &*flow.event, &*flow.hint, &*flow.zone, &*flow.grid));
        let texts = (facts.destination, facts.destination_grid, facts.aircraft);
        assert_eq!(texts, (&*flow.destination, &*flow.destination_grid, &*flow.aircraft));
        let times = (facts.happened, facts.hinted, facts.planned, facts.touched);
        assert_eq!(times, (flow.happened, flow.hinted, flow.planned, flow.touched));
        assert_eq!(facts.inspected, Some(row.facts()));
        Ok(())
    };
    store.read().each_flow(FlowsOf::Since(at(BEGINS)), take).unwrap();
    assert_eq!(seen, 1);
}

/// The day that a manifest is asked for, and a time before it, in it and behind it.
const DAY: (i64, i64) = (BEGINS, BEGINS + 86_400);
const BEFORE: i64 = DAY.0 - 1;
const WITHIN: i64 = DAY.1 - 1;
const AFTER: i64 = DAY.1;

/// What the times of a load of a day may be.
#[derive(Clone, Copy, Debug)]
struct Times {
    planned: Option<i64>,
    happened: Option<i64>,
    /// What counts for nothing: the latest time that is told leaves it out.
    hinted: Option<i64>,
    issued: Option<i64>,
    /// What else tells of it: a tag that was scanned.
    scanned: i64,
}

impl Times {
    fn touched(self) -> i64 {
        let told = [self.planned, self.happened, self.issued, Some(self.scanned)];
        told.into_iter().flatten().max().unwrap()
    }

    /// The rule in words: planned for the day, told to have happened on it, or sealed on it.
    fn is_of_the_day(self) -> bool {
        let told = [self.planned, self.happened, self.hinted, self.issued];
        told.into_iter().flatten().any(|time| (DAY.0..DAY.1).contains(&time))
    }
}

fn times() -> Vec<Times> {
    let any = [None, Some(BEFORE), Some(DAY.0), Some(WITHIN), Some(AFTER)];
    let mut times = Vec::new();
    for planned in any {
        for happened in any {
            for hinted in any {
                for issued in any {
                    for scanned in [BEFORE, DAY.0, AFTER] {
                        times.push(Times { planned, happened, hinted, issued, scanned });
                    }
                }
            }
        }
    }
    times
}

fn with_times(folder: &Folder, times: &[Times]) -> Store {
    let case = Case { recent: false, event: "", hint: "", held: None, walk: None };
    let mut store = filled(folder, &[case]);
    // What happened to that one lies long before the day.
    let pattern = store.read().flow("KM-001").unwrap().unwrap();
    let write: Result<(), StoreError> = store.write(|tx| {
        for (number, times) in times.iter().enumerate() {
            let load = format!("QV-{number:04}");
            let event = if times.happened.is_some() { "lifted" } else { "" };
            let hint = if times.hinted.is_some() { "set-down" } else { "" };
            tx.put_flow(&FlowRow {
                load: load.clone(),
                event: event.into(),
                happened: times.happened.map(at),
                hint: hint.into(),
                hinted: times.hinted.map(at),
                planned: times.planned.map(at),
                touched: at(times.touched()),
                ..pattern.clone()
            })?;
            if let Some(issued) = times.issued {
                tx.put_load(&LoadRow {
                    load: load.clone(),
                    latest: Digest::of(load.as_bytes()),
                    state: "fit".into(),
                    issued: at(issued),
                    valid_until: at(issued + 3_600),
                    turns: None,
                    authorities: Vec::new(),
                    version: 3,
                })?;
            }
        }
        Ok(())
    });
    write.unwrap();
    store
}

#[test]
fn every_load_of_a_day_is_looked_at_once() {
    let (folder, times) = (Folder::new(), times());
    let store = with_times(&folder, &times);
    let wanted: BTreeMap<String, u32> = (0..)
        .zip(&times)
        .filter(|(_, times)| times.is_of_the_day())
        .map(|(number, _)| (format!("QV-{number:04}"), 1))
        .collect();
    assert!(wanted.len() > 500 && wanted.len() < times.len(), "{} of {}", wanted.len(), times.len());
    let wrong = |found: BTreeMap<String, u32>, wanted: &BTreeMap<String, u32>| {
        let numbers = found.keys().chain(wanted.keys()).find(|load| found.get(*load) != wanted.get(*load));
        numbers.map(|load| (load.clone(), found.get(load).copied(), wanted.get(load).copied()))
    };
    assert_eq!(wrong(looked_at(&store, FlowsOf::Within(at(DAY.0), at(DAY.1))), &wanted), None);
    // In one sentence, through everything.
    let whole = "SELECT flow.load FROM flow LEFT JOIN loads ON loads.load = flow.load
        WHERE flow.load IN (SELECT load FROM flow WHERE planned >= ?1 AND planned < ?2
        OR happened >= ?1 AND happened < ?2 OR hinted >= ?1 AND hinted < ?2
        UNION SELECT load FROM loads WHERE issued >= ?1 AND issued < ?2)";
    let mut sizes = Vec::new();
    for (from, until) in [DAY, (BEFORE, DAY.0), (DAY.0, WITHIN), (AFTER, AFTER + 1), (AFTER + 1, AFTER + 2)] {
        let (from, until) = (at(from), at(until));
        let mut statement = store.conn.prepare(whole).unwrap();
        let rows = statement.query_map([from, until], |row| Ok((row.get(0)?, 1))).unwrap();
        let wanted: BTreeMap<String, u32> = rows.collect::<Result<_, _>>().unwrap();
        assert_eq!(wrong(looked_at(&store, FlowsOf::Within(from, until)), &wanted), None, "{from:?}");
        sizes.push(wanted.len());
    }
    assert!(sizes[..4].iter().all(|size| *size > 500) && sizes[4] == 0, "{sizes:?}");
}

/// How SQLite goes about a part of what `each_flow` asks.
fn plan(store: &Store, part: &str) -> Vec<String> {
    let sql = format!("EXPLAIN QUERY PLAN SELECT {}, {} {part}", FLOW.summed(), LOADS.summed());
    let mut statement = store.conn.prepare(&sql).unwrap();
    let bound = vec![BEGINS; statement.parameter_count()];
    let steps = statement.query_map(rusqlite::params_from_iter(bound), |row| row.get(3)).unwrap();
    steps.collect::<Result<_, _>>().unwrap()
}

/// What is asked of some days must not walk through every load.
#[test]
fn each_part_of_a_board_and_of_a_day_has_its_index() {
    let folder = Folder::new();
    let (store, _) = folder.open();
    for part in crate::flows::SINCE.iter().chain(&crate::flows::WITHIN) {
        let plan = plan(&store, part);
        // The loads in the air are an index of their own, and the walks in hand are sought by their states.
        let through = |step: &&String| {
            let small = ["SCAN flow USING INDEX flow_in_the_air", "SCAN walked"];
            step.starts_with("SCAN") && !small.contains(&step.as_str())
        };
        assert_eq!(plan.iter().find(through), None, "{part}: {plan:?}");
        assert!(plan.iter().all(|step| !step.contains("AUTOMATIC")), "{part}: {plan:?}");
    }
    let day = crate::flows::WITHIN.map(|part| plan(&store, part).swap_remove(0));
    assert_eq!(day[0], "SEARCH flow USING INDEX flow_by_touched (touched>?)");
    assert_eq!(day[1], "SEARCH flow USING INDEX flow_by_hinted (hinted>? AND hinted<?)");
}

/// A board counts no row that decayed, of either table: it says so.
#[test]
fn a_decayed_row_is_told_and_not_counted() {
    let whole = Case { recent: true, event: "", hint: "", held: Some(true), walk: None };
    for change in ["UPDATE flow SET zone = 'Quarry'", "UPDATE loads SET state = 'voided'"] {
        let folder = Folder::new();
        let store = filled(&folder, &[whole]);
        assert_eq!(looked_at(&store, FlowsOf::Since(at(BEGINS))).len(), 1);
        store.conn.execute(change, []).unwrap();
        let told = store.read().each_flow(FlowsOf::Since(at(BEGINS)), |_| Ok::<(), StoreError>(()));
        let told = told.unwrap_err().to_string();
        assert!(told.contains("row KM-001 of") && told.contains("does not match its check sum"), "{told}");
    }
}
