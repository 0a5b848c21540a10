//! Receiving: files, texts, what a scanner types, what a camera sees. One door for all of them.

use slingseal_app::catalogue::page as words;
use std::collections::{BTreeMap, VecDeque};
use std::io::Read;

use slingseal_app::{
    App, AppError, BundleReport, Effort, FrameTaken, MovingReader, Reading, Received, Stamp, Subject,
    VerdictView, read_picture,
};

use slingseal_app::catalogue::Saying;

use crate::output::{bad_input, plain};

/// How many receipts are kept for the page.
const RECEIPTS: usize = 100;
/// How many moving codes may be on the way at a time.
const READERS: usize = 8;
/// The most codes that are taken of one file or text.
const MOST_CODES: usize = 1_000;
/// What every bundle begins with.
const BUNDLE: &[u8] = b"SLINGSEAL BUNDLE";
/// The largest picture or text.
const SMALL: u64 = 32 << 20;

/// What became of one thing that came.
#[derive(Clone, Debug)]
pub(super) struct Receipt {
    pub(super) at: Stamp,
    pub(super) good: bool,
    /// Whether something was taken in although something else was not.
    pub(super) partly: bool,
    pub(super) what: String,
    pub(super) lines: Vec<String>,
    pub(super) load: Option<String>,
    /// A key request that a credential may be issued on.
    pub(super) request: Option<String>,
}

/// How far a moving code is, for the script.
pub(super) enum Seen {
    /// No code in the picture.
    Nothing,
    /// A frame; more are wanted.
    More { taken: u32, enough: u32 },
    /// Something was taken in, or refused.
    Done(Receipt),
}

#[derive(Default)]
pub(super) struct Intake {
    receipts: VecDeque<Receipt>,
    readers: BTreeMap<String, MovingReader>,
    /// The last text that a camera read: it sees the same code many times.
    last: Option<String>,
}

impl Intake {
    /// The last first.
    pub(super) fn receipts(&self) -> impl Iterator<Item = &Receipt> {
        self.receipts.iter()
    }

    pub(super) fn note(&mut self, receipt: Receipt) {
        self.receipts.push_front(receipt);
        self.receipts.truncate(RECEIPTS);
    }

    /// Takes the text of one code. `reader` tells one camera or paste from another.
    pub(super) fn text(&mut self, app: &App, reader: &str, text: &str) -> Seen {
        if !text.starts_with("BF1:") {
            return Seen::Done(self.noted(received(app, text)));
        }
        if !self.readers.contains_key(reader) && self.readers.len() >= READERS {
            self.readers.pop_first();
        }
        match self.readers.entry(reader.to_owned()).or_default().take(text) {
            Ok(FrameTaken::More { taken, enough }) => Seen::More { taken, enough },
            Ok(FrameTaken::Whole(bundle)) => {
                self.readers.remove(reader);
                let report = app.bundle_read(&mut bundle.as_slice(), &mut |_| {});
                Seen::Done(self.noted(said(app, &words::MovingCode.say(app.spoken()), report)))
            }
            Err(error) => Seen::Done(self.noted(refused(app, &error))),
        }
    }

    /// Takes a camera's picture, already read.
    pub(super) fn reading(&mut self, app: &App, reader: &str, reading: Reading) -> Seen {
        match reading {
            Reading::Nothing => Seen::Nothing,
            Reading::Foreign { .. } if self.last.is_none() => Seen::Nothing,
            Reading::Foreign { .. } => Seen::Nothing,
            Reading::Ours { text, .. } if self.last.as_deref() == Some(&text) => Seen::Nothing,
            Reading::Ours { text, .. } => {
                let seen = self.text(app, reader, &text);
                self.last = Some(text);
                seen
            }
        }
    }

    fn noted(&mut self, receipt: Receipt) -> Receipt {
        self.note(receipt.clone());
        receipt
    }
}

/// Takes a file: a bundle of any size as it comes, or pictures and texts of codes.
pub(super) fn file(app: &App, name: &str, body: &mut dyn Read) -> Vec<Receipt> {
    match take_file(app, name, body) {
        Ok(receipts) => receipts,
        Err(error) => vec![refused(app, &error)],
    }
}

