//! Whom this device trusts, what it may sign, and what it issues where it is an authority.

pub(crate) mod acting;
pub(crate) mod approvals;
pub(crate) mod authority;
pub(crate) mod before;
pub(crate) mod copy;
pub(crate) mod fault;
pub(crate) mod issued;
mod meant;
pub(crate) mod rosters;
pub(crate) mod setup;
pub(crate) mod vault;
pub(crate) mod view;
