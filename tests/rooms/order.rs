//! Which inspection is the later one is said in one place: the room of the judgement. Whoever else puts seals or records in an order
//! by their time does it for a reason that stands here.

use crate::sources::{root, rust_files};

/// What puts something in an order, or picks the first or last of it.
const ORDERS: &[&str] = &[
    "max_by",
    "min_by",
    "sort",
    ".max()",
    ".min()",
    ".cmp(",
    "max(",
    "min(",
    "ORDER BY",
    "> row.issued",
    "< row.issued",
];

/// File, how many lines of it may, and why none of them decides which inspection counts.
const MAY: &[(&str, usize, &str)] = &[
    (
        "core/account/src/report/second_look.rs",
        1,
        "who looked first and who second, to count what both found",
    ),
    (
        "core/app/src/closing/account.rs",
        1,
        "since when a record is taken back: the first void of it that counts",
    ),
    ("core/store/src/board.rs", 2, "when the last of a group was sealed, for counts; the order of an export"),
    ("core/store/src/closings.rs", 1, "statements that were handed up are told from the newest"),
    ("core/store/src/find.rs", 1, "a page of a list is read from the newest"),
    (
        "core/store/src/records/read.rs",
        2,
        "lists of everything that is known of a load, and of all that is here",
    ),
    (
        "core/store/src/papers.rs",
        3,
        "voids in the order in which they are told; a roster goes by its sequence",
    ),
    ("core/store/src/said.rs", 3, "the latest word of anybody, for what it proves of the time"),
];

/// The lines that order something and speak of when it was issued.
fn ordering(source: &str) -> Vec<usize> {
    let lines: Vec<&str> = source.lines().collect();
    let orders = |line: &str| ORDERS.iter().any(|order| line.contains(order));
    let code = |line: &&str| !line.trim_start().starts_with("//");
    lines
        .iter()
        .enumerate()
        .filter(|(_, line)| code(line) && orders(line) && line.contains("issued"))
        .map(|(at, _)| at + 1)
        .collect()
}

#[test]
fn nobody_but_the_judgement_orders_inspections() {
    let mut wrong = Vec::new();
    let mut read = 0;
    for file in rust_files(&root().join("core")).into_iter().chain(rust_files(&root().join("bindings"))) {
        let name = file.strip_prefix(root()).expect("below the root").to_string_lossy().replace('\\', "/");
        let tests = name.contains("/tests") || name.contains("/target/");
        if tests || name.starts_with("core/judgement/") || name.starts_with("core/message/") {
            continue;
        }
        read += 1;
        let found = ordering(&std::fs::read_to_string(&file).expect("our sources can be read"));
        let may = MAY.iter().find(|(known, ..)| *known == name).map_or(0, |(_, may, _)| *may);
        if found.len() != may {
            wrong.push(format!(
                "{name}: lines {found:?} order by the time of issue, {may} may: ask the judgement"
            ));
        }
    }
    assert!(read > 50, "the sources were not found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The words for which the hook, the account and the exports once had rules of their own.
#[test]
fn no_rule_reads_a_view() {
    let mut wrong = Vec::new();
    for file in rust_files(&root().join("core/app/src")) {
        if file.to_string_lossy().contains("tests") {
            continue;
        }
        let source = std::fs::read_to_string(&file).expect("our sources can be read");
        for (at, line) in source.lines().enumerate() {
            if line.contains(".code ==") || line.contains(".standing ==") || line.contains(".word ==") {
                wrong.push(format!("{}:{}: a rule reads the words of a view", file.display(), at + 1));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn an_order_by_time_is_found() {
    let source = "// max_by issued\nrows.iter().max_by_key(|row| row.issued);\nlet sql = \"… ORDER BY issued DESC\";\nrow.issued;";
    assert_eq!(ordering(source), [2, 3]);
}
