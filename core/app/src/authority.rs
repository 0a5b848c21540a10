//! What an authority does: begin, issue, revoke, sign rosters. Its key lies under a passphrase in a vault of its own.

use serde::Serialize;

use std::collections::BTreeSet;

use super::setup::AUTHORITY_VAULT;
use super::{App, AppError, CodeView, Inner};
use slingseal_judgement::CLOCK_SLACK;
use slingseal_message::envelope::{Kind, unwrap};
use slingseal_message::trust::{
    Authority, Credential, CredentialId, Credentialed, DEFAULT_VALIDITY, KeyRequest, Passphrase, PublicKey,
    Role, Roles, Roster, SecretKey, Vault,
};
use slingseal_store::{AuthorityRow, CredentialRow, RosterRow};
use slingseal_words::{CallSign, Digest, Name, Seconds, Time};

const NAME: &str = "authority.name";
/// How long a roster is relied on where the authority says nothing else: a week without a network.
const ROSTER_LIFE: Seconds = Seconds::days(7);

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
}

/// What a credential is to say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Issue {
    /// The text of the key request.
    pub request: String,
    /// `inspector,planner`.
    pub roles: String,
    /// RFC 3339, a date, or a date-time group.
    pub expires: String,
    /// Another name than the request asks for.
    pub holder: Option<String>,
    /// The longest that a seal may hold, in hours; 24 unless told.
    pub validity_hours: Option<u32>,
}

impl App {
    /// Makes this home an authority: key, card, and a first roster that revokes nobody. It trusts itself.
    ///
    /// # Errors
    /// It is one already; the passphrase is too short.
    pub fn authority_init(&self, name: &str, passphrase: &str) -> Result<AuthorityView, AppError> {
        let mut inner = self.lock();
        if inner.store.read().vault(AUTHORITY_VAULT)?.is_some() {
            return Err(AppError::refused(
                "this home is an authority already; use it, or begin another home",
            ));
        }
        let name = Name::new(name)?;
        let passphrase = Passphrase::choose(passphrase, Passphrase::AUTHORITY)
            .map_err(|error| AppError::bad_input(error.to_string().replace("PIN", "passphrase")))?;
        let key = SecretKey::make(inner.outside.entropy.as_ref());
        let now = inner.now();
        let card = Authority::sign(&name, now, &key);
        let vault = inner.lock_away(&key, &passphrase)?;
        let roster =
            Roster { sequence: 1, issued: now, expires: now.plus(ROSTER_LIFE), revoked: BTreeSet::new() };
        let roster_row = roster_row(&roster, &key, now);
        let row = AuthorityRow {
            key: key.public().to_bytes(),
            name: name.to_string(),
            trusted: true,
            added: now,
            bytes: card,
        };
        inner.store.write(|tx| -> Result<(), AppError> {
            tx.put_vault(AUTHORITY_VAULT, vault.as_bytes())?;
            tx.put_setting(NAME, name.as_str().as_bytes())?;
            tx.put_authority(&row)?;
            tx.put_roster(&roster_row)?;
            Ok(())
        })?;
        inner.authority_view()
    }

    /// The authority's card and newest roster.
    ///
    /// # Errors
    /// This home is no authority.
    pub fn authority(&self) -> Result<AuthorityView, AppError> {
        self.lock().authority_view()
    }

    /// Issues a credential on a key request.
    ///
    /// # Errors
    /// A bad request, role, time or passphrase.
    pub fn issue(&self, issue: &Issue, passphrase: &str) -> Result<CodeView, AppError> {
        let (kind, bytes) = unwrap(&issue.request)?;
        if kind != Kind::KeyRequest {
            return Err(AppError::bad_input(format!(
                "this is a {kind} and not a key request; ask the device for its request"
            )));
        }
        let request = KeyRequest::open(&bytes)?;
        let roles = Roles::parse(&issue.roles).map_err(|word| {
            AppError::bad_input(format!(
                "\"{word}\" is no role; use inspector, planner, hookup, leader, instructor"
            ))
        })?;
        if roles.is_empty() {
            return Err(AppError::bad_input("the credential has no role; name one or several"));
        }
        let mut inner = self.lock();
        let now = inner.now();
        let expires = Time::parse(&issue.expires).map_err(AppError::bad_input)?;
        if expires <= now {
            return Err(AppError::bad_input(format!("{} is past; give a later expiry", expires.dtg())));
        }
        let longest_validity = match issue.validity_hours {
            Some(0) => return Err(AppError::bad_input("a seal must hold at least 1 h; give more hours")),
            Some(hours) => Seconds::hours(hours.into()),
            None => DEFAULT_VALIDITY,
        };
        let holder = issue.holder.as_deref().map(CallSign::new).transpose()?.unwrap_or(request.holder);
        let key = inner.unlock(AUTHORITY_VAULT, passphrase)?;
        let credential = Credential { holder, roles, expires, longest_validity, key: request.key };
        let bytes = credential.issue(&key);
        let row = credential_row(&credential, &bytes, key.public().to_bytes(), now, false);
        inner.store.write(|tx| -> Result<(), AppError> {
            tx.put_credential(&row)?;
            Ok(())
        })?;
        CodeView::of(Kind::Credential, &bytes)
    }

