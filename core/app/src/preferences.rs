//! What a shell was asked to remember: its light, whether it speaks. Means nothing to the core and is in no record.

use crate::{App, AppError};
use slingseal_catalogue::refusals as words;

const MOST: usize = 256;

fn key(name: &str) -> Result<String, AppError> {
    if name.is_empty() || name.len() > MOST {
        return Err(AppError::bad_input(words::PreferenceNameBytesShorten { most: MOST }));
    }
    Ok(format!("preference/{name}"))
}

impl App {
    /// What was remembered under a name; none where nothing was.
    ///
    /// # Errors
    /// An empty or long name; storage.
    pub fn preference(&self, name: &str) -> Result<Option<String>, AppError> {
        let bytes = self.lock().store.read().setting(&key(name)?)?;
        Ok(bytes.and_then(|bytes| String::from_utf8(bytes).ok()))
    }

    /// Remembers a value under a name.
    ///
    /// # Errors
    /// An empty or long name, a long value; storage.
    pub fn prefer(&self, name: &str, value: &str) -> Result<(), AppError> {
        let key = key(name)?;
        if value.len() > MOST {
            return Err(AppError::bad_input(words::PreferenceUpBytesShorten { most: MOST }));
        }
        self.lock().store.write(|tx| -> Result<(), AppError> {
            tx.put_setting(&key, value.as_bytes())?;
            Ok(())
        })
    }
}
