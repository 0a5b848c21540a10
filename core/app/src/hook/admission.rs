//! The one door through which a signed word comes into the home, whatever carried it: a scan, a bundle, a moving code, the page, or
//! this device's own signing.

use slingseal_catalogue::refusals as words;
use slingseal_catalogue::{Saying, faults as fault_words, movement as movement_words};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::AppError;
use crate::account::strays::{
    GaveWay, MOST_STRAY_BYTES, MOST_STRAYS, Origin, name_all_of, name_photos_and_tag,
};
use crate::account::{
    author_of, loads_naming, open_inspection, open_word, restand, restand_all, touched_by_trust, trusted_of,
    whole_again,
};
use crate::hook::ahead::{Full, OpenedWord, Opener, Plans, procedure_of};
use crate::procedures::expanded_of;
use crate::procedures::name_approved;
use crate::trust::authority::credential_row;
use crate::trust::rosters::not_told_otherwise;
use crate::walks::record::{bare_columns, columns, entry_digest, subject_kind};
use slingseal_account::sync::{HeadItem, Item, Unfit};
use slingseal_journal::DeviceId;
use slingseal_judgement::{Author, LoadWord};
use slingseal_message::closing::ClosingStatement;
use slingseal_message::envelope::Kind;
use slingseal_message::seal::{
    InspectedSubject, Outcome, ReceivedSeal, Record, Seal, SignedInspection, TagPrint,
};
use slingseal_message::tag::{ReceivedTag, Tag};
use slingseal_message::trust::{Credentialed, PublicKey, Role, Roster, Signer, Trusted};
use slingseal_store::{
    ClosingRow, InspectionRow, MovementRow, NewRecord, Put, Reader, RosterRow, StrayKind, TagRow, Tx, VoidRow,
};
use slingseal_walk::procedure::Expanded;
use slingseal_walk::walk::Walk;
use slingseal_words::{Digest, Language, LoadNumber, Name, Time};

/// Loads are judged anew after so many of their words at the latest: what is held until then stays small.
const MOST_FRESH: usize = 1_024;

/// Reports that nobody known signed, of one load and of all: a stranger can make them without end.
pub(crate) const MOST_UNKNOWN_OF_LOAD: usize = 64;
const MOST_UNKNOWN: u64 = 100_000;

/// Words coming in: one transaction.
pub(crate) struct Admission<'a, 'c> {
    pub(crate) tx: &'a Tx<'c>,
    pub(crate) trusted: Trusted,
    pub(crate) now: Time,
    language: Language,
    plans: Plans,
    /// Procedures that a record which came names, and that are written down as named.
    named: BTreeSet<Digest>,
    /// Words that came since their loads were judged last.
    fresh: BTreeMap<LoadNumber, Vec<LoadWord>>,
    waiting: usize,
    /// Counts how often trust changed: what was opened ahead under another is opened anew.
    trust: u64,
    /// Loads that a change of trust touched.
    touched: BTreeSet<String>,
    /// How many reports are here that nobody known signed and that were not written here; counted when it is first asked.
    unknown_movements: Option<u64>,
    /// Pieces of which an inspection came, by their serial numbers in capitals: loads that name them are judged anew.
    pieces: BTreeSet<String>,
    /// Strays that came since it was looked how many there are, and their bytes.
    strays: (u64, u64),
    gave_way: GaveWay,
}

/// Words that came in.
pub(crate) struct Admitted {
    pub(crate) trusted: Trusted,
    /// What was kept before and is gone now.
    pub(crate) gave_way: GaveWay,
}

/// A roster that was let in.
pub(crate) struct AdmittedRoster {
    pub(crate) authority: Name,
    pub(crate) roster: Roster,
    /// Whether it is newer than what was here.
    pub(crate) new: bool,
}

/// A seal that was let in.
pub(crate) struct AdmittedSeal {
    pub(crate) put: Put,
    /// The end of its device's journal, where its full record came along.
    pub(crate) head: Option<HeadItem>,
}

