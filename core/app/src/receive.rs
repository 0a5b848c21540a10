//! Taking in whatever a code says: one door for everything that travels.

use serde::Serialize;

use super::authority::credential_row;
use super::setup::DEVICE_VAULT;
use super::{App, AppError, CredentialView, Inner, SetUpView, TagView, VerdictView};
use slingseal_message::envelope::{Kind, unwrap, wrap};
use slingseal_message::seal::Void;
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::{Authority, Credentialed, KeyRequest, Roster, Vault};
use slingseal_store::{RosterRow, Standing, VoidRow};
use slingseal_words::Digest;

/// What was taken in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Received {
    /// An authority's card: compare the fingerprint by voice, then trust it.
    Authority {
        /// What it calls itself.
        name: String,
        /// What to compare.
        fingerprint: String,
        /// Whether this device trusts it already.
        trusted: bool,
        /// The card, to be given to `trust`.
        card: String,
    },
    /// A device's request, for an authority to issue on.
    KeyRequest {
        /// Who holds the device.
        holder: String,
        /// Its key's fingerprint.
        fingerprint: String,
        /// The request, to be given to `issue`.
        request: String,
    },
    /// A credential: this device's own, or one to be known.
    Credential {
        /// What it says.
        credential: CredentialView,
        /// Whether it is this device's own.
        own: bool,
        /// How the device is set up now.
        set_up: Box<SetUpView>,
    },
    /// A roster.
    Roster {
        /// Whose.
        authority: String,
        /// Its sequence.
        sequence: u32,
        /// How many it revokes.
        revoked: u32,
        /// Whether it was newer than what was here.
        new: bool,
    },
    /// A tag: now known here.
    Tag(Box<TagView>),
    /// A seal: now known here, with the verdict on it.
    Seal(Box<VerdictView>),
    /// A void: the seal holds no more here.
    Void {
        /// Of which load.
        load: String,
        /// Who signed it.
        by: String,
        /// Why.
        cause: String,
        /// Whether it is new here.
        new: bool,
    },
    /// A key or a result of an examination: training, and no inspection.
    Examination {
        /// `examination key` or `examination result`.
        what: String,
        /// What it goes by.
        id: String,
        /// On which load.
        load: String,
        /// Who signed it.
        by: String,
        /// Whether it is new here.
        new: bool,
    },
}

impl App {
    /// Takes in a text of any kind. Nothing that is not signed by someone trusted changes what this device believes.
    ///
    /// # Errors
    /// A text that is none of ours, damaged, forged, or of someone whom this device does not trust.
    pub fn receive(&self, text: &str) -> Result<Received, AppError> {
        let (kind, bytes) = unwrap(text)?;
        let mut inner = self.lock();
        match kind {
            Kind::Authority => inner.receive_authority(&bytes),
            Kind::KeyRequest => {
                let request = KeyRequest::open(&bytes)?;
                Ok(Received::KeyRequest {
                    holder: request.holder.to_string(),
                    fingerprint: request.key.fingerprint(),
                    request: wrap(Kind::KeyRequest, &bytes),
                })
            }
            Kind::Credential => inner.receive_credential(&bytes),
            Kind::Roster => inner.receive_roster(&bytes),
            Kind::Void => inner.receive_void(&bytes),
            Kind::Tag => {
                let received = ReceivedTag::open(&bytes)?;
                inner.keep_tag(&received.tag, &bytes, false)?;
                Ok(Received::Tag(Box::new(inner.tag_view(&bytes)?)))
            }
            Kind::Seal => {
                let verdict = inner.check(Some(&bytes), None)?;
                inner.keep_seal(&bytes, &verdict)?;
                Ok(Received::Seal(Box::new(verdict)))
            }
            Kind::BundleFrame | Kind::Have => {
                Err(AppError::bad_input("this is a frame of a moving code; read it with bundle read"))
            }
            Kind::ExamKey | Kind::ExamResult => {
                drop(inner);
                self.receive_exam(kind, &bytes)
            }
        }
    }
}

