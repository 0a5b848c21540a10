//! Examinations as the terminal prints them: keys, what is planted, results, a class.

use slingseal_app::catalogue::exams as words;

use slingseal_app::catalogue::Saying;
use slingseal_app::{
    ClassView, ExamKeyView, ExamOutcome, ExamResultView, ExamRunState, Language, PlantedView,
};

use crate::output::{clock, pasted};

pub(super) fn planted(one: &PlantedView, language: Language) {
    println!("  {}  {}: {}", card_padded(one.card, language), one.card_title, one.shown);
    println!("            {}  {}", one.point, one.prompt);
}

pub(super) fn card_padded(card: u32, language: Language) -> String {
    words::CardNumbered { card: format!("{card:>3}") }.say(language)
}

/// As `--plant` takes it, with what it means.
pub(super) fn plantable(one: &PlantedView, language: Language) {
    println!("  {}  {}: {}", card_padded(one.card, language), one.card_title, one.prompt);
    println!("            --plant {}", pasted(&format!("{}={}", one.point, one.name)));
}

pub(super) fn show_key(key: &ExamKeyView, language: Language) {
    println!(
        "{}",
        words::KeyLine {
            key: &key.short,
            load: &key.load,
            procedure: &key.procedure,
            standard: &key.standard.words
        }
        .say(language)
    );
    println!("  {}", words::KeyLocked { at: &key.locked.dtg, by: &key.instructor }.say(language));
    match &key.planted {
        Some(list) => {
            println!("  {}", words::PlantedForInstructor.say(language));
            list.iter().for_each(|one| planted(one, language));
        }
        None if key.list_here => {
            println!("  {}", words::PlantedKnownHere { key: &key.short }.say(language))
        }
        None => println!("  {}", words::PlantedKnownToInstructor.say(language)),
    }
}

/// How a run stands.
pub(super) fn state_words(state: ExamRunState) -> Saying {
    match state {
        ExamRunState::Open => words::RunOpen.into(),
        ExamRunState::Ended => words::RunEnded.into(),
        ExamRunState::Scored => words::RunScored.into(),
        ExamRunState::Lost => words::RunLost.into(),
    }
}

/// What a run came to.
pub(super) fn outcome_words(outcome: ExamOutcome) -> Saying {
    match outcome {
        ExamOutcome::Passed => words::ResultPassed.into(),
        ExamOutcome::Failed => words::ResultFailed.into(),
        ExamOutcome::Unclear => words::ResultUnclear.into(),
    }
}

pub(super) fn show_result(view: &ExamResultView, language: Language) {
    let line = &view.line;
    println!("{}", view.what);
    let said = words::ResultLine {
        outcome: outcome_words(line.outcome).say(language).to_uppercase(),
        student: &line.student,
        load: &line.load,
        attempt: line.attempt,
        key: &line.key,
        instructor: &line.instructor,
        authority: &view.authority,
    };
    println!("{}", said.say(language));
    println!("  {}", words::StandardLine { standard: &view.standard.words }.say(language));
    view.reasons.iter().for_each(|reason| println!("  {reason}"));
    view.warnings.iter().for_each(|warning| println!("  ! {warning}"));
    match &view.debrief {
        Some(debrief) => {
            println!("{}", words::InOrderOfLoad.say(language));
            for item in &debrief.items {
                let mark = if item.call.found() { "[+]" } else { "[!]" };
                println!("  {mark} {}", item.words);
            }
            for call in &debrief.false_calls {
                let at = call.after_s.map(clock).unwrap_or_default();
                println!(
                    "  {}",
                    words::FalseCallLine {
                        card: &call.card,
                        title: &call.card_title,
                        called: &call.called,
                        at: &at
                    }
                    .say(language)
                );
            }
            println!("{}", words::TimeByCard.say(language));
            for card in &debrief.cards {
                println!(
                    "  {:>6}  {}  {}",
                    clock(card.seconds),
                    card_padded(card.card, language),
                    card.title
                );
            }
        }
        None => view.planted.iter().for_each(|one| planted(one, language)),
    }
    println!("{}", words::ResultDigest { digest: &line.result }.say(language));
    println!("{}", view.text);
}

pub(super) fn show_class(class: &ClassView, language: Language) {
    if class.attempts.is_empty() {
        println!("{}", words::ClassIsEmpty.say(language));
        return class.warnings.iter().for_each(|warning| println!("! {warning}"));
    }
    println!("{}", words::Students.say(language));
    println!(
        "  {:<20} {:>5} {:>6} {:>6} {:>7} {:>7} {:>9} {:>6}",
        "",
        words::ColumnRuns.say(language),
        words::ColumnPassed.say(language),
        words::ColumnFirst.say(language),
        words::ColumnRetests.say(language),
        words::ColumnUnclear.say(language),
        words::ColumnFound.say(language),
        words::ColumnFalse.say(language)
    );
    for line in &class.students {
        println!(
            "  {:<20} {:>5} {:>6} {:>6} {:>7} {:>7} {:>9} {:>6}",
            line.student,
            line.runs,
            line.passed,
            line.first_passed,
            line.retests,
            line.unclear,
            format!("{}/{}", line.found, line.planted),
            line.false_calls
        );
    }
    println!("{}", words::MissedMost { count: &class.counted }.say(language));
    for line in class.missed.iter().filter(|line| line.missed > 0).take(20) {
        let said = words::MissedLine {
            missed: format!("{:>4}", line.missed),
            of: format!("{:<4}", line.of),
            share: format!("{:>4.0}", line.share * 100.0),
            low: format!("{:.0}", line.low * 100.0),
            high: format!("{:.0}", line.high * 100.0),
            procedure: &line.procedure,
            deficiency: &line.deficiency,
        };
        println!("  {}", said.say(language));
    }
    println!("{}", words::ItemsHead.say(language));
    let maybe = |value: Option<f64>| value.map_or("    -".to_owned(), |value| format!("{value:>5.2}"));
    for line in &class.items {
        let said = words::ItemLine {
            p: format!("{:>4.2}", line.difficulty),
            d: maybe(line.discrimination),
            r: maybe(line.point_biserial),
            students: format!("{:>3}", line.of),
            procedure: &line.procedure,
            card: line.card,
            point: &line.point,
            deficiency: &line.deficiency,
            said: &line.words,
        };
        println!("  {}", said.say(language));
    }
    println!("{}", words::TimeByCardHead.say(language));
    for line in &class.cards {
        let said = words::CardTimeLine {
            middle: format!("{:>6}", clock(line.median_s)),
            longest: format!("{:>6}", clock(line.longest_s)),
            runs: format!("{:>3}", line.runs),
            procedure: &line.procedure,
            card: line.card,
            title: &line.title,
        };
        println!("  {}", said.say(language));
    }
    class.warnings.iter().for_each(|warning| println!("! {warning}"));
}
