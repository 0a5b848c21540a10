//! Keys, credentials, whom this phone trusts, and the authority that it may be.

use slingseal_app::{
    Approve, AuthorityCopy, AuthorityView, CodeView, CopyPartView, Issue, IssuedListView, SetUpView,
    TrustedView,
};

use crate::{Answer, Handheld};

#[uniffi::remote(Record)]
pub struct AuthorityCopy {
    pub name: String,
    pub fingerprint: String,
    pub sequence: u32,
    pub first: CopyPartView,
    pub second: CopyPartView,
}

#[uniffi::remote(Record)]
pub struct CopyPartView {
    pub number: u8,
    pub code: CodeView,
    pub rows: Vec<String>,
}

#[uniffi::export]
impl Handheld {
    /// How far this device is set up.
    ///
    /// # Errors
    /// Storage.
    pub fn set_up(&self) -> Answer<SetUpView> {
        Ok(self.app.set_up()?)
    }

    /// Makes this device's key under a PIN. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// A key is there already; the PIN is too easy; the name is too long.
    pub fn make_key(&self, holder: &str, pin: &str) -> Answer<CodeView> {
        Ok(self.app.make_key(holder, pin)?)
    }

    /// Trusts the authority of a card whose fingerprint was compared by voice.
    ///
    /// # Errors
    /// A card that is torn, or another fingerprint.
    pub fn trust(&self, card: &str, fingerprint: &str) -> Answer<SetUpView> {
        Ok(self.app.trust(card, fingerprint)?)
    }

    /// Trusts the authority of a card beside another of its name, once a person was told so.
    ///
    /// # Errors
    /// A torn card, or another fingerprint.
    pub fn trust_beside(&self, card: &str, fingerprint: &str) -> Answer<SetUpView> {
        Ok(self.app.trust_beside(card, fingerprint)?)
    }

    /// Authorities that are trusted here and whose names can be taken for the one on this card.
    ///
    /// # Errors
    /// A torn card.
    pub fn like_named(&self, card: &str) -> Answer<Vec<TrustedView>> {
        Ok(self.app.like_named(card)?)
    }

    /// Trusts an authority no longer, by its fingerprint or its name.
    ///
    /// # Errors
    /// Nobody of the name is trusted here; several are; it is this home's own.
    pub fn distrust(&self, who: &str) -> Answer<SetUpView> {
        Ok(self.app.distrust(who)?)
    }

    /// Makes this home an authority. Slow.
    ///
    /// # Errors
    /// It is one already; the passphrase is too short.
    pub fn authority_init(
        &self,
        name: &str,
        passphrase: &str,
        approve: Vec<String>,
    ) -> Answer<AuthorityView> {
        Ok(self.app.authority_init(name, passphrase, &approve)?)
    }

    /// Approves procedures by their ids, of those that this home knows, and signs a new roster.
    ///
    /// # Errors
    /// No such procedure; a wrong passphrase.
    pub fn approve(&self, ids: Vec<String>, days: Option<u32>, passphrase: &str) -> Answer<AuthorityView> {
        let which: Vec<Approve> = ids.into_iter().map(Approve::Id).collect();
        Ok(self.app.approve(&which, days, passphrase)?)
    }

    /// Takes approvals back, and signs a new roster.
    ///
    /// # Errors
    /// Nothing of that name is approved; a wrong passphrase.
    pub fn withdraw(&self, which: Vec<String>, days: Option<u32>, passphrase: &str) -> Answer<AuthorityView> {
        Ok(self.app.withdraw(&which, days, passphrase)?)
    }

    /// The authority's card and newest roster.
    ///
    /// # Errors
    /// This home is no authority.
    pub fn authority(&self) -> Answer<AuthorityView> {
        Ok(self.app.authority()?)
    }

    /// Who holds what that this authority issued, and how it stands.
    ///
    /// # Errors
    /// This home is no authority.
    pub fn issued(&self) -> Answer<IssuedListView> {
        Ok(self.app.issued()?)
    }

    /// Issues a credential on a key request. Slow.
    ///
    /// # Errors
    /// A bad request, role, time or passphrase.
    pub fn issue(&self, issue: Issue, passphrase: &str) -> Answer<CodeView> {
        Ok(self.app.issue(&issue, passphrase)?)
    }

    /// Revokes credentials and signs a new roster. Slow.
    ///
    /// # Errors
    /// A credential that this authority did not issue; a wrong passphrase.
    pub fn revoke(&self, which: Vec<String>, days: Option<u32>, passphrase: &str) -> Answer<AuthorityView> {
        Ok(self.app.revoke(&which, days, passphrase)?)
    }

    /// What of this phone's papers runs out soon or has run out, a line each.
    ///
    /// # Errors
    /// Storage.
    pub fn running_out(&self) -> Answer<Vec<String>> {
        Ok(self.app.running_out()?)
    }

    /// Makes a copy of this phone's authority in two parts. Slow.
    ///
    /// # Errors
    /// This home is no authority; a wrong passphrase.
    pub fn copy_authority(&self, passphrase: &str) -> Answer<AuthorityCopy> {
        Ok(self.app.copy_authority(passphrase)?)
    }

    /// The part of an authority's copy that was scanned, or whose rows were typed.
    ///
    /// # Errors
    /// It is none; a row is not as it was written.
    pub fn authority_part(&self, text: &str) -> Answer<CopyPartView> {
        Ok(self.app.authority_part(text)?)
    }

    /// Makes this home the authority of a copy, out of its two parts in either order. Slow.
    ///
    /// # Errors
    /// No copy; a wrong passphrase; its card is not trusted here, or its newest roster has not come.
    pub fn restore_authority(&self, one: &str, other: &str, passphrase: &str) -> Answer<AuthorityView> {
        Ok(self.app.restore_authority(one, other, passphrase)?)
    }
}
