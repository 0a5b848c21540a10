//! Texts of procedures: those that come with the program and those that are kept here, by their digests.

use crate::AppError;
use slingseal_catalogue::refusals as words;
use slingseal_message::trust::Trusted;
use slingseal_store::{ProcedureTextRow, StrayKind, Tx};
use slingseal_walk::procedure::{BUILT_IN, Expanded, RELEASED, Tongue, check};
use slingseal_words::{Digest, Language};

/// The setting that keeps in which language lists are told.
pub(super) const LISTS_LANGUAGE: &str = "lists.language";

/// Keeps the text of a procedure that this device works by.
pub(crate) fn keep_own_text(tx: &Tx<'_>, text: &str) -> Result<(), AppError> {
    keep_text(tx, text)?;
    tx.remove_stray(Digest::of(text.as_bytes()))?;
    Ok(())
}

/// Keeps the text of a procedure, with what it says of itself; `false` where it was here.
pub(crate) fn keep_text(tx: &Tx<'_>, text: &str) -> Result<bool, AppError> {
    let digest = Digest::of(text.as_bytes());
    let known = tx.procedure_text(digest)?;
    if known.as_ref().is_some_and(|known| known.said.is_some()) {
        return Ok(false);
    }
    let procedure = check(text)?;
    let title = procedure.title(Language::English).to_owned();
    let said = Some((procedure.id().to_string(), procedure.version(), title));
    tx.put_procedure_text(&ProcedureTextRow { digest, said, text: text.to_owned() })?;
    Ok(known.is_none())
}

/// Whether the newest roster of somebody trusted names this text: approved, or withdrawn since.
pub(crate) fn is_approved(trusted: &Trusted, digest: Digest) -> bool {
    let rosters = trusted.iter().filter_map(|authority| authority.roster.as_ref());
    rosters
        .flat_map(|roster| roster.approved.keys())
        .any(|edition| digest.as_bytes().starts_with(&edition.thumbprint))
}

/// Texts that came before the roster which approves them are strays no more once it is here.
pub(crate) fn name_approved(tx: &Tx<'_>, trusted: &Trusted) -> Result<(), AppError> {
    for stray in tx.strays()? {
        if stray.kind == StrayKind::Procedure && is_approved(trusted, stray.digest) {
            tx.put_named(stray.digest)?;
        }
    }
    Ok(())
}

/// Whether every device has the text of a procedure already.
pub(crate) fn comes_with_the_program(digest: &Digest) -> bool {
    text_of_program(digest).is_some()
}

/// The file of a digest among those that come with the program, in this edition or one that was released before.
fn text_of_program(digest: &Digest) -> Option<&'static str> {
    texts_of_program().find(|text| Digest::of(text.as_bytes()) == *digest)
}

pub(super) fn texts_of_program() -> impl Iterator<Item = &'static str> {
    BUILT_IN.iter().chain(RELEASED).map(|plain| plain.text)
}

/// The language in which lists are told here: the one that was chosen for them, else the reader's.
pub(crate) fn tongue_of(read: &slingseal_store::Reader<'_>, language: Language) -> Result<Tongue, AppError> {
    let chosen = read.setting(LISTS_LANGUAGE)?.and_then(|code| String::from_utf8(code).ok());
    Ok(chosen.and_then(|code| Tongue::named(&code)).unwrap_or_else(|| language.into()))
}

/// The procedure of a digest: as it was walked, or one that comes with the program.
pub(crate) fn expanded_of(
    read: &slingseal_store::Reader<'_>,
    digest: &Digest,
    language: Language,
) -> Result<Expanded, AppError> {
    let tongue = tongue_of(read, language)?;
    if let Some(row) = read.procedure_text(*digest)? {
        return Ok(check(&row.text)?.expand_in(language, tongue));
    }
    if let Some(text) = text_of_program(digest) {
        return Ok(check(text)?.expand_in(language, tongue));
    }
    Err(AppError::not_found(words::ProcedureWalkAddFile))
}