fn take_file(app: &App, name: &str, body: &mut dyn Read) -> Result<Vec<Receipt>, AppError> {
    let broken = |error: std::io::Error| bad_input(words::UploadBrokeOff { what: plain(&error) });
    let mut front = Vec::new();
    let length = u64::try_from(BUNDLE.len()).unwrap_or(u64::MAX);
    (&mut *body).take(length).read_to_end(&mut front).map_err(broken)?;
    if front == BUNDLE {
        let report = app.bundle_read(&mut front.as_slice().chain(body), &mut |_| {});
        return Ok(vec![said(app, name, report)]);
    }
    let mut bytes = front;
    body.take(SMALL).read_to_end(&mut bytes).map_err(broken)?;
    let texts = match std::str::from_utf8(&bytes) {
        Ok(text) => text.lines().map(str::to_owned).filter(|line| !line.trim().is_empty()).collect(),
        Err(_) => read_picture(&bytes)?,
    };
    if texts.is_empty() {
        return Err(bad_input(words::NoCodeInFile { name: &name }));
    }
    // A refusal may stand at the end: what is too much is not begun.
    if texts.len() > MOST_CODES {
        return Err(bad_input(words::MoreCodesThanTaken {
            name: &name,
            count: &texts.len(),
            most: MOST_CODES,
        }));
    }
    let texts: Vec<String> = texts.iter().map(|text| bare(text)).collect();
    let answers = app.receive_all(&texts).into_iter();
    Ok(answers.zip(&texts).map(|(answer, text)| receipt_of(app, text, answer)).collect())
}

/// What is said of a file that was stopped while it was taken in.
pub(super) fn stopped(app: &App, name: &str) -> Receipt {
    let lines = vec![words::StoppedPartly.say(app.spoken())];
    Receipt { lines, ..receipt(app, false, name.to_owned()) }
}

/// Reads one picture of a camera.
pub(super) fn look(app: &App, width: u32, height: u32, luminance: &[u8]) -> Result<Reading, AppError> {
    app.read_frame(width, height, width, luminance, Effort::Frame)
}

fn receipt(app: &App, good: bool, what: String) -> Receipt {
    Receipt { at: app.now().into(), good, partly: false, what, lines: Vec::new(), load: None, request: None }
}

fn refused(app: &App, error: &AppError) -> Receipt {
    let mut lines = error.say(app.spoken()).lines().map(str::to_owned).collect::<Vec<_>>();
    let what = if lines.is_empty() { String::new() } else { lines.remove(0) };
    Receipt { lines, ..receipt(app, false, what) }
}

/// What became of a bundle, in words.
fn said(app: &App, name: &str, report: Result<BundleReport, AppError>) -> Receipt {
    let report = match report {
        Ok(report) => report,
        Err(error) => return refused(app, &error),
    };
    let mut lines = Vec::new();
    let counted = [
        (report.new, words::NewRecords { count: report.new }.saying()),
        (report.completed, words::RecordsCompleted { count: report.completed }.into()),
        (report.known, words::RecordsKnown { count: report.known }.into()),
        (report.papers, words::NewPapers { count: report.papers }.into()),
        (report.photos, words::NewPhotographs { count: report.photos }.into()),
    ];
    let counted: Vec<String> = counted
        .into_iter()
        .filter(|(number, _)| *number > 0)
        .map(|(_, what)| what.say(app.spoken()))
        .collect();
    let partly = report.new + report.completed + report.papers + report.photos > 0;
    let what = if counted.is_empty() { words::NothingNew.say(app.spoken()) } else { counted.join(", ") };
    let aside = report.set_aside.iter().take(50);
    lines.extend(aside.map(|line| {
        words::SetAsideLine { place: &line.place, kind: &line.kind, reason: &line.reason }.say(app.spoken())
    }));
    if report.set_aside.len() > 50 {
        lines.push(words::AndMore { count: &(report.set_aside.len() - 50) }.say(app.spoken()));
    }
    lines.extend(report.warnings);
    Receipt { lines, partly, ..receipt(app, report.set_aside.is_empty(), format!("{name}: {what}")) }
}

fn bare(text: &str) -> String {
    text.trim_matches(['\r', '\n', '\t', ' ']).to_owned()
}

fn received(app: &App, text: &str) -> Receipt {
    let text = bare(text);
    receipt_of(app, &text, app.receive(&text))
}

