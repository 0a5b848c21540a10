//! Procedures read and written out, each once for as long as one piece of work goes on: an account has thousands of records by a few of
//! them.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::expanded_of;
use crate::AppError;
use slingseal_store::Reader;
use slingseal_walk::procedure::{Expanded, Procedure, check};
use slingseal_words::{Digest, Faults, Language};

/// So many are kept at once.
const MOST: usize = 64;

/// Procedures written out, by the digests of their texts: a digest names one text for ever.
#[derive(Default)]
pub(crate) struct Plans(BTreeMap<Digest, Arc<Expanded>>);

impl Plans {
    /// One that was written out already.
    pub(crate) fn known(&self, digest: &Digest) -> Option<&Arc<Expanded>> {
        self.0.get(digest)
    }

    /// Takes one that was written out elsewhere.
    pub(crate) fn know(&mut self, plan: Arc<Expanded>) {
        if self.0.len() >= MOST && !self.0.contains_key(&plan.digest) {
            self.0.pop_first();
        }
        self.0.insert(plan.digest, plan);
    }

    /// The procedure of a digest, as [`expanded_of`] has it.
    pub(crate) fn of(
        &mut self,
        read: &Reader<'_>,
        digest: &Digest,
        language: Language,
    ) -> Result<Arc<Expanded>, AppError> {
        if let Some(plan) = self.known(digest) {
            return Ok(Arc::clone(plan));
        }
        let plan = Arc::new(expanded_of(read, digest, language)?);
        self.know(Arc::clone(&plan));
        Ok(plan)
    }
}

/// Texts of procedures that were read, by their digests: a tag's title is asked for whenever it is shown.
#[derive(Default)]
pub(crate) struct Texts(BTreeMap<Digest, Arc<Procedure>>);

impl Texts {
    /// A text, read.
    pub(crate) fn read(&mut self, text: &str) -> Result<Arc<Procedure>, Faults> {
        let digest = Digest::of(text.as_bytes());
        if let Some(known) = self.0.get(&digest) {
            return Ok(Arc::clone(known));
        }
        let read = Arc::new(check(text)?);
        if self.0.len() >= MOST {
            self.0.pop_first();
        }
        self.0.insert(digest, Arc::clone(&read));
        Ok(read)
    }
}
