//! A rigged load on paper: the sheet for riggers (which link in which hook, which leg where, with the picture), and the data sheet for
//! the aircrew; in the reader's language.

use krilla::tagging::{TableHeaderScope, Tag};
use slingseal_app::catalogue::rigging as words;
use slingseal_app::{AppError, Language, RiggingPaper, RiggingView, drawing};

use super::canvas::{Canvas, INK, RULE, SOFT, WASH, bold, plain};
use super::document::{HEIGHT, Paper, WIDTH, document};

/// What stands at the head of a sheet.
#[derive(Clone, Copy, Debug, Default)]
pub struct Head<'h> {
    /// The load's number, or the file's name.
    pub load: &'h str,
    /// What it is.
    pub description: &'h str,
    /// RFC 3339 with `Z`; a file has no time of its own.
    pub dated: Option<&'h str>,
}

const UNDATED: &str = "1970-01-01T00:00:00Z";

/// The sheet for riggers, one page.
///
/// # Errors
/// The page cannot be written.
pub fn rigging_pdf(
    view: &RiggingView,
    head: Head<'_>,
    paper: Paper,
    language: Language,
) -> Result<Vec<u8>, AppError> {
    let title = words::SheetTitle { load: head.load }.say(language);
    let draw = |canvas: &mut Canvas<'_, '_>, at: (f32, f32)| on_the_sheet(canvas, at, view, head, language);
    Ok(document(&title, head.dated.unwrap_or(UNDATED), paper, language, &[(title.clone(), &draw)])?)
}

/// The data sheet for the aircrew, one page.
///
/// # Errors
/// The page cannot be written.
pub fn aircrew_pdf(
    view: &RiggingView,
    flight: Option<&str>,
    head: Head<'_>,
    paper: Paper,
    language: Language,
) -> Result<Vec<u8>, AppError> {
    let title = words::AircrewTitle { load: head.load }.say(language);
    let draw = |canvas: &mut Canvas<'_, '_>, at: (f32, f32)| {
        for_the_aircrew(canvas, at, view, flight, head, language)
    };
    Ok(document(&title, head.dated.unwrap_or(UNDATED), paper, language, &[(title.clone(), &draw)])?)
}

/// The rigging sheet, as a page of its own or behind a load sheet.
pub(super) fn on_the_sheet(
    canvas: &mut Canvas<'_, '_>,
    (x, y): (f32, f32),
    view: &RiggingView,
    head: Head<'_>,
    language: Language,
) {
    let paper = &view.paper;
    let mut line = masthead(canvas, (x, y), words::SheetHead.say(language), head);
    line = facts(canvas, (x, line), paper, language);
    let rows: Vec<Vec<String>> = paper
        .legs
        .iter()
        .map(|leg| {
            let link = match leg.link.zip(leg.links) {
                Some((link, of)) => {
                    words::LinkOf { link: link.to_string(), of: of.to_string() }.say(language)
                }
                None => "–".into(),
            };
            let rope = if leg.rope.is_empty() { "–".into() } else { leg.rope.clone() };
            let carries = format!("{} ({})", leg.carries, leg.share);
            vec![leg.leg.clone(), link, rope, leg.hook.clone(), leg.point.join(" · "), carries]
        })
        .collect();
    let columns = [
        (0.0, words::ColumnLeg.say(language)),
        (62.0, words::ColumnLink.say(language)),
        (142.0, words::ColumnRope.say(language)),
        (206.0, words::ColumnHook.say(language)),
        (266.0, words::ColumnPoint.say(language)),
        (416.0, words::ColumnCarries.say(language)),
    ];
    line = table(canvas, (x, line), &columns, &rows, 11.0);
    canvas.block((x, line + 4.0), WIDTH, 2, plain(9.0), &words::CountFromFree.say(language));
    line += 30.0;
    let foot = y + HEIGHT - 46.0;
    picture(canvas, (x, line), foot - line, view, language);
    cautions(canvas, (x, foot + 12.0), language);
}

fn for_the_aircrew(
    canvas: &mut Canvas<'_, '_>,
    (x, y): (f32, f32),
    view: &RiggingView,
    flight: Option<&str>,
    head: Head<'_>,
    language: Language,
) {
    let paper = &view.paper;
    let mut line = masthead(canvas, (x, y), words::AircrewHead.say(language), head);
    line = facts(canvas, (x, line), paper, language);
    if paper.hooks.len() > 1 {
        let hooks: Vec<String> =
            paper.hooks.iter().map(|hook| format!("{} {}", hook.hook, hook.carries)).collect();
        canvas.together(|canvas| {
            canvas.text(x, line, bold(9.0), &words::HooksCarry.say(language));
            canvas.fit((x + 90.0, line), WIDTH - 90.0, plain(11.0), &hooks.join(" · "));
        });
        line += 16.0;
    }
    let rows: Vec<Vec<String>> = paper
        .parts
        .iter()
        .take(14)
        .map(|part| {
            vec![
                part.part.clone(),
                part.carries.clone(),
                part.rated.clone(),
                part.share.clone(),
                if part.source.is_empty() { words::NoSource.say(language) } else { part.source.clone() },
            ]
        })
        .collect();
    let columns = [
        (0.0, words::ColumnPart.say(language)),
        (160.0, words::ColumnCarries.say(language)),
        (240.0, words::ColumnRated.say(language)),
        (316.0, words::ColumnShare.say(language)),
        (360.0, words::ColumnSource.say(language)),
    ];
    line = table(canvas, (x, line), &columns, &rows, 9.5) + 6.0;
    let foot = y + HEIGHT - 46.0;
    if let Some(flight) = flight {
        // The drawing has what is left, and at least a third of the page.
        let most = (((foot - line - HEIGHT / 3.0) / 11.0).max(0.0)) as usize;
        let lines: Vec<&str> = flight.lines().filter(|line| !line.is_empty()).collect();
        for text in lines.iter().take(most) {
            line = canvas.block((x, line + 8.0), WIDTH, 2, plain(8.5), text) - 7.0;
        }
        if lines.len() > most {
            canvas.text(x, line + 8.0, bold(8.5), &words::MoreInTheFile.say(language));
            line += 11.0;
        }
        line += 8.0;
    }
    picture(canvas, (x, line), foot - line, view, language);
    cautions(canvas, (x, foot + 12.0), language);
}

