use slingseal_app::AppError;

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
                match error {
                    $(AppError::$variant { message } => Self::$variant { words: message },)*
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
