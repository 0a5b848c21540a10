//! What an authority issued: who holds what, how it stands, and what a word that names somebody means.

use slingseal_catalogue::refusals as words;
use slingseal_catalogue::trust as trust_words;

use std::collections::{BTreeMap, BTreeSet};

use super::view::{CredentialState, IssuedListView, IssuedView};
use crate::{AppError, Inner};
use slingseal_judgement::CLOCK_SLACK;
use slingseal_message::trust::{Credential, CredentialId, Credentialed, KeyThumbprint, Role, Roles, Roster};
use slingseal_words::{Saying, Seconds, Time, same_name};

/// From when on a roster is said to run out soon: it is meant to be carried once a week.
const ROSTER_SOON: Seconds = Seconds::days(2);

/// A credential as this authority issued it.
pub(crate) struct Issued {
    pub(crate) id: CredentialId,
    pub(crate) credential: Credential,
}

impl Issued {
    fn thumbprint(&self) -> KeyThumbprint {
        self.credential.key.thumbprint()
    }

    fn view(&self, roster: &Roster, now: Time) -> IssuedView {
        let Credential { holder, roles, expires, key, .. } = &self.credential;
        IssuedView {
            id: self.id.to_string(),
            holder: holder.to_string(),
            roles: roles.iter().collect(),
            expires: (*expires).into(),
            state: CredentialState::of(*expires, roster.revokes(self.id, key), now),
            key: key.fingerprint(),
            key_revoked: roster.keys.get(&key.thumbprint()).map(|since| (*since).into()),
        }
    }

    /// Whether its revocation says nothing any more: it ran out so long ago that no seal under it can still hold, whatever time was
    /// written on it. A planner's never is, since a tag has no end.
    fn moot(&self, now: Time) -> bool {
        let Credential { roles, expires, longest_validity, .. } = &self.credential;
        !roles.has(Role::Planner) && now > expires.plus(*longest_validity).plus(CLOCK_SLACK)
    }
}

/// Everything that was issued, as it can be opened: by holder, then the last to expire first.
pub(crate) struct AllIssued(Vec<Issued>);

impl AllIssued {
    /// The credentials of these keys.
    pub(crate) fn views_of(
        &self,
        keys: &BTreeSet<KeyThumbprint>,
        roster: &Roster,
        now: Time,
    ) -> Vec<IssuedView> {
        self.0
            .iter()
            .filter(|one| keys.contains(&one.thumbprint()))
            .map(|one| one.view(roster, now))
            .collect()
    }

    /// Ids whose revocation says nothing any more.
    pub(crate) fn moot_ids(&self, now: Time) -> BTreeSet<CredentialId> {
        self.0.iter().filter(|one| one.moot(now)).map(|one| one.id).collect()
    }

    /// Keys of which everything that was issued says nothing any more.
    pub(crate) fn moot_keys(&self, now: Time) -> BTreeSet<KeyThumbprint> {
        let mut keys: BTreeMap<KeyThumbprint, bool> = BTreeMap::new();
        for one in &self.0 {
            let moot = one.moot(now);
            keys.entry(one.thumbprint()).and_modify(|all| *all &= moot).or_insert(moot);
        }
        keys.into_iter().filter(|(_, moot)| *moot).map(|(key, _)| key).collect()
    }

