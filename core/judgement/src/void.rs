use std::collections::BTreeMap;

use slingseal_words::Digest;

use super::word::LoadWord;

/// Of the voids of a load that count, the last of each record that one of them names.
///
/// A void counts when the credential of its author, in whatever role, had not run out: to keep a load down wrongly costs an hour,
/// to lift it wrongly a life. An author who was revoked later still saw what was seen. It takes back every seal that claims its
/// record, and nothing that the seal superseded comes back.
pub(super) fn taken_back<'e>(words: impl Iterator<Item = &'e LoadWord>) -> BTreeMap<Digest, &'e LoadWord> {
    let mut last: BTreeMap<Digest, &LoadWord> = BTreeMap::new();
    for word in words {
        let Some(void) = word.void() else { continue };
        if word.in_time().is_none() {
            continue;
        }
        let known = last.entry(void.record).or_insert(word);
        if (word.issued(), word.digest()) > (known.issued(), known.digest()) {
            *known = word;
        }
    }
    last
}
