//! Procedures: those that come with the program, and a unit's own.

use serde::Serialize;

use super::{App, AppError, Inner};
use slingseal_walk::procedure::{BUILT_IN, Expanded, Procedure, built_in, check};
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

    /// Takes in a unit's own procedure; it goes before one of the same id that comes with the program.
    ///
    /// # Errors
    /// Every fault of the file.
    pub fn add_procedure(&self, text: &str) -> Result<ProcedureView, AppError> {
        let procedure = check(text)?;
        let mut inner = self.lock();
        let name = own_name(procedure.id());
        inner.store.write(|tx| -> Result<(), AppError> {
            tx.put_setting(&name, text.as_bytes())?;
            tx.put_setting(OWN_LIST, &list_with(tx.setting(OWN_LIST)?, procedure.id()))?;
            Ok(())
        })?;
        Ok(view(&procedure, true, inner.language()))
    }
}

const OWN_LIST: &str = "procedures";

fn own_name(id: &ProcedureId) -> String {
    format!("procedure/{id}")
}

pub(crate) fn text_name(digest: &Digest) -> String {
    format!("procedure-text/{digest}")
}

fn list_with(list: Option<Vec<u8>>, id: &ProcedureId) -> Vec<u8> {
    let list = list.and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default();
    let mut ids: Vec<&str> = list.lines().collect();
    if !ids.contains(&id.as_str()) {
        ids.push(id.as_str());
    }
    ids.sort_unstable();
    ids.join("\n").into_bytes()
}

impl Inner {
    fn own_procedures(&self) -> Result<Vec<Procedure>, AppError> {
        let list = self.store.read().setting(OWN_LIST)?.and_then(|bytes| String::from_utf8(bytes).ok());
        let mut own = Vec::new();
        for id in list.unwrap_or_default().lines() {
            if let Some(text) = self.text_setting(&own_name(&ProcedureId::new(id)?))? {
                own.push(check(&text)?);
            }
        }
        Ok(own)
    }

    fn text_setting(&self, name: &str) -> Result<Option<String>, AppError> {
        Ok(self.store.read().setting(name)?.and_then(|bytes| String::from_utf8(bytes).ok()))
    }

    /// The procedure of an id: the unit's own before the program's.
    pub(crate) fn procedure(&self, id: &ProcedureId) -> Result<Procedure, AppError> {
        Ok(check(&self.procedure_text(id)?)?)
    }

    pub(crate) fn procedure_text(&self, id: &ProcedureId) -> Result<String, AppError> {
        if let Some(text) = self.text_setting(&own_name(id))? {
            return Ok(text);
        }
        let plain = BUILT_IN.iter().find(|plain| plain.id == id.as_str());
        plain.map(|plain| plain.text.to_owned()).ok_or_else(|| {
            let known: Vec<&str> = BUILT_IN.iter().map(|plain| plain.id).collect();
            AppError::not_found(format!("no procedure \"{id}\" here; known: {}", known.join(", ")))
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
    BUILT_IN.iter().any(|plain| Digest::of(plain.text.as_bytes()) == *digest)
}

/// The procedure of a digest: as it was walked, or one that comes with the program.
pub(crate) fn expanded_of(
    read: &slingseal_store::Reader<'_>,
    digest: &Digest,
    language: Language,
) -> Result<Expanded, AppError> {
    let text = read.setting(&text_name(digest))?.and_then(|bytes| String::from_utf8(bytes).ok());
    if let Some(text) = text {
        return Ok(check(&text)?.expand(language));
    }
    for plain in BUILT_IN {
        if Digest::of(plain.text.as_bytes()) == *digest {
            return Ok(check(plain.text)?.expand(language));
        }
    }
    Err(AppError::not_found("the procedure of this walk is not here; add its file"))
}
