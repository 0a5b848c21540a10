use std::path::PathBuf;
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use slingseal_app::{App, CheckPageMade, MovingCode};

use super::guard::Guard;
use super::intake::Intake;

/// What the pages stand on.
pub(super) struct Desk {
    pub(super) app: Arc<App>,
    pub(super) guard: Guard,
    intake: Mutex<Intake>,
    /// The moving codes that are being shown, if any; several where one would be too large.
    moving: Mutex<Vec<MovingCode>>,
    /// The hook check's page without contents, where one was named.
    pub(super) page: Option<PathBuf>,
    /// The hook check that was made last: what was signed, and the file.
    hook_check: Mutex<Option<(CheckPageMade, String)>>,
    /// The tags of long lists that were made, the last ones: an address does not hold two thousand of them.
    lists: Mutex<VecDeque<(u64, Vec<String>)>>,
}

/// How many long lists are kept.
const LISTS: usize = 20;

impl Desk {
    pub(super) fn new(app: Arc<App>, guard: Guard, page: Option<PathBuf>) -> Self {
        let (intake, moving, hook_check) = (Mutex::default(), Mutex::default(), Mutex::new(None));
        Self { app, guard, intake, moving, page, hook_check, lists: Mutex::default() }
    }

    pub(super) fn hook_check(&self) -> MutexGuard<'_, Option<(CheckPageMade, String)>> {
        self.hook_check.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Keeps the tags of a long list; the number under which it is asked for.
    pub(super) fn keep_list(&self, tags: Vec<String>) -> u64 {
        let mut lists = self.lists.lock().unwrap_or_else(PoisonError::into_inner);
        let number = lists.front().map_or(1, |(last, _)| last + 1);
        lists.push_front((number, tags));
        lists.truncate(LISTS);
        number
    }

    /// The tags of a list that is kept.
    pub(super) fn list(&self, number: &str) -> Option<Vec<String>> {
        let number: u64 = number.parse().ok()?;
        let lists = self.lists.lock().unwrap_or_else(PoisonError::into_inner);
        lists.iter().find(|(kept, _)| *kept == number).map(|(_, tags)| tags.clone())
    }

    /// What was received since the start.
    pub(super) fn intake(&self) -> MutexGuard<'_, Intake> {
        self.intake.lock().unwrap_or_else(PoisonError::into_inner)
    }

    pub(super) fn moving(&self) -> MutexGuard<'_, Vec<MovingCode>> {
        self.moving.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
