//! When two names are one person's, by what can be seen of them.

use std::collections::BTreeSet;

use unicode_normalization::UnicodeNormalization;
use unicode_security::confusable_detection::skeleton;

use super::CallSign;

/// Whether two names are one person's, as far as a person who reads them could tell: `Anvil 3`, `ANVIL-3` and `Аnvil З` (two
/// Cyrillic letters) are one.
///
/// Letters and digits alone count; accents, blanks and signs do not. Two names are one where they can be taken for each other
/// as they are written, both in capitals, or both in small letters: capitals count besides, because `ΗENRY` with a Greek eta
/// looks like `HENRY`, while a small eta looks like an n. What looks alike is Unicode's confusables data (UTS 39 §4).
pub fn same_person(one: &CallSign, other: &CallSign) -> bool {
    same_name(one.as_str(), other.as_str())
}

/// The same for names that are no person's: an authority's.
pub fn same_name(one: &str, other: &str) -> bool {
    if is_plain(one) && is_plain(other) {
        return plain_look(one) == plain_look(other);
    }
    !looks(one).is_disjoint(&looks(other))
}

/// What one person's names have in common, for tables: the look of the name as it is written. Names of one key are one
/// person's; [`same_person`] finds some more where the case of letters of other alphabets differs.
pub fn person_key(name: &CallSign) -> String {
    look(&name.as_str().nfkc().collect::<String>())
}

/// How a name looks as it is written, in small letters, in capitals; and each as its compatible letters (NFKC) look, since a
/// full-width letter is that letter, and a long s is an s that looks like an f.
fn looks(name: &str) -> BTreeSet<String> {
    let compatible: String = name.nfkc().collect();
    let cased = |name: &str| [name.to_owned(), name.to_lowercase(), name.to_uppercase()];
    [cased(name), cased(&compatible)].iter().flatten().map(|name| look(name)).collect()
}

/// The skeleton of a name, without case. Capital I looks like small L, so i, l, I and 1 are one letter.
fn look(name: &str) -> String {
    if is_plain(name) {
        return plain_look(name);
    }
    let seen: String = skeleton(name).collect::<String>().to_lowercase();
    // Once more: a small m looks like rn, which a capital M shows only now.
    let seen: String = skeleton(&seen).collect::<String>().to_lowercase();
    let letters = seen.chars().filter(|letter| letter.is_alphanumeric());
    or_as_it_is(letters.map(|letter| if letter == 'i' { 'l' } else { letter }).collect(), name)
}

/// Nearly every name: no search in Unicode's tables is wanted. The per cent sign looks like letters, and is left to them.
fn is_plain(name: &str) -> bool {
    name.bytes().all(|letter| letter.is_ascii() && letter != b'%')
}

/// [`look`] for a plain name.
fn plain_look(name: &str) -> String {
    let mut plain = String::with_capacity(name.len() + 4);
    for letter in name.bytes() {
        match letter.to_ascii_lowercase() {
            b'i' | b'1' | b'|' => plain.push('l'),
            b'0' => plain.push('o'),
            b'm' => plain.push_str("rn"),
            letter if letter.is_ascii_alphanumeric() => plain.push(char::from(letter)),
            _ => {}
        }
    }
    or_as_it_is(plain, name)
}

/// A name of signs alone, which no name that is made now can be, is one person's with itself alone.
fn or_as_it_is(plain: String, name: &str) -> String {
    if plain.is_empty() { name.nfkc().collect() } else { plain }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn same(one: &str, other: &str) -> bool {
        let (one, other) = (CallSign::received(one).unwrap(), CallSign::received(other).unwrap());
        assert_eq!(same_person(&one, &other), same_person(&other, &one), "{one} {other}");
        same_person(&one, &other)
    }

    #[test]
    fn one_person_however_spelled() {
        for (one, other) in [
            ("Anvil 3", "ANVIL-3"),
            ("Anvil 3", "Ａｎｖｉｌ　３"),
            ("José", "Jose\u{301}"),
            ("José", "JOSE"),
            ("Anvil 3", "\u{410}nvil \u{417}"),
            ("Anvil 3", "an\u{3bd}il 3"),
            ("Henry", "\u{397}ENRY"),
            ("Николай", "НИКОЛАЙ"),
            ("Ηλίας", "ΗΛΙΑΣ"),
            ("Straße", "STRASSE"),
            ("Bill", "BiII"),
            ("Anvil 10", "Anvil lO"),
            ("Barney", "Bamey"),
            ("𝐀𝐧𝐯𝐢𝐥", "Anvil"),
            ("Anvil 3", "Anvil\u{200b} 3"),
            ("!!", "!!"),
        ] {
            assert!(same(one, other), "{one} {other}");
        }
    }

    #[test]
    fn two_people_stay_two() {
        for (one, other) in [
            ("Anvil 3", "Anvil 33"),
            ("Anvil 3", "Anvil 8"),
            ("Hal", "Val"),
            ("Mason 5", "Mason 6"),
            ("!!", "??"),
            ("---", "..."),
            ("Николай", "Никола"),
            ("Ηλίας", "Ηλένη"),
        ] {
            assert!(!same(one, other), "{one} {other}");
        }
    }

    /// The short way for ASCII is the long way's answer, for every pair of its characters in both orders.
    #[test]
    fn a_plain_name_looks_as_unicode_says() {
        for first in ' '..='~' {
            for second in ' '..='~' {
                let name: String = ["x", &String::from_iter([first, second])].concat();
                let long = {
                    let seen = skeleton(&name).collect::<String>().to_lowercase();
                    let seen = skeleton(&seen).collect::<String>().to_lowercase();
                    seen.chars()
                        .filter(|c| c.is_alphanumeric())
                        .map(|c| if c == 'i' { 'l' } else { c })
                        .collect::<String>()
                };
                assert!(!is_plain(&name) || plain_look(&name) == long, "{name}");
            }
        }
    }

    /// Unicode's own data (confusables.txt, as the crate holds it): whatever looks like letters or digits makes no other person
    /// of a name.
    #[test]
    fn every_look_alike_of_unicode_is_seen() {
        let mut tried = 0;
        for letter in (0x80..=0x0010_ffff).filter_map(char::from_u32) {
            let prototype: String = skeleton(&letter.to_string()).collect();
            let plain = prototype.chars().all(|c| c.is_ascii_alphanumeric());
            if plain && !prototype.is_empty() {
                let (one, other) = (format!("Anvil {letter}7"), format!("Anvil {prototype}7"));
                if one.len() <= CallSign::MOST {
                    assert!(same(&one, &other), "{one} {other}");
                    tried += 1;
                }
            }
        }
        assert!(tried > 1_000, "{tried}");
    }
}
