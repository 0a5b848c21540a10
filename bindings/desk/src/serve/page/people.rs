use maud::{Markup, html};
use slingseal_app::catalogue::{Saying, page as words};
use slingseal_app::{
    CredentialState, IssuedListView, IssuedView, Language, PeopleView, PersonView, arrange, as_sorted,
    roles_said,
};

use super::chart::encoded;
use super::order::Order;

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
        Some(("name", down)) => arrange(&mut people, down, |one| as_sorted(&one.holder)),
        Some(("credential", down)) => arrange(&mut people, down, |one| as_sorted(&one.standing_title)),
        Some(("authority", down)) => {
            arrange(&mut people, down, |one| as_sorted(&one.credentials.first()?.authority));
        }
        Some(("sealed", down)) => arrange(&mut people, down, |one| Some(one.sealed)),
        Some(("fit", down)) => arrange(&mut people, down, |one| Some(one.fit)),
        Some(("found", down)) => arrange(&mut people, down, |one| Some(one.found)),
        Some(("last", down)) => arrange(&mut people, down, |one| one.last.as_ref().map(|last| last.unix)),
        _ => {}
    }
    let head = |column: &str, label: Saying, number: bool| {
        order.head("people", column, &label.say(language), number, language)
    };
    html! {
        @if let Some(list) = issued { (issued_table(list, acts, order, language)) }
        section {
            h2 { (words::PeopleOfRoles.say(language)) }
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                thead { tr { (head("name", words::Name.into(), false)) (head("credential", words::Credential.into(), false)) th { (words::Roles.say(language)) } (head("authority", words::Authority.into(), false)) (head("sealed", words::Sealed.into(), true)) (head("fit", words::FitCount.into(), true))
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
fn issued_table(list: &IssuedListView, acts: bool, order: &Order<'_>, language: Language) -> Markup {
    let mut held: Vec<&IssuedView> = list.issued.iter().collect();
    match order.of("issued") {
        Some(("name", down)) => arrange(&mut held, down, |one| as_sorted(&one.holder)),
        Some(("until", down)) => arrange(&mut held, down, |one| Some(one.expires.unix)),
        Some(("state", down)) => arrange(&mut held, down, |one| as_sorted(&one.state.say(language))),
        _ => {}
    }
    let head =
        |column: &str, label: Saying| order.head("issued", column, &label.say(language), false, language);
    html! {
        section {
            h2 { (words::IssuedBy { name: &list.name }.say(language)) }
            @for warning in &list.warnings { p.bad { (warning) } }
            @if acts { p.links { a.act href="/act/issue" { (words::ActIssueTitle.say(language)) } } }
            p { (words::RosterGoodUntil { number: &list.sequence.to_string(), until: &list.roster_expires.dtg }.say(language)) " " (words::Fingerprint.say(language)) " " span.digest { (list.fingerprint) } }
            @if list.issued.is_empty() { p.none { (words::NothingYet.say(language)) } } @else {
                div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                    thead { tr { (head("name", words::Name.into())) th { (words::Roles.say(language)) } (head("until", words::Until.into())) (head("state", words::State.into())) th { (words::Credential.say(language)) } th { (words::Key.say(language)) } } }
                    tbody { @for one in &held { tr {
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
