//! How counters and enums lie in columns.

use rusqlite::types::FromSqlError;

use super::StoreError;

/// A number that counts, for a column that is signed. No counter of ours comes near the end.
pub(super) fn count_in(number: u64) -> Result<i64, StoreError> {
    i64::try_from(number).map_err(|_| StoreError::Unfit { what: format!("the number {number}") })
}

/// A counter out of a column.
pub(super) fn count_out(row: &rusqlite::Row<'_>, at: usize) -> rusqlite::Result<u64> {
    let number: i64 = row.get(at)?;
    u64::try_from(number).map_err(|_| rusqlite::Error::IntegralValueOutOfRange(at, number))
}

/// Gives an enum its words in a text column.
macro_rules! word_column {
    ($name:ident { $($variant:ident = $word:literal),+ $(,)? }) => {
        impl $name {
            /// The word that stands for it.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
        }

        impl rusqlite::types::ToSql for $name {
            fn to_sql(&self) -> rusqlite::Result<rusqlite::types::ToSqlOutput<'_>> {
                Ok(self.word().into())
            }
        }

        impl rusqlite::types::FromSql for $name {
            fn column_result(value: rusqlite::types::ValueRef<'_>) -> rusqlite::types::FromSqlResult<Self> {
                match value.as_str()? {
                    $($word => Ok(Self::$variant),)+
                    other => Err($crate::values::unknown_word(other)),
                }
            }
        }
    };
}
pub(super) use word_column;

pub(super) fn unknown_word(word: &str) -> FromSqlError {
    FromSqlError::Other(format!("the word \"{word}\" is not known").into())
}
