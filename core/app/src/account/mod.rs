//! What this home knows of a load, as the judgement takes it, and what it keeps of the answer. Whoever in the facade asks whether a
//! word counts, which is the latest or how a load stands asks here, and here the judgement is asked.

pub(crate) mod audit;
pub(crate) mod bundles;
pub(crate) mod exchange;
pub(crate) mod heads;
pub(crate) mod merge;
pub(crate) mod records;
pub(crate) mod strays;

use slingseal_catalogue::audit as audit_words;
use std::collections::{BTreeMap, BTreeSet};

use crate::movements::flow::flow_row;
use crate::procedures::name_approved;
use crate::{AppError, Inner};
use slingseal_judgement::{
    Asked, Evidence, InspectionWord, LatestTrusted, LoadFacts, LoadJudgement, LoadState, LoadWord, Memory,
    Outline, PieceState, RULES, Speaker, Standing, WordError, facts_of_load, pieces_of, state_of_piece,
};
use slingseal_message::envelope::{Kind, Limits, Sign1};
use slingseal_message::seal::SealError;
use slingseal_message::tag::{ReceivedTag, Tag, kind_of_tag};
use slingseal_message::trust::{Authority, PublicKey, Role, Roster, Trusted, TrustedAuthority};
use slingseal_store::{
    Author, AuthoredRow, Judged, LoadRow, MovementRow, Reader, RecordRow, SAID_PAGE, TagRow, Tx, VoidRow,
    WordKind,
};
use slingseal_words::{Digest, LoadNumber, Name, Serial, Time};

/// Opens a word. The credential in it is checked once for all words that carry it.
pub(crate) fn open_word(kind: Kind, bytes: &[u8], trusted: &mut Trusted) -> Result<LoadWord, WordError> {
    remember(bytes, trusted);
    LoadWord::open(kind, bytes, trusted)
}

/// Checks the credential in a word, once for all words that carry it.
pub(crate) fn remember(bytes: &[u8], trusted: &mut Trusted) {
    if let Ok(message) = Sign1::parse(bytes, Limits::CODE)
        && let Some(credential) = message.header.credential
    {
        // What does not pass here is told by the word's author.
        let _ = trusted.remember(credential);
    }
}

/// Everyone whom this home trusts, with the newest roster of each.
pub(crate) fn trusted_of(read: &Reader<'_>) -> Result<Trusted, AppError> {
    let mut trusted = Trusted::default();
    for row in read.authorities()?.into_iter().filter(|row| row.trusted) {
        let damaged = |_| AppError::StorageDamaged { message: audit_words::TrustedKeyDamaged.into() };
        let key = PublicKey::from_bytes(&row.key).map_err(damaged)?;
        let roster = read.roster(&row.key)?;
        let roster = roster.map(|row| Roster::open(&row.bytes, &key)).transpose()?;
        trusted.add(TrustedAuthority { name: Name::received(&row.name)?, key, roster });
    }
    Ok(trusted)
}

/// What is kept of one load.
#[derive(Default)]
struct Kept {
    records: Vec<RecordRow>,
    voids: Vec<VoidRow>,
    tags: Vec<TagRow>,
    movements: Vec<MovementRow>,
    words: Vec<LoadWord>,
    /// Inspections of the pieces that its tags name.
    pieces: Vec<InspectionWord>,
}

impl Kept {
    fn of(read: &Reader<'_>, load: &LoadNumber, trusted: &mut Trusted) -> Result<Self, AppError> {
        Self::with(read, load, trusted, &[], read.voids_of_load(load.as_str())?)
    }

