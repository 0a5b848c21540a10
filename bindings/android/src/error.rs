use std::sync::{Mutex, PoisonError};

use slingseal_app::{AppError, Language};

/// The language of this process's reader: a phone has one, and an error crosses the border as its words.
static SPOKEN: Mutex<Language> = Mutex::new(Language::English);

/// From here on errors are told in that language.
pub(crate) fn speak(language: Language) {
    *SPOKEN.lock().unwrap_or_else(PoisonError::into_inner) = language;
}

/// The language in which they are told.
pub(crate) fn spoken() -> Language {
    *SPOKEN.lock().unwrap_or_else(PoisonError::into_inner)
}

macro_rules! errors {
    ($($(#[$doc:meta])* $variant:ident,)*) => {
        /// Why a call did not do what was asked, chosen by what the user does next. A shell shows the words and never
        /// parses them.
        #[derive(Debug, thiserror::Error, uniffi::Error)]
        pub enum HandheldError {
            $(
                $(#[$doc])*
                #[error("{words}")]
                $variant {
                    /// One line: what is wrong; what to do. (Not `message`, which Kotlin's exceptions have already.)
                    words: String,
                },
            )*
        }

        impl From<AppError> for HandheldError {
            fn from(error: AppError) -> Self {
                let words = error.say(spoken());
                match error {
                    $(AppError::$variant { .. } => Self::$variant { words },)*
                }
            }
        }
    };
}

errors! {
    /// The rules forbid it: do what the words say first.
    Refused,
    /// It is not here: look elsewhere.
    NotFound,
    /// No room or no right to write: free some and try again.
    StorageFull,
    /// The stored data is damaged or in use: close, restore.
    StorageDamaged,
    /// A newer program wrote it: update.
    TooNew,
    /// What was given cannot be used: mend it.
    BadInput,
    /// A mistake of this program: report it.
    Internal,
}
