//! What is shown of trust: an authority, what it issued and approves, and how far a device is set up.

use serde::Serialize;
use slingseal_catalogue::trust as trust_words;

use crate::{CodeView, Stamp};
use slingseal_message::trust::Role;
use slingseal_words::{Language, Saying, Seconds, Time};

/// An authority's card and its first or newest roster.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AuthorityView {
    /// What it goes by.
    pub name: String,
    /// What people compare by voice.
    pub fingerprint: String,
    /// The card, to be handed to every device.
    pub card: CodeView,
    /// The newest roster.
    pub roster: CodeView,
    /// Its sequence.
    pub sequence: u32,
    /// When it runs out.
    pub roster_expires: Stamp,
    /// The credentials that this call took back.
    pub taken: Vec<IssuedView>,
    /// The editions of procedures that this call approved or withdrew.
    pub changed: Vec<ApprovalView>,
}

/// From when on a credential is said to run out soon: time enough to meet the authority again.
const SOON: Seconds = Seconds::days(14);

/// How a credential stands by its authority's newest roster.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CredentialState {
    /// It may be signed with.
    Good,
    /// It may be, for another fortnight at most.
    RunsOutSoon,
    /// Its time is over.
    Expired,
    /// The authority took it back, by itself or with its key.
    Revoked,
}

impl CredentialState {
    /// What a person calls it, in no language yet.
    pub fn saying(self) -> Saying {
        match self {
            Self::Good => trust_words::CredentialGood.into(),
            Self::RunsOutSoon => trust_words::CredentialRunsOutSoon.into(),
            Self::Expired => trust_words::CredentialExpired.into(),
            Self::Revoked => trust_words::CredentialRevoked.into(),
        }
    }

    /// The same in a language.
    pub fn say(self, language: Language) -> String {
        self.saying().say(language)
    }

    pub(crate) fn of(expires: Time, revoked: bool, now: Time) -> Self {
        match expires {
            _ if revoked => Self::Revoked,
            expires if now > expires => Self::Expired,
            expires if now.plus(SOON) > expires => Self::RunsOutSoon,
            _ => Self::Good,
        }
    }
}

/// A credential that this authority issued.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct IssuedView {
    /// The credential's id.
    pub id: String,
    /// Whose it is.
    pub holder: String,
    /// The roles.
    #[serde(serialize_with = "crate::view::words")]
    pub roles: Vec<Role>,
    /// Until when.
    pub expires: Stamp,
    /// How it stands.
    pub state: CredentialState,
    /// The fingerprint of the key that it was issued to: one person's credentials share it.
    pub key: String,
    /// Since when that key is revoked, if it is.
    pub key_revoked: Option<Stamp>,
}

/// Everything that this authority issued, and how long its roster holds.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct IssuedListView {
    /// The authority's name.
    pub name: String,
    /// Its fingerprint.
    pub fingerprint: String,
    /// The number of its newest roster.
    pub sequence: u32,
    /// When that roster runs out.
    pub roster_expires: Stamp,
    /// By holder, then the last to expire first.
    pub issued: Vec<IssuedView>,
    /// The editions of procedures that it approves or has withdrawn.
    pub approved: Vec<ApprovalView>,
    /// What runs out soon or has run out, a line each.
    pub warnings: Vec<String>,
}

/// An edition that an authority's roster speaks of.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ApprovalView {
    /// The procedure's id.
    pub id: String,
    /// Its version.
    pub version: u32,
    /// The first sixteen bytes of the SHA-256 of its text, in hexadecimal.
    pub thumbprint: String,
    /// Its title, where its text is here.
    pub title: Option<String>,
    /// Whether it came with the program: a start for a unit's own, and no manual.
    pub built_in: bool,
    /// From when on it may be walked by.
    pub from: Stamp,
    /// Since when no longer.
    pub withdrawn: Option<Stamp>,
}

/// How far this device is set up.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SetUpView {
    /// Whose device it is, once its key is made.
    pub holder: Option<String>,
    /// The fingerprint of its key.
    pub fingerprint: Option<String>,
    /// The key request, to be shown to an authority.
    pub request: Option<String>,
    /// Its newest credential, if any.
    pub credential: Option<CredentialView>,
    /// Who revoked its key, in one line, where no credential is left to sign with: a new key may be made.
    pub revoked: Option<String>,
    /// Whom it trusts.
    pub authorities: Vec<TrustedView>,
    /// Whether this home is an authority itself, by its name.
    pub authority: Option<String>,
    /// PINs are refused until this time.
    pub pin_locked_until: Option<Stamp>,
    /// What to do next, in one line.
    pub next: String,
    /// The four steps of the set-up, in order.
    pub steps: Vec<SetUpStep>,
    /// What its credentials let it do now, none where it only checks at the hook.
    #[serde(serialize_with = "crate::view::words")]
    pub roles: Vec<Role>,
    /// Whether every step is done: it may do what its roles allow.
    pub ready: bool,
    /// Whether it may inspect and seal now: it is ready, and an inspector's.
    pub may_seal: bool,
}

/// One step of the set-up.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SetUpStep {
    /// Which.
    pub what: SetUpWhat,
    /// Whether it is done, and still holds.
    pub done: bool,
    /// What to do, or what is wrong.
    pub words: String,
}

/// What a step of the set-up brings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SetUpWhat {
    /// An authority that is trusted.
    Authority,
    /// The device's own key under a PIN.
    Key,
    /// A credential that holds, whatever it allows.
    Credential,
    /// A roster that is fresh.
    Roster,
}

/// A credential.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CredentialView {
    /// What it is revoked by.
    pub id: String,
    /// Whose it is.
    pub holder: String,
    /// The roles.
    #[serde(serialize_with = "crate::view::words")]
    pub roles: Vec<Role>,
    /// Until when.
    pub expires: Stamp,
    /// Whether it has run out.
    pub expired: bool,
    /// Whether the newest roster revokes it.
    pub revoked: bool,
    /// Who issued it.
    pub authority: String,
}

/// A trusted authority.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TrustedView {
    /// What it goes by.
    pub name: String,
    /// Its key's fingerprint.
    pub fingerprint: String,
    /// The sequence of its newest roster here.
    pub roster: Option<u32>,
    /// When that roster runs out.
    pub roster_expires: Option<Stamp>,
    /// Whether it has.
    pub roster_expired: bool,
    /// How many credentials and keys it revokes.
    pub revoked: u32,
}
