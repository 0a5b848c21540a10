//! Words that come in lots, whatever brings them: the other cores open the next lots while the home writes one, and while it waits for
//! the disk. Only so many are in hand: memory stays flat. Whether a word was opened under the trust of now is asked when it is taken in.

use std::collections::VecDeque;
use std::sync::mpsc::{Receiver, channel};

use rayon::Scope;

use crate::AppError;
use crate::hook::admission::Admission;
use crate::hook::ahead::{Ahead, Opener};
use slingseal_account::sync::Item;

/// Words that come together, and are opened together.
pub(super) trait Lot: Send + 'static {
    /// In the order in which they are taken in.
    fn items(&self) -> Vec<&Item>;
}

/// Brings the next lot, where one has come.
pub(super) type More<'m, L> = &'m mut dyn FnMut() -> Result<Option<L>, AppError>;

/// A lot that was opened; with the last that the other cores were given, what they opened it with comes back.
type Opened<L> = (L, Vec<Ahead>, Option<Opener>);

/// What is in hand, in the order in which it is taken in. Whoever asks for the next waits for the other cores, so it must not be one of
/// their threads.
pub(super) struct Lots<L> {
    /// Lots that are in hand, with the one that is taken in next.
    most: usize,
    /// Opens words ahead of their turn, beside the home; is away while it does.
    opener: Opener,
    opened: VecDeque<(L, Vec<Ahead>)>,
    /// What the other cores are at, and how many lots they have.
    at_work: Option<(Receiver<Opened<L>>, usize)>,
    waiting: Vec<L>,
}

impl<L: Lot> Lots<L> {
    /// None yet, and at most so many.
    pub(super) fn at_most(most: usize) -> Self {
        Self { most, opener: Opener::default(), opened: VecDeque::new(), at_work: None, waiting: Vec::new() }
    }

    /// Puts a lot behind those that wait.
    pub(super) fn push(&mut self, lot: L) {
        self.waiting.push(lot);
    }

    /// Whether nothing waits to be taken in.
    pub(super) fn is_empty(&self) -> bool {
        self.opened.is_empty() && self.at_work.is_none() && self.waiting.is_empty()
    }

    pub(super) fn opener(&self) -> &Opener {
        &self.opener
    }

    /// The next lot, and what was made out of each of its items; none where no more has come. Those behind it are opened from now on.
    pub(super) fn next<'s>(
        &mut self,
        admission: &mut Admission<'_, '_>,
        cores: &Scope<'s>,
        more: More<'_, L>,
    ) -> Result<Option<(L, Vec<Ahead>)>, AppError> {
        loop {
            self.go_ahead(admission, cores, more)?;
            if let Some(next) = self.opened.pop_front() {
                return Ok(Some(next));
            }
            if !self.wait() {
                return Ok(None);
            }
        }
    }

    /// Sees to it that the other cores have work for as long as lots come.
    pub(super) fn go_ahead<'s>(
        &mut self,
        admission: &mut Admission<'_, '_>,
        cores: &Scope<'s>,
        more: More<'_, L>,
    ) -> Result<(), AppError> {
        while let Some(opened) = self.at_work.as_ref().and_then(|(opening, _)| opening.try_recv().ok()) {
            self.hear(opened);
        }
        let busy = self.at_work.as_ref().map_or(0, |(_, lots)| *lots);
        while self.opened.len() + busy + self.waiting.len() < self.most {
            let Some(lot) = more()? else { break };
            self.waiting.push(lot);
        }
        if self.at_work.is_some() || self.waiting.is_empty() {
            return Ok(());
        }
        let lots = std::mem::take(&mut self.waiting);
        for lot in &lots {
            admission.brief(&mut self.opener, &lot.items());
        }
        let mut opener = std::mem::take(&mut self.opener);
        let (telling, opening) = channel();
        self.at_work = Some((opening, lots.len()));
        cores.spawn(move |_| {
            let mut lots = lots.into_iter().peekable();
            while let Some(lot) = lots.next() {
                let ahead = opener.open(&lot.items());
                let last = lots.peek().is_none().then(|| std::mem::take(&mut opener));
                let _ = telling.send((lot, ahead, last));
            }
        });
        Ok(())
    }

    fn hear(&mut self, (lot, ahead, last): Opened<L>) {
        self.opened.push_back((lot, ahead));
        match (last, &mut self.at_work) {
            (Some(opener), _) => (self.opener, self.at_work) = (opener, None),
            (None, Some((_, lots))) => *lots -= 1,
            (None, None) => {}
        }
    }

    /// Takes back the lot that the other cores are at, once it is opened; `false` where they have none.
    fn wait(&mut self) -> bool {
        let opened = self.at_work.as_ref().and_then(|(opening, _)| opening.recv().ok());
        opened.map(|opened| self.hear(opened)).is_some()
    }

    /// Takes back all that the other cores have, once it is opened.
    pub(super) fn settle(&mut self) {
        while self.wait() {}
    }
}
