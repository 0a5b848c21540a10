//! A common place of many desks, as a home sees it: what is here and may be missing there, and taking in what others put there.
//! Whatever comes goes through the one door of admission, as a bundle does; how far was read is kept in the same transaction.

mod page;
mod word;

use std::collections::{BTreeSet, HashSet};
use std::ops::Range;

pub use self::page::{ExchangeIntake, ExchangePage};
pub use self::word::{ExchangePosition, ExchangeWord, word_limit};
use crate::account::bundles::{inspection_item, papers};
use crate::account::lots::Lot;
use crate::account::trusted_of;
use crate::procedures::comes_with_the_program;
use crate::{App, AppError, BundleReport, Inner};
use slingseal_account::sync::{HeadItem, ItemKind, PlaceState, Position, RecordItem, ServerState, word_key};
use slingseal_judgement::RULES;
use slingseal_store::Reader;
use slingseal_words::Digest;

/// Pages that are taken in with one commit: indexes are then written once for thousands of words, and whoever asks the home something
/// waits less than a second.
const PAGES_AT_ONCE: usize = 8;
/// How far each place was read.
const PLACES: &str = "exchange-places";

/// Where the bytes of a word lie in the home.
#[derive(Clone, Debug)]
enum Lies {
    /// With it: what is no record is short.
    Here(Vec<u8>),
    /// A record, by its seal.
    Record(Digest),
    Photo(Digest),
}

/// What this home has, in the order in which it is best read: papers before the records that stand on them.
#[derive(Clone, Debug, Default)]
pub struct ExchangeHere {
    words: Vec<(ItemKind, Digest, Lies)>,
}

impl ExchangeHere {
    /// What each goes by.
    pub fn keys(&self) -> Vec<[u8; 32]> {
        self.words.iter().map(|(_, key, _)| *key.as_bytes()).collect()
    }

    /// Leaves those alone that are wanted.
    pub fn retain(&mut self, mut wanted: impl FnMut(&[u8; 32]) -> bool) {
        self.words.retain(|(_, key, _)| wanted(key.as_bytes()));
    }
}

/// How far one place was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExchangeState(ServerState);

impl ExchangeState {
    /// How far the words of a desk were read; none where none was.
    pub fn position(&self, source: &[u8; 16]) -> Option<ExchangePosition> {
        let Position { source, number, key } = *self.0.of(source)?;
        Some(ExchangePosition { source, number, key: *key.as_bytes() })
    }
}

impl App {
    /// What this desk's words stand under at a common place.
    pub fn exchange_source(&self) -> [u8; 16] {
        self.lock().store.device().0
    }

    /// Another answer than before: something was written since.
    ///
    /// # Errors
    /// Storage.
    pub fn written(&self) -> Result<(u64, u64), AppError> {
        let inner = self.lock();
        Ok((inner.store.head().seq, inner.store.read().memory()?.writes))
    }

    /// What is here and not among the keys: all but what strangers left here and no signed word names.
    ///
    /// # Errors
    /// Storage.
    pub fn exchange_here(&self, photos: bool, there: &HashSet<[u8; 32]>) -> Result<ExchangeHere, AppError> {
        self.lock().exchange_here(photos, there)
    }

    /// The keys of everything that is here, so that it is not asked for; of a whole record also that of its seal alone.
    ///
    /// # Errors
    /// Storage.
    pub fn exchange_keys(&self) -> Result<HashSet<[u8; 32]>, AppError> {
        let inner = self.lock();
        let here = inner.exchange_here(true, &HashSet::new())?;
        let mut keys: HashSet<[u8; 32]> = here.words.iter().map(|(_, key, _)| *key.as_bytes()).collect();
        for (_, seal, _, whole) in inner.store.read().records_known()? {
            if whole {
                keys.insert(*word_key(ItemKind::Record, &[seal]).as_bytes());
            }
        }
        Ok(keys)
    }

    /// Words with their bytes; what is gone meanwhile, or too long to travel, is left out.
    ///
    /// # Errors
    /// Storage.
    pub fn exchange_words(
        &self,
        here: &ExchangeHere,
        which: Range<usize>,
    ) -> Result<Vec<ExchangeWord>, AppError> {
        let inner = self.lock();
        let read = inner.store.read();
        let mut words = Vec::new();
        for (kind, key, lies) in here.words.get(which).unwrap_or_default() {
            let body = match lies {
                Lies::Here(bytes) => Some(bytes.clone()),
                Lies::Photo(digest) => read.photo(*digest)?,
                Lies::Record(seal) => read
                    .record_bytes(*seal)?
                    .map(|bytes| RecordItem { seal: bytes.seal, record: bytes.body }.to_bytes()),
            };
            let word = body.and_then(|body| ExchangeWord::of(*kind, body));
            words.extend(word.filter(|word| word.key() == *key.as_bytes()));
        }
        Ok(words)
    }

    /// The end of this device's journal, as a word: a hint to others, of whatever else was pushed.
    pub fn exchange_head(&self) -> Option<ExchangeWord> {
        let inner = self.lock();
        let (device, head) = (inner.store.device().0, inner.store.head());
        let item = HeadItem { device, seq: head.seq, digest: head.digest };
        ExchangeWord::of(ItemKind::Head, item.to_bytes())
    }

