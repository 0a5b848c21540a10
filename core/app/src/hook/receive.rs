//! Taking in whatever a code says: one door for everything that travels.

use serde::Serialize;
use slingseal_catalogue::refusals as words;

use crate::account::strays::Origin;
use crate::hook::admission::Admission;
use crate::trust::vault::DEVICE_VAULT;
use crate::walks::record::subject_of_kind;
use crate::{
    App, AppError, ClosingView, CodeKind, CredentialView, Inner, MovementView, SetUpView, Stamp, TagView,
    VerdictView,
};
use slingseal_catalogue::check_page;
use slingseal_judgement::is_of_a_load;
use slingseal_message::envelope::{Kind, unwrap, wrap};
use slingseal_message::seal::ReceivedSeal;
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::{Authority, KeyRequest, Roster, Vault};
use slingseal_walk::procedure::Subject;
use slingseal_words::{Digest, LoadNumber};

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
        /// How many credentials and keys it revokes.
        revoked: u32,
        /// How many editions of procedures it approves.
        approved: u32,
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
    /// A report of what became of a load.
    Movement {
        /// The report.
        report: Box<MovementView>,
        /// Whether it is new here.
        new: bool,
    },
    /// What a leader handed up.
    Closing {
        /// The statement.
        statement: Box<ClosingView>,
        /// Whether it is new here.
        new: bool,
    },
    /// An inspection of what is no load: now known here.
    Inspection {
        /// What was inspected.
        #[serde(serialize_with = "crate::view::word")]
        subject: Subject,
        /// Serial number, aircraft, zone or load number.
        name: String,
        /// Who inspected.
        by: String,
        /// Whether it was found fit; a piece that was not is withdrawn.
        fit: bool,
        /// Until when, where that was said.
        fit_until: Option<Stamp>,
        /// Whether it is new here.
        new: bool,
    },
    /// A key or a result of an examination: training, and no inspection.
    Examination {
        /// A key or a result.
        #[serde(serialize_with = "crate::view::word")]
        what: CodeKind,
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
        let (kind, bytes) = match unwrap(text) {
            Ok((Kind::Seal, _)) => return Ok(Received::Seal(Box::new(self.check(Some(text), None)?))),
            Ok(known) => known,
            // Nobody may take a damaged seal or tag for one that was merely not received.
            Err(_) if is_of_a_load(text) => {
                return Ok(Received::Seal(Box::new(self.check_all(&[text.to_owned()])?)));
            }
            Err(error) => return Err(error.into()),
        };
        let mut inner = self.lock();
        match kind {
            Kind::Authority => inner.receive_authority(&bytes),
            Kind::KeyRequest => {
                let request = KeyRequest::open(&bytes)?;
                inner.admit(|_| Ok(()))?;
                Ok(Received::KeyRequest {
                    holder: request.holder.to_string(),
                    fingerprint: request.key.fingerprint(),
                    request: wrap(Kind::KeyRequest, &bytes),
                })
            }
            Kind::Credential => inner.receive_credential(&bytes),
            Kind::Roster | Kind::RosterOfKeys if Roster::kind(&bytes)? != kind => {
                Err(slingseal_message::envelope::TextError::Damaged(kind).into())
            }
            Kind::Roster | Kind::RosterOfKeys => {
                let admitted = inner.admit(|admission| admission.roster(&bytes))?;
                Ok(Received::Roster {
                    authority: admitted.authority.to_string(),
                    sequence: admitted.roster.sequence,
                    revoked: admitted.roster.entries(),
                    approved: admitted.roster.approvals(),
                    new: admitted.new,
                })
            }
            Kind::Void => inner.receive_void(&bytes),
            Kind::Movement => {
                let (report, new) = inner.receive_movement(&bytes)?;
                Ok(Received::Movement { report: Box::new(report), new })
            }
            Kind::Closing => {
                let (statement, new) = inner.receive_closing(&bytes)?;
                Ok(Received::Closing { statement: Box::new(statement), new })
            }
            Kind::Tag | Kind::TagWithBasis => {
                let tag = inner.admit(|admission| {
                    let tag = admission.open(kind, &bytes)?;
                    admission.tag(&tag, false, Origin::Elsewhere)?;
                    Ok(tag)
                })?;
                Ok(Received::Tag(Box::new(inner.tag_view_of(&tag)?)))
            }
            Kind::Inspection => inner.receive_inspection(&bytes),
            Kind::Seal => Err(AppError::internal("a seal was judged above")),
            Kind::BundleFrame | Kind::Have => Err(AppError::bad_input(words::FrameMovingCodeReadBundle)),
            Kind::CheckPage => Err(AppError::bad_input(check_page::ContentsOpenFile)),
            Kind::ExamKey | Kind::ExamResult => {
                inner.admit(|_| Ok(()))?;
                drop(inner);
                let paper = self.receive_exam(kind, &bytes)?;
                Ok(Received::Examination {
                    what: kind.into(),
                    id: paper.id.to_string(),
                    load: paper.load.to_string(),
                    by: paper.by.to_string(),
                    new: paper.new,
                })
            }
        }
    }
}

