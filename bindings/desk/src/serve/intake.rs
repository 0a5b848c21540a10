//! Receiving: files, texts, what a scanner types, what a camera sees. One door for all of them.

use std::collections::{BTreeMap, VecDeque};
use std::io::Read;

use slingseal_app::{
    App, AppError, BundleReport, Effort, FrameTaken, MovingReader, Reading, Received, Stamp, VerdictView,
    read_picture,
};

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
                Seen::Done(self.noted(said(app, "moving code", report)))
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
    let broken =
        |error: std::io::Error| bad_input(format!("the upload broke off: {}; send it again", plain(&error)));
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
        return Err(bad_input(format!(
            "{name}: no code can be read in it; take the picture again: closer, flat"
        )));
    }
    // A refusal may stand at the end: what is too much is not begun.
    if texts.len() > MOST_CODES {
        return Err(bad_input(format!(
            "{name}: {} codes are more than are taken at once, {MOST_CODES}; nothing was taken, divide it or send a bundle",
            texts.len()
        )));
    }
    let texts: Vec<String> = texts.iter().map(|text| bare(text)).collect();
    Ok(app.receive_all(&texts).into_iter().map(|answer| receipt_of(app, answer)).collect())
}

/// Reads one picture of a camera.
pub(super) fn look(app: &App, width: u32, height: u32, luminance: &[u8]) -> Result<Reading, AppError> {
    app.read_frame(width, height, width, luminance, Effort::Frame)
}

fn receipt(app: &App, good: bool, what: String) -> Receipt {
    Receipt { at: app.now().into(), good, partly: false, what, lines: Vec::new(), load: None }
}

fn refused(app: &App, error: &AppError) -> Receipt {
    let mut lines = error.to_string().lines().map(str::to_owned).collect::<Vec<_>>();
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
        (report.new, "new records"),
        (report.completed, "records completed"),
        (report.known, "records known already"),
        (report.papers, "new tags, voids, credentials and rosters"),
        (report.photos, "new photographs"),
    ];
    let counted: Vec<String> = counted
        .into_iter()
        .filter(|(number, _)| *number > 0)
        .map(|(number, what)| format!("{number} {what}"))
        .collect();
    let partly = report.new + report.completed + report.papers + report.photos > 0;
    let what = if counted.is_empty() { "nothing new".into() } else { counted.join(", ") };
    let aside = report.set_aside.iter().take(50);
    lines.extend(aside.map(|line| format!("set aside, {} ({}): {}", line.place, line.kind, line.reason)));
    if report.set_aside.len() > 50 {
        lines.push(format!("and {} more", report.set_aside.len() - 50));
    }
    lines.extend(report.warnings);
    Receipt { lines, partly, ..receipt(app, report.set_aside.is_empty(), format!("{name}: {what}")) }
}

fn bare(text: &str) -> String {
    text.trim_matches(['\r', '\n', '\t', ' ']).to_owned()
}

fn received(app: &App, text: &str) -> Receipt {
    receipt_of(app, app.receive(&bare(text)))
}

fn receipt_of(app: &App, answer: Result<Received, AppError>) -> Receipt {
    let taken = match answer {
        Ok(taken) => taken,
        Err(error) => return refused(app, &error),
    };
    match taken {
        Received::Authority { name, trusted, .. } => {
            let lines = if trusted {
                vec!["It is trusted here.".into()]
            } else {
                vec![
                    "Have its fingerprint read to you from the authority's own device.".into(),
                    "Then trust it in the terminal: slingseal authority trust CARD".into(),
                ]
            };
            Receipt { lines, ..receipt(app, trusted, format!("the card of the authority {name}")) }
        }
        Received::KeyRequest { holder, fingerprint, .. } => Receipt {
            lines: vec!["Issue on it in the terminal: slingseal authority issue REQUEST".into()],
            ..receipt(app, true, format!("a key request of {holder}, fingerprint {fingerprint}"))
        },
        Received::Credential { credential, .. } => receipt(
            app,
            true,
            format!(
                "the credential of {}, {}",
                credential.holder,
                if credential.revoked {
                    "revoked: nothing signed under it counts".into()
                } else {
                    format!("until {}", credential.expires.dtg)
                }
            ),
        ),
        Received::Roster { authority, sequence, revoked, approved, new } => {
            let new = if new { "new" } else { "no newer than what was here" };
            receipt(
                app,
                true,
                format!(
                    "roster {sequence} of {authority}, {revoked} revoked, {approved} procedures approved, {new}"
                ),
            )
        }
        Received::Tag(tag) => {
            let what = format!("the tag of load {}: {}", tag.load, tag.description);
            Receipt { load: Some(tag.load), lines: tag.warnings, ..receipt(app, true, what) }
        }
        Received::Seal(verdict) => seal(app, *verdict),
        Received::Void { load, by, cause, new } => {
            let known = if new { "" } else { ", known already" };
            let what = format!("load {load} taken back by {by}: {cause}{known}");
            Receipt { load: Some(load), ..receipt(app, true, what) }
        }
        Received::Movement { report, new } => {
            let known = if new { "" } else { ", known already" };
            let what = format!(
                "load {}: {}, {} ({}){known}",
                report.load, report.what, report.at.dtg, report.origin
            );
            Receipt { load: Some(report.load), ..receipt(app, true, what) }
        }
        Received::Closing { statement, new } => {
            let known = if new { "" } else { ", known already" };
            receipt(app, true, format!("the closing of {} by {}{known}", statement.name, statement.by))
        }
        Received::Inspection { name, by, fit, fit_until, .. } => {
            let found = match (fit, fit_until) {
                (true, Some(until)) => format!("fit until {}", until.dtg),
                (true, None) => "fit".to_owned(),
                (false, _) => "not fit; a piece of gear is withdrawn".to_owned(),
            };
            receipt(app, fit, format!("Inspection of {name} by {by}: {found}"))
        }
        Received::Examination { what, load, by, new, .. } => {
            let known = if new { "" } else { ", known already" };
            let what = format!("an {what} of {by} on load {load}{known}");
            let lines = vec!["Training, and no inspection: it says nothing of a load.".into()];
            Receipt { lines, ..receipt(app, true, what) }
        }
    }
}

fn seal(app: &App, verdict: VerdictView) -> Receipt {
    let load = verdict.facts.as_ref().map(|facts| facts.load.clone());
    let of = load.as_deref().map(|load| format!(" of load {load}")).unwrap_or_default();
    let what = format!("a seal{of}: {}, {}", verdict.word, verdict.first);
    let together = verdict.shown.iter().map(|one| format!("load {}: {}, {}", one.load, one.word, one.first));
    let mut lines: Vec<String> = together.collect();
    lines.extend(verdict.reasons.into_iter().skip(1).map(|reason| reason.text));
    Receipt { load, lines, ..receipt(app, verdict.word != "NO-GO", what) }
}