    /// Revokes credentials, by their id or their holder's name, and signs a new roster. With none, signs the same list
    /// anew, to hold longer.
    ///
    /// # Errors
    /// A credential that this authority did not issue; a wrong passphrase.
    pub fn revoke(
        &self,
        which: &[String],
        days: Option<u32>,
        passphrase: &str,
    ) -> Result<AuthorityView, AppError> {
        let mut inner = self.lock();
        let own = inner.authority_key()?.to_bytes();
        let mut revoked: BTreeSet<CredentialId> = BTreeSet::new();
        for name in which {
            revoked.extend(inner.issued_to(name, &own)?);
        }
        let last = inner.own_roster(&own)?;
        let now = inner.now();
        let moot = inner.moot(now)?;
        revoked.extend(last.revoked.difference(&moot));
        if revoked.len() > Roster::MOST {
            return Err(AppError::refused(format!(
                "a roster revokes at most {} credentials; begin a new authority and issue anew",
                Roster::MOST
            )));
        }
        let sequence = last.sequence.checked_add(1).ok_or_else(|| {
            AppError::refused("this authority can sign no further roster; begin a new authority")
        })?;
        let key = inner.unlock(AUTHORITY_VAULT, passphrase)?;
        let life = days.map_or(ROSTER_LIFE, |days| Seconds::days(days.into()));
        let roster = Roster { sequence, issued: now, expires: now.plus(life), revoked };
        let row = roster_row(&roster, &key, now);
        // Before it is kept: an authority whose newest roster fits no code could hand out none.
        if CodeView::of(Kind::Roster, &row.bytes).is_err() {
            return Err(AppError::refused(format!(
                "a roster of {} revoked credentials fits no code; let some expire first, or begin a new authority",
                roster.revoked.len()
            )));
        }
        inner.store.write(|tx| -> Result<(), AppError> {
            tx.put_roster(&row)?;
            Ok(())
        })?;
        inner.authority_view()
    }
}

fn roster_row(roster: &Roster, key: &SecretKey, now: Time) -> RosterRow {
    RosterRow {
        authority: key.public().to_bytes(),
        sequence: roster.sequence.into(),
        issued: roster.issued,
        received: now,
        bytes: roster.sign(key),
    }
}

pub(crate) fn credential_row(
    credential: &Credential,
    bytes: &[u8],
    authority: [u8; 32],
    now: Time,
    own: bool,
) -> CredentialRow {
    CredentialRow {
        digest: Digest::of(bytes),
        authority,
        holder: credential.holder.to_string(),
        roles: credential.roles.to_string(),
        expires: credential.expires,
        own,
        received: now,
        bytes: bytes.to_vec(),
    }
}

impl Inner {
    pub(crate) fn authority_name(&self) -> Result<Option<Name>, AppError> {
        let bytes = self.store.read().setting(NAME)?;
        Ok(bytes.and_then(|bytes| String::from_utf8(bytes).ok()).map(|text| Name::new(&text)).transpose()?)
    }

    /// The public key of the authority that this home is.
    fn authority_key(&self) -> Result<PublicKey, AppError> {
        let none = || AppError::not_found("this home is no authority; begin one with authority init");
        let vault = self.store.read().vault(AUTHORITY_VAULT)?.ok_or_else(none)?;
        Ok(Vault::from_bytes(vault.bytes).public()?)
    }

    fn authority_view(&self) -> Result<AuthorityView, AppError> {
        let none = || AppError::not_found("this home is no authority; begin one with authority init");
        let key = self.authority_key()?;
        let card = self
            .store
            .read()
            .authorities()?
            .into_iter()
            .find(|row| row.key == key.to_bytes())
            .ok_or_else(none)?;
        let roster = self.store.read().roster(&key.to_bytes())?.ok_or_else(none)?;
        Ok(AuthorityView {
            name: card.name,
            fingerprint: key.fingerprint(),
            card: CodeView::of(Kind::Authority, &card.bytes)?,
            roster: CodeView::of(Kind::Roster, &roster.bytes)?,
            sequence: u32::try_from(roster.sequence).unwrap_or(u32::MAX),
        })
    }

    fn own_roster(&self, authority: &[u8; 32]) -> Result<Roster, AppError> {
        let none = || AppError::not_found("this authority has no roster; its home is damaged");
        let row = self.store.read().roster(authority)?.ok_or_else(none)?;
        let key = slingseal_message::trust::PublicKey::from_bytes(authority).map_err(AppError::internal)?;
        Ok(Roster::open(&row.bytes, &key)?)
    }

    /// Credentials whose revocation says nothing any more: they ran out so long ago that no seal under them can still hold,
    /// whatever time was written on it. A planner's is never among them, since a tag has no end.
    fn moot(&self, now: Time) -> Result<BTreeSet<CredentialId>, AppError> {
        let rows = self.store.read().credentials()?;
        let opened = rows.iter().filter_map(|row| Credentialed::open(&row.bytes).ok());
        let moot = opened.filter(|Credentialed { credential, .. }| {
            !credential.roles.has(Role::Planner)
                && now > credential.expires.plus(credential.longest_validity).plus(CLOCK_SLACK)
        });
        Ok(moot.map(|credential| credential.id).collect())
    }

    /// The credentials of a name or an id that this authority issued: it cannot take back another's.
    fn issued_to(&self, name: &str, authority: &[u8; 32]) -> Result<Vec<CredentialId>, AppError> {
        let rows = self.store.read().credentials()?;
        let ids: Vec<(String, CredentialId)> = rows
            .iter()
            .filter(|row| row.authority == *authority)
            .map(|row| (row.holder.clone(), CredentialId::of(&row.bytes)))
            .collect();
        if let Some(id) = CredentialId::parse(name)
            && ids.iter().any(|(_, known)| *known == id)
        {
            return Ok(vec![id]);
        }
        let found: Vec<CredentialId> = ids
            .into_iter()
            .filter(|(holder, _)| holder.eq_ignore_ascii_case(name.trim()))
            .map(|(_, id)| id)
            .collect();
        if found.is_empty() {
            return Err(AppError::not_found(format!(
                "no credential was issued here to \"{name}\"; give its name or id"
            )));
        }
        Ok(found)
    }
}