fn masthead(canvas: &mut Canvas<'_, '_>, (x, y): (f32, f32), name: String, head: Head<'_>) -> f32 {
    canvas.mark(x, y, 18.0, INK);
    canvas.text(x + 26.0, y + 14.5, bold(12.0), &name);
    canvas.line((x, y + 24.0), (x + WIDTH, y + 24.0), 2.0, INK);
    canvas.heading(1, head.load, |canvas| canvas.fit((x, y + 54.0), WIDTH, bold(28.0), head.load));
    if head.description.is_empty() {
        return y + 66.0;
    }
    canvas.block((x, y + 70.0), WIDTH, 1, plain(11.0), head.description);
    y + 84.0
}

/// What the load weighs, where its centre is, how it hangs; answers where it ends.
fn facts(canvas: &mut Canvas<'_, '_>, (x, y): (f32, f32), paper: &RiggingPaper, language: Language) -> f32 {
    canvas.rect(x, y, WIDTH, 20.0, WASH);
    canvas.fit(
        (x + 8.0, y + 14.0),
        WIDTH - 16.0,
        bold(11.0),
        &format!("{}: {}", paper.state, paper.attitude),
    );
    let facts = [
        (words::FactMass.say(language), paper.mass.clone()),
        (words::FactCentre.say(language), paper.centre.join(" · ")),
    ];
    for (at, (label, value)) in facts.iter().enumerate() {
        let column = x + at as f32 * WIDTH * 0.35;
        canvas.together(|canvas| {
            canvas.text(column, y + 34.0, bold(7.5).grey(SOFT), &label.to_uppercase());
            canvas.fit((column, y + 50.0), WIDTH * 0.62, bold(14.0), value);
        });
    }
    y + 66.0
}

/// A table; answers where it ends. The last column ends at the sheet's edge.
fn table(
    canvas: &mut Canvas<'_, '_>,
    (x, y): (f32, f32),
    columns: &[(f32, String)],
    rows: &[Vec<String>],
    size: f32,
) -> f32 {
    let ends: Vec<f32> = columns.iter().skip(1).map(|(from, _)| *from).chain([WIDTH + 6.0]).collect();
    let step = size * 1.45;
    let mut line = y + 8.0;
    canvas.group(Tag::Table, |canvas| {
        canvas.group(Tag::TR, |canvas| {
            for ((from, name), to) in columns.iter().zip(&ends) {
                canvas.group(Tag::TH(TableHeaderScope::Column), |canvas| {
                    canvas.fit((x + from, line), to - from - 6.0, bold(7.5).grey(SOFT), &name.to_uppercase());
                });
            }
        });
        canvas.line((x, line + 3.0), (x + WIDTH, line + 3.0), 0.8, INK);
        for row in rows {
            line += step;
            canvas.group(Tag::TR, |canvas| {
                for ((cell, (from, _)), to) in row.iter().zip(columns).zip(&ends) {
                    // An empty cell is one, too: without it the row would be read as another.
                    let cell = if cell.is_empty() { " " } else { cell };
                    let set = if *from == 0.0 { bold(size) } else { plain(size) };
                    canvas.group(Tag::TD, |canvas| canvas.fit((x + from, line), to - from - 6.0, set, cell));
                }
            });
            canvas.line((x, line + 3.5), (x + WIDTH, line + 3.5), 0.4, RULE);
        }
    });
    line + 12.0
}

fn picture(
    canvas: &mut Canvas<'_, '_>,
    (x, y): (f32, f32),
    high: f32,
    view: &RiggingView,
    language: Language,
) {
    let Some(drawn) = view.picture_svg.as_deref().and_then(drawing) else { return };
    // The part with side, front and top alone: what else the picture says stands beside it.
    let said = words::PictureSays { summary: &view.summary }.say(language);
    canvas.picture((x, y), (WIDTH, high), &drawn, &said);
}

fn cautions(canvas: &mut Canvas<'_, '_>, (x, y): (f32, f32), language: Language) {
    let lines = [words::SheetCaution.say(language), words::SheetLeavesOut.say(language)];
    for (at, caution) in lines.iter().enumerate() {
        let line = y + at as f32 * 12.0;
        canvas.polygon(&[(x, line), (x + 7.0, line), (x + 3.5, line - 6.5)], INK);
        canvas.fit((x + 12.0, line), WIDTH - 12.0, bold(8.5), caution);
    }
}
