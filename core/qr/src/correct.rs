//! Reed-Solomon decoding with errors and erasures over GF(256) of ISO/IEC 18004 (polynomial 0x11D, first root 1).
//!
//! Our own, because no kept library corrects erasures beside errors for these codes, and a module under mud is an
//! erasure: known to be worthless, it costs one check codeword where an error costs two.

use std::sync::LazyLock;

struct Field {
    exp: [u8; 512],
    log: [u16; 256],
}

static FIELD: LazyLock<Field> = LazyLock::new(|| {
    let mut field = Field { exp: [0; 512], log: [0; 256] };
    let mut value = 1u16;
    for (power, exp) in (0u16..).zip(field.exp.iter_mut()) {
        *exp = u8::try_from(value).unwrap_or(0);
        if power < 255
            && let Some(log) = field.log.get_mut(usize::from(value))
        {
            *log = power;
        }
        value <<= 1;
        if value > 255 {
            value ^= 0x11D;
        }
    }
    field
});

fn log(a: u8) -> usize {
    usize::from(FIELD.log.get(usize::from(a)).copied().unwrap_or(0))
}

/// The generator to a power below 511.
fn exp(power: usize) -> u8 {
    FIELD.exp.get(power).copied().unwrap_or(0)
}

fn times(a: u8, b: u8) -> u8 {
    if a == 0 || b == 0 { 0 } else { exp(log(a) + log(b)) }
}

fn over(a: u8, b: u8) -> u8 {
    if a == 0 { 0 } else { exp(log(a) + 255 - log(b)) }
}

/// The value of a polynomial, lowest power first.
fn value_at(polynomial: &[u8], x: u8) -> u8 {
    polynomial.iter().rev().fold(0, |sum, &c| times(sum, x) ^ c)
}

fn syndromes(word: &[u8], check: usize) -> Vec<u8> {
    (0..check).map(|power| word.iter().fold(0, |sum, &c| times(sum, exp(power)) ^ c)).collect()
}

/// Corrects a block in place: data and `check` check codewords, `erased` positions known to be worthless.
///
/// Answers how many codewords were not erased and yet wrong; `None` where the block cannot be corrected **safely**.
/// Each erasure spends redundancy that would otherwise catch a wrong correction; with `t` errors found and `e`
/// erasures, at least `check - e - t >= 4` is kept, so that a random word passes less than once in 10^9.
pub(super) fn correct(word: &mut [u8], check: usize, erased: &[usize]) -> Option<usize> {
    let length = word.len();
    if length > 255 || check >= length || erased.len() > check {
        return None;
    }
    let syndromes = syndromes(word, check);
    if syndromes.iter().all(|&s| s == 0) {
        return Some(0);
    }
    let locator = locator(&syndromes, length, erased)?;
    let degree = locator.len() - 1;
    if degree < erased.len() || 2 * degree > check + erased.len() {
        return None;
    }
    let errors = degree - erased.len();
    if erased.len() + errors + 4 > check {
        return None;
    }
    // The evaluator: syndromes times locator, modulo x^check.
    let mut evaluator = vec![0u8; check];
    for (i, &s) in syndromes.iter().enumerate() {
        for (e, &l) in evaluator.iter_mut().skip(i).zip(&locator) {
            *e ^= times(s, l);
        }
    }
    let slope: Vec<u8> =
        locator.iter().enumerate().skip(1).map(|(i, &l)| if i % 2 == 1 { l } else { 0 }).collect();
    let mut found = 0;
    let mut fixed = word.to_vec();
    for (at, value) in fixed.iter_mut().enumerate() {
        let power = length - 1 - at;
        let inverse = exp((255 - power) % 255);
        if value_at(&locator, inverse) != 0 {
            continue;
        }
        found += 1;
        let divisor = value_at(&slope, inverse);
        if divisor == 0 {
            return None;
        }
        *value ^= times(exp(power), over(value_at(&evaluator, inverse), divisor));
    }
    if found != degree || self::syndromes(&fixed, check).iter().any(|&s| s != 0) {
        return None;
    }
    word.copy_from_slice(&fixed);
    Some(errors)
}

