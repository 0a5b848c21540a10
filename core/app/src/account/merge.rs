//! Taking a bundle in, item by item, inside one transaction. A union of sets: what comes twice, or in another order, changes
//! nothing.

use std::collections::BTreeSet;

use crate::account::heads::{OWN_JOURNAL_GONE, OWN_JOURNAL_HINT, gone, hand_over, heads, put_heads};
use crate::account::strays::Origin;
use crate::exams::papers::{judge_sheet, put_lock, put_result, put_sheet, result_parts};
use crate::hook::admission::{Admission, MadeAhead};
use crate::hook::ahead::Ahead;
use crate::procedures::{comes_with_the_program, is_approved, keep_text};
use crate::walks::photograph;
use crate::{AppError, BundleReport, Inner, SetAsideLine};
use slingseal_account::sync::{HeadItem, Heads, Item, ItemKind, Pack, RecordItem};
use slingseal_catalogue::audit as audit_words;
use slingseal_catalogue::refusals as words;
use slingseal_judgement::LoadWord;
use slingseal_message::envelope::Kind;
use slingseal_message::tag::kind_of_tag;
use slingseal_store::{Put, StrayKind};
use slingseal_walk::exam::{judge_lock, judge_result};
use slingseal_words::{Digest, Language};

/// The most that is set aside of one bundle and in a home: things, and their bytes. The oldest gives way.
pub(crate) const MOST_ASIDE: usize = 1_000;
const MOST_ASIDE_BYTES: usize = 64 << 20;
const MOST_REASON: usize = 500;

/// A merge under way: one transaction.
pub(crate) struct Merge<'m, 'c> {
    pub(crate) admission: Admission<'m, 'c>,
    pub(crate) language: Language,
    pub(crate) heads: Heads,
    pub(crate) own: HeadItem,
    /// Whether no journal's end has come yet: the first one of a whole bundle is the sender's own.
    pub(crate) first_head: bool,
    /// Whether anything is in quarantine: what is believed now is cleared out of it.
    pub(crate) anything_aside: bool,
    /// Bytes of what was set aside and kept: so much and no more of one bundle.
    pub(crate) kept_aside: usize,
    /// Journals that were told in two ways, and where.
    pub(crate) forks: BTreeSet<([u8; 16], u64)>,
    /// What was set aside beyond what is listed.
    pub(crate) more_aside: u64,
    pub(crate) report: BundleReport,
    /// Texts of procedures that are new here.
    pub(crate) new_texts: Vec<Digest>,
}

impl Merge<'_, '_> {
    /// Takes an item in, with what was made out of it ahead.
    pub(crate) fn take(&mut self, item: &Item, ahead: Ahead, number: u64) -> Result<(), AppError> {
        let judged = match item.kind {
            ItemKind::Credential => self.credential(&item.body),
            ItemKind::Roster => self.roster(&item.body),
            ItemKind::Tag => self.tag(&item.body, ahead),
            ItemKind::Void => self.void(&item.body, ahead),
            ItemKind::Record => self.record(&item.body, ahead),
            ItemKind::Head => self.head(&item.body),
            ItemKind::Photo => self.photo(&item.body),
            ItemKind::Procedure => self.procedure(&item.body),
            ItemKind::Pack => self.pack(&item.body, number),
            ItemKind::ExamKey => self.exam_key(&item.body),
            ItemKind::ExamSheet => self.exam_sheet(&item.body),
            ItemKind::ExamResult => self.exam_result(&item.body),
            ItemKind::Movement => self.movement(&item.body, ahead),
            ItemKind::Closing => self.closing(&item.body),
            ItemKind::Inspection => self.inspection(&item.body),
        };
        match judged {
            Ok(()) => {
                if self.anything_aside {
                    self.admission.tx.remove_quarantine(Digest::of(&item.body))?;
                }
                Ok(())
            }
            // The disk's troubles end the merge; all else is the item's own fault.
            Err(
                error @ (AppError::StorageFull { .. }
                | AppError::StorageDamaged { .. }
                | AppError::Internal { .. }),
            ) => Err(error),
            Err(error) => {
                let place = audit_words::ItemNumbered { number }.say(self.language);
                self.set_aside(&item.body, place, item.kind.english(), error.say(self.language))
            }
        }
    }

    pub(crate) fn set_aside(
        &mut self,
        bytes: &[u8],
        place: String,
        kind: &str,
        reason: String,
    ) -> Result<(), AppError> {
        // All of it is counted; what a stranger can make without end is neither kept nor listed without end.
        if self.report.set_aside.len() >= MOST_ASIDE {
            self.more_aside += 1;
            return Ok(());
        }
        // A stranger's file may have faults without end: the first is enough to ask for it again.
        let mut words = reason.lines();
        let mut short: String = words.next().unwrap_or_default().chars().take(MOST_REASON).collect();
        match words.count() {
            0 => {}
            more => {
                short.push_str(&format!(" ({})", audit_words::AndMore { count: more }.say(self.language)))
            }
        }
        let reason = short;
        if self.kept_aside + bytes.len() <= MOST_ASIDE_BYTES {
            self.kept_aside += bytes.len();
            self.anything_aside = true;
            self.admission.tx.put_quarantine(bytes, &reason, self.admission.now)?;
        }
        self.report.set_aside.push(SetAsideLine { place, kind: kind.to_owned(), reason });
        Ok(())
    }

