use super::{BundleReader, BundleWriter, HeadItem, Item, ItemKind, Piece, RecordItem};
use slingseal_words::Digest;

fn pack(items: &[(ItemKind, Vec<u8>)]) -> Vec<u8> {
    let mut writer = BundleWriter::begin(Vec::new()).unwrap();
    for (kind, body) in items {
        writer.add(*kind, body).unwrap().unwrap();
    }
    writer.finish().unwrap()
}

fn pieces(bytes: &[u8]) -> Vec<Piece> {
    let mut reader = BundleReader::begin(bytes).unwrap().expect("a bundle");
    let mut pieces = Vec::new();
    while let Some(piece) = reader.next_piece().unwrap() {
        pieces.push(piece);
    }
    assert_eq!(reader.position(), bytes.len() as u64);
    pieces
}

fn some(count: usize) -> Vec<(ItemKind, Vec<u8>)> {
    (0..count)
        .map(|at| {
            let kind = [ItemKind::Record, ItemKind::Tag, ItemKind::Void, ItemKind::Photo][at % 4];
            // Bodies that hold the mark and other items must not confuse the reader.
            let mut body = vec![at as u8; at * 37 % 900];
            if at.is_multiple_of(5) {
                body.extend(pack(&[(ItemKind::Tag, vec![1, 2, 3])]));
                body.extend(super::MARK);
            }
            (kind, body)
        })
        .collect()
}

fn items(pieces: Vec<Piece>) -> (Vec<Item>, usize) {
    let mut items = Vec::new();
    let mut damaged = 0;
    for piece in pieces {
        match piece {
            Piece::Item(item) => items.push(item),
            Piece::Damaged { .. } => damaged += 1,
        }
    }
    (items, damaged)
}

#[test]
fn what_is_packed_comes_out() {
    let packed = some(60);
    let (unpacked, damaged) = items(pieces(&pack(&packed)));
    assert_eq!(damaged, 0);
    let unpacked: Vec<_> = unpacked.into_iter().map(|item| (item.kind, item.body)).collect();
    assert_eq!(unpacked, packed);
    assert_eq!(pieces(&pack(&[])), []);
}

#[test]
fn no_bundle_at_all() {
    for bytes in [&b""[..], b"SLINGSEAL BUNDLE 2\n", b"hello", b"SLINGSEAL"] {
        assert!(BundleReader::begin(bytes).unwrap().is_none());
    }
}

/// One byte changed, anywhere: the item that holds it is told as damaged, all others come out.
#[test]
fn a_damaged_byte_costs_one_item() {
    let packed: Vec<_> = (0..6u8).map(|at| (ItemKind::Record, vec![at; 40])).collect();
    let whole = pack(&packed);
    let front = super::FRONT.len();
    for at in front..whole.len() {
        for change in [1u8, 0x80, 0xff] {
            let mut bytes = whole.clone();
            bytes[at] ^= change;
            let hit = (at - front) / (super::HEAD + 40);
            let (unpacked, damaged) = items(pieces(&bytes));
            assert_eq!(damaged, 1, "byte {at}");
            let want: Vec<_> = packed
                .iter()
                .enumerate()
                .filter(|(index, _)| *index != hit)
                .map(|(_, item)| item.1.clone())
                .collect();
            let got: Vec<_> = unpacked.into_iter().map(|item| item.body).collect();
            assert_eq!(got, want, "byte {at}");
        }
    }
}

/// Cut anywhere: what is whole comes out, the rest is told.
#[test]
fn a_cut_bundle_gives_what_is_whole() {
    let packed: Vec<_> = (0..4u8).map(|at| (ItemKind::Record, vec![at; 40])).collect();
    let whole = pack(&packed);
    let front = super::FRONT.len();
    for length in front..whole.len() {
        let (unpacked, damaged) = items(pieces(&whole[..length]));
        let full = (length - front) / (super::HEAD + 40);
        assert_eq!(unpacked.len(), full);
        assert_eq!(damaged, usize::from(!(length - front).is_multiple_of(super::HEAD + 40)));
    }
}

/// A length that a bundle does not carry is not believed, and costs no memory.
#[test]
fn a_hostile_length_is_not_read() {
    let mut bytes = pack(&[(ItemKind::Tag, vec![9; 10])]);
    let at = super::FRONT.len() + 5;
    bytes[at..at + 4].copy_from_slice(&u32::MAX.to_be_bytes());
    bytes.extend(&pack(&[(ItemKind::Void, vec![7])])[super::FRONT.len()..]);
    let (unpacked, damaged) = items(pieces(&bytes));
    assert_eq!((unpacked.len(), damaged), (1, 1));
}

/// Marks every few bytes, each before a body as long as a photograph may be: the work stays a few times the size, in whatever
/// pieces the bytes come, and what stands behind them is still found.
#[test]
fn work_is_linear_in_the_size() {
    let mark = |length: u32| {
        let mut head = super::MARK.to_vec();
        head.push(ItemKind::Photo.code());
        head.extend(length.to_be_bytes());
        head.extend([7; 8]);
        head
    };
    for (size, marks) in [(17usize << 20, 1_000usize), (34 << 20, 1_000), (17 << 20, 100_000)] {
        let mut bytes = pack(&[(ItemKind::Tag, vec![1; 10])]);
        for at in 0..marks {
            bytes.extend(mark((16 << 20) - at as u32));
        }
        bytes.resize(size, 0);
        bytes.extend(&pack(&[(ItemKind::Void, vec![7; 99])])[super::FRONT.len()..]);
        let mut reader = BundleReader::begin(&bytes[..]).unwrap().expect("a bundle");
        let mut found = 0;
        while let Some(piece) = reader.next_piece().unwrap() {
            found += usize::from(matches!(piece, Piece::Item(_)));
        }
        assert_eq!(found, 2, "{size} bytes, {marks} marks");
        let most = (64 << 20) + 6 * size as u64;
        assert!(reader.work() <= most, "{} of at most {most}", reader.work());
    }
}

#[test]
fn too_long_is_left_out_and_said() {
    let mut writer = BundleWriter::begin(Vec::new()).unwrap();
    let refused = writer.add(ItemKind::Tag, &vec![0; (64 << 10) + 1]).unwrap().unwrap_err();
    assert_eq!(
        refused.to_string(),
        "this load tag has 65537 bytes and a bundle carries 65536; export it by itself"
    );
    assert_eq!(pieces(&writer.finish().unwrap()), []);
}

#[test]
fn the_small_items() {
    for record in [None, Some(vec![1, 2, 3])] {
        let item = RecordItem { seal: vec![9, 8], record };
        assert_eq!(RecordItem::parse(&item.to_bytes()), Ok(item));
    }
    let head = HeadItem { device: [3; 16], seq: 77, digest: Digest::of(b"x") };
    assert_eq!(HeadItem::parse(&head.to_bytes()), Ok(head));
    assert!(RecordItem::parse(&[0x80]).is_err() && HeadItem::parse(b"").is_err());
}
