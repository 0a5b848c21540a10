//! Lines, shapes and letters, written as SVG.

use std::fmt::Write as _;

use super::lettering::{Lettering, Weight};

/// Where a text stands to its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// How a text looks.
#[derive(Clone, Copy, Debug)]
pub(super) struct Style {
    pub size: f64,
    pub weight: Weight,
    pub colour: &'static str,
    pub anchor: Anchor,
}

impl Style {
    pub fn new(size: f64, colour: &'static str) -> Self {
        Self { size, weight: Weight::Medium, colour, anchor: Anchor::Start }
    }

    pub fn bold(self) -> Self {
        Self { weight: Weight::Bold, ..self }
    }

    pub fn at(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }
}

/// How a line looks.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stroke {
    pub width: f64,
    pub colour: &'static str,
    /// Dash and gap; `None` is whole.
    pub dash: Option<(f64, f64)>,
}

impl Stroke {
    pub fn new(width: f64, colour: &'static str) -> Self {
        Self { width, colour, dash: None }
    }

    pub fn dashed(self, dash: f64, gap: f64) -> Self {
        Self { dash: Some((dash, gap)), ..self }
    }

    fn attributes(&self) -> String {
        let dash =
            self.dash.map(|(dash, gap)| format!(" stroke-dasharray=\"{dash} {gap}\"")).unwrap_or_default();
        format!(
            "stroke=\"{}\" stroke-width=\"{:.1}\" stroke-linecap=\"round\" stroke-linejoin=\"round\"{dash}",
            self.colour, self.width
        )
    }
}

/// A point of the picture: right and down from its top left corner.
pub(super) type Point = (f64, f64);

/// The picture while it is drawn.
pub(super) struct Canvas {
    body: String,
    letters: Lettering,
}

impl Canvas {
    pub fn new() -> Self {
        Self { body: String::new(), letters: Lettering::new() }
    }

    fn put(&mut self, element: std::fmt::Arguments<'_>) {
        // Writing to a `String` cannot fail.
        let _ = writeln!(self.body, "{element}");
    }

    /// What is drawn until `end` can be found again by its name.
    pub fn begin(&mut self, name: &str) {
        self.put(format_args!("<g id=\"{name}\">"));
    }

    pub fn end(&mut self) {
        self.put(format_args!("</g>"));
    }

    pub fn rect(&mut self, (x, y): Point, width: f64, height: f64, fill: &str, round: f64) {
        self.put(format_args!(
            "<rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{width:.1}\" height=\"{height:.1}\" rx=\"{round}\" \
             fill=\"{fill}\"/>"
        ));
    }

    pub fn line(&mut self, (x1, y1): Point, (x2, y2): Point, stroke: Stroke) {
        let look = stroke.attributes();
        self.put(format_args!("<path d=\"M{x1:.1} {y1:.1}L{x2:.1} {y2:.1}\" fill=\"none\" {look}/>"));
    }

    pub fn shape(&mut self, points: &[Point], fill: &str, stroke: Option<Stroke>) {
        let mut path = String::new();
        for (at, (x, y)) in points.iter().enumerate() {
            let _ = write!(path, "{}{x:.1} {y:.1}", if at == 0 { 'M' } else { 'L' });
        }
        let look = stroke.map(|stroke| format!(" {}", stroke.attributes())).unwrap_or_default();
        self.put(format_args!("<path d=\"{path}Z\" fill=\"{fill}\"{look}/>"));
    }

    pub fn path(&mut self, path: &str, fill: &str, stroke: Option<Stroke>) {
        let look = stroke.map(|stroke| format!(" {}", stroke.attributes())).unwrap_or_default();
        self.put(format_args!("<path d=\"{path}\" fill=\"{fill}\"{look}/>"));
    }

    pub fn circle(&mut self, (x, y): Point, radius: f64, fill: &str, stroke: Option<Stroke>) {
        let look = stroke.map(|stroke| format!(" {}", stroke.attributes())).unwrap_or_default();
        self.put(format_args!(
            "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"{radius:.1}\" fill=\"{fill}\"{look}/>"
        ));
    }

    pub fn text(&mut self, (x, y): Point, text: &str, style: Style) {
        let width = self.width(text, style);
        let x = match style.anchor {
            Anchor::Start => x,
            Anchor::Middle => x - width / 2.0,
            Anchor::End => x - width,
        };
        let outline = self.letters.outline(text, style.size, style.weight, x, y);
        self.put(format_args!("<path d=\"{outline}\" fill=\"{}\"/>", style.colour));
    }

    /// The same text, smaller where it would be wider than `room`.
    pub fn fitted(&mut self, at: Point, text: &str, style: Style, room: f64) {
        let width = self.width(text, style);
        let size = if width > room { style.size * room / width } else { style.size };
        self.text(at, text, Style { size, ..style });
    }

    pub fn width(&self, text: &str, style: Style) -> f64 {
        self.letters.width(text, style.size, style.weight)
    }

    /// The text in lines no wider than `room`, broken between words.
    pub fn wrapped(&self, text: &str, style: Style, room: f64) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        for word in text.split_whitespace() {
            let longer = lines.last().map(|line| format!("{line} {word}"));
            match (longer, lines.last_mut()) {
                (Some(longer), Some(last))
                    if self.letters.width(&longer, style.size, style.weight) <= room =>
                {
                    *last = longer
                }
                _ => lines.push(word.to_owned()),
            }
        }
        lines
    }

    /// The whole picture; `told` is what it says, for those who hear it.
    pub fn finish(self, width: f64, height: f64, title: &str, told: &str) -> String {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.0}\" height=\"{height:.0}\" \
             viewBox=\"0 0 {width:.0} {height:.0}\" role=\"img\">\n<title>{}</title>\n<desc>{}</desc>\n\
             <rect width=\"{width:.0}\" height=\"{height:.0}\" fill=\"#ffffff\"/>\n{}</svg>\n",
            escaped(title),
            escaped(told),
            self.body
        )
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