    /// `fresh` are words that were opened just now and are kept already, `voids` all that is kept of them. One that cannot be read any
    /// more is the audit's to name.
    fn with(
        read: &Reader<'_>,
        load: &LoadNumber,
        trusted: &mut Trusted,
        fresh: &[LoadWord],
        voids: Vec<VoidRow>,
    ) -> Result<Self, AppError> {
        let load = load.as_str();
        let (records, tags) = (read.records_of_load(load)?, read.tags_of(load)?);
        let opened: BTreeMap<Digest, &LoadWord> = fresh.iter().map(|word| (word.digest(), word)).collect();
        let mut words = Vec::new();
        let mut take = |kind, digest: Digest, bytes: &[u8]| match opened.get(&digest) {
            Some(word) => words.push((*word).clone()),
            None => words.extend(open_word(kind, bytes, trusted)),
        };
        for row in &records {
            match opened.get(&row.seal) {
                Some(word) => take(Kind::Seal, row.seal, word.bytes()),
                None => read.seal(row.seal)?.iter().for_each(|bytes| take(Kind::Seal, row.seal, bytes)),
            }
        }
        voids.iter().for_each(|row| take(Kind::Void, row.digest, &row.bytes));
        tags.iter().for_each(|row| take(kind_of_tag(&row.bytes), row.digest, &row.bytes));
        let movements = read.movements_of(load)?;
        for row in &movements {
            let Ok(word) = open_word(Kind::Movement, &row.bytes, trusted) else { continue };
            words.push(if row.own { word.written_here() } else { word });
        }
        let mut pieces = Vec::new();
        for tag in words.iter().filter_map(LoadWord::tag) {
            add_pieces(read, tag, trusted, &mut pieces)?;
        }
        Ok(Self { records, voids, tags, movements, words, pieces })
    }
}

/// Adds every inspection that is kept of the pieces that a tag names, each once.
fn add_pieces(
    read: &Reader<'_>,
    tag: &Tag,
    trusted: &mut Trusted,
    pieces: &mut Vec<InspectionWord>,
) -> Result<(), AppError> {
    for (_, serial) in pieces_of(tag) {
        for row in read.inspections_of_piece(&serial.as_str().to_ascii_uppercase())? {
            if pieces.iter().all(|known| known.digest() != row.digest) {
                pieces.extend(open_inspection(&row.bytes, trusted));
            }
        }
    }
    Ok(())
}

/// Opens an inspection of what is no load. The credential in it is checked once for all words that carry it.
pub(crate) fn open_inspection(bytes: &[u8], trusted: &mut Trusted) -> Result<InspectionWord, SealError> {
    remember(bytes, trusted);
    InspectionWord::open(bytes, trusted)
}

/// How a piece stands by the inspections of it that are kept; none where none counts.
pub(crate) fn piece_state(
    read: &Reader<'_>,
    serial: &Serial,
    trusted: &mut Trusted,
) -> Result<Option<PieceState>, AppError> {
    let mut words = Vec::new();
    for row in read.inspections_of_piece(&serial.as_str().to_ascii_uppercase())? {
        words.extend(open_inspection(&row.bytes, trusted));
    }
    Ok(state_of_piece(serial, &words, trusted))
}

/// Everything beside the words of one load that a judgement is made of.
pub(crate) struct Knowledge {
    pub(crate) trusted: Trusted,
    pub(crate) now: Time,
    pub(crate) latest: Option<LatestTrusted>,
    pub(crate) memory: Memory,
    /// Inspections of the pieces on the tags of the loads that were asked of.
    pieces: Vec<InspectionWord>,
}

impl Knowledge {
    pub(crate) fn of(read: &Reader<'_>, mut trusted: Trusted, now: Time) -> Result<Self, AppError> {
        let latest = proven_past(read, &mut trusted)?;
        let memory = memory(read, &trusted)?;
        Ok(Self { trusted, now, latest, memory, pieces: Vec::new() })
    }

