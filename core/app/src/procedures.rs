//! Procedures: those that come with the program, and a unit's own.

use serde::Serialize;
use slingseal_catalogue::refusals as words;

use crate::{App, AppError, Inner};
use slingseal_store::{ProcedureTextRow, Tx};
use slingseal_walk::procedure::{BUILT_IN, Expanded, Procedure, RELEASED, built_in, check, points_document};
use slingseal_words::{Digest, Language, ProcedureId};

/// A procedure in the list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ProcedureView {
    /// What it goes by.
    pub id: String,
    /// Its version.
    pub version: u32,
    /// What it is for.
    pub title: String,
    /// How many cards it expands to.
    pub cards: u32,
    /// How many points.
    pub points: u32,
    /// SHA-256 of its file.
    pub digest: String,
    /// Whether the unit wrote it.
    pub own: bool,
    /// What it inspects: `load` by its tag; `piece`, `aircraft`, `zone` or `handling` by a name.
    pub subject: String,
}

/// Checks a procedure's file and says how large a walk it makes.
///
/// # Errors
/// Every fault, with line, column and mend.
pub fn check_procedure(text: &str) -> Result<ProcedureView, AppError> {
    Ok(view(&check(text)?, true, Language::English))
}

fn view(procedure: &Procedure, own: bool, language: Language) -> ProcedureView {
    let expanded = procedure.expand(language);
    ProcedureView {
        id: procedure.id().to_string(),
        version: procedure.version(),
        title: expanded.title.clone(),
        cards: u32::try_from(expanded.cards.len()).unwrap_or(u32::MAX),
        points: u32::try_from(expanded.points()).unwrap_or(u32::MAX),
        digest: procedure.digest().to_string(),
        own,
        subject: procedure.subject().word().to_owned(),
    }
}

impl App {
    /// Every procedure that this home knows.
    ///
    /// # Errors
    /// Storage.
    pub fn procedures(&self) -> Result<Vec<ProcedureView>, AppError> {
        let inner = self.lock();
        let language = inner.language();
        let mut views = Vec::new();
        for own in inner.own_procedures()? {
            views.push(view(&own, true, language));
        }
        for plain in BUILT_IN {
            if let Some(procedure) = built_in(plain.id)
                && !views.iter().any(|own| own.id == plain.id)
            {
                views.push(view(&procedure, false, language));
            }
        }
        views.sort_by(|a, b| a.id.cmp(&b.id));
        Ok(views)
    }

    /// The walk that a procedure expands to, as text.
    ///
    /// # Errors
    /// No such procedure.
    pub fn show_procedure(&self, id: &str) -> Result<String, AppError> {
        let inner = self.lock();
        let id = ProcedureId::new(id)?;
        Ok(inner.procedure(&id)?.expand(inner.language()).to_string())
    }

    /// Every point of a procedure, or of all that this home knows, with its source and what becomes of what is found: a
    /// document for whoever approves them.
    ///
    /// # Errors
    /// No such procedure.
    pub fn procedure_table(&self, id: Option<&str>) -> Result<String, AppError> {
        let ids = match id {
            Some(id) => vec![id.to_owned()],
            None => self.procedures()?.into_iter().map(|known| known.id).collect(),
        };
        let inner = self.lock();
        let plan = |id: &String| -> Result<Expanded, AppError> {
            Ok(inner.procedure(&ProcedureId::new(id)?)?.expand(inner.language()))
        };
        let plans: Vec<Expanded> = ids.iter().map(plan).collect::<Result<_, _>>()?;
        Ok(points_document(plans))
    }

    /// Takes in a unit's own procedure; it goes before one of the same id that comes with the program.
    ///
    /// # Errors
    /// Every fault of the file.
    pub fn add_procedure(&self, text: &str) -> Result<ProcedureView, AppError> {
        let procedure = check(text)?;
        let mut inner = self.lock();
        inner.store.write(|tx| -> Result<(), AppError> {
            keep_own_text(tx, text)?;
            tx.use_procedure(procedure.id().as_str(), procedure.digest())?;
            Ok(())
        })?;
        Ok(view(&procedure, true, inner.language()))
    }
}

