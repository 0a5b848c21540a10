//! The rigging files that a list names. The terminal reads them beside the list; a page has no folder, so each is given by its name,
//! and drawn before any tag is made.

use std::cell::{Cell, RefCell};

use sha2::{Digest as _, Sha256};
use slingseal_app::catalogue::{Saying, page as words};
use slingseal_app::{AppError, Language, RiggingRequest, assess_rigging};

use crate::serve::ask::Form;
use crate::serve::page::{Listed, ListedFile, field_of};

/// How many files of one list are drawn on a page.
const MOST: usize = 32;

/// How a rigging file hangs: the drawing and the report.
///
/// # Errors
/// What is wrong in it.
pub(in crate::serve) fn hangs(text: &str, language: Language) -> Result<(String, String), AppError> {
    let request = RiggingRequest { text: text.to_owned(), language, ..RiggingRequest::default() };
    assess_rigging(&request).map(|sheet| (sheet.svg(), sheet.view(language).report))
}

/// The files of a form, and which of them its list named so far.
pub(in crate::serve) struct Given<'f> {
    form: &'f Form,
    language: Language,
    named: RefCell<Vec<String>>,
    /// Whether it names more than a page draws.
    more: Cell<bool>,
}

impl<'f> Given<'f> {
    pub(in crate::serve) fn new(form: &'f Form, language: Language) -> Self {
        Self { form, language, named: RefCell::default(), more: Cell::default() }
    }

    fn text(&self, name: &str) -> &'f str {
        self.form.all(&field_of(name)).next().unwrap_or_default()
    }

    /// The text of a file that the list names.
    ///
    /// # Errors
    /// It was not given, or is one too many.
    pub(in crate::serve) fn open(&self, name: &str) -> Result<String, String> {
        let mut named = self.named.borrow_mut();
        if !named.iter().any(|known| known == name) {
            if named.len() >= MOST {
                self.more.set(true);
                return Err(String::new());
            }
            named.push(name.to_owned());
        }
        // What is missing is told of all files at once, by `not_ready`, and not by each line of the list.
        Some(self.text(name))
            .filter(|text| !text.trim().is_empty())
            .map(str::to_owned)
            .ok_or_else(String::new)
    }

    /// What has to be done before the list can be read at all.
    pub(in crate::serve) fn not_ready(&self) -> Option<Saying> {
        if self.more.get() {
            return Some(words::TooManyListed { most: MOST }.into());
        }
        let missing = self.named.borrow().iter().any(|name| self.text(name).trim().is_empty());
        missing.then(|| words::GiveListed.into())
    }

    /// Each file that was asked for, drawn.
    pub(in crate::serve) fn listed(&self) -> Listed {
        let mut digest = Sha256::new();
        let file = |name: &String| {
            let text = self.text(name).to_owned();
            for part in [name, &text] {
                digest.update(u64::try_from(part.len()).unwrap_or(u64::MAX).to_be_bytes());
                digest.update(part);
            }
            let hangs = match text.trim() {
                "" => Err(words::ListedNotGiven.say(self.language)),
                _ => hangs(&text, self.language).map_err(|error| error.say(self.language)),
            };
            ListedFile { name: name.clone(), text, hangs }
        };
        let files = self.named.borrow().iter().map(file).collect();
        let shown = digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect();
        Listed { files, shown }
    }

    /// Whether nothing is to be looked at, or all of it was shown as it is now.
    pub(in crate::serve) fn were_shown(&self, listed: &Listed) -> bool {
        listed.files.is_empty() || self.form.get("shown") == listed.shown
    }
}
