use maud::{Markup, html};
use slingseal_app::{
    BoardColumn, CredentialState, DeficienciesView, GroupShare, IssuedListView, LoadView, PeopleView,
    PieceLine, PieceView, RecordLine, RecordState, RecordsView,
};

use super::chart::{axis, bar, encoded, numbers, scale};
use crate::output::counted;

/// Records as a table.
pub(super) fn lines<'l>(lines: impl Iterator<Item = &'l RecordLine>) -> Markup {
    html! {
        div.wide tabindex="0" role="group" aria-label="Table" { table {
            thead { tr {
                th { "Load" } th { "Says" } th { "Standing" } th { "Sealed" } th { "Inspector" } th { "Rigger" } th { "Place, aircraft" }
                th.num { "Found" } th.num { "Corrected" } th { "Record" }
            } }
            tbody { @for line in lines { tr {
                td { a href={ "/load/" (encoded(&line.load)) } { b { (line.load) } } }
                td { @if line.fit { "fit" } @else { strong.bad { "NOT FIT" } } }
                td { (standing(line)) }
                td { (line.issued.dtg) }
                td { (line.inspector) }
                td { (line.rigger) }
                td { (line.place) @if !line.aircraft.is_empty() { ", " (line.aircraft) } }
                td.num { (line.found) }
                td.num { (line.corrected) }
                td { a.digest href={ "/record/" (line.record) ".pdf" } { (line.record.chars().take(8).collect::<String>()) } }
            } } }
        } }
    }
}

/// How a record stands, as its banner says it.
fn standing(line: &RecordLine) -> String {
    match line.state {
        RecordState::Fit | RecordState::NotFit => "in force".into(),
        state => state.banner().to_lowercase(),
    }
}

fn period(days: Option<u32>) -> Markup {
    html! {
        form.pick method="get" {
            label { "Of the last "
                select name="days" data-go {
                    @for (value, name) in [(7, "7 days"), (30, "30 days"), (365, "365 days"), (0, "all")] {
                        option value=(value) selected[value == days.unwrap_or(0)] { (name) }
                    }
                }
            }
            button { "Show" }
        }
    }
}

/// What is found again and again.
pub(in crate::serve) fn deficiencies(view: &DeficienciesView, days: Option<u32>) -> Markup {
    const MOST: usize = 40;
    let shown = || view.points.iter().take(MOST);
    let end = scale(shown().map(|point| &point.share));
    html! {
        div.tools {
            p { b { (counted(view.inspections, "inspection")) }
                @if let Some(since) = &view.since { " since " (since.dtg) }
                ". The thin line tells how far chance alone may have moved a share: with few inspections it is long, and no verdict on anybody." }
            (period(days))
        }
        section {
            h2 { "By point" }
            @if view.points.is_empty() { p.none { "nothing was found" } } @else {
                div.wide tabindex="0" role="group" aria-label="Table" { table.shares {
                    thead { tr { th { "Point" } th { "What was wrong" } th { "Inspections" } th { (axis(end)) } th.num { "Corrected" } } }
                    tbody { @for point in shown() { tr {
                        td { b { (point.prompt) } br; span.small { (point.procedure_title)
                            @if !point.card.is_empty() { " · " (point.card) } } }
                        td { @for name in &point.names { div { (name) } } }
                        td { (numbers(&point.share)) }
                        td.chart { (bar(&point.share, end)) }
                        td.num { (point.corrected) }
                    } } }
                } }
                @if view.points.len() > MOST { p.more { "and " (view.points.len() - MOST) " more: export the table of deficiencies" } }
            }
        }
        (groups("By procedure", "Procedure", &view.procedures))
        (groups("By rigger", "Rigger", &view.riggers))
        details.small { summary { "How a share's line is counted" } p { "The interval in which 95 % of such counts lie (Wilson 1927)." } }
    }
}

fn groups(title: &str, what: &str, groups: &[GroupShare]) -> Markup {
    let end = scale(groups.iter().map(|group| &group.share));
    html! {
        section {
            h2 { (title) }
            div.wide tabindex="0" role="group" aria-label="Table" { table.shares {
                thead { tr { th { (what) } th { "Inspections with a finding" } th { (axis(end)) } th.num { "Found" } th.num { "Corrected" } } }
                tbody { @for group in groups { tr {
                    td { b { (group.title) } }
                    td { (numbers(&group.share)) }
                    td.chart { (bar(&group.share, end)) }
                    td.num { (group.found) }
                    td.num { (group.corrected) }
                } } }
            } }
        }
    }
}

