//! How an edition of a procedure stands with the authorities that this device trusts.

use serde::Serialize;
use slingseal_catalogue::tags as procedure_words;

use slingseal_message::trust::{Approval, Edition};
use slingseal_words::{Digest, Language, Name, Time};

/// How an edition stands with the authorities that this device trusts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum EditionState {
    /// One of them approves it: what is sealed by it can be GO.
    Approved,
    /// None does: what is sealed by it is WAIT.
    NotApproved,
    /// One of them withdrew it, and none approves it.
    Withdrawn,
    /// One of them approves it, and its text is not here: it must be received.
    Missing,
}

impl EditionState {
    /// A stable word for machines.
    pub fn word(self) -> &'static str {
        match self {
            Self::Approved => "approved",
            Self::NotApproved => "not_approved",
            Self::Withdrawn => "withdrawn",
            Self::Missing => "missing",
        }
    }
}

pub(super) fn is_edition(edition: &Edition, id: &str, digest: Digest) -> bool {
    edition.procedure.as_str() == id && digest.as_bytes().starts_with(&edition.thumbprint)
}

/// An edition that the newest roster of a trusted authority speaks of.
pub(crate) struct Named {
    pub(super) edition: Edition,
    pub(super) approval: Approval,
    pub(super) authority: Name,
    pub(super) now: Time,
}

impl Named {
    pub(super) fn holds(&self) -> bool {
        self.approval.held_at(self.now)
    }
}

/// How an edition stands with everyone trusted here who speaks of it, and the line that says so.
pub(super) fn standing<'n>(
    named: impl Iterator<Item = &'n Named>,
    built_in: bool,
    language: Language,
) -> (EditionState, String) {
    let (mut approved, mut withdrawn) = (Vec::new(), Vec::new());
    for one in named {
        match one.approval.withdrawn {
            _ if one.holds() => approved.push(one.authority.to_string()),
            Some(since) => withdrawn.push(format!("{} ({})", one.authority, since.dtg())),
            None => {}
        }
    }
    if !approved.is_empty() {
        let said = procedure_words::ApprovedBy { authorities: approved.join(", ") };
        return (EditionState::Approved, said.say(language));
    }
    if !withdrawn.is_empty() {
        let said = procedure_words::WithdrawnBy { authorities: withdrawn.join(", ") };
        return (EditionState::Withdrawn, said.say(language));
    }
    let nobody = if built_in {
        procedure_words::ApprovedByNobodyAStart.say(language)
    } else {
        procedure_words::ApprovedByNobody.say(language)
    };
    (EditionState::NotApproved, nobody)
}
