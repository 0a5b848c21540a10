//! Procedures: those that come with the program, and a unit's own.

pub(crate) mod paper;
pub(crate) mod plans;
pub(crate) mod standing;
mod texts;
mod travel;

use serde::Serialize;
use slingseal_catalogue::refusals as words;
use slingseal_catalogue::tags as procedure_words;

use self::standing::{EditionState, Named, is_edition, standing};
use self::texts::{LISTS_LANGUAGE, texts_of_program};
pub(crate) use self::texts::{
    comes_with_the_program, expanded_of, is_approved, keep_own_text, keep_text, name_approved, tongue_of,
};
use crate::{App, AppError, Inner};
use slingseal_message::tag::Tag;
use slingseal_message::trust::Edition;
use slingseal_walk::procedure::{
    BUILT_IN, Expanded, Procedure, RELEASED, Subject, Tongue, check, points_document,
};
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
    /// SHA-256 of its file; of an edition that is not here, the beginning that its approval names.
    pub digest: String,
    /// Whether the unit wrote it.
    pub own: bool,
    /// What it inspects: a load by its tag, anything else by a name; none where its text is not here.
    #[serde(serialize_with = "crate::view::word_or_empty")]
    pub subject: Option<Subject>,
    /// Whether this device walks its id by this edition.
    pub in_use: bool,
    /// How it stands with the authorities that are trusted here.
    pub state: EditionState,
    /// Who approves or withdrew it, in words.
    pub approval: String,
}

/// Checks a procedure's file and says how large a walk it makes.
///
/// # Errors
/// Every fault, with line, column and mend.
pub fn check_procedure(text: &str) -> Result<ProcedureView, AppError> {
    let known = Known::of(&check(text)?, text, false, Language::English);
    Ok(known.view(&[], true, Language::English))
}

/// An edition whose text is here.
pub(crate) struct Known {
    id: String,
    version: u32,
    pub(crate) title: String,
    cards: u32,
    points: u32,
    pub(crate) digest: Digest,
    subject: Subject,
    /// Whether it came with the program, in this edition or one that was released before.
    pub(crate) built_in: bool,
    pub(crate) text: String,
}

impl Known {
    fn of(procedure: &Procedure, text: &str, built_in: bool, language: Language) -> Self {
        let expanded = procedure.expand(language);
        Self {
            id: procedure.id().to_string(),
            version: procedure.version(),
            title: expanded.title.clone(),
            cards: u32::try_from(expanded.cards.len()).unwrap_or(u32::MAX),
            points: u32::try_from(expanded.points()).unwrap_or(u32::MAX),
            digest: procedure.digest(),
            subject: procedure.subject(),
            built_in,
            text: text.to_owned(),
        }
    }

    /// Whether it is the edition that an approval names.
    pub(crate) fn is(&self, edition: &Edition) -> bool {
        is_edition(edition, &self.id, self.digest)
    }

    fn view(&self, named: &[Named], in_use: bool, language: Language) -> ProcedureView {
        let (state, approval) =
            standing(named.iter().filter(|one| self.is(&one.edition)), self.built_in, language);
        ProcedureView {
            id: self.id.clone(),
            version: self.version,
            title: self.title.clone(),
            cards: self.cards,
            points: self.points,
            digest: self.digest.to_string(),
            own: !self.built_in,
            subject: Some(self.subject),
            in_use,
            state,
            approval,
        }
    }
}

impl App {
    /// Tells lists in a language of their own from here on, where they have it: two letters, such as `fr`. With none, in the
    /// reader's.
    ///
    /// # Errors
    /// Letters that no list could have; storage.
    pub fn tell_lists_in(&self, code: Option<&str>) -> Result<(), AppError> {
        let tongue = match code {
            None => None,
            Some(code) => Some(
                Tongue::named(code)
                    .ok_or_else(|| AppError::bad_input(words::ListsLanguageUnknown { code }))?,
            ),
        };
        let mut inner = self.lock();
        // A walk in memory is folded anew, in the language that is wanted now.
        inner.walks.clear();
        let code = tongue.map_or("", Tongue::code);
        inner
            .store
            .write(|tx| -> Result<(), AppError> { Ok(tx.put_setting(LISTS_LANGUAGE, code.as_bytes())?) })
    }

    /// Every procedure that this home walks by, one edition of each.
    ///
    /// # Errors
    /// Storage.
    pub fn procedures(&self) -> Result<Vec<ProcedureView>, AppError> {
        let mut views = self.procedure_editions()?;
        views.retain(|view| view.in_use);
        Ok(views)
    }

