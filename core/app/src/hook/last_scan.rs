//! What was judged at the hook last, kept in memory: a refusal is reported of what was shown.

use slingseal_judgement::{Judged, Judgement, LoadWord, gravest};

/// What was judged last, to be drawn again.
pub(crate) struct LastScan {
    pub(super) seen: Vec<Judged>,
}

impl LastScan {
    /// What was shown: the gravest, and the tag beside it.
    pub(crate) fn gravest(&self) -> Option<(&Judgement, Option<&LoadWord>)> {
        let judgements: Vec<Judgement> = self.seen.iter().map(|seen| seen.judgement.clone()).collect();
        let worst = gravest(&judgements);
        let worst = self.seen.iter().find(|seen| Some(&seen.judgement) == worst)?;
        Some((&worst.judgement, worst.tag.as_ref()))
    }
}
