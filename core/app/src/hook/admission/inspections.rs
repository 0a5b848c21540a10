//! Inspections of what is no load, with their full records.

use slingseal_catalogue::refusals as words;
use slingseal_catalogue::{Saying, faults as fault_words};

use super::Admission;
use crate::AppError;
use crate::account::open_inspection;
use crate::account::strays::name_all_of;
use crate::walks::record::{entry_digest, subject_kind};
use slingseal_judgement::Author;
use slingseal_message::seal::{InspectedSubject, Outcome, Record, SignedInspection};
use slingseal_store::InspectionRow;
use slingseal_words::Digest;

impl Admission<'_, '_> {
    /// Keeps an inspection of what is no load; `false` where it was known. Its full record is kept where it is what was signed.
    ///
    /// # Errors
    /// Nobody trusted stands behind it, or not as an inspector, or the credential had run out; a record that is another.
    pub(crate) fn inspection(&mut self, bytes: &[u8], body: Option<&[u8]>) -> Result<bool, AppError> {
        let word = open_inspection(bytes, &mut self.trusted)?;
        let said = word.inspection();
        let Some(signer) = word.counts() else {
            let name = &said.name;
            return Err(match word.author() {
                Author::Known(signer) => {
                    let holder = &signer.credential.holder;
                    AppError::refused(words::InspectionByNoInspector { name, holder })
                }
                Author::Refused(error) => {
                    AppError::refused(words::InspectionRefused { name, error: error.to_string() })
                }
                Author::Unknown | Author::Nobody | Author::ThisDevice => {
                    AppError::refused(words::InspectionOfUnknownAuthority { name })
                }
            });
        };
        if let Some(body) = body {
            let name = &said.name;
            let record = inspected(said, body)
                .map_err(|about| AppError::refused(words::InspectionDisagrees { name, about }))?;
            name_all_of(self.tx, &record)?;
        }
        let name = said.name.as_str().to_ascii_uppercase();
        let new = self.tx.put_inspection(
            &InspectionRow {
                digest: word.digest(),
                subject: subject_kind(said.subject),
                name: name.clone(),
                procedure: said.edition.procedure.to_string(),
                version: said.edition.version,
                inspector: signer.credential.holder.to_string(),
                fit: said.outcome == Outcome::Fit,
                issued: said.issued,
                fit_until: said.fit_until,
                record: said.record,
                received: self.now,
                author: Some(slingseal_store::Author {
                    authority: signer.authority.to_bytes(),
                    key: signer.credential.key.to_bytes(),
                    credential: signer.id.0,
                    in_time: true,
                }),
                bytes: bytes.to_vec(),
            },
            body,
        )?;
        if new && said.subject == InspectedSubject::Piece {
            self.pieces.insert(name);
        }
        Ok(new)
    }
}

/// Holds a full record against the inspection that names it: the first thing in which they differ.
fn inspected(said: &SignedInspection, body: &[u8]) -> Result<Record, Saying> {
    if Digest::of(body) != said.record {
        return Err(fault_words::PartBytes.saying());
    }
    let record = Record::parse(body, &entry_digest).map_err(|_| fault_words::PartForm.saying())?;
    // A piece that was rejected on a load stands on that load's record, which found it not fit.
    let told = [
        (record.procedure == said.edition.procedure, fault_words::PartProcedure.saying()),
        (record.version == said.edition.version, fault_words::PartVersion.saying()),
        (
            record.procedure_digest.as_bytes().starts_with(&said.edition.thumbprint),
            fault_words::PartText.saying(),
        ),
        (record.outcome == said.outcome, fault_words::PartOutcome.saying()),
    ];
    match told.into_iter().find(|(same, _)| !same) {
        Some((_, about)) => Err(about),
        None => Ok(record),
    }
}
