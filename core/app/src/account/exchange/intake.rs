//! What came over the line and waits to be taken in: the other cores open it while the home writes, and while it waits for the disk.

use std::collections::VecDeque;
use std::sync::mpsc::{Receiver, channel};

use rayon::Scope;

use super::word::{ExchangePosition, ExchangeWord};
use crate::hook::admission::Admission;
use crate::hook::ahead::{Ahead, Opener};
use slingseal_account::sync::Item;

/// Pages that are taken in with one commit: indexes are then written once for thousands of words, and whoever asks the home something
/// waits less than a second.
pub(super) const PAGES_AT_ONCE: usize = 8;
/// Pages that are in hand beside the one that is being written: what a commit waits for the disk is about as long as they take to open.
const PAGES_AHEAD: usize = 4;

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

    pub(super) fn items(&self) -> Vec<&Item> {
        self.words.iter().map(ExchangeWord::item).collect()
    }
}

/// What the other cores tell.
enum Told {
    /// A page was opened.
    Opened(ExchangePage, Vec<Ahead>),
    /// All that they were given is opened.
    Done(Opener),
}

/// What one pull has in hand, in the order in which it is taken in.
#[derive(Default)]
pub struct ExchangeIntake {
    /// Opens words ahead of their turn, beside the home; is away while it does.
    opener: Opener,
    opened: VecDeque<(ExchangePage, Vec<Ahead>)>,
    /// What the other cores are at, and how many pages they have.
    at_work: Option<(Receiver<Told>, usize)>,
    waiting: Vec<ExchangePage>,
}

impl ExchangeIntake {
    /// Puts a page behind those that wait.
    pub fn push(&mut self, page: ExchangePage) {
        self.waiting.push(page);
    }

    /// Whether nothing waits to be taken in.
    pub fn is_empty(&self) -> bool {
        self.opened.is_empty() && self.at_work.is_none() && self.waiting.is_empty()
    }

    pub(super) fn opener(&self) -> &Opener {
        &self.opener
    }

    /// The next page, opened; none where nothing more has come.
    pub(super) fn next<'s>(
        &mut self,
        admission: &mut Admission<'_, '_>,
        cores: &Scope<'s>,
        more: &mut dyn FnMut() -> Option<ExchangePage>,
    ) -> Option<(ExchangePage, Vec<Ahead>)> {
        loop {
            self.go_ahead(admission, cores, more);
            if let Some(next) = self.opened.pop_front() {
                return Some(next);
            }
            let told = self.at_work.as_ref()?.0.recv().ok()?;
            self.hear(told);
        }
    }

    /// Sees to it that the other cores have work for as long as pages come.
    pub(super) fn go_ahead<'s>(
        &mut self,
        admission: &mut Admission<'_, '_>,
        cores: &Scope<'s>,
        more: &mut dyn FnMut() -> Option<ExchangePage>,
    ) {
        while let Some(told) = self.at_work.as_ref().and_then(|(telling, _)| telling.try_recv().ok()) {
            self.hear(told);
        }
        let busy = self.at_work.as_ref().map_or(0, |(_, pages)| *pages);
        while self.opened.len() + busy + self.waiting.len() < PAGES_AHEAD {
            let Some(page) = more() else { break };
            self.waiting.push(page);
        }
        if self.at_work.is_some() || self.waiting.is_empty() {
            return;
        }
        let pages = std::mem::take(&mut self.waiting);
        for page in &pages {
            admission.brief(&mut self.opener, &page.items());
        }
        let mut opener = std::mem::take(&mut self.opener);
        let (telling, told) = channel();
        self.at_work = Some((told, pages.len()));
        cores.spawn(move |_| {
            for page in pages {
                let ahead = opener.open(&page.items());
                let _ = telling.send(Told::Opened(page, ahead));
            }
            let _ = telling.send(Told::Done(opener));
        });
    }

    fn hear(&mut self, told: Told) {
        match told {
            Told::Opened(page, ahead) => {
                self.opened.push_back((page, ahead));
                if let Some((_, pages)) = &mut self.at_work {
                    *pages -= 1;
                }
            }
            Told::Done(opener) => (self.opener, self.at_work) = (opener, None),
        }
    }

    /// Takes back what the other cores have, once they are done.
    pub(super) fn settle(&mut self) {
        while let Some(told) = self.at_work.as_ref().and_then(|(telling, _)| telling.recv().ok()) {
            self.hear(told);
        }
    }
}
