//! A leader takes a piece of gear out of service, without having walked it.

use slingseal_catalogue::refusals as words;

use crate::trust::vault::DEVICE_VAULT;
use crate::walks::inspections::InspectionView;
use crate::{App, AppError, Inner};
use slingseal_message::seal::SignedInspection;
use slingseal_message::trust::{Role, SecretKey};
use slingseal_words::{Digest, Note, Serial};

impl App {
    /// Takes a piece of gear out of service: from then on every tag that names it is NO-GO wherever the word is known, at planning,
    /// walking and hook, until an inspector finds the piece fit. Signed by a leader, or by an inspector who needs no list to see
    /// that it is done for.
    ///
    /// # Errors
    /// A serial number or a reason that cannot be; no leader's and no inspector's credential; a wrong PIN.
    pub fn withdraw_piece(&self, serial: &str, why: &str, pin: &str) -> Result<InspectionView, AppError> {
        let (serial, why) = (Serial::new(serial)?, why.trim());
        if why.is_empty() {
            return Err(AppError::bad_input(words::WithdrawalNeedsReason { serial: serial.as_str() }));
        }
        let why = Note::new(why)?;
        // What can be told without the PIN is told first: it costs no try.
        self.lock().withdrawing()?;
        let key = self.open_key(DEVICE_VAULT, pin)?;
        self.lock().withdraw_piece(serial, why, &key)
    }
}

impl Inner {
    /// The credential under which a piece is withdrawn.
    fn withdrawing(&self) -> Result<Vec<u8>, AppError> {
        let leader = self.credential_for(Some(Role::Leader));
        leader
            .or_else(|error| self.credential_for(Some(Role::Inspector)).map_err(|_| error))
            .map(|(_, it)| it)
    }

    fn withdraw_piece(
        &mut self,
        serial: Serial,
        why: Note,
        key: &SecretKey,
    ) -> Result<InspectionView, AppError> {
        let credential = self.withdrawing()?;
        let said = SignedInspection::withdrawal(serial, self.now(), why)?;
        let unsigned = said.prepare(&credential);
        let bytes = unsigned.finish(&key.sign(&unsigned.to_be_signed()));
        self.admit(|admission| admission.inspection(&bytes, None).map(drop))?;
        let row = self.store.read().inspection(Digest::of(&bytes))?;
        let row = row.ok_or_else(|| AppError::internal("a withdrawal that was kept has a row"))?;
        self.inspection_view(&row)
    }
}
