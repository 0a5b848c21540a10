//! What can be told of an act before its PIN or passphrase is asked for: whether it can be done, whom it takes, and which field of
//! what was asked is wrong. The same rules as the act's own, and no try is spent.

use serde::Serialize;

use super::fault::{ActFault, ActField};
use crate::{App, AppError, ApprovalView, Approve, Issue, IssuedView, Role, Stamp, TrustedView};

/// What a credential would say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct IssueAsked {
    /// Whose it would be.
    pub holder: String,
    /// The fingerprint of the key that asks, to be compared by voice.
    pub fingerprint: String,
    /// Its roles.
    #[serde(serialize_with = "crate::view::words")]
    pub roles: Vec<Role>,
    /// When it would run out.
    pub expires: Stamp,
    /// The longest that a seal of it would hold, in hours.
    pub validity_hours: i64,
}

impl App {
    /// Whether a seal can be taken back so: see `void`.
    ///
    /// # Errors
    /// What `void` would answer before its PIN.
    pub fn would_void(&self, record: &str, cause: &str, note: Option<&str>) -> Result<(), ActFault> {
        let cause = cause.parse().map_err(AppError::bad_input).map_err(ActFault::at(ActField::Cause))?;
        self.lock().void_of(record, cause, note).map(|_| ())
    }

    /// What would be issued: see `issue`.
    ///
    /// # Errors
    /// What `issue` would answer before its passphrase.
    pub fn would_issue(&self, issue: &Issue) -> Result<IssueAsked, ActFault> {
        let inner = self.lock();
        let terms = inner.terms(issue)?;
        inner.authority_key()?;
        Ok(IssueAsked {
            holder: terms.holder.to_string(),
            fingerprint: terms.request.key.fingerprint().to_string(),
            roles: terms.roles.iter().collect(),
            expires: terms.expires.into(),
            validity_hours: terms.longest_validity.0 / 3_600,
        })
    }

    /// Whose credentials a revocation would take: see `revoke`.
    ///
    /// # Errors
    /// What `revoke` would answer before its passphrase.
    pub fn would_revoke(&self, which: &[String]) -> Result<Vec<IssuedView>, ActFault> {
        let inner = self.lock();
        inner.next_roster(None)?;
        Ok(inner.roster_without(which, None).map_err(ActFault::at(ActField::Which))?.taken)
    }

    /// Which editions would be approved: see `approve`.
    ///
    /// # Errors
    /// What `approve` would answer before its passphrase.
    pub fn would_approve(&self, which: &[Approve]) -> Result<Vec<ApprovalView>, ActFault> {
        let inner = self.lock();
        inner.next_roster(None)?;
        let approving = inner.roster_with(which, None).map_err(ActFault::at(ActField::Which))?;
        Ok(inner.told_of(&approving.roster, &approving.named)?.changed)
    }

    /// Which editions would be withdrawn: see `withdraw`.
    ///
    /// # Errors
    /// What `withdraw` would answer before its passphrase.
    pub fn would_withdraw(&self, which: &[String]) -> Result<Vec<ApprovalView>, ActFault> {
        let inner = self.lock();
        inner.next_roster(None)?;
        let (roster, taken) = inner.roster_less(which, None).map_err(ActFault::at(ActField::Which))?;
        Ok(inner.told_of(&roster, &taken)?.changed)
    }

    /// Whom this home would trust no longer: see `distrust`.
    ///
    /// # Errors
    /// What `distrust` would answer.
    pub fn would_distrust(&self, who: &str) -> Result<TrustedView, ActFault> {
        let inner = self.lock();
        let key = inner.trusted_no_longer(who).map_err(ActFault::at(ActField::Which))?;
        let set_up = inner.set_up()?;
        let fingerprint = key.fingerprint().to_string();
        let one = set_up.authorities.into_iter().find(|one| one.fingerprint == fingerprint);
        one.ok_or_else(|| AppError::internal("a trusted authority is shown").into())
    }
}

/// What an authority's acts take where nothing else is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UsualTerms {
    /// How many days a roster holds.
    pub roster_days: i64,
    /// How many hours a seal holds at most.
    pub seal_hours: i64,
}

/// What is taken where nothing else is told.
pub fn usual_terms() -> UsualTerms {
    let seal = slingseal_message::trust::DEFAULT_VALIDITY;
    UsualTerms { roster_days: crate::trust::rosters::ROSTER_LIFE.0 / 86_400, seal_hours: seal.0 / 3_600 }
}
