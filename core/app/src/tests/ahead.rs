//! What is opened, folded and judged ahead is kept as what is taken in one by one, in whatever order it comes.

use super::batch::refused_later;
use super::bundles::{bundle, day, desk, take};
use super::*;
use slingseal_account::sync::{BundleReader, BundleWriter, Item, ItemKind, Piece};
use slingseal_store::{FlowRow, LoadRow, RecordRow};
use std::collections::BTreeSet;

fn items(bytes: &[u8]) -> Vec<Item> {
    let mut reader = BundleReader::begin(bytes).unwrap().unwrap();
    let mut items = Vec::new();
    while let Some(Piece::Item(item)) = reader.next_piece().unwrap() {
        items.push(item);
    }
    items
}

fn of_items<'i>(items: impl IntoIterator<Item = &'i Item>) -> Vec<u8> {
    let mut writer = BundleWriter::begin(Vec::new()).unwrap();
    for item in items {
        writer.add(item.kind, &item.body).unwrap().unwrap();
    }
    writer.finish().unwrap()
}

/// What is kept of every seal and of every load, but for when it came.
fn kept(desk: &App) -> (Vec<RecordRow>, Vec<LoadRow>, Vec<FlowRow>) {
    let inner = desk.lock();
    let read = inner.store.read();
    let mut records = read.all_records().unwrap();
    records.iter_mut().for_each(|row| row.received = Time::from_unix(0));
    records.sort_by_key(|row| row.seal);
    (records, read.loads().unwrap(), read.flows().unwrap())
}

#[test]
fn what_is_judged_ahead_stands_as_what_is_taken_one_by_one() {
    let day = day();
    day.zone.pass(600);
    refused_later(&day);
    let all = desk(&day, "all");
    for app in [&day.one, &day.two, &day.hookup] {
        take(&all, &bundle(app, None));
    }
    let items = items(&bundle(&all, None));
    let records: Vec<&Item> = items.iter().filter(|item| item.kind == ItemKind::Record).collect();
    assert!(items.len() >= 12 && records.len() == 4, "{} items", items.len());
    let one_by_one = desk(&day, "one by one");
    for item in &items {
        take(&one_by_one, &of_items([item]));
    }
    let wanted = kept(&one_by_one);
    let standings: BTreeSet<_> = wanted.0.iter().map(|row| row.standing()).collect();
    assert!(standings.len() >= 3, "voided, superseded, not fit and fit: {standings:?}");
    let words = || items.iter().filter(|item| item.kind != ItemKind::Record);
    let orders: [(&str, Vec<&Item>); 4] = [
        ("as it is sent", items.iter().collect()),
        ("backwards", items.iter().rev().collect()),
        ("records first", records.iter().copied().chain(words()).collect()),
        ("records last", words().chain(records.iter().copied()).collect()),
    ];
    for (order, (name, items)) in orders.into_iter().enumerate() {
        let desk = desk(&day, ["order 0", "order 1", "order 2", "order 3"][order]);
        take(&desk, &of_items(items.iter().copied()));
        assert_eq!(kept(&desk), wanted, "{name}");
        assert_eq!(desk.audit().unwrap().faults, [""; 0], "{name}");
        let again = take(&desk, &of_items(items));
        assert_eq!((again.new, again.completed, again.papers), (0, 0, 0), "{name}");
        assert_eq!(kept(&desk), wanted, "{name}, twice");
    }
    // Records by themselves, each the only word of its load but where two seals are of one.
    let alone = desk(&day, "alone");
    let more: Vec<&Item> = records.iter().copied().cycle().take(9).collect();
    take(&alone, &of_items(more));
    let apart = desk(&day, "apart");
    for item in &records {
        take(&apart, &of_items([*item]));
    }
    assert_eq!(kept(&alone), kept(&apart));
    assert_eq!(alone.audit().unwrap().faults, [""; 0]);
}
