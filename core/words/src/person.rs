use super::ids::CallSign;

/// Whether two call signs are one person's: the one rule, for whoever may not look at their own work.
pub fn same_person(one: &CallSign, other: &CallSign) -> bool {
    person_key(one) == person_key(other)
}

/// What one person's call signs have in common: letters and digits in lower case, so that `Anvil 3` and `ANVIL-3` are one; a
/// sign of punctuation alone as it is.
pub fn person_key(sign: &CallSign) -> String {
    let letters = sign.as_str().chars().filter(|c| c.is_alphanumeric());
    let plain: String = letters.flat_map(char::to_lowercase).collect();
    if plain.is_empty() { sign.as_str().to_owned() } else { plain }
}

#[cfg(test)]
mod tests {
    use super::{CallSign, same_person};

    #[test]
    fn one_person_under_two_spellings() {
        let same = |one, other| same_person(&CallSign::new(one).unwrap(), &CallSign::new(other).unwrap());
        assert!(same("Anvil 3", "ANVIL-3"));
        assert!(!same("Anvil 3", "Anvil 33"));
        assert!(!same("---", "..."), "signs alone do not make everybody one person");
    }
}
