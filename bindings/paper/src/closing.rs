//! The closing statement on paper: what a leader hands up.

use slingseal_app::catalogue::paper as words;
use slingseal_app::{AppError, ClosingView, Language};

use super::canvas::{Canvas, INK, SOFT, bold, plain};
use super::document::{Draw, HEIGHT, Paper, WIDTH, document};

/// Points on the first page, and on each after it.
const FIRST: usize = 14;
const NEXT: usize = 20;
const ROW: f32 = 34.0;

/// The statement; further pages where many points were open.
///
/// # Errors
/// The page cannot be written.
pub fn closing_pdf(statement: &ClosingView, paper: Paper, language: Language) -> Result<Vec<u8>, AppError> {
    let more = statement.explained.len().saturating_sub(FIRST).div_ceil(NEXT);
    let draws: Vec<_> = (0..=more)
        .map(|page| {
            move |canvas: &mut Canvas<'_, '_>, (x, y): (f32, f32)| draw(canvas, x, y, statement, page)
        })
        .collect();
    let pages: Vec<(String, &Draw<'_>)> = (1_u32..)
        .zip(&draws)
        .map(|(number, draw)| (words::PageNumbered { page: number }.say(language), draw as &Draw<'_>))
        .collect();
    let title = words::ClosingOf { name: &statement.name }.say(language);
    Ok(document(&title, &statement.issued.rfc3339, paper, language, &pages)?)
}

fn draw(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, statement: &ClosingView, page: usize) {
    canvas.mark(x, y, 18.0, INK);
    canvas.text(x + 26.0, y + 14.5, bold(12.0), &words::ClosingStatement.say(canvas.language));
    canvas.line((x, y + 24.0), (x + WIDTH, y + 24.0), 2.0, INK);
    let mut line = y + 44.0;
    let (skip, take) = if page == 0 { (0, FIRST) } else { (FIRST + (page - 1) * NEXT, NEXT) };
    if page == 0 {
        canvas.fit((x, line + 14.0), WIDTH, bold(26.0), &statement.name);
        line += 36.0;
        let labels = [
            words::CountedLoads.saying(),
            words::CountedInspections.saying(),
            words::CountedLifted.saying(),
            words::CountedSetDown.saying(),
            words::CountedLost.saying(),
        ];
        for (at, (label, count)) in labels.iter().zip(&statement.counts).enumerate() {
            let column = x + at as f32 * WIDTH / 5.0;
            canvas.text(column, line, bold(7.5).grey(SOFT), &label.say(canvas.language).to_uppercase());
            canvas.text(column, line + 20.0, bold(18.0), &count.to_string());
        }
        line += 40.0;
        let signed =
            words::SignedByAt { by: &statement.by, at: &statement.issued.dtg, check: &statement.check }
                .say(canvas.language);
        canvas.fit((x, line), WIDTH, plain(11.0), &signed);
        let account = words::AccountRestsOn { count: &statement.words }.say(canvas.language);
        canvas.fit((x, line + 15.0), WIDTH, plain(9.5), &account);
        canvas.fit((x, line + 27.0), WIDTH, plain(9.5), &statement.account);
        line += 48.0;
        let heading = match statement.explained.len() {
            0 => words::NothingWasOpen.say(canvas.language),
            1 => words::OnePointExplained.say(canvas.language),
            many => words::ManyPointsExplained { many: &many }.say(canvas.language),
        };
        canvas.text(x, line, bold(11.0), &heading);
        line += 18.0;
    }
    for point in statement.explained.iter().skip(skip).take(take) {
        canvas.fit((x, line), WIDTH, bold(10.0), &format!("{}: {}", point.subject, point.title));
        canvas.block((x, line + 12.0), WIDTH, 2, plain(9.5), &point.note);
        line += ROW;
    }
    canvas.text(
        x,
        y + HEIGHT - 12.0,
        plain(8.0).grey(SOFT),
        &words::PageNumbered { page: &(page + 1) }.say(canvas.language),
    );
}
