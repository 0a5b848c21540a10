//! What an authority does: begin, issue, revoke, sign rosters. Its key lies under a passphrase in a vault of its own.

use serde::Serialize;
use slingseal_catalogue::refusals as words;

use std::collections::BTreeSet;

use crate::account::change_trust;
use crate::trust::approvals::approve_edition;
use crate::trust::fault::{ActFault, ActField};
use crate::trust::rosters::{REVOKED_KEYS, ROSTER_LIFE, has_room, roster_row};
use crate::trust::vault::AUTHORITY_VAULT;
use crate::trust::view::{AuthorityView, IssuedListView, IssuedView};
use crate::{App, AppError, CodeView, Inner};
use slingseal_message::envelope::{Kind, unwrap};
use slingseal_message::trust::{
    Authority, Credential, CredentialId, DEFAULT_VALIDITY, KeyRequest, KeyThumbprint, Passphrase, PublicKey,
    Role, Roles, Roster, Vault,
};
use slingseal_store::{AuthorityRow, CredentialRow};
use slingseal_words::{CallSign, Digest, Name, ProcedureId, Seconds, Time};

pub(super) const NAME: &str = "authority.name";

/// What a credential is to say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Issue {
    /// The text of the key request.
    pub request: String,
    /// What its holder may do; one at least.
    #[serde(serialize_with = "crate::view::words")]
    pub roles: Vec<Role>,
    /// RFC 3339, a date, or a date-time group.
    pub expires: String,
    /// Another name than the request asks for.
    pub holder: Option<String>,
    /// The longest that a seal may hold, in hours; 24 unless told.
    pub validity_hours: Option<u32>,
}

impl App {
    /// Makes this home an authority: key, card, and a first roster that revokes nobody and approves the procedures of these
    /// ids, of those that this home knows. It trusts itself.
    ///
    /// # Errors
    /// It is one already; the passphrase is too short or soon guessed; no such procedure.
    pub fn authority_init(
        &self,
        name: &str,
        passphrase: &str,
        approve: &[String],
    ) -> Result<AuthorityView, AppError> {
        self.lock().may_begin_authority()?;
        let name = Name::new(name)?;
        let passphrase = chosen_passphrase(passphrase, &name)?;
        let (key, now) = self.new_key();
        let card = Authority::sign(&name, now, &key);
        let vault = self.lock_away(&key, &passphrase)?;
        let mut inner = self.lock();
        // Asked again: the home was free while the passphrase was stretched.
        inner.may_begin_authority()?;
        let mut roster = Roster::new(1, now, now.plus(ROSTER_LIFE));
        for id in approve {
            approve_edition(&mut roster, &inner.procedure(&ProcedureId::new(id)?)?, now)?;
        }
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
            change_trust(tx, |tx| {
                tx.put_authority(&row)?;
                tx.put_roster(&roster_row)?;
                Ok(())
            })
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

    /// Who holds what that this authority issued, and how it stands.
    ///
    /// # Errors
    /// This home is no authority.
    pub fn issued(&self) -> Result<IssuedListView, AppError> {
        self.lock().issued_list()
    }

    /// A credential that this authority issued, by its text: whose it is and what it allows.
    ///
    /// # Errors
    /// This home is no authority; a text that is no credential of its own.
    pub fn issued_as(&self, text: &str) -> Result<IssuedView, AppError> {
        let (_, bytes) = unwrap(text)?;
        let id = CredentialId::of(&bytes).to_string();
        let found = self.issued()?.issued.into_iter().find(|one| one.id == id);
        found.ok_or_else(|| AppError::not_found(words::AuthorityIssuedNoSuchCredential))
    }

    /// Issues a credential on a key request.
    ///
    /// # Errors
    /// A bad request, role, time or passphrase; a key that was revoked.
    pub fn issue(&self, issue: &Issue, passphrase: &str) -> Result<CodeView, AppError> {
        // What can be told without the passphrase is told first: it costs no try.
        let terms = self.lock().terms(issue)?;
        let key = self.open_key(AUTHORITY_VAULT, passphrase)?;
        let mut inner = self.lock();
        inner.not_revoked(&terms.holder, &terms.request.key)?;
        let Terms { request, holder, roles, expires, longest_validity } = terms;
        let credential = Credential { holder, roles, expires, longest_validity, key: request.key };
        let now = inner.now();
        let bytes = credential.issue(&key);
        // A credential says nothing of when it was issued: the same terms are the same bytes, with the id that was revoked.
        if inner.own_roster(&key.public().to_bytes())?.revoked.contains(&CredentialId::of(&bytes)) {
            return Err(AppError::refused(words::CredentialJustTheseTermsIssued {
                holder: &credential.holder,
            }));
        }
        let row = credential_row(&credential, &bytes, key.public().to_bytes(), now, false);
        inner.store.write(|tx| -> Result<(), AppError> {
            tx.put_credential(&row)?;
            Ok(())
        })?;
        CodeView::of(Kind::Credential, &bytes)
    }

    /// Revokes keys, by a credential's id, a key's fingerprint or a holder's name, with everything that was or will be issued to
    /// them, and signs a new roster. With none, signs the same list anew, to hold longer.
    ///
    /// # Errors
    /// A credential that this authority did not issue; a name that may be several people's; a wrong passphrase.
    pub fn revoke(
        &self,
        which: &[String],
        days: Option<u32>,
        passphrase: &str,
    ) -> Result<AuthorityView, AppError> {
        // What can be told without the passphrase is told first: it costs no try.
        self.lock().roster_without(which, days)?;
        let key = self.open_key(AUTHORITY_VAULT, passphrase)?;
        let mut inner = self.lock();
        let NextRoster { roster, taken } = inner.roster_without(which, days)?;
        inner.sign_roster(&roster, &key)?;
        Ok(AuthorityView { taken, ..inner.authority_view()? })
    }
}

/// What a credential is to say, each part as it must be.
pub(crate) struct Terms {
    pub(crate) request: KeyRequest,
    pub(crate) holder: CallSign,
    pub(crate) roles: Roles,
    pub(crate) expires: Time,
    pub(crate) longest_validity: Seconds,
}

/// A roster that is to be signed, and the credentials that it takes back anew.
pub(crate) struct NextRoster {
    roster: Roster,
    pub(crate) taken: Vec<IssuedView>,
}

impl Inner {
    /// A home is one authority.
    pub(super) fn may_begin_authority(&self) -> Result<(), AppError> {
        if self.store.read().vault(AUTHORITY_VAULT)?.is_some() {
            return Err(AppError::refused(words::HomeAuthorityAlreadyUseBegin));
        }
        Ok(())
    }

