use super::canvas::{Canvas, INK, PAPER, RULE, SOFT, Side, WASH, bold, plain};
use super::code::Code;
use super::document::{HEIGHT, Paper, PrintError, WIDTH, document};
use slingseal_app::catalogue::paper as words;
use slingseal_app::{DrawingView, Language};

/// One moment of a load's story.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Moment {
    /// The date-time group.
    pub when: String,
    /// What happened, and who did it.
    pub what: String,
}

/// A deficiency, and what became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Correction {
    /// The point at which it was found.
    pub point: String,
    /// What was wrong.
    pub found: String,
    /// What was done and who looked again; nothing while it is open.
    pub corrected: Option<String>,
}

/// What the page of one record says. An empty text is left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct RecordPage {
    /// The load's number.
    pub load: String,
    /// What it is.
    pub description: String,
    /// The word that stands over it: "FIT", "NOT FIT", "VOID", "EXPIRED" …
    pub banner: String,
    /// Whether the load is fit: every other word stands in an octagon.
    pub fit: bool,
    /// What stands beside the outcome: "until 091630Z JUL 26", "void since …".
    pub standing: String,
    /// Label and value, in the order in which they are read.
    pub facts: Vec<(String, String)>,
    /// The load's story.
    pub moments: Vec<Moment>,
    /// Everything that was found.
    pub deficiencies: Vec<Correction>,
    /// Label, what it carries at rest, share of the rating, each ready to be read; the governing part first.
    pub rigging: Vec<[String; 3]>,
    /// The largest tensions by other sharings than at rest, and whether one is over; empty where nobody reckoned.
    pub otherwise: Vec<String>,
    /// Warnings of the rigging.
    pub warnings: Vec<String>,
    /// The load, with what was found deficient marked; nothing where its procedure has no drawing.
    pub drawing: Option<DrawingView>,
    /// When the record was closed, RFC 3339 with `Z`: the document's date.
    pub dated: String,
    /// SHA-256 of the full record, hexadecimal.
    pub digest: String,
    /// The seal's code; nothing where the load was not sealed.
    pub code: Option<Code>,
}

/// The one-page record of a load.
///
/// # Errors
/// The page cannot be written.
pub(crate) fn record_page(
    page: &RecordPage,
    paper: Paper,
    language: Language,
) -> Result<Vec<u8>, PrintError> {
    let draw = |canvas: &mut Canvas<'_, '_>, (x, y): (f32, f32)| draw(canvas, x, y, page);
    let title = words::RecordOfLoad { load: &page.load }.say(language);
    document(&title, &page.dated, paper, language, &[(title.clone(), &draw)])
}

const CODE: f32 = 168.0;
/// The side of the square that the load is drawn in.
const DRAWN: f32 = 150.0;

fn draw(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, page: &RecordPage) {
    canvas.mark(x, y, 18.0, INK);
    canvas.text(x + 26.0, y + 14.5, bold(12.0), &words::InspectionRecord.say(canvas.language));
    canvas.line((x, y + 24.0), (x + WIDTH, y + 24.0), 2.0, INK);

    let left = WIDTH - CODE - 14.0;
    canvas.heading(1, &page.load, |canvas| canvas.fit((x, y + 68.0), left, bold(42.0), &page.load));
    canvas.block((x, y + 86.0), left, 1, plain(13.0), &page.description);
    outcome(canvas, x, y + 98.0, left, page);
    if let Some(code) = &page.code {
        canvas.code((x + WIDTH - CODE, y + 30.0), CODE, code, &words::SealAsCode.say(canvas.language));
        let check = words::CheckWord { check: &code.check }.say(canvas.language);
        canvas.text(x + WIDTH - CODE / 2.0, y + 206.0, bold(9.0).side(Side::Middle), &check);
    }
    let mut line = facts(canvas, x, y + 220.0, &page.facts) + 2.0;

    // What is found matters most, so it has its room first; the story takes what is left.
    let bottom = y + HEIGHT - 62.0;
    let moments_least = (page.moments.len().min(6) as f32 + 2.0) * 12.5;
    line = deficiencies(canvas, x, line, bottom - moments_least, &page.deficiencies);
    line = rigging(canvas, x, line, bottom - moments_least, page);
    let drawn = page.drawing.as_ref().filter(|_| bottom - line > DRAWN + 14.0);
    if let Some(drawing) = drawn {
        load(canvas, x + WIDTH - DRAWN, line + 6.0, drawing);
    }
    let room = if drawn.is_some() { WIDTH - DRAWN - 12.0 } else { WIDTH };
    story(canvas, x, line, bottom, room, &page.moments);
    foot(canvas, x, y + HEIGHT - 48.0, page);
}

