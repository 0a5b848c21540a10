//! A procedure on paper, for a dead battery: every point with a box, and a code that says which edition it is.

use serde::Serialize;
use slingseal_catalogue::tags as procedure_words;

use super::standing;
use crate::{App, AppError, CodeKind, CodeView};
use slingseal_qr as qr;
use slingseal_walk::procedure::{Changes, check, governing_manual, schema, template};
use slingseal_words::{Language, ProcedureId};

/// A procedure to walk by with a pen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ChecklistView {
    /// What it goes by.
    pub id: String,
    /// Which edition.
    pub version: u32,
    /// What it is for.
    pub title: String,
    /// What its writer says about it.
    pub about: Option<String>,
    /// SHA-256 of its text.
    pub digest: String,
    /// Who approves or withdrew it, in words.
    pub approval: String,
    /// That the governing manual rules, and what paper is worth.
    pub cautions: Vec<String>,
    /// The cards in the order of the walk.
    pub cards: Vec<ChecklistCard>,
    /// Which edition it is, as a code: `PROCEDURE`, id, version and SHA-256, with blanks between.
    pub code: CodeView,
}

/// One motion.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ChecklistCard {
    /// Its number.
    pub number: u32,
    /// The station's title, where the card is its first.
    pub station: Option<String>,
    /// What it is called.
    pub title: String,
    /// What eyes and hands do.
    pub motion: String,
    /// What is judged.
    pub points: Vec<ChecklistPoint>,
}

/// One box.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ChecklistPoint {
    /// The point's id: what a record would name.
    pub id: String,
    /// What is asked.
    pub prompt: String,
    /// How it is answered, in a few words; nothing where a look is all.
    pub answer: String,
    /// Where the point comes from.
    pub source: String,
    /// What may be found, by name.
    pub deficiencies: Vec<String>,
}

/// A small commented file of a procedure to begin with.
///
/// # Errors
/// An id that none can have.
pub fn procedure_template(id: &str) -> Result<String, AppError> {
    Ok(template(&ProcedureId::new(id)?))
}

/// What a file does not say in a language in which it says something, a line each: there it is told in English.
///
/// # Errors
/// Every fault of the file.
pub fn procedure_untold(text: &str, language: Language) -> Result<Vec<String>, AppError> {
    Ok(check(text)?.untold().iter().map(|line| line.say(language)).collect())
}

/// The JSON Schema of a procedure's file, for an editor.
pub fn procedure_schema() -> String {
    schema()
}

/// Which cards and points came, went or changed between two files, a line each, in the reader's language; none where nothing
/// that is walked has changed.
///
/// # Errors
/// Every fault of either.
pub fn procedure_changes(old: &str, new: &str, language: Language) -> Result<Vec<String>, AppError> {
    let changes = Changes::between(&check(old)?, &check(new)?, language);
    Ok(changes.lines.iter().map(|line| line.say(language)).collect())
}

impl App {
    /// The text of the edition by which an id is walked here.
    ///
    /// # Errors
    /// No such procedure.
    pub fn procedure_text(&self, id: &str) -> Result<String, AppError> {
        self.lock().procedure_text(&ProcedureId::new(id)?)
    }

    /// A blank checklist of one procedure.
    ///
    /// # Errors
    /// No such procedure.
    pub fn checklist(&self, id: &str) -> Result<ChecklistView, AppError> {
        let inner = self.lock();
        let (id, language) = (ProcedureId::new(id)?, inner.language());
        let plan = inner.told(&inner.procedure(&id)?)?;
        let named = inner.named()?;
        let own = super::comes_with_the_program(&plan.digest);
        let about = named.iter().filter(|one| super::is_edition(&one.edition, id.as_str(), plan.digest));
        let (_, approval) = standing(about, own, language);
        let text = format!("PROCEDURE {} {} {}", plan.id, plan.version, plan.digest).to_uppercase();
        let code = qr::write(&text).map_err(AppError::internal)?;
        let cards = plan.cards.iter().map(|card| {
            let station = plan.stations.get(card.station).filter(|station| station.first == card.number);
            ChecklistCard {
                number: card.number.number(),
                station: station.map(|station| station.title.clone()),
                title: card.title.clone(),
                motion: card.motion.clone(),
                points: card
                    .points
                    .iter()
                    .map(|point| ChecklistPoint {
                        id: point.id.to_string(),
                        prompt: point.prompt.clone(),
                        answer: match &point.kind {
                            slingseal_walk::procedure::Kind::Look => String::new(),
                            other => other.saying().say(language),
                        },
                        source: point.mark.saying().say(language),
                        deficiencies: point.deficiencies.iter().map(|known| known.shown.clone()).collect(),
                    })
                    .collect(),
            }
        });
        Ok(ChecklistView {
            id: plan.id.to_string(),
            version: plan.version,
            title: plan.title.clone(),
            about: plan.about.clone(),
            digest: plan.digest.to_string(),
            approval,
            cautions: vec![governing_manual(language), procedure_words::ListOnPaper.say(language)],
            cards: cards.collect(),
            code: CodeView {
                kind: CodeKind::Procedure,
                size: code.size(),
                modules: code.modules().iter().map(|dark| u8::from(*dark)).collect(),
                version: code.version(),
                check: String::new(),
                text,
            },
        })
    }
}
