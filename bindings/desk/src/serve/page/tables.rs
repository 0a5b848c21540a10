use maud::{Markup, html};
use slingseal_app::catalogue::{Saying, closing, page as words, second_look as second};
use slingseal_app::{
    BoardColumn, CredentialState, DeficienciesView, GroupShare, IssuedListView, Language, LoadView,
    PeopleView, PersonView, PointShare, RecordLine, RecordState, RecordsView, SecondLookView, WeekShare,
    roles_said,
};

use crate::output::clock;

use super::chart::{axis, bar, encoded, numbers, scale};
use super::order::{Order, sort};

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

fn period(stretch: &Stretch<'_>, language: Language) -> Markup {
    let days = stretch.days;
    html! {
        form.pick method="get" {
            label { (words::OfTheLast.say(language)) " "
                select name="days" data-go {
                    @for (value, name) in [(7, words::Days { count: 7 }.saying()), (30, words::Days { count: 30 }.into()), (365, words::Days { count: 365 }.into()), (0, words::All.into())] {
                        option value=(value) selected[value == days.unwrap_or(0)] { (name.say(language)) }
                    }
                }
            }
            (between(stretch.from, stretch.until, language))
            button { (words::Show.say(language)) }
        }
    }
}

/// From a day to a day.
pub(super) fn between(from: &str, until: &str, language: Language) -> Markup {
    html! {
        label { (words::FromDay.say(language)) " " input type="date" name="from" value=(from); }
        label { (words::UntilDay.say(language)) " " input type="date" name="until" value=(until); }
    }
}

/// Which stretch of time a page shows: so many days back, or from a day to a day.
pub(in crate::serve) struct Stretch<'s> {
    pub(in crate::serve) days: Option<u32>,
    pub(in crate::serve) from: &'s str,
    pub(in crate::serve) until: &'s str,
}

impl Stretch<'_> {
    /// For another page of the same days.
    fn query(&self) -> String {
        if self.from.is_empty() && self.until.is_empty() {
            return String::new();
        }
        format!("?from={}&until={}", encoded(self.from), encoded(self.until))
    }
}

/// In how many inspections something was found, week by week.
pub(in crate::serve) fn weeks(
    view: &[WeekShare],
    stretch: &Stretch<'_>,
    procedures: &[(String, String)],
    chosen: &str,
    language: Language,
) -> Markup {
    let end = scale(view.iter().map(|week| &week.share));
    // Where no first day was named nothing is shown of the time before there was anything.
    let before =
        if stretch.from.is_empty() { view.iter().take_while(|week| week.share.of == 0).count() } else { 0 };
    html! {
        div.tools {
            p { (words::WeeksTold.say(language)) }
            form.pick method="get" {
                (between(stretch.from, stretch.until, language))
                label { (words::Procedure.say(language)) " "
                    select name="procedure" data-go {
                        option value="" { (words::Any.say(language)) }
                        @for (id, title) in procedures { option value=(id) selected[id == chosen] { (title) } }
                    }
                }
                button { (words::Show.say(language)) }
            }
        }
        @if before == view.len() { p.none { (words::NothingFound.say(language)) } } @else {
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table.shares {
                thead { tr { th { (words::Week.say(language)) } th { (words::WithAFinding.say(language)) } th { (axis(end)) } } }
                tbody { @for week in view.iter().skip(before) { tr {
                    td { (week.first) " – " (week.last) }
                    td { (numbers(&week.share, language)) }
                    td.chart { (bar(&week.share, end, language)) }
                } } }
            } }
        }
        p { a href={ "/deficiencies" (stretch.query()) } { (words::Deficiencies.say(language)) } }
    }
}

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
        Some(("point", down)) => sort(&mut points, down, |one| one.prompt.to_lowercase()),
        Some(("share", down)) => sort(&mut points, down, |one| one.share.percent.map(f64::to_bits)),
        Some(("corrected", down)) => sort(&mut points, down, |one| one.corrected),
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
        Some(("name", down)) => sort(&mut groups, down, |one| one.title.to_lowercase()),
        Some(("share", down)) => sort(&mut groups, down, |one| one.share.percent.map(f64::to_bits)),
        Some(("found", down)) => sort(&mut groups, down, |one| one.found),
        Some(("corrected", down)) => sort(&mut groups, down, |one| one.corrected),
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