    pub(crate) fn evidence<'e>(&'e self, words: &'e [&'e LoadWord]) -> Evidence<'e> {
        Evidence {
            trusted: &self.trusted,
            now: self.now,
            latest_trusted: self.latest.as_ref(),
            memory: self.memory,
            words,
            pieces: &self.pieces,
        }
    }

    pub(crate) fn asked(&self) -> Asked<'_> {
        self.evidence(&[]).asked(&[])
    }

    /// Every signed word that is kept of a load, opened.
    pub(crate) fn words(&mut self, read: &Reader<'_>, load: &LoadNumber) -> Result<Vec<LoadWord>, AppError> {
        let kept = Kept::of(read, load, &mut self.trusted)?;
        self.add_pieces(kept.pieces);
        Ok(kept.words)
    }

    fn add_pieces(&mut self, pieces: Vec<InspectionWord>) {
        for piece in pieces {
            if self.pieces.iter().all(|known| known.digest() != piece.digest()) {
                self.pieces.push(piece);
            }
        }
    }

    /// Takes what is kept of the pieces on a tag that is shown into account.
    pub(crate) fn know_pieces(&mut self, read: &Reader<'_>, tag: &Tag) -> Result<(), AppError> {
        add_pieces(read, tag, &mut self.trusted, &mut self.pieces)
    }

    /// What is found of every seal of a load.
    pub(crate) fn facts(&mut self, read: &Reader<'_>, load: &LoadNumber) -> Result<LoadFacts, AppError> {
        let words = self.words(read, load)?;
        let words: Vec<&LoadWord> = words.iter().collect();
        Ok(facts_of_load(load, &self.evidence(&words)))
    }

    /// How every seal of a load stands now, and the load with them.
    pub(crate) fn judge(&mut self, read: &Reader<'_>, load: &LoadNumber) -> Result<LoadJudgement, AppError> {
        let words = self.words(read, load)?;
        let words: Vec<&LoadWord> = words.iter().collect();
        let evidence = self.evidence(&words);
        Ok(facts_of_load(load, &evidence).at(&evidence.asked(&[])))
    }

    /// How a load stands now, of what was kept when it was judged last.
    pub(crate) fn state(&self, row: &LoadRow, asked: &Asked<'_>) -> Option<LoadState> {
        Some(outline_of(row, &self.trusted)?.at(asked))
    }
}

/// Whether this device still knows all that it took in. Once an older copy was put back, everyone trusted must have spoken since:
/// a revocation may have been lost with what is gone.
fn memory(read: &Reader<'_>, trusted: &Trusted) -> Result<Memory, AppError> {
    let Some(since) = read.memory()?.put_back else { return Ok(Memory::Whole) };
    let mut rosters = trusted.iter().map(|authority| authority.roster.as_ref()).peekable();
    let told =
        rosters.peek().is_some() && rosters.all(|roster| roster.is_some_and(|roster| roster.issued > since));
    Ok(if told { Memory::Whole } else { Memory::PutBack { since } })
}

/// The latest time that anything kept here proves to be past: this device's own clock when it judged or journalled, cards of
/// authorities, and words of people who were not revoked.
fn proven_past(read: &Reader<'_>, trusted: &mut Trusted) -> Result<Option<LatestTrusted>, AppError> {
    let own = read.memory()?.judged.max(read.journal_time()?);
    let mut latest = own.map(|time| LatestTrusted { time, by: Speaker::ThisDevice });
    for (_, card) in read.cards()? {
        let Ok(card) = Authority::open(&card) else { continue };
        let known = trusted.authority(&card.key);
        latest =
            latest.max(known.map(|known| LatestTrusted {
                time: card.issued,
                by: Speaker::Authority(known.name.clone()),
            }));
    }
    for kind in WordKind::ALL {
        latest = latest.max(last_said(read, kind, trusted)?);
    }
    Ok(latest)
}

fn last_said(
    read: &Reader<'_>,
    kind: WordKind,
    trusted: &mut Trusted,
) -> Result<Option<LatestTrusted>, AppError> {
    for page in 0.. {
        let words = read.said_last(kind, page)?;
        for bytes in &words {
            let Ok(word) = open_word(kind_of(kind, bytes), bytes, trusted) else { continue };
            if let Some(proof) = word.proves(trusted) {
                return Ok(Some(proof));
            }
        }
        if words.len() < SAID_PAGE as usize {
            break;
        }
    }
    Ok(None)
}

fn kind_of(kind: WordKind, bytes: &[u8]) -> Kind {
    match kind {
        WordKind::Seal => Kind::Seal,
        WordKind::Void => Kind::Void,
        WordKind::Movement => Kind::Movement,
        WordKind::Tag => kind_of_tag(bytes),
    }
}

/// Who signed a word, as the store keeps it.
pub(crate) fn author_of(word: &LoadWord) -> Option<Author> {
    let signer = word.signer()?;
    let credential = &signer.credential;
    let in_time =
        word.issued() <= credential.expires && (word.tag().is_none() || credential.roles.has(Role::Planner));
    Some(Author {
        authority: signer.authority.to_bytes(),
        key: credential.key.to_bytes(),
        credential: signer.id.0,
        in_time,
    })
}

