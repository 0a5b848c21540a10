//! What can be made out of words that come in many before each is taken in: signed words opened, full records folded. On all cores,
//! beside the one writer. Each signature is checked strictly and by itself: an equation over many at once takes what the strict check
//! refuses.

use std::collections::BTreeSet;

use rayon::prelude::*;
use slingseal_account::sync::{Item, ItemKind, RecordItem};
use slingseal_judgement::LoadWord;
use slingseal_message::envelope::{Kind, Limits, Sign1};
use slingseal_message::seal::Record;
use slingseal_message::tag::kind_of_tag;
use slingseal_message::trust::Trusted;
use slingseal_words::Digest;

use crate::AppError;
use crate::account::Alone;
use crate::procedures::plans::Plans;
use crate::walks::full_record::Full;

/// Fewer words are opened where they are taken in.
const WORTH_CORES: usize = 8;

/// What was made out of an item ahead of its turn.
#[derive(Debug, Default)]
pub(crate) enum Ahead {
    /// Nothing: it is opened in its turn, which says what is wrong with it.
    #[default]
    Nothing,
    /// A word of a load.
    Word(OpenedWord),
    /// A seal, how it stands by itself, and its full record where it came along and is what was sealed.
    Record { item: RecordItem, seal: OpenedWord, alone: Option<Box<Alone>>, full: Option<Box<Full>> },
}

/// A word, and the trust under which it was opened: where trust changed since, it is opened anew.
#[derive(Debug)]
pub(crate) struct OpenedWord {
    pub(crate) word: LoadWord,
    pub(crate) trust: Option<u64>,
}

/// Opens items under the trust of one moment. Knows nothing of the home, so that it works beside the writer.
#[derive(Default)]
pub(crate) struct Opener {
    pub(crate) trusted: Trusted,
    /// Which trust that is; none before the first briefing.
    pub(crate) trust: Option<u64>,
    pub(crate) plans: Plans,
}

/// The procedure that an item's full record names; nothing of the bytes is checked.
pub(crate) fn procedure_of(item: &Item) -> Option<Digest> {
    let (_, record) = (item.kind == ItemKind::Record).then(|| RecordItem::parts(&item.body).ok())??;
    Record::procedure_named(record?)
}

impl Opener {
    /// What can be made out of each item, in their order.
    pub(crate) fn open(&mut self, items: &[&Item]) -> Vec<Ahead> {
        if items.len() < WORTH_CORES {
            return items.iter().map(|_| Ahead::Nothing).collect();
        }
        // Each credential is checked once for all words that carry it.
        let credentials: BTreeSet<&[u8]> =
            items.par_iter().filter_map(|item| credential_of(signed_part(item)?.1)).collect();
        for credential in credentials {
            // What does not pass here is told by the word's author.
            let _ = self.trusted.remember(credential);
        }
        items.par_iter().map(|item| self.open_one(item).unwrap_or_default()).collect()
    }

    fn open_one(&self, item: &Item) -> Option<Ahead> {
        let (kind, bytes) = signed_part(item)?;
        let word = LoadWord::open(kind, bytes, &self.trusted).ok()?;
        let opened = |word| OpenedWord { word, trust: self.trust };
        if item.kind != ItemKind::Record {
            return Some(Ahead::Word(opened(word)));
        }
        let item = RecordItem::parse(&item.body).ok()?;
        let full = word.seal().zip(item.record.as_deref()).and_then(|(seal, bytes)| {
            // A procedure that is not here is looked for in the record's turn.
            let plan = |digest: &Digest| {
                self.plans.known(digest).cloned().ok_or_else(|| AppError::internal("not known ahead"))
            };
            Full::of(seal, word.digest(), bytes, plan).ok()
        });
        let alone = Alone::of(&word, &self.trusted).map(Box::new);
        Some(Ahead::Record { item, seal: opened(word), alone, full: full.map(Box::new) })
    }
}

/// The signed word of a load in an item, where there is one.
fn signed_part(item: &Item) -> Option<(Kind, &[u8])> {
    let body = item.body.as_slice();
    Some(match item.kind {
        ItemKind::Record => (Kind::Seal, RecordItem::parts(body).ok()?.0),
        ItemKind::Tag => (kind_of_tag(body), body),
        ItemKind::Void => (Kind::Void, body),
        ItemKind::Movement => (Kind::Movement, body),
        _ => return None,
    })
}

fn credential_of(bytes: &[u8]) -> Option<&[u8]> {
    Sign1::parse(bytes, Limits::CODE).ok()?.header.credential
}
