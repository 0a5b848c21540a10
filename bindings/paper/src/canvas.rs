use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point, Rect};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::TextDirection;

use krilla::tagging::{
    Artifact, ArtifactType, BBox, ContentTag, Identifier, Node, SpanTag, Tag, TagGroup, TagKind,
};

use slingseal_app::{Drawing, Language, Step};

use super::code::Code;
use super::fonts::{Fonts, Weight};

/// Greys alone: every printer has them, and a red that says "no" is lost on most.
pub(super) const INK: u8 = 0x12;
pub(super) const SOFT: u8 = 0x55;
pub(super) const RULE: u8 = 0xB8;
pub(super) const WASH: u8 = 0xEC;
pub(super) const PAPER: u8 = 0xFF;

/// Where a text stands on its point.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Left,
    Middle,
    Right,
}

/// How a text is set.
#[derive(Clone, Copy)]
pub(super) struct Type {
    pub(super) size: f32,
    pub(super) weight: Weight,
    pub(super) grey: u8,
    pub(super) side: Side,
}

/// Regular, left, ink.
pub(super) const fn plain(size: f32) -> Type {
    Type { size, weight: Weight::Regular, grey: INK, side: Side::Left }
}

/// Bold, left, ink.
pub(super) const fn bold(size: f32) -> Type {
    Type { weight: Weight::Bold, ..plain(size) }
}

impl Type {
    pub(super) const fn grey(self, grey: u8) -> Self {
        Self { grey, ..self }
    }

    pub(super) const fn side(self, side: Side) -> Self {
        Self { side, ..self }
    }
}

/// A page to draw on; points of 1/72 in, from the top left.
///
/// What is drawn is what is read aloud, in the same order: a text is part of the group that is open, or a paragraph of its own;
/// lines and areas are decoration (ISO 14289-1).
pub(super) struct Canvas<'c, 's> {
    pub(super) fonts: &'c Fonts,
    pub(super) surface: &'c mut Surface<'s>,
    /// Whose words stand on it.
    pub(super) language: Language,
    /// The page's number, from nought.
    pub(super) page: usize,
    /// The groups of the page in the order of reading, and those that are open, the innermost last.
    pub(super) read: Vec<Node>,
    pub(super) open: Vec<TagGroup>,
}

fn fill(grey: u8) -> Fill {
    Fill {
        paint: rgb::Color::new(grey, grey, grey).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::EvenOdd,
    }
}

impl Canvas<'_, '_> {
    /// Everything that is drawn in `draw` is read as one group.
    pub(super) fn group(&mut self, tag: impl Into<TagKind>, draw: impl FnOnce(&mut Self)) {
        self.open.push(TagGroup::new(tag));
        draw(self);
        if let Some(group) = self.open.pop() {
            self.put(Node::Group(group));
        }
    }

    /// A paragraph of several texts: a label and its value.
    pub(super) fn together(&mut self, draw: impl FnOnce(&mut Self)) {
        self.group(Tag::P, draw);
    }

    /// A heading; the first of a page is of level one.
    pub(super) fn heading(&mut self, level: u16, title: &str, draw: impl FnOnce(&mut Self)) {
        let level = std::num::NonZeroU16::new(level).unwrap_or(std::num::NonZeroU16::MIN);
        self.group(Tag::Hn(level, Some(title.to_owned())), draw);
    }

    fn put(&mut self, node: Node) {
        match self.open.last_mut() {
            Some(group) => group.push(node),
            None => self.read.push(node),
        }
    }

    /// A piece of content that is read, in the open group or in a paragraph of its own.
    fn read_aloud(&mut self, id: Identifier) {
        if self.open.is_empty() {
            let mut paragraph = TagGroup::new(Tag::P);
            paragraph.push(id);
            self.read.push(Node::Group(paragraph));
        } else {
            self.put(Node::Leaf(id));
        }
    }

    /// What is looked at alone.
    fn unread(&mut self, draw: impl FnOnce(&mut Self)) {
        let artifact = Artifact::with_kind(ArtifactType::Layout);
        // An artifact has no place in the order of reading.
        let _ = self.surface.start_tagged(ContentTag::Artifact(artifact));
        draw(self);
        self.surface.end_tagged();
    }

    /// Draws one line; `y` is its base line. Answers its width.
    pub(super) fn text(&mut self, x: f32, y: f32, set: Type, text: &str) -> f32 {
        let runs = self.fonts.runs(text, set.weight, set.size);
        let width: f32 = runs.iter().map(|run| run.width).sum();
        let mut at = match set.side {
            Side::Left => x,
            Side::Middle => x - width / 2.0,
            Side::Right => x - width,
        };
        if runs.is_empty() {
            return width;
        }
        let id = self.surface.start_tagged(ContentTag::Span(SpanTag::empty()));
        self.surface.set_fill(Some(fill(set.grey)));
        self.surface.set_stroke(None);
        for run in runs {
            self.surface.draw_text(
                Point::from_xy(at, y),
                run.font,
                set.size,
                &run.text,
                false,
                TextDirection::Auto,
            );
            at += run.width;
        }
        self.surface.end_tagged();
        self.read_aloud(id);
        width
    }

