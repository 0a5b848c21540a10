//! Which loads a board looks at: every one that it may show, once.

use std::collections::BTreeMap;

use super::*;

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
