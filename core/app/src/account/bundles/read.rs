//! Bundles in.

use slingseal_catalogue::audit as audit_words;
use slingseal_catalogue::refusals as words;
use std::io::Read;

use serde::Serialize;

use super::io;
use crate::account::bundle_report::BundleReport;
use crate::account::lots::{Lot, Lots};
use crate::{App, AppError, Inner};
use slingseal_account::sync::{BundleReader, Item, Piece};

/// How far the reading of a bundle is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct BundleProgress {
    /// Bytes that were read.
    pub bytes: u64,
    /// Items that were judged.
    pub items: u64,
}

/// Lots in hand: while one is taken in, the next is opened.
const LOTS_AHEAD: usize = 2;
/// Pieces that are read before they are taken in, and their bytes: memory stays flat.
pub(crate) const PIECES_AHEAD: usize = 256;
const BYTES_AHEAD: usize = 4 << 20;

/// Pieces of a bundle that are read together.
struct Pieces(Vec<Piece>);

impl Lot for Pieces {
    fn items(&self) -> Vec<&Item> {
        let items = self.0.iter().filter_map(|piece| match piece {
            Piece::Item(item) => Some(item),
            Piece::Damaged { .. } => None,
        });
        items.collect()
    }
}

/// The next pieces of a bundle; none at its end.
fn read_ahead(reader: &mut BundleReader<&mut dyn Read>) -> Result<Option<Pieces>, AppError> {
    let (mut pieces, mut bytes) = (Vec::new(), 0);
    while pieces.len() < PIECES_AHEAD && bytes < BYTES_AHEAD {
        let Some(piece) = reader.next_piece().map_err(io)? else { break };
        bytes += match &piece {
            Piece::Item(item) => item.body.len(),
            Piece::Damaged { bytes, .. } => bytes.len(),
        };
        pieces.push(piece);
    }
    Ok(Some(Pieces(pieces)).filter(|pieces| !pieces.0.is_empty()))
}

impl App {
    /// Takes a bundle in: what is good, in one transaction; what is not is set aside with its reason.
    ///
    /// # Errors
    /// A file that is no bundle; what the reader meets; storage. Nothing is kept then.
    pub fn bundle_read(
        &self,
        input: &mut dyn Read,
        progress: &mut dyn FnMut(BundleProgress),
    ) -> Result<BundleReport, AppError> {
        self.lock().bundle_read(input, progress)
    }
}

impl Inner {
    fn bundle_read(
        &mut self,
        input: &mut dyn Read,
        progress: &mut dyn FnMut(BundleProgress),
    ) -> Result<BundleReport, AppError> {
        let none = || AppError::bad_input(words::FileBundleMakeOneBundle);
        let mut reader = BundleReader::begin(input).map_err(io)?.ok_or_else(none)?;
        self.merging(|merge| {
            let (mut lots, mut number) = (Lots::at_most(LOTS_AHEAD), 0u64);
            rayon::in_place_scope(|cores| {
                while let Some((Pieces(pieces), ahead)) =
                    lots.next(&mut merge.admission, cores, &mut || read_ahead(&mut reader))?
                {
                    let mut ahead = ahead.into_iter();
                    for piece in pieces {
                        match piece {
                            Piece::Item(item) => {
                                number += 1;
                                merge.take(&item, ahead.next().unwrap_or_default(), number)?;
                            }
                            Piece::Damaged { at, after, bytes, length } => {
                                let place = audit_words::AfterItem { after, at }.say(merge.language);
                                let reason = audit_words::BytesDamaged { length }.say(merge.language);
                                merge.set_aside(&bytes, place, "damage", reason)?;
                            }
                        }
                        if number.is_multiple_of(64) {
                            progress(BundleProgress { bytes: reader.position(), items: number });
                        }
                    }
                }
                Ok::<(), AppError>(())
            })?;
            progress(BundleProgress { bytes: reader.position(), items: number });
            Ok(())
        })
    }
}
