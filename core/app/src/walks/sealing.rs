//! From a decided walk to its record and seal: prepare, sign, finish.

use serde::Serialize;
use slingseal_catalogue::audit as audit_words;
use slingseal_catalogue::refusals as words;

use crate::account::open_word;
use crate::hook::admission::Admission;
use crate::tags::statics::{rigging_json, rigging_png, rigging_view};
use crate::trust::vault::DEVICE_VAULT;
use crate::walks::entries::{GROUND, SEALED, ground_parts, walk_id};
use crate::walks::record::{entry_digest, to_outcome};
use crate::{App, AppError, CodeView, Inner, SealFacts, VerdictView};
use slingseal_journal::{Entry, NewEntry, WalkId};
use slingseal_judgement::{LoadWord, Scan, ShownCode, TagSignature};
use slingseal_message::envelope::Kind;
use slingseal_message::seal::{JournalEntry, Outcome, Record, Seal, TagPrint};
use slingseal_message::tag::{ReceivedTag, kind_of_tag};
use slingseal_message::trust::{Role, SecretKey, Trusted};
use slingseal_store::{RecordRow, Standing, WalkRow, WalkState};
use slingseal_walk::procedure::Subject;
use slingseal_walk::walk::{self, Stage, Walk};
use slingseal_words::{Digest, Seconds, Time, same_person};

/// A seal, ready to be shown full screen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SealView {
    /// Its code.
    pub code: CodeView,
    /// What it says.
    pub facts: SealFacts,
    /// What the load is.
    pub description: String,
    /// The aircraft's type.
    pub aircraft: String,
    /// The digest of the record.
    pub record: String,
    /// What this device itself would say at the hook.
    pub verdict: VerdictView,
}

impl App {
    /// Seals a decided walk: the record is written, the inspector's key signs, all in one transaction.
    ///
    /// # Errors
    /// A walk that is not decided; no inspector's credential; the inspector is the rigger; a wrong PIN.
    pub fn seal(&self, walk: &str, pin: &str, validity_hours: Option<u32>) -> Result<SealView, AppError> {
        let id = walk_id(walk)?;
        // What can be told without the PIN is told first: it costs no try.
        self.lock().decided_walk(id, validity_hours)?;
        let key = self.try_key(DEVICE_VAULT, pin)?;
        let mut inner = self.lock();
        let sealed = inner.seal(id, &key, validity_hours);
        if sealed.is_err() {
            // It was refused for what time did while the PIN was stretched: the PIN was right all the same.
            inner.pin_was_right(DEVICE_VAULT)?;
        }
        sealed
    }

    /// The seal of a record, to be shown again.
    ///
    /// # Errors
    /// No such record.
    pub fn show_seal(&self, record: &str) -> Result<SealView, AppError> {
        let inner = self.lock();
        let row = inner.record_row(record)?;
        inner.seal_view(&row)
    }
}

/// A decided walk, and the credential that may seal it.
struct ToBeSealed {
    walk: Walk,
    outcome: walk::Outcome,
    decided: Time,
    credential: Vec<u8>,
    validity: Seconds,
    /// Whom this home trusts, its own credentials remembered.
    trusted: Trusted,
}

impl Inner {
    fn decided_walk(&mut self, id: WalkId, validity_hours: Option<u32>) -> Result<ToBeSealed, AppError> {
        let walk = self.walk_of(id)?;
        if walk.ground().plan.subject != Subject::Load {
            return Err(AppError::refused(words::OnlyInspectionLoadSealedOne));
        }
        let Stage::Decided { outcome, at, .. } = walk.stage() else {
            return Err(AppError::refused(words::WalkDecidedDecideFitFit));
        };
        if let Some(row) = self.store.read().walk(id)?
            && row.state == WalkState::Sealed
        {
            return Err(AppError::refused(words::WalkSealedAlreadyShowSeal));
        }
        let (outcome, decided) = (*outcome, *at);
        let trusted = self.trusted_with_own()?;
        let (signer, credential) = self.credential_under(&trusted, Some(Role::Inspector))?;
        let inspector = walk.ground().inspector.clone();
        if !same_person(&signer.credential.holder, &inspector) {
            return Err(AppError::refused(words::WalkedLoadHoldsCredentialOne {
                inspector: &inspector,
                holder: &signer.credential.holder,
            }));
        }
        let longest = signer.credential.longest_validity;
        let validity = validity_hours.map_or(longest, |hours| Seconds::hours(hours.into()));
        if validity > longest || validity.0 <= 0 {
            return Err(AppError::bad_input(words::SealCredentialMayHoldUp { longest: &longest }));
        }
        Ok(ToBeSealed { outcome, decided, credential, validity, trusted, walk })
    }