/// Word and shape together, never one alone: a square stands firm, an octagon stops.
fn outcome(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, width: f32, page: &RecordPage) {
    let height = 58.0;
    if page.fit {
        canvas.rect(x, y, width, height, INK);
    } else {
        let (cut, right, low) = (16.0, x + width, y + height);
        canvas.polygon(
            &[
                (x + cut, y),
                (right - cut, y),
                (right, y + cut),
                (right, low - cut),
                (right - cut, low),
                (x + cut, low),
                (x, low - cut),
                (x, y + cut),
            ],
            INK,
        );
    }
    // Long words are set smaller: what stands beside them must have its room.
    let (size, low) = if page.banner.chars().count() > 8 { (24.0, 36.5) } else { (38.0, 41.0) };
    let word = canvas.fonts.width(&page.banner, super::fonts::Weight::Bold, size);
    let room = width - word - 48.0;
    // Who took it back and why is never cut: smaller letters, as many lines as the banner has.
    let lines = |size: f32| canvas.fonts.wrap(&page.standing, super::fonts::Weight::Bold, size, room).len();
    let small = lines(12.0) > 2;
    let (set, most) = if small { (9.0, 4) } else { (12.0, 2) };
    let first = match (small, lines(set).min(most)) {
        (true, lines) => y + height / 2.0 + 3.0 - (lines as f32 - 1.0) * set * 0.625,
        (false, 1) => y + 33.5,
        (false, _) => y + 26.0,
    };
    canvas.together(|canvas| {
        canvas.text(x + 18.0, y + low, bold(size).grey(PAPER), &page.banner);
        canvas.block((x + word + 34.0, first), room, most, bold(set).grey(PAPER), &page.standing);
    });
}

fn facts(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, facts: &[(String, String)]) -> f32 {
    let column = (WIDTH - 24.0) / 3.0;
    let shown: Vec<_> = facts.iter().filter(|(_, value)| !value.is_empty()).take(18).collect();
    for (at, (label, value)) in shown.iter().enumerate() {
        let place = (x + (at % 3) as f32 * (column + 12.0), y + (at / 3) as f32 * 27.0);
        canvas.together(|canvas| {
            canvas.text(place.0, place.1, bold(7.5).grey(SOFT), &label.to_uppercase());
            canvas.fit((place.0, place.1 + 13.0), column, plain(11.5), value);
        });
    }
    y + shown.len().div_ceil(3) as f32 * 27.0
}

fn head(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, text: &str) -> f32 {
    canvas.rect(x, y, WIDTH, 15.0, WASH);
    canvas.heading(2, text, |canvas| {
        canvas.text(x + 6.0, y + 10.8, bold(9.5), text);
    });
    y + 27.0
}

fn more(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, left_out: usize) {
    canvas.text(x, y, bold(9.0), &words::MoreInExport { left_out: &left_out }.say(canvas.language));
}

fn deficiencies(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, bottom: f32, found: &[Correction]) -> f32 {
    let open = found.iter().filter(|one| one.corrected.is_none()).count();
    let title = match (found.len(), open) {
        (0, _) => words::DeficienciesNone.say(canvas.language),
        (all, 0) => words::DeficienciesAllCorrected { all: &all }.say(canvas.language),
        (all, open) => words::DeficienciesOpen { all: &all, open: &open }.say(canvas.language),
    };
    let mut line = head(canvas, x, y, &title);
    for (at, one) in found.iter().enumerate() {
        if line + 24.0 > bottom && at + 1 < found.len() {
            more(canvas, x, line, found.len() - at);
            line += 14.0;
            break;
        }
        let state = if one.corrected.is_some() {
            words::StateCorrected.say(canvas.language)
        } else {
            words::StateOpen.say(canvas.language)
        };
        canvas.together(|canvas| {
            canvas.text(x, line, bold(8.5), &state);
            canvas.fit((x + 58.0, line), WIDTH - 58.0, bold(10.0), &format!("{}: {}", one.point, one.found));
            if let Some(corrected) = &one.corrected {
                canvas.fit((x + 58.0, line + 11.5), WIDTH - 58.0, plain(9.5), corrected);
            }
        });
        if one.corrected.is_some() {
            line += 11.5;
        }
        canvas.line((x, line + 4.0), (x + WIDTH, line + 4.0), 0.4, RULE);
        line += 15.0;
    }
    if found.is_empty() { line - 6.0 } else { line }
}

