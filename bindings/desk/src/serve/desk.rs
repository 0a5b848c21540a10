use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use slingseal_app::catalogue::page as words;
use slingseal_app::{App, AppError, CheckPageMade, Language, MovingCode, Role};

use super::act::Done;
use super::ask::Form;
use super::forms::Forms;
use super::guard::Guard;
use super::intake::Intake;
use super::live::Live;
use super::work::Works;
use crate::output::bad_input;
use crate::platform::SystemEntropy;

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
    /// The forms that sign and were not sent yet.
    pub(super) forms: Forms,
    /// What was done by forms, the last first.
    done: Mutex<VecDeque<(u64, Arc<Done>)>>,
    /// Who is told what changes.
    pub(super) live: Arc<Live>,
    /// Long work.
    pub(super) works: Works,
    /// The desk's language: asking the home for it would wait for whoever works on it.
    pub(super) language: Language,
    /// Whose home it is, as the last page that asked was told.
    pub(super) whose: Mutex<String>,
}

/// How many long lists are kept.
const LISTS: usize = 20;
/// How many acts are remembered with their codes.
const DONE: usize = 20;

impl Desk {
    pub(super) fn new(app: Arc<App>, guard: Guard, page: Option<PathBuf>) -> Self {
        let (intake, moving, hook_check) = (Mutex::default(), Mutex::default(), Mutex::new(None));
        let (language, live) = (app.spoken(), Arc::<Live>::default());
        let works = Works::new(Arc::clone(&live), language);
        let (lists, forms, done, whose) =
            (Mutex::default(), Forms::default(), Mutex::default(), Mutex::default());
        Self {
            app,
            guard,
            intake,
            moving,
            page,
            hook_check,
            lists,
            forms,
            done,
            live,
            works,
            language,
            whose,
        }
    }

    pub(super) fn hook_check(&self) -> MutexGuard<'_, Option<(CheckPageMade, String)>> {
        self.hook_check.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// No PIN or passphrase over a network that reads along.
    ///
    /// # Errors
    /// This page is open to one.
    pub(super) fn not_in_the_clear(&self) -> Result<(), AppError> {
        if self.guard.in_the_clear() { Err(bad_input(words::PinNotInTheClear)) } else { Ok(()) }
    }

    /// Whether this home is an authority that may act here.
    pub(super) fn is_authority(&self) -> Result<bool, AppError> {
        Ok(self.app.set_up()?.authority.is_some() && !self.guard.in_the_clear())
    }

    /// Who signs here in a role. Over an open network nobody: the PIN would travel in the clear.
    pub(super) fn credentialed(&self, role: Role) -> Result<Option<String>, AppError> {
        let credential = self
            .app
            .set_up()?
            .credential
            .filter(|credential| !credential.expired && !self.guard.in_the_clear());
        let fitting = credential.filter(|credential| credential.roles.contains(&role));
        Ok(fitting.map(|fitting| fitting.holder))
    }

    /// The token of a form that is shown now and signs one thing.
    pub(super) fn token(&self, what: &str) -> String {
        self.forms.give(what, &SystemEntropy)
    }

    /// The PIN of a form that signs: over what is encrypted or this machine alone, and once for each form that was shown.
    ///
    /// # Errors
    /// It would travel in the clear; the form was sent before, or is of another page.
    pub(super) fn pin<'f>(&self, what: &str, form: &'f Form) -> Result<&'f str, AppError> {
        self.not_in_the_clear()?;
        if !self.forms.take(what, form.get("token")) {
            return Err(AppError::Refused { message: words::FormWasSent.into() });
        }
        Ok(form.get("pin"))
    }

    /// Keeps what was done; the number under which it is shown.
    pub(super) fn keep_done(&self, one: Done) -> u64 {
        let mut done = self.done.lock().unwrap_or_else(PoisonError::into_inner);
        let number = done.front().map_or(1, |(last, _)| last + 1);
        done.push_front((number, Arc::new(one)));
        done.truncate(DONE);
        number
    }

    /// What was done under a number.
    pub(super) fn done(&self, number: &str) -> Option<Arc<Done>> {
        let number: u64 = number.parse().ok()?;
        let done = self.done.lock().unwrap_or_else(PoisonError::into_inner);
        done.iter().find(|(kept, _)| *kept == number).map(|(_, one)| Arc::clone(one))
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
