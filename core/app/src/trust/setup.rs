//! The device's own key and credential, and whom it trusts.

use slingseal_catalogue::refusals as words;
use slingseal_catalogue::trust as trust_words;

use super::meant::meant;
use super::vault::{AUTHORITY_VAULT, DEVICE_VAULT};
use super::view::{CredentialView, SetUpStep, SetUpView, SetUpWhat, TrustedView};
use crate::account::change_trust;
use crate::{App, AppError, CodeView, Inner};
use slingseal_message::envelope::{Kind, unwrap};
use slingseal_message::trust::{
    Authority, Credential, CredentialId, Credentialed, KeyRequest, Passphrase, PublicKey, Role, Roles,
    Roster, Signer, Trusted, TrustedAuthority, Vault,
};
use slingseal_store::AuthorityRow;
use slingseal_words::{CallSign, Language, Time};

const HOLDER: &str = "holder";
const REQUEST: &str = "request";

impl App {
    /// How far this device is set up.
    ///
    /// # Errors
    /// Storage.
    pub fn set_up(&self) -> Result<SetUpView, AppError> {
        self.lock().set_up()
    }

    /// Makes this device's key under a PIN, and the request for a credential. A key that was revoked is replaced.
    ///
    /// # Errors
    /// A key is there already and good; the PIN is too easy; the name is too long.
    pub fn make_key(&self, holder: &str, pin: &str) -> Result<CodeView, AppError> {
        self.lock().may_make_key()?;
        let holder = CallSign::new(holder)?;
        let pin = Passphrase::choose(pin, Passphrase::PIN)?;
        let (key, now) = self.new_key();
        let request = KeyRequest::sign(&holder, now, &key);
        let vault = self.lock_away(&key, &pin)?;
        let mut inner = self.lock();
        // Asked again: the home was free while the PIN was stretched.
        inner.may_make_key()?;
        inner.store.write(|tx| -> Result<(), AppError> {
            tx.put_vault(DEVICE_VAULT, vault.as_bytes())?;
            tx.put_setting(HOLDER, holder.as_str().as_bytes())?;
            tx.put_setting(REQUEST, &request)?;
            Ok(())
        })?;
        CodeView::of(Kind::KeyRequest, &request)
    }

    /// Puts this device's key under another PIN.
    ///
    /// # Errors
    /// No key; a wait that is not over; a wrong PIN; a new one that is too easy.
    pub fn change_pin(&self, old: &str, new: &str) -> Result<(), AppError> {
        let new = Passphrase::choose(new, Passphrase::PIN)?;
        let key = self.open_key(DEVICE_VAULT, old)?;
        let vault = self.lock_away(&key, &new)?;
        let mut inner = self.lock();
        inner.store.write(|tx| -> Result<(), AppError> { Ok(tx.put_vault(DEVICE_VAULT, vault.as_bytes())?) })
    }

    /// The key request of this device, made again as it was.
    ///
    /// # Errors
    /// There is no key here yet.
    pub fn key_request(&self) -> Result<CodeView, AppError> {
        let request = self.lock().store.read().setting(REQUEST)?;
        let none = || AppError::not_found(words::DeviceKeyYetMakeOne);
        CodeView::of(Kind::KeyRequest, &request.ok_or_else(none)?)
    }

    /// Trusts the authority of a card, once a person has compared its fingerprint with the authority by voice. Spaces
    /// in the fingerprint do not count.
    ///
    /// # Errors
    /// A card that is torn, or another fingerprint.
    pub fn trust(&self, card: &str, fingerprint: &str) -> Result<SetUpView, AppError> {
        self.trust_card(card, fingerprint, false)
    }

    /// The same where another authority of the name, or of one that can be taken for it, is trusted already: once a person was
    /// told so and knows that both are real.
    ///
    /// # Errors
    /// A card that is torn, or another fingerprint.
    pub fn trust_beside(&self, card: &str, fingerprint: &str) -> Result<SetUpView, AppError> {
        self.trust_card(card, fingerprint, true)
    }

    /// Authorities that are trusted here and whose names can be taken for the one on this card.
    ///
    /// # Errors
    /// A card that is torn.
    pub fn like_named(&self, card: &str) -> Result<Vec<TrustedView>, AppError> {
        let (authority, _) = card_of(card)?;
        let inner = self.lock();
        let trusted = inner.trusted()?;
        let now = inner.now();
        let others = trusted.named(&authority.name).filter(|other| other.key != authority.key);
        Ok(others.map(|other| trusted_view(other, now)).collect())
    }

