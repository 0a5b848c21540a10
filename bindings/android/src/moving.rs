//! What goes from phone to phone: moving codes, bundles by file, procedures.

use std::fs::File;
use std::io::{BufReader, BufWriter};

use slingseal_app::catalogue::refusals as words;
use slingseal_app::{BundleReport, BundleRequest, CodeView, FrameTaken, MovingReader, said_by_system};

use crate::{Answer, Handheld, HandheldError, MovingOut, MovingTaken, error};

#[expect(clippy::needless_pass_by_value, reason = "handed to map_err as it is")]
fn unwritable(failed: std::io::Error) -> HandheldError {
    let said = words::FileNotUsable { error: said_by_system(&failed) };
    HandheldError::BadInput { words: said.say(error::spoken()) }
}

#[uniffi::export]
impl Handheld {
    /// The code that tells another device what is here already, so that it leaves that out.
    ///
    /// # Errors
    /// Storage.
    pub fn have_code(&self) -> Answer<CodeView> {
        Ok(self.app.have_code()?)
    }

    /// Prepares a moving code of procedures and of the rosters that approve them; without ids, of all that are approved. Whoever
    /// reads it with `moving_take` has them.
    ///
    /// # Errors
    /// No such procedure; none is approved; more than a moving code carries; storage.
    pub fn moving_procedures(&self, ids: Vec<String>) -> Answer<MovingOut> {
        let code = self.app.procedures_code(&ids)?;
        let out = MovingOut::of(&code);
        self.moving().shown = Some(code);
        Ok(out)
    }

    /// Writes procedures, and the rosters that approve them, as a new file; without ids, all that are approved and the unit's own.
    ///
    /// # Errors
    /// No such procedure; a file that cannot be written; storage.
    pub fn procedures_out(&self, ids: Vec<String>, file: &str) -> Answer<u32> {
        let mut out = BufWriter::new(File::create(file).map_err(unwritable)?);
        let made = self.app.pack_write(&ids, &mut out)?;
        out.into_inner().map_err(|error| unwritable(error.into_error()))?.sync_all().map_err(unwritable)?;
        Ok(made.procedures)
    }

    /// Prepares a moving code of everything but photographs, less what a have code names; its frames follow one by one.
    ///
    /// # Errors
    /// A text that is no have code; more than a moving code carries; storage.
    pub fn moving_begin(&self, have: Option<String>) -> Answer<MovingOut> {
        let code = self.app.moving_code(have.as_deref())?;
        let out = MovingOut::of(&code);
        self.moving().shown = Some(code);
        Ok(out)
    }

    /// Frame `number` of the moving code that was prepared last; count from 0 and never stop.
    ///
    /// # Errors
    /// None was prepared.
    pub fn moving_frame(&self, number: u32) -> Answer<CodeView> {
        match &self.moving().shown {
            Some(code) => Ok(code.frame(number)?),
            None => Err(HandheldError::NotFound { words: words::NoMovingCodeReady.say(self.app.spoken()) }),
        }
    }

    /// Forgets the frames that were read and begins with the next moving code.
    pub fn moving_listen(&self) {
        self.moving().read = MovingReader::new();
    }

    /// Takes the text of one frame, in any order; with the last one that is needed, the bundle is judged and taken in.
    ///
    /// # Errors
    /// A text that is no frame or one of another moving code; a bundle that is none; storage.
    pub fn moving_take(&self, text: &str) -> Answer<MovingTaken> {
        let taken = self.moving().read.take(text)?;
        match taken {
            FrameTaken::More { taken, enough } => Ok(MovingTaken::More { taken, enough }),
            FrameTaken::Whole(bundle) => {
                self.moving_listen();
                let report: BundleReport = self.app.bundle_read(&mut bundle.as_slice(), &mut |_| {})?;
                Ok(MovingTaken::Done { report })
            }
        }
    }

    /// Writes a bundle of everything here, photographs too, as a new file; gives how many records it holds. Slow.
    ///
    /// # Errors
    /// A file that cannot be written; storage.
    pub fn bundle_out(&self, file: &str) -> Answer<u32> {
        let mut out = BufWriter::new(File::create(file).map_err(unwritable)?);
        let request = BundleRequest { have: None, photos: true, ..BundleRequest::default() };
        let made = self.app.bundle_write(&request, &mut out)?;
        out.into_inner().map_err(|error| unwritable(error.into_error()))?.sync_all().map_err(unwritable)?;
        Ok(made.records)
    }

    /// Takes a bundle in from a file. Slow.
    ///
    /// # Errors
    /// A file that cannot be read, or is no bundle; storage.
    pub fn bundle_in(&self, file: &str) -> Answer<BundleReport> {
        let mut input = BufReader::new(File::open(file).map_err(unwritable)?);
        Ok(self.app.bundle_read(&mut input, &mut |_| {})?)
    }
}