impl<'a, 'c> Admission<'a, 'c> {
    pub(crate) fn begin(tx: &'a Tx<'c>, now: Time, language: Language) -> Result<Self, AppError> {
        Ok(Self {
            tx,
            trusted: trusted_of(tx)?,
            now,
            language,
            plans: Plans::new(),
            named: BTreeSet::new(),
            fresh: BTreeMap::new(),
            waiting: 0,
            trust: 0,
            touched: BTreeSet::new(),
            unknown_movements: None,
            pieces: BTreeSet::new(),
            strays: (0, 0),
            gave_way: GaveWay::default(),
        })
    }

    /// Opens a word of a load.
    pub(crate) fn open(&mut self, kind: Kind, bytes: &[u8]) -> Result<LoadWord, AppError> {
        Ok(open_word(kind, bytes, &mut self.trusted)?)
    }

    /// A word that was opened ahead, under the trust of now.
    pub(crate) fn opened(&mut self, ahead: OpenedWord) -> Result<LoadWord, AppError> {
        let OpenedWord { word, trust } = ahead;
        if trust == Some(self.trust) { Ok(word) } else { self.open(word.kind(), word.bytes()) }
    }

    /// Tells an opener what the items before it will need: whom this home trusts now, and the procedures that they name.
    pub(crate) fn brief(&mut self, opener: &mut Opener, items: &[&Item]) {
        if opener.trust != Some(self.trust) {
            (opener.trust, opener.trusted) = (Some(self.trust), self.trusted.clone());
        }
        let named: BTreeSet<Digest> = items.iter().filter_map(|item| procedure_of(item)).collect();
        for digest in named {
            if opener.plans.contains_key(&digest) {
                continue;
            }
            // Where it is not here, whoever names it hears of that in its turn.
            if let Ok(plan) = self.plan(&digest) {
                opener.plans.insert(digest, plan);
            }
        }
    }

    /// A procedure written out, by the digest of its text.
    fn plan(&mut self, digest: &Digest) -> Result<Arc<Expanded>, AppError> {
        if let Some(plan) = self.plans.get(digest) {
            return Ok(plan.clone());
        }
        let plan = Arc::new(expanded_of(self.tx, digest, self.language)?);
        self.plans.insert(*digest, plan.clone());
        Ok(plan)
    }

    /// Keeps a seal that somebody stands behind whose authority is trusted; of one who may not inspect, as evidence. A full record
    /// that came with it, or that is here already, is attached where it says what the seal says.
    ///
    /// # Errors
    /// Nobody trusted stands behind it: nothing is kept. A full record that is not what was sealed: the seal is kept alone.
    pub(crate) fn seal(&mut self, word: &LoadWord, body: Option<&[u8]>) -> Result<AdmittedSeal, AppError> {
        self.seal_folded(word, body, None)
    }

    /// The same, where the full record that came with it was folded ahead.
    ///
    /// # Errors
    /// As `seal`.
    pub(crate) fn seal_folded(
        &mut self,
        word: &LoadWord,
        body: Option<&[u8]>,
        folded: Option<Full>,
    ) -> Result<AdmittedSeal, AppError> {
        let signer = signer_of(word)?;
        let Some(seal) = word.seal() else { return Err(AppError::internal("a seal says what a seal says")) };
        if let Some(row) = self.tx.record(word.digest())?
            && (row.device.is_some() || body.is_none())
        {
            return Ok(AdmittedSeal { put: Put::Known, head: None });
        }
        let (bytes, given) = match body {
            Some(body) => (Some(Cow::Borrowed(body)), true),
            None => (self.tx.body(seal.record)?.map(Cow::Owned), false),
        };
        let full = match (folded, bytes.as_deref()) {
            (Some(full), _) => Ok(Some(full)),
            (None, bytes) => bytes.map(|bytes| self.full(seal, word.digest(), bytes)).transpose(),
        };
        let (full, refused) = match full {
            Ok(full) => (full, None),
            Err(error) => (None, Some(error).filter(|_| given)),
        };
        let inspector = signer.credential.holder.to_string();
        let put = match (&full, &bytes) {
            (Some(full), Some(bytes)) => self.put_whole(word, seal, &inspector, full, bytes)?,
            _ => self.put_bare(word, seal, &inspector)?,
        };
        if given && let (Some(_), Some(bytes)) = (&full, &bytes) {
            self.attach(seal.record, bytes)?;
        }
        self.came(word)?;
        let head = full.filter(|_| given).map(|full| HeadItem {
            device: full.device,
            seq: full.head.0,
            digest: full.head.1,
        });
        refused.map_or(Ok(AdmittedSeal { put, head }), Err)
    }

