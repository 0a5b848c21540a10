//! The account as tables, and the ten questions of QUESTIONS.sql, answered by a database.

use slingseal_app::{PieceReport, ReportRequest};
use slingseal_tests::scripted::PIN;

use crate::server::Server;
use crate::zone::{Ends, WORDS, Zone};

const QUESTIONS: &str = include_str!("../../core/account/QUESTIONS.sql");

fn line(load: u32) -> String {
    format!(
        "KM-{load},Rations,bag,1800 lb,Heron M2,7000 lb,Kestrel Meadow,45.0 7.0,Alder Bridge,Mason {},sling set | SS-{load} | 5 t | data plate | 2030-01-01,1:3\n",
        load % 2
    )
}

fn event(word: &str, load: &str) -> ReportRequest {
    ReportRequest { load: Some(load.to_owned()), ..ReportRequest::of(word.parse().unwrap()) }
}

/// Each question's SQL, by its number.
fn questions() -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for line in QUESTIONS.lines() {
        let numbered = line.strip_prefix("-- ").and_then(|rest| rest.split_once(". "));
        if numbered.is_some_and(|(number, _)| number.parse() == Ok(all.len() + 1)) {
            all.push(String::new());
        } else if let Some(last) = all.last_mut() {
            last.push_str(line);
            last.push('\n');
        }
    }
    all
}

#[test]
fn ten_questions_are_answered_as_by_hand() {
    let server = Server::empty("");
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let desk = zone.device("desk", 0).credentialed(&relief, "Lantern 1", "planner,leader,hookup");
    let anvil = zone.device("anvil", 0).credentialed(&relief, "Anvil 3", "inspector");
    let drover = zone.device("drover", 0).credentialed(&relief, "Drover 7", "inspector");
    let hook = zone.device("hook", 0);
    hook.meet(&relief);
    const LIST: &str = "load,description,procedure,gross,aircraft,allowable,pickup,pickup_grid,destination,rigger,equipment,links\n";
    let list: String = std::iter::once(LIST.to_owned()).chain((301..=305).map(line)).collect();
    let none = |_: &str| Err("none".into());
    let tags: Vec<String> = desk
        .app
        .write_tags(&list, &none, Some(PIN))
        .unwrap()
        .into_iter()
        .map(|made| made.code.text)
        .collect();
    zone.inspect(&anvil, &tags[0], Ends::Fit);
    zone.inspect(&anvil, &tags[1], Ends::FitOnceCorrected);
    zone.inspect(&anvil, &tags[2], Ends::NotFit);
    zone.inspect(&anvil, &tags[3], Ends::Fit);
    zone.pass(600);
    zone.inspect(&drover, &tags[3], Ends::FitOnceCorrected);
    [&anvil, &drover].iter().for_each(|device| assert_eq!(desk.take(&device.bundle(None)).set_aside, []));
    zone.pass(3_600);
    for load in ["KM-301", "KM-302"] {
        desk.app.report(&event("lifted", load), Some(PIN)).unwrap();
    }
    zone.pass(600);
    desk.app.report(&event("set-down", "KM-301"), Some(PIN)).unwrap();
    desk.app.report(&event("derigged", "KM-301"), Some(PIN)).unwrap();
    let piece = PieceReport { serial: "SS-301".into(), back: true, damaged: false };
    desk.app
        .report(&ReportRequest { pieces: vec![piece], ..event("returned", "KM-301") }, Some(PIN))
        .unwrap();
    // Somebody without a key says so too.
    hook.app.arrival(&tags[0]).unwrap();
    hook.app.report(&event("derigged", "KM-301"), None).unwrap();
    desk.take(&hook.bundle(None));

    let mut script = Vec::new();
    let rows = desk.app.export_sql(&mut script).unwrap();
    let mut again = Vec::new();
    desk.app.export_sql(&mut again).unwrap();
    assert!(again == script, "the same account, the same bytes");
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("account.sql");
    std::fs::write(&file, &script).unwrap();
    // Twice: what is there is replaced.
    server.file(&file);
    server.file(&file);
    let counted: u64 = ["loads", "inspections", "findings", "movements", "equipment", "people", "devices"]
        .iter()
        .map(|table| server.number(&format!("SELECT count(*) FROM slingseal_account.{table}")))
        .sum();
    assert_eq!(counted, rows);
    let unsaid = "SELECT count(*) FROM information_schema.columns AS c WHERE table_schema = 'slingseal_account' \
                  AND col_description((table_schema || '.' || table_name)::regclass, ordinal_position) IS NULL";
    assert_eq!(server.number(unsaid), 0, "every column says what it holds");

    let asked = questions();
    assert_eq!(asked.len(), 10);
    let answer = |number: usize| {
        let sql = format!("SET search_path = slingseal_account; SET timezone = 'UTC'; {}", asked[number - 1]);
        server.sql(&sql).lines().map(str::to_owned).collect::<Vec<_>>()
    };
    let day = answer(1);
    assert_eq!(day.len(), 1);
    assert!(day[0].ends_with("|4|5|1"), "four loads, five inspections, one not fit: {day:?}");
    let points = desk.app.deficiencies(None).unwrap().points;
    let wanted: Vec<String> = points
        .iter()
        .map(|point| format!("bag|{}|{}|{:.1}", point.point, point.share.found, point.share.percent.unwrap()))
        .collect();
    let mut told = answer(2);
    told.sort();
    let mut sorted = wanted.clone();
    sorted.sort();
    assert_eq!(told, sorted);
    assert!(!wanted.is_empty());
    let riggers = answer(3);
    assert_eq!(riggers.len(), 2, "{riggers:?}");
    let counts: u64 = riggers.iter().map(|row| row.split('|').nth(1).unwrap().parse::<u64>().unwrap()).sum();
    assert_eq!(counts, 5);
    let fit = answer(4);
    assert_eq!(fit.len(), 1, "{fit:?}");
    assert!(fit[0].starts_with("KM-304|"), "{fit:?}");
    let lifted = answer(5);
    assert!(lifted.len() == 1 && lifted[0].starts_with("KM-302|2026-"), "{lifted:?}");
    assert!(answer(6)[0].starts_with("2|01:"), "{:?}", answer(6));
    let out = answer(7);
    assert_eq!(out, ["SS-302|sling set|out|KM-302"]);
    assert_eq!(answer(8), ["SS-301|1|816", "SS-302|1|816"], "1800 lb are 816 kg");
    assert_eq!(answer(9), ["Anvil 3|4|1|t", "Drover 7|1|0|t"]);
    let movements = answer(10);
    assert_eq!(movements.len(), 2, "{movements:?}");
    assert!(movements[0].ends_with("|5|5|Lantern 1") && movements[1].ends_with("|1|0|"), "{movements:?}");

    // The second look has its pair: what one put right the other could not find.
    let looks = desk.app.second_looks(None).unwrap();
    assert_eq!((looks.pairs, looks.inspectors.len()), (1, 2), "{looks:?}");
    assert!(looks.all.second >= 1 && looks.all.first == 0, "{looks:?}");
    assert!(looks.assumes.len() == 5 && looks.all.high.is_none(), "{looks:?}");
    let drawn = desk.app.draw_second_looks(10).unwrap();
    let loads: Vec<&str> = drawn.iter().map(|one| one.load.as_str()).collect();
    assert_eq!(
        loads,
        ["KM-303", "KM-304"],
        "what was lifted is gone, and what nobody inspected has no first look"
    );
    assert_eq!(desk.app.draw_second_looks(1).unwrap().len(), 1);
}
