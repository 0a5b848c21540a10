use maud::{Markup, html};
use slingseal_app::catalogue::page as words;
use slingseal_app::{Language, WeekShare};

use super::chart::{axis, bar, numbers, scale};
use super::stretch::{Stretch, between};

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