/// People and their credentials; of an authority's home, what it issued as well.
pub(in crate::serve) fn people(view: &PeopleView, issued: Option<&IssuedListView>) -> Markup {
    html! {
        @if let Some(list) = issued { (issued_table(list)) }
        section {
            h2 { "Inspectors, planners, hookup, leaders" }
            div.wide tabindex="0" role="group" aria-label="Table" { table {
                thead { tr { th { "Name" } th { "Credential" } th { "Roles" } th { "Authority" } th.num { "Sealed" } th.num { "Fit" }
                    th.num { "Found" } th { "Last seal" } } }
                tbody { @for person in &view.people { tr {
                    td { a href={ "/search?inspector=" (encoded(&person.holder)) } { b { (person.holder) } } }
                    td.bad[!person.good] { (person.standing) }
                    td { @if let Some(newest) = person.credentials.first() { (newest.roles.join(", ")) } }
                    td { @if let Some(newest) = person.credentials.first() { (newest.authority) } }
                    td.num { (person.sealed) }
                    td.num { (person.fit) }
                    td.num { (person.found) }
                    td { @if let Some(last) = &person.last { (last.dtg) } }
                } } }
            } }
        }
        section {
            h2 { "Authorities" }
            div.wide tabindex="0" role="group" aria-label="Table" { table {
                thead { tr { th { "Authority" } th { "Fingerprint" } th.num { "Roster" } th { "Holds until" } th.num { "Revoked" } } }
                tbody { @for authority in &view.authorities { tr {
                    td { b { (authority.name) } }
                    td.digest { (authority.fingerprint) }
                    td.num { @if let Some(number) = authority.roster { (number) } @else { strong.bad { "none" } } }
                    td.bad[authority.roster_expired] { @if let Some(until) = &authority.roster_expires { (until.dtg) } }
                    td.num { (authority.revoked) }
                } } }
            } }
        }
    }
}

/// Who holds what that this home's authority issued, and how it stands.
fn issued_table(list: &IssuedListView) -> Markup {
    html! {
        section {
            h2 { "Issued by " (list.name) }
            @for warning in &list.warnings { p.bad { (warning) } }
            p { "Roster " (list.sequence) ", good until " (list.roster_expires.dtg) ". Fingerprint " span.digest { (list.fingerprint) } }
            @if list.issued.is_empty() { p.none { "nothing yet" } } @else {
                div.wide tabindex="0" role="group" aria-label="Table" { table {
                    thead { tr { th { "Name" } th { "Roles" } th { "Until" } th { "State" } th { "Credential" } th { "Key" } } }
                    tbody { @for one in &list.issued { tr {
                        td { b { (one.holder) } }
                        td { (one.roles.join(", ")) }
                        td { (one.expires.dtg) }
                        td.bad[one.state != CredentialState::Good] { (one.state.english()) }
                        td.digest { (one.id) }
                        td.digest { (one.key) @if let Some(since) = &one.key_revoked { " revoked " (since.dtg) } }
                    } } }
                } }
            }
        }
    }
}

/// Equipment by serial number.
pub(in crate::serve) fn equipment(pieces: &[PieceLine], from: &str, next: Option<&str>) -> Markup {
    html! {
        div.tools {
            p { "Everything with a serial number that an inspected load carried." }
            form.pick method="get" { label { "From serial " input name="from" value=(from) autocomplete="off"; } button { "Show" } }
        }
        @if pieces.is_empty() { p.none { "none" } } @else {
            div.wide tabindex="0" role="group" aria-label="Table" { table {
                thead { tr { th { "Serial" } th { "Equipment" } th.num { "Loads" } th { "Last" } } }
                tbody { @for piece in pieces { tr {
                    td { a href={ "/equipment/" (encoded(&piece.serial)) } { b { (piece.serial) } } }
                    td { (piece.kind) }
                    td.num { (piece.records) }
                    td { (piece.last.dtg) }
                } } }
            } }
        }
        @if let Some(next) = next { p.more { a href={ "/equipment?from=" (encoded(next)) } { "Next page" } } }
    }
}

/// Where one piece was used.
pub(in crate::serve) fn piece(view: &PieceView) -> Markup {
    html! {
        @if let Some(standing) = &view.standing {
            p.state.bad[standing.withdrawn] {
                @match (standing.withdrawn, &standing.until) {
                    (true, _) => { b { "Withdrawn " (standing.at.dtg) } ": " (standing.why.as_deref().unwrap_or("not told")) },
                    (false, Some(until)) => { b { "Fit until " (until.dtg) } ", inspected " (standing.at.dtg) },
                    (false, None) => { b { "Found fit " (standing.at.dtg) } },
                }
            }
        }
        @for piece in &view.newest {
            dl.facts.row {
                div { dt { "Equipment" } dd { (piece.kind) } }
                div { dt { "Rating" } dd { (piece.rating.as_deref().unwrap_or("none given"))
                    @if let Some(source) = &piece.source { ", " (source) } } }
                div { dt { "Inspect by" } dd.bad[piece.overdue] { (piece.next_inspection.as_deref().unwrap_or("not told")) } }
            }
        }
        p.small { "As the newest tag tells it." }
        section { h2 { "Where it was used" } (lines(view.uses.iter())) }
        @if let Some(next) = &view.next {
            p.more { a href={ "/equipment/" (encoded(&view.serial)) "?after=" (next) } { "Next page" } }
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
) -> Markup {
    html! {
        @if let Some(load) = exact {
            p class={ "stamp " (load.state) } {
                (super::board::shape(&load.state))
                a href={ "/load/" (encoded(&load.load)) } { strong { (load.load) } } span { (load.state_title) }
            }
        }
        @for column in in_state { (super::board::shelf(column)) }
        @if page.lines.is_empty() && in_state.is_empty() {
            p.none { "No record with " b { (asked) } ". The beginnings of words will do: a load, a serial number, a name, a place, what was found." }
        } @else if !page.lines.is_empty() {
            (lines(page.lines.iter()))
        }
        @if let Some(next) = next { p.more { a href=(next) { "Next page" } } }
    }
}
