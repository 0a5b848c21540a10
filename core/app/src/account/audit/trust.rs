//! Whom an audit trusts, and what each device says of the end of its journal.

use super::AuditView;
use crate::account::heads::heads;
use crate::{AppError, Inner};
use slingseal_account::audit::{Chains, DeviceName, Link};
use slingseal_catalogue::audit as audit_words;
use slingseal_journal::verify_chain;
use slingseal_message::trust::{Authority, PublicKey, Roster, Trusted, TrustedAuthority};
use slingseal_words::Name;

impl Inner {
    /// Whom this device trusts; a roster that does not hold is a fault, and is left out.
    pub(super) fn trusted_for_audit(&self, view: &mut AuditView) -> Result<Trusted, AppError> {
        let read = self.store.read();
        let mut trusted = Trusted::default();
        for row in read.authorities()? {
            view.papers += 1;
            let (key, name) = match (PublicKey::from_bytes(&row.key), Name::received(&row.name)) {
                (Ok(key), Ok(name)) => (key, name),
                _ => {
                    view.faults.push(audit_words::AuthorityKeyWrong { name: &row.name }.say(self.language()));
                    continue;
                }
            };
            match Authority::open(&row.bytes) {
                Ok(card) if card.key == key && card.name == name => {}
                Ok(_) => {
                    view.faults.push(audit_words::AuthorityNotOfCard { name: &name }.say(self.language()))
                }
                Err(error) => view.faults.push(
                    audit_words::AuthorityCardWrong { name: &name, error: &error }.say(self.language()),
                ),
            }
            let mut roster = None;
            if let Some(kept) = read.roster(&row.key)? {
                view.papers += 1;
                match Roster::open(&kept.bytes, &key) {
                    Ok(opened)
                        if u64::from(opened.sequence) == kept.sequence && opened.issued == kept.issued =>
                    {
                        roster = Some(opened);
                    }
                    Ok(_) => {
                        view.faults.push(audit_words::RosterOtherNumber { name: &name }.say(self.language()))
                    }
                    Err(error) => view
                        .faults
                        .push(audit_words::RosterWrong { name: &name, error: &error }.say(self.language())),
                }
            }
            if row.trusted {
                trusted.add(TrustedAuthority { name, key, roster });
            }
        }
        Ok(trusted)
    }

    /// The ends of journals that bundles told, and what is kept of other devices' journals.
    pub(super) fn audit_heads(&self, chains: &Chains, view: &mut AuditView) -> Result<(), AppError> {
        let read = self.store.read();
        view.find(chains.against(&heads(&read)?), self.language());
        for (device, _) in read.foreign_devices()? {
            let entries = read.foreign_entries(device)?;
            // A piece of a journal is checked from its first entry on: what stood before it is not known here.
            let from_the_first = entries.first().is_some_and(|entry| entry.seq == 1);
            if from_the_first && let Err(fault) = verify_chain(device, &entries) {
                view.faults.push(
                    audit_words::JournalOfDevice { device: DeviceName(device.0).to_string(), fault: &fault }
                        .say(self.language()),
                );
            }
            let links: Vec<Link> = entries
                .iter()
                .map(|entry| Link { seq: entry.seq, prev: entry.prev, digest: entry.digest })
                .collect();
            view.find(chains.piece(device.0, &links, from_the_first), self.language());
        }
        Ok(())
    }
}
