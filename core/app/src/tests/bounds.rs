//! What a bundle of a stranger's may do to a home: nothing that the home cannot read again, and nothing without bound.

use super::bundles::{Day, bundle, day, desk, take};
use super::*;
use slingseal_account::sync::{BundleReader, BundleWriter, HeadItem, ItemKind, Piece, RecordItem};

/// A head of a device that nobody has.
fn forged(number: u32) -> HeadItem {
    let mut device = [0xAB; 16];
    device[..4].copy_from_slice(&number.to_be_bytes());
    HeadItem { device, seq: u64::from(number) + 1, digest: Digest::of(&number.to_be_bytes()) }
}

fn of_heads(heads: impl Iterator<Item = HeadItem>) -> Vec<u8> {
    let mut writer = BundleWriter::begin(Vec::new()).unwrap();
    for head in heads {
        writer.add(ItemKind::Head, &head.to_bytes()).unwrap().unwrap();
    }
    writer.finish().unwrap()
}

/// The heads that a bundle carries, and the records.
fn told(bytes: &[u8]) -> (Vec<HeadItem>, Vec<RecordItem>) {
    let mut reader = BundleReader::begin(bytes).unwrap().unwrap();
    let (mut heads, mut records) = (Vec::new(), Vec::new());
    while let Some(piece) = reader.next_piece().unwrap() {
        match piece {
            Piece::Item(item) if item.kind == ItemKind::Head => {
                heads.push(HeadItem::parse(&item.body).unwrap());
            }
            Piece::Item(item) if item.kind == ItemKind::Record => {
                records.push(RecordItem::parse(&item.body).unwrap());
            }
            _ => {}
        }
    }
    (heads, records)
}

/// 7 MB that nobody signed: the home goes on reading, writing and auditing, and passes on no more than it would take.
#[test]
fn a_hundred_thousand_forged_heads_shut_nothing() {
    let day = day();
    let desk = desk(&day, "desk");
    let report = take(&desk, &of_heads((0..100_001).map(forged)));
    assert!(report.warnings.len() <= 2 && report.set_aside.is_empty(), "{:?}", report.warnings.len());
    assert_eq!(take(&desk, &bundle(&day.one, None)).new, 1);
    assert_eq!(desk.audit().unwrap().faults, [""; 0]);
    let (heads, _) = told(&bundle(&desk, None));
    assert!(heads.len() <= 1 + slingseal_account::sync::Heads::MOST_HINTS, "{}", heads.len());
    // Again and again: it does not grow.
    for round in 1..12u32 {
        take(&desk, &of_heads((0..100).map(|at| forged(round * 1_000_000 + at))));
    }
    assert!(told(&bundle(&desk, None)).0.len() <= 1 + slingseal_account::sync::Heads::MOST_HINTS);
    assert_eq!(desk.audit().unwrap().faults, [""; 0]);
}

/// A home that an earlier build shut opens again.
#[test]
fn a_home_with_too_long_a_list_of_heads_is_read() {
    let day = day();
    let desk = desk(&day, "desk");
    let mut out = slingseal_message::envelope::Writer::new();
    out.array(100_001);
    for number in 0..100_001 {
        out.bytes(&forged(number).to_bytes());
    }
    let bytes = out.into_bytes();
    let wrote: Result<(), AppError> =
        desk.lock().store.write(|tx| Ok(tx.put_setting("journal-heads", &bytes)?));
    wrote.unwrap();
    assert_eq!(desk.audit().unwrap().faults, [""; 0]);
    assert_eq!(take(&desk, &bundle(&day.one, None)).new, 1);
    assert!(told(&bundle(&desk, None)).0.len() <= 1 + slingseal_account::sync::Heads::MOST_HINTS);
}

