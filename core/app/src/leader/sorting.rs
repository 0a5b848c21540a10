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

/// A text as people look for it: whatever its letters' size, a run of digits by its number (KM-2 before KM-10), and nothing where
/// nothing stands. To be compared with others of its kind alone. What a store's index orders, page by page, stands as text:
/// [`super::RecordOrder`].
pub fn as_sorted(text: &str) -> Option<String> {
    let text = text.trim();
    if text.is_empty() {
        return None;
    }
    let mut key = String::with_capacity(text.len() + 8);
    let mut rest = text;
    while let Some(letter) = rest.chars().next() {
        let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
        let (run, behind) = rest.split_at_checked(digits.max(letter.len_utf8())).unwrap_or((rest, ""));
        if digits > 0 {
            // Before a number, how long it is: a longer one is larger. It begins where digits stand among the letters.
            let number = run.trim_start_matches('0');
            let long = u32::try_from(number.len()).unwrap_or(u32::MAX).min(0x1_0000);
            key.extend(char::from_u32(u32::from('0') + long));
            key.push_str(number);
        } else {
            key.extend(letter.to_lowercase());
        }
        rest = behind;
    }
    Some(key)
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

#[cfg(test)]
mod tests {
    use super::{arrange, as_sorted};

    #[test]
    fn numbers_in_a_text_are_ordered_by_what_they_are() {
        let mut loads =
            ["KM-10", "km-9b", "", "KM-2", "KM-010b", "KL-300", "9", "KM", "KM-2-11", "KM-2-3", "10"];
        arrange(&mut loads, false, |load| as_sorted(load));
        let up = ["9", "10", "KL-300", "KM", "KM-2", "KM-2-3", "KM-2-11", "km-9b", "KM-10", "KM-010b", ""];
        assert_eq!(loads, up);
        arrange(&mut loads, true, |load| as_sorted(load));
        assert_eq!(loads[..2], ["KM-010b", "KM-10"]);
        assert_eq!(loads[10], "", "what has nothing stands last either way");
        assert_eq!(as_sorted("KM-007"), as_sorted(" km-7 "));
        assert!(as_sorted(&"9".repeat(70_000)).is_some() && as_sorted("\u{130}-1") < as_sorted("\u{130}-2"));
    }
}
