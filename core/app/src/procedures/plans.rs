//! Procedures written out, each once for as long as one piece of work goes on: an account has thousands of records by a few of them.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::expanded_of;
use crate::AppError;
use slingseal_store::Reader;
use slingseal_walk::procedure::Expanded;
use slingseal_words::{Digest, Language};

/// So many are kept at once.
const MOST: usize = 64;

/// Procedures written out, by the digests of their texts.
#[derive(Default)]
pub(crate) struct Plans(BTreeMap<Digest, Arc<Expanded>>);

impl Plans {
    /// The procedure of a digest, as [`expanded_of`] has it.
    pub(crate) fn of(
        &mut self,
        read: &Reader<'_>,
        digest: &Digest,
        language: Language,
    ) -> Result<Arc<Expanded>, AppError> {
        if let Some(plan) = self.0.get(digest) {
            return Ok(Arc::clone(plan));
        }
        let plan = Arc::new(expanded_of(read, digest, language)?);
        if self.0.len() >= MOST {
            self.0.pop_first();
        }
        self.0.insert(*digest, Arc::clone(&plan));
        Ok(plan)
    }
}
