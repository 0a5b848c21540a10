use maud::{Markup, html};
use slingseal_app::catalogue::{closing, page as words, second_look as second};
use slingseal_app::{
    BoardColumn, CredentialState, DeficienciesView, GroupShare, IssuedListView, Language, LoadView,
    PeopleView, RecordLine, RecordState, RecordsView, SecondLookView, roles_said,
};

use crate::output::clock;

use super::chart::{axis, bar, encoded, numbers, scale};

/// Records as a table.
pub(super) fn lines<'l>(lines: impl Iterator<Item = &'l RecordLine>, language: Language) -> Markup {
    html! {
        div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
            thead { tr {
                th { (words::Load.say(language)) } th { (words::Says.say(language)) } th { (words::Standing.say(language)) } th { (words::Sealed.say(language)) } th { (words::Inspector.say(language)) } th { (closing::LabelWalkedIn.say(language)) } th { (words::Rigger.say(language)) } th { (words::PlaceAndAircraft.say(language)) }
                th.num { (words::FoundCount.say(language)) } th.num { (words::Corrected.say(language)) } th { (words::Record.say(language)) }
            } }
            tbody { @for line in lines { tr {
                td { a href={ "/load/" (encoded(&line.load)) } { b { (line.load) } } }
                td { @if line.fit { (words::Fit.say(language)) } @else { strong.bad { (words::NotFit.say(language)) } } }
                td { (standing(line, language)) }
                td { (line.issued.dtg) }
                td { (line.inspector) }
                td { (walked(line, language)) }
                td { (line.rigger) }
                td { (line.place) @if !line.aircraft.is_empty() { ", " (line.aircraft) } }
                td.num { (line.found) }
                td.num { (line.corrected) }
                td { a.digest href={ "/record/" (line.record) ".pdf" } { (line.record.chars().take(8).collect::<String>()) } }
            } } }
        } }
    }
}

/// How long the walk took and over how many cards; marked where that is less than the least time that was set here.
pub(super) fn walked(line: &RecordLine, language: Language) -> Markup {
    let took = line.walk_seconds.zip(line.walk_cards);
    let told = took.map(|(seconds, cards)| closing::WalkTook { took: clock(seconds), cards }.say(language));
    html! {
        @if let Some(told) = told {
            (told) @if line.walked_too_fast { br; strong.bad { (closing::WalkTooFast.say(language)) } }
        }
    }
}

/// How a record stands, as its banner says it.
fn standing(line: &RecordLine, language: Language) -> String {
    match line.state {
        RecordState::Fit | RecordState::NotFit => words::InForce.say(language),
        state => state.banner().say(language).to_lowercase(),
    }
}

fn period(days: Option<u32>, language: Language) -> Markup {
    html! {
        form.pick method="get" {
            label { (words::OfTheLast.say(language)) " "
                select name="days" data-go {
                    @for (value, name) in [(7, words::Days { count: 7 }.saying()), (30, words::Days { count: 30 }.into()), (365, words::Days { count: 365 }.into()), (0, words::All.into())] {
                        option value=(value) selected[value == days.unwrap_or(0)] { (name.say(language)) }
                    }
                }
            }
            button { (words::Show.say(language)) }
        }
    }
}

