//! Planning: tags out of a form or a list, the picture of a rigging file, sheets.

use slingseal_app::catalogue::page as words;
use slingseal_app::{AppError, RiggingRequest, Role, TagMade, assess_rigging};
use slingseal_paper::{Paper, sheets_pdf};

use crate::output::bad_input;
use crate::serve::ask::Form;
use crate::serve::desk::Desk;
use crate::serve::frame::shown;
use crate::serve::page::{self, Entered, Fault};
use crate::serve::reply::{Reply, status_of};

/// The most tags that are shown and printed at once.
pub(in crate::serve) const MOST_TAGS: usize = 2_000;

/// The most tags that an address names one by one: the library takes no address of more than 65,534 bytes.
pub(in crate::serve) const NAMED: usize = 500;

/// The tags that an address names, or that the list has which it names.
pub(in crate::serve) fn named_tags(desk: &Desk, query: &Form) -> Result<Vec<TagMade>, AppError> {
    let list = match query.some("list") {
        Some(number) => desk.list(&number).ok_or_else(|| bad_input(words::ListOfOtherStart))?,
        None => query.all("tag").map(str::to_owned).collect(),
    };
    list.iter().take(MOST_TAGS).map(|tag| desk.app.tag(tag)).collect()
}

/// The same tags for another page.
pub(in crate::serve) fn address_of(query: &Form) -> String {
    match query.some("list") {
        Some(number) => format!("list={}", page::encoded(&number)),
        None => {
            let tags: Vec<String> =
                query.all("tag").map(|tag| format!("tag={}", page::encoded(tag))).collect();
            tags.join("&")
        }
    }
}

pub(in crate::serve) fn sheets(desk: &Desk, query: &Form) -> Result<Reply, AppError> {
    let tags = named_tags(desk, query)?;
    let name = match tags.as_slice() {
        [] => return Err(bad_input(words::NoTagNamed)),
        [one] => format!("load-{}.pdf", one.tag.load),
        _ => "load-sheets.pdf".into(),
    };
    let pages: Vec<_> = tags.iter().map(|made| (&made.tag, &made.code)).collect();
    Ok(Reply::pdf(&name, sheets_pdf(&pages, Paper::A4, desk.app.spoken())?))
}

/// A plan with the picture of its rigging file, or with what is wrong in it. Nothing is made.
pub(in crate::serve) fn looked_at(desk: &Desk, form: Form) -> Entered {
    let text = form.all("rigging").next().unwrap_or_default().to_owned();
    let language = desk.app.spoken();
    match assess_rigging(&RiggingRequest { text, language, ..RiggingRequest::default() }) {
        Ok(sheet) => {
            Entered { form, faults: Vec::new(), picture: Some((sheet.svg(), sheet.view(language).report)) }
        }
        Err(error) => {
            let fault = |line: &str| Fault { field: Some("rigging".into()), words: line.to_owned() };
            let faults = error.say(language).lines().map(fault).collect();
            Entered { form, faults, picture: None }
        }
    }
}

/// The page that plans; `wrong` is what stood in the way of a PIN, of the form for one load or else of the list's.
pub(in crate::serve) fn planned(
    desk: &Desk,
    entered: Entered,
    wrong: Option<(bool, &AppError)>,
) -> Result<Reply, AppError> {
    let bad = !entered.faults.is_empty();
    let procedures = desk.app.procedures()?;
    let (signs, language) = (desk.credentialed(Role::Planner)?, desk.app.spoken());
    let tokens = [desk.token("plan"), desk.token("plan")];
    let [one_token, list_token] = &tokens;
    let signing = |token, one| page::PinAsked {
        signs: signs.as_deref(),
        token,
        wrong: wrong.filter(|(of, _)| *of == one).map(|(_, error)| error),
    };
    let (one, list) = (signing(one_token, true), signing(list_token, false));
    let content = page::plan(&entered, &procedures, &one, &list, language);
    let reply = shown(desk, "/plan", &words::PlanAndPrint.say(language), &content)?;
    let usual = if bad { 400 } else { 200 };
    Ok(reply.status(wrong.map_or(usual, |(_, error)| status_of(error))))
}

/// The form as a load list of one line: one reader for both.
pub(in crate::serve) fn list_of(form: &Form) -> String {
    let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let value = |name: &str| match name {
        "equipment" => form.get(name).lines().collect::<Vec<_>>().join(";"),
        // The list names a file; the form holds its text.
        "rigging" if form.get(name).is_empty() => String::new(),
        "rigging" => "rigging.toml".to_owned(),
        name => form.get(name).to_owned(),
    };
    let line: Vec<String> = heads().map(|name| quoted(&value(name))).collect();
    format!("{}\n{}\n", heads().collect::<Vec<_>>().join(","), line.join(","))
}

/// The fields of the form, as the columns of its list.
pub(in crate::serve) fn heads() -> impl Iterator<Item = &'static str> {
    page::FIELDS.iter().map(|(name, ..)| *name).chain(["procedure", "equipment", "rigging"])
}

/// A fault of the form's list, by its field: nobody who filled in a form has seen a line and a column.
pub(in crate::serve) fn fault_of(line: &str) -> Fault {
    let told = || {
        let (place, words) = line.split_once(": ")?;
        let (_, column) = place.split_once(':')?;
        let field = heads().nth(column.parse::<usize>().ok()?.checked_sub(1)?)?;
        let words = words.strip_prefix(field).and_then(|words| words.strip_prefix(": ")).unwrap_or(words);
        Some(Fault { field: Some(field.to_owned()), words: words.to_owned() })
    };
    told().unwrap_or_else(|| Fault { field: None, words: line.to_owned() })
}

pub(in crate::serve) fn make(desk: &Desk, list: &str, form: Form, one: bool) -> Result<Reply, AppError> {
    let pin = form.some("pin").map(|_| desk.pin("plan", &form)).transpose()?.map(str::to_owned);
    let rigging = form.all("rigging").next().unwrap_or_default().to_owned();
    let open = |name: &str| match (one, rigging.trim().is_empty()) {
        (true, false) => Ok(rigging.clone()),
        _ => Err(words::RiggingInTerminal { name }.say(desk.app.spoken())),
    };
    match desk.app.would_write_tags(list, &open, pin.is_some()) {
        Ok(()) => {}
        Err(error @ (AppError::BadInput { .. } | AppError::Refused { .. } | AppError::NotFound { .. })) => {
            let whole = |line: &str| Fault { field: None, words: line.to_owned() };
            let message = error.say(desk.app.spoken());
            let faults = message.lines().map(|line| if one { fault_of(line) } else { whole(line) }).collect();
            return planned(desk, Entered { form, faults, picture: None }, None);
        }
        Err(error) => return Err(error),
    }
    let made = match desk.app.write_tags(list, &open, pin.as_deref()) {
        Ok(made) => made,
        // Nothing but the PIN is left to be wrong.
        Err(error @ AppError::Refused { .. }) => {
            return planned(desk, Entered { form, ..Entered::default() }, Some((one, &error)));
        }
        Err(error) => return Err(error),
    };
    let digests = made.iter().map(|made| made.tag.digest.clone());
    let named = if made.len() > NAMED {
        format!("list={}", desk.keep_list(digests.collect()))
    } else {
        digests.map(|digest| format!("tag={digest}")).collect::<Vec<_>>().join("&")
    };
    Ok(Reply::see(&format!("/plan/made?{named}")))
}
