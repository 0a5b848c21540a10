//! Which lists count: the editions of procedures that an authority approves, and those that it withdrew. They travel in its roster,
//! which must be fresh anyway: one thing to carry, one rule of age.

use crate::procedures::keep_own_text;
use crate::trust::rosters::has_room;
use crate::trust::vault::AUTHORITY_VAULT;
use crate::trust::view::{ApprovalView, AuthorityView};
use crate::view::hex;
use crate::{App, AppError, Inner, Stamp};
use slingseal_catalogue::refusals as words;
use slingseal_message::trust::{Approval, Edition, Roster};
use slingseal_walk::procedure::{BUILT_IN, Procedure, check};
use slingseal_words::{ProcedureId, Time};

/// What an authority approves: a procedure that its home knows, or a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Approve {
    /// The edition that this home walks an id by.
    Id(String),
    /// The whole text of a file; it is taken in.
    Text(String),
}

/// The ids of the procedures that come with the program.
pub fn built_in_procedures() -> Vec<String> {
    BUILT_IN.iter().map(|plain| plain.id.to_owned()).collect()
}

/// Puts an edition among those that are approved.
///
/// # Errors
/// Another text has the same id and version: whoever is told a version could not know which was meant.
pub(super) fn approve_edition(roster: &mut Roster, procedure: &Procedure, now: Time) -> Result<(), AppError> {
    let edition = Edition::of(procedure.id().clone(), procedure.version(), procedure.digest());
    let other = roster.approved.keys().find(|known| {
        known.procedure == edition.procedure
            && known.version == edition.version
            && known.thumbprint != edition.thumbprint
    });
    if let Some(other) = other {
        return Err(AppError::refused(words::EditionApprovedWithAnotherText {
            version: edition.version.to_string(),
            procedure: &edition.procedure,
            print: hex(&other.thumbprint),
        }));
    }
    let standing = roster.approved.get(&edition).filter(|approval| approval.withdrawn.is_none());
    if standing.is_none() {
        roster.approved.insert(edition, Approval { from: now, withdrawn: None });
    }
    Ok(())
}

/// What a word means among the editions of a roster: an id, an id with its version (`bag@2`), or the beginning of a thumbprint.
fn meant(roster: &Roster, word: &str) -> Vec<Edition> {
    let word = word.trim().to_lowercase();
    let (id, version) = match word.split_once('@') {
        Some((id, version)) => (id, version.trim_start_matches('v').parse::<u32>().ok()),
        None => (word.as_str(), None),
    };
    let by_name = |edition: &&Edition| {
        edition.procedure.as_str() == id && (!word.contains('@') || version == Some(edition.version))
    };
    let named: Vec<Edition> = roster.approved.keys().filter(by_name).cloned().collect();
    if named.is_empty() && word.len() >= 8 {
        let by_digits = |edition: &&Edition| hex(&edition.thumbprint).starts_with(&word);
        return roster.approved.keys().filter(by_digits).cloned().collect();
    }
    named
}

impl App {
    /// Approves editions of procedures, and signs a new roster that says so. A file is taken in, and this home plans by it from then
    /// on. An edition that was withdrawn is approved anew, from now on.
    ///
    /// # Errors
    /// Faults of a file; no such procedure; another text of the same id and version is approved; a wrong passphrase.
    pub fn approve(
        &self,
        which: &[Approve],
        days: Option<u32>,
        passphrase: &str,
    ) -> Result<AuthorityView, AppError> {
        // What can be told without the passphrase is told first: it costs no try.
        self.lock().roster_with(which, days)?;
        let key = self.open_key(AUTHORITY_VAULT, passphrase)?;
        let mut inner = self.lock();
        let Approving { roster, texts, named } = inner.roster_with(which, days)?;
        inner.sign_roster(&roster, &key)?;
        inner.store.write(|tx| texts.iter().try_for_each(|text| keep_own_text(tx, text)))?;
        inner.told_of(&roster, &named)
    }

