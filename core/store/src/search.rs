//! The words that records are searched by, as a question to the full-text index: one whose first page costs what the page has, and
//! not what the account has.

use rusqlite::OptionalExtension;

use super::{Reader, StoreError};

/// The index keeps lists of its own for beginnings of so many letters at the most.
const INDEXED: usize = 3;
/// Words of a question; what is more is left.
const MOST_WORDS: usize = 8;
/// Words of the account that one beginning stands for, at the most. Where it stands for more, each of them is rare.
const MOST_TERMS: usize = 16;

/// The words of the account in their order, one row for each record that one is in. Made for each connection: nothing of it is kept.
pub(super) const TERMS: &str =
    "CREATE VIRTUAL TABLE temp.search_terms USING fts5vocab (main, record_words, instance)";

impl Reader<'_> {
    /// The words as a full-text question: each the beginning of a word, and all of them in one record. None where nothing can be
    /// found.
    ///
    /// For a beginning that has no list of its own the index would first put together the lists of all words that begin so, whole,
    /// and show a page of them then. The few words that it can be are asked for by name instead: their lists are read from the end,
    /// as far as the page goes.
    pub(super) fn question(&self, words: &str) -> Result<Option<String>, StoreError> {
        let mut asked = Vec::new();
        let words = words.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
        for word in words.take(MOST_WORDS) {
            let beginning = format!("\"{word}\"*");
            asked.push(match self.terms(word)? {
                None => beginning,
                Some(terms) if terms.is_empty() => return Ok(None),
                Some(terms) => {
                    let named: Vec<String> = terms.iter().map(|term| format!("\"{term}\"")).collect();
                    format!("({})", named.join(" OR "))
                }
            });
        }
        Ok((!asked.is_empty()).then(|| asked.join(" AND ")))
    }

    /// The words of the account that begin so. None where the index has a list for the beginning, where they are too many, or where
    /// one is no plain word: which letters it takes for the same is the index's to say.
    fn terms(&self, beginning: &str) -> Result<Option<Vec<String>>, StoreError> {
        if beginning.len() <= INDEXED || !beginning.is_ascii() {
            return Ok(None);
        }
        let beginning = beginning.to_ascii_lowercase();
        let (mut terms, mut from) = (Vec::new(), beginning.clone());
        let sql = "SELECT term FROM temp.search_terms WHERE term >= ?1 ORDER BY term LIMIT 1";
        while let Some(term) =
            self.ask(sql, |statement| statement.query_row([&from], |row| row.get::<_, String>(0)).optional())?
            && term.starts_with(&beginning)
        {
            if terms.len() == MOST_TERMS || !term.bytes().all(|letter| letter.is_ascii_alphanumeric()) {
                return Ok(None);
            }
            // Behind every row of this word: no word has such a letter.
            from = format!("{term}\u{1}");
            terms.push(term);
        }
        Ok(Some(terms))
    }
}
