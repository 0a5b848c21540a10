//! One answer a line, for scripts, for a screen reader, for tests. What it reads and prints is stable.

use std::io::BufRead;
use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::catalogue::lines as words;
use slingseal_app::{App, AppError, CardView, PointView, RunView, SealView, WalkRequest, WalkView};
use zeroize::Zeroizing;

use super::screen::Ask;
use super::status::{run_status, sealed_line, status};
use crate::console;
use crate::output::{self, bad_input, plain};
use crate::platform::{Secret, ask};

/// Reads answers until the end of input.
pub(crate) fn run(app: &App, asked: &Ask, json: bool) -> Result<ExitCode, AppError> {
    let run = asked.run.as_deref().map(|run| app.exam_run(run)).transpose()?;
    let view = match &run {
        Some(run) => run.walk.clone(),
        None => begin(app, asked)?,
    };
    let mut walk = Lines { app, asked, json, view, run, pin: None, refused: false };
    walk.tell(None)?;
    let input = std::io::stdin().lock();
    for line in input.lines() {
        let line = Zeroizing::new(
            line.map_err(|error| bad_input(words::StandardInputNotText { plain: &plain(&error) }))?,
        );
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        walk.line(line)?;
    }
    Ok(if walk.refused { ExitCode::FAILURE } else { ExitCode::SUCCESS })
}

fn begin(app: &App, asked: &Ask) -> Result<WalkView, AppError> {
    match (&asked.walk, &asked.tag) {
        (Some(walk), _) => app.walk(walk),
        (None, Some(tag)) => app.begin_walk(tag),
        (None, None) => {
            let in_hand = app.start()?.in_hand;
            match in_hand.as_slice() {
                [only] => app.walk(&only.walk),
                [] => Err(bad_input(words::NoLoadInHand)),
                several => {
                    let names: Vec<String> =
                        several.iter().map(|line| format!("{} ({})", line.walk, line.load)).collect();
                    Err(bad_input(words::SeveralLoadsInHand { loads: &names.join(", ") }))
                }
            }
        }
    }
}

struct Lines<'a> {
    app: &'a App,
    asked: &'a Ask,
    json: bool,
    view: WalkView,
    /// The run, in an examination.
    run: Option<RunView>,
    pin: Option<Zeroizing<String>>,
    refused: bool,
}

/// What a line asks for.
enum Wish {
    Do(WalkRequest),
    End,
    Seal,
    Nothing,
}