/// The locator of erasures and errors, lowest power first (Berlekamp-Massey, begun at the erasures; Blahut 1983).
fn locator(syndromes: &[u8], length: usize, erased: &[usize]) -> Option<Vec<u8>> {
    let mut locator = vec![1u8];
    for &at in erased {
        let root = exp((length - 1).checked_sub(at)?);
        let shifted: Vec<u8> = std::iter::once(0).chain(locator.iter().map(|&c| times(c, root))).collect();
        locator.push(0);
        locator.iter_mut().zip(shifted).for_each(|(c, s)| *c ^= s);
    }
    let begun = erased.len();
    let mut order = begun;
    let mut spare = locator.clone();
    for step in begun..syndromes.len() {
        let wrong = locator
            .iter()
            .zip(syndromes.get(..=step)?.iter().rev())
            .fold(0, |sum, (&l, &s)| sum ^ times(l, s));
        spare.insert(0, 0);
        if wrong == 0 {
            continue;
        }
        let mut next = locator.clone();
        next.resize(next.len().max(spare.len()), 0);
        next.iter_mut().zip(&spare).for_each(|(n, &s)| *n ^= times(wrong, s));
        if 2 * order <= step + begun {
            order = step + 1 + begun - order;
            spare = locator.iter().map(|&c| over(c, wrong)).collect();
        }
        locator = next;
    }
    while locator.len() > 1 && locator.last() == Some(&0) {
        locator.pop();
    }
    (locator.len() == order + 1).then_some(locator)
}

#[cfg(test)]
mod tests {
    use super::{correct, exp, times};

    /// Divides by the generator, the long way, to make check codewords.
    fn block(data: &[u8], check: usize) -> Vec<u8> {
        let mut generator = vec![1u8];
        for power in 0..check {
            let mut next = generator.clone();
            next.push(0);
            for (n, &g) in next.iter_mut().skip(1).zip(&generator) {
                *n ^= times(g, exp(power));
            }
            generator = next;
        }
        let mut rest = data.to_vec();
        rest.resize(data.len() + check, 0);
        for at in 0..data.len() {
            let lead = rest[at];
            for (r, &g) in rest[at..].iter_mut().zip(&generator) {
                *r ^= times(lead, g);
            }
        }
        [data, &rest[data.len()..]].concat()
    }

    /// ISO/IEC 18004:2006, annex I, "01234567" in version 1-M: these data codewords have these check codewords.
    #[test]
    fn the_worked_example_of_the_standard() {
        let data =
            [0x10, 0x20, 0x0C, 0x56, 0x61, 0x80, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11];
        let check = [0xA5, 0x24, 0xD4, 0xC1, 0xED, 0x36, 0xC7, 0x87, 0x2C, 0x55];
        assert_eq!(block(&data, 10), [&data[..], &check].concat());
    }

    #[test]
    fn corrects_errors_and_erasures_up_to_the_reserve() {
        let data: Vec<u8> = (0..37).map(|at| (at * 37 + 11) as u8).collect();
        let good = block(&data, 22);
        let mut state = 7u32;
        let mut dice = || {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (state >> 16) as usize
        };
        for erasures in 0..=18 {
            for errors in 0..=(22 - erasures) / 2 {
                for _ in 0..20 {
                    let mut places: Vec<usize> = (0..good.len()).collect();
                    for at in 0..places.len() {
                        places.swap(at, dice() % good.len());
                    }
                    let erased = &places[..erasures];
                    let mut word = good.clone();
                    for &at in &places[..erasures + errors] {
                        word[at] ^= 1 + (dice() % 255) as u8;
                    }
                    let safe = erasures + errors + 4 <= 22;
                    let answer = correct(&mut word, 22, erased);
                    if safe {
                        assert_eq!(answer, Some(errors), "{erasures} erasures, {errors} errors");
                        assert_eq!(word, good);
                    } else {
                        assert_eq!(answer, None, "{erasures} erasures, {errors} errors");
                    }
                }
            }
        }
    }

    /// Random words are hardly ever taken for good ones, at any number of erasures.
    #[test]
    fn random_words_are_refused() {
        let mut state = 1u64;
        let mut taken = 0;
        for round in 0..4000 {
            let mut word: Vec<u8> = (0..59)
                .map(|_| {
                    state =
                        state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                    (state >> 56) as u8
                })
                .collect();
            let erased: Vec<usize> = (0..round % 23).collect();
            taken += usize::from(correct(&mut word, 22, &erased).is_some());
        }
        assert_eq!(taken, 0);
    }
}
