//! The words of a verdict, on the way from its reasons to a screen: beside putting the same letters together by hand, and
//! beside reading the file of messages, which each language costs once.
//!
//! `cargo bench -p slingseal-tests --bench words_bench`

use divan::{Bencher, black_box};
use slingseal_app::Language;
use slingseal_app::catalogue::judgement as words;

fn main() {
    divan::main();
}

/// What a verdict of five reasons and three cautions says.
#[divan::bench(args = [Language::English, Language::Spanish])]
fn a_verdict(bencher: Bencher, language: Language) {
    bencher.bench(|| {
        [
            words::ReasonOtherLoad { sealed: black_box("KM-014"), tag: black_box("KM-015") }.say(language),
            words::ReasonExpired { at: black_box("261200Z NOV 26") }.say(language),
            words::ReasonTagUnsigned.say(language),
            words::ReasonCorrected { count: black_box(3_u16) }.say(language),
            words::ReasonExpiresSoon { left: black_box("20 min") }.say(language),
            words::CautionStatic.say(language),
            words::CautionObstacle.say(language),
            words::CautionManual.say(language),
        ]
    });
}

/// The same letters without a catalogue: the floor.
#[divan::bench]
fn the_same_letters_by_hand(bencher: Bencher) {
    bencher.bench(|| {
        let (sealed, tag, at, left) =
            (black_box("KM-014"), black_box("KM-015"), black_box("261200Z NOV 26"), black_box("20 min"));
        [
            format!("The seal is for load {sealed}; this is load {tag}."),
            format!("The seal ran out at {at}. Inspect again."),
            "No planner has signed the tag. Check weight and aircraft with the leader.".to_owned(),
            format!("{} deficiencies were found and corrected.", black_box(3)),
            format!("The seal runs out in {left}."),
            "Ground the hook before you touch it: static up to 40,000 V.".to_owned(),
            "Never stand between the load and an obstacle. Know your way out.".to_owned(),
            "This supports the hookup team; the governing manual and the aircrew rule.".to_owned(),
        ]
    });
}

/// What the first word of a language costs: its file of verdicts is read once.
#[divan::bench]
fn reading_the_messages_of_verdicts(bencher: Bencher) {
    bencher.bench(|| slingseal_app::catalogue::read_again(black_box(Language::Spanish), "judgement"));
}
