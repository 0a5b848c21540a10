//! What is opened, folded and judged ahead is kept as what is taken in one by one, in whatever order it comes.

use super::batch::refused_later;
use super::bundles::{Day, bundle, day, desk, take};
use super::*;
use crate::account::bundles::PIECES_AHEAD;
use slingseal_account::sync::{BundleReader, BundleWriter, Item, ItemKind, Piece};
use slingseal_store::{FlowRow, LoadRow, RecordRow};
use std::collections::{BTreeSet, HashSet, VecDeque};

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
    let all = read.next_stretch(None).unwrap().unwrap();
    (records, read.loads_in(&all).unwrap(), read.flows_in(&all).unwrap())
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

/// A day and a desk that has all of it; and desks by these names, which trust somebody who was revoked since, until the roster comes.
fn revoked_day<const N: usize>(names: [&'static str; N]) -> (Day, App, [App; N]) {
    let day = day();
    day.zone.pass(600);
    refused_later(&day);
    let all = desk(&day, "all");
    for app in [&day.one, &day.two, &day.hookup] {
        take(&all, &bundle(app, None));
    }
    // Whoever meets the authority later has the roster already.
    let desks = names.map(|name| desk(&day, name));
    let revoked = day.authority.revoke(&["Anvil 4".into()], None, WORDS).unwrap();
    all.receive(&revoked.roster.text).unwrap();
    (day, all, desks)
}

/// Records follow, and nothing else of their loads ever comes: what was let in wrongly would stand.
#[test]
fn a_roster_among_words_of_a_bundle_that_were_opened_without_it_counts_for_them() {
    let (_day, all, [one_by_one, same, next]) = revoked_day(["one by one", "same lot", "next lot"]);
    let items = items(&bundle(&all, None));
    let of_kind = |kind| items.iter().filter(move |item| item.kind == kind);
    let rosters: Vec<&Item> = of_kind(ItemKind::Roster).collect();
    let records: Vec<&Item> = of_kind(ItemKind::Record).collect();
    for item in rosters.iter().chain(&records) {
        take(&one_by_one, &of_items([*item]));
    }
    let wanted = kept(&one_by_one);
    let standings: BTreeSet<_> = wanted.0.iter().map(|row| row.standing()).collect();
    assert!(standings.contains(&slingseal_store::Standing::Refused), "the revoked one's: {standings:?}");
    // Enough that they are opened on the other cores.
    let many: Vec<&Item> = records.iter().copied().cycle().take(9).collect();
    take(&same, &of_items(rosters.iter().chain(&many).copied()));
    assert_eq!(kept(&same), wanted, "they are opened together");
    // The roster ends a lot, and the next is opened while that one is taken in.
    let before = of_kind(ItemKind::Credential).cycle().take(PIECES_AHEAD - rosters.len());
    take(&next, &of_items(before.chain(rosters.iter().chain(&many).copied())));
    assert_eq!(kept(&next), wanted, "they are opened before it is taken in");
}

/// Takes words in by pages of so many, all of which have come already; how many commits that was.
fn pull(desk: &App, words: &[ExchangeWord], of: usize) -> usize {
    let (place, source) = ([9; 16], [1; 16]);
    let mut state = desk.exchange_state(place, true).unwrap();
    let mut number = 0;
    let mut page = |words: &[ExchangeWord]| {
        number += words.len() as i64;
        let key = words.last().unwrap().key();
        ExchangePage::new(ExchangePosition { source, number, key }, words.to_vec())
    };
    let mut pages: VecDeque<ExchangePage> = words.chunks(of).map(&mut page).collect();
    let (mut intake, mut commits) = (ExchangeIntake::default(), 0);
    while let Some(page) = pages.pop_front() {
        intake.push(page);
        while !intake.is_empty() {
            desk.exchange_take(&mut state, &mut intake, &mut || pages.pop_front()).unwrap();
            commits += 1;
            let kept = desk.exchange_state(place, false).unwrap();
            assert_eq!(kept.position(&source), state.position(&source), "kept with each commit");
        }
    }
    assert_eq!(state.position(&source).unwrap().number, number, "read to the end");
    commits
}

#[test]
fn pages_that_are_opened_while_others_are_written_stand_as_words_taken_one_by_one() {
    let names = ["one by one", "alone, one by one", "order 0", "order 1", "order 2"];
    let (_day, all, [one_by_one, alone_one_by_one, desks @ ..]) = revoked_day(names);
    let here = all.exchange_here(false, &HashSet::new()).unwrap();
    let words = all.exchange_words(&here, 0..here.keys().len()).unwrap();
    let is_kind = |word: &ExchangeWord, kind: ItemKind| word.kind() == i16::from(kind.code());
    let commits = pull(&one_by_one, &words, 1);
    assert!(commits >= 2, "more pages than one commit takes: {commits}");
    let wanted = kept(&one_by_one);
    let standings: BTreeSet<_> = wanted.0.iter().map(|row| row.standing()).collect();
    assert!(standings.contains(&slingseal_store::Standing::Refused), "the revoked one's: {standings:?}");
    // So many to a page are opened on the other cores. The roster comes among words that were opened without it: also right before the
    // records, and nothing else of their loads ever comes.
    let often: Vec<ExchangeWord> = words.iter().cycle().take(words.len() * 9).cloned().collect();
    let rosters = words.iter().filter(|word| is_kind(word, ItemKind::Roster));
    let records = words.iter().filter(|word| is_kind(word, ItemKind::Record));
    let alone: Vec<ExchangeWord> = rosters.chain(records).cycle().take(90).cloned().collect();
    pull(&alone_one_by_one, &alone, 1);
    let wanted_alone = kept(&alone_one_by_one);
    let backwards = often.iter().rev().cloned().collect();
    let orders = [
        ("as they lie there", often, &wanted),
        ("backwards", backwards, &wanted),
        ("the roster and the records", alone, &wanted_alone),
    ];
    for ((name, words, wanted), desk) in orders.into_iter().zip(desks) {
        assert!(pull(&desk, &words, 9) >= 2, "{name}: more than one commit");
        assert_eq!(kept(&desk), *wanted, "{name}");
        assert_eq!(desk.audit().unwrap().faults, [""; 0], "{name}");
    }
}

/// What was opened before a commit is taken in after it, and between the two the home answers others.
#[test]
fn whoever_is_distrusted_after_a_page_was_opened_is_not_believed() {
    let day = day();
    let [all, desk] = ["all", "desk"].map(|name| desk(&day, name));
    take(&all, &bundle(&day.two, None));
    let here = all.exchange_here(false, &HashSet::new()).unwrap();
    let words = all.exchange_words(&here, 0..here.keys().len()).unwrap();
    let of_kind = |kind: ItemKind| words.iter().filter(move |word| word.kind() == i16::from(kind.code()));
    let credential = of_kind(ItemKind::Credential).next().unwrap();
    let records: Vec<ExchangeWord> = of_kind(ItemKind::Record).cycle().take(9).cloned().collect();
    let before = std::iter::repeat_n(vec![credential.clone()], 8);
    let mut pages: VecDeque<ExchangePage> = (1..)
        .zip(before.chain([records]))
        .map(|(number, words)| {
            let key = words.last().unwrap().key();
            ExchangePage::new(ExchangePosition { source: [1; 16], number, key }, words)
        })
        .collect();
    let (mut state, mut intake) = (desk.exchange_state([9; 16], true).unwrap(), ExchangeIntake::default());
    intake.push(pages.pop_front().unwrap());
    desk.exchange_take(&mut state, &mut intake, &mut || pages.pop_front()).unwrap();
    assert!(pages.is_empty() && !intake.is_empty(), "the records wait, opened");
    desk.distrust("Sela Relief").unwrap();
    let report = desk.exchange_take(&mut state, &mut intake, &mut || None).unwrap();
    assert_eq!((report.new, report.set_aside.len()), (0, 9));
    assert_eq!(kept(&desk).0, []);
}
