//! What one device carries to another without a network: a bundle, by file or by a moving code; and the short code by which
//! the other says first what it has.

mod bundle;
mod frames;
mod have;
mod heads;
mod pack;
mod place;

pub use bundle::{
    BundleReader, BundleWriter, Examined, HeadItem, Item, ItemKind, Piece, RecordItem, TooLong, Unfit,
    examine_body, examine_record,
};
pub use frames::{FrameError, FrameReader, FrameWriter, Heard, Progress};
pub use have::{Have, HaveError, Known};
pub use heads::{Heads, VouchedHead};
pub use pack::{Pack, PackError};
pub use place::{PlaceError, PlaceState, Position, ServerState, word_key, word_key_of};
