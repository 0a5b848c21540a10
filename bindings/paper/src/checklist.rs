use slingseal_app::catalogue::paper as words;
use slingseal_app::{ChecklistCard, ChecklistView, Language};

use super::canvas::{Canvas, INK, RULE, SOFT, WASH, bold, plain};
use super::document::{Draw, HEIGHT, Paper, PrintError, WIDTH, document};
use super::fonts::{Fonts, Weight};

/// A list is no message and has no time of its own; the document says the day on which time begins.
const UNDATED: &str = "1970-01-01T00:00:00Z";
const CODE: f32 = 92.0;
/// Base line to base line of a point.
const LINE: f32 = 11.5;
const HEAD: f32 = 118.0;

/// What stands on the paper, line by line, before it is cut into pages.
enum Line<'v> {
    Station(&'v str),
    Card(u32, &'v str),
    Motion(String),
    /// A box with what is judged.
    Point(String),
    More(String),
}

impl Line<'_> {
    fn height(&self) -> f32 {
        match self {
            Self::Station(_) => 22.0,
            Self::Card(..) => 16.0,
            Self::Point(_) => LINE + 1.5,
            Self::Motion(_) | Self::More(_) => LINE - 1.5,
        }
    }

    /// What may not be the last on a page: a heading without what it heads.
    fn heads(&self) -> bool {
        matches!(self, Self::Station(_) | Self::Card(..) | Self::Motion(_))
    }
}

fn lines<'v>(fonts: &Fonts, cards: &'v [ChecklistCard], language: Language) -> Vec<Line<'v>> {
    let mut lines = Vec::new();
    for card in cards {
        lines.extend(card.station.as_deref().map(Line::Station));
        lines.push(Line::Card(card.number, &card.title));
        lines.extend(
            fonts.wrap(&card.motion, Weight::Regular, 8.5, WIDTH - 24.0).into_iter().map(Line::Motion),
        );
        for point in &card.points {
            let mut words = point.prompt.clone();
            if !point.answer.is_empty() {
                words.push_str(&format!("  ({})  ______", point.answer));
            }
            let mut wrapped = fonts.wrap(&words, Weight::Bold, 9.0, WIDTH - 44.0).into_iter();
            let first = wrapped.next().unwrap_or_default();
            lines.push(Line::Point(first));
            lines.extend(wrapped.map(Line::More));
            let wrong = words::NotWhere { deficiencies: point.deficiencies.join("; ") }.say(language);
            let small = format!("{}   {}   {wrong}", point.id, point.source);
            lines.extend(fonts.wrap(&small, Weight::Regular, 7.0, WIDTH - 44.0).into_iter().map(Line::More));
        }
    }
    lines
}