    /// Everything is judged again: time passed while the PIN was stretched.
    fn seal(
        &mut self,
        id: WalkId,
        key: &SecretKey,
        validity_hours: Option<u32>,
    ) -> Result<SealView, AppError> {
        let ToBeSealed { walk, outcome, decided, credential, validity, mut trusted } =
            self.decided_walk(id, validity_hours)?;
        let entries = self.store.read().entries_of(id)?;
        let ground = entries
            .iter()
            .find(|entry| entry.kind == GROUND)
            .ok_or_else(|| AppError::internal("a walk has a ground"))?;
        let (tag_bytes, ..) = ground_parts(&ground.body)?;
        let record = self.record(id, &walk, &entries, tag_bytes, to_outcome(outcome), decided)?;
        let bytes = record.to_bytes(&entry_digest);
        let digest = Digest::of(&bytes);
        let tag_word = open_word(kind_of_tag(tag_bytes), tag_bytes, &mut trusted)?;
        let none = || AppError::internal("a walk's tag is a tag");
        let tag = tag_word.tag().ok_or_else(none)?;
        let signature = TagSignature::of(tag, tag_word.author(), &trusted);
        let tally = walk.tally();
        let issued = self.now();
        let small = |number: usize| u16::try_from(number).unwrap_or(u16::MAX);
        let [a, b, c, d, ..] = *walk.ground().plan.digest.as_bytes();
        let seal = Seal {
            load: tag.load.clone(),
            issued,
            valid_until: issued.plus(validity),
            tag: TagPrint::of(&tag_word.digest()),
            tag_signed: signature == TagSignature::Planner,
            procedure: walk.ground().plan.id.clone(),
            version: walk.ground().plan.version,
            procedure_print: [a, b, c, d],
            outcome: to_outcome(outcome),
            found: small(tally.found),
            corrected: small(tally.corrected),
            mass: tag.gross,
            record: digest,
        };
        let rejected = self.rejections(&walk, digest, issued, &credential, key)?;
        let unsigned = seal.prepare(&credential);
        let sealed = unsigned.finish(&key.sign(&unsigned.to_be_signed()));
        let now = self.now();
        let language = self.language();
        let (word, trusted) = self.store.write(|tx| -> Result<(LoadWord, Trusted), AppError> {
            let mut admission = Admission::trusting(tx, trusted, now, language);
            admission.know_plan(&walk.ground().plan);
            admission.know_word(&tag_word);
            let word = admission.open(Kind::Seal, &sealed)?;
            admission.seal(&word, Some(&bytes))?;
            for piece in &rejected {
                admission.inspection(piece, None)?;
            }
            let row = tx.walk(id)?.ok_or_else(|| AppError::internal("a walk has a row"))?;
            tx.put_walk(&WalkRow { state: WalkState::Sealed, updated: now, ..row })?;
            tx.count_wrong_pins(DEVICE_VAULT, 0, now)?;
            tx.append(NewEntry { kind: SEALED, walk: Some(id), body: digest.as_bytes(), time: now })?;
            Ok((word, admission.finish()?.trusted))
        })?;
        self.walks.remove(&id);
        let scan = Scan { seals: vec![Ok(word)], tags: vec![Ok(tag_word)], plain: Vec::new() };
        self.seal_shown(&sealed, digest, &scan, trusted)
    }

    pub(super) fn record(
        &self,
        id: WalkId,
        walk: &Walk,
        entries: &[Entry],
        tag: &[u8],
        outcome: Outcome,
        decided: Time,
    ) -> Result<Record, AppError> {
        let head = self.store.head();
        let plan = &walk.ground().plan;
        let mut photos: Vec<Digest> = walk
            .findings()
            .iter()
            .flat_map(|finding| {
                let later = finding.looks.iter().flat_map(|look| match look {
                    walk::Look::PutRight { photos, .. } | walk::Look::Again { photos, .. } => photos.clone(),
                });
                finding.photos.iter().copied().chain(later).collect::<Vec<_>>()
            })
            .collect();
        photos.sort_unstable();
        photos.dedup();
        let rigging = self.rigging_as_counted(id, walk)?;
        let record = Record {
            tag: tag.to_vec(),
            procedure: plan.id.clone(),
            version: plan.version,
            procedure_digest: plan.digest,
            inspector: walk.ground().inspector.clone(),
            outcome,
            decided,
            device: self.store.device().0,
            walk: id.0,
            entries: entries
                .iter()
                .map(|entry| JournalEntry {
                    seq: entry.seq,
                    prev: entry.prev,
                    time: entry.time,
                    kind: entry.kind.clone(),
                    body: entry.body.clone(),
                })
                .collect(),
            head: (head.seq, head.digest),
            rigging: rigging.as_ref().map(rigging_json),
            photos,
            place: None,
            before: self.sealed_last()?,
        };
        if !record.fits() {
            return Err(AppError::refused(words::MoreThanARecordCarries {
                entries: record.entries.len(),
                photos: record.photos.len(),
                most_entries: Record::MOST_ENTRIES,
                most_photos: Record::MOST_PHOTOS,
            }));
        }
        Ok(record)
    }