    /// Every edition that this home has or should have, by id, then version: those that it walks by, those that are kept apart until
    /// an authority approves them, those that were withdrawn, those that are approved and not here.
    ///
    /// # Errors
    /// Storage.
    pub fn procedure_editions(&self) -> Result<Vec<ProcedureView>, AppError> {
        let inner = self.lock();
        let (language, named) = (inner.language(), inner.named()?);
        let texts = inner.texts()?;
        let mut views = Vec::new();
        for known in &texts {
            let chosen = inner.chosen(&ProcedureId::new(&known.id)?, &named)?;
            let in_use = chosen.is_some_and(|(digest, _)| digest == known.digest);
            let view = known.view(&named, in_use, language);
            // Editions that were replaced are read for ever, and nobody needs to see them unless somebody speaks of them.
            if in_use || !known.built_in || view.state != EditionState::NotApproved {
                views.push(view);
            }
        }
        for one in named.iter().filter(|one| one.holds() && !texts.iter().any(|known| known.is(&one.edition)))
        {
            let (_, approval) = standing(std::iter::once(one), false, language);
            views.push(ProcedureView {
                id: one.edition.procedure.to_string(),
                version: one.edition.version,
                title: procedure_words::ProcedureNotHere.say(language),
                cards: 0,
                points: 0,
                digest: crate::view::hex(&one.edition.thumbprint),
                own: true,
                subject: None,
                in_use: false,
                state: EditionState::Missing,
                approval,
            });
        }
        views.sort_by(|a, b| (&a.id, a.version, &a.digest).cmp(&(&b.id, b.version, &b.digest)));
        Ok(views)
    }

    /// The walk that a procedure expands to, as text.
    ///
    /// # Errors
    /// No such procedure.
    pub fn show_procedure(&self, id: &str) -> Result<String, AppError> {
        let inner = self.lock();
        let id = ProcedureId::new(id)?;
        Ok(inner.told(&inner.procedure(&id)?)?.with_ids(inner.language()).to_string())
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

    /// Takes in a unit's own procedure; it goes before one of the same id that comes with the program, and behind one that an
    /// authority approves.
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
        let named = inner.named()?;
        let language = inner.language();
        let in_use =
            inner.chosen(procedure.id(), &named)?.is_some_and(|(digest, _)| digest == procedure.digest());
        Ok(Known::of(&procedure, text, false, language).view(&named, in_use, language))
    }
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

    /// Every edition whose text is here and can be read: those of the program, those that were released before, the unit's own,
    /// those that came from others.
    pub(crate) fn texts(&self) -> Result<Vec<Known>, AppError> {
        let language = self.language();
        let mut texts: Vec<Known> = Vec::new();
        for (text, built_in) in texts_of_program()
            .map(|text| (text.to_owned(), true))
            .chain(self.store.read().procedure_texts()?.into_iter().map(|row| (row.text, false)))
        {
            let digest = Digest::of(text.as_bytes());
            if texts.iter().any(|known| known.digest == digest) {
                continue;
            }
            // One that this program cannot read stays as it is, and is walked by nobody here.
            if let Ok(procedure) = check(&text) {
                texts.push(Known::of(&procedure, &text, built_in, language));
            }
        }
        Ok(texts)
    }

    /// Every edition that the newest rosters of those trusted here speak of.
    pub(crate) fn named(&self) -> Result<Vec<Named>, AppError> {
        let (trusted, now) = (self.trusted()?, self.now());
        let mut named = Vec::new();
        for authority in trusted.iter() {
            let approved = authority.roster.iter().flat_map(|roster| &roster.approved);
            named.extend(approved.map(|(edition, approval)| Named {
                edition: edition.clone(),
                approval: *approval,
                authority: authority.name.clone(),
                now,
            }));
        }
        Ok(named)
    }