fn judged(standing: &Standing) -> Judged {
    let (kept, successor) = match standing {
        Standing::Fit | Standing::Expired => (slingseal_store::Standing::Fit, None),
        Standing::NotFit => (slingseal_store::Standing::NotFit, None),
        Standing::Superseded { by, .. } => (slingseal_store::Standing::Superseded, Some(*by)),
        Standing::Voided => (slingseal_store::Standing::Voided, None),
        Standing::Refused(_) => (slingseal_store::Standing::Refused, None),
        Standing::Waits(_) => (slingseal_store::Standing::Waits, None),
        Standing::NoInspection(_) => (slingseal_store::Standing::NoInspection, None),
    };
    let reason = standing.reason().map(|reason| reason.code().to_owned()).unwrap_or_default();
    Judged { standing: kept, reason, successor, version: RULES }
}

/// A seal that cannot be read any more is evidence of nothing.
fn unreadable() -> Judged {
    Judged {
        standing: slingseal_store::Standing::NoInspection,
        reason: "unreadable".into(),
        successor: None,
        version: RULES,
    }
}

/// What is to be kept of a load: how each of its seals stands, and the load with them.
pub(crate) struct Verdicts {
    pub(crate) seals: BTreeMap<Digest, Judged>,
    pub(crate) load: Option<LoadRow>,
    /// The seal of its latest inspection.
    latest: Option<Digest>,
}

impl Verdicts {
    fn of(load: &LoadNumber, kept: &Kept, trusted: &Trusted) -> Self {
        let words: Vec<&LoadWord> = kept.words.iter().collect();
        let evidence = Evidence {
            trusted,
            now: Time::from_unix(0),
            latest_trusted: None,
            memory: Memory::Whole,
            words: &words,
            pieces: &kept.pieces,
        };
        let found = facts_of_load(load, &evidence);
        let seals = kept.records.iter().map(|row| {
            let judged = found.seals.get(&row.seal).map(|facts| judged(&facts.lasting()));
            (row.seal, judged.unwrap_or_else(unreadable))
        });
        let latest = found.latest.and_then(|latest| Some((latest, found.seals.get(&latest)?)));
        let load =
            latest.and_then(|(latest, facts)| Some(load_row(load, latest, &Outline::of(&facts.facts)?)));
        Self { seals: seals.collect(), load, latest: found.latest }
    }

    /// What would be kept of a load now.
    pub(crate) fn now(read: &Reader<'_>, load: &LoadNumber, trusted: &mut Trusted) -> Result<Self, AppError> {
        let kept = Kept::of(read, load, trusted)?;
        Ok(Self::of(load, &kept, trusted))
    }
}

fn load_row(load: &LoadNumber, latest: Digest, outline: &Outline) -> LoadRow {
    LoadRow {
        load: load.to_string(),
        latest,
        state: outline.lasting.word().to_owned(),
        issued: outline.issued,
        valid_until: outline.valid_until,
        turns: outline.turns,
        authorities: outline.authorities.iter().map(PublicKey::to_bytes).collect(),
        version: RULES,
    }
}

fn outline_of(row: &LoadRow, trusted: &Trusted) -> Option<Outline> {
    // A key that is trusted was opened already: opening it anew for each load is a third of a board of ten thousand.
    let key_of = |bytes: &[u8; 32]| {
        let known = trusted.iter().map(|authority| authority.key).find(|key| key.to_bytes() == *bytes);
        known.map_or_else(|| PublicKey::from_bytes(bytes), Ok)
    };
    let keys: Result<Vec<PublicKey>, _> = row.authorities.iter().map(key_of).collect();
    Some(Outline {
        lasting: LoadState::ALL.into_iter().find(|state| state.word() == row.state)?,
        issued: row.issued,
        valid_until: row.valid_until,
        turns: row.turns,
        authorities: keys.ok()?,
    })
}

/// Judges loads anew, each with words of it that were opened just now.
pub(crate) fn restand(
    tx: &Tx<'_>,
    loads: &BTreeMap<LoadNumber, Vec<LoadWord>>,
    trusted: &mut Trusted,
) -> Result<(), AppError> {
    // Voids are looked up without an index: once for all of these loads.
    let mut voids = tx.voids_of_loads(&loads.keys().map(LoadNumber::as_str).collect())?;
    for (load, fresh) in loads {
        restand_one(tx, load, trusted, fresh, voids.remove(load.as_str()).unwrap_or_default())?;
    }
    Ok(())
}