    /// What a credential would say; the first part that is wrong.
    pub(crate) fn terms(&self, issue: &Issue) -> Result<Terms, ActFault> {
        let at_request = || ActFault::at(ActField::Request);
        let (kind, bytes) = unwrap(&issue.request).map_err(|error| at_request()(error.into()))?;
        if kind != Kind::KeyRequest {
            let wrong = AppError::bad_input(words::KeyRequestAskDeviceRequest { kind: &kind });
            return Err(at_request()(wrong));
        }
        let request = KeyRequest::open(&bytes).map_err(|error| at_request()(error.into()))?;
        if issue.roles.is_empty() {
            let none = AppError::bad_input(words::CredentialRoleNameOneSeveral);
            return Err(ActFault::at(ActField::Roles)(none));
        }
        let roles = Roles::of(&issue.roles);
        let expires = Time::parse(&issue.expires)
            .map_err(AppError::bad_input)
            .and_then(|expires| {
                let past = || AppError::bad_input(words::ExpiryIsPast { expires: expires.dtg() });
                Some(expires).filter(|expires| *expires > self.now()).ok_or_else(past)
            })
            .map_err(ActFault::at(ActField::Expires))?;
        let longest_validity = match issue.validity_hours {
            Some(0) => {
                let none = AppError::bad_input(words::SealMustHoldLeastGive);
                return Err(ActFault::at(ActField::Validity)(none));
            }
            Some(hours) => Seconds::hours(hours.into()),
            None => DEFAULT_VALIDITY,
        };
        let named = issue.holder.as_deref().map(CallSign::new).transpose();
        let named = named.map_err(|error| ActFault::at(ActField::Holder)(error.into()))?;
        let holder = named.unwrap_or_else(|| request.holder.clone());
        self.not_revoked(&holder, &request.key).map_err(at_request())?;
        Ok(Terms { request, holder, roles, expires, longest_validity })
    }

