use std::path::{Path, PathBuf};

use rusqlite::ErrorCode;

/// Why the store did not do what it was asked. Nothing of a failed write stays.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StoreError {
    /// No room: the disk, or the quota that the system gives.
    #[error("the storage is full and nothing of the last step was kept; free some space and do it again")]
    Full,
    /// The file or its folder may not be written.
    #[error("{} cannot be written; give this program the right to write there or choose another home", path.display())]
    ReadOnly {
        /// What could not be written.
        path: PathBuf,
    },
    /// What is on the disk is not what was put there.
    #[error(
        "the stored data is damaged ({what}); close the program and open it again, and sync from another device"
    )]
    Damaged {
        /// Where the damage showed.
        what: String,
    },
    /// Another program holds the home.
    #[error("{} is open in another program that keeps it; close that one first", path.display())]
    Busy {
        /// The home's database.
        path: PathBuf,
    },
    /// A newer program wrote it.
    #[error("the stored data has schema {found} and this program knows up to {known}; use the newer program")]
    TooNew {
        /// The schema on the disk.
        found: u32,
        /// The newest schema known here.
        known: u32,
    },
    /// The file is a database of another program.
    #[error("{} belongs to another program; choose another home", path.display())]
    Foreign {
        /// The file.
        path: PathBuf,
    },
    /// The system did not let the file be read or written.
    #[error("{} could not be read or written ({why}); check the disk and try again", path.display())]
    Io {
        /// The file.
        path: PathBuf,
        /// What the system said.
        why: String,
    },
    /// A rule of the schema refused the row: the caller gave something that cannot be stored.
    #[error("{what} cannot be stored; mend the value")]
    Unfit {
        /// What was refused.
        what: String,
    },
    /// The store asked the database something wrong: a mistake in this program.
    #[error("the store made a mistake ({what}); report it")]
    Mistake {
        /// What the database said.
        what: String,
    },
}

/// What the system said, without its number.
fn plain(said: &str) -> String {
    said.split(" (os error").next().unwrap_or(said).to_lowercase()
}

impl StoreError {
    /// What a file operation outside the database met.
    pub(super) fn from_io(path: &Path, error: &std::io::Error) -> Self {
        use std::io::ErrorKind;
        match error.kind() {
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Self::Full,
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
                Self::ReadOnly { path: path.to_owned() }
            }
            _ => Self::Io { path: path.to_owned(), why: plain(&error.to_string()) },
        }
    }

    /// Puts in the file that the database error itself does not know.
    pub(super) fn at(self, path: &Path) -> Self {
        let path = path.to_owned();
        match self {
            Self::ReadOnly { .. } => Self::ReadOnly { path },
            Self::Busy { .. } => Self::Busy { path },
            Self::Io { why, .. } => Self::Io { path, why },
            other => other,
        }
    }
}

impl From<rusqlite::Error> for StoreError {
    /// By the primary result code (sqlite.org/rescode.html).
    fn from(error: rusqlite::Error) -> Self {
        let what = error.to_string();
        let path = PathBuf::from("the home");
        match &error {
            rusqlite::Error::SqliteFailure(failure, _) => match failure.code {
                ErrorCode::DiskFull => Self::Full,
                ErrorCode::ReadOnly
                | ErrorCode::PermissionDenied
                | ErrorCode::AuthorizationForStatementDenied => Self::ReadOnly { path },
                ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase => Self::Damaged { what },
                ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => Self::Busy { path },
                ErrorCode::SystemIoFailure | ErrorCode::CannotOpen | ErrorCode::FileLockingProtocolFailed => {
                    Self::Io { path, why: what }
                }
                ErrorCode::ConstraintViolation | ErrorCode::TypeMismatch | ErrorCode::TooBig => {
                    Self::Unfit { what }
                }
                _ => Self::Mistake { what },
            },
            // A column that is not of its declared type in a STRICT table was not put there by the database.
            rusqlite::Error::FromSqlConversionFailure(..)
            | rusqlite::Error::IntegralValueOutOfRange(..)
            | rusqlite::Error::InvalidColumnType(..)
            | rusqlite::Error::Utf8Error(..) => Self::Damaged { what },
            _ => Self::Mistake { what },
        }
    }
}
