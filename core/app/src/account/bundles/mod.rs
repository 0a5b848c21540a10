//! Sync: bundles out, bundles in, the have code, the moving code. Merging is a union of sets: commutative, idempotent, one
//! transaction.

mod moving;
mod read;
mod write;

use slingseal_catalogue::refusals as words;

use crate::AppError;
use crate::error::said_by_system;

pub use self::moving::{FrameTaken, MOST_PARTS, MovingCode, MovingReader};
pub use self::read::BundleProgress;
#[cfg(test)]
pub(crate) use self::read::PIECES_AHEAD;
pub use self::write::{BundleMade, BundleRequest};
pub(crate) use self::write::{inspection_item, papers};

pub(crate) fn io(error: std::io::Error) -> AppError {
    AppError::bad_input(words::BundleCannotReadWrittenTry { error: said_by_system(&error) })
}