impl Lines<'_> {
    fn line(&mut self, line: &str) -> Result<(), AppError> {
        let done = match self.wish(line) {
            Ok(Wish::Do(request)) => self.perform(&request),
            Ok(Wish::End) => self.end(),
            Ok(Wish::Nothing) => self.look(),
            Ok(Wish::Seal) => match self.seal() {
                Ok(seal) => return self.sealed(&seal),
                Err(error) => Err(error),
            },
            Err(error) => Err(error),
        };
        match done {
            Ok(()) => self.tell(None),
            // Nothing can be answered on a home that cannot be written any more.
            Err(error @ (AppError::StorageFull { .. } | AppError::StorageDamaged { .. })) => Err(error),
            Err(error) => self.tell(Some(&error)),
        }
    }

    fn perform(&mut self, request: &WalkRequest) -> Result<(), AppError> {
        match self.run.as_ref().map(|run| run.run.clone()) {
            Some(run) => self.show(self.app.exam_do(&run, request)?),
            None => self.view = self.app.do_walk(&self.view.walk, request)?,
        }
        Ok(())
    }

    /// The clock of a run moves on by itself.
    fn look(&mut self) -> Result<(), AppError> {
        if let Some(run) = self.run.as_ref().map(|run| run.run.clone()) {
            self.show(self.app.exam_run(&run)?);
        }
        Ok(())
    }

    fn end(&mut self) -> Result<(), AppError> {
        let run = self.run.as_ref().map(|run| run.run.clone());
        let run = run.ok_or_else(|| bad_input(words::OnlyAnExaminationEnds))?;
        self.show(self.app.exam_end(&run)?);
        Ok(())
    }

    fn show(&mut self, run: RunView) {
        self.view = run.walk.clone();
        self.run = Some(run);
    }

    fn wish(&mut self, line: &str) -> Result<Wish, AppError> {
        let (word, rest) = first_word(line);
        let rest_or_none = || (!rest.is_empty()).then(|| rest.to_owned());
        Ok(Wish::Do(match word {
            "good" if rest.is_empty() => WalkRequest::CardGood { card: self.card()?.number },
            "good" => self.answer(rest, "")?,
            "value" => {
                let (point, value) = first_word(rest);
                if value.is_empty() {
                    return Err(bad_input(words::ValueMissing));
                }
                self.answer(point, value)?
            }
            "na" => {
                let (point, reason) = first_word(rest);
                if reason.is_empty() {
                    return Err(bad_input(words::ReasonMissing));
                }
                let (card, point) = (self.card()?.number, self.point(point)?.id.clone());
                WalkRequest::NotApplicable { card, point, reason: reason.to_owned() }
            }
            "reject" => {
                let (finding, serial) = first_word(rest);
                let finding = number(finding, "reject N SERIAL")?;
                WalkRequest::RejectPiece { finding, serial: serial.to_owned() }
            }
            "deficient" => {
                let (which, rest) = first_word(rest);
                let point = self.point(which)?;
                let (name, note) = named(point, rest)?;
                WalkRequest::Deficiency {
                    card: self.card()?.number,
                    point: point.id.clone(),
                    name,
                    note,
                    photos: Vec::new(),
                }
            }
            "undo" => match self.view.undo {
                Some(answer) => WalkRequest::Undo { answer },
                None => return Err(bad_input(words::NothingToUndo)),
            },
            "go" => WalkRequest::GoTo { card: number(rest, "go N")? },
            "right" => {
                let (finding, by) = first_word(rest);
                WalkRequest::PutRight {
                    finding: number(finding, "right N [BY]")?,
                    by: (!by.is_empty()).then(|| by.to_owned()),
                    note: None,
                    photos: Vec::new(),
                }
            }
            "again" => {
                let (finding, rest) = first_word(rest);
                let finding = number(finding, "again N good|bad")?;
                let (how, more) = first_word(rest);
                let more = (!more.is_empty()).then(|| more.to_owned());
                let (good, value, note) = match how {
                    "good" => (true, more, None),
                    "bad" => (false, None, more),
                    _ => return Err(bad_input(words::AgainGoodOrBad)),
                };
                WalkRequest::LookAgain { finding, good, value, note, photos: Vec::new() }
            }
            "pause" => WalkRequest::Pause,
            "resume" => WalkRequest::Resume,
            "abandon" => WalkRequest::Abandon { reason: rest.to_owned() },
            "fit" => WalkRequest::Decide { fit: true, reason: None },
            "notfit" => WalkRequest::Decide { fit: false, reason: rest_or_none() },
            "show" => return Ok(Wish::Nothing),
            "seal" | "pin" if self.run.is_some() => {
                return Err(bad_input(words::ExaminationGivesNoSeal));
            }
            "pin" => {
                self.pin = Some(Zeroizing::new(rest.to_owned()));
                return Ok(Wish::Nothing);
            }
            "end" => return Ok(Wish::End),
            "seal" => return Ok(Wish::Seal),
            other => {
                return Err(bad_input(words::NotAnAnswer { other: &other }));
            }
        }))
    }

    fn card(&self) -> Result<&CardView, AppError> {
        self.view.card.as_ref().ok_or_else(|| bad_input(words::AtNoCard))
    }

    fn point(&self, which: &str) -> Result<&PointView, AppError> {
        let card = self.card()?;
        let by_number = which.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
        let found = match by_number {
            Some(at) => card.points.get(at),
            None => card.points.iter().find(|point| point.id == which),
        };
        found.ok_or_else(|| {
            bad_input(words::CardHasNoSuchPoint {
                card: &card.number,
                which: &which,
                last: &card.points.len(),
            })
        })
    }

    fn answer(&self, which: &str, value: &str) -> Result<WalkRequest, AppError> {
        let card = self.card()?.number;
        Ok(WalkRequest::Answer { card, point: self.point(which)?.id.clone(), value: value.to_owned() })
    }

    fn seal(&mut self) -> Result<SealView, AppError> {
        let pin = match &self.pin {
            Some(pin) => pin.clone(),
            None => ask(self.app, Secret::Pin, false).map_err(|_| bad_input(words::NoPinToSealWith))?,
        };
        let seal = self.app.seal(&self.view.walk, &pin, None)?;
        if let Some(out) = &self.asked.out {
            let name = format!("seal-{}", output::file_name(&seal.facts.load));
            output::put_code(&seal.code, Some(out), &name)?;
        }
        Ok(seal)
    }

    fn sealed(&self, seal: &SealView) -> Result<(), AppError> {
        if self.json {
            return one_line(seal);
        }
        print(&sealed_line(seal))
    }

    fn tell(&mut self, error: Option<&AppError>) -> Result<(), AppError> {
        let why = match error {
            Some(error) => Some(error.say(self.asked.language)),
            None => self.view.refused.as_ref().map(|refused| refused.message.clone()),
        };
        self.refused |= why.is_some();
        let told = match (self.json, error) {
            (true, Some(error)) => one_line(&output::refusal(error, self.asked.language)),
            (true, None) if self.run.is_some() => one_line(&self.run),
            (true, None) => one_line(&self.view),
            (false, _) => match &self.run {
                Some(run) => print(&run_status(run, why.as_deref())),
                None => print(&status(&self.view, why.as_deref())),
            },
        };
        self.view.refused = None;
        told
    }
}

