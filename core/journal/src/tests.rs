use slingseal_words::{Digest, Time};

use super::*;

fn chain(device: DeviceId, count: u64) -> Vec<Entry> {
    let mut head = Head::empty(device);
    (1..=count)
        .map(|seq| {
            let body = seq.to_be_bytes();
            let walk = (seq % 2 == 0).then_some(WalkId([2; 16]));
            let entry =
                Entry::after(head, NewEntry { kind: "answer", walk, body: &body, time: Time::from_unix(0) });
            head = Head { seq, digest: entry.digest };
            entry
        })
        .collect()
}

const DEVICE: DeviceId = DeviceId([7; 16]);

/// The documented bytes, put together by hand: SHA-256 (FIPS 180-4) over them is the digest.
#[test]
fn the_digest_is_over_the_documented_bytes() {
    let genesis = Digest::of(&[b"slingseal journal of device 1".as_slice(), &[7; 16]].concat());
    assert_eq!(Head::empty(DEVICE).digest, genesis);
    let new =
        NewEntry { kind: "answer", walk: Some(WalkId([9; 16])), body: b"yes", time: Time::from_unix(-2) };
    let entry = Entry::after(Head::empty(DEVICE), new);
    let mut bytes = b"slingseal journal entry 1".to_vec();
    bytes.extend_from_slice(genesis.as_bytes());
    bytes.extend_from_slice(&[0, 0, 0, 0, 0, 0, 0, 1]);
    bytes.extend_from_slice(&[255, 255, 255, 255, 255, 255, 255, 254]);
    bytes.extend_from_slice(b"\x06answer\x01");
    bytes.extend_from_slice(&[9; 16]);
    bytes.extend_from_slice(b"\0\0\0\0\0\0\0\x03yes");
    assert_eq!(entry.digest, Digest::of(&bytes));
}

#[test]
fn a_sound_chain_is_sound_in_any_order() {
    let mut entries = chain(DEVICE, 20);
    let head = Head { seq: 20, digest: entries[19].digest };
    assert_eq!(verify_chain(DEVICE, &entries), Ok(head));
    entries.reverse();
    entries.push(entries[3].clone());
    assert_eq!(verify_chain(DEVICE, &entries), Ok(head));
    assert_eq!(verify_chain(DEVICE, &[]), Ok(Head::empty(DEVICE)));
}

#[test]
fn every_single_fault_is_named() {
    let sound = chain(DEVICE, 9);
    for at in 0..9u64 {
        let place = at as usize;
        let mut cut = sound.clone();
        cut.remove(place);
        let end = Head { seq: 8, digest: sound[7].digest };
        // A chain cut at its very end is a shorter sound chain: only its head, kept elsewhere, tells.
        let wanted = if at == 8 { Ok(end) } else { Err(ChainFault::Missing { seq: at + 1 }) };
        assert_eq!(verify_chain(DEVICE, &cut), wanted);

        for change in 0..6 {
            let mut rewritten = sound.clone();
            let entry = &mut rewritten[place];
            match change {
                0 => entry.body[0] ^= 1,
                1 => entry.time = Time::from_unix(entry.time.unix() + 1),
                2 => entry.kind.push('x'),
                3 => entry.walk = Some(WalkId([1; 16])),
                4 => entry.prev = Digest::of(b"x"),
                _ => entry.digest = Digest::of(b"x"),
            }
            assert_eq!(
                verify_chain(DEVICE, &rewritten),
                Err(ChainFault::Rewritten { seq: at + 1 }),
                "change {change} at {at}"
            );
        }
    }
    let mut moved = sound.clone();
    moved[3].seq = 6;
    moved[5].seq = 4;
    assert_eq!(verify_chain(DEVICE, &moved), Err(ChainFault::Reordered { seq: 4, belongs: 6 }));
}

/// Rewritten with a new digest, the entry is sound in itself: the next one gives it away.
#[test]
fn a_fork_and_another_device_are_named() {
    let sound = chain(DEVICE, 5);
    let mut forged = sound.clone();
    forged[2].body = b"forged".to_vec();
    forged[2].digest = forged[2].derive_digest();
    assert_eq!(verify_chain(DEVICE, &forged), Err(ChainFault::Forked { seq: 4 }));

    let mut forked = sound.clone();
    forked.push(forged[2].clone());
    let fault = verify_chain(DEVICE, &forked).unwrap_err();
    assert!(matches!(fault, ChainFault::Forked { seq: 3 | 4 }), "{fault}");

    assert_eq!(verify_chain(DeviceId([8; 16]), &sound), Err(ChainFault::Forked { seq: 1 }));
}
