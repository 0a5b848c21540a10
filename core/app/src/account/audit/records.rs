//! The records: each held against its seal, its row, the journal, and what its list allows.

use std::collections::{BTreeMap, BTreeSet};

use super::journals::{Journals, in_their_order};
use super::{AuditView, Counted, decayed, name};
use crate::procedures::plans::Plans;
use crate::walks::entries::SEALED;
use crate::walks::full_record::agrees;
use crate::walks::record::{entry_digest, walk_from};
use crate::{AppError, Inner};
use slingseal_account::audit::{Chain, ColumnFault, RecordFault, might_sign};
use slingseal_account::sync::{Examined, RecordItem, examine_record};
use slingseal_catalogue::audit as audit_words;
use slingseal_message::seal::{Outcome, Record, Seal};
use slingseal_message::trust::{EditionStanding, Signer, Trusted};
use slingseal_store::RecordRow;
use slingseal_words::{Digest, same_person};

impl Inner {
    /// Every record that this device's journal says was sealed here must be here, whole.
    pub(super) fn audit_own_seals(&self, view: &mut AuditView) -> Result<(), AppError> {
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

    pub(super) fn audit_records(
        &self,
        trusted: &Trusted,
        view: &mut AuditView,
        counted: &mut Counted<'_>,
    ) -> Result<BTreeSet<Digest>, AppError> {
        let read = self.store.read();
        let known = read.records_known()?;
        let mut whole: BTreeMap<Digest, bool> = BTreeMap::new();
        for (_, _, digest, here) in &known {
            *whole.entry(*digest).or_default() |= here;
        }
        let places = in_their_order(&read, &known, counted)?;
        drop(known);
        let (mut journals, mut plans) = (Journals::new(self, whole)?, Plans::default());
        let (mut faults, mut notes, mut faulty) = (Vec::new(), Vec::new(), BTreeSet::new());
        for place in &places {
            counted.one()?;
            view.records += 1;
            let turn = (place.issued, place.seal);
            let kept = (decayed(read.record(place.seal))?, decayed(read.record_bytes(place.seal))?);
            let (row, bytes) = match kept {
                (Ok(Some(row)), Ok(Some(bytes))) => (row, bytes),
                (Err(what), _) | (_, Err(what)) => {
                    let said = audit_words::RecordAlone { record: place.record.short(), what };
                    faults.push((turn, said.say(self.language())));
                    continue;
                }
                _ => continue,
            };
            let item = RecordItem { seal: bytes.seal, record: bytes.body };
            let mut said = Vec::new();
            let chain = journals.at(place)?;
            if let Err(what) = self.audit_record(trusted, &row, &item, chain, &mut plans, &mut said)? {
                faulty.insert(row.seal);
                let said = audit_words::ThingWrong { what: name(&row), error: &what };
                faults.push((turn, said.say(self.language())));
            }
            notes.extend(said.into_iter().map(|note| (turn, note)));
        }
        // By the time of their seals, whatever the order in which they were looked at.
        faults.sort_by_key(|(turn, _)| *turn);
        notes.sort_by_key(|(turn, _)| *turn);
        view.faults.extend(faults.into_iter().map(|(_, said)| said));
        view.notes.extend(notes.into_iter().map(|(_, said)| said));
        journals.end(view)?;
        Ok(faulty)
    }

    /// One record: the first thing that is wrong with it.
    fn audit_record(
        &self,
        trusted: &Trusted,
        row: &RecordRow,
        item: &RecordItem,
        chain: Option<&mut Chain>,
        plans: &mut Plans,
        notes: &mut Vec<String>,
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
            notes.push(said.say(self.language()));
        }
        let Some(record) = &examined.record else { return Ok(Ok(())) };
        if let Some(chain) = chain
            && let Err(what) = chain.take(record, row.digest, &entry_digest)
        {
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
        let plan = match plans.of(&self.store.read(), &record.procedure_digest, self.language()) {
            Ok(plan) => plan,
            // Its procedure may not be here: then the walk cannot be followed, which is no fault of the record.
            Err(error @ AppError::NotFound { .. }) => {
                let said = audit_words::ThingWrong { what: name(row), error: error.saying() };
                notes.push(said.say(self.language()));
                return Ok(Ok(()));
            }
            Err(error) => return Ok(Err(RecordFault::Unfit(error.saying().clone()))),
        };
        let (walk, tag) = match walk_from(record, plan) {
            Ok(folded) => folded,
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