    /// Attaches a full record that came to the other seals that name it.
    fn attach(&mut self, record: Digest, bytes: &[u8]) -> Result<(), AppError> {
        for row in self.tx.seals_lacking_record(record)? {
            let Some(seal_bytes) = self.tx.seal(row.seal)? else { continue };
            let Ok(word) = open_word(Kind::Seal, &seal_bytes, &mut self.trusted) else { continue };
            let Some(seal) = word.seal() else { continue };
            if let Ok(full) = self.full(seal, row.seal, bytes) {
                self.put_whole(&word, seal, &row.inspector, &full, bytes)?;
            }
        }
        Ok(())
    }

    fn put_whole(
        &mut self,
        word: &LoadWord,
        seal: &Seal,
        inspector: &str,
        full: &Full,
        body: &[u8],
    ) -> Result<Put, AppError> {
        let Full { tag, tag_digest, .. } = full;
        self.tx.put_walk_facts(&full.facts)?;
        if self.named.insert(full.procedure) {
            self.tx.put_named(full.procedure)?;
        }
        name_photos_and_tag(self.tx, &full.photos, *tag_digest)?;
        let mut row = columns(seal, word.digest(), tag, tag_digest, inspector, self.now, Some(full.device));
        row.author = author_of(word);
        Ok(self.tx.put_record(&NewRecord {
            row: &row,
            seal: word.bytes(),
            body: Some(body),
            deficiencies: &full.deficiencies,
            equipment: &full.equipment,
            words: tag.description.as_str(),
        })?)
    }

    /// What the tag tells is filled in where the very tag that was sealed is here.
    fn put_bare(&self, word: &LoadWord, seal: &Seal, inspector: &str) -> Result<Put, AppError> {
        let tags = self.tx.tags_of(seal.load.as_str())?;
        let held = tags.iter().find(|row| TagPrint::of(&row.digest) == seal.tag);
        if let Some(held) = held {
            self.tx.remove_stray(held.digest)?;
        }
        let held = held.and_then(|row| ReceivedTag::open(&row.bytes).ok());
        let own = word.digest();
        let mut row = match &held {
            Some(held) => columns(seal, own, &held.tag, &held.digest, inspector, self.now, None),
            None => bare_columns(seal, own, inspector, self.now),
        };
        row.author = author_of(word);
        Ok(self.tx.put_record(&NewRecord {
            row: &row,
            seal: word.bytes(),
            body: None,
            deficiencies: &[],
            equipment: &[],
            words: held.as_ref().map(|held| held.tag.description.as_str()).unwrap_or_default(),
        })?)
    }

    /// Folds a full record and holds it against its seal, whose own digest is `own`.
    fn full(&mut self, seal: &Seal, own: Digest, bytes: &[u8]) -> Result<Full, AppError> {
        Full::of(seal, own, bytes, |digest| self.plan(digest))
    }

