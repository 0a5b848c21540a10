//! Whom this device trusts, what it may sign, and what it issues where it is an authority.

pub(crate) mod acting;
pub(crate) mod authority;
pub(crate) mod issued;
pub(crate) mod setup;