/// Refuses a roster of which another text with the same number is known: neither is the newer one, and taking either for it
/// could lose a revocation.
pub(crate) fn not_told_otherwise(
    read: &slingseal_store::Reader<'_>,
    row: &RosterRow,
) -> Result<(), AppError> {
    match read.roster(&row.authority)? {
        Some(known) if known.sequence == row.sequence && known.bytes != row.bytes => {
            Err(AppError::refused(format!(
                "another roster number {} of this authority is known here: its home was copied or put back; have it revoke \
                 again whom it revoked, under a higher number",
                row.sequence
            )))
        }
        _ => Ok(()),
    }
}

impl Inner {
    fn receive_authority(&mut self, bytes: &[u8]) -> Result<Received, AppError> {
        let authority = Authority::open(bytes)?;
        Ok(Received::Authority {
            trusted: self.trusted()?.authority(&authority.key).is_some(),
            name: authority.name.to_string(),
            fingerprint: authority.key.fingerprint(),
            card: wrap(Kind::Authority, bytes),
        })
    }

    fn receive_credential(&mut self, bytes: &[u8]) -> Result<Received, AppError> {
        let trusted = self.trusted()?;
        let signer = trusted.credential(bytes)?;
        let opened = Credentialed::open(bytes)?;
        let vault = self.store.read().vault(DEVICE_VAULT)?;
        let own_key = vault.map(|row| Vault::from_bytes(row.bytes).public()).transpose()?;
        let own = own_key == Some(opened.credential.key);
        let now = self.now();
        let row = credential_row(&opened.credential, bytes, signer.authority.to_bytes(), now, own);
        self.store.write(|tx| -> Result<(), AppError> {
            tx.put_credential(&row)?;
            Ok(())
        })?;
        let credential = self.credential_view(&trusted, bytes)?;
        Ok(Received::Credential { credential, own, set_up: Box::new(self.set_up()?) })
    }

    pub(crate) fn receive_roster(&mut self, bytes: &[u8]) -> Result<Received, AppError> {
        let id = Roster::authority(bytes)?;
        let trusted = self.trusted()?;
        let mut last = AppError::refused(
            "this roster comes from an authority that this device does not trust; add its card first",
        );
        for authority in trusted.with_id(id) {
            let roster = match Roster::open(bytes, &authority.key) {
                Ok(roster) => roster,
                Err(error) => {
                    last = error.into();
                    continue;
                }
            };
            let row = RosterRow {
                authority: authority.key.to_bytes(),
                sequence: roster.sequence.into(),
                issued: roster.issued,
                received: self.now(),
                bytes: bytes.to_vec(),
            };
            let new = self.store.write(|tx| -> Result<bool, AppError> {
                not_told_otherwise(tx, &row)?;
                Ok(tx.put_roster(&row)?)
            })?;
            return Ok(Received::Roster {
                authority: authority.name.to_string(),
                sequence: roster.sequence,
                revoked: u32::try_from(roster.revoked.len()).unwrap_or(u32::MAX),
                new,
            });
        }
        Err(last)
    }

    pub(crate) fn receive_void(&mut self, bytes: &[u8]) -> Result<Received, AppError> {
        let (void, message) = Void::open(bytes)?;
        let signer = self.trusted()?.signer(Kind::Void, &message)?;
        if void.issued > signer.credential.expires {
            let holder = signer.credential.holder;
            return Err(AppError::refused(format!(
                "the credential of {holder} had run out when this void was signed; it does not count"
            )));
        }
        let row = VoidRow {
            digest: Digest::of(bytes),
            record: void.record,
            load: void.load.to_string(),
            issued: void.issued,
            received: self.now(),
            bytes: bytes.to_vec(),
        };
        let new = self.store.write(|tx| -> Result<bool, AppError> {
            let new = tx.put_void(&row)?;
            tx.set_standing(void.record, Standing::Voided)?;
            Ok(new)
        })?;
        Ok(Received::Void {
            load: void.load.to_string(),
            by: signer.credential.holder.to_string(),
            cause: void.cause.say(self.language()).to_owned(),
            new,
        })
    }
}