    /// Keeps an inspection of what is no load; `false` where it was known. Its full record is kept where it is what was signed.
    ///
    /// # Errors
    /// Nobody trusted stands behind it, or not as an inspector, or the credential had run out; a record that is another.
    pub(crate) fn inspection(&mut self, bytes: &[u8], body: Option<&[u8]>) -> Result<bool, AppError> {
        let word = open_inspection(bytes, &mut self.trusted)?;
        let said = word.inspection();
        let Some(signer) = word.counts() else {
            let name = &said.name;
            return Err(match word.author() {
                Author::Known(signer) => {
                    let holder = &signer.credential.holder;
                    AppError::refused(words::InspectionByNoInspector { name, holder })
                }
                Author::Refused(error) => {
                    AppError::refused(words::InspectionRefused { name, error: error.to_string() })
                }
                Author::Unknown | Author::Nobody | Author::ThisDevice => {
                    AppError::refused(words::InspectionOfUnknownAuthority { name })
                }
            });
        };
        if let Some(body) = body {
            let name = &said.name;
            let record = inspected(said, body)
                .map_err(|about| AppError::refused(words::InspectionDisagrees { name, about }))?;
            name_all_of(self.tx, &record)?;
        }
        let name = said.name.as_str().to_ascii_uppercase();
        let new = self.tx.put_inspection(
            &InspectionRow {
                digest: word.digest(),
                subject: subject_kind(said.subject),
                name: name.clone(),
                procedure: said.edition.procedure.to_string(),
                version: said.edition.version,
                inspector: signer.credential.holder.to_string(),
                fit: said.outcome == Outcome::Fit,
                issued: said.issued,
                fit_until: said.fit_until,
                record: said.record,
                received: self.now,
                author: Some(slingseal_store::Author {
                    authority: signer.authority.to_bytes(),
                    key: signer.credential.key.to_bytes(),
                    credential: signer.id.0,
                    in_time: true,
                }),
                bytes: bytes.to_vec(),
            },
            body,
        )?;
        if new && said.subject == InspectedSubject::Piece {
            self.pieces.insert(name);
        }
        Ok(new)
    }

    /// Keeps a void; `false` where it was known.
    ///
    /// # Errors
    /// Nobody trusted stands behind it, or the credential had run out: it does not count.
    pub(crate) fn void(&mut self, word: &LoadWord) -> Result<bool, AppError> {
        let signer = signer_of(word)?;
        let Some(void) = word.void() else { return Err(AppError::internal("a void says what a void says")) };
        if void.issued > signer.credential.expires {
            return Err(AppError::refused(words::CredentialHadRunOutWhen {
                holder: &signer.credential.holder,
            }));
        }
        let new = self.tx.put_void(&VoidRow {
            digest: word.digest(),
            record: void.record,
            load: void.load.to_string(),
            issued: void.issued,
            received: self.now,
            author: author_of(word),
            bytes: word.bytes().to_vec(),
        })?;
        self.came(word)?;
        Ok(new)
    }

    /// Keeps a movement report; `false` where it was known, or where nobody known signed it and enough of that sort is here. `own`:
    /// this device wrote it just now.
    ///
    /// # Errors
    /// It is forged.
    pub(crate) fn movement(&mut self, word: &LoadWord, own: bool) -> Result<bool, AppError> {
        let Some(movement) = word.movement() else {
            return Err(AppError::internal("a report says what a report says"));
        };
        let signed = !matches!(word.author(), Author::Nobody | Author::ThisDevice);
        let unknown = !own && matches!(word.author(), Author::Nobody | Author::Unknown);
        if signed && !unknown {
            signer_of(word)?;
        }
        if unknown && !self.room_for_unknown(word)? {
            return Ok(false);
        }
        let new = self.tx.put_movement(&MovementRow {
            load: movement.load.to_string(),
            digest: word.digest(),
            event: movement.event.word().to_owned(),
            happened: movement.at(),
            issued: movement.issued,
            device: DeviceId(movement.device),
            before: movement.before,
            seal: movement.seal,
            own,
            signed,
            received: self.now,
            author: author_of(word),
            bytes: word.bytes().to_vec(),
        })?;
        if new {
            self.unknown_movements = self.unknown_movements.map(|all| all + u64::from(unknown));
            if !unknown {
                movement.photos.iter().try_for_each(|photo| self.tx.put_named(*photo))?;
            }
            self.came(word)?;
        }
        Ok(new)
    }

