//! Words as the judgement takes them: opened under the trust of now, the credential in them checked once.

use slingseal_judgement::{InspectionWord, LoadWord, WordError};
use slingseal_message::envelope::{Kind, Limits, Sign1};
use slingseal_message::seal::SealError;
use slingseal_message::tag::kind_of_tag;
use slingseal_message::trust::{Role, Trusted};
use slingseal_store::{Author, WordKind};

/// Opens a word. The credential in it is checked once for all words that carry it.
pub(crate) fn open_word(kind: Kind, bytes: &[u8], trusted: &mut Trusted) -> Result<LoadWord, WordError> {
    remember(bytes, trusted);
    LoadWord::open(kind, bytes, trusted)
}

/// Checks the credential in a word, once for all words that carry it.
fn remember(bytes: &[u8], trusted: &mut Trusted) {
    if let Ok(message) = Sign1::parse(bytes, Limits::CODE)
        && let Some(credential) = message.header.credential
    {
        // What does not pass here is told by the word's author.
        let _ = trusted.remember(credential);
    }
}

/// Opens an inspection of what is no load. The credential in it is checked once for all words that carry it.
pub(crate) fn open_inspection(bytes: &[u8], trusted: &mut Trusted) -> Result<InspectionWord, SealError> {
    remember(bytes, trusted);
    InspectionWord::open(bytes, trusted)
}

/// Which message a word of the store is.
pub(super) fn kind_of(kind: WordKind, bytes: &[u8]) -> Kind {
    match kind {
        WordKind::Seal => Kind::Seal,
        WordKind::Void => Kind::Void,
        WordKind::Movement => Kind::Movement,
        WordKind::Tag => kind_of_tag(bytes),
    }
}

/// Who signed a word, as the store keeps it.
pub(crate) fn author_of(word: &LoadWord) -> Option<Author> {
    let signer = word.signer()?;
    let credential = &signer.credential;
    let in_time =
        word.issued() <= credential.expires && (word.tag().is_none() || credential.roles.has(Role::Planner));
    Some(Author {
        authority: signer.authority.to_bytes(),
        key: credential.key.to_bytes(),
        credential: signer.id.0,
        in_time,
    })
}