    /// The record that this device sealed last, by its own journal.
    fn sealed_last(&self) -> Result<Option<Digest>, AppError> {
        let last = self.store.read().last_entry(SEALED)?;
        Ok(last.and_then(|entry| Digest::from_slice(&entry.body)))
    }

    /// The seal that a person means: by the digest of its own bytes, or by the record that it names. Of several that name one
    /// record, an inspection.
    pub(crate) fn record_row(&self, text: &str) -> Result<RecordRow, AppError> {
        let digest = Digest::from_hex(text.trim())
            .ok_or_else(|| AppError::bad_input(words::RecordGoesHexadecimalDigitsSee))?;
        let read = self.store.read();
        if let Some(row) = read.record(digest)? {
            return Ok(row);
        }
        let mut named = read.seals_of_record(digest)?;
        named.sort_by_key(|row| row.standing() == Standing::NoInspection);
        let none = || AppError::not_found(words::SuchRecordScanSealFirst);
        named.into_iter().next().ok_or_else(none)
    }

    fn seal_view(&self, row: &RecordRow) -> Result<SealView, AppError> {
        let none = || AppError::not_found(words::SuchRecordSeeRecordsList);
        let bytes = self.store.read().record_bytes(row.seal)?.ok_or_else(none)?;
        let tag = bytes
            .body
            .as_deref()
            .map(|body| Record::parse(body, &entry_digest))
            .transpose()?
            .map(|record| record.tag);
        let mut trusted = self.trusted()?;
        let codes = [ShownCode::Seal(bytes.seal.clone())];
        let codes = codes.into_iter().chain(tag.map(|tag| ShownCode::Tag(kind_of_tag(&tag), tag)));
        let scan = Scan::open(codes, |kind, bytes| open_word(kind, bytes, &mut trusted));
        if let Some(Err(error)) = scan.tags.first() {
            return Err(error.clone().into());
        }
        self.seal_shown(&bytes.seal, row.digest, &scan, trusted)
    }

    /// A seal and its tag as they are shown, opened under the trust of now.
    fn seal_shown(
        &self,
        seal: &[u8],
        record: Digest,
        scan: &Scan,
        trusted: Trusted,
    ) -> Result<SealView, AppError> {
        let code = CodeView::of(Kind::Seal, seal)?;
        let verdict = self.verdict_on(scan, trusted)?;
        let facts = verdict
            .facts
            .clone()
            .ok_or_else(|| AppError::StorageDamaged { message: audit_words::SealIsDamaged.into() })?;
        let tag = scan.tags.iter().flatten().find_map(LoadWord::tag);
        Ok(SealView {
            code,
            facts,
            description: tag.map(|tag| tag.description.to_string()).unwrap_or_default(),
            aircraft: tag.map(|tag| tag.aircraft.to_string()).unwrap_or_default(),
            record: record.to_string(),
            verdict,
        })
    }
}

impl App {
    /// The statics of the rigging on a tag, as counted in a walk: for a screen beside the card.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk_rigging(&self, walk: &str) -> Result<Option<crate::RiggingView>, AppError> {
        let mut inner = self.lock();
        let id = walk_id(walk)?;
        let state = inner.walk_of(id)?;
        let language = inner.language();
        Ok(inner.rigging_as_counted(id, &state)?.as_ref().map(|load| rigging_view(load, language)))
    }

    /// The picture of the rigging as counted in a walk, as PNG; none where the tag carries no rigging.
    ///
    /// # Errors
    /// No such walk; [`AppError::Internal`] where it cannot be drawn.
    pub fn walk_picture(&self, walk: &str) -> Result<Option<Vec<u8>>, AppError> {
        // the home is free while it is drawn
        let (counted, language) = {
            let mut inner = self.lock();
            let id = walk_id(walk)?;
            let state = inner.walk_of(id)?;
            (inner.rigging_as_counted(id, &state)?, inner.language())
        };
        counted.as_ref().map(|load| rigging_png(load, language)).transpose()
    }

    /// The picture of the rigging that a tag plans, as PNG; none where it carries none.
    ///
    /// # Errors
    /// A text that is no tag; [`AppError::Internal`] where it cannot be drawn.
    pub fn tag_picture(&self, tag: &str) -> Result<Option<Vec<u8>>, AppError> {
        let bytes = crate::tags::tag_bytes(tag)?;
        let received = ReceivedTag::open(&bytes)?;
        let language = self.spoken();
        received.tag.rigging.as_ref().map(|load| rigging_png(load, language)).transpose()
    }
}
