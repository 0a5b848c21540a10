use maud::{Markup, html};
use slingseal_app::{
    ClassView, DebriefView, ExamResultLine, ExamResultView, ItemView, MissedView, ShareView, StudentView,
};

use super::chart::{axis, bar, encoded, numbers, scale};
use crate::output::clock;

/// Rows of what is missed and of items; the tables for a spreadsheet hold all.
const MOST: usize = 40;

/// The class: what to teach next, and to whom.
pub(in crate::serve) fn class(view: &ClassView, procedures: &[String], procedure: Option<&str>) -> Markup {
    html! {
        div.tools {
            p { "Training, and no inspections. What is missed, the items and the cards count first attempts whose sheet is here: "
                b { (view.counted) } ". The thin line tells how far chance alone may have moved a share." }
            form.pick method="get" {
                label { "Procedure "
                    select name="procedure" data-go {
                        option value="" { "all" }
                        @for known in procedures { option value=(known) selected[Some(known.as_str()) == procedure] { (known) } }
                    }
                }
                button { "Show" }
            }
        }
        @if !view.warnings.is_empty() { ul.warnings { @for warning in &view.warnings { li { (warning) } } } }
        @if view.attempts.is_empty() {
            p.none { "No result is here yet. An instructor signs one on the device that locked the key; receive that device's bundle." }
        } @else {
            section { h2 { "Missed most: teach this next" } (missed(&view.missed)) }
            section { h2 { "Students" } (students(&view.students)) }
            section { h2 { "Attempts" } (attempts(&view.attempts)) }
            section { h2 { "Items" } (items(&view.items)) }
            section { h2 { "Time by card" } (cards(view)) }
            details.small { summary { "How a share's line is counted" } p { "The interval in which 95 % of such counts lie (Wilson 1927)." } }
            section { h2 { "For a spreadsheet" } p.papers {
                @for (name, title) in [("results", "Results"), ("students", "Students"), ("missed", "Missed"), ("items", "Items"), ("cards", "Cards")] {
                    a href={ "/export/class-" (name) ".csv" } { (title) }
                }
            } }
        }
    }
}

fn missed(lines: &[MissedView]) -> Markup {
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
        @if shares.is_empty() { p.none { "Nothing was missed." } } @else {
            div.wide tabindex="0" role="group" aria-label="Table" { table.shares {
                thead { tr { th { "Deficiency" } th { "Missed" } th { (axis(end)) } } }
                tbody { @for (line, share) in &shares { tr {
                    td { b { (line.deficiency) } br; span.small { (line.procedure) } }
                    td { (numbers(share)) }
                    td.chart { (bar(share, end)) }
                } } }
            } }
        }
    }
}

fn students(lines: &[StudentView]) -> Markup {
    html! {
        div.wide tabindex="0" role="group" aria-label="Table" { table {
            thead { tr { th { "Student" } th.num { "Loads passed" } th.num { "Runs" } th.num { "Passed at once" } th.num { "Retests" }
                th.num { "Unclear" } th.num { "Found" } th.num { "False calls" } } }
            tbody { @for line in lines { tr {
                td { b { (line.student) } }
                td.num { (line.loads_passed) " of " (line.loads) }
                td.num { (line.runs) }
                td.num { (line.first_passed) }
                td.num { (line.retests) }
                td.num { (line.unclear) }
                td.num { (line.found) " of " (line.planted) }
                td.num { (line.false_calls) }
            } } }
        } }
    }
}

fn attempts(lines: &[ExamResultLine]) -> Markup {
    html! {
        div.wide tabindex="0" role="group" aria-label="Table" { table {
            thead { tr { th { "Student" } th { "Load" } th.num { "Attempt" } th { "Outcome" } th.num { "Found" } th.num { "False calls" }
                th.num { "Time" } th { "Began" } th { "Instructor" } th { "Result" } } }
            tbody { @for line in lines { tr {
                td { b { (line.student) } }
                td { (line.load) br; span.small { (line.procedure) } }
                td.num { (line.attempt) }
                td { (outcome(line)) }
                td.num { (line.found) " of " (line.of) }
                td.num { (line.false_calls) }
                td.num { (clock(line.seconds)) }
                td { (line.began.dtg) }
                td { (line.instructor) }
                td { a.digest href={ "/result/" (encoded(&line.result)) } { (line.result.chars().take(8).collect::<String>()) } }
            } } }
        } }
    }
}

