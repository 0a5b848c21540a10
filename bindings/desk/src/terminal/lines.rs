//! One answer a line, for scripts, for a screen reader, for tests. What it reads and prints is stable.

use std::io::BufRead;
use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::{
    App, AppError, CardView, FindingState, NextStep, PointState, PointView, RunView, SealView, WalkRequest,
    WalkStage, WalkView,
};
use zeroize::Zeroizing;

use super::screen::Ask;
use crate::console;
use crate::output::{self, bad_input, plain};
use crate::platform::{Secret, ask};

/// What `inspect --help` says of this.
pub(crate) const HELP: &str = "\
At a terminal the walk is full screen, by single keys that a numeric keypad has; the keys stand at its foot.

When standard input or output is no terminal, one answer a line:
  good                          the whole card is good
  good POINT                    one point is good
  deficient POINT NAME [NOTE]   a deficiency, by its name or number; other needs a note
  value POINT VALUE             a count, choice, measure, serial or text
  na POINT REASON               the point does not apply to this load
  reject N SERIAL               the piece that finding N rejects
  undo                          take the last answer back
  go N                          go to card N
  right N [BY]                  finding N is corrected, by whom
  again N good [VALUE]          reinspected: good, with the new value where one is wanted
  again N bad [NOTE]            reinspected: still deficient
  pause, resume, show
  abandon REASON                end without a decision
  fit, notfit [REASON]          decide
  pin PIN                       the PIN to seal with; otherwise SLINGSEAL_PIN
  seal                          sign; with --out, PNG, SVG and text are written
POINT is its number on the card or its id. Empty lines and lines that begin with # are passed over.

At the beginning and after each line comes one line:
  ok load=L stage=S card=N/M state=S cards=D/M points=D/M open=N findings=F
     next=STEP undo=N title=TITLE
  refused load=… (the same) … undo=N why=REASON
  sealed load=L outcome=fit|notfit verdict=GO|WAIT|NO-GO record=DIGEST seal=TEXT
  stage: walking paused decided abandoned    card, undo: 0 where there is none
  findings: those that are not closed, ! open, ? corrected and to be reinspected: 2!,3? or -
  state: unanswered partly good deficient awaits_second_look, - where there is no card
  next: answer_card look_again decide seal resume nothing
