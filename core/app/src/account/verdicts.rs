//! What is kept of the judgement's answer, as the store's columns hold it: how each seal stands, and the load with them.

use std::collections::BTreeMap;

use super::kept::Kept;
use crate::AppError;
use slingseal_judgement::{
    Evidence, InspectionWord, LoadState, LoadWord, Outline, RULES, Standing, facts_of_load,
};
use slingseal_message::trust::{PublicKey, Trusted};
use slingseal_store::{InspectedFacts, Judged, LoadRow, Reader};
use slingseal_words::{Digest, LoadNumber};

fn judged(standing: &Standing) -> Judged {
    let (kept, successor) = match standing {
        Standing::Fit | Standing::Expired => (slingseal_store::Standing::Fit, None),
        Standing::NotFit => (slingseal_store::Standing::NotFit, None),
        Standing::Superseded { by, .. } => (slingseal_store::Standing::Superseded, Some(*by)),
        Standing::Voided => (slingseal_store::Standing::Voided, None),
        Standing::Refused(_) => (slingseal_store::Standing::Refused, None),
        Standing::Waits(_) => (slingseal_store::Standing::Waits, None),
        Standing::NoInspection(_) => (slingseal_store::Standing::NoInspection, None),
    };
    let reason = standing.reason().map(|reason| reason.code().to_owned()).unwrap_or_default();
    Judged { standing: kept, reason, successor, version: RULES }
}

/// A seal that cannot be read any more is evidence of nothing.
fn unreadable() -> Judged {
    Judged {
        standing: slingseal_store::Standing::NoInspection,
        reason: "unreadable".into(),
        successor: None,
        version: RULES,
    }
}

/// What is to be kept of a load: how each of its seals stands, and the load with them.
pub(crate) struct Verdicts {
    pub(crate) seals: BTreeMap<Digest, Judged>,
    pub(crate) load: Option<LoadRow>,
    /// The seal of its latest inspection.
    pub(super) latest: Option<Digest>,
}

impl Verdicts {
    pub(super) fn of(load: &LoadNumber, kept: &Kept, trusted: &Trusted) -> Self {
        let seals = kept.records.iter().map(|row| row.seal);
        Self::of_words(load, seals, &kept.words, &kept.pieces, trusted)
    }

    /// Of all words of a load and the inspections of the pieces that its tags name, for these seals of it.
    pub(super) fn of_words(
        load: &LoadNumber,
        seals: impl IntoIterator<Item = Digest>,
        words: &[LoadWord],
        pieces: &[InspectionWord],
        trusted: &Trusted,
    ) -> Self {
        let words: Vec<&LoadWord> = words.iter().collect();
        let evidence = Evidence::lasting(trusted, &words, pieces);
        let found = facts_of_load(load, &evidence);
        let seals = seals.into_iter().map(|seal| {
            let judged = found.seals.get(&seal).map(|facts| judged(&facts.lasting()));
            (seal, judged.unwrap_or_else(unreadable))
        });
        let latest = found.latest.and_then(|latest| Some((latest, found.seals.get(&latest)?)));
        let load =
            latest.and_then(|(latest, facts)| Some(load_row(load, latest, &Outline::of(&facts.facts)?)));
        Self { seals: seals.collect(), load, latest: found.latest }
    }

    /// What would be kept of a load now.
    pub(crate) fn now(read: &Reader<'_>, load: &LoadNumber, trusted: &mut Trusted) -> Result<Self, AppError> {
        let kept = Kept::of(read, load, trusted)?;
        Ok(Self::of(load, &kept, trusted))
    }
}

fn load_row(load: &LoadNumber, latest: Digest, outline: &Outline) -> LoadRow {
    LoadRow {
        load: load.to_string(),
        latest,
        state: outline.lasting.word().to_owned(),
        issued: outline.issued,
        valid_until: outline.valid_until,
        turns: outline.turns,
        authorities: outline.authorities.iter().map(PublicKey::to_bytes).collect(),
        version: RULES,
    }
}

/// What a kept row of a load says; none where it cannot be read any more.
pub(super) fn outline_of(row: &InspectedFacts<'_>, trusted: &Trusted) -> Option<Outline> {
    // A key that is trusted was opened already: opening it anew for each load is a third of a board of ten thousand.
    let key_of = |bytes: &[u8; 32]| {
        let known = trusted.iter().map(|authority| authority.key).find(|key| key.to_bytes() == *bytes);
        known.map_or_else(|| PublicKey::from_bytes(bytes), Ok)
    };
    let keys: Result<Vec<PublicKey>, _> = row.authorities.iter().map(key_of).collect();
    Some(Outline {
        lasting: LoadState::ALL.into_iter().find(|state| state.word() == row.state)?,
        issued: row.issued,
        valid_until: row.valid_until,
        turns: row.turns,
        authorities: keys.ok()?,
    })
}
