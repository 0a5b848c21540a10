use std::sync::{Mutex, MutexGuard, PoisonError};

use slingseal_app::{App, MovingCode};

use super::guard::Guard;
use super::intake::Intake;

/// What the pages stand on.
pub(super) struct Desk<'a> {
    pub(super) app: &'a App,
    pub(super) guard: Guard,
    intake: Mutex<Intake>,
    /// The moving codes that are being shown, if any; several where one would be too large.
    moving: Mutex<Vec<MovingCode>>,
}

impl<'a> Desk<'a> {
    pub(super) fn new(app: &'a App, guard: Guard) -> Self {
        Self { app, guard, intake: Mutex::default(), moving: Mutex::default() }
    }

    /// What was received since the start.
    pub(super) fn intake(&self) -> MutexGuard<'_, Intake> {
        self.intake.lock().unwrap_or_else(PoisonError::into_inner)
    }

    pub(super) fn moving(&self) -> MutexGuard<'_, Vec<MovingCode>> {
        self.moving.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