/// Judges a load anew and keeps what was said: how each of its seals stands, and the load with them.
fn restand_one(
    tx: &Tx<'_>,
    load: &LoadNumber,
    trusted: &mut Trusted,
    fresh: &[LoadWord],
    voids: Vec<VoidRow>,
) -> Result<(), AppError> {
    let kept = Kept::with(tx, load, trusted, fresh, voids)?;
    let words: BTreeMap<Digest, &LoadWord> = kept.words.iter().map(|word| (word.digest(), word)).collect();
    let author = |digest: &Digest| words.get(digest).and_then(|word| author_of(word));
    let verdicts = Verdicts::of(load, &kept, trusted);
    for row in &kept.records {
        let now = author(&row.seal);
        if row.author != now {
            tx.set_author(row.seal, now.as_ref())?;
        }
        if let Some(judged) = verdicts.seals.get(&row.seal).filter(|judged| **judged != row.judged) {
            tx.set_judged(row.seal, judged)?;
        }
    }
    for row in &kept.voids {
        let now = author(&row.digest);
        if row.author != now {
            tx.set_void_author(row.digest, now.as_ref())?;
        }
    }
    for row in &kept.tags {
        let Some(word) = words.get(&row.digest) else { continue };
        let now = author_of(word);
        if row.author != now || row.said != Some(word.issued()) {
            tx.set_tag_author(row.digest, word.issued(), now.as_ref())?;
        }
    }
    for row in &kept.movements {
        let now = author(&row.digest);
        if row.author != now {
            tx.set_movement_author(row, now.as_ref())?;
        }
    }
    let given = kept.tags.iter().any(|row| row.planned);
    if let Some(row) = flow_row(load, verdicts.latest, &kept.words, given, trusted)
        && tx.flow(load.as_str())?.as_ref() != Some(&row)
    {
        tx.put_flow(&row)?;
    }
    match verdicts.load {
        Some(row) if tx.load(load.as_str())?.as_ref() != Some(&row) => tx.put_load(&row)?,
        Some(_) => {}
        None => tx.remove_load(load.as_str())?,
    }
    Ok(())
}

/// So many loads are judged anew together.
const LOADS_AT_ONCE: usize = 1_024;

/// Judges loads by their numbers; what is no load number is left.
pub(crate) fn restand_all(tx: &Tx<'_>, loads: &[String], trusted: &mut Trusted) -> Result<(), AppError> {
    for some in loads.chunks(LOADS_AT_ONCE) {
        let loads = some.iter().filter_map(|load| Some((LoadNumber::new(load).ok()?, Vec::new())));
        restand(tx, &loads.collect(), trusted)?;
    }
    Ok(())
}

/// The loads that a change of trust touches: whose seals or tags somebody signed who is trusted or revoked otherwise than before, or
/// whose authority approves other procedures.
pub(crate) fn touched_by_trust(
    read: &Reader<'_>,
    before: &mut Trusted,
    after: &mut Trusted,
) -> Result<Vec<String>, AppError> {
    let mut loads = Vec::new();
    let is_new = |authority: &TrustedAuthority| before.authority(&authority.key).is_none();
    if after.iter().any(is_new) {
        loads.extend(read.loads_unsigned()?);
    }
    let gone: Vec<[u8; 32]> = before
        .iter()
        .filter(|authority| after.authority(&authority.key).is_none())
        .map(|authority| authority.key.to_bytes())
        .collect();
    let approved = |trusted: &Trusted, key: &PublicKey| {
        let roster = trusted.authority(key).and_then(|authority| authority.roster.as_ref());
        roster.map(|roster| roster.approved.clone())
    };
    let approving = after.iter().map(|authority| authority.key);
    let otherwise: Vec<[u8; 32]> = approving
        .filter(|key| approved(before, key) != approved(after, key))
        .map(|key| key.to_bytes())
        .collect();
    for authority in gone.iter().chain(&otherwise) {
        loads.extend(read.loads_of_authority(authority)?);
    }
    for AuthoredRow { kind, author, bytes } in read.authored()? {
        let revoked = |trusted: &mut Trusted| {
            let word = open_word(kind_of(kind, &bytes), &bytes, trusted).ok()?;
            word.signer().map(|signer| trusted.revoked(signer))
        };
        if revoked(before) != revoked(after) {
            loads.extend(read.loads_of_credential(author.credential)?);
        }
    }
    loads.extend(touched_by_inspectors(read, before, after, &otherwise)?);
    loads.sort_unstable();
    loads.dedup();
    Ok(loads)
}