fn rigging(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, bottom: f32, page: &RecordPage) -> f32 {
    if page.rigging.is_empty() && page.warnings.is_empty() {
        return y;
    }
    let mut line = head(canvas, x, y, &words::HowItHangs.say(canvas.language));
    let column = (WIDTH - 24.0) / 2.0;
    for (at, [part, tension, share]) in page.rigging.iter().take(8).enumerate() {
        let place = x + (at % 2) as f32 * (column + 24.0);
        canvas.together(|canvas| {
            canvas.fit((place, line), column - 150.0, plain(10.0), part);
            canvas.text(place + column - 60.0, line, plain(10.0).side(Side::Right), tension);
            canvas.text(place + column, line, bold(10.0).side(Side::Right), share);
        });
        if at % 2 == 1 || at + 1 == page.rigging.len().min(8) {
            line += 13.0;
        }
    }
    for words in &page.otherwise {
        canvas.fit((x, line), WIDTH, bold(10.0), words);
        line += 13.0;
    }
    for warning in &page.warnings {
        if line > bottom {
            break;
        }
        canvas.fit((x, line), WIDTH, plain(9.0), warning);
        line += 11.5;
    }
    line
}

/// The load as lines: what was found deficient is heavy, the rest stands back.
fn load(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, drawing: &DrawingView) {
    let scale = DRAWN / drawing.side.max(1) as f32;
    for marked in [false, true] {
        for line in drawing.lines.iter().filter(|line| line.marked == marked) {
            let dots: Vec<(f32, f32)> = line
                .dots
                .chunks_exact(2)
                .filter_map(|dot| Some((x + *dot.first()? as f32 * scale, y + *dot.last()? as f32 * scale)))
                .collect();
            let (width, grey) = match (marked, line.fine || line.hidden) {
                (true, _) => (1.8, INK),
                (false, false) => (0.6, SOFT),
                (false, true) => (0.3, RULE),
            };
            let next = dots.iter().skip(1).chain(dots.first().filter(|_| line.closed));
            for (from, to) in dots.iter().zip(next) {
                canvas.line(*from, *to, width, grey);
            }
        }
    }
}

fn story(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, bottom: f32, width: f32, moments: &[Moment]) {
    let mut line = head(canvas, x, y, &words::WhatHappenedUtc.say(canvas.language));
    let top = line;
    let room = (((bottom - line) / 12.5).floor().max(1.0)) as usize;
    let shown = if moments.len() > room { room.saturating_sub(1) } else { moments.len() };
    for moment in moments.iter().take(shown) {
        canvas.rect(x + 92.5, line - 5.5, 5.0, 5.0, INK);
        canvas.together(|canvas| {
            canvas.text(x, line, plain(9.0), &moment.when);
            canvas.fit((x + 106.0, line), width - 106.0, plain(9.5), &moment.what);
        });
        line += 12.5;
    }
    if shown > 1 {
        canvas.line((x + 95.0, top - 3.0), (x + 95.0, line - 15.5), 0.8, INK);
    }
    if shown < moments.len() {
        more(canvas, x, line, moments.len() - shown);
    }
}

fn foot(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, page: &RecordPage) {
    canvas.line((x, y), (x + WIDTH, y), 1.0, INK);
    canvas.together(|canvas| {
        canvas.text(x, y + 12.0, bold(7.5).grey(SOFT), &words::DigestOfRecord.say(canvas.language));
        canvas.text(x, y + 23.0, plain(9.0), &page.digest);
    });
    let note = words::CopyProvesNothing.say(canvas.language);
    canvas.block((x, y + 35.0), WIDTH, 2, plain(8.0).grey(SOFT), &note);
}
