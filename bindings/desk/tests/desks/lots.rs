//! What each desk has to bring in, lot by lot, and what everybody must have in the end: known before anybody works.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use slingseal_account::sync::{BundleReader, ItemKind, Piece, RecordItem, word_key_of};
use slingseal_words::Digest;

use crate::many::{Many, REPORTS};

/// A desk's items come to it in so many files.
pub const LOTS: u32 = 3;
/// Of so many loads one has reports of its movements.
const MOVED: u32 = 10;

/// Everything that is made, as a stranger counts it.
#[derive(Default)]
pub struct Everything {
    /// What each word goes by at the server.
    pub keys: BTreeSet<String>,
    /// The records, by the digests of their bytes.
    pub records: BTreeSet<String>,
}

/// The loads that make so many items: a record and a tag each, and the reports of each tenth.
pub fn loads(items: u32) -> u32 {
    (items * MOVED / (2 * MOVED + REPORTS)).max(LOTS)
}

/// Writes the lots of a desk. A tenth of its loads are the next desk's, too: both put the same words there at once.
pub fn write(
    many: &Many,
    folder: &Path,
    desk: u32,
    desks: u32,
    loads: u32,
    all: &mut Everything,
) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for lot in 0..LOTS {
        let numbers = desk * loads + loads * lot / LOTS..desk * loads + loads * (lot + 1) / LOTS;
        let reports: Vec<Vec<u8>> = numbers
            .clone()
            .filter(|number| number % MOVED == 0)
            .flat_map(|number| many.reports(number))
            .collect();
        files.push(kept(folder, desk, lot, &many.bundle_with(numbers, &reports), all));
    }
    let next = (desk + 1) % desks * loads;
    let shared = many.bundle_with(next..next + loads.div_ceil(10), &[]);
    files.push(kept(folder, desk, LOTS, &shared, all));
    files
}

fn kept(folder: &Path, desk: u32, lot: u32, bundle: &[u8], all: &mut Everything) -> PathBuf {
    let mut input = bundle;
    let mut reader = BundleReader::begin(&mut input).unwrap().unwrap();
    while let Some(piece) = reader.next_piece().unwrap() {
        let Piece::Item(item) = piece else { continue };
        all.keys.insert(word_key_of(item.kind, &item.body).unwrap().to_string());
        if item.kind == ItemKind::Record {
            let record = RecordItem::parse(&item.body).unwrap().record.unwrap();
            all.records.insert(Digest::of(&record).to_string());
        }
    }
    let file = folder.join(format!("desk-{desk}-lot-{lot}.bundle"));
    std::fs::write(&file, bundle).unwrap();
    file
}
