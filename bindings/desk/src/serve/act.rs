//! What can be done by a form, and what was done: the nouns that the desk keeps, the pages show and `acts` carries out.

use slingseal_app::catalogue::page as words;
use slingseal_app::{CodeView, Language};

/// What can be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Act {
    Void,
    Approve,
    Withdraw,
    Issue,
    Revoke,
    Distrust,
}

impl Act {
    /// By its part of an address.
    pub(super) fn of(name: &str) -> Option<Self> {
        let all = [Self::Void, Self::Approve, Self::Withdraw, Self::Issue, Self::Revoke, Self::Distrust];
        all.into_iter().find(|act| act.name() == name)
    }

    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Void => "void",
            Self::Approve => "approve",
            Self::Withdraw => "withdraw",
            Self::Issue => "issue",
            Self::Revoke => "revoke",
            Self::Distrust => "distrust",
        }
    }

    pub(super) fn title(self, language: Language) -> String {
        match self {
            Self::Void => words::ActVoidTitle.say(language),
            Self::Approve => words::ActApproveTitle.say(language),
            Self::Withdraw => words::ActWithdrawTitle.say(language),
            Self::Issue => words::ActIssueTitle.say(language),
            Self::Revoke => words::ActRevokeTitle.say(language),
            Self::Distrust => words::ActDistrustTitle.say(language),
        }
    }

    /// The page of the navigation that it belongs to.
    pub(super) fn place(self) -> &'static str {
        match self {
            Self::Void => "/",
            Self::Approve | Self::Withdraw => "/procedures",
            Self::Issue | Self::Revoke | Self::Distrust => "/people",
        }
    }
}

/// What was done, to be shown under an address of its own.
pub(super) struct Done {
    pub(super) act: Act,
    pub(super) said: String,
    pub(super) code: Option<CodeView>,
    pub(super) next: String,
}