/// Cuts lines into pages, none of which ends with a heading.
fn pages(lines: &[Line<'_>], first: f32, other: f32) -> Vec<std::ops::Range<usize>> {
    let (mut pages, mut start) = (Vec::new(), 0);
    while start < lines.len() {
        let room = if pages.is_empty() { first } else { other };
        let mut used = 0.0;
        let mut end = start;
        while let Some(line) = lines.get(end).filter(|line| used + line.height() <= room) {
            used += line.height();
            end += 1;
        }
        let mut cut = end;
        if end < lines.len() {
            while cut > start + 1 && lines.get(cut - 1).is_some_and(Line::heads) {
                cut -= 1;
            }
        }
        let cut = cut.max(start + 1);
        pages.push(start..cut);
        start = cut;
    }
    pages
}

/// A blank checklist of one procedure.
///
/// # Errors
/// The pages cannot be written.
pub fn checklist_pdf(view: &ChecklistView, paper: Paper, language: Language) -> Result<Vec<u8>, PrintError> {
    let fonts = Fonts::new();
    let lines = lines(&fonts, &view.cards, language);
    let cut = pages(&lines, HEIGHT - HEAD - 40.0, HEIGHT - 64.0);
    let of = cut.len();
    let drawn: Vec<Box<Draw<'_>>> = cut
        .into_iter()
        .enumerate()
        .map(|(at, range)| {
            let lines = lines.get(range).unwrap_or_default();
            Box::new(move |canvas: &mut Canvas<'_, '_>, (x, y): (f32, f32)| {
                let top = if at == 0 { head(canvas, x, y, view) } else { running(canvas, x, y, view) };
                body(canvas, x, top, lines);
                foot(canvas, x, y + HEIGHT, view, at + 1, of);
            }) as Box<Draw<'_>>
        })
        .collect();
    let drawn: Vec<(String, &Draw<'_>)> = drawn
        .iter()
        .enumerate()
        .map(|(at, draw)| (words::PageNumbered { page: &(at + 1) }.say(language), draw.as_ref()))
        .collect();
    document(
        &words::BlankChecklistOf { id: &view.id, version: &view.version }.say(language),
        UNDATED,
        paper,
        language,
        &drawn,
    )
}

fn head(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, view: &ChecklistView) -> f32 {
    canvas.mark(x, y, 18.0, INK);
    canvas.text(x + 26.0, y + 14.5, bold(12.0), &words::BlankChecklist.say(canvas.language));
    canvas.line((x, y + 24.0), (x + WIDTH, y + 24.0), 2.0, INK);
    let left = WIDTH - CODE - 12.0;
    canvas.heading(1, &view.title, |canvas| canvas.fit((x, y + 46.0), left, bold(20.0), &view.title));
    let version = words::VersionOf { procedure: &view.id, version: view.version }.say(canvas.language);
    let edition = format!("{version}   {}", view.approval);
    canvas.fit((x, y + 60.0), left, plain(9.5), &edition);
    let mut line = y + 74.0;
    for caution in &view.cautions {
        line = canvas.block((x, line), left, 2, bold(8.5), caution);
    }
    canvas.block((x, line + 2.0), left, 1, plain(9.0), &words::LoadInspectorDate.say(canvas.language));
    canvas.code(
        (x + WIDTH - CODE, y + 28.0),
        CODE,
        &super::from_views::code(&view.code),
        &words::ListAndEditionAsCode.say(canvas.language),
    );
    y + HEAD + 12.0
}

fn running(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, view: &ChecklistView) -> f32 {
    let version = words::VersionOf { procedure: &view.id, version: view.version }.say(canvas.language);
    canvas.text(x, y + 12.0, bold(9.0), &format!("{}   {version}", view.title));
    canvas.line((x, y + 18.0), (x + WIDTH, y + 18.0), 1.0, INK);
    y + 34.0
}

fn body(canvas: &mut Canvas<'_, '_>, x: f32, top: f32, lines: &[Line<'_>]) {
    let mut y = top;
    for line in lines {
        match line {
            Line::Station(title) => {
                canvas.rect(x, y - 6.0, WIDTH, 15.0, WASH);
                canvas.heading(2, title, |canvas| {
                    canvas.text(x + 4.0, y + 5.0, bold(10.0), title);
                });
            }
            Line::Card(number, title) => {
                canvas.heading(3, title, |canvas| {
                    canvas.text(x, y + 4.0, bold(10.0), &number.to_string());
                    canvas.fit((x + 24.0, y + 4.0), WIDTH - 24.0, bold(10.0), title);
                });
            }
            Line::Motion(words) => {
                canvas.text(x + 24.0, y, plain(8.5), words);
            }
            Line::Point(words) => {
                let (left, low) = (x + 26.0, y + 1.5);
                canvas.outlined(
                    &[(left, low - 8.0), (left + 8.5, low - 8.0), (left + 8.5, low + 0.5), (left, low + 0.5)],
                    0.9,
                    INK,
                );
                canvas.text(x + 44.0, y, bold(9.0), words);
            }
            Line::More(words) => {
                canvas.text(x + 44.0, y - 1.0, plain(7.0).grey(SOFT), words);
            }
        }
        y += line.height();
    }
}

fn foot(canvas: &mut Canvas<'_, '_>, x: f32, bottom: f32, view: &ChecklistView, page: usize, of: usize) {
    canvas.line((x, bottom - 14.0), (x + WIDTH, bottom - 14.0), 0.5, RULE);
    let words = words::DigestAndPage { digest: &view.digest, page: &page, of: &of }.say(canvas.language);
    canvas.text(x, bottom - 4.0, plain(7.0).grey(SOFT), &words);
}
