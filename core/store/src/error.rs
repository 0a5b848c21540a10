use slingseal_catalogue::{Saying, faults as words};
use std::path::{Path, PathBuf};

use rusqlite::ErrorCode;

/// Why the store did not do what it was asked. Nothing of a failed write stays.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StoreError {
    /// No room: the disk, or the quota that the system gives.
    Full,
    /// The file or its folder may not be written.
    ReadOnly {
        /// What could not be written.
        path: PathBuf,
    },
    /// What is on the disk is not what was put there.
    Damaged {
        /// Where the damage showed.
        what: String,
    },
    /// Another program holds the home.
    Busy {
        /// The home's database.
        path: PathBuf,
    },
    /// A newer program wrote it.
    TooNew {
        /// The schema on the disk.
        found: u32,
        /// The newest schema known here.
        known: u32,
    },
    /// The file is a database of another program.
    Foreign {
        /// The file.
        path: PathBuf,
    },
    /// The system did not let the file be read or written.
    Io {
        /// The file.
        path: PathBuf,
        /// What the system said.
        why: String,
    },
    /// A rule of the schema refused the row: the caller gave something that cannot be stored.
    Unfit {
        /// What was refused.
        what: String,
    },
    /// The store asked the database something wrong: a mistake in this program.
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
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Full => words::StoreErrorFull.into(),
            Self::ReadOnly { path } => words::StoreErrorReadOnly { path: path.display() }.into(),
            Self::Damaged { what } => words::StoreErrorDamaged { what }.into(),
            Self::Busy { path } => words::StoreErrorBusy { path: path.display() }.into(),
            Self::TooNew { found, known } => words::StoreErrorTooNew { found, known }.into(),
            Self::Foreign { path } => words::StoreErrorForeign { path: path.display() }.into(),
            Self::Io { path, why } => words::StoreErrorIo { path: path.display(), why }.into(),
            Self::Unfit { what } => words::StoreErrorUnfit { what }.into(),
            Self::Mistake { what } => words::StoreErrorMistake { what }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(StoreError);

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