    /// Draws a text in lines of at most `width`, at most `most` of them; the last one ends in an ellipsis where there
    /// would be more. Answers the base line after the last one.
    pub(super) fn block(&mut self, place: (f32, f32), width: f32, most: usize, set: Type, text: &str) -> f32 {
        let mut lines = self.fonts.wrap(text, set.weight, set.size, width);
        if lines.len() > most {
            lines.truncate(most);
            if let Some(last) = lines.last_mut() {
                last.push('…');
                while self.fonts.width(last, set.weight, set.size) > width && last.chars().count() > 2 {
                    last.pop();
                    last.pop();
                    last.push('…');
                }
            }
        }
        let mut y = place.1;
        let all = lines.len();
        let draw = |canvas: &mut Self| {
            for (at, line) in lines.into_iter().enumerate() {
                // Words on two lines are two words to who hears them, too.
                let line = if at + 1 < all && set.side == Side::Left { line + " " } else { line };
                canvas.text(place.0, y, set, &line);
                y += set.size * 1.25;
            }
        };
        if all > 1 && self.open.is_empty() {
            self.together(draw)
        } else {
            draw(self)
        }
        y
    }

    /// Draws one line no wider than `width`: set smaller down to two thirds, then cut.
    pub(super) fn fit(&mut self, place: (f32, f32), width: f32, set: Type, text: &str) {
        let natural = self.fonts.width(text, set.weight, set.size);
        let size = if natural > width { (set.size * width / natural).max(set.size * 0.66) } else { set.size };
        self.block(place, width + 0.01, 1, Type { size, ..set }, text);
    }

    pub(super) fn rect(&mut self, x: f32, y: f32, w: f32, h: f32, grey: u8) {
        let mut path = PathBuilder::new();
        if let Some(rect) = Rect::from_xywh(x, y, w, h) {
            path.push_rect(rect);
        }
        self.filled(path.finish(), grey);
    }

    pub(super) fn line(&mut self, from: (f32, f32), to: (f32, f32), width: f32, grey: u8) {
        self.stroked(segment(from, to), width, grey, None);
    }

    pub(super) fn dashes(&mut self, from: (f32, f32), to: (f32, f32), width: f32, grey: u8) {
        self.stroked(segment(from, to), width, grey, Some(StrokeDash { array: vec![4.0, 3.0], offset: 0.0 }));
    }

    pub(super) fn polygon(&mut self, corners: &[(f32, f32)], grey: u8) {
        self.filled(outline(corners), grey);
    }

    pub(super) fn outlined(&mut self, corners: &[(f32, f32)], width: f32, grey: u8) {
        self.stroked(outline(corners), width, grey, None);
    }

    /// A code with its quiet zone of four modules (ISO/IEC 18004) inside the square of `side`; `said` is what it is to who does
    /// not see it.
    pub(super) fn code(&mut self, (x, y): (f32, f32), side: f32, code: &Code, said: &str) {
        self.rect(x, y, side, side, PAPER);
        let module = side / (code.modules as f32 + 8.0);
        let mut path = PathBuilder::new();
        for (row, cells) in code.dark.chunks(code.modules.max(1)).enumerate() {
            // One rectangle a run: fewer seams for a printer to show.
            let mut at = 0;
            while at < cells.len() {
                let length = cells.iter().skip(at).take_while(|dark| **dark).count();
                if length == 0 {
                    at += 1;
                    continue;
                }
                let rect = Rect::from_xywh(
                    x + (at as f32 + 4.0) * module,
                    y + (row as f32 + 4.0) * module,
                    length as f32 * module,
                    module,
                );
                if let Some(rect) = rect {
                    path.push_rect(rect);
                }
                at += length;
            }
        }
        let bounds = Rect::from_xywh(x, y, side, side).map(|rect| BBox::new(self.page, rect));
        let id = self.surface.start_tagged(ContentTag::Other);
        self.fill_with(path.finish(), 0);
        self.surface.end_tagged();
        let mut figure = TagGroup::new(Tag::Figure(Some(said.to_owned())).with_bbox(bounds));
        figure.push(id);
        self.put(Node::Group(figure));
    }