/// A forged head of a real device, far ahead or at the very entry that a record tells: neither hides that the device was
/// copied nor says so where it was not.
#[test]
fn a_forged_head_neither_masks_nor_raises_an_alarm() {
    let day = day();
    let (_, records) = told(&bundle(&day.one, None));
    let body = records[0].record.clone().unwrap();
    let record = slingseal_message::seal::Record::parse(&body, &crate::walks::record::entry_digest).unwrap();
    let (seq, _) = record.head;
    let ahead = HeadItem { device: record.device, seq: i64::MAX as u64, digest: Digest::of(b"forged") };
    let beside = HeadItem { device: record.device, seq, digest: Digest::of(b"forged") };

    // Nothing is wrong with the device: before its record and after it, a forged head is a hint and no fault.
    for (name, order) in [("before", true), ("after", false)] {
        let desk = desk(&day, name);
        let heads = of_heads([ahead, beside].into_iter());
        let honest = bundle(&day.one, None);
        let reports = if order {
            [take(&desk, &heads), take(&desk, &honest)]
        } else {
            [take(&desk, &honest), take(&desk, &heads)]
        };
        let warnings: Vec<_> = reports.into_iter().flat_map(|report| report.warnings).collect();
        assert!(
            !warnings.iter().any(|line| line.contains("copied or rewritten; run the audit")),
            "{warnings:?}"
        );
        let audit = desk.audit().unwrap();
        assert_eq!(audit.faults, [""; 0], "{name}");
        let hint = audit.notes.iter().find(|note| note.contains("nobody signed"));
        assert!(hint.is_some_and(|note| note.contains(&format!("entry {seq} "))), "{:?}", audit.notes);
    }

    // The device was copied: a forged head far ahead does not hide it.
    let copy = day.zone.folder.path().join("copy");
    std::fs::create_dir_all(&copy).unwrap();
    let Day { zone, authority, one, two, hookup, seals } = day;
    drop(one);
    std::fs::copy(zone.folder.path().join("one/slingseal.db"), copy.join("slingseal.db")).unwrap();
    let first = zone.home("one");
    let twin = zone.open(&copy, "one").unwrap();
    for (app, load) in [(&first, "KM-017"), (&twin, "KM-018")] {
        super::audit::seal_one(&zone, app, load, true);
    }
    let desk = zone.home("fooled");
    meet(&desk, &authority);
    take(&desk, &of_heads([ahead].into_iter()));
    take(&desk, &bundle(&first, None));
    let report = take(&desk, &bundle(&twin, None));
    let faults = desk.audit().unwrap().faults;
    assert!(faults.iter().any(|fault| fault.contains("the device was copied")), "{faults:?}");
    assert!(
        report.warnings.iter().any(|line| line.contains("copied or rewritten; run the audit")),
        "two signed records tell one entry in two ways: {:?}",
        report.warnings
    );
    let _ = (two, hookup, seals);
}

/// What a stranger says of this device's own journal is a hint, told once; what a signed record says is an alarm.
#[test]
fn a_forged_head_of_this_device_is_told_as_a_hint() {
    let day = day();
    let device = day.one.lock().store.device().0;
    let forged = (0..5_000).map(|at| HeadItem { device, seq: 1_000_000 + at, digest: Digest::of(b"x") });
    let report = take(&day.one, &of_heads(forged));
    assert_eq!(report.warnings.len(), 1, "{:?}", report.warnings);
    assert!(report.warnings[0].contains("nobody signed"), "{:?}", report.warnings);
    assert_eq!(day.one.audit().unwrap().faults, [""; 0]);
}

/// What cannot be believed is kept and listed up to a bound, and counted beyond it.
#[test]
fn what_is_set_aside_has_an_end() {
    let day = day();
    let desk = desk(&day, "desk");
    for round in 0..3u32 {
        let mut writer = BundleWriter::begin(Vec::new()).unwrap();
        for number in 0..1_500 {
            let junk = Digest::of(&(round * 10_000 + number).to_be_bytes());
            writer.add(ItemKind::Void, junk.as_bytes()).unwrap().unwrap();
        }
        let report = take(&desk, &writer.finish().unwrap());
        assert_eq!(report.set_aside.len(), 1_001);
        let last = report.set_aside.last().unwrap();
        assert!(last.reason.starts_with("500 more, "), "{last:?}");
        assert_eq!(desk.set_aside(10_000).unwrap().len(), 1_000, "round {round}");
        day.zone.pass(60);
    }
    // Few things and many bytes: the newest stay.
    let mut writer = BundleWriter::begin(Vec::new()).unwrap();
    for number in 0..40u32 {
        let mut junk = vec![0; 3 << 20];
        junk[..4].copy_from_slice(&number.to_be_bytes());
        writer.add(ItemKind::Record, &junk).unwrap().unwrap();
    }
    assert_eq!(take(&desk, &writer.finish().unwrap()).set_aside.len(), 40);
    let aside = desk.set_aside(10_000).unwrap();
    assert!(aside.iter().map(|one| one.bytes).sum::<u64>() <= 64 << 20);
    assert_eq!(aside.iter().filter(|one| one.bytes == 3 << 20).count(), 21);
}
