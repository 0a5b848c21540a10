//! Examinations, the instructor's side: what to plant, the lock on it, and what a key shows to whom.

use slingseal_catalogue::refusals as words;
pub(crate) mod class;
pub(crate) mod csv;
pub(crate) mod debrief;
mod named;
pub(crate) mod papers;
pub(crate) mod result;
pub(crate) mod run;
pub(crate) mod sheet;
mod view;

pub(crate) use self::named::{elsewhere, one_of, short};
use self::view::planted_view;
pub(crate) use self::view::planted_views;
pub use self::view::{
    ExamKeyView, ExamPick, ExamPlan, ExamPlanView, ExamStandard, MOST_EXAM_PLANTED, PlantedView, StandardView,
};

use crate::exams::papers::put_lock;
use crate::procedures::{expanded_of, keep_own_text};
use crate::tags::tag_bytes;
use crate::trust::vault::DEVICE_VAULT;
use crate::view::hex;
use crate::{App, AppError, CodeView, Inner};
use slingseal_journal::NewEntry;
use slingseal_message::envelope::{Kind, Limits, Reader, Writer, check, unwrap, wrap};
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::{Role, SecretKey};
use slingseal_store::{ExamPaper, ExamPaperRow, RunState};
use slingseal_walk::exam::judge_lock;
use slingseal_walk::exam::{self, ExamError, Lock, Planted, PlantedList, Salt, Standard};
use slingseal_walk::procedure::Expanded;
use slingseal_words::{Digest, PointId, Seconds};

/// The journal's entry that keeps what a lock hides: on the instructor's device alone, in no bundle.
pub(crate) const SECRET: &str = "exam-key";

impl App {
    /// Works out what to plant, and keeps nothing: rig it, then lock the same.
    ///
    /// # Errors
    /// A text that is no tag; a pick that the procedure does not know; more than there is room for.
    pub fn exam_plan(&self, plan: &ExamPlan) -> Result<ExamPlanView, AppError> {
        let inner = self.lock();
        let bytes = tag_bytes(&plan.tag)?;
        let received = ReceivedTag::open(&bytes)?;
        let expanded =
            slingseal_walk::procedure::check(&inner.text_ordered(&received.tag)?)?.expand(inner.language());
        let (list, seed) = inner.exam_list(plan, &expanded)?;
        Ok(ExamPlanView {
            load: received.tag.load.to_string(),
            procedure: expanded.id.to_string(),
            title: expanded.title.clone(),
            seed,
            planted: planted_views(&list, Some(&expanded)),
        })
    }

    /// All that can be planted on the load of a tag, in the order of the load: what there is to pick from.
    ///
    /// # Errors
    /// A text that is no tag; its procedure is not here.
    pub fn exam_plantable(&self, tag: &str) -> Result<Vec<PlantedView>, AppError> {
        let inner = self.lock();
        let bytes = tag_bytes(tag)?;
        let received = ReceivedTag::open(&bytes)?;
        let plan =
            slingseal_walk::procedure::check(&inner.text_ordered(&received.tag)?)?.expand(inner.language());
        let points = plan.cards.iter().flat_map(|card| card.points.iter().map(move |point| (card, point)));
        let named = points.flat_map(|(card, point)| {
            point.deficiencies.iter().map(move |known| (card, point, known.name.as_str()))
        });
        Ok(named.map(|(card, point, name)| planted_view(&plan, card, point, name)).collect())
    }

    /// Locks what is planted, signed as an instructor. The list stays on this device.
    ///
    /// # Errors
    /// As `exam_plan`; a standard that cannot be; no instructor's credential; a wrong PIN.
    pub fn exam_lock(
        &self,
        plan: &ExamPlan,
        standard: &ExamStandard,
        pin: &str,
    ) -> Result<ExamKeyView, AppError> {
        // What can be told without the PIN is told first: it costs no try.
        let to_lock = self.lock().exam_to_lock(plan, standard)?;
        let key = self.open_key(DEVICE_VAULT, pin)?;
        self.lock().exam_lock(to_lock, &key)
    }

    /// Every key that is known here, the newest first, without the lists.
    ///
    /// # Errors
    /// Storage.
    pub fn exam_keys(&self) -> Result<Vec<ExamKeyView>, AppError> {
        let inner = self.lock();
        let mut rows = inner.store.read().exam_papers(ExamPaper::Key)?;
        rows.reverse();
        rows.iter().map(|row| inner.key_view(row, false)).collect()
    }