    /// How far a place was read; `again`: as if it never had been.
    ///
    /// # Errors
    /// Storage.
    pub fn exchange_state(&self, server: [u8; 16], again: bool) -> Result<ExchangeState, AppError> {
        let inner = self.lock();
        let read = inner.store.read();
        let mut places = places(&read)?;
        if again {
            places.forget(&server);
        }
        Ok(ExchangeState(places.of(server, trust_print(&read)?)))
    }

    /// Takes in the pages that wait, and those that `more` says have come meanwhile, judged as a stranger's: one commit, and with it how
    /// far the place was read. While they are written, and while the disk is waited for, the next are opened on the other cores. What is
    /// too much for one commit waits on. `more` must not wait itself: nobody else is answered meanwhile.
    ///
    /// # Errors
    /// Storage: nothing is kept then, and the place was not read so far. More desks than are kept apart.
    pub fn exchange_take(
        &self,
        state: &mut ExchangeState,
        intake: &mut ExchangeIntake,
        more: &mut dyn FnMut() -> Option<ExchangePage>,
    ) -> Result<BundleReport, AppError> {
        let (mut now, lots) = (state.0.clone(), &mut intake.0);
        let mut more = || Ok(more());
        // The scope is around the commit too.
        let report = rayon::in_place_scope(|cores| {
            let mut inner = self.lock();
            inner.store.expect_many(true)?;
            let report = inner.merging(|merge| {
                merge.admission.go_on_with(lots.opener());
                for _ in 0..PAGES_AT_ONCE {
                    let Some((page, ahead)) = lots.next(&mut merge.admission, cores, &mut more)? else {
                        break;
                    };
                    for (number, (item, ahead)) in (1..).zip(page.items().into_iter().zip(ahead)) {
                        merge.take(item, ahead, number)?;
                    }
                    let ExchangePosition { source, number, key } = page.at;
                    if !now.read(Position { source, number, key: Digest::from_bytes(key) }) {
                        return Err(AppError::refused(slingseal_catalogue::exchange::ExchangeTooManyDesks));
                    }
                }
                lots.go_ahead(&mut merge.admission, cores, &mut more)?;
                let mut places = places(merge.admission.tx)?;
                places.keep(now.clone());
                merge.admission.tx.put_setting(PLACES, &places.to_bytes())?;
                Ok(())
            });
            inner.store.expect_many(false)?;
            report
        });
        lots.settle();
        let report = report?;
        state.0 = now;
        Ok(report)
    }
}

/// What was kept and cannot be read is forgotten: everything is read again.
fn places(read: &Reader<'_>) -> Result<PlaceState, AppError> {
    let kept = read.setting(PLACES)?;
    Ok(kept.and_then(|bytes| PlaceState::parse(&bytes).ok()).unwrap_or_default())
}

/// What decides what is refused: whom this home trusts, and what this program can read.
fn trust_print(read: &Reader<'_>) -> Result<Digest, AppError> {
    let mut keys: Vec<[u8; 32]> = trusted_of(read)?.iter().map(|one| one.key.to_bytes()).collect();
    keys.sort_unstable();
    let program = [ItemKind::ALL.len().to_be_bytes(), u64::from(RULES).to_be_bytes()].concat();
    let parts: Vec<&[u8]> =
        std::iter::once(program.as_slice()).chain(keys.iter().map(<[u8; 32]>::as_slice)).collect();
    Ok(Digest::of_parts(&parts))
}

impl Inner {
    fn exchange_here(&self, photos: bool, there: &HashSet<[u8; 32]>) -> Result<ExchangeHere, AppError> {
        let read = self.store.read();
        let strays: BTreeSet<Digest> = read.strays()?.into_iter().map(|stray| stray.digest).collect();
        let mut words = Vec::new();
        let mut add = |kind: ItemKind, parts: &[Digest], lies: Lies| {
            let key = word_key(kind, parts);
            if !there.contains(key.as_bytes()) {
                words.push((kind, key, lies));
            }
        };
        let papers = papers(&read)?;
        for (kind, bytes) in papers.messages {
            let digest = Digest::of(&bytes);
            if !strays.contains(&digest) {
                add(kind, &[digest], Lies::Here(bytes));
            }
        }
        for text in read.procedure_texts()? {
            if !strays.contains(&text.digest) && !comes_with_the_program(&text.digest) {
                add(ItemKind::Procedure, &[text.digest], Lies::Here(text.text.into_bytes()));
            }
        }
        for row in papers.inspections {
            let item = inspection_item(&read, &row, true)?;
            let body = item.record.as_deref().map(Digest::of);
            let parts: Vec<Digest> = std::iter::once(row.digest).chain(body).collect();
            add(ItemKind::Inspection, &parts, Lies::Here(item.to_bytes()));
        }
        for (_, seal, record, whole) in read.records_known()? {
            let parts = [seal, record];
            add(
                ItemKind::Record,
                if whole { &parts } else { std::slice::from_ref(&seal) },
                Lies::Record(seal),
            );
        }
        if photos {
            for digest in read.photo_digests()?.into_iter().filter(|digest| !strays.contains(digest)) {
                add(ItemKind::Photo, &[digest], Lies::Photo(digest));
            }
        }
        for (kind, bytes) in self.exam_items(&mut BTreeSet::new())? {
            let digest = Digest::of(&bytes);
            let known = kind == ItemKind::Procedure || strays.contains(&digest);
            if !known {
                add(kind, &[digest], Lies::Here(bytes));
            }
        }
        Ok(ExchangeHere { words })
    }
}
