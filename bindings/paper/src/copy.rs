//! One part of an authority's copy on paper: the code, and rows of letters for the day on which no camera reads it.

use slingseal_app::catalogue::paper as words;
use slingseal_app::{AppError, AuthorityCopy, Language};

use super::canvas::{Canvas, INK, bold, plain};
use super::document::{Paper, WIDTH, document};
use super::from_views::code;

/// Rows of letters that stand under one another.
const COLUMN: usize = 10;

/// The page of one part: never both on one sheet.
///
/// # Errors
/// The page cannot be written.
pub fn copy_pdf(
    copy: &AuthorityCopy,
    second: bool,
    dated: &str,
    paper: Paper,
    language: Language,
) -> Result<Vec<u8>, AppError> {
    let part = if second { &copy.second } else { &copy.first };
    let title = words::CopyPart { part: part.number, name: &copy.name }.say(language);
    let draw = |canvas: &mut Canvas<'_, '_>, (x, y): (f32, f32)| {
        canvas.mark(x, y, 18.0, INK);
        canvas.text(x + 26.0, y + 14.5, bold(12.0), &title);
        canvas.line((x, y + 24.0), (x + WIDTH, y + 24.0), 2.0, INK);
        canvas.fit((x, y + 50.0), WIDTH, bold(14.0), &copy.fingerprint);
        canvas.block((x, y + 74.0), WIDTH, 4, plain(11.0), &words::CopyKeepApart.say(language));
        canvas.code((x + 90.0, y + 130.0), WIDTH - 180.0, &code(&part.code), &title);
        let top = y + 130.0 + WIDTH - 180.0 + 20.0;
        canvas.block((x, top), WIDTH, 2, plain(10.0), &words::CopyRows.say(language));
        for (column, rows) in part.rows.chunks(COLUMN).enumerate() {
            for (line, row) in rows.iter().enumerate() {
                let place = (x + 262.0 * column as f32, top + 36.0 + 17.0 * line as f32);
                canvas.text(place.0, place.1, bold(9.0), &format!("{}.", column * COLUMN + line + 1));
                for (at, group) in row.split(' ').enumerate() {
                    canvas.text(place.0 + 24.0 + 48.0 * at as f32, place.1, plain(12.0), group);
                }
            }
        }
    };
    Ok(document(&title, dated, paper, language, &[(title.clone(), &draw)])?)
}
