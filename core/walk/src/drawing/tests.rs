use super::*;
use crate::procedure::built_in;
use slingseal_words::Language;

const LOADS: [&str; 5] = ["bag", "net", "vehicle", "drums", "longline"];

fn drawing(of: &str) -> Drawing {
    Drawing::of(&ProcedureId::new(of).unwrap()).unwrap()
}

#[test]
fn every_line_lies_in_its_square_and_goes_somewhere() {
    for load in LOADS {
        for line in &drawing(load).lines {
            assert!(line.dots.len() >= 2 && !line.parts.is_empty(), "{load}: {line:?}");
            let inside = |value: i32| (0..=Drawing::SIDE).contains(&value);
            assert!(line.dots.iter().all(|dot| inside(dot.x) && inside(dot.y)), "{load}: {line:?}");
        }
    }
}

/// A part that no card names would be drawn and never marked; it is a slip of the pen or a list that changed.
#[test]
fn every_part_is_a_card_or_a_station_of_its_list() {
    for load in LOADS {
        let plan = built_in(load).unwrap().expand(Language::English);
        for line in &drawing(load).lines {
            for part in &line.parts {
                let known = plan.cards.iter().any(|card| card.id == *part)
                    || plan.stations.iter().any(|station| station.id == *part);
                assert!(
                    known,
                    "{load}: no card or station goes by {part}; there are {:?}",
                    plan.cards.iter().map(|card| &card.id).collect::<Vec<_>>()
                );
            }
        }
    }
}

/// What is asked of a card stands on the load: all but those about people, the way there and the whole of it are marked.
#[test]
fn every_card_about_a_part_marks_it_and_no_two_sides_look_the_same() {
    for load in LOADS {
        let plan = built_in(load).unwrap().expand(Language::English);
        let drawing = drawing(load);
        let mut seen = std::collections::BTreeMap::new();
        for card in &plan.cards {
            let marked = drawing.marked(&card.id);
            let station = card.id.split('.').next().unwrap();
            let whole = matches!(station, "people" | "ready");
            assert_eq!(marked.contains(&true), !whole, "{load}: card {}", card.id);
            if !whole {
                seen.entry(marked).or_insert_with(Vec::new).push(card.id.clone());
            }
        }
        let same: Vec<_> = seen
            .values()
            .filter(|cards| cards.len() > 1 && cards.iter().any(|card| card.contains('-')))
            .collect();
        assert!(same.is_empty(), "{load}: {same:?} look the same");
    }
}

#[test]
fn of_another_list_there_is_none() {
    assert_eq!(Drawing::of(&ProcedureId::new("gear-hook").unwrap()), None);
    assert_eq!(Drawing::of(&ProcedureId::new("my-own-load").unwrap()), None);
}

#[test]
fn in_a_terminal_the_part_is_marked_where_it_is_drawn() {
    let drawing = drawing("vehicle");
    let cells = drawing.cells(&drawing.marked("apex.fitting"), 40);
    assert_eq!((cells.len(), cells.iter().map(Vec::len).max()), (20, Some(40)));
    let rows: Vec<bool> = cells.iter().map(|row| row.iter().any(|cell| cell.marked)).collect();
    assert!(
        rows.iter().take(4).any(|marked| *marked) && !rows.iter().skip(4).any(|marked| *marked),
        "{rows:?}"
    );
    assert!(cells.iter().flatten().filter(|cell| cell.sign != ' ').count() > 150);
    assert!(drawing.cells(&[], 0).is_empty());
}

#[test]
fn on_paper_what_is_marked_is_heavy() {
    let drawing = drawing("bag");
    let svg = drawing.svg(&drawing.marked("grab.hook"), 300);
    assert_eq!(svg.matches("stroke-width=\"15\"").count(), 1);
    assert!(svg.starts_with("<svg") && svg.ends_with("</svg>") && !svg.contains("NaN"));
}
