//! What another device brings: held back, copied, cut, spliced or rewritten.

use super::*;

fn bundle(from: &App) -> Vec<u8> {
    let mut bytes = Vec::new();
    from.bundle_write(&BundleRequest { have: None, photos: true, ..BundleRequest::default() }, &mut bytes)
        .unwrap();
    bytes
}

fn take(desk: &App, bytes: &[u8]) -> BundleReport {
    desk.bundle_read(&mut &bytes[..], &mut |_| {}).unwrap()
}

/// The same bundle with its records changed or left out.
fn with_records(bytes: &[u8], mut change: impl FnMut(RecordItem) -> Option<RecordItem>) -> Vec<u8> {
    let mut input = bytes;
    let mut reader = BundleReader::begin(&mut input).unwrap().unwrap();
    let mut out = Vec::new();
    let mut writer = BundleWriter::begin(&mut out).unwrap();
    while let Some(piece) = reader.next_piece().unwrap() {
        let Piece::Item(item) = piece else { panic!("a sound bundle") };
        let body = match item.kind {
            ItemKind::Record => change(RecordItem::parse(&item.body).unwrap()).map(|item| item.to_bytes()),
            _ => Some(item.body),
        };
        if let Some(body) = body {
            writer.add(item.kind, &body).unwrap().unwrap();
        }
    }
    writer.finish().unwrap();
    out
}

#[test]
fn a_desk_misses_the_record_that_is_held_back() {
    let (day, inspector) = Day::new();
    let whole = bundle(&inspector);
    for held in 0..3 {
        let desk = day.desk(["held 0", "held 1", "held 2"][held]);
        let load = &day.seals[held].facts.load;
        let bytes = with_records(&whole, |item| {
            (ReceivedSeal::open(&item.seal).unwrap().seal.load.as_str() != load).then_some(item)
        });
        assert_eq!(take(&desk, &bytes).new, 2);
        let audit = desk.audit().unwrap();
        if held < 2 {
            named(&audit.faults, &format!("record {} is missing: device", day.short(held)));
            assert!(audit.faults[0].contains(&format!("before record {}", day.short(held + 1))), "{audit:?}");
        } else {
            // Nothing was sealed after it: only the next record will tell.
            assert_eq!(audit.faults, [""; 0]);
        }
        // Brought later, it is missed no more.
        take(&desk, &whole);
        assert_eq!(desk.audit().unwrap().faults, [""; 0]);
    }
    // Of the first, the seal alone: nothing is wrong, and the audit says what is not here.
    let desk = day.desk("seal alone");
    take(
        &desk,
        &with_records(&whole, |item| {
            let first = ReceivedSeal::open(&item.seal).unwrap().seal.load.as_str() == "KM-014";
            Some(if first { RecordItem { record: None, ..item } } else { item })
        }),
    );
    let audit = desk.audit().unwrap();
    assert_eq!(audit.faults, [""; 0]);
    assert!(audit.notes[0].contains(&format!("of record {}", day.short(0))), "{audit:?}");
}

#[test]
fn a_copied_device_is_named() {
    let (day, inspector) = Day::new();
    drop(inspector);
    let copy = day.zone.folder.path().join("copy");
    std::fs::create_dir_all(&copy).unwrap();
    std::fs::copy(day.zone.folder.path().join("inspector/slingseal.db"), copy.join("slingseal.db")).unwrap();
    let one = day.zone.home("inspector");
    let two = day.zone.open(&copy, "inspector").unwrap();
    let fourth = seal_one(&day.zone, &one, "KM-017", true);
    let other = seal_one(&day.zone, &two, "KM-018", true);
    let desk = day.desk("desk");
    take(&desk, &bundle(&one));
    assert_eq!(desk.audit().unwrap().faults, [""; 0]);
    let report = take(&desk, &bundle(&two));
    assert_eq!((report.new, report.set_aside), (1, vec![]));
    let faults = desk.audit().unwrap().faults;
    named(&faults, &format!("record {} (load KM-018): entry", short(&other)));
    assert!(
        faults[0].contains(&format!("by record {}: the device was copied", short(&fourth))),
        "{faults:#?}"
    );
    // The copied device learns of it too, from its twin's bundle.
    let report = take(&one, &bundle(&two));
    assert!(!report.warnings.is_empty(), "{report:?}");
    let faults = one.audit().unwrap().faults;
    named(&faults, &format!("record {} (load KM-018): ", short(&other)));
}

