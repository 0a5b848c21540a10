//! Taking a bundle in, item by item, inside one transaction. A union of sets: what comes twice, or in another order, changes
//! nothing.

use std::collections::{BTreeMap, BTreeSet};

use super::authority::credential_row;
use super::exam_judge::{
    judge_lock, judge_result, judge_sheet, put_lock, put_result, put_sheet, result_parts,
};
use super::heads::{OWN_JOURNAL_GONE, OWN_JOURNAL_HINT, gone, put_heads};
use super::procedures::{expanded_of, text_name};
use super::receive::not_told_otherwise;
use super::records::{bare_row, restand_in};
use super::sealing::{columns, deficiencies, entry_digest, equipment, walk_from};
use super::{AppError, BundleReport, SetAsideLine};
use slingseal_account::sync::{Examined, HeadItem, Heads, Item, ItemKind, RecordItem, examine_record};
use slingseal_message::seal::{ReceivedSeal, Void};
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::{Credentialed, PublicKey, Roster, Trusted};
use slingseal_store::{NewRecord, Put, RosterRow, TagRow, Tx, VoidRow};
use slingseal_walk::procedure::Expanded;
use slingseal_words::{Digest, Language, Time};

/// The most that is set aside of one bundle and in a home: things, and their bytes. The oldest gives way.
pub(super) const MOST_ASIDE: usize = 1_000;
const MOST_ASIDE_BYTES: usize = 64 << 20;
const MOST_REASON: usize = 500;

/// A merge under way: one transaction.
pub(super) struct Merge<'m, 'c> {
    pub(super) tx: &'m Tx<'c>,
    pub(super) trusted: Trusted,
    pub(super) now: Time,
    pub(super) language: Language,
    pub(super) plans: BTreeMap<Digest, Expanded>,
    /// Loads of which something new came: which record is current is settled at the end, whatever the order was.
    pub(super) loads: BTreeSet<String>,
    pub(super) heads: Heads,
    pub(super) own: HeadItem,
    /// Bytes of what was set aside and kept: so much and no more of one bundle.
    pub(super) kept_aside: usize,
    /// What was set aside beyond what is listed.
    pub(super) more_aside: u64,
    pub(super) report: BundleReport,
}

impl Merge<'_, '_> {
    pub(super) fn take(&mut self, item: &Item, number: u64) -> Result<(), AppError> {
        let judged = match item.kind {
            ItemKind::Credential => self.credential(&item.body),
            ItemKind::Roster => self.roster(&item.body),
            ItemKind::Tag => self.tag(&item.body),
            ItemKind::Void => self.void(&item.body),
            ItemKind::Record => self.record(&item.body),
            ItemKind::Head => self.head(&item.body),
            ItemKind::Photo => self.photo(&item.body),
            ItemKind::Procedure => self.procedure(&item.body),
            ItemKind::ExamKey => self.exam_key(&item.body),
            ItemKind::ExamSheet => self.exam_sheet(&item.body),
            ItemKind::ExamResult => self.exam_result(&item.body),
        };
        match judged {
            Ok(()) => {
                self.tx.remove_quarantine(Digest::of(&item.body))?;
                Ok(())
            }
            // The disk's troubles end the merge; all else is the item's own fault.
            Err(
                error @ (AppError::StorageFull { .. }
                | AppError::StorageDamaged { .. }
                | AppError::Internal { .. }),
            ) => Err(error),
            Err(error) => {
                self.set_aside(&item.body, format!("item {number}"), item.kind.english(), error.to_string())
            }
        }
    }

