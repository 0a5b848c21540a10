//! One part of an authority's copy on paper: the code, and its text for the day on which no camera reads it.

use slingseal_app::catalogue::paper as words;
use slingseal_app::{AppError, AuthorityCopy, Language};

use super::canvas::{Canvas, INK, bold, plain};
use super::document::{Paper, WIDTH, document};
use super::from_views::code;

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
    let (part, number) = if second { (&copy.second, 2_u32) } else { (&copy.first, 1) };
    let title = words::CopyPart { part: number, name: &copy.name }.say(language);
    let draw = |canvas: &mut Canvas<'_, '_>, (x, y): (f32, f32)| {
        canvas.mark(x, y, 18.0, INK);
        canvas.text(x + 26.0, y + 14.5, bold(12.0), &title);
        canvas.line((x, y + 24.0), (x + WIDTH, y + 24.0), 2.0, INK);
        canvas.fit((x, y + 50.0), WIDTH, bold(14.0), &copy.fingerprint);
        canvas.block((x, y + 74.0), WIDTH, 4, plain(11.0), &words::CopyKeepApart.say(language));
        canvas.code((x + 60.0, y + 130.0), WIDTH - 120.0, &code(part), &title);
        let mut line = y + 130.0 + WIDTH - 120.0 + 24.0;
        let letters: Vec<char> = part.text.chars().collect();
        for row in letters.chunks(56) {
            canvas.text(x, line, plain(12.0), &row.iter().collect::<String>());
            line += 17.0;
        }
    };
    Ok(document(&title, dated, paper, language, &[(title.clone(), &draw)])?)
}
