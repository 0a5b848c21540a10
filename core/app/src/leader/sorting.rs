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

/// What a row is put in its place by. What has nothing in a column stands last, whichever comes first.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Rank<K> {
    /// The smallest first.
    Up(bool, Option<K>),
    /// The largest first.
    Down(bool, Reverse<Option<K>>),
}

impl<K> Rank<K> {
    /// Of what a column has.
    pub(super) fn of(key: Option<K>, down: bool) -> Self {
        if down { Self::Down(key.is_none(), Reverse(key)) } else { Self::Up(key.is_none(), key) }
    }
}

/// Puts rows in the order of what a column has; those that are alike stay as they were.
pub fn arrange<T, K: Ord>(rows: &mut [T], down: bool, key: impl Fn(&T) -> Option<K>) {
    rows.sort_by_cached_key(|row| Rank::of(key(row), down));
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