    /// Keeps a closing statement; whether it is new.
    ///
    /// # Errors
    /// It is forged; its authority is not trusted here; its signer is no leader, or the credential had run out.
    pub(crate) fn closing(&mut self, bytes: &[u8]) -> Result<((ClosingStatement, Signer), bool), AppError> {
        let (statement, message) = ClosingStatement::open(bytes)?;
        let signer = self.trusted.signer(Kind::Closing, &message)?;
        let credential = &signer.credential;
        if !credential.roles.has(Role::Leader) {
            return Err(AppError::refused(movement_words::ClosingOfNoLeader { who: &credential.holder }));
        }
        if statement.issued > credential.expires {
            return Err(AppError::refused(movement_words::ClosingCredentialRanOut {
                who: &credential.holder,
            }));
        }
        let author = slingseal_store::Author {
            authority: signer.authority.to_bytes(),
            key: credential.key.to_bytes(),
            credential: signer.id.0,
            in_time: true,
        };
        let new = self.tx.put_closing(&ClosingRow {
            digest: Digest::of(bytes),
            issued: statement.issued,
            received: self.now,
            author: Some(author),
            bytes: bytes.to_vec(),
        })?;
        Ok(((statement, signer), new))
    }

    /// Whether one more report that nobody known signed is kept. Of a load those with the lowest digests are, so that it does not matter in
    /// which order they come; in all, so many and no more.
    fn room_for_unknown(&mut self, word: &LoadWord) -> Result<bool, AppError> {
        let load = word.load().as_str();
        if self.tx.movement(load, word.digest())?.is_some() {
            return Ok(false);
        }
        let all = match self.unknown_movements {
            Some(all) => all,
            None => self.tx.unknown_movements()?,
        };
        self.unknown_movements = Some(all);
        let mut held: Vec<Digest> = self
            .tx
            .movements_of(load)?
            .into_iter()
            .filter(|row| row.author.is_none() && !row.own)
            .map(|row| row.digest)
            .collect();
        held.sort_unstable();
        if held.len() < MOST_UNKNOWN_OF_LOAD {
            return Ok(all < MOST_UNKNOWN);
        }
        match held.last() {
            Some(last) if word.digest() < *last => {
                self.tx.remove_unknown_movement(load, *last)?;
                self.unknown_movements = Some(all.saturating_sub(1));
                Ok(true)
            }
            _ => Ok(false),
        }
    }

    /// Keeps a tag; `false` where it was known.
    pub(crate) fn tag(&mut self, word: &LoadWord, planned: bool, origin: Origin) -> Result<bool, AppError> {
        // One that was only scanned and is a plan now comes onto the board.
        let given = planned && self.tx.tag(word.digest())?.is_some_and(|known| !known.planned);
        let new = self.tx.put_tag(&TagRow {
            digest: word.digest(),
            load: word.load().to_string(),
            planned,
            received: self.now,
            said: Some(word.issued()),
            author: author_of(word),
            bytes: word.bytes().to_vec(),
        })?;
        if new {
            self.name_seals_of(word)?;
        }
        if new || given {
            self.came(word)?;
        }
        if origin == Origin::Here {
            self.tx.remove_stray(word.digest())?;
        } else if new && word.signer().is_none() && !is_sealed(self.tx, word)? {
            self.count(StrayKind::Tag, word.digest(), word.bytes().len())?;
        }
        Ok(new)
    }