    pub(super) fn set_aside(
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
            more => short.push_str(&format!(" (and {more} more)")),
        }
        let reason = short;
        if self.kept_aside + bytes.len() <= MOST_ASIDE_BYTES {
            self.kept_aside += bytes.len();
            self.tx.put_quarantine(bytes, &reason, self.now)?;
        }
        self.report.set_aside.push(SetAsideLine { place, kind: kind.to_owned(), reason });
        Ok(())
    }

    fn paper(&mut self, new: bool) {
        self.report.papers += u32::from(new);
    }

    fn credential(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let signer = self.trusted.credential(bytes)?;
        let credential = Credentialed::open(bytes)?.credential;
        let row = credential_row(&credential, bytes, signer.authority.to_bytes(), self.now, false);
        let new = self.tx.put_credential(&row)?;
        self.paper(new);
        Ok(())
    }

    fn roster(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let id = Roster::authority(bytes)?;
        let mut last =
            AppError::refused("its authority is not trusted here; add its card, then read the bundle again");
        let keys: Vec<PublicKey> = self.trusted.with_id(id).map(|authority| authority.key).collect();
        for key in keys {
            match Roster::open(bytes, &key) {
                Ok(roster) => {
                    let row = RosterRow {
                        authority: key.to_bytes(),
                        sequence: roster.sequence.into(),
                        issued: roster.issued,
                        received: self.now,
                        bytes: bytes.to_vec(),
                    };
                    not_told_otherwise(self.tx, &row)?;
                    let new = self.tx.put_roster(&row)?;
                    self.paper(new);
                    return Ok(());
                }
                Err(error) => last = error.into(),
            }
        }
        Err(last)
    }

    fn tag(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let received = ReceivedTag::open(bytes)?;
        let new = self.tx.put_tag(&TagRow {
            digest: received.digest,
            load: received.tag.load.to_string(),
            // A plan that was made at one desk is planned at every desk.
            planned: true,
            received: self.now,
            bytes: bytes.to_vec(),
        })?;
        self.paper(new);
        Ok(())
    }

    fn void(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let (void, message) = Void::open(bytes)?;
        let signer = self.trusted.signer(slingseal_message::envelope::Kind::Void, &message)?;
        if void.issued > signer.credential.expires {
            return Err(AppError::refused(format!(
                "the credential of {} had run out when this void was signed; it does not count",
                signer.credential.holder
            )));
        }
        let new = self.tx.put_void(&VoidRow {
            digest: Digest::of(bytes),
            record: void.record,
            load: void.load.to_string(),
            issued: void.issued,
            received: self.now,
            bytes: bytes.to_vec(),
        })?;
        self.paper(new);
        self.loads.insert(void.load.to_string());
        Ok(())
    }

    fn photo(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let digest = Digest::of(bytes);
        if self.tx.photo(digest)?.is_none() {
            self.tx.put_photo(bytes, self.now)?;
            self.report.photos += 1;
        }
        Ok(())
    }

    /// The text of a procedure: found by its digest alone, so that nothing needs to be believed.
    fn procedure(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let text = std::str::from_utf8(bytes).map_err(|_| AppError::bad_input("it is no text"))?;
        let digest = slingseal_walk::procedure::check(text)?.digest();
        if self.tx.setting(&text_name(&digest))?.is_none() {
            self.tx.put_setting(&text_name(&digest), bytes)?;
        }
        Ok(())
    }

    fn exam_key(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let (lock, _) = judge_lock(&self.trusted, bytes)?;
        let new = put_lock(self.tx, &lock, bytes, self.now)?;
        self.paper(new);
        Ok(())
    }

    fn exam_sheet(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let judged = judge_sheet(&self.trusted, self.tx, bytes, self.language)?;
        let new = put_sheet(self.tx, &judged, bytes, self.now)?;
        self.paper(new);
        Ok(())
    }

    /// Whether its sheet agrees with it is asked when it is shown: the sheet may come before it, behind it or never.
    fn exam_result(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let (lock_bytes, bytes) = result_parts(bytes)?;
        let (result, lock, _) = judge_result(&self.trusted, lock_bytes, bytes)?;
        put_lock(self.tx, &lock, lock_bytes, self.now)?;
        let new = put_result(self.tx, &result, bytes, self.now)?;
        self.paper(new);
        Ok(())
    }

    /// A head that stands by itself is signed by nobody: a hint.
    fn head(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let head = HeadItem::parse(bytes)?;
        if head.device != self.own.device {
            self.heads.hint(head);
        } else if !self.report.warnings.iter().any(|known| known == OWN_JOURNAL_HINT) && gone(self.tx, &head)?
        {
            self.warn(OWN_JOURNAL_HINT.into());
        }
        Ok(())
    }

    /// A head that a signed record tells.
    fn vouched_head(&mut self, head: HeadItem, by: Digest) -> Result<(), AppError> {
        if head.device == self.own.device {
            if gone(self.tx, &head)? {
                self.warn(OWN_JOURNAL_GONE.into());
            }
        } else if self.heads.vouch(head, by).is_some() {
            let name = super::view::hex(&head.device);
            self.warn(format!(
                "the journal of device {name} is told in two ways at entry {}: it was copied or rewritten; run the audit",
                head.seq
            ));
        }
        Ok(())
    }

    fn warn(&mut self, words: String) {
        if self.report.warnings.len() < MOST_ASIDE && !self.report.warnings.contains(&words) {
            self.report.warnings.push(words);
        }
    }

    fn record(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        let item = RecordItem::parse(bytes)?;
        // A thousand records have a dozen inspectors: each credential is checked once. What does not pass here is said below.
        if let Ok(received) = ReceivedSeal::open(&item.seal)
            && let Some(credential) = received.message.header.credential
        {
            let _ = self.trusted.remember(credential);
        }
        let examined = examine_record(&item, &self.trusted, &entry_digest)
            .map_err(|unfit| AppError::refused(unfit.to_string()))?;
        let digest = examined.seal.record;
        if let Some(row) = self.tx.record(digest)? {
            let whole = row.device.is_some();
            if whole || item.record.is_none() {
                self.report.known += 1;
                return Ok(());
            }
        }
        let put = self.put(&item, &examined)?;
        match put {
            Put::New => self.report.new += 1,
            Put::Completed => self.report.completed += 1,
            Put::Known => self.report.known += 1,
        }
        if let Some(record) = &examined.record {
            let (seq, head) = record.head;
            self.vouched_head(HeadItem { device: record.device, seq, digest: head }, digest)?;
        }
        self.loads.insert(examined.seal.load.to_string());
        Ok(())
    }

    fn put(&mut self, item: &RecordItem, examined: &Examined) -> Result<Put, AppError> {
        let inspector = examined.signer.credential.holder.to_string();
        let seal = &examined.seal;
        let Some(record) = &examined.record else {
            let row = bare_row(seal, &inspector, self.now);
            return Ok(self.tx.put_record(&NewRecord {
                row: &row,
                seal: &item.seal,
                body: None,
                deficiencies: &[],
                equipment: &[],
                words: "",
            })?);
        };
        let plan = match self.plans.get(&record.procedure_digest) {
            Some(plan) => plan.clone(),
            None => {
                let plan = expanded_of(self.tx, &record.procedure_digest, self.language)?;
                self.plans.insert(record.procedure_digest, plan.clone());
                plan
            }
        };
        // Whatever is wrong inside a record is the record's fault, and no damage of this home.
        let (walk, tag) = walk_from(record, plan).map_err(AppError::bad_input)?;
        let row = columns(
            seal,
            &tag,
            &Digest::of(&record.tag),
            &inspector,
            seal.record,
            self.now,
            Some(record.device),
        );
        Ok(self.tx.put_record(&NewRecord {
            row: &row,
            seal: &item.seal,
            body: item.record.as_deref(),
            deficiencies: &deficiencies(&walk),
            equipment: &equipment(&tag),
            words: tag.description.as_str(),
        })?)
    }

    pub(super) fn finish(mut self) -> Result<BundleReport, AppError> {
        if self.more_aside > 0 {
            self.report.set_aside.push(SetAsideLine {
                place: "and after that".into(),
                kind: "more".into(),
                reason: format!(
                    "{} more, neither listed nor kept; ask the sender for the bundle again",
                    self.more_aside
                ),
            });
        }
        for load in &self.loads {
            restand_in(self.tx, load)?;
        }
        put_heads(self.tx, &self.heads)?;
        self.tx.trim_quarantine(MOST_ASIDE as u64, MOST_ASIDE_BYTES as u64)?;
        Ok(self.report)
    }
}