/// A deficiency by its number or by its name, which may have blanks in it; what follows is the note.
fn named(point: &PointView, text: &str) -> Result<(String, Option<String>), AppError> {
    let note = |rest: &str| {
        let rest = rest.trim();
        (!rest.is_empty()).then(|| rest.to_owned())
    };
    let (word, rest) = first_word(text);
    if word == "other" {
        return Ok((word.to_owned(), note(rest)));
    }
    let by_number = word.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
    if let Some(known) = by_number.and_then(|at| point.deficiencies.get(at)) {
        return Ok((known.name.clone(), note(rest)));
    }
    // The longest first: one name may begin another.
    let mut known: Vec<&str> = point.deficiencies.iter().map(|known| known.name.as_str()).collect();
    known.sort_by_key(|name| std::cmp::Reverse(name.len()));
    for name in known {
        if let Some(rest) = text.strip_prefix(name)
            && (rest.is_empty() || rest.starts_with(char::is_whitespace))
        {
            return Ok((name.to_owned(), note(rest)));
        }
    }
    let names: Vec<&str> = point.deficiencies.iter().map(|known| known.name.as_str()).collect();
    Err(bad_input(words::NotADeficiencyOf { text: &text, point: &point.id, names: &names.join(", ") }))
}

fn first_word(text: &str) -> (&str, &str) {
    let text = text.trim();
    text.split_once(char::is_whitespace).map_or((text, ""), |(word, rest)| (word, rest.trim()))
}

fn number(text: &str, form: &str) -> Result<u32, AppError> {
    text.parse().map_err(|_| bad_input(words::NotANumber { text: &text, form: &form }))
}

fn one_line<T: Serialize>(view: &T) -> Result<(), AppError> {
    at_once(&serde_json::to_string(view).expect("a view can be written as JSON"), true)
}

fn print(line: &str) -> Result<(), AppError> {
    at_once(line, false)
}

/// Every line at once: whoever drives this waits for it.
fn at_once(line: &str, json: bool) -> Result<(), AppError> {
    console::at_once(line, json)
        .map_err(|error| bad_input(words::StandardOutputFailed { plain: &plain(&error) }))
}