impl App {
    /// Takes in all that came at once, as a picture, a file or a line of arguments holds it: first what is no seal, each for itself;
    /// then the seals together with the tags of their loads. So a void, a roster or a refusal that stands behind a seal is known
    /// when that seal is judged, and what cannot be taken keeps nothing else out. One answer for each in this order, and one for all
    /// seals together.
    pub fn receive_all(&self, texts: &[String]) -> Vec<Result<Received, AppError>> {
        let front =
            |text: &String| text.split_once(':').is_some_and(|(front, _)| front == Kind::Seal.front());
        let (seals, others): (Vec<&String>, Vec<&String>) = texts.iter().partition(|text| front(text));
        let mut answers: Vec<_> = others.iter().map(|text| self.receive(text)).collect();
        if seals.is_empty() {
            return answers;
        }
        let loads: Vec<LoadNumber> = seals.iter().filter_map(|text| load_of(text)).collect();
        let of_a_seal = |text: &&&String| load_of(text).is_some_and(|load| loads.contains(&load));
        let together: Vec<String> =
            seals.iter().chain(others.iter().filter(of_a_seal)).map(|text| (*text).clone()).collect();
        answers.push(self.check_all(&together).map(|verdict| Received::Seal(Box::new(verdict))));
        answers
    }
}

/// The load of a seal or a tag that can be read.
fn load_of(text: &str) -> Option<LoadNumber> {
    match unwrap(text).ok()? {
        (Kind::Seal, bytes) => Some(ReceivedSeal::open(&bytes).ok()?.seal.load),
        (Kind::Tag | Kind::TagWithBasis, bytes) => Some(ReceivedTag::open(&bytes).ok()?.tag.load),
        _ => None,
    }
}

impl Inner {
    fn receive_inspection(&mut self, bytes: &[u8]) -> Result<Received, AppError> {
        let new = self.admit(|admission| admission.inspection(bytes, None))?;
        let row = self.store.read().inspection(Digest::of(bytes))?;
        let row = row.ok_or_else(|| AppError::internal("an inspection that was kept has a row"))?;
        Ok(Received::Inspection {
            subject: subject_of_kind(row.subject),
            name: row.name,
            by: row.inspector,
            fit: row.fit,
            fit_until: row.fit_until.map(Stamp::from),
            new,
        })
    }

    /// Lets words in: one transaction, at the end of which their loads are judged, and the time of it is written down.
    pub(crate) fn admit<T>(
        &mut self,
        act: impl FnOnce(&mut Admission<'_, '_>) -> Result<T, AppError>,
    ) -> Result<T, AppError> {
        let (now, language) = (self.now(), self.language());
        self.store.write(|tx| {
            let mut admission = Admission::begin(tx, now, language)?;
            let answer = act(&mut admission)?;
            admission.finish()?;
            Ok(answer)
        })
    }

    fn receive_authority(&mut self, bytes: &[u8]) -> Result<Received, AppError> {
        let authority = Authority::open(bytes)?;
        self.admit(|_| Ok(()))?;
        Ok(Received::Authority {
            trusted: self.trusted()?.authority(&authority.key).is_some(),
            name: authority.name.to_string(),
            fingerprint: authority.key.fingerprint(),
            card: wrap(Kind::Authority, bytes),
        })
    }

    fn receive_credential(&mut self, bytes: &[u8]) -> Result<Received, AppError> {
        let vault = self.store.read().vault(DEVICE_VAULT)?;
        let own_key = vault.map(|row| Vault::from_bytes(row.bytes).public()).transpose()?;
        let (_, own, _) = self.admit(|admission| admission.credential(bytes, own_key))?;
        let credential = self.credential_view(&self.trusted()?, bytes)?;
        Ok(Received::Credential { credential, own, set_up: Box::new(self.set_up()?) })
    }

    pub(crate) fn receive_void(&mut self, bytes: &[u8]) -> Result<Received, AppError> {
        let (word, new) = self.admit(|admission| {
            let word = admission.open(Kind::Void, bytes)?;
            let new = admission.void(&word)?;
            Ok((word, new))
        })?;
        let cause = word.void().map(|void| void.cause.say(self.language())).unwrap_or_default();
        let by = word.signer().map(|signer| signer.credential.holder.to_string()).unwrap_or_default();
        Ok(Received::Void { load: word.load().to_string(), by, cause: cause.to_owned(), new })
    }
}
