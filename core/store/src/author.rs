use rusqlite::Row;

/// Who signed a word, as it was verified when it came. Empty columns where nobody was known to stand for it then.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Author {
    /// The authority's key.
    pub authority: [u8; 32],
    /// The signer's key.
    pub key: [u8; 32],
    /// What the credential is revoked by.
    pub credential: [u8; 8],
    /// Whether the signer might say it then: in the role that it wants, before the credential ran out.
    pub in_time: bool,
}

/// The four columns of an author, as they are bound.
pub(super) type Columns = (Option<[u8; 32]>, Option<[u8; 32]>, Option<[u8; 8]>, bool);

pub(super) fn columns(author: Option<&Author>) -> Columns {
    match author {
        Some(author) => (Some(author.authority), Some(author.key), Some(author.credential), author.in_time),
        None => (None, None, None, false),
    }
}

/// The author that stands in four columns from `at` on.
pub(super) fn author_of(row: &Row<'_>, at: usize) -> rusqlite::Result<Option<Author>> {
    let (authority, key, credential) =
        (row.get::<_, Option<[u8; 32]>>(at)?, row.get::<_, Option<[u8; 32]>>(at + 1)?, row.get(at + 2)?);
    let in_time = row.get(at + 3)?;
    Ok(match (authority, key, credential) {
        (Some(authority), Some(key), Some(credential)) => {
            Some(Author { authority, key, credential, in_time })
        }
        _ => None,
    })
}
