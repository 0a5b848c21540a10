//! The one door through which a signed word comes into the home, whatever carried it: a scan, a bundle, a moving code, the page, or
//! this device's own signing.

mod closings;
mod inspections;
mod movements;
mod seals;
mod tags;
mod trust;
mod voids;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

pub(crate) use self::seals::{MadeAhead, seal_of};
pub(crate) use self::tags::is_sealed;
use crate::AppError;
use crate::account::strays::{GaveWay, MOST_STRAY_BYTES, MOST_STRAYS};
use crate::account::{loads_naming, open_word, restand, restand_all, trusted_of, whole_again};
use crate::hook::ahead::{OpenedWord, Opener, procedure_of};
use crate::procedures::plans::Plans;
use slingseal_account::sync::Item;
use slingseal_catalogue::refusals as words;
use slingseal_judgement::{Author, LoadWord};
use slingseal_message::envelope::Kind;
use slingseal_message::trust::{Signer, Trusted};
use slingseal_store::{StrayKind, Tx};
use slingseal_walk::procedure::Expanded;
use slingseal_words::{Digest, Language, LoadNumber, Time};

/// Loads are judged anew after so many of their words at the latest: what is held until then stays small.
const MOST_FRESH: usize = 1_024;

/// Words coming in: one transaction.
pub(crate) struct Admission<'a, 'c> {
    pub(crate) tx: &'a Tx<'c>,
    pub(crate) trusted: Trusted,
    pub(crate) now: Time,
    language: Language,
    plans: Plans,
    /// Procedures that a record which came names, and that are written down as named.
    named: BTreeSet<Digest>,
    /// Words that came since their loads were judged last.
    fresh: BTreeMap<LoadNumber, Vec<LoadWord>>,
    waiting: usize,
    /// Loads of which a void is here, whatever else of them is; read when it is first asked.
    voided: Option<BTreeSet<String>>,
    /// Counts how often trust changed: what was opened ahead under another is opened anew.
    trust: u64,
    /// Loads that a change of trust touched.
    touched: BTreeSet<String>,
    /// How many reports are here that nobody known signed and that were not written here; counted when it is first asked.
    unknown_movements: Option<u64>,
    /// Pieces of which an inspection came, by their serial numbers in capitals: loads that name them are judged anew.
    pieces: BTreeSet<String>,
    /// Strays that came since it was looked how many there are, and their bytes.
    strays: (u64, u64),
    gave_way: GaveWay,
}

/// Words that came in.
pub(crate) struct Admitted {
    pub(crate) trusted: Trusted,
    /// What was kept before and is gone now.
    pub(crate) gave_way: GaveWay,
}

impl<'a, 'c> Admission<'a, 'c> {
    pub(crate) fn begin(tx: &'a Tx<'c>, now: Time, language: Language) -> Result<Self, AppError> {
        Ok(Self::trusting(tx, trusted_of(tx)?, now, language))
    }

    /// The same, where whom this home trusts was read already: nothing was written since.
    pub(crate) fn trusting(tx: &'a Tx<'c>, trusted: Trusted, now: Time, language: Language) -> Self {
        Self {
            tx,
            trusted,
            now,
            language,
            plans: Plans::default(),
            named: BTreeSet::new(),
            fresh: BTreeMap::new(),
            waiting: 0,
            voided: None,
            trust: 0,
            touched: BTreeSet::new(),
            unknown_movements: None,
            pieces: BTreeSet::new(),
            strays: (0, 0),
            gave_way: GaveWay::default(),
        }
    }

    /// Goes on with an opener's trust where nothing changed since, so that what it opened stands; otherwise under another number.
    pub(crate) fn go_on_with(&mut self, opener: &Opener) {
        let Some(trust) = opener.trust else { return };
        if self.trusted.iter().eq(opener.trusted.iter()) {
            (self.trust, self.trusted) = (trust, opener.trusted.clone());
        } else {
            self.trust = trust + 1;
        }
    }

    /// A procedure that is written out already, by which a record that comes was walked.
    pub(crate) fn know_plan(&mut self, plan: &Arc<Expanded>) {
        self.plans.know(plan.clone());
    }

    /// A word that was opened under this trust: where it is kept, its load is judged by it without opening it again.
    pub(crate) fn know_word(&mut self, word: &LoadWord) {
        self.fresh.entry(word.load().clone()).or_default().push(word.clone());
    }

    /// Opens a word of a load.
    pub(crate) fn open(&mut self, kind: Kind, bytes: &[u8]) -> Result<LoadWord, AppError> {
        Ok(open_word(kind, bytes, &mut self.trusted)?)
    }

