//! What a phone prints: the pages that a desk prints, for the platform's print service.

use slingseal_app::AuthorityCopy;
use slingseal_paper::{Paper, copy_pdf, record_pdf, sheets_pdf};

use crate::{Answer, Handheld};

fn paper(letter: bool) -> Paper {
    if letter { Paper::Letter } else { Paper::A4 }
}

#[uniffi::export]
impl Handheld {
    /// The sheet of a tag, as PDF on A4 or US Letter.
    ///
    /// # Errors
    /// A text that is no tag.
    pub fn tag_pdf(&self, tag: &str, letter: bool) -> Answer<Vec<u8>> {
        let (view, code) = (self.app.read_tag(tag)?, slingseal_app::code_of(tag)?);
        Ok(sheets_pdf(&[(&view, &code)], paper(letter), self.app.spoken())?)
    }

    /// The page of a record.
    ///
    /// # Errors
    /// No such record; storage.
    pub fn record_pdf(&self, record: &str, letter: bool) -> Answer<Vec<u8>> {
        let view = self.app.record(record)?;
        let seal = slingseal_app::code_of(&view.seal).ok();
        Ok(record_pdf(&view, seal.as_ref(), paper(letter), self.app.spoken())?)
    }

    /// The page of one part of an authority's copy.
    ///
    /// # Errors
    /// The page cannot be written.
    pub fn copy_pdf(&self, copy: AuthorityCopy, second: bool, letter: bool) -> Answer<Vec<u8>> {
        let dated = self.app.now().rfc3339();
        Ok(copy_pdf(&copy, second, &dated, paper(letter), self.app.spoken())?)
    }
}
