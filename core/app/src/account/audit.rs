//! The audit: this device's journal, every record's chain and signature, every paper; and what does not hold, by name.
//!
//! A home is a file on a device that its holder can open with other programs. So nothing here relies on a column that the
//! signed bytes do not say: columns are compared with them.

use slingseal_catalogue::audit as audit_words;
use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::account::Verdicts;
use crate::account::heads::heads;
use crate::account::strays::{MOST_STRAY_BYTES, MOST_STRAYS};
use crate::walks::entries::SEALED;
use crate::walks::full_record::agrees;
use crate::walks::record::{entry_digest, walk_of_record};
use crate::{App, AppError, Inner};
use slingseal_account::audit::{Chains, ColumnFault, DeviceName, Finding, Link, RecordFault, might_sign};
use slingseal_account::sync::{Examined, RecordItem, examine_record};
use slingseal_journal::verify_chain;
use slingseal_message::envelope::Kind;
use slingseal_message::seal::{Outcome, Record, Seal, Void};
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::{
    Authority, CredentialId, EditionStanding, PublicKey, Roster, Signer, Trusted, TrustedAuthority,
};
use slingseal_store::{Judged, LoadRow, RecordRow, StoreError};
use slingseal_words::{Digest, Language, LoadNumber, Name, Saying, same_person};

/// What the audit found.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct AuditView {
    /// Records looked at.
    pub records: u32,
    /// Journal entries of this device looked at.
    pub entries: u64,
    /// Rosters, credentials, voids, tags and cards looked at.
    pub papers: u32,
    /// What is wrong, the first first: this device's journal, then the records by the time of their seals, then papers.
    /// Empty where all holds.
    pub faults: Vec<String>,
    /// What cannot be told from here, though nothing is wrong on its face.
    pub notes: Vec<String>,
}

impl AuditView {
    /// Takes what was found, each to its kind.
    fn find(&mut self, found: Vec<Finding>, language: Language) {
        for finding in found {
            let list = if finding.is_fault() { &mut self.faults } else { &mut self.notes };
            list.push(finding.saying().say(language));
        }
    }
}

impl App {
    /// Walks this device's journal and every record's chain and signature, and names what is missing, rewritten, moved or
    /// from a forked device.
    ///
    /// # Errors
    /// Storage that cannot be read at all.
    pub fn audit(&self) -> Result<AuditView, AppError> {
        self.lock().audit(&mut |_| true)
    }

    /// The same, telling how far it is; it ends where the answer is `false`, and then says nothing of what it saw.
    ///
    /// # Errors
    /// Storage; it was stopped.
    pub fn audit_while(&self, goes_on: &mut dyn FnMut(AuditProgress) -> bool) -> Result<AuditView, AppError> {
        self.lock().audit(goes_on)
    }
}

/// How far an audit is: every record is looked at for itself, then every load with seals as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct AuditProgress {
    /// Records and loads looked at.
    pub done: u64,
    /// Of so many.
    pub of: u64,
}

/// Counts what an audit looks at.
struct Counted<'g> {
    goes_on: &'g mut dyn FnMut(AuditProgress) -> bool,
    progress: AuditProgress,
}

impl Counted<'_> {
    fn one(&mut self) -> Result<(), AppError> {
        self.progress.done += 1;
        let told = !self.progress.done.is_multiple_of(16) || (self.goes_on)(self.progress);
        if told { Ok(()) } else { Err(AppError::refused(audit_words::AuditStopped)) }
    }
}

/// How much of a record a message tells: enough to find it.
fn name(row: &RecordRow) -> Saying {
    audit_words::RecordOfLoad { record: row.digest.short(), load: &row.load }.into()
}