With --json each is one line of JSON: the view (with `refused` in it), the seal, or {\"error\": …}.
The end of input leaves the inspection where it stands. Exit code 0; 1 if a line was refused.";

/// What `exam run --help` says of this.
pub(crate) const RUN_HELP: &str = "\
At a terminal the run is full screen, by the same single keys as an inspection; they stand at its foot.

When standard input or output is no terminal, one answer a line:
  good, good POINT, deficient POINT NAME [NOTE], value POINT VALUE, undo, go N
                                as in an inspection; see slingseal inspect --help
  show                          the line below, with the clock
  end                           end the run, however far it is; the clock stops
At the beginning and after each line comes one line:
  ok load=L stage=running|ended card=N/M state=S cards=D/M called=N seconds=T/LIMIT
     jumped=yes|no sheet=DIGEST|- undo=N title=TITLE
  refused load=... (the same) ... undo=N why=REASON
With --json each is one line of JSON: the run, or {\"error\": ...}.
The end of input leaves the run where it stands, and its clock goes on. Exit code 0; 1 if a line was refused.";

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
        let line =
            Zeroizing::new(line.map_err(|error| {
                bad_input(format!("standard input: {}; give lines of UTF-8", plain(&error)))
            })?);
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
                [] => Err(bad_input("no load is in hand; name a tag")),
                several => {
                    let names: Vec<String> =
                        several.iter().map(|line| format!("{} ({})", line.walk, line.load)).collect();
                    Err(bad_input(format!(
                        "several loads are in hand: {}; name one with --walk",
                        names.join(", ")
                    )))
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
        let run = run.ok_or_else(|| bad_input("only an examination is ended; decide with fit or notfit"))?;
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
                    return Err(bad_input("no value; write value POINT VALUE"));
                }
                self.answer(point, value)?
            }
            "na" => {
                let (point, reason) = first_word(rest);
                if reason.is_empty() {
                    return Err(bad_input("no reason; write na POINT REASON"));
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
                None => return Err(bad_input("there is nothing to undo; go on")),
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
                    _ => return Err(bad_input("write again N good, or again N bad")),
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
                return Err(bad_input("no seal comes of an examination; end it"));
            }
            "pin" => {
                self.pin = Some(Zeroizing::new(rest.to_owned()));
                return Ok(Wish::Nothing);
            }
            "end" => return Ok(Wish::End),
            "seal" => return Ok(Wish::Seal),
            other => {
                return Err(bad_input(format!("\"{other}\" is no answer; see slingseal inspect --help")));
            }
        }))
    }

    fn card(&self) -> Result<&CardView, AppError> {
        self.view.card.as_ref().ok_or_else(|| bad_input("the inspection stands at no card; see next="))
    }

    fn point(&self, which: &str) -> Result<&PointView, AppError> {
        let card = self.card()?;
        let by_number = which.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
        let found = match by_number {
            Some(at) => card.points.get(at),
            None => card.points.iter().find(|point| point.id == which),
        };
        found.ok_or_else(|| {
            bad_input(format!(
                "card {} has no point \"{which}\"; name 1 to {} or an id",
                card.number,
                card.points.len()
            ))
        })
    }

    fn answer(&self, which: &str, value: &str) -> Result<WalkRequest, AppError> {
        let card = self.card()?.number;
        Ok(WalkRequest::Answer { card, point: self.point(which)?.id.clone(), value: value.to_owned() })
    }

    fn seal(&mut self) -> Result<SealView, AppError> {
        let pin = match &self.pin {
            Some(pin) => pin.clone(),
            None => ask(self.app, Secret::Pin, false)
                .map_err(|_| bad_input("no PIN to seal with; set SLINGSEAL_PIN or write a line pin PIN"))?,
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
        print(&format!(
            "sealed load={} outcome={} verdict={} record={} seal={}",
            seal.facts.load,
            if seal.facts.fit { "fit" } else { "notfit" },
            seal.verdict.word,
            seal.record,
            seal.code.text
        ))
    }

    fn tell(&mut self, error: Option<&AppError>) -> Result<(), AppError> {
        let why = match error {
            Some(error) => Some(error.to_string()),
            None => self.view.refused.as_ref().map(|refused| refused.message.clone()),
        };
        self.refused |= why.is_some();
        let told = match (self.json, error) {
            (true, Some(error)) => one_line(
                &serde_json::json!({ "error": { "code": error.code(), "message": error.to_string() } }),
            ),
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

/// The stable line of a run.
fn run_status(run: &RunView, why: Option<&str>) -> String {
    let view = &run.walk;
    let (number, state) = view.card.as_ref().map_or((0, "-"), |card| (card.number, word(card)));
    let last = match why {
        Some(why) => format!("why={}", why.replace('\n', "; ")),
        None => format!("title={}", view.card.as_ref().map_or("-", |card| card.title.as_str())),
    };
    format!(
        "{} load={} stage={} card={number}/{} state={state} cards={}/{} called={} seconds={}/{} jumped={} sheet={} undo={} {last}",
        if why.is_some() { "refused" } else { "ok" },
        view.load,
        if run.ended { "ended" } else { "running" },
        view.cards.len(),
        view.progress.cards_done,
        view.progress.cards,
        view.findings.len(),
        run.elapsed_s,
        run.within_s,
        if run.clock_jumped { "yes" } else { "no" },
        run.sheet.as_deref().unwrap_or("-"),
        view.undo.unwrap_or_default(),
    )
}

/// The stable line.
fn status(view: &WalkView, why: Option<&str>) -> String {
    let stage = match view.stage {
        WalkStage::Walking => "walking",
        WalkStage::Paused => "paused",
        WalkStage::Decided { .. } => "decided",
        WalkStage::Abandoned { .. } => "abandoned",
    };
    let next = match view.next {
        NextStep::AnswerCard => "answer_card",
        NextStep::LookAgain => "look_again",
        NextStep::Decide => "decide",
        NextStep::Seal => "seal",
        NextStep::Resume => "resume",
        NextStep::Nothing => "nothing",
    };
    let (number, state) = match &view.card {
        Some(card) => (card.number, word(card)),
        None => (0, "-"),
    };
    let open: Vec<String> = view
        .findings
        .iter()
        .filter_map(|finding| match finding.state {
            FindingState::Open => Some(format!("{}!", finding.number)),
            FindingState::PutRight => Some(format!("{}?", finding.number)),
            FindingState::Closed => None,
        })
        .collect();
    let findings = if open.is_empty() { "-".to_owned() } else { open.join(",") };
    let last = match why {
        Some(why) => format!("why={}", why.replace('\n', "; ")),
        None => format!("title={}", view.card.as_ref().map_or("-", |card| card.title.as_str())),
    };
    format!(
        "{} load={} stage={stage} card={number}/{} state={state} cards={}/{} points={}/{} open={} findings={findings} next={next} undo={} {last}",
        if why.is_some() { "refused" } else { "ok" },
        view.load,
        view.cards.len(),
        view.progress.cards_done,
        view.progress.cards,
        view.progress.points_done,
        view.progress.points,
        open.len(),
        view.undo.unwrap_or_default(),
    )
}

fn word(card: &CardView) -> &'static str {
    use slingseal_app::CardState;
    match card.state {
        CardState::Unanswered if card.points.iter().any(|point| point.state != PointState::Unanswered) => {
            "partly"
        }
        CardState::Unanswered => "unanswered",
        CardState::Partly => "partly",
        CardState::Good => "good",
        CardState::Deficient => "deficient",
        CardState::AwaitsSecondLook => "awaits_second_look",
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
    Err(bad_input(format!(
        "\"{text}\" is not a deficiency of {}; use its number, other with a note, or: {}",
        point.id,
        names.join(", ")
    )))
}

fn first_word(text: &str) -> (&str, &str) {
    let text = text.trim();
    text.split_once(char::is_whitespace).map_or((text, ""), |(word, rest)| (word, rest.trim()))
}

fn number(text: &str, form: &str) -> Result<u32, AppError> {
    text.parse().map_err(|_| bad_input(format!("\"{text}\" is no number; write {form}")))
}

fn one_line<T: Serialize>(view: &T) -> Result<(), AppError> {
    at_once(&serde_json::to_string(view).expect("a view can be written as JSON"), true)
}

fn print(line: &str) -> Result<(), AppError> {
    at_once(line, false)
}

/// Every line at once: whoever drives this waits for it.
fn at_once(line: &str, json: bool) -> Result<(), AppError> {
    console::at_once(line, json).map_err(|error| {
        bad_input(format!("standard output: {}; the inspection stays as it is", plain(&error)))
    })
}