    /// A key without its list: by its code, which is known from here on, or by its first digits.
    ///
    /// # Errors
    /// No such key; a code that is no instructor's.
    pub fn exam_key(&self, key: &str) -> Result<ExamKeyView, AppError> {
        let mut inner = self.lock();
        let row = inner.exam_key_row(key)?;
        inner.key_view(&row, false)
    }

    /// A key with its list: for the instructor, under the PIN, since a student may hold the device.
    ///
    /// # Errors
    /// No such key; its list is elsewhere; a list that is not the one that was locked; a wrong PIN.
    pub fn exam_reveal(&self, key: &str, pin: &str) -> Result<ExamKeyView, AppError> {
        self.lock().exam_key_row(key)?;
        drop(self.open_key(DEVICE_VAULT, pin)?);
        let mut inner = self.lock();
        let row = inner.exam_key_row(key)?;
        inner.key_view(&row, true)
    }
}

/// What is to be locked, before the instructor's key signs it.
struct ToBeLocked {
    tag: Vec<u8>,
    procedure: String,
    lock: Lock,
    list: PlantedList,
    salt: Salt,
    credential: Vec<u8>,
}

/// What a lock hides.
pub(crate) struct ExamSecret {
    pub(crate) list: PlantedList,
    pub(crate) salt: Salt,
}

impl Inner {
    fn exam_list(
        &self,
        plan: &ExamPlan,
        expanded: &Expanded,
    ) -> Result<(PlantedList, Option<String>), AppError> {
        match plan.draw {
            Some(_) if !plan.picks.is_empty() => {
                Err(AppError::bad_input(words::DeficienciesPickedDrawnBothGive))
            }
            Some(count) => {
                let seed = match plan.seed.as_deref().map(str::trim).filter(|seed| !seed.is_empty()) {
                    Some(seed) => seed.to_owned(),
                    None => {
                        let mut bytes = [0; 5];
                        self.outside.entropy.fill(&mut bytes);
                        hex(&bytes)
                    }
                };
                let count = usize::try_from(count).unwrap_or(usize::MAX);
                Ok((exam::draw(expanded, count, seed.as_bytes())?, Some(seed)))
            }
            None => {
                let picks = plan.picks.iter().map(|pick| {
                    Ok(Planted { point: PointId::new(&pick.point)?, name: pick.deficiency.trim().to_owned() })
                });
                let picks = picks.collect::<Result<Vec<_>, AppError>>()?;
                Ok((PlantedList::new(expanded, picks)?, None))
            }
        }
    }

    fn exam_to_lock(&self, plan: &ExamPlan, standard: &ExamStandard) -> Result<ToBeLocked, AppError> {
        let tag_bytes = tag_bytes(&plan.tag)?;
        let received = ReceivedTag::open(&tag_bytes)?;
        let text = self.text_ordered(&received.tag)?;
        let expanded = slingseal_walk::procedure::check(&text)?.expand(self.language());
        let (list, _) = self.exam_list(plan, &expanded)?;
        let small = |number: u32| u8::try_from(number).unwrap_or(u8::MAX);
        let standard = Standard::new(
            small(standard.least),
            small(u32::try_from(list.len()).unwrap_or(u32::MAX)),
            Seconds(standard.within_s.into()),
            small(standard.false_calls),
        )?;
        let (_, credential) = self.credential_for(Some(Role::Instructor))?;
        let mut salt: Salt = [0; exam::SALT];
        self.outside.entropy.fill(&mut salt);
        let lock = Lock {
            load: received.tag.load.clone(),
            locked: self.now(),
            tag: received.digest,
            procedure: expanded.id.clone(),
            version: expanded.version,
            procedure_digest: expanded.digest,
            standard,
            planted: list.digest(&salt),
        };
        Ok(ToBeLocked { tag: tag_bytes, procedure: text, lock, list, salt, credential })
    }

