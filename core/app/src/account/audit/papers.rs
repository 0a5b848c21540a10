//! Documents beside the records: tags, voids, reports, credentials, rosters.

use super::{AuditView, decayed};
use crate::{AppError, Inner};
use slingseal_catalogue::audit as audit_words;
use slingseal_message::envelope::Kind;
use slingseal_message::seal::Void;
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::{CredentialId, Trusted};
use slingseal_words::Digest;

impl Inner {
    pub(super) fn audit_papers(&self, trusted: &Trusted, view: &mut AuditView) -> Result<(), AppError> {
        let read = self.store.read();
        for row in decayed(read.voids())?.unwrap_or_default() {
            view.papers += 1;
            let what = audit_words::VoidOfLoad { void: row.digest.short(), load: &row.load }.saying();
            match Void::open(&row.bytes) {
                Err(error) => view
                    .faults
                    .push(audit_words::ThingWrong { what: &what, error: &error }.say(self.language())),
                Ok((void, message)) => {
                    if let Err(error) = trusted.signer(Kind::Void, &message) {
                        view.faults.push(
                            audit_words::ThingWrong { what: &what, error: &error }.say(self.language()),
                        );
                    } else if (void.record, void.load.as_str()) != (row.record, row.load.as_str())
                        || Digest::of(&row.bytes) != row.digest
                    {
                        view.faults.push(audit_words::RowOtherwise { what: &what }.say(self.language()));
                    }
                }
            }
        }
        for row in decayed(read.credentials())?.unwrap_or_default() {
            view.papers += 1;
            if let Err(error) = trusted.credential(&row.bytes) {
                let id = CredentialId::of(&row.bytes);
                let said = audit_words::CredentialWrong { id: id.to_string(), holder: &row.holder, error };
                view.faults.push(said.say(self.language()));
            }
        }
        for row in decayed(read.tags())?.unwrap_or_default() {
            view.papers += 1;
            match ReceivedTag::open(&row.bytes) {
                Ok(tag) if tag.digest == row.digest && tag.tag.load.as_str() == row.load => {}
                Ok(_) => {
                    let what = audit_words::TagOfLoad { load: &row.load }.saying();
                    view.faults.push(audit_words::RowOtherwise { what }.say(self.language()));
                }
                Err(error) => {
                    let what = audit_words::TagOfLoad { load: &row.load }.saying();
                    view.faults.push(audit_words::ThingWrong { what, error }.say(self.language()));
                }
            }
        }
        Ok(())
    }
}
