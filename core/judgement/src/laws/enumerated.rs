//! Every history of up to five words of the alphabet. A history is a set: that order and repetition change nothing is law 8, tried
//! beside it.

use std::collections::HashMap;

use super::alphabet::{NOW, open, trusts, words};
use super::*;
use crate::cast::at;

const MOST: u32 = 5;

/// What is remembered of a history: whether its load is NO-GO, and which of its words are.
#[derive(Clone, Copy, PartialEq)]
struct Told {
    load: bool,
    seals: u32,
}

fn sets(letters: usize) -> impl Iterator<Item = u32> {
    // Gosper's next set of the same size, so that smaller ones come first.
    (0..=MOST).flat_map(move |size| {
        let end = 1u64 << letters;
        let mut next = Some((1u64 << size) - 1);
        std::iter::from_fn(move || {
            let set = next.filter(|set| *set < end)?;
            let low = set & set.wrapping_neg();
            next = (low != 0).then(|| {
                let ripple = set + low;
                ripple | (((set ^ ripple) >> 2) / low)
            });
            u32::try_from(set).ok()
        })
    })
}

#[test]
fn every_history_of_up_to_five_words_keeps_the_laws() {
    let trusts = trusts();
    let alphabet = words();
    let opened: Vec<LoadWord> = alphabet.iter().map(|letter| open(letter, &trusts[0])).collect();
    let letters = opened.len();
    let now = at(NOW);
    let spell = |set: u32| -> Vec<&str> {
        (0..letters).filter(|letter| set >> letter & 1 == 1).map(|letter| alphabet[letter].0).collect()
    };
    let (mut histories, mut edges, mut go, mut lifted) = (0u64, 0u64, 0u64, 0u64);
    let mut under_less: HashMap<u32, Told> = HashMap::new();
    for (number, trusted) in trusts.iter().enumerate() {
        let mut told: HashMap<u32, Told> = HashMap::new();
        // An approval bears on no order: what it could break shows in fewer words.
        let most = if number < 2 { MOST } else { MOST - 1 };
        for set in sets(letters).take_while(|set| set.count_ones() <= most) {
            let history: Vec<&LoadWord> =
                (0..letters).filter(|letter| set >> letter & 1 == 1).map(|letter| &opened[letter]).collect();
            let answer = Answer::of(&history, trusted, now);
            let mut seals = 0;
            for letter in (0..letters).filter(|letter| set >> letter & 1 == 1) {
                seals |= u32::from(answer.no_go(&opened[letter])) << letter;
            }
            let this = Told { load: answer.load.verdict() == Verdict::NoGo, seals };
            histories += 1;
            go += u64::from(answer.load.verdict() == Verdict::Go);
            hold_alone(&history, &answer, trusted, now);
            hold_approval(&history, &answer, trusted);
            // Laws 1 and 2, from every history that lacks one of these words.
            for letter in (0..letters).filter(|letter| set >> letter & 1 == 1) {
                edges += 1;
                let fewer = set & !(1 << letter);
                let before = told[&fewer];
                assert_eq!(
                    before.seals & !this.seals,
                    0,
                    "law 1: {:?} lifts a seal among {:?}",
                    alphabet[letter].0,
                    spell(fewer)
                );
                if opened[letter].weight() == Some(ReportWeight::Hint) {
                    assert_eq!(
                        (before.load, before.seals),
                        (this.load, this.seals),
                        "law 10: {:?}",
                        spell(set)
                    );
                }
                if before.load && !this.load {
                    lifted += 1;
                    let rest: Vec<&LoadWord> = history
                        .iter()
                        .filter(|word| word.digest() != opened[letter].digest())
                        .copied()
                        .collect();
                    assert!(
                        may_lift(&opened[letter], &rest, &answer),
                        "law 2: {:?} lifts {:?}",
                        alphabet[letter].0,
                        spell(fewer)
                    );
                }
            }
            // Law 5, from the trust in which fewer were revoked.
            if let Some(less) = under_less.get(&set) {
                assert!(!less.load || this.load, "law 5: {:?}", spell(set));
                assert_eq!(less.seals & !this.seals, 0, "law 5: {:?}", spell(set));
            }
            if set.count_ones() < most {
                never_go_by_time(&history, trusted, now);
                let mut turned: Vec<&LoadWord> = history.iter().rev().copied().collect();
                turned.extend(history.first());
                let again = Answer::of(&turned, trusted, now);
                assert_eq!(again.load, answer.load, "law 8: {:?}", spell(set));
            }
            told.insert(set, this);
        }
        println!("trust {number}: {} sets of up to {most} of {letters} words", told.len());
        under_less = told;
    }
    println!(
        "{histories} histories, {edges} words added, {go} GO, {lifted} lifted by a later FIT inspection"
    );
    assert!(histories > 240_000 && go > 1_000 && lifted > 1_000, "{histories} {go} {lifted}");
}
