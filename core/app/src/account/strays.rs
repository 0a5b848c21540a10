//! Things that nobody signed and that came from elsewhere: unsigned tags, photographs, texts of procedures, examination sheets. One
//! that no kept signed word names is a stray; so many strays are kept, and the oldest gives way. Otherwise whoever hands over a
//! file could fill the disk of every home that it reaches.

use slingseal_catalogue::audit as audit_words;
use std::collections::BTreeMap;

use crate::exams::papers::names_of_papers;
use crate::walks::record::entry_digest;
use crate::{AppError, Inner};
use slingseal_message::seal::Record;
use slingseal_store::{StrayKind, StrayRow, Tx};
use slingseal_words::{Digest, Saying};

/// The most strays that a home keeps: things, and their bytes together.
pub(crate) const MOST_STRAYS: u64 = 1_000;
pub(crate) const MOST_STRAY_BYTES: u64 = 64 << 20;

/// Where something that nobody signed comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Origin {
    /// The person at this device made it, or works by it.
    Here,
    /// It was carried in.
    Elsewhere,
}

/// What a full record names besides its tag, which is found by the seal.
pub(crate) fn name_all_of(tx: &Tx<'_>, record: &Record) -> Result<(), AppError> {
    tx.put_named(record.procedure_digest)?;
    name_photos_and_tag(tx, &record.photos, Digest::of(&record.tag))
}

/// The same, where the procedure is named already.
pub(crate) fn name_photos_and_tag(tx: &Tx<'_>, photos: &[Digest], tag: Digest) -> Result<(), AppError> {
    photos.iter().try_for_each(|photo| tx.put_named(*photo))?;
    tx.remove_stray(tag)?;
    Ok(())
}

/// Strays that gave way.
#[derive(Default)]
pub(crate) struct GaveWay(BTreeMap<StrayKind, u64>);

impl GaveWay {
    /// Takes the oldest strays away where there are too many.
    pub(crate) fn trim(&mut self, tx: &Tx<'_>) -> Result<(), AppError> {
        for StrayRow { kind, .. } in tx.trim_strays(MOST_STRAYS, MOST_STRAY_BYTES)? {
            *self.0.entry(kind).or_default() += 1;
        }
        Ok(())
    }

    /// One line for whoever took in what made them go; none where all stayed.
    pub(crate) fn saying(&self) -> Option<Saying> {
        let each: Vec<Saying> = self
            .0
            .iter()
            .map(|(kind, count)| match kind {
                StrayKind::Tag => audit_words::StrayTags { count: *count }.into(),
                StrayKind::Photo => audit_words::StrayPhotos { count: *count }.into(),
                StrayKind::Procedure => audit_words::StrayProcedures { count: *count }.into(),
                StrayKind::Sheet => audit_words::StraySheets { count: *count }.into(),
            })
            .collect();
        (!each.is_empty()).then(|| audit_words::StraysGaveWay { which: Saying::joined(each, ", ") }.into())
    }
}

impl Inner {
    /// A home of an older schema does not know yet what its signed words name.
    pub(crate) fn name_what_is_kept(&mut self) -> Result<(), AppError> {
        let read = self.store.read();
        if read.is_anything_named()? {
            return Ok(());
        }
        let papers = names_of_papers(&read)?;
        let bodies = read.body_digests()?;
        if papers.is_empty() && bodies.is_empty() {
            return Ok(());
        }
        self.store.write(|tx| {
            papers.into_iter().try_for_each(|digest| tx.put_named(digest))?;
            for digest in bodies {
                // What decayed is named where the rows are looked at.
                let Ok(Some(body)) = tx.body(digest) else { continue };
                if let Ok(record) = Record::parse(&body, &entry_digest) {
                    name_all_of(tx, &record)?;
                }
            }
            Ok(())
        })
    }
}