impl Inner {
    fn audit(&self, goes_on: &mut dyn FnMut(AuditProgress) -> bool) -> Result<AuditView, AppError> {
        let mut view = AuditView::default();
        let read = self.store.read();
        let known = read.records_known()?.len() + read.loads_with_seals()?.len();
        let of = u64::try_from(known).unwrap_or(u64::MAX);
        let mut counted = Counted { goes_on, progress: AuditProgress { done: 0, of } };
        if !(counted.goes_on)(counted.progress) {
            return Err(AppError::refused(audit_words::AuditStopped));
        }
        view.faults.extend(self.opened.set_aside.as_ref().map(ToString::to_string));
        view.faults.extend(self.opened.lost.as_ref().map(ToString::to_string));
        let in_journal = match read.verify_journal()? {
            Ok(head) => {
                view.entries = head.seq;
                None
            }
            Err(fault) => {
                view.entries = fault.seq();
                view.faults.push(audit_words::OwnJournal { fault: &fault }.say(self.language()));
                Some(fault.to_string())
            }
        };
        view.faults.extend(read.check()?.into_iter().filter(|fault| Some(fault) != in_journal.as_ref()));
        let trusted = self.trusted_for_audit(&mut view)?;
        self.audit_own_seals(&mut view)?;
        let faulty = self.audit_records(&trusted, &mut view, &mut counted)?;
        self.audit_papers(&trusted, &mut view)?;
        self.audit_standings(&trusted, &faulty, &mut view, &mut counted)?;
        let (looked, faults) = self.exam_faults(&trusted)?;
        view.papers += looked;
        view.faults.extend(faults);
        view.faults.dedup();
        let (strays, bytes) = read.strays_size()?;
        if strays >= MOST_STRAYS / 2 || bytes >= MOST_STRAY_BYTES / 2 {
            let (size, most, most_size) = (bytes >> 20, MOST_STRAYS, MOST_STRAY_BYTES >> 20);
            view.notes.push(audit_words::StraysKept { strays, size, most, most_size }.say(self.language()));
        }
        Ok(view)
    }

    /// Whom this device trusts; a roster that does not hold is a fault, and is left out.
    fn trusted_for_audit(&self, view: &mut AuditView) -> Result<Trusted, AppError> {
        let read = self.store.read();
        let mut trusted = Trusted::default();
        for row in read.authorities()? {
            view.papers += 1;
            let (key, name) = match (PublicKey::from_bytes(&row.key), Name::received(&row.name)) {
                (Ok(key), Ok(name)) => (key, name),
                _ => {
                    view.faults.push(audit_words::AuthorityKeyWrong { name: &row.name }.say(self.language()));
                    continue;
                }
            };
            match Authority::open(&row.bytes) {
                Ok(card) if card.key == key && card.name == name => {}
                Ok(_) => {
                    view.faults.push(audit_words::AuthorityNotOfCard { name: &name }.say(self.language()))
                }
                Err(error) => view.faults.push(
                    audit_words::AuthorityCardWrong { name: &name, error: &error }.say(self.language()),
                ),
            }
            let mut roster = None;
            if let Some(kept) = read.roster(&row.key)? {
                view.papers += 1;
                match Roster::open(&kept.bytes, &key) {
                    Ok(opened)
                        if u64::from(opened.sequence) == kept.sequence && opened.issued == kept.issued =>
                    {
                        roster = Some(opened);
                    }
                    Ok(_) => {
                        view.faults.push(audit_words::RosterOtherNumber { name: &name }.say(self.language()))
                    }
                    Err(error) => view
                        .faults
                        .push(audit_words::RosterWrong { name: &name, error: &error }.say(self.language())),
                }
            }
            if row.trusted {
                trusted.add(TrustedAuthority { name, key, roster });
            }
        }
        Ok(trusted)
    }

    /// Every record that this device's journal says was sealed here must be here, whole.
    fn audit_own_seals(&self, view: &mut AuditView) -> Result<(), AppError> {
        let read = self.store.read();
        for entry in read.entries_of_kind(SEALED)? {
            let Some(digest) = Digest::from_slice(&entry.body) else { continue };
            let (at, seq) = (entry.time.dtg(), entry.seq);
            let named = match decayed(read.seals_of_record(digest))? {
                Ok(named) => named,
                // A row that decayed is named where the rows are looked at.
                Err(_) => continue,
            };
            let mut whole = false;
            for row in &named {
                let bytes = decayed(read.record_bytes(row.seal))?;
                whole |= bytes.is_err()
                    || bytes.is_ok_and(|bytes| bytes.is_some_and(|bytes| bytes.body.is_some()));
            }
            match (whole, named.is_empty()) {
                (true, _) => {}
                (false, true) => {
                    let said = audit_words::SealedIsMissing { record: digest.short(), at, seq };
                    view.faults.push(said.say(self.language()));
                }
                (false, false) => {
                    let said = audit_words::SealedLostWalk { record: digest.short(), at, seq };
                    view.faults.push(said.say(self.language()));
                }
            }
        }
        for row in read.walks_in_hand()? {
            if let Err(error) = decayed(read.entries_of(row.id))? {
                let said = audit_words::WalkOfLoad { load: &row.load, error };
                view.faults.push(said.say(self.language()));
            }
        }
        Ok(())
    }

