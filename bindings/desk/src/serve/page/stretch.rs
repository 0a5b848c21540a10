//! Stretches of time: from a day to a day, or so many days back.

use maud::{Markup, html};
use slingseal_app::Language;
use slingseal_app::catalogue::page as words;

use super::chart::encoded;

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
    pub(super) fn query(&self) -> String {
        if self.from.is_empty() && self.until.is_empty() {
            return String::new();
        }
        format!("?from={}&until={}", encoded(self.from), encoded(self.until))
    }
}

/// The form that chooses one.
pub(super) fn period(stretch: &Stretch<'_>, language: Language) -> Markup {
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
