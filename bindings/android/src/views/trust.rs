//! Keys, credentials, whom a device trusts, and what was taken in.

use slingseal_app::{
    ApprovalView, AuthorityView, ClosingView, CodeKind, CodeView, CredentialState, CredentialView, Issue,
    IssuedListView, IssuedView, MovementView, Received, Role, SetUpStep, SetUpView, SetUpWhat, Stamp,
    Subject, TagView, TrustedView, VerdictView,
};

#[uniffi::remote(Record)]
pub struct AuthorityView {
    pub name: String,
    pub fingerprint: String,
    pub card: CodeView,
    pub roster: CodeView,
    pub sequence: u32,
    pub roster_expires: Stamp,
    pub taken: Vec<IssuedView>,
    pub changed: Vec<ApprovalView>,
}

#[uniffi::remote(Record)]
pub struct ApprovalView {
    pub id: String,
    pub version: u32,
    pub thumbprint: String,
    pub title: Option<String>,
    pub built_in: bool,
    pub from: Stamp,
    pub withdrawn: Option<Stamp>,
}

#[uniffi::remote(Enum)]
pub enum CredentialState {
    Good,
    RunsOutSoon,
    Expired,
    Revoked,
}

#[uniffi::remote(Record)]
pub struct IssuedView {
    pub id: String,
    pub holder: String,
    pub roles: Vec<Role>,
    pub expires: Stamp,
    pub state: CredentialState,
    pub key: String,
    pub key_revoked: Option<Stamp>,
}

#[uniffi::remote(Record)]
pub struct IssuedListView {
    pub name: String,
    pub fingerprint: String,
    pub sequence: u32,
    pub roster_expires: Stamp,
    pub issued: Vec<IssuedView>,
    pub approved: Vec<ApprovalView>,
    pub warnings: Vec<String>,
}

#[uniffi::remote(Record)]
pub struct Issue {
    pub request: String,
    pub roles: Vec<Role>,
    pub expires: String,
    pub holder: Option<String>,
    pub validity_hours: Option<u32>,
}

#[uniffi::remote(Record)]
pub struct SetUpView {
    pub holder: Option<String>,
    pub fingerprint: Option<String>,
    pub request: Option<String>,
    pub credential: Option<CredentialView>,
    pub revoked: Option<String>,
    pub authorities: Vec<TrustedView>,
    pub authority: Option<String>,
    pub pin_locked_until: Option<Stamp>,
    pub next: String,
    pub steps: Vec<SetUpStep>,
    pub roles: Vec<Role>,
    pub ready: bool,
    pub may_seal: bool,
}

#[uniffi::remote(Record)]
pub struct SetUpStep {
    pub what: SetUpWhat,
    pub done: bool,
    pub words: String,
}

#[uniffi::remote(Enum)]
pub enum SetUpWhat {
    Authority,
    Key,
    Credential,
    Roster,
}

#[uniffi::remote(Record)]
pub struct CredentialView {
    pub id: String,
    pub holder: String,
    pub roles: Vec<Role>,
    pub expires: Stamp,
    pub expired: bool,
    pub revoked: bool,
    pub authority: String,
}

#[uniffi::remote(Record)]
pub struct TrustedView {
    pub name: String,
    pub fingerprint: String,
    pub roster: Option<u32>,
    pub roster_expires: Option<Stamp>,
    pub roster_expired: bool,
    pub revoked: u32,
}

#[uniffi::remote(Enum)]
pub enum Received {
    Authority { name: String, fingerprint: String, trusted: bool, card: String },
    KeyRequest { holder: String, fingerprint: String, request: String },
    Credential { credential: CredentialView, own: bool, set_up: Box<SetUpView> },
    Roster { authority: String, sequence: u32, revoked: u32, approved: u32, new: bool },
    Tag(Box<TagView>),
    Seal(Box<VerdictView>),
    Void { load: String, by: String, cause: String, new: bool },
    Movement { report: Box<MovementView>, new: bool },
    Closing { statement: Box<ClosingView>, new: bool },
    Inspection { subject: Subject, name: String, by: String, fit: bool, fit_until: Option<Stamp>, new: bool },
    Examination { what: CodeKind, id: String, load: String, by: String, new: bool },
}
