//! The next roster of an authority: made of the last one, changed, signed, kept. Everything that an authority takes back or approves
//! goes this way, so that nothing of the last roster is lost on it.

use crate::account::change_trust;
use crate::{AppError, CodeView, Inner};
use slingseal_catalogue::refusals as words;
use slingseal_message::trust::{KeyThumbprint, Roster, SecretKey};
use slingseal_store::RosterRow;
use slingseal_words::{Seconds, Time};

/// How long a roster is relied on where the authority says nothing else: a week without a network.
pub(crate) const ROSTER_LIFE: Seconds = Seconds::days(7);
/// Every key that was ever revoked here, eight bytes each: a roster drops those that say nothing any more, and still nothing
/// may be issued to them.
pub(crate) const REVOKED_KEYS: &str = "authority.revoked-keys";

impl Inner {
    /// The next roster: the last one under the next number, issued now, for so many days.
    ///
    /// # Errors
    /// This home is no authority; it has signed as many rosters as there are numbers.
    pub(super) fn next_roster(&self, days: Option<u32>) -> Result<Roster, AppError> {
        let last = self.own_roster(&self.authority_key()?.to_bytes())?;
        let now = self.now();
        let life = days.map_or(ROSTER_LIFE, |days| Seconds::days(days.into()));
        Ok(Roster {
            sequence: last
                .sequence
                .checked_add(1)
                .ok_or_else(|| AppError::refused(words::AuthorityCanSignFurtherRoster))?,
            issued: now,
            expires: now.plus(life),
            ..last
        })
    }

    /// Signs a roster and keeps it as the newest.
    ///
    /// # Errors
    /// A roster that fits no code.
    pub(super) fn sign_roster(&mut self, roster: &Roster, key: &SecretKey) -> Result<(), AppError> {
        has_room(roster)?;
        let entries = roster.revoked.len() + roster.keys.len() + roster.approved.len();
        let row = roster_row(roster, key, self.now());
        // Before it is kept: an authority whose newest roster fits no code could hand out none.
        if CodeView::of(Roster::kind(&row.bytes)?, &row.bytes).is_err() {
            return Err(no_room(entries));
        }
        let mut ever = self.keys_ever_revoked()?;
        ever.extend(roster.keys.keys().copied());
        let ever: Vec<u8> = ever.iter().flat_map(|key: &KeyThumbprint| key.0).collect();
        self.store.write(|tx| {
            change_trust(tx, |tx| {
                tx.put_roster(&row)?;
                Ok(tx.put_setting(REVOKED_KEYS, &ever)?)
            })
        })
    }
}

/// Refuses more entries than a roster may have: told before a passphrase is asked, for it costs no try.
///
/// # Errors
/// Too many revoked keys or approvals.
pub(super) fn has_room(roster: &Roster) -> Result<(), AppError> {
    if roster.keys.len() > Roster::MOST || roster.approved.len() > Roster::MOST_APPROVED {
        return Err(no_room(roster.revoked.len() + roster.keys.len() + roster.approved.len()));
    }
    Ok(())
}

fn no_room(entries: usize) -> AppError {
    AppError::refused(words::RosterRevokedKeysCredentialsFits { entries: &entries })
}

pub(super) fn roster_row(roster: &Roster, key: &SecretKey, now: Time) -> RosterRow {
    RosterRow {
        authority: key.public().to_bytes(),
        sequence: roster.sequence.into(),
        issued: roster.issued,
        received: now,
        bytes: roster.sign(key),
    }
}

/// Refuses a roster of which another text with the same number is known: neither is the newer one, and taking either for it
/// could lose a revocation.
pub(crate) fn not_told_otherwise(
    read: &slingseal_store::Reader<'_>,
    row: &RosterRow,
) -> Result<(), AppError> {
    match read.roster(&row.authority)? {
        Some(known) if known.sequence == row.sequence && known.bytes != row.bytes => {
            Err(AppError::refused(words::AnotherRosterNumberAuthorityKnown { sequence: &row.sequence }))
        }
        _ => Ok(()),
    }
}