/// What is found again and again.
pub(in crate::serve) fn deficiencies(
    view: &DeficienciesView,
    looks: &SecondLookView,
    days: Option<u32>,
    language: Language,
) -> Markup {
    const MOST: usize = 40;
    let shown = || view.points.iter().take(MOST);
    let end = scale(shown().map(|point| &point.share));
    html! {
        div.tools {
            p {
                b { @match &view.since {
                    Some(since) => (words::InspectionsSince { count: view.inspections, since: &since.dtg }.say(language)),
                    None => (words::Inspections { count: view.inspections }.say(language)),
                } }
                " " (words::ThinLine.say(language))
            }
            (period(days, language))
        }
        section {
            h2 { (words::ByPoint.say(language)) }
            @if view.points.is_empty() { p.none { (words::NothingFound.say(language)) } } @else {
                div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table.shares {
                    thead { tr { th { (words::Point.say(language)) } th { (words::WhatWasWrong.say(language)) } th { (words::InspectionsHead.say(language)) } th { (axis(end)) } th.num { (words::Corrected.say(language)) } } }
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
        (groups(&words::ByProcedure.say(language), &words::Procedure.say(language), &view.procedures, language))
        (groups(&words::ByRigger.say(language), &words::Rigger.say(language), &view.riggers, language))
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

fn groups(title: &str, what: &str, groups: &[GroupShare], language: Language) -> Markup {
    let end = scale(groups.iter().map(|group| &group.share));
    html! {
        section {
            h2 { (title) }
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table.shares {
                thead { tr { th { (what) } th { (words::WithAFinding.say(language)) } th { (axis(end)) } th.num { (words::FoundCount.say(language)) } th.num { (words::Corrected.say(language)) } } }
                tbody { @for group in groups { tr {
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

/// People and their credentials; of an authority's home, what it issued as well.
pub(in crate::serve) fn people(
    view: &PeopleView,
    issued: Option<&IssuedListView>,
    language: Language,
) -> Markup {
    html! {
        @if let Some(list) = issued { (issued_table(list, language)) }
        section {
            h2 { (words::PeopleOfRoles.say(language)) }
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                thead { tr { th { (words::Name.say(language)) } th { (words::Credential.say(language)) } th { (words::Roles.say(language)) } th { (words::Authority.say(language)) } th.num { (words::Sealed.say(language)) } th.num { (words::FitCount.say(language)) }
                    th.num { (words::FoundCount.say(language)) } th { (words::LastSeal.say(language)) } } }
                tbody { @for person in &view.people { tr {
                    td { a href={ "/search?inspector=" (encoded(&person.holder)) } { b { (person.holder) } } }
                    td.bad[!person.good] { (person.standing) }
                    td { @if let Some(newest) = person.credentials.first() { (roles_said(&newest.roles).say(language)) } }
                    td { @if let Some(newest) = person.credentials.first() { (newest.authority) } }
                    td.num { (person.sealed) }
                    td.num { (person.fit) }
                    td.num { (person.found) }
                    td { @if let Some(last) = &person.last { (last.dtg) } }
                } } }
            } }
        }
        section {
            h2 { (words::Authorities.say(language)) }
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                thead { tr { th { (words::Authority.say(language)) } th { (words::Fingerprint.say(language)) } th.num { (words::Roster.say(language)) } th { (words::HoldsUntil.say(language)) } th.num { (words::Revoked.say(language)) } } }
                tbody { @for authority in &view.authorities { tr {
                    td { b { (authority.name) } }
                    td.digest { (authority.fingerprint) }
                    td.num { @if let Some(number) = authority.roster { (number) } @else { strong.bad { (words::NoneOfThem.say(language)) } } }
                    td.bad[authority.roster_expired] { @if let Some(until) = &authority.roster_expires { (until.dtg) } }
                    td.num { (authority.revoked) }
                } } }
            } }
        }
    }
}

/// Who holds what that this home's authority issued, and how it stands.
fn issued_table(list: &IssuedListView, language: Language) -> Markup {
    html! {
        section {
            h2 { (words::IssuedBy { name: &list.name }.say(language)) }
            @for warning in &list.warnings { p.bad { (warning) } }
            p { (words::RosterGoodUntil { number: &list.sequence.to_string(), until: &list.roster_expires.dtg }.say(language)) " " (words::Fingerprint.say(language)) " " span.digest { (list.fingerprint) } }
            @if list.issued.is_empty() { p.none { (words::NothingYet.say(language)) } } @else {
                div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                    thead { tr { th { (words::Name.say(language)) } th { (words::Roles.say(language)) } th { (words::Until.say(language)) } th { (words::State.say(language)) } th { (words::Credential.say(language)) } th { (words::Key.say(language)) } } }
                    tbody { @for one in &list.issued { tr {
                        td { b { (one.holder) } }
                        td { (roles_said(&one.roles).say(language)) }
                        td { (one.expires.dtg) }
                        td.bad[one.state != CredentialState::Good] { (one.state.say(language)) }
                        td.digest { (one.id) }
                        td.digest { (one.key) @if let Some(since) = &one.key_revoked { " " (words::RevokedSince { since: &since.dtg }.say(language)) } }
                    } } }
                } }
            }
        }
    }
}

/// What was searched for, and what was found.
pub(in crate::serve) fn search(
    asked: &str,
    exact: Option<&LoadView>,
    in_state: &[BoardColumn],
    page: &RecordsView,
    next: Option<&str>,
    language: Language,
) -> Markup {
    html! {
        @if let Some(load) = exact {
            p class={ "stamp " (load.state.word()) } {
                (super::board::shape(load.state))
                a href={ "/load/" (encoded(&load.load)) } { strong { (load.load) } } span { (load.state_title) }
            }
        }
        @for column in in_state { (super::board::shelf(column, language)) }
        @if page.lines.is_empty() && in_state.is_empty() {
            p.none { (words::NoRecordWith { asked }.say(language)) }
        } @else if !page.lines.is_empty() {
            (lines(page.lines.iter(), language))
        }
        @if let Some(next) = next { p.more { a href=(next) { (words::NextPage.say(language)) } } }
    }
}
