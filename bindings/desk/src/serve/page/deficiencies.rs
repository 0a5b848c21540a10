use maud::{Markup, html};
use slingseal_app::catalogue::{Saying, page as words, second_look as second};
use slingseal_app::{DeficienciesView, GroupShare, Language, PointShare, SecondLookView, arrange, as_sorted};

use super::chart::{axis, bar, numbers, scale};
use super::order::Order;
use super::stretch::{Stretch, period};

/// What is found again and again.
pub(in crate::serve) fn deficiencies(
    view: &DeficienciesView,
    looks: &SecondLookView,
    stretch: &Stretch<'_>,
    order: &Order<'_>,
    language: Language,
) -> Markup {
    const MOST: usize = 40;
    let mut points: Vec<&PointShare> = view.points.iter().collect();
    match order.of("points") {
        Some(("point", down)) => arrange(&mut points, down, |one| as_sorted(&one.prompt)),
        Some(("share", down)) => arrange(&mut points, down, |one| one.share.percent.map(f64::to_bits)),
        Some(("corrected", down)) => arrange(&mut points, down, |one| Some(one.corrected)),
        _ => {}
    }
    let shown = || points.iter().take(MOST);
    let end = scale(shown().map(|point| &point.share));
    let head = |column: &str, label: Saying, number: bool| {
        order.head("points", column, &label.say(language), number, language)
    };
    html! {
        div.tools {
            p {
                b { @match &view.since {
                    Some(since) => (words::InspectionsSince { count: view.inspections, since: &since.dtg }.say(language)),
                    None => (words::Inspections { count: view.inspections }.say(language)),
                } }
                " " (words::ThinLine.say(language))
            }
            (period(stretch, language))
            p.links { a href={ "/weeks" (stretch.query()) } { (words::WeeksTitle.say(language)) } }
        }
        section {
            h2 { (words::ByPoint.say(language)) }
            @if view.points.is_empty() { p.none { (words::NothingFound.say(language)) } } @else {
                div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table.shares {
                    thead { tr { (head("point", words::Point.into(), false)) th { (words::WhatWasWrong.say(language)) } (head("share", words::InspectionsHead.into(), false)) th { (axis(end)) } (head("corrected", words::Corrected.into(), true)) } }
                    tbody { @for point in shown() { tr {
                        td { b { (point.prompt) } br; span.small { (point.procedure_title)
                            @if !point.card.is_empty() { " · " (point.card) } } }
                        td { @for name in &point.names { div { (name) } } }
                        td { (numbers(&point.share, language)) }
                        td.chart { (bar(&point.share, end, language)) }
                        td.num { (point.corrected) }
                    } } }
                } }
                @if view.points.len() > MOST { p.more { (words::MoreInTable { count: view.points.len() - MOST }.say(language)) } }
            }
        }
        (groups("procedures", [words::ByProcedure.into(), words::Procedure.into()], &view.procedures, order, language))
        (groups("riggers", [words::ByRigger.into(), words::Rigger.into()], &view.riggers, order, language))
        (second_looks(looks, language))
        details.small { summary { (words::HowShareCounted.say(language)) } p { (words::IntervalWilson.say(language)) } }
    }
}

/// What nobody found, where somebody looked twice.
fn second_looks(looks: &SecondLookView, language: Language) -> Markup {
    html! {
        section {
            h2 { (second::SecondLookTitle.say(language)) }
            p { (second::SecondLookPairs { pairs: looks.pairs }.say(language)) " " (looks.all.said) }
            @if looks.points.len() > 1 { ul { @for point in looks.points.iter().take(10) {
                li { (point.procedure) " " (point.point) ": " (point.in_all.said) }
            } } }
            details.small { summary { (second::SecondLookAssumes.say(language)) } ul {
                @for one in &looks.assumes { li { (one) } }
                li { (second::SecondLookSource.say(language)) }
            } }
        }
    }
}

fn groups(
    table: &str,
    [title, what]: [Saying; 2],
    groups: &[GroupShare],
    order: &Order<'_>,
    language: Language,
) -> Markup {
    let end = scale(groups.iter().map(|group| &group.share));
    let mut groups: Vec<&GroupShare> = groups.iter().collect();
    match order.of(table) {
        Some(("name", down)) => arrange(&mut groups, down, |one| as_sorted(&one.title)),
        Some(("share", down)) => arrange(&mut groups, down, |one| one.share.percent.map(f64::to_bits)),
        Some(("found", down)) => arrange(&mut groups, down, |one| Some(one.found)),
        Some(("corrected", down)) => arrange(&mut groups, down, |one| Some(one.corrected)),
        _ => {}
    }
    let head = |column: &str, label: Saying, number: bool| {
        order.head(table, column, &label.say(language), number, language)
    };
    html! {
        section {
            h2 { (title.say(language)) }
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table.shares {
                thead { tr { (head("name", what, false)) (head("share", words::WithAFinding.into(), false)) th { (axis(end)) } (head("found", words::FoundCount.into(), true)) (head("corrected", words::Corrected.into(), true)) } }
                tbody { @for group in &groups { tr {
                    td { b { (group.title) } }
                    td { (numbers(&group.share, language)) }
                    td.chart { (bar(&group.share, end, language)) }
                    td.num { (group.found) }
                    td.num { (group.corrected) }
                } } }
            } }
        }
    }
}
