//! What is kept of the judgement: held against what it says now.

use std::collections::BTreeSet;

use super::{AuditView, Counted, decayed, name};
use crate::account::Verdicts;
use crate::{AppError, Inner};
use slingseal_catalogue::audit as audit_words;
use slingseal_message::trust::Trusted;
use slingseal_store::{Judged, LoadRow};
use slingseal_words::{Digest, LoadNumber};

impl Inner {
    /// What is kept of the judgement is what it says now, for every seal and every load. Of loads with a seal that does not hold
    /// (`faulty`) that was said already.
    pub(super) fn audit_standings(
        &self,
        trusted: &Trusted,
        faulty: &BTreeSet<Digest>,
        view: &mut AuditView,
        counted: &mut Counted<'_>,
    ) -> Result<(), AppError> {
        let read = self.store.read();
        let mut trusted = trusted.clone();
        for number in read.loads_with_seals()? {
            counted.one()?;
            let Ok(load) = LoadNumber::new(&number) else { continue };
            let rows = decayed(read.records_of_load(&number))?.unwrap_or_default();
            let kept = decayed(read.load(&number))?.unwrap_or_default();
            let mut seals = rows.iter().map(|row| row.seal).chain(kept.iter().map(|kept| kept.latest));
            if seals.any(|seal| faulty.contains(&seal)) {
                continue;
            }
            let now = match Verdicts::now(&read, &load, &mut trusted) {
                Ok(now) => now,
                // What decayed is named where the rows are looked at.
                Err(AppError::StorageDamaged { .. }) => continue,
                Err(error) => return Err(error),
            };
            let before = view.faults.len();
            for row in rows {
                let Some(said) = now.seals.get(&row.seal).filter(|said| **said != row.judged) else {
                    continue;
                };
                let words = |judged: &Judged| match judged.reason.as_str() {
                    "" => judged.standing.word().to_owned(),
                    reason => format!("{} ({reason})", judged.standing.word()),
                };
                let (is, kept) = (words(said), words(&row.judged));
                let said = audit_words::LineSaysOtherwise { record: name(&row), kept, is };
                view.faults.push(said.say(self.language()));
            }
            // Where a seal stands otherwise, the load does too.
            if kept != now.load && view.faults.len() == before {
                let state = |row: &Option<LoadRow>| {
                    row.as_ref().map_or(audit_words::WithoutInspection.saying(), |row| {
                        audit_words::StateBySeal { state: row.state.to_string(), seal: row.latest.short() }
                            .into()
                    })
                };
                let (load, kept, is) = (number.to_string(), state(&kept), state(&now.load));
                let said = audit_words::LoadSaysOtherwise { load, kept, is };
                view.faults.push(said.say(self.language()));
            }
        }
        Ok(())
    }
}
