//! How procedures travel: a unit's set as a file, or held up as one moving code, with the rosters that approve them.

use slingseal_catalogue::tags as procedure_words;
use std::io::Write;

use super::{Known, Named};
use crate::account::bundles::io;
use crate::{App, AppError, BundleMade, BundleReport, Inner, MovingCode};
use slingseal_account::sync::{BundleWriter, ItemKind, Pack};
use slingseal_walk::procedure::check;
use slingseal_words::{Digest, ProcedureId, Saying};

impl App {
    /// Procedures as one moving code, with the newest roster of everyone trusted here: what the receiver may walk by is known as
    /// soon as it is there. Without ids: all that an authority trusted here approves.
    ///
    /// # Errors
    /// No such procedure; none is approved; more than a moving code carries.
    pub fn procedures_code(&self, ids: &[String]) -> Result<MovingCode, AppError> {
        let mut bytes = Vec::new();
        let made = self.lock().write_pack(ids, &mut bytes)?;
        MovingCode::of_made(&bytes, made)
    }

    /// Procedures as one file, with the newest roster of everyone trusted here. Without ids: all that are approved and all of the
    /// unit's own. Read it as any bundle.
    ///
    /// # Errors
    /// No such procedure; none is here but those of the program; what the writer meets.
    pub fn pack_write(&self, ids: &[String], out: &mut dyn Write) -> Result<BundleMade, AppError> {
        self.lock().write_pack(ids, out)
    }
}

impl Inner {
    /// The texts that are approved now and are here.
    pub(crate) fn approved_texts(&self) -> Result<Vec<Known>, AppError> {
        let named = self.named()?;
        let mut texts = self.texts()?;
        texts.retain(|known| named.iter().any(|one| one.holds() && known.is(&one.edition)));
        Ok(texts)
    }

    fn write_pack(&self, ids: &[String], out: &mut dyn Write) -> Result<BundleMade, AppError> {
        let texts = self.texts_to_send(ids)?;
        let pack = Pack { texts: texts.into_iter().map(|known| known.text).collect() };
        let procedures = u32::try_from(pack.texts.len()).unwrap_or(u32::MAX);
        let bytes = pack.to_bytes().map_err(|error| AppError::bad_input(Saying::verbatim(error)))?;
        let mut made = BundleMade { procedures, ..BundleMade::default() };
        let mut writer = BundleWriter::begin(out).map_err(io)?;
        // The rosters first: whoever reads may know what is approved before the texts come.
        for row in self.store.read().rosters()? {
            match writer.add(ItemKind::Roster, &row.bytes).map_err(io)? {
                Ok(()) => made.papers += 1,
                Err(too_long) => made.left_out.push(too_long.to_string()),
            }
        }
        if let Err(too_long) = writer.add(ItemKind::Pack, &bytes).map_err(io)? {
            return Err(AppError::bad_input(Saying::verbatim(too_long)));
        }
        writer.finish().map_err(io)?;
        Ok(made)
    }

    fn texts_to_send(&self, ids: &[String]) -> Result<Vec<Known>, AppError> {
        if ids.is_empty() {
            let named = self.named()?;
            let mut texts = self.texts()?;
            let used: Vec<Digest> =
                self.store.read().procedures_in_use()?.into_iter().map(|(_, digest)| digest).collect();
            let approved =
                |known: &Known| named.iter().any(|one: &Named| one.holds() && known.is(&one.edition));
            texts.retain(|known| approved(known) || used.contains(&known.digest));
            return Ok(texts);
        }
        let language = self.language();
        let mut texts: Vec<Known> = Vec::new();
        for id in ids {
            let text = self.procedure_text(&ProcedureId::new(id)?)?;
            let known = Known::of(&check(&text)?, &text, false, language);
            if !texts.iter().any(|other| other.digest == known.digest) {
                texts.push(known);
            }
        }
        Ok(texts)
    }

    /// Tells of each edition that came whether it may be walked by, and where two texts have one id and version.
    pub(crate) fn with_procedures(
        &self,
        mut report: BundleReport,
        new: &[Digest],
    ) -> Result<BundleReport, AppError> {
        if new.is_empty() {
            return Ok(report);
        }
        let (named, texts, language) = (self.named()?, self.texts()?, self.language());
        for known in texts.iter().filter(|known| new.contains(&known.digest)) {
            let chosen = self.chosen(&ProcedureId::new(&known.id)?, &named)?;
            let in_use = chosen.is_some_and(|(digest, _)| digest == known.digest);
            report.procedures.push(known.view(&named, in_use, language));
            let twin = texts.iter().find(|other| {
                (&other.id, other.version) == (&known.id, known.version) && other.digest != known.digest
            });
            if let Some(twin) = twin {
                let (one, other) = (known.digest.short(), twin.digest.short());
                let (id, version) = (&known.id, known.version.to_string());
                report.warnings.push(procedure_words::TwoTexts { id, version, one, other }.say(language));
            }
        }
        Ok(report)
    }
}