    /// What a word means: a credential's id, a key's fingerprint, or the name of one person.
    ///
    /// # Errors
    /// Nothing of the name was issued here; several people may be meant.
    pub(crate) fn meant(&self, word: &str) -> Result<BTreeSet<KeyThumbprint>, AppError> {
        let id = CredentialId::parse(word);
        let by_digits: BTreeSet<KeyThumbprint> = self
            .0
            .iter()
            .filter(|one| Some(one.id) == id || one.credential.key.has_fingerprint(word))
            .map(Issued::thumbprint)
            .collect();
        if !by_digits.is_empty() {
            return Ok(by_digits);
        }
        let named: Vec<&Issued> =
            self.0.iter().filter(|one| same_name(one.credential.holder.as_str(), word.trim())).collect();
        let keys: BTreeSet<KeyThumbprint> = named.iter().map(|one| one.thumbprint()).collect();
        let spellings: BTreeSet<String> =
            named.iter().map(|one| one.credential.holder.as_str().to_lowercase()).collect();
        if keys.is_empty() {
            return Err(AppError::not_found(words::CredentialIssuedAuthorityListShows { word: &word }));
        }
        if keys.len() > 1 && spellings.len() > 1 {
            let all: Vec<String> = named
                .iter()
                .map(|one| format!("{} ({}, {})", one.credential.holder, one.credential.roles, one.id))
                .collect();
            return Err(AppError::refused(words::MaySeveralPeopleGiveId {
                word: &word,
                list: all.join("; "),
            }));
        }
        Ok(keys)
    }
}

impl Inner {
    /// Everything that an authority of this home issued; what others issued and was received here is left out: it is not
    /// its own to take back.
    pub(crate) fn all_issued(&self, authority: &[u8; 32]) -> Result<AllIssued, AppError> {
        let rows = self.store.read().credentials()?;
        let mut all: Vec<Issued> = rows
            .iter()
            .filter(|row| row.authority == *authority)
            .filter_map(|row| Credentialed::open(&row.bytes).ok())
            .map(|opened| Issued { id: opened.id, credential: opened.credential })
            .collect();
        all.sort_by(|one, other| {
            let by_name = one.credential.holder.cmp(&other.credential.holder);
            by_name
                .then(other.credential.expires.cmp(&one.credential.expires))
                .then(one.id.0.cmp(&other.id.0))
        });
        Ok(AllIssued(all))
    }

    pub(crate) fn issued_list(&self) -> Result<IssuedListView, AppError> {
        let key = self.authority_key()?;
        let own = key.to_bytes();
        let roster = self.own_roster(&own)?;
        let now = self.now();
        let issued: Vec<IssuedView> =
            self.all_issued(&own)?.0.iter().map(|one| one.view(&roster, now)).collect();
        let mut warnings = Vec::new();
        let warning = roster_warning(trust_words::ThisAuthority.into(), roster.expires, now);
        warnings.extend(warning.map(|warning| warning.say(self.language())));
        if roster.approved.values().all(|approval| approval.withdrawn.is_some()) {
            warnings.push(trust_words::NoProcedureApproved.say(self.language()));
        }
        for one in issued.iter().filter(|one| one.state == CredentialState::RunsOutSoon) {
            warnings.push(
                trust_words::IssuedCredentialRunsOut {
                    holder: &one.holder,
                    roles: roles_said(&one.roles),
                    at: &one.expires.dtg,
                }
                .say(self.language()),
            );
        }
        Ok(IssuedListView {
            name: self.authority_name()?.map(|name| name.to_string()).unwrap_or_default(),
            fingerprint: key.fingerprint(),
            sequence: roster.sequence,
            roster_expires: roster.expires.into(),
            issued,
            approved: self.approvals_of(&roster)?,
            warnings,
        })
    }
}

/// What to say of a roster that ran out or will within two days.
pub(crate) fn roster_warning(whose: Saying, expires: Time, now: Time) -> Option<Saying> {
    let at = expires.dtg();
    if now > expires {
        Some(trust_words::RosterRanOut { whose, at }.into())
    } else if now.plus(ROSTER_SOON) > expires {
        Some(trust_words::RosterRunsOut { whose, at }.into())
    } else {
        None
    }
}

/// Roles as a person calls them.
pub fn roles_said(roles: &[Role]) -> Saying {
    Saying::joined(roles.iter().map(|role| role.saying()), ", ")
}

/// The roles of a typed line: their names, with commas between them.
///
/// # Errors
/// A name that is no role's.
pub fn roles_of(text: &str) -> Result<Vec<Role>, AppError> {
    let roles = Roles::parse(text);
    roles
        .map(|roles| roles.iter().collect())
        .map_err(|word| AppError::bad_input(words::RoleUseInspectorPlannerHookup { word: &word }))
}
