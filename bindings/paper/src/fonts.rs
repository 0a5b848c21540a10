use krilla::text::Font;
use slingseal_app::is_invisible;
use ttf_parser::Face;

const REGULAR: &[u8] = include_bytes!("fonts/atkinson-hyperlegible-regular.ttf");
const BOLD: &[u8] = include_bytes!("fonts/atkinson-hyperlegible-bold.ttf");

/// The regular and the bold font as files, for a page that shows what paper shows.
pub fn faces() -> (&'static [u8], &'static [u8]) {
    (REGULAR, BOLD)
}

/// How heavy a text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Weight {
    Regular,
    Bold,
}

/// One font, for drawing and for measuring.
struct Cut {
    font: Font,
    face: Face<'static>,
}

impl Cut {
    fn new(bytes: &'static [u8]) -> Self {
        let font = Font::new(bytes.into(), 0).expect("the bundled font is whole; the tests draw with it");
        let face = Face::parse(bytes, 0).expect("the bundled font is whole; the tests draw with it");
        Self { font, face }
    }

    /// The advance of a letter in parts of the size; `None` where the font has no such letter.
    fn advance(&self, letter: char) -> Option<f32> {
        let glyph = self.face.glyph_index(letter)?;
        let units = self.face.glyph_hor_advance(glyph)?;
        Some(f32::from(units) / f32::from(self.face.units_per_em()))
    }
}

/// The bundled fonts, and which letter comes from which.
pub(super) struct Fonts {
    regular: Cut,
    bold: Cut,
    /// Greek, Cyrillic and Vietnamese, in one weight.
    wide: Cut,
}

/// A stretch of text in one font.
pub(super) struct Run {
    pub(super) font: Font,
    pub(super) text: String,
    pub(super) width: f32,
}

impl Fonts {
    pub(super) fn new() -> Self {
        Self {
            regular: Cut::new(REGULAR),
            bold: Cut::new(BOLD),
            wide: Cut::new(include_bytes!("fonts/open-sans-wide.ttf")),
        }
    }

    /// Cuts a text into runs by font. A letter that no font has becomes a question mark: a box would pass for a letter.
    pub(super) fn runs(&self, text: &str, weight: Weight, size: f32) -> Vec<Run> {
        let main = match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        };
        let mut runs: Vec<(bool, Run)> = Vec::new();
        for letter in text.chars() {
            // Nor may a letter hide, or turn round what stands beside it.
            let letter = match letter {
                blank if blank.is_whitespace() => ' ',
                hidden if is_invisible(hidden) => '?',
                letter => letter,
            };
            let (is_main, letter, advance) = match (main.advance(letter), self.wide.advance(letter)) {
                (Some(advance), _) => (true, letter, advance),
                (None, Some(advance)) => (false, letter, advance),
                (None, None) => (true, '?', main.advance('?').unwrap_or(0.5)),
            };
            match runs.last_mut() {
                Some((last, run)) if *last == is_main => {
                    run.text.push(letter);
                    run.width += advance * size;
                }
                _ => {
                    let font = if is_main { main } else { &self.wide }.font.clone();
                    runs.push((is_main, Run { font, text: letter.into(), width: advance * size }));
                }
            }
        }
        runs.into_iter().map(|(_, run)| run).collect()
    }

    pub(super) fn width(&self, text: &str, weight: Weight, size: f32) -> f32 {
        self.runs(text, weight, size).iter().map(|run| run.width).sum()
    }

    /// Cuts a text into lines that fit `width`; a word that is wider than a line is cut.
    pub(super) fn wrap(&self, text: &str, weight: Weight, size: f32, width: f32) -> Vec<String> {
        let mut lines = Vec::new();
        let mut line = String::new();
        for word in text.split_whitespace() {
            let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
            if self.width(&longer, weight, size) <= width {
                line = longer;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            for letter in word.chars() {
                if !line.is_empty() && self.width(&format!("{line}{letter}"), weight, size) > width {
                    lines.push(std::mem::take(&mut line));
                }
                line.push(letter);
            }
        }
        if !line.is_empty() {
            lines.push(line);
        }
        lines
    }
}
