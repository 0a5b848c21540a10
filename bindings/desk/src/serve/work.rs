//! Long work: an export, a bundle that is taken in, the audit. It goes on while nobody looks, says how far it is, and can be
//! stopped. Nothing here waits for the home, which the work holds.

use std::collections::VecDeque;
use std::io::{self, Read, Write};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use slingseal_app::catalogue::{Saying, page as words};
use slingseal_app::{AppError, Language, Stamp};
use tempfile::NamedTempFile;
use tokio::time::Instant;

use super::live::Live;

/// How many may be under way at a time.
const UNDER_WAY: usize = 4;
/// How many are remembered: the files that they made lie on the disk as long.
const KEPT: usize = 12;
/// How often it is told how far one is.
const TELL: Duration = Duration::from_millis(250);

/// What is done.
#[derive(Clone, Debug)]
pub(super) enum What {
    Export(String),
    Bundle(String),
    Audit,
}

impl What {
    pub(super) fn say(&self, language: Language) -> String {
        match self {
            Self::Export(name) => words::WorkExport { name }.say(language),
            Self::Bundle(name) => words::WorkBundle { name }.say(language),
            Self::Audit => words::WorkAudit.say(language),
        }
    }
}

/// What came of it.
pub(super) enum End {
    Stopped,
    Failed(Saying),
    Done(Made),
}

/// What it made: words, and a file to take.
#[derive(Default)]
pub(super) struct Made {
    pub(super) lines: Vec<String>,
    /// Its media type and its name.
    pub(super) file: Option<(&'static str, String, NamedTempFile)>,
}

/// One piece of work.
pub(super) struct Work {
    pub(super) number: u64,
    pub(super) what: What,
    pub(super) begun: Stamp,
    stopped: AtomicBool,
    /// Bytes or items, and of how many where that is known.
    done: AtomicU64,
    of: AtomicU64,
    told: Mutex<Option<Instant>>,
    end: Mutex<Option<End>>,
    live: Arc<Live>,
    language: Language,
}

impl Work {
    /// Asks it to end.
    pub(super) fn stop(&self) {
        self.stopped.store(true, Ordering::Relaxed);
    }

    pub(super) fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }

    /// How far it is, and of how much; nought where that is not known.
    pub(super) fn far(&self) -> (u64, u64) {
        (self.done.load(Ordering::Relaxed), self.of.load(Ordering::Relaxed))
    }

    pub(super) fn end(&self) -> MutexGuard<'_, Option<End>> {
        self.end.lock().unwrap_or_else(PoisonError::into_inner)
    }

    pub(super) fn is_under_way(&self) -> bool {
        self.end().is_none()
    }

    /// How far it is, in words.
    pub(super) fn said(&self, language: Language) -> String {
        match (&self.what, self.far()) {
            (What::Audit, (done, of)) => words::WorkItems { done, of }.say(language),
            (_, (done, 0)) => words::WorkBytesSoFar { done: done >> 10 }.say(language),
            (_, (done, of)) => words::WorkBytes { done: done >> 10, of: of >> 10 }.say(language),
        }
    }

    /// It is so far. Told at most a few times a second.
    pub(super) fn at(&self, done: u64, of: u64) {
        self.done.store(done, Ordering::Relaxed);
        self.of.store(of, Ordering::Relaxed);
        let mut told = self.told.lock().unwrap_or_else(PoisonError::into_inner);
        let now = Instant::now();
        if told.is_none_or(|told| now.duration_since(told) >= TELL) {
            *told = Some(now);
            self.tell();
        }
    }

    fn tell(&self) {
        let (done, of) = self.far();
        let under_way = self.is_under_way();
        let line = serde_json::json!({
            "number": self.number, "done": done, "of": of, "under_way": under_way,
            "what": self.what.say(self.language), "said": self.said(self.language),
        });
        self.live.tell("work", &line.to_string());
    }

    /// What came of it.
    pub(super) fn ended(&self, came: Result<Made, AppError>) {
        *self.end() = Some(match came {
            _ if self.is_stopped() => End::Stopped,
            Ok(made) => End::Done(made),
            Err(error) => End::Failed(error.saying().clone()),
        });
        self.tell();
    }
}

/// All of it, the newest first.
pub(super) struct Works {
    all: Mutex<VecDeque<Arc<Work>>>,
    live: Arc<Live>,
    language: Language,
}

impl Works {
    pub(super) fn new(live: Arc<Live>, language: Language) -> Self {
        Self { all: Mutex::default(), live, language }
    }