    fn audit_records(
        &self,
        trusted: &Trusted,
        view: &mut AuditView,
        counted: &mut Counted<'_>,
    ) -> Result<BTreeSet<Digest>, AppError> {
        let read = self.store.read();
        let (mut chains, mut faulty) = (Chains::default(), BTreeSet::new());
        let mut known = read.records_known()?;
        known.sort_unstable();
        for (_, seal, digest, _) in &known {
            counted.one()?;
            view.records += 1;
            let (row, bytes) = match (decayed(read.record(*seal))?, decayed(read.record_bytes(*seal))?) {
                (Ok(Some(row)), Ok(Some(bytes))) => (row, bytes),
                (Err(what), _) | (_, Err(what)) => {
                    let said = audit_words::RecordAlone { record: digest.short(), what };
                    view.faults.push(said.say(self.language()));
                    continue;
                }
                _ => continue,
            };
            let item = RecordItem { seal: bytes.seal, record: bytes.body };
            if let Err(what) = self.audit_record(trusted, &row, &item, &mut chains, view)? {
                faulty.insert(row.seal);
                let said = audit_words::ThingWrong { what: name(&row), error: &what };
                view.faults.push(said.say(self.language()));
            }
        }
        let mut whole: BTreeMap<Digest, bool> = BTreeMap::new();
        for (_, _, digest, here) in &known {
            *whole.entry(*digest).or_default() |= here;
        }
        view.find(chains.missing(&whole), self.language());
        self.audit_heads(&chains, view)?;
        view.find(chains.gaps(&self.store.device().0), self.language());
        Ok(faulty)
    }

    /// One record: the first thing that is wrong with it.
    fn audit_record(
        &self,
        trusted: &Trusted,
        row: &RecordRow,
        item: &RecordItem,
        chains: &mut Chains,
        view: &mut AuditView,
    ) -> Result<Result<(), RecordFault>, AppError> {
        let examined = match examine_record(item, trusted, &entry_digest) {
            Ok(examined) => examined,
            Err(unfit) => return Ok(Err(RecordFault::Unfit(unfit.saying()))),
        };
        if let Err(what) = fits_its_row(row, Digest::of(&item.seal), &examined) {
            return Ok(Err(what.into()));
        }
        if let Err(what) = might_sign(&examined.seal, &examined.signer) {
            let said = audit_words::KeptAsEvidence { record: name(row), what: &what };
            view.notes.push(said.say(self.language()));
        }
        let Some(record) = &examined.record else { return Ok(Ok(())) };
        if let Err(what) = chains.take(record, row.digest, &entry_digest) {
            return Ok(Err(what.into()));
        }
        if record.device == self.store.device().0
            && let Err(what) = self.is_in_the_journal(record)?
        {
            return Ok(Err(what));
        }
        if !same_person(&record.inspector, &examined.signer.credential.holder) {
            return Ok(Err(RecordFault::Inspectors {
                walked: record.inspector.clone(),
                sealed: examined.signer.credential.holder.clone(),
            }));
        }
        let (walk, tag) = match walk_of_record(self, record) {
            Ok(folded) => folded,
            // Its procedure may not be here: then the walk cannot be followed, which is no fault of the record.
            Err(error @ AppError::NotFound { .. }) => {
                let said = audit_words::ThingWrong { what: name(row), error: error.saying() };
                view.notes.push(said.say(self.language()));
                return Ok(Ok(()));
            }
            Err(error) => return Ok(Err(RecordFault::Unfit(error.saying().clone()))),
        };
        let tally = walk.tally();
        let (found, corrected) = (usize::from(examined.seal.found), usize::from(examined.seal.corrected));
        if (tally.found, tally.corrected) != (found, corrected) {
            return Ok(Err(RecordFault::Counts {
                sealed: (found, corrected),
                walked: (tally.found, tally.corrected),
            }));
        }
        if let Err(unfit) = agrees(&examined.seal, &walk, &tag) {
            return Ok(Err(RecordFault::Unfit(unfit.saying())));
        }
        Ok(is_what_was_approved(&examined.seal, record, &examined.signer, trusted))
    }