    /// The newest roster, less whom the words mean.
    pub(crate) fn roster_without(&self, which: &[String], days: Option<u32>) -> Result<NextRoster, AppError> {
        let own = self.authority_key()?.to_bytes();
        let issued = self.all_issued(&own)?;
        let mut taken: BTreeSet<KeyThumbprint> = BTreeSet::new();
        for word in which {
            taken.extend(issued.meant(word)?);
        }
        let now = self.now();
        let mut roster = self.next_roster(days)?;
        let taken_now = issued.views_of(&taken, &roster, now);
        let (moot, moot_keys) = (issued.moot_ids(now), issued.moot_keys(now));
        roster.revoked.retain(|id| !moot.contains(id));
        roster.keys.retain(|key, _| !moot_keys.contains(key));
        for key in &taken {
            roster.keys.entry(*key).or_insert(now);
        }
        has_room(&roster)?;
        Ok(NextRoster { roster, taken: taken_now })
    }
}

/// A passphrase that a copied disk does not give up: long, and of the highest score of the estimator of D. L. Wheeler ("zxcvbn",
/// USENIX Security 2016), which stands for 10^10 guesses and more. Each guess costs argon2id on top.
fn chosen_passphrase(text: &str, name: &Name) -> Result<Passphrase, AppError> {
    let passphrase = Passphrase::choose(text, Passphrase::AUTHORITY)
        .map_err(|error| AppError::bad_input(error.to_string().replace("PIN", "passphrase")))?;
    let judged = zxcvbn::zxcvbn(text, &[name.as_str(), "slingseal"]);
    if judged.score() < zxcvbn::Score::Four {
        let why = judged.feedback().and_then(|feedback| feedback.warning()).map(|why| format!(": {why}"));
        return Err(AppError::bad_input(words::PassphraseSoonGuessedUseFour {
            why: why.unwrap_or_default().trim_end_matches('.'),
        }));
    }
    Ok(passphrase)
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
        Ok(bytes
            .and_then(|bytes| String::from_utf8(bytes).ok())
            .map(|text| Name::received(&text))
            .transpose()?)
    }

    /// The public key of the authority that this home is.
    pub(crate) fn authority_key(&self) -> Result<PublicKey, AppError> {
        let none = || AppError::not_found(words::HomeAuthorityBeginOneAuthority);
        let vault = self.store.read().vault(AUTHORITY_VAULT)?.ok_or_else(none)?;
        Ok(Vault::from_bytes(vault.bytes).public()?)
    }

    pub(super) fn authority_view(&self) -> Result<AuthorityView, AppError> {
        let none = || AppError::not_found(words::HomeAuthorityBeginOneAuthority);
        let key = self.authority_key()?;
        let card = self
            .store
            .read()
            .authorities()?
            .into_iter()
            .find(|row| row.key == key.to_bytes())
            .ok_or_else(none)?;
        let roster = self.store.read().roster(&key.to_bytes())?.ok_or_else(none)?;
        let opened = Roster::open(&roster.bytes, &key)?;
        Ok(AuthorityView {
            name: card.name,
            fingerprint: key.fingerprint(),
            card: CodeView::of(Kind::Authority, &card.bytes)?,
            roster: CodeView::of(Roster::kind(&roster.bytes)?, &roster.bytes)?,
            sequence: opened.sequence,
            roster_expires: opened.expires.into(),
            taken: Vec::new(),
            changed: Vec::new(),
        })
    }

    pub(crate) fn own_roster(&self, authority: &[u8; 32]) -> Result<Roster, AppError> {
        let none = || AppError::not_found(words::AuthorityRosterHomeDamaged);
        let row = self.store.read().roster(authority)?.ok_or_else(none)?;
        let key = slingseal_message::trust::PublicKey::from_bytes(authority).map_err(AppError::internal)?;
        Ok(Roster::open(&row.bytes, &key)?)
    }

    /// Every key that was ever revoked here.
    pub(super) fn keys_ever_revoked(&self) -> Result<BTreeSet<KeyThumbprint>, AppError> {
        let bytes = self.store.read().setting(REVOKED_KEYS)?.unwrap_or_default();
        let (keys, _) = bytes.as_chunks::<8>();
        Ok(keys.iter().map(|key| KeyThumbprint(*key)).collect())
    }

    /// Refuses to issue to a key that was revoked: whoever has it may have it still.
    fn not_revoked(&self, holder: &CallSign, key: &PublicKey) -> Result<(), AppError> {
        let own = self.authority_key()?.to_bytes();
        let thumbprint = key.thumbprint();
        if self.own_roster(&own)?.keys.contains_key(&thumbprint)
            || self.keys_ever_revoked()?.contains(&thumbprint)
        {
            return Err(AppError::refused(words::KeyRevokedHaveDeviceMake {
                holder: &holder,
                fingerprint: key.fingerprint(),
            }));
        }
        Ok(())
    }
}