    fn all(&self) -> MutexGuard<'_, VecDeque<Arc<Work>>> {
        self.all.lock().unwrap_or_else(PoisonError::into_inner)
    }

    pub(super) fn list(&self) -> Vec<Arc<Work>> {
        self.all().iter().cloned().collect()
    }

    /// # Errors
    /// It is not known, or not any more.
    pub(super) fn get(&self, number: &str) -> Result<Arc<Work>, AppError> {
        let found = self.all().iter().find(|work| work.number.to_string() == number).cloned();
        found.ok_or_else(|| AppError::NotFound { message: words::NoSuchWork.into() })
    }

    /// Work that is done by whoever asks; it says itself when it has ended.
    ///
    /// # Errors
    /// As much is under way as may be.
    pub(super) fn enter(&self, what: What, begun: Stamp) -> Result<Arc<Work>, AppError> {
        let mut all = self.all();
        if all.iter().filter(|work| work.is_under_way()).count() >= UNDER_WAY {
            return Err(AppError::Refused { message: words::TooMuchWork.into() });
        }
        let work = Arc::new(Work {
            number: all.front().map_or(1, |last| last.number + 1),
            what,
            begun,
            stopped: AtomicBool::new(false),
            done: AtomicU64::new(0),
            of: AtomicU64::new(0),
            told: Mutex::new(None),
            end: Mutex::new(None),
            live: Arc::clone(&self.live),
            language: self.language,
        });
        all.push_front(Arc::clone(&work));
        while all.len() > KEPT {
            all.pop_back();
        }
        Ok(work)
    }

    /// Work that goes on by itself.
    ///
    /// # Errors
    /// As much is under way as may be.
    pub(super) fn begin(
        &self,
        what: What,
        begun: Stamp,
        run: impl FnOnce(&Work) -> Result<Made, AppError> + Send + 'static,
    ) -> Result<u64, AppError> {
        let work = self.enter(what, begun)?;
        let number = work.number;
        std::thread::spawn(move || {
            let came = run(&work);
            work.ended(came);
        });
        Ok(number)
    }

    /// The desk ends: all of it is stopped.
    pub(super) fn stop_all(&self) {
        self.all().iter().for_each(|work| work.stop());
    }
}

/// What is read or written for a piece of work: it is counted, and breaks off where the work is stopped.
pub(super) struct Watched<'w, T> {
    pub(super) inner: T,
    pub(super) work: &'w Work,
    done: u64,
    of: u64,
}

impl<'w, T> Watched<'w, T> {
    /// `of`: how many bytes there are, nought where that is not known.
    pub(super) fn new(inner: T, of: u64, work: &'w Work) -> Self {
        Self { inner, work, done: 0, of }
    }

    fn goes_on(&self) -> io::Result<()> {
        if self.work.is_stopped() { Err(io::Error::other("stopped")) } else { Ok(()) }
    }

    fn count(&mut self, bytes: usize) {
        self.done += u64::try_from(bytes).unwrap_or_default();
        self.work.at(self.done, self.of);
    }
}

impl<T: Read> Read for Watched<'_, T> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        self.goes_on()?;
        let read = self.inner.read(buffer)?;
        self.count(read);
        Ok(read)
    }
}

impl<T: Write> Write for Watched<'_, T> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.goes_on()?;
        let written = self.inner.write(bytes)?;
        self.count(written);
        Ok(written)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.inner.flush()
    }
}

#[cfg(test)]
mod tests {
    use std::io::{Read, Write};
    use std::sync::Arc;

    use super::{End, Made, UNDER_WAY, Watched, What, Works};
    use slingseal_app::{Language, Time};

    fn works() -> Works {
        Works::new(Arc::default(), Language::English)
    }

    #[test]
    fn what_is_stopped_breaks_off() {
        let works = works();
        let work = works.enter(What::Audit, Time::from_unix(0).into()).unwrap();
        let mut read = Watched::new(&b"0123456789"[..], 10, &work);
        let mut four = [0; 4];
        read.read_exact(&mut four).unwrap();
        assert_eq!(work.far(), (4, 10));
        work.stop();
        assert!(read.read_exact(&mut four).is_err());
        assert!(Watched::new(Vec::new(), 0, &work).write_all(b"x").is_err());
        work.ended(Ok(Made::default()));
        assert!(matches!(*work.end(), Some(End::Stopped)), "whatever it said at last");
    }

    #[test]
    fn so_much_is_under_way_and_no_more() {
        let works = works();
        let at = || Time::from_unix(0).into();
        let all: Vec<_> = (0..UNDER_WAY).map(|_| works.enter(What::Audit, at()).unwrap()).collect();
        assert!(works.enter(What::Audit, at()).is_err());
        all[0].ended(Ok(Made::default()));
        assert_eq!(works.enter(What::Audit, at()).unwrap().number, 5);
        assert!(works.get("1").is_ok() && works.get("6").is_err() && works.get("x").is_err());
    }
}
