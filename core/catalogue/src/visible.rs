//! Which characters a person can see.

/// Characters that leave nothing to see, or that move what stands around them: a name with one looks like another name and is
/// none of it. The controls of Unicode (Cc), the format characters (Cf), everything that is `Default_Ignorable_Code_Point`
/// (DerivedCoreProperties.txt of Unicode 16), the blanks but U+0020 (Zs, Zl, Zp), the empty braille pattern, and what has no
/// agreed picture: private use and noncharacters.
pub fn is_invisible(letter: char) -> bool {
    let code = u32::from(letter);
    letter.is_control()
        || (letter.is_whitespace() && letter != ' ')
        || code & 0xfffe == 0xfffe
        || matches!(code,
            0x00ad | 0x034f | 0x061c | 0x0600..=0x0605 | 0x06dd | 0x070f | 0x0890..=0x0891 | 0x08e2
            | 0x115f..=0x1160 | 0x17b4..=0x17b5 | 0x180b..=0x180f
            | 0x200b..=0x200f | 0x202a..=0x202e | 0x2060..=0x206f | 0x2800 | 0x3164
            | 0xe000..=0xf8ff | 0xfdd0..=0xfdef | 0xfe00..=0xfe0f | 0xfeff | 0xffa0 | 0xfff0..=0xfffb
            | 0x110bd | 0x110cd | 0x13430..=0x1343f | 0x1bca0..=0x1bca3 | 0x1d173..=0x1d17a
            | 0xe0000..=0xe0fff | 0xf0000..=0x0010_ffff)
}

/// A foreign text with everything invisible spelled out as `\u{200b}`, so that it can neither hide nor move anything.
pub fn visibly(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        if is_invisible(letter) { out.extend(letter.escape_unicode()) } else { out.push(letter) }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{is_invisible, visibly};

    #[test]
    fn what_hides_is_spelled_out() {
        assert_eq!(visibly("Anvil\u{200b} 3\u{1b}[2J"), "Anvil\\u{200b} 3\\u{1b}[2J");
        assert_eq!(visibly("José Ωmega 3"), "José Ωmega 3");
        for hidden in [
            '\u{ad}',
            '\u{3164}',
            '\u{202e}',
            '\u{a0}',
            '\u{2028}',
            '\u{e0041}',
            '\u{feff}',
            '\u{e000}',
            '\u{ffff}',
        ] {
            assert!(is_invisible(hidden), "{hidden:?}");
        }
    }
}
