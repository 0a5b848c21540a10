//! Everything beside the words of one load that a judgement is made of, and the judgement itself.

use slingseal_catalogue::audit as audit_words;

use super::kept::{Kept, add_pieces};
use super::trusted::trusted_of;
use super::verdicts::outline_of;
use super::words::{kind_of, open_word};
use crate::{AppError, Inner};
use slingseal_judgement::{
    Asked, Evidence, InspectionWord, LatestTrusted, LoadFacts, LoadJudgement, LoadState, LoadWord, Memory,
    Speaker, facts_of_load,
};
use slingseal_message::tag::Tag;
use slingseal_message::trust::{Authority, Trusted};
use slingseal_store::{InspectedFacts, Reader, SAID_PAGE, Tx, WordKind};
use slingseal_words::{LoadNumber, Time};

/// Everything beside the words of one load that a judgement is made of.
pub(crate) struct Knowledge {
    pub(crate) trusted: Trusted,
    pub(crate) now: Time,
    pub(crate) latest: Option<LatestTrusted>,
    pub(crate) memory: Memory,
    /// Inspections of the pieces on the tags of the loads that were asked of.
    pieces: Vec<InspectionWord>,
    /// Words that were opened under this trust already.
    opened: Vec<LoadWord>,
}

impl Knowledge {
    pub(crate) fn of(read: &Reader<'_>, trusted: Trusted, now: Time) -> Result<Self, AppError> {
        Self::beside(read, trusted, now, Vec::new())
    }

    /// The same beside words that were opened just now: where they are kept, they are not opened again.
    pub(crate) fn beside(
        read: &Reader<'_>,
        mut trusted: Trusted,
        now: Time,
        opened: Vec<LoadWord>,
    ) -> Result<Self, AppError> {
        let latest = proven_past(read, &mut trusted, &opened)?;
        let memory = memory(read, &trusted)?;
        Ok(Self { trusted, now, latest, memory, pieces: Vec::new(), opened })
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
        let voids = read.voids_of_load(load.as_str())?;
        let kept = Kept::with(read, load, &mut self.trusted, &self.opened, voids)?;
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
    pub(crate) fn state(&self, row: &InspectedFacts<'_>, asked: &Asked<'_>) -> Option<LoadState> {
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
fn proven_past(
    read: &Reader<'_>,
    trusted: &mut Trusted,
    opened: &[LoadWord],
) -> Result<Option<LatestTrusted>, AppError> {
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
        latest = latest.max(last_said(read, kind, trusted, opened)?);
    }
    Ok(latest)
}

fn last_said(
    read: &Reader<'_>,
    kind: WordKind,
    trusted: &mut Trusted,
    opened: &[LoadWord],
) -> Result<Option<LatestTrusted>, AppError> {
    for page in 0.. {
        let words = read.said_last(kind, page)?;
        for bytes in &words {
            let proof = match opened.iter().find(|word| word.bytes() == bytes.as_slice()) {
                Some(word) => word.proves(trusted),
                None => {
                    let Ok(word) = open_word(kind_of(kind, bytes), bytes, trusted) else { continue };
                    word.proves(trusted)
                }
            };
            if proof.is_some() {
                return Ok(proof);
            }
        }
        if words.len() < SAID_PAGE as usize {
            break;
        }
    }
    Ok(None)
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
        Knowledge::of(&read, self.trusted()?, self.now())
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
}