    /// A drawing in the middle of a place of so much room, as large as fits; `said` is what it is to who does not see it.
    pub(super) fn picture(
        &mut self,
        (x, y): (f32, f32),
        (wide, high): (f32, f32),
        drawing: &Drawing,
        said: &str,
    ) {
        let scale = (wide / drawing.width).min(high / drawing.height);
        if !scale.is_finite() || scale <= 0.0 {
            return;
        }
        let left = x + (wide - drawing.width * scale) / 2.0;
        let bounds = Rect::from_xywh(left, y, drawing.width * scale, drawing.height * scale);
        let bounds = bounds.map(|rect| BBox::new(self.page, rect));
        let id = self.surface.start_tagged(ContentTag::Other);
        let at = |(px, py): (f32, f32)| (left + px * scale, y + py * scale);
        for shape in &drawing.shapes {
            let mut path = PathBuilder::new();
            for step in &shape.steps {
                match *step {
                    Step::Move(to) => path.move_to(at(to).0, at(to).1),
                    Step::Line(to) => path.line_to(at(to).0, at(to).1),
                    Step::Quad(by, to) => path.quad_to(at(by).0, at(by).1, at(to).0, at(to).1),
                    Step::Cubic(one, two, to) => {
                        path.cubic_to(at(one).0, at(one).1, at(two).0, at(two).1, at(to).0, at(to).1);
                    }
                    Step::Close => path.close(),
                }
            }
            let Some(path) = path.finish() else { continue };
            self.surface.set_fill(shape.fill.map(|grey| Fill { rule: FillRule::NonZero, ..fill(grey) }));
            self.surface.set_stroke(shape.pen.as_ref().map(|pen| Stroke {
                paint: rgb::Color::new(pen.grey, pen.grey, pen.grey).into(),
                width: pen.width * scale,
                dash: (!pen.dash.is_empty()).then(|| StrokeDash {
                    array: pen.dash.iter().map(|length| length * scale).collect(),
                    offset: 0.0,
                }),
                ..Stroke::default()
            }));
            self.surface.draw_path(&path);
        }
        self.surface.set_stroke(None);
        self.surface.end_tagged();
        let mut figure = TagGroup::new(Tag::Figure(Some(said.to_owned())).with_bbox(bounds));
        figure.push(id);
        self.put(Node::Group(figure));
    }

    /// A band of slanted stripes: what must not be overlooked.
    pub(super) fn stripes(&mut self, x: f32, y: f32, w: f32, h: f32) {
        self.rect(x, y, w, h, PAPER);
        let mut clip = PathBuilder::new();
        if let Some(rect) = Rect::from_xywh(x, y, w, h) {
            clip.push_rect(rect);
        }
        let Some(clip) = clip.finish() else { return };
        self.surface.push_clip_path(&clip, &FillRule::NonZero);
        let mut at = x - h;
        while at < x + w {
            self.polygon(&[(at, y + h), (at + h, y), (at + h + h * 0.7, y), (at + h * 0.7, y + h)], INK);
            at += h * 1.4;
        }
        self.surface.pop();
    }

    /// The mark: a hook, two legs, a load.
    pub(super) fn mark(&mut self, x: f32, y: f32, size: f32, grey: u8) {
        let at = |px: f32, py: f32| (x + px * size, y + py * size);
        self.outlined(&[at(0.5, 0.18), at(0.12, 0.62), at(0.88, 0.62)], size * 0.07, grey);
        self.polygon(&[at(0.08, 0.62), at(0.92, 0.62), at(0.92, 1.0), at(0.08, 1.0)], grey);
        self.polygon(&[at(0.5, 0.0), at(0.62, 0.12), at(0.5, 0.24), at(0.38, 0.12)], grey);
    }

    fn filled(&mut self, path: Option<Path>, grey: u8) {
        self.unread(|canvas| canvas.fill_with(path, grey));
    }

    fn fill_with(&mut self, path: Option<Path>, grey: u8) {
        if let Some(path) = path {
            self.surface.set_stroke(None);
            self.surface.set_fill(Some(Fill { rule: FillRule::NonZero, ..fill(grey) }));
            self.surface.draw_path(&path);
        }
    }

    fn stroked(&mut self, path: Option<Path>, width: f32, grey: u8, dash: Option<StrokeDash>) {
        let Some(path) = path else { return };
        self.unread(|canvas| {
            canvas.surface.set_fill(None);
            canvas.surface.set_stroke(Some(Stroke {
                paint: rgb::Color::new(grey, grey, grey).into(),
                width,
                dash,
                ..Stroke::default()
            }));
            canvas.surface.draw_path(&path);
            canvas.surface.set_stroke(None);
        });
    }
}

fn segment(from: (f32, f32), to: (f32, f32)) -> Option<Path> {
    let mut path = PathBuilder::new();
    path.move_to(from.0, from.1);
    path.line_to(to.0, to.1);
    path.finish()
}

fn outline(corners: &[(f32, f32)]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for (at, corner) in corners.iter().enumerate() {
        if at == 0 {
            path.move_to(corner.0, corner.1);
        } else {
            path.line_to(corner.0, corner.1);
        }
    }
    path.close();
    path.finish()
}
