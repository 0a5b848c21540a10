//! From a decided inspection of what is no load to the inspector's signed word on it, and what is kept of such words.

use serde::Serialize;
use slingseal_catalogue::refusals as words;

use crate::account::open_inspection;
use crate::hook::admission::Admission;
use crate::trust::vault::DEVICE_VAULT;
use crate::view::hex;
use crate::walks::entries::{SIGNED, SUBJECT, walk_id};
use crate::walks::record::{entry_digest, subject_of_kind, to_outcome};
use crate::{App, AppError, CodeView, Inner, Stamp};
use slingseal_journal::{NewEntry, WalkId};
use slingseal_message::envelope::Kind;
use slingseal_message::seal::{InspectedSubject, Outcome, SignedInspection};
use slingseal_message::trust::{Edition, Role, SecretKey};
use slingseal_store::InspectionRow;
use slingseal_walk::procedure::Subject;
use slingseal_walk::walk::{FindingState, Stage, Walk};
use slingseal_words::{Digest, Note, Time, same_person};

/// A signed inspection of what is no load.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct InspectionView {
    /// What it goes by: SHA-256 of its bytes.
    pub digest: String,
    /// What was inspected.
    #[serde(serialize_with = "crate::view::word")]
    pub subject: Subject,
    /// Serial number, aircraft, zone or load number.
    pub name: String,
    /// The procedure's id.
    pub procedure: String,
    /// Its edition.
    pub version: u32,
    /// Who inspected.
    pub inspector: String,
    /// Whether it was found fit; a piece that was not is withdrawn.
    pub fit: bool,
    /// When it was signed.
    pub issued: Stamp,
    /// Until when it is fit, where that was said.
    pub fit_until: Option<Stamp>,
    /// What was found, where it is not fit.
    pub why: Option<String>,
    /// The digest of the full record.
    pub record: String,
    /// Whether the full record is here.
    pub whole: bool,
    /// Its code.
    pub code: CodeView,
}

impl App {
    /// Signs a decided inspection of what is no load: the record is written and the inspector's key signs, in one transaction. It
    /// travels with bundles and moving codes; a piece is then fit until, or withdrawn, for whoever hears of it.
    ///
    /// # Errors
    /// A walk of a load, or one that is not decided, or signed already; no inspector's credential; a wrong PIN.
    pub fn sign_inspection(&self, walk: &str, pin: &str) -> Result<InspectionView, AppError> {
        let id = walk_id(walk)?;
        // What can be told without the PIN is told first: it costs no try.
        self.lock().decided_subject(id)?;
        let key = self.open_key(DEVICE_VAULT, pin)?;
        self.lock().sign_inspection(id, &key)
    }

    /// A signed inspection, to be shown again.
    ///
    /// # Errors
    /// No such inspection here.
    pub fn inspection(&self, digest: &str) -> Result<InspectionView, AppError> {
        let none = || AppError::not_found(words::InspectionNotHere);
        let inner = self.lock();
        let digest = Digest::from_hex(digest.trim()).ok_or_else(none)?;
        let row = inner.store.read().inspection(digest)?.ok_or_else(none)?;
        inner.inspection_view(&row)
    }
}

/// A decided inspection of what is no load, and the credential that may sign it.
struct Decided {
    walk: Walk,
    subject: InspectedSubject,
    outcome: Outcome,
    at: Time,
    credential: Vec<u8>,
}

impl Inner {
    fn decided_subject(&mut self, id: WalkId) -> Result<Decided, AppError> {
        let walk = self.walk_of(id)?;
        let subject = match walk.ground().plan.subject {
            Subject::Load => {
                return Err(AppError::refused(words::InspectionOfLoad));
            }
            Subject::Piece => InspectedSubject::Piece,
            Subject::Aircraft => InspectedSubject::Aircraft,
            Subject::Zone => InspectedSubject::Zone,
            Subject::Handling => InspectedSubject::Handling,
        };
        let Stage::Decided { outcome, at, .. } = walk.stage() else {
            return Err(AppError::refused(words::InspectionNotDecided));
        };
        let (outcome, at) = (to_outcome(*outcome), *at);
        if self.signed_word(id)?.is_some() {
            return Err(AppError::refused(words::InspectionSignedAlready));
        }
        let (signer, credential) = self.credential_for(Some(Role::Inspector))?;
        let inspector = &walk.ground().inspector;
        if !same_person(&signer.credential.holder, inspector) {
            return Err(AppError::refused(words::InspectionOtherHolder {
                inspector,
                holder: &signer.credential.holder,
            }));
        }
        Ok(Decided { walk, subject, outcome, at, credential })
    }

