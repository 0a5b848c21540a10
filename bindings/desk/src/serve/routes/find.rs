//! Searching, and which stretch of time is asked for.

use slingseal_app::catalogue::page as words;
use slingseal_app::{AppError, BoardRequest, FlowState, Language, ListRequest, RecordOrder};

use crate::serve::ask::Form;
use crate::serve::desk::Desk;
use crate::serve::frame::shown;
use crate::serve::live::{SHELF, WEEK};
use crate::serve::page::{self, Order, Stretch};
use crate::serve::reply::Reply;

/// Records on one page.
pub(in crate::serve) const PAGE: u32 = 50;

pub(in crate::serve) fn searched(desk: &Desk, query: &Form) -> Result<Reply, AppError> {
    let fields = ["q", "inspector", "rigger", "procedure", "serial", "from", "until"];
    let request = ListRequest {
        words: query.some("q"),
        inspector: query.some("inspector"),
        rigger: query.some("rigger"),
        procedure: query.some("procedure"),
        serial: query.some("serial"),
        days: None,
        from: query.some("from"),
        until: query.some("until"),
        order: Order(query).sorting("records", RecordOrder::of_word),
        after: query.some("after"),
        most: PAGE,
    };
    let page = desk.app.list(&request)?;
    // A load that is only planned has no record yet.
    let exact = request.words.as_deref().and_then(|words| desk.app.load(words).ok());
    let given = fields.iter().filter(|field| !query.get(field).is_empty());
    let given = given.chain(request.order.is_some().then_some(&"sort"));
    let given: Vec<String> =
        given.map(|field| format!("{field}={}", page::encoded(query.get(field)))).collect();
    let next = page.next.as_ref().map(|next| format!("/search?{}&after={next}", given.join("&")));
    let asked: Vec<&str> =
        fields.iter().map(|field| query.get(field)).filter(|value| !value.is_empty()).collect();
    let asked = asked.join(", ");
    // A state is no word of any record: it is asked of the board, which knows it.
    let in_state = match state_named(&asked, desk.app.spoken()) {
        None => Vec::new(),
        state @ Some(_) => {
            let request = BoardRequest { days: WEEK, state, most: SHELF, ..BoardRequest::default() };
            let columns = desk.app.board_of(&request)?.columns;
            columns.into_iter().filter(|column| Some(column.state) == state).collect()
        }
    };
    let title = if asked.is_empty() {
        words::EveryRecord.say(desk.app.spoken())
    } else {
        words::SearchFor { asked: &asked }.say(desk.app.spoken())
    };
    let found = page::Found {
        asked: &asked,
        exact: exact.as_ref(),
        in_state: &in_state,
        page: &page,
        chosen: &fields.map(|name| (name, query.get(name))),
        request: &request,
        next: next.as_deref(),
    };
    shown(desk, "", &title, &page::search(&found, &Order(query), desk.app.spoken()))
}

/// The state whose word or title that is.
fn state_named(asked: &str, language: Language) -> Option<FlowState> {
    let plain = |text: &str| text.replace(['_', '-'], " ").to_lowercase();
    FlowState::ALL.into_iter().find(|state| {
        !asked.is_empty()
            && [state.word(), &state.say(language)].into_iter().any(|name| plain(name) == plain(asked))
    })
}

/// Which stretch of time is asked for.
pub(in crate::serve) fn stretch(query: &Form) -> Stretch<'_> {
    Stretch { days: days(query), from: query.get("from"), until: query.get("until") }
}

/// The days that a page looks back; nought is all.
pub(in crate::serve) fn days(query: &Form) -> Option<u32> {
    Some(query.number("days", 0, 36_500)).filter(|days| *days > 0)
}