fn receipt_of(app: &App, text: &str, answer: Result<Received, AppError>) -> Receipt {
    let taken = match answer {
        Ok(taken) => taken,
        Err(error) => return refused(app, &error),
    };
    match taken {
        Received::Authority { name, trusted, .. } => {
            let lines = if trusted {
                vec![words::TrustedHere.say(app.spoken())]
            } else {
                vec![words::HaveFingerprintRead.say(app.spoken()), words::TrustInTerminal.say(app.spoken())]
            };
            Receipt {
                lines,
                ..receipt(app, trusted, words::CardOfAuthority { name: &name }.say(app.spoken()))
            }
        }
        Received::KeyRequest { holder, fingerprint, .. } => Receipt {
            lines: vec![words::IssueInTerminal.say(app.spoken())],
            request: Some(text.to_owned()),
            ..receipt(
                app,
                true,
                words::KeyRequestOf { holder: &holder, fingerprint: &fingerprint }.say(app.spoken()),
            )
        },
        Received::Credential { credential, .. } => receipt(
            app,
            true,
            if credential.revoked {
                words::CredentialRevoked { holder: &credential.holder }.say(app.spoken())
            } else {
                words::CredentialUntil { holder: &credential.holder, until: &credential.expires.dtg }
                    .say(app.spoken())
            },
        ),
        Received::Roster { authority, sequence, revoked, approved, new } => {
            let new = if new { words::IsNew.saying() } else { words::NoNewer.into() };
            let number = sequence.to_string();
            let what = words::RosterTaken { number, authority, revoked, approved, new };
            receipt(app, true, what.say(app.spoken()))
        }
        Received::Tag(tag) => {
            let what = words::TagTaken { load: &tag.load, description: &tag.description }.say(app.spoken());
            Receipt { load: Some(tag.load), lines: tag.warnings, ..receipt(app, true, what) }
        }
        Received::Seal(verdict) => seal(app, *verdict),
        Received::Void { load, by, cause, new } => {
            let what = words::LoadTakenBack { load: &load, by, cause };
            let what = known_or_new(app, what.into(), new);
            Receipt { load: Some(load), ..receipt(app, true, what) }
        }
        Received::Movement { report, new } => {
            let (load, event) = (&report.load, &report.what);
            let what = words::MovementTaken { load, event, at: &report.at.dtg, origin: &report.origin };
            let what = known_or_new(app, what.into(), new);
            Receipt { load: Some(report.load), ..receipt(app, true, what) }
        }
        Received::Closing { statement, new } => {
            let what = words::ClosingTaken { name: &statement.name, by: &statement.by };
            receipt(app, true, known_or_new(app, what.into(), new))
        }
        Received::Inspection { subject, name, by, fit, fit_until, .. } => {
            let name = crate::output::inspected(subject, &name);
            let found = match (fit, fit_until) {
                (true, Some(until)) => words::PieceFitUntil { until: until.dtg }.saying(),
                (true, None) => words::PieceFit.into(),
                (false, _) if subject == Subject::Piece => words::PieceWithdrawn.into(),
                (false, _) => words::InspectionNotFit.into(),
            };
            receipt(app, fit, words::InspectionTaken { name, by, found }.say(app.spoken()))
        }
        Received::Examination { what, load, by, new, .. } => {
            let what =
                known_or_new(app, words::ExaminationTaken { what: what.saying(), by, load }.into(), new);
            let lines = vec![words::TrainingSaysNothing.say(app.spoken())];
            Receipt { lines, ..receipt(app, true, what) }
        }
    }
}

/// What was received, and whether it was here before.
fn known_or_new(app: &App, what: Saying, new: bool) -> String {
    if new { what.say(app.spoken()) } else { words::KnownAlready { what }.say(app.spoken()) }
}

fn seal(app: &App, verdict: VerdictView) -> Receipt {
    let load = verdict.facts.as_ref().map(|facts| facts.load.clone());
    let (word, first) = (&verdict.word, &verdict.first);
    let what = match &load {
        Some(load) => words::SealOfLoad { load, word, first }.say(app.spoken()),
        None => words::SealTaken { word, first }.say(app.spoken()),
    };
    let together = verdict.shown.iter().map(|one| {
        words::ShownTogether { load: &one.load, word: &one.word, first: &one.first }.say(app.spoken())
    });
    let mut lines: Vec<String> = together.collect();
    lines.extend(verdict.reasons.into_iter().skip(1).map(|reason| reason.text));
    Receipt { load, lines, ..receipt(app, verdict.word != "NO-GO", what) }
}
