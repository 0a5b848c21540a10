//! What changes while somebody looks: server-sent events. One watcher asks whether the board is another than it was, and tells all
//! who listen; they fetch the page again. The page is whole without it.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use hyper::body::Bytes;
use sha2::{Digest as _, Sha256};
use slingseal_app::{App, AppError};
use tokio::sync::mpsc;

/// How many may listen at a time: each holds a connection.
const LISTENERS: usize = 16;
/// Events that wait for one listener; one that takes none is let go.
const WAITING: usize = 32;
/// Loads on one shelf of the board: what is watched is what is shown.
pub(super) const SHELF: u32 = 24;
/// The days that the board goes back where nobody chose.
pub(super) const WEEK: u32 = 7;
/// The least wait between two looks at the board.
pub(super) const LOOK: Duration = Duration::from_secs(2);
/// How often a line goes out although nothing happened: a connection that nobody holds any more shows by it.
pub(super) const PULSE: Duration = Duration::from_secs(15);

/// Who listens.
#[derive(Default)]
pub(super) struct Live {
    listeners: Mutex<Vec<mpsc::Sender<Bytes>>>,
    /// Whether somebody came whose page may be older than the last look.
    came: AtomicBool,
    ended: AtomicBool,
}

impl Live {
    fn listeners(&self) -> MutexGuard<'_, Vec<mpsc::Sender<Bytes>>> {
        let mut listeners = self.listeners.lock().unwrap_or_else(PoisonError::into_inner);
        listeners.retain(|listener| !listener.is_closed());
        listeners
    }

    /// What is told from now on; `None` where as many listen as may.
    pub(super) fn listen(&self) -> Option<mpsc::Receiver<Bytes>> {
        let mut listeners = self.listeners();
        if listeners.len() >= LISTENERS || self.ended.load(Ordering::Relaxed) {
            return None;
        }
        let (tells, told) = mpsc::channel(WAITING);
        // The head goes out with the first line: without one a browser waits to hear that it is connected.
        let _ = tells.try_send(Bytes::from_static(b": here\n\n"));
        listeners.push(tells);
        self.came.store(true, Ordering::Relaxed);
        Some(told)
    }

    pub(super) fn is_heard(&self) -> bool {
        !self.listeners().is_empty()
    }

    /// Whether somebody came since this was asked last.
    pub(super) fn newcomers(&self) -> bool {
        self.came.swap(false, Ordering::Relaxed)
    }

    /// Tells all. `data` is one line.
    pub(super) fn tell(&self, event: &str, data: &str) {
        let data: String = data.chars().filter(|letter| !letter.is_control()).collect();
        self.send(Bytes::from(format!("event: {event}\ndata: {data}\n\n")));
    }

    /// Nothing happened.
    pub(super) fn pulse(&self) {
        self.send(Bytes::from_static(b":\n\n"));
    }

    fn send(&self, line: Bytes) {
        self.listeners().retain(|listener| listener.try_send(line.clone()).is_ok());
    }

    /// Lets all go, and nobody in: the desk ends.
    pub(super) fn end(&self) {
        self.ended.store(true, Ordering::Relaxed);
        self.listeners().clear();
    }
}

/// What the board shows, as one number: another number is another board. What the clock alone changes is on the board of a week,
/// however far back somebody looks; whatever else changes was written.
///
/// # Errors
/// Storage.
pub(super) fn board_now(app: &App) -> Result<Vec<u8>, AppError> {
    let written = app.written()?;
    let board = app.board(WEEK, SHELF)?;
    let shown = serde_json::to_vec(&(written, board.columns, board.notices, board.zones)).unwrap_or_default();
    Ok(Sha256::digest(shown).to_vec())
}

#[cfg(test)]
mod tests {
    use super::{LISTENERS, Live, WAITING};

    #[test]
    fn so_many_listen_and_who_takes_nothing_is_let_go() {
        let live = Live::default();
        assert!(!live.is_heard());
        let mut all: Vec<_> = (0..LISTENERS).map(|_| live.listen().unwrap()).collect();
        assert!(live.listen().is_none());
        assert!(live.newcomers() && !live.newcomers());
        drop(all.pop());
        let mut last = live.listen().expect("a place that was left is free");
        assert_eq!(last.try_recv().unwrap(), ": here\n\n");
        live.tell("board", "1\n\nevent: other");
        assert_eq!(last.try_recv().unwrap(), "event: board\ndata: 1event: other\n\n", "one line");
        for _ in 0..=WAITING {
            live.pulse();
            let _ = last.try_recv();
        }
        drop(last);
        live.pulse();
        assert!(!live.is_heard(), "whoever took nothing is gone");
        let mut late = live.listen().unwrap();
        live.end();
        assert!(late.try_recv().is_ok() && late.try_recv().is_err());
        assert!(live.listen().is_none());
    }
}
