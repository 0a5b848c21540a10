//! A secret key under a PIN or a passphrase: put away, opened for one signature, and every wrong try counted.

use crate::{App, AppError, Inner};
use slingseal_catalogue::refusals as words;
use slingseal_message::trust::{Passphrase, SecretKey, Vault, VaultError, delay_after};
use slingseal_words::Time;

/// The vault of the device's own key.
pub(crate) const DEVICE_VAULT: &str = "device";
/// The vault of the key of an authority that this home is.
pub(crate) const AUTHORITY_VAULT: &str = "authority";

/// A PIN's try that is counted and not made yet.
struct PinTry {
    vault: Vault,
    wrong: u32,
}

impl App {
    /// Opens a vault for one signature. The home is free while the PIN is stretched, which takes about a second on a
    /// handheld: whoever draws a page meanwhile does not wait.
    ///
    /// # Errors
    /// No key; a wait that is not over; a wrong PIN.
    pub(crate) fn open_key(&self, vault: &str, pin: &str) -> Result<SecretKey, AppError> {
        let key = self.try_key(vault, pin)?;
        self.lock().pin_was_right(vault)?;
        Ok(key)
    }

    /// The same, where whoever signs with it puts down with what is signed that the PIN was right, and by itself where nothing is. Until
    /// then the try counts as a wrong one.
    ///
    /// # Errors
    /// As `open_key`.
    pub(crate) fn try_key(&self, vault: &str, pin: &str) -> Result<SecretKey, AppError> {
        let (tried, secret) = {
            let mut inner = self.lock();
            (inner.begin_try(vault)?, inner.outside.device_secret.clone())
        };
        let opened = tried.vault.unlock(&Passphrase::entered(pin), &secret);
        opened.map_err(|error| match error {
            VaultError::WrongPin if delay_after(tried.wrong).0 > 0 => {
                let wait = delay_after(tried.wrong);
                AppError::refused(words::PinWrongInARow { wrong: tried.wrong, wait })
            }
            error => error.into(),
        })
    }

    /// A key that is new, and the time that it was made at.
    pub(crate) fn new_key(&self) -> (SecretKey, Time) {
        let inner = self.lock();
        (SecretKey::make(inner.outside.entropy.as_ref()), inner.now())
    }

    /// Puts a new key away under a PIN or a passphrase. The home is free while that is stretched.
    ///
    /// # Errors
    /// The platform's randomness or memory failed.
    pub(crate) fn lock_away(&self, key: &SecretKey, pin: &Passphrase) -> Result<Vault, AppError> {
        let (secret, stretch, entropy) = {
            let inner = self.lock();
            let outside = &inner.outside;
            (outside.device_secret.clone(), outside.stretch, outside.entropy.clone())
        };
        Ok(Vault::lock(key, pin, &secret, stretch, entropy.as_ref())?)
    }
}

impl Inner {
    /// Counts a try before it is made, so that pulling the battery does not win one.
    fn begin_try(&mut self, vault: &str) -> Result<PinTry, AppError> {
        let missing = || AppError::not_found(words::KeyMakeOneFirstKey);
        let row = self.store.read().vault(vault)?.ok_or_else(missing)?;
        let now = self.now();
        if now < row.not_before {
            let mut wait = row.not_before.since(now);
            // Longer than any delay: the clock ran ahead when it was set and was set back since. The wait begins anew, or a
            // slip on a wrong clock would lock the key for years.
            let most = delay_after(row.wrong);
            if wait > most {
                wait = most;
                let not_before = now.plus(most);
                self.store.write(|tx| -> Result<(), AppError> {
                    Ok(tx.count_wrong_pins(vault, row.wrong, not_before)?)
                })?;
            }
            return Err(AppError::refused(words::TooManyWrongPins { wait }));
        }
        let wrong = row.wrong.saturating_add(1);
        let not_before = now.plus(delay_after(wrong));
        self.store
            .write(|tx| -> Result<(), AppError> { Ok(tx.count_wrong_pins(vault, wrong, not_before)?) })?;
        Ok(PinTry { vault: Vault::from_bytes(row.bytes), wrong })
    }

    /// Puts down that the PIN that was tried last was right.
    pub(crate) fn pin_was_right(&mut self, vault: &str) -> Result<(), AppError> {
        let now = self.now();
        self.store.write(|tx| -> Result<(), AppError> { Ok(tx.count_wrong_pins(vault, 0, now)?) })
    }
}