fn items(lines: &[ItemView]) -> Markup {
    let maybe = |value: Option<f64>| value.map_or_else(|| "–".to_owned(), |value| format!("{value:.2}"));
    html! {
        details.small { summary { "How these are counted" }
            p { "Found: share of students that found it. Good less weak: share among the best 27 % of students less that among the \
                weakest 27 % (Kelley 1939). With the rest: correlation with the rest of the score (Henrysson 1963). With few students none \
                of them says much." } }
        div.wide tabindex="0" role="group" aria-label="Table" { table {
            thead { tr { th { "Planted" } th { "Card, point" } th.num { "Students" } th.num { "Found" } th.num { "Good less weak" } th.num { "With the rest" } th { "What to make of it" } } }
            tbody { @for line in lines.iter().take(MOST) { tr {
                td { b { (line.deficiency) } br; span.small { (line.procedure) } }
                td { @if line.card > 0 { "card " (line.card) br; } span.small { (line.point) } }
                td.num { (line.of) }
                td.num { (format!("{:.2}", line.difficulty)) }
                td.num { (maybe(line.discrimination)) }
                td.num { (maybe(line.point_biserial)) }
                td { (line.words) }
            } } }
        } }
        @if lines.len() > MOST { p.more { "and " (lines.len() - MOST) " more: see the table of items" } }
    }
}

fn cards(view: &ClassView) -> Markup {
    html! {
        div.wide tabindex="0" role="group" aria-label="Table" { table {
            thead { tr { th.num { "Card" } th { "Station" } th { "Title" } th.num { "Runs" } th.num { "Middle" } th.num { "Longest" } } }
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
pub(in crate::serve) fn result(view: &ExamResultView) -> Markup {
    let line = &view.line;
    html! {
        p.note { (view.what) }
        @if !view.warnings.is_empty() { ul.warnings { @for warning in &view.warnings { li { (warning) } } } }
        dl.facts {
            div { dt { "Outcome" } dd { (outcome(line)) } }
            div { dt { "Student" } dd { (line.student) } }
            div { dt { "Load" } dd { (line.load) ", attempt " (line.attempt) } }
            div { dt { "Procedure" } dd { (view.title.as_deref().unwrap_or(&line.procedure)) } }
            div { dt { "Standard" } dd { (view.standard.words) } }
            div { dt { "Began" } dd { (line.began.dtg) } }
            div { dt { "Instructor" } dd { (line.instructor) @if !view.authority.is_empty() { ", " (view.authority) } } }
        }
        ul { @for reason in &view.reasons { li { (reason) } } }
        @if let Some(debrief) = &view.debrief { (told(debrief)) } @else {
            section { h2 { "What was planted" } ol { @for planted in &view.planted { li { (planted.prompt) ": " (planted.shown) } } } }
        }
        p.digest { "Result " (line.result) }
        p { a href="/class" { "To the class" } }
    }
}

fn told(debrief: &DebriefView) -> Markup {
    html! {
        section {
            h2 { "In the order of the load" }
            ol.moments {
                @for item in &debrief.items {
                    @let found = matches!(item.call.as_str(), "found" | "named_otherwise");
                    li.good[found].found[!found] { span { (item.words) } }
                }
                @for call in &debrief.false_calls {
                    li.warning { span { "Card " (call.card) ", " (call.card_title) ": called \"" (call.called) "\""
                        @if let Some(after) = call.after_s { " at " (clock(after)) } ", where nothing was wrong" } }
                }
            }
        }
        section {
            h2 { "Time by card" }
            div.wide tabindex="0" role="group" aria-label="Table" { table {
                thead { tr { th.num { "Card" } th { "Station" } th { "Title" } th.num { "Time" } } }
                tbody { @for card in &debrief.cards { tr {
                    td.num { (card.card) } td { (card.station) } td { (card.title) } td.num { (clock(card.seconds)) }
                } } }
            } }
        }
    }
}

fn outcome(line: &ExamResultLine) -> Markup {
    html! { @match line.outcome.as_str() {
        "passed" => { "passed" }
        "failed" => { strong.bad { "FAILED" } }
        other => { strong { (other) } }
    } }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_class_says_where_results_come_from() {
        let page = class(&ClassView::default(), &[], None).into_string();
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
        let page = missed(&[line, never]).into_string();
        assert!(page.contains("pin &lt;missing&gt;") && page.contains("100.0 % (61.0–100.0)"), "{page}");
        assert!(!page.contains("found by all"), "{page}");
    }
}
