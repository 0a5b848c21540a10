//! Pages of words from a common place, and those that one pull has in hand.

use super::word::{ExchangePosition, ExchangeWord};
use crate::account::lots::{Lot, Lots};
use slingseal_account::sync::Item;

/// Pages that are in hand: what a commit waits for the disk is about as long as they take to open.
const PAGES_AHEAD: usize = 8;

/// Words that came from a place together, and how far it is read with them.
#[derive(Debug)]
pub struct ExchangePage {
    pub(super) at: ExchangePosition,
    words: Vec<ExchangeWord>,
}

impl ExchangePage {
    /// Words in the order in which they are taken in; none where nothing up to there was wanted.
    pub fn new(at: ExchangePosition, words: Vec<ExchangeWord>) -> Self {
        Self { at, words }
    }
}

impl Lot for ExchangePage {
    fn items(&self) -> Vec<&Item> {
        self.words.iter().map(ExchangeWord::item).collect()
    }
}

/// What one pull has in hand, in the order in which it is taken in.
pub struct ExchangeIntake(pub(super) Lots<ExchangePage>);

impl Default for ExchangeIntake {
    fn default() -> Self {
        Self(Lots::at_most(PAGES_AHEAD))
    }
}

impl ExchangeIntake {
    /// Puts a page behind those that wait.
    pub fn push(&mut self, page: ExchangePage) {
        self.0.push(page);
    }

    /// Whether nothing waits to be taken in.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}