/// People and their credentials; of an authority's home, what it issued as well.
pub(in crate::serve) fn people(
    view: &PeopleView,
    issued: Option<&IssuedListView>,
    acts: bool,
    order: &Order<'_>,
    language: Language,
) -> Markup {
    // Whom this home is itself it cannot trust no longer.
    let own = |fingerprint: &str| issued.is_some_and(|list| list.fingerprint == fingerprint);
    let mut people: Vec<&PersonView> = view.people.iter().collect();
    match order.of("people") {
        Some(("name", down)) => sort(&mut people, down, |one| one.holder.to_lowercase()),
        Some(("sealed", down)) => sort(&mut people, down, |one| one.sealed),
        Some(("fit", down)) => sort(&mut people, down, |one| one.fit),
        Some(("found", down)) => sort(&mut people, down, |one| one.found),
        Some(("last", down)) => sort(&mut people, down, |one| one.last.as_ref().map(|last| last.unix)),
        _ => {}
    }
    let head = |column: &str, label: Saying, number: bool| {
        order.head("people", column, &label.say(language), number, language)
    };
    html! {
        @if let Some(list) = issued { (issued_table(list, acts, language)) }
        section {
            h2 { (words::PeopleOfRoles.say(language)) }
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                thead { tr { (head("name", words::Name.into(), false)) th { (words::Credential.say(language)) } th { (words::Roles.say(language)) } th { (words::Authority.say(language)) } (head("sealed", words::Sealed.into(), true)) (head("fit", words::FitCount.into(), true))
                    (head("found", words::FoundCount.into(), true)) (head("last", words::LastSeal.into(), false)) } }
                tbody { @for person in &people { tr {
                    td { a href={ "/search?inspector=" (encoded(&person.holder)) } { b { (person.holder) } } }
                    td.bad[!person.standing.is_good()] { (person.standing_title) }
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
                    td { b { (authority.name) }
                        @if acts && !own(&authority.fingerprint) { " " a href={ "/act/distrust?which=" (encoded(&authority.fingerprint)) } aria-label={ (words::ActDistrust.say(language)) ": " (authority.name) } { (words::ActDistrust.say(language)) } } }
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
fn issued_table(list: &IssuedListView, acts: bool, language: Language) -> Markup {
    html! {
        section {
            h2 { (words::IssuedBy { name: &list.name }.say(language)) }
            @for warning in &list.warnings { p.bad { (warning) } }
            @if acts { p.links { a.act href="/act/issue" { (words::ActIssueTitle.say(language)) } } }
            p { (words::RosterGoodUntil { number: &list.sequence.to_string(), until: &list.roster_expires.dtg }.say(language)) " " (words::Fingerprint.say(language)) " " span.digest { (list.fingerprint) } }
            @if list.issued.is_empty() { p.none { (words::NothingYet.say(language)) } } @else {
                div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                    thead { tr { th { (words::Name.say(language)) } th { (words::Roles.say(language)) } th { (words::Until.say(language)) } th { (words::State.say(language)) } th { (words::Credential.say(language)) } th { (words::Key.say(language)) } } }
                    tbody { @for one in &list.issued { tr {
                        td { b { (one.holder) } }
                        td { (roles_said(&one.roles).say(language)) }
                        td { (one.expires.dtg) }
                        td.bad[one.state != CredentialState::Good] { (one.state.say(language))
                            @if acts && one.key_revoked.is_none() { " " a href={ "/act/revoke?which=" (one.id) } aria-label={ (words::ActRevoke.say(language)) ": " (one.holder) ", " (one.id) } { (words::ActRevoke.say(language)) } } }
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
    chosen: &[(&str, &str)],
    next: Option<&str>,
    language: Language,
) -> Markup {
    let get = |name: &str| chosen.iter().find(|(known, _)| *known == name).map_or("", |(_, value)| *value);
    html! {
        form.pick method="get" action="/search" {
            @for (name, value) in chosen.iter().filter(|(name, value)| !value.is_empty() && !["from", "until"].contains(name)) {
                input type="hidden" name=(name) value=(value);
            }
            (between(get("from"), get("until"), language))
            button { (words::Show.say(language)) }
        }
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