    fn trust_card(&self, card: &str, fingerprint: &str, beside: bool) -> Result<SetUpView, AppError> {
        let (authority, bytes) = card_of(card)?;
        // The card's own is not told: whoever reads it off the refusal has compared nothing.
        if !authority.key.has_fingerprint(fingerprint) {
            return Err(AppError::refused(words::FingerprintDoesMatchCardHave { name: &authority.name }));
        }
        let mut inner = self.lock();
        let trusted = inner.trusted()?;
        let other = trusted.named(&authority.name).find(|other| other.key != authority.key);
        if let Some(other) = other.filter(|_| !beside && trusted.authority(&authority.key).is_none()) {
            return Err(AppError::refused(words::AnotherAuthorityGoesTrustedAlready {
                name: &authority.name,
                fingerprint: other.key.fingerprint(),
            }));
        }
        let row = AuthorityRow {
            key: authority.key.to_bytes(),
            name: authority.name.to_string(),
            trusted: true,
            added: inner.now(),
            bytes,
        };
        inner.store.write(|tx| change_trust(tx, |tx| Ok(tx.put_authority(&row)?)))?;
        inner.set_up()
    }
}

impl App {
    /// Trusts an authority no longer: by its fingerprint or its name. What was received from it stays as evidence; nothing that
    /// it signed or will sign counts here until its card is trusted again.
    ///
    /// # Errors
    /// Nobody of the name is trusted here; several are; it is this home's own.
    pub fn distrust(&self, who: &str) -> Result<SetUpView, AppError> {
        let mut inner = self.lock();
        let key = inner.trusted_no_longer(who)?.to_bytes();
        let row = inner.store.read().authorities()?.into_iter().find(|row| row.key == key);
        let row = row.ok_or_else(|| AppError::internal("a trusted authority has a row"))?;
        let row = AuthorityRow { trusted: false, ..row };
        inner.store.write(|tx| change_trust(tx, |tx| Ok(tx.put_authority(&row)?)))?;
        inner.set_up()
    }
}

impl Inner {
    /// Who is meant, of those whom this home may trust no longer.
    pub(crate) fn trusted_no_longer(&self, who: &str) -> Result<PublicKey, AppError> {
        let trusted = self.trusted()?;
        let one = meant(&trusted, who)?;
        if self.is_own_authority(&one.key)? {
            return Err(AppError::refused(words::HomeAuthorityItselfWhomIssues));
        }
        Ok(one.key)
    }
}

/// The authority on a card, and the card's bytes.
fn card_of(card: &str) -> Result<(Authority, Vec<u8>), AppError> {
    let (kind, bytes) = unwrap(card)?;
    if kind != Kind::Authority {
        return Err(AppError::bad_input(words::AuthorityCardScanCard { kind: &kind }));
    }
    Ok((Authority::open(&bytes)?, bytes))
}

fn trusted_view(authority: &TrustedAuthority, now: Time) -> TrustedView {
    let roster = authority.roster.as_ref();
    TrustedView {
        name: authority.name.to_string(),
        fingerprint: authority.key.fingerprint(),
        roster: roster.map(|roster| roster.sequence),
        roster_expires: roster.map(|roster| roster.expires.into()),
        roster_expired: roster.is_some_and(|roster| now > roster.expires),
        revoked: roster.map_or(0, Roster::entries),
    }
}

impl Inner {
    /// Whether this home is the authority of this key.
    fn is_own_authority(&self, key: &PublicKey) -> Result<bool, AppError> {
        let vault = self.store.read().vault(AUTHORITY_VAULT)?;
        let own = vault.map(|row| Vault::from_bytes(row.bytes).public()).transpose()?;
        Ok(own == Some(*key))
    }

    /// A device has one key, and another only in the place of one that was revoked.
    fn may_make_key(&self) -> Result<(), AppError> {
        if self.store.read().vault(DEVICE_VAULT)?.is_some()
            && self.own_revocation(&self.trusted()?)?.is_none()
        {
            return Err(AppError::refused(words::DeviceKeyAlreadyShowKey));
        }
        Ok(())
    }

    /// Everyone whom this device trusts, with the newest roster of each.
    pub(crate) fn trusted(&self) -> Result<Trusted, AppError> {
        Ok(self.trust.borrow_mut().of(&self.store.read())?.clone())
    }

    /// The same, this device's own credentials remembered: they are asked of again and again and checked once. What does not pass is
    /// told by whoever asks.
    pub(crate) fn trusted_with_own(&self) -> Result<Trusted, AppError> {
        let read = self.store.read();
        let mut kept = self.trust.borrow_mut();
        let trusted = kept.of(&read)?;
        for row in read.own_credentials()? {
            let _ = trusted.remember(&row.bytes);
        }
        Ok(trusted.clone())
    }