    /// Takes approvals back, and signs a new roster that says so: by id (every edition of it), `ID@VERSION`, or the beginning of a
    /// thumbprint. What was walked before stays as it was.
    ///
    /// # Errors
    /// Nothing of that name is approved; a wrong passphrase.
    pub fn withdraw(
        &self,
        which: &[String],
        days: Option<u32>,
        passphrase: &str,
    ) -> Result<AuthorityView, AppError> {
        self.lock().roster_less(which, days)?;
        let key = self.open_key(AUTHORITY_VAULT, passphrase)?;
        let mut inner = self.lock();
        let (roster, taken) = inner.roster_less(which, days)?;
        inner.sign_roster(&roster, &key)?;
        inner.told_of(&roster, &taken)
    }
}

/// A roster that is to be signed, the texts that it approves, and their editions.
pub(crate) struct Approving {
    pub(crate) roster: Roster,
    texts: Vec<String>,
    pub(crate) named: Vec<Edition>,
}

impl Inner {
    pub(crate) fn roster_with(&self, which: &[Approve], days: Option<u32>) -> Result<Approving, AppError> {
        let now = self.now();
        let mut roster = self.next_roster(days)?;
        let (mut texts, mut named) = (Vec::new(), Vec::new());
        for one in which {
            let procedure = match one {
                Approve::Id(id) => {
                    let id = ProcedureId::new(id)?;
                    let text = self.procedure_text(&id)?;
                    texts.push(text.clone());
                    check(&text)?
                }
                Approve::Text(text) => {
                    texts.push(text.clone());
                    check(text)?
                }
            };
            approve_edition(&mut roster, &procedure, now)?;
            named.push(Edition::of(procedure.id().clone(), procedure.version(), procedure.digest()));
        }
        has_room(&roster)?;
        Ok(Approving { roster, texts, named })
    }

    pub(crate) fn roster_less(
        &self,
        which: &[String],
        days: Option<u32>,
    ) -> Result<(Roster, Vec<Edition>), AppError> {
        let now = self.now();
        let mut roster = self.next_roster(days)?;
        let mut taken = Vec::new();
        for word in which {
            let editions = meant(&roster, word);
            if editions.is_empty() {
                return Err(AppError::not_found(words::NoProcedureApprovedHere { word }));
            }
            for edition in editions {
                if let Some(approval) = roster.approved.get_mut(&edition) {
                    // Never before it was approved: no roster of that sort can be read.
                    approval.withdrawn.get_or_insert(now.max(approval.from));
                    taken.push(edition);
                }
            }
        }
        Ok((roster, taken))
    }

    pub(crate) fn told_of(&self, roster: &Roster, editions: &[Edition]) -> Result<AuthorityView, AppError> {
        let mut changed = self.approvals_of(roster)?;
        changed.retain(|view| {
            editions.iter().any(|edition| {
                (edition.procedure.as_str(), edition.version, hex(&edition.thumbprint))
                    == (view.id.as_str(), view.version, view.thumbprint.clone())
            })
        });
        Ok(AuthorityView { changed, ..self.authority_view()? })
    }

    /// Every edition that a roster speaks of, by id, then version.
    pub(crate) fn approvals_of(&self, roster: &Roster) -> Result<Vec<ApprovalView>, AppError> {
        let texts = self.texts()?;
        let view = |(edition, approval): (&Edition, &Approval)| {
            let text = texts.iter().find(|known| known.is(edition));
            ApprovalView {
                id: edition.procedure.to_string(),
                version: edition.version,
                thumbprint: hex(&edition.thumbprint),
                title: text.map(|known| known.title.clone()),
                built_in: text.is_some_and(|known| known.built_in),
                from: approval.from.into(),
                withdrawn: approval.withdrawn.map(Stamp::from),
            }
        };
        Ok(roster.approved.iter().map(view).collect())
    }
}
