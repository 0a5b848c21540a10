//! The picture as areas and strokes, for paper: no pixels, and greys alone, for not every printer has colours.

use resvg::tiny_skia::PathSegment;
use resvg::usvg::{Color, Group, Node, Options, Paint, Path, Tree};

/// A drawing of areas and strokes, from the top left.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// From left to right.
    pub width: f32,
    /// From top to bottom.
    pub height: f32,
    /// What is drawn first lies below.
    pub shapes: Vec<Shape>,
}

/// One area or stroke.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Its outline.
    pub steps: Vec<Step>,
    /// What fills it: nought is black, 255 white.
    pub fill: Option<u8>,
    /// What its outline is drawn with.
    pub pen: Option<Pen>,
}

/// A pen.
#[derive(Clone, Debug, PartialEq)]
pub struct Pen {
    /// How wide.
    pub width: f32,
    /// How light: nought is black, 255 white.
    pub grey: u8,
    /// Dash and gap by turns; empty is whole.
    pub dash: Vec<f32>,
}

/// One step of an outline; each pair is right and down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// To a point, without drawing.
    Move((f32, f32)),
    /// A straight line.
    Line((f32, f32)),
    /// A curve by one point beside it.
    Quad((f32, f32), (f32, f32)),
    /// A curve by two points beside it.
    Cubic((f32, f32), (f32, f32), (f32, f32)),
    /// Back to where it began.
    Close,
}

/// The name of the part that shows side, front and top.
pub(super) const VIEWS: &str = "views";

/// Side, front and top of a picture of ours, taken apart; where it has none of them, all of it. `None` for a text that is no
/// picture.
pub fn drawing(svg: &str) -> Option<Drawing> {
    let tree = Tree::from_str(svg, &Options::default()).ok()?;
    let mut shapes = Vec::new();
    let Some(views) = named(tree.root()) else {
        gather(tree.root(), &mut shapes);
        return Some(Drawing { width: tree.size().width(), height: tree.size().height(), shapes });
    };
    gather(views, &mut shapes);
    let bounds = views.abs_stroke_bounding_box();
    let at = |(x, y): (f32, f32)| (x - bounds.x(), y - bounds.y());
    for step in shapes.iter_mut().flat_map(|shape| &mut shape.steps) {
        *step = match *step {
            Step::Move(to) => Step::Move(at(to)),
            Step::Line(to) => Step::Line(at(to)),
            Step::Quad(by, to) => Step::Quad(at(by), at(to)),
            Step::Cubic(one, two, to) => Step::Cubic(at(one), at(two), at(to)),
            Step::Close => Step::Close,
        };
    }
    Some(Drawing { width: bounds.width(), height: bounds.height(), shapes })
}

fn named(group: &Group) -> Option<&Group> {
    if group.id() == VIEWS {
        return Some(group);
    }
    group.children().iter().find_map(|node| match node {
        Node::Group(group) => named(group),
        _ => None,
    })
}

fn gather(group: &Group, shapes: &mut Vec<Shape>) {
    for node in group.children() {
        match node {
            Node::Group(group) => gather(group, shapes),
            Node::Path(path) => shapes.push(shape(path)),
            Node::Image(_) | Node::Text(_) => {}
        }
    }
}

fn shape(path: &Path) -> Shape {
    let steps = path.data().segments().map(|segment| match segment {
        PathSegment::MoveTo(to) => Step::Move((to.x, to.y)),
        PathSegment::LineTo(to) => Step::Line((to.x, to.y)),
        PathSegment::QuadTo(by, to) => Step::Quad((by.x, by.y), (to.x, to.y)),
        PathSegment::CubicTo(one, two, to) => Step::Cubic((one.x, one.y), (two.x, two.y), (to.x, to.y)),
        PathSegment::Close => Step::Close,
    });
    Shape {
        steps: steps.collect(),
        fill: path.fill().map(|fill| grey(fill.paint())),
        pen: path.stroke().map(|stroke| Pen {
            width: stroke.width().get(),
            grey: grey(stroke.paint()),
            dash: stroke.dasharray().map(<[f32]>::to_vec).unwrap_or_default(),
        }),
    }
}

/// Luminance (ITU-R BT.601).
fn grey(paint: &Paint) -> u8 {
    let Paint::Color(Color { red, green, blue }) = paint else { return 0 };
    let part = |value: u8, share: u32| u32::from(value) * share;
    u8::try_from((part(*red, 299) + part(*green, 587) + part(*blue, 114)) / 1_000).unwrap_or(u8::MAX)
}
