use super::*;
use slingseal_message::seal::Outcome;
use slingseal_words::{CallSign, ProcedureId, Time};

/// The journal's rule is its own crate's; here any rule will do that depends on the entry and on what stood before it.
fn digest(entry: &JournalEntry, _: &[u8; 16]) -> Digest {
    let mut bytes = entry.prev.as_bytes().to_vec();
    bytes.extend_from_slice(&entry.seq.to_be_bytes());
    bytes.extend_from_slice(&entry.body);
    Digest::of(&bytes)
}

fn by(number: u8) -> Digest {
    Digest::of(&[number])
}

/// A walk of the entries `first` to `last` of a journal that says `body` everywhere, sealed after `before`.
fn record(first: u64, last: u64, body: &[u8], before: Option<Digest>) -> Record {
    let (mut entries, mut prev) = (Vec::new(), by(0));
    for seq in 1..=last {
        let entry =
            JournalEntry { seq, time: Time::from_unix(0), kind: "event".into(), body: body.to_vec(), prev };
        prev = digest(&entry, &[0; 16]);
        entries.push(entry);
    }
    Record {
        tag: Vec::new(),
        procedure: ProcedureId::new("bag").unwrap(),
        version: 1,
        procedure_digest: by(0),
        inspector: CallSign::new("Anvil 3").unwrap(),
        outcome: Outcome::Fit,
        decided: Time::from_unix(0),
        device: [7; 16],
        walk: [1; 16],
        entries: entries.into_iter().filter(|entry| entry.seq >= first).collect(),
        head: (last, prev),
        rigging: None,
        photos: Vec::new(),
        place: None,
        before,
    }
}

#[test]
fn a_sound_chain_has_nothing_to_tell() {
    let mut chains = Chain::new([7; 16], 1..9);
    chains.take(&record(1, 3, b"a", None), by(1), &digest).unwrap();
    chains.take(&record(4, 6, b"a", Some(by(1))), by(2), &digest).unwrap();
    assert_eq!(chains.missing(&BTreeMap::from([(by(1), true), (by(2), true)])), []);
    assert_eq!(chains.gaps(), []);
}

/// What was let go on the way is missed by nobody: walks that stand in one another, a gap, a fork, and an end that is asked for.
#[test]
fn a_long_journal_is_read_with_little_memory() {
    let whole = record(1, 4_000, b"a", None);
    let piece = |number: u64, of: &[u64], before: Option<u64>| Record {
        entries: whole.entries.iter().filter(|entry| of.contains(&entry.seq)).cloned().collect(),
        head: of.last().map(|last| (*last, link_of(&whole, *last))).unwrap(),
        before: before.map(|before| Digest::of(&before.to_be_bytes())),
        walk: [number as u8; 16],
        ..whole.clone()
    };
    let mut chain = Chain::new([7; 16], [7, 2_000]);
    let mut most = 0;
    for number in 0..400_u64 {
        let first = number * 10 + 1;
        // Two walks that stand in one another; in every hundredth pair two entries in a row are told by neither.
        let left_out = |seq: u64| number % 100 == 50 && [first + 3, first + 4].contains(&seq);
        let (even, odd): (Vec<u64>, Vec<u64>) =
            (first..first + 10).filter(|seq| !left_out(*seq)).partition(|seq| seq % 2 == 0);
        for (turn, of) in [odd, even].iter().enumerate() {
            let own = number * 2 + turn as u64;
            let one = piece(own, of, own.checked_sub(1));
            chain.pass(Chain::begins(&one));
            chain.take(&one, Digest::of(&own.to_be_bytes()), &digest).unwrap();
            most = most.max(chain.told.len() + chain.walks.len());
        }
    }
    assert!(most < 40, "{most} at once");
    let head = |seq, digest| HeadItem { device: [7; 16], seq, digest };
    assert_eq!(chain.against(&head(7, link_of(&whole, 7)), None), None);
    assert!(chain.against(&head(2_000, by(3)), Some(by(9))).is_some(), "it was let go, but asked for");
    let forked = record(3_995, 4_000, b"b", Some(by(1)));
    assert!(matches!(chain.clone().take(&forked, by(2), &digest), Err(ChainFault::ToldOtherwise { .. })));
    // The second of the two is told by the link of the entry after it; the first is missed from both walks.
    let gaps = chain.gaps();
    assert_eq!(gaps.len(), 8, "{gaps:?}");
    assert!(matches!(gaps[0], Finding::Between { first: 504, last: 504, .. }), "{gaps:?}");
}

fn link_of(record: &Record, seq: u64) -> Digest {
    digest(&record.entries[seq as usize - 1], &[0; 16])
}

#[test]
fn each_fault_of_a_record_has_its_name() {
    let taken = |wrong: Record| {
        let mut chains = Chain::new([7; 16], 1..9);
        chains.take(&record(1, 3, b"a", None), by(1), &digest).unwrap();
        chains.take(&wrong, by(2), &digest).unwrap_err()
    };
    let next = || record(4, 6, b"a", Some(by(1)));
    let mut turned = next();
    turned.entries.swap(0, 1);
    assert_eq!(taken(turned), ChainFault::OutOfOrder { seq: 4 });
    assert_eq!(taken(Record { head: (5, by(9)), ..next() }), ChainFault::EndsEarly);
    let mut changed = next();
    changed.entries[1].body = b"b".to_vec();
    assert_eq!(taken(changed), ChainFault::Changed { seq: 5 });
    assert_eq!(
        taken(record(2, 6, b"b", Some(by(1)))),
        ChainFault::ToldOtherwise { seq: 1, by: by(1) },
        "a device whose journal was written anew"
    );
    assert_eq!(
        taken(record(4, 6, b"a", None)),
        ChainFault::SealedTwice { other: by(1), before: None },
        "both say that they are the first"
    );
}

#[test]
fn what_is_missing_and_what_came_between() {
    let mut chains = Chain::new([7; 16], 1..9);
    let device = DeviceName([7; 16]);
    let mut gap = record(1, 6, b"a", Some(by(1)));
    gap.entries.retain(|entry| ![3, 4].contains(&entry.seq));
    chains.take(&gap, by(2), &digest).unwrap();
    assert_eq!(chains.clone().gaps(), [Finding::Between { by: by(2), first: 3, last: 3, device }]);
    let missing = Finding::Missing { record: by(1), device, next: by(2) };
    assert!(missing.is_fault());
    assert_eq!(chains.missing(&BTreeMap::new()), [missing]);
    let alone = Finding::SealAlone { record: by(1), device, next: by(2) };
    assert!(!alone.is_fault());
    assert_eq!(chains.missing(&BTreeMap::from([(by(1), false)])), [alone]);
    // A piece of that journal that is kept here.
    let link =
        |entry: &JournalEntry| Link { seq: entry.seq, prev: entry.prev, digest: digest(entry, &[0; 16]) };
    let whole = record(1, 6, b"a", None);
    let links: Vec<Link> = whole.entries.iter().map(link).collect();
    assert_eq!(chains.piece(&links, false), []);
    let other: Vec<Link> = record(1, 6, b"b", None).entries.iter().map(link).collect();
    let found = chains.piece(&[links[0], other[1]], false);
    assert_eq!(
        found,
        [Finding::Unlinked { device, seq: 2 }, Finding::JournalToldOtherwise { device, seq: 2, by: by(2) }]
    );
    assert_eq!(
        Chain::new([9; 16], []).piece(&[links[2], other[2]], false),
        [Finding::Forked { device: DeviceName([9; 16]), seq: 3 }]
    );
    assert_eq!(device.to_string(), "07070707");
}
