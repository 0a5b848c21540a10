use slingseal_catalogue::files as system;
use slingseal_judgement::WordError;
use slingseal_message::closing::ClosingError;
use slingseal_message::envelope::{ShapeError, Sign1Error, StrictError, TextError};
use slingseal_message::movement::MovementError;
use slingseal_message::seal::{RecordError, SealError, VoidError};
use slingseal_message::tag::TagError;
use slingseal_message::trust::{PassphraseError, TrustError, VaultError};
use slingseal_store::StoreError;
use slingseal_words::{Argument, Faults, Language, LineError, Saying, ToArgument};

/// What the system said of a file, without its number: in the reader's language where it is one of the usual causes.
pub fn said_by_system(error: &std::io::Error) -> Saying {
    use std::io::ErrorKind;
    match error.kind() {
        ErrorKind::NotFound => system::SystemNotFound.into(),
        ErrorKind::PermissionDenied => system::SystemNotAllowed.into(),
        ErrorKind::IsADirectory => system::SystemIsFolder.into(),
        ErrorKind::NotADirectory => system::SystemIsNoFolder.into(),
        ErrorKind::StorageFull => system::SystemDiskFull.into(),
        ErrorKind::ReadOnlyFilesystem => system::SystemReadOnly.into(),
        _ => {
            let text = error.to_string();
            Saying::verbatim(text.split(" (os error").next().unwrap_or_default().to_lowercase())
        }
    }
}

macro_rules! errors {
    ($($(#[$doc:meta])* $variant:ident $code:literal,)*) => {
        /// Why a call did not do what was asked, chosen by what the user does next. The message is one line that says
        /// what to do (several for a file with several faults), in no language yet: a shell shows what [`AppError::say`]
        /// gives in the reader's, and never parses it. `Display` is the English.
        #[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
        pub enum AppError {
            $(
                $(#[$doc])*
                #[error("{message}")]
                $variant {
                    /// What to tell the user.
                    message: Saying,
                },
            )*
        }

        impl AppError {
            /// A stable word for JSON and tests.
            pub fn code(&self) -> &'static str {
                match self { $(Self::$variant { .. } => $code,)* }
            }

            /// What is wrong and what to do, in no language yet.
            pub fn saying(&self) -> &Saying {
                match self { $(Self::$variant { message } => message,)* }
            }

            /// What is wrong and what to do.
            pub fn say(&self, language: Language) -> String {
                self.saying().say(language)
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
    pub(crate) fn refused(message: impl Into<Saying>) -> Self {
        Self::Refused { message: message.into() }
    }

    pub(crate) fn not_found(message: impl Into<Saying>) -> Self {
        Self::NotFound { message: message.into() }
    }

    /// What a message quotes may be a stranger's: it stays one line, with nothing in it that cannot be seen.
    pub(crate) fn bad_input(message: impl Into<Saying>) -> Self {
        Self::BadInput { message: message.into() }
    }

    /// A mistake of this program is told in its own language: who mends it reads that.
    pub(crate) fn internal(message: impl ToString) -> Self {
        Self::Internal { message: Saying::verbatim(message.to_string()) }
    }
}

impl From<StoreError> for AppError {
    fn from(error: StoreError) -> Self {
        let message = error.saying();
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
                Self::bad_input(error.saying())
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
    MovementError,
    ClosingError,
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
        Self::BadInput { message: faults.saying() }
    }
}

impl From<VaultError> for AppError {
    fn from(error: VaultError) -> Self {
        let message = error.saying();
        match error {
            VaultError::WrongPin => Self::Refused { message },
            VaultError::Damaged(_) => Self::StorageDamaged { message },
        }
    }
}

impl From<AppError> for Saying {
    fn from(error: AppError) -> Self {
        error.saying().clone()
    }
}

impl ToArgument for AppError {
    fn to_argument(&self) -> Argument {
        Argument::Said(self.saying().clone())
    }
}
