//! By which column a list is ordered.

use std::cmp::Reverse;

/// A column, and whether its largest comes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sorting<C> {
    /// The column.
    pub by: C,
    /// Whether the largest comes first.
    pub down: bool,
}

/// Puts rows in the order of what a column has. What has nothing there stands last either way; those that are alike stay as they
/// were.
pub fn arrange<T, K: Ord>(rows: &mut [T], down: bool, key: impl Fn(&T) -> Option<K>) {
    if down {
        rows.sort_by_cached_key(|row| {
            let key = key(row);
            (key.is_none(), Reverse(key))
        });
    } else {
        rows.sort_by_cached_key(|row| {
            let key = key(row);
            (key.is_none(), key)
        });
    }
}

/// A text as people look for it: whatever its letters' size, and nothing where nothing stands.
pub fn as_sorted(text: &str) -> Option<String> {
    Some(text.trim().to_lowercase()).filter(|text| !text.is_empty())
}

/// Makes the columns of a list, each by the word that addresses have for it.
macro_rules! columns {
    ($(#[$about:meta])* $name:ident { $($(#[$told:meta])* $column:ident = $word:literal,)* }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum $name { $($(#[$told])* $column,)* }

        impl $name {
            /// The column of a word; `None` where no list is ordered by that.
            pub fn of_word(word: &str) -> Option<Self> {
                match word {
                    $($word => Some(Self::$column),)*
                    _ => None,
                }
            }

            /// The word of it.
            pub fn word(self) -> &'static str {
                match self { $(Self::$column => $word,)* }
            }
        }
    };
}
pub(crate) use columns;
