//! The order of a table's rows: chosen by a link in its head, so that it has an address and needs no script.

use maud::{Markup, html};
use slingseal_app::catalogue::page as words;
use slingseal_app::{Language, Sorting};

use crate::serve::ask::Form;

/// What an address says of the order: `sort=TABLE.COLUMN` or `sort=TABLE.COLUMN.down`, beside what else it says.
pub(in crate::serve) struct Order<'q>(pub(in crate::serve) &'q Form);

impl<'q> Order<'q> {
    /// The column by which a table is ordered, and whether the largest comes first.
    pub(super) fn of(&self, table: &str) -> Option<(&'q str, bool)> {
        let rest = self.0.get("sort").strip_prefix(table)?.strip_prefix('.')?;
        Some(rest.strip_suffix(".down").map_or((rest, false), |column| (column, true)))
    }

    /// The column of a list, and its way, where the address names one that the facade orders by.
    pub(in crate::serve) fn sorting<C>(
        &self,
        table: &str,
        column: impl Fn(&str) -> Option<C>,
    ) -> Option<Sorting<C>> {
        let (name, down) = self.of(table)?;
        column(name).map(|by| Sorting { by, down })
    }

    /// What an address of another page says of the order.
    pub(super) fn said(&self) -> Option<&'q str> {
        Some(self.0.get("sort")).filter(|sort| !sort.is_empty())
    }

    /// The head of a column: a link that orders by it, and turns the order round where it does already. Numbers begin with the
    /// largest.
    pub(super) fn head(
        &self,
        table: &str,
        column: &str,
        label: &str,
        number: bool,
        language: Language,
    ) -> Markup {
        let now = self.of(table).filter(|(of, _)| *of == column).map(|(_, down)| down);
        let down = now.map_or(number, |down| !down);
        let mut query = form_urlencoded::Serializer::new(String::new());
        for name in self.0.names().filter(|name| !["sort", "page", "after"].contains(name)) {
            for value in self.0.all(name) {
                query.append_pair(name, value);
            }
        }
        query.append_pair("sort", &format!("{table}.{column}{}", if down { ".down" } else { "" }));
        let query = query.finish();
        let order = now.map(|down| {
            if down {
                ("descending", words::Down.say(language))
            } else {
                ("ascending", words::Up.say(language))
            }
        });
        html! {
            th.num[number] aria-sort=[order.as_ref().map(|(order, _)| *order)] {
                a href={ "?" (query) } title=(words::SortedBy { column: &label }.say(language)) { (label) }
                @if let Some((_, said)) = &order { span.unseen { ", " (said) } }
            }
        }
    }
}
