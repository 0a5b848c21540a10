//! Why an act cannot be done, with the field of what was asked that is wrong.

use serde::Serialize;

use crate::AppError;

/// A part of what an act is asked with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ActField {
    /// Which record a void takes back.
    Record,
    /// Why.
    Cause,
    /// More, in a person's words.
    Note,
    /// The key request that a credential answers.
    Request,
    /// A credential's roles.
    Roles,
    /// When it runs out.
    Expires,
    /// Whose it is.
    Holder,
    /// How long a seal may hold.
    Validity,
    /// Which edition, credential, key or authority is meant.
    Which,
    /// How many days a new list of the authority holds.
    Days,
}

/// Why an act cannot be done, and with which part of it that has to do; none where it is with none.
#[derive(Clone, Debug, PartialEq)]
pub struct ActFault {
    /// The part to mend.
    pub field: Option<ActField>,
    /// What is wrong with it, and what to do.
    pub error: AppError,
}

impl ActFault {
    pub(crate) fn at(field: ActField) -> impl Fn(AppError) -> Self {
        move |error| Self { field: Some(field), error }
    }
}

impl From<AppError> for ActFault {
    fn from(error: AppError) -> Self {
        Self { field: None, error }
    }
}

impl From<ActFault> for AppError {
    fn from(fault: ActFault) -> Self {
        fault.error
    }
}