    /// What is kept of the judgement is what it says now, for every seal and every load. Of loads with a seal that does not hold
    /// (`faulty`) that was said already.
    fn audit_standings(
        &self,
        trusted: &Trusted,
        faulty: &BTreeSet<Digest>,
        view: &mut AuditView,
        counted: &mut Counted<'_>,
    ) -> Result<(), AppError> {
        let read = self.store.read();
        let mut trusted = trusted.clone();
        for number in read.loads_with_seals()? {
            counted.one()?;
            let Ok(load) = LoadNumber::new(&number) else { continue };
            let rows = decayed(read.records_of_load(&number))?.unwrap_or_default();
            let kept = decayed(read.load(&number))?.unwrap_or_default();
            let mut seals = rows.iter().map(|row| row.seal).chain(kept.iter().map(|kept| kept.latest));
            if seals.any(|seal| faulty.contains(&seal)) {
                continue;
            }
            let now = match Verdicts::now(&read, &load, &mut trusted) {
                Ok(now) => now,
                // What decayed is named where the rows are looked at.
                Err(AppError::StorageDamaged { .. }) => continue,
                Err(error) => return Err(error),
            };
            let before = view.faults.len();
            for row in rows {
                let Some(said) = now.seals.get(&row.seal).filter(|said| **said != row.judged) else {
                    continue;
                };
                let words = |judged: &Judged| match judged.reason.as_str() {
                    "" => judged.standing.word().to_owned(),
                    reason => format!("{} ({reason})", judged.standing.word()),
                };
                let (is, kept) = (words(said), words(&row.judged));
                let said = audit_words::LineSaysOtherwise { record: name(&row), kept, is };
                view.faults.push(said.say(self.language()));
            }
            // Where a seal stands otherwise, the load does too.
            if kept != now.load && view.faults.len() == before {
                let state = |row: &Option<LoadRow>| {
                    row.as_ref().map_or(audit_words::WithoutInspection.saying(), |row| {
                        audit_words::StateBySeal { state: row.state.to_string(), seal: row.latest.short() }
                            .into()
                    })
                };
                let (load, kept, is) = (number.to_string(), state(&kept), state(&now.load));
                let said = audit_words::LoadSaysOtherwise { load, kept, is };
                view.faults.push(said.say(self.language()));
            }
        }
        Ok(())
    }

    /// This device's own record: every entry of it is the journal's.
    fn is_in_the_journal(&self, record: &Record) -> Result<Result<(), RecordFault>, AppError> {
        let read = self.store.read();
        let entries = record.entries.iter().map(|entry| (entry.seq, entry_digest(entry, &record.walk)));
        for (seq, digest) in entries.chain([record.head]) {
            match decayed(read.entry(seq))? {
                Ok(Some(entry)) if entry.digest == digest => {}
                Ok(Some(_)) => return Ok(Err(RecordFault::JournalOtherwise { seq })),
                Ok(None) => return Ok(Err(RecordFault::JournalLost { seq })),
                Err(what) => return Ok(Err(RecordFault::Unfit(what.into()))),
            }
        }
        Ok(Ok(()))
    }

    /// The ends of journals that bundles told, and what is kept of other devices' journals.
    fn audit_heads(&self, chains: &Chains, view: &mut AuditView) -> Result<(), AppError> {
        let read = self.store.read();
        view.find(chains.against(&heads(&read)?), self.language());
        for (device, _) in read.foreign_devices()? {
            let entries = read.foreign_entries(device)?;
            // A piece of a journal is checked from its first entry on: what stood before it is not known here.
            let from_the_first = entries.first().is_some_and(|entry| entry.seq == 1);
            if from_the_first && let Err(fault) = verify_chain(device, &entries) {
                view.faults.push(
                    audit_words::JournalOfDevice { device: DeviceName(device.0).to_string(), fault: &fault }
                        .say(self.language()),
                );
            }
            let links: Vec<Link> = entries
                .iter()
                .map(|entry| Link { seq: entry.seq, prev: entry.prev, digest: entry.digest })
                .collect();
            view.find(chains.piece(device.0, &links, from_the_first), self.language());
        }
        Ok(())
    }

