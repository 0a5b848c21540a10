use maud::{Markup, html};
use slingseal_app::catalogue::page as words;
use slingseal_app::{
    ClassView, DebriefView, ExamOutcome, ExamResultLine, ExamResultView, ItemView, Language, MissedView,
    ShareView, StudentView,
};

use super::chart::{axis, bar, encoded, numbers, scale};
use crate::output::clock;

/// Rows of what is missed and of items; the tables for a spreadsheet hold all.
const MOST: usize = 40;

/// The class: what to teach next, and to whom.
pub(in crate::serve) fn class(
    view: &ClassView,
    procedures: &[String],
    procedure: Option<&str>,
    language: Language,
) -> Markup {
    html! {
        div.tools {
            p { (words::TrainingCounted { count: view.counted }.say(language)) }
            form.pick method="get" {
                label { (words::Procedure.say(language)) " "
                    select name="procedure" data-go {
                        option value="" { (words::All.say(language)) }
                        @for known in procedures { option value=(known) selected[Some(known.as_str()) == procedure] { (known) } }
                    }
                }
                button { (words::Show.say(language)) }
            }
        }
        @if !view.warnings.is_empty() { ul.warnings { @for warning in &view.warnings { li { (warning) } } } }
        @if view.attempts.is_empty() {
            p.none { (words::NoResultYet.say(language)) }
        } @else {
            section { h2 { (words::MissedMost.say(language)) } (missed(&view.missed, language)) }
            section { h2 { (words::Students.say(language)) } (students(&view.students, language)) }
            section { h2 { (words::Attempts.say(language)) } (attempts(&view.attempts, language)) }
            section { h2 { (words::Items.say(language)) } (items(&view.items, language)) }
            section { h2 { (words::TimeByCard.say(language)) } (cards(view, language)) }
            details.small { summary { (words::HowShareCounted.say(language)) } p { (words::IntervalWilson.say(language)) } }
            section { h2 { (words::ForSpreadsheet.say(language)) } p.papers {
                @for (name, title) in [("results", words::Results.saying()), ("students", words::Students.into()), ("missed", words::Missed.into()), ("items", words::Items.into()), ("cards", words::Cards.into())] {
                    a href={ "/export/class-" (name) ".csv" } { (title.say(language)) }
                }
            } }
        }
    }
}

fn missed(lines: &[MissedView], language: Language) -> Markup {
    let shares: Vec<(&MissedView, ShareView)> = lines
        .iter()
        .filter(|line| line.missed > 0)
        .take(MOST)
        .map(|line| {
            let percent = |share: f64| Some(share * 100.0);
            let share = ShareView {
                found: line.missed,
                of: line.of,
                percent: percent(line.share),
                low_percent: percent(line.low),
                high_percent: percent(line.high),
            };
            (line, share)
        })
        .collect();
    let end = scale(shares.iter().map(|(_, share)| share));
    html! {
        @if shares.is_empty() { p.none { (words::NothingMissed.say(language)) } } @else {
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table.shares {
                thead { tr { th { (words::Deficiency.say(language)) } th { (words::Missed.say(language)) } th { (axis(end)) } } }
                tbody { @for (line, share) in &shares { tr {
                    td { b { (line.deficiency) } br; span.small { (line.procedure) } }
                    td { (numbers(share, language)) }
                    td.chart { (bar(share, end, language)) }
                } } }
            } }
        }
    }
}

fn students(lines: &[StudentView], language: Language) -> Markup {
    html! {
        div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
            thead { tr { th { (words::Student.say(language)) } th.num { (words::LoadsPassed.say(language)) } th.num { (words::Runs.say(language)) } th.num { (words::PassedAtOnce.say(language)) } th.num { (words::Retests.say(language)) }
                th.num { (words::Unclear.say(language)) } th.num { (words::FoundCount.say(language)) } th.num { (words::FalseCalls.say(language)) } } }
            tbody { @for line in lines { tr {
                td { b { (line.student) } }
                td.num { (words::FoundOf { found: line.loads_passed, of: line.loads }.say(language)) }
                td.num { (line.runs) }
                td.num { (line.first_passed) }
                td.num { (line.retests) }
                td.num { (line.unclear) }
                td.num { (words::FoundOf { found: line.found, of: line.planted }.say(language)) }
                td.num { (line.false_calls) }
            } } }
        } }
    }
}

fn attempts(lines: &[ExamResultLine], language: Language) -> Markup {
    html! {
        div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
            thead { tr { th { (words::Student.say(language)) } th { (words::Load.say(language)) } th.num { (words::Attempt.say(language)) } th { (words::Outcome.say(language)) } th.num { (words::FoundCount.say(language)) } th.num { (words::FalseCalls.say(language)) }
                th.num { (words::Time.say(language)) } th { (words::Began.say(language)) } th { (words::Instructor.say(language)) } th { (words::Result.say(language)) } } }
            tbody { @for line in lines { tr {
                td { b { (line.student) } }
                td { (line.load) br; span.small { (line.procedure) } }
                td.num { (line.attempt) }
                td { (outcome(line, language)) }
                td.num { (words::FoundOf { found: line.found, of: line.of }.say(language)) }
                td.num { (line.false_calls) }
                td.num { (clock(line.seconds)) }
                td { (line.began.dtg) }
                td { (line.instructor) }
                td { a.digest href={ "/result/" (encoded(&line.result)) } { (line.result.chars().take(8).collect::<String>()) } }
            } } }
        } }
    }
}