    fn exam_lock(&mut self, to_lock: ToBeLocked, key: &SecretKey) -> Result<ExamKeyView, AppError> {
        let ToBeLocked { tag: tag_bytes, procedure: text, lock, list, salt, credential } = to_lock;
        let now = lock.locked;
        let unsigned = lock.prepare(&credential);
        let bytes = unsigned.finish(&key.sign(&unsigned.to_be_signed()));
        // Reads its own writing back: a lock that another device would refuse must not be shown. Trust is asked again: the home
        // was free while the PIN was stretched.
        let (lock, _) = judge_lock(&self.trusted()?, &bytes)?;
        lock.opens_with(&list, &salt)?;
        self.keep_tag(&tag_bytes)?;
        let mut secret = Writer::new();
        secret.array(3).bytes(&bytes).bytes(&salt).bytes(&list.to_bytes());
        let secret = secret.into_bytes();
        let digest = Digest::of(&bytes);
        self.store.write(|tx| -> Result<(), AppError> {
            keep_own_text(tx, &text)?;
            put_lock(tx, &lock, &bytes, now)?;
            tx.append(NewEntry { kind: SECRET, walk: None, body: &secret, time: now })?;
            Ok(())
        })?;
        let row = self.exam_key_row(&digest.to_string())?;
        self.key_view(&row, true)
    }

    /// The key of a code's text, which is known from here on; or of the first digits of one that is known.
    pub(crate) fn exam_key_row(&mut self, text: &str) -> Result<ExamPaperRow, AppError> {
        let text = text.trim();
        if text.contains(':') {
            let bytes = match unwrap(text)? {
                (Kind::ExamKey, bytes) => bytes,
                (kind, _) => {
                    return Err(AppError::bad_input(words::ExaminationKeyScanCodeInstructor { kind: &kind }));
                }
            };
            let (lock, _) = judge_lock(&self.trusted()?, &bytes)?;
            let now = self.now();
            self.store.write(|tx| put_lock(tx, &lock, &bytes, now).map(drop))?;
            return self.exam_key_row(&Digest::of(&bytes).to_string());
        }
        let rows = self.store.read().exam_papers(ExamPaper::Key)?;
        one_of(rows, text, Kind::ExamKey.saying())
    }

    /// What a lock hides, where this device locked it. Held against the lock: an entry that was changed since is refused.
    pub(crate) fn exam_secret(&self, key: &Digest, lock: &Lock) -> Result<Option<ExamSecret>, AppError> {
        for entry in self.store.read().entries_of_kind(SECRET)? {
            let Ok((bytes, salt, list)) = secret_parts(&entry.body) else { continue };
            if Digest::of(bytes) == *key {
                let list = PlantedList::parse(list).map_err(|_| ExamError::KeyChanged)?;
                lock.opens_with(&list, &salt)?;
                return Ok(Some(ExamSecret { list, salt }));
            }
        }
        Ok(None)
    }

    fn key_view(&self, row: &ExamPaperRow, reveal: bool) -> Result<ExamKeyView, AppError> {
        let (lock, signer) = judge_lock(&self.trusted()?, &row.bytes)?;
        let secret = match self.exam_secret(&row.digest, &lock) {
            Ok(secret) => secret,
            Err(error) if reveal => return Err(error),
            Err(_) => None,
        };
        let read = self.store.read();
        let count = |kind| -> Result<u32, AppError> {
            Ok(u32::try_from(read.exam_papers_of(row.digest, kind)?.len()).unwrap_or(u32::MAX))
        };
        let instructor = signer.credential.holder.to_string();
        let planted = match (&secret, reveal) {
            (Some(secret), true) => {
                let plan = expanded_of(&read, &lock.procedure_digest, self.language()).ok();
                Some(planted_views(&secret.list, plan.as_ref()))
            }
            (None, true) => return Err(elsewhere(&instructor)),
            (_, false) => None,
        };
        Ok(ExamKeyView {
            key: row.digest.to_string(),
            short: short(&row.digest),
            code: CodeView::of_text(Kind::ExamKey, wrap(Kind::ExamKey, &row.bytes))?,
            load: lock.load.to_string(),
            procedure: format!("{} {}", lock.procedure, lock.version),
            locked: lock.locked.into(),
            instructor,
            standard: self.standard_view(lock.standard),
            list_here: secret.is_some(),
            planted,
            runs: count(ExamPaper::Sheet)?
                + u32::try_from(
                    read.exam_runs()?
                        .iter()
                        .filter(|run| run.key == row.digest && run.state == RunState::Open)
                        .count(),
                )
                .unwrap_or(0),
            results: count(ExamPaper::Result)?,
        })
    }
}

fn secret_parts(body: &[u8]) -> Result<(&[u8], Salt, &[u8]), AppError> {
    check(body, Limits::FILE)?;
    let mut reader = Reader::new(body);
    reader.array(3, "secret of an examination key")?;
    Ok((reader.bytes("lock")?, reader.fixed("salt")?, reader.bytes("list")?))
}