    /// A word that was opened ahead, under the trust of now.
    pub(crate) fn opened(&mut self, ahead: OpenedWord) -> Result<LoadWord, AppError> {
        if self.is_of_now(&ahead) { Ok(ahead.word) } else { self.open(ahead.word.kind(), ahead.word.bytes()) }
    }

    /// Whether what was opened ahead was opened under the trust of now.
    pub(crate) fn is_of_now(&self, ahead: &OpenedWord) -> bool {
        ahead.trust == Some(self.trust)
    }

    /// Tells an opener what the items before it will need: whom this home trusts now, and the procedures that they name.
    pub(crate) fn brief(&mut self, opener: &mut Opener, items: &[&Item]) {
        if opener.trust != Some(self.trust) {
            (opener.trust, opener.trusted) = (Some(self.trust), self.trusted.clone());
        }
        let named: BTreeSet<Digest> = items.iter().filter_map(|item| procedure_of(item)).collect();
        for digest in named {
            if opener.plans.known(&digest).is_some() {
                continue;
            }
            // Where it is not here, whoever names it hears of that in its turn.
            if let Ok(plan) = self.plan(&digest) {
                opener.plans.know(plan);
            }
        }
    }

    /// A procedure written out, by the digest of its text.
    fn plan(&mut self, digest: &Digest) -> Result<Arc<Expanded>, AppError> {
        self.plans.of(self.tx, digest, self.language)
    }

    /// Counts what was kept just now and nobody signed. How many there are is looked at now and then, so that nothing long grows
    /// the file on the way.
    pub(crate) fn count(&mut self, kind: StrayKind, digest: Digest, size: usize) -> Result<(), AppError> {
        if self.tx.is_named(digest)? {
            return Ok(());
        }
        let size = size as u64;
        self.tx.put_stray(kind, digest, size)?;
        self.strays = (self.strays.0 + 1, self.strays.1 + size);
        if self.strays.0 < MOST_STRAYS && self.strays.1 < MOST_STRAY_BYTES {
            return Ok(());
        }
        self.strays = (0, 0);
        self.gave_way.trim(self.tx)
    }

    /// Loads of which something new came are judged anew, a number of them together.
    fn came(&mut self, word: &LoadWord) -> Result<(), AppError> {
        self.fresh.entry(word.load().clone()).or_default().push(word.clone());
        self.waiting += 1;
        if self.waiting >= MOST_FRESH { self.judge_fresh() } else { Ok(()) }
    }

    /// Whether no word of a load is here. Voids are looked up without an index: once for all loads of this transaction.
    fn is_blank(&mut self, load: &LoadNumber) -> Result<bool, AppError> {
        let voided = match &mut self.voided {
            Some(voided) => voided,
            none => none.insert(self.tx.voided_loads()?),
        };
        Ok(!voided.contains(load.as_str()) && self.tx.is_blank(load.as_str())?)
    }

    fn judge_fresh(&mut self) -> Result<(), AppError> {
        self.waiting = 0;
        restand(self.tx, &std::mem::take(&mut self.fresh), &mut self.trusted)
    }

    /// Judges what is left, and leaves the time of it.
    pub(crate) fn finish(mut self) -> Result<Admitted, AppError> {
        self.gave_way.trim(self.tx)?;
        self.judge_fresh()?;
        self.touched.extend(loads_naming(self.tx, &self.pieces)?);
        let touched: Vec<String> = std::mem::take(&mut self.touched).into_iter().collect();
        restand_all(self.tx, &touched, &mut self.trusted)?;
        whole_again(self.tx, &self.trusted)?;
        self.tx.judged_at(self.now)?;
        Ok(Admitted { trusted: self.trusted, gave_way: self.gave_way })
    }
}

/// Whoever stands behind a word, where an authority that is trusted here stands behind that person.
fn signer_of(word: &LoadWord) -> Result<&Signer, AppError> {
    let load = word.load();
    match word.author() {
        Author::Known(signer) => Ok(signer),
        Author::Unknown => {
            Err(AppError::refused(words::LoadComesFromAuthorityDevice { load: &load, kind: word.kind() }))
        }
        Author::Refused(error) => Err(AppError::refused(words::OfLoad { load: &load, error: &error })),
        Author::Nobody | Author::ThisDevice => {
            Err(AppError::refused(words::LoadNobodySigned { load: &load, kind: word.kind() }))
        }
    }
}