    /// Counts what was kept just now and nobody signed. How many there are is looked at now and then, so that nothing long grows
    /// the file on the way.
    pub(crate) fn count(&mut self, kind: StrayKind, digest: Digest, size: usize) -> Result<(), AppError> {
        if self.tx.is_named(digest)? {
            return Ok(());
        }
        let size = size as u64;
        self.tx.put_stray(kind, digest, size)?;
        self.strays = (self.strays.0 + 1, self.strays.1 + size);
        if self.strays.0 < MOST_STRAYS && self.strays.1 < MOST_STRAY_BYTES {
            return Ok(());
        }
        self.strays = (0, 0);
        self.gave_way.trim(self.tx)
    }

    /// Fills in what a tag tells at the seals of it that came before it.
    fn name_seals_of(&mut self, tag: &LoadWord) -> Result<(), AppError> {
        let rows = self.tx.records_of_load(tag.load().as_str())?;
        for row in rows.into_iter().filter(|row| row.tag.is_none()) {
            let Some(bytes) = self.tx.seal(row.seal)? else { continue };
            let Ok(word) = open_word(Kind::Seal, &bytes, &mut self.trusted) else { continue };
            if let Some(seal) = word.seal() {
                self.put_bare(&word, seal, &row.inspector)?;
            }
        }
        Ok(())
    }

    /// Keeps a roster. Whoever it revokes, or revokes no more, is judged anew.
    ///
    /// # Errors
    /// Its authority is not trusted here; it is forged; another of its number is known.
    pub(crate) fn roster(&mut self, bytes: &[u8]) -> Result<AdmittedRoster, AppError> {
        let id = Roster::authority(bytes)?;
        let mut last = AppError::refused(words::RosterComesFromAuthorityDevice);
        let keys: Vec<(PublicKey, Name)> =
            self.trusted.with_id(id).map(|authority| (authority.key, authority.name.clone())).collect();
        for (key, authority) in keys {
            let roster = match Roster::open(bytes, &key) {
                Ok(roster) => roster,
                Err(error) => {
                    last = error.into();
                    continue;
                }
            };
            let row = RosterRow {
                authority: key.to_bytes(),
                sequence: roster.sequence.into(),
                issued: roster.issued,
                received: self.now,
                bytes: bytes.to_vec(),
            };
            not_told_otherwise(self.tx, &row)?;
            let new = self.tx.put_roster(&row)?;
            if new {
                self.trust += 1;
                let mut before = std::mem::replace(&mut self.trusted, trusted_of(self.tx)?);
                let touched = touched_by_trust(self.tx, &mut before, &mut self.trusted)?;
                // Before too many strays give way: what this roster approves is none.
                name_approved(self.tx, &self.trusted)?;
                self.touched.extend(touched);
            }
            return Ok(AdmittedRoster { authority, roster, new });
        }
        Err(last)
    }

    /// Keeps a credential; `false` where it was known.
    ///
    /// # Errors
    /// Its authority is not trusted here; it is forged.
    pub(crate) fn credential(
        &mut self,
        bytes: &[u8],
        own: Option<PublicKey>,
    ) -> Result<(Signer, bool, bool), AppError> {
        let signer = self.trusted.credential(bytes)?;
        let credential = Credentialed::open(bytes)?.credential;
        let own = own == Some(credential.key);
        let row = credential_row(&credential, bytes, signer.authority.to_bytes(), self.now, own);
        let new = self.tx.put_credential(&row)?;
        Ok((signer, own, new))
    }

    /// Loads of which something new came are judged anew, a number of them together.
    fn came(&mut self, word: &LoadWord) -> Result<(), AppError> {
        self.fresh.entry(word.load().clone()).or_default().push(word.clone());
        self.waiting += 1;
        if self.waiting >= MOST_FRESH { self.judge_fresh() } else { Ok(()) }
    }

    fn judge_fresh(&mut self) -> Result<(), AppError> {
        self.waiting = 0;
        restand(self.tx, &std::mem::take(&mut self.fresh), &mut self.trusted)
    }

