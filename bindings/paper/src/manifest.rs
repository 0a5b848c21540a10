//! A day's manifest on paper: its loads in the order in which they are to be lifted, with room to tick them off.

use slingseal_app::catalogue::{board as words, paper};
use slingseal_app::{AppError, Language, ManifestLine, ManifestView};

use super::canvas::{Canvas, INK, SOFT, bold, plain};
use super::document::{Draw, HEIGHT, Paper, WIDTH, document};

/// Loads on a page.
const LINES: usize = 20;
const ROW: f32 = 32.0;

/// The manifest; further pages where it is long.
///
/// # Errors
/// The page cannot be written.
pub fn manifest_pdf(view: &ManifestView, paper: Paper, language: Language) -> Result<Vec<u8>, AppError> {
    let count = view.lines.len().div_ceil(LINES).max(1);
    let draws: Vec<_> = (0..count)
        .map(|page| move |canvas: &mut Canvas<'_, '_>, (x, y): (f32, f32)| draw(canvas, x, y, view, page))
        .collect();
    let pages: Vec<(String, &Draw<'_>)> = (1_u32..)
        .zip(&draws)
        .map(|(number, draw)| (paper::PageNumbered { page: number }.say(language), draw as &Draw<'_>))
        .collect();
    let title = words::ManifestTitle { day: &view.day }.say(language);
    Ok(document(&title, &view.at.rfc3339, paper, language, &pages)?)
}

fn draw(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, view: &ManifestView, page: usize) {
    let language = canvas.language;
    canvas.mark(x, y, 18.0, INK);
    let title = words::ManifestTitle { day: &view.day }.say(language);
    canvas.heading(1, &title, |canvas| {
        canvas.text(x + 26.0, y + 14.5, bold(14.0), &title);
    });
    canvas.line((x, y + 24.0), (x + WIDTH, y + 24.0), 2.0, INK);
    let known = words::ManifestKnownAt { count: view.lines.len(), at: &view.at.dtg }.say(language);
    canvas.fit((x, y + 38.0), WIDTH, plain(9.5), &known);
    let mut line = y + 60.0;
    for one in view.lines.iter().skip(page * LINES).take(LINES) {
        canvas.together(|canvas| row(canvas, x, line, one, language));
        line += ROW;
    }
    let number = paper::PageNumbered { page: &(page + 1) }.say(language);
    canvas.text(x, y + HEIGHT - 12.0, plain(8.0).grey(SOFT), &number);
}

fn row(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, one: &ManifestLine, language: Language) {
    let facts = [one.description.as_str(), &one.gross, &one.aircraft];
    let facts: Vec<&str> = facts.into_iter().filter(|fact| !fact.is_empty()).collect();
    canvas.fit((x, y), 26.0, bold(12.0), &one.place.to_string());
    canvas.fit((x + 32.0, y), 96.0, bold(12.0), &one.load);
    canvas.fit((x + 134.0, y), WIDTH - 134.0, plain(10.5), &facts.join(" · "));
    canvas.fit((x + 32.0, y + 13.0), WIDTH / 2.0 - 20.0, plain(9.0), &one.way(language));
    canvas.fit((x + WIDTH / 2.0 + 20.0, y + 13.0), WIDTH / 2.0 - 20.0, plain(9.0), &one.stands(language));
    canvas.line((x, y + 19.0), (x + WIDTH, y + 19.0), 0.5, SOFT);
}