#[test]
fn a_chain_that_was_cut_spliced_or_rewritten_and_sealed_anew() {
    let (day, inspector) = Day::new();
    let honest = bundle(&inspector);
    drop(inspector);
    let dishonest = Dishonest::of(&day.zone, &day.seals[0]);
    let is =
        |item: &RecordItem, load: &str| ReceivedSeal::open(&item.seal).unwrap().seal.load.as_str() == load;
    let other_walk: std::cell::RefCell<Vec<JournalEntry>> = std::cell::RefCell::default();
    with_records(&honest, |item| {
        if is(&item, "KM-016") {
            let body = item.record.clone().unwrap();
            *other_walk.borrow_mut() =
                Record::parse(&body, &crate::walks::record::entry_digest).unwrap().entries;
        }
        Some(item)
    });
    type Change<'c> = Box<dyn Fn(&mut Record, &mut Seal) + 'c>;
    let middle = |record: &Record| record.entries.len() / 2;
    let attacks: [(&str, &str, Change<'_>); 5] = [
        (
            "an entry's words changed, the next one's link kept",
            "does not follow entry",
            Box::new(|record, _| {
                let at = middle(record);
                let entry = &mut record.entries[at];
                entry.time = entry.time.plus(Seconds(1));
            }),
        ),
        (
            "two entries swapped",
            "is out of order",
            Box::new(|record, _| {
                let at = middle(record);
                record.entries.swap(at, at + 1);
            }),
        ),
        (
            "an entry of another walk in the place of one",
            "does not follow entry",
            Box::new(|record, _| {
                let at = middle(record);
                let other = other_walk.borrow()[at].clone();
                record.entries[at] = JournalEntry { seq: record.entries[at].seq, ..other };
            }),
        ),
        (
            "the journal's end moved back",
            "its journal ends before its last entry",
            Box::new(|record, _| record.head.0 = 3),
        ),
        (
            "the seal counts fewer deficiencies than the walk",
            "its seal counts",
            Box::new(|_, seal| (seal.found, seal.corrected) = (7, 7)),
        ),
    ];
    for (number, (attack, what, change)) in attacks.iter().enumerate() {
        let desk = day.desk(["a0", "a1", "a2", "a3", "a4"][number]);
        let bytes = with_records(&honest, |item| {
            Some(if is(&item, "KM-014") {
                dishonest.again(item, |record, seal| change(record, seal))
            } else {
                item
            })
        });
        let report = take(&desk, &bytes);
        let faults = desk.audit().unwrap().faults;
        let set_aside = report.set_aside.iter().any(|line| line.kind == "record");
        let found = faults.iter().any(|fault| fault.contains("load KM-014") && fault.contains(what));
        assert!(found || set_aside, "{attack}: {faults:#?} {report:?}");
        assert!(set_aside || !faults.is_empty(), "{attack}");
        println!("{attack}: set aside {set_aside}; {:?}", faults.first());
    }
    // A record sealed twice, the second time with an entry left out: both cannot follow one record.
    let desk = day.desk("twice");
    take(&desk, &honest);
    let twice = with_records(&honest, |item| {
        is(&item, "KM-015").then(|| {
            dishonest.again(item, |record, _| {
                let at = record.entries.len() - 2;
                record.entries.remove(at);
            })
        })
    });
    let report = take(&desk, &twice);
    let faults = desk.audit().unwrap().faults;
    assert!(
        faults.iter().any(|fault| fault.contains("were both sealed next after record"))
            || !report.set_aside.is_empty(),
        "{faults:#?} {report:?}"
    );
}

/// Keeps entries of another device's journal.
fn put_foreign(desk: &App, device: DeviceId, entries: &[Entry]) {
    let put = |tx: &Tx<'_>| -> Result<(), AppError> {
        for entry in entries {
            tx.put_foreign_entry(device, entry)?;
        }
        Ok(())
    };
    desk.lock().store.write(put).unwrap();
}

/// What is kept of another device's journal is held against the records of that device.
#[test]
fn a_foreign_journal_is_held_against_the_records() {
    let (day, inspector) = Day::new();
    let honest = bundle(&inspector);
    drop(inspector);
    let desk = day.desk("desk");
    take(&desk, &honest);
    let forger = Forger::open(&day.zone.folder.path().join("inspector/slingseal.db"));
    let entries = forger.journal();
    let device: Vec<u8> = forger.0.query_row("SELECT id FROM device", [], |row| row.get(0)).unwrap();
    let device = DeviceId(device.try_into().unwrap());
    put_foreign(&desk, device, &entries);
    assert_eq!(desk.audit().unwrap().faults, [""; 0]);
    // A twin's entry of the same number.
    let mut twin = entries[69].clone();
    twin.time = twin.time.plus(Seconds(5));
    twin.digest = twin.derive_digest();
    put_foreign(&desk, device, &[twin]);
    let faults = desk.audit().unwrap().faults;
    assert!(faults.iter().any(|fault| fault.contains("journal entry 70 does not follow")), "{faults:#?}");
    assert!(
        faults.iter().any(|fault| fault.contains(&format!("record {} tells entry 70", day.short(1)))),
        "{faults:#?}"
    );
}

