//! What this program itself refuses, in the facade's kinds of errors.

use slingseal_app::AppError;
use slingseal_app::catalogue::Saying;

/// An error of this program's own, in the facade's words.
pub(crate) fn bad_input(message: impl Into<Saying>) -> AppError {
    AppError::BadInput { message: message.into() }
}
