use slingseal_judgement::WordError;
use slingseal_message::envelope::{ShapeError, Sign1Error, StrictError, TextError};
use slingseal_message::seal::{RecordError, SealError, VoidError};
use slingseal_message::tag::TagError;
use slingseal_message::trust::{PassphraseError, TrustError, VaultError};
use slingseal_store::StoreError;
use slingseal_words::{Faults, LineError, visibly};

/// What the system said of a file, without its number.
pub(crate) fn said_by_system(error: &std::io::Error) -> String {
    let text = error.to_string();
    text.split(" (os error").next().unwrap_or_default().to_lowercase()
}

macro_rules! errors {
    ($($(#[$doc:meta])* $variant:ident $code:literal,)*) => {
        /// Why a call did not do what was asked, chosen by what the user does next. The message is one line that says
        /// what to do (several for a file with several faults); a shell shows it and never parses it.
        #[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
        pub enum AppError {
            $(
                $(#[$doc])*
                #[error("{message}")]
                $variant {
                    /// What to tell the user.
                    message: String,
                },
            )*
        }

        impl AppError {
            /// A stable word for JSON and tests.
            pub fn code(&self) -> &'static str {
                match self { $(Self::$variant { .. } => $code,)* }
            }
        }
    };
}

errors! {
    /// The rules forbid it: do what the message says first.
    Refused "refused",
    /// It is not here: look elsewhere.
    NotFound "not_found",
    /// No room or no right to write: free some and try again.
    StorageFull "storage_full",
    /// The stored data is damaged or in use: close, restore.
    StorageDamaged "storage_damaged",
    /// A newer program wrote it: update.
    TooNew "too_new",
    /// What was given cannot be used: mend it.
    BadInput "bad_input",
    /// A mistake of this program: report it.
    Internal "internal",
}

impl AppError {
    /// One line, whatever it quotes.
    pub(crate) fn refused(message: impl Into<String>) -> Self {
        Self::Refused { message: visibly(&message.into()) }
    }

    pub(crate) fn not_found(message: impl Into<String>) -> Self {
        Self::NotFound { message: visibly(&message.into()) }
    }

    /// What a message quotes may be a stranger's: it stays one line, with nothing in it that cannot be seen.
    pub(crate) fn bad_input(message: impl ToString) -> Self {
        Self::BadInput { message: visibly(&message.to_string()) }
    }

    pub(crate) fn internal(message: impl ToString) -> Self {
        Self::Internal { message: message.to_string() }
    }
}

impl From<StoreError> for AppError {
    fn from(error: StoreError) -> Self {
        let message = error.to_string();
        match error {
            StoreError::Full | StoreError::ReadOnly { .. } => Self::StorageFull { message },
            StoreError::Damaged { .. } | StoreError::Io { .. } | StoreError::Foreign { .. } => {
                Self::StorageDamaged { message }
            }
            StoreError::Busy { .. } => Self::Refused { message },
            StoreError::TooNew { .. } => Self::TooNew { message },
            StoreError::Unfit { .. } => Self::BadInput { message },
            StoreError::Mistake { .. } => Self::Internal { message },
        }
    }
}

macro_rules! bad_input {
    ($($error:ty),*) => {
        $(impl From<$error> for AppError {
            fn from(error: $error) -> Self {
                Self::bad_input(error)
            }
        })*
    };
}

bad_input!(
    TextError,
    StrictError,
    ShapeError,
    Sign1Error,
    SealError,
    VoidError,
    RecordError,
    TagError,
    WordError,
    TrustError,
    PassphraseError,
    LineError
);

impl From<Faults> for AppError {
    /// A line a fault.
    fn from(faults: Faults) -> Self {
        Self::BadInput { message: faults.to_string() }
    }
}

impl From<VaultError> for AppError {
    fn from(error: VaultError) -> Self {
        let message = error.to_string();
        match error {
            VaultError::WrongPin => Self::Refused { message },
            VaultError::Damaged(_) => Self::StorageDamaged { message },
        }
    }
}