    /// The edition by which an id is walked here. One that a trusted authority approves goes first, of several the highest version:
    /// what anybody adds or sends takes no approved list's place. Then the unit's own, then the program's, where none is approved.
    fn chosen(&self, id: &ProcedureId, named: &[Named]) -> Result<Option<(Digest, String)>, AppError> {
        let read = self.store.read();
        let own = read.procedure_in_use(id.as_str())?.map(|row| row.text);
        let plain = BUILT_IN.iter().find(|plain| plain.id == id.as_str()).map(|plain| plain.text.to_owned());
        let usual = own.or(plain);
        let mut approved: Vec<&Edition> = named
            .iter()
            .filter(|one| one.holds() && one.edition.procedure == *id)
            .map(|one| &one.edition)
            .collect();
        approved.sort_by_key(|edition| std::cmp::Reverse(edition.version));
        if approved.is_empty() {
            return Ok(usual.map(|text| (Digest::of(text.as_bytes()), text)));
        }
        let released = BUILT_IN.iter().chain(RELEASED).filter(|plain| plain.id == id.as_str());
        let mut texts: Vec<String> = usual.iter().cloned().collect();
        texts.extend(released.map(|plain| plain.text.to_owned()));
        texts.extend(read.procedure_texts_of(id.as_str())?.into_iter().map(|row| row.text));
        let texts: Vec<(Digest, String)> =
            texts.into_iter().map(|text| (Digest::of(text.as_bytes()), text)).collect();
        for edition in approved {
            let fitting = texts.iter().find(|(digest, _)| is_edition(edition, id.as_str(), *digest));
            if let Some(fitting) = fitting {
                return Ok(Some(fitting.clone()));
            }
        }
        Ok(None)
    }

    /// A procedure in the language in which lists are told here.
    pub(crate) fn told(&self, procedure: &Procedure) -> Result<Expanded, AppError> {
        let language = self.language();
        Ok(procedure.expand_in(language, tongue_of(&self.store.read(), language)?))
    }

    /// The text that a tag orders: that very edition where the tag names one, else the one by which its id is walked here.
    pub(crate) fn text_ordered(&self, tag: &Tag) -> Result<String, AppError> {
        let Some(ordered) = &tag.basis.edition else { return self.procedure_text(&tag.procedure) };
        let id = tag.procedure.as_str();
        let fits = |text: &str| is_edition(ordered, id, Digest::of(text.as_bytes()));
        let of_program = BUILT_IN.iter().chain(RELEASED).filter(|plain| plain.id == id);
        if let Some(plain) = of_program.into_iter().find(|plain| fits(plain.text)) {
            return Ok(plain.text.to_owned());
        }
        let mut kept = self.store.read().procedure_texts_of(id)?.into_iter().map(|row| row.text);
        kept.find(|text| fits(text)).ok_or_else(|| {
            AppError::not_found(words::OrderedTextNotHere {
                procedure: id,
                version: ordered.version.to_string(),
                print: crate::view::hex(ordered.thumbprint.get(..4).unwrap_or_default()),
            })
        })
    }

    /// What is to be known of the list that a tag orders before anybody walks it; nothing where an authority trusted here approves
    /// it, or nobody is trusted here who could.
    pub(crate) fn order_warning(&self, tag: &Tag) -> Result<Option<String>, AppError> {
        if self.trusted()?.iter().next().is_none() {
            return Ok(None);
        }
        let named = self.named()?;
        let holds = |edition: &Edition| named.iter().any(|one| one.holds() && one.edition == *edition);
        let language = self.language();
        let (edition, says) = match &tag.basis.edition {
            Some(edition) if holds(edition) => return Ok(None),
            Some(edition) => (Some(edition.version), false),
            None => (None, named.iter().any(|one| one.holds() && one.edition.procedure == tag.procedure)),
        };
        let id = &tag.procedure;
        Ok(match (edition, says) {
            (Some(version), _) => {
                Some(procedure_words::EditionNotApproved { id, version: version.to_string() }.say(language))
            }
            (None, true) => None,
            (None, false) => Some(procedure_words::ProcedureNotApproved { id }.say(language)),
        })
    }

    /// The procedure of an id: the one that is approved, else the unit's own, else the program's.
    pub(crate) fn procedure(&self, id: &ProcedureId) -> Result<Procedure, AppError> {
        Ok(check(&self.procedure_text(id)?)?)
    }

    pub(crate) fn procedure_text(&self, id: &ProcedureId) -> Result<String, AppError> {
        let named = self.named()?;
        if let Some((_, text)) = self.chosen(id, &named)? {
            return Ok(text);
        }
        if let Some(one) = named.iter().find(|one| one.holds() && one.edition.procedure == *id) {
            return Err(AppError::not_found(words::ApprovedTextNotHere {
                authority: &one.authority,
                procedure: id,
                version: one.edition.version.to_string(),
            }));
        }
        let known: Vec<&str> = BUILT_IN.iter().map(|plain| plain.id).collect();
        Err(AppError::not_found(words::NoProcedureKnown { id: &id, list: known.join(", ") }))
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