    /// The digest of the signed word on an inspection of this device, where it is signed.
    pub(crate) fn signed_word(&self, id: WalkId) -> Result<Option<Digest>, AppError> {
        let entries = self.store.read().entries_of(id)?;
        let signed = entries.iter().find(|entry| entry.kind == SIGNED);
        Ok(signed.and_then(|entry| Digest::from_slice(&entry.body)))
    }

    fn sign_inspection(&mut self, id: WalkId, key: &SecretKey) -> Result<InspectionView, AppError> {
        let Decided { walk, subject, outcome, at, credential } = self.decided_subject(id)?;
        let entries = self.store.read().entries_of(id)?;
        let ground = entries
            .iter()
            .find(|entry| entry.kind == SUBJECT)
            .ok_or_else(|| AppError::internal("an inspection has a subject"))?;
        let record = self.record(id, &walk, &entries, &ground.body, outcome, at)?;
        let bytes = record.to_bytes(&entry_digest);
        let tally = walk.tally();
        let fit = outcome == Outcome::Fit;
        let small = |number: usize| u16::try_from(number).unwrap_or(u16::MAX);
        let open = walk.findings().iter().find(|finding| finding.state != FindingState::Closed);
        let issued = self.now();
        let until = walk.fit_for().filter(|_| fit).map(|time| at.plus(time));
        let said = SignedInspection {
            subject,
            name: walk.ground().facts.load.clone(),
            issued,
            // A piece that was fit for a day and is signed after it was never fit at the time of signing.
            fit_until: until.map(|until| if until < issued { issued } else { until }),
            outcome,
            edition: edition_of(&walk),
            found: small(tally.found),
            corrected: small(tally.corrected),
            why: (!fit).then(|| why(open.map_or("not fit", |finding| finding.name.as_str()))).transpose()?,
            record: Digest::of(&bytes),
        };
        let unsigned = said.prepare(&credential);
        let signed = unsigned.finish(&key.sign(&unsigned.to_be_signed()));
        let (own, now, language) = (Digest::of(&signed), self.now(), self.language());
        self.store.write(|tx| -> Result<(), AppError> {
            let mut admission = Admission::begin(tx, now, language)?;
            admission.inspection(&signed, Some(&bytes))?;
            tx.append(NewEntry { kind: SIGNED, walk: Some(id), body: own.as_bytes(), time: now })?;
            admission.finish()?;
            Ok(())
        })?;
        let row = self.store.read().inspection(own)?;
        self.inspection_view(&row.ok_or_else(|| AppError::internal("an inspection that was kept has a row"))?)
    }

    /// The signed words that take the pieces which a load's inspection rejected out of service.
    pub(super) fn rejections(
        &self,
        walk: &Walk,
        record: Digest,
        issued: Time,
        credential: &[u8],
        key: &SecretKey,
    ) -> Result<Vec<Vec<u8>>, AppError> {
        let rejected = walk.rejected_pieces();
        rejected
            .map(|(serial, finding)| {
                let said = SignedInspection {
                    subject: InspectedSubject::Piece,
                    name: serial.clone(),
                    issued,
                    fit_until: None,
                    outcome: Outcome::NotFit,
                    edition: edition_of(walk),
                    found: 1,
                    corrected: 0,
                    why: Some(why(&finding.name)?),
                    record,
                };
                let unsigned = said.prepare(credential);
                Ok(unsigned.finish(&key.sign(&unsigned.to_be_signed())))
            })
            .collect()
    }

    pub(crate) fn inspection_view(&self, row: &InspectionRow) -> Result<InspectionView, AppError> {
        let word = open_inspection(&row.bytes, &mut self.trusted()?)?;
        let said = word.inspection();
        Ok(InspectionView {
            digest: row.digest.to_string(),
            subject: subject_of_kind(row.subject),
            name: said.name.to_string(),
            procedure: row.procedure.clone(),
            version: row.version,
            inspector: row.inspector.clone(),
            fit: row.fit,
            issued: row.issued.into(),
            fit_until: row.fit_until.map(Stamp::from),
            why: said.why.as_ref().map(ToString::to_string),
            record: hex(row.record.as_bytes()),
            whole: self.store.read().body(row.record)?.is_some(),
            code: CodeView::of(Kind::Inspection, &row.bytes)?,
        })
    }
}

fn edition_of(walk: &Walk) -> Edition {
    let plan = &walk.ground().plan;
    Edition::of(plan.id.clone(), plan.version, plan.digest)
}

/// What was found, cut where it must be: the record has it whole.
fn why(text: &str) -> Result<Note, AppError> {
    let short: String = text.chars().take(Note::MOST / 4).collect();
    Ok(Note::new(&short)?)
}
