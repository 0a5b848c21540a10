//! Planning: tags out of a form or a list, the picture of a rigging file, sheets.

use slingseal_app::catalogue::page as words;
use slingseal_app::{AppError, Language, Role, TagMade};
use slingseal_paper::{Paper, sheets_pdf};

use super::listed::{Given, hangs};
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
    match hangs(&text, language) {
        Ok(picture) => Entered { form, picture: Some(picture), ..Entered::default() },
        Err(error) => {
            let fault = |line: &str| Fault { field: Some("rigging".into()), words: line.to_owned() };
            let faults = error.say(language).lines().map(fault).collect();
            Entered { form, faults, ..Entered::default() }
        }
    }
}

/// A list with the pictures of its rigging files, or with what is wrong. Nothing is made.
///
/// # Errors
/// Storage.
pub(in crate::serve) fn looked_at_list(desk: &Desk, form: Form) -> Result<Entered, AppError> {
    let language = desk.app.spoken();
    let given = Given::new(&form, language);
    let faults = faults_of_list(desk, &given, list_in(&form), false)?;
    let listed = given.listed();
    let said =
        if listed.files.is_empty() { words::ListNamesNoRigging.saying() } else { words::LookThenMake.into() };
    let note = faults.is_empty().then(|| said.say(language));
    Ok(Entered { form, faults, listed, note, ..Entered::default() })
}

/// The list of a form, as it was typed.
pub(in crate::serve) fn list_in(form: &Form) -> &str {
    form.all("list").next().unwrap_or_default()
}

/// What is wrong with a plan, a fault a line; what no plan is to blame for stays an error.
fn faults_of(
    error: AppError,
    language: Language,
    fault: impl Fn(&str) -> Fault,
) -> Result<Vec<Fault>, AppError> {
    match error {
        AppError::BadInput { .. } | AppError::Refused { .. } | AppError::NotFound { .. } => {
            Ok(error.say(language).lines().map(fault).collect())
        }
        other => Err(other),
    }
}

/// What is wrong with a list, and with its rigging files.
fn faults_of_list(desk: &Desk, given: &Given<'_>, list: &str, signed: bool) -> Result<Vec<Fault>, AppError> {
    let language = desk.app.spoken();
    let would = desk.app.would_write_tags(list, &|name| given.open(name), signed);
    match (given.not_ready(), would) {
        (Some(first), _) => Ok(vec![whole_fault(&first.say(language))]),
        (None, Err(error)) => faults_of(error, language, whole_fault),
        (None, Ok(())) => Ok(Vec::new()),
    }
}

/// A fault of a list, which has lines and columns of its own.
fn whole_fault(line: &str) -> Fault {
    Fault { field: None, words: line.to_owned() }
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

/// Makes the tag of the form for one load.
pub(in crate::serve) fn make_one(desk: &Desk, form: Form) -> Result<Reply, AppError> {
    let list = list_of(&form);
    let rigging = form.all("rigging").next().unwrap_or_default().to_owned();
    let pin = pin_of(desk, &form)?;
    let open = |_: &str| Ok(rigging.clone());
    if let Err(error) = desk.app.would_write_tags(&list, &open, pin.is_some()) {
        let faults = faults_of(error, desk.app.spoken(), fault_of)?;
        return planned(desk, Entered { form, faults, ..Entered::default() }, None);
    }
    let made = desk.app.write_tags(&list, &open, pin.as_deref());
    written(desk, made, true, || Entered { form, ..Entered::default() })
}

/// Makes the tags of a list, once each of its rigging files was shown as it is now.
pub(in crate::serve) fn make_list(desk: &Desk, form: Form) -> Result<Reply, AppError> {
    let language = desk.app.spoken();
    let list = list_in(&form).to_owned();
    let pin = pin_of(desk, &form)?;
    let given = Given::new(&form, language);
    let faults = faults_of_list(desk, &given, &list, pin.is_some())?;
    let listed = given.listed();
    if !faults.is_empty() {
        return planned(desk, Entered { form, faults, listed, ..Entered::default() }, None);
    }
    if !given.were_shown(&listed) {
        let note = Some(words::LookThenMake.say(language));
        return planned(desk, Entered { form, listed, note, ..Entered::default() }, None);
    }
    let made = desk.app.write_tags(&list, &|name| given.open(name), pin.as_deref());
    written(desk, made, false, || Entered { form, listed, ..Entered::default() })
}

/// The PIN of a form, where one was entered.
fn pin_of(desk: &Desk, form: &Form) -> Result<Option<String>, AppError> {
    Ok(form.some("pin").map(|_| desk.pin("plan", form)).transpose()?.map(str::to_owned))
}

/// The page of the tags that were made; the form again where the PIN was wrong: nothing else is left to be.
fn written(
    desk: &Desk,
    made: Result<Vec<TagMade>, AppError>,
    one: bool,
    entered: impl FnOnce() -> Entered,
) -> Result<Reply, AppError> {
    let made = match made {
        Err(error @ AppError::Refused { .. }) => return planned(desk, entered(), Some((one, &error))),
        made => made?,
    };
    let digests = made.iter().map(|made| made.tag.digest.clone());
    let named = if made.len() > NAMED {
        format!("list={}", desk.keep_list(digests.collect()))
    } else {
        digests.map(|digest| format!("tag={digest}")).collect::<Vec<_>>().join("&")
    };
    Ok(Reply::see(&format!("/plan/made?{named}")))
}
