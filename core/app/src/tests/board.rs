//! The board: what its filters leave, that its pages hold every load once, and where its zones are.

use std::collections::BTreeSet;

use super::*;

const LIST: &str = "load,description,procedure,gross,aircraft,allowable,pickup,pickup_grid,destination,destination_grid,rigger,links\n";

/// Thirty loads: three zones, two destinations, two aircraft.
fn desk() -> (Zone, App) {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let desk = zone.device(&authority, "desk", "Lantern 1", "planner,leader");
    let line = |load: u32| {
        let (pickup, grid) =
            [("Kestrel Meadow", "46.0 7.0"), ("Marsh", "46.1 7.2"), ("Quarry", "")][load as usize % 3];
        let (to, to_grid) = [("Alder Bridge", "46.05 7.1"), ("Ridge", "")][load as usize % 2];
        let aircraft = if load.is_multiple_of(5) { "Drover H4" } else { "Heron M2" };
        format!(
            "KM-{load:03},Rations,bag,1800 lb,{aircraft},7000 lb,{pickup},{grid},{to},{to_grid},Mason 5,1:3\n"
        )
    };
    let list: String = std::iter::once(LIST.to_owned()).chain((0..30).map(line)).collect();
    desk.write_tags(&list, &no_file, Some(PIN)).unwrap();
    (zone, desk)
}

fn request() -> BoardRequest {
    BoardRequest { days: 7, most: 4, ..BoardRequest::default() }
}

fn some(text: &str) -> Option<String> {
    Some(text.into())
}

/// The loads of a board, all pages of all states.
fn loads(desk: &App, request: &BoardRequest) -> Vec<String> {
    let mut loads = Vec::new();
    let pages = |view: &BoardView| view.columns.iter().map(|column| column.pages).max().unwrap_or(0);
    for page in 0..pages(&desk.board_of(request).unwrap()) {
        let view = desk.board_of(&BoardRequest { page, ..request.clone() }).unwrap();
        loads.extend(view.columns.into_iter().flat_map(|column| column.loads).map(|one| one.load));
    }
    loads
}

#[test]
fn every_filter_leaves_what_it_names_and_every_load_is_on_one_page() {
    let (zone, desk) = desk();
    let all = loads(&desk, &request());
    assert_eq!(all.len(), 30, "each once: {all:?}");
    assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), 30);
    let number = |load: &String| load.split_at(3).1.parse::<u32>().unwrap();
    let fits = |chosen: BoardRequest, wanted: &dyn Fn(u32) -> bool| {
        let found: BTreeSet<u32> = loads(&desk, &chosen).iter().map(number).collect();
        assert_eq!(found, (0..30).filter(|load| wanted(*load)).collect(), "{chosen:?}");
    };
    fits(BoardRequest { zone: some("Marsh"), ..request() }, &|load| load % 3 == 1);
    fits(BoardRequest { destination: some("Ridge"), ..request() }, &|load| load % 2 == 1);
    fits(BoardRequest { aircraft: some("Drover H4"), ..request() }, &|load| load % 5 == 0);
    fits(BoardRequest { zone: some("Marsh"), aircraft: some("Drover H4"), ..request() }, &|load| {
        load % 3 == 1 && load % 5 == 0
    });
    fits(BoardRequest { zone: some("Nowhere"), ..request() }, &|_| false);
    let day = desk.now().date();
    fits(BoardRequest { date: some(&day), ..request() }, &|_| true);
    fits(BoardRequest { date: some("2020-01-01"), ..request() }, &|_| false);

    // A state alone is listed, and the others are counted.
    zone.pass(60);
    desk.report(
        &ReportRequest { load: some("KM-004"), ..ReportRequest::of(crate::MovementKind::Lifted) },
        Some(PIN),
    )
    .unwrap();
    let lifted = BoardRequest { state: Some(FlowState::Lifted), ..request() };
    assert_eq!(loads(&desk, &lifted), ["KM-004"]);
    let view = desk.board_of(&lifted).unwrap();
    let planned = view.columns.iter().find(|column| column.state == FlowState::Planned).unwrap();
    assert_eq!((planned.count, planned.loads.len()), (29, 0));
    let no_state = "flying".parse::<FlowState>().unwrap_err().say(Language::English);
    assert!(no_state.contains("is no state; use planned"), "{no_state}");
    let refused = |request: BoardRequest| desk.board_of(&request).unwrap_err().to_string();
    assert!(refused(BoardRequest { date: some("soon"), ..request() }).contains("is no day"));
    // A page behind the last is empty, and no fault.
    assert_eq!(desk.board_of(&BoardRequest { page: u32::MAX, ..request() }).unwrap().columns[0].loads, []);
}

/// An order holds over the pages of a state, and leaves nobody out; loads that are alike stay in the usual order.
#[test]
fn a_state_is_ordered_over_all_its_pages() {
    let (_zone, desk) = desk();
    let by = |by, down| loads(&desk, &BoardRequest { order: Some(Sorting { by, down }), ..request() });
    let mut up = by(BoardOrder::Load, false);
    assert_eq!(up, (0..30).map(|load| format!("KM-{load:03}")).collect::<Vec<_>>());
    up.reverse();
    assert_eq!(by(BoardOrder::Load, true), up);
    let number = |load: &String| load.split_at(3).1.parse::<u32>().unwrap();
    let craft: Vec<bool> = by(BoardOrder::Aircraft, false).iter().map(|load| number(load) % 5 == 0).collect();
    assert_eq!(craft, [vec![true; 6], vec![false; 24]].concat(), "Drover before Heron");
    let to: Vec<u32> = by(BoardOrder::To, true).iter().map(|load| number(load) % 2).collect();
    assert_eq!(to, [vec![1; 15], vec![0; 15]].concat(), "Ridge before Alder Bridge");
}

#[test]
fn zones_are_counted_and_placed_where_their_grid_says() {
    let (_zone, desk) = desk();
    let view = desk.board_of(&request()).unwrap();
    assert_eq!(view.aircraft, ["Drover H4", "Heron M2"]);
    let zone = |name: &str| view.zones.iter().find(|zone| zone.name == name).unwrap();
    assert_eq!((zone("Marsh").here[&FlowState::Planned], zone("Marsh").bound.len()), (10, 0));
    assert_eq!((zone("Ridge").bound[&FlowState::Planned], zone("Ridge").here.len()), (15, 0));
    let (meadow, bridge) = (zone("Kestrel Meadow"), zone("Alder Bridge"));
    assert!(meadow.latitude.unwrap() < bridge.latitude.unwrap(), "the bridge lies north of the meadow");
    assert!(meadow.longitude.unwrap() < bridge.longitude.unwrap(), "and east of it");
    let off = (meadow.latitude.unwrap() - 46_000_000).abs();
    assert!(off < 1_000, "{off} millionths of a degree");
    assert_eq!((zone("Quarry").latitude, zone("Ridge").longitude), (None, None), "no grid, no place");
}
