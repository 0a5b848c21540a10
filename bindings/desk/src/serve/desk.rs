use std::path::PathBuf;
use std::sync::{Mutex, MutexGuard, PoisonError};

use slingseal_app::{App, CheckPageMade, MovingCode};

use super::guard::Guard;
use super::intake::Intake;

/// What the pages stand on.
pub(super) struct Desk<'a> {
    pub(super) app: &'a App,
    pub(super) guard: Guard,
    intake: Mutex<Intake>,
    /// The moving codes that are being shown, if any; several where one would be too large.
    moving: Mutex<Vec<MovingCode>>,
    /// The hook check's page without contents, where one was named.
    pub(super) page: Option<PathBuf>,
    /// The hook check that was made last: what was signed, and the file.
    hook_check: Mutex<Option<(CheckPageMade, String)>>,
}

impl<'a> Desk<'a> {
    pub(super) fn new(app: &'a App, guard: Guard, page: Option<PathBuf>) -> Self {
        let (intake, moving, hook_check) = (Mutex::default(), Mutex::default(), Mutex::new(None));
        Self { app, guard, intake, moving, page, hook_check }
    }

    pub(super) fn hook_check(&self) -> MutexGuard<'_, Option<(CheckPageMade, String)>> {
        self.hook_check.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// What was received since the start.
    pub(super) fn intake(&self) -> MutexGuard<'_, Intake> {
        self.intake.lock().unwrap_or_else(PoisonError::into_inner)
    }

    pub(super) fn moving(&self) -> MutexGuard<'_, Vec<MovingCode>> {
        self.moving.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