    /// This device's credentials that nobody revoked, verified, with their bytes: the last to expire first.
    pub(super) fn own_credentials(&self, trusted: &Trusted) -> Result<Vec<(Signer, Vec<u8>)>, AppError> {
        let Some(vault) = self.store.read().vault(DEVICE_VAULT)? else { return Ok(Vec::new()) };
        let own = Vault::from_bytes(vault.bytes).public()?;
        let rows = self.store.read().own_credentials()?.into_iter();
        let verified = rows.filter_map(|row| Some((trusted.credential(&row.bytes).ok()?, row.bytes)));
        Ok(verified.filter(|(signer, _)| signer.credential.key == own && !trusted.revoked(signer)).collect())
    }

    /// The one of them to act with in a role: the last to expire that has it; where none has it, or no role is wanted, the last
    /// to expire.
    pub(crate) fn own_credential(
        &self,
        trusted: &Trusted,
        role: Option<Role>,
    ) -> Result<Option<(Signer, Vec<u8>)>, AppError> {
        Ok(self.one_to_act_with(self.own_credentials(trusted)?, role))
    }

    fn one_to_act_with(
        &self,
        mut all: Vec<(Signer, Vec<u8>)>,
        role: Option<Role>,
    ) -> Option<(Signer, Vec<u8>)> {
        all.retain(|(signer, _)| self.may_act_for(&signer.authority.to_bytes()));
        let fitting = role
            .and_then(|role| all.iter().position(|(signer, _)| signer.credential.roles.has(role)))
            .unwrap_or(0);
        if all.is_empty() { None } else { Some(all.swap_remove(fitting)) }
    }

    /// Who revoked this device's key or its credentials, in one line, where none is left to sign with.
    pub(crate) fn own_revocation(&self, trusted: &Trusted) -> Result<Option<String>, AppError> {
        let Some(vault) = self.store.read().vault(DEVICE_VAULT)? else { return Ok(None) };
        if !self.own_credentials(trusted)?.is_empty() {
            return Ok(None);
        }
        let own = Vault::from_bytes(vault.bytes).public()?;
        for row in self.store.read().own_credentials()? {
            let Ok(signer) = trusted.credential(&row.bytes) else { continue };
            if signer.credential.key == own
                && let Some(authority) = trusted.authority(&signer.authority)
                && let Some(roster) = authority.roster.as_ref().filter(|_| trusted.revoked(&signer))
            {
                return Ok(Some(
                    trust_words::OwnCredentialRevoked {
                        holder: &signer.credential.holder,
                        roster: &roster.sequence,
                        authority: &authority.name,
                    }
                    .say(self.language()),
                ));
            }
        }
        Ok(None)
    }

    /// Refuses, with the line that says who revoked it, where this device has no credential left to sign with.
    pub(crate) fn refuse_revoked(&self, trusted: &Trusted) -> Result<(), AppError> {
        match self.own_revocation(trusted)? {
            Some(line) => Err(AppError::refused(words::NothingSignedWouldCountMake { line: &line })),
            None => Ok(()),
        }
    }

    /// The credential to sign with now, in a role.
    pub(crate) fn credential_for(&self, role: Option<Role>) -> Result<(Signer, Vec<u8>), AppError> {
        self.credential_under(&self.trusted_with_own()?, role)
    }

    /// The same under a trust that was read already.
    pub(crate) fn credential_under(
        &self,
        trusted: &Trusted,
        role: Option<Role>,
    ) -> Result<(Signer, Vec<u8>), AppError> {
        let none = || AppError::refused(words::DeviceCredentialShowKeyRequest);
        let all = self.own_credentials(trusted)?;
        if all.is_empty() {
            self.refuse_revoked(trusted)?;
        }
        let (signer, bytes) = self.one_to_act_with(all, role).ok_or_else(none)?;
        let Credential { holder, expires, roles, .. } = &signer.credential;
        if self.now() > *expires {
            return Err(AppError::refused(words::CredentialRanOutAskAuthority {
                holder: &holder,
                expires: expires.dtg(),
            }));
        }
        match role {
            Some(role) if !roles.has(role) => Err(AppError::refused(words::CredentialedSomeoneWhoMustDo {
                holder: &holder,
                roles: &roles,
                role: &role,
            })),
            _ => Ok((signer, bytes)),
        }
    }