/// The loads whose tags name a piece that somebody inspected who is trusted or revoked otherwise than before.
fn touched_by_inspectors(
    read: &Reader<'_>,
    before: &mut Trusted,
    after: &mut Trusted,
    otherwise: &[[u8; 32]],
) -> Result<BTreeSet<String>, AppError> {
    let mut serials = BTreeSet::new();
    for row in read.piece_inspectors()? {
        let counts = |trusted: &mut Trusted| {
            let word = open_inspection(&row.bytes, trusted).ok()?;
            word.counts().map(|signer| trusted.revoked(signer))
        };
        let lists = |trusted: &mut Trusted| {
            let word = open_inspection(&row.bytes, trusted).ok();
            word.and_then(|word| Some(otherwise.contains(&word.signer()?.authority.to_bytes())))
        };
        if (counts(before) != counts(after) || lists(after) == Some(true))
            && let Some(author) = row.author
        {
            serials.extend(read.pieces_of_credential(author.credential)?);
        }
    }
    loads_naming(read, &serials)
}

/// The loads whose tags name any of these serial numbers, in capitals.
pub(crate) fn loads_naming(
    read: &Reader<'_>,
    serials: &BTreeSet<String>,
) -> Result<BTreeSet<String>, AppError> {
    let mut loads = BTreeSet::new();
    if serials.is_empty() {
        return Ok(loads);
    }
    for serial in serials {
        loads.extend(read.loads_of_piece(serial)?);
    }
    for row in read.tags()? {
        let Ok(received) = ReceivedTag::open(&row.bytes) else { continue };
        let named = pieces_of(&received.tag);
        if named.iter().any(|(_, serial)| serials.contains(&serial.as_str().to_ascii_uppercase())) {
            loads.insert(row.load);
        }
    }
    Ok(loads)
}

/// To be called in the transaction that changed whom this home trusts, or whom they revoke.
pub(crate) fn trust_changed(tx: &Tx<'_>, before: &Trusted) -> Result<(), AppError> {
    let mut after = trusted_of(tx)?;
    let loads = touched_by_trust(tx, &mut before.clone(), &mut after)?;
    restand_all(tx, &loads, &mut after)?;
    name_approved(tx, &after)?;
    whole_again(tx, &after)
}

/// Forgets that an older copy was put back, once everyone trusted has spoken since.
pub(crate) fn whole_again(tx: &Tx<'_>, trusted: &Trusted) -> Result<(), AppError> {
    if tx.memory()?.put_back.is_some() && memory(tx, trusted)? == Memory::Whole {
        tx.memory_is_whole()?;
    }
    Ok(())
}

impl Inner {
    /// Everything beside the words of one load that a judgement is made of, now.
    pub(crate) fn knowledge(&self) -> Result<Knowledge, AppError> {
        let read = self.store.read();
        Knowledge::of(&read, trusted_of(&read)?, self.now())
    }

    /// How every seal of a load stands now, and the load with them.
    pub(crate) fn judge_load(&self, load: &LoadNumber) -> Result<LoadJudgement, AppError> {
        self.knowledge()?.judge(&self.store.read(), load)
    }

    /// What a person must know where an older copy of this home was put back.
    pub(crate) fn memory_notice(&self) -> Result<Option<String>, AppError> {
        let read = self.store.read();
        Ok(match memory(&read, &trusted_of(&read)?)? {
            // A home is no copy.
            Memory::Whole | Memory::Copied { .. } => None,
            Memory::PutBack { since } => {
                Some(audit_words::OlderCopyPutBack { since: since.dtg() }.say(self.language()))
            }
        })
    }

    /// Judges anew what another version of the rules has judged, or none: after a step of the schema, or a newer program.
    pub(crate) fn judge_what_is_older(&mut self) -> Result<(), AppError> {
        let loads = self.store.read().loads_not_judged_by(RULES)?;
        if loads.is_empty() {
            return Ok(());
        }
        self.store.write(|tx| restand_all(tx, &loads, &mut trusted_of(tx)?))
    }
}
