//! A word as it lies at a common place, and how far the words of a desk were read there.

use slingseal_account::sync::{Item, ItemKind, word_key_of};
use slingseal_words::Digest;

/// The most bytes of a word of a kind; none where this program does not know the kind.
pub fn word_limit(kind: i16) -> Option<usize> {
    Some(ItemKind::from_code(u8::try_from(kind).ok()?)?.most())
}

/// A word as it lies at a common place. Its key fits its bytes: another cannot be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExchangeWord {
    item: Item,
    key: Digest,
}

impl ExchangeWord {
    /// A word that came from a place; none where its bytes are not what its key says, or no word of its kind.
    pub fn received(kind: i16, key: [u8; 32], body: Vec<u8>) -> Option<Self> {
        let kind = ItemKind::from_code(u8::try_from(kind).ok()?)?;
        let key = Digest::from_bytes(key);
        let fits = body.len() <= kind.most() && word_key_of(kind, &body) == Ok(key);
        fits.then_some(Self { item: Item { kind, body }, key })
    }

    pub(super) fn of(kind: ItemKind, body: Vec<u8>) -> Option<Self> {
        let key = word_key_of(kind, &body).ok().filter(|_| body.len() <= kind.most())?;
        Some(Self { item: Item { kind, body }, key })
    }

    pub(super) fn item(&self) -> &Item {
        &self.item
    }

    /// The number of its kind.
    pub fn kind(&self) -> i16 {
        self.item.kind.code().into()
    }

    /// What it goes by.
    pub fn key(&self) -> [u8; 32] {
        *self.key.as_bytes()
    }

    /// Its bytes.
    pub fn body(&self) -> &[u8] {
        &self.item.body
    }
}

/// How far the words of one desk were read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ExchangePosition {
    /// The desk that put them there.
    pub source: [u8; 16],
    /// The number of the last that was read.
    pub number: i64,
    /// What that one went by.
    pub key: [u8; 32],
}