    /// Whose device it is.
    pub(crate) fn holder(&self) -> Result<Option<CallSign>, AppError> {
        let bytes = self.store.read().setting(HOLDER)?;
        Ok(bytes
            .and_then(|bytes| String::from_utf8(bytes).ok())
            .map(|text| CallSign::received(&text))
            .transpose()?)
    }

    pub(crate) fn credential_view(
        &self,
        trusted: &Trusted,
        bytes: &[u8],
    ) -> Result<CredentialView, AppError> {
        let opened = Credentialed::open(bytes)?;
        let signer = trusted.credential(bytes).ok();
        let authority = signer.as_ref().and_then(|signer| trusted.authority(&signer.authority));
        Ok(CredentialView {
            id: CredentialId::of(bytes).to_string(),
            holder: opened.credential.holder.to_string(),
            roles: opened.credential.roles.iter().collect(),
            expires: opened.credential.expires.into(),
            expired: self.now() > opened.credential.expires,
            revoked: signer.as_ref().is_some_and(|signer| trusted.revoked(signer)),
            authority: authority.map_or_else(
                || trust_words::NotTrustedHere.say(self.language()),
                |authority| authority.name.to_string(),
            ),
        })
    }

    pub(crate) fn set_up(&self) -> Result<SetUpView, AppError> {
        let trusted = self.trusted()?;
        let vault = self.store.read().vault(DEVICE_VAULT)?;
        let key = vault.as_ref().map(|row| Vault::from_bytes(row.bytes.clone()).public()).transpose()?;
        let own = self.own_credential(&trusted, None)?;
        let credential = own.as_ref().map(|(_, bytes)| self.credential_view(&trusted, bytes)).transpose()?;
        let request = self
            .store
            .read()
            .setting(REQUEST)?
            .map(|bytes| slingseal_message::envelope::wrap(Kind::KeyRequest, &bytes));
        let now = self.now();
        let authorities: Vec<TrustedView> =
            trusted.iter().map(|authority| trusted_view(authority, now)).collect();
        let revoked = self.own_revocation(&trusted)?;
        let language = self.language();
        let steps = steps(&authorities, key.is_some(), credential.as_ref(), revoked.is_some(), language);
        let open = steps.iter().find(|step| !step.done);
        let ready = open.is_none();
        let roles = self.own_roles(&trusted)?;
        let may_seal = ready && roles.has(Role::Inspector);
        let next = match open {
            Some(step) => step.words.clone(),
            None if may_seal => trust_words::Ready.say(language),
            None => trust_words::ReadySealsNothing { roles: &roles }.say(language),
        };
        Ok(SetUpView {
            holder: self.holder()?.map(|holder| holder.to_string()),
            fingerprint: key.map(|key| key.fingerprint()),
            request,
            credential,
            revoked,
            authorities,
            authority: self.authority_name()?.map(|name| name.to_string()),
            pin_locked_until: vault.filter(|row| row.not_before > now).map(|row| row.not_before.into()),
            next,
            steps,
            roles: roles.iter().collect(),
            ready,
            may_seal,
        })
    }

    /// What the credentials that hold let this device do, of every authority together.
    fn own_roles(&self, trusted: &Trusted) -> Result<Roles, AppError> {
        let now = self.now();
        let own = self.own_credentials(trusted)?;
        let holding = own.iter().filter(|(signer, _)| now <= signer.credential.expires);
        let roles: Vec<Role> = holding.flat_map(|(signer, _)| signer.credential.roles.iter()).collect();
        Ok(Roles::of(&roles))
    }
}

/// The four steps that lead to a device that may do what its credential allows, in order.
fn steps(
    authorities: &[TrustedView],
    key: bool,
    credential: Option<&CredentialView>,
    revoked: bool,
    language: Language,
) -> Vec<SetUpStep> {
    let holds = credential.is_some_and(|own| !own.expired && !own.revoked);
    let fresh = !authorities.is_empty()
        && authorities.iter().all(|authority| authority.roster.is_some() && !authority.roster_expired);
    vec![
        SetUpStep {
            what: SetUpWhat::Authority,
            done: !authorities.is_empty(),
            words: trust_words::StepScanCard.say(language),
        },
        SetUpStep { what: SetUpWhat::Key, done: key, words: trust_words::StepMakeKey.say(language) },
        SetUpStep {
            what: SetUpWhat::Credential,
            done: holds,
            words: if revoked {
                trust_words::StepRevoked.say(language)
            } else if credential.is_some() {
                trust_words::StepRunOut.say(language)
            } else {
                trust_words::StepShowRequest.say(language)
            },
        },
        SetUpStep { what: SetUpWhat::Roster, done: fresh, words: trust_words::StepGetRoster.say(language) },
    ]
}
