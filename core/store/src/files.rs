//! The files of a home on disk: what lies beside the database, and moves that last.

use std::fs::File;
use std::path::{Path, PathBuf};

use super::StoreError;

pub(super) fn rename(from: &Path, to: &Path) -> Result<(), StoreError> {
    std::fs::rename(from, to).map_err(|error| StoreError::from_io(from, &error))
}

pub(super) fn remove(path: &Path) -> Result<(), StoreError> {
    match std::fs::remove_file(path) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => Err(StoreError::from_io(path, &error)),
        _ => Ok(()),
    }
}

/// Makes new names durable. Not every system lets a folder be opened; then its own order of writing has to do.
pub(super) fn sync_folder(path: &Path) {
    if let Some(folder) = path.parent() {
        let _ = File::open(folder).and_then(|folder| folder.sync_all());
    }
}

/// The file that belongs to the database under this ending.
pub(super) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    name.into()
}

pub(super) fn size(path: &Path) -> u64 {
    std::fs::metadata(path).map_or(0, |found| found.len())
}
