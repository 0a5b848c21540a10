//! Whom an audit trusts, and what each device says of the end of its journal.

use super::AuditView;
use crate::{AppError, Inner};
use slingseal_catalogue::audit as audit_words;
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
}
