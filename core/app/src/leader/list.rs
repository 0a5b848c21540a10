use serde::Serialize;
use slingseal_catalogue::refusals as words;

use crate::leader::sorting::{Sorting, columns};
use crate::leader::weeks::Period;
use crate::{App, AppError, RecordLine};
use slingseal_store::{Cursor, RecordColumn, RecordFilter};
use slingseal_words::{Seconds, Time};

columns! {
    /// By which column a list of records is ordered.
    RecordOrder {
        /// When it was sealed.
        Sealed = "sealed",
        /// The load number.
        Load = "load",
        /// Who decided.
        Inspector = "inspector",
        /// Who built the load.
        Rigger = "rigger",
        /// The pickup zone.
        Place = "place",
    }
}

/// Which records a list holds; every part that is given must fit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ListRequest {
    /// Beginnings of words that all occur: load, inspector, rigger, place, aircraft, equipment, deficiency, description.
    pub words: Option<String>,
    /// Who sealed it.
    pub inspector: Option<String>,
    /// Who rigged the load.
    pub rigger: Option<String>,
    /// The procedure's id.
    pub procedure: Option<String>,
    /// The serial number of a piece of equipment.
    pub serial: Option<String>,
    /// Sealed in the last days.
    pub days: Option<u32>,
    /// Sealed on this day or later, UTC: `2026-11-25`.
    pub from: Option<String>,
    /// Sealed on this day or earlier.
    pub until: Option<String>,
    /// By which column they are ordered, where [`ListRequest::may_order`] says so; none for the usual order.
    pub order: Option<Sorting<RecordOrder>>,
    /// Where the last page ended.
    pub after: Option<String>,
    /// How many at most.
    pub most: u32,
}

impl ListRequest {
    /// Whether the list can be ordered by a column while its pages cost what they show. Words are found by when they came, and by
    /// nothing else. The time of sealing stands in the index of every filter; the other columns have one of their own, which
    /// knows no filter: it would be read to its end for the few that fit.
    pub fn may_order(&self, by: RecordOrder) -> bool {
        let words = self.words.as_deref().is_some_and(|words| !words.trim().is_empty());
        let among = [&self.inspector, &self.rigger, &self.procedure, &self.serial, &self.from, &self.until];
        let all = among.iter().all(|part| part.is_none()) && self.days.is_none();
        !words && (by == RecordOrder::Sealed || all)
    }

    /// The order that it asks for, and may have.
    fn ordered(&self) -> (RecordColumn, bool) {
        let Some(Sorting { by, down }) = self.order.filter(|order| self.may_order(order.by)) else {
            return (RecordColumn::Sealed, true);
        };
        let column = match by {
            RecordOrder::Sealed => RecordColumn::Sealed,
            RecordOrder::Load => RecordColumn::Load,
            RecordOrder::Inspector => RecordColumn::Inspector,
            RecordOrder::Rigger => RecordColumn::Rigger,
            RecordOrder::Place => RecordColumn::Place,
        };
        (column, down)
    }
}

/// A page of records.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RecordsView {
    /// The records: the last sealed first, or as was asked; where words are asked for, the last received first.
    pub lines: Vec<RecordLine>,
    /// To be given as `after` for the next page; none where this is the last.
    pub next: Option<String>,
}

impl App {
    /// A page of records.
    ///
    /// # Errors
    /// A place that no page ended at; storage.
    pub fn list(&self, request: &ListRequest) -> Result<RecordsView, AppError> {
        let inner = self.lock();
        let after = request.after.as_deref().map(cursor).transpose()?;
        let period = Period::of(request.from.as_deref(), request.until.as_deref())?;
        let last = request.days.map(|days| inner.now().plus(Seconds(-Seconds::days(days.into()).0)));
        // The later of two beginnings: both must fit.
        let begins = last.max(period.from);
        let filter = RecordFilter {
            words: request.words.clone(),
            inspector: request.inspector.clone(),
            rigger: request.rigger.clone(),
            procedure: request.procedure.clone(),
            serial: request.serial.clone(),
            issued_from: begins,
            issued_before: period.before,
            ..RecordFilter::default()
        };
        let page = inner.store.read().records_by(&filter, request.ordered(), after, request.most)?;
        Ok(RecordsView {
            lines: inner.lines(&page.rows)?,
            next: page.next.map(|next| format!("{}.{}", next.issued.unix(), next.id)),
        })
    }
}

fn cursor(text: &str) -> Result<Cursor, AppError> {
    let none = || AppError::bad_input(words::PageDoesFollowAnotherBegin);
    let (issued, id) = text.split_once('.').ok_or_else(none)?;
    Ok(Cursor {
        issued: Time::from_unix(issued.parse().map_err(|_| none())?),
        id: id.parse().map_err(|_| none())?,
    })
}
