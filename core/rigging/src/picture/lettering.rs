//! Letters as outlines, so that a picture looks the same on every machine and needs no font there. The face is cut down
//! from a free one; its licence stands beside it in `face/`.

use std::fmt::Write as _;

use ttf_parser::{Face, GlyphId, OutlineBuilder};

/// How heavy letters are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Weight {
    Medium,
    Bold,
}

/// The two faces.
pub(super) struct Lettering {
    medium: Face<'static>,
    bold: Face<'static>,
}

impl Lettering {
    pub fn new() -> Self {
        let face = |bytes| Face::parse(bytes, 0).expect("the face is built in, and a test parses it");
        Self { medium: face(include_bytes!("face/medium.otf")), bold: face(include_bytes!("face/bold.otf")) }
    }

    fn face(&self, weight: Weight) -> &Face<'static> {
        match weight {
            Weight::Medium => &self.medium,
            Weight::Bold => &self.bold,
        }
    }

    /// How wide a text of this size is.
    pub fn width(&self, text: &str, size: f64, weight: Weight) -> f64 {
        let face = self.face(weight);
        let units: f64 = text.chars().map(|letter| advance(face, glyph(face, letter))).sum();
        units * size / f64::from(face.units_per_em())
    }

    /// The outline of a text as SVG path data, its baseline starting at `x`, `y`.
    pub fn outline(&self, text: &str, size: f64, weight: Weight, x: f64, y: f64) -> String {
        let face = self.face(weight);
        let scale = size / f64::from(face.units_per_em());
        let mut pen = Pen { path: String::new(), x, y, scale };
        for letter in text.chars() {
            let glyph = glyph(face, letter);
            let _ = face.outline_glyph(glyph, &mut pen);
            pen.x += advance(face, glyph) * scale;
        }
        pen.path
    }
}

/// A letter that the face lacks shows as its replacement box: a name is never silently shortened.
fn glyph(face: &Face<'_>, letter: char) -> GlyphId {
    face.glyph_index(letter).unwrap_or(GlyphId(0))
}

fn advance(face: &Face<'_>, glyph: GlyphId) -> f64 {
    f64::from(face.glyph_hor_advance(glyph).unwrap_or(0))
}

struct Pen {
    path: String,
    x: f64,
    y: f64,
    scale: f64,
}

impl Pen {
    fn to(&mut self, command: char, points: &[(f32, f32)]) {
        self.path.push(command);
        for (at, (x, y)) in points.iter().enumerate() {
            let (x, y) = (self.x + f64::from(*x) * self.scale, self.y - f64::from(*y) * self.scale);
            let gap = if at > 0 { " " } else { "" };
            let _ = write!(self.path, "{gap}{x:.1} {y:.1}");
        }
    }
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.to('M', &[(x, y)]);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.to('L', &[(x, y)]);
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.to('Q', &[(x1, y1), (x, y)]);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.to('C', &[(x1, y1), (x2, y2), (x, y)]);
    }

    fn close(&mut self) {
        self.path.push('Z');
    }
}