/// A signature is no proof that seal and record agree: who holds the key can sign one beside the other.
#[test]
fn a_seal_beside_another_record_is_set_aside() {
    let (day, inspector) = Day::new();
    let honest = bundle(&inspector);
    drop(inspector);
    let dishonest = Dishonest::of(&day.zone, &day.seals[0]);
    type Change = fn(&mut Seal);
    let attacks: [(&str, Change); 7] = [
        ("outcome", |seal| seal.outcome = Outcome::Fit),
        ("version of the procedure", |seal| seal.version += 1),
        ("text of the procedure", |seal| seal.procedure_print[0] ^= 1),
        ("gross mass", |seal| seal.mass = Quantity::parse("1700 lb").unwrap()),
        ("number of deficiencies found", |seal| seal.found += 2),
        ("procedure", |seal| seal.procedure = ProcedureId::new("vehicle").unwrap()),
        ("tag", |seal| seal.tag = TagPrint::of(&Digest::of(b"the tag of another load"))),
    ];
    for (number, (about, change)) in attacks.into_iter().enumerate() {
        let desk = day.desk(["s0", "s1", "s2", "s3", "s4", "s5", "s6"][number]);
        let bytes = with_records(&honest, |item| {
            let refused = ReceivedSeal::open(&item.seal).unwrap().seal.load.as_str() == "KM-015";
            Some(if refused { dishonest.again(item, |_, seal| change(seal)) } else { item })
        });
        let report = take(&desk, &bytes);
        assert_eq!((report.new, report.set_aside.len()), (2, 1), "{about}: {report:?}");
        let reason = &report.set_aside[0].reason;
        assert!(
            reason.contains(&format!("load KM-015: seal and record disagree about the {about}")),
            "{reason}"
        );
        // Its inspector signed the seal: it is known, as it would be by a scan, and the record is not.
        let asked = ListRequest { words: Some("KM-015".into()), most: 5, ..ListRequest::default() };
        let lines = desk.list(&asked).unwrap().lines;
        assert_eq!(lines.iter().map(|line| line.whole).collect::<Vec<_>>(), [false], "{about}");
    }
}

/// A piece of a journal that does not begin with its first entry is followed from where it begins.
#[test]
fn a_piece_of_a_foreign_journal_is_followed() {
    let (day, inspector) = Day::new();
    drop(inspector);
    let forger = Forger::open(&day.zone.folder.path().join("inspector/slingseal.db"));
    let entries = forger.journal();
    let device = DeviceId([7; 16]);
    let faults = |name, entries: &[Entry]| {
        let desk = day.desk(name);
        put_foreign(&desk, device, entries);
        desk.audit().unwrap().faults
    };
    let piece = &entries[20..40];
    let changed = || {
        let mut entry = piece[9].clone();
        entry.time = entry.time.plus(Seconds(5));
        entry.digest = entry.derive_digest();
        entry
    };
    assert_eq!(faults("whole", piece), [""; 0]);
    let gone: Vec<Entry> = [&piece[..9], &piece[10..]].concat();
    assert_eq!(faults("gone", &gone), [""; 0]);
    let forked: Vec<Entry> = [piece, &[changed()]].concat();
    named(&faults("forked", &forked), &format!("has two entries {}: the device was forked", piece[9].seq));
    let rewritten: Vec<Entry> = [&piece[..9], &[changed()], &piece[10..]].concat();
    let what = format!("entry {} of device 07070707 does not follow entry {}", piece[10].seq, piece[9].seq);
    named(&faults("rewritten", &rewritten), &what);
}

/// A record says fit, and its chain holds: but the answer to one card is not among its entries. Its events are followed by the text
/// of the list, and no decision can follow cards that nobody answered: the record is not taken, and the seal stands alone.
#[test]
fn a_record_that_does_not_cover_its_list_is_named() {
    let (day, inspector) = Day::new();
    let honest = bundle(&inspector);
    drop(inspector);
    let dishonest = Dishonest::of(&day.zone, &day.seals[2]);
    let without = |item: RecordItem, back: usize| {
        dishonest.again(item, |record, _| {
            let is_decision = |entry: &JournalEntry| String::from_utf8_lossy(&entry.body).contains("decided");
            let decision = record.entries.iter().rposition(is_decision).unwrap();
            record.entries.remove(decision - back);
            for at in 1..record.entries.len() {
                let (seq, prev) = {
                    let before = &record.entries[at - 1];
                    (before.seq + 1, crate::walks::record::entry_digest(before, &record.walk))
                };
                (record.entries[at].seq, record.entries[at].prev) = (seq, prev);
            }
            let last = record.entries.last().unwrap();
            record.head = (last.seq, crate::walks::record::entry_digest(last, &record.walk));
        })
    };
    for (number, back) in [1, 2, 9].into_iter().enumerate() {
        let desk = day.desk(["c0", "c1", "c2"][number]);
        let bytes = with_records(&honest, |item| {
            let this = ReceivedSeal::open(&item.seal).unwrap().seal.load.as_str() == "KM-016";
            Some(if this { without(item, back) } else { item })
        });
        let report = take(&desk, &bytes);
        let reasons: Vec<&str> = report.set_aside.iter().map(|line| line.reason.as_str()).collect();
        assert!(
            reasons.iter().any(|reason| reason.contains("cannot follow what stands before it")),
            "{reasons:?}"
        );
        let line = desk.records(Some("KM-016"), 5).unwrap().remove(0);
        assert!(!line.whole, "the seal alone");
    }
}