    /// Judges what is left, and leaves the time of it.
    pub(crate) fn finish(mut self) -> Result<Admitted, AppError> {
        self.gave_way.trim(self.tx)?;
        self.judge_fresh()?;
        self.touched.extend(loads_naming(self.tx, &self.pieces)?);
        let touched: Vec<String> = std::mem::take(&mut self.touched).into_iter().collect();
        restand_all(self.tx, &touched, &mut self.trusted)?;
        whole_again(self.tx, &self.trusted)?;
        self.tx.judged_at(self.now)?;
        Ok(Admitted { trusted: self.trusted, gave_way: self.gave_way })
    }
}

/// Whether a kept seal is of this tag: unsigned as it may be, whoever sealed stands for it.
pub(crate) fn is_sealed(read: &Reader<'_>, tag: &LoadWord) -> Result<bool, AppError> {
    let print = TagPrint::of(&tag.digest());
    for row in read.records_of_load(tag.load().as_str())? {
        let bytes = read.seal(row.seal)?;
        if bytes.is_some_and(|bytes| seal_of(&bytes).is_ok_and(|seal| seal.tag == print)) {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Holds a full record against the inspection that names it: the first thing in which they differ.
fn inspected(said: &SignedInspection, body: &[u8]) -> Result<Record, Saying> {
    if Digest::of(body) != said.record {
        return Err(fault_words::PartBytes.saying());
    }
    let record = Record::parse(body, &entry_digest).map_err(|_| fault_words::PartForm.saying())?;
    // A piece that was rejected on a load stands on that load's record, which found it not fit.
    let told = [
        (record.procedure == said.edition.procedure, fault_words::PartProcedure.saying()),
        (record.version == said.edition.version, fault_words::PartVersion.saying()),
        (
            record.procedure_digest.as_bytes().starts_with(&said.edition.thumbprint),
            fault_words::PartText.saying(),
        ),
        (record.outcome == said.outcome, fault_words::PartOutcome.saying()),
    ];
    match told.into_iter().find(|(same, _)| !same) {
        Some((_, about)) => Err(about),
        None => Ok(record),
    }
}

/// Whoever stands behind a word, where an authority that is trusted here stands behind that person.
fn signer_of(word: &LoadWord) -> Result<&Signer, AppError> {
    let load = word.load();
    match word.author() {
        Author::Known(signer) => Ok(signer),
        Author::Unknown => {
            Err(AppError::refused(words::LoadComesFromAuthorityDevice { load: &load, kind: word.kind() }))
        }
        Author::Refused(error) => Err(AppError::refused(words::OfLoad { load: &load, error: &error })),
        Author::Nobody | Author::ThisDevice => {
            Err(AppError::refused(words::LoadNobodySigned { load: &load, kind: word.kind() }))
        }
    }
}

/// Whether a walk and its tag tell the load, the mass and the counts that the seal tells. Beside what [`examine_body`] holds.
///
/// # Errors
/// The first thing in which they differ.
pub(crate) fn agrees(seal: &Seal, walk: &Walk, tag: &Tag) -> Result<(), Unfit> {
    let tally = walk.tally();
    let told = [
        (tag.load == seal.load, fault_words::PartLoad.saying()),
        (tag.gross == seal.mass, fault_words::PartMass.saying()),
        (tally.found == usize::from(seal.found), fault_words::PartFound.saying()),
        (tally.corrected == usize::from(seal.corrected), fault_words::PartCorrected.saying()),
    ];
    match told.into_iter().find(|(same, _)| !same) {
        Some((_, about)) => Err(Unfit::Disagree { load: seal.load.to_string(), about }),
        None => Ok(()),
    }
}

/// Reads a seal that is kept, for its words alone.
pub(crate) fn seal_of(bytes: &[u8]) -> Result<Seal, AppError> {
    Ok(ReceivedSeal::open(bytes)?.seal)
}