/// Keeps the text of a procedure that this device works by.
pub(crate) fn keep_own_text(tx: &Tx<'_>, text: &str) -> Result<(), AppError> {
    keep_text(tx, text)?;
    tx.remove_stray(Digest::of(text.as_bytes()))?;
    Ok(())
}

/// Keeps the text of a procedure, with what it says of itself; `false` where it was here.
pub(crate) fn keep_text(tx: &Tx<'_>, text: &str) -> Result<bool, AppError> {
    let digest = Digest::of(text.as_bytes());
    let known = tx.procedure_text(digest)?;
    if known.as_ref().is_some_and(|known| known.said.is_some()) {
        return Ok(false);
    }
    let procedure = check(text)?;
    let title = procedure.title(Language::English).to_owned();
    let said = Some((procedure.id().to_string(), procedure.version(), title));
    tx.put_procedure_text(&ProcedureTextRow { digest, said, text: text.to_owned() })?;
    Ok(known.is_none())
}

impl Inner {
    /// Texts that came with an older schema say nothing of themselves yet. One that this program cannot read stays as it is.
    pub(crate) fn read_procedure_texts(&mut self) -> Result<(), AppError> {
        let unread = self.store.read().procedures_unread()?;
        let readable: Vec<&str> =
            unread.iter().map(|row| row.text.as_str()).filter(|text| check(text).is_ok()).collect();
        if readable.is_empty() {
            return Ok(());
        }
        self.store.write(|tx| readable.into_iter().try_for_each(|text| keep_text(tx, text).map(drop)))
    }

    fn own_procedures(&self) -> Result<Vec<Procedure>, AppError> {
        let read = self.store.read();
        let mut own = Vec::new();
        for (id, _) in read.procedures_in_use()? {
            if let Some(row) = read.procedure_in_use(&id)? {
                own.push(check(&row.text)?);
            }
        }
        Ok(own)
    }

    /// The procedure of an id: the unit's own before the program's.
    pub(crate) fn procedure(&self, id: &ProcedureId) -> Result<Procedure, AppError> {
        Ok(check(&self.procedure_text(id)?)?)
    }

    pub(crate) fn procedure_text(&self, id: &ProcedureId) -> Result<String, AppError> {
        if let Some(row) = self.store.read().procedure_in_use(id.as_str())? {
            return Ok(row.text);
        }
        let plain = BUILT_IN.iter().find(|plain| plain.id == id.as_str());
        plain.map(|plain| plain.text.to_owned()).ok_or_else(|| {
            let known: Vec<&str> = BUILT_IN.iter().map(|plain| plain.id).collect();
            AppError::not_found(words::NoProcedureKnown { id: &id, list: known.join(", ") })
        })
    }

    /// The very text that a walk was begun with: a walk goes on by it, whatever replaced it since.
    pub(crate) fn procedure_of_digest(
        &self,
        digest: &Digest,
        language: Language,
    ) -> Result<Expanded, AppError> {
        expanded_of(&self.store.read(), digest, language)
    }
}

/// Whether every device has the text of a procedure already.
pub(crate) fn comes_with_the_program(digest: &Digest) -> bool {
    text_of_program(digest).is_some()
}

/// The file of a digest among those that come with the program, in this edition or one that was released before.
fn text_of_program(digest: &Digest) -> Option<&'static str> {
    let mut all = BUILT_IN.iter().chain(RELEASED).map(|plain| plain.text);
    all.find(|text| Digest::of(text.as_bytes()) == *digest)
}

/// The procedure of a digest: as it was walked, or one that comes with the program.
pub(crate) fn expanded_of(
    read: &slingseal_store::Reader<'_>,
    digest: &Digest,
    language: Language,
) -> Result<Expanded, AppError> {
    if let Some(row) = read.procedure_text(*digest)? {
        return Ok(check(&row.text)?.expand(language));
    }
    if let Some(text) = text_of_program(digest) {
        return Ok(check(text)?.expand(language));
    }
    Err(AppError::not_found(words::ProcedureWalkAddFile))
}