    fn paper(&mut self, new: bool) {
        self.report.papers += u32::from(new);
    }

    fn credential(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let (_, _, new) = self.admission.credential(bytes, None)?;
        self.paper(new);
        Ok(())
    }

    fn roster(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let new = self.admission.roster(bytes)?.new;
        self.paper(new);
        Ok(())
    }

    /// The word of an item, opened ahead or now.
    fn word(&mut self, kind: Kind, bytes: &[u8], ahead: Ahead) -> Result<LoadWord, AppError> {
        match ahead {
            Ahead::Word(word) => self.admission.opened(word),
            Ahead::Nothing | Ahead::Record { .. } => self.admission.open(kind, bytes),
        }
    }

    fn tag(&mut self, bytes: &[u8], ahead: Ahead) -> Result<(), AppError> {
        let word = self.word(kind_of_tag(bytes), bytes, ahead)?;
        // A plan that was made at one desk is planned at every desk.
        let new = self.admission.tag(&word, true, Origin::Elsewhere)?;
        self.paper(new);
        Ok(())
    }

    fn void(&mut self, bytes: &[u8], ahead: Ahead) -> Result<(), AppError> {
        let word = self.word(Kind::Void, bytes, ahead)?;
        let new = self.admission.void(&word)?;
        self.paper(new);
        Ok(())
    }

    fn closing(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let new = self.admission.closing(bytes)?.1;
        self.paper(new);
        Ok(())
    }

    fn inspection(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let item = RecordItem::parse(bytes)?;
        let new = self.admission.inspection(&item.seal, item.record.as_deref())?;
        self.paper(new);
        Ok(())
    }

    fn movement(&mut self, bytes: &[u8], ahead: Ahead) -> Result<(), AppError> {
        let word = self.word(Kind::Movement, bytes, ahead)?;
        let new = self.admission.movement(&word, false)?;
        self.report.movements += u32::from(new);
        Ok(())
    }

    fn photo(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let digest = Digest::of(bytes);
        if self.admission.tx.photo(digest)?.is_none() {
            photograph(bytes)?;
            self.admission.tx.put_photo(bytes, self.admission.now)?;
            self.admission.count(StrayKind::Photo, digest, bytes.len())?;
            self.report.photos += 1;
        }
        Ok(())
    }

    /// The text of a procedure: found by its digest alone, so that nothing needs to be believed.
    fn procedure(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let text = std::str::from_utf8(bytes).map_err(|_| AppError::bad_input(words::BytesAreNoText))?;
        let digest = Digest::of(bytes);
        if !comes_with_the_program(&digest) && keep_text(self.admission.tx, text)? {
            // Whoever is trusted and approves it has signed its thumbprint: then it is nobody's stray.
            if is_approved(&self.admission.trusted, digest) {
                self.admission.tx.put_named(digest)?;
            } else {
                self.admission.count(StrayKind::Procedure, digest, bytes.len())?;
            }
            self.new_texts.push(digest);
        }
        Ok(())
    }

    /// Each text of a pack by itself: a broken one among ten costs one.
    fn pack(&mut self, bytes: &[u8], number: u64) -> Result<(), AppError> {
        let pack = Pack::parse(bytes).map_err(AppError::bad_input)?;
        for (at, text) in pack.texts.iter().enumerate() {
            match self.procedure(text.as_bytes()) {
                Err(error @ AppError::BadInput { .. }) => {
                    let place = audit_words::ItemProcedure { number, at: at + 1, of: pack.texts.len() }
                        .say(self.language);
                    let name = slingseal_walk::procedure::name_of(text).say(self.language);
                    let reason = format!("{name}: {}", error.say(self.language));
                    self.set_aside(text.as_bytes(), place, ItemKind::Procedure.english(), reason)?;
                }
                other => other?,
            }
        }
        Ok(())
    }

    fn exam_key(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let (lock, _) = judge_lock(&self.admission.trusted, bytes)?;
        let new = put_lock(self.admission.tx, &lock, bytes, self.admission.now)?;
        self.paper(new);
        Ok(())
    }

    fn exam_sheet(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let judged = judge_sheet(&self.admission.trusted, self.admission.tx, bytes, self.language)?;
        let new = put_sheet(self.admission.tx, &judged, bytes, self.admission.now)?;
        if new {
            self.admission.count(StrayKind::Sheet, Digest::of(bytes), bytes.len())?;
        }
        self.paper(new);
        Ok(())
    }