fn items(lines: &[ItemView], language: Language) -> Markup {
    let maybe = |value: Option<f64>| value.map_or_else(|| "–".to_owned(), |value| format!("{value:.2}"));
    html! {
        details.small { summary { (words::HowItemsCounted.say(language)) }
            p { (words::ItemsExplained.say(language)) } }
        div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
            thead { tr { th { (words::Planted.say(language)) } th { (words::CardAndPoint.say(language)) } th.num { (words::Students.say(language)) } th.num { (words::FoundCount.say(language)) } th.num { (words::GoodLessWeak.say(language)) } th.num { (words::WithTheRest.say(language)) } th { (words::WhatToMakeOfIt.say(language)) } } }
            tbody { @for line in lines.iter().take(MOST) { tr {
                td { b { (line.deficiency) } br; span.small { (line.procedure) } }
                td { @if line.card > 0 { (words::CardNumbered { card: line.card }.say(language)) br; } span.small { (line.point) } }
                td.num { (line.of) }
                td.num { (format!("{:.2}", line.difficulty)) }
                td.num { (maybe(line.discrimination)) }
                td.num { (maybe(line.point_biserial)) }
                td { (line.words) }
            } } }
        } }
        @if lines.len() > MOST { p.more { (words::MoreItems { count: lines.len() - MOST }.say(language)) } }
    }
}

fn cards(view: &ClassView, language: Language) -> Markup {
    html! {
        div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
            thead { tr { th.num { (words::Card.say(language)) } th { (words::Station.say(language)) } th { (words::Title.say(language)) } th.num { (words::Runs.say(language)) } th.num { (words::Middle.say(language)) } th.num { (words::Longest.say(language)) } } }
            tbody { @for line in &view.cards { tr {
                td.num { (line.card) }
                td { (line.station) }
                td { (line.title) br; span.small { (line.procedure) } }
                td.num { (line.runs) }
                td.num { (clock(line.median_s)) }
                td.num { (clock(line.longest_s)) }
            } } }
        } }
    }
}

/// One result, told in the order of the load.
pub(in crate::serve) fn result(view: &ExamResultView, language: Language) -> Markup {
    let line = &view.line;
    html! {
        p.note { (view.what) }
        @if !view.warnings.is_empty() { ul.warnings { @for warning in &view.warnings { li { (warning) } } } }
        dl.facts {
            div { dt { (words::Outcome.say(language)) } dd { (outcome(line, language)) } }
            div { dt { (words::Student.say(language)) } dd { (line.student) } }
            div { dt { (words::Load.say(language)) } dd { (words::LoadAndAttempt { load: &line.load, attempt: line.attempt }.say(language)) } }
            div { dt { (words::Procedure.say(language)) } dd { (view.title.as_deref().unwrap_or(&line.procedure)) } }
            div { dt { (words::Standard.say(language)) } dd { (view.standard.words) } }
            div { dt { (words::Began.say(language)) } dd { (line.began.dtg) } }
            div { dt { (words::Instructor.say(language)) } dd { (line.instructor) @if !view.authority.is_empty() { ", " (view.authority) } } }
        }
        ul { @for reason in &view.reasons { li { (reason) } } }
        @if let Some(debrief) = &view.debrief { (told(debrief, language)) } @else {
            section { h2 { (words::WhatWasPlanted.say(language)) } ol { @for planted in &view.planted { li { (planted.prompt) ": " (planted.shown) } } } }
        }
        p.digest { (words::ResultDigest { digest: &line.result }.say(language)) }
        p { a href="/class" { (words::ToClass.say(language)) } }
    }
}

fn told(debrief: &DebriefView, language: Language) -> Markup {
    html! {
        section {
            h2 { (words::InOrderOfLoad.say(language)) }
            ol.moments {
                @for item in &debrief.items {
                    @let found = item.call.found();
                    li.good[found].found[!found] { span { (item.words) } }
                }
                @for call in &debrief.false_calls {
                    li.warning { span { @match call.after_s {
                        Some(after) => (words::FalseCallAt { card: call.card, title: &call.card_title, called: &call.called, at: clock(after) }.say(language)),
                        None => (words::FalseCall { card: call.card, title: &call.card_title, called: &call.called }.say(language)),
                    } } }
                }
            }
        }
        section {
            h2 { (words::TimeByCard.say(language)) }
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                thead { tr { th.num { (words::Card.say(language)) } th { (words::Station.say(language)) } th { (words::Title.say(language)) } th.num { (words::Time.say(language)) } } }
                tbody { @for card in &debrief.cards { tr {
                    td.num { (card.card) } td { (card.station) } td { (card.title) } td.num { (clock(card.seconds)) }
                } } }
            } }
        }
    }
}

fn outcome(line: &ExamResultLine, language: Language) -> Markup {
    html! { @match line.outcome {
        ExamOutcome::Passed => { (words::Passed.say(language)) }
        ExamOutcome::Failed => { strong.bad { (words::Failed.say(language)) } }
        ExamOutcome::Unclear => { strong { (words::OutcomeUnclear.say(language)) } }
    } }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_class_says_where_results_come_from() {
        let page = class(&ClassView::default(), &[], None, Language::English).into_string();
        assert!(page.contains("No result is here yet") && !page.contains("<table"), "{page}");
    }

    #[test]
    fn what_is_missed_stands_with_its_interval_and_names_are_text() {
        let line = MissedView {
            procedure: "bag".into(),
            deficiency: "pin <missing>".into(),
            missed: 6,
            of: 6,
            share: 1.0,
            low: 0.6097,
            high: 1.0,
        };
        let never = MissedView { deficiency: "found by all".into(), missed: 0, ..line.clone() };
        let page = missed(&[line, never], Language::English).into_string();
        assert!(page.contains("pin &lt;missing&gt;") && page.contains("100.0 % (61.0–100.0)"), "{page}");
        assert!(!page.contains("found by all"), "{page}");
    }
}