    fn audit_papers(&self, trusted: &Trusted, view: &mut AuditView) -> Result<(), AppError> {
        let read = self.store.read();
        for row in decayed(read.voids())?.unwrap_or_default() {
            view.papers += 1;
            let what = audit_words::VoidOfLoad { void: row.digest.short(), load: &row.load }.saying();
            match Void::open(&row.bytes) {
                Err(error) => view
                    .faults
                    .push(audit_words::ThingWrong { what: &what, error: &error }.say(self.language())),
                Ok((void, message)) => {
                    if let Err(error) = trusted.signer(Kind::Void, &message) {
                        view.faults.push(
                            audit_words::ThingWrong { what: &what, error: &error }.say(self.language()),
                        );
                    } else if (void.record, void.load.as_str()) != (row.record, row.load.as_str())
                        || Digest::of(&row.bytes) != row.digest
                    {
                        view.faults.push(audit_words::RowOtherwise { what: &what }.say(self.language()));
                    }
                }
            }
        }
        for row in decayed(read.credentials())?.unwrap_or_default() {
            view.papers += 1;
            if let Err(error) = trusted.credential(&row.bytes) {
                let id = CredentialId::of(&row.bytes);
                let said = audit_words::CredentialWrong { id: id.to_string(), holder: &row.holder, error };
                view.faults.push(said.say(self.language()));
            }
        }
        for row in decayed(read.tags())?.unwrap_or_default() {
            view.papers += 1;
            match ReceivedTag::open(&row.bytes) {
                Ok(tag) if tag.digest == row.digest && tag.tag.load.as_str() == row.load => {}
                Ok(_) => {
                    let what = audit_words::TagOfLoad { load: &row.load }.saying();
                    view.faults.push(audit_words::RowOtherwise { what }.say(self.language()));
                }
                Err(error) => {
                    let what = audit_words::TagOfLoad { load: &row.load }.saying();
                    view.faults.push(audit_words::ThingWrong { what, error }.say(self.language()));
                }
            }
        }
        Ok(())
    }
}

/// Damage is what an audit is there to find: it goes on, and the store's own check names the row.
fn decayed<T>(answer: Result<T, StoreError>) -> Result<Result<T, String>, AppError> {
    match answer {
        Ok(answer) => Ok(Ok(answer)),
        Err(StoreError::Damaged { what }) => Ok(Err(what)),
        Err(error) => Err(error.into()),
    }
}

/// The columns by which a record is listed and counted are what its seal says.
fn fits_its_row(row: &RecordRow, own: Digest, examined: &Examined) -> Result<(), ColumnFault> {
    let seal = &examined.seal;
    let fit = row.outcome == slingseal_store::Outcome::Fit;
    let counts = (row.found, row.corrected) == (seal.found.into(), seal.corrected.into());
    let walked = examined.record.as_ref().map(|record| Digest::of(&record.tag));
    let wrong = [
        (row.digest != seal.record, ColumnFault::Record),
        (row.seal != own, ColumnFault::Seal),
        (row.load != seal.load.as_str(), ColumnFault::Load),
        (fit != (seal.outcome == Outcome::Fit), ColumnFault::Outcome),
        (row.inspector != examined.signer.credential.holder.as_str(), ColumnFault::Inspector),
        (row.procedure != seal.procedure.as_str(), ColumnFault::Procedure),
        (row.issued != seal.issued, ColumnFault::Issued),
        (row.valid_until != seal.valid_until, ColumnFault::Validity),
        (!counts, ColumnFault::Counts),
        (walked.is_some() && row.tag != walked, ColumnFault::Tag),
    ];
    wrong.into_iter().find(|(wrong, _)| *wrong).map_or(Ok(()), |(_, fault)| Err(fault))
}

/// A seal has four bytes of its edition's digest, the record all of them: where an approval fits the four, it must fit the rest.
fn is_what_was_approved(
    seal: &Seal,
    record: &Record,
    signer: &Signer,
    trusted: &Trusted,
) -> Result<(), RecordFault> {
    let authority = trusted.authority(&signer.authority);
    let Some((authority, roster)) = authority.and_then(|one| Some((one, one.roster.as_ref()?))) else {
        return Ok(());
    };
    let at = |print: &[u8]| roster.edition(&seal.procedure, seal.version, print, seal.issued);
    let whole = record.procedure_digest.as_bytes().first_chunk::<16>().copied().unwrap_or_default();
    if at(&seal.procedure_print) == EditionStanding::Approved && at(&whole) != EditionStanding::Approved {
        return Err(RecordFault::Unfit(
            audit_words::AnotherTextApproved {
                authority: &authority.name,
                procedure: &seal.procedure,
                version: seal.version.to_string(),
            }
            .into(),
        ));
    }
    Ok(())
}