    /// Whether its sheet agrees with it is asked when it is shown: the sheet may come before it, behind it or never.
    fn exam_result(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let (lock_bytes, bytes) = result_parts(bytes)?;
        let (result, lock, _) = judge_result(&self.admission.trusted, lock_bytes, bytes)?;
        put_lock(self.admission.tx, &lock, lock_bytes, self.admission.now)?;
        let new = put_result(self.admission.tx, &result, bytes, self.admission.now)?;
        self.paper(new);
        Ok(())
    }

    /// A head that stands by itself is signed by nobody: a hint.
    fn head(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let head = HeadItem::parse(bytes)?;
        if std::mem::take(&mut self.first_head) && head.device != self.own.device {
            hand_over(self.admission.tx, &head)?;
        }
        if head.device != self.own.device {
            self.heads.hint(head);
        } else if !self.report.warnings.contains(&OWN_JOURNAL_HINT.say(self.language))
            && gone(self.admission.tx, &head)?
        {
            self.warn(OWN_JOURNAL_HINT.say(self.language));
        }
        Ok(())
    }

    /// A head that a signed record tells.
    fn vouched_head(&mut self, head: HeadItem, by: Digest) -> Result<(), AppError> {
        if head.device == self.own.device {
            if gone(self.admission.tx, &head)? {
                self.warn(OWN_JOURNAL_GONE.say(self.language));
            }
        } else if self.heads.vouch(head, by).is_some()
            && self.forks.len() < MOST_ASIDE
            // Words are made once a fork: a copied device may tell it in every record.
            && self.forks.insert((head.device, head.seq))
        {
            let name = crate::view::hex(&head.device);
            let said = audit_words::JournalInTwoWays { device: name, seq: head.seq };
            self.warn(said.say(self.language));
        }
        Ok(())
    }

    fn warn(&mut self, words: String) {
        if self.report.warnings.len() < MOST_ASIDE && !self.report.warnings.contains(&words) {
            self.report.warnings.push(words);
        }
    }

    fn record(&mut self, bytes: &[u8], ahead: Ahead) -> Result<(), AppError> {
        let (item, word, ahead) = match ahead {
            Ahead::Record { item, seal, alone, full } => {
                let alone = alone.filter(|_| self.admission.is_of_now(&seal)).map(|alone| *alone);
                let made = MadeAhead { full: full.map(|full| *full), alone };
                (item, self.admission.opened(seal)?, made)
            }
            Ahead::Nothing | Ahead::Word(_) => {
                let item = RecordItem::parse(bytes)?;
                let word = self.admission.open(Kind::Seal, &item.seal)?;
                (item, word, MadeAhead::default())
            }
        };
        let admitted = self.admission.seal_with(&word, item.record.as_deref(), ahead)?;
        match admitted.put {
            Put::New => self.report.new += 1,
            Put::Completed => self.report.completed += 1,
            Put::Known => self.report.known += 1,
        }
        match (word.seal(), admitted.head) {
            (Some(seal), Some(head)) => self.vouched_head(head, seal.record),
            _ => Ok(()),
        }
    }

    pub(crate) fn finish(mut self) -> Result<(BundleReport, Vec<Digest>), AppError> {
        if self.more_aside > 0 {
            self.report.set_aside.push(SetAsideLine {
                place: audit_words::AndAfterThat.say(self.language),
                kind: "more".into(),
                reason: audit_words::MoreNotKept { count: self.more_aside }.say(self.language),
            });
        }
        put_heads(self.admission.tx, &self.heads)?;
        self.admission.tx.trim_quarantine(MOST_ASIDE as u64, MOST_ASIDE_BYTES as u64)?;
        let finished = self.admission.finish()?;
        self.report.warnings.extend(finished.gave_way.saying().map(|said| said.say(self.language)));
        Ok((self.report, self.new_texts))
    }
}

impl Inner {
    /// Takes words in, however they come: one transaction.
    pub(crate) fn merging(
        &mut self,
        act: impl FnOnce(&mut Merge<'_, '_>) -> Result<(), AppError>,
    ) -> Result<BundleReport, AppError> {
        let (now, language, device) = (self.now(), self.language(), self.store.device().0);
        let own = self.store.head();
        let (report, new_texts) = self.store.write(|tx| {
            let mut merge = Merge {
                admission: Admission::begin(tx, now, language)?,
                language,
                heads: heads(tx)?,
                anything_aside: tx.is_anything_quarantined()?,
                kept_aside: 0,
                forks: BTreeSet::new(),
                more_aside: 0,
                own: HeadItem { device, seq: own.seq, digest: own.digest },
                first_head: true,
                report: BundleReport::default(),
                new_texts: Vec::new(),
            };
            act(&mut merge)?;
            merge.finish()
        })?;
        self.with_procedures(report, &new_texts)
    }
}
